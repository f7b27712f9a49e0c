"""What else in the record a rule can ask for: named, pure, one place. True only when the record shows it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from bot.case import Case
from bot.escalation.rules import COURSE, thread_of
from bot.escalation.standing import Standing, lowered_on, pauses_over
from bot.understanding.types import Finding, Urgency
from scheduler.plan import paused
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, taken_at

_WEEK = timedelta(days=7)


@dataclass(frozen=True)
class Look:
    """What a condition may look at. `facts` belong to the event, if one is being assessed; `text` is the reply."""

    case: Case
    now: datetime
    protocol: ClinicProtocol
    standing: Standing
    text: str = ""
    facts: Mapping[str, Any] = field(default_factory=dict)

    def since(self, key: str) -> datetime:
        """The start of the stretch that the protocol value `key` looks back."""
        return self.now - self.protocol.span(key)

    def entries(self, *kinds: EntryKind, since: datetime) -> tuple[Entry, ...]:
        return tuple(entry for entry in self.case.record.of(*kinds) if entry.at > since)

    def found(self, *findings: Finding, since: datetime, until: datetime | None = None) -> bool:
        """Whether one of these was found after `since` and not after `until` (default: now)."""
        return any(then.finding in findings and since < then.at <= (until or self.now) for then in self.case.found)


Condition = Callable[[Look], bool]


def tapering(look: Look) -> bool:
    """The day's amount went down (a taper, a season that ended, the end of the course) within the watched time."""
    within = look.protocol.span("flag.taper_watch")
    return lowered_on(look.case.plan, look.case.record, look.standing.day, within) is not None


def in_season(look: Look) -> bool:
    """The patient's own season, as the plan sets it, covers this day."""
    return look.standing.in_season


def herpes_before(look: Look) -> bool:
    """The plan names herpes among the conditions, or a herpes sign was found earlier."""
    named = any("herpes" in condition.lower() for condition in look.case.plan.patient.conditions)
    return named or look.found(Finding.HERPES_SIGN, since=look.since("flag.again_within"), until=_before(look))


def thrush_before(look: Look) -> bool:
    """Signs of thrush were found earlier, within the time that counts as again."""
    return look.found(Finding.THRUSH, since=look.since("flag.again_within"), until=_before(look))


def stuck_before(look: Look) -> bool:
    """Food was stuck earlier, within the time that counts as again."""
    return look.found(Finding.IMPACTION_NOW, Finding.IMPACTION_RESOLVED, Finding.CANNOT_SWALLOW_SALIVA,
                      since=look.since("flag.again_within"), until=_before(look))


def hoarse_before(look: Look) -> bool:
    """Hoarse already this long ago."""
    return look.found(Finding.HOARSENESS, since=look.since("flag.again_within"),
                      until=look.since("flag.hoarse_for"))


def after_impaction(look: Look) -> bool:
    """Food was stuck, or an endoscopy was done, within the days in which a tear can show."""
    since = look.since("flag.after_impaction")
    if look.found(Finding.IMPACTION_NOW, Finding.IMPACTION_RESOLVED, Finding.CANNOT_SWALLOW_SALIVA, since=since):
        return True
    first_day = since.date().isoformat()
    return any(str(entry.facts.get("date") or entry.at.date()) >= first_day
               for entry in look.case.record.of(EntryKind.ENDOSCOPY_DONE))


def on_inhibitor(look: Look) -> bool:
    """A medicine in the plan slows the breakdown of the steroid."""
    names = " ".join(look.case.plan.patient.other_medicines)
    return bool(named(names, _inhibitors(look.protocol)))


def names_strong_inhibitor(look: Look) -> bool:
    """The words name a strong CYP3A4 inhibitor of the protocol's list."""
    return bool(named(look.text, look.protocol.items("medicines.strong_inhibitors")))


def names_moderate_inhibitor(look: Look) -> bool:
    """The words name a moderate CYP3A4 inhibitor or an inducer of the protocol's lists."""
    return bool(named(look.text, (*look.protocol.items("medicines.moderate_inhibitors"),
                                  *look.protocol.items("medicines.inducers"))))


def names_a_medicine(look: Look) -> bool:
    """The text names a medicine of the protocol's lists."""
    return names_strong_inhibitor(look) or names_moderate_inhibitor(look)


def long_course(look: Look) -> bool:
    """On treatment longer than the protocol's short course."""
    first = min((taken_at(entry) for entry in look.case.record.of(EntryKind.DOSE_TAKEN)), default=None)
    return first is not None and look.now - first >= look.protocol.span("flag.long_course")


def many_missed(look: Look) -> bool:
    """Doses skipped or never answered, as many as the protocol allows in its stretch of days."""
    if is_paused(look):
        return False
    missed = _standing_answers(look, EntryKind.DOSE_SKIPPED, EntryKind.DOSE_UNKNOWN,
                               since=look.since("flag.missed_within"))
    given_up = [entry for entry in missed if entry.facts.get("reason") != "held"]
    return len(given_up) >= look.protocol.number("flag.missed_doses")


def silent(look: Look) -> bool:
    """Nothing at all from the patient for the protocol's days."""
    return _quiet_for(look) >= look.protocol.span("flag.silent_days")


def lost(look: Look) -> bool:
    """Nothing at all from the patient for the protocol's longer time."""
    return _quiet_for(look) >= look.protocol.span("flag.lost_days")


def check_ins_missed(look: Look) -> bool:
    """The last check-ins in a row were not answered, and no pause explains it."""
    if is_paused(look):
        return False
    needed = int(look.protocol.number("flag.silent_check_ins"))
    last = look.case.record.of(EntryKind.CHECK_IN_DONE, EntryKind.CHECK_IN_MISSED)[-needed:]
    return len(last) == needed and all(entry.kind is EntryKind.CHECK_IN_MISSED for entry in last)


def windows_given_up(look: Look) -> bool:
    """The window was broken as often within a week as the protocol allows."""
    broken = look.entries(EntryKind.WINDOW_BROKEN, since=look.now - _WEEK)
    return len({entry.about for entry in broken}) >= look.protocol.number("flag.windows_broken")


def rinses_given_up(look: Look) -> bool:
    """Fewer rinses confirmed, of the doses taken in the last week, than the protocol's share."""
    done, taken = rinses(look)
    return taken >= look.protocol.number("flag.missed_doses") and done * 100 < taken * look.protocol.number(
        "flag.rinse_share")


def score_up(look: Look) -> bool:
    """The check-in score is the protocol's points above the best of the last weeks (higher is worse)."""
    scores = scores_of(look)
    return len(scores) >= 2 and scores[-1] - min(scores[-5:-1]) >= look.protocol.number("flag.score_rise")


def no_benefit(look: Look) -> bool:
    """By the protocol's week the score has not fallen by the protocol's share from the first one."""
    week = look.standing.week
    scores = scores_of(look)
    if week is None or week < look.protocol.number("flag.no_benefit_week") or len(scores) < 2 or scores[0] <= 0:
        return False
    return (scores[0] - scores[-1]) * 100 < look.protocol.number("flag.no_benefit_fall") * scores[0]


def emergency_open(look: Look) -> bool:
    """A flag about the patient's state is open, as an emergency."""
    return _open(look) >= Urgency.EMERGENCY


def urgent_open(look: Look) -> bool:
    """A flag about the patient's state is open, urgent or more."""
    return _open(look) >= Urgency.URGENT


def endoscopy_asked_before(look: Look) -> bool:
    """The endoscopy was due before and has not been recorded since."""
    done = max((entry.at for entry in look.case.record.of(EntryKind.ENDOSCOPY_DONE)), default=None)
    return any("endoscopy_due" in flag.rules and (done is None or flag.raised_at > done) for flag in look.case.flags)


CONDITIONS: Mapping[str, Condition] = {condition.__name__: condition for condition in (
    tapering, in_season, herpes_before, thrush_before, stuck_before, hoarse_before, after_impaction, on_inhibitor,
    names_strong_inhibitor, names_moderate_inhibitor, long_course, many_missed, silent, lost,
    check_ins_missed, windows_given_up, rinses_given_up, score_up, no_benefit, endoscopy_asked_before,
    emergency_open, urgent_open)}


def named(text: str, medicines: Iterable[str]) -> tuple[str, ...]:
    """Which of these medicines the text names, as whole words."""
    return tuple(name for name in medicines if re.search(rf"\b{re.escape(name)}\b", text, re.IGNORECASE))


def rinses(look: Look) -> tuple[int, int]:
    """Rinses confirmed and doses taken in the last week."""
    taken = _standing_answers(look, EntryKind.DOSE_TAKEN, since=look.now - _WEEK)
    done = sum(look.case.record.has(EntryKind.RINSE_DONE, entry.about) for entry in taken)
    return done, len(taken)


def scores_of(look: Look) -> tuple[Decimal, ...]:
    """Totals of the check-ins, oldest first; those without a total (one question alone) are left out."""
    totals = (entry.facts.get("score") or {} for entry in look.case.record.of(EntryKind.CHECK_IN_DONE))
    return tuple(Decimal(str(score["total"])) for score in totals if score.get("total") is not None)


def _open(look: Look) -> Urgency:
    """The highest urgency of what is open about the patient's state; what is about the course is not counted."""
    return max((flag.urgency for flag in look.case.open_flags if thread_of(flag.rules) != COURSE), default=Urgency.NONE)


def is_paused(look: Look) -> bool:
    """The care team has paused the reminders."""
    return paused(look.case.plan, look.case.record, look.now)


def _inhibitors(protocol: ClinicProtocol) -> tuple[str, ...]:
    return (*protocol.items("medicines.strong_inhibitors"), *protocol.items("medicines.moderate_inhibitors"))


def _before(look: Look) -> datetime:
    """What was found before the present picture: earlier than the stretch read as one."""
    return look.since("flag.together_within")


def _standing_answers(look: Look, *kinds: EntryKind, since: datetime) -> tuple[Entry, ...]:
    record = look.case.record
    return tuple(entry for entry in look.entries(*kinds, since=since) if record.dose_answer(entry.about) is entry)


_FROM_PATIENT = (EntryKind.DOSE_TAKEN, EntryKind.DOSE_SKIPPED, EntryKind.RINSE_DONE, EntryKind.WINDOW_BROKEN,
                 EntryKind.STEP_UNDERSTOOD, EntryKind.CHECK_IN_DONE, EntryKind.CONSENTED, EntryKind.SUPPLY_ADDED,
                 EntryKind.RESUMED)


def _quiet_for(look: Look) -> timedelta:
    """How long nothing has come from the patient; while reminders are paused nothing is expected, and when the pause
    is over it counts from there."""
    if is_paused(look):
        return timedelta(0)
    heard = [entry.at for entry in look.case.record.of(*_FROM_PATIENT)] + [then.at for then in look.case.found]
    heard += pauses_over(look.case.plan, look.case.record, look.now)
    return look.now - max(heard) if heard else timedelta(0)

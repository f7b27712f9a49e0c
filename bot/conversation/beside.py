"""A dose told as taken beside something else: 'I took it but my throat hurts'. The rest has gone to the care team; the
dose is recorded, or asked about where the words are not plain, and is not asked for again as if nothing were said.
"""

from __future__ import annotations

from datetime import datetime, timedelta

from bot.case import Case, Changes
from bot.conversation import doses, rinse
from bot.conversation.finding import close_of, dose_of_slot, due_dose, facts_of, find_dose, last_dose, open_dose
from bot.conversation.saying import clock, say, timeline_key
from bot.conversation.words import clock_that_fits, emergency_is_open
from bot.escalation.talking import spoke_since
from bot.understanding.grammar_corrections import Put
from bot.understanding.grammar_dose import Claim, DoseTold, Slot
from scheduler.localtime import local
from scheduler.occasions import Occasion
from scheduler.protocol import ClinicProtocol
from scheduler.record import EntryKind, taken_at

_PLAINLY_NOW = timedelta(minutes=90)   # 'this morning's dose', said so soon after it was due, is taken about now
_ANY_DAY = (Slot.MORNING, Slot.EVENING)
_PAST = (Slot.LAST_EVENING, Slot.YESTERDAY_MORNING)
_STRANGE = frozenset({"child_took_it", "taken_twice", "exposure"})


def heard(case: Case, told: DoseTold, signals: tuple[str, ...], cause: str, now: datetime,
          protocol: ClinicProtocol) -> Changes:
    """What words that say more than an answer mean for the dose; no changes where they speak of none. signals: what
    else the reader saw in them."""
    if "child_took_it" in signals:
        return Changes()                 # somebody else has taken it
    if emergency_is_open(case) and not told.named and not _after_held(case, told, now, protocol):
        return Changes()
    if told.claims and not _STRANGE.intersection(signals):
        return recorded(case, told, cause, now, protocol, quiet=told.ate or "ate_early" in signals)
    due = due_dose(case, now, protocol)
    timed = told.correction is not None and told.correction.kind is Put.TIME     # 'it was 7:40', of no answer
    if due is None or not (told.perhaps or told.claims or timed) or spoke_since(case, due.at, now, protocol):
        return Changes()
    return doses.did_you(case, due, now, protocol)


def recorded(case: Case, told: DoseTold, cause: str, now: datetime, protocol: ClinicProtocol, *,
             quiet: bool = False, answers: bool = False) -> Changes:
    """Every dose that is plainly told as taken, each at its own time; one whose time is not known is asked when.
    quiet: without a word about the window. answers: nothing else answers these words."""
    changes = Changes()
    for number, claim in enumerate(told.claims[:2]):
        after = case.after(changes)
        dose = _dose_of(after, claim, now, protocol)
        if dose is not None:
            last = number + 1 == len(told.claims[:2])
            changes += _one(after, dose, claim, f"{cause}:{number}" if number else cause, now, protocol,
                            quiet=quiet, older=not last, answers=answers)
    return rinse.beside_dose(changes, now) if told.rinsed else changes


def _after_held(case: Case, told: DoseTold, now: datetime, protocol: ClinicProtocol) -> bool:
    """'Taken', after a reminder has said 'not yet': it is about that dose, and is recorded, with the warning."""
    held, due = case.record.doses_held(), due_dose(case, now, protocol)
    return held is not None and due is not None and due.at > held.at and told.verb


def silently(case: Case, told: DoseTold, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """In an emergency: a dose that the words name as taken is recorded, and nothing is said beside the answer."""
    if not told.claims or not (told.named or _after_held(case, told, now, protocol)):
        return Changes()
    claim, dose = told.claims[0], _dose_of(case, told.claims[0], now, protocol)
    at = _when(case, dose, claim, now, protocol) if dose is not None else None
    if dose is None or at is None or _stands(case, dose):
        return Changes()
    return doses.taken(case, dose, at, cause, now, protocol, quiet=True)


def rinsed(case: Case, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'Rinsed': the rinse and nothing else. With a dose due it is about that one, and whether it was taken is asked."""
    due, last = due_dose(case, now, protocol), last_dose(case, now, protocol)
    if due is not None and case.record.doses_held() is None:
        return rinse.noted(case, due.key, now) + doses.did_you(case, due, now, protocol, rinsed=True)
    if last is None or not _stands(case, last):
        return Changes(messages=(say(case, cause, "nothing_asked", now),))
    noted = say(case, cause, "rinse_noted", now)
    return rinse.noted(case, last.key, now) + Changes(messages=(noted,))


def _one(case: Case, dose: Occasion, claim: Claim, cause: str, now: datetime, protocol: ClinicProtocol, *,
         quiet: bool, older: bool, answers: bool) -> Changes:
    facts = facts_of(case, dose, protocol)
    standing = case.record.dose_answer(dose.key)
    if standing is not None and standing.kind is EntryKind.DOSE_TAKEN and claim.clock_time:   # put right, perhaps
        told = clock_that_fits(case, dose, claim.clock_time, now, protocol)
        return doses.told_earlier(case, dose.key, told, cause, now, protocol, corrects=True)
    if standing is not None and standing.kind is EntryKind.DOSE_TAKEN:   # said again
        known = say(case, cause, "dose_noted", now, **(facts | {"taken": clock(case, taken_at(standing))}))
        return Changes(messages=(known,) if answers else ())
    at = _when(case, dose, claim, now, protocol)
    if at is None:
        return doses.tapped(case, dose.key, "earlier", cause, now, protocol) + Changes(
            cancel=(timeline_key(case, dose.key, "dose_repeat"),))
    done = doses.taken(case, dose, at, cause, now, protocol, quiet=quiet or older)
    if not older or quiet:
        return done
    noted = say(case, cause, "dose_noted", now, **(facts | {"taken": clock(case, at)}))
    return done + Changes(messages=(noted,))


def _dose_of(case: Case, claim: Claim, now: datetime, protocol: ClinicProtocol) -> Occasion | None:
    """The dose that the words speak of: the one they name, else the one asked about, the open one, the last one."""
    if claim.slot is not None:
        return dose_of_slot(case, claim.slot, now, protocol)
    asked = case.conversation.about if case.conversation.state == "when_taken" else ""
    return (find_dose(case, asked, now, protocol) if asked else None) or open_dose(case, now, protocol) or (
        last_dose(case, now, protocol))


def _when(case: Case, dose: Occasion, claim: Claim, now: datetime, protocol: ClinicProtocol) -> datetime | None:
    """When it was taken; None when the words do not say, or say a time that this dose cannot have been taken at."""
    if claim.clock_time:
        return clock_that_fits(case, dose, claim.clock_time, now, protocol)
    if claim.minutes is not None:
        at = now - timedelta(minutes=claim.minutes)
        return at if doses.can_be(case, dose, at, now, protocol) else None
    old = claim.slot in _PAST or now >= close_of(case, dose, protocol) or claim.past or (
        claim.slot is not None and claim.slot not in _ANY_DAY and not claim.just_now and now - dose.at > _PLAINLY_NOW)
    return None if old else now


def _stands(case: Case, dose: Occasion) -> bool:
    standing = case.record.dose_answer(dose.key)
    return standing is not None and standing.kind is EntryKind.DOSE_TAKEN


def names_another(case: Case, told: DoseTold, now: datetime, protocol: ClinicProtocol) -> bool:
    """Whether the words name a dose that is not the open one, or a day's part that has long passed."""
    claim = next(iter(told.claims), None)
    if claim is None or claim.slot is None:
        return False
    dose, waiting = dose_of_slot(case, claim.slot, now, protocol), open_dose(case, now, protocol)
    if dose is None:
        return False
    if claim.slot in _ANY_DAY:
        return len(told.claims) > 1 or waiting is None or waiting.key != dose.key
    late = not claim.just_now and not claim.timed and now - dose.at > _PLAINLY_NOW
    return len(told.claims) > 1 or waiting is None or waiting.key != dose.key or late or (
        local(now, case.plan.patient.time_zone).date() != dose.day and claim.slot not in _PAST)

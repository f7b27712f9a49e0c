"""An answer about a dose put right in words: 'oops, I didn't take it', 'I meant no', 'no wait, it was 7:50'.

What was planned from the wrong answer (the end of the wait) goes with it. Where it is not certain which dose is meant,
or other words stand beside it, the answers given lately are shown and a tap takes one back.
"""

from __future__ import annotations

from datetime import datetime, time, timedelta

from bot.case import Case, Changes
from bot.conversation import doses, rinse
from bot.conversation.finding import close_of, dose_of_slot, due_dose, facts_of, find_dose
from bot.conversation.saying import clock, say
from bot.conversation.words import clock_that_fits, emergency_is_open, last_at
from bot.escalation.talking import spoke_since
from bot.understanding.grammar_corrections import Correction, Put
from bot.understanding.grammar_dose import DoseTold
from bot.understanding.types import Finding, Reading
from scheduler.occasions import Occasion
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, taken_at

_SAME = timedelta(minutes=2)
_MOST_SHOWN = 4
_SHOWN_FOR = timedelta(days=1)     # what is certain no more is still shown, to tap


def plainly(case: Case, told: DoseTold, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes | None:
    """The words are a correction and nothing else: what it changes. None when they are none, or it is not certain that
    a dose is meant: then they go their usual way (and `beside` asks)."""
    put = told.correction
    if put is None or put.loose or not _may_be(case, put, told):
        return None
    asked = case.conversation.about if case.conversation.state == "when_taken" else ""
    if put.kind is Put.TIME and asked and case.record.dose_answer(asked) is None:      # the answer to 'when?'
        dose = find_dose(case, asked, now, protocol)
        return _another_time(case, dose, put, cause, now, protocol) if dose else None
    answered = _answered(case, put, told, now, now - protocol.span("correction.open_for"), protocol)
    if not answered:
        return _no_answer(case, put, cause, now, protocol)
    if spoke_since(case, answered[-1][1].at, now, protocol):
        return None
    if put.kind is Put.NOT_TAKEN and not put.explicit and due_dose(case, now, protocol) is not None:
        return None                      # about the dose that is due, not about an answer
    overtaken = _due_since(case, answered, now, protocol)
    if put.kind is Put.AFTER_ALL and overtaken:
        return None                      # 'I will take it now': the one that is due
    if len(answered) > 1 or overtaken:
        return _which(case, answered, cause, now, protocol)
    dose, _ = answered[0]
    if put.kind is Put.AFTER_ALL and now >= close_of(case, dose, protocol):
        return doses.tapped(case, dose.key, "later", cause, now, protocol)         # too late for it, and told so
    if put.kind is Put.TIME:
        return _another_time(case, dose, put, cause, now, protocol)
    if put.kind is Put.TAKEN:            # after 'not today': when was it?
        return doses.tapped(case, dose.key, "earlier", cause, now, protocol)
    return doses.reopened(case, dose.key, cause, now, protocol)


def beside(case: Case, told: DoseTold, reading: Reading, cause: str, now: datetime,
           protocol: ClinicProtocol) -> Changes:
    """Words that may be a correction and have gone to a person: the answers given lately are shown, to tap.

    Not where they tell of too much taken ('oops, did two doses'): an answer taken back would ask for one more.
    """
    put = told.correction
    if put is None or put.kind is Put.TIME or case.record.doses_held() is not None or (
            not put.explicit and due_dose(case, now, protocol) is not None):
        return Changes()
    vague = put.kind in (Put.WRONG, Put.OTHER) and put.loose      # 'oops': soon after, or about something else
    if put.kind is Put.OTHER:          # 'it was my wife who took it', 'that was his sister, he has not had it'
        more = bool(set(reading.findings) - {Finding.MISSED_DOSES} or set(reading.extra) - {"child_took_it"})
    else:
        more = "taken_twice" in reading.extra or (vague and bool(reading.findings or reading.extra))
    if more:
        return Changes()
    since = now - (protocol.span("question.open_for") if vague else _SHOWN_FOR)
    answered = _answered(case, put, told, now, since, protocol)
    if not answered or _due_since(case, answered, now, protocol):
        return Changes()
    if put.kind is Put.OTHER and spoke_since(case, answered[-1][1].at, now, protocol):
        return Changes()                 # 'it was yesterday': to the care team's question
    return _which(case, answered, cause, now, protocol)


def bare_no(case: Case, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes | None:
    """'No' or 'not yet' with no dose due, soon after a dose was told as taken: perhaps a correction; it is asked."""
    since = now - protocol.span("correction.open_for")
    answered = _answered(case, Correction(Put.NOT_TAKEN), DoseTold(), now, since, protocol)
    return _which(case, answered, cause, now, protocol) if answered else None


def _may_be(case: Case, put: Correction, told: DoseTold) -> bool:
    """In an emergency only words that name the dose, the button, or taking, are about it. In a check-in an answer of
    the check-in may be meant, unless the words themselves say that they put something right."""
    about_it = told.named or put.kind is Put.WRONG or (put.kind is Put.NOT_TAKEN and told.verb)
    if emergency_is_open(case) and not about_it:
        return False
    state = case.conversation.state
    if state == "happening_now" or (state == "how_long" and put.kind is Put.TIME):
        return False
    return state != "check_in" or (put.explicit and put.kind is not Put.WRONG)


def _no_answer(case: Case, put: Correction, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes | None:
    """'Wrong button', with no answer to take back ('Later' is none): the reminder is shown again. So it is after 'I
    did not take it' of an answer that is taken back already; 'it was 7:55' is then when it was taken."""
    due = due_dose(case, now, protocol)
    if due is None or emergency_is_open(case) or spoke_since(case, due.at, now, protocol):
        return None
    if put.kind is Put.WRONG:
        return doses.shown_again(case, due, cause, now, protocol)
    since = now - protocol.span("correction.open_for")
    taken_back = any(entry.about == due.key and entry.at > since
                     for entry in case.record.of(EntryKind.DOSE_CORRECTED))
    if not taken_back or not put.explicit:
        return None
    if put.kind is Put.TIME:
        return _another_time(case, due, put, cause, now, protocol)
    return doses.shown_again(case, due, cause, now, protocol) if put.kind is Put.NOT_TAKEN else None


def _due_since(case: Case, answered: list[tuple[Occasion, Entry]], now: datetime, protocol: ClinicProtocol) -> bool:
    """Whether another dose has come due since the last of these answers, and has none: it may be meant."""
    due = due_dose(case, now, protocol)
    return due is not None and due.at > answered[-1][1].at


def _answered(case: Case, put: Correction, told: DoseTold, now: datetime, since: datetime,
              protocol: ClinicProtocol) -> list[tuple[Occasion, Entry]]:
    """The doses whose standing answer, given lately, the words may speak of; the latest answer last."""
    either, skipped = (EntryKind.DOSE_TAKEN, EntryKind.DOSE_SKIPPED), (EntryKind.DOSE_SKIPPED,)
    kinds = {Put.WRONG: either, Put.OTHER: either, Put.TAKEN: skipped, Put.AFTER_ALL: skipped}.get(
        put.kind, (EntryKind.DOSE_TAKEN,))
    entries = [entry for entry in case.record.dose_answers.values()
               if entry.kind in kinds and entry.at > since and entry.facts.get("reason") not in ("held", "corrected")]
    found = [(dose, entry) for entry in sorted(entries, key=lambda entry: entry.at)
             if (dose := find_dose(case, entry.about, now, protocol)) is not None]
    if told.slot is not None:            # 'I did not take last night's' says nothing of this morning's
        named, other = dose_of_slot(case, told.slot, now, protocol), put.kind is Put.OTHER
        found = [one for one in found if (named is not None and one[0].key == named.key) is not other]
    return found[-_MOST_SHOWN:]


def _which(case: Case, answered: list[tuple[Occasion, Entry]], cause: str, now: datetime,
           protocol: ClinicProtocol) -> Changes:
    shown = [{"occasion": dose.key, "clock": str(facts_of(case, dose, protocol)["clock"]),
              "taken": clock(case, taken_at(entry)) if entry.kind is EntryKind.DOSE_TAKEN else ""}
             for dose, entry in answered]
    return Changes(messages=(say(case, cause, "answer_to_correct", now, doses=shown),))


def _another_time(case: Case, dose: Occasion, put: Correction, cause: str, now: datetime,
                  protocol: ClinicProtocol) -> Changes:
    """The wait is reckoned anew from the time now told; what the first time had planned is taken back."""
    at = now - timedelta(minutes=put.minutes) if put.minutes is not None else (
        clock_that_fits(case, dose, put.clock_time, now, protocol))
    standing = case.record.dose_answer(dose.key)
    if at is not None and standing is not None and abs(at - taken_at(standing)) < _SAME:
        return doses.told_earlier(case, dose.key, at, cause, now, protocol)      # as it is noted
    if at is None or not doses.can_be(case, dose, at, now, protocol):
        told = at or last_at(case, time.fromisoformat(put.clock_time), now)
        return doses.ask_when(case, dose, "time_not_fitting", cause, now, protocol, told=told)
    corrected = Entry(EntryKind.DOSE_CORRECTED, now, dose.key, {"reason": rinse.TIME})
    undone = Changes(entries=(corrected,) if standing is not None else (),
                     cancel=(f"{case.reference}:{dose.key}:*",))
    return undone + doses.taken(case.after(undone), dose, at, cause, now, protocol)

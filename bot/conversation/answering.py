"""Common questions in the conversation: which fixed answers are sent, and when they are enough without a person. Pure.

The reader says that a text asks common questions and nothing else (Reading.asks). Here the case has its say: while the
patient is unwell, in talk with the care team, or asks the same again, a person reads the words all the same.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from typing import Any

from bot.case import Act, Case, Changes, PatientState
from bot.conversation import doses
from bot.conversation.finding import last_dose, was_taken
from bot.conversation.saying import clinic, clock, say
from bot.escalation import pass_on_words
from bot.escalation.talking import talking_with
from bot.questions import answer_for, is_plain_question, urgency_of
from bot.understanding.types import Reading, Urgency
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, taken_at

ANSWERED = "answered common questions"       # what the act is called; the digest counts them

# Questions that this patient's own record answers better than a general text.
_ABOUT_MISSED = ("missed_dose", "double_up")


def settled(case: Case, reading: Reading, now: datetime, protocol: ClinicProtocol) -> Reading:
    """The reading, with no need for a person where the fixed answers are enough."""
    if not reading.asks or _unsettled(case, reading, now, protocol):
        return reading
    if _own_record_answers(case, reading.asks, now, protocol) or any(
            urgency_of(one) > Urgency.NONE or answer_for(one, protocol, _known(case, reading, now, protocol)) is None
            for one in reading.asks):
        return reading
    return replace(reading, needs_human=False, urgency=Urgency.NONE)


def _unsettled(case: Case, reading: Reading, now: datetime, protocol: ClinicProtocol) -> bool:
    """Whether something about the patient, not about the words, asks for a person: unwell now or lately, in talk with
    the care team, doses held, or the same question again so soon that the answer did not help."""
    since = now - protocol.span("flag.together_within")
    again = {one for entry in case.record.of(EntryKind.QUESTION_ANSWERED) if entry.at > since
             for one in entry.facts.get("questions", ())}
    return (case.row.state not in (PatientState.ACTIVE, PatientState.PAUSED)
            or case.record.doses_held() is not None
            or case.conversation.state == "happening_now"
            or talking_with(case, now, protocol) is not None
            or any(flag.urgency >= Urgency.URGENT for flag in case.open_flags)
            or any(then.at > since for then in case.found)
            or not again.isdisjoint(reading.asks))


def answer(case: Case, reading: Reading, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes | None:
    """The fixed answers to a plain common question, or None where there is none.

    Answered without a person (not reading.needs_human), the words are kept in the record, the answer ends with a tap
    that brings them to the care team, and the digest counts it.
    """
    if not is_plain_question(reading) or case.row.state is PatientState.ASKED:
        return None
    if _own_record_answers(case, (reading.question,), now, protocol):
        return doses.missed_asked(case, cause, now, protocol)
    known = _known(case, reading, now, protocol)
    found = [one for one in (answer_for(name, protocol, known) for name in reading.asks or (reading.question,)) if one]
    if not found:
        return None
    (key, facts), *more = found
    closed = not reading.needs_human
    beside = [{"text_key": other, **{name: filled[name] for name in ("source", "words") if name in filled}}
              for other, filled in more]
    facts |= ({"more": beside} if beside else {}) | ({"ask": cause} if closed else {})
    message = say(case, cause, "question_answer", now, text_key=key, **facts)
    if not closed:
        return Changes(messages=(message,))
    asked = {"questions": list(reading.asks)}
    return Changes(messages=(message,),
                   entries=(Entry(EntryKind.QUESTION_ANSWERED, now, cause, {**asked, "words": reading.text}),),
                   acts=(Act(now, "coatwell", ANSWERED, case.reference, cause, asked),))


def asked_for_person(case: Case, reply: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'Ask the care team' under a fixed answer: the words become a flag to read. A reply we do not know: no changes."""
    entry = next((one for one in case.record.of(EntryKind.QUESTION_ANSWERED) if one.about == reply), None)
    if entry is None:
        return Changes()
    told = say(case, cause, "question_passed_on", now, **clinic(case, protocol, now, "reads_when", "emergency_number"))
    return pass_on_words(case, str(entry.facts.get("words", "")), cause, now, protocol) + Changes(messages=(told,))


def _own_record_answers(case: Case, questions: tuple[str, ...], now: datetime, protocol: ClinicProtocol) -> bool:
    """Whether the last dose has not been taken: otherwise 'what if I miss one?' is asked in general."""
    last = last_dose(case, now, protocol) if set(questions).intersection(_ABOUT_MISSED) else None
    return last is not None and not was_taken(case, last.key)


def _known(case: Case, reading: Reading, now: datetime, protocol: ClinicProtocol) -> dict[str, Any]:
    """What the answer to a common question may need: the form, and until when a window runs."""
    medicine, last = case.plan.medicine, case.record.last_taken()
    facts: dict[str, Any] = {"lang": case.plan.patient.language, "form": medicine.form,
                             "mix_ahead_days": medicine.mix_ahead_days, **clinic(case, protocol, now, "reads_when"),
                             "signals": [*map(str, reading.findings), *reading.extra]}
    until = taken_at(last) + protocol.span("window.no_food") if last else now
    return facts | ({"until": clock(case, until)} if until > now else {})

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
from bot.conversation.finding import due_dose, facts_of, last_dose, next_dose, was_taken
from bot.conversation.saying import clinic, clock, day_of, say
from bot.conversation.words import emergency_is_open
from bot.escalation import pass_on_words
from bot.escalation.talking import talking_with
from bot.questions import answer_for, is_plain_question, urgency_of
from bot.understanding.question_beside import with_addition
from bot.understanding.types import Reading, Urgency
from scheduler.localtime import local
from scheduler.messages import Message
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, taken_at

ANSWERED = "answered common questions"       # what the act is called; the digest counts them

# Questions that this patient's own record answers better than a general text.
_ABOUT_MISSED = ("missed_dose", "double_up")


def settled(case: Case, reading: Reading, now: datetime, protocol: ClinicProtocol) -> Reading:
    """The reading, with what stands beside a question read alone, and with no need for a person where the fixed answers
    are enough."""
    reading = with_addition(reading, case.plan.patient.language, case.row.writer)
    if not reading.asks or _unsettled(case, reading, now, protocol):
        return reading
    if _own_record_answers(case, reading.asks, now, protocol):
        return reading
    known = _known(case, reading, now, protocol)
    if any(urgency_of(one) > Urgency.NONE or answer_for(one, protocol, known) is None for one in reading.asks):
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
    if not is_plain_question(reading) or case.row.state is PatientState.ASKED or emergency_is_open(case):
        return None                   # beside an emergency 'you can eat' would be wrong: a person reads the words
    if not reading.asks and urgency_of(reading.question) is Urgency.NONE and talking_with(case, now, protocol):
        return None                   # 'can I eat before I come?' is for who asked them to come, and they read it
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
    facts |= ({"more": beside} if beside else {}) | ({"ask": cause} if closed else _read_by(case, now))
    message = say(case, cause, "question_answer", now, text_key=key, **facts)
    if not closed:
        return Changes(messages=(message,))
    asked = {"questions": list(reading.asks)}
    return Changes(messages=(message,),
                   entries=(Entry(EntryKind.QUESTION_ANSWERED, now, cause, {**asked, "words": reading.text}),),
                   acts=(Act(now, "coatwell", ANSWERED, case.reference, cause, asked),))


def says_of_missed(message: Message) -> bool:
    """Whether this answer says what to do about a missed dose, and by when a person reads the words."""
    return message.kind == "question_answer" and str(message.facts.get("text_key", "")).startswith(
        "questions.missed_dose")


def asked_for_person(case: Case, reply: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'Ask the care team' under a fixed answer: the words become a flag to read. A reply we do not know: no changes."""
    entry = next((one for one in case.record.of(EntryKind.QUESTION_ANSWERED) if one.about == reply), None)
    if entry is None:
        return Changes()
    told = say(case, cause, "question_passed_on", now, **clinic(case, protocol, now, "reads_when", "emergency_number"))
    return pass_on_words(case, str(entry.facts.get("words", "")), cause, now, protocol) + Changes(messages=(told,))


def _own_record_answers(case: Case, questions: tuple[str, ...], now: datetime, protocol: ClinicProtocol) -> bool:
    """Whether a dose waits, or the last one has not been taken: otherwise none is missed."""
    last = last_dose(case, now, protocol) if set(questions).intersection(_ABOUT_MISSED) else None
    return last is not None and (not was_taken(case, last.key) or due_dose(case, now, protocol) is not None)


def _read_by(case: Case, now: datetime) -> dict[str, Any]:
    """By when a person reads these words: the time of the flag that has just got them, if there is one."""
    joined = [flag for flag in case.open_flags if flag.facts.get("words_at") == now.isoformat()]
    if not joined:
        return {}
    return {"by": min(flag.act_by for flag in joined).isoformat(), "zone": case.plan.patient.time_zone}


def _dose_known(case: Case, now: datetime, protocol: ClinicProtocol) -> dict[str, Any]:
    """The dose that waits, or else the next one, by the plan in force: amount, units and when; {}: there is none."""
    due = due_dose(case, now, protocol)
    dose = due or next_dose(case, now, protocol)
    told = facts_of(case, dose, protocol) if dose else {}
    if dose is None or "amount" not in told:
        return {}
    found = {"amount": told["amount"], "units": told["units"], "next_day": day_of(case, dose),
             "next_clock": clock(case, dose.at)}
    return found | ({"due_clock": clock(case, dose.at)} if due else {})


def _known(case: Case, reading: Reading, now: datetime, protocol: ClinicProtocol) -> dict[str, Any]:
    """What the answer to a common question may need: the form; until when a window runs, or when the last one of the
    day was over; when the last dose was taken and when the next one is due, while none waits."""
    medicine, last = case.plan.medicine, case.record.last_taken()
    facts: dict[str, Any] = {"lang": case.plan.patient.language, "form": medicine.form,
                             "mix_ahead_days": medicine.mix_ahead_days, **clinic(case, protocol, now, "reads_when"),
                             "signals": [*map(str, reading.findings), *reading.extra]}
    facts |= _dose_known(case, now, protocol)
    if last is None:
        return facts
    until = taken_at(last) + protocol.span("window.no_food")
    if until > now:
        facts["until"] = clock(case, until)
    if due_dose(case, now, protocol) is not None:
        return facts                  # it may be taken already, and not told yet: then its own wait runs
    zone = case.plan.patient.time_zone
    if until <= now and local(until, zone).date() == local(now, zone).date():
        facts["over"] = clock(case, until)
    asked = last_dose(case, now, protocol)
    if asked is not None and was_taken(case, asked.key):
        upcoming = next_dose(case, now, protocol)
        facts |= {"taken": clock(case, taken_at(last)), "next_day": day_of(case, upcoming),
                  "next_clock": clock(case, upcoming.at) if upcoming else ""}
    return facts

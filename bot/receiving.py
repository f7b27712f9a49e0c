"""From the inbox to the case: who writes, what the words say, flags first, then the conversation; one transaction each.

Nothing is dropped: an update that cannot be handled goes to the care team as it is.
"""

from __future__ import annotations

from dataclasses import asdict, dataclass, replace
from datetime import datetime
from typing import Any

from bot import checkin, invites
from bot.care import desk
from bot.case import Case, Changes, PatientState, Reply
from bot.chat.types import Incoming, IncomingKind
from bot.conversation import (
    amounts,
    answering,
    beside,
    checkins,
    corrections,
    enrolment,
    holds,
    noneleft,
    table,
    unanswered,
)
from bot.conversation.finding import due_dose
from bot.conversation.saying import asking, clinic, idle, say
from bot.conversation.words import emergency_is_open, for_the_flag
from bot.escalation import assess
from bot.escalation.flags import urgent_since
from bot.ports import Work
from bot.texts.catalogue import languages
from bot.troubles import back_again, blocked
from bot.understanding import read
from bot.understanding.grammar_dose import DoseTold
from bot.understanding.types import Answer, Reading, Urgency
from scheduler.messages import Message, Priority, To
from scheduler.officehours import reads_when
from scheduler.protocol import ClinicProtocol


@dataclass(frozen=True, slots=True)
class Receiver:
    """Handles one stored update in the transaction it is given."""

    protocol: ClinicProtocol
    care_chat: str

    async def handle(self, work: Work, incoming: Incoming, now: datetime) -> None:
        if await self._is_care(work, incoming):
            await desk.handle(work, incoming, now, self.protocol, self.care_chat)
            return
        reference = await work.reference_of(incoming.chat)
        if incoming.is_group and reference is None:   # a patient's messages never go to a group
            await work.put([stranger_answer(incoming, now, self.protocol)])
        elif incoming.kind is IncomingKind.TEXT and incoming.text.startswith("/start "):
            await self._start(work, incoming, reference, now)
        elif incoming.kind is IncomingKind.TEXT and incoming.text.startswith("/join "):
            await desk.handle(work, incoming, now, self.protocol, self.care_chat)
        elif reference is not None:
            case = await work.case(reference)
            if case is not None:
                await work.apply(reference, patient_said(case, incoming, now, self.protocol), now)
        else:
            await work.put([stranger_answer(incoming, now, self.protocol)])

    async def _is_care(self, work: Work, incoming: Incoming) -> bool:
        return incoming.chat == self.care_chat or (await work.member(incoming.sender) is not None
                                                   and await work.reference_of(incoming.chat) is None)

    async def _start(self, work: Work, incoming: Incoming, known: str | None, now: datetime) -> None:
        """A deep link with an invite. A used, expired or guessed one gets the stranger's answer: no hint."""
        code = incoming.text.split(maxsplit=1)[1].strip()
        if known is not None:
            case = await work.case(known)
            if case is not None and case.row.state is not PatientState.ENDED:
                await work.apply(known, _greet_again(case, incoming.id, now, self.protocol), now)
                return
        invite = await invites.redeem(work, code, incoming.sender, now, self.protocol, roles=(invites.PATIENT,))
        case = await work.case(invite.reference) if invite and invite.for_role == "patient" else None
        if case is None:
            await work.put([stranger_answer(incoming, now, self.protocol)])
            return
        await work.apply(case.reference, enrolment.invited(case, incoming.chat, incoming.sender, incoming.id, now,
                                                           self.protocol), now)


def stranger_answer(incoming: Incoming, now: datetime, protocol: ClinicProtocol) -> Message:
    """Somebody we do not know: no patient text, no hint whether an invite exists; the emergency number all the same.

    The key holds the minute: who writes a hundred times is answered once a minute.
    """
    return Message(key=f"chat:{incoming.chat}:{now:%Y%m%d%H%M}:stranger", to=To.CHAT, kind="stranger", due_at=now,
                   priority=Priority.ROUTINE, address=incoming.chat,
                   facts={"lang": "en", "emergency_number": protocol.text("care.emergency_number")})


def unhandled_answer(incoming: Incoming, now: datetime, protocol: ClinicProtocol) -> Message:
    """What a patient reads when the program itself failed on their update (their plan may not even be readable).

    The words are read all the same: an emergency is answered first and as such, whatever else is broken.
    """
    alarm = bool(incoming.text) and _may_be_emergency(incoming.text)
    keys = ["escalation.tell.words_alarm"] if alarm else []
    number = protocol.text("care.emergency_number")
    return Message(key=f"chat:{incoming.id}:unhandled_answer", to=To.CHAT, kind="unhandled_answer", due_at=now,
                   priority=Priority.EMERGENCY if alarm else Priority.ANSWER, address=incoming.chat,
                   facts={"lang": "en", "text_keys": [*keys, "enrolment.unhandled"], "number": number,
                          "emergency_number": number, "reads_when": reads_when(protocol)})


def _may_be_emergency(text: str) -> bool:
    """In any language we read; and when it is the reader that fails, it may be one."""
    try:
        return Urgency.EMERGENCY in {read(text, language=language).urgency for language in languages()}
    except Exception:
        return True


def patient_said(case: Case, incoming: Incoming, now: datetime, protocol: ClinicProtocol) -> Changes:
    """One update of a known patient -> everything it changes. Pure."""
    case = _without_stale_question(case, now, protocol)
    reply = Reply(incoming.id, case.reference, now, str(incoming.kind), incoming.text or incoming.data)
    at = table.Moment(incoming.id, now, protocol, incoming.delayed)
    if incoming.kind is IncomingKind.BLOCKED:
        return Changes(reply=reply) + blocked(case, now, protocol)
    if case.row.state is PatientState.HELD:
        back = back_again(case, now)
        return back + patient_said(case.after(back), incoming, now, protocol)
    if case.row.state is PatientState.ENDED:
        return Changes(reply=reply, messages=(_after_the_end(case, incoming, now, protocol),))
    if incoming.kind is IncomingKind.TAP:
        tap = table.Tap.parse(incoming.data)
        return Changes(reply=reply) + (table.tapped(case, tap, at) if tap else Changes())
    if incoming.text.startswith("/"):
        return Changes(reply=reply) + _command(case, incoming, now, protocol)
    if incoming.kind is IncomingKind.TEXT:
        return unanswered.never_silent(case, _words(case, incoming, reply, at), at.cause, now, protocol)
    if case.row.state is PatientState.ASKED:   # before consent nothing is passed on, a picture neither
        return Changes(reply=reply, messages=(enrolment.open_question(case, incoming.id, now, protocol),))
    return _unreadable(case, incoming, reply, now, protocol)


# Questions whose answer is a word or two: asked long ago, or of a dose that has its answer, they are open no more.
_PASSING = ("when_taken", "how_long", "why_not", "happening_now", "question")


def _without_stale_question(case: Case, now: datetime, protocol: ClinicProtocol) -> Case:
    """The case, with a question that nobody has answered for long taken as open no more: what is written now is not an
    answer to it. Its buttons carry their own subject and stay good."""
    open_now = case.conversation
    if open_now.state not in _PASSING or open_now.since is None:
        return case
    if now - open_now.since <= protocol.span("question.open_for"):
        return case
    return replace(case, conversation=idle(case, now))


def _after_the_end(case: Case, incoming: Incoming, now: datetime, protocol: ClinicProtocol) -> Message:
    """Who has left is told that nobody reads here; words of an emergency are told first what to do."""
    language = case.plan.patient.language
    alarm = bool(incoming.text) and read(incoming.text, language=language,
                                         writer=case.row.writer).urgency is Urgency.EMERGENCY
    return say(case, incoming.id, "course_over", now, priority=Priority.EMERGENCY if alarm else Priority.ANSWER,
               alarm=alarm, number=protocol.text("care.emergency_number", language),
               **clinic(case, protocol, now, "emergency_number"))


def _words(case: Case, incoming: Incoming, reply: Reply, at: table.Moment) -> Changes:
    fixed = checkins.corrected(case, incoming.text, at.cause, at.now, at.protocol)
    if fixed is not None:
        return Changes(reply=reply) + fixed
    button = table.typed(case, incoming.text, at)
    if button is not None:
        return Changes(reply=reply) + table.tapped(case, button, at)
    reading, about_dose = _read(case, incoming.text, at.now, at.protocol)
    if case.record.doses_held() is not None and reading.question and reading.urgency is not Urgency.EMERGENCY:
        reading = replace(reading, question="", asks=(), needs_human=True)   # no fixed answer says 'go on' now
    reading = answering.settled(case, reading, at.now, at.protocol)
    told = table.told_about(case, reading)
    reading = _about_the_dose(case, amounts.weighed(case, reading, at.now, at.protocol), told, at)
    leaving = unanswered.wants_out(incoming.text, case.plan.patient.language)
    if leaving:
        reading = unanswered.for_a_person(reading)
    kept = replace(reply, reading=summary(reading))
    alarm = reading.urgency is Urgency.EMERGENCY or emergency_is_open(case)
    if case.row.state is PatientState.ASKED and not alarm:
        if leaving:
            return Changes(reply=kept) + enrolment.consent_tapped(case, "no", at.cause, at.now, at.protocol)
        return Changes(reply=kept) + table.words(case, reading, at)   # before consent nothing is passed on
    if reading.urgency < Urgency.URGENT and (put := corrections.plainly(case, told, at.cause, at.now, at.protocol)):
        return Changes(reply=kept) + put
    if (none_left := noneleft.told(case, reading, told, at.cause, at.now, at.protocol)) is not None:
        return Changes(reply=kept) + none_left
    flagged = assess(case, reading, kept, at.now, at.protocol)
    flagged += holds.hold(case, flagged, at.now, at.protocol)
    flagged += holds.may_i(case, incoming.text, flagged, at.cause, at.now, at.protocol)
    if checkins.is_emergency(flagged):
        # the emergency answer stands alone; nothing else is asked or said beside it
        if case.row.state is PatientState.ASKED:       # the question before the first dose stays open
            return Changes(reply=kept) + flagged
        quiet = beside.silently(case.after(flagged), told, at.cause, at.now, at.protocol)
        alone = Changes(reply=kept, conversation=replace(case.conversation, state="idle", about="")) + flagged + quiet
        return alone + checkins.left(case.after(alone), at.now, at.protocol)
    flagged += noneleft.beside(case.after(flagged), reading, at.cause, at.now, at.protocol)
    if leaving:
        return Changes(reply=kept) + unanswered.how_to_leave(case, flagged, at.cause, at.now, at.protocol)
    said = table.words(case.after(flagged), reading, at, about_dose=about_dose)
    flagged = _answered_once(flagged, said) + _rinse_told_once(said) + _is_it_now(case, flagged, at.now)
    return Changes(reply=kept) + flagged


def _about_the_dose(case: Case, reading: Reading, told: DoseTold, at: table.Moment) -> Reading:
    """With an emergency open, only what names the dose is about it. Doses told as taken, and nothing beside them
    ('last night's at 10 and this morning's now'), need no person."""
    alarms = [flag for flag in case.open_flags if flag.urgency is Urgency.EMERGENCY]
    due = due_dose(case, at.now, at.protocol)
    since = max((urgent_since(flag) for flag in alarms), default=None) if case.record.doses_held() is None else None
    if since is not None and (due is None or due.at <= since):
        since = None
    reading = for_the_flag(case, reading, told, since)
    plain = told.whole and not reading.findings and not reading.extra and reading.urgency <= Urgency.ROUTINE
    if not plain or not reading.needs_human or (emergency_is_open(case) and not told.named):
        return reading
    one = told.claims[0] if len(told.claims) == 1 and case.conversation.state == "idle" else None
    return replace(reading, needs_human=False, urgency=Urgency.NONE, question="", asks=(),
                   answer=Answer.TAKEN if one else None, clock_time=one.clock_time if one else "",
                   number=one.minutes if one else None)


def _read(case: Case, text: str, now: datetime, protocol: ClinicProtocol) -> tuple[Reading, bool]:
    """The words, read against the open question. Where they are no answer to it, 'done' or 'later' may still speak of
    the dose (True): a reminder does not wait for the check-in to be over."""
    patient = case.plan.patient
    if (of_the_dose := checkins.of_the_dose(case, text, now, protocol)) is not None:
        return of_the_dose, True
    reading = read(text, language=patient.language, asked=asked(case, text), writer=case.row.writer)
    if case.conversation.state == "how_long" and reading.answer is Answer.TAKEN:
        return reading, True
    answers = reading.answer is not None or reading.findings or reading.question
    if answers or case.conversation.state not in ("check_in", "how_long", "why_not") or (
            reading.urgency > Urgency.ROUTINE):
        return reading, False
    other = read(text, language=patient.language, asked="dose", writer=case.row.writer)
    if other.needs_human or other.answer not in (
            Answer.TAKEN, Answer.RINSED, Answer.LATER, Answer.NOT_TAKEN):
        return reading, False
    return other, True


def _is_it_now(case: Case, flagged: Changes, now: datetime) -> Changes:
    """'Is it happening now?' has just been asked: a typed 'yes' answers it, and not the dose."""
    asks = next((message for message in flagged.messages if message.kind == "what_if_answer"), None)
    if asks is None or case.row.state is PatientState.ASKED:
        return Changes()
    about = str(asks.facts["buttons"][0][1]).split(":")[1]
    return Changes(conversation=asking(case, "happening_now", about, now))


def _answered_once(flagged: Changes, said: Changes) -> Changes:
    """What has its own answer is not also answered with 'I did not understand': a common question's fixed answer says
    itself that a person reads the words, and when; 'I ate too early' and 'I forgot it' are understood."""
    kinds = {message.kind for message in said.messages}
    own = {"message_to_read"} if kinds & {"question_answer", "window_broken"} else set()
    own |= {"answer_to_care"} if "question_answer" in kinds else set()
    own |= {"message_to_read", "missed_said"} if kinds & {"dose_still_open", "dose_too_late"} else set()
    own |= {"missed_said"} if kinds >= {"question_answer", "answer_to_correct"} or any(
        answering.says_of_missed(message) for message in said.messages) else set()
    return replace(flagged, messages=tuple(message for message in flagged.messages if message.to is not To.PATIENT
                                           or message.facts.get("rule") not in own))


def _rinse_told_once(said: Changes) -> Changes:
    """'Taken, but forgot to rinse': 'rinse now' stands with the dose; 'you can still do it' is not said beside it."""
    if not any(message.facts.get("rinse_first") or message.facts.get("rinse_now") for message in said.messages):
        return said
    return replace(said, messages=tuple(message for message in said.messages if message.kind != "question_answer"
                                        or message.facts.get("question") != "forgot_rinse"))


def asked(case: Case, text: str) -> str:
    """The open question, as the reader's closed grammar wants it."""
    state = case.conversation.state
    if state == "how_long":       # until the next reminder: the grammar's 'how long' counts days of a symptom
        return state if text.strip().isdigit() else "dose"
    if state == "check_in":
        item = checkin.item_of(str(case.conversation.facts.get("check_in", {}).get("item", "")))
        return f"check_in:{(item.read_as or item.id) if item else ''}"
    return {"idle": "dose", "step": "understood", "question": ""}.get(state, state)


def summary(reading: Reading) -> dict[str, Any]:
    """What is kept of a reading beside the words themselves."""
    found = asdict(reading)
    return {"findings": [str(f) for f in reading.findings], "urgency": str(reading.urgency),
            "needs_human": reading.needs_human, "answer": str(reading.answer or ""), "question": reading.question,
            "extra": list(found["extra"]),
            "mentions": [{"finding": str(m.finding), "start": m.start, "end": m.end,
                          "context": sorted(str(c) for c in m.context)} for m in reading.mentions]}


def _unreadable(case: Case, incoming: Incoming, reply: Reply, now: datetime, protocol: ClinicProtocol) -> Changes:
    """A picture goes to the care team and is not judged; a voice message or sticker is for a person too."""
    kind = "picture" if incoming.kind is IncomingKind.PHOTO else "something this program cannot read"
    reading = Reading(text=incoming.text or f"[{kind}]", needs_human=True)
    if incoming.text:
        reading = replace(read(incoming.text, language=case.plan.patient.language, writer=case.row.writer),
                          needs_human=True)
    kept = replace(reply, text=reply.text or f"[{kind}]", reading=summary(reading))
    flagged = assess(case, reading, kept, now, protocol, source=str(incoming.kind))
    flagged += holds.hold(case, flagged, now, protocol)      # a caption may tell of an emergency
    tell = "picture" if incoming.kind is IncomingKind.PHOTO else "no_words"
    changes = Changes(reply=kept) + replace(flagged, messages=tuple(_told_of(one, tell) for one in flagged.messages))
    if incoming.kind is IncomingKind.PHOTO:
        changes += Changes(messages=(Message(
            key=f"{case.reference}:{incoming.id}:picture", to=To.CARE, kind="picture", due_at=now,
            reference=case.reference, priority=Priority.FLAG, facts={"file": incoming.file, "words": incoming.text}),))
    return changes


def _told_of(message: Message, tell: str) -> Message:
    """Where the answer is 'I did not fully understand this', what it was is said instead."""
    keys = list(message.facts.get("text_keys", ()))
    if message.to is not To.PATIENT or "escalation.tell.to_read" not in keys:
        return message
    named = [f"escalation.tell.{tell}" if key == "escalation.tell.to_read" else key for key in keys]
    return replace(message, facts={**message.facts, "text_keys": named})


def _command(case: Case, incoming: Incoming, now: datetime, protocol: ClinicProtocol) -> Changes:
    word = incoming.text.split()[0].lower()
    if word == enrolment.LEAVES:
        return enrolment.leave(case, incoming.id, now, protocol)
    if word == "/start":
        return _greet_again(case, incoming.id, now, protocol)
    return _help(case, incoming.id, now, protocol)


def _greet_again(case: Case, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    if case.row.state is PatientState.ASKED:
        return Changes(messages=(enrolment.open_question(case, cause, now, protocol),))
    return _help(case, cause, now, protocol)


def _help(case: Case, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    return Changes(messages=(say(case, cause, "help", now,
                                 **clinic(case, protocol, now, "reads_when", "emergency_number")),))

"""A care team member writes to a patient: they see to whom before they type, and what became of it afterwards."""

from __future__ import annotations

import re
from datetime import timedelta

from bot.care.talk import FRESH, Talk
from bot.case import Act, Case, Changes, Conversation, Flag, PatientState
from bot.escalation import telling
from bot.escalation.talking import care_wrote
from scheduler.messages import Priority

LONGEST = 3500          # characters: a message of the network holds 4096, with who writes and the banner
_KEEPS = timedelta(days=7)


async def ask(talk: Talk, case: Case, flag: Flag | None = None) -> None:
    """Ask for the words; the prompt names the patient and shows what they wrote."""
    if case.row.state in (PatientState.INVITED, PatientState.ENDED, PatientState.HELD):
        await talk.say(f"desk.cannot_write.{case.row.state}", reference=case.reference)
        return
    words = (flag.words.split("\n")[-1] if flag else "")[:300]
    await talk.say("desk.write_words" if words else "desk.write", reference=case.reference, words=words or "-",
                   asks_reply=True,
                   prompt={"do": "write", "reference": case.reference, "flag": flag.id if flag else ""})
    await talk.remember("write", case.reference, flag=flag.id if flag else "")


async def words(talk: Talk, reference: str, flag_id: str, text: str, *, sure: bool) -> None:
    """Words for a patient. `sure`: they answer a prompt that has just named this patient, or reply to it; otherwise,
    and when they name another patient, they are shown back and sent only when tapped."""
    case = await talk.case(reference)
    if case is None:
        return
    if len(text) > LONGEST:
        await talk.say("desk.too_long", most=LONGEST)
        return
    if not sure or await _names_another(talk, reference, text):
        await talk.say("desk.really_send", reference=reference, words=text, buttons=[[
            ("send", f"p:{reference}:send", {"reference": reference}), ("drop", f"p:{reference}:drop", {})]])
        await talk.remember("write_ready", reference, flag=flag_id, text=text)
        return
    await send(talk, case, flag_id, text)


async def send(talk: Talk, case: Case, flag_id: str, text: str) -> None:
    """Put the answer on the outbox, and the act on the record."""
    role = talk.member.role if talk.member else "nurse"
    subject = telling.read_receipt(talk.incoming.id, talk.incoming.chat == talk.care_chat)
    cause = f"wrote:{subject}"
    message = telling.message(
        case, cause, "care_answer", talk.now, talk.protocol, Priority.ANSWER, send_before=talk.now + _KEEPS,
        text_keys=[f"escalation.care_answer.{role}"], text=text, flag=flag_id,
        buttons=[["escalation.button.have_read", f"u:{subject}:read"]])
    act = Act(talk.now, talk.who, "wrote to the patient", case.reference, flag_id, {"text": text})
    await talk.apply(case, Changes(messages=(message,), acts=(act,),
                                   conversation=care_wrote(case, talk.who, talk.now)))
    await talk.forget()
    await talk.say("desk.sent", reference=case.reference, words=text, cause=cause)


async def send_ready(talk: Talk, reference: str) -> None:
    """'Send' was tapped under the words that were shown back."""
    desk = await talk.work.desk(talk.sender)
    case = await talk.case(reference)
    if case is None:
        return
    if desk.state != "write_ready" or desk.about != reference:
        await talk.say("desk.nothing_to_send", reference=reference)
        return
    await send(talk, case, str(desk.facts.get("flag", "")), str(desk.facts["text"]))


def is_fresh(desk: Conversation, talk: Talk) -> bool:
    return desk.since is not None and talk.now - desk.since <= FRESH


async def _names_another(talk: Talk, reference: str, text: str) -> bool:
    known = {row.reference.upper() for row in await talk.work.patients()} - {reference.upper()}
    return any(word in known for word in re.findall(r"[A-Z0-9][A-Z0-9-]+", text.upper()))

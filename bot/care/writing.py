"""A care team member writes to a patient: they see to whom before they type, and what became of it afterwards."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import timedelta
from typing import Any

from bot.care.render import shorten
from bot.care.render import text as say_care
from bot.care.talk import FRESH, Talk
from bot.case import Act, Case, Changes, Conversation, Flag, PatientState
from bot.escalation import telling
from bot.escalation.flags import closing_keys
from bot.escalation.talking import care_wrote
from scheduler.messages import Message, Priority

LONGEST = 3500          # characters: a message of the network holds 4096, with who writes and the banner
_KEEPS = timedelta(days=7)


async def ask(talk: Talk, case: Case, flag: Flag | None = None) -> None:
    """Ask for the words; the prompt names the patient and shows what they wrote."""
    if not await _can_write(talk, case):
        return
    words = shorten(flag.words, 300) if flag else ""
    await talk.say("desk.write_words" if words else "desk.write", reference=case.reference, words=words or "-",
                   asks_reply=True,
                   prompt={"do": "write", "reference": case.reference, "flag": flag.id if flag else ""})
    await talk.remember("write", case.reference, flag=flag.id if flag else "")


async def words(talk: Talk, reference: str, flag_id: str, text: str) -> None:
    """Words for a patient: shown back, and sent only when tapped. What stands above the button is what it sends."""
    case = await talk.case(reference)
    if case is None or not await _can_write(talk, case):
        return
    if len(text) > LONGEST:
        await talk.say("desk.too_long", most=LONGEST)
        return
    others = await _others_named(talk, reference, text)
    await talk.say("desk.really_send", reference=reference, words=text, flag=flag_id, by=talk.sender, who=talk.who,
                   lines=[say_care("desk.names_another", {"others": others})] if others else [],
                   cause=f"words:{talk.incoming.id}",
                   buttons=[[("send", f"p:{reference}:send_{talk.incoming.id}", {"reference": reference}),
                             ("drop", f"p:{reference}:drop_{talk.incoming.id}", {})]])
    await talk.remember("write_ready", reference, flag=flag_id, text=text)


async def more_words(talk: Talk, desk: Conversation, text: str) -> None:
    """Another line before 'Send' was tapped: both are shown back, so that none is left behind unseen."""
    if is_fresh(desk, talk):
        await words(talk, desk.about, str(desk.facts.get("flag", "")), f"{desk.facts['text']}\n{text}")


async def send_ready(talk: Talk, reference: str, typed_as: str) -> None:
    """'Send' was tapped under the words of the update `typed_as`: they go out once, and the message says so."""
    shown = await _waiting(talk, reference, typed_as)
    if shown is None:
        return
    if shown.facts["by"] != talk.sender:
        await talk.say("desk.others_words", reference=reference, who=str(shown.facts["who"]))
        return
    case = await talk.case(reference)
    if case is not None and await _can_write(talk, case):
        await _send(talk, case, shown, typed_as)


async def _send(talk: Talk, case: Case, shown: Message, typed_as: str) -> None:
    """Put the answer on the outbox, and the act on the record; the patient needs no other word about these flags."""
    role = talk.member.role if talk.member else "nurse"
    flag_id, text = str(shown.facts.get("flag", "")), str(shown.facts["words"])
    subject = telling.read_receipt(typed_as, talk.incoming.chat == talk.care_chat)
    cause = f"wrote:{subject}"
    message = telling.message(
        case, cause, "care_answer", talk.now, talk.protocol, Priority.ANSWER, send_before=talk.now + _KEEPS,
        text_keys=[f"escalation.care_answer.{role}"], text=text, flag=flag_id,
        buttons=[["escalation.button.have_read", f"u:{subject}:read"]])
    act = Act(talk.now, talk.who, "wrote to the patient", case.reference, flag_id, {"text": text})
    await talk.apply(case, Changes(
        messages=(message,), acts=(act,), flags=telling.answered(case, talk.now),
        cancel=(closing_keys(case),), conversation=care_wrote(case, talk.who, talk.now)))
    await talk.forget()
    await talk.say("desk.sent", reference=case.reference, words=text, cause=cause, edits=shown.key)


async def drop(talk: Talk, reference: str, typed_as: str) -> None:
    """'Do not send': the message that showed the words says that nothing was sent, and how to begin anew."""
    shown = await _waiting(talk, reference, typed_as)
    if shown is not None:
        await talk.forget()
        await talk.say("desk.not_sent", reference=reference, edits=shown.key, cause=f"dropped:{typed_as}",
                       buttons=[[_again(reference, shown.facts)]])


async def _waiting(talk: Talk, reference: str, typed_as: str) -> Message | None:
    """The message that shows these words, while they have been neither sent nor dropped; says so when they have."""
    start = f"{reference}:desk"
    shown = await talk.work.message(f"{start}:words:{typed_as}")
    subjects = [telling.read_receipt(typed_as, in_care_chat) for in_care_chat in (True, False)]
    done = [await talk.work.message(f"{start}:{cause}")
            for cause in (f"dropped:{typed_as}", *(f"wrote:{subject}" for subject in subjects))]
    if shown is not None and not any(done):
        return shown.message
    gone = shown is None or done[0] is not None
    await talk.say("desk.nothing_to_send" if gone else "desk.sent_already", reference=reference)
    return None                       # as a rule a second tap, before the message had changed


async def disarm(talk: Talk) -> None:
    """Another tap or command: what the member was asked for is no longer what their next words answer."""
    desk = await talk.work.desk(talk.sender)
    if desk.state in ("write", "note"):
        await talk.work.set_desk(talk.sender, replace(desk, state=f"no_{desk.state}"))


async def disarmed(talk: Talk, desk: Conversation) -> None:
    """Words after something else was done in between: nothing is done with them, and the member is told so, once."""
    await talk.forget()
    if is_fresh(desk, talk):
        buttons = [[_again(desk.about, desk.facts)]] if desk.state == "no_write" else []
        await talk.say(f"desk.{desk.state}", reference=desk.about, flag=str(desk.facts.get("flag", "")),
                       buttons=buttons)


async def _can_write(talk: Talk, case: Case) -> bool:
    """Whether words reach this patient at all; says so when not."""
    if case.row.state not in (PatientState.INVITED, PatientState.ENDED, PatientState.HELD):
        return True
    await talk.say(f"desk.cannot_write.{case.row.state}", reference=case.reference)
    return False


def is_fresh(desk: Conversation, talk: Talk) -> bool:
    return desk.since is not None and talk.now - desk.since <= FRESH


def _again(reference: str, facts: Mapping[str, Any]) -> tuple[str, str, dict[str, Any]]:
    flag = str(facts.get("flag", ""))
    return ("answer", f"f:{flag}:answer", {}) if flag else ("write", f"p:{reference}:write", {})


async def _others_named(talk: Talk, reference: str, text: str) -> list[str]:
    """Other patients whom the words name."""
    known = {row.reference.upper(): row.reference for row in await talk.work.patients()}
    found = dict.fromkeys(word for word in re.findall(r"[A-Z0-9][A-Z0-9-]+", text.upper()) if word in known)
    return [known[word] for word in found if known[word] != reference]

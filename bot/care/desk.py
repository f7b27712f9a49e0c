"""The care team's side: every update from their chat, or from a member's own chat with the bot, in one transaction.

Who is not admitted gets nothing done. Every act is written into the append-only record of acts.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import replace
from datetime import datetime

from bot.care import admission, commands, flags, patients, planchange, writing
from bot.care.talk import Talk
from bot.chat.types import Incoming, IncomingKind
from bot.ports import Work
from scheduler.protocol import ClinicProtocol

TapHandler = Callable[[Talk, str, str], Awaitable[None]]

TAPS: dict[str, TapHandler] = {
    "f": flags.tapped,          # a flag: take, answer, close, reopen, open
    "p": patients.tapped,       # a patient: card, chart, write, ask, results, gates, pause
    "m": admission.tapped,      # a member: remove
    "y": planchange.tapped,     # a plan: sign, drop, change
}


async def handle(work: Work, incoming: Incoming, now: datetime, protocol: ClinicProtocol, care_chat: str) -> None:
    """One update of the care team's; see the module. The caller's transaction holds all that it does."""
    member = await work.member(incoming.sender)
    talk = Talk(work, incoming, member, now, protocol, care_chat)
    if incoming.kind is IncomingKind.TEXT and _word(incoming.text) == "/join":
        await admission.join(talk, incoming.text)
        return
    if member is None:
        if incoming.kind is IncomingKind.TAP or incoming.text.startswith("/"):
            await talk.say("desk.not_admitted")
        return
    if not incoming.is_group and incoming.chat not in (care_chat, member.chat):
        await work.add_member(replace(member, chat=incoming.chat))
    if incoming.kind is IncomingKind.TAP or incoming.text.startswith("/"):
        await writing.disarm(talk)
    if incoming.kind is IncomingKind.TAP:
        await _tapped(talk, incoming.data)
    elif incoming.kind is IncomingKind.DOCUMENT:
        await planchange.document(talk)
    elif incoming.kind is IncomingKind.TEXT and incoming.text.startswith("/"):
        await commands.run(talk, incoming.text)
    elif incoming.kind is IncomingKind.TEXT:
        await commands.words(talk, incoming.text)
    elif incoming.reply_to or not incoming.is_group:
        await talk.say("desk.only_words")       # a picture or voice message cannot be passed on to a patient


async def _tapped(talk: Talk, data: str) -> None:
    prefix, _, rest = data.partition(":")
    subject, _, choice = rest.rpartition(":")
    handler = TAPS.get(prefix)
    if handler is None or not choice:
        await talk.say("desk.old_button")
        return
    await handler(talk, subject, choice)


def _word(text: str) -> str:
    """The command, without the bot's name that a group's client adds: '/flags@name' is '/flags'."""
    first = text.split(maxsplit=1)[0] if text.strip() else ""
    return first.split("@")[0].lower()

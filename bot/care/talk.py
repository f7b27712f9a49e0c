"""One exchange with a care team member: who they are, what they may do, and how the desk answers and remembers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from bot.case import Act, Case, Changes, Conversation
from bot.chat.types import Incoming
from bot.ports import Member, Work
from scheduler.messages import Message, Priority, To
from scheduler.protocol import ClinicProtocol

ButtonRow = Sequence[tuple[str, str, dict[str, Any]]]      # (label key under care.button, data, facts)

FRESH = timedelta(minutes=10)       # a prompt older than this is no longer what the next words answer


@dataclass
class Talk:
    """`member` is None for a person who is not admitted; then only `say` is of use."""

    work: Work
    incoming: Incoming
    member: Member | None
    now: datetime
    protocol: ClinicProtocol
    care_chat: str
    _said: int = field(default=0)

    @property
    def who(self) -> str:
        """Name and role, as the record of acts and the flags show them."""
        return f"{self.member.name} ({self.member.role.replace('_', ' ')})" if self.member else ""

    @property
    def sender(self) -> str:
        return self.incoming.sender

    async def may(self, act: str) -> bool:
        """Whether the member's role may do this (protocol: care.may.*); says so when not."""
        allowed = self.protocol.items(f"care.may.{act}")
        if self.member is not None and self.member.role in allowed:
            return True
        await self.say("desk.not_your_role", roles=[str(role).replace("_", " ") for role in allowed])
        return False

    async def say(self, key: str, *, reference: str | None = None, buttons: Sequence[ButtonRow] = (),
                  lines: Sequence[str] = (), asks_reply: bool = False, prompt: dict[str, Any] | None = None,
                  edits: str | None = None, cause: str = "", to: str = "", **facts: Any) -> str:
        """Answer in the chat that spoke (or in `to`); returns the message's outbox key. `prompt` is remembered with the
        message, so that a reply to it is understood whenever it comes."""
        self._said += 1
        start = f"{reference}:desk" if reference else "desk"
        outbox_key = f"{start}:{cause or f'{self.incoming.id}:{self._said}'}"
        shown: dict[str, Any] = {"text_keys": [key] if key else [], "lines": list(lines), "asks_reply": asks_reply,
                                 "buttons": [[list(one) for one in row] for row in buttons], **facts}
        if prompt is not None:
            shown["prompt"] = prompt
        await self.work.put([Message(outbox_key, To.CHAT, "desk", self.now, reference=reference, facts=shown,
                                     edits=edits, priority=Priority.ANSWER, address=to or self.incoming.chat)])
        return outbox_key

    async def case(self, reference: str) -> Case | None:
        """The patient's case, locked; says so when there is none."""
        found = await self.work.case(reference) if reference else None
        if found is None:
            await self.say("desk.no_patient", name=reference or "?")
        return found

    async def apply(self, case: Case, changes: Changes) -> Case:
        await self.work.apply(case.reference, changes, self.now)
        return case.after(changes)

    async def act(self, what: str, reference: str = "", about: str = "", **facts: Any) -> None:
        await self.work.add_act(Act(self.now, self.who, what, reference, about, facts))

    async def remember(self, state: str, about: str = "", **facts: Any) -> None:
        """What the member's next words will answer."""
        await self.work.set_desk(self.sender, Conversation(state, about, self.now, facts))

    async def forget(self) -> None:
        await self.work.set_desk(self.sender, Conversation())

    async def tapped(self) -> Message | None:
        """The message whose button was tapped, as it stands now, so that it can be brought up to date."""
        sent = await self.work.sent_as(self.incoming.chat, self.incoming.message) if self.incoming.message else None
        return sent.message if sent else None

"""From the outbox to the chat: claim, render, send, mark. A message may come twice after a crash; it is never lost.

Messages to one chat go in order, chats go side by side. What can go wrong is named by the chat's errors; what follows
for each kind of message is the table RESEND.
"""

from __future__ import annotations

import asyncio
import logging
from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from bot.chat.types import (
    Chat,
    ChatBusy,
    ChatMoved,
    ChatRefused,
    ChatUncertain,
    ChatUnreachable,
    Outgoing,
)
from bot.ports import Store
from scheduler.messages import Message, SendState, To
from scheduler.ports import Claimed, Mark

log = logging.getLogger(__name__)

LEASE = timedelta(seconds=60)
BATCH = 30

# How often a message may leave when it is not known whether it has arrived. A dose reminder goes once more with the same
# dose name (and is edited to 'taken' when it is); a flag or an emergency answer goes until it is known to have arrived.
ALWAYS = 1_000_000
RESEND: dict[str, int] = {"flag": ALWAYS, "flag_more": ALWAYS, "flag_again": ALWAYS, "emergency_answer": ALWAYS,
                          "chart": 1, "picture": 2}
RESEND_OTHERWISE = 2

_BACK_OFF = (1, 5, 15, 60, 180)   # seconds before another try while the network is away


@dataclass(frozen=True, slots=True)
class Trouble:
    """Something that sending learnt and the agent must act on."""

    reference: str | None
    what: str          # "blocked" | "moved" | "refused"
    detail: str = ""
    message: Message | None = None


@dataclass(frozen=True)
class Addresses:
    """Where To.CARE and To.ON_CALL go."""

    care: str
    on_call: str = ""

    def of(self, claimed: Claimed) -> str:
        to = claimed.message.to
        if to is To.CARE:
            return self.care
        if to is To.ON_CALL:
            return self.on_call or self.care
        return claimed.address or claimed.message.address or ""


@dataclass
class Sender:
    """Sends what is due, through one chat network.

    render: message -> what to show. wait: asked before each send; seconds to wait for pacing (0 in a rehearsal).
    sent, busy: told of each send as it starts, and of a chat that asked to wait.
    """

    store: Store
    chat: Chat
    addresses: Addresses
    render: Callable[[Message], Outgoing]
    holder: str = "one"
    wait: Callable[[str, Message], float] = lambda _address, _message: 0.0
    sent: Callable[[str], None] = lambda _address: None
    busy: Callable[[str, float], None] = lambda _address, _seconds: None

    async def pass_(self, now: datetime, limit: int = BATCH) -> tuple[int, list[Trouble]]:
        """One batch. Returns how many were handled and what the agent must act on."""
        async with self.store.work() as work:
            claimed = list(await work.claim(now, limit, now + LEASE, self.holder))
        if not claimed:
            return 0, []
        by_chat: dict[str, list[Claimed]] = defaultdict(list)
        for one in claimed:
            by_chat[self.addresses.of(one)].append(one)
        results = await asyncio.gather(*(self._chat_in_order(address, group, now)
                                         for address, group in by_chat.items()))
        marks = [mark for group_marks, _ in results for mark in group_marks]
        async with self.store.work() as work:
            await work.mark(marks)
        return len(claimed), [trouble for _, troubles in results for trouble in troubles]

    async def _chat_in_order(self, address: str, group: Sequence[Claimed],
                             now: datetime) -> tuple[list[Mark], list[Trouble]]:
        marks: list[Mark] = []
        troubles: list[Trouble] = []
        for position, one in enumerate(group):
            delay = self.wait(address, one.message)
            if delay > 1:   # this chat must wait: put its messages back, hold up no other
                marks += [self._later(rest, now, delay) for rest in group[position:]]
                break
            if delay > 0:
                await asyncio.sleep(delay)
            mark, trouble = await self._one(address, one, now)
            marks.append(mark)
            if trouble is not None:
                troubles.append(trouble)
            if mark.state is SendState.WAITING:   # keep this chat's order: what follows waits too
                pause = ((mark.retry_at or now) - now).total_seconds()
                marks += [self._later(rest, now, pause) for rest in group[position + 1:]]
                break
        return marks, troubles

    async def _one(self, address: str, one: Claimed, now: datetime) -> tuple[Mark, Trouble | None]:
        message = one.message
        done = Mark(message.key, SendState.SENT, now, address=address)
        if message.send_before is not None and now >= message.send_before:
            return replace(done, state=SendState.STALE), None
        if one.in_flight_before and one.attempts >= RESEND.get(message.kind, RESEND_OTHERWISE):
            return replace(done, state=SendState.UNCERTAIN, trouble="in flight when the program stopped"), None
        if not address:
            return self._nowhere(done, message)
        if message.edits is not None and not one.edit_name:
            return replace(done, state=SendState.CANCELLED, trouble="the message to edit never left"), None
        try:
            outgoing = self.render(message)
        except Exception as error:  # one broken message must not stop the others: a person is told
            log.exception("a message cannot be rendered")
            return (replace(done, state=SendState.REFUSED, trouble=f"{type(error).__name__}: {error}"),
                    Trouble(message.reference, "refused", f"cannot be written: {message.kind}", message))
        try:
            return replace(done, name=await self._deliver(address, one, outgoing)), None
        except ChatMoved as moved:
            return self._later(one, now, 0), Trouble(message.reference, "moved", f"{address} {moved.new_address}", message)
        except ChatRefused as refused:
            what = "blocked" if refused.blocked else "refused"
            return (replace(done, state=SendState.REFUSED, trouble=str(refused)),
                    Trouble(message.reference, what, str(refused), message))
        except ChatBusy as busy:
            self.busy(address, busy.seconds)
            return self._later(one, now, busy.seconds), None
        except ChatUnreachable:
            return self._later(one, now, _BACK_OFF[min(one.attempts, len(_BACK_OFF) - 1)]), None
        except ChatUncertain as unknown:
            if one.attempts + 1 < RESEND.get(message.kind, RESEND_OTHERWISE):
                return self._later(one, now, _BACK_OFF[min(one.attempts, len(_BACK_OFF) - 1)]), None
            return replace(done, state=SendState.UNCERTAIN, trouble=str(unknown)), None

    async def _deliver(self, address: str, one: Claimed, outgoing: Outgoing) -> str:
        self.sent(address)
        if picture := one.message.facts.get("file"):   # a patient's picture is passed on, not judged
            outgoing = replace(outgoing, photo=await self.chat.fetch(str(picture)))
        if one.message.edits is not None:
            await self.chat.edit(address, one.edit_name, outgoing)
            return one.edit_name
        return await self.chat.send(address, outgoing)

    def _nowhere(self, done: Mark, message: Message) -> tuple[Mark, Trouble | None]:
        log.error("a message has no address", extra={"kind": message.kind})
        return replace(done, state=SendState.REFUSED, trouble="no address"), None

    @staticmethod
    def _later(one: Claimed, now: datetime, seconds: float) -> Mark:
        return Mark(one.message.key, SendState.WAITING, now, retry_at=now + timedelta(seconds=seconds))

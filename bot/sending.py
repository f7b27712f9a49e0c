"""From the outbox to the chat: claim, render, send, mark. A message may come twice after a crash; it is never lost.

Here is what becomes of one message: where it goes, what each of the chat's errors means for it, and how often a kind
may leave when it is not known whether it has arrived. `bot/dispatch.py` keeps the stream of them going while serving;
`Sender.pass_` sends one batch in a fixed order, for rehearsals, trials and tests.
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
    ChatConflict,
    ChatError,
    ChatMoved,
    ChatRefused,
    ChatUnauthorised,
    ChatUncertain,
    ChatUnreachable,
    Outgoing,
)
from bot.ports import Store
from scheduler.messages import Message, Priority, SendState, To
from scheduler.ports import Claimed, Mark

log = logging.getLogger(__name__)

SLOW_TO_DRAW = frozenset({"chart"})
LEASE = timedelta(seconds=90)     # longer than the longest call to the network may take
BATCH = 30

# How often a message may leave when it is not known whether it has arrived: emergency answers and flags until it is
# known; a dose reminder once more, with the same dose name, and shown as taken once it is; the end of a window again; a
# chart not: whoever asked for it asks again. An edit that is made twice shows the same.
ALWAYS = 1_000_000
RESEND: dict[str, int] = {"dose": 2, "dose_repeat": 2, "dose_later": 2, "window_end": 2, "chart": 1}
RESEND_OTHERWISE = 2
RESEND_EDIT = 5
# A message that was in flight when the program died has most likely not left: it is worth more tries. Not for ever: it
# may be the message that kills the program.
AFTER_A_CRASH = 10

HELD_PAUSE = 600.0                # seconds between looks at a message for a patient who has blocked the bot
AROUND_PAUSE = 300.0              # before the care team's chat is tried again after it has refused a message
_BACK_OFF = (1, 5, 15, 60, 180)   # seconds before another try


@dataclass(frozen=True, slots=True)
class Trouble:
    """Something that sending learnt and the agent must act on.

    what: "blocked", "moved" (detail: the new address), "refused", "busy" (an emergency must wait for this chat),
    "stale" (its time was over before it could leave).
    """

    reference: str | None
    what: str
    detail: str = ""
    message: Message | None = None
    address: str = ""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of one message. network: whether the network answered ("up"), could not be reached ("away"), or left
    us in doubt ("doubt"); "" when it was not asked. busy: seconds that this chat asked to wait."""

    mark: Mark
    trouble: Trouble | None = None
    network: str = ""
    busy: float = 0.0


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


def is_urgent(message: Message) -> bool:
    """Emergency answers and flags: they leave until it is known that they have arrived."""
    return message.priority <= Priority.FLAG


def resend_limit(message: Message) -> int:
    """How often this message may leave while it is not known whether it has arrived."""
    if message.kind in RESEND:
        return RESEND[message.kind]
    if is_urgent(message):
        return ALWAYS
    return RESEND_EDIT if message.edits is not None else RESEND_OTHERWISE


def tries(one: Claimed) -> int:
    """The same for one claim: what was in flight when the program died is worth more of them."""
    limit = resend_limit(one.message)
    return limit + AFTER_A_CRASH if one.in_flight_before and limit > 1 else limit


def back_off(attempts: int) -> float:
    """Seconds before the next try."""
    return float(_BACK_OFF[min(attempts, len(_BACK_OFF) - 1)])


@dataclass
class Sender:
    """Sends single messages through one chat network. render: message -> what to show."""

    store: Store
    chat: Chat
    addresses: Addresses
    render: Callable[[Message], Outgoing]
    holder: str = "one"

    async def pass_(self, now: datetime, limit: int = BATCH) -> tuple[int, list[Trouble]]:
        """One batch. Returns how many were handled and what the agent must act on."""
        async with self.store.work() as work:
            claimed = list(await work.claim(now, limit, now + LEASE, self.holder))
        if not claimed:
            return 0, []
        by_chat: dict[str, list[Claimed]] = defaultdict(list)
        for one in claimed:
            by_chat[self.addresses.of(one)].append(one)
        results = await asyncio.gather(*(self._in_order(address, group, now) for address, group in by_chat.items()))
        outcomes = [outcome for group in results for outcome in group]
        async with self.store.work() as work:
            await work.mark([outcome.mark for outcome in outcomes])
        return len(claimed), [outcome.trouble for outcome in outcomes if outcome.trouble is not None]

    async def _in_order(self, address: str, group: Sequence[Claimed], now: datetime) -> list[Outcome]:
        outcomes: list[Outcome] = []
        for position, one in enumerate(group):
            outcomes.append(await self.one(address, one, now))
            mark = outcomes[-1].mark
            if mark.state is SendState.WAITING:   # keep this chat's order: what follows waits too
                pause = ((mark.retry_at or now) - now).total_seconds()
                outcomes += [Outcome(put_back(rest, now, pause)) for rest in group[position + 1:]]
                break
        return outcomes

    async def one(self, address: str, one: Claimed, now: datetime) -> Outcome:
        """Send one claimed message, if it should still leave. Of the chat's errors only ChatUnauthorised is raised."""
        message = one.message
        done = Mark(message.key, SendState.SENT, now, address=address)
        early = self._not_sent(address, one, done, now)
        if early is not None:
            return early
        try:
            slow = message.kind in SLOW_TO_DRAW      # drawn beside the loop: no emergency waits for a picture
            outgoing = await asyncio.to_thread(self.render, message) if slow else self.render(message)
        except Exception as error:  # one broken message must not stop the others: a person is told
            log.error("a message of kind %s cannot be rendered (%s)", message.kind, type(error).__name__)
            return Outcome(replace(done, state=SendState.REFUSED, trouble=f"{type(error).__name__}: {error}"),
                           Trouble(message.reference, "refused", f"cannot be written: {message.kind}", message))
        try:
            return Outcome(replace(done, name=await self._deliver(address, one, outgoing)), network="up")
        except ChatUnauthorised:
            raise
        except ChatError as error:
            return _after_error(address, one, error, done, now)

    def _not_sent(self, address: str, one: Claimed, done: Mark, now: datetime) -> Outcome | None:
        """What is not to leave now, or never; None when it should."""
        message = one.message
        if message.send_before is not None and now >= message.send_before:
            return Outcome(replace(done, state=SendState.STALE), Trouble(message.reference, "stale", "", message))
        if one.in_flight_before and one.attempts >= tries(one):
            return Outcome(replace(done, state=SendState.UNCERTAIN, trouble="in flight when the program stopped"))
        if one.held:
            return Outcome(put_back(one, now, HELD_PAUSE))
        if not address:
            log.error("a message of kind %s has no address", message.kind)
            return Outcome(replace(done, state=SendState.REFUSED, trouble="no address"))
        if message.edits is not None and not one.edit_name:
            if one.edit_waits:      # what it edits is on its way, or waits for another try
                return Outcome(put_back(one, now, back_off(1)))
            if not is_urgent(message):
                return Outcome(replace(done, state=SendState.CANCELLED, trouble="the message to edit never left"))
        return None

    async def _deliver(self, address: str, one: Claimed, outgoing: Outgoing) -> str:
        if picture := one.message.facts.get("file"):   # a patient's picture is passed on, not judged
            outgoing = replace(outgoing, photo=await self.chat.fetch(str(picture)))
        if one.message.edits is not None and one.edit_name:
            await self.chat.edit(address, one.edit_name, outgoing)
            return one.edit_name
        return await self.chat.send(address, outgoing)


def _after_error(address: str, one: Claimed, error: ChatError, done: Mark, now: datetime) -> Outcome:
    """What each of the chat's errors means for a message."""
    message = one.message
    if isinstance(error, ChatMoved):
        return Outcome(put_back(one, now, 0), Trouble(message.reference, "moved", error.new_address, message, address),
                       network="up")
    if isinstance(error, ChatBusy):
        trouble = Trouble(message.reference, "busy", "", message) if message.priority is Priority.EMERGENCY else None
        return Outcome(put_back(one, now, error.seconds), trouble, network="up", busy=error.seconds)
    if isinstance(error, ChatRefused):
        return _refused(one, error, done, now)
    if isinstance(error, ChatUnreachable | ChatConflict):
        return Outcome(put_back(one, now, back_off(one.attempts)), network="away")
    assert isinstance(error, ChatUncertain), error
    if one.attempts + 1 < tries(one):
        return Outcome(replace(put_back(one, now, back_off(one.attempts)), unsent=False), network="doubt")
    return Outcome(replace(done, state=SendState.UNCERTAIN, trouble=str(error)), network="doubt")


def _refused(one: Claimed, error: ChatRefused, done: Mark, now: datetime) -> Outcome:
    """A patient who blocked the bot: the message is held. The care team's chat: tried again, and told another way."""
    message = one.message
    trouble = Trouble(message.reference, "blocked" if error.blocked else "refused", str(error), message)
    if message.to in (To.CARE, To.ON_CALL) and message.edits is None:
        return Outcome(replace(put_back(one, now, AROUND_PAUSE), trouble=str(error)), trouble, network="up")
    if message.to is To.PATIENT and error.blocked:
        return Outcome(replace(put_back(one, now, HELD_PAUSE), trouble=str(error)), trouble, network="up")
    return Outcome(replace(done, state=SendState.REFUSED, trouble=str(error)), trouble, network="up")


def put_back(one: Claimed, now: datetime, seconds: float) -> Mark:
    """It certainly did not leave: it waits again, and this claim does not count."""
    return Mark(one.message.key, SendState.WAITING, now, retry_at=now + timedelta(seconds=seconds), unsent=True)

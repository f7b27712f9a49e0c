"""The stream of messages while serving: claims what may leave now, sends side by side, marks in batches.

One transaction writes the marks of what has been sent and claims what goes next. Only as much is claimed as the pace
lets leave, so that whatever is more urgent is always next; one chat's messages keep their order and one slow chat holds
up no other. When the network is away nothing is claimed until it answers again.
"""

from __future__ import annotations

import asyncio
import itertools
import logging
import time
from collections import deque
from collections.abc import Awaitable, Callable
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime

from bot.chat.pacing import Pacing
from bot.chat.polling import kind_and_place
from bot.chat.types import ChatError, ChatUnauthorised
from bot.errors import TroubleOutside
from bot.sending import LEASE, Outcome, Sender, Trouble, is_urgent, put_back
from scheduler.clock import Clock
from scheduler.messages import Priority
from scheduler.ports import Claimed, Mark

log = logging.getLogger(__name__)

MOST_IN_FLIGHT = 30          # ordinary sends at once; urgent ones may take ten more (the connections there are)
MOST_URGENT = 10
AT_ONCE = 6                  # claimed at a time while the pace holds: a fifth of a second of it
LONGEST_WAIT = 2.0           # seconds a claimed message may wait for its chat; longer, and it is put back
DOUBTS = 3                   # answers in a row that leave us in doubt before the network counts as away
_AWAY = (0.2, 1.0, 2.0, 5.0, 10.0, 20.0, 30.0)    # seconds between questions to a network that is away
_TROUBLE_PAUSE = 2.0         # seconds before the database is asked again
_GIVE_UP = 8.0               # seconds for sends under way when stopping

OnTrouble = Callable[[Trouble, datetime], Awaitable[None]]
Probe = Callable[[], Awaitable[object]]


@dataclass
class Tally:
    """Counts since the start, for the metrics: outcomes by state, and by priority how late the last one left."""

    outcomes: dict[str, int] = field(default_factory=dict)
    seconds_late: dict[str, float] = field(default_factory=dict)

    def count(self, name: str) -> None:
        self.outcomes[name] = self.outcomes.get(name, 0) + 1


def is_group(address: str) -> bool:
    """Group chats have negative numbers at this network (documented)."""
    return address.startswith("-")


class Dispatcher:
    """Runs until stopped. probe: a call that shows whether the network is there, without sending anything.

    pacing None: no pace at all (a network without limits). batch: most that is claimed at a time then.
    """

    def __init__(self, sender: Sender, clock: Clock, on_trouble: OnTrouble, *, pacing: Pacing | None,
                 probe: Probe | None = None, batch: int = 100) -> None:
        self._sender = sender
        self._clock = clock
        self._on_trouble = on_trouble
        self._pacing = pacing
        self._probe = probe
        self._batch = batch
        self._stopping = False
        self._wake = asyncio.Event()
        self._running: dict[str, asyncio.Task[None]] = {}       # by message key; a queue's task by its address
        self._queues: dict[str, deque[Claimed]] = {}            # chats with something under way; what waits behind it
        self._held: dict[str, Claimed] = {}                     # everything claimed and not yet marked
        self._urgent = 0                                        # of those under way
        self._ahead = 0                                         # ordinary ones claimed that have not begun to leave
        self._marks: list[Mark] = []
        self._troubles: deque[Trouble] = deque()
        self._put_back_until: dict[str, float] = {}             # by chat: when the last one put back may leave
        self._doubts = 0
        self._asking: asyncio.Task[None] | None = None          # while the network is away
        self._refuses = False                                   # away, and certainly so: not even urgent ones are tried
        self._fatal: ChatUnauthorised | None = None
        self.tally = Tally()
        self.database_trouble = False

    def nudge(self) -> None:
        """Something may be due."""
        self._wake.set()

    def stop(self) -> None:
        """Claim nothing more; what is under way is finished and marked."""
        self._stopping = True
        self._wake.set()

    @property
    def network_is_away(self) -> bool:
        return self._asking is not None

    async def run(self) -> None:
        """Until stopped. Raises ChatUnauthorised when the network no longer accepts the token."""
        while not self._stopping and self._fatal is None:
            try:
                claimed = await self._round()
                self.database_trouble = False
            except TroubleOutside as error:   # the marks are kept, and written when the database is back
                log.error("sending: %s", error)
                self.database_trouble = True
                await self._rest(_TROUBLE_PAUSE)
                continue
            for one in claimed:
                self._start(one)
            if not claimed or self._full():
                await self._rest(self._pause())
            else:
                await self._rest(0 if self._pacing is None else self._pacing.overall_delay(time.monotonic()))
        await self._finish()
        if self._fatal is not None:
            raise self._fatal

    # --- one round

    async def _round(self) -> list[Claimed]:
        """Write the marks there are, act on what was learnt, claim what may leave now."""
        while self._troubles:
            await self._on_trouble(self._troubles[0], self._clock.now())
            self._troubles.popleft()
        limit, urgent = self._room()
        if limit <= 0 and not self._marks:
            return []
        marks = list(self._marks)
        now = self._clock.now()
        async with self._sender.store.work() as work:
            await work.mark(marks)
            found = await work.claim(now, limit, now + LEASE, self._sender.holder, urgent=urgent) if limit > 0 else []
        self._written(marks)
        return [one for one in found if one.message.key not in self._held]

    async def _write_marks(self) -> None:
        if not self._marks:
            return
        marks = list(self._marks)
        async with self._sender.store.work() as work:
            await work.mark(marks)
        self._written(marks)

    def _written(self, marks: list[Mark]) -> None:
        """These are in the database; what was put back for a moment wakes us when its moment comes."""
        del self._marks[:len(marks)]
        soonest = min((mark.retry_at for mark in marks if mark.retry_at is not None), default=None)
        if soonest is not None:
            seconds = max(0.0, (soonest - self._clock.now()).total_seconds())
            asyncio.get_running_loop().call_later(seconds, self.nudge)

    def _room(self) -> tuple[int, bool]:
        """How many to claim now, and whether only urgent ones."""
        ordinary = len(self._held) - self._urgent
        if self._asking is not None:     # in doubt, what is urgent is still tried: it may arrive
            return 0 if self._refuses or self._urgent >= MOST_URGENT else 1, True
        if self._pacing is None:
            return self._batch - ordinary if ordinary <= MOST_IN_FLIGHT else 0, False
        # a few ahead of the pace, so that each leaves at the very moment when it may
        ahead = self._pacing.room(time.monotonic()) + AT_ONCE - self._ahead
        allowed = min(AT_ONCE, ahead, MOST_IN_FLIGHT - ordinary)
        if allowed > 0:
            return allowed, False
        if self._urgent < MOST_URGENT and self._pacing.overall_delay(time.monotonic(), urgent=True) == 0:
            return 1, True
        return 0, True

    def _full(self) -> bool:
        return self._room()[0] <= 0

    def _pause(self) -> float:
        """Seconds to rest when nothing was claimed: until the pace allows more, the network is asked, or a nudge."""
        now = time.monotonic()
        if self._asking is None and self._pacing is not None and self._pacing.room(now) <= 0:
            return max(0.01, self._pacing.overall_delay(now))
        return 20.0

    async def _rest(self, seconds: float) -> None:
        if seconds <= 0:
            await asyncio.sleep(0)
            return
        with suppress(TimeoutError):
            await asyncio.wait_for(self._wake.wait(), seconds)
        self._wake.clear()

    # --- sending

    def _start(self, one: Claimed) -> None:
        """Send it beside the others, or behind what is under way in its chat. What is urgent waits behind nothing."""
        address = self._sender.addresses.of(one)
        self._held[one.message.key] = one
        if is_urgent(one.message):
            self._urgent += 1
            self._run(one.message.key, self._send_alone(address, one))
            return
        self._ahead += 1
        if address in self._queues:
            self._queues[address].append(one)
        else:
            self._queues[address] = deque([one])
            self._run(address, self._send_queue(address))

    def _run(self, name: str, work: Awaitable[None]) -> None:
        task = asyncio.ensure_future(work)
        self._running[name] = task
        task.add_done_callback(lambda _: self._running.pop(name, None))

    async def _send_alone(self, address: str, one: Claimed) -> None:
        try:
            await self._send(address, one)
        finally:
            self._urgent -= 1

    async def _send_queue(self, address: str) -> None:
        queue = self._queues[address]
        while queue:
            one = queue.popleft()
            mark = await self._send(address, one)
            if mark.retry_at is not None:      # keep the chat's order: what follows waits too
                pause = max(0.0, (mark.retry_at - self._clock.now()).total_seconds())
                while queue:
                    self._ahead -= 1
                    self._done(Outcome(put_back(queue.popleft(), self._clock.now(), pause)))
        del self._queues[address]

    async def _send(self, address: str, one: Claimed) -> Mark:
        """Send one message when its chat may have it; returns its mark."""
        try:
            early = await self._wait_for_turn(address, one)
        finally:
            self._ahead -= not is_urgent(one.message)
        if early is not None:
            return early
        if self._pacing is not None:
            self._pacing.note_sent(address, is_group(address), time.monotonic())
        try:
            outcome = await self._sender.one(address, one, self._clock.now())
        except ChatUnauthorised as error:
            self._fatal = error
            outcome = Outcome(put_back(one, self._clock.now(), 0))
        except Exception as error:
            log.error("sending failed in an unforeseen way: %s", kind_and_place(error))
            outcome = Outcome(put_back(one, self._clock.now(), 60))
        self._done(outcome, address, one)
        return outcome.mark

    async def _wait_for_turn(self, address: str, one: Claimed) -> Mark | None:
        """Until the pace lets this message leave; its mark when that is too far away and it was put back."""
        while (delay := self._delay(address, one)) > 0:
            if delay > LONGEST_WAIT or self._stopping:
                told = Trouble(one.message.reference, "busy", "", one.message)
                outcome = Outcome(put_back(one, self._clock.now(), self._slot(address, delay)),
                                  told if one.message.priority is Priority.EMERGENCY and not self._stopping else None)
                self._done(outcome)
                return outcome.mark
            await asyncio.sleep(delay)
        return None

    def _delay(self, address: str, one: Claimed) -> float:
        if self._pacing is None:
            return 0.0
        emergency = one.message.priority is Priority.EMERGENCY
        return self._pacing.delay(address, is_group(address), time.monotonic(), emergency)

    def _slot(self, address: str, delay: float) -> float:
        """Seconds until a message put back may leave: one after the other, not all at once."""
        assert self._pacing is not None
        now, limits = time.monotonic(), self._pacing.limits
        step = 60.0 / limits.group_per_minute if is_group(address) else limits.chat_interval
        at = max(now + delay, self._put_back_until.get(address, 0.0) + step)
        self._put_back_until = {key: until for key, until in self._put_back_until.items() if until > now}
        self._put_back_until[address] = at
        return at - now

    def _done(self, outcome: Outcome, address: str = "", one: Claimed | None = None) -> None:
        """Take down what became of a message; the next round writes it."""
        self._held.pop(outcome.mark.key, None)
        self._marks.append(outcome.mark)
        self.tally.count(str(outcome.mark.state))
        if one is not None and outcome.mark.name:
            late = (outcome.mark.at - one.message.due_at).total_seconds()
            self.tally.seconds_late[one.message.priority.name.lower()] = max(0.0, late)
        if outcome.trouble is not None:
            self._troubles.append(outcome.trouble)
            if outcome.trouble.what == "moved" and self._pacing is not None:
                self._pacing.note_moved(outcome.trouble.address, outcome.trouble.detail)
        if outcome.busy and self._pacing is not None:
            self._pacing.note_busy(address, outcome.busy, time.monotonic())
        self._learn(outcome.network)
        self._wake.set()

    # --- the network

    def _learn(self, network: str) -> None:
        if network == "up":
            self._doubts = 0
        elif network:
            self._doubts = DOUBTS if network == "away" else self._doubts + 1
            if self._doubts >= DOUBTS and self._asking is None:
                log.warning("the network is away: nothing is sent until it answers")
                self._refuses = network == "away"
                self._asking = asyncio.create_task(self._ask_network())

    async def _ask_network(self) -> None:
        """Ask a network that is away now and then, without a message at stake, until it answers."""
        for pause in itertools.chain(_AWAY, itertools.repeat(_AWAY[-1])):
            await asyncio.sleep(pause)
            try:
                if self._probe is not None:
                    await self._probe()
            except ChatUnauthorised as error:
                self._fatal = error
            except ChatError:
                continue
            break
        log.warning("the network answers again")
        self._doubts = 0
        self._asking = None
        self._wake.set()

    # --- the end

    async def _finish(self) -> None:
        """Let what is under way end, put back what has not begun, write the marks."""
        if self._asking is not None:
            self._asking.cancel()
        now = self._clock.now()
        for queue in self._queues.values():
            while queue:
                self._ahead -= 1
                self._done(Outcome(put_back(queue.popleft(), now, 0)))
        if self._running:
            await asyncio.wait(set(self._running.values()), timeout=_GIVE_UP)
        with suppress(TroubleOutside):
            await self._write_marks()
            while self._troubles:
                await self._on_trouble(self._troubles.popleft(), self._clock.now())


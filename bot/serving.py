"""The agent for real: one process, one event loop. Five things go on side by side, each at its own pace:

updates are received and stored; the inbox is handled; time is kept (timelines, notes, how late we are); messages are
sent; and the processes on one database look after each other. Trouble with the database or the network stops none of
them; a token that is not accepted stops all, loudly.
"""

from __future__ import annotations

import asyncio
import logging
import os
import secrets
import signal
import socket
import time
from collections.abc import Awaitable, Callable, Coroutine, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any
from urllib.parse import urlsplit

from starlette.routing import Route

from bot.agent import Agent
from bot.chat.pacing import Limits, Pacing, with_reserve
from bot.chat.polling import Poller, kind_and_place
from bot.chat.telegram import TelegramChat
from bot.chat.types import ChatError, ChatUnauthorised, Incoming
from bot.chat.webhook import webhook_route
from bot.dispatch import Dispatcher
from bot.errors import TroubleOutside
from bot.health import Vital
from bot.ports import Store
from bot.sending import Addresses, Trouble
from bot.storage.presence import Alone, presence_of
from scheduler.clock import Clock
from scheduler.messages import Message, Priority, To
from scheduler.protocol import ClinicProtocol
from scheduler.tick import LEAD
from scheduler.wake import Waker

log = logging.getLogger(__name__)

POLLING = "polling"
_TROUBLE_PAUSE = 2.0
_BEHIND_PAUSE = 1.0        # between looks while something is due that cannot be done yet (a pace, another's lease)
_PRUNE_EVERY = timedelta(days=1)
_LOOK_AROUND = 5.0         # seconds between looks at the other processes
_LONGEST_REST = 20.0
_JUMP = timedelta(seconds=5)


@dataclass
class Service:
    """Everything of one serving process. `speed`-ed clocks make it a trial over a real network."""

    store: Store
    chat: TelegramChat
    protocol: ClinicProtocol
    addresses: Addresses
    clock: Clock
    speed: float = 1.0   # virtual seconds per real second, in a trial
    limits: Limits = field(default_factory=lambda: with_reserve(Limits()))

    def __post_init__(self) -> None:
        self.holder = f"{socket.gethostname()}:{os.getpid()}:{secrets.token_hex(3)}"
        self.pacing = Pacing(self.limits)
        self.waker = Waker()
        self.agent = Agent(self.store, self.chat, self.protocol, self.addresses, holder=self.holder)
        self.dispatcher = Dispatcher(self.agent.sender, self.clock, self._trouble, pacing=self.pacing,
                                     probe=self.chat.who)
        engine = getattr(self.store, "engine", None)
        self.presence = presence_of(engine)
        self.inbox_workers = 1 if isinstance(self.presence, Alone) else 4
        self.vital = Vital(self.dispatcher.tally)
        self.stopping = asyncio.Event()
        self.arrived = asyncio.Event()
        self._inbox = [asyncio.Event() for _ in range(self.inbox_workers)]
        self._background: set[asyncio.Task[None]] = set()
        self._clocks: tuple[datetime, float] | None = None
        self._told_late = False
        self._pruned: datetime | None = None
        self._fine_since: datetime | None = None

    async def take(self, updates: list[Incoming]) -> None:
        """Store updates (one transaction), then see that they are handled."""
        await self.agent.store_updates(updates, self.clock.now())
        self._wake_inbox()

    async def run(self, receiving: Callable[[], Awaitable[None]]) -> None:
        """Until stopped, or until the network no longer accepts the token. `receiving` polls or serves the webhook."""
        loop = asyncio.get_running_loop()
        for signal_number in (signal.SIGTERM, signal.SIGINT):
            with suppress(NotImplementedError, RuntimeError, ValueError):
                loop.add_signal_handler(signal_number, self.stop)
        await self._arrive()
        self.arrived.set()
        workers = [asyncio.create_task(self._keep_time()), asyncio.create_task(self.dispatcher.run()),
                   *(asyncio.create_task(self._read_inbox(event)) for event in self._inbox)]
        others = [asyncio.ensure_future(receiving()), asyncio.create_task(self._look_around())]
        stopped = asyncio.create_task(self.stopping.wait())
        try:
            await asyncio.wait({*workers, *others, stopped}, return_when=asyncio.FIRST_COMPLETED)
        finally:
            self.stop()
            for task in (*others, stopped):
                task.cancel()
            await asyncio.wait(workers, timeout=15)
            await asyncio.gather(*others, stopped, return_exceptions=True)
            self.waker.close()
            with suppress(TroubleOutside):
                await self.presence.leave()
        for task in (*workers, *others):
            if task.done() and not task.cancelled() and task.exception() is not None:
                raise task.exception() or RuntimeError     # what ended by itself has a reason

    def stop(self) -> None:
        self.stopping.set()
        self.dispatcher.stop()
        self.waker.nudge()
        self._wake_inbox()

    # --- time

    async def _keep_time(self) -> None:
        """Timelines and notes as they come due; then sleep to the next instant that matters."""
        while not self.stopping.is_set():
            try:
                await self._heed_clock()
                await self._do_what_is_due()
                upcoming = await self.agent.next_due()
                await self._watch_lag(upcoming)
                await self._throw_away()
                self.vital.beat()
            except TroubleOutside as error:   # go on when it is back
                log.error("keeping time: %s", error)
                self.vital.trouble()
                await self._pause()
                continue
            self.dispatcher.nudge()
            self._wake_inbox()
            await self.waker.sleep(self._seconds_to(upcoming))

    async def _do_what_is_due(self) -> None:
        while not self.stopping.is_set():
            now = self.clock.now()
            done = await self.agent.tick(now) + await self.agent.notes(now)
            if done == 0:
                return
            self.vital.beat()
            self.dispatcher.nudge()

    def _seconds_to(self, upcoming: datetime | None) -> float | None:
        """Real seconds until then; a little while when it is due and could not be done yet."""
        if upcoming is None:
            return None
        now = self.clock.now()
        if upcoming - LEAD > now:
            upcoming -= LEAD   # timelines are expanded this long before their next occasion
        seconds = (upcoming - now).total_seconds() / self.speed
        return seconds if seconds > 0 else _BEHIND_PAUSE

    async def _heed_clock(self) -> None:
        """A wall clock set back would leave what was due waiting for it to catch up."""
        now, monotonic = self.clock.now(), time.monotonic()
        before, self._clocks = self._clocks, (now, monotonic)
        if before is None:
            return
        expected = before[0] + timedelta(seconds=(monotonic - before[1]) * self.speed)
        if expected - now > _JUMP:
            log.warning("the clock was set back by %.0f s: what was due stays due", (expected - now).total_seconds())
            async with self.store.work() as work:
                await work.clock_set_back(expected, now)
        elif now - expected > _JUMP and self.speed == 1.0:
            log.warning("the clock was set forward by %.0f s", (now - expected).total_seconds())

    async def _watch_lag(self, oldest: datetime | None) -> None:
        """A silent agent is itself an emergency: the care team is told once when messages leave too late."""
        now = self.clock.now()
        limit = self.protocol.span("care.lag_limit")
        lag = now - oldest if oldest is not None and oldest < now else timedelta(0)
        self.vital.lag_seconds = lag.total_seconds()
        if lag <= limit or oldest is None:
            self._fine_since = self._fine_since or now
            self._told_late = self._told_late and now - self._fine_since < 2 * limit    # over once it is so for a while
            return
        self._fine_since = None
        if self._told_late:
            return
        self._told_late = True
        log.error("messages are late by %.0f s", lag.total_seconds())
        async with self.store.work() as work:
            await work.put([Message(
                f"late:{oldest.isoformat()}", To.CARE, "late", now, priority=Priority.FLAG,
                facts={"since": oldest.isoformat(), "minutes": int(lag.total_seconds() // 60),
                       "limit": int(limit.total_seconds() // 60)})])

    async def _throw_away(self) -> None:
        """Once a day: messages long done and updates long handled go, so that the tables do not grow for ever."""
        now = self.clock.now()
        if self._pruned is not None and now - self._pruned < _PRUNE_EVERY:
            return
        self._pruned = now
        count = await self.store.prune(now - self.protocol.span("keep.done_messages"))
        if count:
            log.info("%d rows long done were thrown away", count)

    # --- the inbox

    async def _read_inbox(self, woken: asyncio.Event) -> None:
        while not self.stopping.is_set():
            try:
                step = await self.agent.handle_next(self.clock.now())
            except TroubleOutside as error:
                log.error("inbox: %s", error)
                await self._pause()
                continue
            if step is None:
                with suppress(TimeoutError):
                    await asyncio.wait_for(woken.wait(), _LONGEST_REST)
                woken.clear()
                continue
            self.vital.handled += 1
            self._in_background(self._finish(step.finish()))
            self.dispatcher.nudge()
            self.waker.nudge()

    async def _finish(self, work: Awaitable[None]) -> None:
        """What a step left to do at the network; then its chat can go on."""
        await work
        self._wake_inbox()

    def _wake_inbox(self) -> None:
        for event in self._inbox:
            event.set()

    def _in_background(self, work: Coroutine[Any, Any, None]) -> None:
        task = asyncio.create_task(work)
        self._background.add(task)
        task.add_done_callback(self._background.discard)

    async def _trouble(self, trouble: Trouble, now: datetime) -> None:
        try:
            await self.agent.act_on(trouble, now)
        except TroubleOutside:
            raise
        except Exception as error:   # one patient's case that cannot be handled stops no other's messages
            log.error("what sending learnt (%s) could not be acted on: %s", trouble.what, kind_and_place(error))
            await self.agent.tell_set_aside(trouble, now, error)
        self.waker.nudge()

    # --- the other processes

    async def _arrive(self) -> None:
        """Be known to the others, and take up where an earlier life of ours was cut off."""
        while not self.stopping.is_set():
            try:
                await self.presence.arrive(self.holder)
                await self.agent.follow_moves()
                await self.agent.plan_digest(self.clock.now())   # loads the holidays: before anybody waits
                if isinstance(self.presence, Alone):
                    await self._take_back(set())
                return
            except TroubleOutside as error:
                log.error("starting: %s", error)
                await self._pause()

    async def _look_around(self) -> None:
        """Claims of processes that have died are taken over; the pace is shared among those that live."""
        suspects: set[str] = set()
        processes = 1
        while True:
            await asyncio.sleep(_LOOK_AROUND)
            if isinstance(self.presence, Alone):
                continue
            try:
                # twice in a row: after the database server was restarted each process takes a moment to be back
                suspects = await self._take_back(suspects)
                before, processes = processes, await self.presence.processes()
                self.pacing.share_with(processes)
                if processes != before:      # what another was about to do, somebody must look for now
                    self.waker.nudge()
            except TroubleOutside as error:
                log.error("looking at the other processes: %s", error)

    async def _take_back(self, suspects: set[str]) -> set[str]:
        async with self.store.work() as work:
            holders = await work.holders()
        dead = set(await self.presence.others_dead(list(holders)))
        certain = dead if isinstance(self.presence, Alone) else dead & suspects
        if certain:
            async with self.store.work() as work:
                count = await work.take_back(certain)
            log.warning("%d messages were in flight in a process that has died: taken over", count)
            self.dispatcher.nudge()
        return dead - certain

    async def _pause(self) -> None:
        with suppress(TimeoutError):
            await asyncio.wait_for(self.stopping.wait(), _TROUBLE_PAUSE)


def poller(service: Service, chat: TelegramChat) -> Callable[[], Awaitable[None]]:
    """Receiving by long polling, by one of the processes on a database at a time."""
    async def run() -> None:
        while True:
            if not await _has_duty(service):
                await asyncio.sleep(_LOOK_AROUND)
                continue
            polling = asyncio.create_task(_poll(service, chat))
            relieved = asyncio.create_task(_until_relieved(service))
            try:
                await asyncio.wait({polling, relieved}, return_when=asyncio.FIRST_COMPLETED)
                if polling.done():
                    polling.result()
            finally:
                polling.cancel()
                relieved.cancel()
                await asyncio.gather(polling, relieved, return_exceptions=True)
                service.vital.poller = None
    return run


async def _poll(service: Service, chat: TelegramChat) -> None:
    pause = 1.0
    while True:
        try:
            await chat.use_polling()
            break
        except ChatUnauthorised:
            raise
        except ChatError as error:
            log.warning("polling cannot begin: %s; trying again in %.0f s", error, pause)
            await asyncio.sleep(pause)
            pause = min(2 * pause, 30.0)
    service.vital.poller = Poller(chat, service.take, service.clock.now)
    await service.vital.poller.run()


def webhook(service: Service, chat: TelegramChat, url: str, secret: str) -> tuple[Route, Callable[[], Awaitable[None]]]:
    """Receiving by webhook: the route to serve (the path of `url`), and what tells the network where it is. Any process
    may get any update."""
    route = webhook_route(urlsplit(url).path or "/", secret, service.take, service.clock.now)

    async def run() -> None:
        pause = 1.0
        while True:
            try:
                await chat.use_webhook(url, secret)
                break
            except ChatUnauthorised:
                raise
            except ChatError as error:
                log.warning("the webhook cannot be set: %s; trying again in %.0f s", error, pause)
                await asyncio.sleep(pause)
                pause = min(2 * pause, 30.0)
        await asyncio.Event().wait()
    return route, run


async def _has_duty(service: Service) -> bool:
    try:
        return await service.presence.on_duty(POLLING)
    except TroubleOutside:
        return False


async def _until_relieved(service: Service) -> None:
    """Returns when the duty is lost: the database server was restarted, and another process may have it now."""
    while await _has_duty(service):
        await asyncio.sleep(_LOOK_AROUND)


async def invite_lines(store: Store, protocol: ClinicProtocol, clock: Clock) -> Sequence[str]:
    """While the care team has no clinician, the operator gets a one-time invite for the first one."""
    from bot.invites import make_invite

    async with store.work() as work:
        if any(member.role == "clinician" and member.removed_at is None for member in await work.members()):
            return ()
        code = await make_invite(work, "clinician", clock.now(), protocol)
    return (f"care invite {code}   (the first clinician writes /join {code} to the bot)",)

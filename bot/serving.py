"""The agent for real: one process, one event loop. Updates come in, the waker sleeps to the next instant, the agent passes.

Any number of these processes can share one PostgreSQL: claims skip what others hold.
"""

from __future__ import annotations

import asyncio
import logging
import os
import signal
import socket
import time
from collections.abc import Awaitable, Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy.exc import DBAPIError

from bot.agent import Agent
from bot.chat.pacing import Pacing
from bot.chat.polling import Poller
from bot.chat.telegram import TelegramChat
from bot.chat.types import Incoming
from bot.ports import Store
from bot.sending import Addresses
from scheduler.clock import Clock
from scheduler.messages import Message, Priority
from scheduler.protocol import ClinicProtocol
from scheduler.tick import LEAD
from scheduler.wake import Waker

log = logging.getLogger(__name__)
_TROUBLE_PAUSE = 2.0
_AT_LEAST = 0.2


@dataclass
class Service:
    """Everything of one serving process. `speed`-ed clocks make it a trial over a real network."""

    store: Store
    chat: TelegramChat
    protocol: ClinicProtocol
    addresses: Addresses
    clock: Clock
    speed: float = 1.0   # virtual seconds per real second, in a trial

    def __post_init__(self) -> None:
        self.pacing = Pacing()
        self.waker = Waker()
        self.agent = Agent(self.store, self.chat, self.protocol, self.addresses,
                           holder=f"{socket.gethostname()}:{os.getpid()}")
        self.agent.sender.wait = self._wait
        self.agent.sender.sent = lambda address: self.pacing.note_sent(address, is_group(address), time.monotonic())
        self.agent.sender.busy = lambda address, seconds: self.pacing.note_busy(address, seconds, time.monotonic())
        self.stopping = asyncio.Event()

    def _wait(self, address: str, message: Message) -> float:
        """An emergency never waits for our own pacing; the network's own 'wait' still holds it."""
        if message.priority is Priority.EMERGENCY:
            return 0.0
        return self.pacing.delay(address, is_group(address), time.monotonic())

    async def take(self, updates: list[Incoming]) -> None:
        """Store updates (one transaction), then wake the loop."""
        await self.agent.store_updates(updates, self.clock.now())
        self.waker.nudge()

    async def run(self, receiving: Callable[[], Awaitable[None]]) -> None:
        """Until stopped, or until the network no longer accepts the token. `receiving` polls or serves the webhook."""
        loop = asyncio.get_running_loop()
        for signal_number in (signal.SIGTERM, signal.SIGINT):
            with suppress(NotImplementedError):
                loop.add_signal_handler(signal_number, self.stop)
        receiver = asyncio.ensure_future(receiving())
        worker = asyncio.create_task(self._work())
        stopped = asyncio.create_task(self.stopping.wait())
        try:
            done, _ = await asyncio.wait({receiver, worker, stopped}, return_when=asyncio.FIRST_COMPLETED)
            self.stop()
            with suppress(TimeoutError):
                await asyncio.wait_for(worker, 10)
            for task in done - {stopped, worker}:
                task.result()   # a polling that ended by itself has a reason: raise it
        finally:
            receiver.cancel()
            stopped.cancel()
            with suppress(asyncio.CancelledError, Exception):
                await receiver
            self.waker.close()

    def stop(self) -> None:
        self.stopping.set()
        self.waker.nudge()

    async def _work(self) -> None:
        while not self.stopping.is_set():
            try:
                await self.agent.pass_(self.clock.now())
                upcoming = await self.agent.next_due()
            except (DBAPIError, OSError) as error:   # the database is away: go on when it is back
                log.error("the database cannot be used now (%s); trying again", type(error).__name__)
                await asyncio.sleep(_TROUBLE_PAUSE)
                continue
            now = self.clock.now()
            if upcoming is not None and upcoming - LEAD > now:
                upcoming -= LEAD   # timelines are expanded this long before their next occasion
            await self.waker.sleep(self._seconds_to(upcoming, now))

    def _seconds_to(self, upcoming: datetime | None, now: datetime) -> float | None:
        """Real seconds until then; a little when it is due and could not be done (a pace, another process's lease)."""
        if upcoming is None:
            return None
        return max((upcoming - now).total_seconds() / self.speed, _AT_LEAST)


def is_group(address: str) -> bool:
    """Group chats have negative numbers at this network (documented)."""
    return address.startswith("-")


def poller(service: Service, chat: TelegramChat) -> Callable[[], Awaitable[None]]:
    """Receiving by long polling."""
    async def run() -> None:
        await chat.use_polling()
        await Poller(chat, service.take, service.clock.now).run()
    return run


async def invite_lines(store: Store, protocol: ClinicProtocol, clock: Clock) -> Sequence[str]:
    """While the care team has no clinician, the operator gets a one-time invite for the first one."""
    from bot.invites import make_invite

    async with store.work() as work:
        if any(member.role == "clinician" and member.removed_at is None for member in await work.members()):
            return ()
        code = await make_invite(work, "clinician", clock.now(), protocol)
    return (f"care invite {code}   (the first clinician writes /join {code} to the bot)",)


"""A serving process under test: the real service over real HTTP against the local Bot API, with short timeouts."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from datetime import datetime, timedelta
from typing import Any

from botapi import BotApi
from botapi_people import Group, User
from stores import patient, plan, protocol

from bot.case import PatientRow
from bot.chat.telegram import TelegramChat, Timeouts
from bot.ports import Member, Store
from bot.sending import Addresses
from bot.serving import Service, poller
from bot.storage.opening import open_store
from scheduler.clock import Clock
from scheduler.localtime import instant
from scheduler.messages import Message, Priority, SendState, To

QUICK = Timeouts(connect=0.5, pool=0.5, read=0.5, write=0.5, upload=1.0, whole=1.5)
CARE = -500
ON_CALL = -600
EMERGENCY = "the meat wont go down, im drooling"


def morning(hour: int, minute: int, day: int = 2, second: int = 0) -> datetime:
    """An instant of March 2026 by the patients' clock."""
    local = datetime(2026, 3, day, hour, minute, second)  # noqa: DTZ001 - wall clock, made an instant on the next line
    return instant(local.date(), local.time(), plan().patient.time_zone)


class TestClock:
    """A clock that runs with real time from `start`, and can be set forward and back, as a machine's can."""

    __test__ = False

    def __init__(self, start: datetime) -> None:
        self._start = start
        self._since = asyncio.get_running_loop().time()

    def now(self) -> datetime:
        return self._start + timedelta(seconds=asyncio.get_running_loop().time() - self._since)

    def set_by(self, delta: timedelta) -> None:
        self._start += delta


@asynccontextmanager
async def serving(server: BotApi, url: str, clock: Clock, *, on_call: str = "",
                  store: Store | None = None) -> AsyncIterator[Service]:
    """One process's service, stopped as SIGTERM stops it."""
    mine = store or await open_store(url, protocol())
    server.group(CARE, "Care team")
    async with TelegramChat(server.token, server.api, timeouts=QUICK) as chat:
        service = Service(mine, chat, protocol(), Addresses(str(CARE), on_call), clock)
        running = asyncio.create_task(service.run(poller(service, chat)))
        try:
            await service.arrived.wait()
            yield service
            assert not running.done(), running.exception()
        finally:
            service.stop()
            await asyncio.wait({running}, timeout=20)
            if store is None:
                await mine.close()


async def join(service: Service, user: User, reference: str = "KT-014", *, woken: bool = False) -> None:
    """An active patient who talks in this user's chat; woken: the timeline is expanded from now on."""
    now = service.clock.now()
    row: PatientRow = patient(reference, chat=str(user.id), sender=str(user.id), expanded_until=now,
                              next_at=now if woken else None)
    async with service.store.work() as work:
        await work.add_patient(row, plan(reference), now)
    service.waker.nudge()


async def admit(service: Service, user: User, name: str = "Nurse Adeyemi", role: str = "nurse") -> None:
    """A care team member with a private chat of their own."""
    async with service.store.work() as work:
        await work.add_member(Member(str(user.id), name, role, service.clock.now(), chat=str(user.id)))


def window_end(key: str, at: datetime, reference: str = "KT-014", **given: Any) -> Message:
    """'You can eat now', an ordinary message of the dose's priority."""
    values: dict[str, Any] = {"to": To.PATIENT, "kind": "window_end", "due_at": at, "priority": Priority.DOSE,
                              "reference": reference, "facts": {"lang": "en", "call_me": "Maya", "rinse_now": False,
                                                                "day_key": "d"}}
    return Message(f"{reference}:{key}", **values | given)


def care_flag(key: str, at: datetime, words: str = "words", **given: Any) -> Message:
    """A message of a flag's priority to the care team."""
    values: dict[str, Any] = {"to": To.CARE, "kind": "unhandled", "due_at": at, "priority": Priority.FLAG,
                              "reference": "KT-014", "facts": {"words": words, "trouble": "Test"}}
    return Message(f"KT-014:{key}", **values | given)


async def put(service: Service, *messages: Message) -> None:
    async with service.store.work() as work:
        await work.put(messages)
    service.dispatcher.nudge()


async def state_of(service: Service, key: str) -> SendState | None:
    async with service.store.work() as work:
        found = await work.message(key)
    return found.state if found else None


async def until(true: Callable[[], Any], timeout: float = 8.0, what: str = "") -> None:
    """Wait for something to become true (a plain or an asynchronous question)."""
    for _ in range(int(timeout / 0.02)):
        answer = true()
        if asyncio.iscoroutine(answer):
            answer = await answer
        if answer:
            return
        await asyncio.sleep(0.02)
    raise AssertionError(f"not true after {timeout} s: {what or true}")


def texts(server: BotApi, who: User | Group | int, words: str) -> list[str]:
    """The bot's messages in this chat that hold these words."""
    return [text for text in server.texts(who) if words in text]

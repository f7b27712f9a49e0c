"""This program's side of the comparison: real tables, real timelines, real rendering; only the network is instant."""

from __future__ import annotations

import asyncio
import sys
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "support"))

from stores import protocol

from bot.agent import Agent
from bot.case import Changes, PatientRow, PatientState
from bot.chat.pacing import Limits, Pacing, with_reserve
from bot.chat.types import Outgoing
from bot.dispatch import Dispatcher
from bot.sending import Addresses
from bot.storage.opening import open_database
from bot.storage.sql import SqlStore
from scheduler.clock import SetClock
from scheduler.localtime import instant
from scheduler.plan import Plan
from scheduler.planfile import read_plan
from scheduler.storage.tables import patients, plans

TEXT = (Path(__file__).parents[2] / "fixtures" / "plans" / "ok" / "kt-014.toml").read_text(encoding="utf-8")
NIGHT = instant(datetime(2026, 3, 3).date(), datetime(2026, 3, 3, 3, 0).time(), "America/Denver")  # noqa: DTZ001
EIGHT = instant(datetime(2026, 3, 3).date(), datetime(2026, 3, 3, 7, 45).time(), "America/Denver")  # noqa: DTZ001


class Instant:
    """A network that takes every message at once, tells `done` each address, and remembers when groups heard of it."""

    def __init__(self, done: Callable[[str], None] = lambda _: None) -> None:
        self._done = done
        self.sent = 0
        self.urgent: dict[str, float] = {}

    async def send(self, address: str, outgoing: Outgoing) -> str:
        self._done(address)
        self.sent += 1
        if address.startswith("-"):
            self.urgent[outgoing.text] = time.monotonic()
        return str(self.sent)

    async def edit(self, address: str, message: str, outgoing: Outgoing) -> None:  # noqa: ARG002
        await self.send(address, outgoing)

    async def confirm_tap(self, tap: str, note: str = "") -> None:  # noqa: ARG002
        return None

    async def fetch(self, file: str) -> bytes:  # noqa: ARG002
        return b""

    async def who(self) -> str:
        return "instant"


def reference_of(number: int) -> str:
    return f"KT-{number:07}"


async def fill(url: str, count: int, next_at: datetime = EIGHT) -> SqlStore:
    """`count` active patients, each with a signed plan, waiting for the same morning dose."""
    store = await open_database(url, protocol())
    async with store.writing() as connection:
        for first in range(0, count, 5000):
            numbers = range(first, min(first + 5000, count))
            await connection.execute(patients.insert(), [_row(n, next_at) for n in numbers])
            await connection.execute(plans.insert(), [
                {"reference": reference_of(n), "version": 1, "text": TEXT.replace("KT-014", reference_of(n)),
                 "signed_by": "Dr R. Okafor", "stored_at": NIGHT, "facts": {}} for n in numbers])
    return store


async def rows_only(store: SqlStore, count: int, at: datetime, start: int = 0) -> None:
    """Patients' rows: what waiting costs. (Plans are stored once when signed, whatever waits.)"""
    for first in range(start, start + count, 20_000):
        async with store.writing() as connection:
            await connection.execute(patients.insert(), [
                _row(n, at) for n in range(first, min(first + 20_000, start + count))])


def _row(number: int, next_at: datetime) -> dict[str, object]:
    return {"reference": reference_of(number), "state": "active", "plan_version": 1, "chat": str(10_000 + number),
            "sender": str(10_000 + number), "writer": "patient", "expanded_until": NIGHT, "next_at": next_at,
            "added_at": NIGHT, "quarantined_why": ""}


async def expand_all(agent: Agent, now: datetime) -> float:
    """Seconds of the ticks that make the morning's messages."""
    began = time.perf_counter()
    while await agent.tick(now):
        pass
    return time.perf_counter() - began


async def send_all(agent: Agent, network: Instant, clock: SetClock, count: int, paced: bool = False,
                   batch: int = 100) -> float:
    """Seconds until `count` messages have left and are marked."""
    async def trouble(*_: object) -> None:
        return None

    pacing = Pacing(with_reserve(Limits())) if paced else None
    dispatcher = Dispatcher(agent.sender, clock, trouble, pacing=pacing, batch=batch)
    began = time.perf_counter()
    running = asyncio.create_task(dispatcher.run())
    while network.sent < count:
        await asyncio.sleep(0.002)
    dispatcher.stop()
    await running
    return time.perf_counter() - began


def agent_on(store: SqlStore, network: Instant) -> Agent:
    return Agent(store, network, protocol(), Addresses("-500"), holder="bench")


async def peak(url: str, count: int) -> dict[str, float]:
    """The eight o'clock peak: expand and send."""
    store = await fill(url, count)
    network = Instant()
    agent = agent_on(store, network)
    expanding = await expand_all(agent, EIGHT - timedelta(minutes=10))
    sending = await send_all(agent, network, SetClock(EIGHT), count)
    await store.close()
    return {"expand_per_s": count / expanding, "send_per_s": count / sending, "send_s": sending}


def one_plan(number: int) -> Plan:
    return read_plan(TEXT.replace("KT-014", reference_of(number)), "benchmark", protocol())


async def change_plan(store: SqlStore, reference: str, plan: Plan, now: datetime) -> float:
    """Seconds to sign a new version of one patient's plan: store it, and have the timeline made anew."""
    began = time.perf_counter()
    async with store.work() as work:
        version = await work.add_plan(reference, plan, now)
        row = PatientRow(reference, PatientState.ACTIVE, version, "1", "1")
        await work.apply(reference, Changes(row=row, replan=True), now)
    return time.perf_counter() - began


def now() -> datetime:
    return datetime.now(UTC)  # noqa: TID251 - a benchmark


if __name__ == "__main__":
    import cProfile
    import pstats
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        profile = cProfile.Profile()
        if "--profile" in sys.argv:
            profile.enable()
        print(asyncio.run(peak(f"sqlite:///{folder}/x.db", 3000)))
        if "--profile" in sys.argv:
            profile.disable()
            pstats.Stats(profile).sort_stats("tottime").print_stats(28)

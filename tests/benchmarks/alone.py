"""What only this program is asked: cost of waiting, restart, a changed plan, words to flag, the curve of cost."""

from __future__ import annotations

import asyncio
import contextlib
import statistics
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import ours
import sqlalchemy as sa
from contest import FORK, dose_facts, payloads
from peers import PEERS

from bot.chat.types import Incoming, IncomingKind
from bot.serving import Service
from bot.texts import render as patient_render
from scheduler.clock import SetClock, WallClock
from scheduler.messages import Message, Priority, To
from scheduler.storage.sql import message_row
from scheduler.storage.tables import outbox

SIZES = (1000, 3000, 10_000, 30_000, 100_000, 300_000, 1_000_000)
Point = tuple[int, float, float]


async def curve(folder: str, most: int) -> list[Point]:
    """(stored patients, ms to look for work when there is none, ms to expand and claim for 100 who are due)."""
    store = await ours.fill(f"sqlite:///{folder}/curve.db", 100 * len(SIZES), ours.EIGHT)
    agent = ours.agent_on(store, ours.Instant())
    points: list[Point] = []
    held, at = 100 * len(SIZES), ours.EIGHT
    async with store.writing() as connection:        # groups of a hundred, due one after the other
        await connection.execute(sa.text("UPDATE patients SET next_at = '2027-01-01 00:00:00.000000'"))
    later = ours.EIGHT + timedelta(days=300)
    for group, size in enumerate(n for n in SIZES if n <= most):
        await ours.rows_only(store, size - held, later, held)
        held = size
        looks = []
        for _ in range(15):
            began = time.perf_counter()
            await agent.tick(at - timedelta(hours=3))
            await agent.next_due()
            async with store.work() as work:
                await work.claim(at - timedelta(hours=3), 100, at, "x")
            looks.append(time.perf_counter() - began)
        names = [ours.reference_of(n) for n in range(group * 100, group * 100 + 100)]
        async with store.writing() as connection:
            await connection.execute(ours.patients.update().where(ours.patients.c.reference.in_(names))
                                     .values(next_at=at, expanded_until=at - timedelta(hours=1)))
        began = time.perf_counter()
        while await agent.tick(at - timedelta(minutes=5)):
            pass
        async with store.work() as work:
            await work.claim(at + timedelta(minutes=1), 100, at, "x")
        points.append((size, 1000 * statistics.median(looks), 1000 * (time.perf_counter() - began)))
    await store.close()
    return points


async def plan_change(folder: str, others: int) -> float:
    """ms to sign a new version of a plan of 120 days with so many other patients stored; the median of 30."""
    store = await ours.fill(f"sqlite:///{folder}/plan{others}.db", 30)
    await ours.rows_only(store, others, ours.EIGHT, 30)
    times = [await ours.change_plan(store, ours.reference_of(n), ours.one_plan(n), ours.NIGHT) for n in range(30)]
    await store.close()
    return 1000 * statistics.median(times)


async def restart(folder: str, patients: int) -> tuple[float, float]:
    """ms from opening the database to the first message sent, ours and bare SQL, with so many patients stored."""
    store = await ours.fill(f"sqlite:///{folder}/restart.db", 200)
    await ours.rows_only(store, patients, ours.EIGHT + timedelta(days=3), 200)
    await ours.expand_all(ours.agent_on(store, ours.Instant()), ours.EIGHT - timedelta(minutes=10))
    await store.close()
    first: list[float] = []
    began = time.perf_counter()

    class Enough(Exception):
        pass

    def done(_: str) -> None:
        if not first:
            first.append(1000 * (time.perf_counter() - began))

    def done_bare(_: str) -> None:
        done(_)
        raise Enough

    store = await ours.open_database(f"sqlite:///{folder}/restart.db", ours.protocol())
    network = ours.Instant(done)
    await ours.send_all(ours.agent_on(store, network), network, SetClock(ours.EIGHT), 1)
    await store.close()
    mine = first.pop()
    bare = PEERS[1]
    bare.fill(folder, payloads(patients, dose_facts()), datetime.now(UTC) - timedelta(seconds=1))  # noqa: TID251
    began = time.perf_counter()
    with contextlib.suppress(Enough):
        bare.work(folder, done_bare, patients)
    return mine, first[0]


async def words_to_flag(folder: str, waiting: int, asks: int) -> tuple[float, float, float]:
    """Under the peak at the network's 30 a second: seconds from a patient's words to the flag leaving (p50, worst), and
    messages a second."""
    store = await ours.fill(f"sqlite:///{folder}/words.db", asks)
    real, facts = WallClock().now(), dose_facts()
    async with store.writing() as connection:
        await connection.execute(sa.text("UPDATE patients SET next_at = NULL"))
        for first in range(0, waiting, 5000):
            await connection.execute(outbox.insert(), [
                message_row(Message(f"w{n}", To.CHAT, "dose", real, None, None, Priority.DOSE, facts, None, str(n)))
                for n in range(first, min(first + 5000, waiting))])
    network = ours.Instant()
    service = Service(store, network, ours.protocol(),  # type: ignore[arg-type]
                      ours.Addresses("-500", "-600"), WallClock())
    service.agent.sender.render = _either(service.agent.sender.render)
    running = asyncio.create_task(service.run(asyncio.Event().wait))  # type: ignore[arg-type]
    await service.arrived.wait()
    await asyncio.sleep(2)
    asked: dict[str, float] = {}
    sent_before, began = network.sent, time.monotonic()
    for n in range(asks):
        token = f"z{n:04}z"
        asked[token] = time.monotonic()
        await service.take([Incoming(f"u{n}", str(10_000 + n), str(10_000 + n), WallClock().now(), IncomingKind.TEXT,
                                     f"the meat is stuck and I am drooling {token}")])
        await asyncio.sleep(0.5 if n % 12 < 6 else 10.0)    # six in a row; never more than a group takes in a minute
    await asyncio.sleep(2)
    rate = (network.sent - sent_before) / (time.monotonic() - began)
    service.stop()
    await running
    await store.close()
    late = sorted(next((at - asked[token] for text, at in network.urgent.items() if token in text), 99.0)
                  for token in asked)
    return late[len(late) // 2], late[-1], rate


def _either(render: Callable[..., Any]) -> Callable[..., Any]:
    return lambda message: patient_render.render(message) if message.kind == "dose" else render(message)


def idle(folder: str, patients: int, seconds: int) -> tuple[float, float]:
    """CPU seconds a minute of a serving process with nothing due, and its memory in MB, in a process of its own."""
    results = FORK.Queue()
    url = f"sqlite:///{folder}/idle{patients}.db"
    later = ours.EIGHT + timedelta(days=9000)

    async def fill() -> None:
        store = await ours.fill(url, 10, later)
        await ours.rows_only(store, patients, later, 10)
        await store.close()

    async def serve() -> None:
        store = await ours.open_database(url, ours.protocol())
        service = Service(store, ours.Instant(), ours.protocol(),  # type: ignore[arg-type]
                          ours.Addresses("-500"), WallClock())
        running = asyncio.create_task(service.run(asyncio.Event().wait))  # type: ignore[arg-type]
        await service.arrived.wait()
        await asyncio.sleep(3)
        cpu = time.process_time()
        await asyncio.sleep(seconds)
        used = time.process_time() - cpu
        status = Path("/proc/self/status").read_text()
        memory = int(next(line for line in status.splitlines() if line.startswith("VmRSS")).split()[1]) / 1024
        results.put((used * 60 / seconds, memory))
        service.stop()
        await running

    for work in (fill, serve):
        process = FORK.Process(target=lambda work=work: asyncio.run(work()))
        process.start()
        if work is serve:
            found = results.get(timeout=seconds + 120)
        process.join()
    return float(found[0]), float(found[1])

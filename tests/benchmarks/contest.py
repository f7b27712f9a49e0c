"""What every contestant is asked, each in a process of its own: the peak, a kill in its middle, what waiting costs."""

from __future__ import annotations

import asyncio
import gc
import multiprocessing
import os
import signal
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from queue import Empty
from typing import Any

import ours
import psycopg
from peers import PEERS, Payload, Peer, database_size, plain_url
from postgres import Server

from scheduler.clock import SetClock
from scheduler.messages import Message
from scheduler.ports import Due
from scheduler.record import Record
from scheduler.storage.sql import message_row
from scheduler.storage.tables import outbox
from scheduler.tick import expand

A_DAY = 6.14                    # messages of one patient on one day
FORK = multiprocessing.get_context("fork")
Done = Callable[[str], None]


@dataclass(frozen=True)
class Contestant:
    """Who holds, sends and marks. work(place, done, total) sends all that is due."""

    name: str
    where: str                                  # "sqlite", "postgresql" or "memory"
    fill: Callable[[str, int], None]
    work: Callable[[str, Done, int], None]


@dataclass(frozen=True)
class Peak:
    """Seconds since the work began; messages a second. done: how many were sent."""

    done: int
    rate: float = 0.0
    first: float = 0.0
    half: float = 0.0
    p99: float = 0.0


def morning() -> tuple[Message, ...]:
    """What one patient's morning dose puts on the outbox, from the real timeline: reminder, repeat, close."""
    due = Due("KT-0000000", ours.one_plan(0), 1, Record(), ours.EIGHT - timedelta(minutes=20))
    return expand(due, ours.EIGHT + timedelta(hours=1), ours.protocol()).messages


def dose_facts() -> dict[str, Any]:
    """What a dose reminder carries."""
    return dict(next(message.facts for message in morning() if message.kind == "dose"))


def payloads(count: int, facts: dict[str, Any]) -> Iterator[Payload]:
    return ({"key": f"KT-{n:07}", "facts": facts} for n in range(count))


def contestants() -> list[Contestant]:
    facts = dose_facts()

    def filled(peer: Peer) -> Callable[[str, int], None]:
        past = datetime.now(UTC) - timedelta(seconds=2)  # noqa: TID251 - a benchmark
        return lambda place, count: peer.fill(place, payloads(count, facts), past)

    own = [Contestant("**Coatwell**", where, ours_fill, ours_work) for where in ("sqlite", "postgresql")]
    return own + [Contestant(peer.name, peer.where, filled(peer), peer.work) for peer in PEERS]


# --- this program


def ours_url(place: str) -> str:
    return place if place.startswith("postgresql") else f"sqlite:///{place}/ours.db"


def ours_fill(place: str, count: int) -> None:
    """Patients and their morning's messages as a tick would have put them."""
    async def main() -> None:
        store = await ours.open_database(ours_url(place), ours.protocol())
        await ours.rows_only(store, count, ours.EIGHT + timedelta(hours=2))
        made = morning()
        for first in range(0, count, 5000):
            names = [ours.reference_of(n) for n in range(first, min(first + 5000, count))]
            async with store.writing() as connection:
                await connection.execute(outbox.insert(), [
                    message_row(replace(one, key=f"{name}:{one.key}", reference=name)) for name in names
                    for one in made])
        await store.close()
    asyncio.run(main())


def ours_work(place: str, done: Done, total: int) -> None:  # noqa: ARG001 - as the peers
    async def main() -> None:
        store = await ours.open_database(ours_url(place), ours.protocol())
        network = ours.Instant(done)
        agent = ours.agent_on(store, network)
        async with store.work() as work:
            await work.take_back(await work.holders())
        while left := (await store.counts(ours.EIGHT))["due"]:
            await ours.send_all(agent, network, SetClock(ours.EIGHT), network.sent + left)
        await store.close()
    asyncio.run(main())


# --- the measurements


def peak(one: Contestant, place: str, count: int, limit: float) -> Peak:
    """`count` messages due at once; at most `limit` seconds to store them, and as long to send them."""
    results = FORK.Queue()

    def child() -> None:
        _quiet()
        one.fill(place, count)
        gc.collect()
        gc.freeze()              # as `serve` does; the same for all
        marks: list[float] = []
        seen: set[str] = set()

        def done(key: str) -> None:
            seen.add(key)
            marks.append(time.perf_counter() - began)

        results.put(Peak(0))
        began = time.perf_counter()
        one.work(place, done, count)
        marks.sort()
        results.put(Peak(len(seen), len(marks) / marks[-1], marks[0], marks[len(marks) // 2],
                         marks[int(len(marks) * 0.99)]))

    process = FORK.Process(target=child)
    process.start()
    found = Peak(0)
    with suppress(Empty):
        results.get(timeout=limit)
        found = results.get(timeout=limit)
    _end(process)
    return found


def killed(one: Contestant, place: str, count: int, limit: float) -> tuple[int, int]:
    """(lost, repeated) after SIGKILL in the middle and one restart."""
    with tempfile.NamedTemporaryFile() as file:
        def child(first: bool) -> None:
            _quiet()
            if first:
                one.fill(place, count)
            out = os.open(file.name, os.O_WRONLY | os.O_APPEND)
            one.work(place, lambda key: os.write(out, f"{key}\n".encode()) and None, count)

        def lines() -> list[str]:
            return Path(file.name).read_text().split()

        process = FORK.Process(target=child, args=(True,))
        process.start()
        until = time.monotonic() + limit
        while len(lines()) < count * 0.4 and process.is_alive() and time.monotonic() < until:
            time.sleep(0.002)
        if process.pid is not None and process.is_alive():
            os.kill(process.pid, signal.SIGKILL)
        process.join()
        again = FORK.Process(target=child, args=(False,))
        again.start()
        again.join(limit)
        _end(again)
        seen = Counter(lines())
        return count - len(seen), sum(seen.values()) - len(seen)


def stored(where: str, peer: Peer | None, patients: int, limit: float, running: Server) -> tuple[float, int] | None:
    """Seconds and bytes to hold what so many patients wait for: one day's messages, or our one row a patient. None
    when it is not done within `limit` seconds."""
    results = FORK.Queue()
    with tempfile.TemporaryDirectory() as folder:
        place = running.new_database() if where == "postgresql" else folder

        def child() -> None:
            _quiet()
            if peer is None:
                results.put(asyncio.run(_ours_stored(place, patients)))
                return
            later = datetime.now(UTC) + timedelta(days=30)  # noqa: TID251 - a benchmark
            waiting: Iterable[Payload] = payloads(int(patients * A_DAY), dose_facts())
            began = time.perf_counter()
            peer.fill(place, waiting, later)
            results.put((time.perf_counter() - began, _size_of(place)))

        process = FORK.Process(target=child)
        process.start()
        found: tuple[float, int] | None = None
        with suppress(Empty):
            found = results.get(timeout=limit)
        _end(process)
        if where == "postgresql":
            running.drop(place)
        return found


async def _ours_stored(place: str, patients: int) -> tuple[float, int]:
    store = await ours.open_database(ours_url(place), ours.protocol())
    before = _size_of(place)
    began = time.perf_counter()
    await ours.rows_only(store, patients, ours.EIGHT)
    seconds = time.perf_counter() - began
    await store.close()      # SQLite's last connection puts the log into the file
    return seconds, _size_of(place) - before


def _size_of(place: str) -> int:
    """Bytes of a database with its indexes."""
    if place.startswith("postgresql"):
        with psycopg.connect(plain_url(place), autocommit=True) as db:
            db.execute("VACUUM FULL")
            row = db.execute("SELECT sum(pg_total_relation_size(oid)) FROM pg_class WHERE relkind = 'r' AND"
                             " relnamespace = 'public'::regnamespace").fetchone()
            return int(row[0] or 0) if row else 0
    return database_size(Path(place))


def _quiet() -> None:
    devnull = os.open(os.devnull, os.O_WRONLY)
    os.dup2(devnull, 2)


def _end(process: Any) -> None:
    process.join(2)
    if process.is_alive():
        os.kill(process.pid, signal.SIGKILL)
        process.join()

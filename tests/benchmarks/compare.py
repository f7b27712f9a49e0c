"""What delivery costs, beside the schedulers and queues that one would otherwise use, and beside bare SQL. One command:

    .venv/bin/uv pip install --group bench
    .venv/bin/python tests/benchmarks/compare.py [--messages 5000] [--quick]

Prints a Markdown table and draws deploy/pictures/cost.png. All in one run on one machine: the ratios count, not the
figures. The work is the same for all: render the message from its facts, send it over an instant network, mark it.
"""

from __future__ import annotations

import argparse
import asyncio
import contextlib
import multiprocessing
import os
import signal
import statistics
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE), str(HERE.parent / "support")]

import ours  # noqa: E402
import psycopg  # noqa: E402
import sqlalchemy as sa  # noqa: E402
from peers import PEERS, Payload, Peer, database_size, plain_url  # noqa: E402
from postgres import Server, server  # noqa: E402

from bot.chat.types import Incoming, IncomingKind  # noqa: E402
from bot.serving import Service  # noqa: E402
from scheduler.clock import SetClock, WallClock  # noqa: E402
from scheduler.ports import Due  # noqa: E402
from scheduler.record import Record  # noqa: E402
from scheduler.tick import expand  # noqa: E402

A_DAY = 6.14                    # messages of one patient on one day
FORK = multiprocessing.get_context("fork")


def dose_facts() -> dict[str, Any]:
    """What a dose reminder carries, from the real timeline."""
    due = Due("KT-0000000", ours.one_plan(0), 1, Record(), ours.EIGHT - timedelta(minutes=20))
    made = expand(due, ours.EIGHT + timedelta(hours=1), ours.protocol())
    return dict(next(message.facts for message in made.messages if message.kind == "dose"))


def payloads(count: int, facts: dict[str, Any]) -> Iterator[Payload]:
    return ({"key": f"KT-{n:07}", "facts": facts} for n in range(count))


def timed(work: Callable[[], Any]) -> float:
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def size_of(place: str) -> int:
    """Bytes of a database with its indexes."""
    if place.startswith("postgresql"):
        with psycopg.connect(plain_url(place), autocommit=True) as db:
            db.execute("VACUUM FULL")
            row = db.execute("SELECT sum(pg_total_relation_size(oid)) FROM pg_class WHERE relkind = 'r' AND"
                             " relnamespace = 'public'::regnamespace").fetchone()
            return int(row[0] or 0) if row else 0
    return database_size(Path(place))


# --- b. the peak, f. killed in the peak


def ours_fill(place: str, count: int) -> None:
    async def main() -> None:
        store = await ours.fill(ours_url(place), count)
        await ours.expand_all(ours.agent_on(store, ours.Instant()), ours.EIGHT - timedelta(minutes=10))
        await store.close()
    asyncio.run(main())


def ours_url(place: str) -> str:
    return place if place.startswith("postgresql") else f"sqlite:///{place}/ours.db"


def ours_work(place: str, done: Callable[[str], None], total: int) -> None:  # noqa: ARG001 - as the peers
    async def main() -> None:
        store = await ours.open_database(ours_url(place), ours.protocol())
        network = ours.Instant()
        send = network.send

        async def told(address: str, outgoing: Any) -> str:
            done(address)
            return await send(address, outgoing)

        network.send = told  # type: ignore[method-assign]
        agent = ours.agent_on(store, network)
        async with store.work() as work:
            await work.take_back(await work.holders())
        left = 1
        while left:
            await ours.send_all(agent, network, SetClock(ours.EIGHT), network.sent + 1)
            left = (await store.counts(ours.EIGHT))["due"]
        await store.close()
    asyncio.run(main())


def contestants(facts: dict[str, Any]) -> list[tuple[str, str, Callable[[str, int], None], Any]]:
    def filled(peer: Peer) -> Callable[[str, int], None]:
        past = datetime.now(UTC) - timedelta(seconds=2)  # noqa: TID251 - a benchmark
        return lambda place, count: peer.fill(place, payloads(count, facts), past)

    found: list[tuple[str, str, Callable[[str, int], None], Any]] = [
        ("**Coatwell**", "sqlite", ours_fill, ours_work), ("**Coatwell**", "postgresql", ours_fill, ours_work)]
    return found + [(peer.name, peer.where, filled(peer), peer.work) for peer in PEERS]


def peak(place: str, fill: Callable[[str, int], None], work: Any, count: int, limit: float) -> tuple[float, int]:
    """Messages a second in a process of its own, and how many were done; at most `limit` seconds."""
    results = FORK.Queue()

    def child() -> None:
        quiet()
        fill(place, count)
        seen: Counter[str] = Counter()
        marks: list[float] = []

        def done(key: str) -> None:
            seen[key] += 1
            marks.append(time.perf_counter())

        began = time.perf_counter()
        results.put(("began", 0.0, 0))
        work(place, done, count)
        results.put(("done", len(marks) / (marks[-1] - began), len(seen)))

    process = FORK.Process(target=child)
    process.start()
    rate, done = 0.0, 0
    try:
        results.get(timeout=limit)
        _, rate, done = results.get(timeout=limit)
    except Exception:
        rate = 0.0
    end(process)
    return rate, done


def killed(place: str, fill: Callable[[str, int], None], work: Any, count: int, limit: float) -> tuple[int, int]:
    """(lost, repeated) after SIGKILL in the middle and one restart."""
    with tempfile.NamedTemporaryFile() as file:
        def child(first: bool) -> None:
            quiet()
            if first:
                fill(place, count)
            out = os.open(file.name, os.O_WRONLY | os.O_APPEND)
            work(place, lambda key: os.write(out, f"{key}\n".encode()), count)

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
        end(again)
        seen = Counter(lines())
        return count - len(seen), sum(seen.values()) - len(seen)


def quiet() -> None:
    devnull = os.open(os.devnull, os.O_WRONLY)
    os.dup2(devnull, 2)


def end(process: Any) -> None:
    process.join(2)
    if process.is_alive():
        os.kill(process.pid, signal.SIGKILL)
        process.join()


# --- a. storing


def storing(where: str, peer: Peer | None, facts: dict[str, Any], count: int, running: Server) -> tuple[float, int]:
    """Seconds and bytes to hold what `count` patients wait for: one day's messages, or our one row a patient."""
    with tempfile.TemporaryDirectory() as folder:
        place = running.new_database() if where == "postgresql" else folder
        later = datetime.now(UTC) + timedelta(days=30)  # noqa: TID251 - a benchmark
        if peer is not None:
            seconds = timed(lambda: peer.fill(place, payloads(int(count * A_DAY), facts), later))
            return seconds, size_of(place)
        return asyncio.run(_ours_stored(place, count))


async def _ours_stored(place: str, count: int) -> tuple[float, int]:
    store = await ours.open_database(ours_url(place), ours.protocol())
    before = size_of(place)
    began = time.perf_counter()
    await rows_only(store, count, ours.EIGHT)
    seconds = time.perf_counter() - began
    await store.close()      # SQLite's last connection puts the log into the file
    return seconds, size_of(place) - before


async def rows_only(store: Any, count: int, at: datetime, start: int = 0) -> None:
    """Patients' rows: what waiting costs. (Plans are stored once when signed, whatever waits.)"""
    for first in range(start, start + count, 20_000):
        async with store.writing() as connection:
            await connection.execute(ours.patients.insert(), [
                {"reference": ours.reference_of(n), "state": "active", "plan_version": 1, "chat": str(10_000 + n),
                 "sender": str(10_000 + n), "writer": "patient", "expanded_until": ours.NIGHT, "next_at": at,
                 "added_at": ours.NIGHT, "quarantined_why": ""}
                for n in range(first, min(first + 20_000, start + count))])


# --- the curve, c. to h.


async def curve(folder: str, most: int) -> list[tuple[int, float, float]]:
    """(stored patients, ms to look for work when there is none, ms to expand and claim for 100 who are due)."""
    store = await ours.fill(f"sqlite:///{folder}/curve.db", 100 * 7, ours.EIGHT)
    agent = ours.agent_on(store, ours.Instant())
    points: list[tuple[int, float, float]] = []
    stored, at = 700, ours.EIGHT
    async with store.writing() as connection:        # seven groups of a hundred, due one after the other
        await connection.execute(sa.text("UPDATE patients SET next_at = '2027-01-01 00:00:00.000000'"))
    later = ours.EIGHT + timedelta(days=300)
    for group, size in enumerate(n for n in (1000, 3000, 10_000, 30_000, 100_000, 300_000, 1_000_000) if n <= most):
        await rows_only(store, size - stored, later, stored)
        stored = size
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
        await agent.tick(at - timedelta(minutes=5))
        async with store.work() as work:
            await work.claim(at + timedelta(minutes=1), 100, at, "x")
        points.append((size, 1000 * statistics.median(looks), 1000 * (time.perf_counter() - began)))
    await store.close()
    return points


async def plan_change(folder: str, others: int) -> float:
    """ms to sign a new version of a plan of 120 days with so many other patients stored; the median of 30."""
    store = await ours.fill(f"sqlite:///{folder}/plan.db", 30)
    await rows_only(store, others, ours.EIGHT, 30)
    times = [await ours.change_plan(store, ours.reference_of(n), ours.one_plan(n), ours.NIGHT) for n in range(30)]
    await store.close()
    return 1000 * statistics.median(times)


async def restart(folder: str, stored: int) -> tuple[float, float]:
    """ms from opening the database to the first message sent, ours and bare SQL, with so many patients stored."""
    store = await ours.fill(f"sqlite:///{folder}/restart.db", 200)
    await rows_only(store, stored, ours.EIGHT + timedelta(days=3), 200)
    await ours.expand_all(ours.agent_on(store, ours.Instant()), ours.EIGHT - timedelta(minutes=10))
    await store.close()
    began = time.perf_counter()
    store = await ours.open_database(f"sqlite:///{folder}/restart.db", ours.protocol())
    network = ours.Instant()
    await ours.send_all(ours.agent_on(store, network), network, SetClock(ours.EIGHT), 1)
    mine = network.at[0] - 0.0
    opened = 1000 * (mine - (time.monotonic() - (time.perf_counter() - began)))
    await store.close()
    bare = PEERS[1]
    bare.fill(folder, payloads(stored, dose_facts()), datetime.now(UTC) - timedelta(seconds=1))  # noqa: TID251
    first: list[float] = []
    began = time.perf_counter()

    class Enough(Exception):
        pass

    def done(_: str) -> None:
        first.append(time.perf_counter() - began)
        raise Enough

    with contextlib.suppress(Enough):
        bare.work(folder, done, stored)
    return opened, 1000 * first[0]


async def words_to_flag(folder: str, waiting: int, asks: int) -> tuple[float, float, float]:
    """Under the peak at the network's 30 a second: seconds from a patient's words to the flag leaving (p50, p99), and
    messages a second."""
    store = await ours.fill(f"sqlite:///{folder}/words.db", asks)
    real = WallClock().now()
    async with store.writing() as connection:
        await connection.execute(sa.text("UPDATE patients SET next_at = NULL"))
    facts = dose_facts()
    async with store.writing() as connection:
        from scheduler.messages import Message, Priority, To
        from scheduler.storage.sql import message_row
        from scheduler.storage.tables import outbox
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
    from bot.texts import render as patient_render

    return lambda message: patient_render.render(message) if message.kind == "dose" else render(message)


def idle(folder: str, stored: int, seconds: int) -> tuple[float, float]:
    """CPU seconds a minute of a serving process with nothing due, and its memory in MB, in a process of its own."""
    results = FORK.Queue()

    def child() -> None:
        async def main() -> None:
            store = await ours.fill(f"sqlite:///{folder}/idle.db", 10, ours.EIGHT + timedelta(days=9000))
            await rows_only(store, stored, ours.EIGHT + timedelta(days=9000), 10)
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
        asyncio.run(main())

    process = FORK.Process(target=child)
    process.start()
    found = results.get(timeout=seconds + 120)
    end(process)
    return float(found[0]), float(found[1])


def draw(points: list[tuple[int, float, float]], path: Path) -> None:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6.4, 3.6), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    sizes = [point[0] for point in points]
    axes.plot(sizes, [point[1] for point in points], marker="o", color="#0b5394", label="look for work, none due")
    axes.plot(sizes, [point[2] for point in points], marker="s", color="#b45f06", label="expand and claim for 100 due")
    axes.set_xscale("log")
    axes.set_yscale("log")
    axes.set_xlabel("patients stored")
    axes.set_ylabel("milliseconds")
    axes.grid(True, which="both", alpha=0.25)
    axes.legend(frameon=False)
    path.parent.mkdir(exist_ok=True)
    figure.savefig(path, dpi=130)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--messages", type=int, default=5000)
    parser.add_argument("--patients", type=int, default=10_000)
    parser.add_argument("--most", type=int, default=1_000_000, help="patients of the curve's last point")
    parser.add_argument("--limit", type=float, default=60.0, help="seconds that one contestant may take")
    parser.add_argument("--only", default="", help="letters of the measurements wanted, e.g. 'bf'")
    args = parser.parse_args()
    facts = dose_facts()
    wanted = args.only or "abcdefghk"
    with server() as running:
        if "b" in wanted or "f" in wanted:
            print(f"\n{args.messages} due at once\n\n| | database | messages a second | lost after a kill | twice |"
                  "\n|---|---|---|---|---|", flush=True)
            for name, where, fill, work in contestants(facts):
                rate, done, lost, twice = 0.0, 0, "", ""
                for what in "bf":
                    if what not in wanted or (what == "f" and where == "memory"):
                        continue
                    with tempfile.TemporaryDirectory() as folder:
                        place = running.new_database() if where == "postgresql" else folder
                        if what == "b":
                            rate, done = peak(place, fill, work, args.messages, args.limit)
                        else:
                            lost, twice = map(str, killed(place, fill, work, args.messages, args.limit))
                shown = f"{rate:,.0f}" if done == args.messages else f"(not done in {args.limit:.0f} s)"
                if where == "memory":
                    lost, twice = "all that waits", "0"
                print(f"| {name} | {where} | {shown} | {lost} | {twice} |", flush=True)
        if "a" in wanted:
            print(f"\n{args.patients} patients waiting, {A_DAY} messages a patient-day; one day held\n\n"
                  "| | database | seconds | bytes a patient |\n|---|---|---|---|", flush=True)
            for name, where, peer in [("**Coatwell**", "sqlite", None), ("**Coatwell**", "postgresql", None),
                                      *((peer.name, peer.where, peer) for peer in PEERS if peer.render)]:
                if where == "memory":
                    continue
                few = args.patients if peer is None or "bare" in name else min(args.patients, 500)
                seconds, size = storing(where, peer, facts, few, running)
                print(f"| {name} | {where} | {seconds * args.patients / few:,.1f} | {size / few:,.0f} |", flush=True)
    with tempfile.TemporaryDirectory() as folder:
        others(folder, wanted, args)
    return 0


def others(folder: str, wanted: str, args: Any) -> None:
    print("\n| | measured | target |\n|---|---|---|", flush=True)
    if "c" in wanted or "h" in wanted:
        cpu, memory = idle(folder, 100_000, 40)
        print(f"| c. CPU of a minute with nothing due, 100,000 patients | {cpu:.2f} s | under 0.1 s |")
        print(f"| h. memory of that process | {memory:.0f} MB | under 150 MB |", flush=True)
    if "d" in wanted:
        mine, bare = asyncio.run(restart(folder, 100_000))
        print(f"| d. database opened to first message, 100,000 patients (bare SQL {bare:.0f} ms) | {mine:.0f} ms |"
              " under twice bare SQL |", flush=True)
    if "e" in wanted:
        few, many = asyncio.run(plan_change(folder, 1000)), 0.0
        with tempfile.TemporaryDirectory() as other:
            many = asyncio.run(plan_change(other, 100_000))
        print(f"| e. a new version of a plan, with 1,000 and with 100,000 others | {few:.1f} and {many:.1f} ms |"
              " under 5 ms |", flush=True)
    if "g" in wanted:
        half, most, rate = asyncio.run(words_to_flag(folder, 20_000, 24))
        print("| g. words in to flag out, 20,000 waiting, 30 a second (p50, worst of 24) |"
              f" {half:.2f} and {most:.2f} s | under 1 s |")
        print(f"| b. messages a second at the network's 30 | {rate:.1f} | close to 30 |", flush=True)
    if "k" in wanted:
        points = asyncio.run(curve(folder, args.most))
        draw(points, HERE.parents[1] / "deploy" / "pictures" / "cost.png")
        for size, look, work in points:
            print(f"| {size:,} patients stored: look for work; expand and claim 100 | {look:.1f} ms; {work:.0f} ms | |",
                  flush=True)


if __name__ == "__main__":
    sys.exit(main())

"""Kill the program at random instants, hundreds of times, under load; then count what was lost and what came twice.

    .venv/bin/python tests/benchmarks/crash.py --kills 300 --on sqlite
    .venv/bin/python tests/benchmarks/crash.py --kills 300 --on postgresql    three processes; the server restarted once

The real service over real HTTP against the local Bot API, in processes of their own, killed with SIGKILL. Patients get
their dose reminders, tap 'Taken now', ask things, and some report an emergency. What the network holds in the end is
the truth that is counted; the program's own records are compared with it.
"""

from __future__ import annotations

import argparse
import asyncio
import json
import multiprocessing
import os
import random
import signal
import sys
import tempfile
import time
from collections import Counter, defaultdict
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1] / "support"))

from botapi import BotApi
from postgres import Server, server
from stores import patient, protocol

from bot.case import PatientState
from bot.ports import Store
from bot.storage.opening import open_store
from scheduler.localtime import instant
from scheduler.messages import SendState, To
from scheduler.planfile import read_plan

CARE = -500
PLAN = (Path(__file__).parents[2] / "fixtures" / "plans" / "ok" / "kt-014.toml").read_text(encoding="utf-8")
# To a tap that waited at the network; to one by a patient whose doses are held after an emergency
OTHER_ANSWERS = ("When did you take it", "Noted that you took it")
FIRST_DOSE = 45                                  # minutes past seven, by the plan's meals


class Shifted:
    """The machine's clock, moved so that the run begins shortly before the morning dose."""

    def __init__(self, by: timedelta) -> None:
        self._by = by

    def now(self) -> datetime:
        return datetime.now(UTC) + self._by  # noqa: TID251 - a clock


def live(url: str, api: str, token: str, shift: timedelta, log: str) -> None:
    """One process's life, as `coatwell serve` lives it."""
    os.setsid()
    os.dup2(os.open(log, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o600), 2)
    asyncio.run(_live(url, api, token, shift))


async def _live(url: str, api: str, token: str, shift: timedelta) -> None:
    from bot.chat.telegram import TelegramChat
    from bot.errors import TroubleOutside
    from bot.sending import Addresses
    from bot.serving import Service, poller

    while True:
        try:
            store = await open_store(url, protocol())
            break
        except TroubleOutside:       # the database server is being restarted: what a service manager does
            await asyncio.sleep(0.2)
    async with TelegramChat(token, api) as chat:
        service = Service(store, chat, protocol(), Addresses(str(CARE)), Shifted(shift))
        await service.run(poller(service, chat))
    await store.close()


@dataclass
class Load:
    """Patients on their phones: they tap, ask and, some of them, are in trouble."""

    api: BotApi
    users: list[Any]
    dice: random.Random
    asked: list[str] = field(default_factory=list)
    alarmed: list[str] = field(default_factory=list)
    tapped: set[int] = field(default_factory=set)
    _seen: Counter[int] = field(default_factory=Counter)
    _next_alarm: float = 0.0

    def step(self) -> None:
        for user in self.users:
            posts = user.room.by_bot
            for post in posts[self._seen[user.id]:]:
                if "Taken now" in post.labels and user.id not in self.tapped:
                    self.tapped.add(user.id)
                    user.tap(post.id, "Taken now")
            self._seen[user.id] = len(posts)
        if self.dice.random() < 0.3:
            token = f"q{len(self.asked):05}"
            self.dice.choice(self.users).text(f"is there news about the parking garage {token}")
            self.asked.append(token)
        now = time.monotonic()
        fresh = len(self.alarmed)
        if now > self._next_alarm and fresh < len(self.users):
            token = f"e{fresh:05}"
            self.users[-1 - fresh].text(f"food is stuck, I cannot swallow my saliva {token}")
            self.alarmed.append(token)
            self._next_alarm = now + 10.0     # each makes two messages to a group that takes 20 a minute


def fill(url: str, patients: int, minutes: int, start: datetime) -> None:
    """Patients whose morning doses lie within the next so many minutes."""
    async def work() -> None:
        store = await open_store(url, protocol())
        for first in range(0, patients, 200):
            async with store.work() as work:
                for n in range(first, min(first + 200, patients)):
                    reference = f"KT-{n:05}"
                    text = PLAN.replace("KT-014", reference).replace('"07:15"', f'"07:{15 + n % minutes:02}"')
                    row = patient(reference, state=PatientState.ACTIVE, chat=str(10_000 + n), sender=str(10_000 + n),
                                  expanded_until=start, next_at=start)
                    await work.add_patient(row, read_plan(text, reference, protocol()), start)
        await store.close()
    asyncio.run(work())


def run(url: str, processes: int, kills: int, patients: int, seed: int, database: Server | None,
        log: str) -> dict[str, Any]:
    """One run; returns the counts."""
    dice = random.Random(seed)
    minutes = max(1, min(40, kills // 50))
    start = instant(datetime(2026, 3, 3).date(), datetime(2026, 3, 3, 7, 43).time(), "America/Denver")  # noqa: DTZ001
    fill(url, patients, minutes, start)
    shift = start - datetime.now(UTC)  # noqa: TID251 - the beginning of the run
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(["bot.serving", "bot.chat.telegram", "bot.storage.opening", "bot.escalation.hours",
                                    "holidays", "psycopg", "aiosqlite", "crash"])
    began = time.monotonic()
    with BotApi.in_thread() as api:
        api.group(CARE)
        load = Load(api, [api.user(10_000 + n) for n in range(patients)], dice)
        arguments = (url, api.api, api.token, shift, log)
        ended = 0

        def born() -> Any:
            process = context.Process(target=live, args=arguments, daemon=True)
            process.start()
            return process

        alive = [born() for _ in range(processes)]
        for number in range(kills):
            until = time.monotonic() + dice.uniform(0.3, 1.6)
            while time.monotonic() < until:
                load.step()
                time.sleep(0.1)
            place = dice.randrange(processes)
            for other, process in enumerate(alive):
                if not process.is_alive():          # by itself: it should not, and a service manager starts it anew
                    ended += 1
                    alive[other] = born()
            os.kill(alive[place].pid, signal.SIGKILL)
            alive[place].join()
            alive[place] = born()
            if database is not None and number == kills // 2:
                database.restart()
            if number % 50 == 49:
                print(f"  {number + 1} kills, {time.monotonic() - began:.0f} s", file=sys.stderr, flush=True)
        killing = time.monotonic() - began
        _drain(url, shift, load, start + timedelta(minutes=minutes + 3))
        for process in alive:
            os.kill(process.pid, signal.SIGTERM)
        for process in alive:
            process.join(20)
        found = asyncio.run(_count(url, api, load, patients))
    return {"kills": kills, "processes": processes, "seconds": round(killing), "ended by themselves": ended, **found}


def _drain(url: str, shift: timedelta, load: Load, over: datetime) -> None:
    """Until every dose of the run has come and nothing that is due waits."""
    clock = Shifted(shift)

    async def quiet() -> bool:
        store = await open_store(url, protocol())
        counts = await store.counts(clock.now())
        async with store.work() as work:     # put back by the pace of a chat, it is not due at this moment
            owed = [m for m in await work.coming(5000) if m.due_at <= clock.now() and m.to is not To.AGENT]
        await store.close()
        return not owed and counts["claimed"] == 0 and counts["unhandled"] == 0

    calm = 0
    for _ in range(1200):
        for user in load.users:                  # only the taps: nothing new is asked any more
            for post in user.room.by_bot:
                if "Taken now" in post.labels and user.id not in load.tapped:
                    load.tapped.add(user.id)
                    user.tap(post.id, "Taken now")
        calm = calm + 1 if clock.now() > over and asyncio.run(quiet()) else 0
        if calm >= 3:
            return
        time.sleep(1)


async def _count(url: str, api: BotApi, load: Load, patients: int) -> dict[str, Any]:
    store: Store = await open_store(url, protocol())
    reminders: dict[int, list[str]] = defaultdict(list)
    windows: Counter[int] = Counter()
    asked: Counter[int] = Counter()
    for user in load.users:
        for post in user.room.by_bot:
            first = post.earlier[0] if post.earlier else post.text
            if "it is time for your" in first:
                reminders[user.id].append(first)
            if "Nothing to eat or drink until" in first:
                windows[user.id] += 1
            asked[user.id] += any(answer in first for answer in OTHER_ANSWERS)
    care = "\n".join(text for post in api.room(CARE).by_bot for text in (post.text, *post.earlier))
    kept = ""
    flagged = ""
    uncertain: Counter[str] = Counter()
    async with store.work() as work:
        for n in range(patients):
            reference = f"KT-{n:05}"
            kept += "\n".join(reply.text for reply in await work.replies(reference, 500)) + "\n"
            uncertain.update(sent.message.kind for sent in await work.messages_of(reference, 200)
                             if sent.state is SendState.UNCERTAIN)
        flagged = "\n".join(flag.words for flag in await work.open_flags())
    await store.close()
    # who reported an emergency was told not to eat or drink: the program holds their doses
    due = load.users[:len(load.users) - len(load.alarmed)]
    for user in load.users:
        if user.id in load.tapped and not windows[user.id] and not asked[user.id]:
            print(f"a tap without its answer:\n{user.room.as_shown()}", file=sys.stderr)
    tapped_without_window = sum(1 for user in load.tapped if not windows[user] and not asked[user])
    return {
        "reminders due": len(due),
        "reminders lost": sum(1 for user in due if not reminders[user.id]),
        "reminders twice": sum(len(texts) - 1 for texts in reminders.values() if texts),
        "two different doses": sum(len(set(texts)) > 1 for texts in reminders.values()),
        "replies sent": len(load.asked) + len(load.alarmed) + len(load.tapped),
        "replies lost": sum(token not in kept for token in (*load.asked, *load.alarmed)) + tapped_without_window,
        "windows twice": sum(max(0, count - 1) for count in windows.values()),
        "flags due": len(load.alarmed),
        "flags lost": sum(token not in care or token not in flagged for token in load.alarmed),
        "left uncertain": dict(uncertain),
    }


@contextmanager
def database(kind: str) -> Iterator[tuple[str, Server | None]]:
    """A fresh database."""
    if kind == "sqlite":
        with tempfile.TemporaryDirectory() as folder:
            yield f"sqlite:///{folder}/coatwell.db", None
        return
    with server() as running:
        yield running.new_database(), running


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--on", choices=("sqlite", "postgresql"), default="sqlite")
    parser.add_argument("--kills", type=int, default=300)
    parser.add_argument("--patients", type=int, default=900)
    parser.add_argument("--seed", type=int, default=20260302)
    parser.add_argument("--log", default=os.devnull, help="where the processes write what they have to say")
    args = parser.parse_args()
    os.environ["NO_PROXY"] = "127.0.0.1"
    with database(args.on) as (url, running):
        found = run(url, 1 if args.on == "sqlite" else 3, args.kills, args.patients, args.seed, running, args.log)
    print(json.dumps({"on": args.on, **found}, indent=1))
    lost = found["reminders lost"] + found["replies lost"] + found["flags lost"] + found["two different doses"]
    return 1 if lost else 0


if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parent))
    sys.exit(main())

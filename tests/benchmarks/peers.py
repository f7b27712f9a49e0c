"""The peers and the floor, each with the same work: hold what is pending, and when it is due render it, send it over an
instant network, and mark it. Scheduler and queue libraries; the optional group `bench` installs them.

Each peer has fill(place, payloads) and work(place, done, total): `done(key)` is the send. A place is a folder or a
PostgreSQL address. Peers run with the settings their own documentation gives for speed where it gives any.
"""

from __future__ import annotations

import asyncio
import json
import logging
import sqlite3
import time
from collections.abc import Callable, Iterable
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import psycopg

from bot.texts import render as texts
from scheduler.messages import Message, To

Payload = dict[str, Any]
Done = Callable[[str], None]
LONG_AGO = datetime(2026, 1, 1, tzinfo=UTC)
BATCH = 100


def deliver(payload: Payload, done: Done) -> None:
    """The work that every peer does for one message."""
    texts.render(Message(payload["key"], To.PATIENT, "dose", LONG_AGO, payload["key"], facts=payload["facts"]))
    done(payload["key"])


@dataclass(frozen=True)
class Peer:
    name: str
    where: str                                   # "sqlite", "postgresql" or "memory"
    fill: Callable[[str, Iterable[Payload], datetime], None]
    work: Callable[[str, Done, int], None]
    render: bool = True


def plain_url(url: str) -> str:
    return url.replace("postgresql+psycopg://", "postgresql://")


# --- the floor: bare SQL


def _sqlite(place: str) -> sqlite3.Connection:
    connection = sqlite3.connect(f"{place}/bare.db", isolation_level=None)
    connection.execute("PRAGMA journal_mode=WAL")
    connection.execute("PRAGMA synchronous=FULL")
    return connection


def bare_sqlite_fill(place: str, payloads: Iterable[Payload], due: datetime) -> None:
    with closing(_sqlite(place)) as db:
        db.execute("CREATE TABLE due (id INTEGER PRIMARY KEY, key TEXT, facts TEXT, at TEXT, state TEXT)")
        db.execute("CREATE INDEX due_at ON due (at) WHERE state = 'waiting'")
        db.execute("CREATE INDEX in_flight ON due (id) WHERE state = 'claimed'")
        db.execute("BEGIN")
        db.executemany("INSERT INTO due (key, facts, at, state) VALUES (?, ?, ?, 'waiting')",
                       ((one["key"], json.dumps(one["facts"]), due.isoformat()) for one in payloads))
        db.execute("COMMIT")


def _bare_sqlite(rendering: bool) -> Callable[[str, Done, int], None]:
    def work(place: str, done: Done, total: int) -> None:  # noqa: ARG001
        with closing(_sqlite(place)) as db:
            db.execute("UPDATE due SET state = 'waiting' WHERE state = 'claimed'")
            now = datetime.now(UTC).isoformat()  # noqa: TID251 - a benchmark
            while rows := db.execute(
                    "UPDATE due SET state = 'claimed' WHERE id IN (SELECT id FROM due WHERE state = 'waiting'"
                    " AND at <= ? ORDER BY at LIMIT ?) RETURNING id, key, facts", (now, BATCH)).fetchall():
                for _, key, facts in rows:
                    if rendering:
                        deliver({"key": key, "facts": json.loads(facts)}, done)
                    else:
                        done(key)
                db.execute("BEGIN")
                db.executemany("UPDATE due SET state = 'sent' WHERE id = ?", ((row[0],) for row in rows))
                db.execute("COMMIT")
    return work


def bare_postgres_fill(place: str, payloads: Iterable[Payload], due: datetime) -> None:
    with psycopg.connect(plain_url(place)) as db, db.cursor() as cursor:
        cursor.execute("CREATE TABLE due (id bigserial PRIMARY KEY, key text, facts jsonb, at timestamptz, state text)")
        cursor.execute("CREATE INDEX due_at ON due (at) WHERE state = 'waiting'")
        cursor.execute("CREATE INDEX in_flight ON due (id) WHERE state = 'claimed'")
        with cursor.copy("COPY due (key, facts, at, state) FROM STDIN") as copy:
            for one in payloads:
                copy.write_row((one["key"], json.dumps(one["facts"]), due, "waiting"))


def bare_postgres_work(place: str, done: Done, total: int) -> None:  # noqa: ARG001
    with psycopg.connect(plain_url(place), autocommit=True) as db:
        db.execute("UPDATE due SET state = 'waiting' WHERE state = 'claimed'")
        while rows := db.execute(
                "UPDATE due SET state = 'claimed' WHERE id = ANY (ARRAY(SELECT id FROM due WHERE state = 'waiting' AND"
                " at <= now() ORDER BY at LIMIT %s FOR UPDATE SKIP LOCKED)) RETURNING id, key, facts",
                (BATCH,)).fetchall():
            for _, key, facts in rows:
                deliver({"key": key, "facts": facts}, done)
            db.execute("UPDATE due SET state = 'sent' WHERE id = ANY (%s)", ([row[0] for row in rows],))


# --- APScheduler's own job stores

_DONE: dict[str, Any] = {}


def run_job(payload: Payload) -> None:
    """What a stored job calls: importable by name, as the libraries ask."""
    deliver(payload, _DONE["done"])


def _apscheduler_store(place: str) -> Any:
    import sqlalchemy as sa
    from apscheduler.jobstores.sqlalchemy import SQLAlchemyJobStore

    if place.startswith("postgresql"):
        return SQLAlchemyJobStore(url=place)
    engine = sa.create_engine(f"sqlite:///{place}/apscheduler.db")
    sa.event.listen(engine, "connect", lambda connection, _: connection.execute("PRAGMA journal_mode=WAL"))
    return SQLAlchemyJobStore(engine=engine)


def apscheduler_fill(place: str, payloads: Iterable[Payload], due: datetime) -> None:
    from apscheduler.schedulers.background import BackgroundScheduler

    scheduler = BackgroundScheduler(jobstores={"default": _apscheduler_store(place)}, timezone=UTC)
    scheduler.start(paused=True)
    for one in payloads:
        scheduler.add_job("peers:run_job", "date", run_date=due, args=[one], id=one["key"], misfire_grace_time=None)
    # not shut down: that would begin to run what is due; paused, its thread does nothing more


def apscheduler_work(place: str, done: Done, total: int) -> None:  # noqa: ARG001
    from apscheduler.executors.asyncio import AsyncIOExecutor
    from apscheduler.schedulers.asyncio import AsyncIOScheduler

    _DONE["done"] = done

    async def main() -> None:
        scheduler = AsyncIOScheduler(jobstores={"default": _apscheduler_store(place)},
                                     executors={"default": AsyncIOExecutor()}, timezone=UTC)
        scheduler.start()
        while scheduler.get_jobs():
            await asyncio.sleep(0.2)
        await asyncio.sleep(0.3)
        scheduler.shutdown(wait=True)
    asyncio.run(main())


# --- python-telegram-bot's JobQueue (in memory: nothing is left after a crash)

_MEMORY: list[Payload] = []


def jobqueue_fill(place: str, payloads: Iterable[Payload], due: datetime) -> None:  # noqa: ARG001
    _MEMORY[:] = list(payloads)


def jobqueue_work(place: str, done: Done, total: int) -> None:  # noqa: ARG001
    from telegram.ext import Application, CallbackContext, ContextTypes, JobQueue

    async def main() -> None:
        left = {"n": len(_MEMORY)}

        async def send(context: CallbackContext[Any, Any, Any, Any]) -> None:
            deliver(context.job.data, done)  # type: ignore[union-attr,arg-type]
            left["n"] -= 1

        queue: Any = JobQueue()
        application = (Application.builder().token("1:a").job_queue(queue).updater(None)
                       .context_types(ContextTypes()).build())
        queue.set_application(application)
        await queue.start()
        for one in _MEMORY:
            queue.run_once(send, 0, data=one, job_kwargs={"misfire_grace_time": None})
        while left["n"]:
            await asyncio.sleep(0.05)
        await queue.stop()
    asyncio.run(main())


# --- huey


def _huey(place: str) -> Any:
    from huey import SqliteHuey

    huey = SqliteHuey("bench", filename=f"{place}/huey.db", results=False, journal_mode="wal")
    task = huey.task(name="send")(run_job)
    return huey, task


def huey_fill(place: str, payloads: Iterable[Payload], due: datetime) -> None:
    huey, task = _huey(place)
    for one in payloads:
        huey.storage.add_to_schedule(huey.serialize_task(task.s(one, eta=due.replace(tzinfo=None))),
                                     due.replace(tzinfo=None))


def huey_work(place: str, done: Done, total: int) -> None:  # noqa: ARG001
    from huey.consumer import Consumer

    logging.getLogger("huey").setLevel(logging.ERROR)
    huey, _ = _huey(place)
    _DONE["done"] = done
    consumer = Consumer(huey, workers=2, scheduler_interval=1, initial_delay=0.01, max_delay=0.1)
    consumer._set_signal_handlers = lambda: None
    consumer.start()
    quiet = 0
    while quiet < 5:
        quiet = quiet + 1 if not huey.scheduled_count() and not huey.pending_count() else 0
        time.sleep(0.1)
    consumer.stop(graceful=True)


# --- procrastinate


def _procrastinate(place: str) -> Any:
    import procrastinate

    app = procrastinate.App(connector=procrastinate.PsycopgConnector(conninfo=plain_url(place)))

    @app.task(name="send")
    async def send(key: str, facts: Payload) -> None:
        deliver({"key": key, "facts": facts}, _DONE["done"])

    return app, send


def procrastinate_fill(place: str, payloads: Iterable[Payload], due: datetime) -> None:
    app, send = _procrastinate(place)

    async def main() -> None:
        async with app.open_async():
            await app.schema_manager.apply_schema_async()
            part: list[Payload] = []
            for one in payloads:
                part.append(one)
                if len(part) == 1000:
                    await send.configure(schedule_at=due).batch_defer_async(*part)
                    part = []
            if part:
                await send.configure(schedule_at=due).batch_defer_async(*part)
    asyncio.run(main())


def procrastinate_work(place: str, done: Done, total: int) -> None:  # noqa: ARG001
    app, _ = _procrastinate(place)
    _DONE["done"] = done

    async def main() -> None:
        async with app.open_async():
            await app.run_worker_async(concurrency=30, wait=False, install_signal_handlers=False)
    asyncio.run(main())


# --- pgqueuer


def pgqueuer_fill(place: str, payloads: Iterable[Payload], due: datetime) -> None:
    from pgqueuer import PsycopgDriver, Queries

    async def main() -> None:
        async with await psycopg.AsyncConnection.connect(plain_url(place), autocommit=True) as connection:
            queries = Queries(PsycopgDriver(connection))
            await queries.install()
            keep = list(payloads)
            for first in range(0, len(keep), 1000):
                part = [json.dumps(one).encode() for one in keep[first:first + 1000]]
                later = max(timedelta(0), due - datetime.now(UTC))  # noqa: TID251 - a benchmark
                await queries.enqueue(["send"] * len(part), part, [0] * len(part), [later] * len(part))
    asyncio.run(main())


def pgqueuer_work(place: str, done: Done, total: int) -> None:  # noqa: ARG001
    import asyncpg
    from pgqueuer import AsyncpgDriver, PgQueuer
    from pgqueuer.types import QueueExecutionMode

    async def main() -> None:
        connection = await asyncpg.connect(plain_url(place))
        queuer = PgQueuer(AsyncpgDriver(connection))

        @queuer.entrypoint("send")
        async def send(job: Any) -> None:
            deliver(json.loads(job.payload), done)

        await queuer.qm.run(batch_size=BATCH, mode=QueueExecutionMode.drain)
        await connection.close()
    asyncio.run(main())


PEERS = (
    Peer("bare SQL, no rendering", "sqlite", bare_sqlite_fill, _bare_sqlite(False), render=False),
    Peer("bare SQL", "sqlite", bare_sqlite_fill, _bare_sqlite(True)),
    Peer("bare SQL", "postgresql", bare_postgres_fill, bare_postgres_work),
    Peer("APScheduler", "sqlite", apscheduler_fill, apscheduler_work),
    Peer("APScheduler", "postgresql", apscheduler_fill, apscheduler_work),
    Peer("JobQueue", "memory", jobqueue_fill, jobqueue_work),
    Peer("huey", "sqlite", huey_fill, huey_work),
    Peer("procrastinate", "postgresql", procrastinate_fill, procrastinate_work),
    Peer("pgqueuer", "postgresql", pgqueuer_fill, pgqueuer_work),
)


def database_size(folder: Path) -> int:
    return sum(file.stat().st_size for file in folder.iterdir() if file.is_file())

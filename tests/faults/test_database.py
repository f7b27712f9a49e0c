"""The database is locked, full, or gone for a while: nothing is confirmed that is not stored; then it goes on."""

from __future__ import annotations

import asyncio
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
import sqlalchemy as sa
from botapi import BotApi
from faulty import CARE, EMERGENCY, TestClock, join, morning, put, serving, texts, until, window_end
from postgres import Server
from stores import protocol

import bot.storage.engine as engine
from bot.storage.opening import open_store

START = morning(12, 0)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "coatwell.db"


async def test_locked_by_another_program(bot_api: BotApi, file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(engine, "WAIT_SECONDS", 0.3)
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, f"sqlite:///{file}", TestClock(START)) as service:
        await join(service, maya)
        with closing(sqlite3.connect(file, isolation_level=None)) as other:
            other.execute("BEGIN IMMEDIATE")
            maya.text(EMERGENCY)
            await until(lambda: service.vital.database_troubles or service.dispatcher.database_trouble, 10)
            assert not texts(bot_api, maya, "911")
            other.execute("ROLLBACK")
        await bot_api.wait_for(maya, "911", 15)
        await bot_api.wait_for(CARE, "im drooling", 15)
    assert len(texts(bot_api, maya, "911")) == 1


async def test_the_disk_is_full(bot_api: BotApi, file: Path) -> None:
    """SQLite is not allowed another page: the same error as a full disk, from the same call."""
    store = await open_store(f"sqlite:///{file}", protocol())
    limit = {"pages": 0}

    def cap(connection: sa.Connection) -> None:
        connection.exec_driver_sql(f"PRAGMA max_page_count = {limit['pages'] or 1_000_000}")

    sa.event.listen(store.engine.sync_engine, "begin", cap)  # type: ignore[attr-defined]
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, "", TestClock(START), store=store) as service:
        await join(service, maya)
        limit["pages"] = 1                    # never below what there is: not a page more
        for n in range(30):
            maya.text(f"{EMERGENCY} {'and more words ' * 100}{n}")
        await asyncio.sleep(3)
        confirmed = 30 - len([u for u in bot_api.world.updates if "message" in u])
        async with store.work() as work:
            kept = len(await work.replies("KT-014", 100)) + (await store.counts(START))["unhandled"]
        assert kept >= confirmed < 30, "an update was confirmed and not stored"
        limit["pages"] = 0
        await until(lambda: replies(service, 30), 60)
        await bot_api.wait_for(CARE, "im drooling", 20)
    await store.close()


async def test_postgresql_is_restarted(bot_api: BotApi, postgres_server: Server, postgres_url: str) -> None:
    if postgres_server.data is None:
        pytest.skip("the server named by COATWELL_TEST_POSTGRES is not ours to restart")
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, postgres_url, TestClock(START)) as service:
        await join(service, maya)
        await put(service, *(window_end(f"n{n}", START) for n in range(5)))
        await asyncio.to_thread(postgres_server.restart)
        maya.text(EMERGENCY)
        await bot_api.wait_for(maya, "911", 30)
        await bot_api.wait_for(CARE, "im drooling", 30)
        await until(lambda: len(texts(bot_api, maya, "You can eat")) >= 5, 30)


async def replies(service: object, wanted: int) -> bool:
    async with service.store.work() as work:  # type: ignore[attr-defined]
        return len(await work.replies("KT-014", 100)) == wanted

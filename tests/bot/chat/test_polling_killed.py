"""SIGKILL in the middle of polling, again and again: every update is in the inbox once, in order, none is missing."""

from __future__ import annotations

import asyncio
import random
import sqlite3
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import polling_child
from botapi import BotApi, until


def rows(file: Path, table: str) -> int:
    """How many rows the child has committed; 0 before it made its tables."""
    try:
        database = sqlite3.connect(f"file:{file}?mode=ro", uri=True)
    except sqlite3.OperationalError:
        return 0
    try:
        return int(database.execute(f"SELECT count(*) FROM {table}").fetchone()[0])
    except sqlite3.OperationalError:
        return 0
    finally:
        database.close()


@asynccontextmanager
async def polling_process(server: BotApi, file: Path) -> AsyncIterator[None]:
    """A process that polls; killed at the end of the block, whatever happened in it."""
    arguments = (polling_child.__file__, server.api, server.token, str(file))
    child = await asyncio.create_subprocess_exec(sys.executable, *arguments)
    try:
        yield
    finally:
        child.kill()
        await child.wait()


async def test_kills_lose_no_update(bot_api: BotApi, tmp_path: Path) -> None:
    file, chance, written = tmp_path / "inbox.db", random.Random(7), 0
    maya = bot_api.user(1001, "Maya")

    async def write(number: int) -> None:
        nonlocal written
        for _ in range(number):
            written += 1
            maya.text(f"reply {written}")
            await asyncio.sleep(0.001)

    for _ in range(4):
        before = rows(file, "inbox")
        async with polling_process(bot_api, file):
            await write(20)
            await until(lambda before=before: rows(file, "inbox") > before, 20)
            writing = asyncio.create_task(write(40))
            await asyncio.sleep(chance.uniform(0.0, 0.04))
        await writing
    async with polling_process(bot_api, file):
        await until(lambda: rows(file, "inbox") == written and not bot_api.world.updates, 20)

    database = sqlite3.connect(file)
    stored = [text for (text,) in database.execute("SELECT text FROM inbox ORDER BY CAST(id AS INTEGER)")]
    database.close()
    assert stored == [f"reply {number}" for number in range(1, written + 1)]

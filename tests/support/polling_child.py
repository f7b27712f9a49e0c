"""A process that polls into an SQLite inbox until it is killed. Arguments: API address, token, database file."""

from __future__ import annotations

import asyncio
import sqlite3
import sys
from datetime import UTC, datetime

from bot.chat.polling import Patience, Poller
from bot.chat.telegram import TelegramChat
from bot.chat.types import Incoming


async def main(api: str, token: str, file: str) -> None:
    database = sqlite3.connect(file, timeout=10, isolation_level=None)
    database.execute("PRAGMA journal_mode=WAL")
    database.execute("CREATE TABLE IF NOT EXISTS inbox (id TEXT PRIMARY KEY, text TEXT)")
    database.execute("CREATE TABLE IF NOT EXISTS copies (id TEXT)")

    async def store(updates: list[Incoming]) -> None:
        database.execute("BEGIN IMMEDIATE")
        for incoming in updates:
            added = database.execute("INSERT OR IGNORE INTO inbox VALUES (?, ?)", (incoming.id, incoming.text)).rowcount
            if not added:
                database.execute("INSERT INTO copies VALUES (?)", (incoming.id,))
        await asyncio.sleep(0.004)  # room to be killed before the commit
        database.execute("COMMIT")
        await asyncio.sleep(0.004)  # and between the commit and the question that confirms

    async with TelegramChat(token, api) as chat:
        instant = datetime(2026, 3, 2, 14, 5, tzinfo=UTC)
        await Poller(chat, store, lambda: instant, patience=Patience(wait=5, first_pause=0.05)).run()


if __name__ == "__main__":
    asyncio.run(main(*sys.argv[1:]))

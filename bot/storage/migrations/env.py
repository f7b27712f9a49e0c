"""Runs migrations on the connection that the program holds, or (a developer's `alembic`) on COATWELL_DATABASE."""

from __future__ import annotations

import asyncio

from alembic import context
from sqlalchemy import Connection

import bot.storage.tables  # noqa: F401 - its tables belong to the metadata
from scheduler.storage.tables import Stored


def run(connection: Connection) -> None:
    context.configure(connection=connection, target_metadata=Stored.metadata, render_as_batch=True, compare_type=True)
    with context.begin_transaction():
        context.run_migrations()


async def run_alone() -> None:
    from bot.settings import load_settings
    from bot.storage.engine import database_url, make_engine

    engine = make_engine(database_url(load_settings().database))
    try:
        async with engine.begin() as connection:
            await connection.run_sync(run)
    finally:
        await engine.dispose()


held = context.config.attributes.get("connection")
if held is not None:
    run(held)
else:
    asyncio.run(run_alone())

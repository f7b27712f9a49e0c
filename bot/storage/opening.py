"""Opening a store by its address: tables are made, or brought up to date, on the way."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from bot.ports import Store
from scheduler.protocol import ClinicProtocol

if TYPE_CHECKING:
    from bot.storage.sql import SqlStore

MEMORY = "memory:"


async def open_store(url: str, protocol: ClinicProtocol) -> Store:
    """The store at "memory:", sqlite:///FILE or postgresql+psycopg://... Raises WrongSettings, TroubleOutside."""
    if url == MEMORY:
        from bot.storage.memory import MemoryStore

        return MemoryStore()
    return await open_database(url, protocol)


async def open_database(url: str, protocol: ClinicProtocol, *, upgrade: bool = True) -> SqlStore:
    """The SQL store at `url`. upgrade False: leaves the tables as they are, to look at them.

    The database's libraries take long to import: only here, so that a trial in memory starts quickly.
    """
    from bot.storage.engine import database_url, make_engine, translated
    from bot.storage.schema import bring_up_to_date
    from bot.storage.sql import SqlStore
    from scheduler.planfile import read_plan
    from scheduler.storage.stored_plans import PlanCache

    address = database_url(url)
    with translated(address):
        engine = make_engine(address)
        try:
            if upgrade:
                await bring_up_to_date(engine)
        except BaseException:
            await asyncio.shield(engine.dispose())
            raise
    return SqlStore(engine, PlanCache(lambda text: read_plan(text, "the stored plan", protocol, stored=True)))


async def open_existing(url: str, protocol: ClinicProtocol) -> SqlStore:
    """The SQL store at `url`, which must be there: a command that looks at patients never makes a database."""
    from pathlib import Path

    from bot.errors import TroubleOutside
    from bot.storage.engine import database_url

    address = database_url(url)
    if address.get_backend_name() == "sqlite" and not Path(str(address.database)).is_file():
        raise TroubleOutside(f"database: there is no file {address.database}; set COATWELL_DATABASE to the one that "
                             "'coatwell serve' uses")
    return await open_database(url, protocol)

"""Looking after a database: what is wrong with it, a copy while it runs, and letting go of what is long done."""

from __future__ import annotations

import asyncio
import os
import sqlite3
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa
from sqlalchemy.exc import DBAPIError

from bot.errors import TroubleOutside
from bot.storage import schema
from bot.storage.engine import WAIT_SECONDS, place_of
from scheduler.errors import SchedulerError
from scheduler.storage.stored_plans import PlanCache
from scheduler.storage.tables import Stored, patients, plans

if TYPE_CHECKING:
    from bot.storage.sql import SqlStore

AT_ONCE = 500


async def prune(store: SqlStore, find: sa.Select[Any], delete: sa.Delete, before: datetime) -> int:
    """Delete what `find` finds, a part at a time, looked for without holding up writers; returns how many rows went."""
    gone = 0
    while True:
        async with store.reading() as connection:
            seqs = list((await connection.execute(find, {"now": before, "limit": AT_ONCE})).scalars())
        if not seqs:
            return gone
        async with store.writing() as connection:
            await connection.execute(delete, {"seqs": seqs})
        gone += len(seqs)


async def check(store: SqlStore, cache: PlanCache) -> list[str]:
    """Problems as sentences: the file itself, the tables' version, plans in force that cannot be read."""
    wrong: list[str] = []
    async with store.reading() as connection:
        if connection.dialect.name == "sqlite":
            found = (await connection.exec_driver_sql("PRAGMA integrity_check")).scalars().all()
            wrong += [f"file: {line}; restore the last backup" for line in found if line != "ok"]
            orphans = (await connection.exec_driver_sql("PRAGMA foreign_key_check")).all()
            wrong += [f"table {row.table}, row {row.rowid}: belongs to no row of {row.parent}" for row in orphans]
        version = await connection.run_sync(schema.version_of)
        if version != schema.HEAD:
            wrong.append(f"tables: version {version or 'none'}, this program needs {schema.HEAD}; "
                         "run 'coatwell db upgrade'")
            return wrong
        in_force = sa.select(patients.c.reference, plans.c.text, plans.c.facts).select_from(patients.outerjoin(
            plans, sa.and_(plans.c.reference == patients.c.reference, plans.c.version == patients.c.plan_version)))
        for row in await connection.execute(in_force):
            if row.text is None:
                wrong.append(f"patient {row.reference}: no plan is stored; enrol again")
                continue
            try:
                cache.plan(row.text, row.facts)
            except (SchedulerError, ArithmeticError, LookupError, TypeError, ValueError) as error:
                wrong.append(f"patient {row.reference}: the stored plan cannot be read: {error}; sign a new version")
    return wrong


async def backup(store: SqlStore, path: str) -> None:
    """Copy an SQLite database while it is in use: one state of it, whole or not at all under `path`."""
    if store.engine.dialect.name != "sqlite":
        raise TroubleOutside("database: this is PostgreSQL; make the copy with its own tool, pg_dump")
    target = Path(path)
    if target.exists():
        raise TroubleOutside(f"backup: {target} exists already; name a new file")
    part = target.with_name(target.name + ".part")
    try:
        part.unlink(missing_ok=True)
        os.close(os.open(part, os.O_CREAT | os.O_RDWR, 0o600))     # patients' words: for the owner's eyes
        await asyncio.to_thread(_copy, str(store.engine.url.database), part)
        part.rename(target)
    except OSError as error:
        raise TroubleOutside(f"backup: {target}: {error.strerror}; choose a folder that can be written") from error
    except sqlite3.Error as error:
        raise TroubleOutside(f"backup: {target}: {error}; check the database, and that the folder has room") from error
    finally:
        part.unlink(missing_ok=True)


def _copy(source: str, part: Path) -> None:
    """One state of the database, written to the disk, and read again to see that it is sound."""
    with closing(sqlite3.connect(source, isolation_level=None)) as database:
        database.execute("VACUUM INTO ?", (str(part),))
    with part.open("rb+") as copy:
        os.fsync(copy.fileno())
    with closing(sqlite3.connect(part)) as copied:
        found = copied.execute("PRAGMA quick_check").fetchone()[0]
        if found != "ok":
            raise sqlite3.DatabaseError(f"the copy is not sound: {found}")


async def scrub(store: SqlStore) -> None:
    """Write the tables anew, so that nothing of deleted rows is left in the database's files.

    SQLite: the file is rewritten, and its write-ahead log emptied. PostgreSQL: the tables are rewritten, each locked
    meanwhile; its own log and archives keep what was until they are recycled.
    """
    try:
        if store.engine.dialect.name == "sqlite":
            await asyncio.to_thread(_rewrite, str(store.engine.url.database))
        else:
            await _rewrite_tables(store)
    except (sqlite3.Error, DBAPIError) as error:
        why = error.orig if isinstance(error, DBAPIError) else error
        where = place_of(store.engine.url)
        raise TroubleOutside(f"database ({where}): deleted rows are still in its files: {why}; stop what else uses it, "
                             "see that the disk has room, then try again") from error


async def _rewrite_tables(store: SqlStore) -> None:
    async with store.engine.connect() as connection:
        await connection.execution_options(isolation_level="AUTOCOMMIT")
        try:
            await connection.exec_driver_sql(f"SET lock_timeout = '{WAIT_SECONDS}s'")
            for table in Stored.metadata.tables:
                await connection.exec_driver_sql(f'VACUUM (FULL) "{table}"')
        finally:
            await connection.invalidate()      # its setting goes with it


def _rewrite(path: str) -> None:
    with closing(sqlite3.connect(path, isolation_level=None, timeout=WAIT_SECONDS)) as database:
        database.execute("VACUUM")
        busy, _, _ = database.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
        if busy:
            raise sqlite3.OperationalError("another program is reading it")

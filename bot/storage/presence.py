"""Which processes share a database, and which of them asks the network for updates: advisory locks, no leader.

A process holds one lock under its own name for as long as it lives, and 'polling' if it was the first to ask. The
server gives both free the moment the process dies, however it dies. Alone on SQLite or in memory there is nothing to
share.
"""

from __future__ import annotations

import asyncio
import zlib
from collections.abc import Sequence

import sqlalchemy as sa
from sqlalchemy.engine import URL
from sqlalchemy.ext.asyncio import AsyncConnection, AsyncEngine, create_async_engine
from sqlalchemy.pool import NullPool

from bot.storage.engine import WAIT_SECONDS, translated

_PRESENT = 821_490_511       # this program's own numbers for PostgreSQL's advisory locks
_DUTY = 821_490_512

_TRY = sa.text("SELECT pg_try_advisory_lock(:kind, :number)")
_HELD = sa.text("SELECT objid FROM pg_locks JOIN pg_database ON pg_database.oid = pg_locks.database"
                " WHERE locktype = 'advisory' AND classid = :kind AND granted AND datname = current_database()")


def number_of(name: str) -> int:
    """A name as a lock's number."""
    return zlib.crc32(name.encode()) & 0x7FFF_FFFF


class Alone:
    """The only process on its database."""

    async def arrive(self, holder: str) -> None:
        self._holder = holder

    async def others_dead(self, holders: Sequence[str]) -> list[str]:
        """Whoever else holds claims is of an earlier life."""
        return [holder for holder in holders if holder != self._holder]

    async def processes(self) -> int:
        return 1

    async def on_duty(self, duty: str) -> bool:  # noqa: ARG002
        return True

    async def leave(self) -> None:
        return None


class Shared:
    """One process among those on a PostgreSQL. Every call raises TroubleOutside when the server cannot be asked; then
    the locks are gone too, and the next call takes them anew."""

    def __init__(self, url: URL) -> None:
        # a connection of its own: it must live as long as the process, and must notice when the other end is gone
        self._engine: AsyncEngine = create_async_engine(url, poolclass=NullPool, hide_parameters=True, connect_args={
            "connect_timeout": WAIT_SECONDS, "keepalives_idle": 10, "keepalives_interval": 5, "keepalives_count": 3})
        self._url = url
        self._connection: AsyncConnection | None = None
        self._holder = ""
        self._duties: set[str] = set()
        self._turn = asyncio.Lock()      # one question at a time on the one connection

    async def arrive(self, holder: str) -> None:
        """Be present under this name."""
        self._holder = holder
        async with self._turn:
            await self._ask()

    async def others_dead(self, holders: Sequence[str]) -> list[str]:
        """Those of these names whose process is no longer there."""
        alive = await self._present()
        return [holder for holder in holders if holder != self._holder and number_of(holder) not in alive]

    async def processes(self) -> int:
        """How many processes share the database, this one included."""
        return max(1, len(await self._present()))

    async def on_duty(self, duty: str) -> bool:
        """Whether this process has the duty, having taken it now if it was free."""
        async with self._turn:
            connection = await self._ask()
            if duty not in self._duties:
                with translated(self._url):
                    got = await connection.scalar(_TRY, {"kind": _DUTY, "number": number_of(duty)})
                if got:
                    self._duties.add(duty)
            return duty in self._duties

    async def leave(self) -> None:
        """Give everything free."""
        async with self._turn:
            connection, self._connection = self._connection, None
            self._duties.clear()
            if connection is not None:
                await _close(connection)
            await self._engine.dispose()

    async def _present(self) -> set[int]:
        async with self._turn:
            connection = await self._ask()
            with translated(self._url):
                found = await connection.execute(_HELD, {"kind": _PRESENT})
            return set(found.scalars())

    async def _ask(self) -> AsyncConnection:
        """The living connection, holding our name; a lost one is replaced, its duties with it."""
        with translated(self._url):
            if self._connection is not None:
                try:
                    await self._connection.execute(sa.text("SELECT 1"))
                    return self._connection
                except sa.exc.DBAPIError:
                    self._duties.clear()
                    lost, self._connection = self._connection, None
                    await _close(lost)
            return await asyncio.shield(self._connect())    # not cut off half way: the connection must have an owner

    async def _connect(self) -> AsyncConnection:
        connection = await self._engine.connect()
        self._connection = connection
        await connection.execution_options(isolation_level="AUTOCOMMIT")
        await connection.scalar(_TRY, {"kind": _PRESENT, "number": number_of(self._holder)})
        return connection


async def _close(connection: AsyncConnection) -> None:
    try:
        await connection.close()
    except Exception:  # it is lost anyway
        await connection.invalidate()


Presence = Alone | Shared


def presence_of(engine: AsyncEngine | None) -> Presence:
    """How processes on this database know of each other."""
    if engine is not None and engine.dialect.name == "postgresql":
        return Shared(engine.url)
    return Alone()

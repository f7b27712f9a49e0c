"""The store kept in memory: trials, rehearsals and tests run on it.

One transaction at a time, taken back through an undo log. It behaves as the SQL store does (one contract test holds
both) and keeps nothing over a restart.
"""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import datetime
from typing import Any

from bot.case import PatientState
from bot.errors import TroubleOutside
from bot.ports import Work
from bot.storage.memory_tables import SERVED, Tables
from bot.storage.memory_work import MemoryWork
from scheduler.messages import SendState
from scheduler.storage.undo import Undo


class MemoryStore:
    """Transactions over memory. `check_facts`: refuse facts that are not JSON, as a database would (4 µs a message)."""

    def __init__(self, check_facts: bool = True) -> None:
        self._tables = Tables()
        self._check_facts = check_facts
        self._lock = asyncio.Lock()
        self._holder: asyncio.Task[Any] | None = None

    @asynccontextmanager
    async def work(self) -> AsyncIterator[Work]:
        """One transaction; others wait for its end."""
        if self._holder is not None and self._holder is asyncio.current_task():
            raise RuntimeError("work() inside work(): one task holds one transaction at a time")
        async with self._lock:
            self._holder = asyncio.current_task()
            undo = Undo()
            try:
                yield MemoryWork(self._tables, undo, self._check_facts)
            except BaseException:
                undo.rollback()
                raise
            finally:
                self._holder = None

    async def close(self) -> None:
        """Nothing to close."""

    async def counts(self, now: datetime) -> dict[str, Any]:
        """Figures for the health page; keys as `SqlStore.counts`."""
        tables = self._tables
        dues = [row.not_before for row in tables.outbox.waiting() if row.not_before <= now]
        return {
            "waiting": sum(1 for _ in tables.outbox.waiting()),
            "claimed": sum(row.state is SendState.CLAIMED for row in tables.outbox.rows.values()),
            "due": len(dues),
            "lag_seconds": (now - min(dues)).total_seconds() if dues else 0.0,
            "unhandled": len(tables.inbox),
            "patients": len(tables.patients),
            "quarantined": sum(row.state is PatientState.QUARANTINED for row in tables.patients.values()),
            "open_flags": len(tables.open_flags),
        }

    async def mark_served(self) -> None:
        """Note that `serve` has used this store."""
        self._tables.notes[SERVED] = "yes"

    async def was_served(self) -> bool:
        return SERVED in self._tables.notes

    async def prune(self, before: datetime) -> int:
        """Forget messages done, and updates handled, before that instant; returns how many rows went."""
        async with self._lock:
            seen = self._tables.seen
            old = [key for key, kept in seen.items() if kept.handled_at is not None and kept.handled_at < before]
            for key in old:
                del seen[key]
            return self._tables.outbox.prune(before) + len(old)

    async def scrub(self) -> None:
        """Nothing to clean: memory has no files."""

    async def check(self) -> list[str]:
        """Problems found: none, memory has no file that could be broken."""
        return []

    async def backup(self, path: str) -> None:
        raise TroubleOutside(f"database memory: nothing to back up to {path}; choose a database with COATWELL_DATABASE")

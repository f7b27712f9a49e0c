"""Opening a store by its address."""

from __future__ import annotations

from bot.errors import WrongSettings
from bot.ports import Store
from bot.storage.memory import MemoryStore
from scheduler.protocol import ClinicProtocol

MEMORY = "memory:"


async def open_store(url: str, protocol: ClinicProtocol) -> Store:
    """The store at `url`, its tables made or brought up to date. "memory:" gives the in-memory twin."""
    del protocol
    if url == MEMORY:
        return MemoryStore()
    raise WrongSettings(f"COATWELL_DATABASE: {url.partition(':')[0]!r} is not a kind of database this version opens")

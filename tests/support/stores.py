"""Stores for tests, one of each kind, and small makers of what is put into them."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any

from bot.case import Flag, FlagState, PatientRow, PatientState
from bot.chat.types import Incoming, IncomingKind
from bot.ports import Store, Work
from bot.storage.opening import open_store
from bot.understanding.types import Urgency
from scheduler.messages import Message, Priority, To
from scheduler.plan import Plan
from scheduler.planfile import read_plan
from scheduler.protocol import ClinicProtocol, load_protocol

T0 = datetime(2026, 3, 2, 15, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)
HOUR = timedelta(hours=1)

_PLAN = Path(__file__).parents[2] / "fixtures" / "plans" / "ok" / "kt-014.toml"


@cache
def protocol() -> ClinicProtocol:
    return load_protocol()


@cache
def plan(reference: str = "KT-014") -> Plan:
    """A sound plan under this reference."""
    text = _PLAN.read_text(encoding="utf-8").replace("KT-014", reference)
    return read_plan(text, "the test's plan", protocol())


def patient(reference: str = "KT-014", **given: Any) -> PatientRow:
    """A patient's row: active, with a chat of their own."""
    values = {"state": PatientState.ACTIVE, "plan_version": 1, "chat": f"chat-{reference}", "sender": f"p-{reference}",
              "expanded_until": T0, "next_at": T0}
    return PatientRow(reference, **values | given)


def message(key: str, **given: Any) -> Message:
    """A message to the care team, due at T0, unless told otherwise."""
    values: dict[str, Any] = {"to": To.CARE, "kind": "test", "due_at": T0, "priority": Priority.ROUTINE}
    return Message(key, **values | given)


def flag(number: int = 1, reference: str = "KT-014", **given: Any) -> Flag:
    """An urgent flag, raised at T0."""
    values: dict[str, Any] = {
        "rules": ("R1",), "findings": ("thrush",), "urgency": Urgency.URGENT, "words": "white spots, it hurts",
        "state": FlagState.RAISED, "raised_at": T0, "act_by": T0 + HOUR, "facts": {"week": 5}}
    return Flag(f"{reference}/{number}", reference, **values | given)


def update(name: str, chat: str = "c1", **given: Any) -> Incoming:
    """A text that came in at T0."""
    values: dict[str, Any] = {"sender": "s1", "at": T0, "kind": IncomingKind.TEXT, "text": f"words of {name}"}
    return Incoming(name, chat, **values | given)


async def keys(work: Work, limit: int = 100, now: datetime = T0, **given: Any) -> list[str]:
    """Claim for a minute; the keys in the order of the claim."""
    return [one.message.key for one in await work.claim(now, limit, now + MINUTE, "h", **given)]


@asynccontextmanager
async def opened(url: str) -> AsyncIterator[Store]:
    """The store at `url`, closed in the end."""
    store = await open_store(url, protocol())
    try:
        yield store
    finally:
        await store.close()

"""What the bot needs from storage, as protocols: one transaction (`Work`) and where it comes from (`Store`).

Two implementations behave alike, held by one contract test: `bot/storage/sql.py` (SQLite and PostgreSQL) and
`bot/storage/memory.py`, the in-memory twin that trials, rehearsals and tests use.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import AbstractAsyncContextManager
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, Protocol

from bot.case import Act, Case, Changes, Conversation, Flag, PatientRow
from bot.chat.types import Incoming
from scheduler.messages import Message, SendState
from scheduler.plan import Plan
from scheduler.ports import OutboxWork, TickWork


@dataclass(frozen=True, slots=True)
class Invite:
    """A one-time code, stored only as its hash. `for_role` is "patient" or a care team role."""

    code_hash: str
    for_role: str
    reference: str          # the patient, or "" for the care team
    made_at: datetime
    expires_at: datetime
    used_at: datetime | None = None
    used_by: str = ""


@dataclass(frozen=True, slots=True)
class Member:
    """One person of the care team. Roles: "clinician", "nurse", "on_call"."""

    sender: str
    name: str
    role: str
    joined_at: datetime
    chat: str = ""                     # their private chat with the bot, "" until they wrote there
    removed_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class SentMessage:
    """A message of ours that left (or waits), for replies to it and for edits."""

    message: Message
    state: SendState
    name: str = ""
    address: str = ""
    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class PlanVersion:
    """One stored version of a patient's plan; only signed ones are in force."""

    reference: str
    version: int
    plan: Plan
    stored_at: datetime
    signed_by: str
    facts: dict[str, Any] = field(default_factory=dict)


class Work(TickWork, OutboxWork, Protocol):
    """One transaction. Everything read through `case` is locked against other writers until it ends."""

    # patients
    async def add_patient(self, row: PatientRow, plan: Plan, now: datetime) -> None:
        """A new patient with plan version `row.plan_version`. Raises errors.AlreadyThere for a known reference."""
        ...

    async def add_plan(self, reference: str, plan: Plan, now: datetime) -> int:
        """Store the next version (it is in force once a Changes.row names it); returns its number."""
        ...

    async def plans(self, reference: str) -> Sequence[PlanVersion]: ...

    async def case(self, reference: str) -> Case | None: ...

    async def reference_of(self, chat: str) -> str | None:
        """The patient who talks in this chat: the one added last, one who has not ended before one who has."""
        ...

    async def patients(self) -> Sequence[PatientRow]: ...

    async def quarantined(self) -> Sequence[tuple[str, str, datetime]]:
        """(reference, why, since) of patients whose plan cannot be expanded."""
        ...

    async def apply(self, reference: str, changes: Changes, now: datetime) -> None:
        """Write all of it; the row's `expanded_until` and `next_at` stay as stored. `replan` deletes the waiting
        messages of this patient whose facts hold "occasion" and due_at > now, and sets expanded_until = next_at = now,
        so that the next tick expands anew."""
        ...

    # outbox, beyond OutboxWork
    async def cancel(self, keys: Iterable[str]) -> None:
        """WAITING messages with these keys become CANCELLED; a key ending in "*" is a prefix."""
        ...

    async def sent_as(self, address: str, name: str) -> SentMessage | None:
        """Our message that the network knows as `name` in this chat."""
        ...

    async def message(self, key: str) -> SentMessage | None: ...

    async def messages_of(self, reference: str, limit: int = 50) -> Sequence[SentMessage]:
        """A patient's messages, newest due first."""
        ...

    async def coming(self, limit: int = 10) -> Sequence[Message]:
        """Waiting messages in order of due_at."""
        ...

    # inbox
    async def store_updates(self, updates: Iterable[Incoming], now: datetime) -> int:
        """Keep updates; one whose id is known is ignored. Returns how many were new."""
        ...

    async def unhandled(self, limit: int, skip_chats: Iterable[str] = ()) -> Sequence[Incoming]:
        """Stored updates not yet handled, oldest first, locked (SKIP LOCKED): the oldest one of each chat only, so that
        a chat is handled in order while chats run in parallel."""
        ...

    async def mark_handled(self, update_id: str, now: datetime, trouble: str = "") -> None: ...

    # invites
    async def add_invite(self, invite: Invite) -> None: ...

    async def invite(self, code_hash: str) -> Invite | None: ...

    async def use_invite(self, code_hash: str, sender: str, now: datetime) -> None: ...

    async def add_try(self, sender: str, now: datetime) -> None:
        """Count a failed invite try of this sender."""
        ...

    async def tries(self, sender: str, since: datetime) -> int: ...

    # care team
    async def add_member(self, member: Member) -> None:
        """Add, or replace by `sender`."""
        ...

    async def members(self) -> Sequence[Member]: ...

    async def member(self, sender: str) -> Member | None:
        """A member who has not been removed."""
        ...

    async def desk(self, sender: str) -> Conversation:
        """Where a care team member's dialogue with the bot stands."""
        ...

    async def set_desk(self, sender: str, desk: Conversation) -> None: ...

    async def flag(self, flag_id: str) -> Flag | None: ...

    async def open_flags(self) -> Sequence[Flag]:
        """Of all patients: the most urgent first, then the oldest."""
        ...

    async def add_act(self, act: Act) -> None: ...

    async def acts(self, reference: str = "", limit: int = 100) -> Sequence[Act]:
        """Newest first; of one patient, or of all."""
        ...

    async def replies(self, reference: str, limit: int = 50) -> Sequence[Any]:
        """Reply objects of one patient, newest first."""
        ...

    # one patient's data, wholly
    async def updates_of(self, reference: str) -> Sequence[Incoming]:
        """Updates kept of the chat in which this patient writes now, oldest first. Memory keeps those not handled."""
        ...

    async def invites_of(self, reference: str) -> Sequence[Invite]:
        """This patient's invites, oldest first."""
        ...

    async def forget(self, reference: str, now: datetime) -> bool:
        """Erase the patient: their own rows go, rows of the care team lose what names them or repeats their words, and
        their invites are dead. False for an unknown reference. `Store.scrub` then cleans what is left in files."""
        ...

    # small values that must survive a restart (the polling offset, last digest sent, ...)
    async def get_note(self, name: str) -> str: ...

    async def set_note(self, name: str, value: str) -> None: ...


class Store(Protocol):
    """Where transactions come from."""

    def work(self) -> AbstractAsyncContextManager[Work]:
        """One transaction: committed at the end of the block, rolled back by an exception."""
        ...

    async def close(self) -> None: ...

    async def counts(self, now: datetime) -> dict[str, Any]:
        """For the health page: waiting, claimed, due, lag_seconds (of the oldest due message), unhandled, patients,
        quarantined, open_flags."""
        ...

    async def mark_served(self) -> None:
        """Note that `serve` has used this store, so that a trial refuses it."""
        ...

    async def was_served(self) -> bool: ...

    async def prune(self, before: datetime) -> int:
        """Delete messages done, and updates handled, before that instant, with the keys that keep them from being sent
        twice: choose an instant long past. Returns how many rows went."""
        ...

    async def scrub(self) -> None:
        """Leave nothing of deleted rows in the database's files. Raises TroubleOutside when others hold them."""
        ...

    async def check(self) -> list[str]:
        """What is wrong with the store: sentences, none when it is sound."""
        ...

    async def backup(self, path: str) -> None:
        """A consistent copy while running. Raises TroubleOutside where the store cannot make one."""
        ...

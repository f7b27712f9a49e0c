"""What the scheduler needs from storage, as protocols. Two implementations (SQL, in memory), one contract test."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

from scheduler.messages import Message, SendState
from scheduler.plan import Plan
from scheduler.record import Record


@dataclass(frozen=True, slots=True)
class Due:
    """One patient whose next occasion has come near, with what is needed to expand the timeline."""

    reference: str
    plan: Plan
    version: int
    record: Record
    expanded_until: datetime
    writer: str = "patient"      # or "parent": who reads the messages


@dataclass(frozen=True, slots=True)
class Claimed:
    """A due message held by one sender until its lease runs out.

    address: the patient's chat for To.PATIENT, the message's own for To.CHAT, else "".
    attempts: how often it may have left before: earlier claims, without those put back as certainly not sent.
    in_flight_before: an earlier sender held it when it died; it may have been sent already.
    edit_name: the network's name of the message that this one edits, "" when that one never left.
    edit_waits: the message that this one edits has not been sent yet, but may still be.
    held: the patient cannot be reached now (has blocked the bot).
    """

    message: Message
    address: str = ""
    attempts: int = 0
    in_flight_before: bool = False
    edit_name: str = ""
    edit_waits: bool = False
    held: bool = False


@dataclass(frozen=True, slots=True)
class Mark:
    """What became of a claimed message. `retry_at` with state WAITING puts it back until then.

    unsent: it certainly did not leave, so this claim does not count as an attempt.
    """

    key: str
    state: SendState
    at: datetime
    name: str = ""        # the network's name of the message sent
    address: str = ""     # where it was sent
    trouble: str = ""
    retry_at: datetime | None = None
    unsent: bool = False


class TickWork(Protocol):
    """The part of a transaction that a tick uses. Rows claimed are locked; other processes skip them."""

    async def due_patients(self, until: datetime, limit: int) -> Sequence[Due]:
        """Active patients with `next_at` <= until, earliest first, locked until the transaction ends (SKIP LOCKED)."""
        ...

    async def set_cursor(self, reference: str, expanded_until: datetime, next_at: datetime | None) -> None: ...

    async def set_cursors(self, cursors: Iterable[tuple[str, datetime, datetime | None]]) -> None:
        """(reference, expanded_until, next_at) of many patients at once."""
        ...

    async def quarantine(self, reference: str, why: str, now: datetime) -> None:
        """Stop expanding this patient; the others go on."""
        ...

    async def put(self, messages: Iterable[Message]) -> int:
        """Add messages; a key that is there already, in whatever state, is left alone. Returns how many were new."""
        ...


class OutboxWork(Protocol):
    """The part of a transaction that the sender uses."""

    async def claim(self, now: datetime, limit: int, lease_until: datetime, holder: str,
                    agent: bool = False, urgent: bool = False) -> Sequence[Claimed]:
        """Claim due messages (WAITING with due_at <= now, or CLAIMED with an expired lease) by priority, then due_at.

        agent False: messages to be sent; True: notes to ourselves (To.AGENT). Others' claims are skipped.
        urgent: emergencies and flags only.
        """
        ...

    async def mark(self, marks: Iterable[Mark]) -> None: ...

    async def holders(self) -> Sequence[str]:
        """Who holds claims."""
        ...

    async def take_back(self, holders: Iterable[str]) -> int:
        """Claims of these holders, who are known to be dead, wait again as 'in flight before'. Returns how many."""
        ...

    async def clock_set_back(self, before: datetime, now: datetime) -> int:
        """The clock went back from `before` to `now`: what was due stays due, put-backs and leases are not stretched.
        Returns how many messages were concerned."""
        ...

    async def next_due(self) -> datetime | None:
        """The earliest instant at which claim or due_patients could find something (waiting or leased, next_at)."""
        ...

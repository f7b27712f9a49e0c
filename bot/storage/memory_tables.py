"""What the store in memory holds."""

from __future__ import annotations

import itertools
from dataclasses import dataclass, field
from datetime import datetime
from typing import NamedTuple

from bot.case import Act, Conversation, Flag, FoundThen, PatientRow, PatientState, Reply
from bot.chat.types import Incoming
from bot.ports import Invite, Member, PlanVersion
from scheduler.record import Record
from scheduler.storage.memory_outbox import MemoryOutbox

WOKEN = (PatientState.ACTIVE, PatientState.PAUSED)   # states whose timeline is expanded
SERVED = "served"


class Seen(NamedTuple):
    """What is kept of every update."""

    stored_at: datetime
    handled_at: datetime | None = None
    trouble: str = ""


@dataclass(slots=True)
class Tables:
    """Everything the twin holds. Values are never changed in place, lists are only appended to."""

    patients: dict[str, PatientRow] = field(default_factory=dict)
    plans: dict[tuple[str, int], PlanVersion] = field(default_factory=dict)
    records: dict[str, Record] = field(default_factory=dict)
    conversations: dict[str, Conversation] = field(default_factory=dict)
    flags: dict[str, dict[str, Flag]] = field(default_factory=dict)        # by patient, then by id
    open_flags: dict[str, Flag] = field(default_factory=dict)
    found: dict[str, tuple[FoundThen, ...]] = field(default_factory=dict)
    replies: dict[str, dict[str, Reply]] = field(default_factory=dict)     # by patient, then by id
    acts: list[Act] = field(default_factory=list)
    acts_of: dict[str, list[Act]] = field(default_factory=dict)
    quarantined: dict[str, tuple[str, datetime]] = field(default_factory=dict)
    added: dict[str, datetime] = field(default_factory=dict)               # patient -> when
    chats: dict[str, dict[str, None]] = field(default_factory=dict)        # chat -> patients who have talked there
    seen: dict[str, Seen] = field(default_factory=dict)                    # every update, by its id
    inbox: dict[str, tuple[int, Incoming]] = field(default_factory=dict)   # not handled yet, with order of arrival
    arrivals: itertools.count[int] = field(default_factory=itertools.count)
    invites: dict[str, Invite] = field(default_factory=dict)
    tries: dict[str, list[datetime]] = field(default_factory=dict)
    members: dict[str, Member] = field(default_factory=dict)
    desks: dict[str, Conversation] = field(default_factory=dict)
    notes: dict[str, str] = field(default_factory=dict)
    outbox: MemoryOutbox = field(default_factory=MemoryOutbox)
    waking: list[tuple[datetime, str]] = field(default_factory=list)       # heap of hints: (next_at, reference)

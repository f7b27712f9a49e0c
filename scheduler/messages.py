"""Messages that are due: kind and facts, never sentences. The key names the cause, so asking twice makes one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from enum import IntEnum, StrEnum
from typing import Any


class To(StrEnum):
    """Who a due message is for. AGENT is a note to ourselves: a timer that survives a restart."""

    PATIENT = "patient"
    CARE = "care"
    ON_CALL = "on_call"
    CHAT = "chat"      # a chat named by `address` (a stranger with an invite, one nurse)
    AGENT = "agent"


class Priority(IntEnum):
    """Order under load: smaller leaves first."""

    EMERGENCY = 0
    FLAG = 1
    ANSWER = 2
    DOSE = 3
    ROUTINE = 4


@dataclass(frozen=True, slots=True)
class Message:
    """One thing to be said (or done, for AGENT) at `due_at`.

    key: names its cause; the outbox keeps one message a key, whatever its state.
    reference: the patient it is about, None for a stranger or the care team at large.
    send_before: after this instant it is stale and is not sent; None: never stale.
    facts: JSON values only; everything the text needs, so that sending reads no other table.
    edits: key of an earlier message of the same chat; this one replaces its text and buttons.
    """

    key: str
    to: To
    kind: str
    due_at: datetime
    reference: str | None = None
    send_before: datetime | None = None
    priority: Priority = Priority.ROUTINE
    facts: Mapping[str, Any] = field(default_factory=dict)
    edits: str | None = None
    address: str | None = None


def quarantined_message(reference: str, why: str, now: datetime) -> Message:
    """What the care team is told when a patient's plan cannot be expanded: that patient stops, the others go on."""
    return Message(key=f"{reference}:quarantined:{now.isoformat()}", to=To.CARE, kind="quarantined", due_at=now,
                   reference=reference, priority=Priority.FLAG, facts={"why": why[:300]})


class SendState(StrEnum):
    """A message's life on the outbox."""

    WAITING = "waiting"
    CLAIMED = "claimed"      # a sender holds it until its lease runs out
    SENT = "sent"
    UNCERTAIN = "uncertain"  # sent or not: unknowable; the kind's policy decides
    STALE = "stale"          # its time passed before it could be sent
    CANCELLED = "cancelled"
    REFUSED = "refused"      # the network will never take it (blocked, gone, bad)

"""One patient's case as the core sees it, and the changes that handling one event makes to it. Pure data.

The edge loads a Case in a transaction, pure functions turn (case, event, now, protocol) into Changes, the edge applies
them in the same transaction. Everything a restart must remember is in here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from enum import StrEnum
from typing import Any

from bot.understanding.types import Finding, Urgency
from scheduler.messages import Message
from scheduler.plan import Plan
from scheduler.record import Entry, Record


class PatientState(StrEnum):
    INVITED = "invited"        # plan signed, invite not used
    ASKED = "asked"            # invite used, consent asked; nothing else is sent
    ACTIVE = "active"
    PAUSED = "paused"          # by the care team: no dose messages
    HELD = "held"              # messages cannot be delivered (bot blocked): care team told
    QUARANTINED = "quarantined"  # the plan cannot be expanded: care team told, the others go on
    ENDED = "ended"            # consent withdrawn, or the course is over


@dataclass(frozen=True, slots=True)
class PatientRow:
    """One row a patient. `next_at`: instant of the next occasion; `expanded_until`: how far it has been expanded."""

    reference: str
    state: PatientState
    plan_version: int
    chat: str = ""
    sender: str = ""                 # the network's id of the person holding the phone
    writer: str = "patient"          # or "parent"
    expanded_until: datetime | None = None
    next_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Conversation:
    """Where the conversation is. `state`: a name in the conversation table; `about`: a dose key, a step key, ..."""

    state: str = "idle"
    about: str = ""
    since: datetime | None = None
    facts: Mapping[str, Any] = field(default_factory=dict)


class FlagState(StrEnum):
    RAISED = "raised"
    DELIVERED = "delivered"
    TAKEN = "taken"
    CLOSED = "closed"


@dataclass(frozen=True, slots=True)
class Flag:
    """Something a person of the care team must look at. `id` is REFERENCE/N, N counting that patient's flags from 1.

    rules: ids of the rules that raised it. words: the patient's own. act_by: when it is untaken for too long.
    """

    id: str
    reference: str
    rules: tuple[str, ...]
    findings: tuple[str, ...]
    urgency: Urgency
    words: str
    state: FlagState
    raised_at: datetime
    act_by: datetime
    taken_by: str = ""
    taken_at: datetime | None = None
    closed_at: datetime | None = None
    outcome: str = ""
    note: str = ""
    raises: int = 1                  # how often it was raised (again and wider)
    facts: Mapping[str, Any] = field(default_factory=dict)

    @property
    def is_open(self) -> bool:
        return self.state is not FlagState.CLOSED


@dataclass(frozen=True, slots=True)
class FoundThen:
    """A finding kept from a reply or a check-in, for trends."""

    finding: Finding
    at: datetime
    reply: str = ""                  # id of the reply it was read from


@dataclass(frozen=True, slots=True)
class Reply:
    """What a patient sent, stored whole before anything else happens with it."""

    id: str
    reference: str
    at: datetime
    kind: str
    text: str
    reading: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Act:
    """One line of the append-only record of what people did: who, when, what."""

    at: datetime
    who: str
    what: str
    reference: str = ""
    about: str = ""
    facts: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class Case:
    """Everything the core may look at for one patient."""

    row: PatientRow
    plan: Plan
    record: Record = Record()
    conversation: Conversation = Conversation()
    flags: tuple[Flag, ...] = ()     # all of this patient's, oldest first
    found: tuple[FoundThen, ...] = ()

    @property
    def reference(self) -> str:
        return self.row.reference

    @property
    def open_flags(self) -> tuple[Flag, ...]:
        return tuple(flag for flag in self.flags if flag.is_open)

    def after(self, changes: Changes) -> Case:
        """The case as it stands once `changes` are applied, for the next pure step of the same transaction."""
        kept = {flag.id: flag for flag in self.flags} | {flag.id: flag for flag in changes.flags}
        return replace(
            self,
            row=changes.row or self.row,
            record=self.record + changes.entries,
            conversation=changes.conversation or self.conversation,
            flags=tuple(kept.values()),
            found=(*self.found, *changes.found),
        )


@dataclass(frozen=True)
class Changes:
    """What one event does to one case. `flags` are whole, new or replaced by id. `replan`: expand the timeline anew."""

    entries: tuple[Entry, ...] = ()
    messages: tuple[Message, ...] = ()
    cancel: tuple[str, ...] = ()     # message keys that are no longer wanted if still waiting
    found: tuple[FoundThen, ...] = ()
    flags: tuple[Flag, ...] = ()
    acts: tuple[Act, ...] = ()
    conversation: Conversation | None = None
    row: PatientRow | None = None
    reply: Reply | None = None
    replan: bool = False

    def __add__(self, other: Changes) -> Changes:
        flags = {flag.id: flag for flag in self.flags} | {flag.id: flag for flag in other.flags}
        return Changes(
            entries=self.entries + other.entries,
            messages=self.messages + other.messages,
            cancel=self.cancel + other.cancel,
            found=self.found + other.found,
            flags=tuple(flags.values()),
            acts=self.acts + other.acts,
            conversation=other.conversation or self.conversation,
            row=other.row or self.row,
            reply=other.reply or self.reply,
            replan=self.replan or other.replan,
        )

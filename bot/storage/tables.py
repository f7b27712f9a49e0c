"""The bot's tables: conversations, replies, findings, flags, acts, the inbox, invites, the care team, notes.

Words of patients are in `replies.text`, `flags.words`, `inbox.text` and in facts; nothing else holds them.
"""

from __future__ import annotations

from datetime import datetime
from typing import Any

import sqlalchemy as sa
from sqlmodel import Field

from scheduler.storage.tables import KEY, SEQ, Stored, partial

IS_OPEN = "state <> 'closed'"
IS_UNHANDLED = "handled_at IS NULL"


class StoredConversation(Stored, table=True):
    """Where a patient's conversation stands."""

    __tablename__ = "conversations"

    reference: str = Field(primary_key=True, foreign_key="patients.reference", sa_type=KEY)
    state: str
    about: str = ""
    since: datetime | None = None
    facts: dict[str, Any] = Field(sa_type=sa.JSON)


class StoredReply(Stored, table=True):
    """What a patient sent, whole."""

    __tablename__ = "replies"
    __table_args__ = (sa.Index("ix_replies_reference", "reference", "seq"),)

    seq: int = Field(primary_key=True, sa_type=SEQ)
    id: str = Field(unique=True, sa_type=KEY)
    reference: str = Field(foreign_key="patients.reference", sa_type=KEY)
    at: datetime
    kind: str
    text: str
    reading: dict[str, Any] = Field(sa_type=sa.JSON)


class StoredFinding(Stored, table=True):
    """A finding kept for trends."""

    __tablename__ = "findings"
    __table_args__ = (sa.Index("ix_findings_reference", "reference", "seq"),)

    seq: int = Field(primary_key=True, sa_type=SEQ)
    reference: str = Field(foreign_key="patients.reference", sa_type=KEY)
    finding: str
    at: datetime
    reply: str = ""


class StoredFlag(Stored, table=True):
    """A flag and its life."""

    __tablename__ = "flags"
    __table_args__ = (
        sa.Index("ix_flags_reference", "reference", "seq"),
        partial("ix_flags_open", "urgency", "raised_at", where=IS_OPEN),
    )

    seq: int = Field(primary_key=True, sa_type=SEQ)
    id: str = Field(unique=True, sa_type=KEY)
    reference: str = Field(foreign_key="patients.reference", sa_type=KEY)
    rules: list[str] = Field(sa_type=sa.JSON)
    findings: list[str] = Field(sa_type=sa.JSON)
    urgency: int = Field(sa_type=sa.SmallInteger)
    words: str
    state: str
    raised_at: datetime
    act_by: datetime
    taken_by: str = ""
    taken_at: datetime | None = None
    closed_at: datetime | None = None
    outcome: str = ""
    note: str = ""
    raises: int = 1
    facts: dict[str, Any] = Field(sa_type=sa.JSON)


class StoredAct(Stored, table=True):
    """What people did, only ever added to."""

    __tablename__ = "acts"
    __table_args__ = (sa.Index("ix_acts_reference", "reference", "seq"),)

    seq: int = Field(primary_key=True, sa_type=SEQ)
    at: datetime
    who: str
    what: str
    reference: str = Field(default="", sa_type=KEY)
    about: str = ""
    facts: dict[str, Any] = Field(sa_type=sa.JSON)


class InboxRow(Stored, table=True):
    """One update of a chat network, kept before it is confirmed to the network."""

    __tablename__ = "inbox"
    __table_args__ = (
        partial("ix_inbox_unhandled", "seq", where=IS_UNHANDLED),
        partial("ix_inbox_chat", "chat", "seq", where=IS_UNHANDLED),
    )

    seq: int = Field(primary_key=True, sa_type=SEQ)
    id: str = Field(unique=True, sa_type=KEY)
    chat: str
    sender: str
    at: datetime
    kind: str
    text: str = ""
    rest: dict[str, Any] = Field(sa_type=sa.JSON)   # the update's other fields, those that are set
    stored_at: datetime
    handled_at: datetime | None = None
    trouble: str = ""


class StoredInvite(Stored, table=True):
    """A one-time code, as its hash only."""

    __tablename__ = "invites"

    code_hash: str = Field(primary_key=True)
    for_role: str
    reference: str = ""
    made_at: datetime
    expires_at: datetime
    used_at: datetime | None = None
    used_by: str = ""


class StoredTry(Stored, table=True):
    """A failed try of an invite."""

    __tablename__ = "tries"
    __table_args__ = (sa.Index("ix_tries_sender", "sender", "at"),)

    seq: int = Field(primary_key=True, sa_type=SEQ)
    sender: str
    at: datetime


class StoredMember(Stored, table=True):
    """One person of the care team."""

    __tablename__ = "members"

    sender: str = Field(primary_key=True)
    name: str
    role: str
    joined_at: datetime
    chat: str = ""
    removed_at: datetime | None = None


class StoredDesk(Stored, table=True):
    """Where a care team member's dialogue with the bot stands."""

    __tablename__ = "desks"

    sender: str = Field(primary_key=True)
    state: str
    about: str = ""
    since: datetime | None = None
    facts: dict[str, Any] = Field(sa_type=sa.JSON)


class StoredNote(Stored, table=True):
    """Small values that must survive a restart."""

    __tablename__ = "notes"

    name: str = Field(primary_key=True)
    value: str


conversations: sa.Table = StoredConversation.__table__  # type: ignore[attr-defined]
replies: sa.Table = StoredReply.__table__  # type: ignore[attr-defined]
findings: sa.Table = StoredFinding.__table__  # type: ignore[attr-defined]
flags: sa.Table = StoredFlag.__table__  # type: ignore[attr-defined]
acts: sa.Table = StoredAct.__table__  # type: ignore[attr-defined]
inbox: sa.Table = InboxRow.__table__  # type: ignore[attr-defined]
invites: sa.Table = StoredInvite.__table__  # type: ignore[attr-defined]
tries: sa.Table = StoredTry.__table__  # type: ignore[attr-defined]
members: sa.Table = StoredMember.__table__  # type: ignore[attr-defined]
desks: sa.Table = StoredDesk.__table__  # type: ignore[attr-defined]
notes: sa.Table = StoredNote.__table__  # type: ignore[attr-defined]

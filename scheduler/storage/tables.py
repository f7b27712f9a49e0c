"""The scheduler's tables: patients, plans, record entries, the outbox. The same on SQLite and PostgreSQL.

Instants are aware and stored in UTC (SQLModel's own type). Rows are read and written with plain statements
(`queries.py`); the classes here name the columns. Partial indexes keep the cost of looking for work at what is due,
whatever is stored: their conditions must be written in queries word for word as they are here.
"""

from __future__ import annotations

from datetime import datetime
from typing import Any

import sqlalchemy as sa
from sqlmodel import Field, SQLModel

# Bytewise order everywhere: a key's prefix is then a range of the index.
KEY = sa.String().with_variant(sa.String(collation="C"), "postgresql")
SEQ = sa.BigInteger().with_variant(sa.Integer(), "sqlite")

IS_WAITING = "state = 'waiting'"
IS_CLAIMED = "state = 'claimed'"
IS_WOKEN = "state IN ('active', 'paused')"     # patients whose timeline is expanded


def partial(name: str, *columns: str, where: str, unique: bool = False) -> sa.Index:
    """An index over the rows that meet a condition."""
    return sa.Index(name, *columns, unique=unique, sqlite_where=sa.text(where), postgresql_where=sa.text(where))


class Stored(SQLModel):
    """Base of every table of this program, so that migrations see these and no others."""

    metadata = sa.MetaData(naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_name)s",
    })


class Patient(Stored, table=True):
    """One row a patient: the whole cost of waiting for the next occasion."""

    __tablename__ = "patients"
    __table_args__ = (
        partial("ix_patients_woken", "next_at", where=IS_WOKEN),
        sa.Index("ix_patients_chat", "chat"),
    )

    reference: str = Field(primary_key=True, sa_type=KEY)
    state: str
    plan_version: int
    chat: str = ""
    sender: str = ""
    writer: str = "patient"
    expanded_until: datetime | None = None
    next_at: datetime | None = None
    added_at: datetime
    quarantined_at: datetime | None = None
    quarantined_why: str = ""


class StoredPlan(Stored, table=True):
    """Every version of every plan as the TOML text that was signed; a version never changes."""

    __tablename__ = "plans"

    reference: str = Field(primary_key=True, foreign_key="patients.reference", sa_type=KEY)
    version: int = Field(primary_key=True)
    text: str
    signed_by: str
    stored_at: datetime
    facts: dict[str, Any] = Field(sa_type=sa.JSON)


class StoredEntry(Stored, table=True):
    """The record: what happened, only ever added to."""

    __tablename__ = "entries"
    __table_args__ = (sa.Index("ix_entries_reference", "reference", "seq"),)

    seq: int = Field(primary_key=True, sa_type=SEQ)
    reference: str = Field(foreign_key="patients.reference", sa_type=KEY)
    kind: str
    at: datetime
    about: str = ""
    facts: dict[str, Any] = Field(sa_type=sa.JSON)


class OutboxRow(Stored, table=True):
    """One message a key, whatever its state. `not_before` is due_at, or later when it was put back for another try."""

    __tablename__ = "outbox"
    __table_args__ = (
        partial("ix_outbox_waiting", "agent", "priority", "not_before", "seq", where=IS_WAITING),
        partial("ix_outbox_leases", "lease_until", where=IS_CLAIMED),
        sa.Index("ix_outbox_reference", "reference", "due_at"),
        partial("ix_outbox_named", "sent_to", "name", where="name <> ''"),
    )

    seq: int = Field(primary_key=True, sa_type=SEQ)
    key: str = Field(unique=True, sa_type=KEY)
    recipient: str
    kind: str
    reference: str | None = Field(default=None, sa_type=KEY)
    due_at: datetime
    not_before: datetime
    send_before: datetime | None = None
    priority: int = Field(sa_type=sa.SmallInteger)
    agent: bool                       # a note to ourselves
    timeline: bool                    # came from an occasion: a changed plan makes it anew
    facts: dict[str, Any] = Field(sa_type=sa.JSON)
    edits: str | None = Field(default=None, sa_type=KEY)
    address: str | None = None
    state: str
    lease_until: datetime | None = None
    holder: str = ""
    attempts: int = 0
    in_flight: bool = False           # a sender died holding it: it may have been sent
    name: str = ""
    sent_to: str = ""
    at: datetime | None = None        # when it was last marked
    trouble: str = ""


patients: sa.Table = Patient.__table__  # type: ignore[attr-defined]
plans: sa.Table = StoredPlan.__table__  # type: ignore[attr-defined]
entries: sa.Table = StoredEntry.__table__  # type: ignore[attr-defined]
outbox: sa.Table = OutboxRow.__table__  # type: ignore[attr-defined]

"""The first tables."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op
from sqlmodel.sql.sqltypes import UTCDateTime

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

TEXT = sa.String()
KEY = sa.String().with_variant(sa.String(collation="C"), "postgresql")
SEQ = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
AT = UTCDateTime()


def upgrade() -> None:
    _scheduler_tables()
    _patient_tables()
    _other_tables()
    _indexes()


def downgrade() -> None:
    for table in ("notes", "desks", "members", "tries", "invites", "inbox", "acts", "flags", "findings", "replies",
                  "conversations", "outbox", "entries", "plans", "patients"):
        op.drop_table(table)


def _partial(name: str, table: str, columns: list[str], where: str) -> None:
    op.create_index(name, table, columns, sqlite_where=sa.text(where), postgresql_where=sa.text(where))

def _scheduler_tables() -> None:
    op.create_table(
        "patients",
        sa.Column("reference", KEY, nullable=False),
        sa.Column("state", TEXT, nullable=False),
        sa.Column("plan_version", sa.Integer(), nullable=False),
        sa.Column("chat", TEXT, nullable=False),
        sa.Column("sender", TEXT, nullable=False),
        sa.Column("writer", TEXT, nullable=False),
        sa.Column("expanded_until", AT, nullable=True),
        sa.Column("next_at", AT, nullable=True),
        sa.Column("added_at", AT, nullable=False),
        sa.Column("quarantined_at", AT, nullable=True),
        sa.Column("quarantined_why", TEXT, nullable=False),
        sa.PrimaryKeyConstraint("reference", name="pk_patients"),
    )
    op.create_table(
        "plans",
        sa.Column("reference", KEY, nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("text", TEXT, nullable=False),
        sa.Column("signed_by", TEXT, nullable=False),
        sa.Column("stored_at", AT, nullable=False),
        sa.Column("facts", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("reference", "version", name="pk_plans"),
        sa.ForeignKeyConstraint(["reference"], ["patients.reference"], name="fk_plans_reference"),
    )
    op.create_table(
        "entries",
        sa.Column("seq", SEQ, nullable=False),
        sa.Column("reference", KEY, nullable=False),
        sa.Column("kind", TEXT, nullable=False),
        sa.Column("at", AT, nullable=False),
        sa.Column("about", TEXT, nullable=False),
        sa.Column("facts", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_entries"),
        sa.ForeignKeyConstraint(["reference"], ["patients.reference"], name="fk_entries_reference"),
    )
    op.create_table(
        "outbox",
        sa.Column("seq", SEQ, nullable=False),
        sa.Column("key", KEY, nullable=False),
        sa.Column("recipient", TEXT, nullable=False),
        sa.Column("kind", TEXT, nullable=False),
        sa.Column("reference", KEY, nullable=True),
        sa.Column("due_at", AT, nullable=False),
        sa.Column("not_before", AT, nullable=False),
        sa.Column("send_before", AT, nullable=True),
        sa.Column("priority", sa.SmallInteger(), nullable=False),
        sa.Column("agent", sa.Boolean(), nullable=False),
        sa.Column("timeline", sa.Boolean(), nullable=False),
        sa.Column("facts", sa.JSON(), nullable=False),
        sa.Column("edits", KEY, nullable=True),
        sa.Column("address", TEXT, nullable=True),
        sa.Column("state", TEXT, nullable=False),
        sa.Column("lease_until", AT, nullable=True),
        sa.Column("holder", TEXT, nullable=False),
        sa.Column("attempts", sa.Integer(), nullable=False),
        sa.Column("in_flight", sa.Boolean(), nullable=False),
        sa.Column("name", TEXT, nullable=False),
        sa.Column("sent_to", TEXT, nullable=False),
        sa.Column("at", AT, nullable=True),
        sa.Column("trouble", TEXT, nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_outbox"),
        sa.UniqueConstraint("key", name="uq_outbox_key"),
    )


def _patient_tables() -> None:
    op.create_table(
        "conversations",
        sa.Column("reference", KEY, nullable=False),
        sa.Column("state", TEXT, nullable=False),
        sa.Column("about", TEXT, nullable=False),
        sa.Column("since", AT, nullable=True),
        sa.Column("facts", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("reference", name="pk_conversations"),
        sa.ForeignKeyConstraint(["reference"], ["patients.reference"], name="fk_conversations_reference"),
    )
    op.create_table(
        "replies",
        sa.Column("seq", SEQ, nullable=False),
        sa.Column("id", KEY, nullable=False),
        sa.Column("reference", KEY, nullable=False),
        sa.Column("at", AT, nullable=False),
        sa.Column("kind", TEXT, nullable=False),
        sa.Column("text", TEXT, nullable=False),
        sa.Column("reading", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_replies"),
        sa.ForeignKeyConstraint(["reference"], ["patients.reference"], name="fk_replies_reference"),
        sa.UniqueConstraint("id", name="uq_replies_id"),
    )
    op.create_table(
        "findings",
        sa.Column("seq", SEQ, nullable=False),
        sa.Column("reference", KEY, nullable=False),
        sa.Column("finding", TEXT, nullable=False),
        sa.Column("at", AT, nullable=False),
        sa.Column("reply", TEXT, nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_findings"),
        sa.ForeignKeyConstraint(["reference"], ["patients.reference"], name="fk_findings_reference"),
    )
    op.create_table(
        "flags",
        sa.Column("seq", SEQ, nullable=False),
        sa.Column("id", KEY, nullable=False),
        sa.Column("reference", KEY, nullable=False),
        sa.Column("rules", sa.JSON(), nullable=False),
        sa.Column("findings", sa.JSON(), nullable=False),
        sa.Column("urgency", sa.SmallInteger(), nullable=False),
        sa.Column("words", TEXT, nullable=False),
        sa.Column("state", TEXT, nullable=False),
        sa.Column("raised_at", AT, nullable=False),
        sa.Column("act_by", AT, nullable=False),
        sa.Column("taken_by", TEXT, nullable=False),
        sa.Column("taken_at", AT, nullable=True),
        sa.Column("closed_at", AT, nullable=True),
        sa.Column("outcome", TEXT, nullable=False),
        sa.Column("note", TEXT, nullable=False),
        sa.Column("raises", sa.Integer(), nullable=False),
        sa.Column("facts", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_flags"),
        sa.ForeignKeyConstraint(["reference"], ["patients.reference"], name="fk_flags_reference"),
        sa.UniqueConstraint("id", name="uq_flags_id"),
    )
    op.create_table(
        "acts",
        sa.Column("seq", SEQ, nullable=False),
        sa.Column("at", AT, nullable=False),
        sa.Column("who", TEXT, nullable=False),
        sa.Column("what", TEXT, nullable=False),
        sa.Column("reference", KEY, nullable=False),
        sa.Column("about", TEXT, nullable=False),
        sa.Column("facts", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_acts"),
    )


def _other_tables() -> None:
    op.create_table(
        "inbox",
        sa.Column("seq", SEQ, nullable=False),
        sa.Column("id", KEY, nullable=False),
        sa.Column("chat", TEXT, nullable=False),
        sa.Column("sender", TEXT, nullable=False),
        sa.Column("at", AT, nullable=False),
        sa.Column("kind", TEXT, nullable=False),
        sa.Column("text", TEXT, nullable=False),
        sa.Column("rest", sa.JSON(), nullable=False),
        sa.Column("stored_at", AT, nullable=False),
        sa.Column("handled_at", AT, nullable=True),
        sa.Column("trouble", TEXT, nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_inbox"),
        sa.UniqueConstraint("id", name="uq_inbox_id"),
    )
    op.create_table(
        "invites",
        sa.Column("code_hash", TEXT, nullable=False),
        sa.Column("for_role", TEXT, nullable=False),
        sa.Column("reference", TEXT, nullable=False),
        sa.Column("made_at", AT, nullable=False),
        sa.Column("expires_at", AT, nullable=False),
        sa.Column("used_at", AT, nullable=True),
        sa.Column("used_by", TEXT, nullable=False),
        sa.PrimaryKeyConstraint("code_hash", name="pk_invites"),
    )
    op.create_table(
        "tries",
        sa.Column("seq", SEQ, nullable=False),
        sa.Column("sender", TEXT, nullable=False),
        sa.Column("at", AT, nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_tries"),
    )
    op.create_table(
        "members",
        sa.Column("sender", TEXT, nullable=False),
        sa.Column("name", TEXT, nullable=False),
        sa.Column("role", TEXT, nullable=False),
        sa.Column("joined_at", AT, nullable=False),
        sa.Column("chat", TEXT, nullable=False),
        sa.Column("removed_at", AT, nullable=True),
        sa.PrimaryKeyConstraint("sender", name="pk_members"),
    )
    op.create_table(
        "desks",
        sa.Column("sender", TEXT, nullable=False),
        sa.Column("state", TEXT, nullable=False),
        sa.Column("about", TEXT, nullable=False),
        sa.Column("since", AT, nullable=True),
        sa.Column("facts", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("sender", name="pk_desks"),
    )
    op.create_table(
        "notes",
        sa.Column("name", TEXT, nullable=False),
        sa.Column("value", TEXT, nullable=False),
        sa.PrimaryKeyConstraint("name", name="pk_notes"),
    )


def _indexes() -> None:
    op.create_index("ix_patients_chat", "patients", ["chat"])
    _partial("ix_patients_woken", "patients", ["next_at"], "state IN ('active', 'paused')")
    op.create_index("ix_entries_reference", "entries", ["reference", "seq"])
    _partial("ix_outbox_leases", "outbox", ["lease_until"], "state = 'claimed'")
    _partial("ix_outbox_named", "outbox", ["sent_to", "name"], "name <> ''")
    op.create_index("ix_outbox_reference", "outbox", ["reference", "due_at"])
    _partial("ix_outbox_waiting", "outbox", ["agent", "priority", "not_before", "seq"], "state = 'waiting'")
    op.create_index("ix_replies_reference", "replies", ["reference", "seq"])
    op.create_index("ix_findings_reference", "findings", ["reference", "seq"])
    _partial("ix_flags_open", "flags", ["urgency", "raised_at"], "state <> 'closed'")
    op.create_index("ix_flags_reference", "flags", ["reference", "seq"])
    op.create_index("ix_acts_reference", "acts", ["reference", "seq"])
    _partial("ix_inbox_chat", "inbox", ["chat", "seq"], "handled_at IS NULL")
    _partial("ix_inbox_unhandled", "inbox", ["seq"], "handled_at IS NULL")
    op.create_index("ix_tries_sender", "tries", ["sender", "at"])

"""Every statement of the bot's part of a transaction, named and together (the scheduler's are in its own module)."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from sqlalchemy.dialects import postgresql, sqlite

from bot.storage.tables import (
    IS_OPEN,
    IS_UNHANDLED,
    acts,
    conversations,
    desks,
    findings,
    flags,
    inbox,
    invites,
    members,
    notes,
    replies,
    tries,
)
from scheduler.storage.queries import COUNTED
from scheduler.storage.tables import IS_CLAIMED, IS_WAITING, entries, outbox, patients, plans

_whose = sa.bindparam("whose", type_=sa.String)
_limit = sa.bindparam("limit", type_=sa.Integer)
_open = sa.text(f"flags.{IS_OPEN}")
_unhandled = sa.text(f"inbox.{IS_UNHANDLED}")


class Upserts:
    """Inserts with a rule for rows that are there already, in one database's dialect."""

    def __init__(self, insert: Any) -> None:
        self.patient = _new_only(insert(patients), "reference")
        self.update = _new_only(insert(inbox), "id")
        self.conversation = _replacing(insert(conversations), "reference")
        self.desk = _replacing(insert(desks), "sender")
        self.reply = _replacing(insert(replies), "id", keep=("seq",))
        self.flag = _replacing(insert(flags), "id", keep=("seq", "reference"))
        self.invite = _replacing(insert(invites), "code_hash")
        self.member = _replacing(insert(members), "sender")
        self.note = _replacing(insert(notes), "name")


def _new_only(insert: Any, key: str) -> Any:
    return insert.on_conflict_do_nothing(index_elements=[key]).execution_options(**COUNTED)


def _replacing(insert: Any, key: str, keep: tuple[str, ...] = ()) -> Any:
    columns = [column.name for column in insert.table.columns if column.name not in (key, *keep)]
    return insert.on_conflict_do_update(index_elements=[key], set_={name: insert.excluded[name] for name in columns})


SQLITE = Upserts(sqlite.insert)
POSTGRESQL = Upserts(postgresql.insert)

# Patients. A patient's row is locked before anything else of that patient is read: what is read in the same statement
# as a lock may be older than the lock.

_row = (
    patients.c.reference, patients.c.state, patients.c.plan_version, patients.c.chat, patients.c.sender,
    patients.c.writer, patients.c.expanded_until, patients.c.next_at,
)
LOCK_PATIENT = sa.select(*_row).where(patients.c.reference == _whose).with_for_update(key_share=True)
PATIENTS = sa.select(*_row).order_by(patients.c.reference)
REFERENCE_OF = (
    sa.select(patients.c.reference)
    .where(patients.c.chat == sa.bindparam("where"), patients.c.chat != "")
    .order_by(patients.c.state == "ended", patients.c.added_at.desc(), patients.c.reference.desc())
    .limit(1)
)
QUARANTINED = (
    sa.select(patients.c.reference, patients.c.quarantined_why, patients.c.quarantined_at)
    .where(patients.c.state == "quarantined")
    .order_by(patients.c.reference)
)
SET_ROW = (
    sa.update(patients)
    .where(patients.c.reference == _whose)
    .values(state=sa.bindparam("new_state"), plan_version=sa.bindparam("new_version"), chat=sa.bindparam("new_chat"),
            sender=sa.bindparam("new_sender"), writer=sa.bindparam("new_writer"))
)

ADD_PLAN = sa.insert(plans)
LAST_VERSION = sa.select(sa.func.max(plans.c.version)).where(plans.c.reference == _whose)
PLANS = sa.select(plans).where(plans.c.reference == _whose).order_by(plans.c.version)
PLAN_AND_CONVERSATION = (
    sa.select(plans.c.text, plans.c.facts.label("plan_facts"), conversations.c.state, conversations.c.about,
              conversations.c.since, conversations.c.facts)
    .select_from(plans.outerjoin(conversations, conversations.c.reference == plans.c.reference))
    .where(plans.c.reference == _whose, plans.c.version == sa.bindparam("version"))
)

ADD_ENTRIES = sa.insert(entries)
ADD_FINDINGS = sa.insert(findings)
FINDINGS = (
    sa.select(findings.c.finding, findings.c.at, findings.c.reply)
    .where(findings.c.reference == _whose)
    .order_by(findings.c.seq)
)

REPLIES = sa.select(replies).where(replies.c.reference == _whose).order_by(replies.c.seq.desc()).limit(_limit)

FLAGS = sa.select(flags).where(flags.c.reference == _whose).order_by(flags.c.seq)
FLAG = sa.select(flags).where(flags.c.id == _whose)
OPEN_FLAGS = sa.select(flags).where(_open).order_by(flags.c.urgency.desc(), flags.c.raised_at, flags.c.id)

ADD_ACTS = sa.insert(acts)
ACTS = sa.select(acts).order_by(acts.c.seq.desc()).limit(_limit)
ACTS_OF = sa.select(acts).where(acts.c.reference == _whose).order_by(acts.c.seq.desc()).limit(_limit)

# The inbox. The oldest update of a chat stays the only candidate while another worker holds it, locked or not.

_older = inbox.alias("older")
UNHANDLED = (
    sa.select(inbox)
    .where(
        _unhandled,
        inbox.c.chat.not_in(sa.bindparam("skip", expanding=True)),
        ~sa.exists().where(sa.text(f"older.{IS_UNHANDLED}"), _older.c.chat == inbox.c.chat,
                           _older.c.seq < inbox.c.seq),
    )
    .order_by(inbox.c.seq)
    .limit(_limit)
    .with_for_update(skip_locked=True, of=inbox)
)
MARK_HANDLED = (
    sa.update(inbox)
    .where(inbox.c.id == _whose)
    .values(handled_at=sa.bindparam("new_at"), trouble=sa.bindparam("new_trouble"))
)
_talks_in = sa.select(patients.c.chat).where(patients.c.reference == _whose, patients.c.chat != "")
_said = sa.select(replies.c.id).where(replies.c.reference == _whose)
_said_by_others = sa.select(replies.c.id).where(replies.c.reference != _whose)     # a family may share a chat
UPDATES_OF = (
    sa.select(inbox)
    .where(sa.or_(inbox.c.id.in_(_said), sa.and_(inbox.c.chat.in_(_talks_in), inbox.c.id.not_in(_said_by_others))))
    .order_by(inbox.c.seq)
)
PRUNABLE_UPDATES = (
    sa.select(inbox.c.seq)
    .where(inbox.c.handled_at < sa.bindparam("now", type_=inbox.c.at.type))
    .order_by(inbox.c.seq)
    .limit(_limit)
)
PRUNE_UPDATES = sa.delete(inbox).where(inbox.c.seq.in_(sa.bindparam("seqs", expanding=True)))

# Invites, tries, the care team, notes

INVITE = sa.select(invites).where(invites.c.code_hash == _whose).with_for_update()
USE_INVITE = (
    sa.update(invites)
    .where(invites.c.code_hash == _whose, invites.c.used_at.is_(None))
    .values(used_at=sa.bindparam("new_at"), used_by=sa.bindparam("new_by"))
)
INVITES_OF = sa.select(invites).where(invites.c.reference == _whose).order_by(invites.c.made_at, invites.c.code_hash)
ADD_TRY = sa.insert(tries)
TRIES = sa.select(sa.func.count()).select_from(tries).where(
    tries.c.sender == _whose, tries.c.at >= sa.bindparam("since", type_=tries.c.at.type)
)
MEMBERS = sa.select(members).order_by(members.c.joined_at, members.c.sender)
MEMBER = sa.select(members).where(members.c.sender == _whose, members.c.removed_at.is_(None))
DESK = sa.select(desks).where(desks.c.sender == _whose)
NOTE = sa.select(notes.c.value).where(notes.c.name == _whose)

# Figures for the health page, in one statement

_due = (sa.text(f"outbox.{IS_WAITING}"), outbox.c.not_before <= sa.bindparam("now", type_=outbox.c.due_at.type))
COUNTS = sa.select(
    sa.select(sa.func.count()).select_from(outbox).where(sa.text(f"outbox.{IS_WAITING}")).scalar_subquery().label("waiting"),
    sa.select(sa.func.count()).select_from(outbox).where(sa.text(f"outbox.{IS_CLAIMED}")).scalar_subquery().label("claimed"),
    sa.select(sa.func.count()).select_from(outbox).where(*_due).scalar_subquery().label("due"),
    sa.select(sa.func.min(outbox.c.not_before)).where(*_due).scalar_subquery().label("oldest"),
    sa.select(sa.func.count()).select_from(inbox).where(_unhandled).scalar_subquery().label("unhandled"),
    sa.select(sa.func.count()).select_from(patients).scalar_subquery().label("patients"),
    sa.select(sa.func.count()).select_from(patients).where(patients.c.state == "quarantined").scalar_subquery()
    .label("quarantined"),
    sa.select(sa.func.count()).select_from(flags).where(_open).scalar_subquery().label("open_flags"),
)

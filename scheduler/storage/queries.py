"""Every statement that the tick and the sender run, named and together.

Conditions of partial indexes stand here as literal text, since SQLite only uses such an index when it sees its words.
`FOR UPDATE SKIP LOCKED` is left out by SQLAlchemy on SQLite, where a transaction holds the whole file from its begin.
"""

from __future__ import annotations

from collections.abc import Iterable

import sqlalchemy as sa
from sqlalchemy.dialects import postgresql, sqlite

from scheduler.messages import Priority
from scheduler.storage.tables import IS_CLAIMED, IS_WAITING, IS_WOKEN, entries, outbox, patients, plans

LAST = "\U0010ffff"      # sorts after every character: a prefix is the range [prefix, prefix + LAST]

_waiting = sa.text(f"outbox.{IS_WAITING}")
_leased = sa.text(f"outbox.{IS_CLAIMED}")
_woken = sa.text(f"patients.{IS_WOKEN}")
_now = sa.bindparam("now", type_=outbox.c.due_at.type)

# The tick

DUE_PATIENTS = (
    sa.select(patients.c.reference, patients.c.plan_version, patients.c.expanded_until, patients.c.next_at,
              patients.c.writer)
    .where(_woken, patients.c.next_at <= sa.bindparam("until", type_=patients.c.next_at.type))
    .order_by(patients.c.next_at, patients.c.reference)
    .limit(sa.bindparam("limit", type_=sa.Integer))
    .with_for_update(skip_locked=True, key_share=True)
)
PLANS_IN_FORCE = (
    sa.select(plans.c.reference, plans.c.text, plans.c.facts)
    .join(patients, sa.and_(patients.c.reference == plans.c.reference, patients.c.plan_version == plans.c.version))
    .where(patients.c.reference.in_(sa.bindparam("references", expanding=True)))
)
ENTRIES_OF = (
    sa.select(entries.c.reference, entries.c.kind, entries.c.at, entries.c.about, entries.c.facts)
    .where(entries.c.reference.in_(sa.bindparam("references", expanding=True)))
    .order_by(entries.c.reference, entries.c.seq)
)
SET_CURSOR = (
    sa.update(patients)
    .where(patients.c.reference == sa.bindparam("whose"))
    .values(expanded_until=sa.bindparam("new_until"), next_at=sa.bindparam("new_next"))
)
QUARANTINE = (
    sa.update(patients)
    .where(patients.c.reference == sa.bindparam("whose"))
    .values(state="quarantined", next_at=None, quarantined_at=sa.bindparam("new_at"),
            quarantined_why=sa.bindparam("why"))
)

# The outbox

COUNTED = {"preserve_rowcount": True}     # how many rows an insert really added is asked for
PUT_SQLITE = sqlite.insert(outbox).on_conflict_do_nothing(index_elements=["key"]).execution_options(**COUNTED)
PUT_POSTGRESQL = postgresql.insert(outbox).on_conflict_do_nothing(index_elements=["key"]).execution_options(**COUNTED)

_expired = (
    sa.select(outbox.c.seq)
    .where(_leased, outbox.c.lease_until <= _now)
    .with_for_update(skip_locked=True)
    .correlate(None)
)
TAKE_BACK = (
    sa.update(outbox)
    .where(outbox.c.seq.in_(_expired))
    .values(state="waiting", lease_until=None, holder="", in_flight=True)
)
MARK = (
    sa.update(outbox)
    .where(outbox.c.key == sa.bindparam("whose"),
           sa.or_(outbox.c.state != "sent", sa.bindparam("new_state", type_=sa.String) == "sent"))
    .values(
        state=sa.bindparam("new_state", type_=sa.String),
        at=sa.bindparam("new_at"),
        lease_until=None,
        holder="",
        trouble=sa.bindparam("new_trouble"),
        name=sa.func.coalesce(sa.bindparam("new_name", type_=sa.String), outbox.c.name),
        sent_to=sa.func.coalesce(sa.bindparam("new_sent_to", type_=sa.String), outbox.c.sent_to),
        not_before=sa.func.coalesce(sa.bindparam("retry_at", type_=outbox.c.due_at.type), outbox.c.not_before),
        attempts=outbox.c.attempts - sa.bindparam("unsent", type_=sa.Integer),
    )
)
# The same for many rows in one statement: a third of the time of a statement a row (measured). :marks is a JSON list.
MARK_MANY_POSTGRESQL = sa.text("""
    UPDATE outbox
    SET state = new_state, at = new_at, lease_until = NULL, holder = '', trouble = new_trouble,
        name = coalesce(new_name, outbox.name), sent_to = coalesce(new_sent_to, outbox.sent_to),
        not_before = coalesce(retry_at, outbox.not_before), attempts = outbox.attempts - unsent
    FROM json_to_recordset(CAST(:marks AS json))
         AS marked (whose text, new_state text, new_at timestamptz, new_trouble text, new_name text, new_sent_to text,
                    retry_at timestamptz, unsent integer)
    WHERE outbox.key = whose COLLATE "C" AND (outbox.state <> 'sent' OR new_state = 'sent')
""")
HOLDERS = sa.select(outbox.c.holder).where(_leased).distinct()
TAKE_BACK_FROM = (
    sa.update(outbox)
    .where(_leased, outbox.c.holder.in_(sa.bindparam("holders", expanding=True)))
    .values(state="waiting", lease_until=None, holder="", in_flight=True)
)
DUE_BEFORE_JUMP = (
    sa.update(outbox)
    .where(_waiting, outbox.c.not_before > _now, outbox.c.due_at <= sa.bindparam("before", type_=outbox.c.due_at.type))
    .values(not_before=_now)
)
LEASED_BEFORE_JUMP = (
    sa.update(outbox)
    .where(_leased, outbox.c.lease_until > _now)
    .values(lease_until=_now, not_before=sa.case((outbox.c.not_before > _now, _now), else_=outbox.c.not_before))
)


def _free(*conditions: sa.ColumnElement[bool] | sa.TextClause) -> sa.Select[tuple[int]]:
    """WAITING rows that nobody is claiming at this moment: whoever came first has them, and neither waits."""
    return sa.select(outbox.c.seq).where(_waiting, *conditions).with_for_update(skip_locked=True).correlate(None)


CANCEL = (
    sa.update(outbox)
    .where(outbox.c.seq.in_(_free(outbox.c.key.in_(sa.bindparam("keys", expanding=True)))))
    .values(state="cancelled")
)
CANCEL_PREFIX = (
    sa.update(outbox)
    .where(outbox.c.seq.in_(_free(outbox.c.key >= sa.bindparam("first", type_=sa.String),
                                   outbox.c.key <= sa.bindparam("last", type_=sa.String))))
    .values(state="cancelled")
)
DROP_EXPANDED = sa.delete(outbox).where(
    outbox.c.seq.in_(_free(outbox.c.reference == sa.bindparam("whose"), outbox.c.due_at > _now, outbox.c.timeline))
)
PRUNABLE = (
    sa.select(outbox.c.seq)
    .where(outbox.c.state.not_in(["waiting", "claimed"]), outbox.c.not_before < _now,
           sa.or_(outbox.c.at.is_(None), outbox.c.at < _now))
    .order_by(outbox.c.seq)
    .limit(sa.bindparam("limit", type_=sa.Integer))
)
PRUNE = sa.delete(outbox).where(outbox.c.seq.in_(sa.bindparam("seqs", expanding=True)))


def _due(agent: sa.ColumnElement[bool], priority: Priority) -> sa.Select[tuple[int]]:
    """Due rows of one priority in order of time: one range of the index of waiting rows."""
    return (
        sa.select(outbox.c.seq)
        .where(_waiting, outbox.c.agent == agent, outbox.c.priority == int(priority), outbox.c.not_before <= _now)
        .order_by(outbox.c.not_before, outbox.c.seq)
    )


def claim(arrays: bool, priorities: Iterable[Priority] = Priority) -> sa.Update:
    """Claim up to :limit due rows of these priorities, the first priority first.

    Each priority is a range of its own, limited by what the ones before it left: nothing that waits for later is read.
    arrays: PostgreSQL, where `= ANY (ARRAY(...))` makes sure that rows are found through the primary key.
    """
    agent = sa.bindparam("for_agent", type_=sa.Boolean)
    left: sa.ColumnElement[int] = sa.bindparam("limit", type_=sa.Integer)
    parts: list[sa.Select[tuple[int]]] = []
    for priority in priorities:
        part = _due(agent, priority).limit(left).with_for_update(skip_locked=True).cte(f"due_{int(priority)}")
        left = left - sa.select(sa.func.count()).select_from(part).scalar_subquery()
        parts.append(sa.select(part.c.seq))
    chosen = sa.union_all(*parts)
    return (
        sa.update(outbox)
        .where(outbox.c.seq == sa.any_(sa.func.array(chosen.scalar_subquery())) if arrays
               else outbox.c.seq.in_(chosen))
        .values(state="claimed", lease_until=sa.bindparam("new_lease"), holder=sa.bindparam("new_holder"),
                attempts=outbox.c.attempts + 1)
        .returning(*MESSAGE_COLUMNS, outbox.c.attempts, outbox.c.in_flight)
    )


MESSAGE_COLUMNS = (
    outbox.c.seq, outbox.c.not_before, outbox.c.key, outbox.c.recipient, outbox.c.kind, outbox.c.due_at,
    outbox.c.reference, outbox.c.send_before, outbox.c.priority, outbox.c.facts, outbox.c.edits, outbox.c.address,
)
_URGENT = (Priority.EMERGENCY, Priority.FLAG)
CLAIM_SQLITE = claim(arrays=False)
CLAIM_POSTGRESQL = claim(arrays=True)
CLAIM_URGENT_SQLITE = claim(arrays=False, priorities=_URGENT)
CLAIM_URGENT_POSTGRESQL = claim(arrays=True, priorities=_URGENT)


def _first(column: sa.Column[object], *conditions: sa.ColumnElement[bool] | sa.TextClause) -> sa.ScalarSelect[object]:
    """The smallest value of an indexed column. Not min(): PostgreSQL may read the whole range for it."""
    return sa.select(column).where(*conditions, column.is_not(None)).order_by(column).limit(1).scalar_subquery()


def _first_of_each() -> list[sa.ScalarSelect[object]]:
    ranges = [(agent, priority) for agent in (False, True) for priority in Priority]
    return [
        _first(outbox.c.not_before, _waiting, outbox.c.agent == agent, outbox.c.priority == int(priority))
        for agent, priority in ranges
    ]


# Asked for on their own: SQLite evaluates a subquery within RETURNING once for all rows, another patient's chat for one
CHATS_OF = sa.select(patients.c.reference, patients.c.chat, patients.c.state).where(
    patients.c.reference.in_(sa.bindparam("references", expanding=True)))
NAMES_OF = sa.select(outbox.c.key, outbox.c.name, outbox.c.state).where(
    outbox.c.key.in_(sa.bindparam("keys", expanding=True)))

NEXT_DUE = sa.select(
    *_first_of_each(),
    _first(outbox.c.lease_until, _leased),
    _first(patients.c.next_at, _woken),
)

SENT_COLUMNS = (*MESSAGE_COLUMNS, outbox.c.state, outbox.c.name, outbox.c.sent_to, outbox.c.at)
MESSAGE = sa.select(*SENT_COLUMNS).where(outbox.c.key == sa.bindparam("whose"))
SENT_AS = (
    sa.select(*SENT_COLUMNS)
    .where(sa.text("outbox.name <> ''"), outbox.c.sent_to == sa.bindparam("where"),
           outbox.c.name == sa.bindparam("named"))
    .order_by(outbox.c.seq.desc())
    .limit(1)
)
MESSAGES_OF = (
    sa.select(*SENT_COLUMNS)
    .where(outbox.c.reference == sa.bindparam("whose"))
    .order_by(outbox.c.due_at.desc(), outbox.c.seq.desc())
    .limit(sa.bindparam("limit", type_=sa.Integer))
)
COMING = (
    sa.select(*MESSAGE_COLUMNS)
    .where(_waiting)
    .order_by(outbox.c.not_before, outbox.c.seq)
    .limit(sa.bindparam("limit", type_=sa.Integer))
)

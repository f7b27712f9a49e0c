"""Forgetting one patient: what goes whole, and what others' rows must lose because it speaks of them.

A patient's own rows are deleted. Rows of the care team stay, without what names the patient or repeats words that were
theirs: a digest with several patients loses one line, what a nurse typed about the patient loses its text. An update
keeps its id, so that a copy that the network sends again is still known.
"""

from __future__ import annotations

from datetime import datetime
from typing import Any

import sqlalchemy as sa
from sqlalchemy.ext.asyncio import AsyncConnection

from bot.storage.queries import LOCK_PATIENT
from bot.storage.tables import (
    acts,
    conversations,
    desks,
    findings,
    flags,
    inbox,
    invites,
    notes,
    replies,
    tries,
)
from bot.storage.traces import GONE, Traces, mentions, pruned, texts_of, without_name
from scheduler.storage.tables import entries, outbox, patients, plans

OWN = (replies, findings, flags, conversations, entries, plans, acts)


async def erase(connection: AsyncConnection, reference: str, now: datetime) -> bool:
    """Delete or empty every row that holds this patient, in one transaction; False for an unknown reference."""
    if connection.dialect.name == "sqlite":
        await connection.exec_driver_sql("PRAGMA secure_delete=ON")   # deleted rows are overwritten with zeros
    row = (await connection.execute(LOCK_PATIENT, {"whose": reference})).one_or_none()
    if row is None:
        return False
    traces = await _traces(connection, reference, str(row.chat))
    await _inbox(connection, traces, now)
    await _outbox(connection, traces)
    await _care_rows(connection, traces)
    await connection.execute(sa.delete(invites).where(invites.c.reference == reference))
    if row.sender:
        await connection.execute(sa.delete(tries).where(tries.c.sender == row.sender))
    for table in OWN:
        await connection.execute(sa.delete(table).where(table.c.reference == reference))
    await connection.execute(sa.delete(patients).where(patients.c.reference == reference))
    return True


async def _traces(connection: AsyncConnection, reference: str, chat: str) -> Traces:
    mine = outbox.c.reference == reference
    sent = (await connection.execute(
        sa.select(outbox.c.recipient, outbox.c.sent_to, outbox.c.name, outbox.c.facts).where(mine))).all()
    chats = {row.sent_to for row in sent if row.recipient == "patient"} | {chat}
    elsewhere = sa.select(patients.c.chat).where(patients.c.reference != reference, patients.c.chat != "")
    others = frozenset((await connection.execute(elsewhere)).scalars())
    typed = (await connection.execute(sa.select(acts.c.facts).where(acts.c.reference == reference))).scalars()
    noted = (await connection.execute(sa.select(flags.c.note).where(flags.c.reference == reference))).scalars()
    replied = (await connection.execute(sa.select(replies.c.id, replies.c.reference))).all()
    return Traces(
        reference, frozenset(chats - others - {""}), others,
        frozenset(row.id for row in replied if row.reference == reference),
        frozenset(row.id for row in replied if row.reference != reference),
        frozenset((row.sent_to, row.name) for row in sent if row.name),
        frozenset({*(text for facts in typed for text in texts_of(facts)), *noted,
                   *(text for row in sent for text in texts_of(row.facts.get("text", "")))} - {""}))


async def _inbox(connection: AsyncConnection, traces: Traces, now: datetime) -> None:
    """Updates of the patient, and those of others about the patient, become empty and count as handled."""
    done = sa.bindparam("done", now, inbox.c.handled_at.type)
    found = await connection.execute(sa.select(inbox.c.seq, inbox.c.id, inbox.c.chat, inbox.c.text, inbox.c.rest,
                                             inbox.c.handled_at))
    seqs = [row.seq for row in found
            if traces.touch(row.id, row.chat, row.text, row.rest, handled=row.handled_at is not None)]
    for start in range(0, len(seqs), 500):
        await connection.execute(
            sa.update(inbox).where(inbox.c.seq.in_(seqs[start:start + 500]))
            .values(chat="", sender="", text="", rest={}, trouble=GONE,
                    handled_at=sa.func.coalesce(inbox.c.handled_at, done)))


async def _outbox(connection: AsyncConnection, traces: Traces) -> None:
    """The patient's messages go; a message about several patients loses what is about this one."""
    chats = list(traces.chats)
    await connection.execute(sa.delete(outbox).where(sa.or_(
        outbox.c.reference == traces.reference, outbox.c.address.in_(chats), outbox.c.sent_to.in_(chats))))
    for row in (await connection.execute(_mentioning(outbox.c.facts, traces, outbox.c.seq))).all():
        await connection.execute(sa.update(outbox).where(outbox.c.seq == row.seq)
                                 .values(facts=pruned(row.facts, traces.named)))


async def _care_rows(connection: AsyncConnection, traces: Traces) -> None:
    """Desks that were about the patient are put back; acts and notes on other patients' flags lose the name."""
    for row in (await connection.execute(sa.select(desks))).all():
        if traces.named(row.about) or mentions(row.facts, traces.named):
            await connection.execute(sa.update(desks).where(desks.c.sender == row.sender)
                                     .values(state="idle", about="", since=None, facts={}))
    for row in (await connection.execute(_mentioning(acts.c.facts, traces, acts.c.seq, acts.c.about))).all():
        await connection.execute(sa.update(acts).where(acts.c.seq == row.seq)
                                 .values(about=without_name(row.about, traces.reference),
                                         facts=pruned(row.facts, traces.named)))
    noting = sa.func.lower(flags.c.note).contains(traces.reference.lower())
    for row in (await connection.execute(sa.select(flags.c.seq, flags.c.note).where(noting))).all():
        await connection.execute(sa.update(flags).where(flags.c.seq == row.seq)
                                 .values(note=without_name(row.note, traces.reference)))
    for row in (await connection.execute(sa.select(notes))).all():
        if row.value in traces.chats or any(row.name.endswith(f":{chat}") for chat in traces.chats):
            await connection.execute(sa.delete(notes).where(notes.c.name == row.name))


def _mentioning(facts: sa.Column[Any], traces: Traces, *columns: sa.Column[Any]) -> sa.Select[Any]:
    """Rows whose facts, or whose other text columns, hold the reference."""
    written = traces.reference.lower()
    texts = [sa.cast(facts, sa.String), *(column for column in columns if isinstance(column.type, sa.String))]
    return sa.select(facts, *columns).where(sa.or_(*(sa.func.lower(text).contains(written) for text in texts)))

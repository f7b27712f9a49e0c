"""The tick's and the sender's part of a transaction over SQL. `bot/storage/sql.py` adds the rest."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any

import sqlalchemy as sa
from sqlalchemy.ext.asyncio import AsyncConnection

from scheduler.errors import SchedulerError
from scheduler.messages import Message, Priority, To, quarantined_message
from scheduler.ports import Claimed, Due, Mark
from scheduler.record import Entry, EntryKind, Record
from scheduler.storage import queries
from scheduler.storage.stored_plans import PlanCache


class SqlSchedulerWork:
    """One transaction's connection, with what the tick and the sender do on it."""

    def __init__(self, connection: AsyncConnection, plans: PlanCache) -> None:
        self._connection = connection
        self._plans = plans
        self._postgresql = connection.dialect.name == "postgresql"

    # the tick's part

    async def due_patients(self, until: datetime, limit: int) -> Sequence[Due]:
        rows = (await self._run(queries.DUE_PATIENTS, until=until, limit=limit)).all()
        if not rows:
            return []
        references = [row.reference for row in rows]
        found = (await self._run(queries.PLANS_IN_FORCE, references=references)).all()
        stored = {row.reference: row for row in found}
        records = await self._entries(references)
        due: list[Due] = []
        for row in rows:
            try:
                plan = self._plans.plan(stored[row.reference].text, stored[row.reference].facts)
                record = Record(tuple(_entry(entry) for entry in records.get(row.reference, ())))
            except (SchedulerError, ArithmeticError, LookupError, TypeError, ValueError) as error:
                # a plan that this version cannot read: this patient stops and is told of, the others go on
                why = f"the stored plan or record cannot be read: {error}"
                await self.quarantine(row.reference, why, row.next_at)
                await self.put([quarantined_message(row.reference, why, row.next_at)])
                continue
            due.append(Due(row.reference, plan, row.plan_version, record, row.expanded_until or row.next_at,
                           row.writer))
        return due

    async def set_cursor(self, reference: str, expanded_until: datetime, next_at: datetime | None) -> None:
        await self._run(queries.SET_CURSOR, whose=reference, new_until=expanded_until, new_next=next_at)

    async def set_cursors(self, cursors: Iterable[tuple[str, datetime, datetime | None]]) -> None:
        await self._many(queries.SET_CURSOR, [
            {"whose": reference, "new_until": until, "new_next": next_at} for reference, until, next_at in cursors])

    async def quarantine(self, reference: str, why: str, now: datetime) -> None:
        await self._run(queries.QUARANTINE, whose=reference, why=why[:1000], new_at=now)

    async def put(self, messages: Iterable[Message]) -> int:
        statement = queries.PUT_POSTGRESQL if self._postgresql else queries.PUT_SQLITE
        return await self._many(statement, [message_row(message) for message in messages])

    # the sender's part

    async def claim(self, now: datetime, limit: int, lease_until: datetime, holder: str,
                    agent: bool = False, urgent: bool = False) -> Sequence[Claimed]:
        await self._run(queries.TAKE_BACK, now=now)
        if self._postgresql:
            statement = queries.CLAIM_URGENT_POSTGRESQL if urgent else queries.CLAIM_POSTGRESQL
        else:
            statement = queries.CLAIM_URGENT_SQLITE if urgent else queries.CLAIM_SQLITE
        rows = (await self._run(statement, now=now, limit=limit, for_agent=agent, new_lease=lease_until,
                                new_holder=holder)).all()
        ordered = sorted(rows, key=lambda row: (row.priority, row.not_before, row.seq))
        chats = await self._chats({row.reference for row in ordered if row.recipient == To.PATIENT})
        names = await self._names({row.edits for row in ordered if row.edits is not None})
        return [_claimed(row, *chats.get(row.reference, ("", False)), *names.get(row.edits, ("", False)))
                for row in ordered]

    async def mark(self, marks: Iterable[Mark]) -> None:
        rows = [
            {"whose": mark.key, "new_state": str(mark.state), "new_at": mark.at, "new_trouble": _storable(mark.trouble),
             "new_name": mark.name or None, "new_sent_to": mark.address or None, "retry_at": mark.retry_at,
             "unsent": int(mark.unsent)}
            for mark in marks
        ]
        if self._postgresql and len(rows) > 1 and len({mark["whose"] for mark in rows}) == len(rows):
            await self._run(queries.MARK_MANY_POSTGRESQL, marks=json.dumps(rows, default=datetime.isoformat))
        else:
            await self._many(queries.MARK, rows)

    async def holders(self) -> Sequence[str]:
        return [row.holder for row in await self._run(queries.HOLDERS)]

    async def take_back(self, holders: Iterable[str]) -> int:
        return (await self._run(queries.TAKE_BACK_FROM, holders=list(holders))).rowcount

    async def clock_set_back(self, before: datetime, now: datetime) -> int:
        waiting = await self._run(queries.DUE_BEFORE_JUMP, before=before, now=now)
        leased = await self._run(queries.LEASED_BEFORE_JUMP, now=now)
        return waiting.rowcount + leased.rowcount

    async def next_due(self) -> datetime | None:
        row = (await self._run(queries.NEXT_DUE)).one()
        return min((instant for instant in row if instant is not None), default=None)

    # shared with the bot's part

    async def cancel(self, keys: Iterable[str]) -> None:
        """WAITING messages with these keys become CANCELLED; a key ending in "*" is a prefix."""
        exact: list[str] = []
        for key in keys:
            if key.endswith("*"):
                prefix = key[:-1]
                await self._run(queries.CANCEL_PREFIX, first=prefix, last=prefix + queries.LAST)
            else:
                exact.append(key)
        if exact:
            await self._run(queries.CANCEL, keys=exact)

    async def _chats(self, references: set[str | None]) -> Mapping[str, tuple[str, bool]]:
        found = (await self._run(queries.CHATS_OF, references=list(references))).all() if references else []
        return {row.reference: (row.chat, row.state == "held") for row in found}

    async def _names(self, keys: set[str]) -> Mapping[str, tuple[str, bool]]:
        found = (await self._run(queries.NAMES_OF, keys=list(keys))).all() if keys else []
        return {row.key: (row.name, row.state in ("waiting", "claimed")) for row in found}

    async def _record(self, reference: str) -> Record:
        rows = (await self._entries([reference])).get(reference, ())
        return Record(tuple(_entry(row) for row in rows))

    async def _entries(self, references: Sequence[str]) -> Mapping[str, list[sa.Row[Any]]]:
        found: dict[str, list[sa.Row[Any]]] = {}
        for row in await self._run(queries.ENTRIES_OF, references=list(references)):
            found.setdefault(row.reference, []).append(row)
        return found

    async def _many(self, statement: sa.Executable, rows: Sequence[Mapping[str, Any]]) -> int:
        """Run a statement for each row, if there are any; returns how many rows it touched."""
        return (await self._connection.execute(statement, rows)).rowcount if rows else 0

    async def _run(self, statement: sa.Executable, **values: Any) -> sa.CursorResult[Any]:
        return await self._connection.execute(statement, values)


_KINDS = {str(kind): kind for kind in EntryKind}
_PRIORITIES = {int(priority): priority for priority in Priority}
_TO = {str(to): to for to in To}


def _storable(words: str) -> str:
    """What an error said, short, as any database takes it."""
    return words[:500].encode("utf-8", "replace").decode().replace("\x00", "?")


def _entry(row: sa.Row[Any]) -> Entry:
    return Entry(_KINDS[row.kind], row.at, row.about, row.facts)


def message_row(message: Message) -> dict[str, Any]:
    """A new message as its row."""
    return {
        "key": message.key, "recipient": str(message.to), "kind": message.kind, "reference": message.reference,
        "due_at": message.due_at, "not_before": message.due_at, "send_before": message.send_before,
        "priority": int(message.priority), "agent": message.to is To.AGENT, "timeline": "occasion" in message.facts,
        "facts": dict(message.facts), "edits": message.edits, "address": message.address, "state": "waiting",
        "holder": "", "attempts": 0, "in_flight": False, "name": "", "sent_to": "", "trouble": "",
    }


def row_message(row: sa.Row[Any]) -> Message:
    """A row as the message it was."""
    return Message(row.key, _TO[row.recipient], row.kind, row.due_at, row.reference, row.send_before,
                   _PRIORITIES[row.priority], row.facts, row.edits, row.address)


def _claimed(row: sa.Row[Any], chat: str, held: bool, edit_name: str, edit_waits: bool) -> Claimed:
    message = row_message(row)
    address = ""
    if message.to is To.PATIENT:
        address = chat
    elif message.to is To.CHAT:
        address = message.address or ""
    return Claimed(message, address, row.attempts - 1, row.in_flight, edit_name, edit_waits,
                   held and message.to is To.PATIENT)

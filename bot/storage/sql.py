"""The store over SQL: SQLite for one process, PostgreSQL for any number. One `work()` is one transaction."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Iterable, Sequence
from contextlib import asynccontextmanager
from datetime import datetime
from typing import Any

from sqlalchemy.ext.asyncio import AsyncConnection, AsyncEngine

from bot.case import Act, Case, Changes, Conversation, Flag, PatientRow, Reply
from bot.chat.types import Incoming
from bot.errors import AlreadyThere
from bot.ports import Invite, Member, PlanVersion, SentMessage, Work
from bot.storage import erasing, maintenance, queries, rows
from bot.storage.engine import READS, translated
from scheduler.messages import Message, SendState
from scheduler.plan import Plan
from scheduler.storage import queries as base
from scheduler.storage.sql import SqlSchedulerWork, row_message
from scheduler.storage.stored_plans import PlanCache, plan_facts

SERVED = "served"


class SqlStore:
    """Transactions over a database. Made by `opening.open_store`, which brings the tables up to date first."""

    def __init__(self, engine: AsyncEngine, plans: PlanCache) -> None:
        self.engine = engine
        self._plans = plans
        # SQLite has one writer: within the process they queue here, in order, instead of polling the file for its lock
        self._turn = asyncio.Lock() if engine.dialect.name == "sqlite" else None
        self._holder: asyncio.Task[Any] | None = None

    @asynccontextmanager
    async def work(self) -> AsyncIterator[Work]:
        """One transaction. Raises TroubleOutside when the database cannot be used now: nothing was changed."""
        async with self.writing() as connection:
            yield SqlWork(connection, self._plans)

    @asynccontextmanager
    async def writing(self) -> AsyncIterator[AsyncConnection]:
        """The connection of one transaction that may write."""
        if self._turn is None:
            with translated(self.engine.url):
                async with self.engine.begin() as connection:
                    yield connection
            return
        if self._holder is not None and self._holder is asyncio.current_task():
            raise RuntimeError("work() inside work(): one task holds one transaction at a time")
        async with self._turn:
            self._holder = asyncio.current_task()
            try:
                with translated(self.engine.url):
                    async with self.engine.begin() as connection:
                        yield connection
            finally:
                self._holder = None

    @asynccontextmanager
    async def reading(self) -> AsyncIterator[AsyncConnection]:
        """A connection for reading only: it holds up nobody."""
        with translated(self.engine.url):
            async with self.engine.connect() as connection:
                await connection.execution_options(**{READS: True})
                async with connection.begin():
                    yield connection

    async def close(self) -> None:
        await self.engine.dispose()

    async def counts(self, now: datetime) -> dict[str, Any]:
        """Figures for the health page."""
        async with self.reading() as connection:
            row = (await connection.execute(queries.COUNTS, {"now": now})).one()
        found = dict(row._mapping)
        oldest = found.pop("oldest")
        return found | {"lag_seconds": (now - oldest).total_seconds() if oldest is not None else 0.0}

    async def mark_served(self) -> None:
        """Note that `serve` has used this database."""
        async with self.work() as work:
            await work.set_note(SERVED, "yes")

    async def was_served(self) -> bool:
        async with self.work() as work:
            return bool(await work.get_note(SERVED))

    async def prune(self, before: datetime) -> int:
        """Delete messages done, and updates handled, before that instant; a few hundred a transaction."""
        return (await maintenance.prune(self, base.PRUNABLE, base.PRUNE, before)
                + await maintenance.prune(self, queries.PRUNABLE_UPDATES, queries.PRUNE_UPDATES, before))

    async def scrub(self) -> None:
        """Rewrite the database's files without what was deleted. Raises TroubleOutside."""
        await maintenance.scrub(self)

    async def check(self) -> list[str]:
        """What is wrong with the database: sentences, none when it is sound."""
        return await maintenance.check(self, self._plans)

    async def backup(self, path: str) -> None:
        """A consistent copy of an SQLite database while it is in use. Raises TroubleOutside."""
        await maintenance.backup(self, path)


class SqlWork(SqlSchedulerWork):
    """One transaction: the scheduler's part is inherited."""

    def __init__(self, connection: AsyncConnection, plans: PlanCache) -> None:
        super().__init__(connection, plans)
        self._upserts = queries.POSTGRESQL if self._postgresql else queries.SQLITE

    # patients

    async def add_patient(self, row: PatientRow, plan: Plan, now: datetime) -> None:
        added = await self._run(self._upserts.patient, reference=row.reference, state=str(row.state),
                                plan_version=row.plan_version, chat=row.chat, sender=row.sender, writer=row.writer,
                                expanded_until=row.expanded_until, next_at=row.next_at, added_at=now,
                                quarantined_why="")
        if added.rowcount != 1:
            raise AlreadyThere(f"patient {row.reference} is stored already; store a new version of the plan instead")
        await self._add_plan(row.reference, row.plan_version, plan, now)

    async def add_plan(self, reference: str, plan: Plan, now: datetime) -> int:
        await self._run(queries.LOCK_PATIENT, whose=reference)
        version = 1 + int((await self._run(queries.LAST_VERSION, whose=reference)).scalar_one() or 0)
        await self._add_plan(reference, version, plan, now)
        return version

    async def plans(self, reference: str) -> Sequence[PlanVersion]:
        found = await self._run(queries.PLANS, whose=reference)
        return [PlanVersion(row.reference, row.version, self._plans.plan(row.text, row.facts), row.stored_at,
                            row.signed_by, row.facts) for row in found]

    async def case(self, reference: str) -> Case | None:
        locked = (await self._run(queries.LOCK_PATIENT, whose=reference)).one_or_none()
        if locked is None:
            return None
        both = (await self._run(queries.PLAN_AND_CONVERSATION, whose=reference, version=locked.plan_version)).one()
        return Case(
            row=rows.as_patient(locked),
            plan=self._plans.plan(both.text, both.plan_facts),
            record=await self._record(reference),
            conversation=rows.as_conversation(both),
            flags=tuple(rows.as_flag(row) for row in await self._run(queries.FLAGS, whose=reference)),
            found=tuple(rows.as_found(row) for row in await self._run(queries.FINDINGS, whose=reference)),
        )

    async def reference_of(self, chat: str) -> str | None:
        found: str | None = (await self._run(queries.REFERENCE_OF, where=chat)).scalar_one_or_none()
        return found

    async def patients(self) -> Sequence[PatientRow]:
        return [rows.as_patient(row) for row in await self._run(queries.PATIENTS)]

    async def quarantined(self) -> Sequence[tuple[str, str, datetime]]:
        return [(row.reference, row.quarantined_why, row.quarantined_at)
                for row in await self._run(queries.QUARANTINED)]

    async def apply(self, reference: str, changes: Changes, now: datetime) -> None:
        """One statement for each kind of change that there is."""
        if (await self._run(queries.LOCK_PATIENT, whose=reference)).one_or_none() is None:
            raise LookupError(f"patient {reference} is not stored")
        if changes.reply is not None:
            await self._run(self._upserts.reply, **rows.reply_values(changes.reply) | {"reference": reference})
        await self._many(queries.ADD_ENTRIES, [
            {"reference": reference, "kind": str(entry.kind), "at": entry.at, "about": entry.about,
             "facts": dict(entry.facts)} for entry in changes.entries])
        await self._many(queries.ADD_FINDINGS, [rows.found_values(reference, found) for found in changes.found])
        await self._many(self._upserts.flag, [rows.flag_values(flag) | {"reference": reference}
                                              for flag in changes.flags])
        await self._many(queries.ADD_ACTS, [rows.act_values(act) for act in changes.acts])
        if changes.conversation is not None:
            await self._run(self._upserts.conversation, reference=reference,
                            **rows.conversation_values(changes.conversation))
        if changes.row is not None:
            row = changes.row
            await self._run(queries.SET_ROW, whose=reference, new_state=str(row.state), new_version=row.plan_version,
                            new_chat=row.chat, new_sender=row.sender, new_writer=row.writer)
        if changes.replan:
            await self._run(base.DROP_EXPANDED, whose=reference, now=now)
            await self.set_cursor(reference, now, now)
        await self.cancel(changes.cancel)
        await self.put(changes.messages)

    # the outbox, beyond sending

    async def sent_as(self, address: str, name: str) -> SentMessage | None:
        row = (await self._run(base.SENT_AS, where=address, named=name)).one_or_none()
        return _sent(row) if row is not None else None

    async def message(self, key: str) -> SentMessage | None:
        row = (await self._run(base.MESSAGE, whose=key)).one_or_none()
        return _sent(row) if row is not None else None

    async def messages_of(self, reference: str, limit: int = 50) -> Sequence[SentMessage]:
        return [_sent(row) for row in await self._run(base.MESSAGES_OF, whose=reference, limit=limit)]

    async def coming(self, limit: int = 10) -> Sequence[Message]:
        return [row_message(row) for row in await self._run(base.COMING, limit=limit)]

    # the inbox

    async def store_updates(self, updates: Iterable[Incoming], now: datetime) -> int:
        values = [rows.update_values(rows.clean(update)) | {"stored_at": now} for update in updates]
        return await self._many(self._upserts.update, values)

    async def unhandled(self, limit: int, skip_chats: Iterable[str] = ()) -> Sequence[Incoming]:
        found = await self._run(queries.UNHANDLED, limit=limit, skip=list(skip_chats))
        return [rows.as_update(row) for row in found]

    async def mark_handled(self, update_id: str, now: datetime, trouble: str = "") -> None:
        await self._run(queries.MARK_HANDLED, whose=update_id, new_at=now, new_trouble=rows.storable(trouble)[:1000])

    # invites

    async def add_invite(self, invite: Invite) -> None:
        await self._run(self._upserts.invite, **rows.invite_values(invite))

    async def invite(self, code_hash: str) -> Invite | None:
        row = (await self._run(queries.INVITE, whose=code_hash)).one_or_none()
        return rows.as_invite(row) if row is not None else None

    async def use_invite(self, code_hash: str, sender: str, now: datetime) -> None:
        await self._run(queries.USE_INVITE, whose=code_hash, new_by=sender, new_at=now)

    async def add_try(self, sender: str, now: datetime) -> None:
        await self._run(queries.ADD_TRY, sender=sender, at=now)

    async def tries(self, sender: str, since: datetime) -> int:
        return int((await self._run(queries.TRIES, whose=sender, since=since)).scalar_one())

    # the care team

    async def add_member(self, member: Member) -> None:
        await self._run(self._upserts.member, **rows.member_values(member))

    async def members(self) -> Sequence[Member]:
        return [rows.as_member(row) for row in await self._run(queries.MEMBERS)]

    async def member(self, sender: str) -> Member | None:
        row = (await self._run(queries.MEMBER, whose=sender)).one_or_none()
        return rows.as_member(row) if row is not None else None

    async def desk(self, sender: str) -> Conversation:
        return rows.as_conversation((await self._run(queries.DESK, whose=sender)).one_or_none())

    async def set_desk(self, sender: str, desk: Conversation) -> None:
        await self._run(self._upserts.desk, sender=sender, **rows.conversation_values(desk))

    async def flag(self, flag_id: str) -> Flag | None:
        row = (await self._run(queries.FLAG, whose=flag_id)).one_or_none()
        return rows.as_flag(row) if row is not None else None

    async def open_flags(self) -> Sequence[Flag]:
        return [rows.as_flag(row) for row in await self._run(queries.OPEN_FLAGS)]

    async def add_act(self, act: Act) -> None:
        await self._run(queries.ADD_ACTS, **rows.act_values(act))

    async def acts(self, reference: str = "", limit: int = 100) -> Sequence[Act]:
        found = (await self._run(queries.ACTS_OF, whose=reference, limit=limit) if reference
                 else await self._run(queries.ACTS, limit=limit))
        return [rows.as_act(row) for row in found]

    async def replies(self, reference: str, limit: int = 50) -> Sequence[Reply]:
        return [rows.as_reply(row) for row in await self._run(queries.REPLIES, whose=reference, limit=limit)]

    # one patient's data, wholly

    async def updates_of(self, reference: str) -> Sequence[Incoming]:
        return [rows.as_update(row) for row in await self._run(queries.UPDATES_OF, whose=reference)]

    async def invites_of(self, reference: str) -> Sequence[Invite]:
        return [rows.as_invite(row) for row in await self._run(queries.INVITES_OF, whose=reference)]

    async def forget(self, reference: str, now: datetime) -> bool:
        return await erasing.erase(self._connection, reference, now)

    async def get_note(self, name: str) -> str:
        return str((await self._run(queries.NOTE, whose=name)).scalar_one_or_none() or "")

    async def set_note(self, name: str, value: str) -> None:
        await self._run(self._upserts.note, name=name, value=value)

    # inside

    async def _add_plan(self, reference: str, version: int, plan: Plan, now: datetime) -> None:
        await self._run(queries.ADD_PLAN, reference=reference, version=version, text=plan.text,
                        signed_by=plan.signed_by, stored_at=now, facts=plan_facts(plan))


def _sent(row: Any) -> SentMessage:
    return SentMessage(row_message(row), SendState(row.state), row.name, row.sent_to, row.at)

"""One transaction on the store in memory."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import datetime
from heapq import heappop, heappush
from typing import Any

from bot.case import Act, Case, Changes, Conversation, Flag, PatientRow, PatientState, Reply
from bot.chat.types import Incoming
from bot.errors import AlreadyThere
from bot.ports import Invite, Member, PlanVersion, SentMessage
from bot.storage import memory_erasing
from bot.storage.memory_tables import WOKEN, Seen, Tables
from bot.storage.rows import clean
from scheduler.messages import Message
from scheduler.plan import Plan
from scheduler.ports import Claimed, Due, Mark
from scheduler.record import Record
from scheduler.storage.memory_outbox import Row
from scheduler.storage.stored_plans import plan_facts
from scheduler.storage.undo import Undo


class MemoryWork:
    """One transaction on the tables."""

    def __init__(self, tables: Tables, undo: Undo, check_facts: bool) -> None:
        self._t = tables
        self._undo = undo
        self._check_facts = check_facts

    # the tick's part

    async def due_patients(self, until: datetime, limit: int) -> Sequence[Due]:
        due: list[Due] = []
        hints: dict[str, datetime] = {}
        while self._t.waking and self._t.waking[0][0] <= until and len(due) < limit:
            next_at, reference = heappop(self._t.waking)
            row = self._t.patients.get(reference)
            if row is None or row.state not in WOKEN or row.next_at != next_at or reference in hints:
                continue
            hints[reference] = next_at
            plan = self._t.plans[reference, row.plan_version].plan
            due.append(Due(reference, plan, row.plan_version, self._record(reference), row.expanded_until or next_at,
                           row.writer))
        for reference, next_at in hints.items():
            heappush(self._t.waking, (next_at, reference))
        return due

    async def set_cursor(self, reference: str, expanded_until: datetime, next_at: datetime | None) -> None:
        row = self._t.patients.get(reference)
        if row is not None:
            self._set_row(replace(row, expanded_until=expanded_until, next_at=next_at))

    async def set_cursors(self, cursors: Iterable[tuple[str, datetime, datetime | None]]) -> None:
        for reference, expanded_until, next_at in cursors:
            await self.set_cursor(reference, expanded_until, next_at)

    async def quarantine(self, reference: str, why: str, now: datetime) -> None:
        row = self._t.patients.get(reference)
        if row is not None:
            self._set_row(replace(row, state=PatientState.QUARANTINED, next_at=None))
            self._undo.set(self._t.quarantined, reference, (why, now))

    async def put(self, messages: Iterable[Message]) -> int:
        return self._t.outbox.put(self._checked(messages), self._undo)

    # the sender's part

    async def claim(self, now: datetime, limit: int, lease_until: datetime, holder: str,
                    agent: bool = False, urgent: bool = False) -> Sequence[Claimed]:
        return self._t.outbox.claim(now, limit, lease_until, holder, agent, urgent, self._chat_of, self._undo)

    async def mark(self, marks: Iterable[Mark]) -> None:
        self._t.outbox.mark(marks, self._undo)

    async def holders(self) -> Sequence[str]:
        return self._t.outbox.holders()

    async def take_back(self, holders: Iterable[str]) -> int:
        return self._t.outbox.take_back(holders, self._undo)

    async def clock_set_back(self, before: datetime, now: datetime) -> int:
        return self._t.outbox.clock_set_back(before, now, self._undo)

    async def next_due(self) -> datetime | None:
        waking = self._t.waking
        while waking:
            next_at, reference = waking[0]
            row = self._t.patients.get(reference)
            if row is not None and row.state in WOKEN and row.next_at == next_at:
                break
            heappop(waking)
        instants = (self._t.outbox.next_due(), waking[0][0] if waking else None)
        return min((instant for instant in instants if instant is not None), default=None)

    # patients

    async def add_patient(self, row: PatientRow, plan: Plan, now: datetime) -> None:
        if row.reference in self._t.patients:
            raise AlreadyThere(f"patient {row.reference} is stored already; store a new version of the plan instead")
        self._undo.set(self._t.added, row.reference, now)
        self._set_row(row)
        self._set_plan(row.reference, row.plan_version, plan, now)

    async def add_plan(self, reference: str, plan: Plan, now: datetime) -> int:
        version = 1 + max((number for owner, number in self._t.plans if owner == reference), default=0)
        self._set_plan(reference, version, plan, now)
        return version

    async def plans(self, reference: str) -> Sequence[PlanVersion]:
        found = (version for (owner, _), version in self._t.plans.items() if owner == reference)
        return sorted(found, key=lambda version: version.version)

    async def case(self, reference: str) -> Case | None:
        row = self._t.patients.get(reference)
        if row is None:
            return None
        return Case(
            row=row,
            plan=self._t.plans[reference, row.plan_version].plan,
            record=self._record(reference),
            conversation=self._t.conversations.get(reference, Conversation()),
            flags=tuple(self._t.flags.get(reference, {}).values()),
            found=self._t.found.get(reference, ()),
        )

    async def reference_of(self, chat: str) -> str | None:
        rows = (self._t.patients.get(reference) for reference in self._t.chats.get(chat, {}))
        last = max(((row.state is not PatientState.ENDED, self._t.added[row.reference], row.reference)
                    for row in rows if row is not None and row.chat == chat), default=None)
        return last[2] if last is not None else None

    async def patients(self) -> Sequence[PatientRow]:
        return sorted(self._t.patients.values(), key=lambda row: row.reference)

    async def quarantined(self) -> Sequence[tuple[str, str, datetime]]:
        """(reference, why, since) of patients whose plan cannot be expanded."""
        return sorted((reference, why, at) for reference, (why, at) in self._t.quarantined.items()
                      if self._t.patients[reference].state is PatientState.QUARANTINED)

    async def apply(self, reference: str, changes: Changes, now: datetime) -> None:
        t, undo = self._t, self._undo
        row = t.patients.get(reference)
        if row is None:
            raise LookupError(f"patient {reference} is not stored")
        if changes.reply is not None:
            self._set_in(t.replies, reference, changes.reply.id, changes.reply)
        if changes.entries:
            undo.set(t.records, reference, self._record(reference) + changes.entries)
        if changes.found:
            undo.set(t.found, reference, (*t.found.get(reference, ()), *changes.found))
        for flag in changes.flags:
            self._set_in(t.flags, reference, flag.id, flag)
            if flag.is_open:
                undo.set(t.open_flags, flag.id, flag)
            else:
                undo.drop(t.open_flags, flag.id)
        for act in changes.acts:
            await self.add_act(act)
        if changes.conversation is not None:
            undo.set(t.conversations, reference, changes.conversation)
        if changes.row is not None:
            row = replace(changes.row, reference=reference, expanded_until=row.expanded_until, next_at=row.next_at)
        if changes.replan:
            t.outbox.drop_expanded(reference, now, undo)
            row = replace(row, expanded_until=now, next_at=now)
        if changes.row is not None or changes.replan:
            self._set_row(row)
        if changes.cancel:
            t.outbox.cancel(changes.cancel, undo)
        if changes.messages:
            await self.put(changes.messages)

    # the outbox, beyond sending

    async def cancel(self, keys: Iterable[str]) -> None:
        self._t.outbox.cancel(keys, self._undo)

    async def sent_as(self, address: str, name: str) -> SentMessage | None:
        row = self._t.outbox.named(address, name)
        return _sent(row) if row is not None else None

    async def message(self, key: str) -> SentMessage | None:
        row = self._t.outbox.rows.get(key)
        return _sent(row) if row is not None else None

    async def messages_of(self, reference: str, limit: int = 50) -> Sequence[SentMessage]:
        found: list[SentMessage] = []
        for row in self._t.outbox.of(reference):
            if len(found) == limit:
                break
            found.append(_sent(row))
        return found

    async def coming(self, limit: int = 10) -> Sequence[Message]:
        return [row.message for row in self._t.outbox.coming(limit)]

    # the inbox

    async def store_updates(self, updates: Iterable[Incoming], now: datetime) -> int:
        new = 0
        for update in map(clean, updates):
            if update.id in self._t.seen:
                continue
            self._undo.set(self._t.inbox, update.id, (next(self._t.arrivals), update))
            self._undo.set(self._t.seen, update.id, Seen(now))
            new += 1
        return new

    async def unhandled(self, limit: int, skip_chats: Iterable[str] = ()) -> Sequence[Incoming]:
        passed = set(skip_chats)
        found: list[Incoming] = []
        for _, update in sorted(self._t.inbox.values(), key=lambda waiting: waiting[0]):
            if len(found) == limit:
                break
            if update.chat not in passed:
                passed.add(update.chat)
                found.append(update)
        return found

    async def mark_handled(self, update_id: str, now: datetime, trouble: str = "") -> None:
        if update_id in self._t.seen:
            self._undo.drop(self._t.inbox, update_id)
            stored_at = self._t.seen[update_id].stored_at
            self._undo.set(self._t.seen, update_id, Seen(stored_at, now, trouble))

    # invites

    async def add_invite(self, invite: Invite) -> None:
        self._undo.set(self._t.invites, invite.code_hash, invite)

    async def invite(self, code_hash: str) -> Invite | None:
        return self._t.invites.get(code_hash)

    async def use_invite(self, code_hash: str, sender: str, now: datetime) -> None:
        invite = self._t.invites.get(code_hash)
        if invite is not None and invite.used_at is None:
            self._undo.set(self._t.invites, code_hash, replace(invite, used_at=now, used_by=sender))

    async def add_try(self, sender: str, now: datetime) -> None:
        if sender not in self._t.tries:
            self._undo.set(self._t.tries, sender, [])
        self._undo.append(self._t.tries[sender], now)

    async def tries(self, sender: str, since: datetime) -> int:
        return sum(at >= since for at in self._t.tries.get(sender, ()))

    # the care team

    async def add_member(self, member: Member) -> None:
        self._undo.set(self._t.members, member.sender, member)

    async def members(self) -> Sequence[Member]:
        return sorted(self._t.members.values(), key=lambda member: (member.joined_at, member.sender))

    async def member(self, sender: str) -> Member | None:
        found = self._t.members.get(sender)
        return found if found is not None and found.removed_at is None else None

    async def desk(self, sender: str) -> Conversation:
        return self._t.desks.get(sender, Conversation())

    async def set_desk(self, sender: str, desk: Conversation) -> None:
        self._undo.set(self._t.desks, sender, desk)

    async def flag(self, flag_id: str) -> Flag | None:
        return self._t.flags.get(flag_id.rpartition("/")[0], {}).get(flag_id)

    async def open_flags(self) -> Sequence[Flag]:
        return sorted(self._t.open_flags.values(), key=lambda flag: (-flag.urgency, flag.raised_at, flag.id))

    async def add_act(self, act: Act) -> None:
        self._undo.append(self._t.acts, act)
        if act.reference not in self._t.acts_of:
            self._undo.set(self._t.acts_of, act.reference, [])
        self._undo.append(self._t.acts_of[act.reference], act)

    async def acts(self, reference: str = "", limit: int = 100) -> Sequence[Act]:
        rows = self._t.acts_of.get(reference, []) if reference else self._t.acts
        return rows[: -limit - 1 : -1]

    async def replies(self, reference: str, limit: int = 50) -> Sequence[Reply]:
        return list(self._t.replies.get(reference, {}).values())[: -limit - 1 : -1]

    # one patient's data, wholly

    async def updates_of(self, reference: str) -> Sequence[Incoming]:
        chat = self._t.patients[reference].chat if reference in self._t.patients else ""
        waiting = sorted(self._t.inbox.values(), key=lambda one: one[0])
        return [update for _, update in waiting if chat and update.chat == chat]

    async def invites_of(self, reference: str) -> Sequence[Invite]:
        found = [invite for invite in self._t.invites.values() if invite.reference == reference]
        return sorted(found, key=lambda invite: (invite.made_at, invite.code_hash))

    async def forget(self, reference: str, now: datetime) -> bool:
        return memory_erasing.erase(self._t, reference, now, self._undo)

    async def get_note(self, name: str) -> str:
        return self._t.notes.get(name, "")

    async def set_note(self, name: str, value: str) -> None:
        self._undo.set(self._t.notes, name, value)

    # inside

    def _record(self, reference: str) -> Record:
        return self._t.records.get(reference, _NO_RECORD)

    def _chat_of(self, reference: str) -> tuple[str, bool]:
        row = self._t.patients.get(reference)
        return (row.chat, row.state is PatientState.HELD) if row is not None else ("", False)

    def _set_row(self, row: PatientRow) -> None:
        before = self._t.patients.get(row.reference)
        self._undo.add(self._wake, before)
        self._undo.set(self._t.patients, row.reference, row)
        self._wake(row)
        if row.chat and (before is None or before.chat != row.chat):
            self._set_in(self._t.chats, row.chat, row.reference, None)

    def _wake(self, row: PatientRow | None) -> None:
        if row is not None and row.next_at is not None:
            heappush(self._t.waking, (row.next_at, row.reference))

    def _set_plan(self, reference: str, version: int, plan: Plan, now: datetime) -> None:
        stored = PlanVersion(reference, version, plan, now, plan.signed_by, plan_facts(plan))
        self._undo.set(self._t.plans, (reference, version), stored)

    def _set_in(self, table: dict[str, dict[str, Any]], group: str, key: str, value: Any) -> None:
        if group not in table:
            self._undo.set(table, group, {})
        self._undo.set(table[group], key, value)

    def _checked(self, messages: Iterable[Message]) -> Iterable[Message]:
        if not self._check_facts:
            return messages
        return [replace(message, facts=json.loads(json.dumps(dict(message.facts)))) for message in messages]


_NO_RECORD = Record()


def _sent(row: Row) -> SentMessage:
    return SentMessage(row.message, row.state, row.name, row.sent_to, row.at)

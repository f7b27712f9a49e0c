"""Forgetting one patient in the in-memory twin: the same rows as `erasing.py`, through the undo log."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, replace
from datetime import datetime
from typing import TYPE_CHECKING, Any

from bot.case import Conversation
from bot.storage.traces import GONE, Traces, mentions, pruned, texts_of, without_name
from scheduler.messages import To
from scheduler.storage.memory_outbox import Row
from scheduler.storage.undo import Undo

if TYPE_CHECKING:
    from bot.chat.types import Incoming
    from bot.storage.memory_tables import Tables


def erase(tables: Tables, reference: str, now: datetime, undo: Undo) -> bool:
    """Delete or empty everything that holds this patient; False for an unknown reference."""
    row = tables.patients.get(reference)
    if row is None:
        return False
    traces = _traces(tables, reference, row.chat)
    _inbox(tables, traces, now, undo)
    _outbox(tables, traces, undo)
    _care_rows(tables, traces, undo)
    for code, invite in list(tables.invites.items()):
        if invite.reference == reference:
            undo.drop(tables.invites, code)
    if row.sender:
        undo.drop(tables.tries, row.sender)
    for flag_id in tables.flags.get(reference, {}):
        undo.drop(tables.open_flags, flag_id)
    for key in [key for key in tables.plans if key[0] == reference]:
        undo.drop(tables.plans, key)
    for group in tables.chats.values():
        undo.drop(group, reference)
    own: tuple[dict[str, Any], ...] = (
        tables.patients, tables.records, tables.conversations, tables.flags, tables.found, tables.replies,
        tables.acts_of, tables.quarantined, tables.added)
    for table in own:
        undo.drop(table, reference)
    return True


def _traces(tables: Tables, reference: str, chat: str) -> Traces:
    sent = list(tables.outbox.of(reference))
    chats = {row.sent_to for row in sent if row.message.to is To.PATIENT} | {chat}
    others = frozenset(row.chat for row in tables.patients.values() if row.reference != reference and row.chat)
    typed = (text for act in tables.acts_of.get(reference, ()) for text in texts_of(act.facts))
    noted = (flag.note for flag in tables.flags.get(reference, {}).values())
    told = (text for row in sent for text in texts_of(row.message.facts.get("text", "")))
    return Traces(
        reference, frozenset(chats - others - {""}), others,
        frozenset(tables.replies.get(reference, ())),
        frozenset(name for owner, group in tables.replies.items() if owner != reference for name in group),
        frozenset((row.sent_to, row.name) for row in sent if row.name), frozenset({*typed, *noted, *told} - {""}))


def _inbox(tables: Tables, traces: Traces, now: datetime, undo: Undo) -> None:
    """Of updates already handled memory keeps nothing but that they were."""
    for name, (_, update) in list(tables.inbox.items()):
        if traces.touch(name, update.chat, update.text, dict(_rest(update)), handled=False):
            undo.drop(tables.inbox, name)
            undo.set(tables.seen, name, tables.seen[name]._replace(handled_at=now, trouble=GONE))


def _rest(update: Incoming) -> Iterator[tuple[str, Any]]:
    for field in fields(update):
        if field.name not in ("id", "chat", "sender", "at", "kind", "text"):
            yield field.name, getattr(update, field.name)


def _outbox(tables: Tables, traces: Traces, undo: Undo) -> None:
    def whose(row: Row) -> bool:
        message = row.message
        return (message.reference == traces.reference or row.sent_to in traces.chats
                or (message.address or "") in traces.chats)

    for key, row in list(tables.outbox.rows.items()):
        if whose(row):
            tables.outbox.erase(key, undo)
        elif mentions(row.message.facts, traces.named):
            message = replace(row.message, facts=pruned(row.message.facts, traces.named))
            tables.outbox.rewrite(key, message, undo)


def _care_rows(tables: Tables, traces: Traces, undo: Undo) -> None:
    for sender, desk in list(tables.desks.items()):
        if traces.named(desk.about) or mentions(desk.facts, traces.named):
            undo.set(tables.desks, sender, Conversation())
    undo.add(setattr, tables, "acts", tables.acts)
    tables.acts = [replace(act, about=without_name(act.about, traces.reference), facts=pruned(act.facts, traces.named))
                   if traces.named(act.about) or mentions(act.facts, traces.named) else act
                   for act in tables.acts if act.reference != traces.reference]
    for owner in list(tables.acts_of):
        undo.set(tables.acts_of, owner, [act for act in tables.acts if act.reference == owner])
    for owner, group in tables.flags.items():
        for flag_id, flag in list(group.items()):
            if owner != traces.reference and traces.named(flag.note):
                undo.set(group, flag_id, replace(flag, note=without_name(flag.note, traces.reference)))
                if flag.is_open:
                    undo.set(tables.open_flags, flag_id, group[flag_id])
    for name, value in list(tables.notes.items()):
        if value in traces.chats or any(name.endswith(f":{chat}") for chat in traces.chats):
            undo.drop(tables.notes, name)

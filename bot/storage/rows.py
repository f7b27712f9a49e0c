"""Rows of the bot's tables as the types of the core, and back. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, replace
from typing import Any

from bot.case import Act, Conversation, Flag, FlagState, FoundThen, PatientRow, PatientState, Reply
from bot.chat.types import Incoming, IncomingKind
from bot.ports import Invite, Member
from bot.understanding.types import Finding, Urgency

_REST = tuple(field.name for field in fields(Incoming)
              if field.name not in {"id", "chat", "sender", "at", "kind", "text"})


def storable(text: str) -> str:
    """A text that any database takes: half characters and NUL, which a phone never means, become a question mark."""
    return text.encode("utf-8", "replace").decode("utf-8").replace("\x00", "?")


def clean(update: Incoming) -> Incoming:
    """An update whose texts can be stored: one that cannot would hold up all that come after it."""
    dirty: dict[str, Any] = {field.name: storable(value) for field in fields(update)
                             if isinstance(value := getattr(update, field.name), str)
                             and not isinstance(value, IncomingKind) and value != storable(value)}
    return replace(update, **dirty) if dirty else update


def update_values(update: Incoming) -> dict[str, Any]:
    rest = {name: value for name in _REST if (value := getattr(update, name))}
    return {"id": update.id, "chat": update.chat, "sender": update.sender, "at": update.at, "kind": str(update.kind),
            "text": update.text, "rest": rest, "trouble": ""}


def as_update(row: Any) -> Incoming:
    return Incoming(row.id, row.chat, row.sender, row.at, IncomingKind(row.kind), row.text, **row.rest)


def as_patient(row: Any) -> PatientRow:
    return PatientRow(row.reference, PatientState(row.state), row.plan_version, row.chat, row.sender, row.writer,
                      row.expanded_until, row.next_at)


def conversation_values(conversation: Conversation) -> dict[str, Any]:
    return {"state": conversation.state, "about": conversation.about, "since": conversation.since,
            "facts": dict(conversation.facts)}


def as_conversation(row: Any) -> Conversation:
    """The conversation in these columns; its first state where none is stored (an outer join's empty half)."""
    if row is None or row.state is None:
        return Conversation()
    return Conversation(row.state, row.about, row.since, row.facts)


def flag_values(flag: Flag) -> dict[str, Any]:
    values = _values(flag)
    return values | {"rules": list(flag.rules), "findings": list(flag.findings), "urgency": int(flag.urgency),
                     "state": str(flag.state), "facts": dict(flag.facts), "words": storable(flag.words),
                     "note": storable(flag.note)}


def as_flag(row: Any) -> Flag:
    values = dict(row._mapping)
    del values["seq"]
    return Flag(**values | {"rules": tuple(row.rules), "findings": tuple(row.findings), "urgency": Urgency(row.urgency),
                            "state": FlagState(row.state)})


def found_values(reference: str, found: FoundThen) -> dict[str, Any]:
    return {"reference": reference, "finding": str(found.finding), "at": found.at, "reply": found.reply}


def as_found(row: Any) -> FoundThen:
    return FoundThen(Finding(row.finding), row.at, row.reply)


def reply_values(reply: Reply) -> dict[str, Any]:
    return _values(reply) | {"text": storable(reply.text), "reading": dict(reply.reading)}


def as_reply(row: Any) -> Reply:
    return Reply(row.id, row.reference, row.at, row.kind, row.text, row.reading)


def act_values(act: Act) -> dict[str, Any]:
    return _values(act) | {"facts": dict(act.facts)}


def as_act(row: Any) -> Act:
    return Act(row.at, row.who, row.what, row.reference, row.about, row.facts)


def as_invite(row: Any) -> Invite:
    return Invite(**row._mapping)


def as_member(row: Any) -> Member:
    return Member(**row._mapping)


def invite_values(invite: Invite) -> dict[str, Any]:
    return _values(invite)


def member_values(member: Member) -> dict[str, Any]:
    return _values(member)


def _values(thing: Any) -> dict[str, Any]:
    values: Mapping[str, Any] = {field.name: getattr(thing, field.name) for field in fields(thing)}
    return dict(values)

"""Everything held on one patient as a .zip of CSV files (RFC 4180, UTF-8), one table each, and a README.

A cell that a spreadsheet would take for a formula gets an apostrophe in front: patients' words must not run anywhere.
JSON stands in a cell where the program keeps JSON. Instants are ISO 8601 with the patient's offset.
"""

from __future__ import annotations

import csv
import io
import json
import zipfile
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import date, datetime, time
from decimal import Decimal
from enum import Enum
from typing import Any

from bot.case import FoundThen
from bot.export.held import Held
from scheduler.localtime import local, offset_text
from scheduler.messages import Message

Row = Mapping[str, Any]
MARKED = ("=", "+", "-", "@", "\t", "\r", "'")      # the apostrophe itself too, so that the text can be had back


@dataclass(frozen=True)
class Table:
    """One CSV file: what a row is, its columns, its rows."""

    name: str
    about: str
    columns: Sequence[str]
    rows: Sequence[Row]


def archive(found: Held, text_of: Callable[[Message], str], now: datetime) -> bytes:
    """The .zip file."""
    zone = found.case.plan.patient.time_zone
    whole = tables(found, text_of)
    at = local(now, zone).timetuple()[:6]
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as into:
        for name, content in [("README.txt", readme(found, whole, now)),
                              *((f"{table.name}.csv", as_csv(table, zone)) for table in whole),
                              *((f"plan-{one.version}.toml", one.plan.text) for one in found.plans if one.plan.text)]:
            entry = zipfile.ZipInfo(name, date_time=at)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o600 << 16
            into.writestr(entry, content.encode("utf-8"))
    return written.getvalue()


def tables(found: Held, text_of: Callable[[Message], str]) -> list[Table]:
    """Every table, each with all that is held."""
    case, plan = found.case, found.case.plan
    row = case.row
    return [
        Table("patient", "one row: who, their state, and where the conversation stands",
              ("reference", "call_me", "age_years", "height_cm", "weight_kg", "time_zone", "language", "writer",
               "wakes", "sleeps", "meals", "conditions", "other_medicines", "state", "plan_version", "chat", "sender",
               "conversation", "conversation_about", "conversation_since", "conversation_facts"),
              [asdict(plan.patient) | {
                  "state": row.state, "plan_version": row.plan_version, "chat": row.chat, "sender": row.sender,
                  "writer": row.writer, "conversation": case.conversation.state,
                  "conversation_about": case.conversation.about, "conversation_since": case.conversation.since,
                  "conversation_facts": case.conversation.facts}]),
        Table("plans", "one row a signed plan version; its text is in plan-N.toml",
              ("version", "signed_by", "signed_on", "stored_at"),
              [{"version": one.version, "signed_by": one.signed_by, "signed_on": one.plan.signed_on,
                "stored_at": one.stored_at} for one in found.plans]),
        Table("record", "one row a thing that happened: doses, windows, check-ins, results, pauses, releases",
              ("at", "kind", "about", "facts"), [asdict(entry) for entry in case.record.entries]),
        Table("flags", "one row a flag: something a person of the care team had to look at",
              ("id", "urgency", "rules", "findings", "words", "state", "raised_at", "act_by", "taken_by", "taken_at",
               "closed_at", "outcome", "note", "raises", "facts"),
              [asdict(flag) | {"urgency": str(flag.urgency)} for flag in case.flags]),
        Table("findings", "one row a finding that the program read from a reply or a check-in",
              ("at", "finding", "reply"), [_found(one) for one in case.found]),
        Table("replies", "one row a reply, whole, with how the program read it",
              ("id", "at", "kind", "text", "reading"), [asdict(reply) for reply in found.replies]),
        Table("messages", "one row a message or a timer ('agent'): its text as shown, and the facts it was made from",
              ("key", "to", "kind", "due_at", "state", "at", "text", "edits", "address", "name", "facts"),
              [{"key": one.message.key, "to": one.message.to, "kind": one.message.kind, "due_at": one.message.due_at,
                "state": one.state, "at": one.at, "text": text_of(one.message), "edits": one.message.edits,
                "address": one.address, "name": one.name, "facts": one.message.facts} for one in found.messages]),
        Table("acts", "one row an act: what a person did", ("at", "who", "what", "about", "facts"),
              [asdict(act) for act in found.acts]),
        Table("updates", "one row an update of the chat network, as it came and as far as it is kept",
              ("id", "chat", "sender", "sender_name", "at", "kind", "text", "data", "message", "reply_to", "tap",
               "file", "file_name", "is_group"), [asdict(one) for one in found.updates]),
        Table("invites", "one row an invite; the code itself is never kept",
              ("for_role", "made_at", "expires_at", "used_at", "used_by"), [asdict(one) for one in found.invites]),
    ]


def _found(one: FoundThen) -> Row:
    return {"at": one.at, "finding": one.finding, "reply": one.reply}


def as_csv(table: Table, zone: str) -> str:
    """RFC 4180: a header line, CRLF, quotes doubled."""
    written = io.StringIO(newline="")
    into = csv.writer(written, lineterminator="\r\n")
    into.writerow(table.columns)
    into.writerows([cell(row.get(column), zone) for column in table.columns] for row in table.rows)
    return written.getvalue()


def cell(value: Any, zone: str) -> str:
    """A value as a cell: "" for nothing, JSON for facts; a text that could be a formula after an apostrophe."""
    if value is None:
        return ""
    if isinstance(value, datetime):
        return offset_text(value, zone)
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, Enum):
        return str(value)
    if isinstance(value, int | float | Decimal):
        return str(value)
    if isinstance(value, Mapping | list | tuple):
        return json.dumps(value, ensure_ascii=False, default=str)
    shown = str(value)
    return f"'{shown}" if shown.startswith(MARKED) else shown


def readme(found: Held, whole: Iterable[Table], now: datetime) -> str:
    """What the files are, for whoever opens them in ten years."""
    at = offset_text(now, found.case.plan.patient.time_zone)
    lines = [f"Everything held on patient {found.reference}, as of {at}.", "",
             "CSV, UTF-8, commas, CRLF, a header line, one table a file. Times are ISO 8601 with the patient's offset.",
             "Facts are JSON. An apostrophe at the start of a cell keeps a spreadsheet from running it: it is not part",
             "of the text. This holds a patient's words: keep it as a medical record is kept.", ""]
    lines += [f"{table.name}.csv ({len(table.rows)} rows): {table.about}" for table in whole]
    lines += [f"plan-{one.version}.toml: the plan as it was signed, version {one.version}" for one in found.plans]
    return "\n".join([*lines, ""])

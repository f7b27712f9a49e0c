"""Export and forget agree on what is held: every text stored about a patient is exported, and none is left after."""

from __future__ import annotations

import csv
import io
import json
import sqlite3
import zipfile
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from lived import NOW, Lived

from bot.cli import main
from bot.commands.export import content
from bot.export.held import Held
from bot.rehearsal.world import CARE_CHAT
from scheduler.protocol import ClinicProtocol
from scheduler.storage.tables import Stored

# What is held on the way of sending, and says nothing about the patient.
MACHINERY = {"seq", "holder", "trouble", "code_hash"}


def stored_about(lived: Lived) -> Iterator[tuple[str, str, str]]:
    """(table, column, text) of every row that carries the patient's reference, and of their updates."""
    with closing(sqlite3.connect(lived.file)) as database:
        database.row_factory = sqlite3.Row
        for table in Stored.metadata.tables:
            columns = [row["name"] for row in database.execute(f"PRAGMA table_info({table})")]
            where = "reference = ?" if "reference" in columns else "chat = ?" if table == "inbox" else ""
            whose = lived.reference if "reference" in columns else f"patient-{lived.reference}"
            for row in database.execute(f"SELECT * FROM {table} WHERE {where}", (whose,)) if where else ():
                for column in set(columns) - MACHINERY:
                    yield from ((table, column, text) for text in texts(row[column]))


def texts(value: Any) -> Iterator[str]:
    """The texts in a column: itself, or those within its JSON; no instants (they are shown with another offset)."""
    if isinstance(value, str) and value[:1] in "{[":
        try:
            yield from texts(json.loads(value))
        except ValueError:
            yield value
    elif isinstance(value, dict):
        for one in value.values():
            yield from texts(one)
    elif isinstance(value, list):
        for one in value:
            yield from texts(one)
    elif isinstance(value, str) and value and not value[:16].replace("T", " ").startswith("2026-03-"):
        yield value


def test_every_stored_text_is_exported(lived: Lived, found: Held, protocol: ClinicProtocol) -> None:
    with zipfile.ZipFile(io.BytesIO(content(found, "csv", 1, NOW, protocol))) as whole:
        cells = {cell for name in whole.namelist() if name.endswith(".csv")
                 for line in csv.reader(io.StringIO(whole.read(name).decode(), newline="")) for cell in line}
        plans = {whole.read(name).decode() for name in whole.namelist() if name.endswith(".toml")}
    exported = "\n".join(cells | plans)
    rows = list(stored_about(lived))
    assert {"replies", "flags", "findings", "outbox", "acts", "inbox", "entries", "plans", "invites"} <= {
        table for table, _, _ in rows}
    missing = [(table, column, text[:60]) for table, column, text in rows
               if text not in exported and json.dumps(text, ensure_ascii=False)[1:-1] not in exported]
    assert missing == []


def test_no_stored_text_is_left_when_forgotten(lived: Lived, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COATWELL_DATABASE", lived.url)
    personal = ("text", "words", "note", "chat", "sender", "sent_to", "reference", "rest")
    telling = {text for _, column, text in stored_about(lived)
               if column in personal and len(text) > 5 and text != CARE_CHAT}
    assert len(telling) > 10
    assert main(["forget", lived.reference, "--yes"]) == 0
    assert list(stored_about(lived)) == []
    left = b"".join(one.read_bytes() for one in lived.file.parent.glob("coatwell.db*"))
    assert [text for text in telling if text.encode() in left] == []


def test_on_every_database(database_url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The commands themselves, on SQLite and PostgreSQL."""
    monkeypatch.setenv("COATWELL_DATABASE", database_url)
    plan = Path(__file__).parents[3] / "fixtures" / "plans" / "ok" / "kt-014.toml"
    assert main(["enrol", str(plan)]) == 0
    for form, name in (("fhir", "a.json"), ("csv", "a.zip"), ("ics", "a.ics")):
        assert main(["export", "KT-014", "--as", form, "--to", str(tmp_path / name)]) == 0
    assert json.loads((tmp_path / "a.json").read_text(encoding="utf-8"))["type"] == "collection"
    assert main(["forget", "KT-014", "--yes"]) == 0
    assert main(["export", "KT-014", "--as", "csv", "--to", str(tmp_path / "b.zip")]) == 1
    assert main(["enrol", str(plan)]) == 0, "the reference is free again"

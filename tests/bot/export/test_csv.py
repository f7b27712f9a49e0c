"""The CSV archive: whole, readable by the standard library's reader, and no cell that a spreadsheet would run."""

from __future__ import annotations

import csv
import io
import json
import tomllib
import zipfile
from datetime import date, datetime, time
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lived import HARD_WORDS, NOW

from bot.commands.export import shown
from bot.export.csv import Table, archive, as_csv, cell
from bot.export.held import Held
from scheduler.protocol import ClinicProtocol
from scheduler.record import EntryKind


@pytest.fixture(scope="module")
def files(found: Held, protocol: ClinicProtocol) -> dict[str, str]:
    data = archive(found, lambda message: shown(message, protocol), NOW)
    with zipfile.ZipFile(io.BytesIO(data)) as whole:
        assert whole.testzip() is None
        return {name: whole.read(name).decode("utf-8") for name in whole.namelist()}


def rows(files: dict[str, str], name: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(files[f"{name}.csv"], newline="")))


def test_every_row_that_is_held_is_there(found: Held, files: dict[str, str]) -> None:
    counts = {"patient": 1, "plans": len(found.plans), "record": len(found.case.record.entries),
              "flags": len(found.case.flags), "findings": len(found.case.found), "replies": len(found.replies),
              "messages": len(found.messages), "acts": len(found.acts), "updates": len(found.updates),
              "invites": len(found.invites)}
    assert {name: len(rows(files, name)) for name in counts} == counts
    assert all(counts.values()), "the fixture has some of everything"
    assert set(files) == {f"{name}.csv" for name in counts} | {"README.txt", "plan-1.toml"}
    assert all(f"{name}.csv ({n} rows)" in files["README.txt"] for name, n in counts.items())


def test_the_plan_is_there_as_it_was_signed(files: dict[str, str]) -> None:
    assert tomllib.loads(files["plan-1.toml"])["patient"]["call_me"] == "Maya"


def test_words_come_back_whole(files: dict[str, str]) -> None:
    said, = (row["text"] for row in rows(files, "replies") if row["id"] == "hard")
    assert said == f"'{HARD_WORDS}", "with the apostrophe that README.txt speaks of"


def test_facts_are_json_and_times_have_the_patients_offset(found: Held, files: dict[str, str]) -> None:
    taken = [row for row in rows(files, "record") if row["kind"] == "dose_taken"]
    assert len(taken) == len(found.case.record.of(EntryKind.DOSE_TAKEN))
    assert json.loads(taken[0]["facts"])["amount"] == "1 mg"
    told = datetime.fromisoformat(taken[0]["at"])
    assert told == found.case.record.of(EntryKind.DOSE_TAKEN)[0].at.replace(microsecond=0)
    assert taken[-1]["at"].endswith("-06:00"), "summer time in Denver from 8 March 2026"


def test_messages_are_shown_as_they_were_sent(files: dict[str, str]) -> None:
    sent = [row for row in rows(files, "messages") if row["to"] == "patient" and row["state"] == "sent"]
    assert any("How did food go down this week?" in row["text"] for row in sent)
    assert not any(row["text"].startswith("[") for row in sent), "every kind could be written"


@pytest.mark.parametrize(("value", "shown_as"), [
    (None, ""), ("", ""), (True, "True"), (3, "3"), (-3, "-3"), (Decimal("0.5"), "0.5"),
    (date(2026, 3, 2), "2026-03-02"), (time(7, 5), "07:05:00"),
    (NOW, "2026-03-23T13:00:00-06:00"), ({"a": "ü"}, '{"a": "ü"}'), (("x", 1), '["x", 1]'),
    (EntryKind.PAUSED, "paused"), ("=1+1", "'=1+1"), ("+1", "'+1"), ("-1", "'-1"), ("@x", "'@x"), ("\tx", "'\tx"),
    ("'=1", "''=1"), ("x=1", "x=1"),
])
def test_cells(value: Any, shown_as: str) -> None:
    """The characters that start a formula are common practice (no source)."""
    assert cell(value, "America/Denver") == shown_as


WORDS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00"))


@given(st.lists(st.fixed_dictionaries({"a": WORDS}), max_size=5))
def test_any_words_survive_the_readers_of_csv(found_rows: list[dict[str, str]]) -> None:
    read = list(csv.reader(io.StringIO(as_csv(Table("t", "", ("a", "b"), found_rows), "UTC"), newline="")))
    assert read[0] == ["a", "b"]
    assert [line[0].removeprefix("'") for line in read[1:]] == [row["a"] for row in found_rows]
    assert not any(line[0].startswith(("=", "+", "-", "@")) for line in read)

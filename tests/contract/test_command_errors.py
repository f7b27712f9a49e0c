"""Exit statuses and errors, run as real processes: 1 the answer is no, 2 bad use, 3 trouble outside.

What, where and what to do stand on standard error, and nothing on standard output.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

import pytest
from shell import INVITE, KT014, PLANS, ROOT, Shell


@pytest.mark.parametrize(("words", "named"), [
    (("recipe", "--medicine", "budesonide", "--dose", "30 mg", "--ampoule", "0.5 mg / 2 mL"), "30 mg"),
    (("taper", "--from", "1 mg", "--to", "0.6 mg", "--times-per-day", "2", "--unit", "0.25 mg", "--weeks", "8"),
     "0.6 mg"),
    (("enrol", str(PLANS / "broken" / "unknown-key.toml")), "unknown-key.toml"),
], ids=lambda one: one if isinstance(one, str) else one[0])
def test_status_1_the_answer_is_no(coatwell: Shell, words: Sequence[str], named: str) -> None:
    ran = coatwell(*words, *(("--json",) if words[0] in ("recipe", "taper") else ()))
    assert ran.status == 1 and ran.out == "" and named in ran.err
    assert ran.err.startswith("coatwell")


@pytest.mark.parametrize("command", ["export", "forget"])
def test_status_1_for_an_unknown_reference(enrolled: Shell, command: str) -> None:
    more = ("--as", "fhir", "--to", "out.json") if command == "export" else ("--yes",)
    ran = enrolled(command, "ZZ-999", *more)
    assert ran.status == 1 and ran.out == ""
    assert "ZZ-999" in ran.err and "coatwell panel" in ran.err, "what, where, what to do"
    assert not (enrolled.folder / "out.json").exists()


@pytest.mark.parametrize(("words", "named"), [
    ((), "COMMAND"),
    (("nonsense",), "nonsense"),
    (("plan", "check"), "file"),
    (("plan", "check", "none.toml"), "none.toml"),
    (("plan", "timeline", KT014, "--from", "yesterday", "--days", "7"), "2026-03-02"),
    (("plan", "timeline", KT014, "--from", "2026-03-02", "--days", "0"), "--days"),
    (("recipe", "--medicine", "budesonide", "--dose", "1 mgg", "--ampoule", "0.5 mg / 2 mL"), "mgg"),
    (("recipe", "--medicine", "budesonide", "--dose", "1 mg"), "--ampoule"),
    (("taper", "--from", "1 mg", "--to", "0.5 mg", "--unit", "x", "--weeks", "8"), "x"),
    (("enrol", "none.toml"), "none.toml"),
    (("rehearse",), "scenario"),
    (("rehearse", "none.toml"), "none.toml"),
    (("rehearse", "--patients", "1", "--json", "lines"), "--json"),
    (("export", "KT-014", "--as", "xml", "--to", "x"), "xml"),
    (("export", "KT-014", "--as", "csv", "--to", "x.csv"), ".zip"),
    (("forget",), "reference"),
    (("db", "mend"), "mend"),
    (("serve",), "COATWELL_TELEGRAM_TOKEN"),
    (("try", "--terminal", "--start", "noon"), "--start"),
], ids=lambda one: one if isinstance(one, str) else " ".join(one[:2]).replace(str(ROOT), ""))
def test_status_2_bad_use(coatwell: Shell, words: Sequence[str], named: str) -> None:
    ran = coatwell(*words)
    assert ran.status == 2 and ran.out == "" and named in ran.err
    assert re.search(r"^(usage: )?coatwell", ran.err) and "Errno" not in ran.err


def test_status_2_for_a_reply_that_is_none(once: Shell) -> None:
    ran = once("read", stdin='{"id": 1, "text": "fine"}\nnot json\n')
    assert ran.status == 2 and len(ran.lines) == 1 and "line 2" in ran.err


def test_status_2_for_settings(coatwell: Shell) -> None:
    ran = coatwell("panel", database="mysql://host/x")
    assert ran.status == 2 and ran.out == "" and "COATWELL_DATABASE" in ran.err and "sqlite:///" in ran.err
    ran = coatwell("serve", telegram_token="123:abc")
    assert ran.status == 2 and "COATWELL_CARE_CHAT" in ran.err and "123:abc" not in ran.err


@pytest.mark.parametrize("words", [("panel", "--json"), ("db", "check"), ("db", "upgrade"), ("enrol", KT014),
                                   ("export", "KT-014", "--as", "fhir", "--to", "x.json"), ("forget", "KT-014")],
                         ids=lambda words: " ".join(words[:2]).replace(str(ROOT), ""))
def test_status_3_the_database_cannot_be_used(coatwell: Shell, words: Sequence[str]) -> None:
    ran = coatwell(*words, database="sqlite:////nowhere/at/all.db")
    assert ran.status == 3 and ran.out == ""
    assert "/nowhere/at/all.db" in ran.err and ";" in ran.err, "what, where; what to do"


def test_status_3_a_file_that_is_no_database(coatwell: Shell) -> None:
    coatwell.database.write_bytes(b"not a database" * 100)
    ran = coatwell("panel", "--json")
    assert ran.status == 3 and ran.out == "" and "coatwell.db" in ran.err


def test_status_3_a_folder_that_cannot_be_written(enrolled: Shell) -> None:
    ran = enrolled("export", "KT-014", "--as", "fhir", "--to", "/nowhere/x.json")
    assert ran.status == 3 and ran.out == "" and "/nowhere/x.json" in ran.err


def test_the_token_is_never_printed(coatwell: Shell) -> None:
    """A token, and an API that does not answer: the link is not known, the token stays unsaid."""
    token = "123456:never-to-be-seen"
    ran = coatwell("enrol", KT014, telegram_token=token, telegram_api="http://127.0.0.1:9")
    assert ran.status == 0 and INVITE.search(ran.out)
    assert "never-to-be-seen" not in ran.out + ran.err
    stored = b"".join(path.read_bytes() for path in coatwell.folder.glob("coatwell.db*"))
    assert b"never-to-be-seen" not in stored


def test_settings_come_from_a_file_too(coatwell: Shell) -> None:
    (coatwell.folder / ".env").write_text("COATWELL_DATABASE=sqlite:///other.db\n", encoding="utf-8")
    assert coatwell("enrol", KT014).status == 0
    assert (coatwell.folder / "other.db").exists() and not coatwell.database.exists()

"""Every command with what nobody should type: no traceback, one line that names what is wrong, the agreed status.

1 the answer is 'no' (a file that can be read and has problems), 2 bad use (what is not there, no file, no number),
3 trouble outside. Statuses and the form of errors are this project's own contract.
"""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path

import pytest
from commandline import KT, Run

HEAD = 'title = "t"\nplan = "plan.toml"\nstart = 2026-03-02T07:00:00\nend = 2026-03-02T09:00:00\n'
TURN = "[[turn]]\nat = 2026-03-02T07:50:00\n"
FILES: dict[str, bytes] = {
    "empty.toml": b"",
    "binary.toml": bytes(range(128, 256)),
    "scenario.toml": HEAD.encode(),
    "no_plan.toml": HEAD.replace("plan.toml", "gone.toml").encode(),
    "plan_is_a_folder.toml": HEAD.replace("plan.toml", "folder").encode(),
    "broken_plan.toml": HEAD.replace("plan.toml", "empty.toml").encode(),
    "ends_before.toml": HEAD.replace("02T09", "01T09").encode(),
    "no_end.toml": HEAD.replace("end = 2026", "end = 9999").encode(),
    "far.toml": HEAD.replace("start = 2026", "start = 0001").encode(),
    "a_zone.toml": HEAD.replace("09:00:00", "09:00:00Z").encode(),
    "no_button.toml": (HEAD + TURN + 'patient_taps = "Nowhere"\n').encode(),
    "no_reply.toml": (HEAD + "turn = 3\n").encode(),
    "turn_before.toml": (HEAD + TURN.replace("07:50", "06:50") + 'patient = "hi"\n').encode(),
    "habit.toml": (HEAD + 'habit = "taken"\n').encode(),
    "unknown_value.toml": (HEAD + 'protocol = { "no.such" = 1 }\n').encode(),
    "nan_value.toml": (HEAD + 'protocol = { "window.no_food" = nan }\n').encode(),
    "word_value.toml": (HEAD + 'protocol = { "window.no_food" = "long" }\n').encode(),
    "plan_is_a_number.toml": HEAD.replace('"plan.toml"', "3").encode(),
}
LONG = "x" * 5000
BUDESONIDE = ("recipe", "--medicine", "budesonide", "--ampoule", "0.5 mg / 2 mL", "--dose")
TAPER = ("taper", "--from", "1 mg", "--to", "0.5 mg", "--weeks")
TIMELINE = ("plan", "timeline", "plan.toml", "--from", "2026-03-02", "--days")
EXPORT = ("export", "KT-014", "--as", "ics", "--to")

TABLE: tuple[tuple[int, tuple[str, ...], str], ...] = (
    *((2, ("plan", part, file, *more), file[:40]) for file in ("gone.toml", "folder", "plan.toml/x", LONG)
      for part, *more in (("check",), ("supply",), ("timeline", "--from", "2026-03-02", "--days", "1"))),
    (1, ("plan", "supply", "empty.toml"), "empty.toml"),
    (1, ("plan", "supply", "binary.toml"), "UTF-8"),
    *((2, (*TIMELINE, days), "--days") for days in ("0", "-5", "9" * 30, "nan", "1.5", "")),
    *((2, ("plan", "timeline", "plan.toml", "--days", "1", "--from", day), "--from")
      for day in ("9999-12-31", "0001-01-01", "2026-02-30", "")),
    *((2, (*TIMELINE, "1", "--release", f"endoscopy reviewed={day}"), "--release")
      for day in ("0001-01-01", "9999-12-31", "soon")),
    (2, ("plan", "check", "plan.toml", "--picture", "folder"), "folder"),
    (3, ("plan", "check", "plan.toml", "--picture", "gone/x.png"), "gone/x.png"),
    *((2, (*BUDESONIDE, dose), "coatwell recipe") for dose in ("nan mg", "-1 mg", "1e9 mg", "mg", "")),
    *((2, (*BUDESONIDE, "1 mg", *more), more[0]) for more in (
        ("--doses", "-3"), ("--doses", "9" * 30), ("--age", "-1"), ("--ahead", "-1"), ("--sweetener", "nan g per mg"),
        ("--sweetener", "99999999999 g per mg"), ("--sweetener", "-1 g per mg"))),
    *((2, (*TAPER, weeks, "--unit", "0.25 mg"), "--weeks") for weeks in ("-1", "0", "99999999", "nan")),
    (2, (*TAPER, "8", "--unit", "0.00001 mg"), "--unit"),
    (2, (*TAPER, "8", "--unit", "0 mg"), "no medicine"),
    (2, (*TAPER, "8", "--unit", "-1 mg"), "-1 mg"),
    *((2, ("rules", "--protocol", file), file) for file in ("gone.toml", "folder")),
    *((1, ("rules", "--protocol", file), file) for file in ("empty.toml", "binary.toml")),
    *((2, ("enrol", file), file) for file in ("gone.toml", "folder")),
    *((1, ("enrol", file), file) for file in ("empty.toml", "binary.toml")),
    *((2, ("rehearse", file), file) for file in (
        "gone.toml", "folder", "empty.toml", "binary.toml", "plan.toml", "ends_before.toml", "no_end.toml", "far.toml",
        "a_zone.toml", "no_reply.toml", "turn_before.toml", "habit.toml", "plan_is_a_number.toml")),
    (2, ("rehearse", "no_plan.toml"), "gone.toml"),
    (2, ("rehearse", "plan_is_a_folder.toml"), "folder"),
    (1, ("rehearse", "broken_plan.toml"), "empty.toml"),
    (1, ("rehearse", "no_button.toml"), "Nowhere"),
    (1, ("rehearse", "unknown_value.toml"), "no.such"),
    *((1, ("rehearse", f"{kind}_value.toml"), "window.no_food") for kind in ("nan", "word")),
    *((2, ("rehearse", "--patients", number), "--patients") for number in ("-1", "0", "nan", "9" * 30)),
    *((2, ("rehearse", "--patients", "2", "--weeks", number), "--weeks") for number in ("-1", "0", "99999999")),
    (2, ("rehearse", "--patients", "2", "--seed", "x"), "--seed"),
    *((2, ("try", "--plan", file, where), file) for file in ("gone.toml", "folder") for where in (
        "--terminal", "--no-browser")),
    *((1, ("try", "--plan", file, "--terminal"), file) for file in ("empty.toml", "binary.toml")),
    (2, ("try", "--terminal", "--plan", "plan.toml", "--plan", "plan.toml"), "KT-014"),
    *((2, ("try", "--no-browser", "--port", port), "--port") for port in ("99999", "-1", "nan")),
    *((2, ("try", "--terminal", "--speed", speed), "--speed") for speed in ("-1", "nan", "inf", "1e300", "fast")),
    *((2, ("try", "--terminal", "--start", start), "--start")
      for start in ("9999-12-31 23:59", "0001-01-01 00:00", "2026-02-30 10:00", "noon")),
    *((2, ("try", "--no-browser", "--record", file), "--record") for file in ("folder", "plan.toml", "gone/x.toml")),
    (2, ("try", "--terminal", "--record", "x.toml"), "--record"),
    (2, ("try", "--terminal", "--database", "nonsense"), "COATWELL_DATABASE"),
    (3, ("try", "--terminal", "--database", "sqlite:///gone/x.db"), "gone/x.db"),
    *((2, (*EXPORT, file), "--to") for file in ("folder", "plan.toml", LONG)),
    (2, (*EXPORT, "folder", "--force"), "folder"),
    *((2, (*EXPORT, "x.ics", "--days", days), "--days") for days in ("0", "-1", "9" * 30, "nan")),
    (3, (*EXPORT, "x.ics"), "coatwell.db"),
    *((2, ("db", "backup", file), file[:40]) for file in ("plan.toml", "folder", LONG)),
    (3, ("db", "backup", "new.db"), "coatwell.db"),
    (3, ("db", "check"), "coatwell.db"),
    (2, ("forget",), "reference"),
    (2, ("forget", ""), "reference"),
    (3, ("forget", "KT-014", "--yes"), "coatwell.db"),
    (2, ("read", "--language", "xx"), "--language"),
    (2, ("panel", "--json", "more"), "more"),
    (2, ("serve", "more"), "more"),
)



@pytest.fixture
def typed(run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Run:
    """Run a command where FILES, a plan and a folder lie, with nothing on standard input."""
    monkeypatch.setattr(sys, "stdin", io.StringIO())
    for name, content in FILES.items():
        (tmp_path / name).write_bytes(content)
    (tmp_path / "plan.toml").write_bytes(Path(KT).read_bytes())
    (tmp_path / "folder").mkdir()
    return run


def _named(value: object) -> str | None:
    return " ".join(value)[:70] if isinstance(value, tuple) else None


@pytest.mark.parametrize(("status", "words", "named"), TABLE, ids=_named)
def test_no_command_breaks(status: int, words: tuple[str, ...], named: str, typed: Run) -> None:
    left, out, err = typed(*words)
    told = out + err
    assert left == status, told
    assert named in told and "Traceback" not in told and "Errno" not in told
    assert err.startswith(("coatwell", "usage: coatwell")) or (left == 1 and not err), err


def test_a_plan_that_cannot_be_read_is_told_on_the_page(typed: Run) -> None:
    for file in ("empty.toml", "binary.toml"):
        status, out, _ = typed("plan", "check", file, "--json")
        assert status == 1 and json.loads(out)["ok"] is False


@pytest.mark.parametrize(("file", "named"), [("gone.toml", "no such file"), ("folder", "is a folder"),
                                             ("empty.toml", "is missing"), ("binary.toml", "COATWELL_PROTOCOL")])
@pytest.mark.parametrize("words", [("rules",), ("panel",), ("plan", "check", "plan.toml"), (*TAPER, "8", "--unit",
                                                                                            "0.25 mg")], ids=_named)
def test_a_protocol_that_cannot_be_used_is_bad_use(words: tuple[str, ...], file: str, named: str, typed: Run) -> None:
    status, out, err = typed(*words, protocol=file)
    assert (status, out) == (2, "") and named in err and err.startswith("coatwell: COATWELL_PROTOCOL: ")


@pytest.mark.parametrize(("line", "wrong"), [
    ("no_food = { value = 30", "nan"), ("no_food = { value = 30", "inf"), ("no_food = { value = 30", "1e300"),
    ("no_food = { value = 30", "-1"), ("largest_drop = { value = 50", '"half"'),
    ("largest_drop = { value = 50", "nan")])
def test_a_protocol_with_a_value_that_is_none(line: str, wrong: str, typed: Run, tmp_path: Path) -> None:
    shipped = (Path(__file__).parents[3] / "scheduler" / "protocol_example.toml").read_text(encoding="utf-8")
    name, _, value = line.rpartition(" ")
    changed = shipped.replace(line, f"{name} {wrong}")
    assert changed != shipped and value.isdecimal()
    (tmp_path / "clinic.toml").write_text(changed, encoding="utf-8")
    key = name.partition(" ")[0]
    for words, status in (((*TAPER, "8", "--unit", "0.25 mg"), 2), (("rules", "--protocol", "clinic.toml"), 1)):
        left, out, err = typed(*words, protocol="clinic.toml")
        assert (left, out) == (status, "") and key in err


@pytest.mark.parametrize("settings", [
    {"care_chat": "abc"}, {"care_chat": "-1.5"}, {"care_chat": "12 34"}, {"care_chat": "-100", "on_call_chat": "abc"},
    {"care_chat": "-100", "health_port": "99999"}, {"care_chat": "-100", "health_port": "-1"},
    {"care_chat": "-100", "health_port": "x"}, {"care_chat": "-100", "telegram_api": "nowhere"},
    {"care_chat": "-100", "webhook_url": "nowhere", "webhook_secret": "s"}], ids=lambda one: " ".join(one.values()))
def test_settings_that_serve_cannot_use(settings: dict[str, str], typed: Run) -> None:
    status, out, err = typed("serve", telegram_token="1:secret", **settings)
    wrong = list(settings)[-1] if "webhook_url" not in settings else "webhook_url"
    assert (status, out) == (2, "") and f"COATWELL_{wrong.upper()}" in err and "secret" not in err
    assert not Path("coatwell.db").exists(), "nothing was begun"


def test_reading_goes_on_after_a_bad_line(typed: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    lines = (b'{"id": 1, "text": "food is stuck"}', b"not json", b'{"id": NaN, "text": "x"}', b"[" * 9999,
             b'{"id": ' + b"9" * 9999 + b', "text": "x"}', b'"text"', b'{"text": 3}', b'{"text": "\xff"}', b"",
             b'{"id": 2, "text": "fine", "writer": "dog"}', b'{"id": "\\ud800", "text": "\\ud800"}',
             b'{"id": 3, "text": "thanks", "asked": null}')
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(b"\n".join(lines))))
    status, out, err = typed("read")
    assert status == 2
    assert [json.loads(line)["id"] for line in out.splitlines()][::2] == [1, 3]
    told = [line.removeprefix("coatwell read: standard input, line ").partition(":")[0] for line in err.splitlines()]
    assert told == ["2", "3", "4", "5", "6", "7", "8", "10"]


def test_a_panel_is_wide_enough_for_its_dates(typed: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    assert typed("enrol", "plan.toml")[0] == 0
    for columns in ("80", "100", "160"):
        monkeypatch.setenv("COLUMNS", columns)
        status, out, _ = typed("panel")
        assert status == 0 and "2026-0" in out
        assert all(len(line) <= int(columns) for line in out.splitlines())
        dates = json.loads(typed("panel", "--json")[1])["patients"][0]
        assert dates["first_day_without_medicine"] in out and dates["reference"] in out

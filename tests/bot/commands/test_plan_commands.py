"""`coatwell plan`: the shapes, the words on the page and the exit statuses that others rely on."""

from __future__ import annotations

import json
import re
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from commandline import FL, KT, PLANS, Run, document

# --- plan check


@pytest.mark.parametrize("path", sorted((PLANS / "ok").glob("*.toml")), ids=lambda path: path.stem)
def test_a_good_plan_as_json(path: Path, run: Run) -> None:
    found = document(run, "plan", "check", str(path), "--json")
    assert list(found) == ["ok", "problems", "cautions", "totals"]
    assert found["ok"] is True and found["problems"] == []
    assert all(list(one) == ["text", "source"] for one in found["cautions"])
    unit = "puffs" if 'form = "inhaler"' in path.read_text(encoding="utf-8") else "ampoules"
    assert found["totals"][unit] == sum(phase[unit] for phase in found["totals"]["phases"])


@pytest.mark.parametrize("path", sorted((PLANS / "broken").glob("*.toml")), ids=lambda path: path.stem)
def test_a_broken_plan_as_json_and_as_text(path: Path, run: Run) -> None:
    status, out, err = run("plan", "check", str(path), "--json")
    found = json.loads(out)
    assert (status, err, found["ok"]) == (1, "", False)
    assert found["problems"] and all(list(one) == ["field", "message"] for one in found["problems"])
    status, out, _ = run("plan", "check", str(path))
    assert status == 1 and "not ready to be signed" in out and "Traceback" not in out
    for part in ("timeline", "supply"):
        words = ["--from", "2026-03-02", "--days", "1"] if part == "timeline" else []
        status, out, err = run("plan", part, str(path), *words)
        assert status == 1 and out == "" and err.startswith("coatwell: ") and err.count("\n") <= len(found["problems"])


def test_the_page_to_sign(run: Run) -> None:
    status, out, _ = run("plan", "check", KT)
    assert status == 0
    page = " ".join(out.split())
    for words in (
        "example, not signed",
        "KT-014, called Maya",
        "budesonide, ampoule of 0.5 mg / 2 mL, with sweetener",
        "1 mg (2 ampoules) at 07:45, 21:30",
        "Mon 2026-03-02",
        "Sun 2026-04-26",
        "endoscopy reviewed",
        "03-20 every year",
        "check in 18:00",
        "10 packets (10 g) of sweetener",
        "about 10.2 mL",
        "10 g per mg (in force)",
        "5 g per ampoule (not in force)",
        "Tue 2026-03-17",
        "Cautions to read before signing",
        "Signed: Dr R. Okafor, 2026-02-27",
        "Shake 2 ampoules",
        "Local codes and licensed practice come first",
    ):
        assert words in page, words
    assert max(len(line) for line in out.splitlines()) <= 110


@pytest.mark.parametrize(
    "words",
    [
        *(("plan", "check", str(path)) for path in sorted((PLANS / "ok").glob("*.toml"))),
        ("recipe", "--medicine", "budesonide", "--dose", "0.75 mg", "--ampoule", "0.5 mg / 2 mL", "--doses", "3"),
        ("recipe", "--medicine", "budesonide", "--dose", "0.25 mg", "--ampoule", "0.25 mg / 2 mL"),
        ("taper", "--from", "1 mg", "--to", "0.5 mg", "--unit", "0.25 mg", "--weeks", "8"),
    ],
)
def test_no_page_has_a_number_that_is_easily_misread(words: tuple[str, ...], run: Run) -> None:
    """ISMP list of error-prone dose designations (from memory): no trailing zero, no bare point, no 'mcg', no 'µg'."""
    status, page, _ = run(*words)
    assert status == 0
    assert not re.findall(r"[0-9]+\.[0-9]*0 (?:mL|mg|g|microgram|%)", page)
    assert not re.findall(r"(?<![0-9])\.[0-9]", page)
    assert "mcg" not in page and "µg" not in page and "μg" not in page


def test_a_language_without_texts_is_a_caution(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "fr.toml"
    path.write_text(
        Path(KT).read_text(encoding="utf-8").replace('language = "en"', 'language = "fr"'), encoding="utf-8"
    )
    assert "no texts in language 'fr'" in document(run, "plan", "check", str(path), "--json")["cautions"][0]["text"]
    assert "no texts" not in json.dumps(document(run, "plan", "check", KT, "--json"))


def test_no_file(run: Run) -> None:
    status, out, err = run("plan", "check", "nowhere.toml", "--json")
    assert (status, out) == (2, "") and "there is no such file" in err


def test_a_calendar_for_the_fridge(run: Run, tmp_path: Path) -> None:
    for name, start in (("a.png", b"\x89PNG"), ("a.pdf", b"%PDF")):
        assert run("plan", "check", KT, "--json", "--picture", str(tmp_path / name))[0] == 0
        assert (tmp_path / name).read_bytes().startswith(start)
    assert run("plan", "check", KT, "--picture", str(tmp_path / "a.docx"))[0] == 2
    assert run("plan", "check", KT, "--picture", str(tmp_path / "no" / "folder" / "a.png"))[0] == 3


# --- plan timeline


def lines(run: Run, *words: str) -> list[dict[str, Any]]:
    status, out, err = run("plan", "timeline", *words, "--json", "lines")
    assert (status, err) == (0, "")
    return [json.loads(line) for line in out.splitlines()]


def test_a_day_as_if_confirmed(run: Run) -> None:
    found = lines(run, KT, "--from", "2026-03-02", "--days", "1")
    assert all(list(one) == ["at", "kind", "phase", "amount", "units"] for one in found)
    assert [(one["at"], one["kind"], one["amount"], one["units"]) for one in found] == [
        ("2026-03-02T07:45:00-07:00", "dose", "1 mg", 2),
        ("2026-03-02T07:45:00-07:00", "rinse", None, None),
        ("2026-03-02T08:15:00-07:00", "window_end", None, None),
        ("2026-03-02T21:30:00-07:00", "dose", "1 mg", 2),
        ("2026-03-02T21:30:00-07:00", "rinse", None, None),
        ("2026-03-02T22:00:00-07:00", "window_end", None, None),
    ]


def test_only_the_kinds_that_are_agreed_in_order(run: Run) -> None:
    found = lines(run, KT, "--from", "2026-01-01", "--days", "700", "--release", "endoscopy reviewed=2026-04-27")
    assert {one["kind"] for one in found} == {
        "dose",
        "rinse",
        "window_end",
        "step_change",
        "check_in",
        "supply_low",
        "endoscopy_due",
        "season_start",
        "season_end",
    }
    times = [datetime.fromisoformat(one["at"]) for one in found]
    assert times == sorted(times)
    assert [one["at"][:10] for one in found if one["kind"] == "endoscopy_due"] == ["2026-04-27"]
    change = next(one for one in found if one["kind"] == "step_change")
    assert (change["at"], change["amount"], change["units"]) == ("2026-06-16T07:30:00-06:00", "0.5 mg", 1)


def test_rinse_after_the_window_where_the_clinic_says_so(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    text = (PLANS.parents[1] / "scheduler" / "protocol_example.toml").read_text(encoding="utf-8")
    path = tmp_path / "clinic.toml"
    path.write_text(
        text.replace('order = { value = "at once"', 'order = { value = "after the window"'), encoding="utf-8"
    )
    monkeypatch.setenv("COATWELL_PROTOCOL", str(path))
    found = lines(run, KT, "--from", "2026-03-02", "--days", "1")
    assert [(one["kind"], one["at"][11:16]) for one in found[:3]] == [
        ("dose", "07:45"),
        ("rinse", "08:15"),
        ("window_end", "08:15"),
    ]


def test_a_window_that_runs_past_midnight_is_on_the_next_day(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "late.toml"
    text = Path(KT).read_text(encoding="utf-8")
    for old, new in (
        ('sleeps = "22:30"', 'sleeps = "00:45"'),
        ("mix_ahead_days = 0", 'dose_times = ["07:45", "23:45"]'),
    ):
        text = text.replace(old, new)
    path.write_text(text, encoding="utf-8")
    assert lines(run, str(path), "--from", "2026-03-03", "--days", "1")[0]["kind"] == "window_end"


@pytest.mark.parametrize(
    "words",
    [
        ("--from", "2 March", "--days", "1"),
        ("--from", "2026-03-02", "--days", "0"),
        ("--from", "2026-03-02", "--days", "x"),
        ("--from", "2026-03-02"),
        ("--days", "1"),
        ("--from", "0001-01-01", "--days", "1"),
        ("--from", "2026-03-02", "--days", "1", "--release", "no gate=2026-03-02"),
        ("--from", "2026-03-02", "--days", "1", "--release", "endoscopy reviewed=soon"),
    ],
)
def test_bad_use_of_the_timeline(words: tuple[str, ...], run: Run) -> None:
    status, out, err = run("plan", "timeline", KT, *words)
    assert (status, out) == (2, "") and err


def test_the_timeline_as_a_table(run: Run) -> None:
    status, out, _ = run("plan", "timeline", FL, "--from", "2026-02-16", "--days", "2")
    assert status == 0 and "440 microgram" in out and "2 puffs" in out and "Mon 2026-02-16 07:30 -0600" in out


# --- plan supply


def test_supply(run: Run) -> None:
    found = document(run, "plan", "supply", KT, "--json")
    assert (found["ampoules"], found["packs"], found["packets"], found["vehicle"]) == (492, 17, 2460, "sweetener")
    assert found["first_day_without"] == "2026-03-17" and found["on_hand"] == 60
    assert [phase["phase"] for phase in found["phases"]] == ["induction", "taper", "maintenance"]
    assert document(run, "plan", "supply", FL, "--json")["puffs"] == 420
    status, out, _ = run("plan", "supply", KT)
    assert status == 0 and "First day that cannot be made from them: Tue 2026-03-17" in " ".join(out.split())


@pytest.mark.parametrize(
    "words", [("plan",), ("plan", "check"), ("plan", "timeline"), ("plan", "supply"), ("recipe",), ("taper",)]
)
def test_help_shows_an_example(words: tuple[str, ...], run: Run) -> None:
    status, out, _ = run(*words, "--help")
    assert status == 0 and "example" in out and f"coatwell {words[0]}" in out

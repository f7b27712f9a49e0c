"""What the outside can rely on at the command line, run as real processes: names, help, JSON, exit statuses, errors.

The key names and statuses are the project's own contract. ISO 8601 with an offset is checked by form and by reading it.
"""

from __future__ import annotations

import json
import re
import resource
import sqlite3
import subprocess
import sys
import zipfile
from collections.abc import Sequence
from contextlib import closing
from datetime import datetime
from importlib.metadata import entry_points
from pathlib import Path

import icalendar
import pytest
from fhir.resources.R4B.bundle import Bundle
from shell import INHALER, INVITE, KT014, PLANS, SCENARIOS, Shell, environment

COMMANDS = ("try", "serve", "plan", "recipe", "taper", "read", "rules", "enrol", "panel", "export", "forget",
            "rehearse", "db")
ACTIONS = (("plan", "check"), ("plan", "timeline"), ("plan", "supply"), ("db", "upgrade"), ("db", "check"),
           ("db", "backup"))
HEAVY = ("sqlalchemy", "sqlmodel", "telegram", "pint", "matplotlib", "alembic", "fhir", "icalendar", "starlette",
         "apscheduler", "pydantic")
KINDS = {"dose", "window_end", "rinse", "step_change", "check_in", "supply_low", "endoscopy_due", "season_start",
         "season_end"}
URGENCIES = {"emergency", "urgent", "routine", "none"}
FINDINGS = {"thrush", "odynophagia", "impaction_now", "impaction_resolved", "cannot_swallow_saliva", "bleeding",
            "chest_pain", "breathing_trouble", "fever", "herpes_sign", "hoarseness", "adrenal_sign", "worse_dysphagia",
            "better", "missed_doses", "wants_stop", "pregnancy", "new_medicine", "allergic_reaction", "self_harm"}
ISO = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?([+-]\d\d:\d\d|Z)")
RECIPE = ("recipe", "--medicine", "budesonide", "--ampoule", "0.5 mg / 2 mL")
TAPER = ("taper", "--from", "1 mg", "--to", "0.5 mg", "--times-per-day", "2", "--unit", "0.25 mg", "--weeks", "8")


def is_iso(text: str) -> bool:
    return bool(ISO.fullmatch(text)) and datetime.fromisoformat(text).tzinfo is not None


# --- the commands there are, and their help


def test_the_program_is_installed_under_its_name() -> None:
    named, = entry_points(group="console_scripts", name="coatwell")
    assert named.value == "bot.cli:main"


def test_help_names_every_command(once: Shell) -> None:
    ran = once("--help")
    assert ran.status == 0 and ran.err == ""
    assert all(re.search(rf"^ +{name} ", ran.out, re.MULTILINE) for name in COMMANDS)


@pytest.mark.parametrize("words", [*((name,) for name in COMMANDS), *ACTIONS], ids=" ".join)
def test_help_has_an_example_and_loads_little(once: Shell, words: Sequence[str]) -> None:
    """In one process: help as printed, and what was imported to print it."""
    code = ("import sys\nfrom bot.cli import main\ntry:\n    main(sys.argv[1:])\nexcept SystemExit as end:\n"
            "    names = {name.partition('.')[0] for name in sys.modules}\n"
            "    print(end.code, *sorted(names), file=sys.stderr)\n")
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run([sys.executable, "-c", code, *words, "--help"], cwd=once.folder, text=True, check=True,
                          capture_output=True, timeout=60, env=environment(once.folder, {}))
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    status, *loaded = done.stderr.split()
    assert status == "0"
    assert re.search(rf"^  .*coatwell {' '.join(words)}\b", done.stdout.split("example")[-1], re.MULTILINE), done.stdout
    assert not set(loaded) & set(HEAVY)
    spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    assert spent < 1.0, "seconds of computing; on an idle machine it is a tenth of that"


# --- JSON: exactly one document (or one a line), exactly these names


def test_plan_check(once: Shell) -> None:
    ran = once("plan", "check", KT014, "--json")
    assert ran.status == 0 and ran.err == ""
    found = ran.document
    assert found.keys() == {"ok", "problems", "cautions", "totals"}
    assert found["ok"] is True and found["problems"] == [] and found["totals"]
    cautions = found["cautions"]
    assert cautions and all(one.keys() == {"text", "source"} and all(one.values()) for one in cautions)


@pytest.mark.parametrize("name", sorted(path.name for path in (PLANS / "broken").glob("*.toml"))[::20])
def test_plan_check_of_a_plan_with_problems(once: Shell, name: str) -> None:
    ran = once("plan", "check", str(PLANS / "broken" / name), "--json")
    found = ran.document
    assert ran.status == 1 and found.keys() == {"ok", "problems", "cautions", "totals"} and found["ok"] is False
    assert found["problems"] and all(one.keys() == {"field", "message"} and one["message"] for one in found["problems"])


def test_plan_check_names_an_unknown_key(coatwell: Shell) -> None:
    """Unknown keys are problems, not ignored."""
    file = coatwell.folder / "plan.toml"
    text = Path(KT014).read_text(encoding="utf-8").replace("[patient]", '[patient]\nfavourite_colour = "red"', 1)
    file.write_text(text, encoding="utf-8")
    ran = coatwell("plan", "check", str(file), "--json")
    assert ran.status == 1
    assert [one["field"] for one in ran.document["problems"]] == ["patient.favourite_colour"]


@pytest.mark.parametrize("plan", [KT014, INHALER])
def test_plan_timeline(once: Shell, plan: str) -> None:
    ran = once("plan", "timeline", plan, "--from", "2026-03-02", "--days", "70", "--json", "lines")
    assert ran.status == 0 and ran.err == ""
    rows = ran.lines
    assert len(rows) > 70
    assert all(row.keys() == {"at", "kind", "phase", "amount", "units"} and is_iso(row["at"]) for row in rows)
    kinds = {row["kind"] for row in rows}
    assert {"dose", "window_end", "rinse", "check_in"} <= kinds <= KINDS
    instants = [datetime.fromisoformat(row["at"]) for row in rows]
    assert instants == sorted(instants)
    assert {str(instant.utcoffset()) for instant in instants} > {"-1 day, 18:00:00"} or plan == INHALER
    assert all(isinstance(row["units"], int) and row["amount"] for row in rows if row["kind"] == "dose")


@pytest.mark.parametrize(("plan", "unit", "vehicle"), [(KT014, "ampoules", "sweetener"), (INHALER, "puffs", None)])
def test_plan_supply(once: Shell, plan: str, unit: str, vehicle: str | None) -> None:
    ran = once("plan", "supply", plan, "--json")
    assert ran.status == 0 and ran.err == ""
    found = ran.document
    assert {"first_day_without", "phases", unit, "packs", "vehicle"} <= found.keys()
    assert found["phases"] and found["vehicle"] == vehicle
    for phase in found["phases"]:
        assert {"phase", unit, "packs", "vehicle"} <= phase.keys()
    assert sum(phase[unit] for phase in found["phases"]) == found[unit]


@pytest.mark.parametrize("more", [("--vehicle", "sweetener"), ("--vehicle", "honey"), ("--doses", "2"),
                                  ("--sweetener", "10 g per ampoule")])
def test_recipe_of_ampoules(once: Shell, more: Sequence[str]) -> None:
    ran = once(*RECIPE, "--dose", "1 mg", *more, "--json")
    assert ran.status == 0 and ran.err == ""
    found = ran.document
    assert found.keys() == {"ampoules", "medicine_ml", "sweetener_g", "packets", "vehicle_ml", "total_ml", "dose_ml",
                            "mg_per_ml", "cautions"}
    assert found["ampoules"] in (2, 4)
    honey = "honey" in more
    assert (found["sweetener_g"] is None) is honey and (found["vehicle_ml"] is None) is not honey


def test_recipe_of_puffs(once: Shell) -> None:
    ran = once("recipe", "--medicine", "fluticasone", "--dose", "880 microgram", "--inhaler", "220 microgram", "--json")
    assert ran.status == 0 and ran.err == ""
    assert ran.document.keys() == {"puffs", "cautions"} and ran.document["puffs"] == 4


def test_taper(once: Shell) -> None:
    ran = once(*TAPER, "--json")
    assert ran.status == 0 and ran.err == ""
    found = ran.document
    assert found.keys() == {"steps", "largest_drop_percent"} and found["steps"]
    names = {"from_day", "days", "morning_units", "evening_units", "daily_amount"}
    assert all(step.keys() == names for step in found["steps"])
    assert sum(step["days"] for step in found["steps"]) == 56


def test_read(once: Shell) -> None:
    texts = {"a": "The food is stuck right now and I can't swallow my spit", "b": "No thrush, all fine", 3: "",
             "d": "white patches on my tongue — ¿normal? ✓", "e": "xyzzy plugh"}
    ran = once("read", stdin="".join(json.dumps({"id": key, "text": text}) + "\n" for key, text in texts.items()))
    assert ran.status == 0 and ran.err == ""
    rows = ran.lines
    assert [row["id"] for row in rows] == list(texts)
    for row in rows:
        assert row.keys() == {"id", "findings", "urgency", "needs_human", "evidence"}
        assert set(row["findings"]) <= FINDINGS and row["urgency"] in URGENCIES and isinstance(row["needs_human"], bool)
        for one in row["evidence"]:
            assert one.keys() == {"finding", "start", "end"} and one["finding"] in row["findings"]
            assert 0 <= one["start"] < one["end"] <= len(texts[row["id"]])
    assert rows[0]["urgency"] == "emergency" and rows[1]["findings"] == [] and rows[4]["needs_human"] is True


def test_panel(enrolled_once: Shell) -> None:
    ran = enrolled_once("panel", "--json")
    assert ran.status == 0 and ran.err == ""
    found = ran.document
    assert found.keys() == {"at", "patients"} and is_iso(found["at"])
    assert {row["reference"] for row in found["patients"]} == {"KT-014", "FL-207"}
    for row in found["patients"]:
        assert row.keys() == {"reference", "state", "phase", "week", "dose", "scores", "score_trend", "days_covered",
                              "open_flags", "most_urgent_flag", "next_endoscopy", "first_day_without_medicine"}


def test_a_plan_that_cannot_be_read_stops_no_other(enrolled: Shell) -> None:
    with closing(sqlite3.connect(enrolled.database, isolation_level=None)) as database:
        database.execute("UPDATE plans SET text = 'schema = 99' WHERE reference = 'KT-014'")
    ran = enrolled("panel", "--json")
    assert ran.status == 0 and "KT-014" in ran.err and "sign a new version" in ran.err
    rows = ran.document["patients"]
    assert [row["reference"] for row in rows] == ["KT-014", "FL-207"] and rows[0].keys() == rows[1].keys()
    ran = enrolled("export", "KT-014", "--as", "csv", "--to", "x.zip")
    assert ran.status == 1 and ran.out == "" and "KT-014" in ran.err and "sign a new version" in ran.err


def test_rehearse(once: Shell) -> None:
    ran = once("rehearse", str(SCENARIOS / "an_ordinary_day.toml"), "--json", "lines")
    assert ran.status == 0 and ran.err == ""
    rows = ran.lines
    assert rows and all(row.keys() == {"at", "chat", "who", "text", "buttons", "edited"} for row in rows)
    assert all(is_iso(row["at"]) for row in rows)


def test_rehearse_that_does_not_lead_where_it_must(coatwell: Shell) -> None:
    text = (SCENARIOS / "an_ordinary_day.toml").read_text(encoding="utf-8")
    text = text.replace('plan = "../plans', f'plan = "{PLANS}')
    text = text.replace("[[turn]]", '[[turn]]\nflags = ["urgent never"]', 1)
    file = coatwell.folder / "wrong.toml"
    file.write_text(text, encoding="utf-8")
    ran = coatwell("rehearse", str(file), "--json", "lines")
    assert ran.status == 1 and ran.lines and "wrong.toml" in ran.err and "urgent never" in ran.err


def test_rehearse_of_a_panel(once: Shell) -> None:
    ran = once("rehearse", "--patients", "1", "--weeks", "1", "--seed", "1")
    assert ran.status == 0 and "flags" in ran.out


def test_rules(once: Shell) -> None:
    ran = once("rules")
    assert ran.status == 0 and ran.err == "" and "not signed" in ran.out
    assert all(word in ran.out for word in ("EMERGENCY", "URGENT", "ROUTINE"))


# --- commands that keep something


def test_enrol_prints_an_invite_and_a_link(coatwell: Shell) -> None:
    ran = coatwell("enrol", KT014)
    assert ran.status == 0
    (reference, code), = INVITE.findall(ran.out)
    assert reference == "KT-014" and len(code.replace("-", "")) >= 12
    assert ran.out.splitlines()[1].startswith("link: ")
    assert coatwell.database.stat().st_mode & 0o077 == 0, "patients' words: for the owner's eyes"
    again = coatwell("enrol", KT014)
    assert again.status == 1 and again.out == "" and "KT-014" in again.err
    with closing(sqlite3.connect(coatwell.database)) as database:
        assert code not in str(database.execute("SELECT * FROM invites").fetchall()), "only its hash is kept"


def test_export_in_every_form(enrolled: Shell) -> None:
    files = {form: enrolled.folder / f"out.{ending}" for form, ending in
             (("fhir", "json"), ("csv", "zip"), ("ics", "ics"))}
    for form, file in files.items():
        ran = enrolled("export", "KT-014", "--as", form, "--to", str(file))
        assert ran.status == 0 and str(file) in ran.out and ran.err == ""
        assert file.stat().st_mode & 0o077 == 0
    assert Bundle.model_validate_json(files["fhir"].read_text(encoding="utf-8")).type == "collection"
    with zipfile.ZipFile(files["csv"]) as whole:
        assert whole.testzip() is None and "README.txt" in whole.namelist()
    assert icalendar.Calendar.from_ical(files["ics"].read_bytes()).walk("VEVENT")
    assert sorted(path.name for path in enrolled.folder.iterdir() if path.suffix == ".part") == []


def test_export_replaces_nothing_without_force(enrolled: Shell) -> None:
    file = enrolled.folder / "mine.json"
    file.write_text("mine", encoding="utf-8")
    words = ("export", "KT-014", "--as", "fhir", "--to", str(file))
    ran = enrolled(*words)
    assert ran.status == 2 and ran.out == "" and "--force" in ran.err
    assert file.read_text(encoding="utf-8") == "mine"
    assert enrolled(*words, "--force").status == 0
    assert json.loads(file.read_text(encoding="utf-8"))["resourceType"] == "Bundle"


def test_forget_asks_first(enrolled: Shell) -> None:
    for typed in ("", "kt-014\n"):
        ran = enrolled("forget", "KT-014", stdin=typed)
        assert ran.status == 1 and ran.out == "" and "nothing was erased" in ran.err
    ran = enrolled("forget", "KT-014", stdin="KT-014\n")
    assert ran.status == 0 and "KT-014 is erased" in ran.out
    assert [row["reference"] for row in enrolled("panel", "--json").document["patients"]] == ["FL-207"]
    left = b"".join(path.read_bytes() for path in enrolled.folder.glob("coatwell.db*"))
    assert b"Maya" not in left and b"KT-014" not in left
    assert enrolled("forget", "--finish").status == 0


def test_a_forgotten_patients_invites_are_dead(enrolled: Shell) -> None:
    assert enrolled("forget", "KT-014", "--yes").status == 0
    with closing(sqlite3.connect(enrolled.database)) as database:
        assert database.execute("SELECT reference FROM invites").fetchall() == [("FL-207",)]
        assert database.execute("SELECT reference FROM patients").fetchall() == [("FL-207",)]


def test_db(coatwell: Shell) -> None:
    assert coatwell("db", "check").status == 3, "looking at a database never makes one"
    assert coatwell("db", "upgrade").status == 0
    assert coatwell("db", "check").status == 0
    copy = coatwell.folder / "copy.db"
    assert coatwell("db", "backup", str(copy)).status == 0 and copy.stat().st_size > 0
    assert coatwell("db", "check", database=f"sqlite:///{copy}").status == 0


def test_try_in_a_terminal_prints_its_invites(coatwell: Shell) -> None:
    ran = coatwell("try", "--terminal", "--plan", KT014, "--plan", INHALER, "--start", "2026-03-02 07:40")
    assert ran.status == 0
    assert [reference for reference, _ in INVITE.findall(ran.out)] == ["KT-014", "FL-207"]

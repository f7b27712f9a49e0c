"""`coatwell rules` and `coatwell panel`: everything a clinician reviews, and one row a patient."""

from __future__ import annotations

import asyncio
import json
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from bot.care.figures import adherence, days, next_endoscopy
from bot.case import Case, Changes, PatientRow, PatientState
from bot.cli import main
from bot.commands.panel import panel_row, trend
from bot.enrolling import enrol
from bot.escalation.rules import RULES
from bot.storage.opening import open_store
from bot.understanding.types import Finding
from scheduler.planfile import load_plan
from scheduler.protocol import ClinicProtocol
from scheduler.protocol_keys import SPEC
from scheduler.record import Entry, EntryKind, Record

FILE = Path(__file__).parents[3] / "fixtures" / "plans" / "ok" / "kt-014.toml"


def test_rules_as_json(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["rules", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert [row["id"] for row in found["rules"]] == [rule.id for rule in RULES]
    assert {row["key"] for row in found["values"]} == SPEC.keys()
    assert all(row["source"] for row in (*found["rules"], *found["values"]))
    assert found["banner"] == "example, not signed"
    stuck = next(row for row in found["rules"] if row["id"] == "food_stuck")
    assert stuck["act_within"] == "15 min" and "911" in stuck["patient_is_told"] and "ESGE 2016" in stuck["source"]


def test_rules_as_a_table(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "400")
    assert main(["rules"]) == 0
    shown = capsys.readouterr().out
    assert all(rule.id in shown for rule in RULES)
    assert "care.act_within.emergency" in shown and "{" not in shown.split("Values of the clinic protocol")[0]
    assert main(["rules", "--only", "values"]) == 0
    assert "Stop eating and drinking" not in capsys.readouterr().out


def test_panel(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path,
               protocol: ClinicProtocol) -> None:
    url = f"sqlite:///{tmp_path / 'coatwell.db'}"
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COATWELL_DATABASE", url)
    monkeypatch.setenv("COLUMNS", "200")
    assert main(["panel"]) == 0
    assert "No patients yet" in capsys.readouterr().out

    async def fill() -> None:
        store = await open_store(url, protocol)
        async with store.work() as work:
            await enrol(work, load_plan(FILE, protocol), datetime(2026, 3, 2, tzinfo=UTC), protocol)
        await store.close()

    asyncio.run(fill())
    assert main(["panel", "--json"]) == 0
    rows = json.loads(capsys.readouterr().out)["patients"]
    assert [row["reference"] for row in rows] == ["KT-014"]
    assert main(["panel"]) == 0
    assert "KT-014 invited" in capsys.readouterr().out


def taken(day: date, slot: int) -> Entry:
    at = datetime(day.year, day.month, day.day, 14 + 8 * slot, 0, tzinfo=UTC)
    return Entry(EntryKind.DOSE_TAKEN, at, f"v1:d:{day:%Y%m%d}:{slot}", {"taken_at": at.isoformat()})


def case_with(protocol: ClinicProtocol, entries: list[Entry]) -> Case:
    return Case(PatientRow("KT-014", PatientState.ACTIVE, 1), load_plan(FILE, protocol), Record(tuple(entries)))


def test_adherence_by_hand(protocol: ClinicProtocol) -> None:
    """Ten days of two doses: seven whole days, one half day, two empty ones. By hand: 15 of 20 doses, 7 of 10 days."""
    first = date(2026, 3, 2)
    entries = [taken(first + timedelta(days=day), slot) for day in range(7) for slot in (0, 1)]
    entries.append(taken(first + timedelta(days=7), 0))
    now = datetime(2026, 3, 12, 6, 0, tzinfo=UTC)                  # midnight in Denver, after the tenth day
    found = adherence(case_with(protocol, entries), now)
    assert (found.doses_taken, found.doses_due, found.days_covered, found.days_due) == (15, 20, 7, 10)
    assert found.covered == pytest.approx(0.7)


def test_doses_to_come_and_pauses_do_not_count(protocol: ClinicProtocol) -> None:
    morning = datetime(2026, 3, 2, 15, 0, tzinfo=UTC)              # 08:00 in Denver: one of two doses is due
    assert adherence(case_with(protocol, [taken(date(2026, 3, 2), 0)]), morning).doses_due == 1
    pause = Entry(EntryKind.PAUSED, datetime(2026, 3, 3, 7, 0, tzinfo=UTC), "", {"by": "x", "until": "2026-03-05"})
    joined = Entry(EntryKind.CONSENTED, datetime(2026, 3, 2, 7, 0, tzinfo=UTC), "", {})
    rows = list(days(case_with(protocol, [joined, pause]), datetime(2026, 3, 6, 6, 0, tzinfo=UTC)))
    assert [row.due for row in rows] == [2, 0, 0, 2]


def test_days_before_joining_do_not_count(protocol: ClinicProtocol) -> None:
    now = datetime(2026, 3, 6, 6, 0, tzinfo=UTC)
    assert adherence(case_with(protocol, []), now).covered is None
    joined = Entry(EntryKind.CONSENTED, datetime(2026, 3, 4, 18, 0, tzinfo=UTC), "", {})
    assert adherence(case_with(protocol, [joined]), now).days_due == 2


def test_an_answer_taken_back_does_not_count(protocol: ClinicProtocol) -> None:
    dose = taken(date(2026, 3, 2), 0)
    back = Entry(EntryKind.DOSE_CORRECTED, dose.at + timedelta(minutes=5), dose.about, {"reason": "mistake"})
    assert adherence(case_with(protocol, [dose, back]), dose.at + timedelta(hours=1)).doses_taken == 0


def test_answers_of_an_earlier_plan_version_count(protocol: ClinicProtocol) -> None:
    dose = taken(date(2026, 3, 2), 0)
    later = Entry(EntryKind.DOSE_TAKEN, dose.at, "v3:d:20260302:1", {"taken_at": dose.at.isoformat()})
    found = adherence(case_with(protocol, [dose, later]), datetime(2026, 3, 3, 6, 0, tzinfo=UTC))
    assert found.doses_taken == 2


@pytest.mark.parametrize(("scores", "word"), [([], "none"), ([3], "none"), ([3, 3], "level"), ([5, 4, 3, 2], "down"),
                                              ([1, 1, 1, 4], "up")])
def test_trend(scores: list[int], word: str) -> None:
    assert trend(scores) == word


def test_next_endoscopy_until_it_is_recorded(protocol: ClinicProtocol) -> None:
    case = case_with(protocol, [])
    assert next_endoscopy(case) == date(2026, 4, 27)
    done = Entry(EntryKind.ENDOSCOPY_DONE, datetime(2026, 4, 28, tzinfo=UTC), "", {"date": "2026-04-28"})
    assert next_endoscopy(case.after(Changes(entries=(done,)))) is None


def test_a_row_names_the_most_urgent_flag(protocol: ClinicProtocol) -> None:
    from bot.escalation import assess
    from bot.understanding.types import Reading

    now = datetime(2026, 3, 16, 16, 0, tzinfo=UTC)
    case = case_with(protocol, [])
    case = case.after(assess(case, Reading("stuck", findings=(Finding.IMPACTION_NOW,)), None, now, protocol))
    row = panel_row(case, now, protocol)
    assert (row["most_urgent_flag"], row["open_flags"], row["week"], row["phase"]) == ("emergency", 1, 3, "induction")


def test_every_condition_says_in_words_what_it_looks_for() -> None:
    from bot.escalation.conditions import CONDITIONS

    used = {name for rule in RULES for name in rule.when}
    assert used == CONDITIONS.keys()
    assert all(condition.__doc__ for condition in CONDITIONS.values())

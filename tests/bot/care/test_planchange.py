"""A plan change in the chat: prepared, compared, signed by a clinician; a nurse prepares; nothing changes unsigned."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from bot.care.planchange import editable, with_value
from bot.care.plancompare import differences
from bot.case import PatientState
from bot.commands.panel import panel_row
from bot.rehearsal.world import World
from scheduler.planfile import load_plan, read_plan
from scheduler.protocol import ClinicProtocol, load_protocol
from scheduler.record import EntryKind, Record

Make = Callable[[], Awaitable[World]]
FILE = Path(__file__).parents[3] / "fixtures" / "plans" / "ok" / "kt-014.toml"
TEXT = FILE.read_text(encoding="utf-8")
MORE = TEXT.replace('lasts = "8 weeks"\ndose = "1 mg"', 'lasts = "8 weeks"\ndose = "1.5 mg"')


@pytest.mark.parametrize("clinic", ["memory", "sqlite"], indirect=True)
async def test_a_plan_file_is_compared_and_signed(clinic: Make) -> None:
    world = await clinic()
    await world.sends_file("Ann", "kt-014.toml", MORE.encode())
    preview = world.last_care()
    assert "Draft 2 of a plan for KT-014, beside version 1 in force." in preview
    assert "phase induction: 56 days 1 mg (2) + 1 mg (2)" in preview and "→ 56 days 1.5 mg (3) + 1.5 mg (3)" in preview
    await world.taps("Ann", "Sign")
    assert "Not done. This needs: clinician." in world.last_care()
    assert (await world.case()).row.plan_version == 1
    await world.taps("Dr Lindqvist", "Sign")
    case = await world.case()
    assert case.row.plan_version == 3                    # 2 is what was prepared, 3 the same with the signature
    assert (case.plan.signed_by, case.plan.signed_on) == ("Dr Lindqvist", date(2026, 3, 30))
    assert case.record.of(EntryKind.PLAN_SIGNED)[-1].facts["by"] == "Dr Lindqvist (clinician)"
    assert "The care team has changed your plan" in "\n".join(world.maya_sees())
    assert [act for act in await world.acts() if "plan" in act[1]] == [
        ("Dr R. Okafor", "signed the plan"), ("Ann (nurse)", "prepared a plan"),
        ("Dr Lindqvist (clinician)", "signed the plan")]
    await world.wait(hours=16)
    assert any("evening dose (21:30): 1.5 mg" in text for text in world.maya_sees())
    await world.taps("Dr Lindqvist", "Sign")
    assert "Not signed: version 3 of KT-014 is in force by now" in world.last_care()


async def test_a_change_by_tap(clinic: Make) -> None:
    world = await clinic()
    await world.says("Dr Lindqvist", "/plan KT-014")
    await world.taps("Dr Lindqvist", "medicine: vehicle (sweetener)")
    await world.says("Dr Lindqvist", "honey")
    assert "vehicle: sweetener → honey" in world.last_care()
    await world.taps("Dr Lindqvist", "Sign")
    assert (await world.case()).plan.medicine.vehicle == "honey"


@pytest.mark.parametrize(("content", "says"), [
    (b"\xff\xfe broken", "could not be read"),
    (b"", "could not be read"),
    (b"not a plan", "cannot be used. Nothing was changed."),
    (TEXT.replace('dose = "1 mg"', 'dose = "1 g"', 1).encode(), "cannot be used. Nothing was changed."),
    (TEXT.replace("KT-014", "ZZ-999").encode(), "The plan names ZZ-999"),
    (TEXT.encode(), "says the same already"),
])
async def test_files_that_change_nothing(clinic: Make, content: bytes, says: str) -> None:
    world = await clinic()
    await world.sends_file("Dr Lindqvist", "plan.toml", content)
    assert says in world.last_care()
    async with world.store.work() as work:
        assert len(await work.plans("KT-014")) == 1


async def test_a_wrong_value_changes_nothing(clinic: Make) -> None:
    world = await clinic()
    await world.says("Dr Lindqvist", "/plan KT-014")
    await world.taps("Dr Lindqvist", "induction: times per day (2)")
    await world.says("Dr Lindqvist", "twice")
    assert "That value does not fit there" in world.last_care()


async def test_a_patients_document_is_no_plan(clinic: Make) -> None:
    world = await clinic()
    await world.sends_file("KT-014", "plan.toml", MORE.encode())
    assert (await world.case()).row.plan_version == 1
    assert not any("Draft" in text for text in world.care_shows())


@pytest.mark.parametrize(("path", "typed", "line"), [
    ("phase.0.dose", "1.5 mg", "phase induction"),
    ("phase.0.starts", "2026-03-09", "phase induction"),
    ("phase.2.times_per_day", "1", "phase maintenance"),
    ("patient.meals", "08:00, 13:00, 19:00", "meals: 07:15, 12:30, 18:45 → 08:00, 13:00, 19:00"),
    ("check_in.day", "Monday", "check-in: weekday 7, 18:00 → weekday 1, 18:00"),
])
def test_one_value_at_a_time(path: str, typed: str, line: str, protocol: ClinicProtocol) -> None:
    old = load_plan(FILE, protocol)
    assert path in [place for place, _, _ in editable(old)]
    new = read_plan(with_value(old.text, path, typed), "changed", protocol)
    assert line in "\n".join(differences(old, new))
    assert new.text.count("#") == old.text.count("#"), "the clinic's comments stay"


def test_no_difference(protocol: ClinicProtocol) -> None:
    plan = load_plan(FILE, protocol)
    assert differences(plan, plan) == []


async def test_the_preview_says_what_signing_would_do(clinic: Make) -> None:
    """Joined on 30 March at 07:00; shown at 07:00, before any dose: 60 ampoules at 6 a day are 10 days, to 8 April, and
    at 4 a day 15 days, to 13 April. The supply's lead is 10 days: so it is needed now."""
    world = await clinic()
    await world.sends_file("Dr Lindqvist", "kt-014.toml", MORE.encode())
    preview = world.last_care()
    assert ("dose in force: 1 mg (2) + 1 mg (2) → 1.5 mg (3) + 1.5 mg (3) from 2026-03-30, 07:45; the day 2 mg → 3 mg "
            "(+50 %)") in preview
    assert "first day without medicine: 2026-04-14 → 2026-04-09 (in 10 days: more is needed now)" in preview


async def test_the_preview_of_a_change_of_the_day_alone(clinic: Make) -> None:
    world = await clinic()
    await world.sends_file("Ann", "kt-014.toml", TEXT.replace('time = "18:00"', 'time = "19:00"').encode())
    assert "dose in force: stays as it is for now" in world.last_care()
    assert "first day without medicine: 2026-04-14 → 2026-04-14" in world.last_care()


async def test_a_plan_without_a_dose_to_come(clinic: Make) -> None:
    """A course of four weeks from 2 March is over on 30 March: shown so, and 'the same dose' is not told."""
    world = await clinic()
    over = TEXT.split("[[phase]]")
    short = over[0] + "[[phase]]" + over[1].replace('lasts = "8 weeks"', 'lasts = "4 weeks"') + "[check_in]" + (
        TEXT.split("[check_in]")[1])
    await world.sends_file("Dr Lindqvist", "kt-014.toml", short.encode())
    assert "dose in force: none in the coming week" in world.last_care()
    await world.taps("Dr Lindqvist", "Sign")
    assert "For now there is no dose that I remind you of" in "\n".join(world.maya_sees())


async def test_the_panel_of_a_patient_who_has_not_joined(clinic: Make) -> None:
    """On 20 November nobody has taken anything: 60 ampoules at 4 a day (the taper waits for its gate) are 15 days."""
    case = await (await clinic()).case()
    waiting = replace(case, row=replace(case.row, state=PatientState.INVITED), record=Record())
    row = panel_row(waiting, datetime(2026, 11, 20, 16, tzinfo=UTC), load_protocol())
    assert (row["week"], row["first_day_without_medicine"]) == (None, "2026-12-05")

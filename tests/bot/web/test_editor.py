"""The plan editor: what is typed becomes a plan file, read by the program's own reader; problems stand at fields."""

from __future__ import annotations

import tomllib

import pytest

from bot.case import Case, PatientRow, PatientState
from bot.rehearsal.demo import DEMOS, demo_plan
from bot.web.editor import changed_text, groups_of, preview
from scheduler.localtime import instant
from scheduler.planfile import read_plan


def case_of(name, protocol) -> Case:
    plan = demo_plan(name, protocol)
    return Case(PatientRow(plan.patient.reference, PatientState.ACTIVE, 1), plan)


def fields(preview_):
    return {one.path: one for group in preview_.groups for one in group.fields}


def at_noon(case):
    first = case.plan.phases[0].starts
    return instant(first, case.plan.dose_times[0], case.plan.patient.time_zone)


@pytest.mark.parametrize("name", DEMOS)
def test_nothing_typed_changes_nothing(protocol, name):
    case = case_of(name, protocol)
    same = {one.path: one.value for group in groups_of(case.plan) for one in group.fields}
    assert read_plan(changed_text(case.plan, same), "same", protocol).phases == case.plan.phases
    found = preview(case, same, at_noon(case), protocol)
    assert found.is_good and found.changes == () and found.problems == ()


def test_dose_vehicle_times_and_taper_change_the_plan(protocol):
    case = case_of("adult_slurry", protocol)
    typed = {"phase[1].dose": "1.5 mg", "medicine.vehicle": "honey", "medicine.dose_times": "07:50, 21:40",
             "phase[2].to": "1 mg"}
    found = preview(case, typed, at_noon(case), protocol)
    assert found.is_good, found
    assert found.times == "07:50, 21:40" and found.recipe.startswith("1.5 mg: 3 ampoules with")
    assert any("vehicle: sweetener → honey" in change for change in found.changes)
    assert any("phase induction" in change for change in found.changes)
    assert any("Honey" in text for text, _ in found.cautions)
    assert found.strip is not None and found.strip.doses[0].label == "3 mg"


@pytest.mark.parametrize(("path", "value", "says"), [
    ("phase[1].dose", "0.7 mg", "no whole number of ampoules"),
    ("phase[1].dose", "1", "write it like"),
    ("phase[1].dose", "", "missing"),
    ("phase[1].dose", "50 mg", ""),
    ("phase[1].times_per_day", "two", "whole number"),
    ("phase[2].lasts", "soon", "span"),
    ("medicine.dose_times", "7:50, 21:40", ""),
    ("medicine.dose_times", "07:50", "names 1 time"),
    ("medicine.packs_on_hand", "many", "whole number"),
])
def test_a_problem_stands_at_its_field(protocol, path, value, says):
    case = case_of("adult_slurry", protocol)
    found = preview(case, {path: value}, at_noon(case), protocol)
    assert not found.is_good and found.strip is None
    shown = fields(found)[path]
    assert shown.value == value
    assert any(says in problem for problem in shown.problems), (shown.problems, found.problems)


def test_only_fields_of_the_editor_are_taken(protocol):
    case = case_of("adult_slurry", protocol)
    text = changed_text(case.plan, {"patient.reference": "XX-1", "signed.by": "me", "phase[9].dose": "1 mg", "x": "y"})
    assert tomllib.loads(text) == tomllib.loads(case.plan.text)


def test_season_and_steps_can_be_edited(protocol):
    case = case_of("teen_inhaler", protocol)
    paths = {one.path for group in groups_of(case.plan) for one in group.fields}
    assert {"season[1].dose", "season[1].from", "season[1].until", "season[1].lead"} <= paths
    found = preview(case, {"season[1].from": "04-20"}, at_noon(case), protocol)
    assert found.is_good and any("season" in change for change in found.changes)

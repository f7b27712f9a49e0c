"""Plan files: the good ones are read as written, each broken one is refused with the words that its own comments ask
for."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, time
from decimal import Decimal
from pathlib import Path

import pytest

from scheduler.amounts import Amount
from scheduler.errors import WrongInput
from scheduler.plan import Plan
from scheduler.planfile import load_plan, read_plan
from scheduler.protocol import ClinicProtocol

PLANS = Path(__file__).parents[2] / "fixtures" / "plans"
BROKEN = sorted((PLANS / "broken").glob("*.toml"))


def wanted(path: Path) -> list[str]:
    lines = path.read_bytes().decode("latin-1").splitlines()
    return [line.removeprefix("# must say: ") for line in lines if line.startswith("# must say: ")]


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_a_broken_plan_is_refused_in_its_own_words(path: Path, protocol: ClinicProtocol) -> None:
    with pytest.raises(WrongInput) as refused:
        load_plan(path, protocol)
    told = [str(problem) for problem in refused.value.problems]
    for words in wanted(path):
        assert any(words in line for line in told), (words, told)
    assert wanted(path)


@pytest.mark.parametrize(
    "path", [path for path in BROKEN if path.stem not in ("empty", "no-phase")], ids=lambda path: path.stem
)
def test_one_mistake_makes_no_crowd_of_problems(path: Path, protocol: ClinicProtocol) -> None:
    """A clinician who made one mistake reads about that mistake (and at most one that follows from it)."""
    with pytest.raises(WrongInput) as refused:
        load_plan(path, protocol)
    assert len(refused.value.problems) <= 2, [str(problem) for problem in refused.value.problems]


@pytest.mark.parametrize("path", sorted((PLANS / "ok").glob("*.toml")), ids=lambda path: path.stem)
def test_every_good_plan_is_read(path: Path, protocol: ClinicProtocol) -> None:
    assert load_plan(path, protocol).text == path.read_text(encoding="utf-8")


def test_the_plan_is_what_the_file_says(ok_plan: Callable[[str], Plan]) -> None:
    plan = ok_plan("kt-014")
    assert (plan.patient.reference, plan.patient.call_me, plan.patient.height_cm) == ("KT-014", "Maya", 168)
    assert plan.patient.meals == (time(7, 15), time(12, 30), time(18, 45))
    assert plan.medicine.unit_amount == Amount(Decimal(500)) and plan.medicine.unit_ml == 2
    assert [phase.name for phase in plan.phases] == ["induction", "taper", "maintenance"]
    assert plan.phases[0].starts == date(2026, 3, 2)
    assert [step.days for step in plan.phases[0].steps] == [56]
    assert [dose.units for dose in plan.phases[0].steps[0].doses] == [2, 2]
    assert [(step.days, [dose.units for dose in step.doses]) for step in plan.phases[1].steps] == [
        (28, [1, 2]),
        (28, [1, 1]),
    ]
    assert plan.phases[2].steps[0].days is None
    assert plan.seasons[0].begins == (4, 10) and plan.seasons[0].lead_days == 21
    assert (plan.check_in.weekday, plan.check_in.at) == (6, time(18))
    assert plan.endoscopy_after_days == 56
    assert plan.dose_times == (time(7, 45), time(21, 30))


def test_every_problem_is_named_at_once(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    text = ok_plan("kt-014").text
    for old, new in (("America/Denver", "Nowhere/Else"), ('dose = "1 mg"', 'dose = "1 kg"'), ('"Sunday"', '"Someday"')):
        text = text.replace(old, new, 1)
    with pytest.raises(WrongInput) as refused:
        read_plan(text, "three mistakes", protocol)
    assert {problem.field for problem in refused.value.problems} == {
        "patient.time_zone",
        "phase[1].dose",
        "check_in.day",
    }


def test_steps_written_by_hand(changed: Callable[..., Plan]) -> None:
    rows = """
[[phase.step]]
lasts = "3 weeks"
morning = "0.5 mg"
evening = "1 mg"

[[phase.step]]
lasts = "5 weeks"
evening = "1 mg"
"""
    plan = changed("kt-014", ('to = "0.5 mg"                 # or [[phase.step]] rows of its own', rows))
    assert [(step.days, [dose.units for dose in step.doses]) for step in plan.phases[1].steps] == [
        (21, [1, 2]),
        (35, [2]),
    ]


def test_a_taper_to_once_a_day_keeps_the_bedtime_dose(changed: Callable[..., Plan]) -> None:
    plan = changed("kt-014", ('to = "0.5 mg"', 'to = "1 mg"\ntimes_per_day = 1'))
    assert [[dose.units for dose in step.doses] for step in plan.phases[1].steps] == [[1, 2], [2]]


def test_doses_are_shown_in_the_unit_of_the_label(changed: Callable[..., Plan]) -> None:
    plan = changed("kt-014", ('dose = "1 mg"', 'dose = "1000 microgram"'))
    assert str(plan.phases[0].steps[0].doses[0].amount) == "1 mg"


def test_a_byte_order_mark_does_no_harm(
    tmp_path: Path, ok_plan: Callable[[str], Plan], protocol: ClinicProtocol
) -> None:
    path = tmp_path / "plan.toml"
    path.write_text(ok_plan("kt-014").text, encoding="utf-8-sig")
    assert load_plan(path, protocol) == ok_plan("kt-014")


def test_a_folder_is_no_plan(tmp_path: Path, protocol: ClinicProtocol) -> None:
    with pytest.raises(WrongInput, match="cannot be read"):
        load_plan(tmp_path, protocol)


def test_a_huge_file_is_refused_unread(tmp_path: Path, protocol: ClinicProtocol) -> None:
    path = tmp_path / "plan.toml"
    path.write_text("# " + "x" * 2_000_000, encoding="utf-8")
    with pytest.raises(WrongInput, match="this is no plan file"):
        load_plan(path, protocol)

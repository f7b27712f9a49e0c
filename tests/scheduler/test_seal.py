"""A signed plan keeps what was computed when it was signed, whatever the protocol says later."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import time
from pathlib import Path

import pytest

from scheduler.plan import Plan
from scheduler.planfile import read_plan
from scheduler.protocol import ClinicProtocol, read_protocol
from scheduler.seal import MARK, read_seal, sealed, without_seal

EXAMPLE = Path(__file__).parents[2] / "scheduler" / "protocol_example.toml"


@pytest.fixture
def later() -> ClinicProtocol:
    """The clinic's next protocol: longer steps, doses further from sleep."""
    text = EXAMPLE.read_text(encoding="utf-8")
    for old, new in (
        ("shortest_step = { value = 14,", "shortest_step = { value = 40,"),
        ("before_sleep = { value = 60,", "before_sleep = { value = 90,"),
    ):
        assert old in text
        text = text.replace(old, new)
    return read_protocol(text, "later")


def steps(plan: Plan) -> list[tuple[int | None, list[int]]]:
    return [(step.days, [dose.units for dose in step.doses]) for step in plan.phases[1].steps]


def test_a_later_protocol_changes_nothing_that_is_signed(ok_plan: Callable[[str], Plan], later: ClinicProtocol) -> None:
    plan = ok_plan("kt-014")
    anew = read_plan(plan.text, "plan", later)
    assert steps(anew) == [(56, [1, 1])] and anew.dose_times == (time(7, 45), time(21, 0))
    kept = read_plan(sealed(plan).text, "plan", later, stored=True)
    assert replace(kept, text="") == replace(plan, text="")


def test_a_seal_in_a_file_from_outside_is_only_a_comment(
    ok_plan: Callable[[str], Plan], protocol: ClinicProtocol, later: ClinicProtocol
) -> None:
    plan = sealed(ok_plan("kt-014"))
    assert replace(read_plan(plan.text, "plan", protocol), text="") == replace(plan, text="")
    assert steps(read_plan(plan.text, "plan", later)) == [(56, [1, 1])]


def test_a_text_that_was_changed_is_computed_anew(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    text = sealed(ok_plan("kt-014")).text.replace('to = "0.5 mg"', 'to = "1 mg"\ntimes_per_day = 1')
    assert read_seal(text) is None
    assert steps(read_plan(text, "plan", protocol, stored=True)) == [(28, [1, 2]), (28, [2])]


def test_sealing_twice_is_sealing_once(ok_plan: Callable[[str], Plan]) -> None:
    plan = sealed(ok_plan("fl-207"))
    assert sealed(plan) == plan and plan.text.count(MARK) == 1
    assert without_seal(plan.text) == ok_plan("fl-207").text


@pytest.mark.parametrize(
    "damage",
    [
        "",
        "0" * 32 + " {}",
        "{digest} {",
        "{digest} []",
        '{digest} {"dose_times":["25:00"],"phases":[]}',
        '{digest} {"dose_times":[],"phases":[[1]]}',
    ],
)
def test_a_damaged_seal_is_none(damage: str, ok_plan: Callable[[str], Plan]) -> None:
    text = ok_plan("kt-014").text
    digest = sealed(ok_plan("kt-014")).text.rpartition(MARK)[2].split()[0]
    assert read_seal(f"{text}{MARK}{damage.replace('{digest}', digest)}\n") is None

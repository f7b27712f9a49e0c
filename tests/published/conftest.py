"""Published checks: values from outside, each named with its source beside the check."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest

from scheduler.plan import Plan
from scheduler.planfile import read_plan
from scheduler.protocol import ClinicProtocol, load_protocol
from scheduler.record import Record
from scheduler.supply import Supplies, usage

START = date(2026, 3, 2)


@pytest.fixture(scope="session")
def protocol() -> ClinicProtocol:
    return load_protocol()


def plan_text(
    strength: str,
    phases: str,
    age: int = 40,
    height: int = 170,
    per_pack: int = 30,
    zone: str = "UTC",
    more: str = "",
    starts: date = START,
    wakes: str = "06:45",
    vehicle: str = "sweetener",
) -> str:
    """A plan file for a regimen; `phases` are its [[phase]] rows, where {starts} stands for the first day."""
    ampoule = "mL" in strength
    form = (
        f'name = "budesonide"\nform = "ampoule"\nvehicle = "{vehicle}"'
        if ampoule
        else ('name = "fluticasone"\nform = "inhaler"')
    )
    return f"""schema = 1
[patient]
reference = "PB-001"
call_me = "Sam"
age_years = {age}
height_cm = {height}
time_zone = "{zone}"
language = "en"
wakes = "{wakes}"
sleeps = "22:30"
meals = ["07:15", "12:30", "18:45"]
[medicine]
{form}
strength = "{strength}"
units_per_pack = {per_pack if ampoule else 120}
packs_on_hand = 1
{phases.replace("{starts}", starts.isoformat())}
{more}
[check_in]
day = "Sunday"
time = "18:00"
[signed]
by = "Dr R. Okafor"
on = 2026-02-27
"""


@pytest.fixture(scope="session")
def regimen(protocol: ClinicProtocol) -> Callable[..., Plan]:
    """A plan for a published regimen, read through the plan file like any other."""
    return lambda strength, phases, **others: read_plan(plan_text(strength, phases, **others), "regimen", protocol)


@pytest.fixture(scope="session")
def uses(protocol: ClinicProtocol) -> Callable[[Plan], Supplies]:
    return lambda plan: usage(plan, Record(), protocol, START)

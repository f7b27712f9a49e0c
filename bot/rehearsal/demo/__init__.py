"""Invented patients that ship with the program, for trials."""

from __future__ import annotations

from importlib import resources
from pathlib import Path

from bot.rehearsal.scenario import Scenario, load_scenario
from scheduler.plan import Plan
from scheduler.planfile import read_plan
from scheduler.protocol import ClinicProtocol

DEMOS = ("adult_slurry", "teen_inhaler", "adult_maintenance")


def demo_plan(name: str, protocol: ClinicProtocol) -> Plan:
    """One of DEMOS."""
    text = resources.files("bot.rehearsal.demo").joinpath(f"{name}.toml").read_text(encoding="utf-8")
    return read_plan(text, f"the invented patient {name}", protocol)


def demo_history(name: str) -> Scenario | None:
    """What the real agent plays before the trial opens, so that there is a record; None for a patient who begins."""
    path = Path(str(resources.files("bot.rehearsal.demo").joinpath(f"{name}.history.toml")))
    return load_scenario(path) if path.exists() else None

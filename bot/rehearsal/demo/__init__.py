"""Invented patients that ship with the program, for trials."""

from __future__ import annotations

from importlib import resources

from scheduler.plan import Plan
from scheduler.planfile import read_plan
from scheduler.protocol import ClinicProtocol

DEMOS = ("adult_slurry", "teen_inhaler", "adult_maintenance")


def demo_plan(name: str, protocol: ClinicProtocol) -> Plan:
    """One of DEMOS."""
    text = resources.files("bot.rehearsal.demo").joinpath(f"{name}.toml").read_text(encoding="utf-8")
    return read_plan(text, f"the invented patient {name}", protocol)

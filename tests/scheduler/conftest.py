"""What the tests of this package share: the example protocol and plans read from the fixtures."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from scheduler.plan import Plan
from scheduler.planfile import load_plan, read_plan
from scheduler.protocol import ClinicProtocol, load_protocol

PLANS = Path(__file__).parents[2] / "fixtures" / "plans"


@pytest.fixture(scope="session")
def protocol() -> ClinicProtocol:
    return load_protocol()


@pytest.fixture(scope="session")
def ok_plan(protocol: ClinicProtocol) -> Callable[[str], Plan]:
    """A plan of fixtures/plans/ok by its file's name."""
    return lambda name: load_plan(PLANS / "ok" / f"{name}.toml", protocol)


@pytest.fixture(scope="session")
def changed(protocol: ClinicProtocol) -> Callable[..., Plan]:
    """A plan of fixtures/plans/ok with pieces of its text replaced, each of which must be there."""

    def make(name: str, *changes: tuple[str, str]) -> Plan:
        text = (PLANS / "ok" / f"{name}.toml").read_text(encoding="utf-8")
        for old, new in changes:
            assert old in text, old
            text = text.replace(old, new, 1)
        return read_plan(text, name, protocol)

    return make

"""The chart."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from bot.case import Case
from scheduler.protocol import ClinicProtocol


def chart_facts(case: Case, now: datetime, protocol: ClinicProtocol) -> dict[str, Any]:
    """JSON facts."""
    raise NotImplementedError


def draw(facts: Mapping[str, Any]) -> bytes:
    """PNG."""
    raise NotImplementedError

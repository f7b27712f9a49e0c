"""An occasion: something the plan says happens at an instant. The timeline makes them, the tick makes messages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum
from typing import Any

from scheduler.plan import Dose


class OccasionKind(StrEnum):
    """Kinds of occasion. WINDOW_END and RINSE hang on a confirmed dose; printed timelines show them as if confirmed."""

    DOSE = "dose"
    WINDOW_END = "window_end"
    RINSE = "rinse"
    STEP_NOTICE = "step_notice"      # the day before a step
    STEP_CHANGE = "step_change"      # the day of a step
    GATE_WAITING = "gate_waiting"    # a gated phase could start and waits for the care team
    CHECK_IN = "check_in"
    SUPPLY_LOW = "supply_low"
    ENDOSCOPY_DUE = "endoscopy_due"
    SEASON_START = "season_start"
    SEASON_END = "season_end"
    MILESTONE = "milestone"          # weeks 1, 4, 8 ... of the course: a summary to the care team


@dataclass(frozen=True, slots=True)
class Occasion:
    """`at` is an aware UTC instant, `day` the patient's local date it belongs to, `key` names it within a plan version.

    phase/step (0-based within the phase) say which dose is in force; `slot` counts the doses of the day from 0.
    """

    kind: OccasionKind
    at: datetime
    day: date
    key: str
    phase: str
    step: int
    slot: int | None = None
    dose: Dose | None = None
    facts: Mapping[str, Any] = field(default_factory=dict)

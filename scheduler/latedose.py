"""Until when a dose may be taken late."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from scheduler.plan import Plan, dose_in_force, dose_instant, first_dose_at, times_for
from scheduler.protocol import ClinicProtocol
from scheduler.record import Record


def closes_at(plan: Plan, record: Record, protocol: ClinicProtocol, day: date, slot: int, due: datetime) -> datetime:
    """The instant from which the dose due at `due` is no longer taken: the protocol's limit before the next dose.

    Half the interval when doses are so frequent that the limit would leave less than that.
    """
    follows = next_dose_at(plan, record, day, slot)
    return follows - min(protocol.span("dose.late_limit_before_next"), (follows - due) / 2)


def next_dose_at(plan: Plan, record: Record, day: date, slot: int) -> datetime:
    """The instant of the dose after the one in `slot` of the patient's `day`, as the plan and record stand."""
    today = dose_in_force(plan, record, day)
    count = len(today.doses) if today else 1
    if slot + 1 < count:
        return dose_instant(plan, day, times_for(plan, count)[slot + 1])
    tomorrow = dose_in_force(plan, record, day + timedelta(days=1))
    return first_dose_at(plan, day + timedelta(days=1), len(tomorrow.doses) if tomorrow else count)

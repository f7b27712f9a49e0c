"""The course as it is taken: stretches of days with the same doses, seasons and waiting gates included."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

from scheduler.amounts import Amount, total
from scheduler.plan import Dose, Plan, dose_in_force
from scheduler.record import Record


@dataclass(frozen=True, slots=True)
class Stretch:
    """Days from `begins` to `ends` (both included) of one phase with the same doses. `why` as InForce.reason.

    ends: None when nothing changes up to the day until which was looked. gate: the gate waited for on the last day,
    or None.
    """

    begins: date
    ends: date | None
    doses: tuple[Dose, ...]
    phase: str
    why: str
    gate: str | None

    @property
    def daily(self) -> Amount:
        return total([dose.amount for dose in self.doses])


def stretches(plan: Plan, record: Record, until: date) -> list[Stretch]:
    """Every stretch from the plan's start up to `until`; a new one where phase, reason or doses change."""
    start = plan.phases[0].starts
    assert start is not None
    found: list[Stretch] = []
    begins = day = start
    now = dose_in_force(plan, record, day)
    while now is not None:
        after = dose_in_force(plan, record, day + timedelta(days=1)) if day < until else None
        same = after is not None and (after.phase_index, after.reason, after.doses) == (
            now.phase_index,
            now.reason,
            now.doses,
        )
        if not same:
            ends = None if day >= until else day
            found.append(Stretch(begins, ends, now.doses, now.phase.name, now.reason, now.waiting_gate))
            begins = day + timedelta(days=1)
        now, day = after, day + timedelta(days=1)
    return found


def merged(parts: list[Stretch]) -> list[Stretch]:
    """Neighbours with the same doses as one: what matters to the one who takes them."""
    found: list[Stretch] = []
    for part in parts:
        if found and found[-1].doses == part.doses:
            found[-1] = replace(found[-1], ends=part.ends, gate=part.gate)
        else:
            found.append(part)
    return found

"""What the patient has last been told to take, as a changed plan comes into force. Pure.

It is kept with the signature, since the plan that told it is then no longer the plan in force: the timeline of the
changed plan announces its first dose when it is another one (`days.py`).
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

from scheduler.days import Days
from scheduler.localtime import local
from scheduler.occasions import Occasion, OccasionKind
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol
from scheduler.record import Record
from scheduler.supply import runs_out
from scheduler.timeline import occasions

STEPS = (OccasionKind.STEP_NOTICE, OccasionKind.STEP_CHANGE)
ANSWERABLE = timedelta(hours=24)     # how long 'I understand' of a step is waited for


def last_told(plan: Plan, record: Record, protocol: ClinicProtocol, version: int, now: datetime) -> dict[str, Any]:
    """The facts of a signature, JSON values, as the plan before stands at `now`.

    before: the doses of a day as last asked for (or, when none was, as they would come), each as amount, units, unit.
    daily_before: their sum. announced: the doses of a step that was told and has not begun, else null. understood:
    False when the step of the last day has not been confirmed. first_day_without: when the supply would have run out
    (ISO date or null).
    """
    days = Days(plan, record, protocol, version, now, now)
    asked, before, daily = days.asked_until(now)
    steps = told_steps(plan, record, protocol, version, now)
    today = local(now, plan.patient.time_zone).date()
    without = runs_out(plan, record, protocol, today, version, confirmed=False).first_day_without
    ahead = [one for one in steps if asked is None or date.fromisoformat(one.facts["from"]) > asked]
    return {"before": before, "daily_before": daily,
            "announced": ahead[-1].facts["doses"] if ahead else None,
            "understood": not steps or record.step_understood(steps[-1].key),
            "first_day_without": without.isoformat() if without else None}


def told_steps(plan: Plan, record: Record, protocol: ClinicProtocol, version: int, now: datetime) -> list[Occasion]:
    """The step messages of the last day, in order."""
    since = max(now - ANSWERABLE, record.joined or now - ANSWERABLE)
    return [one for one in occasions(plan, record, protocol, since, now, version=version, supply=False)
            if one.kind in STEPS]

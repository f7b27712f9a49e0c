"""Plans as they are stored, the signed text and the dose times placed at the signing, and read again."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import time
from typing import Any

from scheduler.plan import Plan

ReadPlan = Callable[[str], Plan]


def plan_facts(plan: Plan) -> dict[str, Any]:
    """What is stored beside the text: the dose times as they were placed when the plan was signed."""
    return {"dose_times": [at.isoformat() for at in plan.dose_times]}


class PlanCache:
    """Plans read from their stored text, the last few thousand kept: reading one costs some hundred times more.

    Dose times stay those of the signing, whatever a later version of the program or of the protocol would place.
    """

    def __init__(self, read: ReadPlan, size: int = 2000) -> None:
        self._read = read
        self._size = size
        self._plans: OrderedDict[tuple[str, tuple[str, ...]], Plan] = OrderedDict()

    def plan(self, text: str, facts: Mapping[str, Any]) -> Plan:
        """The plan that this text says. Raises SchedulerError when it cannot be read any more."""
        times = tuple(facts.get("dose_times", ()))
        plan = self._plans.get((text, times))
        if plan is None:
            plan = self._read(text)
            if times:
                plan = replace(plan, dose_times=tuple(time.fromisoformat(at) for at in times))
            self._plans[text, times] = plan
            if len(self._plans) > self._size:
                self._plans.popitem(last=False)
        else:
            self._plans.move_to_end((text, times))
        return plan

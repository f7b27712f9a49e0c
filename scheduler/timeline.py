"""The plan and the record turned into occasions, in order and lazily. Pure: the same input, the same occasions.

Which occasions there are, and when (local wall-clock times, through localtime):
- dose: at the day's dose times, except while paused;
- step_notice, step_change: whenever the doses of a day differ from those of the day before it (a step, a phase, a
  season that begins or ends, a pause that is over); the notice comes the day before at `step.notice_time`, or at once
  when a release comes later than that; the change comes `step.change_before` before the day's first dose;
  facts['reason'] says why;
- gate_waiting, endoscopy_due, milestone: for the care team, at `care.notice_time`;
- check_in: at the plan's day and time, except while paused;
- supply_low: `supply.lead` days before the first day without medicine, and again `supply.remind_again` days before it;
- season_start, season_end: on the first day of the season (its lead included) and on the day after its last.

Windows and rinses hang on confirmed doses and are not made here.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator
from datetime import datetime, time, timedelta

from scheduler.days import ONE, Days
from scheduler.latedose import closes_at
from scheduler.localtime import instant, local
from scheduler.occasions import Occasion, OccasionKind
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol
from scheduler.record import Record

LOOK_AHEAD = 3660  # days that next_occasion looks through
_ORDER = {
    kind: number
    for number, kind in enumerate(
        (
            OccasionKind.SEASON_START,
            OccasionKind.SEASON_END,
            OccasionKind.STEP_NOTICE,
            OccasionKind.STEP_CHANGE,
            OccasionKind.DOSE,
            OccasionKind.WINDOW_END,
            OccasionKind.RINSE,
            OccasionKind.CHECK_IN,
            OccasionKind.SUPPLY_LOW,
            OccasionKind.GATE_WAITING,
            OccasionKind.ENDOSCOPY_DUE,
            OccasionKind.MILESTONE,
        )
    )
}


def occasions(
    plan: Plan, record: Record, protocol: ClinicProtocol, after: datetime, until: datetime,
    version: int = 1, doses_only: bool = False, supply: bool = True
) -> Iterator[Occasion]:
    """Every occasion (or dose) with after < at <= until (aware instants), in order. Lazy: no day before its time.

    supply False: without SUPPLY_LOW, which is dear to find.
    """
    if after.tzinfo is None or until.tzinfo is None:
        raise ValueError("after and until must be aware instants")
    zone = plan.patient.time_zone
    start = plan.phases[0].starts
    assert start is not None
    days = Days(plan, record, protocol, version, after, until)
    day = max(local(after, zone).date() - 2 * ONE, start - 2 * ONE)
    last = local(until, zone).date() + ONE
    waiting: list[tuple[datetime, int, str, Occasion]] = []
    while day <= last and not days.over(day):
        for one in days.doses_on(day) if doses_only else days.on(day, supply):
            if after < one.at <= until:
                heapq.heappush(waiting, (one.at, _ORDER[one.kind], one.key, one))
        day += ONE
        border = instant(day, time(0), zone) - ONE  # nothing of a later day is due before this
        while waiting and waiting[0][0] < border:
            yield heapq.heappop(waiting)[3]
    while waiting:
        yield heapq.heappop(waiting)[3]


def next_occasion(
    plan: Plan, record: Record, protocol: ClinicProtocol, after: datetime, version: int = 1
) -> Occasion | None:
    """The first occasion after `after`, or None when the course has no more."""
    start = plan.phases[0].starts
    assert start is not None
    begin = max(after, instant(start, time(0), plan.patient.time_zone) - 3 * ONE)
    return next(occasions(plan, record, protocol, after, begin + timedelta(days=LOOK_AHEAD), version), None)


def next_look(
    plan: Plan, record: Record, protocol: ClinicProtocol, after: datetime, version: int = 1
) -> datetime | None:
    """When to look at the timeline again: never later than the next occasion, None when the course has no more.

    Counting the supply is the dearest thing in a timeline, so it is not counted here; once a day, at the hour at which
    the patient would be told of it, is looked at instead.
    """
    start = plan.phases[0].starts
    assert start is not None
    zone = plan.patient.time_zone
    begin = max(after, instant(start, time(0), zone) - 3 * ONE)
    found = next(
        occasions(plan, record, protocol, after, begin + timedelta(days=LOOK_AHEAD), version, supply=False), None
    )
    if found is None:
        return None
    today = local(after, zone).date()
    tellings = (instant(day, protocol.clock_time("step.notice_time"), zone) for day in (today, today + ONE))
    return min(found.at, next(at for at in tellings if at > after))


def dose_close(plan: Plan, record: Record, occasion: Occasion, protocol: ClinicProtocol) -> datetime:
    """The instant from which that dose may no longer be taken late: the protocol's limit before the next dose.

    Half the interval when doses are so frequent that the limit would leave less than that.
    """
    if occasion.kind is not OccasionKind.DOSE or occasion.slot is None:
        raise ValueError(f"{occasion.key} is not a dose")
    return closes_at(plan, record, protocol, occasion.day, occasion.slot, occasion.at)

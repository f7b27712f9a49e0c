"""Occasions against recurring-ical-events, an independent reader of RFC 5545 recurrences.

Dose times in these plans lie outside the hour that is skipped: RFC 5545 reads a skipped local time by the offset
before the
change, this program moves it to the first instant that exists (scheduler/localtime.py); that policy has tests of its
own.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

import icalendar
import pytest
import recurring_ical_events

from scheduler.occasions import Occasion, OccasionKind
from scheduler.plan import Plan, dose_in_force
from scheduler.protocol import ClinicProtocol
from scheduler.record import Record
from scheduler.timeline import occasions

ZONES = ["America/Denver", "Europe/Madrid", "Pacific/Auckland"]
STARTS = [date(2026, 2, 16), date(2026, 9, 7)]  # twelve weeks over the spring and over the autumn change of each zone
TWELVE = """[[phase]]
name = "induction"
starts = {starts}
lasts = "12 weeks"
dose = "1 mg"
times_per_day = 2
"""
STEPS = """[[phase]]
name = "induction"
starts = {starts}
lasts = "8 weeks"
dose = "1 mg"
times_per_day = 2
[[phase]]
name = "taper"
lasts = "61 days"
to = "0.5 mg"
[[phase]]
name = "maintenance"
lasts = "700 days"
dose = "0.5 mg"
times_per_day = 2
"""


def calendar(*events: str) -> icalendar.Calendar:
    body = "\r\n".join(
        f"BEGIN:VEVENT\r\nUID:{number}@example\r\nDTSTAMP:20260101T000000Z\r\n{event}\r\nEND:VEVENT"
        for number, event in enumerate(events)
    )
    return icalendar.Calendar.from_ical(
        f"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//example//EN\r\n{body}\r\nEND:VCALENDAR\r\n"
    )


def instants(events: icalendar.Calendar, start: date, end: date) -> list[datetime]:
    found = recurring_ical_events.of(events).between(start, end)
    return sorted(one["DTSTART"].dt.astimezone(UTC) for one in found)


def ours(plan: Plan, protocol: ClinicProtocol, *kinds: OccasionKind) -> list[Occasion]:
    found = occasions(plan, Record(), protocol, datetime(2025, 1, 1, tzinfo=UTC), datetime(2032, 1, 1, tzinfo=UTC))
    return [one for one in found if one.kind in kinds]


@pytest.mark.parametrize("zone", ZONES)
@pytest.mark.parametrize("start", STARTS, ids=str)
def test_doses_and_check_ins_over_both_clock_changes(
    zone: str, start: date, regimen: Callable[..., Plan], protocol: ClinicProtocol
) -> None:
    plan = regimen("0.5 mg / 2 mL", TWELVE, zone=zone, starts=start)
    stamp, end = f"{start:%Y%m%d}", start + timedelta(days=90)
    doses = calendar(
        *(
            f"DTSTART;TZID={zone}:{stamp}T{at:%H%M}00\r\nDURATION:PT1M\r\nRRULE:FREQ=DAILY;COUNT=84"
            for at in plan.dose_times
        )
    )
    assert [one.at for one in ours(plan, protocol, OccasionKind.DOSE)] == instants(doses, start, end)
    sunday = start + timedelta(days=(6 - start.weekday()) % 7)  # DTSTART is itself an occurrence: it must be a Sunday
    check_ins = calendar(f"DTSTART;TZID={zone}:{sunday:%Y%m%d}T180000\r\nDURATION:PT1M\r\nRRULE:FREQ=WEEKLY;COUNT=12")
    assert [one.at for one in ours(plan, protocol, OccasionKind.CHECK_IN)] == instants(check_ins, start, end)
    offsets = {one.at.hour for one in ours(plan, protocol, OccasionKind.DOSE)}
    assert len(offsets) == 4  # two dose times, each at two hours of UTC: the change really lies inside


@pytest.mark.parametrize("start", [date(2027, 11, 15), date(2026, 2, 27)], ids=str)
def test_steps_across_year_ends_and_leap_days(start: date, regimen: Callable[..., Plan]) -> None:
    """Each step as an all-day event of its length: on every day the oracle's event names the units that
    are in force."""
    plan = regimen("0.25 mg / 2 mL", STEPS, starts=start)
    events, begins = [], start
    for phase in plan.phases:
        for step in phase.steps:
            units = "+".join(str(dose.units) for dose in step.doses)
            events.append(f"SUMMARY:{units}\r\nDTSTART;VALUE=DATE:{begins:%Y%m%d}\r\nDURATION:P{step.days}D")
            begins += timedelta(days=step.days or 0)
    oracle = recurring_ical_events.of(calendar(*events))
    for number in range((begins - start).days + 3):
        day = start + timedelta(days=number)
        found = dose_in_force(plan, Record(), day)
        mine = "+".join(str(dose.units) for dose in found.doses) if found else None
        theirs = [str(one["SUMMARY"]) for one in oracle.at(day)]
        assert ([mine] if mine else []) == theirs, day


SEASONS = [
    # from, until, lead in days, DTSTART of the first season itself, its length in days in a common year
    ("04-10", "06-15", 21),
    ("11-15", "02-10", 14),
    ("03-10", "04-20", 21),
    ("12-31", "01-02", 0),
    ("01-05", "03-01", 10),
]


@pytest.mark.parametrize(("begins", "ends", "lead"), SEASONS)
def test_seasons_across_year_ends_and_leap_days(
    begins: str, ends: str, lead: int, regimen: Callable[..., Plan], protocol: ClinicProtocol
) -> None:
    """First days and days after the last by two yearly rules; the lead is counted back from the rule's own date."""
    start = date(2026, 3, 2)
    season = (
        f'[[season]]\nfrom = "{begins}"\nuntil = "{ends}"\nlead = "{lead} days"\ndose = "1 mg"\n'
        if lead
        else (f'[[season]]\nfrom = "{begins}"\nuntil = "{ends}"\ndose = "1 mg"\n')
    )
    plan = regimen(
        "0.5 mg / 2 mL",
        '[[phase]]\nname = "long"\nstarts = {starts}\ndose = "0.5 mg"\ntimes_per_day = 2\n',
        more=season,
        starts=start,
    )
    yearly = [
        recurring_ical_events.of(calendar(f"DTSTART;VALUE=DATE:2024{day.replace('-', '')}\r\nRRULE:FREQ=YEARLY"))
        for day in (begins, ends)
    ]
    firsts, lasts = (
        [one["DTSTART"].dt for one in oracle.between(date(2025, 1, 1), date(2034, 1, 1))] for oracle in yearly
    )
    firsts = firsts[:-1]  # the last may have its end beyond the years looked at
    firsts = [day - timedelta(days=lead) for day in firsts]
    raised = set()
    for first in firsts:
        last = min(day for day in lasts if day >= first + timedelta(days=lead))
        raised |= {first + timedelta(days=number) for number in range((last - first).days + 1)}
    for number in range(6 * 366):
        day = start + timedelta(days=number)
        found = dose_in_force(plan, Record(), day)
        assert found is not None
        assert (found.reason == "season") == (day in raised), day
        assert [dose.units for dose in found.doses] == ([2, 2] if day in raised else [1, 1])
    told = ours(plan, protocol, OccasionKind.SEASON_START, OccasionKind.SEASON_END)
    assert [one.day for one in told if one.kind is OccasionKind.SEASON_START and one.day > start] == sorted(
        day for day in firsts if start < day < date(2032, 1, 1)
    )
    changes = [one.day for one in ours(plan, protocol, OccasionKind.STEP_CHANGE)]
    assert changes == sorted({one.day for one in told if one.day > start})

"""Where a patient stands on a day: phase, step, week of the course, dose in force, the last step down. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from itertools import zip_longest

from bot.case import Case, Flag
from scheduler.localtime import instant, local
from scheduler.plan import InForce, Plan, dose_in_force, in_season, paused
from scheduler.record import Entry, EntryKind, Record


@dataclass(frozen=True, slots=True)
class Standing:
    """day: the patient's own local date. week: of the course, counted from 1; None outside the course.

    dose: the day's doses as the care team reads them, "" when none is in force. reason: as InForce.reason.
    """

    day: date
    phase: str = ""
    step: int = 0
    week: int | None = None
    dose: str = ""
    reason: str = ""
    in_season: bool = False


def standing(case: Case, now: datetime) -> Standing:
    """Phase, week and dose of `case` at this instant."""
    day = local(now, case.plan.patient.time_zone).date()
    season = any(in_season(one, day) is not None for one in case.plan.seasons)
    found = dose_in_force(case.plan, case.record, day)
    if found is None:
        return Standing(day, in_season=season)
    return Standing(day, found.phase.name, found.step, week_of(found.day_of_course), dose_words(case.plan, found),
                    found.reason, season)


def goes_on(case: Case, flag: Flag) -> bool:
    """Whether the doses that this flag held go on, though it is open: the patient or the care team has said so.
    Words are then about the doses again; the next sign of an emergency holds them anew."""
    if case.record.doses_held() is not None:
        return False
    turns = [one for one in case.record.of(EntryKind.DOSES_HELD, EntryKind.DOSES_FREED) if one.about == flag.id]
    return bool(turns) and turns[-1].kind is EntryKind.DOSES_FREED


def pause_of(case: Case, now: datetime) -> Entry | None:
    """The pause in force, or None."""
    if not paused(case.plan, case.record, now):
        return None
    return next((entry for entry in reversed(case.record.pauses) if entry.kind is EntryKind.PAUSED), None)


def pauses_over(plan: Plan, record: Record, now: datetime) -> list[datetime]:
    """The instants up to now at which pauses with an end were over by themselves, not resumed before."""
    over = []
    for entry, after in zip_longest(record.pauses, record.pauses[1:]):
        if entry.kind is EntryKind.PAUSED and entry.facts.get("until"):
            end = instant(date.fromisoformat(str(entry.facts["until"])), time(0), plan.patient.time_zone)
            if end <= now and (after is None or end <= after.at):
                over.append(end)
    return over


def week_of(day_of_course: int) -> int:
    """Days 1 to 7 are week 1."""
    return (day_of_course - 1) // 7 + 1


def dose_words(plan: Plan, found: InForce) -> str:
    """The day's doses for a clinician: "1 mg (2 ampoules) twice a day", or the doses one by one when they differ."""
    unit = plan.medicine.unit_name
    each = [f"{dose.amount} ({dose.units} {unit}{'' if dose.units == 1 else 's'})" for dose in found.doses]
    if len(set(each)) > 1:
        return " + ".join(each) + " a day"
    times = {1: "once a day", 2: "twice a day"}.get(len(each), f"{len(each)} times a day")
    return f"{each[0]} {times}"


def lowered_on(plan: Plan, record: Record, day: date, within: timedelta) -> date | None:
    """The first day of the present, lower amount, when the amount went down within this time; else None."""
    today = dose_in_force(plan, record, day)
    for back in range(within.days):
        after, before = day - timedelta(days=back), day - timedelta(days=back + 1)
        earlier = dose_in_force(plan, record, before)
        if today is None or earlier is None:
            return after if earlier is not None else None
        if earlier.daily > today.daily:
            return after
        today = earlier
    return None

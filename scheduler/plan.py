"""The signed plan: who, which medicine, which phases and steps, seasons and gates; and the dose in force on a date.

Pure data. Reading a plan from its TOML file is `planfile.py`; turning it into occasions is `timeline.py`.
"""

from __future__ import annotations

from calendar import isleap
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from decimal import Decimal

from scheduler.amounts import Amount, total
from scheduler.dayplan import day_shift, fewer
from scheduler.localtime import instant, local
from scheduler.record import EntryKind, Record


@dataclass(frozen=True, slots=True)
class Patient:
    """What the plan knows of the patient: a reference and a first name to use, never a full name or birth date."""

    reference: str
    call_me: str
    age_years: int
    time_zone: str
    language: str
    wakes: time
    sleeps: time
    meals: tuple[time, ...]
    height_cm: int | None = None
    weight_kg: Decimal | None = None
    writer: str = "patient"  # or "parent": who holds the phone
    conditions: tuple[str, ...] = ()
    other_medicines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Medicine:
    """The formulation that is repurposed. `unit_amount` is the medicine in one ampoule or one puff."""

    name: str  # "budesonide" | "fluticasone"
    form: str  # "ampoule" | "inhaler"
    unit_amount: Amount
    unit_ml: Decimal | None  # liquid in one ampoule; None for an inhaler
    units_per_pack: int
    packs_on_hand: int
    vehicle: str | None  # "sweetener", "honey", ...; None for an inhaler
    mix_ahead_days: int = 0

    @property
    def unit_name(self) -> str:
        return "ampoule" if self.form == "ampoule" else "puff"


@dataclass(frozen=True, slots=True)
class Dose:
    """One taking: the amount and the whole units that make it."""

    amount: Amount
    units: int


@dataclass(frozen=True, slots=True)
class Step:
    """A stretch with the same doses every day, in the order of the day (the last is the bedtime one).

    days is None for the last step of an open-ended phase.
    """

    days: int | None
    doses: tuple[Dose, ...]


@dataclass(frozen=True, slots=True)
class Phase:
    """A named part of the course. With a `gate` it starts only when the care team releases it."""

    name: str
    steps: tuple[Step, ...]
    starts: date | None = None  # None: the day after the phase before it, or the release of its gate
    gate: str | None = None


@dataclass(frozen=True, slots=True)
class Season:
    """The patient's own season, set by the clinic (month, day). The dose is raised `lead_days` before `begins`."""

    begins: tuple[int, int]
    ends: tuple[int, int]
    lead_days: int
    doses: tuple[Dose, ...]


@dataclass(frozen=True, slots=True)
class CheckInTime:
    """Weekly: Monday is 0, local wall-clock time."""

    weekday: int
    at: time


@dataclass(frozen=True, slots=True)
class Plan:
    """One signed plan. `text` is the TOML it was read from, kept word for word."""

    patient: Patient
    medicine: Medicine
    phases: tuple[Phase, ...]
    check_in: CheckInTime
    signed_by: str
    signed_on: date
    seasons: tuple[Season, ...] = ()
    endoscopy_after_days: int | None = None
    dose_times: tuple[time, ...] = ()  # given in the plan, or placed by dayplan
    text: str = ""


@dataclass(frozen=True, slots=True)
class InForce:
    """What is in force on one day.

    step: 0-based within the phase. day_of_phase, day_of_course: the first day is 1.
    reason: 'phase', 'season' (raised by the patient's season) or 'waiting' (the phase is over, the next waits for its
    gate). waiting_gate: the gate that the next phase waits for on this day, or None.
    season: index of the season that raises the dose, or None.
    """

    phase: Phase
    phase_index: int
    step: int
    doses: tuple[Dose, ...]
    day_of_phase: int
    day_of_course: int
    reason: str = "phase"
    waiting_gate: str | None = None
    season: int | None = None

    @property
    def daily(self) -> Amount:
        """The amount of the whole day."""
        return total([dose.amount for dose in self.doses])


@dataclass(frozen=True, slots=True)
class PhaseDates:
    """When a phase runs. begins: None while its gate waits. earliest: the first day it could start, None when unknown.

    ends: the day after its last planned day, None when open-ended or not begun.
    """

    begins: date | None
    earliest: date | None
    ends: date | None


def days_of(phase: Phase) -> int | None:
    """How many days a phase is planned for; None when open-ended."""
    if phase.steps[-1].days is None:
        return None
    return sum(step.days or 0 for step in phase.steps)


def phase_dates(plan: Plan, record: Record) -> tuple[PhaseDates, ...]:
    """When each phase begins and ends, as far as the record's gate releases tell."""
    found: list[PhaseDates] = []
    earliest = plan.phases[0].starts
    for phase in plan.phases:
        begins = earliest
        if phase.gate is not None and earliest is not None:
            begins = _released(plan, phase, record, earliest)
        length = days_of(phase)
        ends = None if begins is None or length is None else begins + timedelta(days=length)
        found.append(PhaseDates(begins, earliest, ends))
        earliest = ends
    return tuple(found)


def _released(plan: Plan, phase: Phase, record: Record, earliest: date) -> date | None:
    """First day of a released phase: not before its time, nor a day whose first dose came before the release."""
    release = record.gate_released(phase.gate or "")
    if release is None:
        return None
    told = release.facts.get("from")
    day = max(earliest, date.fromisoformat(str(told))) if told else earliest
    day = max(day, local(release.at, plan.patient.time_zone).date() - timedelta(days=1))
    while first_dose_at(plan, day, len(phase.steps[0].doses)) <= release.at:
        day += timedelta(days=1)
    return day


def times_for(plan: Plan, count: int) -> tuple[time, ...]:
    """Local times of a day with `count` doses, in the order of the patient's day."""
    return fewer(plan.dose_times, plan.patient, count)


def dose_instant(plan: Plan, day: date, at: time) -> datetime:
    """The instant of a dose at local `at` that belongs to the patient's `day` (it may fall on the next date)."""
    return instant(day + timedelta(days=day_shift(plan.patient, at)), at, plan.patient.time_zone)


def first_dose_at(plan: Plan, day: date, count: int) -> datetime:
    """The instant of the first of `count` doses of a day."""
    return dose_instant(plan, day, times_for(plan, count)[0])


def dose_in_force(
    plan: Plan, record: Record, day: date, dates: tuple[PhaseDates, ...] | None = None
) -> InForce | None:
    """The doses in force on a day of the patient, or None before the start and after the end of the course.

    A phase that is over while the next one waits for its gate goes on with its last step. In the patient's season the
    higher of the two daily amounts is in force. A pause does not move the calendar. Who asks for many days gives the
    phases' `dates` along (`phase_dates`), so that they are worked out once.
    """
    dates = phase_dates(plan, record) if dates is None else dates
    index = max((i for i, one in enumerate(dates) if one.begins is not None and one.begins <= day), default=None)
    if index is None:
        return None
    begins, phase = dates[index].begins, plan.phases[index]
    assert begins is not None
    offset, waiting = (day - begins).days, None
    step, over = _step_on(phase, offset)
    if over:
        if index + 1 == len(plan.phases):
            return None
        waiting = plan.phases[index + 1].gate
    first = dates[0].begins
    found = InForce(
        phase,
        index,
        step,
        phase.steps[step].doses,
        offset + 1,
        (day - (first or begins)).days + 1,
        "waiting" if waiting else "phase",
        waiting,
    )
    return _raised(plan, found, day)


def _step_on(phase: Phase, offset: int) -> tuple[int, bool]:
    """The step on the day `offset` (from 0) of a phase, and whether the phase's planned days are over."""
    for index, step in enumerate(phase.steps):
        if step.days is None or offset < step.days:
            return index, False
        offset -= step.days
    return len(phase.steps) - 1, True


def _raised(plan: Plan, found: InForce, day: date) -> InForce:
    """The same day with the doses of a season in which it lies, when these are higher."""
    for index, season in enumerate(plan.seasons):
        higher = total([dose.amount for dose in season.doses])
        if in_season(season, day) is not None and higher > found.daily:
            found = replace(found, doses=season.doses, reason="season", season=index)
    return found


def paused(plan: Plan, record: Record, at: datetime) -> bool:
    """Whether the care team's pause holds at this instant. A pause with `until` ends as that local day begins."""
    since = None
    for entry in record.pauses:
        if entry.at <= at:
            since = entry if entry.kind is EntryKind.PAUSED else None
    if since is None:
        return False
    until = since.facts.get("until")
    return until is None or at < instant(date.fromisoformat(str(until)), time(0), plan.patient.time_zone)


def in_season(season: Season, day: date) -> tuple[date, date] | None:
    """The first and last day on which the season, with its lead, is in force around `day`; None when `day` is outside.

    29 February is 1 March as a beginning and 28 February as an end in years that lack it.
    """
    for year in (day.year - 1, day.year, day.year + 1):
        begins = _on(year, season.begins, 1) - timedelta(days=season.lead_days)
        ends = _on(year + (season.ends < season.begins), season.ends, 0)
        if begins <= day <= ends:
            return begins, ends
    return None


def _on(year: int, month_day: tuple[int, int], later: int) -> date:
    if month_day == (2, 29) and not isleap(year):
        return date(year, 3, 1) if later else date(year, 2, 28)
    return date(year, *month_day)

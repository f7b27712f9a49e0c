"""The plan in force as a strip of the calendar: phases, doses, gates, seasons, today. Pure; lengths are in percent."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from bot.escalation.standing import dose_words
from scheduler.localtime import instant, local
from scheduler.plan import (
    Dose,
    InForce,
    PhaseDates,
    Plan,
    Season,
    days_of,
    dose_in_force,
    in_season,
    phase_dates,
    times_for,
)
from scheduler.record import Entry, EntryKind, Record

AHEAD = timedelta(weeks=12)         # how far beyond today, or into an open-ended phase, the strip goes
MOST_DAYS = 1500
_ONE = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of the strip. left, width: percent. height: percent of the tallest dose. kind: for its look."""

    left: float
    width: float
    label: str
    title: str
    kind: str = ""
    height: float = 0.0


@dataclass(frozen=True, slots=True)
class Mark:
    """A day on the strip: today, a gate, the endoscopy, the first of a month."""

    left: float
    label: str
    title: str
    kind: str


@dataclass(frozen=True, slots=True)
class Row:
    """The same in words: one line a phase or season. state: done, now, coming, waiting."""

    name: str
    when: str
    doses: tuple[str, ...]
    state: str


@dataclass(frozen=True, slots=True)
class Strip:
    """Everything that the calendar shows; `summary` says it in one sentence."""

    phases: tuple[Span, ...]
    doses: tuple[Span, ...]
    seasons: tuple[Span, ...]
    marks: tuple[Mark, ...]
    months: tuple[Mark, ...]
    rows: tuple[Row, ...]
    summary: str
    today: str
    times: str


def strip(plan: Plan, record: Record, now: datetime) -> Strip:
    """The calendar of a plan as it stands; what waits for a gate is drawn as if released as early as it can be."""
    today = local(now, plan.patient.time_zone).date()
    if_released = _if_released(plan, record, today)
    dates = phase_dates(plan, if_released)
    first = dates[0].begins or today
    last = _last_day(dates, today)
    days = [first + _ONE * number for number in range(min((last - first).days + 1, MOST_DAYS))]
    scale = _Scale(first, len(days))
    waits = _first_waiting(plan, record, dates)
    in_force = {day: dose_in_force(plan, if_released, day) for day in days}
    found = dose_in_force(plan, record, today)
    return Strip(_phases(plan, record, dates, scale), _doses(in_force, scale, waits), _seasons(plan, days, scale),
                 _marks(plan, record, dates, scale, today), _months(days, scale), _rows(plan, record, dates, today),
                 _summary(plan, found, today), dose_words(plan, found) if found else "no dose is in force",
                 ", ".join(f"{at:%H:%M}" for at in (times_for(plan, len(found.doses)) if found else plan.dose_times)))


@dataclass(frozen=True, slots=True)
class _Scale:
    first: date
    days: int

    def left(self, day: date) -> float:
        return round(100 * min(max((day - self.first).days, 0), self.days) / self.days, 3)

    def width(self, begins: date, ends: date) -> float:
        return round(self.left(ends) - self.left(begins), 3)


def _if_released(plan: Plan, record: Record, today: date) -> Record:
    """The record with every gate that still waits released for the first day on which it could be."""
    for index, phase in enumerate(plan.phases):
        earliest = phase_dates(plan, record)[index].earliest
        if phase.gate is None or earliest is None or record.gate_released(phase.gate) is not None:
            continue
        day = max(earliest, today + _ONE)
        at = instant(day - _ONE, time(12), plan.patient.time_zone)
        released = Entry(EntryKind.GATE_RELEASED, at, phase.gate, {"from": day.isoformat()})
        record = Record((*record.entries, released))
    return record


def _first_waiting(plan: Plan, record: Record, dates: tuple[PhaseDates, ...]) -> date | None:
    """The first day that is drawn only in case a gate is released."""
    return min((one.begins for phase, one in zip(plan.phases, dates, strict=True)
                if phase.gate and record.gate_released(phase.gate) is None and one.begins), default=None)


def _last_day(dates: tuple[PhaseDates, ...], today: date) -> date:
    ends = dates[-1].ends
    if ends is not None:
        return ends - _ONE
    return max(dates[-1].begins or today, today) + AHEAD


def _phases(plan: Plan, record: Record, dates: tuple[PhaseDates, ...], scale: _Scale) -> tuple[Span, ...]:
    found = []
    waiting = False
    for index, (phase, one) in enumerate(zip(plan.phases, dates, strict=True)):
        waiting = waiting or (phase.gate is not None and record.gate_released(phase.gate) is None)
        if one.begins is None:
            continue
        follows = dates[index + 1].begins if index + 1 < len(dates) else one.ends
        ends = follows or scale.first + _ONE * scale.days
        found.append(Span(scale.left(one.begins), scale.width(one.begins, ends), phase.name,
                          f"{phase.name}: from {_day(one.begins)}", "waiting" if waiting else "sure"))
    return tuple(found)


def _doses(in_force: dict[date, InForce | None], scale: _Scale, waits: date | None) -> tuple[Span, ...]:
    """Stretches with the same doses, as tall as their daily amount."""
    tallest = max((found.daily.micrograms for found in in_force.values() if found), default=None)
    spans: list[tuple[tuple[Dose, ...], str, date, date, InForce]] = []
    for day, found in in_force.items():
        if found is None:
            continue
        kind = "waiting" if waits is not None and day >= waits else "season" if found.reason == "season" else "sure"
        if spans and spans[-1][0] == found.doses and spans[-1][1] == kind and spans[-1][3] == day:
            spans[-1] = (*spans[-1][:3], day + _ONE, spans[-1][4])
        else:
            spans.append((found.doses, kind, day, day + _ONE, found))
    return tuple(Span(scale.left(begins), scale.width(begins, ends), str(found.daily),
                      f"{found.daily} a day from {_day(begins)}", kind,
                      round(float(100 * found.daily.micrograms / tallest), 1) if tallest else 0.0)
                 for _, kind, begins, ends, found in spans)


def _seasons(plan: Plan, days: list[date], scale: _Scale) -> tuple[Span, ...]:
    found = []
    for season in plan.seasons:
        inside = dict.fromkeys(span for day in days if (span := in_season(season, day)) is not None)
        found += [Span(scale.left(begins), scale.width(max(begins, days[0]), ends + _ONE), "season",
                       f"the season with its lead: {_day(begins)} to {_day(ends)}") for begins, ends in inside]
    return tuple(found)


def _marks(plan: Plan, record: Record, dates: tuple[PhaseDates, ...], scale: _Scale, today: date) -> tuple[Mark, ...]:
    found = []
    for phase, one in zip(plan.phases, dates, strict=True):
        if phase.gate and one.begins:
            state = "released" if record.gate_released(phase.gate) else "not released yet"
            found.append(Mark(scale.left(one.begins), f"gate: {phase.gate}", f"gate '{phase.gate}', {state}", "gate"))
    if plan.endoscopy_after_days is not None:
        due = scale.first + _ONE * plan.endoscopy_after_days
        found.append(Mark(scale.left(due), "endoscopy due", f"endoscopy due {_day(due)}", "endoscopy"))
    if today >= scale.first:
        found.append(Mark(scale.left(today), "today", f"today, {_day(today)}", "today"))
    return tuple(found)


def _months(days: list[date], scale: _Scale) -> tuple[Mark, ...]:
    firsts = [day for day in days if day.day == 1]
    every = 1 + len(firsts) // 10
    return tuple(Mark(scale.left(day), f"{day:%b}", f"{day:%B %Y}", "month") for day in firsts[::every])


def _rows(plan: Plan, record: Record, dates: tuple[PhaseDates, ...], today: date) -> tuple[Row, ...]:
    real = phase_dates(plan, record)
    found = []
    for phase, one, drawn in zip(plan.phases, real, dates, strict=True):
        doses = tuple(f"{f'{step.days} days: ' if step.days and len(phase.steps) > 1 else ''}{_words(plan, step.doses)}"
                      for step in phase.steps)
        if one.begins is None:
            earliest = f", from {_day(drawn.begins)} at the earliest" if drawn.begins else ""
            why = f"waits for '{phase.gate}'" if phase.gate else "after the phase before it"
            found.append(Row(phase.name, why + earliest, doses, "waiting" if phase.gate else "coming"))
            continue
        state = "coming" if one.begins > today else "done" if one.ends and one.ends <= today else "now"
        until = f"{_day(one.ends - _ONE)}" if one.ends else "open-ended" if days_of(phase) is None else ""
        found.append(Row(phase.name, f"{_day(one.begins)} to {until}", doses, state))
    for season in plan.seasons:
        inside = in_season(season, today)
        begins, ends = inside or _next_season(season, today)
        found.append(Row("season", f"{_day(begins)} to {_day(ends)}, lead of {season.lead_days} days included",
                         (_words(plan, season.doses),), "now" if inside else "coming"))
    return tuple(found)


def _next_season(season: Season, today: date) -> tuple[date, date]:
    for number in range(370):
        found = in_season(season, today + _ONE * number)
        if found is not None:
            return found
    return today, today


def _words(plan: Plan, doses: tuple[Dose, ...]) -> str:
    unit = plan.medicine.unit_name
    each = [f"{dose.amount} ({dose.units} {unit}{'' if dose.units == 1 else 's'})" for dose in doses]
    if len(set(each)) == 1:
        return f"{each[0]} {({1: 'once', 2: 'twice'}.get(len(each)) or f'{len(each)} times')} a day"
    return " + ".join(each)


def _summary(plan: Plan, found: InForce | None, today: date) -> str:
    if found is None:
        return f"{_day(today)}: no dose is in force."
    week = (found.day_of_course - 1) // 7 + 1
    why = {"season": ", raised for the patient's season", "waiting": f", waiting for '{found.waiting_gate}'"}
    return (f"{_day(today)}, week {week} of the course: {found.phase.name}{why.get(found.reason, '')}; "
            f"{plan.medicine.name} {dose_words(plan, found)}.")


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"

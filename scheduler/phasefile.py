"""The [[phase]] and [[season]] rows of a plan file: doses, steps and tapers in units that really exist."""

from __future__ import annotations

import re
from datetime import date, timedelta
from fractions import Fraction

from scheduler.amounts import Amount, parse_amount, total
from scheduler.errors import BadAmount, Refused
from scheduler.medicine import check_bounds
from scheduler.plan import Dose, Medicine, Phase, Season, Step, days_of
from scheduler.protocol import ClinicProtocol
from scheduler.seal import Seal
from scheduler.taper import ladder
from scheduler.tomltable import Table, shown

MOST_TIMES = 4
_MONTH_DAY = re.compile(r"([0-1][0-9])-([0-3][0-9])")
_SWITCH = (
    "a plan is one medicine: the two are not interchangeable dose for dose; a switch needs a new plan and signature"
)
_EXPLAIN = {
    "medicine": _SWITCH,
    "strength": _SWITCH,
    "name_of_medicine": _SWITCH,
    "until": "give lasts",
    "ends": "give lasts",
}


class _Doses:
    """Turns typed amounts into whole-unit doses; notes problems at the table they came from."""

    def __init__(
        self, medicine: Medicine | None, group: str | None, protocol: ClinicProtocol, seal: Seal | None = None
    ) -> None:
        self.medicine, self.group, self.protocol, self.seal = medicine, group, protocol, seal

    def one(self, table: Table, key: str, needed: bool = True) -> Dose | None:
        typed = table.text(key, needed, 'an amount such as "1 mg"')
        if typed is None or self.medicine is None or self.group is None:
            return None
        try:
            amount = parse_amount(typed)
            check_bounds(amount, self.medicine.name, self.group, "dose", self.protocol)
            return Dose(amount.like(self.medicine.unit_amount), whole_units(amount, self.medicine))
        except BadAmount as error:
            table.wrong(key, str(error))
            return None

    def several(self, table: Table, key: str) -> tuple[Dose, ...]:
        """A list of amounts in the order of the day."""
        found = table.raw(key)
        if not isinstance(found, list) or not 1 <= len(found) <= MOST_TIMES:
            told = f'must be a list of 1 to {MOST_TIMES} amounts such as ["0.5 mg", "1 mg"], not {shown(found)}'
            table.wrong(key, told)
            return ()
        doses = [self.one(Table({"doses": typed}, table.path, table.problems), "doses") for typed in found]
        return tuple(dose for dose in doses if dose) if all(doses) else ()

    def day(self, table: Table, key: str, doses: tuple[Dose, ...]) -> tuple[Dose, ...]:
        """The doses of a day, once their sum is plausible too."""
        if doses and self.medicine and self.group:
            try:
                daily = total([dose.amount for dose in doses])
                check_bounds(daily, self.medicine.name, self.group, "daily", self.protocol)
            except BadAmount as error:
                table.wrong(key, f"{len(doses)} doses make {error}")
        return doses


def whole_units(amount: Amount, medicine: Medicine) -> int:
    """How many whole ampoules or puffs make `amount`. Raises BadAmount, naming the nearest that can be made."""
    units = amount.units_of(medicine.unit_amount)
    if units:
        return units
    below = int(amount.ratio(medicine.unit_amount))
    near = [str(medicine.unit_amount * count) for count in (below, below + 1) if count]
    raise BadAmount(
        f"{amount} is no whole number of {medicine.unit_name}s of {medicine.unit_amount}; "
        f"whole ones make {' or '.join(near)}"
    )


def read_phases(
    top: Table, medicine: Medicine | None, group: str | None, protocol: ClinicProtocol, seal: Seal | None = None
) -> list[Phase | None]:
    """Every phase; None where one could not be read (its problems are noted). A seal's steps stand for a taper's."""
    rows = top.tables("phase")
    if not rows:
        top.wrong("phase", "is missing; a plan needs at least one [[phase]]")
    phases: list[Phase | None] = []
    names: list[str] = []
    gates: list[str] = []
    for index, row in enumerate(rows):
        before = phases[-1] if phases else None
        phases.append(_phase(row, index, before, _Doses(medicine, group, protocol, seal), index + 1 == len(rows)))
        for key, seen in (("name", names), ("gate", gates)):
            word = row.data.get(key)
            if isinstance(word, str) and word.strip() in seen:
                row.wrong(key, f"{shown(word)} is used by an earlier phase; each needs its own")
            elif isinstance(word, str):
                seen.append(word.strip())
    _check_starts(rows, phases)
    return phases


def _phase(row: Table, index: int, before: Phase | None, doses: _Doses, is_last: bool) -> Phase | None:
    name = row.text("name", hint='such as "induction"', longest=40)
    starts = row.day("starts", needed=index == 0)
    gate = row.text("gate", needed=False, longest=40)
    if gate and index == 0:
        row.wrong("gate", "the first phase cannot wait for a gate; leave it out and sign the plan when it may start")
    lasts = row.days("lasts", needed=False)
    kinds = [key for key in ("dose", "to", "step") if row.has(key)]
    steps: tuple[Step, ...] = ()
    if len(kinds) != 1:
        row.wrong(
            "dose",
            "give exactly one of dose, to, or [[phase.step]] rows"
            if kinds
            else "is missing; give dose, or to (a taper), or [[phase.step]] rows",
        )
        for key in ("dose", "to", "step", "times_per_day"):
            row.raw(key, needed=False)
    elif kinds == ["dose"]:
        steps = _same_all_through(row, lasts, doses)
    elif kinds == ["to"]:
        steps = _taper(row, index, lasts, before, doses)
    else:
        steps = _rows(row, lasts, doses)
    if steps and steps[-1].days is None and not is_last:
        row.wrong("lasts", "is missing; only the last phase may be open-ended")
    row.finish(_EXPLAIN)
    return Phase(name, steps, starts, gate) if name and steps else None


def _times_per_day(table: Table, needed: bool = True) -> int | None:
    return table.whole("times_per_day", 1, MOST_TIMES, needed)


def _same_all_through(row: Table, lasts: int | None, doses: _Doses) -> tuple[Step, ...]:
    dose, times = doses.one(row, "dose"), _times_per_day(row)
    if dose is None or times is None:
        return ()
    return (Step(lasts, doses.day(row, "dose", (dose,) * times)),)


def _rows(row: Table, lasts: int | None, doses: _Doses) -> tuple[Step, ...]:
    tables = row.tables("step")
    if not tables:
        row.wrong("step", "needs at least one [[phase.step]] row")
    steps = [_step(table, doses, table is tables[-1]) for table in tables]
    good = tuple(step for step in steps if step)
    if len(good) == len(steps) and good and lasts is not None:
        days = sum(step.days or 0 for step in good)
        if good[-1].days is None:
            row.wrong("lasts", "is given, but the last step has no lasts; give the last step its own")
        elif days != lasts:
            row.wrong("lasts", f"says {lasts} days, but the steps last {days} days in all")
    return good if len(good) == len(steps) else ()


def _step(table: Table, doses: _Doses, is_last: bool) -> Step | None:
    days = table.days("lasts", needed=not is_last)
    if table.has("doses"):
        found, key = doses.several(table, "doses"), "doses"
    elif table.has("dose"):
        dose, times = doses.one(table, "dose"), _times_per_day(table)
        found = (dose,) * (times or 0) if dose else ()
        key = "dose"
    else:
        morning, evening = doses.one(table, "morning", needed=False), doses.one(table, "evening", needed=False)
        if not table.has("morning") and not table.has("evening"):
            table.wrong("dose", "is missing; give dose and times_per_day, or morning and evening, or doses")
        found = tuple(one for one in (morning, evening) if one)
        key = "evening" if table.has("evening") else "morning"
    table.finish(_EXPLAIN)
    return Step(days, doses.day(table, key, found)) if found else None


def _taper(row: Table, index: int, lasts: int | None, before: Phase | None, doses: _Doses) -> tuple[Step, ...]:
    target, times = doses.one(row, "to"), _times_per_day(row, needed=False)
    if lasts is None and not row.has("lasts"):
        row.wrong("lasts", 'is missing; a taper needs a length such as "8 weeks"')
    if before is None:
        if row.path == "phase[1]":
            row.wrong("to", "a taper leads on from the phase before it; the first phase needs a dose")
        return ()
    if target is None or lasts is None or doses.medicine is None:
        return ()
    start = tuple(dose.units for dose in before.steps[-1].doses)
    times = times or len(start)
    if times > len(start):
        row.wrong("times_per_day", f"a taper never adds doses; the phase before ends with {len(start)} a day")
        return ()
    protocol, unit = doses.protocol, doses.medicine.unit_amount
    if doses.seal is not None and index < len(doses.seal.phases):
        return tuple(
            Step(days, tuple(Dose(unit * count, count) for count in units)) for days, units in doses.seal.phases[index]
        )
    try:
        found = ladder(
            start,
            (*(0,) * (len(start) - times), *(target.units,) * times),
            lasts,
            unit,
            Fraction(protocol.number("taper.largest_drop")) / 100,
            protocol.span("taper.shortest_step").days,
        )
    except Refused as error:
        row.wrong("to", str(error))
        return ()
    return tuple(
        Step(step.days, tuple(Dose(unit * units, units) for units in step.units if units)) for step in found.steps
    )


def _check_starts(rows: list[Table], phases: list[Phase | None]) -> None:
    """A later phase's `starts` may only say what follows from the phases before it."""
    follows: date | None = phases[0].starts if phases and phases[0] else None
    for row, phase in zip(rows, phases, strict=True):
        if phase is None or follows is None:
            if row.has("starts") and row is not rows[0] and phase is not None:
                row.wrong("starts", "cannot be known, since a phase before it waits for a gate; leave it out")
            follows = None
            continue
        if phase.starts is not None and phase.starts != follows:
            what = (
                "overlaps"
                if phase.starts < follows
                else f"leaves {(phase.starts - follows).days} days without a dose after"
            )
            row.wrong(
                "starts",
                f"{phase.starts} {what} the phase before, which ends on {follows - timedelta(days=1)}; "
                f"leave starts out, or change lasts",
            )
        length = days_of(phase)
        follows = None if length is None or phase.gate else follows + timedelta(days=length)


def read_season(
    row: Table, medicine: Medicine | None, group: str | None, phases: list[Phase | None], protocol: ClinicProtocol
) -> Season | None:
    """One [[season]]: its dose is taken as often a day as the first phase's, unless times_per_day says otherwise."""
    begins, ends = _month_day(row, "from"), _month_day(row, "until")
    lead = row.days("lead", needed=False, most=120) or 0
    doses = _Doses(medicine, group, protocol)
    dose, times = doses.one(row, "dose"), _times_per_day(row, needed=False)
    row.finish(_EXPLAIN)
    first = phases[0] if phases else None
    if begins is None or ends is None or dose is None or first is None:
        return None
    if begins == ends:
        row.wrong("until", "is the same day as from; a season needs a length")
        return None
    taken = (dose,) * (times or len(first.steps[0].doses))
    return Season(begins, ends, lead, doses.day(row, "dose", taken))


def _month_day(row: Table, key: str) -> tuple[int, int] | None:
    found = row.text(key, hint='a day of the year such as "04-10"')
    if found is None:
        return None
    match = _MONTH_DAY.fullmatch(found)
    try:
        if match is None:
            raise ValueError
        date(2024, int(match[1]), int(match[2]))  # a leap year: 02-29 may be named
    except ValueError:
        row.wrong(key, f'must be a day of the year such as "04-10", not {shown(found)}')
        return None
    return int(match[1]), int(match[2])

"""A fall of the dose that is larger than comfortable is said, and the gentler ladder of the same days is named."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

from scheduler.amounts import plain
from scheduler.cautioning import Caution
from scheduler.errors import Refused
from scheduler.plan import Phase, Plan
from scheduler.protocol import ClinicProtocol
from scheduler.taper import Ladder, LadderStep, gentlest


def drops(plan: Plan, protocol: ClinicProtocol) -> Iterator[Caution]:
    """Every phase in which the day's dose falls by more than is comfortable, or than the limit, in one step."""
    for before, phase in pairwise((None, *plan.phases)):
        assert phase is not None
        found = _as_ladder(before, phase, plan)
        told = rough(found, protocol) if found is not None else ""
        if told and found is not None:
            over = found.largest_drop * 100 > Fraction(protocol.number("taper.largest_drop"))
            key = "taper.largest_drop" if over else "taper.comfortable_drop"
            yield Caution("large drop" if over else "rough taper", f"{phase.name}: {told}", protocol[key].source)


def rough(found: Ladder, protocol: ClinicProtocol) -> str:
    """What to say of a ladder whose largest drop is above `taper.comfortable_drop`, with a better one; "" otherwise."""
    if found.largest_drop * 100 <= Fraction(protocol.number("taper.comfortable_drop")):
        return ""
    levels = [sum(found.start), *(step.daily_units for step in found.steps)]
    before, after = max(pairwise(levels), key=lambda pair: Fraction(pair[0] - pair[1], pair[0]))
    limit, comfort = (plain(protocol.number(f"taper.{name}_drop")) for name in ("largest", "comfortable"))
    bar = f"the protocol's limit is {limit} %" if found.largest_drop * 100 > Fraction(limit) else (
        f"the protocol calls more than {comfort} % a rough step")
    told = f"One step takes the day from {found.unit * before} to {found.unit * after}, {percent(found)} %; {bar}. "
    better = _better(found, protocol)
    if better is None:
        return told + "No ladder of these units in these days falls more gently; smaller units or more weeks would."
    return told + f"Gentler in the same days, at most {percent(better)} %: {steps_of(better)}."


def percent(found: Ladder) -> str:
    """The largest drop as it is printed: one decimal, none when whole."""
    return plain(Decimal(str(round(float(found.largest_drop * 100), 1))))


def steps_of(found: Ladder) -> str:
    """'14 days 1.5 mg + 1.5 mg, 14 days ...': ready to be written as steps of a phase."""
    return ", ".join(f"{step.days} days {' + '.join(str(found.unit * count) for count in step.units if count)}"
                     for step in found.steps)


def _better(found: Ladder, protocol: ClinicProtocol) -> Ladder | None:
    shortest = protocol.span("taper.shortest_step").days
    try:
        other = gentlest(found.start, found.steps[-1].units, found.days, found.unit, shortest)
    except Refused:
        return None
    return other if other.largest_drop < found.largest_drop else None


def _as_ladder(before: Phase | None, phase: Phase, plan: Plan) -> Ladder | None:
    """A phase that only ever falls, from the dose before it, as a ladder; None when it is none. An open end counts
    for no days."""
    steps = [tuple(dose.units for dose in step.doses) for step in phase.steps]
    start = tuple(dose.units for dose in before.steps[-1].doses) if before is not None else steps[0]
    rows = [start, *((0,) * (len(start) - len(units)) + units for units in steps)]
    totals = [sum(units) for units in rows]
    if any(len(units) > len(start) for units in steps) or totals[-1] >= totals[0] or totals != sorted(
            totals, reverse=True):
        return None
    day, found = 1, []
    for units, step in zip(rows[1:], phase.steps, strict=True):
        found.append(LadderStep(day, step.days or 0, units))
        day += step.days or 0
    return Ladder(start, tuple(found), plan.medicine.unit_amount)

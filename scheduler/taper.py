"""Taper ladders that whole ampoules and puffs can really make.

A ladder leads from the doses of a day to smaller ones in steps. Each dose of a day is a whole number of units, and no
dose of the day ever rises. What the search minimises, in this order:

 1. the largest drop, as far as it exceeds the protocol's limit (a drop is the part of the daily amount that a step
    takes away from the step before it, the start included); a ladder within the limit always beats one that is not;
 2. the roughness: the sum of the squared drops, in units for a straight line and in logarithms of units for a
    geometric one (the same percentage each time); many equal drops are the least rough, and of all staircases between
    two levels in even steps they lie closest to the line;
 3. the distance to the line: the sum over the steps of days x (daily units - units on the line at the step's end)
    squared, where the line leads from the start at the beginning of day 1 to the target at the end of the last day;
 4. the number of steps; then the ladder that stays higher for longer.

A drop of several units is always rougher than the same drop in two steps, so the search takes as many steps as the
days and the units allow. Steps are even to a day; where the days do not divide, the earlier (higher) steps are the
longer ones. The units of a day are split as evenly over its doses as the start and the target allow, the larger
part towards bedtime. The last step gives the target. No source gives a ladder (ACG 2025 names none); the limit and
the shortest step are the protocol's.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import log

from scheduler.amounts import Amount
from scheduler.errors import Refused

Units = tuple[int, ...]  # one number a dose, in the order of the day; the last is the bedtime dose
Number = Fraction | float
Cost = tuple[Number, Number]  # roughness and distance


@dataclass(frozen=True, slots=True)
class LadderStep:
    """`days` days from `from_day` (the first day of the taper is 1) on which each dose is so many units."""

    from_day: int
    days: int
    units: Units

    @property
    def daily_units(self) -> int:
        return sum(self.units)


@dataclass(frozen=True, slots=True)
class Ladder:
    """A ladder from `start` (in force before day 1) in steps; every number counts `unit`s."""

    start: Units
    steps: tuple[LadderStep, ...]
    unit: Amount

    @property
    def largest_drop(self) -> Fraction:
        """The largest part of a daily amount that one step takes away (0 to 1)."""
        return _drop([sum(self.start), *(step.daily_units for step in self.steps)])

    @property
    def total_units(self) -> int:
        return sum(step.days * step.daily_units for step in self.steps)

    @property
    def days(self) -> int:
        return sum(step.days for step in self.steps)


def ladder(
    start: Units,
    target: Units,
    days: int,
    unit: Amount,
    largest_drop: Fraction,
    shortest_step: int,
    line: str = "straight",
    most_steps: int | None = None,
) -> Ladder:
    """The best ladder. `largest_drop` is the limit (0 to 1), `shortest_step` in days, `line` 'straight' or 'geometric'.

    Raises Refused, with what to do, when nothing falls, something would rise, or the days are too few.
    """
    _check(start, target, days, shortest_step)
    most = min(sum(start) - sum(target), days // shortest_step, most_steps or days)
    allowed = max(largest_drop, _smallest_drop(sum(start), sum(target), most))
    return _best(start, target, days, unit, allowed, most, line)


def alternatives(
    start: Units, target: Units, days: int, unit: Amount, largest_drop: Fraction, shortest_step: int
) -> dict[str, Ladder]:
    """Ladders to lay side by side: closest to the line, fewer steps, smaller drops, and once daily at the end.

    Those that come out the same as one before are left out.
    """
    found = {"closest to a straight line": ladder(start, target, days, unit, largest_drop, shortest_step)}
    most = min(sum(start) - sum(target), days // shortest_step)
    for count in range(1, most + 1):
        drop = _smallest_drop(sum(start), sum(target), count)
        if drop <= largest_drop:
            found["fewer steps"] = _best(start, target, days, unit, largest_drop, count, "straight")
            break
    found["smaller drops"] = gentlest(start, target, days, unit, shortest_step)
    bedtime = (*(0 for _ in target[:-1]), sum(target))
    if len(target) > 1 and bedtime != target and bedtime[-1] <= start[-1]:
        found["once daily at the end"] = ladder(start, bedtime, days, unit, largest_drop, shortest_step)
    seen: list[Ladder] = []
    kept: dict[str, Ladder] = {}
    for name, one in found.items():
        if one not in seen:
            seen.append(one)
            kept[name] = one
    return kept


def gentlest(start: Units, target: Units, days: int, unit: Amount, shortest_step: int) -> Ladder:
    """The ladder whose largest drop is the smallest that the days allow. Raises Refused as `ladder` does."""
    _check(start, target, days, shortest_step)
    most = min(sum(start) - sum(target), days // shortest_step)
    return _best(start, target, days, unit, _smallest_drop(sum(start), sum(target), most), most, "straight")


def split(start: Units, target: Units, total: int) -> Units:
    """`total` units over the doses of a day, each between target and start, as even as these allow, larger late.

    Built by adding one unit at a time to the smallest dose that may still grow (the latest of equals), so that a
    smaller total is never larger in any dose.
    """
    doses = list(target)
    while sum(doses) < total:
        grows = [i for i in range(len(doses)) if doses[i] < start[i]]
        best = min(grows, key=lambda i: (doses[i], -i))
        doses[best] += 1
    return tuple(doses)


def make_up(amount: Amount, strengths: Sequence[Amount]) -> tuple[tuple[Amount, int], ...]:
    """The fewest ampoules of the strengths on hand that make an amount, largest first, as (strength, how many).

    Each strength must be a whole multiple of the smaller ones, as ampoule strengths are. Raises Refused otherwise, and
    for an amount that they cannot make.
    """
    on_hand = sorted(set(strengths), reverse=True)
    if any(larger.units_of(smaller) is None for larger, smaller in pairwise(on_hand)):
        raise Refused("these strengths are not multiples of each other; plan with one of them")
    found, left = [], amount
    for strength in on_hand:
        count = int(left.ratio(strength))
        if count:
            found.append((strength, count))
            left = left - strength * count
    if left.micrograms:
        raise Refused(f"{amount} cannot be made of whole units of {on_hand[-1]}")
    return tuple(found)


def lengths(days: int, steps: int) -> tuple[int, ...]:
    """`days` over `steps`, even to a day, the longer ones first."""
    each, rest = divmod(days, steps)
    return tuple(each + (i < rest) for i in range(steps))


def cost_of(levels: Sequence[int], spans: Sequence[int], start: int, line: str) -> Cost:
    """Objectives 2 and 3 of a ladder given by its daily units and days a step."""
    days, day = sum(spans), 0
    rough: Number = Fraction(0)
    far: Number = Fraction(0)
    for before, level, span in zip((start, *levels), levels, spans, strict=False):
        day += span
        rough += _rough(before, level, line)
        far += span * (level - _line(start, levels[-1], Fraction(day, days), line)) ** 2
    return rough, far


def _rough(before: int, after: int, line: str) -> Number:
    return log(before / after) ** 2 if line == "geometric" else Fraction((before - after) ** 2)


def _line(start: int, target: int, part: Fraction, line: str) -> Number:
    """Daily units on the line after `part` (0 to 1) of the days."""
    if line == "geometric":
        return target if part == 1 else float(start * (target / start) ** float(part))
    return start - (start - target) * part


def _check(start: Units, target: Units, days: int, shortest_step: int) -> None:
    if not start or len(start) != len(target):
        raise Refused(
            "a taper needs the same number of doses a day at its start and its end; give 0 for a dose that ends"
        )
    if min(target) < 0 or not any(target):
        raise Refused("a taper ends at a dose, not at nothing; stopping is a decision of its own (end the last phase)")
    if any(end > begin for begin, end in zip(start, target, strict=True)):
        raise Refused("a taper never raises a dose; its target is above its start")
    if sum(target) == sum(start):
        raise Refused("a taper needs a target below its start; there is nothing to take away")
    if days < shortest_step:
        raise Refused(f"{days} days are too few for one step; the protocol's shortest step has {shortest_step} days")


def _smallest_drop(start: int, target: int, count: int) -> Fraction:
    """The smallest largest drop of any ladder of exactly `count` steps (minimax over the levels)."""
    best: dict[int, Fraction] = {start: Fraction(0)}
    for left in range(count - 1, -1, -1):
        nearer: dict[int, Fraction] = {}
        for level, so_far in best.items():
            for lower in range(target if left == 0 else target + left, level):
                if left == 0 and lower != target:
                    continue
                drop = max(so_far, Fraction(level - lower, level))
                if drop < nearer.get(lower, Fraction(2)):
                    nearer[lower] = drop
        best = nearer
    return best[target]


def _best(start: Units, target: Units, days: int, unit: Amount, allowed: Fraction, count: int, line: str) -> Ladder:
    """The best ladder of `count` steps with no drop above `allowed`, which must be possible."""
    levels = _closest(sum(start), sum(target), days, count, allowed, line)
    day, steps = 1, []
    for level, span in zip(levels, lengths(days, count), strict=True):
        steps.append(LadderStep(day, span, split(start, target, level)))
        day += span
    return Ladder(start, tuple(steps), unit)


def _drop(levels: Sequence[int]) -> Fraction:
    return max(Fraction(before - after, before) for before, after in pairwise(levels))


def _closest(start: int, target: int, days: int, count: int, allowed: Fraction, line: str) -> tuple[int, ...]:
    """The levels of `count` falling steps that end at the target, least rough and closest."""
    best: dict[int, tuple[Cost, tuple[int, ...]]] = {start: ((Fraction(0), Fraction(0)), ())}
    day = 0
    for number, span in enumerate(lengths(days, count)):
        left = count - 1 - number
        day += span
        on_line = _line(start, target, Fraction(day, days), line)
        nearer: dict[int, tuple[Cost, tuple[int, ...]]] = {}
        for lower in [target] if left == 0 else range(target + left, start - number):
            far = span * (lower - on_line) ** 2
            for level, (so_far, levels) in best.items():
                if lower < level and Fraction(level - lower, level) <= allowed:
                    cost = (so_far[0] + _rough(level, lower, line), so_far[1] + far)
                    there = (cost, (*levels, -lower))
                    if lower not in nearer or there < nearer[lower]:
                        nearer[lower] = there
        best = nearer
    return tuple(-level for level in best[target][1])

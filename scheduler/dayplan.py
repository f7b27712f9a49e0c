"""Where in a patient's day the doses go.

A day runs from the middle of one sleep to the middle of the next, so that a bedtime dose after midnight, or a shift
worker's dose in the morning before sleep, belongs to the day that the patient is ending. Times are minutes since
waking.

Rules, in the order in which they give way when no placement keeps them all (the last gives first):
 1. the window after each dose is clear of meals and lies within the waking day;
 2. doses are no closer than `dayplan.apart_least` (or an even share of the day for three and more doses);
 3. the last dose leaves `dayplan.before_sleep` until sleep, and the first comes `dayplan.after_meal` after the first
    meal;
 4. doses are no further apart than `dayplan.apart_most` (twice a day).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import time, timedelta
from functools import lru_cache
from itertools import combinations, groupby
from typing import Protocol

from scheduler.protocol import ClinicProtocol

DAY = 24 * 60
GRID = 15  # minutes; reminders are set to quarter hours


class Daily(Protocol):
    """What is needed of a patient here: when they wake, sleep and eat (local wall-clock times)."""

    @property
    def wakes(self) -> time: ...
    @property
    def sleeps(self) -> time: ...
    @property
    def meals(self) -> tuple[time, ...]: ...


@dataclass(frozen=True, slots=True)
class Gives:
    """A rule that no placement of this day could keep: which, and by how many minutes."""

    rule: str
    minutes: int

    def __str__(self) -> str:
        return f"{self.rule}: gives by {self.minutes} min"


@dataclass(frozen=True, slots=True)
class Placement:
    """Dose times in the order of the patient's day, and the rules that had to give."""

    times: tuple[time, ...]
    gives: tuple[Gives, ...] = ()


@dataclass(frozen=True, slots=True)
class _Day:
    """A patient's waking day in minutes since waking."""

    awake: int
    meals: tuple[int, ...]
    window: int
    meal_lasts: int
    after_meal: int
    before_sleep: int
    least: int
    most: int
    gap: int

    def closest(self, count: int) -> int:
        """The least minutes between two of `count` doses, as `minimum_gap`."""
        return min(self.gap, DAY // count // 2)

    def clash(self, at: int) -> int:
        """By how many minutes a dose at `at` and its window overlap meals or run past the waking day."""
        over = max(0, at + self.window - self.awake) + max(0, -at)
        for meal in self.meals:
            over += max(0, min(at + self.window, meal + self.meal_lasts) - max(at, meal))
        return over

    @property
    def earliest_wanted(self) -> int:
        return self.meals[0] + self.after_meal if self.meals else 0

    @property
    def latest_wanted(self) -> int:
        return self.awake - self.before_sleep


def minutes_of(at: time) -> int:
    return at.hour * 60 + at.minute


def clock(minutes: int) -> time:
    return time(minutes // 60 % 24, minutes % 60)


def waking_minutes(patient: Daily) -> int:
    """How long the patient is awake, in minutes (sleep past midnight and by day included)."""
    return (minutes_of(patient.sleeps) - minutes_of(patient.wakes)) % DAY or DAY


def day_shift(patient: Daily, at: time) -> int:
    """1 when a dose at `at` falls on the calendar date after the day it belongs to, else 0.

    The border is the middle of the patient's sleep; for a day of usual hours that is in the small hours of the night.
    """
    asleep = DAY - waking_minutes(patient)
    border = minutes_of(patient.wakes) - asleep // 2
    if border < 0:  # sleep's middle is before midnight: the day starts on the evening before
        return 0
    return 1 if minutes_of(at) < border else 0


def place(patient: Daily, times_per_day: int, protocol: ClinicProtocol) -> Placement:
    """The best placement of `times_per_day` (1 to 4) doses, with what gives when none is clean."""
    day = _the_day(patient, protocol)
    best = _best(day, times_per_day)
    start = minutes_of(patient.wakes)
    return Placement(tuple(clock(start + slot) for slot in best), tuple(_gives(day, best)))


def judge(patient: Daily, times: tuple[time, ...], protocol: ClinicProtocol) -> tuple[Gives, ...]:
    """The rules that a given placement (the clinician's own `dose_times`) does not keep."""
    return tuple(_gives(_the_day(patient, protocol), since_waking(patient, times)))


def since_waking(patient: Daily, times: Iterable[time]) -> tuple[int, ...]:
    """Each time as minutes since waking, on the day it belongs to (negative for a dose before waking)."""
    start = minutes_of(patient.wakes)
    return tuple(minutes_of(at) + DAY * day_shift(patient, at) - start for at in times)


def fewer(times: tuple[time, ...], patient: Daily, count: int) -> tuple[time, ...]:
    """`count` of the day's dose times: the bedtime one always, the others as evenly spread as the times allow."""
    if count >= len(times):
        return times
    slots = since_waking(patient, times)
    last = len(times) - 1
    picks = (*(pick for pick in combinations(range(last), count - 1)),)
    best = max(picks, key=lambda pick: _least_gap([slots[i] for i in (*pick, last)]))
    return tuple(times[i] for i in (*best, last))


def minimum_gap(times_per_day: int, protocol: ClinicProtocol) -> timedelta:
    """The least time between two doses: the protocol's bound, or half the interval when doses are more frequent."""
    return min(protocol.span("dose.minimum_gap"), timedelta(days=1) / times_per_day / 2)


def _the_day(patient: Daily, protocol: ClinicProtocol) -> _Day:
    start = minutes_of(patient.wakes)

    def span(key: str) -> int:
        return int(protocol.span(key).total_seconds() // 60)

    return _Day(
        awake=waking_minutes(patient),
        meals=tuple(sorted((minutes_of(meal) - start) % DAY for meal in patient.meals)),
        window=span("window.no_food"),
        meal_lasts=span("dayplan.meal_lasts"),
        after_meal=span("dayplan.after_meal"),
        before_sleep=span("dayplan.before_sleep"),
        least=span("dayplan.apart_least"),
        most=span("dayplan.apart_most"),
        gap=span("dose.minimum_gap"),
    )


@lru_cache(maxsize=512)
def _best(day: _Day, count: int) -> tuple[int, ...]:
    """The slots of least cost. For three and four doses the best ends come first: most days need no others."""
    grid = sorted(
        {*range(0, max(day.awake - day.window, 0) + 1, GRID), max(day.earliest_wanted, 0), max(day.latest_wanted, 0)}
    )
    if count <= 2:
        return min(combinations(grid, count), key=lambda slots: (_cost(day, slots), slots))
    firsts = [slot for slot in grid if slot <= day.awake // 4]
    lasts = [slot for slot in grid if slot >= day.awake * 3 // 4]
    middle = [slot for slot in grid if slot % 30 == 0 and firsts[-1] < slot < lasts[0]]
    found: list[tuple[tuple[int, ...], tuple[int, ...]]] = []
    ends = sorted((_end_cost(day, first, last), first, last) for first in firsts for last in lasts)
    for cost, same in groupby(ends, key=lambda end: end[0]):
        inside = [(first, *inner, last) for _, first, last in same for inner in combinations(middle, count - 2)]
        found.append(min((_cost(day, slots), slots) for slots in inside))
        if not any(cost[:1]) and found[-1][0][:2] == (0, 0):
            break  # nothing clashes, nothing is too close, and all other ends cost more
    return min(found)[1]


def _end_cost(day: _Day, first: int, last: int) -> tuple[int, ...]:
    """What the first and last dose alone cost: the parts of `_cost` that the middle ones cannot change."""
    off = max(0, day.earliest_wanted - first) + max(0, last - day.latest_wanted)
    drift = abs(last - day.latest_wanted) + abs(first - day.earliest_wanted)
    return day.clash(first) + day.clash(last), off, drift


def _cost(day: _Day, slots: tuple[int, ...]) -> tuple[int, ...]:
    """Smaller is better, compared rule by rule in the order of the module's docstring, then evenness."""
    clash = sum(day.clash(slot) for slot in slots)
    least = _least_wanted(day, len(slots))
    close = max(0, least - _least_gap(list(slots))) if len(slots) > 1 else 0
    ends = max(0, day.earliest_wanted - slots[0]) * (len(slots) > 1) + max(0, slots[-1] - day.latest_wanted)
    wide = max(0, slots[-1] - slots[0] - day.most) if len(slots) == 2 else 0
    drift = abs(slots[-1] - day.latest_wanted) + (abs(slots[0] - day.earliest_wanted) if len(slots) > 1 else 0)
    uneven = max(_gaps(list(slots))) - min(_gaps(list(slots))) if len(slots) > 2 else 0
    return clash, close, ends, wide, drift, uneven


def _gives(day: _Day, slots: tuple[int, ...]) -> Iterator[Gives]:
    clash, close, ends, wide, _, _ = _cost(day, slots)
    if clash:
        yield Gives("the window after a dose is clear of meals and before sleep", clash)
    if close:
        yield Gives(f"doses are at least {_hours(_least_wanted(day, len(slots)))} apart", close)
    if ends:
        yield Gives("the first dose follows breakfast and the last leaves time before sleep", ends)
    if wide:
        yield Gives(f"doses by day are at most {_hours(day.most)} apart", wide)


def _least_wanted(day: _Day, count: int) -> int:
    """Twice a day: the protocol's bound. More often: an even share of the day less a quarter, never too close."""
    if count < 2:
        return 0
    return day.least if count == 2 else max(day.awake * 3 // (4 * count), day.closest(count))


def _gaps(slots: list[int]) -> list[int]:
    """Minutes between neighbours, the night included."""
    return [(later - earlier) for earlier, later in zip(slots, [*slots[1:], slots[0] + DAY], strict=True)]


def _least_gap(slots: list[int]) -> int:
    return min(_gaps(slots))


def _hours(minutes: int) -> str:
    hours, rest = divmod(minutes, 60)
    return f"{hours} h" + (f" {rest} min" if rest else "")

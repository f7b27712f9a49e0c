"""Taper ladders: what a clinician would write, the search against brute force, and what is refused."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.amounts import parse_amount
from scheduler.errors import Refused
from scheduler.taper import Ladder, alternatives, cost_of, ladder, lengths, make_up, split

QUARTER, HALF = parse_amount("0.25 mg"), parse_amount("0.5 mg")
LIMIT = Fraction(1, 2)


def rungs(found: Ladder) -> list[tuple[int, int, tuple[int, ...]]]:
    return [(step.from_day, step.days, step.units) for step in found.steps]


def test_one_milligram_twice_to_half_in_eight_weeks() -> None:
    """Common practice, no source: taper over about two months; half the dose is a good end."""
    found = ladder((4, 4), (2, 2), 56, QUARTER, LIMIT, 7)
    assert rungs(found) == [(1, 14, (3, 4)), (15, 14, (3, 3)), (29, 14, (2, 3)), (43, 14, (2, 2))]
    assert found.largest_drop == Fraction(1, 5)
    assert found.total_units == 14 * (7 + 6 + 5 + 4)


def test_with_half_milligram_ampoules_there_are_two_steps() -> None:
    assert rungs(ladder((2, 2), (1, 1), 56, HALF, LIMIT, 7)) == [(1, 28, (1, 2)), (29, 28, (1, 1))]


def test_days_that_do_not_divide_are_even_to_a_day_longer_first() -> None:
    assert [step.days for step in ladder((4, 4), (2, 2), 59, QUARTER, LIMIT, 7).steps] == [15, 15, 15, 14]
    assert lengths(10, 4) == (3, 3, 2, 2)


def test_a_short_taper_has_fewer_steps() -> None:
    assert len(ladder((4, 4), (2, 2), 15, QUARTER, LIMIT, 7).steps) == 2


def test_a_limit_that_the_units_allow_is_kept() -> None:
    found = ladder((4, 4), (1, 1), 56, QUARTER, Fraction(3, 10), 7)
    free = ladder((4, 4), (1, 1), 56, QUARTER, Fraction(1), 7)
    assert free.largest_drop > Fraction(3, 10)
    assert found.largest_drop <= Fraction(1, 3)


def test_a_limit_that_the_units_do_not_allow_is_missed_by_as_little_as_possible() -> None:
    """From two puffs to one there is only the halving."""
    assert ladder((1, 1), (0, 1), 28, HALF, Fraction(1, 10), 7).largest_drop == Fraction(1, 2)


def test_geometric_line_takes_smaller_steps_later() -> None:
    found = ladder((8, 8), (2, 2), 56, QUARTER, LIMIT, 7, line="geometric", most_steps=4)
    drops = [before - after for before, after in pairwise([16, *(step.daily_units for step in found.steps)])]
    assert drops == sorted(drops, reverse=True) and drops[0] > drops[-1]


def test_alternatives_side_by_side() -> None:
    found = alternatives((4, 4), (2, 2), 56, QUARTER, LIMIT, 7)
    assert list(found) == ["closest to a straight line", "fewer steps", "once daily at the end"]
    assert rungs(found["fewer steps"]) == [(1, 56, (2, 2))]
    assert found["once daily at the end"].steps[-1].units == (0, 4)
    many = alternatives((10, 10), (5, 5), 56, QUARTER, LIMIT, 7)
    assert many["smaller drops"].largest_drop < many["closest to a straight line"].largest_drop


@pytest.mark.parametrize(
    ("start", "target", "days", "told"),
    [
        ((2, 2), (2, 2), 56, "below its start"),
        ((2, 2), (3, 1), 56, "never raises"),
        ((2, 2), (0, 0), 56, "ends at a dose"),
        ((2, 2), (1, 1), 6, "too few"),
        ((2, 2), (1,), 56, "same number of doses"),
        ((), (), 56, "same number of doses"),
    ],
)
def test_refused(start: tuple[int, ...], target: tuple[int, ...], days: int, told: str) -> None:
    with pytest.raises(Refused, match=told):
        ladder(start, target, days, QUARTER, LIMIT, 7)


# --- against brute force


def every_ladder(start: int, target: int, days: int, shortest: int) -> Iterator[tuple[int, ...]]:
    for count in range(start - target):
        if count + 1 <= days // shortest:
            for between in combinations(range(start - 1, target, -1), count):
                yield (*between, target)


def judged(levels: tuple[int, ...], start: int, days: int, limit: Fraction) -> tuple[object, ...]:
    """The objective of scheduler/taper.py's docstring, written again from its words."""
    drop = max(Fraction(before - after, before) for before, after in pairwise((start, *levels)))
    rough = sum((before - after) ** 2 for before, after in pairwise((start, *levels)))
    day, off = 0, Fraction(0)
    for level, span in zip(levels, lengths(days, len(levels)), strict=True):
        day += span
        off += span * (level - (start - Fraction((start - levels[-1]) * day, days))) ** 2
    return max(drop, limit), rough, off, len(levels)


@st.composite
def cases(draw: st.DrawFn) -> tuple[tuple[int, ...], tuple[int, ...], int, Fraction, int]:
    doses = draw(st.integers(1, 3))
    target = tuple(draw(st.integers(0, 3)) for _ in range(doses))
    start = tuple(least + draw(st.integers(0, 4)) for least in target)
    shortest = draw(st.integers(1, 9))
    days = draw(st.integers(shortest, 70))
    return start, target, days, Fraction(draw(st.integers(5, 100)), 100), shortest


@given(case=cases())
def test_the_search_finds_the_best_of_all_ladders(
    case: tuple[tuple[int, ...], tuple[int, ...], int, Fraction, int],
) -> None:
    start, target, days, limit, shortest = case
    if not any(target) or sum(start) == sum(target):
        return
    found = ladder(start, target, days, QUARTER, limit, shortest)
    mine = tuple(step.daily_units for step in found.steps)
    best = min(
        judged(levels, sum(start), days, limit) for levels in every_ladder(sum(start), sum(target), days, shortest)
    )
    assert judged(mine, sum(start), days, limit) == best


@given(case=cases())
def test_ladders_never_rise_and_end_at_the_target(
    case: tuple[tuple[int, ...], tuple[int, ...], int, Fraction, int],
) -> None:
    start, target, days, limit, shortest = case
    if not any(target) or sum(start) == sum(target):
        return
    for found in alternatives(start, target, days, QUARTER, limit, shortest).values():
        assert found.days == days
        assert sum(found.steps[-1].units) == sum(target)
        lasting = [step.days for step in found.steps]
        assert max(lasting) - min(lasting) <= 1 and min(lasting) >= shortest
        for before, after in pairwise([start, *(step.units for step in found.steps)]):
            assert all(later <= earlier for earlier, later in zip(before, after, strict=True))
            assert sum(after) < sum(before)


@given(case=cases())
def test_the_split_is_the_most_even_of_all(case: tuple[tuple[int, ...], tuple[int, ...], int, Fraction, int]) -> None:
    """Among all ways to spread a total inside the bounds: the smallest spread of squares, then the most towards
    bedtime."""
    start, target, _, _, _ = case
    for total in range(sum(target), sum(start) + 1):
        mine = split(start, target, total)
        ways = [
            way
            for way in product(*(range(low, high + 1) for low, high in zip(target, start, strict=True)))
            if sum(way) == total
        ]
        assert sum(units**2 for units in mine) == min(sum(units**2 for units in way) for way in ways)
        best = [way for way in ways if sum(units**2 for units in way) == sum(units**2 for units in mine)]
        assert mine == min(best)  # smallest first: the larger part towards bedtime


@given(quarters=st.integers(1, 40))
def test_the_fewest_ampoules_of_the_strengths_on_hand(quarters: int) -> None:
    strengths = [QUARTER, QUARTER * 4, HALF]
    made = make_up(QUARTER * quarters, strengths)
    assert sum(one.units_of(QUARTER) * count for one, count in made) == quarters  # type: ignore[operator]
    best = min(
        ones + halves + (quarters - 4 * ones - 2 * halves)
        for ones in range(quarters // 4 + 1)
        for halves in range((quarters - 4 * ones) // 2 + 1)
    )
    assert sum(count for _, count in made) == best


def test_strengths_that_do_not_go_together() -> None:
    with pytest.raises(Refused, match="not multiples"):
        make_up(parse_amount("1 mg"), [parse_amount("0.5 mg"), parse_amount("0.2 mg")])
    with pytest.raises(Refused, match="cannot be made"):
        make_up(parse_amount("0.6 mg"), [HALF, QUARTER])


def test_the_cost_of_a_ladder() -> None:
    assert cost_of((7, 6, 5, 4), (14, 14, 14, 14), 8, "straight") == (4, 0)
    assert cost_of((6, 4), (28, 28), 8, "straight") == (8, 0)
    assert cost_of((7, 4), (28, 28), 8, "straight") == (10, 28)


def test_a_prime_number_of_units_is_no_reason_to_stop_at_once() -> None:
    """11 units over 8 weeks in steps of a week: eight steps of one and two units, the larger ones where they matter
    least."""
    found = ladder((11, 11), (5, 6), 56, QUARTER, LIMIT, 7)
    drops = [before - after for before, after in pairwise([22, *(step.daily_units for step in found.steps)])]
    assert len(drops) == 8 and set(drops) == {1, 2}

"""Placing doses in a patient's day."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from datetime import time, timedelta

import pytest

from scheduler.dayplan import day_shift, fewer, judge, minimum_gap, place, since_waking
from scheduler.protocol import ClinicProtocol


@dataclass(frozen=True)
class Day:
    wakes: time
    sleeps: time
    meals: tuple[time, ...]


def day(wakes: str, sleeps: str, *meals: str) -> Day:
    return Day(time.fromisoformat(wakes), time.fromisoformat(sleeps), tuple(time.fromisoformat(meal) for meal in meals))


USUAL = day("06:45", "22:30", "07:15", "12:30", "18:45")
NIGHTS = day("15:00", "07:00", "16:00", "22:00", "03:00")  # a shift worker
LATE = day("10:00", "01:30", "11:00", "14:00", "20:00")  # sleeps past midnight


def shown(times: tuple[time, ...]) -> list[str]:
    return [f"{at:%H:%M}" for at in times]


@pytest.mark.parametrize(
    ("patient", "count", "times"),
    [
        (USUAL, 1, ["21:30"]),
        (USUAL, 2, ["07:45", "21:30"]),
        (NIGHTS, 2, ["16:30", "06:00"]),
        (LATE, 2, ["11:30", "00:30"]),
        (LATE, 1, ["00:30"]),
    ],
)
def test_after_breakfast_and_at_bedtime(patient: Day, count: int, times: list[str], protocol: ClinicProtocol) -> None:
    found = place(patient, count, protocol)
    assert shown(found.times) == times
    assert found.gives == ()


@pytest.mark.parametrize("patient", [USUAL, NIGHTS, LATE])
@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_windows_are_clear_of_meals_and_doses_keep_apart(patient: Day, count: int, protocol: ClinicProtocol) -> None:
    found = place(patient, count, protocol)
    slots = since_waking(patient, found.times)
    meals = since_waking(patient, patient.meals)
    window, lasts = int(protocol.number("window.no_food")), int(protocol.number("dayplan.meal_lasts"))
    for slot in slots:
        assert all(slot + window <= meal or meal + lasts <= slot for meal in meals)
    gap = minimum_gap(count, protocol) / timedelta(minutes=1)
    assert all(later - earlier >= gap for earlier, later in itertools.pairwise(slots))
    assert list(slots) == sorted(slots)


def test_a_late_dinner_pushes_the_bedtime_dose(protocol: ClinicProtocol) -> None:
    """Dinner at 21:00, sleep at 22:30: the window must follow the meal, so the dose comes at 21:30, not before."""
    found = place(day("06:45", "22:30", "07:15", "12:30", "21:00"), 2, protocol)
    assert shown(found.times) == ["07:45", "21:30"]
    clash = place(day("06:45", "22:30", "07:15", "12:30", "21:15"), 2, protocol)
    assert shown(clash.times)[1] == "20:45"


def test_what_gives_is_named_with_its_size(protocol: ClinicProtocol) -> None:
    """A day of ten hours cannot keep doses ten hours apart with time before sleep."""
    found = place(day("09:00", "19:00", "09:30"), 2, protocol)
    assert [(gives.rule, gives.minutes) for gives in found.gives] == [
        ("doses are at least 10 h apart", 30),
        ("the first dose follows breakfast and the last leaves time before sleep", 90),
    ]


def test_a_clinician_s_own_times_are_judged(protocol: ClinicProtocol) -> None:
    assert judge(USUAL, (time(7, 45), time(21, 30)), protocol) == ()
    gives = judge(USUAL, (time(7, 0), time(22, 15)), protocol)
    # windows over breakfast and past bedtime; the night too short; both ends; the day too long
    assert [one.minutes for one in gives] == [30, 75, 90, 75]


@pytest.mark.parametrize(
    ("patient", "at", "shift"),
    [
        (USUAL, "21:30", 0),
        (USUAL, "06:30", 0),
        (USUAL, "00:30", 1),
        (LATE, "00:30", 1),
        (LATE, "11:30", 0),
        (NIGHTS, "06:00", 1),
        (NIGHTS, "16:30", 0),
        (NIGHTS, "14:30", 0),
        (day("04:00", "19:00", "05:00"), "23:45", 0),
    ],
)
def test_which_date_a_dose_falls_on(patient: Day, at: str, shift: int) -> None:
    assert day_shift(patient, time.fromisoformat(at)) == shift


def test_fewer_doses_keep_the_bedtime_one() -> None:
    four = (time(7, 45), time(11, 45), time(15, 45), time(21, 30))
    assert shown(fewer(four, USUAL, 1)) == ["21:30"]
    assert shown(fewer(four, USUAL, 2)) == ["07:45", "21:30"]
    assert shown(fewer(four, USUAL, 3)) == ["07:45", "15:45", "21:30"]
    assert fewer(four, USUAL, 4) == four


def test_more_doses_a_day_may_come_closer(protocol: ClinicProtocol) -> None:
    assert minimum_gap(2, protocol) == timedelta(hours=6)
    assert minimum_gap(4, protocol) == timedelta(hours=3)

"""Pairs and dates that cannot be: a height for an age, a signature in the future; and a taper that falls steeply."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from fractions import Fraction

import pytest

from scheduler.amounts import Amount
from scheduler.cautions import cautions, signed_ahead
from scheduler.errors import WrongInput
from scheduler.growth import height_doubt
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol
from scheduler.taper import gentlest

# CDC stature-for-age charts (2000), boys: months, 3rd, 50th and 97th percentile in cm.
CDC_BOYS = [(24, 79.91, 86.45, 93.02), (36.5, 88.38, 95.27, 102.94), (47.5, 94.10, 101.94, 109.92),
            (60.5, 100.33, 109.18, 117.83), (71.5, 105.62, 115.12, 124.50), (84.5, 111.95, 122.03, 132.33),
            (96.5, 117.50, 128.12, 139.25), (108.5, 122.40, 133.73, 145.66), (120.5, 126.67, 138.82, 151.53),
            (131.5, 130.45, 143.31, 156.78), (143.5, 135.21, 148.79, 163.13), (155.5, 141.19, 155.76, 170.68),
            (168.5, 148.53, 164.14, 178.82), (180.5, 154.61, 170.14, 184.13), (192.5, 158.85, 173.61, 187.09)]


@pytest.mark.parametrize(("months", "low", "middle", "high"), CDC_BOYS)
def test_real_children_are_not_doubted(months: float, low: float, middle: float, high: float,
                                       protocol: ClinicProtocol) -> None:
    """Nothing within 3.9 standard deviations of the charts is doubted (a deviation is the distance of the 97th or 3rd
    percentile over 1.881); what is 35 % above the median at that age is."""
    years = int(months // 12)
    for height in (middle - 3.9 * (middle - low) / 1.881, low, middle, high, middle + 3.9 * (high - middle) / 1.881):
        assert height_doubt(years, round(height), protocol) is None
    if years < 10:
        assert height_doubt(years, round(middle * 1.35), protocol) is not None


@pytest.mark.parametrize(("age", "height", "problem"), [(3, 168, True), (0, 168, True), (3, 125, False), (9, 95, False),
                                                         (34, 70, True), (34, 250, False)])
def test_heights_that_do_not_fit(age: int, height: int, problem: bool, changed: Callable[..., Plan],
                                 protocol: ClinicProtocol) -> None:
    """3 years: 79 to 121 cm; 15 % beyond is 139. 9 years: from 107 (91). Adults: 100 to 230 (85, 264)."""
    pair = ("age_years = 34", f"age_years = {age}"), ("height_cm = 168", f"height_cm = {height}")
    if problem:
        with pytest.raises(WrongInput) as wrong:
            changed("kt-014", *pair)
        assert [one.field for one in wrong.value.problems] == ["patient.height_cm"]
        assert "Correct age_years or height_cm" in wrong.value.problems[0].message
    else:
        told, = (one for one in cautions(changed("kt-014", *pair), protocol) if one.topic == "height for age")
        assert told.text.startswith(f"{height} cm") and "CDC" in told.source


def test_a_signature_in_the_future(changed: Callable[..., Plan]) -> None:
    now = datetime(2026, 3, 1, 6, 30, tzinfo=UTC)              # 28 February, 23:30 in Denver
    assert not signed_ahead(changed("kt-014", ("on = 2026-02-27", "on = 2026-02-28")), now)
    told, = signed_ahead(changed("kt-014", ("on = 2026-02-27", "on = 2026-03-01")), now)
    assert "dated 2026-03-01, in the future (today is 2026-02-28)" in told.text
    assert signed_ahead(changed("kt-014", ("on = 2026-02-27", "on = 2099-02-27")), now)


def test_the_gentlest_ladder() -> None:
    """8 units to 2 in four steps: 6, 4, 3, 2 falls by 25, 33.3, 25, 33.3 %. No other choice of three levels between
    does better: all of them are tried."""
    found = gentlest((4, 4), (1, 1), 56, Amount.of("0.5", "mg"), 14)
    assert [step.daily_units for step in found.steps] == [6, 4, 3, 2] and found.largest_drop == Fraction(1, 3)
    every = [max(Fraction(8 - a, 8), Fraction(a - b, a), Fraction(b - c, b), Fraction(c - 2, c))
             for a in range(5, 8) for b in range(4, a) for c in range(3, b)]
    assert min(every) == found.largest_drop


def test_a_rough_taper_names_the_gentler_one(changed: Callable[..., Plan], ok_plan: Callable[[str], Plan],
                                             protocol: ClinicProtocol) -> None:
    """2 mg to 0.5 mg twice a day in 0.5 mg ampoules: the default ladder is 7, 5, 4, 2 units and ends with 4 to 2."""
    plan = changed("kt-014", ('lasts = "8 weeks"\ndose = "1 mg"', 'lasts = "8 weeks"\ndose = "2 mg"'))
    assert [sum(dose.units for dose in step.doses) for step in plan.phases[1].steps] == [7, 5, 4, 2]
    told, = (one for one in cautions(plan, protocol) if one.topic == "rough taper")
    assert "from 2 mg to 1 mg, 50 %; the protocol calls more than 35 % a rough step" in told.text
    assert ("Gentler in the same days, at most 33.3 %: 14 days 1.5 mg + 1.5 mg, 14 days 1 mg + 1 mg, "
            "14 days 0.5 mg + 1 mg, 14 days 0.5 mg + 0.5 mg.") in told.text
    assert not [one for one in cautions(ok_plan("kt-014"), protocol) if one.topic == "rough taper"]   # 25 and 33.3 %


def test_where_nothing_is_gentler_that_is_said(changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    """Straight from 2 mg to 1 mg a day: a phase without an end has no days to take steps in."""
    plan = changed("kt-014", ('dose = "0.5 mg"\ntimes_per_day = 2\n\n[[season]]',
                              'dose = "0.5 mg"\ntimes_per_day = 1\n\n[[season]]'))
    told, = (one for one in cautions(plan, protocol) if one.topic == "rough taper")
    assert told.text.startswith("maintenance: One step takes the day from 1 mg to 0.5 mg, 50 %")
    assert "smaller units or more weeks would" in told.text

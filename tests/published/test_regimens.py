"""Published regimens and ratios: the plan format can state each one, and amounts, units and totals come out as printed.

Trust is named where it is less than 'read in the source': 'second-hand' or 'from memory'.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import NamedTuple

import pytest

from scheduler.amounts import Amount, parse_amount
from scheduler.errors import WrongInput
from scheduler.medicine import bounds
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol
from scheduler.supply import Supplies


class Row(NamedTuple):
    source: str
    strength: str
    dose: str
    times: int
    weeks: int
    daily: str  # as printed, or by arithmetic on it
    units: int  # ampoules or puffs in all
    packs: int  # cartons of 30 ampoules (US generic label) or canisters of 120 (US label)
    age: int = 40
    height: int = 170


HALF, ONE, QUARTER = "0.5 mg / 2 mL", "1 mg / 2 mL", "0.25 mg / 2 mL"
ROWS = [
    # budesonide slurry
    Row("Aceves 2007 (dose from memory): 1 to 2 mg a day", HALF, "0.5 mg", 2, 12, "1 mg", 168, 6, 5, 110),
    Row("Dohil 2010 (from memory): 1 mg a day below 150 cm, 3 months", HALF, "0.5 mg", 2, 12, "1 mg", 168, 6, 8, 130),
    Row("Dohil 2010 (from memory): 2 mg a day from 150 cm, 3 months", HALF, "1 mg", 2, 12, "2 mg", 336, 12, 14, 160),
    Row("Dellon 2012: 1 mg twice a day, 8 weeks", HALF, "1 mg", 2, 8, "2 mg", 224, 8),
    Row("Dellon 2019: 1 mg per 4 mL twice a day, 8 weeks", HALF, "1 mg", 2, 8, "2 mg", 224, 8),
    Row("Chan 2024 (BSPGHAN): below 10 years 0.5 mg twice a day, at least 3 months", HALF, "0.5 mg", 2, 13, "1 mg",
        182, 7, 8, 128),
    Row("Chan 2024 (BSPGHAN): from 10 years 1 mg twice a day, at least 3 months", ONE, "1 mg", 2, 13, "2 mg", 182, 7,
        12, 150),
    Row("Oliva 2019: below 150 cm 2 mg a day, 12 weeks", HALF, "1 mg", 2, 12, "2 mg", 336, 12, 9, 135),
    Row("Oliva 2019: from 150 cm 4 mg a day, 12 weeks", ONE, "2 mg", 2, 12, "4 mg", 336, 12, 14, 160),
    Row("ACG 2013 (from memory): children below 10 years 1 mg a day, split", HALF, "0.5 mg", 2, 8, "1 mg", 112, 4, 9,
        135),
    Row("ACG 2013 (from memory): adults 2 mg a day, split", HALF, "1 mg", 2, 8, "2 mg", 224, 8),
    Row("UEG 2017 (from memory): adults 2 to 4 mg a day", ONE, "2 mg", 2, 8, "4 mg", 224, 8),
    Row(
        "ESPGHAN 2024 (from memory): up to 4 mg a day when not responding", ONE, "2 mg", 2, 12, "4 mg", 336, 12, 15, 165
    ),
    Row("CMAJ review, Table 1: induction 1 mg twice a day", HALF, "1 mg", 2, 8, "2 mg", 224, 8),
    Row("CMAJ review, Table 1: maintenance from 0.25 mg twice a day", QUARTER, "0.25 mg", 2, 50, "0.5 mg", 700, 24),
    Row("Gut review, Table 5: children 1 to 2 mg a day, 3 to 4 months", HALF, "1 mg", 2, 16, "2 mg", 448, 15, 12, 150),
    Row("Straumann 2011: 0.25 mg twice a day, 50 weeks", QUARTER, "0.25 mg", 2, 50, "0.5 mg", 700, 24),
    Row("Once-daily budesonide 1 mg, J Clin Gastroenterol 2026;60:136", HALF, "1 mg", 1, 12, "1 mg", 168, 6),
    Row("US label of BOS: 2 mg twice a day, 12 weeks, from 11 years", ONE, "2 mg", 2, 12, "4 mg", 336, 12, 11, 151),
    Row("CMAJ review, Table 1 (tablet): maintenance 0.5 mg twice a day, 48 weeks", HALF, "0.5 mg", 2, 48, "1 mg", 672,
        23),
    Row("CMAJ review, Table 1: once a day the whole dose when twice a day fails", ONE, "2 mg", 1, 8, "2 mg", 112, 4),
    Row("Straumann 2010 (from memory): 1 mg twice a day, about 2 weeks", HALF, "1 mg", 2, 2, "2 mg", 56, 2),
    # swallowed fluticasone
    Row("CMAJ review, Table 1: inhaler 1 mg twice a day (label at the valve)", "250 microgram", "1000 microgram", 2, 8,
        "2000 microgram", 448, 4),
    Row("CMAJ review, Table 1: inhaler, maintenance 0.25 mg twice a day (label at the valve)", "125 microgram",
        "250 microgram", 2, 8, "500 microgram", 224, 2),
    Row("Dellon 2019: 880 microgram twice a day, 8 weeks", "220 microgram", "880 microgram", 2, 8, "1760 microgram",
        448, 4),
    Row("US inhaler label: ceiling of 880 microgram twice a day", "220 microgram", "880 microgram", 2, 4,
        "1760 microgram", 224, 2),
    Row("Teitelbaum 2002: 2 to 4 years 88 microgram twice a day, 8 weeks", "44 microgram", "88 microgram", 2, 8,
        "176 microgram", 224, 2, 3, 95),
    Row("Teitelbaum 2002: 5 to 10 years 220 microgram twice a day, 8 weeks", "110 microgram", "220 microgram", 2, 8,
        "440 microgram", 224, 2, 7, 122),
    Row("Teitelbaum 2002: from 11 years 440 microgram twice a day, 8 weeks", "220 microgram", "440 microgram", 2, 8,
        "880 microgram", 224, 2, 13, 156),
    Row("Konikoff 2006: 440 microgram twice a day, 3 months", "220 microgram", "440 microgram", 2, 13, "880 microgram",
        364, 4, 9, 134),
    Row("Schaefer 2008: 1 to 10 years 220 microgram four times a day, 4 weeks", "110 microgram", "220 microgram", 4, 4,
        "880 microgram", 224, 2, 6, 115),
    Row("Schaefer 2008: 11 to 18 years 440 microgram four times a day, 4 weeks", "220 microgram", "440 microgram", 4,
        4, "1760 microgram", 224, 2, 14, 162),
    Row("Andreae 2016 (authors from memory): 2 to 4 years 2 puffs of 44 twice a day", "44 microgram", "88 microgram",
        2, 16, "176 microgram", 448, 4, 4, 100),
    Row("Andreae 2016 (authors from memory): 5 to 11 years 2 puffs of 110 twice a day", "110 microgram",
        "220 microgram", 2, 16, "440 microgram", 448, 4, 9, 133),
    Row("Andreae 2016 (authors from memory): from 12 years 2 puffs of 220 twice a day", "220 microgram",
        "440 microgram", 2, 16, "880 microgram", 448, 4, 15, 165),
    Row("Alexander 2012 (from memory): 880 microgram twice a day, 6 weeks", "220 microgram", "880 microgram", 2, 6,
        "1760 microgram", 336, 3),
    Row("Gut review, Table 5: children 440 to 880 microgram a day", "110 microgram", "220 microgram", 2, 8,
        "440 microgram", 224, 2, 10, 140),
    Row("UK consultant's page 2015: below 10 years 220 microgram twice a day", "110 microgram", "220 microgram", 2, 8,
        "440 microgram", 224, 2, 8, 128),
    Row("UK consultant's page 2015: adults 440 microgram twice a day", "220 microgram", "440 microgram", 2, 8,
        "880 microgram", 224, 2),
]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.source)
def test_a_published_regimen_can_be_planned(
    row: Row, regimen: Callable[..., Plan], uses: Callable[[Plan], Supplies]
) -> None:
    plan = regimen(
        row.strength,
        f"""[[phase]]
name = "induction"
starts = {{starts}}
lasts = "{row.weeks} weeks"
dose = "{row.dose}"
times_per_day = {row.times}
""",
        age=row.age,
        height=row.height,
    )
    doses = plan.phases[0].steps[0].doses
    assert len(doses) == row.times
    assert sum((dose.amount.micrograms for dose in doses), Decimal(0)) == parse_amount(row.daily).micrograms
    found = uses(plan)
    assert (found.total.days, found.total.doses) == (row.weeks * 7, row.weeks * 7 * row.times)
    assert (found.total.units, found.total.packs) == (row.units, row.packs)


def test_oliva_halving(regimen: Callable[..., Plan], uses: Callable[[Plan], Supplies]) -> None:
    """Oliva 2019: 4 mg a day for 12 weeks from 150 cm, then half."""
    plan = regimen(
        ONE,
        """[[phase]]
name = "induction"
starts = {starts}
lasts = "12 weeks"
dose = "2 mg"
times_per_day = 2
[[phase]]
name = "half"
lasts = "12 weeks"
dose = "1 mg"
times_per_day = 2
""",
        age=14,
        height=158,
    )
    found = uses(plan)
    assert [use.units for use in found.phases] == [336, 168]
    assert found.phases[1].units * 2 == found.phases[0].units
    assert found.total.units == 504


def test_butz_half_dose_keeps_remission(regimen: Callable[..., Plan], uses: Callable[[Plan], Supplies]) -> None:
    """Butz 2014 (second-hand): 1760 microgram a day for 3 months, then 880 microgram a day."""
    plan = regimen(
        "220 microgram",
        """[[phase]]
name = "induction"
starts = {starts}
lasts = "13 weeks"
dose = "880 microgram"
times_per_day = 2
[[phase]]
name = "maintenance"
lasts = "26 weeks"
dose = "440 microgram"
times_per_day = 2
""",
    )
    found = uses(plan)
    assert [use.units for use in found.phases] == [91 * 8, 182 * 4]
    assert [str(dose.amount) for dose in plan.phases[1].steps[0].doses] == ["440 microgram"] * 2


def test_schaefer_wean(regimen: Callable[..., Plan], uses: Callable[[Plan], Supplies]) -> None:
    """Schaefer 2008: 440 microgram four times a day for 4 weeks, then an 8-week wean.

    The rungs of the wean (three times a day 3 weeks, twice 3 weeks, once 2 weeks) are from memory; that it lasts 8
    weeks is read.
    """
    plan = regimen(
        "220 microgram",
        """[[phase]]
name = "induction"
starts = {starts}
lasts = "4 weeks"
dose = "440 microgram"
times_per_day = 4
[[phase]]
name = "wean"
lasts = "8 weeks"
[[phase.step]]
lasts = "3 weeks"
dose = "440 microgram"
times_per_day = 3
[[phase.step]]
lasts = "3 weeks"
dose = "440 microgram"
times_per_day = 2
[[phase.step]]
lasts = "2 weeks"
dose = "440 microgram"
times_per_day = 1
""",
        age=14,
        height=160,
    )
    found = uses(plan)
    assert [use.units for use in found.phases] == [28 * 8, 21 * 6 + 21 * 4 + 14 * 2]
    assert found.total.days == 84


def test_nebulised_dose_of_fifteen_days(regimen: Callable[..., Plan], uses: Callable[[Plan], Supplies]) -> None:
    """Straumann 2010 (from memory): 1 mg twice a day for 15 days."""
    plan = regimen(
        HALF, '[[phase]]\nname = "short"\nstarts = {starts}\nlasts = "15 days"\ndose = "1 mg"\ntimes_per_day = 2\n'
    )
    assert uses(plan).total.units == 60


def test_twelve_milligram_a_day_is_not_planned(regimen: Callable[..., Plan]) -> None:
    """Gut review, Table 5 prints adults 2 to 12 mg a day (abstract data); the example protocol stops at 4
    (ACG 2025)."""
    with pytest.raises(WrongInput, match=r"protocol allows 0\.25 mg to 4 mg per day"):
        regimen(
            ONE, '[[phase]]\nname = "high"\nstarts = {starts}\nlasts = "4 weeks"\ndose = "2 mg"\ntimes_per_day = 3\n'
        )


def test_two_milligram_of_fluticasone_is_not_planned(regimen: Callable[..., Plan]) -> None:
    """CMAJ review, Table 1 prints up to 2 mg twice a day by inhaler, 2.3 times the dose of the trials (Dellon 2019)."""
    with pytest.raises(WrongInput, match="protocol allows 88 microgram to 1000 microgram per dose"):
        regimen(
            "250 microgram",
            '[[phase]]\nname = "high"\nstarts = {starts}\nlasts = "4 weeks"\ndose = "2000 microgram"\n'
            "times_per_day = 2\n",
        )


RANGES = [
    ("ACG 2025 (second-hand): children 1 to 2 mg a day", "budesonide", "child", "1 mg", "2 mg"),
    ("ACG 2025 (second-hand): adults 2 to 4 mg a day", "budesonide", "adult", "2 mg", "4 mg"),
    ("UEG 2017 (from memory): maintenance 1 to 2 mg a day", "budesonide", "adult", "1 mg", "2 mg"),
    ("CMAJ review, Table 1: maintenance 0.25 to 1 mg twice a day", "budesonide", "child", "0.5 mg", "2 mg"),
    (
        "ACG 2025 (second-hand): children 110 to 880 microgram a day",
        "fluticasone",
        "child",
        "110 microgram",
        "880 microgram",
    ),
    ("ACG 2025 (second-hand): adults 1760 microgram a day", "fluticasone", "adult", "1760 microgram", "1760 microgram"),
    (
        "UEG 2017 (from memory): children 880 to 1760 microgram a day",
        "fluticasone",
        "child",
        "880 microgram",
        "1760 microgram",
    ),
    (
        "UEG 2017 (from memory): maintenance 440 to 1760 microgram a day",
        "fluticasone",
        "adult",
        "440 microgram",
        "1760 microgram",
    ),
    (
        "ACG 2013 (from memory): adults 440 to 880 microgram twice a day",
        "fluticasone",
        "adult",
        "880 microgram",
        "1760 microgram",
    ),
]


@pytest.mark.parametrize(("source", "name", "group", "least", "most"), RANGES, ids=lambda value: str(value)[:40])
def test_published_ranges_lie_inside_the_bounds(
    source: str, name: str, group: str, least: str, most: str, protocol: ClinicProtocol
) -> None:
    allowed = bounds(name, group, "daily", protocol)
    assert parse_amount(least) in allowed and parse_amount(most) in allowed, source


def test_ten_times_the_largest_published_day_lies_outside(protocol: ClinicProtocol) -> None:
    """What bounds are for: a slip of the decimal point or of the unit never passes."""
    for name, day in (("budesonide", "4 mg"), ("fluticasone", "1760 microgram")):
        for group in ("child", "adult"):
            allowed = bounds(name, group, "daily", protocol)
            assert parse_amount(day) * 10 not in allowed
            assert Amount(parse_amount(day).micrograms / 1000) not in allowed

"""What a gram of sweetener adds to the volume, from handbook densities; and what the vehicles bring in carbohydrate."""

from __future__ import annotations

from decimal import Decimal

import pytest

from scheduler.amounts import parse_amount, parse_strength
from scheduler.protocol import ClinicProtocol
from scheduler.recipe import mix

# Densities of aqueous solutions at 20 °C, g/cm3, by mass percent: CRC Handbook of Chemistry and Physics, 'Concentrative
# properties of aqueous solutions' (read in a public copy of the 102nd edition's table). Water at 20 °C: 0.9982.
WATER = 0.9982
DEXTROSE = {5: 1.0175, 10: 1.0375, 20: 1.0797, 30: 1.1246, 40: 1.1724, 50: 1.2235, 60: 1.2793}
MALTOSE = {5: 1.0184, 10: 1.0385, 15: 1.0585}  # stands for maltodextrin, which the table lacks


def displaced(percent: float, density: float) -> float:
    """mL that a gram of solute adds to the water it is dissolved in."""
    return (100 / density - (100 - percent) / WATER) / percent


def density_of(percent: float) -> float:
    below = max(one for one in DEXTROSE if one <= percent)
    above = min((one for one in DEXTROSE if one >= percent), default=below)
    if above == below:
        return DEXTROSE[below]
    part = (percent - below) / (above - below)
    return DEXTROSE[below] + part * (DEXTROSE[above] - DEXTROSE[below])


@pytest.mark.parametrize("table", [DEXTROSE, MALTOSE], ids=["dextrose", "maltose"])
def test_the_protocol_s_displacement_is_the_handbook_s(table: dict[int, float], protocol: ClinicProtocol) -> None:
    value = float(protocol.number("sweetener.displacement"))
    for percent, density in table.items():
        assert displaced(percent, density) == pytest.approx(value, abs=0.025), percent


@pytest.mark.parametrize("grams", [2.5, 5.0])
def test_the_volume_of_a_mix_against_the_table(grams: float, protocol: ClinicProtocol) -> None:
    """Inside the table (to 60 % by mass): grams of dextrose in the water of 0.5 mg ampoules, volume from the density
    itself."""
    ml = 4.0
    mass = ml * WATER + grams
    by_table = mass / density_of(100 * grams / mass)
    by_rule = ml + grams * float(protocol.number("sweetener.displacement"))
    assert by_rule == pytest.approx(by_table, rel=0.02)


def test_ten_grams_in_four_millilitres_extrapolated(protocol: ClinicProtocol) -> None:
    """71 % by mass is beyond the table; its last row's displacement bounds the volume of the mix from above."""
    made = mix("budesonide", parse_amount("1 mg"), parse_strength("0.5 mg / 2 mL"), "sweetener", protocol)
    assert made.total_ml is not None
    assert 4 + 10 * displaced(10, DEXTROSE[10]) - 0.1 <= float(made.total_ml) <= 4 + 10 * displaced(60, DEXTROSE[60])


def test_the_page_s_own_arithmetic_is_not_used(protocol: ClinicProtocol) -> None:
    """UK consultant's page 2015 says about 8 mL for 4 mL and 10 g, 0.4 mL per gram: less than the sugar itself can
    take up."""
    solid = 1 / 1.56  # mL per gram of dextrose crystals (density from memory)
    assert 0.4 < solid < float(protocol.number("sweetener.displacement")) + 0.03


# USDA FoodData Central, SR Legacy: carbohydrate in 100 g, and grams of one measure in mL (US cup 236.6, tablespoon
# 14.79).
# Honey and maple syrup read in public copies of the table; apple sauce (unsweetened) from memory.
USDA = {
    "honey": (82.40, 21.0, 14.787),
    "maple_syrup": (67.04, 20.0, 14.787),
    "apple_sauce": (11.27, 244.0, 236.588),
}


@pytest.mark.parametrize("vehicle", sorted(USDA))
def test_carbohydrate_of_five_millilitres(vehicle: str, protocol: ClinicProtocol) -> None:
    per_100_g, grams, ml = USDA[vehicle]
    by_table = per_100_g / 100 * grams / ml * 5
    assert float(protocol.number(f"vehicle.carbohydrate.{vehicle}")) == pytest.approx(by_table, rel=0.04)


def test_twenty_packets_bring_more_than_two_teaspoons_of_honey(protocol: ClinicProtocol) -> None:
    """US diabetes association page (0.9 g a packet): 20 packets are about 18 g; 2 teaspoons of honey 11 to 12 g."""
    packets, honey = 20 * protocol.number("sweetener.carbohydrate"), 2 * protocol.number("vehicle.carbohydrate.honey")
    assert packets == 18 and Decimal(11) <= honey <= Decimal(12)


def test_sucralose_limits_are_reached_where_the_table_says(protocol: ClinicProtocol) -> None:
    """FDA 5 mg/kg and JECFA/EFSA 15 mg/kg (AAP policy table 2019), 12 mg a packet: 20 packets at 48 and 16 kg, 10 at
    24 and 8."""
    mg = protocol.number("sweetener.sucralose")
    assert [
        packets * mg / protocol.number(key)
        for packets in (20, 10)
        for key in ("sweetener.limit_low", "sweetener.limit_high")
    ] == [48, 16, 24, 8]

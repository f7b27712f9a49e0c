"""Published mixing ratios and volumes: packets, teaspoons, millilitres and puffs come out as printed.

Trust is named where it is less than 'read in the source': 'second-hand' or 'from memory'.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest

from scheduler.amounts import parse_amount, parse_strength
from scheduler.cautions import cautions
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol
from scheduler.recipe import Preparation, mix, parse_rule, preparation

HALF, ONE, QUARTER = "0.5 mg / 2 mL", "1 mg / 2 mL", "0.25 mg / 2 mL"
MIXES = [
    # source, dose, ampoule, rule, ampoules, mL of medicine, grams, packets
    ("UK NHS leaflet: 5 g for 0.5 mg", "0.5 mg", HALF, "10 g per mg", 1, 2, 5, 5),
    ("UK NHS leaflet: 10 g for 1 mg, 1 mg ampoules", "1 mg", ONE, "10 g per mg", 1, 2, 10, 10),
    ("UK NHS leaflet: 20 g for 2 mg, 1 mg ampoules", "2 mg", ONE, "10 g per mg", 2, 4, 20, 20),
    ("US patient-information page: 5 packets for each 0.5 mg ampoule", "1 mg", HALF, "10 g per mg", 2, 4, 10, 10),
    ("US respiratory hospital leaflet 2018: 5 packets an ampoule", "1 mg", ONE, "5 g per ampoule", 1, 2, 5, 5),
    ("US respiratory hospital leaflet 2018: 5 packets an ampoule", "0.25 mg", QUARTER, "5 g per ampoule", 1, 2, 5, 5),
    (
        "UK consultant's page 2015: two 0.5 mg ampoules and ten packets of 1 g",
        "1 mg",
        HALF,
        "10 g per mg",
        2,
        4,
        10,
        10,
    ),
    ("Aceves 2007 (from memory): 5 packets of 1 g per 0.5 mg", "0.5 mg", HALF, "10 g per mg", 1, 2, 5, 5),
]


@pytest.mark.parametrize(("source", "dose", "ampoule", "rule", "ampoules", "ml", "grams", "packets"), MIXES)
def test_published_ratios(
    source: str,
    dose: str,
    ampoule: str,
    rule: str,
    ampoules: int,
    ml: int,
    grams: int,
    packets: int,
    protocol: ClinicProtocol,
) -> None:
    made = mix("budesonide", parse_amount(dose), parse_strength(ampoule), "sweetener", protocol, rule=parse_rule(rule))
    assert (made.ampoules, made.medicine_ml, made.sweetener_g, made.packets) == (ampoules, ml, grams, packets), source


def test_the_two_rules_agree_for_half_milligram_ampoules_only() -> None:
    """The two published forms, 10 g per mg and 5 g per ampoule, differ twofold at 1 mg and at 0.25 mg per ampoule."""
    per_mg, per_ampoule = parse_rule("10 g per mg"), parse_rule("5 g per ampoule")
    assert per_mg.grams_for(parse_amount("0.5 mg"), 1) == per_ampoule.grams_for(parse_amount("0.5 mg"), 1)
    assert per_mg.grams_for(parse_amount("1 mg"), 1) == 2 * per_ampoule.grams_for(parse_amount("1 mg"), 1)
    assert per_ampoule.grams_for(parse_amount("0.25 mg"), 1) == 2 * per_mg.grams_for(parse_amount("0.25 mg"), 1)


def made_of(dose: str, ampoule: str, vehicle: str, protocol: ClinicProtocol) -> Preparation:
    return mix("budesonide", parse_amount(dose), parse_strength(ampoule), vehicle, protocol)


def test_two_millilitres_and_ten_packets_make_about_eight(protocol: ClinicProtocol) -> None:
    """Common practice, no source: a 2 mL ampoule with ten 1 g packets makes about 8 mL."""
    total = made_of("1 mg", ONE, "sweetener", protocol).total_ml
    assert total is not None and abs(total - 8) <= Decimal("0.5")


def test_four_millilitres_and_ten_packets_make_about_ten(protocol: ClinicProtocol) -> None:
    """ACG 2025 (second-hand): about 10 mL a dose is the goal when an asthma preparation is adapted."""
    total = made_of("1 mg", HALF, "sweetener", protocol).total_ml
    assert total is not None and abs(total - 10) <= Decimal("0.5")


@pytest.mark.parametrize("vehicle", ["honey", "maple syrup", "apple sauce"])
def test_two_millilitres_and_a_teaspoon_make_seven(vehicle: str, protocol: ClinicProtocol) -> None:
    """Common practice, no source: 5 mL of honey, maple syrup or apple sauce with 2 mL makes 7 mL. A teaspoon is 5 mL
    (21 CFR 101.9(b)(5)(viii)); 1 teaspoon: US children's-health page, US respiratory hospital leaflet."""
    made = made_of("0.5 mg", HALF, vehicle, protocol)
    assert (made.vehicle_ml, made.total_ml) == (5, 7)


def test_formula_powder_by_the_teaspoon(protocol: ClinicProtocol) -> None:
    """US children's-health page: 1 teaspoon of amino-acid formula powder a dose; its volume in the mix is not known."""
    made = made_of("1 mg", HALF, "formula powder", protocol)
    assert (made.vehicle_ml, made.total_ml, made.mg_per_ml) == (5, None, None)


def test_the_trial_slurry(protocol: ClinicProtocol, regimen: Callable[..., Plan]) -> None:
    """Dellon 2019: 1 mg per 4 mL, the liquid of two 0.5 mg ampoules."""
    plan = regimen(
        HALF, '[[phase]]\nname = "a"\nstarts = {starts}\nlasts = "8 weeks"\ndose = "1 mg"\ntimes_per_day = 2\n'
    )
    assert preparation(plan, plan.phases[0].steps[0].doses[0], protocol).medicine_ml == 4


@pytest.mark.parametrize(("dose", "puffs"), [("440 microgram", 2), ("880 microgram", 4)])
def test_two_to_four_puffs(dose: str, puffs: int, regimen: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    """Common practice, no source: 440 to 880 microgram twice a day is two to four puffs of 220."""
    plan = regimen(
        "220 microgram",
        f'[[phase]]\nname = "a"\nstarts = {{starts}}\nlasts = "8 weeks"\ndose = "{dose}"\ntimes_per_day = 2\n',
    )
    assert preparation(plan, plan.phases[0].steps[0].doses[0], protocol).puffs == puffs


@pytest.mark.parametrize(("mouthpiece", "valve"), [("44", "50"), ("110", "125"), ("220", "250")])
def test_two_label_conventions_of_one_canister(
    mouthpiece: str, valve: str, regimen: Callable[..., Plan], protocol: ClinicProtocol
) -> None:
    """US label description: 44/110/220 at the mouthpiece equal 50/125/250 at the valve: the same puffs,
    and the plan says so."""
    made = []
    for strength in (mouthpiece, valve):
        plan = regimen(
            f"{strength} microgram",
            '[[phase]]\nname = "a"\nstarts = {starts}\nlasts = "8 weeks"\n'
            f'dose = "{int(strength) * 2} microgram"\ntimes_per_day = 2\n',
            age=12,
            height=150,
        )
        made.append(preparation(plan, plan.phases[0].steps[0].doses[0], protocol).puffs)
        assert any("labelled in two ways" in one.text for one in cautions(plan, protocol))
    assert made == [2, 2]


def test_defaults_of_the_example_protocol(protocol: ClinicProtocol) -> None:
    """Window 30 min: UK NHS leaflet, US page, UK consultant, BOS US label. Rinse at once: US children's-health page.
    Mix when
    taken: UK NHS leaflet; no stability data were found. 30 ampoules a carton, 120 puffs: US labels."""
    assert protocol.number("window.no_food") == 30 and protocol["window.no_food"].unit == "min"
    assert protocol.text("rinse.order") == "at once"
    assert protocol.number("mix.ahead_limit") == 0
    assert protocol.number("inhaler.prime_first") == 4 and protocol.number("inhaler.prime_again") == 1
    assert protocol.number("inhaler.prime_after") == 7

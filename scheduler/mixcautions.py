"""Cautions about what a dose is mixed with: sugars, sucralose, the sweetener rule, honey, mixing ahead, the label."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from scheduler.amounts import plain
from scheduler.cautioning import Caution, highest_day, named
from scheduler.knownnames import DIABETES
from scheduler.plan import Dose, Plan
from scheduler.protocol import ClinicProtocol
from scheduler.recipe import parse_rule, preparation

SMALL_ADULT_KG = 40  # without a weight, an adult is warned of a limit that is reached only from here on


def sugars(plan: Plan, protocol: ClinicProtocol) -> Iterator[Caution]:
    if plan.medicine.form != "ampoule":
        return
    grams = carbohydrate(plan, highest_day(plan), protocol)
    diabetes = named(DIABETES, plan.patient.conditions)
    if diabetes and grams is not None:
        what = (
            "packets hold dextrose and maltodextrin"
            if plan.medicine.vehicle == "sweetener"
            else f"{plan.medicine.vehicle}"
        )
        yield Caution(
            "sugar",
            f"Diabetes: the mix brings up to {plain(grams)} g of carbohydrate a day ({what}).",
            "US diabetes association page; USDA figures",
            True,
        )
    elif diabetes:
        yield Caution(
            "sugar",
            "Diabetes: the carbohydrate of the formula powder is on its label; count it.",
            "product label",
            True,
        )


def carbohydrate(plan: Plan, doses: tuple[Dose, ...], protocol: ClinicProtocol) -> Decimal | None:
    """Grams of carbohydrate that the mixes of a day bring; None where the protocol has no figure."""
    grams = Decimal(0)
    for dose in doses:
        made = preparation(plan, dose, protocol)
        if made.packets is not None:
            grams += made.packets * protocol.number("sweetener.carbohydrate")
        elif made.vehicle == "formula powder" or made.vehicle is None:
            return None
        else:
            key = f"vehicle.carbohydrate.{made.vehicle.replace(' ', '_')}"
            grams += (made.vehicle_ml or Decimal(0)) / 5 * protocol.number(key)
    return grams.quantize(Decimal("0.1"))


def sucralose(plan: Plan, protocol: ClinicProtocol) -> Iterator[Caution]:
    if plan.medicine.form != "ampoule" or plan.medicine.vehicle != "sweetener":
        return
    packets = sum(preparation(plan, dose, protocol).packets or 0 for dose in highest_day(plan))
    mg = packets * protocol.number("sweetener.sucralose")
    for key in ("sweetener.limit_low", "sweetener.limit_high"):
        limit = protocol.number(key)
        reached = mg / limit
        weight = plan.patient.weight_kg
        small = reached >= (SMALL_ADULT_KG if plan.patient.age_years >= protocol.number("bounds.adult_from") else 0)
        if (weight is None and small) or (weight is not None and weight <= reached):
            who = "weight not given" if weight is None else f"at {plain(weight)} kg"
            yield Caution(
                "sucralose",
                f"{packets} packets a day bring about {plain(mg)} mg of sucralose: the limit of "
                f"{plain(limit)} mg/kg a day is reached at {plain(reached.quantize(Decimal('0.1')))} kg ({who}).",
                protocol[key].source,
            )


def mixing(plan: Plan, protocol: ClinicProtocol) -> Iterator[Caution]:
    medicine = plan.medicine
    if medicine.form != "ampoule":
        yield Caution(
            "label",
            "The same canister is labelled in two ways: 44, 110, 220 microgram leave the mouthpiece of what is "
            f"50, 125, 250 at the valve. Check that {medicine.unit_amount} is what the label in the "
            "patient's hand says.",
            "US label description",
        )
        return
    if medicine.vehicle == "sweetener":
        made = preparation(plan, highest_day(plan)[-1], protocol)
        rule, other = parse_rule(protocol.text("sweetener.rule")), parse_rule(protocol.text("sweetener.other_rule"))
        amount, count = made.amount, made.ampoules or 0
        here, there = rule.grams_for(amount, count), other.grams_for(amount, count)
        if here != there:
            yield Caution(
                "sweetener rule",
                f"For {amount} the rule in force ({rule}) gives {plain(here)} g; the other published "
                f"form ({other}) gives {plain(there)} g. The clinic settles which.",
                f"{protocol['sweetener.rule'].source}; {protocol['sweetener.other_rule'].source}",
            )
    if medicine.vehicle == "honey":
        yield Caution(
            "honey",
            "Honey is never given under 12 months of age, nor to an infant who shares the spoon.",
            "Quebec public-health institute; infant botulism A48.51",
            True,
        )
    if medicine.mix_ahead_days:
        yield Caution(
            "mixed ahead",
            f"Mixed up to {medicine.mix_ahead_days} days ahead: no stability data for a slurry mixed at "
            "home were found. Keep it cold, mix again before every dose, discard in time.",
            protocol["mix.ahead_limit"].source,
            True,
        )

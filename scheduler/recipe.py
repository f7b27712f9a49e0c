"""Mixing: what one dose, or a batch, is made of. Counts, volumes, concentration and a measured part.

Ampoules are opened whole. The sweetener rule is protocol data in one of its two published forms (grams per mg of
medicine, or grams per ampoule); they differ twofold for ampoules of 1 mg, so the other one is always shown beside it.
The volume of a mix is the liquid of its ampoules, plus the vehicle, plus what the sweetener displaces (protocol: mL
per gram). A powder measured by the spoon has no known displacement: its mix has no total volume, and is swallowed
whole.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Any

from scheduler.amounts import Amount, Strength, convert, parse_number, plain
from scheduler.errors import BadAmount, Refused
from scheduler.plan import Dose, Plan
from scheduler.protocol import ClinicProtocol

COLD_LIMIT_DAYS = 14  # USP 795: water-containing, without preservative, kept cold; no clinic may go beyond it
_RULE = re.compile(r"\s*([0-9]+(?:[.,][0-9]+)?)\s*g\s*(?:per|/)\s*(mg|ampoule)\s*")
_TENTH = Decimal("0.1")


@dataclass(frozen=True, slots=True)
class SweetenerRule:
    """Grams of sweetener per mg of medicine, or per ampoule."""

    grams: Decimal
    per: str  # "mg" | "ampoule"

    def __str__(self) -> str:
        return f"{plain(self.grams)} g per {self.per}"

    def grams_for(self, medicine: Amount, ampoules: int) -> Decimal:
        return self.grams * (convert(medicine.micrograms, "microgram", "mg") if self.per == "mg" else ampoules)


def parse_rule(text: str) -> SweetenerRule:
    """'10 g per mg' or '5 g per ampoule'. Raises BadAmount otherwise."""
    found = _RULE.fullmatch(text)
    if found is None or not (grams := parse_number(found[1])):
        raise BadAmount(f"'{text[:40]}' is no sweetener rule; write it like '10 g per mg' or '5 g per ampoule'")
    return SweetenerRule(grams, found[2])


@dataclass(frozen=True, slots=True)
class Preparation:
    """How a dose (or a batch of `doses` equal doses) is made. Volumes in mL; None where it does not apply.

    sweetener_g: what the rule gives; packets: whole ones, rounded up. total_ml: of the whole mix. dose_ml: of one
    dose, by measure when `part` (rounded to the protocol's step, `error_percent` off), else all of it. leftover:
    medicine thrown away.
    """

    medicine: str
    amount: Amount
    doses: int = 1
    puffs: int | None = None
    ampoules: int | None = None
    medicine_ml: Decimal | None = None
    vehicle: str | None = None
    vehicle_ml: Decimal | None = None
    sweetener_g: Decimal | None = None
    packets: int | None = None
    packets_g: Decimal | None = None
    total_ml: Decimal | None = None
    dose_ml: Decimal | None = None
    mg_per_ml: Decimal | None = None
    part: bool = False
    error_percent: Decimal = Decimal(0)
    leftover: Amount | None = None

    def as_facts(self) -> dict[str, Any]:
        """JSON values for a message: what does not apply is absent. The sweetener is given as whole packets weigh."""
        found: dict[str, Any] = {
            "puffs": self.puffs,
            "ampoules": self.ampoules,
            "medicine_ml": number(self.medicine_ml),
            "vehicle": self.vehicle,
            "vehicle_ml": number(self.vehicle_ml),
            "packets": self.packets,
            "sweetener_g": number(self.packets_g),
            "total_ml": number(self.total_ml),
            "dose_ml": number(self.dose_ml) if self.part else None,
        }
        return {key: value for key, value in found.items() if value is not None}


def number(value: Decimal | None) -> int | float | None:
    """A decimal as a JSON number: whole ones without a point."""
    if value is None:
        return None
    return int(value) if value == value.to_integral_value() else float(value)


def preparation(plan: Plan, dose: Dose, protocol: ClinicProtocol) -> Preparation:
    """How the plan's medicine makes one dose."""
    medicine = plan.medicine
    if medicine.form == "inhaler":
        return inhale(medicine.name, dose.amount, medicine.unit_amount)
    return mix(
        medicine.name,
        dose.amount,
        Strength(medicine.unit_amount, medicine.unit_ml),
        medicine.vehicle or "sweetener",
        protocol,
    )


def inhale(name: str, amount: Amount, per_puff: Amount) -> Preparation:
    """Puffs for a dose. Raises BadAmount when no whole number makes it."""
    puffs = amount.units_of(per_puff)
    if not puffs:
        below = int(amount.ratio(per_puff))
        near = " or ".join(str(per_puff * count) for count in (below, below + 1) if count)
        raise BadAmount(f"{amount} is no whole number of puffs of {per_puff}; whole ones make {near}")
    return Preparation(name, amount, puffs=puffs)


def mix(
    name: str,
    amount: Amount,
    ampoule: Strength,
    vehicle: str,
    protocol: ClinicProtocol,
    doses: int = 1,
    rule: SweetenerRule | None = None,
) -> Preparation:
    """`doses` equal doses of `amount` from whole ampoules.

    A single dose of whole ampoules is swallowed whole. Any other is a measured part of the mix. Raises Refused when
    the measure would be further off than the protocol allows, or when the mix has no known volume to measure.
    """
    if ampoule.ml is None:
        raise BadAmount(f"{ampoule} is no ampoule; write its liquid too, like '0.5 mg / 2 mL'")
    wanted = amount * doses
    ampoules = _up(wanted.ratio(ampoule.amount))
    inside = ampoule.amount * ampoules
    medicine_ml = ampoule.ml * ampoules
    grams = packets = packets_g = vehicle_ml = total = None
    if vehicle == "sweetener":
        grams = (rule or parse_rule(protocol.text("sweetener.rule"))).grams_for(inside, ampoules)
        each = protocol.number("sweetener.packet")
        packets = int((grams / each).to_integral_value(ROUND_CEILING))
        packets_g = packets * each
        total = medicine_ml + grams * protocol.number("sweetener.displacement")
    else:
        per = ampoules if protocol.text("vehicle.per") == "ampoule" else doses
        vehicle_ml = protocol.number(f"vehicle.{vehicle.replace(' ', '_')}") * per
        total = None if vehicle == "formula powder" else medicine_ml + vehicle_ml
    part = doses > 1 or inside != wanted
    if part and total is None:
        raise Refused(
            "a part of a mix with powder cannot be measured, since its volume is not known; mix each dose by "
            "itself from whole ampoules, or use another vehicle"
        )
    dose_ml, error = measure(amount, inside, total, protocol) if part and total is not None else (total, Decimal(0))
    mg = convert(inside.micrograms, "microgram", "mg")
    return Preparation(
        name,
        amount,
        doses,
        None,
        ampoules,
        medicine_ml,
        vehicle,
        vehicle_ml,
        grams,
        packets,
        packets_g,
        total,
        dose_ml,
        None if total is None else (mg / total).quantize(Decimal("0.0001")),
        part,
        error,
        inside - wanted if inside != wanted else None,
    )


def measure(amount: Amount, inside: Amount, whole: Decimal, protocol: ClinicProtocol) -> tuple[Decimal, Decimal]:
    """The volume of `amount` out of `whole` mL that hold `inside`, in the protocol's steps, and its error in percent.

    Raises Refused when the error is above the protocol's limit.
    """
    exact = Fraction(whole) * amount.ratio(inside)
    step = protocol.number("mix.part_step")
    steps = (Decimal(exact.numerator) / Decimal(exact.denominator) / step).to_integral_value(ROUND_HALF_UP)
    measured = steps * step
    if measured > whole:
        measured -= step  # never more than there is
    error = (Fraction(measured) / exact - 1) * 100
    shown = (Decimal(error.numerator) / Decimal(error.denominator)).quantize(_TENTH)
    limit = protocol.number("mix.part_error")
    if abs(error) > Fraction(limit):
        raise Refused(
            f"{amount} is {float(exact):.2f} mL of this mix; in steps of {plain(step)} mL that is "
            f"{plain(measured)} mL, {plain(abs(shown))} % off, and the protocol allows {plain(limit)} %: "
            "use a dose of whole ampoules, "
            "or another strength"
        )
    return measured, shown


def _up(exact: Fraction) -> int:
    return -(-exact.numerator // exact.denominator)


def check_ahead(days: int, protocol: ClinicProtocol) -> None:
    """Raises Refused when mixing so many days ahead is not allowed."""
    limit = min(protocol.number("mix.ahead_limit"), Decimal(COLD_LIMIT_DAYS))
    if days > limit:
        why = protocol["mix.ahead_limit"].source
        raise Refused(f"mixing {days} days ahead is not allowed: the protocol's limit is {plain(limit)} days ({why})")

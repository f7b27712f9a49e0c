"""Mixing ahead: one mix for several doses, only where the clinic protocol allows it, never past a change of dose.

The protocol's example allows none, since no stability data for a slurry mixed at home were found. Every dose of a
batch is a measured part and is mixed again before it is taken.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from scheduler.amounts import Amount, Strength, total
from scheduler.errors import Refused
from scheduler.plan import Dose, Plan, dose_in_force
from scheduler.protocol import ClinicProtocol
from scheduler.recipe import check_ahead, measure, parse_rule
from scheduler.record import Record


@dataclass(frozen=True, slots=True)
class Part:
    """One kind of dose in a batch: how often, how much by measure, and how far off in percent."""

    amount: Amount
    count: int
    dose_ml: Decimal
    error_percent: Decimal


@dataclass(frozen=True, slots=True)
class Batch:
    """A mix for the doses of the days `made_on` to `last_day`. What is left after that day is thrown away.

    cut_short: the day from which the doses change, when that is why the batch ends before the days asked for; else
    None.
    """

    made_on: date
    last_day: date
    cut_short: date | None
    ampoules: int
    amount: Amount
    vehicle: str
    sweetener_g: Decimal | None
    vehicle_ml: Decimal | None
    total_ml: Decimal
    parts: tuple[Part, ...]

    @property
    def discard_after(self) -> date:
        """The last day of its use; on the label beside `made_on`."""
        return self.last_day


def batch(plan: Plan, record: Record, protocol: ClinicProtocol, made_on: date, days: int) -> Batch:
    """A mix made on a day for that day's doses and those of up to `days` days after it.

    Raises Refused when that is not allowed, when nothing can be mixed, or when a part cannot be measured well enough.
    """
    medicine = plan.medicine
    if medicine.form != "ampoule" or medicine.unit_ml is None:
        raise Refused("an inhaler is not mixed")
    check_ahead(days, protocol)
    opening = dose_in_force(plan, record, made_on)
    if opening is None:
        raise Refused(f"no dose is planned on {made_on}; mix on a day of the course")
    last, cut = made_on, None
    while last < made_on + timedelta(days=days):
        after = dose_in_force(plan, record, last + timedelta(days=1))
        if after is None or after.doses != opening.doses:
            cut = last + timedelta(days=1) if after is not None else None
            break
        last += timedelta(days=1)
    doses = opening.doses * ((last - made_on).days + 1)
    return _mixed(plan, protocol, doses, made_on, last, cut)


def _mixed(
    plan: Plan, protocol: ClinicProtocol, doses: tuple[Dose, ...], made_on: date, last: date, cut: date | None
) -> Batch:
    medicine, vehicle = plan.medicine, plan.medicine.vehicle or "sweetener"
    ampoules, amount = sum(dose.units for dose in doses), total([dose.amount for dose in doses])
    liquid = (Strength(medicine.unit_amount, medicine.unit_ml).ml or Decimal(0)) * ampoules
    grams = vehicle_ml = None
    if vehicle == "formula powder":
        raise Refused("a mix with powder has no known volume to measure doses from; mix each dose by itself")
    if vehicle == "sweetener":
        grams = parse_rule(protocol.text("sweetener.rule")).grams_for(amount, ampoules)
        whole = liquid + grams * protocol.number("sweetener.displacement")
    else:
        per = ampoules if protocol.text("vehicle.per") == "ampoule" else len(doses)
        vehicle_ml = protocol.number(f"vehicle.{vehicle.replace(' ', '_')}") * per
        whole = liquid + vehicle_ml
    kinds = sorted(set(doses), key=lambda dose: dose.units)
    parts = tuple(
        Part(dose.amount, doses.count(dose), *measure(dose.amount, amount, whole, protocol)) for dose in kinds
    )
    return Batch(made_on, last, cut, ampoules, amount, vehicle, grams, vehicle_ml, whole, parts)

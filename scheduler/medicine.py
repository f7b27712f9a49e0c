"""The formulations that are repurposed, and what the clinic protocol holds to be plausible for them.

Two formulations are known: budesonide ampoules for nebulisers, and fluticasone inhalers. Their strengths and the
bounds of a dose and of a day, by age group, are protocol data. They are not interchangeable dose for dose.
"""

from __future__ import annotations

from dataclasses import dataclass

from scheduler.amounts import Amount, Strength, parse_amount, parse_strength
from scheduler.errors import BadAmount
from scheduler.protocol import ClinicProtocol

FORMS = {"budesonide": "ampoule", "fluticasone": "inhaler"}
VEHICLES = ("sweetener", "honey", "maple syrup", "apple sauce", "formula powder")


@dataclass(frozen=True, slots=True)
class Bounds:
    """The least and the most that the protocol allows, both included."""

    least: Amount
    most: Amount

    def __contains__(self, amount: Amount) -> bool:
        return self.least <= amount <= self.most

    def __str__(self) -> str:
        return f"{self.least} to {self.most}"


def unit_name(form: str) -> str:
    """What is counted: 'ampoule' or 'puff'."""
    return "ampoule" if form == "ampoule" else "puff"


def age_group(age_years: int, protocol: ClinicProtocol) -> str:
    """'adult' or 'child', by the protocol's limit."""
    return "adult" if age_years >= protocol.number("bounds.adult_from") else "child"


def bounds(name: str, group: str, per: str, protocol: ClinicProtocol) -> Bounds:
    """Bounds of one 'dose' or of a 'daily' amount."""
    least, most = protocol.items(f"bounds.{name}_{FORMS[name]}.{group}.{per}")
    return Bounds(parse_amount(least), parse_amount(most))


def strengths(name: str, protocol: ClinicProtocol) -> tuple[Strength, ...]:
    """The strengths that exist, as the protocol lists them."""
    return tuple(parse_strength(text) for text in protocol.items(f"bounds.{name}_{FORMS[name]}.strengths"))


def check_strength(strength: Strength, name: str, protocol: ClinicProtocol) -> None:
    """Raises BadAmount, with what exists, for a strength that the protocol does not list."""
    known = strengths(name, protocol)
    if strength in known:
        return
    listed = ", ".join(str(one) for one in known)
    if strength.ml is None and FORMS[name] == "ampoule":
        raise BadAmount(f"'{strength}' lacks the liquid of the ampoule; write it like '{known[0]}'")
    swapped = Strength(_other_unit(strength.amount), strength.ml)
    other = f"or {swapped}? " if swapped in known else ""
    raise BadAmount(f"{strength}? {other}the protocol lists {listed} for {name}")


def check_bounds(amount: Amount, name: str, group: str, per: str, protocol: ClinicProtocol) -> None:
    """Raises BadAmount, with both readings, for an amount that is not plausible."""
    allowed = bounds(name, group, per, protocol)
    if amount not in allowed:
        what = "per dose" if per == "dose" else "per day"
        shown = Bounds(allowed.least.like(amount), allowed.most.like(amount)) if amount in _near(allowed) else allowed
        who = "an adult" if group == "adult" else "a child"
        raise BadAmount(
            f"{amount}? {other_reading(amount, allowed)}the protocol allows {shown} {what} of {name} for {who}"
        )


def other_reading(amount: Amount, allowed: Bounds) -> str:
    """The same number in the other unit, as a question, when that would be plausible; else nothing."""
    other = _other_unit(amount)
    return f"or {other}? " if other in allowed else ""


def _other_unit(amount: Amount) -> Amount:
    """1 mg for 1 microgram, and the other way round: what a slip of the unit would have meant."""
    if amount.shown_in == "mg":
        return Amount(amount.micrograms / 1000, "microgram")
    return Amount(amount.micrograms * 1000, "mg")


def _near(allowed: Bounds) -> Bounds:
    """Within ten times of the bounds: then the bounds are shown in the unit that was typed."""
    return Bounds(Amount(allowed.least.micrograms / 10), Amount(allowed.most.micrograms * 10))

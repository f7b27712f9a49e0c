"""Amounts of medicine with their unit: exact, comparable, printable so that a tired reader cannot misread them.

What people type goes through a strict pattern of our own: one meaning, or a refusal that says how to write it. Units
are converted by a small pint registry with decimal numbers, in which ampoules, puffs and packets are dimensions of
their own, so that puffs cannot become micrograms without a strength.

Printing follows the usual safe-dose notation (ISMP list of error-prone abbreviations; from memory): always a leading
zero, never a trailing one, 'microgram' spelt out, a space before the unit. No thousands separator is printed: a comma
is a decimal sign to half of the readers.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from scheduler.errors import BadAmount

if TYPE_CHECKING:
    import pint

MG, MICROGRAM = "mg", "microgram"

_MASS_WORDS = {
    "mg": MG,
    "MG": MG,
    "milligram": MG,
    "milligrams": MG,
    "microgram": MICROGRAM,
    "micrograms": MICROGRAM,
    "mcg": MICROGRAM,
    "MCG": MICROGRAM,
    "ug": MICROGRAM,
    "µg": MICROGRAM,
    "μg": MICROGRAM,  # the micro sign and the Greek letter mu
}
_ML_WORDS = ("mL", "ml", "ML", "millilitre", "millilitres", "milliliter", "milliliters")

_NUMBER = r"[0-9]+(?:[.,][0-9]+)?"
_MASS = re.compile(rf"\s*(?P<number>{_NUMBER})\s*(?P<unit>[A-Za-zµμ]+)\s*")
_STRENGTH = re.compile(
    rf"\s*(?P<mass>{_NUMBER}\s*[A-Za-zµμ]+)\s*(?:(?:/|\bper\b|\bin\b)\s*(?P<ml>{_NUMBER})\s*(?P<unit>[A-Za-z]+)\s*)?"
)
_HOW = "write it like '0.5 mg' or '220 microgram'"
_HOW_STRENGTH = "write it like '0.5 mg / 2 mL' for an ampoule or '220 microgram' for a puff"
_LONGEST_NUMBER = 12  # well inside the 28 digits that decimal arithmetic keeps exactly
_LONGEST = 40  # no amount anybody means is longer; keeps refusals short too


@cache
def registry() -> pint.UnitRegistry[Decimal]:
    """The only unit registry: mass, volume, and the counted things, all with decimal numbers."""
    import pint

    units: pint.UnitRegistry[Decimal] = pint.UnitRegistry(None, non_int_type=Decimal)
    for line in (
        "gram = [mass] = g",
        "milligram = 0.001 gram = mg",
        "microgram = 0.001 milligram = mcg",
        "millilitre = [volume] = mL",
        "ampoule = [ampoules]",
        "puff = [puffs]",
        "packet = [packets]",
    ):
        units.define(line)
    return units


def convert(number: Decimal, unit: str, to: str) -> Decimal:
    """`number` of `unit` in `to`. Raises BadAmount when the two measure different things."""
    import pint

    try:
        found: Decimal = registry().Quantity(number, unit).to(to).magnitude
    except (pint.DimensionalityError, pint.UndefinedUnitError) as error:
        raise BadAmount(f"{plain(number)} {unit} cannot be given in {to}: {error}") from error
    return found


def plain(number: Decimal) -> str:
    """A number as people should read it: leading zero, no trailing zeros, no exponent."""
    text = format(number.normalize(), "f")
    return "0" if text in ("-0", "") else text


@dataclass(frozen=True, slots=True, order=True)
class Amount:
    """A mass of medicine, exact, in micrograms. `shown_in`: the unit its reader writes; never counts in comparing."""

    micrograms: Decimal
    shown_in: str = field(default="", compare=False, repr=False)

    def __post_init__(self) -> None:
        if not isinstance(self.micrograms, Decimal) or not self.micrograms.is_finite():
            raise BadAmount(f"an amount is a finite Decimal of micrograms, not {self.micrograms!r}")

    @classmethod
    def of(cls, number: Decimal | int | str, unit: str) -> Amount:
        """`number` mg or microgram. Raises BadAmount for another unit."""
        if unit not in (MG, MICROGRAM):
            raise BadAmount(f"{unit!r} is no unit of medicine here; use 'mg' or 'microgram'")
        return cls(convert(Decimal(number), unit, MICROGRAM), unit)

    def __str__(self) -> str:
        if self._unit() == MG:
            return f"{plain(self.micrograms / 1000)} mg"
        return f"{plain(self.micrograms)} microgram"

    def _unit(self) -> str:
        if self.shown_in:
            return self.shown_in
        return MG if self.micrograms % 250 == 0 else MICROGRAM  # quarters of a milligram are written in mg

    def like(self, other: Amount) -> Amount:
        """The same amount, shown in the unit of `other`, so that dose and label read alike."""
        return Amount(self.micrograms, other._unit())

    def __add__(self, other: Amount) -> Amount:
        return Amount(self.micrograms + other.micrograms, self.shown_in or other.shown_in)

    def __sub__(self, other: Amount) -> Amount:
        """The difference. Raises BadAmount when it would be less than nothing."""
        if other > self:
            raise BadAmount(f"{other} cannot be taken from {self}")
        return Amount(self.micrograms - other.micrograms, self.shown_in or other.shown_in)

    def __mul__(self, count: int) -> Amount:
        if count < 0:
            raise BadAmount(f"{count} times {self} is no amount")
        return Amount(self.micrograms * count, self.shown_in)

    __rmul__ = __mul__

    def ratio(self, other: Amount) -> Fraction:
        """How many times `other` this is, exactly. Raises BadAmount when `other` is nothing."""
        if not other.micrograms:
            raise BadAmount(f"{self} cannot be compared with nothing")
        return Fraction(self.micrograms) / Fraction(other.micrograms)

    def units_of(self, unit: Amount) -> int | None:
        """How many whole `unit`s make this amount exactly, or None when no whole number does."""
        count = self.ratio(unit)
        return count.numerator if count.denominator == 1 else None


NOTHING = Amount(Decimal(0))


def total(amounts: list[Amount] | tuple[Amount, ...]) -> Amount:
    """The sum; NOTHING for none."""
    return sum(amounts, NOTHING)


@dataclass(frozen=True, slots=True)
class Strength:
    """What one ampoule or puff holds: its medicine, and its liquid in mL (None for a puff)."""

    amount: Amount
    ml: Decimal | None = None

    def __str__(self) -> str:
        return str(self.amount) if self.ml is None else f"{self.amount} / {plain(self.ml)} mL"


def parse_number(text: str) -> Decimal:
    """A typed decimal number, with a point or a comma. Raises BadAmount when it has two readings or none."""
    if len(text) > _LONGEST_NUMBER or not re.fullmatch(_NUMBER, text):
        raise BadAmount(f"'{_cut(text)}' is not a number; write it like '0.5' or '2'")
    whole, mark, part = text.replace(",", ".").partition(".")
    if mark and len(part) == 3 and whole.strip("0"):
        raise BadAmount(
            f"'{_cut(text)}' can be read as {plain(Decimal(f'{whole}.{part}'))} or as {whole}{part}; "
            "write it without a separator, in a unit that needs none"
        )
    if len(whole) > 1 and whole.startswith("0"):
        raise BadAmount(f"'{_cut(text)}' starts with a zero that means nothing; was a decimal point lost?")
    return Decimal(f"{whole}{mark}{part}")


def parse_amount(text: str) -> Amount:
    """A typed mass of medicine ('1 mg', '0,5 mg', '220 mcg'). Raises BadAmount unless it has one meaning."""
    found = _MASS.fullmatch(text) if len(text) <= _LONGEST else None
    if found is None:
        raise BadAmount(f"'{_cut(text)}' is not an amount of medicine; {_HOW}{_hint(text)}")
    unit = _mass_unit(found["unit"])
    amount = Amount.of(parse_number(found["number"]), unit)
    if not amount.micrograms:
        raise BadAmount(f"'{_cut(text)}' is no medicine at all; {_HOW}")
    return amount


def parse_strength(text: str) -> Strength:
    """The label of an ampoule or puff ('0.5 mg / 2 mL', '220 microgram'). Raises BadAmount unless one meaning."""
    found = _STRENGTH.fullmatch(text) if len(text) <= _LONGEST else None
    if found is None:
        raise BadAmount(f"'{_cut(text)}' is not a strength; {_HOW_STRENGTH}{_hint(text)}")
    amount = parse_amount(found["mass"])
    if found["ml"] is None:
        return Strength(amount)
    if found["unit"] not in _ML_WORDS:
        raise BadAmount(f"'{found['unit']}' in '{_cut(text)}' is no volume that is used here; {_HOW_STRENGTH}")
    ml = parse_number(found["ml"])
    if not ml:
        raise BadAmount(f"'{_cut(text)}' has no liquid in it; {_HOW_STRENGTH}")
    return Strength(amount, ml)


def _mass_unit(word: str) -> str:
    known = _MASS_WORDS.get(word) or _MASS_WORDS.get(word.lower() if len(word) > 3 else word)
    if known is None:
        raise BadAmount(f"'{word}' is no unit of medicine that has one meaning here; use 'mg' or 'microgram'")
    return known


def _hint(text: str) -> str:
    bare = text.strip()
    if re.match(r"[.,][0-9]", bare):
        return f"; a bare decimal point is easily missed: did you mean '0{_cut(bare)}'?"
    if re.fullmatch(_NUMBER, bare):
        return f"; '{_cut(bare)}' lacks its unit"
    return ""


def _cut(text: str) -> str:
    shown = "".join(c if c.isprintable() else "?" for c in text)
    return shown if len(shown) <= _LONGEST else shown[:_LONGEST] + "..."

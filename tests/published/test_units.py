"""Our unit registry against a second units library, and the printed notation against the usual safe-dose rules."""

from __future__ import annotations

from decimal import Decimal

import pytest
import unyt
from hypothesis import given
from hypothesis import strategies as st

from scheduler.amounts import Amount, convert, parse_amount, plain
from scheduler.errors import BadAmount

PAIRS = [("mg", "microgram"), ("microgram", "mg"), ("gram", "mg"), ("mg", "gram"), ("gram", "microgram")]
OTHER = {"mg": "mg", "microgram": "ug", "gram": "g"}


@pytest.mark.parametrize(("unit", "to"), PAIRS)
@given(number=st.decimals("0.001", "100000", places=3))
def test_conversions_agree_with_unyt(unit: str, to: str, number: Decimal) -> None:
    ours = convert(number, unit, to)
    theirs = unyt.unyt_quantity(float(number), OTHER[unit]).to(OTHER[to])
    assert float(ours) == pytest.approx(float(theirs.value), rel=1e-12)


@pytest.mark.parametrize(("unit", "to"), [("puff", "microgram"), ("ampoule", "mg"), ("packet", "gram"), ("mL", "mg")])
def test_what_is_counted_is_no_mass(unit: str, to: str) -> None:
    with pytest.raises(BadAmount, match="cannot be given in"):
        convert(Decimal(2), unit, to)


def test_decimal_equality_that_floats_lack() -> None:
    assert 0.1 * 3 != 0.3
    assert parse_amount("0.1 mg") * 3 == parse_amount("0.3 mg") == parse_amount("300 microgram")


@given(number=st.decimals("0.001", "99999", places=3))
def test_printed_amounts_follow_the_safe_dose_rules(number: Decimal) -> None:
    """ISMP list of error-prone abbreviations, symbols and dose designations (from memory): leading zero, no trailing
    zero,
    a space before the unit, no 'µg' and no 'ug'; microgram is spelt out."""
    for unit in ("mg", "microgram"):
        text = str(Amount.of(number, unit))
        shown, word = text.split(" ")
        assert word in ("mg", "microgram")
        assert not shown.startswith(".") and not shown.endswith(".")
        assert "." not in shown or not shown.endswith("0")
        assert "," not in shown and "e" not in shown.lower()
        assert Amount.of(Decimal(shown), word) == Amount.of(number, unit)


def test_plain_numbers() -> None:
    assert [plain(Decimal(one)) for one in ("1.0", "0.50", "100", "1E+3", "0")] == ["1", "0.5", "100", "1000", "0"]

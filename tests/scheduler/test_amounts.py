"""Amounts: one meaning or a refusal, exact, printed so that they cannot be misread."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from scheduler.amounts import Amount, parse_amount, parse_number, parse_strength, total
from scheduler.errors import BadAmount


@pytest.mark.parametrize(
    ("text", "micrograms"),
    [
        ("1 mg", 1000),
        ("1mg", 1000),
        ("0,5 mg", 500),
        ("0.5 mg", 500),
        ("220 mcg", 220),
        ("220 µg", 220),
        ("220 μg", 220),
        ("220 ug", 220),
        ("880 microgram", 880),
        ("880 micrograms", 880),
        ("500 Micrograms", 500),
        (" 2 mg ", 2000),
        ("1 MG", 1000),
        ("1.0 mg", 1000),
        ("0.125 mg", 125),
        ("1 milligram", 1000),
        ("1\u00a0mg", 1000),
        ("10 mg", 10000),
    ],
)
def test_one_meaning(text: str, micrograms: int) -> None:
    assert parse_amount(text).micrograms == micrograms


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "is not an amount"),
        ("1", "'1' lacks its unit"),
        ("mg", "is not an amount"),
        (".5 mg", "did you mean '0.5 mg'"),
        ("5. mg", "is not an amount"),
        ("1,000 microgram", "as 1 or as 1000"),
        ("1.000 mg", "as 1 or as 1000"),
        ("1.125 mg", "as 1.125 or as 1125"),
        ("1 Mg", "no unit of medicine"),
        ("1 g", "no unit of medicine"),
        ("1 ng", "no unit of medicine"),
        ("1 ml", "no unit of medicine"),
        ("1 amp", "no unit of medicine"),
        ("0 mg", "no medicine"),
        ("0,0 mg", "no medicine"),
        ("-1 mg", "is not an amount"),
        ("+1 mg", "is not an amount"),
        ("1e3 mg", "is not an amount"),
        ("1 000 mg", "is not an amount"),
        ("1/2 mg", "is not an amount"),
        ("½ mg", "is not an amount"),
        ("one mg", "is not an amount"),
        ("1 mg 2", "is not an amount"),
        ("1 mg / 2 mL", "is not an amount"),
        ("05 mg", "starts with a zero"),
        ("٣ mg", "is not"),
        ("1 mg\n", None),
        ("1" * 60 + " mg", "is not an amount"),
        ("1234567890123 mg", "is not a number"),
        ("NaN mg", "is not"),
        ("1 mg or 2 mg", "is not an amount"),
        ("1..5 mg", "is not an amount"),
        ("1,5,0 mg", "is not an amount"),
    ],
)
def test_anything_else_is_refused(text: str, told: str | None) -> None:
    if told is None:  # a line's end is no second meaning
        assert parse_amount(text).micrograms == 1000
        return
    with pytest.raises(BadAmount) as refused:
        parse_amount(text)
    assert told in str(refused.value)
    assert len(str(refused.value)) < 250


@pytest.mark.parametrize(
    ("text", "micrograms", "ml"),
    [
        ("0.5 mg / 2 mL", 500, 2),
        ("0,5mg/2ml", 500, 2),
        ("1 mg per 2 mL", 1000, 2),
        ("0.25 mg in 2 millilitres", 250, 2),
        ("220 microgram", 220, None),
        ("1 mg/2.5 mL", 1000, Decimal("2.5")),
    ],
)
def test_strengths(text: str, micrograms: int, ml: object) -> None:
    found = parse_strength(text)
    assert (found.amount.micrograms, found.ml) == (micrograms, ml)


@pytest.mark.parametrize(
    "text",
    [
        "0.5 mg / 2",
        "0.5 mg / mL",
        "0.5 mg / 0 mL",
        "0.5 mg / 2 L",
        "0.5 / 2 mL",
        "0.5 mg // 2 mL",
        "2 mL / 0.5 mg",
        "0.5 mg / 2 mg",
        "0.5 mg / 2,000 mL",
    ],
)
def test_strengths_refused(text: str) -> None:
    with pytest.raises(BadAmount):
        parse_strength(text)


@pytest.mark.parametrize(
    ("amount", "text"),
    [
        (Amount(Decimal(500)), "0.5 mg"),
        (Amount(Decimal(880)), "880 microgram"),
        (Amount(Decimal(1000)), "1 mg"),
        (Amount(Decimal(250)), "0.25 mg"),
        (Amount(Decimal(1760)), "1760 microgram"),
        (Amount(Decimal(125)), "125 microgram"),
        (Amount(Decimal(1500)), "1.5 mg"),
        (Amount.of(250, "microgram"), "250 microgram"),
        (Amount.of("0.88", "mg"), "0.88 mg"),
        (Amount(Decimal("0.5")), "0.5 microgram"),
    ],
)
def test_printing(amount: Amount, text: str) -> None:
    assert str(amount) == text


def test_amounts_are_shown_like_their_label() -> None:
    puff = parse_amount("250 microgram")
    assert str(puff * 4) == "1000 microgram"
    assert str(parse_amount("1000 microgram").like(parse_amount("0.5 mg"))) == "1 mg"


def test_the_unit_that_is_shown_never_counts() -> None:
    assert parse_amount("1 mg") == parse_amount("1000 microgram")
    assert hash(parse_amount("1 mg")) == hash(parse_amount("1000 microgram"))
    assert parse_amount("1 mg") < parse_amount("1001 microgram")


def test_arithmetic_is_exact() -> None:
    half = parse_amount("0.5 mg")
    assert half + half == parse_amount("1 mg") and half * 3 == 3 * half
    assert (half - parse_amount("0.1 mg")).micrograms == 400
    assert half.ratio(parse_amount("0.75 mg")) == Fraction(2, 3)
    assert parse_amount("0.75 mg").units_of(half) is None and parse_amount("1.5 mg").units_of(half) == 3
    assert total([half, half, half]) == parse_amount("1.5 mg")


def test_no_amount_below_nothing() -> None:
    with pytest.raises(BadAmount):
        parse_amount("0.5 mg") - parse_amount("1 mg")
    with pytest.raises(BadAmount):
        parse_amount("0.5 mg") * -1
    with pytest.raises(BadAmount):
        Amount(Decimal("NaN"))
    with pytest.raises(BadAmount):
        Amount(500)  # type: ignore[arg-type]
    with pytest.raises(BadAmount):
        parse_amount("1 mg").ratio(Amount(Decimal(0)))


def test_numbers() -> None:
    assert parse_number("2,5") == Decimal("2.5")
    with pytest.raises(BadAmount):
        parse_number("2 5")

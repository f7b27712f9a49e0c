"""Mixing: counts, volumes, measured parts, and mixing ahead."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from scheduler.amounts import parse_amount, parse_strength
from scheduler.batch import batch
from scheduler.errors import BadAmount, Refused
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol, read_protocol
from scheduler.recipe import check_ahead, inhale, mix, parse_rule, preparation
from scheduler.record import Record

EXAMPLE = Path(__file__).parents[2] / "scheduler" / "protocol_example.toml"


def with_ahead(days: int) -> ClinicProtocol:
    """The example protocol of a clinic that mixes so many days ahead."""
    text = EXAMPLE.read_text(encoding="utf-8")
    old = "ahead_limit = { value = 0,"
    assert old in text
    return read_protocol(text.replace(old, f"ahead_limit = {{ value = {days},"), "test")


def made(dose: str, ampoule: str, vehicle: str, protocol: ClinicProtocol, doses: int = 1, rule: str = "10 g per mg"):  # type: ignore[no-untyped-def]
    return mix("budesonide", parse_amount(dose), parse_strength(ampoule), vehicle, protocol, doses, parse_rule(rule))


def test_a_whole_dose(protocol: ClinicProtocol) -> None:
    found = made("1 mg", "0.5 mg / 2 mL", "sweetener", protocol)
    assert (found.ampoules, found.medicine_ml, found.sweetener_g, found.packets) == (2, 4, 10, 10)
    assert found.total_ml == found.dose_ml == Decimal("10.2")
    assert found.mg_per_ml == Decimal("0.0980") and not found.part and found.leftover is None


def test_half_packets_are_rounded_up_and_weighed_too(protocol: ClinicProtocol) -> None:
    found = made("0.25 mg", "0.25 mg / 2 mL", "sweetener", protocol)
    assert (found.sweetener_g, found.packets, found.packets_g) == (Decimal("2.5"), 3, 3)
    assert found.as_facts()["sweetener_g"] == 3


def test_a_quarter_of_a_packet_over_is_a_whole_one_more(protocol: ClinicProtocol) -> None:
    """A mix that is too thin runs off: whole packets are rounded up, never down."""
    found = made("0.25 mg", "0.25 mg / 2 mL", "sweetener", protocol, rule="9 g per mg")
    assert (found.sweetener_g, found.packets) == (Decimal("2.25"), 3)


def test_a_measured_part_with_its_error(protocol: ClinicProtocol) -> None:
    found = made("0.75 mg", "0.5 mg / 2 mL", "honey", protocol)
    assert (found.ampoules, found.total_ml, found.dose_ml, found.part) == (2, 9, 7, True)
    assert found.error_percent == Decimal("3.7")  # 7 mL for 6.75 mL
    assert found.leftover == parse_amount("0.25 mg")


def test_a_part_that_cannot_be_measured_well_is_refused(protocol: ClinicProtocol) -> None:
    """0.25 mg out of one 1 mg ampoule with 5 mL of honey is 1.75 mL; half-millilitre steps miss it by a seventh."""
    with pytest.raises(Refused, match=r"14.3 % off, and the protocol allows 5 %"):
        made("0.25 mg", "1 mg / 2 mL", "honey", protocol)


def test_a_part_of_a_mix_with_powder_is_refused(protocol: ClinicProtocol) -> None:
    assert made("1 mg", "0.5 mg / 2 mL", "formula powder", protocol).dose_ml is None
    with pytest.raises(Refused, match="volume is not known"):
        made("0.75 mg", "0.5 mg / 2 mL", "formula powder", protocol)


def test_several_doses_at_once(protocol: ClinicProtocol) -> None:
    found = made("1 mg", "0.5 mg / 2 mL", "sweetener", protocol, doses=4)
    assert (found.ampoules, found.total_ml, found.dose_ml, found.part) == (8, Decimal("40.8"), 10, True)
    assert found.error_percent == Decimal("-2.0")
    assert found.dose_ml * 4 <= found.total_ml


def test_the_rule_is_the_clinic_s(protocol: ClinicProtocol) -> None:
    assert made("1 mg", "1 mg / 2 mL", "sweetener", protocol, rule="5 g per ampoule").packets == 5
    assert made("1 mg", "1 mg / 2 mL", "sweetener", protocol, rule="10 g per ampoule").packets == 10
    assert made("1 mg", "0.5 mg / 2 mL", "sweetener", protocol, rule="10 g per ampoule").packets == 20


@pytest.mark.parametrize(
    "text", ["10 per mg", "ten g per mg", "10 g", "0 g per mg", "10 g per dose", "-1 g per mg", ""]
)
def test_rules_that_are_none(text: str) -> None:
    with pytest.raises(BadAmount):
        parse_rule(text)


def test_puffs() -> None:
    assert inhale("fluticasone", parse_amount("880 microgram"), parse_amount("220 microgram")).puffs == 4
    with pytest.raises(BadAmount, match="whole ones make 440 microgram or 660 microgram"):
        inhale("fluticasone", parse_amount("500 microgram"), parse_amount("220 microgram"))


def test_facts_for_a_message(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    plan = ok_plan("kt-014")
    assert preparation(plan, plan.phases[0].steps[0].doses[0], protocol).as_facts() == {
        "ampoules": 2,
        "medicine_ml": 4,
        "vehicle": "sweetener",
        "packets": 10,
        "sweetener_g": 10,
        "total_ml": 10.2,
    }
    plan = ok_plan("fl-207")
    assert preparation(plan, plan.phases[0].steps[0].doses[0], protocol).as_facts() == {"puffs": 2}
    plan = ok_plan("mb-032")
    assert preparation(plan, plan.phases[0].steps[0].doses[0], protocol).as_facts() == {
        "ampoules": 2,
        "medicine_ml": 4,
        "vehicle": "apple sauce",
        "vehicle_ml": 5,
        "total_ml": 9,
    }


# --- mixing ahead


def test_the_example_allows_none(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    with pytest.raises(Refused, match="limit is 0 days"):
        batch(ok_plan("kt-014"), Record(), protocol, date(2026, 3, 2), 1)
    assert batch(ok_plan("kt-014"), Record(), protocol, date(2026, 3, 2), 0).ampoules == 4


def test_no_clinic_may_go_beyond_fourteen_days() -> None:
    check_ahead(14, with_ahead(60))
    with pytest.raises(Refused, match="limit is 14 days"):
        check_ahead(15, with_ahead(60))


def test_a_batch_of_some_days(ok_plan: Callable[[str], Plan]) -> None:
    found = batch(ok_plan("kt-014"), Record(), with_ahead(3), date(2026, 3, 2), 3)
    assert (found.made_on, found.last_day, found.discard_after) == (
        date(2026, 3, 2),
        date(2026, 3, 5),
        date(2026, 3, 5),
    )
    assert (found.ampoules, found.amount, found.cut_short) == (16, parse_amount("8 mg"), None)
    assert [(part.count, part.dose_ml) for part in found.parts] == [(8, 10)]


def test_a_batch_never_runs_past_a_change_of_dose(changed: Callable[..., Plan]) -> None:
    """The taper of this plan has no gate: its first step begins on 27 April."""
    plan = changed(
        "kt-014",
        ('gate = "endoscopy reviewed"', ""),
        ('from = "04-10"', 'from = "08-10"'),
        ('until = "06-15"', 'until = "09-15"'),
    )
    found = batch(plan, Record(), with_ahead(7), date(2026, 4, 24), 5)
    assert (found.last_day, found.cut_short) == (date(2026, 4, 26), date(2026, 4, 27))
    later = batch(plan, Record(), with_ahead(7), date(2026, 4, 27), 2)
    assert [(str(part.amount), part.count) for part in later.parts] == [("0.5 mg", 3), ("1 mg", 3)]


def test_what_is_never_mixed(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    with pytest.raises(Refused, match="not mixed"):
        batch(ok_plan("fl-207"), Record(), protocol, date(2026, 3, 2), 0)
    with pytest.raises(Refused, match="no dose is planned"):
        batch(ok_plan("kt-014"), Record(), protocol, date(2026, 2, 1), 0)

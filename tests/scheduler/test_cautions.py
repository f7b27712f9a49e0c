"""Cautions before signing: each that the plan calls for, with its source, and none that it does not."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from scheduler.cautioning import named
from scheduler.cautions import Caution, cautions
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol, read_protocol

EXAMPLE = Path(__file__).parents[2] / "scheduler" / "protocol_example.toml"
ALWAYS = {
    "repurposed",
    "not interchangeable",
    "ask before signing",
    "grapefruit",
    "surgery or severe illness",
    "chickenpox or measles",
}


def found(plan: Plan, protocol: ClinicProtocol, topic: str) -> list[Caution]:
    return [one for one in cautions(plan, protocol) if one.topic == topic]


def others(changed: Callable[..., Plan], *medicines: str) -> Plan:
    listed = ", ".join(f'"{medicine}"' for medicine in medicines)
    return changed("kt-014", ("other_medicines = []", f"other_medicines = [{listed}]"))


def test_every_caution_has_a_source_and_every_plan_the_usual_ones(
    ok_plan: Callable[[str], Plan], protocol: ClinicProtocol
) -> None:
    for name in ("kt-014", "fl-207", "mb-032"):
        listed = cautions(ok_plan(name), protocol)
        assert all(one.source.strip() and one.text.endswith(".") for one in listed)
        assert {one.topic for one in listed} >= ALWAYS
        assert len({one.text for one in listed}) == len(listed)


@pytest.mark.parametrize(
    ("medicine", "topic"),
    [
        ("ketoconazole", "strong CYP3A4 inhibitor"),
        ("Ritonavir 100 mg", "strong CYP3A4 inhibitor"),
        ("clarithromycin", "strong CYP3A4 inhibitor"),
        ("fluconazole", "moderate CYP3A4 inhibitor"),
        ("diltiazem", "moderate CYP3A4 inhibitor"),
        ("grapefruit juice", "moderate CYP3A4 inhibitor"),
        ("rifampicin", "CYP3A4 inducer"),
        ("St John's wort", "CYP3A4 inducer"),
        ("carbamazepine", "CYP3A4 inducer"),
        ("prednisolone", "other steroids"),
        ("beclometasone inhaler", "other steroids"),
        ("colestyramine", "binding"),
    ],
)
def test_other_medicines(medicine: str, topic: str, changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    """Lists: FDA-based classifications; label texts for inducers."""
    plan = others(changed, "metformin", medicine)
    assert len(found(plan, protocol, topic)) == 1
    assert not found(others(changed, "metformin"), protocol, topic)


def test_a_strong_inhibitor_names_the_sizes(changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    """Ketoconazole about 6 times, 3 times 12 h apart, itraconazole about 4 times (labels); fluticasone: cortisol down
    86 %."""
    text = found(others(changed, "ketoconazole"), protocol, "strong CYP3A4 inhibitor")[0].text
    assert "6 times" in text and "3 times" in text and "4 times" in text
    inhaler = changed("fl-207", ('writer = "parent"', 'writer = "parent"\nother_medicines = ["ritonavir"]'))
    assert "86 %" in found(inhaler, protocol, "strong CYP3A4 inhibitor")[0].text


def test_an_inhibitor_calls_for_a_steroid_card_at_any_dose(
    changed: Callable[..., Plan], protocol: ClinicProtocol
) -> None:
    """UK steroid emergency card: also when an inhibitor of cortisol clearance is taken."""
    assert found(others(changed, "itraconazole"), protocol, "steroid card")
    assert not found(others(changed, "metformin"), protocol, "steroid card")


@pytest.mark.parametrize(("dose", "due"), [("440 microgram", True), ("220 microgram", False)])
def test_fluticasone_above_the_card_s_threshold(
    dose: str, due: bool, changed: Callable[..., Plan], protocol: ClinicProtocol
) -> None:
    """More than 500 microgram a day of inhaled fluticasone (RCP, Society for Endocrinology): 880 is, 440 is not."""
    plan = changed(
        "fl-207",
        ('dose = "440 microgram"', f'dose = "{dose}"'),
        ('to = "220 microgram"', 'to = "220 microgram"\ntimes_per_day = 1'),
    )
    assert bool(found(plan, protocol, "steroid card")) is due


def test_diabetes(changed: Callable[..., Plan], protocol: ClinicProtocol, ok_plan: Callable[[str], Plan]) -> None:
    """20 packets a day bring about 18 g of carbohydrate (US diabetes association page)."""
    plan = changed("kt-014", ("conditions = []", 'conditions = ["type 1 diabetes"]'))
    assert "18 g" in found(plan, protocol, "sugar")[0].text
    assert not found(ok_plan("kt-014"), protocol, "sugar")
    honey = changed(
        "kt-014", ("conditions = []", 'conditions = ["Diabetes"]'), ('vehicle = "sweetener"', 'vehicle = "honey"')
    )
    assert "11.4 g" in found(honey, protocol, "sugar")[0].text
    powder = changed(
        "kt-014",
        ("conditions = []", 'conditions = ["diabetes"]'),
        ('vehicle = "sweetener"', 'vehicle = "formula powder"'),
    )
    assert "label" in found(powder, protocol, "sugar")[0].text


@pytest.mark.parametrize(("weight", "limits"), [("15.5", 2), ("30", 1), ("48", 1), ("49", 0)])
def test_sucralose_by_weight(weight: str, limits: int, changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    """20 packets: 5 mg/kg (FDA) is reached by 48 kg and less, 15 mg/kg (JECFA, EFSA) by 16 kg and less."""
    plan = changed("kt-014", ("height_cm = 168", f"height_cm = 168\nweight_kg = {weight}"))
    assert len(found(plan, protocol, "sucralose")) == limits


def test_sucralose_without_a_weight(
    ok_plan: Callable[[str], Plan], changed: Callable[..., Plan], protocol: ClinicProtocol
) -> None:
    assert "48 kg (weight not given)" in found(ok_plan("kt-014"), protocol, "sucralose")[0].text
    child = changed("kt-014", ("age_years = 34\nheight_cm = 168", "age_years = 7\nheight_cm = 122"))
    assert len(found(child, protocol, "sucralose")) == 2
    assert not found(ok_plan("mb-032"), protocol, "sucralose")


def test_children(changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    """Below 10 years 0.5 mg twice a day (Chan 2024); below 150 cm up to 2 mg a day (Oliva 2019)."""
    small = changed("kt-014", ("age_years = 34\nheight_cm = 168", "age_years = 8\nheight_cm = 128"))
    assert found(small, protocol, "child") and found(small, protocol, "child age")
    assert not found(small, protocol, "child height")
    much = changed(
        "kt-014",
        ("age_years = 34\nheight_cm = 168", "age_years = 12\nheight_cm = 145"),
        ('dose = "1 mg"', 'dose = "2 mg"'),
    )
    assert found(much, protocol, "child height") and not found(much, protocol, "child age")
    tall = changed(
        "kt-014",
        ("age_years = 34\nheight_cm = 168", "age_years = 14\nheight_cm = 160"),
        ('dose = "1 mg"', 'dose = "2 mg"'),
    )
    assert not found(tall, protocol, "child height")


@pytest.mark.parametrize(
    ("condition", "topic"),
    [
        ("pregnant", "pregnancy"),
        ("breast-feeding", "pregnancy"),
        ("liver cirrhosis", "liver"),
        ("latent tuberculosis", "infection"),
        ("ocular herpes", "infection"),
        ("hepatitis B", "infection"),
    ],
)
def test_conditions(condition: str, topic: str, changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    assert found(changed("kt-014", ("conditions = []", f'conditions = ["{condition}"]')), protocol, topic)
    assert not found(changed("kt-014", ("conditions = []", 'conditions = ["asthma"]')), protocol, topic)


def test_honey_and_the_two_sweetener_rules(
    changed: Callable[..., Plan], ok_plan: Callable[[str], Plan], protocol: ClinicProtocol
) -> None:
    assert found(changed("kt-014", ('vehicle = "sweetener"', 'vehicle = "honey"')), protocol, "honey")
    assert not found(ok_plan("kt-014"), protocol, "sweetener rule")  # 0.5 mg ampoules: both forms agree
    strong = changed(
        "kt-014",
        ('"0.5 mg / 2 mL"', '"1 mg / 2 mL"'),
        ('to = "0.5 mg"', 'to = "1 mg"\ntimes_per_day = 1'),
        ('dose = "0.5 mg"', 'dose = "1 mg"'),
    )
    text = found(strong, protocol, "sweetener rule")[0].text
    assert "10 g" in text and "5 g" in text


def test_mixing_ahead_is_a_caution_where_it_is_allowed(changed: Callable[..., Plan]) -> None:
    text = EXAMPLE.read_text(encoding="utf-8").replace("ahead_limit = { value = 0,", "ahead_limit = { value = 5,")
    clinic = read_protocol(text, "test")
    from scheduler.planfile import read_plan

    plan = read_plan(changed("kt-014").text.replace("mix_ahead_days = 0", "mix_ahead_days = 3"), "test", clinic)
    assert "3 days ahead" in found(plan, clinic, "mixed ahead")[0].text


def test_long_courses_endoscopy_and_drops(
    changed: Callable[..., Plan], ok_plan: Callable[[str], Plan], protocol: ClinicProtocol
) -> None:
    assert found(ok_plan("kt-014"), protocol, "long use")
    short = changed("mb-032", ('dose = "1 mg"', 'lasts = "12 weeks"\ndose = "1 mg"'))
    assert found(short, protocol, "stopping") and not found(ok_plan("kt-014"), protocol, "stopping")
    assert not found(short, protocol, "long use") and found(short, protocol, "endoscopy")
    assert not found(ok_plan("kt-014"), protocol, "endoscopy")
    steep = changed(
        "kt-014",
        ('to = "0.5 mg"', '[[phase.step]]\nlasts = "8 weeks"\nevening = "0.5 mg"'),
        ('dose = "0.5 mg"\ntimes_per_day = 2', 'dose = "0.5 mg"\ntimes_per_day = 1'),
    )
    assert "from 2 mg to 0.5 mg, 75 %" in found(steep, protocol, "large drop")[0].text
    assert not found(ok_plan("kt-014"), protocol, "large drop")


def test_a_step_that_rises_is_told(
    changed: Callable[..., Plan], ok_plan: Callable[[str], Plan], protocol: ClinicProtocol
) -> None:
    higher = changed("kt-014", ('dose = "0.5 mg"\ntimes_per_day = 2', 'dose = "1 mg"\ntimes_per_day = 2'))
    assert "raises the day from 1 mg to 2 mg" in found(higher, protocol, "rise")[0].text
    assert not found(ok_plan("kt-014"), protocol, "rise")


def test_a_season_that_hides_the_taper_is_told(
    ok_plan: Callable[[str], Plan], changed: Callable[..., Plan], protocol: ClinicProtocol
) -> None:
    """The season of this plan ends in the last week of the taper: from 2 mg to 1 mg in one step."""
    assert "2026-06-16 the day falls from 2 mg to 1 mg" in found(ok_plan("kt-014"), protocol, "season end")[0].text
    lower = changed("kt-014", ('lead = "3 weeks"\ndose = "1 mg"', 'lead = "3 weeks"\ndose = "0.5 mg"'))
    assert not found(lower, protocol, "season end")


def test_dose_times_of_the_clinician_that_break_a_rule(
    changed: Callable[..., Plan], ok_plan: Callable[[str], Plan], protocol: ClinicProtocol
) -> None:
    plan = changed("kt-014", ("mix_ahead_days = 0", 'mix_ahead_days = 0\ndose_times = ["07:00", "21:30"]'))
    assert "gives by 15 min" in found(plan, protocol, "dose times")[0].text
    assert not found(ok_plan("kt-014"), protocol, "dose times")


def test_names_are_whole_words() -> None:
    assert named(("tb",), ("football injury",)) == []
    assert named(("diabetes",), ("Diabétes mellitus",)) == ["diabetes"]
    assert named(("budesonide",), ("budesonide/formoterol",)) == ["budesonide"]

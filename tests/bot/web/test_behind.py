"""What stands behind the phones: how words were read and why a flag was raised, the window, the outbox."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from bot.web import behind, views

MAYA = "patient-KT-014"


async def seen(stage):
    found = await views.background(stage, "KT-014")
    assert found is not None
    return found


async def test_white_patches_are_shown_as_thrush_with_rule_and_source(first_dose):
    await first_dose.says("KT-014", MAYA, "I have white patches on my tongue")
    found = await seen(first_dose)
    read = found["readings"][0]
    assert "".join(piece.text for piece in read.pieces) == "I have white patches on my tongue"
    marked = [piece for piece in read.pieces if piece.finding]
    assert marked[0].text.startswith("white patches") and marked[0].stands and marked[0].finding == "thrush"
    assert read.urgency == "urgent" and read.flag == "KT-014/1"
    assert read.rules[0].id == "thrush" and read.rules[0].title == "Signs of thrush"
    assert "candidiasis" in read.rules[0].source
    assert found["flags"][0].id == "KT-014/1" and found["flags"][0].act_by


async def test_what_does_not_stand_is_marked_with_its_context(first_dose):
    await first_dose.says("KT-014", MAYA, "no white patches on my tongue")
    read = (await seen(first_dose))["readings"][0]
    marked = [piece for piece in read.pieces if piece.finding]
    assert marked and not marked[0].stands and "denied" in marked[0].context
    assert read.findings == ()


async def test_the_window_runs_from_the_confirmed_dose(first_dose):
    assert (await seen(first_dose))["window"].state == "none"
    await first_dose.to_instant(first_dose.now + timedelta(minutes=7))
    shown = next(item.shown for item in reversed(first_dose.items(MAYA)) if item.shown and item.shown.outgoing.buttons)
    await first_dose.taps("KT-014", MAYA, shown.name, shown.outgoing.buttons[0][0].data)
    await first_dose.to_instant(first_dose.now + timedelta(minutes=10))
    window = (await seen(first_dose))["window"]
    assert (window.state, window.gone, window.left, window.whole) == ("running", 10, 20, 30)
    assert "until 08:22" in window.words
    await first_dose.to_instant(first_dose.now + timedelta(minutes=20))
    assert (await seen(first_dose))["window"].state == "over"


async def test_the_outbox_is_in_order_and_at_most_ten_then_the_plan_goes_on(first_dose):
    found = await seen(first_dose)
    assert 0 < len(found["outbox"]) <= behind.NEXT
    assert len(found["later"]) >= 3 and all(one.to == "plan" for one in found["later"])
    assert any("dose 1 mg" in one.what for one in found["later"])


async def test_open_flags_come_by_urgency(first_dose):
    await first_dose.says("KT-014", MAYA, "I want to stop taking it")
    await first_dose.says("KT-014", MAYA, "food is stuck and won't go down")
    flags = (await seen(first_dose))["flags"]
    assert [flag.urgency for flag in flags] == sorted((flag.urgency for flag in flags),
                                                      key=["emergency", "urgent", "routine"].index)


def test_each_situation_has_words_and_the_late_one_a_time():
    names = [name for name, _ in views.situations()]
    assert len(names) == 6
    at = datetime(2026, 3, 2, 15, 25, tzinfo=UTC)
    words = views.situation_words(names.index("Took it late"), at, "America/Denver")
    assert words == "I took it at 08:05"


@pytest.mark.parametrize(("name", "urgency", "rule"), [
    ("White patches", "urgent", "thrush"), ("Food stuck", "emergency", "food_stuck"), ("Took it late", "", ""),
    ("Ate too early", "routine", ""), ("Wants to stop", "routine", "wants_stop"), ("No benefit", "routine", ""),
])
async def test_each_situation_leads_to_what_a_clinician_expects(first_dose, name, urgency, rule):
    """Urgency of the flag (thrush the same day, a stuck bolus at once: ESGE 2016); 'took it late' raises none."""
    shown = first_dose.world.last("KT-014")
    if name == "Ate too early":
        await first_dose.taps("KT-014", MAYA, shown.name, shown.outgoing.buttons[0][0].data)
    await first_dose.to_instant(first_dose.now + timedelta(minutes=25))
    number = [one for one, _ in views.situations()].index(name)
    await first_dose.says("KT-014", MAYA, views.situation_words(number, first_dose.now, "America/Denver"))
    flags = (await seen(first_dose))["flags"]
    raised = [flag.urgency for flag in flags]
    assert raised == ([urgency] if urgency else []) or (name == "Ate too early" and raised == [])
    if rule:
        assert flags[0].rules[0].id == rule
    window = (await seen(first_dose))["window"]
    assert window.state == {"Took it late": "running", "Ate too early": "broken"}.get(name, "none")

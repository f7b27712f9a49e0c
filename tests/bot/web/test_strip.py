"""The calendar strip against the plan's own arithmetic: where phases, gates and seasons stand, how tall doses are."""

from __future__ import annotations

from datetime import UTC, date, datetime, time

import pytest

from bot.rehearsal.demo import DEMOS, demo_plan
from bot.web.strip import strip
from scheduler.localtime import instant
from scheduler.plan import dose_in_force
from scheduler.record import Entry, EntryKind, Record

ZONE = "America/Denver"


def noon(day: date) -> datetime:
    return instant(day, time(12), ZONE)


def test_phases_follow_each_other_and_what_waits_for_a_gate_is_dashed(protocol):
    plan = demo_plan("adult_slurry", protocol)
    found = strip(plan, Record(), noon(date(2026, 3, 4)))
    assert [one.label for one in found.phases] == ["induction", "taper", "maintenance"]
    assert [one.kind for one in found.phases] == ["sure", "waiting", "waiting"]
    for before, after in zip(found.phases, found.phases[1:], strict=False):
        assert before.left + before.width == pytest.approx(after.left, abs=0.01)
    assert found.phases[-1].left + found.phases[-1].width == pytest.approx(100, abs=0.01)


def test_a_released_gate_is_drawn_as_sure_and_moves_the_taper(protocol):
    plan = demo_plan("adult_slurry", protocol)
    release = Entry(EntryKind.GATE_RELEASED, noon(date(2026, 5, 11)), "endoscopy reviewed", {"from": "2026-05-12"})
    found = strip(plan, Record((release,)), noon(date(2026, 5, 12)))
    assert [one.kind for one in found.phases] == ["sure"] * 3
    rows = {row.name: row for row in found.rows}
    assert rows["taper"].state == "now" and rows["taper"].when.startswith("12 May 2026")
    assert "not released" not in next(mark.title for mark in found.marks if mark.kind == "gate")


def test_a_gate_that_is_late_is_drawn_from_tomorrow(protocol):
    plan = demo_plan("adult_slurry", protocol)
    found = strip(plan, Record(), noon(date(2026, 6, 1)))
    taper = next(row for row in found.rows if row.name == "taper")
    assert "waits for 'endoscopy reviewed', from 2 Jun 2026" in taper.when


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("today", [date(2026, 1, 10), date(2026, 3, 2), date(2026, 4, 15), date(2026, 7, 1)])
def test_doses_are_as_tall_as_their_daily_amount_and_cover_the_strip(protocol, name, today):
    plan = demo_plan(name, protocol)
    found = strip(plan, Record(), noon(today))
    assert max(one.height for one in found.doses) == 100
    assert sum(one.width for one in found.doses) == pytest.approx(100, abs=0.1)
    tallest = max(found.doses, key=lambda one: one.height)
    for one in found.doses:
        ratio = float(one.label.split()[0]) / float(tallest.label.split()[0])
        assert one.height == pytest.approx(100 * ratio, abs=0.1)


def test_the_season_raises_the_dose_from_its_lead_on(protocol):
    """Season 10 April with a lead of three weeks: from 20 March (by hand)."""
    plan = demo_plan("teen_inhaler", protocol)
    found = strip(plan, Record(), noon(date(2026, 3, 18)))
    assert "20 Mar 2026 to 15 Jun 2026" in next(row.when for row in found.rows if row.name == "season")
    raised = next(one for one in found.doses if one.kind == "season")
    assert raised.label == "880 microgram" and raised.title.endswith("20 Mar 2026")


def test_today_says_the_dose_that_is_in_force(protocol):
    plan = demo_plan("adult_maintenance", protocol)
    at = datetime(2026, 3, 2, 15, tzinfo=UTC)
    found = strip(plan, Record(), at)
    in_force = dose_in_force(plan, Record(), date(2026, 3, 2))
    assert in_force is not None and found.today == "0.5 mg (1 ampoule) twice a day"
    assert "week 27 of the course" in found.summary      # 1 September to 2 March: 182 days, by hand

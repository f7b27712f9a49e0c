"""The dose in force: phases, steps, gates, seasons and the end of the course."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

import pytest

from scheduler.plan import InForce, Plan, dose_in_force, in_season, paused, phase_dates
from scheduler.record import Entry, EntryKind, Record

GATE = "endoscopy reviewed"


def released(at: datetime, day: str | None = None) -> Record:
    facts = {"phase": "taper", "by": "Dr R. Okafor"} | ({"from": day} if day else {})
    return Record((Entry(EntryKind.GATE_RELEASED, at, GATE, facts),))


def noon(day: date) -> datetime:
    return datetime(day.year, day.month, day.day, 18, tzinfo=UTC)


def on(plan: Plan, day: date, record: Record | None = None) -> InForce:
    found = dose_in_force(plan, record or Record(), day)
    assert found is not None
    return found


@pytest.fixture
def plan(changed: Callable[..., Plan]) -> Plan:
    """The example's plan with its season in autumn, out of the taper's way."""
    return changed("kt-014", ('from = "04-10"', 'from = "09-10"'), ('until = "06-15"', 'until = "10-15"'))


def units(found: InForce) -> list[int]:
    return [dose.units for dose in found.doses]


def test_before_the_start_there_is_none(plan: Plan) -> None:
    assert dose_in_force(plan, Record(), date(2026, 3, 1)) is None


def test_the_first_day(plan: Plan) -> None:
    found = on(plan, date(2026, 3, 2))
    assert (found.phase.name, found.step, units(found)) == ("induction", 0, [2, 2])
    assert (found.day_of_phase, found.day_of_course, found.reason, found.waiting_gate) == (1, 1, "phase", None)
    assert str(found.daily) == "2 mg"


def test_a_gate_that_waits_keeps_the_dose_before(plan: Plan) -> None:
    last = on(plan, date(2026, 4, 26))
    assert (last.reason, last.waiting_gate, last.day_of_phase) == ("phase", None, 56)
    for day in (date(2026, 4, 27), date(2026, 8, 1)):
        found = on(plan, day)
        assert (found.phase.name, units(found)) == ("induction", [2, 2])
        assert (found.reason, found.waiting_gate) == ("waiting", GATE)


def test_a_release_starts_the_phase_and_what_follows_it(plan: Plan) -> None:
    record = released(noon(date(2026, 5, 3)), "2026-05-04")
    assert on(plan, date(2026, 5, 3), record).phase.name == "induction"
    first = on(plan, date(2026, 5, 4), record)
    assert (first.phase.name, first.step, units(first), first.day_of_phase) == ("taper", 0, [1, 2], 1)
    assert units(on(plan, date(2026, 6, 1), record)) == [1, 1]
    assert on(plan, date(2026, 6, 28), record).phase.name == "taper"
    assert on(plan, date(2026, 6, 29), record).phase.name == "maintenance"
    assert [one.begins for one in phase_dates(plan, record)] == [date(2026, 3, 2), date(2026, 5, 4), date(2026, 6, 29)]


def test_a_release_ahead_of_time_waits_for_the_phase_before(plan: Plan) -> None:
    record = released(noon(date(2026, 4, 1)), "2026-04-02")
    assert on(plan, date(2026, 4, 26), record).phase.name == "induction"
    assert on(plan, date(2026, 4, 27), record).phase.name == "taper"


def test_a_release_never_changes_a_day_that_has_begun(plan: Plan) -> None:
    """First dose 07:45 in Denver, 13:45 UTC in May: a release at 14:00 UTC for the same day counts from the next."""
    late = released(datetime(2026, 5, 4, 14, 0, tzinfo=UTC), "2026-05-04")
    assert on(plan, date(2026, 5, 4), late).phase.name == "induction"
    assert on(plan, date(2026, 5, 5), late).phase.name == "taper"
    early = released(datetime(2026, 5, 4, 13, 0, tzinfo=UTC), "2026-05-04")
    assert on(plan, date(2026, 5, 4), early).phase.name == "taper"
    back = released(noon(date(2026, 5, 20)), "2026-05-04")
    assert on(plan, date(2026, 5, 20), back).phase.name == "induction"
    assert on(plan, date(2026, 5, 21), back).phase.name == "taper"


def test_a_release_without_a_date_counts_from_the_next_first_dose(plan: Plan) -> None:
    record = released(noon(date(2026, 5, 3)))
    assert on(plan, date(2026, 5, 4), record).phase.name == "taper"


def test_a_release_that_is_held_again_is_none(plan: Plan) -> None:
    release = released(noon(date(2026, 5, 3)), "2026-05-10")
    record = Record((*release.entries, Entry(EntryKind.GATE_HELD, noon(date(2026, 5, 5)), GATE)))
    assert on(plan, date(2026, 5, 12), record).reason == "waiting"


def test_the_course_ends(changed: Callable[..., Plan]) -> None:
    plan = changed("mb-032", ('dose = "1 mg"', 'lasts = "10 days"\ndose = "1 mg"'))
    assert dose_in_force(plan, Record(), date(2026, 1, 21)) is not None
    assert dose_in_force(plan, Record(), date(2026, 1, 22)) is None


def test_a_season_raises_the_dose_with_its_lead_and_steps_back(plan: Plan) -> None:
    record = released(noon(date(2026, 4, 26)), "2026-04-27")
    assert units(on(plan, date(2026, 8, 19), record)) == [1, 1]
    found = on(plan, date(2026, 8, 20), record)  # three weeks before 10 September
    assert (units(found), found.reason, found.season, found.phase.name) == ([2, 2], "season", 0, "maintenance")
    assert on(plan, date(2026, 10, 15), record).reason == "season"
    assert units(on(plan, date(2026, 10, 16), record)) == [1, 1]


def test_where_season_and_phase_overlap_the_higher_is_in_force(ok_plan: Callable[[str], Plan]) -> None:
    """Induction at 2 mg a day is not lowered and not renamed by a season of 2 mg; the taper under it is raised."""
    plan = ok_plan("kt-014")
    record = released(noon(date(2026, 4, 26)), "2026-04-27")
    assert on(plan, date(2026, 4, 20), record).reason == "phase"
    found = on(plan, date(2026, 4, 27), record)
    assert (found.phase.name, found.step, found.reason, units(found)) == ("taper", 0, "season", [2, 2])
    assert found.day_of_phase == 1  # the taper's calendar goes on underneath


def test_a_lower_season_changes_nothing(changed: Callable[..., Plan]) -> None:
    plan = changed("kt-014", ('lead = "3 weeks"\ndose = "1 mg"', 'lead = "3 weeks"\ndose = "0.5 mg"'))
    assert on(plan, date(2026, 4, 20)).reason == "phase"


@pytest.mark.parametrize(("year", "begins"), [(2027, (3, 1)), (2028, (2, 29))])
def test_the_twenty_ninth_of_february(year: int, begins: tuple[int, int], changed: Callable[..., Plan]) -> None:
    plan = changed(
        "kt-014",
        ('from = "04-10"', 'from = "02-29"'),
        ('until = "06-15"', 'until = "04-01"'),
        ('lead = "3 weeks"\n', ""),
    )
    first = date(year, *begins)
    assert in_season(plan.seasons[0], first) == (first, date(year, 4, 1))
    assert in_season(plan.seasons[0], first - timedelta(days=1)) is None
    to_leap = changed("kt-014", ('from = "04-10"', 'from = "01-10"'), ('until = "06-15"', 'until = "02-29"'))
    last = date(year, 2, 29) if year == 2028 else date(year, 2, 28)
    assert in_season(to_leap.seasons[0], last) is not None
    assert in_season(to_leap.seasons[0], last + timedelta(days=1)) is None


def test_a_pause_holds_from_its_instant_to_the_resumption_or_its_day(plan: Plan) -> None:
    begin, end = noon(date(2026, 3, 10)), noon(date(2026, 3, 14))
    record = Record((Entry(EntryKind.PAUSED, begin), Entry(EntryKind.RESUMED, end)))
    assert [
        paused(plan, record, at) for at in (begin - timedelta(seconds=1), begin, end - timedelta(seconds=1), end)
    ] == [False, True, True, False]
    until = Record((Entry(EntryKind.PAUSED, begin, facts={"until": "2026-03-12"}),))
    midnight = datetime(2026, 3, 12, 6, 0, tzinfo=UTC)  # Denver, after the clocks went forward
    assert [paused(plan, until, at) for at in (midnight - timedelta(seconds=1), midnight)] == [True, False]
    assert paused(plan, Record((Entry(EntryKind.PAUSED, begin, facts={"until": None}),)), noon(date(2027, 1, 1)))

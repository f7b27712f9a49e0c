"""Supply: what a course uses, what is left, and when to say so."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, Record
from scheduler.spending import dose_key
from scheduler.supply import runs_out, usage

START = date(2026, 3, 2)


def instant(day: date, hour: int = 18) -> datetime:
    return datetime(day.year, day.month, day.day, hour, tzinfo=UTC)


def answered(kind: EntryKind, day: date, slot: int, **facts: object) -> Entry:
    return Entry(kind, instant(day), dose_key(1, day, slot), facts)


def test_sixty_ampoules_at_four_a_day(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    found = runs_out(ok_plan("kt-014"), Record(), protocol, START)
    assert (found.on_hand, found.refills, found.first_day_without) == (60, 0, date(2026, 3, 17))
    assert found.remind_on == (date(2026, 3, 7), date(2026, 3, 14))


def test_skipped_doses_leave_more_and_unknown_ones_do_not(
    ok_plan: Callable[[str], Plan], protocol: ClinicProtocol
) -> None:
    plan = ok_plan("kt-014")
    skipped = Record(tuple(answered(EntryKind.DOSE_SKIPPED, START, slot) for slot in (0, 1)))
    assert runs_out(plan, skipped, protocol, START).first_day_without == date(2026, 3, 18)
    unknown = Record(tuple(answered(EntryKind.DOSE_UNKNOWN, START, slot) for slot in (0, 1)))
    found = runs_out(plan, unknown, protocol, START + timedelta(days=1))
    assert found.first_day_without == date(2026, 3, 17)  # rather too early
    assert found.on_confirmed == date(2026, 3, 18)


def test_what_was_really_taken_counts(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    """Four ampoules told for the first dose instead of two: the last full day is one dose shorter."""
    record = Record((answered(EntryKind.DOSE_TAKEN, START, 0, units=4),))
    assert runs_out(ok_plan("kt-014"), record, protocol, START).first_day_without == date(2026, 3, 16)
    back = Record((*record.entries, answered(EntryKind.DOSE_CORRECTED, START, 0)))
    assert runs_out(ok_plan("kt-014"), back, protocol, START).first_day_without == date(2026, 3, 17)


def test_other_versions_of_the_plan_are_not_counted(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    record = Record((answered(EntryKind.DOSE_SKIPPED, START, 0), answered(EntryKind.DOSE_SKIPPED, START, 1)))
    assert runs_out(ok_plan("kt-014"), record, protocol, START, version=2).first_day_without == date(2026, 3, 17)


def test_a_pause_uses_nothing(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    """Paused from the 4th at 18:00 UTC, after the morning dose in Denver, to the 9th at the same hour: ten doses
    fewer."""
    record = Record(
        (Entry(EntryKind.PAUSED, instant(date(2026, 3, 4))), Entry(EntryKind.RESUMED, instant(date(2026, 3, 9))))
    )
    assert runs_out(ok_plan("kt-014"), record, protocol, START).first_day_without == date(2026, 3, 22)


def test_refills(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    record = Record((Entry(EntryKind.SUPPLY_ADDED, instant(date(2026, 3, 8)), facts={"packs": 2}),))
    found = runs_out(ok_plan("kt-014"), record, protocol, START)
    assert (found.on_hand, found.refills, found.first_day_without) == (120, 1, date(2026, 4, 1))


def test_nothing_on_hand(changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    found = runs_out(changed("kt-014", ("packs_on_hand = 2", "packs_on_hand = 0")), Record(), protocol, START)
    assert (found.first_day_without, found.remind_on) == (START, (START,))


def test_a_course_that_ends_before_the_supply(changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    plan = changed("mb-032", ('dose = "1 mg"', 'lasts = "10 days"\ndose = "1 mg"'))
    found = runs_out(plan, Record(), protocol, date(2026, 1, 12))
    assert (found.first_day_without, found.remind_on) == (None, ())


def test_use_by_phase_and_in_all(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    """The season covers the taper's first step and most of the second, so the taper uses more than its ladder."""
    found = usage(ok_plan("kt-014"), Record(), protocol, START)
    assert [(use.name, use.days, use.units, use.packs) for use in found.phases] == [
        ("induction", 56, 224, 8),
        ("taper", 56, 50 * 4 + 6 * 2, 8),
        ("maintenance", 28, 56, 2),
    ]
    assert (found.total.units, found.total.packs, found.total.packets) == (492, 17, 2460)
    assert found.onward is not None and (found.onward.units, found.onward.packets) == (56, 280)
    assert found.latest is not None and found.latest.units > found.total.units


def test_vehicles_are_counted_too(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    found = usage(ok_plan("mb-032"), Record(), protocol, date(2026, 1, 12))
    assert (found.phases[0].vehicle_ml, found.phases[0].packets, found.latest) == (28 * 5, 0, None)

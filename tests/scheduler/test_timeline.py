"""The timeline: which occasions, when, under which key, and that they do not depend on how they are asked for."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta
from itertools import islice

import pytest

from scheduler.localtime import instant, local
from scheduler.occasions import Occasion, OccasionKind
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, Record
from scheduler.timeline import dose_close, next_look, next_occasion, occasions

DENVER = "America/Denver"
GATE = "endoscopy reviewed"


def at(day: date, clock: str, zone: str = DENVER) -> datetime:
    return instant(day, time.fromisoformat(clock), zone)


def between(
    plan: Plan, protocol: ClinicProtocol, first: date, last: date, record: Record | None = None, *kinds: OccasionKind
) -> list[Occasion]:
    zone = plan.patient.time_zone
    found = occasions(
        plan, record or Record(), protocol, at(first, "00:00", zone) - timedelta(seconds=1), at(last, "23:59", zone)
    )
    return [one for one in found if not kinds or one.kind in kinds]


def release(told: datetime, day: str) -> Entry:
    return Entry(EntryKind.GATE_RELEASED, told, GATE, {"phase": "taper", "from": day, "by": "Dr R. Okafor"})


@pytest.fixture
def plan(changed: Callable[..., Plan]) -> Plan:
    """The example's plan with its season in autumn, out of the taper's way."""
    return changed("kt-014", ('from = "04-10"', 'from = "09-10"'), ('until = "06-15"', 'until = "10-15"'))


def test_the_first_day(plan: Plan, protocol: ClinicProtocol) -> None:
    found = between(plan, protocol, date(2026, 3, 1), date(2026, 3, 2))
    assert [(one.kind, one.at, one.key) for one in found] == [
        (OccasionKind.DOSE, at(date(2026, 3, 2), "07:45"), "v1:d:20260302:0"),
        (OccasionKind.DOSE, at(date(2026, 3, 2), "21:30"), "v1:d:20260302:1"),
    ]
    first = found[0]
    assert (first.phase, first.step, first.slot, first.day) == ("induction", 0, 0, date(2026, 3, 2))
    assert first.dose is not None and first.dose.units == 2
    assert first.facts["amount"] == "1 mg" and first.facts["unit"] == "ampoule" and first.facts["of"] == 2
    assert [one.facts["bedtime"] for one in found] == [False, True]


def test_the_bounds_are_after_and_up_to(plan: Plan, protocol: ClinicProtocol) -> None:
    first, second = at(date(2026, 3, 2), "07:45"), at(date(2026, 3, 2), "21:30")
    assert [one.at for one in occasions(plan, Record(), protocol, first, second)] == [second]
    assert list(occasions(plan, Record(), protocol, second, second)) == []


def test_naive_bounds_are_refused(plan: Plan, protocol: ClinicProtocol) -> None:
    with pytest.raises(ValueError, match="aware"):
        list(occasions(plan, Record(), protocol, datetime(2026, 3, 2), datetime(2026, 3, 3)))  # noqa: DTZ001


def test_keys_fit_into_button_data(plan: Plan, protocol: ClinicProtocol) -> None:
    found = list(
        occasions(plan, Record(), protocol, at(date(2026, 1, 1), "00:00"), at(date(2028, 1, 1), "00:00"), version=12)
    )
    assert len({one.key for one in found}) == len(found)
    assert all(one.key.startswith("v12:") and len(one.key) <= 28 and one.key.isascii() for one in found)
    assert [one.at for one in found] == sorted(one.at for one in found)


def test_asking_is_lazy(plan: Plan, protocol: ClinicProtocol) -> None:
    endless = occasions(plan, Record(), protocol, at(date(2026, 1, 1), "00:00"), at(date(2190, 1, 1), "00:00"))
    assert len(list(islice(endless, 5))) == 5


def test_check_ins_are_weekly_at_the_plan_s_time(plan: Plan, protocol: ClinicProtocol) -> None:
    found = between(plan, protocol, date(2026, 3, 1), date(2026, 3, 22), None, OccasionKind.CHECK_IN)
    assert [local(one.at, DENVER).strftime("%a %m-%d %H:%M") for one in found] == [
        "Sun 03-08 18:00",
        "Sun 03-15 18:00",
        "Sun 03-22 18:00",
    ]


def test_a_gate_waits_and_reminds_until_it_is_released(plan: Plan, protocol: ClinicProtocol) -> None:
    found = between(plan, protocol, date(2026, 4, 1), date(2026, 5, 18), None, OccasionKind.GATE_WAITING)
    assert [(one.day, one.key) for one in found] == [
        (date(2026, 4, 27), "v1:g:1:0"),
        (date(2026, 5, 4), "v1:g:1:1"),
        (date(2026, 5, 11), "v1:g:1:2"),
        (date(2026, 5, 18), "v1:g:1:3"),
    ]
    assert (
        found[1].facts["gate"] == GATE
        and found[1].facts["next_phase"] == "taper"
        and found[1].facts["days_waited"] == 7
    )
    record = Record((release(at(date(2026, 5, 5), "12:00"), "2026-05-08"),))
    again = between(plan, protocol, date(2026, 4, 1), date(2026, 5, 18), record, OccasionKind.GATE_WAITING)
    assert [one.day for one in again] == [date(2026, 4, 27), date(2026, 5, 4)]


def test_a_step_is_announced_the_day_before_and_told_before_the_first_dose(
    plan: Plan, protocol: ClinicProtocol
) -> None:
    record = Record((release(at(date(2026, 4, 28), "12:00"), "2026-05-04"),))
    kinds = (OccasionKind.STEP_NOTICE, OccasionKind.STEP_CHANGE)
    found = between(plan, protocol, date(2026, 3, 1), date(2026, 7, 31), record, *kinds)
    assert [(one.kind, one.at) for one in found] == [
        (OccasionKind.STEP_NOTICE, at(date(2026, 5, 3), "17:00")),
        (OccasionKind.STEP_CHANGE, at(date(2026, 5, 4), "07:30")),
        (OccasionKind.STEP_NOTICE, at(date(2026, 5, 31), "17:00")),
        (OccasionKind.STEP_CHANGE, at(date(2026, 6, 1), "07:30")),
    ]
    notice, change = found[0], found[1]
    assert notice.facts["from"] == "2026-05-04" and notice.facts["reason"] == "phase" and not notice.facts["rises"]
    assert (notice.facts["daily_before"], notice.facts["daily"]) == ("2 mg", "1.5 mg")
    assert [dose["units"] for dose in change.facts["doses"]] == [1, 2] and change.facts["times"] == ["07:45", "21:30"]
    assert notice.facts["step_key"] == change.key == "v1:s:20260504"
    assert found[2].facts["reason"] == "step"


def test_a_phase_that_keeps_the_dose_is_no_step_change(plan: Plan, protocol: ClinicProtocol) -> None:
    """The taper ends at the dose of the maintenance: nothing new to understand."""
    record = Record((release(at(date(2026, 4, 28), "12:00"), "2026-05-04"),))
    found = between(plan, protocol, date(2026, 6, 20), date(2026, 7, 10), record)
    assert {one.phase for one in found if one.kind is OccasionKind.DOSE} == {"taper", "maintenance"}
    assert not [one for one in found if one.kind is OccasionKind.STEP_CHANGE]


@pytest.mark.parametrize(
    ("told", "notice", "change"),
    [
        ("2026-05-03 12:00", "2026-05-03 17:00", "2026-05-04 07:30"),
        ("2026-05-03 20:00", "2026-05-03 20:01", "2026-05-04 07:30"),  # after the hour of the notice: at once
        ("2026-05-04 06:00", None, "2026-05-04 07:30"),  # on the morning itself nothing says 'tomorrow'
        ("2026-05-04 07:40", None, "2026-05-04 07:41"),  # minutes before the first dose
        ("2026-05-04 09:00", "2026-05-04 17:00", "2026-05-05 07:30"),  # the day has begun: from the next one
    ],
)
def test_a_late_release_is_still_told_before_the_new_dose(
    told: str, notice: str | None, change: str, plan: Plan, protocol: ClinicProtocol
) -> None:
    def parsed(text: str) -> datetime:
        day, clock = text.split()
        return at(date.fromisoformat(day), clock)

    record = Record((release(parsed(told), "2026-05-04"),))
    found = between(plan, protocol, date(2026, 5, 1), date(2026, 5, 6), record)
    steps = {one.kind: one.at for one in found if one.kind in (OccasionKind.STEP_NOTICE, OccasionKind.STEP_CHANGE)}
    assert steps.get(OccasionKind.STEP_NOTICE) == (parsed(notice) if notice else None)
    assert steps[OccasionKind.STEP_CHANGE] == parsed(change)
    assert all(when > parsed(told) for when in steps.values())  # a cursor at the release sees both
    new = next(one for one in found if one.kind is OccasionKind.DOSE and one.phase == "taper")
    assert steps[OccasionKind.STEP_CHANGE] <= new.at


def test_no_doses_in_a_pause_and_the_new_dose_is_told_after_it(plan: Plan, protocol: ClinicProtocol) -> None:
    record = Record(
        (
            release(at(date(2026, 4, 28), "12:00"), "2026-05-04"),
            Entry(EntryKind.PAUSED, at(date(2026, 5, 2), "12:00"), facts={"by": "Dr R. Okafor", "until": None}),
            Entry(EntryKind.RESUMED, at(date(2026, 5, 6), "12:00")),
        )
    )
    found = between(plan, protocol, date(2026, 5, 1), date(2026, 5, 8), record)
    doses = [one for one in found if one.kind is OccasionKind.DOSE]
    assert [(one.day, one.slot) for one in doses][:5] == [
        (date(2026, 5, 1), 0),
        (date(2026, 5, 1), 1),
        (date(2026, 5, 2), 0),
        (date(2026, 5, 6), 1),
        (date(2026, 5, 7), 0),
    ]
    told = [one for one in found if one.kind in (OccasionKind.STEP_NOTICE, OccasionKind.STEP_CHANGE)]
    assert told and told[0].at < next(one for one in doses if one.day == date(2026, 5, 7)).at
    assert not [one for one in found if one.day == date(2026, 5, 3)]   # a Sunday in the pause: no check-in either


def test_the_bedtime_dose_on_the_day_of_a_resumption_is_announced(plan: Plan, protocol: ClinicProtocol) -> None:
    """Resumed at noon with a new dose in force: the patient hears of it before that evening's dose."""
    record = Record(
        (
            release(at(date(2026, 4, 28), "12:00"), "2026-05-04"),
            Entry(EntryKind.PAUSED, at(date(2026, 5, 2), "12:00")),
            Entry(EntryKind.RESUMED, at(date(2026, 5, 6), "12:00")),
        )
    )
    found = between(plan, protocol, date(2026, 5, 6), date(2026, 5, 7), record)
    change = next(one for one in found if one.kind is OccasionKind.STEP_CHANGE)
    evening = next(one for one in found if one.kind is OccasionKind.DOSE)
    assert at(date(2026, 5, 6), "12:00") < change.at < evening.at


def test_supply_low_with_its_lead_and_again(plan: Plan, protocol: ClinicProtocol) -> None:
    """60 ampoules at 4 a day last 15 days: the 17th is the first day without; told 10 and 3 days ahead."""
    found = between(plan, protocol, date(2026, 3, 1), date(2026, 4, 30), None, OccasionKind.SUPPLY_LOW)
    assert [(one.day, one.key, one.facts["days_left"]) for one in found] == [
        (date(2026, 3, 7), "v1:u:0:0", 10),
        (date(2026, 3, 14), "v1:u:0:1", 3),
    ]
    assert found[0].facts["first_day_without"] == "2026-03-17"


def test_a_refill_moves_the_reminder(plan: Plan, protocol: ClinicProtocol) -> None:
    record = Record((Entry(EntryKind.SUPPLY_ADDED, at(date(2026, 3, 8), "10:00"), facts={"packs": 4}),))
    found = between(plan, protocol, date(2026, 3, 9), date(2026, 5, 30), record, OccasionKind.SUPPLY_LOW)
    assert [(one.day, one.key) for one in found] == [(date(2026, 4, 6), "v1:u:1:0"), (date(2026, 4, 13), "v1:u:1:1")]


def test_endoscopy_is_asked_for_until_it_is_done(plan: Plan, protocol: ClinicProtocol) -> None:
    kind = OccasionKind.ENDOSCOPY_DUE
    found = between(plan, protocol, date(2026, 3, 1), date(2026, 5, 30), None, kind)
    assert [(one.day, one.facts["days_late"]) for one in found] == [
        (date(2026, 4, 27), 0),
        (date(2026, 5, 11), 14),
        (date(2026, 5, 25), 28),
    ]
    done = Record((Entry(EntryKind.ENDOSCOPY_DONE, at(date(2026, 5, 6), "12:00"), facts={"date": "2026-05-05"}),))
    assert [one.day for one in between(plan, protocol, date(2026, 3, 1), date(2026, 5, 30), done, kind)] == [
        date(2026, 4, 27)
    ]
    older = Record((Entry(EntryKind.ENDOSCOPY_DONE, at(date(2026, 3, 2), "12:00"), facts={"date": "2026-02-10"}),))
    assert len(between(plan, protocol, date(2026, 3, 1), date(2026, 5, 30), older, kind)) == 3


def test_seasons_and_milestones(plan: Plan, protocol: ClinicProtocol) -> None:
    record = Record((release(at(date(2026, 4, 26), "12:00"), "2026-04-27"),))
    found = between(plan, protocol, date(2026, 3, 1), date(2026, 12, 31), record)
    seasons = {one.kind: one for one in found if one.kind in (OccasionKind.SEASON_START, OccasionKind.SEASON_END)}
    assert seasons[OccasionKind.SEASON_START].day == date(2026, 8, 20)
    assert seasons[OccasionKind.SEASON_START].facts["raises"] is True
    assert seasons[OccasionKind.SEASON_END].day == date(2026, 10, 16)
    reasons = {one.day: one.facts["reason"] for one in found if one.kind is OccasionKind.STEP_CHANGE}
    assert reasons[date(2026, 8, 20)] == "season" and reasons[date(2026, 10, 16)] == "season over"
    weeks = [one.facts["completed_weeks"] for one in found if one.kind is OccasionKind.MILESTONE]
    assert weeks == [1, 4, 8, 12, 26]


def test_the_end_of_the_course_is_the_end_of_the_timeline(
    changed: Callable[..., Plan], protocol: ClinicProtocol
) -> None:
    plan = changed("mb-032", ('dose = "1 mg"', 'lasts = "10 days"\ndose = "1 mg"'))
    found = list(
        occasions(plan, Record(), protocol, datetime(2025, 1, 1, tzinfo=UTC), datetime(2030, 1, 1, tzinfo=UTC))
    )
    assert len([one for one in found if one.kind is OccasionKind.DOSE]) == 10
    assert next_occasion(plan, Record(), protocol, found[-1].at) is None


def test_next_occasion(plan: Plan, protocol: ClinicProtocol) -> None:
    first = next_occasion(plan, Record(), protocol, datetime(2020, 1, 1, tzinfo=UTC))
    assert first is not None and first.key == "v1:d:20260302:0"
    follows = next_occasion(plan, Record(), protocol, first.at, version=3)
    assert follows is not None and follows.key == "v3:d:20260302:1"


def test_a_bedtime_dose_after_midnight_belongs_to_the_day_before(
    changed: Callable[..., Plan], protocol: ClinicProtocol
) -> None:
    plan = changed(
        "kt-014",
        ('wakes = "06:45"', 'wakes = "10:00"'),
        ('sleeps = "22:30"', 'sleeps = "01:30"'),
        ('meals = ["07:15", "12:30", "18:45"]', 'meals = ["11:00", "14:00", "20:00"]'),
    )
    found = [
        one for one in between(plan, protocol, date(2026, 3, 2), date(2026, 3, 4)) if one.kind is OccasionKind.DOSE
    ]
    assert [(one.key, local(one.at, DENVER).strftime("%d %H:%M")) for one in found] == [
        ("v1:d:20260302:0", "02 11:30"),
        ("v1:d:20260302:1", "03 00:30"),
        ("v1:d:20260303:0", "03 11:30"),
        ("v1:d:20260303:1", "04 00:30"),
        ("v1:d:20260304:0", "04 11:30"),
    ]


def test_a_dose_in_the_skipped_hour_moves_to_the_first_instant(
    changed: Callable[..., Plan], protocol: ClinicProtocol
) -> None:
    """A night worker's bedtime dose at 02:30 on the night on which 02:00 becomes 03:00."""
    plan = changed(
        "kt-014",
        ('wakes = "06:45"', 'wakes = "11:00"'),
        ('sleeps = "22:30"', 'sleeps = "03:30"'),
        ('meals = ["07:15", "12:30", "18:45"]', 'meals = ["11:30", "17:00", "22:00"]'),
        ("mix_ahead_days = 0", 'mix_ahead_days = 0\ndose_times = ["12:30", "02:30"]'),
    )
    found = {
        one.key: one.at
        for one in between(plan, protocol, date(2026, 3, 5), date(2026, 3, 10))
        if one.kind is OccasionKind.DOSE
    }
    assert found["v1:d:20260307:1"] == datetime(2026, 3, 8, 9, 0, tzinfo=UTC)  # 03:00 daylight time
    assert found["v1:d:20260306:1"] == datetime(2026, 3, 7, 9, 30, tzinfo=UTC)
    autumn = changed(
        "kt-014",
        ("2026-03-02", "2026-10-20"),
        ('wakes = "06:45"', 'wakes = "10:00"'),
        ('sleeps = "22:30"', 'sleeps = "02:15"'),
        ('meals = ["07:15", "12:30", "18:45"]', 'meals = ["10:30", "17:00", "21:00"]'),
        ("mix_ahead_days = 0", 'mix_ahead_days = 0\ndose_times = ["12:00", "01:30"]'),
    )
    keys = [
        one.key
        for one in between(autumn, protocol, date(2026, 10, 30), date(2026, 11, 3))
        if one.kind is OccasionKind.DOSE
    ]
    assert keys.count("v1:d:20261031:1") == 1  # 01:30 happens twice that night; the dose does not


def test_late_doses_close_before_the_next(plan: Plan, protocol: ClinicProtocol) -> None:
    """Six hours before the next dose (half-interval rule, from memory), or half the interval when that leaves more."""
    morning, evening = between(plan, protocol, date(2026, 3, 2), date(2026, 3, 2))
    assert dose_close(plan, Record(), morning, protocol) == at(date(2026, 3, 2), "15:30")
    close = dose_close(plan, Record(), evening, protocol)
    assert evening.at + timedelta(hours=5, minutes=7, seconds=30) == close  # half of 10 h 15 min
    assert morning.facts["closes"] == at(date(2026, 3, 2), "15:30").isoformat()
    check_in = between(plan, protocol, date(2026, 3, 8), date(2026, 3, 8), None, OccasionKind.CHECK_IN)[0]
    with pytest.raises(ValueError, match="is not a dose"):
        dose_close(plan, Record(), check_in, protocol)


def test_an_inhaler_is_primed_first_and_after_a_rest(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    plan = ok_plan("fl-207")
    zone = plan.patient.time_zone
    first = between(plan, protocol, date(2026, 2, 16), date(2026, 2, 18))
    assert [one.facts.get("prime", {}).get("sprays") for one in first] == [4, None, None, None, None, None]
    taken = Record((Entry(EntryKind.DOSE_TAKEN, at(date(2026, 2, 16), "07:40", zone), "v1:d:20260216:0"),))
    silent = between(plan, protocol, date(2026, 2, 16), date(2026, 2, 23), taken, OccasionKind.DOSE)[1:-1]
    taken += tuple(Entry(EntryKind.DOSE_UNKNOWN, one.at, one.key) for one in silent)
    assert [
        one.facts.get("prime", {}).get("sprays")
        for one in between(plan, protocol, date(2026, 2, 23), date(2026, 2, 23), taken, OccasionKind.DOSE)
    ] == [None, 1]


def test_the_next_look_is_never_later_than_the_next_occasion(plan: Plan, protocol: ClinicProtocol) -> None:
    after = datetime(2026, 3, 1, tzinfo=UTC)
    for _ in range(120):
        look = next_look(plan, Record(), protocol, after)
        follows = next_occasion(plan, Record(), protocol, after)
        assert look is not None and follows is not None and after < look <= follows.at
        after = look

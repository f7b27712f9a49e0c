"""A changed plan: another dose than the patient was told is announced before it is asked for, at whatever hour it is
signed. Doses of the plan are 1 mg at 07:45 and 21:30, from 2 March 2026, in Denver; the changed one asks for 2 mg."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime, time, timedelta
from typing import Any

import pytest

from scheduler.lasttold import last_told
from scheduler.localtime import instant, local
from scheduler.occasions import Occasion, OccasionKind
from scheduler.plan import Plan
from scheduler.ports import Due
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, Record
from scheduler.tick import expand
from scheduler.timeline import occasions

ZONE = "America/Denver"
ONE, TWO = ({"amount": f"{n} mg", "units": 2 * n, "unit": "ampoule"} for n in (1, 2))
STEPS = (OccasionKind.STEP_NOTICE, OccasionKind.STEP_CHANGE)


@pytest.fixture
def old(ok_plan: Callable[[str], Plan]) -> Plan:
    return ok_plan("kt-014")


@pytest.fixture
def new(changed: Callable[..., Plan]) -> Plan:
    return changed("kt-014", ('lasts = "8 weeks"\ndose = "1 mg"', 'lasts = "8 weeks"\ndose = "2 mg"'))


def at(text: str) -> datetime:
    told = datetime.strptime(f"2026-{text}", "%Y-%m-%d %H:%M")  # noqa: DTZ007 - wall clock of the plan's zone
    return instant(told.date(), told.time(), ZONE)


def plus(record: Record, kind: EntryKind, when: datetime, about: str = "",
         facts: dict[str, Any] | None = None) -> Record:
    return Record((*record.entries, Entry(kind, when, about, facts or {})))


def sign(plan: Plan, record: Record, protocol: ClinicProtocol, when: datetime, version: int = 1) -> Record:
    """The record once the next version is signed at `when` over `plan`."""
    facts = last_told(plan, record, protocol, version, when)
    return plus(record, EntryKind.PLAN_SIGNED, when, str(version + 1), facts)


def told(plan: Plan, record: Record, protocol: ClinicProtocol, since: datetime, version: int = 2) -> list[Occasion]:
    return [one for one in occasions(plan, record, protocol, since, since + timedelta(days=20), version=version)
            if one.kind in STEPS]


def wall(one: Occasion) -> str:
    return f"{local(one.at, ZONE):%m-%d %H:%M}"


@pytest.mark.parametrize(("signed", "expected"), [
    ("03-06 12:03", [("step_change", "03-06 12:04", "21:30")]),                    # at once, for the same evening
    ("03-06 21:29", [("step_change", "03-06 21:30", "21:30")]),                    # never after the dose itself
    ("03-06 21:40", [("step_notice", "03-06 21:41", "07:45"), ("step_change", "03-07 07:30", "07:45")]),
    ("03-07 00:10", [("step_change", "03-07 00:11", "07:45")]),                    # after midnight it is 'today'
    ("03-06 07:20", [("step_change", "03-06 07:21", "07:45")]),
])
def test_another_dose_is_told_at_once(signed: str, expected: list[tuple[str, str, str]], old: Plan, new: Plan,
                                      protocol: ClinicProtocol) -> None:
    record = sign(old, Record(), protocol, at(signed))
    found = told(new, record, protocol, at(signed))
    assert [(str(one.kind), wall(one), one.facts["first_clock"]) for one in found] == expected
    facts = found[-1].facts
    assert (facts["before"], facts["doses"]) == ([ONE, ONE], [TWO, TWO])
    assert (facts["daily_before"], facts["daily"], facts["rises"], facts["reason"]) == ("2 mg", "4 mg", True, "plan")
    first = next(one for one in occasions(new, record, protocol, at(signed), at(signed) + timedelta(days=2), 2)
                 if one.kind is OccasionKind.DOSE)
    assert found[-1].at <= first.at


def test_the_same_dose_is_not_announced(old: Plan, changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    plan = changed("kt-014", ('time = "18:00"', 'time = "19:00"'))
    assert told(plan, sign(old, Record(), protocol, at("03-06 12:03")), protocol, at("03-06 12:03")) == []


def test_changed_back_before_it_was_taken(old: Plan, new: Plan, protocol: ClinicProtocol) -> None:
    """2 mg was announced at 12:04; at 12:30 it is 1 mg again: never asked for another dose, and yet it must be said."""
    record = sign(old, Record(), protocol, at("03-06 12:03"))
    record = sign(new, record, protocol, at("03-06 12:30"), 2)
    signature = record.signature(3)
    assert signature is not None and signature.facts["before"] == [ONE, ONE]
    assert signature.facts["announced"] == [TWO, TWO]
    assert [wall(one) for one in told(old, record, protocol, at("03-06 12:30"), 3)] == ["03-06 12:31"]


def test_a_step_that_nobody_confirmed_is_told_again(changed: Callable[..., Plan],
                                                    protocol: ClinicProtocol) -> None:
    """The patient's season raises the dose on 20 March; its message of 07:30 waits for 'I understand' as the check-in
    is moved."""
    season = ('from = "04-10"\nuntil = "06-15"\nlead = "3 weeks"\ndose = "1 mg"',
              'from = "04-10"\nuntil = "06-15"\nlead = "3 weeks"\ndose = "1.5 mg"')
    one, two = changed("kt-014", season), changed("kt-014", season, ('time = "18:00"', 'time = "19:00"'))
    signed = at("03-20 12:00")
    open_ = sign(one, Record(), protocol, signed)
    assert [wall(step) for step in told(two, open_, protocol, signed)] == ["03-20 12:01"]
    done = Record((Entry(EntryKind.STEP_UNDERSTOOD, at("03-20 07:40"), "v1:s:20260320"),))
    assert told(two, sign(one, done, protocol, signed), protocol, signed) == []
    notice = Record((Entry(EntryKind.STEP_UNDERSTOOD, at("03-19 18:00"), "v1:n:20260320"),))
    assert told(two, sign(one, notice, protocol, signed), protocol, signed) == []


def test_a_dose_just_taken_is_not_the_first_new_one(old: Plan, changed: Callable[..., Plan],
                                                    protocol: ClinicProtocol) -> None:
    """Taken at 07:45; the changed plan has the morning dose at 09:00, within the 6 h between doses: it starts at
    night."""
    plan = changed("kt-014", ('lasts = "8 weeks"\ndose = "1 mg"', 'lasts = "8 weeks"\ndose = "2 mg"'),
                   ('wakes = "06:45"', 'wakes = "08:00"'), ('meals = ["07:15"', 'meals = ["08:30"'))
    assert plan.dose_times[0] == time(9)
    taken = Entry(EntryKind.DOSE_TAKEN, at("03-06 07:45"), "v1:d:20260306:0",
                  {"taken_at": at("03-06 07:45").isoformat(), "units": 2, "amount": "1 mg"})
    found = told(plan, sign(old, Record((taken,)), protocol, at("03-06 08:00")), protocol, at("03-06 08:00"))
    assert [(wall(one), one.facts["first_clock"]) for one in found] == [("03-06 08:01", "21:30")]


def test_in_a_pause_it_is_told_when_the_pause_is_over(old: Plan, new: Plan, protocol: ClinicProtocol) -> None:
    paused = plus(Record(), EntryKind.PAUSED, at("03-05 10:00"))
    record = sign(old, paused, protocol, at("03-06 12:00"))
    assert told(new, record, protocol, at("03-06 12:00")) == []
    resumed = plus(record, EntryKind.RESUMED, at("03-09 12:00"))
    assert [(wall(one), one.facts["first_clock"]) for one in told(new, resumed, protocol, at("03-09 12:00"))] == [
        ("03-09 12:01", "21:30")]


def test_a_step_of_the_changed_plan_on_the_next_morning_is_still_a_step(
    old: Plan, changed: Callable[..., Plan], protocol: ClinicProtocol
) -> None:
    """Signed after the last dose of the last day of a week: the new plan's own step is told against what was taken."""
    plan = changed("kt-014", ('lasts = "8 weeks"\ndose = "1 mg"\ntimes_per_day = 2',
                              '[[phase.step]]\nlasts = "1 week"\ndose = "1 mg"\ntimes_per_day = 2\n'
                              '[[phase.step]]\nlasts = "7 weeks"\ndose = "1.5 mg"\ntimes_per_day = 2'))
    found = told(plan, sign(old, Record(), protocol, at("03-08 22:00")), protocol, at("03-08 22:00"))
    assert [(str(one.kind), wall(one)) for one in found][:2] == [
        ("step_notice", "03-08 22:01"), ("step_change", "03-09 07:30")]


def test_what_was_told_is_asked_of_the_right_days(old: Plan, protocol: ClinicProtocol) -> None:
    """Before the first dose, what would come; nothing of days before the patient joined counts as asked."""
    for record in (Record(), Record((Entry(EntryKind.CONSENTED, at("03-06 09:00")),))):
        facts = last_told(old, record, protocol, 1, at("03-06 10:00"))
        assert (facts["before"], facts["daily_before"], facts["announced"], facts["understood"]) == (
            [ONE, ONE], "2 mg", None, True)


def test_a_new_timeline_keeps_the_question_whether_it_was_understood(old: Plan, new: Plan,
                                                                     protocol: ClinicProtocol) -> None:
    """Told at 12:04; at 15:00 the timeline is expanded anew (a box came in): due at 12:04 tomorrow still."""
    record = sign(old, Record(), protocol, at("03-06 12:03"))

    def due(record: Record) -> list[tuple[str, datetime]]:
        found = expand(Due("KT-014", new, 2, record, at("03-06 15:00")), at("03-06 17:00"), protocol).messages
        return [(one.facts["occasion"], one.due_at) for one in found if one.kind == "step_unconfirmed"]

    assert due(record) == [("v2:s:20260306", at("03-07 12:04"))]
    assert due(plus(record, EntryKind.STEP_UNDERSTOOD, at("03-06 12:30"), "v2:s:20260306")) == []


def test_one_confirmed_step_does_not_answer_for_the_next() -> None:
    record = Record((Entry(EntryKind.STEP_UNDERSTOOD, at("05-04 08:00"), "v1:s:20260504"),))
    assert record.step_understood("v1:s:20260504") and record.step_understood("v1:n:20260504")
    assert not record.step_understood("v1:s:20260601") and not record.step_understood("v2:s:20260504")


def test_a_plan_that_begins_later_is_told_the_day_before(old: Plan, changed: Callable[..., Plan],
                                                         protocol: ClinicProtocol) -> None:
    plan = changed("kt-014", ("starts = 2026-03-02", "starts = 2026-03-16"),
                   ('lasts = "8 weeks"\ndose = "1 mg"', 'lasts = "8 weeks"\ndose = "2 mg"'))
    found = told(plan, sign(old, Record(), protocol, at("03-06 12:03")), protocol, at("03-06 12:03"))
    assert [(str(one.kind), wall(one)) for one in found] == [
        ("step_notice", "03-15 17:00"), ("step_change", "03-16 07:30")]
    assert date.fromisoformat(found[0].facts["from"]) == date(2026, 3, 16)


@pytest.mark.parametrize(("signed", "expected"), [
    ("2026-03-20 03:00", ("2026-03-20 03:01", "2026-03-19")),   # before the bedtime dose of the night: told at once
    ("2026-03-20 08:00", ("2026-03-20 08:01", "2026-03-20")),   # after it: for the first dose of the new day
])
def test_who_sleeps_by_day_is_told_at_once(signed: str, expected: tuple[str, str], ok_plan: Callable[[str], Plan],
                                           changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    """The bedtime dose comes on the next morning and belongs to the day before (Madrid, sleeps at 07:00)."""
    before = ok_plan("nw-118")
    after = changed("nw-118", ('dose = "2 mg"', 'dose = "1 mg"'), ('to = "1 mg"', 'to = "1 mg"\ntimes_per_day = 1'))
    day, clock = signed.split()
    when = instant(date.fromisoformat(day), time.fromisoformat(clock), "Europe/Madrid")
    found = told(after, sign(before, Record(), protocol, when), protocol, when)[0]
    assert (f"{local(found.at, 'Europe/Madrid'):%Y-%m-%d %H:%M}", found.facts["from"]) == expected

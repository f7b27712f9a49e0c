"""Office hours, working days and public holidays, against hand-counted calendars."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.escalation import hours
from scheduler.errors import WrongInput
from scheduler.protocol import ClinicProtocol, Value, load_protocol

DENVER = ZoneInfo("America/Denver")
EXAMPLE = load_protocol()


def at(text: str) -> datetime:
    """A wall-clock time in Denver as an instant."""
    return datetime.fromisoformat(text).replace(tzinfo=DENVER).astimezone(UTC)


def with_values(**changed: object) -> ClinicProtocol:
    values = {value.key: value for value in EXAMPLE}
    for name, value in changed.items():
        key = f"care.{name}"
        values[key] = Value(key, value, values[key].unit, "test")
    return ClinicProtocol("test", "", values)


# The law's rules (5 U.S.C. 6103, from memory): fourth Thursday of November, third Monday of January; 4 July on a
# Saturday is kept on the Friday.
def fourth_thursday(year: int) -> date:
    first = date(year, 11, 1)
    return first + timedelta(days=(3 - first.weekday()) % 7 + 21)


@pytest.mark.parametrize("year", range(2024, 2032))
def test_public_holidays_against_the_law(year: int) -> None:
    found = hours.public_holidays("US", "", year)
    assert fourth_thursday(year) in found
    january = date(year, 1, 1)
    assert january + timedelta(days=(0 - january.weekday()) % 7 + 14) in found
    fourth = date(year, 7, 4)
    kept = fourth - timedelta(days=1) if fourth.weekday() == 5 else fourth
    assert kept in found


def test_an_unknown_country_is_named() -> None:
    with pytest.raises(WrongInput, match=r"care\.country"):
        hours.public_holidays("XX", "", 2026)


@pytest.mark.parametrize(("when", "is_open"), [
    ("2026-03-16 08:59", False), ("2026-03-16 09:00", True), ("2026-03-16 16:59", True), ("2026-03-16 17:00", False),
    ("2026-03-14 12:00", False),       # Saturday
    ("2026-11-26 12:00", False),       # Thanksgiving
    ("2026-11-27 12:00", True),
])
def test_open(when: str, is_open: bool) -> None:
    assert hours.is_open(at(when), EXAMPLE) is is_open


@pytest.mark.parametrize(("start", "by"), [
    ("2026-03-16 10:00", "2026-03-16 14:00"),
    ("2026-03-16 15:00", "2026-03-17 11:00"),     # two hours today, two tomorrow
    ("2026-03-13 16:30", "2026-03-16 12:30"),     # over a weekend
    ("2026-03-14 12:00", "2026-03-16 13:00"),     # from a Saturday
    ("2026-11-25 16:00", "2026-11-27 12:00"),     # over Thanksgiving
    ("2026-03-06 16:00", "2026-03-09 12:00"),     # over the change of the clocks
])
def test_four_office_hours(start: str, by: str) -> None:
    assert hours.add_office_time(at(start), timedelta(hours=4), EXAMPLE) == at(by)


@pytest.mark.parametrize(("now", "due"), [
    ("2026-03-16 08:00", "2026-03-16 09:00"), ("2026-03-16 09:00", "2026-03-16 14:00"),
    ("2026-03-13 14:00", "2026-03-16 09:00"), ("2026-11-25 18:00", "2026-11-27 09:00"),
])
def test_next_digest(now: str, due: str) -> None:
    assert hours.next_digest(at(now), EXAMPLE) == at(due)


def test_days_that_the_clinic_closes() -> None:
    closed = with_values(closed_days=["2026-03-16", "2026-03-17"])
    assert hours.next_opening(at("2026-03-13 18:00"), closed) == at("2026-03-18 09:00")


def test_a_team_that_never_works_is_refused() -> None:
    with pytest.raises(WrongInput, match=r"care\.working_days"):
        hours.next_opening(at("2026-03-16 10:00"), with_values(working_days=[]))


@settings(max_examples=60, deadline=None)
@given(start=st.datetimes(datetime(2026, 1, 1), datetime(2027, 12, 31)),  # noqa: DTZ001 - made aware below
       minutes=st.integers(0, 3000))
def test_office_time_is_counted_minute_by_minute(start: datetime, minutes: int) -> None:
    """Independent count: walk whole minutes and count those in which the office is open by the plain reading."""
    begin = start.replace(second=0, microsecond=0, tzinfo=DENVER).astimezone(UTC)
    by = hours.add_office_time(begin, timedelta(minutes=minutes), EXAMPLE)
    counted, moment = 0, begin
    while moment < by:
        wall = moment.astimezone(DENVER)
        if (wall.weekday() < 5 and time(9) <= wall.time() < time(17)
                and wall.date() not in hours.public_holidays("US", "", wall.year)):
            counted += 1
        moment += timedelta(minutes=1)
    assert counted == minutes

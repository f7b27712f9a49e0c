"""Wall clock to instants: the two days a year, both policies, and zones with odd changes."""

from __future__ import annotations

from datetime import UTC, date, datetime, time

import pytest

from scheduler.errors import WrongInput
from scheduler.localtime import instant, local, offset_text, zone


def utc(*parts: int) -> datetime:
    return datetime(*parts, tzinfo=UTC)  # type: ignore[misc, arg-type]


@pytest.mark.parametrize(
    ("day", "at", "name", "expected"),
    [
        (date(2026, 3, 2), time(7, 45), "America/Denver", utc(2026, 3, 2, 14, 45)),
        (date(2026, 3, 8), time(1, 59), "America/Denver", utc(2026, 3, 8, 8, 59)),
        (date(2026, 3, 8), time(2, 0), "America/Denver", utc(2026, 3, 8, 9, 0)),  # skipped: to the first that exists
        (date(2026, 3, 8), time(2, 30), "America/Denver", utc(2026, 3, 8, 9, 0)),
        (date(2026, 3, 8), time(2, 59), "America/Denver", utc(2026, 3, 8, 9, 0)),
        (date(2026, 3, 8), time(3, 0), "America/Denver", utc(2026, 3, 8, 9, 0)),
        (date(2026, 11, 1), time(1, 30), "America/Denver", utc(2026, 11, 1, 7, 30)),  # repeated: the first
        (date(2026, 11, 1), time(2, 0), "America/Denver", utc(2026, 11, 1, 9, 0)),
        (date(2026, 3, 29), time(1, 15), "Europe/London", utc(2026, 3, 29, 1, 0)),
        (date(2026, 10, 25), time(2, 30), "Europe/Madrid", utc(2026, 10, 25, 0, 30)),
        (date(2026, 10, 4), time(2, 10), "Australia/Lord_Howe", utc(2026, 10, 3, 15, 30)),  # half an hour is skipped
        (date(2026, 4, 5), time(1, 45), "Australia/Lord_Howe", utc(2026, 4, 4, 14, 45)),  # half an hour is repeated
        (date(2011, 12, 30), time(9), "Pacific/Apia", utc(2011, 12, 30, 10, 0)),  # a whole day is skipped
        (date(2026, 3, 2), time(9), "Asia/Kathmandu", utc(2026, 3, 2, 3, 15)),
    ],
)
def test_instants(day: date, at: time, name: str, expected: datetime) -> None:
    assert instant(day, at, name) == expected


def test_a_skipped_time_is_the_first_that_exists_on_the_wall() -> None:
    assert local(instant(date(2026, 3, 8), time(2, 30), "America/Denver"), "America/Denver").time() == time(3, 0)


def test_round_trip() -> None:
    at = instant(date(2026, 7, 1), time(21, 30), "Pacific/Auckland")
    assert local(at, "Pacific/Auckland").replace(tzinfo=None) == datetime(2026, 7, 1, 21, 30)  # noqa: DTZ001
    assert offset_text(at, "Pacific/Auckland") == "2026-07-01T21:30:00+12:00"


@pytest.mark.parametrize(
    "name", ["Nowhere/Else", "", "../etc/passwd", "/etc/localtime", "america", "Europe", "UTC+3", "a\0b"]
)
def test_unknown_zones(name: str) -> None:
    with pytest.raises(WrongInput, match="not a known time zone"):
        zone(name)


def test_a_naive_instant_is_refused() -> None:
    with pytest.raises(ValueError, match="aware"):
        local(datetime(2026, 3, 2), "UTC")  # noqa: DTZ001

"""The only module that turns wall-clock time into instants.

Two days a year a local time has no instant or two. The policies, by name:
- SKIPPED: a time inside the hour that the clocks jump over moves forward to the first instant that exists after it
  (02:30 becomes 03:00 when the clocks go from 02:00 to 03:00);
- REPEATED: a time that happens twice means its first occurrence.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

from scheduler.errors import Problem, WrongInput

SKIPPED = "forward to the first instant that exists"
REPEATED = "the first of the two"


@lru_cache(maxsize=512)
def zone(name: str) -> ZoneInfo:
    """The named time zone. Raises WrongInput for an unknown name."""
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError) as error:  # unknown, badly formed, or a folder of the database
        raise WrongInput(
            "time zone",
            (Problem("time_zone", f"{name!r} is not a known time zone; use a name such as 'America/Denver'"),),
        ) from error


def instant(day: date, at: time, zone_name: str) -> datetime:
    """The aware UTC instant of wall-clock `at` on `day`, under the policies SKIPPED and REPEATED."""
    found = _instant(day, at.replace(tzinfo=None, fold=0), zone_name)
    return found


@lru_cache(maxsize=8192)
def _instant(day: date, at: time, zone_name: str) -> datetime:
    where = zone(zone_name)
    wall = datetime.combine(day, at)
    first = wall.replace(tzinfo=where, fold=0).astimezone(UTC)
    if first.astimezone(where).replace(tzinfo=None) == wall:
        return first  # one instant, or the first of two
    second = wall.replace(tzinfo=where, fold=1).astimezone(UTC)
    return _change_between(min(first, second), max(first, second), where)


def local(at: datetime, zone_name: str) -> datetime:
    """An aware instant as the wall clock of the zone shows it (aware). Raises ValueError for a naive datetime."""
    if at.tzinfo is None:
        raise ValueError("an instant must be aware")
    return at.astimezone(zone(zone_name))


def offset_text(at: datetime, zone_name: str) -> str:
    """ISO 8601 with the zone's offset, to the second."""
    return local(at, zone_name).isoformat(timespec="seconds")


def _change_between(early: datetime, late: datetime, where: ZoneInfo) -> datetime:
    """The first instant, to the second, at which the zone's offset is that of `late`."""
    after = late.astimezone(where).utcoffset()
    while late - early > timedelta(seconds=1):
        middle = early + (late - early) / 2
        middle = middle.replace(microsecond=0)
        if middle <= early:
            break
        if middle.astimezone(where).utcoffset() == after:
            late = middle
        else:
            early = middle
    return late

"""When the care team works: office hours, weekends, public holidays, as the clinic protocol says. Pure."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from functools import lru_cache

import holidays

from bot.understanding.types import Urgency
from scheduler.errors import Problem, WrongInput
from scheduler.localtime import instant, local
from scheduler.plan import Patient
from scheduler.protocol import ClinicProtocol

_FURTHEST = 60          # days looked ahead for a working day: longer than any run of holidays


@lru_cache(maxsize=64)
def public_holidays(country: str, region: str, year: int) -> frozenset[date]:
    """Public holidays of a country (and of a part of it) in one year. Raises WrongInput for an unknown place."""
    if not country:
        return frozenset()
    try:
        return frozenset(holidays.country_holidays(country, subdiv=region or None, years=year))
    except NotImplementedError as error:
        raise WrongInput("the clinic protocol", (Problem(
            "care.country", f"no public holidays are known for {country!r} {region!r}; give a two-letter country, "
            "or leave it empty and list the days in care.closed_days"),)) from error


def is_working_day(day: date, protocol: ClinicProtocol) -> bool:
    """Whether the care team works on this date of its own calendar."""
    if day.weekday() not in protocol.items("care.working_days"):
        return False
    if day.isoformat() in protocol.items("care.closed_days"):
        return False
    return day not in public_holidays(protocol.text("care.country"), protocol.text("care.region"), day.year)


def opening(day: date, protocol: ClinicProtocol) -> datetime:
    return instant(day, protocol.clock_time("care.opens"), protocol.text("care.time_zone"))


def closing(day: date, protocol: ClinicProtocol) -> datetime:
    return instant(day, protocol.clock_time("care.closes"), protocol.text("care.time_zone"))


def is_open(now: datetime, protocol: ClinicProtocol) -> bool:
    """Whether somebody of the care team is at work at this instant."""
    day = local(now, protocol.text("care.time_zone")).date()
    return is_working_day(day, protocol) and opening(day, protocol) <= now < closing(day, protocol)


def next_opening(now: datetime, protocol: ClinicProtocol) -> datetime:
    """`now` while open, else the next instant at which the office opens."""
    if is_open(now, protocol):
        return now
    day = local(now, protocol.text("care.time_zone")).date()
    for ahead in range(_FURTHEST):
        candidate = day + timedelta(days=ahead)
        if is_working_day(candidate, protocol) and opening(candidate, protocol) > now:
            return opening(candidate, protocol)
    raise _never_open()


def add_office_time(start: datetime, span: timedelta, protocol: ClinicProtocol) -> datetime:
    """The instant by which `span` of office hours has passed since `start`."""
    at, left = start, span
    for _ in range(10 * _FURTHEST):
        at = next_opening(at, protocol)
        close = closing(local(at, protocol.text("care.time_zone")).date(), protocol)
        if at + left <= close:
            return at + left
        left -= close - at
        at = close
    raise _never_open()


def add_working_days(start: datetime, span: timedelta, protocol: ClinicProtocol) -> datetime:
    """The instant by which `span` has passed when only working days count, each as 24 hours."""
    zone = protocol.text("care.time_zone")
    at, left = start, span
    for _ in range(10 * _FURTHEST):
        day = local(at, zone).date()
        tomorrow = instant(day + timedelta(days=1), time.min, zone)
        if is_working_day(day, protocol):
            if at + left <= tomorrow:
                return at + left
            left -= tomorrow - at
        at = tomorrow
    raise _never_open()


def due_after(start: datetime, span: timedelta, urgency: Urgency, protocol: ClinicProtocol) -> datetime:
    """Emergency: the plain clock, day and night. Urgent: office hours. Routine: working days, due while open."""
    if urgency is Urgency.EMERGENCY:
        return start + span
    if urgency is Urgency.URGENT:
        return add_office_time(start, span, protocol)
    return next_opening(add_working_days(start, span, protocol), protocol)


def digest_before(due: datetime, protocol: ClinicProtocol) -> datetime | None:
    """The instant of the same day's digest before the one due at `due`; None for the first of the day."""
    zone = protocol.text("care.time_zone")
    day = local(due, zone).date()
    earlier = [at for at in (instant(day, time.fromisoformat(text), zone) for text in protocol.items("care.digest_at"))
               if at < due]
    return max(earlier, default=None)


def next_digest(now: datetime, protocol: ClinicProtocol) -> datetime:
    """The next instant after `now` at which a digest is due: a working day, at one of the protocol's times."""
    zone = protocol.text("care.time_zone")
    day = local(now, zone).date()
    times = sorted(protocol.items("care.digest_at"))
    for ahead in range(_FURTHEST):
        candidate = day + timedelta(days=ahead)
        if not is_working_day(candidate, protocol):
            continue
        for at in times:
            due = instant(candidate, time.fromisoformat(at), zone)
            if due > now:
                return due
    raise _never_open()


def awake(at: datetime, patient: Patient) -> datetime:
    """`at`, or the patient's next waking time when it falls into their night."""
    clock = local(at, patient.time_zone)
    wakes, sleeps = patient.wakes, patient.sleeps
    up = wakes <= clock.time() < sleeps if wakes < sleeps else not sleeps <= clock.time() < wakes
    if up:
        return at
    today = instant(clock.date(), wakes, patient.time_zone)
    return today if today > at else instant(clock.date() + timedelta(days=1), wakes, patient.time_zone)


def _never_open() -> WrongInput:
    return WrongInput("the clinic protocol", (Problem(
        "care.working_days", "the care team never works; give at least one working day and a digest time"),))

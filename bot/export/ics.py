"""Coming doses, check-ins and steps as a calendar (RFC 5545), in the patient's local time with its VTIMEZONE.

A dose of the same amount at the same wall-clock time on consecutive days is one event that repeats daily; what differs
(a step, a season, a day on which the clocks jump over the time) is an event of its own. A calendar cannot know what is
said later (a gate released, a pause, a new plan): it ends with the days asked for and is no reminder to be relied on.
"""

from __future__ import annotations

import uuid
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING, Any

from bot.case import Case, PatientState
from bot.texts.catalogue import say
from scheduler.localtime import local
from scheduler.occasions import Occasion, OccasionKind
from scheduler.protocol import ClinicProtocol
from scheduler.timeline import occasions

if TYPE_CHECKING:
    from icalendar import Calendar, Event

_NAMES = uuid.UUID("7f6d1f0e-0a0b-4a51-9f5b-9c1a54d9a3c6")
_LENGTH = timedelta(minutes=10)
_EVERY = {OccasionKind.DOSE: ("DAILY", 1), OccasionKind.CHECK_IN: ("WEEKLY", 7)}
_WHOLE_DAY = (OccasionKind.ENDOSCOPY_DUE, OccasionKind.SUPPLY_LOW, OccasionKind.SEASON_START, OccasionKind.SEASON_END)
_STOPPED = (PatientState.ENDED, PatientState.QUARANTINED)


@dataclass(frozen=True, slots=True)
class Happening:
    """One thing in the calendar on consecutive days (or weeks): first local day, wall-clock time, how often."""

    kind: OccasionKind
    title: str
    about: str
    first: date
    at: time
    count: int = 1


def happenings(case: Case, now: datetime, days: int, protocol: ClinicProtocol) -> list[Happening]:
    """What is coming in the `days` after `now`, repeats joined. Doses held by an emergency, or paused, are left out."""
    if case.row.state in _STOPPED:
        return []
    coming = occasions(case.plan, case.record, protocol, now, now + timedelta(days=days),
                       version=case.row.plan_version)
    held = case.record.doses_held() is not None
    return list(_joined(one for occasion in coming if not (held and occasion.kind is OccasionKind.DOSE)
                        for one in _one(case, occasion, protocol)))


def calendar(case: Case, now: datetime, days: int, protocol: ClinicProtocol) -> bytes:
    """The calendar file. Each VEVENT has UID, DTSTAMP, DTSTART with TZID, and is marked private."""
    from icalendar import Calendar

    who = case.plan.patient
    found = Calendar()
    found.add("prodid", "-//Coatwell//calendar 1//EN")
    found.add("version", "2.0")
    found.add("x-wr-calname", say(who.language, "ics.title", {"reference": case.reference}))
    alike: Counter[str] = Counter()
    for one in happenings(case, now, days, protocol):
        name = f"{case.reference}|{one.kind}|{one.title}|{one.at}"
        found.add_component(_event(case, one, f"{name}|{alike[name]}", now))
        alike[name] += 1
    _add_zone(found, who.time_zone, local(now, who.time_zone).date(), days)
    written: bytes = found.to_ical()
    return written


def _one(case: Case, occasion: Occasion, protocol: ClinicProtocol) -> Iterator[Happening]:
    """An occasion that the patient sees, in their language."""
    lang, unit = case.plan.patient.language, case.plan.medicine.unit_name
    wall = local(occasion.at, case.plan.patient.time_zone)
    title = about = ""
    if occasion.kind is OccasionKind.DOSE and occasion.dose is not None:
        facts: dict[str, Any] = {"amount": str(occasion.dose.amount), "units": occasion.dose.units}
        minutes = int(protocol.span("window.no_food").total_seconds() // 60)
        title, about = say(lang, f"ics.dose_{unit}", facts), say(lang, "ics.dose_about", {"minutes": minutes})
    elif occasion.kind is OccasionKind.STEP_CHANGE:
        title = say(lang, "ics.step_change", {"amount": occasion.facts["doses"][0]["amount"]})
        about = say(lang, "ics.step_about", {})
    elif occasion.kind in (OccasionKind.CHECK_IN, *_WHOLE_DAY) and not occasion.facts.get("days_late"):
        title = say(lang, f"ics.{occasion.kind}", {})
    if title:
        yield Happening(occasion.kind, title, about, wall.date(), wall.time().replace(microsecond=0))


def _joined(found: Iterable[Happening]) -> Iterator[Happening]:
    """Repeats of the same thing at the same wall-clock time, a day (a week) apart, as one."""
    runs: list[Happening] = []
    for one in found:
        every = _EVERY.get(one.kind)
        for place, run in enumerate(runs):
            if every and (run.kind, run.title, run.at) == (one.kind, one.title, one.at) and (
                    one.first == run.first + timedelta(days=every[1] * run.count)):
                runs[place] = Happening(run.kind, run.title, run.about, run.first, run.at, run.count + 1)
                break
        else:
            runs.append(one)
    yield from runs


def _event(case: Case, one: Happening, name: str, now: datetime) -> Event:
    """`name` stays the same from one export to the next, so that a calendar updates a series instead of doubling it."""
    from icalendar import Event

    found = Event()
    found.add("uid", f"{uuid.uuid5(_NAMES, name)}@coatwell")
    found.add("dtstamp", now.astimezone(UTC).replace(microsecond=0))
    if one.kind in _WHOLE_DAY:
        found.add("dtstart", one.first)
    else:
        found.add("dtstart", _wall(case, one))
        found.add("duration", _LENGTH)
    if one.count > 1:
        found.add("rrule", {"freq": _EVERY[one.kind][0], "count": one.count})
    found.add("summary", one.title)
    if one.about:
        found.add("description", one.about)
    found.add("class", "PRIVATE")
    found.add("transp", "TRANSPARENT")
    return found


def _wall(case: Case, one: Happening) -> datetime:
    """The first of two when the clocks go back: RFC 5545 (3.3.5) means the same."""
    from scheduler.localtime import zone

    return datetime.combine(one.first, one.at, zone(case.plan.patient.time_zone))


def _add_zone(found: Calendar, name: str, first: date, days: int) -> None:
    """The zone's rules for the days of the calendar, so that readers need no table of their own."""
    from icalendar import Timezone

    if name.upper() != "UTC":
        rules = Timezone.from_tzid(name, first_date=first - timedelta(days=366),
                                   last_date=first + timedelta(days=days + 366))
        found.subcomponents.insert(0, rules)

"""The calendar against RFC 5545: read by icalendar, its repeats worked out by recurring-ical-events (an independent
reading of the rules), compared with the plan's own timeline, over both changes of the clocks."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import UTC, datetime, time, timedelta

import icalendar
import pytest
import recurring_ical_events

from bot.case import Case, PatientState
from bot.export.held import Held
from bot.export.ics import calendar
from bot.rehearsal.demo import DEMOS, demo_plan
from scheduler.localtime import instant
from scheduler.occasions import OccasionKind
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, Record
from scheduler.timeline import occasions

SPRING = datetime(2026, 2, 20, 12, 0, tzinfo=UTC)    # the clocks go forward on 8 March (US), 29 March (EU)
AUTUMN = datetime(2026, 10, 10, 12, 0, tzinfo=UTC)   # back on 25 October (EU), 1 November (US)


def a_case(found: Held, protocol: ClinicProtocol, name: str) -> Case:
    plan = demo_plan(name, protocol)
    return replace(found.case, plan=plan, record=Record(), flags=(), row=replace(found.case.row, plan_version=1))


def read(data: bytes) -> icalendar.Calendar:
    whole = icalendar.Calendar.from_ical(data)
    assert isinstance(whole, icalendar.Calendar)
    return whole


@pytest.mark.parametrize("start", [SPRING, AUTUMN])
@pytest.mark.parametrize("name", DEMOS)
def test_repeats_are_the_timelines_instants(found: Held, protocol: ClinicProtocol, name: str, start: datetime) -> None:
    case = a_case(found, protocol, name)
    days = 60
    whole = read(calendar(case, start, days, protocol))
    events = recurring_ical_events.of(whole).between(start - timedelta(days=2), start + timedelta(days=days + 2))
    shown = Counter(event.start.astimezone(UTC) for event in events if isinstance(event.start, datetime))
    kinds = (OccasionKind.DOSE, OccasionKind.CHECK_IN, OccasionKind.STEP_CHANGE)
    planned = occasions(case.plan, case.record, protocol, start, start + timedelta(days=days))
    expected = Counter(one.at for one in planned if one.kind in kinds)
    assert shown == expected
    assert sum(expected.values()) >= days, "there is something to compare"


@pytest.mark.parametrize("hour", [1, 2])
def test_a_dose_in_the_changed_hour(found: Held, protocol: ClinicProtocol, hour: int) -> None:
    """02:30 does not exist on 8 March 2026 in Denver, 01:30 comes twice on 1 November: one event a day all the same."""
    plan = demo_plan("adult_slurry", protocol)
    at = time(hour, 30)
    plan = replace(plan, dose_times=(at, time(13, 30)), patient=replace(plan.patient, time_zone="America/Denver"))
    case = replace(found.case, plan=plan, record=Record(), row=replace(found.case.row, plan_version=1))
    starts = plan.phases[0].starts
    assert starts is not None
    for now in (instant(starts, time(0), "America/Denver"), AUTUMN):
        expected = sorted(one.at for one in occasions(plan, Record(), protocol, now, now + timedelta(days=40),
                                                      doses_only=True))
        whole = read(calendar(case, now, 40, protocol))
        events = recurring_ical_events.of(whole).between(now - timedelta(days=2), now + timedelta(days=42))
        doses = sorted(event.start.astimezone(UTC) for event in events if str(event["SUMMARY"]).startswith("Dose"))
        assert doses == expected


@pytest.mark.parametrize("name", DEMOS)
def test_what_rfc_5545_requires(found: Held, protocol: ClinicProtocol, name: str) -> None:
    """PRODID and VERSION; UID and DTSTAMP (UTC) on every event; DTSTART; TZID with a VTIMEZONE of that name; CRLF and
    lines of at most 75 octets; one UID an event."""
    case = a_case(found, protocol, name)
    data = calendar(case, SPRING, 60, protocol)
    whole = read(data)
    assert whole["VERSION"] == "2.0" and whole["PRODID"]
    zones = {str(zone["TZID"]) for zone in whole.walk("VTIMEZONE")}
    events = whole.walk("VEVENT")
    assert zones == {case.plan.patient.time_zone} and events
    for event in events:
        assert event["UID"] and event["SUMMARY"] and event["CLASS"] == "PRIVATE"
        assert b"DTSTAMP:20260220T120000Z" in event.to_ical()
        if isinstance(event.start, datetime):
            assert event["DTSTART"].params["TZID"] in zones
    assert len({event["UID"] for event in events}) == len(events)
    lines = data.split(b"\r\n")
    assert lines[-1] == b"" and max(map(len, lines)) <= 75
    assert b"\n" not in data.replace(b"\r\n", b"")


def test_the_zones_own_rules_give_the_same_instants(found: Held, protocol: ClinicProtocol) -> None:
    """A reader without a zone table works from the VTIMEZONE alone."""
    case = a_case(found, protocol, "adult_slurry")
    whole = read(calendar(case, SPRING, 60, protocol))
    zone = whole.walk("VTIMEZONE")[0].to_tz(lookup_tzid=False)
    for event in whole.walk("VEVENT"):
        if isinstance(event.start, datetime):
            wall = event.start.replace(tzinfo=None)
            for day in range(0, 60, 5):
                at = wall + timedelta(days=day)
                told = instant(at.date(), at.time(), case.plan.patient.time_zone)
                assert at.replace(tzinfo=zone).astimezone(UTC) == told


def test_paused_held_and_ended_patients(found: Held, protocol: ClinicProtocol) -> None:
    def doses(case: Case) -> int:
        return calendar(case, AUTUMN, 30, protocol).count(b"SUMMARY:Dose")

    case = a_case(found, protocol, "adult_slurry")
    assert doses(case) > 0
    assert doses(replace(case, record=Record((Entry(EntryKind.PAUSED, AUTUMN - timedelta(days=1)),)))) == 0
    held = Record((Entry(EntryKind.DOSES_HELD, AUTUMN - timedelta(days=1), "KT-014/1"),))
    assert doses(replace(case, record=held)) == 0, "an emergency holds the doses: no calendar may say 'take it'"
    ended = calendar(replace(case, row=replace(case.row, state=PatientState.ENDED)), AUTUMN, 30, protocol)
    assert not read(ended).walk("VEVENT") and read(ended).walk("VTIMEZONE")


def test_a_later_export_updates_the_same_events(found: Held, protocol: ClinicProtocol) -> None:
    """RFC 5545 3.8.4.7: the same UID is the same event, whenever the file is made."""
    case = a_case(found, protocol, "adult_maintenance")
    first, second = ({str(event["UID"]): str(event["SUMMARY"]) for event in read(
        calendar(case, AUTUMN + timedelta(days=later), 30, protocol)).walk("VEVENT")} for later in (0, 7))
    doses = {uid for uid, title in first.items() if title.startswith("Dose")}
    assert doses and doses == {uid for uid, title in second.items() if title.startswith("Dose")}


def test_the_patients_language(found: Held, protocol: ClinicProtocol) -> None:
    case = a_case(found, protocol, "adult_slurry")
    spanish = replace(case, plan=replace(case.plan, patient=replace(case.plan.patient, language="es")))
    titles = {str(event["SUMMARY"]) for event in read(calendar(spanish, AUTUMN, 30, protocol)).walk("VEVENT")}
    assert any(title.startswith("Dosis: ") for title in titles) and not any("Dose" in title for title in titles)

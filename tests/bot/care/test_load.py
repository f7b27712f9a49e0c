"""Forty patients must not make four hundred pings: a bad week of forty, counted as a nurse's phone would."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

from bot.case import Case, Changes, PatientRow, PatientState
from bot.escalation import assess, assess_event
from bot.understanding.types import Finding, Reading
from scheduler.messages import Message, To
from scheduler.planfile import load_plan
from scheduler.protocol import ClinicProtocol

FILE = Path(__file__).parents[3] / "fixtures" / "plans" / "ok" / "kt-014.toml"
MONDAY = datetime.fromisoformat("2026-03-16T16:00:00+00:00")
F = Finding


def patients(protocol: ClinicProtocol, count: int) -> list[Case]:
    plan = load_plan(FILE, protocol)
    return [Case(PatientRow(f"KT-{number:03}", PatientState.ACTIVE, 1),
                 replace(plan, patient=replace(plan.patient, reference=f"KT-{number:03}"))) for number in range(count)]


def pings(messages: list[Message]) -> int:
    """New messages in the care team's chat: what is edited in place makes no sound."""
    return sum(message.to is To.CARE and message.edits is None and message.kind != "milestone" for message in messages)


def test_a_bad_week_of_forty_patients(protocol: ClinicProtocol) -> None:
    """Each day a tenth writes three times about the same thrush, a quarter something harmless or unclear, half of them
    has a dose unanswered, every supply runs low; one patient has food stuck and writes five times."""
    messages: list[Message] = []
    cases = patients(protocol, 40)

    def take(place: int, changes: Changes) -> None:
        messages.extend(changes.messages)
        cases[place] = cases[place].after(changes)

    def says(place: int, day: int, minute: int, *findings: Finding) -> None:
        now = MONDAY + timedelta(days=day, minutes=minute)
        reading = Reading(f"words {day} {minute}", findings=findings, needs_human=True)
        take(place, assess(cases[place], reading, None, now, protocol))

    for day in range(5):
        for place in range(day * 4, day * 4 + 4):
            for minute in (0, 3, 50):
                says(place, day, minute, F.THRUSH)
        for place in range(10):
            says(place + 25, day, 90)
        for place in range(20):
            now = MONDAY + timedelta(days=day, minutes=100)
            take(place, assess_event(cases[place], "dose_unknown", {"occasion": f"d{day}"}, now, protocol))
    for place in range(40):
        take(place, assess_event(cases[place], "supply_low", {"occasion": "s"}, MONDAY, protocol))
    for minute in range(0, 10, 2):
        says(39, 2, minute, F.IMPACTION_NOW)
    kinds = Counter(message.kind for message in messages if message.to is To.CARE and message.edits is None)
    assert kinds["flag"] == 20 + 1, "each thrush once, the emergency once"
    assert pings(messages) <= 21 + 4, "and each further word in the emergency"
    assert len([case for case in cases if case.open_flags]) == 40, "nothing is lost: all stand in the digest"


def test_a_flood_of_words_from_one_patient_is_one_flag(protocol: ClinicProtocol) -> None:
    case, sent = patients(protocol, 1)[0], []
    for number in range(200):
        now = MONDAY + timedelta(seconds=number)
        changes = assess(case, Reading(f"blah {number}", needs_human=True), None, now, protocol)
        case = case.after(changes)
        sent += changes.messages
    assert len(case.flags) == 1 and pings(sent) == 0
    assert len(case.flags[0].words) <= 1500 and case.flags[0].words.endswith("blah 199")

"""An invented patient with a plan file's course under way, and a short way to say things to the rules."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.case import Case, Changes, FoundThen, PatientRow, PatientState, Reply
from bot.escalation import assess
from bot.understanding.types import Finding, Reading, Urgency
from scheduler.planfile import load_plan
from scheduler.protocol import ClinicProtocol, load_protocol
from scheduler.record import Entry, EntryKind, Record, taken_at

PLAN = Path(__file__).parents[3] / "fixtures" / "plans" / "ok" / "kt-014.toml"
MONDAY = datetime(2026, 3, 16, 16, 0, tzinfo=UTC)     # 10:00 in Denver, week 3, office hours


@pytest.fixture(scope="session")
def protocol() -> ClinicProtocol:
    return load_protocol()


@pytest.fixture
def monday() -> datetime:
    return MONDAY


@pytest.fixture
def make_case(protocol: ClinicProtocol) -> Callable[..., Case]:
    """A case of the plan file; `found` are (finding, days before MONDAY), `entries` whole entries."""
    plan = load_plan(PLAN, protocol)

    def make(*, found: Iterable[tuple[Finding, float]] = (), entries: Iterable[Entry] = (),
             conditions: Iterable[str] = (), other_medicines: Iterable[str] = (),
             state: PatientState = PatientState.ACTIVE, writer: str = "patient") -> Case:
        patient = replace(plan.patient, conditions=tuple(conditions), other_medicines=tuple(other_medicines))
        then = tuple(FoundThen(finding, MONDAY - timedelta(days=days)) for finding, days in found)
        return Case(PatientRow("KT-014", state, 1, chat="maya", writer=writer), replace(plan, patient=patient),
                    Record(tuple(entries)), found=then)

    return make


@pytest.fixture
def case(make_case: Callable[..., Case]) -> Case:
    return make_case()


@pytest.fixture
def say(protocol: ClinicProtocol) -> Callable[..., Changes]:
    """What the rules make of findings, extra signs and words of a reply."""

    def said(case: Case, *findings: Finding, extra: Iterable[str] = (), text: str = "my words", at: datetime = MONDAY,
             urgency: Urgency = Urgency.NONE, needs_human: bool = False, source: str = "reply",
             reply: str = "u1") -> Changes:
        reading = Reading(text, findings=findings, urgency=urgency, needs_human=needs_human, extra=tuple(extra))
        return assess(case, reading, Reply(reply, case.reference, at, "text", text), at, protocol, source=source)

    return said


@pytest.fixture
def dose() -> Callable[..., Entry]:
    """An answer to a dose, `days` before MONDAY."""

    def answered(kind: EntryKind, days: float, slot: int = 0) -> Entry:
        at = MONDAY - timedelta(days=days)
        facts = {"taken_at": at.isoformat()} if kind is EntryKind.DOSE_TAKEN else {}
        entry = Entry(kind, at, f"v1:d:{at:%Y%m%d}:{slot}", facts)
        assert taken_at(entry) == at
        return entry

    return answered

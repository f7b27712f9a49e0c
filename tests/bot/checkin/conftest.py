"""An invented patient with a course under way."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal

import pytest

from bot.case import Case, PatientRow, PatientState
from scheduler.amounts import Amount
from scheduler.plan import CheckInTime, Dose, Medicine, Patient, Phase, Plan, Step
from scheduler.protocol import ClinicProtocol, load_protocol
from scheduler.record import Entry, EntryKind, Record

START = datetime(2026, 3, 2, 14, 0, tzinfo=UTC)


@pytest.fixture(scope="session")
def protocol() -> ClinicProtocol:
    return load_protocol()


@pytest.fixture
def case_after() -> Callable[..., Case]:
    """A case whose first dose was taken at START; None: no dose yet."""

    def make(*, taken: bool = True, writer: str = "patient", other: tuple[str, ...] = (),
             state: PatientState = PatientState.ACTIVE, starts: date = date(2026, 3, 2)) -> Case:
        one_mg = Amount.of(1, "mg")
        patient = Patient("KT-014", "Maya", 34, "America/Denver", "en", time(6, 45), time(22, 30), (time(7, 15),),
                          writer=writer, other_medicines=other)
        medicine = Medicine("budesonide", "ampoule", Amount.of("0.5", "mg"), Decimal(2), 30, 2, "sweetener")
        phase = Phase("induction", (Step(56, (Dose(one_mg, 2), Dose(one_mg, 2))),), starts)
        plan = Plan(patient, medicine, (phase,), CheckInTime(6, time(18)), "Dr R. Okafor", date(2026, 2, 27))
        entries = (Entry(EntryKind.DOSE_TAKEN, START, "v1:d:2026-03-02:0", {"taken_at": START.isoformat()}),)
        return Case(PatientRow("KT-014", state, 1, writer=writer), plan, Record(entries if taken else ()))

    return make


@pytest.fixture
def week_one() -> datetime:
    return START + timedelta(days=6)


@pytest.fixture
def month_four() -> datetime:
    return START + timedelta(weeks=14)

"""Every caution that belongs in the patient's hands has its sentence in every language."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from bot.case import Case, PatientRow, PatientState
from bot.conversation.enrolment import good_to_know, slug
from bot.rehearsal.demo import DEMOS, demo_plan
from bot.texts.catalogue import catalogue
from bot.texts.render import render
from scheduler.cautions import cautions
from scheduler.plan import Plan
from scheduler.protocol import load_protocol

PROTOCOL = load_protocol()
NOW = datetime(2026, 3, 2, 14, tzinfo=UTC)


def heavy(plan: Plan) -> Plan:
    """The same plan for somebody with every condition and medicine that calls for a caution."""
    other = (*PROTOCOL.items("medicines.strong_inhibitors")[:1], *PROTOCOL.items("medicines.moderate_inhibitors")[:1])
    patient = replace(plan.patient, conditions=("diabetes", "pregnancy", "liver disease"),
                      other_medicines=tuple(map(str, other)))
    return replace(plan, patient=patient)


def plans() -> list[Plan]:
    found = [demo_plan(name, PROTOCOL) for name in DEMOS]
    return found + [heavy(plan) for plan in found] + [
        replace(plan, medicine=replace(plan.medicine, mix_ahead_days=3)) for plan in found if plan.medicine.vehicle]


@pytest.mark.parametrize("lang", ["en", "es"])
def test_every_caution_for_the_patient_has_a_sentence(lang: str) -> None:
    topics = {one.topic for plan in plans() for one in cautions(plan, PROTOCOL) if one.tell_patient}
    assert len(topics) >= 8
    missing = {topic for topic in topics if f"enrolment.caution.{slug(topic)}" not in catalogue(lang)}
    assert not missing


@pytest.mark.parametrize("plan", plans(), ids=lambda plan: plan.patient.reference)
def test_the_list_is_shown_as_points(plan: Plan) -> None:
    case = Case(PatientRow(plan.patient.reference, PatientState.ACTIVE, 1), plan)
    shown = render(good_to_know(case, "1", NOW, PROTOCOL)).text
    assert len(re.findall(r"^• ", shown, re.MULTILINE)) >= 4
    assert "grapefruit" in shown

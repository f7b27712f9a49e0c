"""Leaving and coming back, two phones and one invite, what is said before consent: over the whole agent in memory."""

from __future__ import annotations

import re
from collections.abc import AsyncIterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from bot.case import PatientState
from bot.rehearsal.demo import demo_plan
from bot.rehearsal.world import CARE_CHAT, World
from bot.storage.opening import open_store
from scheduler.protocol import load_protocol
from scheduler.record import EntryKind

PROTOCOL = load_protocol()
PLAN = demo_plan("adult_slurry", PROTOCOL)       # 07:45 and 21:30 in Denver, 1 mg each, from 2 March
REFERENCE = PLAN.patient.reference
START = datetime(2026, 3, 3, 13, 0, tzinfo=UTC)  # 06:00 there
DOSE = datetime(2026, 3, 3, 14, 45, tzinfo=UTC)


@pytest.fixture
async def world() -> AsyncIterator[World]:
    store = await open_store("memory:", PROTOCOL)
    made = World.make(store, PROTOCOL, START)
    await made.admit("Dr Lindqvist", "clinician")
    yield made
    await store.close()


def shown(world: World, since: int = 0, chat: str = "") -> list[str]:
    """What the patient (or another chat) has seen from Coatwell since that line of the log."""
    address = chat or world.address(REFERENCE)
    return [line.text for line in world.log[since:] if line.chat == address and line.who == "Coatwell"]


async def state(world: World) -> PatientState:
    return next(row.state for row in await world.rows() if row.reference == REFERENCE)


async def entries(world: World, *kinds: EntryKind) -> int:
    async with world.store.work() as work:
        case = await work.case(REFERENCE)
    assert case is not None
    return len(case.record.of(*kinds))


async def test_who_has_left_records_nothing_by_an_old_button_and_is_told_so(world: World) -> None:
    await world.join(PLAN)
    await world.run_to(DOSE + timedelta(minutes=1))
    await world.says(REFERENCE, "/stop")
    before = len(world.log)
    await world.taps(REFERENCE, "Taken now")
    assert await entries(world, EntryKind.DOSE_TAKEN) == 0
    assert [text[:38] for text in shown(world, before)] == ["You are not in the program now, so nob"]


async def test_an_emergency_told_after_leaving_is_answered_as_one(world: World) -> None:
    await world.join(PLAN)
    await world.says(REFERENCE, "/stop")
    before = len(world.log)
    await world.says(REFERENCE, "food is stuck and I can't swallow my spit")
    told = " ".join(shown(world, before))
    assert "Call 911 now" in told and "nobody reads here" in told


async def test_a_new_invite_brings_a_patient_back(world: World) -> None:
    """'To come back, ask your clinic for a new invite': the clinic can make one, and it works on the same phone."""
    await world.join(PLAN)
    await world.says(REFERENCE, "/stop")
    await world.says("Dr Lindqvist", f"/invite {REFERENCE}")
    code = re.search(r"/start (\S+)", " ".join(shown(world, chat=CARE_CHAT) + shown(
        world, chat=world.address("Dr Lindqvist"))))
    assert code is not None
    before = len(world.log)
    await world.opens_invite(REFERENCE, code.group(1))
    assert "Do you agree?" in shown(world, before)[-1] and await state(world) is PatientState.ASKED
    await world.taps(REFERENCE, "I agree")
    assert await state(world) is PatientState.ACTIVE
    before = len(world.log)
    await world.run_to(DOSE + timedelta(hours=15))
    assert any("time for your evening dose" in text for text in shown(world, before))


async def test_an_old_invite_does_not_bring_back_who_has_left(world: World) -> None:
    code = await world.enrol(PLAN)
    await world.opens_invite(REFERENCE, code)
    await world.taps(REFERENCE, "I agree")
    await world.says(REFERENCE, "/stop")
    before = len(world.log)
    await world.opens_invite(REFERENCE, code)
    assert await state(world) is PatientState.ENDED
    assert "Do you agree?" not in " ".join(shown(world, before))


async def test_one_invite_is_one_phone(world: World) -> None:
    code = await world.enrol(PLAN)
    world.people["second"] = world.chat.person("second-phone", "Somebody")
    await world.opens_invite(REFERENCE, code)
    await world.opens_invite("second", code)
    assert "private service of a clinic" in shown(world, chat="second-phone")[-1]
    await world.taps(REFERENCE, "I agree")
    assert "first dose" in " ".join(shown(world))


async def test_refused_then_agreed(world: World) -> None:
    code = await world.enrol(PLAN)
    await world.opens_invite(REFERENCE, code)
    await world.taps(REFERENCE, "I do not agree")
    assert await state(world) is PatientState.ASKED
    before = len(world.log)
    await world.run_to(DOSE + timedelta(hours=1))
    assert shown(world, before) == []
    await world.taps(REFERENCE, "I agree")
    assert await state(world) is PatientState.ACTIVE


async def test_before_consent_a_picture_goes_to_nobody(world: World) -> None:
    code = await world.enrol(PLAN)
    await world.opens_invite(REFERENCE, code)
    before = len(world.log)
    await world.sends_photo(REFERENCE, "my mouth")
    assert "Do you agree?" in shown(world, before)[-1]
    assert shown(world, before, CARE_CHAT) == []


async def test_a_tap_that_waited_at_the_network_is_asked_for_its_time(world: World) -> None:
    """'Taken now' of nobody knows when must not start a wait that ends at the wrong time."""
    await world.join(PLAN)
    await world.run_to(DOSE + timedelta(minutes=40))
    tapped = world.people[REFERENCE].tap(world.button(world.address(REFERENCE), "Taken now")[0].name,
                                         "d:v1:d:20260303:0:now", world.clock.now())
    before = len(world.log)
    await world.agent.store_updates([replace(tapped, delayed=True)], world.clock.now())
    await world.agent.pass_(world.clock.now())
    assert await entries(world, EntryKind.DOSE_TAKEN) == 0
    assert [text[:26] for text in shown(world, before)] == ["When did you take it? Tap,"]
    await world.says(REFERENCE, "07:50")
    assert any("taken at 07:50" in text for text in shown(world, before))


async def test_a_dose_said_not_to_be_taken_long_after_is_noted_so(world: World) -> None:
    await world.join(PLAN)
    await world.run_to(DOSE + timedelta(hours=10))                  # closed at 15:30, never answered
    before = len(world.log)
    await world.says(REFERENCE, "done")
    assert "your dose of 07:45. When did you take it?" in shown(world, before)[-1]
    await world.says(REFERENCE, "no")
    assert "I noted that you did not take it" in shown(world, before)[-1]
    assert not any("still open" in text for text in shown(world, before))

"""When the program itself fails on an update, the patient still reads what to do, and a person reads the words."""

from __future__ import annotations

from dataclasses import replace

from bot.case import Changes
from bot.rehearsal.demo import demo_plan
from bot.rehearsal.world import CARE_CHAT, World
from bot.storage.opening import MEMORY, open_store
from scheduler.localtime import instant
from scheduler.protocol import load_protocol

PROTOCOL = load_protocol()
PLAN = demo_plan("adult_slurry", PROTOCOL)


async def test_an_emergency_is_answered_though_the_plan_is_broken() -> None:
    start = instant(PLAN.phases[0].starts, PLAN.patient.wakes, PLAN.patient.time_zone)  # type: ignore[arg-type]
    store = await open_store(MEMORY, PROTOCOL)
    world = World.make(store, PROTOCOL, start)
    await world.join(PLAN)
    async with store.work() as work:   # a plan that no function can work with any more
        await work.add_plan("KT-014", replace(PLAN, phases=()), start)
        case = await work.case("KT-014")
        assert case is not None
        await work.apply("KT-014", Changes(row=replace(case.row, plan_version=2)), start)
    await world.says("KT-014", "the meat is stuck and i cant swallow my spit")
    patient, care = world.chat.texts("patient-KT-014"), world.chat.texts(CARE_CHAT)
    assert "This may need help at once. Call 911 now" in patient[-1], patient
    assert "Something went wrong here" in patient[-1]
    assert any("i cant swallow my spit" in text for text in care), care
    await store.close()

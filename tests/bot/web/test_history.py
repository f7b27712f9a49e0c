"""The invented patients who did not begin today: the real agent plays their record before the stage opens."""

from __future__ import annotations

import asyncio
import logging

import pytest

from bot.rehearsal.demo import DEMOS, demo_history, demo_plan
from bot.rehearsal.world import World
from bot.storage.opening import open_store
from bot.web.history import live
from bot.web.stage import Stage
from scheduler.localtime import instant, local
from scheduler.record import EntryKind


async def lived(name, protocol):
    plan, history = demo_plan(name, protocol), demo_history(name)
    assert history is not None
    store = await open_store("memory:", protocol)
    start = instant(history.start.date(), history.start.time(), plan.patient.time_zone)
    stage = Stage(World.make(store, protocol, start), [plan], preparing="waiting")
    await live(stage, history)
    async with store.work() as work:
        case = await work.case(plan.patient.reference)
    return stage, history, case


@pytest.mark.parametrize("name", DEMOS[1:])
async def test_every_turn_is_played_and_no_flag_is_left_lying(protocol, name, caplog):
    with caplog.at_level(logging.WARNING):
        stage, history, case = await lived(name, protocol)
    assert [record.message for record in caplog.records if record.name == "bot.web.history"] == []
    assert case.open_flags == ()
    assert stage.preparing == ""
    assert local(stage.now, case.plan.patient.time_zone).replace(tzinfo=None) == history.end


async def test_half_a_year_leaves_a_record_of_half_a_year(protocol):
    """26 weeks at two doses a day: 364 doses, of which three were missed (by hand)."""
    stage, _, case = await lived("adult_maintenance", protocol)
    answers = [case.record.dose_answer(key) for key in {entry.about for entry in case.record.entries
                                                        if ":d:" in entry.about}]
    taken = sum(answer is not None and answer.kind is EntryKind.DOSE_TAKEN for answer in answers)
    skipped = sum(answer is not None and answer.kind is EntryKind.DOSE_SKIPPED for answer in answers)
    assert (taken, skipped) == (361, 3)
    assert len(case.record.of(EntryKind.CHECK_IN_DONE)) >= 20
    assert [flag.rules[0] for flag in case.flags] == ["thrush", "endoscopy_due", "worse"]
    assert len(stage.items(stage.world.address("QS-095"))) > 1500


async def test_the_page_gets_its_turn_meanwhile(protocol):
    """While the record is made, nothing else waits for longer than a second."""
    task = asyncio.create_task(lived("teen_inhaler", protocol))
    loop = asyncio.get_running_loop()
    longest, last = 0.0, loop.time()
    while not task.done():
        await asyncio.sleep(0)
        longest, last = max(longest, loop.time() - last), loop.time()
    await task
    assert longest < 1.0

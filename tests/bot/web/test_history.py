"""The invented patients who did not begin today: the real agent plays their record before the stage opens."""

from __future__ import annotations

import asyncio
import logging

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


async def test_half_a_year_leaves_a_record_of_half_a_year(protocol, caplog):
    """Every turn is played. 26 weeks at two doses a day: 364 doses, of which three were missed (by hand)."""
    with caplog.at_level(logging.WARNING):
        stage, history, case = await lived("adult_maintenance", protocol)
    assert [record.message for record in caplog.records if record.name == "bot.web.history"] == []
    answers = [case.record.dose_answer(key) for key in {entry.about for entry in case.record.entries
                                                        if ":d:" in entry.about}]
    taken = sum(answer is not None and answer.kind is EntryKind.DOSE_TAKEN for answer in answers)
    skipped = sum(answer is not None and answer.kind is EntryKind.DOSE_SKIPPED for answer in answers)
    assert (taken, skipped) == (361, 3)
    assert len(case.record.of(EntryKind.CHECK_IN_DONE)) >= 20
    assert [flag.rules[0] for flag in case.flags] == ["thrush", "endoscopy_due", "worse"]
    assert case.open_flags == () and stage.preparing == ""
    assert len(stage.items(stage.world.address("QS-095"))) > 1500
    assert local(stage.now, case.plan.patient.time_zone).replace(tzinfo=None) == history.end


async def test_the_page_gets_its_turn_while_the_teenagers_record_is_made(protocol, caplog):
    """Every turn is played; meanwhile whatever else the program does gets its turn four times a day of the record."""
    with caplog.at_level(logging.WARNING):
        task = asyncio.create_task(lived("teen_inhaler", protocol))
        turns = 0
        while not task.done():
            await asyncio.sleep(0)
            turns += 1
        stage, history, case = await task
    assert [record.message for record in caplog.records if record.name == "bot.web.history"] == []
    assert case.open_flags == () and stage.preparing == ""
    assert turns > 4 * (history.end - history.start).days * 0.9


def test_each_invented_patient_who_did_not_begin_today_has_a_history():
    assert [demo_history(name) is not None for name in DEMOS] == [False, True, True]

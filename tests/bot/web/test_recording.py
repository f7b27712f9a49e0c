"""A recorded trial, played again by the rehearsal, gives the same conversation."""

from __future__ import annotations

from datetime import date, time, timedelta

import pytest

from bot.rehearsal.demo import demo_history, demo_plan
from bot.rehearsal.play import CLINICIAN, NURSE, play
from bot.rehearsal.scenario import load_scenario
from bot.rehearsal.world import CARE_CHAT, World
from bot.storage.opening import open_store
from bot.web.editor import changed_text
from bot.web.history import live
from bot.web.stage import Stage
from scheduler.localtime import instant

MAYA = "patient-KT-014"


def said(lines):
    """What was said, without invites' codes."""
    return [(line.at, line.chat, line.who, line.text) for line in lines if "joins with" not in line.text]


async def replayed(stage, reference, tmp_path):
    """The recording written, read and played; its conversation and failures."""
    path = tmp_path / "trial.toml"
    path.write_text(stage.recordings[reference].toml(), encoding="utf-8")
    return await play(load_scenario(path), stage.world.protocol)


async def test_words_taps_time_and_flags_play_again(first_dose, tmp_path):
    stage = first_dose
    shown = stage.world.last("KT-014")
    await stage.taps("KT-014", MAYA, shown.name, shown.outgoing.buttons[0][0].data)
    await stage.to_instant(stage.now + timedelta(minutes=12))
    await stage.says("KT-014", MAYA, "white patches on my tongue")
    care = stage.world.chat.last(CARE_CHAT)
    take = next(button.data for row in care.outgoing.buttons for button in row if button.data.endswith(":take"))
    await stage.taps(NURSE, CARE_CHAT, care.name, take)
    await stage.says(NURSE, CARE_CHAT, "/flags")
    await stage.to_next()
    played = await replayed(stage, "KT-014", tmp_path)
    assert played.failures == []
    assert said(played.lines) == said(stage.world.log)


async def test_a_wrong_flag_in_the_file_fails_the_replay(first_dose, tmp_path):
    """What makes it a bug report: the expectation can be changed to what should have been."""
    await first_dose.says("KT-014", MAYA, "white patches on my tongue")
    path = tmp_path / "trial.toml"
    text = first_dose.recordings["KT-014"].toml()
    assert "urgent thrush" in text
    path.write_text(text.replace("urgent thrush", "emergency food_stuck"), encoding="utf-8")
    played = await play(load_scenario(path), first_dose.world.protocol)
    assert any("emergency food_stuck" in failure for failure in played.failures)


async def test_a_patient_who_answers_as_usual_is_recorded_tap_by_tap(first_dose, tmp_path):
    first_dose.set_usual(True)
    await first_dose.to_instant(first_dose.now + timedelta(days=2))
    first_dose.set_usual(False)
    await first_dose.to_instant(first_dose.now + timedelta(hours=3))
    played = await replayed(first_dose, "KT-014", tmp_path)
    assert played.failures == []
    assert said(played.lines) == said(first_dose.world.log)


async def test_a_plan_that_is_edited_and_signed_plays_again(first_dose, tmp_path):
    plan = first_dose.plan("KT-014")
    await first_dose.sends_plan(changed_text(plan, {"phase[1].dose": "1.5 mg"}))
    shown = first_dose.world.chat.last(CARE_CHAT)
    sign = next(button.data for row in shown.outgoing.buttons for button in row if ":sign" in button.data)
    await first_dose.taps(CLINICIAN, CARE_CHAT, shown.name, sign)
    async with first_dose.world.store.work() as work:
        case = await work.case("KT-014")
    assert case.row.plan_version > 1 and str(case.plan.phases[0].steps[0].doses[0].amount) == "1.5 mg"
    await first_dose.to_instant(first_dose.now + timedelta(hours=16))
    played = await replayed(first_dose, "KT-014", tmp_path)
    assert played.failures == []
    assert said(played.lines) == said(first_dose.world.log)


@pytest.mark.parametrize("name", ["teen_inhaler"])
async def test_a_patient_with_a_history_is_recorded_with_it(protocol, tmp_path, name):
    """The history comes first, then what was done; the habit ends where the trial opened."""
    plan, history = demo_plan(name, protocol), demo_history(name)
    assert history is not None
    store = await open_store("memory:", protocol)
    stage = Stage(World.make(store, protocol, instant(history.start.date(), history.start.time(),
                                                      plan.patient.time_zone)), [plan], preparing="waiting")
    await live(stage, history)
    reference = plan.patient.reference
    await stage.to_next()
    await stage.says(reference, stage.world.address(reference), "he has white patches on his tongue")
    played = await replayed(stage, reference, tmp_path)
    assert played.failures == []
    assert said(played.lines) == said(stage.world.log)
    await store.close()


async def test_with_two_patients_each_recording_holds_its_own(protocol, tmp_path):
    """What is done with the other patient, or with a flag of theirs, does not stand in the way of the replay."""
    plans = [demo_plan("adult_slurry", protocol), demo_plan("teen_inhaler", protocol)]
    store = await open_store("memory:", protocol)
    stage = Stage(World.make(store, protocol, instant(date(2026, 3, 2), time(7, 40), "America/Denver")), plans)
    await stage.open()
    for reference in stage.references:
        await stage.taps(reference, stage.world.address(reference), stage.world.last(reference).name, "k:yes")
    jonas = stage.world.address("LB-207")
    await stage.says("LB-207", jonas, "white patches on his tongue")
    await stage.taps(NURSE, CARE_CHAT, stage.world.chat.last(CARE_CHAT).name, "f:LB-207/1:take")
    await stage.says("KT-014", MAYA, "my throat burns a bit after the dose")
    words = [turn.words for turn in stage.recordings["KT-014"].turns]
    assert "my throat burns a bit after the dose" in words
    assert not any("LB-207" in word or "his tongue" in word for word in words)
    path = tmp_path / "trial.toml"
    path.write_text(stage.recordings["KT-014"].toml(), encoding="utf-8")
    played = await play(load_scenario(path), protocol)
    assert [line.text for line in played.lines if line.chat == MAYA and line.who == "Maya"] == [
        item.text if item.kind == "words" else f"[{item.text}]" if item.kind == "tap" else f"({item.text.strip('()')})"
        for item in stage.items(MAYA) if item.kind != "ours"]
    await store.close()

"""The stage: people act, time passes, everything that is shown is kept in order."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bot.rehearsal.play import CLINICIAN, NURSE
from bot.rehearsal.world import CARE_CHAT, NoSuchButton
from bot.web.stage import places
from scheduler.localtime import local

MAYA = "patient-KT-014"


async def test_a_conversation_is_kept_in_order_with_times_and_marks(first_dose):
    items = first_dose.items(MAYA)
    kinds = [item.kind for item in items]
    assert kinds[:3] == ["note", "ours", "tap"] and set(kinds[3:]) == {"ours"}
    assert all(item.seen for item in items)
    clocks = [f"{local(item.at, 'America/Denver'):%H:%M}" for item in items]
    assert clocks == ["07:40"] * (len(items) - 1) + ["07:45"]


async def test_own_words_are_sent_first_and_seen_when_the_agent_has_handled_them(stage):
    marks = []
    stage.changed = lambda: marks.extend(item.seen for item in stage.items(MAYA)[-1:] if item.kind == "words")
    await stage.says("KT-014", MAYA, "hello?")
    assert marks[0] is False
    words = next(item for item in stage.items(MAYA) if item.kind == "words")
    assert words.seen


async def test_a_button_that_has_gone_is_refused(first_dose):
    shown = first_dose.world.last("KT-014")
    data = shown.outgoing.buttons[0][0].data
    await first_dose.taps("KT-014", MAYA, shown.name, data)
    with pytest.raises(NoSuchButton):
        await first_dose.taps("KT-014", MAYA, shown.name, data)


async def test_next_message_stops_at_what_somebody_sees_and_says_when_nothing_comes(stage):
    assert await stage.to_next()            # nobody has agreed: the patient is asked once more
    assert len([item for item in stage.items(MAYA) if item.kind == "ours"]) == 2
    assert await stage.to_next()            # then the care team reads that the patient has not joined
    for button in (":open", ":close", ":o0"):
        await _care_taps(stage, button)
    seen = len(stage.world.log)
    assert not await stage.to_next()        # that is seen to: nothing more comes by itself
    assert len(stage.world.log) == seen


async def _care_taps(stage, end: str) -> None:
    shown = stage.world.chat.last(CARE_CHAT)
    data = next(button.data for row in shown.outgoing.buttons for button in row if button.data.endswith(end))
    await stage.taps(NURSE, CARE_CHAT, shown.name, data)


async def test_next_day_is_the_morning_before_the_first_dose(first_dose):
    await first_dose.to_next_day("KT-014")
    assert f"{local(first_dose.now, 'America/Denver'):%Y-%m-%d %H:%M}" == "2026-03-03 06:40"


async def test_the_clock_runs_at_its_speed_in_whole_seconds_and_can_be_stopped(first_dose):
    before = first_dose.now
    first_dose.speed, first_dose.running = 60, True
    for _ in range(4):
        await first_dose.pass_time(0.26)
    assert first_dose.now - before == timedelta(seconds=62)
    assert first_dose.now.microsecond == 0
    first_dose.halt()
    await first_dose.pass_time(10)
    assert first_dose.now - before == timedelta(seconds=62)


async def test_a_patient_who_answers_as_usual_takes_every_dose_while_time_passes(first_dose):
    first_dose.set_usual(True)
    await first_dose.to_instant(first_dose.now + timedelta(days=5))
    async with first_dose.world.store.work() as work:
        case = await work.case("KT-014")
    taken = [entry.about for entry in case.record.entries if entry.kind == "dose_taken"]
    assert len(taken) == len(set(taken)) == 10      # five days, two a day; the first one when it was asked again
    first_dose.set_usual(False)
    await first_dose.to_instant(first_dose.now + timedelta(days=1))
    async with first_dose.world.store.work() as work:
        case = await work.case("KT-014")
    assert len([entry for entry in case.record.entries if entry.kind == "dose_taken"]) == 10


async def test_who_writes_on_the_care_teams_phone_is_who_acts(first_dose):
    await first_dose.says("KT-014", MAYA, "white patches on my tongue")
    shown = first_dose.world.chat.last(CARE_CHAT)
    take = next(button.data for row in shown.outgoing.buttons for button in row if button.data.endswith(":take"))
    await first_dose.taps(CLINICIAN, CARE_CHAT, shown.name, take)
    async with first_dose.world.store.work() as work:
        flag = (await work.open_flags())[0]
    assert flag.taken_by.startswith(CLINICIAN) and NURSE not in flag.taken_by


async def test_private_chats_of_members_appear_when_something_beyond_the_welcome_is_in_them(first_dose):
    assert [name for _, name in places(first_dose)] == ["Care team"]
    await first_dose.says(NURSE, first_dose.world.address(NURSE), "/help")
    assert [name for _, name in places(first_dose)] == ["Care team", NURSE]


async def test_took_it_late_counts_from_the_time_that_was_told(first_dose):
    """'I took it at 08:05', said at 08:25: the window ends at 08:35, not half an hour after the telling."""
    await first_dose.to_instant(first_dose.now + timedelta(minutes=40))
    await first_dose.says("KT-014", MAYA, "I took it at 08:05")
    assert "until 08:35" in first_dose.world.last("KT-014").text

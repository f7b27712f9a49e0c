"""Whatever a member types or taps, the desk answers and nothing breaks: no update ends as 'not handled'."""

from __future__ import annotations

import random
from collections.abc import Awaitable, Callable

import pytest

from bot.care.commands import COMMANDS
from bot.rehearsal.world import CARE_CHAT, World

Make = Callable[[], Awaitable[World]]

ODD = ["", " ", "KT-014", "kt-014", "ZZ-1", "KT-014 x", "KT-014 2026-02-30 1 1", "KT-014 -1",
       "KT-014 99999999999999999999", "KT-014 2026-03-01 0 0", "KT-014 2999-01-01 3 1",
       "{n}", "%s", "KT-014 {reference}",
       "'; drop table flags; --", "KT-014 " + "x" * 5000, "\u202eKT-014", "KT-014 ☃", "nurse", "boss", "on_call",
       "KT-014 0.0 nmol/L", "KT-014 2026-03-01 310 nmol/l", "KT-014 2026-03-01 310 g"]


def all_is_well(world: World, caplog: pytest.LogCaptureFixture) -> None:
    assert not [shown.text for shown in world.chat.shown[CARE_CHAT] if "NOT HANDLED" in shown.text]
    assert not [record.message for record in caplog.records if record.levelname == "ERROR"]


@pytest.mark.parametrize("command", sorted(COMMANDS))
async def test_odd_words_after_a_command(command: str, clinic: Make, caplog: pytest.LogCaptureFixture) -> None:
    world = await clinic()
    for words in ODD:
        await world.says("Dr Lindqvist", f"{command} {words}")
    all_is_well(world, caplog)


async def test_odd_taps(clinic: Make, caplog: pytest.LogCaptureFixture) -> None:
    world = await clinic()
    await world.says("KT-014", "white patches on my tongue")
    dice = random.Random(1)
    subjects = ["KT-014", "KT-014/1", "KT-014/99", "", "x", "0", "-1", "KT-014/x", "care-ann", "a:b:c"]
    choices = ["take", "answer", "close", "reopen", "open", "list", "o0", "o99", "o", "card", "chart", "ask_",
               "ask_mouth", "ask_nothing", "release_1", "release_9", "release_x", "release_1_yes", "hold_1", "hold_",
               "pause_", "pause_3", "pause_x", "plan_0", "plan_99", "plan_", "free", "record", "send", "send_1",
               "drop_9", "drop", "remove", "sign_1", "sign_x", "sign_99", "drop_1", "", "ы" * 20]
    for _ in range(250):
        await world.taps_what_is_gone(dice.choice(["Ann", "Dr Lindqvist"]),
                                      f"{dice.choice('fpmyzq')}:{dice.choice(subjects)}:{dice.choice(choices)}")
    all_is_well(world, caplog)


async def test_odd_words_at_each_prompt(clinic: Make, caplog: pytest.LogCaptureFixture) -> None:
    world = await clinic()
    await world.says("KT-014", "white patches on my tongue")
    for opener in ("/write KT-014", "/endoscopy KT-014", "/cortisol KT-014"):
        for words in ("{", "}", "2026-03-01", "9" * 400, "\n\n", "é" * 3000):
            await world.says("Ann", opener)
            await world.says("Ann", words)
    all_is_well(world, caplog)

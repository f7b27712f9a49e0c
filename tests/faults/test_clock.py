"""The wall clock jumps an hour either way. (The change of summer time is no jump of this clock, which is UTC: what
patients see then is held by fixtures/scenarios/the_clock_goes_forward.toml and its sister.)"""

from __future__ import annotations

import asyncio
from datetime import timedelta

from botapi import BotApi
from faulty import EMERGENCY, TestClock, care_flag, join, morning, put, serving, state_of, texts, until, window_end

from scheduler.messages import SendState

HOUR = timedelta(hours=1)
START = morning(12, 0)


async def test_set_back_an_hour_nothing_waits_for_the_clock_to_catch_up(bot_api: BotApi, store_url: str) -> None:
    maya = bot_api.user(1001, "Maya")
    clock = TestClock(START)
    async with serving(bot_api, store_url, clock) as service:
        await join(service, maya)
        service.waker.nudge()
        bot_api.fail("429", chat=maya, retry_after=1)
        await put(service, window_end("asked to wait", START))
        await until(lambda: bot_api.faults._waiting == [])
        await asyncio.sleep(0.1)
        clock.set_by(-HOUR)
        await put(service, care_flag("due", START - timedelta(seconds=1), "was due before the jump"))
        service.waker.nudge()
        await bot_api.wait_for(-500, "was due before the jump")
        await bot_api.wait_for(maya, "You can eat")
        maya.text(EMERGENCY)
        await bot_api.wait_for(maya, "911")
        await bot_api.wait_for(-500, "im drooling")
    assert len(texts(bot_api, maya, "You can eat")) == 1


async def test_set_forward_an_hour_what_is_due_by_the_clock_leaves_once(bot_api: BotApi, store_url: str) -> None:
    maya = bot_api.user(1001, "Maya")
    clock = TestClock(START)
    async with serving(bot_api, store_url, clock) as service:
        await join(service, maya)
        bot_api.fail("hang", chat=maya)              # under way, its lease ended by the jump
        await put(service, window_end("under way", START))
        await asyncio.sleep(0.2)
        await put(service, window_end("later", START + timedelta(minutes=50)))
        clock.set_by(HOUR)
        service.waker.nudge()
        await until(lambda: len(texts(bot_api, maya, "You can eat")) == 2, 15)
        await asyncio.sleep(0.5)
        assert await state_of(service, "KT-014:later") is SendState.SENT
    assert len(texts(bot_api, maya, "You can eat")) == 2, "not a third time: the process knew that it was under way"


async def test_a_jump_while_nothing_happens_is_noticed_within_the_longest_sleep(bot_api: BotApi) -> None:
    """The waker guards every sleep with the monotonic clock: a shortened one shows that no nudge is needed."""
    maya = bot_api.user(1001, "Maya")
    clock = TestClock(START)
    async with serving(bot_api, "memory:", clock) as service:
        service.waker._longest = 0.5
        service.waker.nudge()
        await join(service, maya)
        await put(service, window_end("later", START + timedelta(minutes=50)))
        await asyncio.sleep(0.6)
        clock.set_by(HOUR)
        await bot_api.wait_for(maya, "You can eat", 3)

"""Several processes on one PostgreSQL: they share the work, one polls, and what a dead one held is taken over."""

from __future__ import annotations

import asyncio
from datetime import timedelta

import pytest
from botapi import BotApi
from faulty import CARE, EMERGENCY, TestClock, join, morning, put, serving, state_of, texts, until, window_end
from stores import protocol

import bot.serving as serving_module
from bot.serving import Service
from bot.storage.opening import open_store
from bot.storage.presence import Shared
from scheduler.messages import SendState

START = morning(12, 0)


@pytest.fixture(autouse=True)
def often(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(serving_module, "_LOOK_AROUND", 0.3)


async def test_two_processes_share_and_one_polls(bot_api: BotApi, postgres_url: str) -> None:
    users = [bot_api.user(1100 + n) for n in range(12)]
    clock = TestClock(START)
    async with serving(bot_api, postgres_url, clock) as one, serving(bot_api, postgres_url, clock) as two:
        await until(lambda: (one.vital.poller is None) != (two.vital.poller is None))
        await until(lambda: one.pacing._limits.overall_per_second == 15, 5, "the pace is shared")
        for n, user in enumerate(users):
            await join(one, user, f"KT-{n:03}")
        await put(one, *(window_end("a", START, f"KT-{n:03}") for n in range(len(users))))
        two.dispatcher.nudge()
        for user in users:
            await bot_api.wait_for(user, "You can eat")
        await asyncio.sleep(0.3)
        assert all(len(texts(bot_api, user, "You can eat")) == 1 for user in users)
        users[0].text(EMERGENCY)
        await bot_api.wait_for(users[0], "911")
        await bot_api.wait_for(CARE, "im drooling")


async def test_a_dead_processs_claims_and_its_polling_are_taken_over(bot_api: BotApi, postgres_url: str) -> None:
    """The dead one is played by a connection with its own lock and claims, cut off as the kernel does."""
    maya = bot_api.user(1001, "Maya")
    clock = TestClock(START)
    store = await open_store(postgres_url, protocol())
    dead = Shared(store.engine.url)  # type: ignore[attr-defined]
    await dead.arrive("dead:1:x")
    assert await dead.on_duty("polling")
    async with serving(bot_api, postgres_url, clock) as service:
        await join(service, maya)
        async with store.work() as work:
            await work.put([window_end("in flight", START)])
            claimed = await work.claim(clock.now(), 10, clock.now() + timedelta(hours=5), "dead:1:x")
        assert len(claimed) == 1
        maya.text(EMERGENCY)
        await asyncio.sleep(1.0)
        assert service.vital.poller is None and not texts(bot_api, maya, "You can eat"), "the other one still lives"
        await dead.leave()
        await bot_api.wait_for(maya, "You can eat")
        await bot_api.wait_for(maya, "911")
        await until(lambda: is_sent(service, "KT-014:in flight"))
    await store.close()


async def is_sent(service: Service, key: str) -> bool:
    return await state_of(service, key) is SendState.SENT


async def test_on_sqlite_what_an_earlier_life_held_is_taken_back_at_start(bot_api: BotApi, tmp_path: object) -> None:
    maya = bot_api.user(1001, "Maya")
    url = f"sqlite:///{tmp_path}/coatwell.db"
    clock = TestClock(START)
    async with serving(bot_api, url, clock) as service:
        await join(service, maya)
    store = await open_store(url, protocol())
    async with store.work() as work:
        await work.put([window_end("in flight", START)])
        await work.claim(clock.now(), 10, clock.now() + timedelta(hours=5), "dead:1:x")
    await store.close()
    async with serving(bot_api, url, clock):
        await bot_api.wait_for(maya, "You can eat")

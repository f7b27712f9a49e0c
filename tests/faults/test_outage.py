"""The network is gone for three hours over the morning dose."""

from __future__ import annotations

import asyncio
from datetime import timedelta

from botapi import BotApi
from faulty import CARE, EMERGENCY, TestClock, join, morning, put, serving, texts, until, window_end

from scheduler.messages import SendState


async def test_three_hours_without_a_network(bot_api: BotApi, store_url: str) -> None:
    """Stale doses are not sent and their miss is told once; the end of a window and flags are sent."""
    maya, sam = bot_api.user(1001, "Maya"), bot_api.user(1002, "Sam")
    clock = TestClock(morning(7, 30))
    async with serving(bot_api, store_url, clock) as service:
        await join(service, sam, "KT-015")
        await join(service, maya, "KT-014", woken=True)
        await until(lambda: expanded(service))
        await bot_api.down()
        sam_says = sam.text(EMERGENCY)          # it reaches us when the network is back
        assert sam_says
        for step in (20, 80, 80):
            clock.set_by(timedelta(minutes=step))
            service.waker.nudge()
            await asyncio.sleep(1.2)
        await put(service, window_end("window", clock.now(), send_before=clock.now() + timedelta(minutes=45)))
        clock.set_by(timedelta(minutes=30))
        service.waker.nudge()
        await asyncio.sleep(0.5)
        assert service.dispatcher.network_is_away
        await bot_api.up()
        await bot_api.wait_for(sam, "911", 40)
        await bot_api.wait_for(CARE, "im drooling", 20)
        await bot_api.wait_for(maya, "You can eat", 20)
        await bot_api.wait_for(maya, "I could not send the reminder for your morning dose (07:45)", 20)
        await asyncio.sleep(1.0)
        assert not texts(bot_api, maya, "it is time for your morning dose"), "a stale reminder was sent"
        assert not texts(bot_api, maya, "is still open")
        assert len(texts(bot_api, maya, "I could not send the reminder")) == 1
        assert len(texts(bot_api, CARE, "MESSAGES ARE LATE")) == 1
        assert len(texts(bot_api, sam, "911")) == 1
        async with service.store.work() as work:
            states = {sent.message.kind: sent.state for sent in await work.messages_of("KT-014")}
        assert states["dose"] is SendState.STALE and states["dose_repeat"] is SendState.STALE


async def expanded(service: object) -> bool:
    async with service.store.work() as work:  # type: ignore[attr-defined]
        return any(sent.message.kind == "dose" for sent in await work.messages_of("KT-014"))

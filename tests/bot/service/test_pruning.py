"""A serving process throws away what is long done, once a day, and keeps what is not."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from botapi import BotApi

from bot.chat.telegram import TelegramChat
from bot.sending import Addresses
from bot.serving import Service
from bot.storage.opening import open_store
from scheduler.clock import SetClock
from scheduler.messages import Message, SendState, To
from scheduler.ports import Mark
from scheduler.protocol import load_protocol

PROTOCOL = load_protocol()
NOW = datetime(2026, 6, 1, 12, tzinfo=UTC)


async def test_once_a_day_what_is_long_done_goes(bot_api: BotApi, store_url: str) -> None:
    store = await open_store(store_url, PROTOCOL)
    keep = PROTOCOL.span("keep.done_messages")
    async with TelegramChat(bot_api.token, bot_api.api) as chat:
        clock = SetClock(NOW)
        service = Service(store, chat, PROTOCOL, Addresses("-5"), clock)
        old, new = NOW - keep - timedelta(days=1), NOW - timedelta(days=1)
        async with store.work() as work:
            await work.put([Message(key, To.CHAT, "help", at, address="1") for key, at in (
                ("old", old), ("new", new), ("waiting", old))])
            await work.mark([Mark("old", SendState.SENT, old), Mark("new", SendState.SENT, new)])
        await service._throw_away()
        async with store.work() as work:
            assert await work.message("old") is None
            assert await work.message("new") is not None and await work.message("waiting") is not None
            await work.mark([Mark("waiting", SendState.SENT, old)])
        await service._throw_away()                      # the same day: not looked at again
        async with store.work() as work:
            assert await work.message("waiting") is not None
        clock.move_to(NOW + timedelta(days=1))
        await service._throw_away()
        async with store.work() as work:
            assert await work.message("waiting") is None
        service.waker.close()
    await store.close()

"""Webhooks instead of polling: any process may get any update; one that cannot be stored is posted again."""

from __future__ import annotations

import asyncio

from botapi import BotApi
from faulty import CARE, EMERGENCY, QUICK, TestClock, join, morning
from stores import protocol

from bot.chat.telegram import TelegramChat
from bot.errors import TroubleOutside
from bot.health import Health, served
from bot.sending import Addresses
from bot.serving import Service, webhook
from bot.storage.opening import open_store

START = morning(12, 0)


async def test_words_posted_by_the_network_are_stored_and_answered(bot_api: BotApi) -> None:
    maya = bot_api.user(1001, "Maya")
    bot_api.group(CARE)
    store = await open_store("memory:", protocol())
    async with TelegramChat(bot_api.token, bot_api.api, timeouts=QUICK) as chat:
        service = Service(store, chat, protocol(), Addresses(str(CARE)), TestClock(START))
        refused = {"left": 2}
        real = service.agent.store_updates

        async def store_updates(*given: object) -> int:
            if refused["left"]:
                refused["left"] -= 1
                raise TroubleOutside("the database is away for a moment")
            return await real(*given)  # type: ignore[arg-type]

        service.agent.store_updates = store_updates  # type: ignore[method-assign]
        route, _ = webhook(service, chat, "http://127.0.0.1:1/hook", "a-secret")    # its port is not known yet
        routes = [route, *Health(service.vital, store, service.clock.now).routes()]
        async with served(routes, "127.0.0.1", 0) as port:
            _, receiving = webhook(service, chat, f"http://127.0.0.1:{port}/hook", "a-secret")
            running = asyncio.create_task(service.run(receiving))
            await service.arrived.wait()
            await join(service, maya)
            maya.text(EMERGENCY)
            await bot_api.wait_for(maya, "911", 15)
            await bot_api.wait_for(CARE, "im drooling")
            service.stop()
            await running
    assert refused["left"] == 0

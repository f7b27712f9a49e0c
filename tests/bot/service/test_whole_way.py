"""The whole way over real HTTP: the service of `serve` against a local Bot API, from the invite to the nurse."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import datetime

from botapi import BotApi

from bot.chat.telegram import TelegramChat
from bot.enrolling import enrol
from bot.invites import make_invite
from bot.rehearsal.demo import demo_plan
from bot.sending import Addresses
from bot.serving import Service, poller
from bot.storage.opening import open_store
from scheduler.clock import RunningClock
from scheduler.localtime import instant
from scheduler.protocol import load_protocol

PROTOCOL = load_protocol()
PLAN = demo_plan("adult_slurry", PROTOCOL)


@asynccontextmanager
async def serving(server: BotApi, url: str, clock: RunningClock, care_chat: str) -> AsyncIterator[Service]:
    """One process's service, stopped as SIGTERM stops it."""
    store = await open_store(url, PROTOCOL)
    async with TelegramChat(server.token, server.api) as chat:
        service = Service(store, chat, PROTOCOL, Addresses(care_chat), clock)
        running = asyncio.create_task(service.run(poller(service, chat)))
        try:
            yield service
        finally:
            service.stop()
            await asyncio.wait_for(running, 15)
            await store.close()


def at(day: int, hour: int, minute: int) -> datetime:
    local = datetime(2026, 3, day, hour, minute)  # noqa: DTZ001 - wall clock, made an instant on the next line
    return instant(local.date(), local.time(), PLAN.patient.time_zone)


async def test_from_the_invite_to_the_nurses_answer(bot_api: BotApi, store_url: str) -> None:
    server = bot_api
    maya, nurse = server.user(1001, "Maya"), server.user(2001, "Nurse Adeyemi")
    care = server.group(-500, "Care team")
    clock = RunningClock(at(2, 7, 40), 1.0)
    async with serving(server, store_url, clock, str(care.id)) as service:
        async with service.store.work() as work:
            code = await enrol(work, PLAN, clock.now(), PROTOCOL)
            care_code = await make_invite(work, "nurse", clock.now(), PROTOCOL)
        nurse.text(f"/join {care_code}")
        maya.start(code)
        await server.wait_for(maya, "Do you agree?")
        maya.tap(None, "I agree")
        await server.wait_for(maya, "Your first dose comes")
        clock.skip_to(at(2, 7, 45))
        service.waker.nudge()
        await server.wait_for(maya, "time for your morning dose (07:45): 1 mg")
        maya.tap(None, "Taken now")
        await server.wait_for(maya, "Nothing to eat or drink until 08:15")
        maya.text("the meat wont go down, im drooling")
        await server.wait_for(maya, "call 911")
        await server.wait_for(care, "im drooling")
        nurse.tap(None, "Take it", chat=care.id)
        await server.wait_for(maya, "Somebody from the care team is reading")

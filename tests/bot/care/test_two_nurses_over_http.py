"""A whole flag life over real HTTP against a local Bot API: two nurses tap at once, one wins, the other is told."""

from __future__ import annotations

import asyncio
from datetime import datetime

from botapi import BotApi

from bot.chat.pacing import Limits
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


def at(day: int, hour: int, minute: int) -> datetime:
    local = datetime(2026, 3, day, hour, minute)  # noqa: DTZ001 - wall clock, made an instant on the next line
    return instant(local.date(), local.time(), PLAN.patient.time_zone)


async def test_from_words_to_outcome_with_two_nurses(bot_api: BotApi, store_url: str) -> None:
    unpaced = Limits(1000, 0.0, 1000, 1000)      # the local server has no pace to keep
    server, reference = bot_api, PLAN.patient.reference
    maya, ann, ben = server.user(1001, "Maya"), server.user(2001, "Ann"), server.user(2002, "Ben")
    doctor, eve = server.user(2003, "Dr Lindqvist"), server.user(3001, "Eve")
    care = server.group(-500, "Care team")
    clock = RunningClock(at(3, 10, 0), 1.0)
    store = await open_store(store_url, PROTOCOL)
    async with TelegramChat(server.token, server.api) as chat:
        service = Service(store, chat, PROTOCOL, Addresses(str(care.id)), clock, limits=unpaced)
        running = asyncio.create_task(service.run(poller(service, chat)))
        try:
            async with store.work() as work:
                code = await enrol(work, PLAN, clock.now(), PROTOCOL)
                codes = [await make_invite(work, role, clock.now(), PROTOCOL)
                         for role in ("nurse", "nurse", "clinician")]
            for person, invite in zip((ann, ben, doctor), codes, strict=True):
                person.text(f"/join {invite}")
                await server.wait_for(person, "Welcome")
            maya.start(code)
            await server.wait_for(maya, "Do you agree?")
            maya.tap(None, "I agree")
            await server.wait_for(maya, "Your first dose comes")

            maya.text("white patches on my tongue since yesterday")
            message = (await server.wait_for(care, "white patches")).id
            eve.tap(None, "Take it", chat=care)
            await server.wait_for(care, "You are not on this care team's list")
            ann.tap(message, "Take it", chat=care)
            ben.tap(message, "Take it", chat=care)
            await server.wait_for(care, "was taken by Ann (nurse)")
            await server.wait_for(maya, "Somebody from the care team is reading")

            ann.tap(message, "Answer the patient", chat=care)
            await server.wait_for(care, f"Your words to {reference}?")
            ann.text("Please come by today.", chat=care)
            await server.wait_for(care, "Send it?")
            ann.tap(None, f"Send to {reference}", chat=care)
            await server.wait_for(maya, "Please come by today.")
            maya.tap(None, "I have read it")
            await server.wait_for(care, "has read your message", 30)
            ann.tap(message, "Close", chat=care)
            await server.wait_for(care, "How did", 30)
            ann.tap(None, "treated", chat=care)
            await server.wait_for(care, "Closed: treated.", 30)
            async with store.work() as work:
                case = await work.case(reference)
                acts = [act.what for act in reversed(await work.acts(reference))]
            assert case is not None
            assert [(flag.taken_by, flag.outcome) for flag in case.flags] == [("Ann (nurse)", "treated")]
            assert [act for act in acts if act.startswith("flag")] == ["flag taken", "flag closed"]
        finally:
            service.stop()
            await asyncio.wait_for(running, 15)
            await store.close()

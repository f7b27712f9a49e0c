"""The trial over the configured Bot API: a virtual clock at a chosen speed, invented patients, real phones."""

from __future__ import annotations

import argparse
import asyncio
import sys
from contextlib import suppress

from bot.chat.telegram import TelegramChat
from bot.chat.types import Outgoing
from bot.enrolling import enrol
from bot.errors import WrongSettings
from bot.invites import make_invite
from bot.rehearsal.beginning import load_plans, start_of, trial_store
from bot.sending import Addresses
from bot.serving import Service, poller
from bot.settings import load_settings, must_be_chats
from scheduler.clock import RunningClock

DESK = "desk"
DEFAULT_SPEED = 60.0
_MOST_STEPS = 60
_SETTLES = 2.0   # seconds for what has come due to be done and sent


class WithDesk(TelegramChat):
    """The network's chats, and a desk: without a care team's chat its flags are printed here. `sent`: messages."""

    sent = 0

    async def send(self, address: str, outgoing: Outgoing) -> str:
        self.sent += 1
        if address != DESK:
            return await super().send(address, outgoing)
        print(f"\n--- care team (no COATWELL_CARE_CHAT is set) ---\n{outgoing.text}", flush=True)
        return "0"

    async def edit(self, address: str, message: str, outgoing: Outgoing) -> None:
        if address != DESK:
            await super().edit(address, message, outgoing)


async def run_trial(args: argparse.Namespace) -> int:
    """Until interrupted. With --speed 0 the clock stands still and an empty line goes on to the next message."""
    settings = load_settings()
    if settings.telegram_token is None:
        raise WrongSettings("COATWELL_TELEGRAM_TOKEN is not set; set it, or use 'coatwell try --terminal'")
    must_be_chats(settings)
    protocol = settings.clinic_protocol()
    plans = load_plans(args.plan, protocol)
    store = await trial_store(args.database, protocol)
    speed = DEFAULT_SPEED if args.speed is None else args.speed
    clock = RunningClock(start_of(args.start, plans[0]), speed)
    try:
        async with WithDesk(settings.telegram_token.get_secret_value(), settings.telegram_api) as chat:
            name = await chat.who()
            async with store.work() as work:
                for plan in plans:
                    code = await enrol(work, plan, clock.now(), protocol)
                    print(f"invite {plan.patient.reference} {code}\n  {name.link(code)}", flush=True)
                for role in ("clinician", "nurse"):
                    care = await make_invite(work, role, clock.now(), protocol)
                    print(f"care invite ({role}) {care}   (write /join {care} to the bot)", flush=True)
            addresses = Addresses(settings.care_chat or DESK)
            service = Service(store, chat, protocol, addresses, clock, speed=max(speed, 1.0))
            stepping = asyncio.create_task(_step(service, clock, chat)) if speed == 0 else None
            await service.run(poller(service, chat))
            if stepping:
                stepping.cancel()
                with suppress(asyncio.CancelledError):
                    await stepping
    finally:
        await store.close()
    return 0


async def _step(service: Service, clock: RunningClock, chat: WithDesk) -> None:
    """Each line on standard input moves the clock on until somebody is sent a message."""
    print("an empty line goes on to the next message", flush=True)
    while await asyncio.to_thread(sys.stdin.readline):
        before = chat.sent
        for _ in range(_MOST_STEPS):   # timers of our own come due in between and send nothing
            upcoming = await service.agent.next_due()
            if upcoming is None or chat.sent > before:
                break
            clock.skip_to(upcoming)
            service.waker.nudge()
            await _settled(chat, before)
        print(f"{clock.now():%Y-%m-%d %H:%M} UTC", flush=True)


async def _settled(chat: WithDesk, before: int) -> None:
    """Until something was sent, or nothing is for a while."""
    with suppress(TimeoutError):
        async with asyncio.timeout(_SETTLES):
            while chat.sent == before:
                await asyncio.sleep(0.05)

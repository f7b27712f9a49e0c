"""`coatwell serve`: the agent for real."""

from __future__ import annotations

import argparse
import asyncio
import logging

EPILOG = """example:
  COATWELL_TELEGRAM_TOKEN=... COATWELL_CARE_CHAT=-100123 coatwell serve

Stops cleanly on SIGTERM. Any number of processes may share one PostgreSQL (COATWELL_DATABASE=postgresql+psycopg://...).
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = EPILOG


def run(args: argparse.Namespace) -> int:  # noqa: ARG001
    logging.basicConfig(level=logging.INFO, format="%(asctime)s %(levelname)s %(name)s %(message)s")
    return asyncio.run(_serve())


async def _serve() -> int:
    from bot.chat.telegram import TelegramChat
    from bot.errors import WrongSettings
    from bot.sending import Addresses
    from bot.serving import Service, invite_lines, poller
    from bot.settings import load_settings
    from bot.storage.opening import open_store
    from scheduler.clock import WallClock

    settings = load_settings()
    if settings.telegram_token is None:
        raise WrongSettings("COATWELL_TELEGRAM_TOKEN is not set: the agent has no chat network; set it, or use "
                            "'coatwell try' without an account")
    if not settings.care_chat:
        raise WrongSettings("COATWELL_CARE_CHAT is not set: flags would reach nobody; set it to the care team's chat")
    protocol = settings.clinic_protocol()
    store = await open_store(settings.database, protocol)
    try:
        await store.mark_served()
        async with TelegramChat(settings.telegram_token.get_secret_value(), settings.telegram_api) as chat:
            name = await chat.who()
            clock = WallClock()
            for line in await invite_lines(store, protocol, clock):
                print(line, flush=True)
            print(f"serving as {name.username}; clinic protocol: {protocol.name} {protocol.banner}".rstrip(), flush=True)
            service = Service(store, chat, protocol, Addresses(settings.care_chat, settings.on_call_chat), clock)
            await service.run(poller(service, chat))
    finally:
        await store.close()
    return 0

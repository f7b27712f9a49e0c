"""`coatwell serve`: the agent for real."""

from __future__ import annotations

import argparse
import asyncio
import gc
import logging

EPILOG = """example:
  COATWELL_TELEGRAM_TOKEN=... COATWELL_CARE_CHAT=-100123 coatwell serve

Stops cleanly on SIGTERM. Any number of processes may share one PostgreSQL (COATWELL_DATABASE=postgresql+psycopg://...).
COATWELL_HEALTH_PORT=8080 answers /live, /ready, /health and /metrics there, and takes the webhook when
COATWELL_WEBHOOK_URL and COATWELL_WEBHOOK_SECRET are set.
"""
WEBHOOK_PORT = 8080

log = logging.getLogger(__name__)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = EPILOG


def run(args: argparse.Namespace) -> int:  # noqa: ARG001
    from bot.chat.types import ChatUnauthorised
    from bot.errors import TroubleOutside

    try:
        return asyncio.run(_serve())
    except ChatUnauthorised as error:     # its words never show the token
        log.critical("stopped: %s", error)
        raise TroubleOutside(f"stopped: {error}") from None


async def _serve() -> int:
    from contextlib import AsyncExitStack

    from bot.chat.telegram import TelegramChat
    from bot.errors import WrongSettings
    from bot.health import Health, served
    from bot.logs import start_logging
    from bot.sending import Addresses
    from bot.serving import Service, invite_lines, poller, webhook
    from bot.settings import load_settings, must_be_chats
    from bot.storage.opening import open_store
    from scheduler.clock import WallClock

    settings = load_settings()
    if settings.telegram_token is None:
        raise WrongSettings("COATWELL_TELEGRAM_TOKEN is not set: the agent has no chat network; set it, or use "
                            "'coatwell try' without an account")
    if not settings.care_chat:
        raise WrongSettings("COATWELL_CARE_CHAT is not set: flags would reach nobody; set it to the care team's chat")
    secret = settings.webhook_secret.get_secret_value() if settings.webhook_secret else ""
    if settings.webhook_url and not secret:
        raise WrongSettings("COATWELL_WEBHOOK_SECRET is not set: anybody could speak for any patient; set it too")
    must_be_chats(settings)
    token = settings.telegram_token.get_secret_value()
    start_logging(token)
    protocol = settings.clinic_protocol()
    store = await open_store(settings.database, protocol)
    async with AsyncExitStack() as stack:
        stack.push_async_callback(store.close)
        await store.mark_served()
        chat = await stack.enter_async_context(TelegramChat(token, settings.telegram_api))
        clock = WallClock()
        name = await _who(chat)
        for line in await invite_lines(store, protocol, clock):
            print(line, flush=True)
        print(f"serving as {name}; clinic protocol: {protocol.name} {protocol.banner}".rstrip(), flush=True)
        service = Service(store, chat, protocol, Addresses(settings.care_chat, settings.on_call_chat), clock,
                          limits=settings.limits())
        routes = list(Health(service.vital, store, clock.now).routes())
        receiving = poller(service, chat)
        port = settings.health_port
        if settings.webhook_url:
            route, receiving = webhook(service, chat, settings.webhook_url, secret)
            routes.append(route)
            port = port or WEBHOOK_PORT
        if port:
            await stack.enter_async_context(served(routes, settings.health_host, port))
        # what is loaded by now stays: the collector need not look at it again (a seventh of the time under load)
        gc.collect()
        gc.freeze()
        await service.run(receiving)
    return 0


async def _who(chat: object) -> str:
    """The bot's name. A network that is away does not keep us from starting; a wrong token does."""
    from bot.chat.telegram import TelegramChat
    from bot.chat.types import ChatError, ChatUnauthorised

    assert isinstance(chat, TelegramChat)
    try:
        return (await chat.who()).username
    except ChatUnauthorised:
        raise
    except ChatError as error:
        log.warning("the network does not answer yet: %s", error)
        return "a bot whose name is not known yet"

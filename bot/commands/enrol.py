"""`coatwell enrol FILE`: store a signed plan and print a one-time invite."""

from __future__ import annotations

import argparse
import asyncio
import sys
from pathlib import Path

EPILOG = """example:
  coatwell enrol fixtures/plans/ok/kt-014.toml
  -> invite KT-014 7Q4M-...        (one time, for the days that the clinic protocol sets)
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = EPILOG
    parser.add_argument("file", type=Path, help="the plan file (TOML)")


def run(args: argparse.Namespace) -> int:
    """0 enrolled, 1 the plan has problems or its patient is there already, 2 no such file, 3 trouble outside."""
    from bot.given import readable

    readable(args.file, "a plan file")
    return asyncio.run(_enrol(args.file))


async def _enrol(path: Path) -> int:
    from bot.enrolling import enrol
    from bot.settings import load_settings
    from bot.storage.opening import open_store
    from scheduler.cautions import signed_ahead
    from scheduler.clock import WallClock
    from scheduler.planfile import load_plan

    settings = load_settings()
    protocol = settings.clinic_protocol()
    plan, now = load_plan(path, protocol), WallClock().now()
    store = await open_store(settings.database, protocol)
    try:
        async with store.work() as work:
            code = await enrol(work, plan, now, protocol)
    finally:
        await store.close()
    print(f"invite {plan.patient.reference} {code}")
    print(await _link(code))
    for caution in signed_ahead(plan, now):
        print(f"coatwell enrol: {path}: signed.on: {caution.text}", file=sys.stderr)
    if protocol.banner:
        print(f"coatwell: clinic protocol: {protocol.banner}", file=sys.stderr)
    return 0


async def _link(code: str) -> str:
    """The link that opens the bot with the invite, when the network can be asked for the bot's name."""
    from bot.chat.telegram import TelegramChat
    from bot.chat.types import ChatError
    from bot.settings import load_settings

    settings = load_settings()
    if settings.telegram_token is None:
        return f"link: none (COATWELL_TELEGRAM_TOKEN is not set); the patient writes /start {code} to the bot"
    try:
        async with TelegramChat(settings.telegram_token.get_secret_value(), settings.telegram_api) as chat:
            return f"link: {(await chat.who()).link(code)}"
    except ChatError as error:
        return f"link: not known now ({error}); the patient writes /start {code} to the bot"

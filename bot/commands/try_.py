"""`coatwell try`: the whole agent on a virtual clock with invented patients; no account, no network."""

from __future__ import annotations

import argparse
import asyncio
from pathlib import Path
from typing import TYPE_CHECKING

from bot.errors import BadUse
from bot.given import new_file, real, whole

if TYPE_CHECKING:
    from bot.ports import Store
    from bot.rehearsal.world import World
    from scheduler.plan import Plan

EPILOG = """examples:
  coatwell try
  coatwell try --record trial.toml
  coatwell try --terminal
  coatwell try --terminal --plan fixtures/plans/ok/kt-014.toml --start "2026-03-02 07:40"
  coatwell try --telegram --speed 60
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = EPILOG
    where = parser.add_mutually_exclusive_group()
    where.add_argument("--terminal", action="store_true", help="in this terminal")
    where.add_argument("--telegram", action="store_true", help="over the configured Bot API")
    parser.add_argument("--plan", type=Path, action="append", default=[], help="a plan file (may be repeated)")
    parser.add_argument("--start", default="", metavar='"2026-03-02 07:40"',
                        help="first instant of the virtual clock, in the first plan's zone")
    parser.add_argument("--speed", type=real(0, 100_000), default=None, metavar="N",
                        help="virtual seconds per real second; 0 waits for 'next'")
    parser.add_argument("--port", type=whole(0, 65535), default=0, metavar="P",
                        help="port of the local page (0: any free one)")
    parser.add_argument("--no-browser", action="store_true", help="print the page's address and open no browser")
    parser.add_argument("--database", default="", help="default: a fresh temporary one")
    parser.add_argument("--record", type=Path, default=None, help="save the trial as a scenario file")


def run(args: argparse.Namespace) -> int:
    if args.record and (args.telegram or args.terminal):
        raise BadUse("--record saves what is done on the page; leave it out, or leave --terminal or --telegram out")
    if args.record:
        _recordable(args.record)
    if args.telegram:
        from bot.rehearsal.over_telegram import run_trial

        return asyncio.run(run_trial(args))
    if args.terminal:
        return asyncio.run(_terminal(args))
    return asyncio.run(_page(args))


def _recordable(path: Path) -> None:
    """The trial is saved as it goes on: over an earlier scenario, never over any other file. Raises BadUse."""
    from bot.rehearsal.scenario import load_scenario
    from scheduler.errors import WrongInput

    if not path.parent.is_dir():
        raise BadUse(f"--record {path}: there is no such folder; name a file in one that is there")
    try:
        if new_file(path, "--record", replace=True).exists():
            load_scenario(path)
    except WrongInput:
        raise BadUse(f"--record {path}: is there already and is no scenario; name another file") from None


async def _page(args: argparse.Namespace) -> int:
    """The page: by default all invented patients, each on a stage of their own; with --plan those patients on one."""
    from bot.web.server import serve
    from bot.web.stage import Stage
    from bot.web.trial import Trial, demo_stages

    world, plans, _ = await prepare(args)
    first = Stage(world, plans)
    if args.speed:
        first.speed, first.running = max(1, round(args.speed)), True
    stages = [first]
    try:
        if not args.plan and not args.database:
            stages = await demo_stages(world.protocol, first)
        for reference, code in await first.open():
            print(f"invite {reference} {code}", flush=True)
        await serve(Trial(world.protocol, stages, args.record), args.port, show=not args.no_browser)
    finally:
        for stage in stages:
            await stage.world.store.close()
    return 0


async def _terminal(args: argparse.Namespace) -> int:
    import sys

    from bot.rehearsal.terminal import Terminal

    world, plans, store = await prepare(args)
    try:
        print("Coatwell: a trial with invented patients on a virtual clock. Nothing leaves this machine.\n"
              f"Clinic protocol: {world.protocol.name} ({world.protocol.banner or 'signed'}).")
        codes = await begin(world, plans)
        terminal = Terminal(world, list(codes), echo=not sys.stdin.isatty())
        for reference, code in codes.items():
            await world.opens_invite(reference, code)
        await terminal.run()
    finally:
        await store.close()
    return 0


async def prepare(args: argparse.Namespace) -> tuple[World, list[Plan], Store]:
    """Plans, store and world of a trial. Refuses a database that `serve` has used."""
    from bot.rehearsal.beginning import load_plans, start_of, trial_store
    from bot.rehearsal.world import World
    from bot.settings import load_settings

    protocol = load_settings().clinic_protocol()
    plans = load_plans(args.plan, protocol)
    store = await trial_store(args.database, protocol)
    return World.make(store, protocol, start_of(args.start, plans[0])), plans, store


async def begin(world: World, plans: list[Plan]) -> dict[str, str]:
    """The care team is there; each patient has an invite: reference -> code."""
    from bot.rehearsal.terminal import CLINICIAN, NURSE

    await world.admit(NURSE, "nurse")
    await world.admit(CLINICIAN, "clinician")
    codes = {plan.patient.reference: await world.enrol(plan) for plan in plans}
    for reference, code in codes.items():
        print(f"invite {reference} {code}")
    return codes

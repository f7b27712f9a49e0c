"""`coatwell rehearse`: play a scenario and print the conversation, or simulate a panel of patients."""

from __future__ import annotations

import argparse
import asyncio
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from bot.errors import BadUse
from bot.given import readable, whole

if TYPE_CHECKING:
    from bot.rehearsal.scenario import Scenario

EPILOG = """examples:
  coatwell rehearse fixtures/scenarios/an_ordinary_day.toml
  coatwell rehearse fixtures/scenarios/an_ordinary_day.toml --json lines
  coatwell rehearse --patients 20 --weeks 12 --seed 1
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = EPILOG
    parser.add_argument("scenario", nargs="*", type=Path, help="scenario file(s)")
    parser.add_argument("--json", choices=["lines"], help="one record a line instead of text")
    parser.add_argument("--patients", type=whole(1, 2000), metavar="N",
                        help="simulate a panel of so many patients instead")
    parser.add_argument("--weeks", type=whole(1, 260), default=26, metavar="W", help="for so long (default 26)")
    parser.add_argument("--seed", type=whole(0, 10**9), default=1, metavar="S", help="of the dice (default 1)")


def run(args: argparse.Namespace) -> int:
    """0 when every scenario led to what it must, 1 when one did not, 2 for what is no scenario, or nothing to do."""
    if args.patients and (args.json or args.scenario):
        raise BadUse("--patients goes without a scenario and without --json: its answer is a table; leave one out")
    if args.patients:
        from bot.rehearsal.panel import simulate_and_print

        return simulate_and_print(args.patients, args.weeks, args.seed)
    if not args.scenario:
        raise BadUse("name a scenario file, or --patients N")
    scenarios = [_scenario(path) for path in args.scenario]     # all are looked at before the first is played
    return max([asyncio.run(_play(path, scenario, args.json))
                for path, scenario in zip(args.scenario, scenarios, strict=True)])


def _scenario(path: Path) -> Scenario:
    """A file that is no scenario is bad use; what a scenario leads to is another question."""
    from bot.rehearsal.scenario import load_scenario
    from scheduler.errors import WrongInput

    try:
        return load_scenario(readable(path, "a scenario file"))
    except WrongInput as error:
        raise BadUse(str(error)) from None


async def _play(path: Path, scenario: Scenario, as_lines: str | None) -> int:
    from bot.rehearsal.play import plan_of, play
    from bot.rehearsal.printed import as_json, as_text
    from bot.settings import load_settings

    protocol = load_settings().clinic_protocol()
    zone = plan_of(scenario, protocol).patient.time_zone
    played = await play(scenario, protocol)
    if as_lines:
        for line in played.lines:
            print(json.dumps(as_json(line, zone), ensure_ascii=False))
    else:
        print(f"{scenario.title}   (clinic protocol: {protocol.name}; {protocol.banner or 'signed'})")
        for text in as_text(played.lines, zone):
            print(text)
    for failure in played.failures:
        print(f"coatwell rehearse: {path.name}: {failure}", file=sys.stderr)
    return 1 if played.failures else 0

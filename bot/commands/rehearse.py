"""`coatwell rehearse`: play a scenario and print the conversation, or simulate a panel of patients."""

from __future__ import annotations

import argparse
import asyncio
import json
import sys
from pathlib import Path

EPILOG = """examples:
  coatwell rehearse fixtures/scenarios/an_ordinary_day.toml
  coatwell rehearse fixtures/scenarios/an_ordinary_day.toml --json lines
  coatwell rehearse --patients 20 --weeks 12 --seed 1
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = EPILOG
    parser.add_argument("scenario", nargs="*", type=Path, help="scenario file(s)")
    parser.add_argument("--json", choices=["lines"], help="one record a line instead of text")
    parser.add_argument("--patients", type=int, help="simulate a panel of so many patients instead")
    parser.add_argument("--weeks", type=int, default=26)
    parser.add_argument("--seed", type=int, default=1)


def run(args: argparse.Namespace) -> int:
    """0 when every scenario led to what it must, 1 when one did not, 2 without anything to do."""
    if args.patients and (args.json or args.scenario):
        print("coatwell rehearse: --patients goes without a scenario and without --json: its answer is a table; "
              "leave one out", file=sys.stderr)
        return 2
    if args.patients:
        from bot.rehearsal.panel import simulate_and_print

        return simulate_and_print(args.patients, args.weeks, args.seed)
    if not args.scenario:
        print("coatwell rehearse: name a scenario file, or --patients N", file=sys.stderr)
        return 2
    for path in args.scenario:
        if not path.is_file():
            print(f"coatwell rehearse: {path}: there is no such file; name a scenario file", file=sys.stderr)
            return 2
    return max([asyncio.run(_play(path, args.json)) for path in args.scenario])


async def _play(path: Path, as_lines: str | None) -> int:
    from bot.rehearsal.play import plan_of, play
    from bot.rehearsal.printed import as_json, as_text
    from bot.rehearsal.scenario import load_scenario
    from bot.settings import load_settings

    protocol = load_settings().clinic_protocol()
    scenario = load_scenario(path)
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

"""`coatwell taper`: a taper that whole ampoules or puffs can make, with alternatives side by side."""

from __future__ import annotations

import argparse
import json
import sys
from fractions import Fraction
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from scheduler.amounts import Amount
    from scheduler.protocol import ClinicProtocol
    from scheduler.taper import Ladder

EPILOG = """examples:
  coatwell taper --from "1 mg" --to "0.5 mg" --times-per-day 2 --unit "0.25 mg" --weeks 8
  coatwell taper --from "880 microgram" --to "440 microgram" --times-per-day 2 --unit "220 microgram" --weeks 8 --json

  coatwell taper --from "1 mg" --to "0.5 mg" --unit "0.25 mg" --unit "0.5 mg" --weeks 8

`from` and `to` are one dose each. No source gives a ladder; the limits are the clinic protocol's.
Exit status: 0 done; 1 there is no such ladder; 2 an amount or option that cannot be read.
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = EPILOG
    parser.add_argument(
        "--from", dest="start", required=True, metavar="DOSE", help='one dose at the start, such as "1 mg"'
    )
    parser.add_argument(
        "--to", dest="target", required=True, metavar="DOSE", help='one dose at the end, such as "0.5 mg"'
    )
    parser.add_argument("--times-per-day", type=int, default=2, choices=(1, 2, 3, 4))
    parser.add_argument(
        "--unit",
        required=True,
        action="append",
        help='what one ampoule or puff holds, such as "0.25 mg"; repeat it for every strength on hand: '
        "units then count the smallest",
    )
    parser.add_argument("--weeks", type=int, required=True)
    parser.add_argument(
        "--line",
        choices=("straight", "geometric"),
        default="straight",
        help="equal steps, or the same percentage each time (default straight)",
    )
    parser.add_argument(
        "--larger",
        choices=("bedtime", "morning"),
        default="bedtime",
        help="which dose keeps the odd unit (default bedtime)",
    )
    parser.add_argument("--json", action="store_true", help="one JSON document")


def run(args: argparse.Namespace) -> int:
    from bot.settings import load_settings
    from scheduler.amounts import parse_amount, parse_strength
    from scheduler.errors import BadAmount
    from scheduler.taper import alternatives, ladder, make_up
    from scheduler.tapercautions import rough

    protocol = load_settings().clinic_protocol()
    if not 1 <= args.weeks <= 104:
        return _bad("--weeks is 1 to 104")
    try:
        start, target = parse_amount(args.start), parse_amount(args.target)
        strengths = [parse_strength(text).amount for text in args.unit]
    except BadAmount as error:
        return _bad(str(error))
    unit = min(strengths)
    make_up(unit, strengths)  # refuses strengths that do not go together
    limit = Fraction(protocol.number("taper.largest_drop")) / 100
    shortest = protocol.span("taper.shortest_step").days
    if (told := _absurd(start, unit, protocol)) is not None:
        return _bad(told)
    doses = (_units(start, unit),) * args.times_per_day, (_units(target, unit),) * args.times_per_day
    days = args.weeks * 7
    best = ladder(*doses, days, unit, limit, shortest, args.line)
    if args.json:
        said = rough(best, protocol)
        caution = {"cautions": [said]} if said else {}
        print(json.dumps(as_json(best, args.larger) | made_of(best, strengths) | caution, ensure_ascii=False))
    else:
        others = alternatives(*doses, days, unit, limit, shortest)
        if args.line == "geometric":
            others = {"closest to a geometric line": best, **others}
        _show(others, args.larger, strengths, protocol, rough(best, protocol))
    return 0


def as_json(found: Ladder, larger: str = "bedtime") -> dict[str, Any]:
    """The agreed shape. morning_units is null for one dose a day; for three and four, `units` lists every dose."""
    steps = []
    for step in found.steps:
        units = turned(step.units, larger)
        steps.append(
            {
                "from_day": step.from_day,
                "days": step.days,
                "morning_units": units[0] if len(units) > 1 else None,
                "evening_units": units[-1],
                "daily_amount": str(found.unit * step.daily_units),
                **({"units": list(units)} if len(units) > 2 else {}),
            }
        )
    return {"steps": steps, "largest_drop_percent": round(float(found.largest_drop * 100), 1)}


def made_of(found: Ladder, strengths: list[Amount]) -> dict[str, Any]:
    """For several strengths on hand: which ampoules make each dose of the ladder. Nothing for one strength."""
    if len(set(strengths)) == 1:
        return {}
    return {
        "made_of": {str(dose): {str(one): count for one, count in parts} for dose, parts in _made(found, strengths)}
    }


def _made(found: Ladder, strengths: list[Amount]) -> list[tuple[Amount, tuple[tuple[Amount, int], ...]]]:
    from scheduler.taper import make_up

    doses = sorted({count for step in found.steps for count in step.units if count}, reverse=True)
    return [(found.unit * count, make_up(found.unit * count, strengths)) for count in doses]


def turned(units: tuple[int, ...], larger: str) -> tuple[int, ...]:
    return units[::-1] if larger == "morning" else units


def _units(dose: Amount, unit: Amount) -> int:
    from scheduler.errors import Refused

    units = dose.units_of(unit)
    if not units:
        below = int(dose.ratio(unit))
        near = " or ".join(str(unit * count) for count in (below, below + 1) if count)
        raise Refused(f"{dose} is no whole number of units of {unit}; whole ones make {near}")
    return units


def _absurd(dose: Amount, unit: Amount, protocol: ClinicProtocol) -> str | None:
    """What is wrong with a unit of which nobody takes so many; None when it is plausible."""
    count, most = dose.ratio(unit), int(protocol.number("taper.most_units"))
    if count <= most:
        return None
    return (
        f"--unit {unit}: one dose of {dose} would be {int(count)} of them; the protocol's most is {most} ampoules or "
        "puffs. Give what one ampoule or puff holds, such as '0.5 mg' or '220 microgram'"
    )


def _show(found: dict[str, Ladder], larger: str, strengths: list[Amount], protocol: ClinicProtocol,
          caution: str) -> None:
    from bot.previewparts import ladders, page

    made = dict(pair for one in found.values() for pair in _made(one, strengths)) if len(set(strengths)) > 1 else {}
    lines = [
        f"{dose}: {' + '.join(f'{count} x {one}' for one, count in parts)}"
        for dose, parts in sorted(made.items(), key=lambda pair: pair[0], reverse=True)
    ]
    page(
        [
            ladders(found, larger),
            *(["\n".join(["Made of the strengths on hand:", *lines])] if lines else []),
            *([caution] if caution else []),
            "A taper goes on from one step to the next only as the signed plan says; swallowing may get "
            "worse after a step down, and a look at the tissue belongs after any change of dose (ACG 2025, "
            "second-hand).",
        ],
        protocol,
    )


def _bad(message: str) -> int:
    print(f"coatwell taper: {message}", file=sys.stderr)
    return 2

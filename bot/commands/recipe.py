"""`coatwell recipe`: how one dose, or a batch, is prepared."""

from __future__ import annotations

import argparse
import json
import sys
from decimal import Decimal
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from scheduler.protocol import ClinicProtocol
    from scheduler.recipe import Preparation

EPILOG = """examples:
  coatwell recipe --medicine budesonide --dose "1 mg" --ampoule "0.5 mg / 2 mL" --vehicle sweetener
  coatwell recipe --medicine budesonide --dose "0.75 mg" --ampoule "0.5 mg / 2 mL" --vehicle honey --json
  coatwell recipe --medicine fluticasone --dose "880 microgram" --inhaler "220 microgram"

Exit status: 0 done; 1 this dose cannot or may not be made so; 2 an amount or option that cannot be read.
"""


MOST_GRAMS = 50      # per mg or per ampoule: five times the largest published rule


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = EPILOG
    parser.add_argument("--medicine", required=True, choices=("budesonide", "fluticasone"))
    parser.add_argument("--dose", required=True, help='one dose, such as "1 mg"')
    parser.add_argument("--ampoule", help='strength of one ampoule, such as "0.5 mg / 2 mL"')
    parser.add_argument("--inhaler", help='strength of one puff, such as "220 microgram"')
    parser.add_argument(
        "--vehicle",
        choices=("sweetener", "honey", "maple syrup", "apple sauce", "formula powder"),
        help="what thickens the ampoules (default: sweetener)",
    )
    parser.add_argument("--doses", type=int, default=1, metavar="N", help="mix N equal doses at once (default 1)")
    parser.add_argument(
        "--ahead",
        type=int,
        default=0,
        metavar="DAYS",
        help="keep the mix so many days; only as far as the clinic protocol allows (default 0)",
    )
    parser.add_argument(
        "--sweetener", metavar="RULE", help='"10 g per mg" or "10 g per ampoule" (default: the protocol\'s)'
    )
    parser.add_argument(
        "--age", type=int, default=40, metavar="YEARS", help="for the plausible range (default: an adult)"
    )
    parser.add_argument("--json", action="store_true", help="one JSON document")


def run(args: argparse.Namespace) -> int:
    from bot.settings import load_settings
    from scheduler.amounts import parse_amount, parse_strength
    from scheduler.errors import BadAmount
    from scheduler.recipe import parse_rule

    protocol = load_settings().clinic_protocol()
    wrong = _wrong_use(args)
    if wrong:
        return _bad(wrong)
    try:
        amount = parse_amount(args.dose)
        strength = parse_strength(args.ampoule or args.inhaler)
    except BadAmount as error:
        return _bad(str(error))
    try:
        rule = parse_rule(args.sweetener) if args.sweetener is not None else None
    except BadAmount as error:
        return _bad(f"--sweetener: {error}")
    if rule and rule.grams > MOST_GRAMS:
        return _bad(f"--sweetener '{args.sweetener[:40]}': published rules give 5 to 10 g; more than {MOST_GRAMS} g is "
                    "taken for a slip")
    made = _make(args, amount, strength, rule, protocol)
    notes = [{"text": text, "source": source} for text, source in _cautions(args, made, strength, rule, protocol)]
    if args.json:
        print(json.dumps(as_json(made) | {"cautions": notes}, ensure_ascii=False))
    else:
        _show(made, notes, protocol)
    return 0


def as_json(made: Preparation) -> dict[str, Any]:
    """The agreed shape: what does not apply is null; an inhaler has puffs only."""
    from scheduler.recipe import number

    if made.puffs is not None:
        return {"puffs": made.puffs}

    def rounded(value: Decimal | None, places: str) -> int | float | None:
        return None if value is None else number(value.quantize(Decimal(places)))

    return {
        "ampoules": made.ampoules,
        "medicine_ml": number(made.medicine_ml),
        "sweetener_g": number(made.sweetener_g),
        "packets": made.packets,
        "vehicle_ml": number(made.vehicle_ml),
        "total_ml": rounded(made.total_ml, "0.01"),
        "dose_ml": rounded(made.dose_ml, "0.01"),
        "mg_per_ml": rounded(made.mg_per_ml, "0.0001"),
    }


def _wrong_use(args: argparse.Namespace) -> str:
    given = "ampoule" if args.ampoule else "inhaler"
    needed = "ampoule" if args.medicine == "budesonide" else "inhaler"
    if bool(args.ampoule) == bool(args.inhaler) or given != needed:
        return f"{args.medicine} needs --{needed}, and only that"
    if needed == "inhaler" and (args.vehicle or args.sweetener or args.doses != 1 or args.ahead):
        return "an inhaler takes no --vehicle, --sweetener, --doses or --ahead: its puffs are swallowed as they are"
    if args.sweetener and args.vehicle not in (None, "sweetener"):
        return "--sweetener goes with --vehicle sweetener only"
    if not 1 <= args.doses <= 60 or args.ahead < 0 or not 0 <= args.age <= 120:
        return "--doses is 1 to 60, --ahead not negative, --age 0 to 120"
    return ""


def _make(args: argparse.Namespace, amount: Any, strength: Any, rule: Any, protocol: ClinicProtocol) -> Preparation:
    from scheduler.errors import Refused
    from scheduler.medicine import age_group, check_bounds, check_strength
    from scheduler.recipe import check_ahead, inhale, mix

    check_strength(strength, args.medicine, protocol)
    check_bounds(amount, args.medicine, age_group(args.age, protocol), "dose", protocol)
    if args.vehicle == "honey" and args.age < 1:
        raise Refused("honey is never given under 12 months of age (infant botulism); use another vehicle")
    check_ahead(args.ahead, protocol)
    if args.inhaler:
        return inhale(args.medicine, amount.like(strength.amount), strength.amount)
    return mix(
        args.medicine, amount.like(strength.amount), strength, args.vehicle or "sweetener", protocol, args.doses, rule
    )


def _cautions(
    args: argparse.Namespace, made: Preparation, strength: Any, rule: Any, protocol: ClinicProtocol
) -> list[tuple[str, str]]:
    from scheduler.recipe import parse_rule

    if made.puffs is not None:
        return [
            (
                "44, 110, 220 microgram leave the mouthpiece of what is 50, 125, 250 at the valve: check "
                "the label in hand.",
                "US label description",
            ),
            (
                f"Prime a new inhaler with {protocol.text('inhaler.prime_first')} sprays into the air, and with "
                f"{protocol.text('inhaler.prime_again')} after {protocol.text('inhaler.prime_after')} days "
                "without use.",
                protocol["inhaler.prime_first"].source,
            ),
        ]
    found = [
        (
            "The medicine settles: stir until even, take at once, discard the rest."
            if made.doses == 1
            else "The medicine settles: stir until even before each dose is measured.",
            "budesonide is practically insoluble in water (US archived generic label)",
        )
    ]
    if made.vehicle == "sweetener":
        rules = [
            rule or parse_rule(protocol.text("sweetener.rule")),
            parse_rule(protocol.text("sweetener.rule")),
            parse_rule(protocol.text("sweetener.other_rule")),
        ]
        inside = strength.amount * (made.ampoules or 0)
        grams = {str(one): one.grams_for(inside, made.ampoules or 0) for one in rules}
        if len(set(grams.values())) > 1:
            listed = "; ".join(f"{name}: {value.normalize():f} g" for name, value in grams.items())
            found.append(
                (
                    f"Published rules differ here ({listed}); in force: {rules[0]}. The clinic settles which.",
                    f"{protocol['sweetener.rule'].source}; {protocol['sweetener.other_rule'].source}",
                )
            )
        if made.packets_g != made.sweetener_g:
            found.append(
                (
                    f"The rule gives {_plain(made.sweetener_g)} g; {made.packets} whole packets are "
                    f"{_plain(made.packets_g)} g. Weigh it, or use whole packets.",
                    "clinic protocol, sweetener.packet",
                )
            )
    if made.vehicle == "honey":
        found.append(("Honey is never given under 12 months of age.", "Quebec public-health institute"))
    if made.doses > 1 or args.ahead:
        found.append(
            (
                "No stability data for a slurry mixed at home were found. Mix again before every dose.",
                protocol["mix.ahead_limit"].source,
            )
        )
    if made.part:
        found.append(
            (
                f"Measured part: {_plain(made.dose_ml)} mL is {_plain(made.error_percent)} % off the exact volume.",
                "arithmetic; step and limit are the clinic protocol's",
            )
        )
    if made.leftover is not None:
        found.append((f"{made.leftover} stay in the cup and are thrown away.", "arithmetic"))
    return found


def _show(made: Preparation, notes: list[dict[str, str]], protocol: ClinicProtocol) -> None:
    from bot.previewparts import mixing_card, page
    from scheduler.recipe import COLD_LIMIT_DAYS

    limit = min(int(protocol.number("mix.ahead_limit")), COLD_LIMIT_DAYS)
    keep = f"{limit} days after, kept cold" if limit else "the last of these doses; nothing is kept for another day"
    label = (
        f"Label: {made.medicine}, {made.doses} x {made.amount}, {_plain(made.dose_ml)} mL each. Made on ____________. "
        f"Discard after {keep}. Mix again before every dose."
    )
    warnings = [f"! {note['text']}\n  [dim]({note['source']})[/dim]" for note in notes]
    page([mixing_card(made), *([label] if made.doses > 1 else []), *warnings], protocol)


def _plain(value: Decimal | None) -> str:
    """A number without trailing zeros."""
    from scheduler.amounts import plain

    return "" if value is None else plain(value)


def _bad(message: str) -> int:
    print(f"coatwell recipe: {message}", file=sys.stderr)
    return 2

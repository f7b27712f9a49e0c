"""`coatwell rules`: the escalation rules and every value of the clinic protocol, for a clinician to review."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from bot.escalation.rules import Rule
    from scheduler.protocol import ClinicProtocol

EPILOG = """examples:
  coatwell rules
  coatwell rules --only rules          the rules alone; or: --only values
  coatwell rules --protocol clinic.toml --json

Signs are read from words or taps; 'and one of' is a second sign; conditions are looked up in the patient's record.
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = EPILOG
    parser.add_argument("--protocol", type=Path, metavar="FILE", help="a clinic protocol (default: COATWELL_PROTOCOL)")
    parser.add_argument("--only", choices=("rules", "values"), help="one of the two tables")
    parser.add_argument("--json", action="store_true", help="one JSON document")


def run(args: argparse.Namespace) -> int:
    from bot.given import readable
    from bot.settings import load_settings
    from scheduler.protocol import load_protocol

    protocol = (load_protocol(readable(args.protocol, "a clinic protocol")) if args.protocol else
                load_settings().clinic_protocol())
    if args.json:
        print(json.dumps(document(protocol, args.only), indent=2, ensure_ascii=False))
    else:
        _print(protocol, args.only)
    return 0


def document(protocol: ClinicProtocol, only: str | None = None) -> dict[str, Any]:
    """The review as JSON values."""
    found: dict[str, Any] = {"protocol": protocol.name, "signed_by": protocol.signed_by, "banner": protocol.banner}
    if only != "values":
        from bot.escalation.rules import RULES

        found["rules"] = [rule_row(rule, protocol) for rule in RULES]
    if only != "rules":
        found["values"] = [{"key": value.key, "value": value.value, "unit": value.unit, "source": value.source,
                            "note": value.note} for value in protocol]
    return found


def rule_row(rule: Rule, protocol: ClinicProtocol) -> dict[str, Any]:
    """One rule: what speaks, what is told to whom, by when, on what ground."""
    from bot.escalation.conditions import CONDITIONS
    from bot.texts.catalogue import say, template

    within = protocol[rule.act_within]
    numbers = {name: protocol.text(f"care.{key}") for name, key in (
        ("number", "emergency_number"), ("urgent_number", "urgent_number"), ("poison_number", "poison_number"),
        ("crisis_number", "crisis_number"))}
    told = say("en", f"escalation.tell.{rule.tell}", numbers) if rule.tell else ""
    return {"id": rule.id, "urgency": str(rule.urgency), "title": template("en", f"care.rule.{rule.id}.title"),
            "signs": list(rule.any_of), "and_one_of": list(rule.also),
            "conditions": [(CONDITIONS[name].__doc__ or name.replace("_", " ")).strip() for name in rule.when],
            "replaces": list(rule.replaces), "patient_is_told": told, "answer": rule.answer,
            "care_team_weighs": template("en", f"care.rule.{rule.id}.weigh"),
            "act_within": f"{within.value} {within.unit}", "source": rule.source}


def _print(protocol: ClinicProtocol, only: str | None) -> None:
    from rich.console import Console
    from rich.table import Table

    from bot.escalation.rules import RULES

    console = Console()
    console.print(f"{protocol.name}: {protocol.banner or f'signed by {protocol.signed_by}'}", style="bold",
                  markup=False, highlight=False)
    if only != "values":
        table = Table(title="Escalation rules", show_lines=True, title_justify="left", expand=True)
        for name, ratio in (("rule", 3), ("speaks when", 4), ("the patient is told", 6), ("the care team weighs", 5),
                            ("act within", 2), ("source", 4)):
            table.add_column(name, ratio=ratio, overflow="fold")
        for rule in RULES:
            row = rule_row(rule, protocol)
            table.add_row(*map(_plain, (f"{row['urgency'].upper()}\n{rule.id}\n{row['title']}", _speaks(row),
                                        row["patient_is_told"] or "nothing", row["care_team_weighs"],
                                        row["act_within"], rule.source)))
        console.print(table)
    if only != "rules":
        table = Table(title="Values of the clinic protocol", title_justify="left", expand=True)
        for name, ratio in (("key", 4), ("value", 4), ("unit", 1), ("source", 5)):
            table.add_column(name, ratio=ratio, overflow="fold")
        for value in protocol:
            table.add_row(*map(_plain, (value.key, _shown(value.value), value.unit, value.source)))
        console.print(table)


def _speaks(row: dict[str, Any]) -> str:
    lines = [_any(row["signs"])]
    if row["and_one_of"]:
        lines.append(f"and one of: {_any(row['and_one_of'])}")
    lines += [f"and: {condition}" for condition in row["conditions"]]
    if row["replaces"]:
        lines.append(f"(instead of {', '.join(row['replaces'])})")
    return "\n".join(lines)


def _any(signs: Iterable[str]) -> str:
    return " or ".join(sign.removeprefix("event:").replace("_", " ") for sign in signs)


def _shown(value: Any) -> str:
    return ", ".join(map(str, value)) if isinstance(value, list | tuple) else str(value)


def _plain(text: str) -> Any:
    """Text for rich that is not read as markup."""
    from rich.text import Text

    return Text(text)

"""`coatwell plan check|timeline|supply`: a plan as a clinician would compute it, before it is signed."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from scheduler.occasions import Occasion
    from scheduler.plan import Plan
    from scheduler.protocol import ClinicProtocol
    from scheduler.record import Record
    from scheduler.supply import Supplies, Use

EPILOG = """examples:
  coatwell plan check fixtures/plans/ok/kt-014.toml
  coatwell plan check fixtures/plans/ok/kt-014.toml --picture calendar.png
  coatwell plan timeline fixtures/plans/ok/kt-014.toml --from 2026-03-02 --days 7
  coatwell plan supply fixtures/plans/ok/kt-014.toml --json

Exit status: 0 done; 1 the plan has problems; 2 bad use (no such file, no such date).
"""
AS_IF = (
    "dose",
    "rinse",
    "window_end",
    "step_change",
    "check_in",
    "supply_low",
    "endoscopy_due",
    "season_start",
    "season_end",
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = EPILOG
    parts = parser.add_subparsers(dest="part", metavar="check|timeline|supply", required=True)
    check = _part(
        parts,
        "check",
        "problems, cautions, totals, the first week",
        "coatwell plan check fixtures/plans/ok/kt-014.toml",
    )
    check.add_argument("--json", action="store_true", help="one JSON document")
    check.add_argument("--picture", type=Path, metavar="OUT", help="also write a one-page calendar (.png or .pdf)")
    timeline = _part(
        parts,
        "timeline",
        "occasions, as if each dose were confirmed when due",
        "coatwell plan timeline fixtures/plans/ok/kt-014.toml --from 2026-03-02 --days 7 --json lines",
    )
    timeline.add_argument(
        "--from", dest="start", required=True, metavar="DATE", help="first local day, such as 2026-03-02"
    )
    timeline.add_argument("--days", type=int, required=True, metavar="N")
    timeline.add_argument(
        "--release",
        action="append",
        default=[],
        metavar="GATE=DATE",
        help="as if the care team had released this gate to start on DATE (repeatable)",
    )
    timeline.add_argument("--json", choices=("lines",), help="one JSON document a line")
    supply = _part(
        parts,
        "supply",
        "ampoules or puffs, packs, vehicle, first day without medicine",
        "coatwell plan supply fixtures/plans/ok/kt-014.toml --json",
    )
    supply.add_argument("--json", action="store_true", help="one JSON document")


def _part(parts: Any, name: str, line: str, example: str) -> argparse.ArgumentParser:
    found: argparse.ArgumentParser = parts.add_parser(
        name,
        help=line,
        description=line,
        epilog=f"example:\n  {example}\n",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    found.add_argument("file", type=Path, help="the plan file (TOML)")
    return found


def run(args: argparse.Namespace) -> int:
    from bot.given import readable
    from bot.settings import load_settings

    readable(args.file, "a plan file")
    protocol = load_settings().clinic_protocol()
    if args.part == "check":
        return _check(args, protocol)
    from scheduler.planfile import load_plan

    plan = load_plan(args.file, protocol)
    return _timeline(args, plan, protocol) if args.part == "timeline" else _supply(args, plan, protocol)


# --- check


def _check(args: argparse.Namespace, protocol: ClinicProtocol) -> int:
    from scheduler.clock import WallClock
    from scheduler.errors import WrongInput
    from scheduler.planfile import load_plan

    if args.picture and args.picture.suffix.lower() not in (".png", ".pdf"):
        return _bad(f"{args.picture}: a picture is a .png or a .pdf")
    try:
        plan = load_plan(args.file, protocol)
    except WrongInput as error:
        return _refused(args, error)
    if args.picture:
        from bot.calendarpicture import write_calendar

        write_calendar(plan, protocol, args.picture)
    if args.json:
        print(json.dumps(check_document(plan, protocol, WallClock().now()), ensure_ascii=False))
    else:
        from bot.preview import plan_page
        from bot.previewparts import page

        page(plan_page(plan, protocol, WallClock().now()), protocol)
    return 0


def check_document(plan: Plan, protocol: ClinicProtocol, now: datetime) -> dict[str, Any]:
    """The agreed shape for a plan without problems."""
    from bot.preview import all_cautions
    from scheduler.record import Record
    from scheduler.supply import usage

    supplies = usage(plan, Record(), protocol, _start(plan))
    return {
        "ok": True,
        "problems": [],
        "cautions": [{"text": one.text, "source": one.source} for one in all_cautions(plan, protocol, now)],
        "totals": supply_document(plan, supplies),
    }


def _refused(args: argparse.Namespace, error: Any) -> int:
    if args.json:
        problems = [{"field": one.field, "message": one.message} for one in error.problems]
        print(json.dumps({"ok": False, "problems": problems, "cautions": [], "totals": {}}, ensure_ascii=False))
    else:
        print(f"{error.where}: not ready to be signed")
        for one in error.problems:
            print(f"  {one.field or 'the file'}: {one.message}")
    return 1


# --- timeline


def _timeline(args: argparse.Namespace, plan: Plan, protocol: ClinicProtocol) -> int:
    from scheduler.errors import WrongInput

    try:
        start = _date("--from", args.start)
        record = _released(args.release, plan)
    except (ValueError, WrongInput) as error:
        return _bad(str(error))
    if not 1 <= args.days <= 3660:
        return _bad("--days is 1 to 3660")
    rows = timeline_rows(plan, record, protocol, start, args.days)
    if args.json:
        for row in rows:
            print(json.dumps(row, ensure_ascii=False))
    else:
        _show_rows(list(rows), plan, protocol)
    return 0


def _released(given: list[str], plan: Plan) -> Record:
    """A record in which these gates are released, as if on the day before."""
    from datetime import time

    from scheduler.localtime import instant
    from scheduler.record import Entry, EntryKind, Record

    record = Record()
    gates = {phase.gate: phase.name for phase in plan.phases if phase.gate}
    for one in given:
        gate, _, day = one.rpartition("=")
        if gate not in gates:
            raise ValueError(f"'{gate}' is no gate of this plan ({', '.join(gates) or 'it has none'})")
        told = instant(_date("--release", day) - timedelta(days=1), time(12), plan.patient.time_zone)
        record += (Entry(EntryKind.GATE_RELEASED, told, gate, {"phase": gates[gate], "from": day}),)
    return record


def _date(option: str, text: str) -> date:
    """A date of these times. Raises ValueError that says how dates are written."""
    from bot.given import EARLIEST, LATEST

    try:
        found = date.fromisoformat(text)
    except ValueError:
        raise ValueError(f"{option} {text[:20]!r} is no date; dates are written like 2026-03-02") from None
    if not EARLIEST <= found.year <= LATEST:
        raise ValueError(f"{option} {text}: give a date between {EARLIEST} and {LATEST}")
    return found


def timeline_rows(
    plan: Plan, record: Record, protocol: ClinicProtocol, start: date, days: int
) -> Iterator[dict[str, Any]]:
    """`{"at","kind","phase","amount","units"}` for `days` local days from `start`, ordered by instant.

    Times carry the patient's offset. A step change shows the first dose of its day. Reminders that repeat until
    somebody has done something are left out, since here everything is done when due.
    """
    from datetime import time

    from scheduler.localtime import instant, offset_text
    from scheduler.timeline import occasions

    zone = plan.patient.time_zone
    begin, end = instant(start, time(0), zone), instant(start + timedelta(days=days), time(0), zone)
    rows: list[tuple[datetime, int, dict[str, Any]]] = []
    for one in occasions(plan, record, protocol, begin - timedelta(days=1), end):  # a window may reach past midnight
        for at, kind, amount, units in _as_if(one, protocol):
            if begin <= at < end:
                rows.append(
                    (
                        at,
                        AS_IF.index(kind),
                        {
                            "at": offset_text(at, zone),
                            "kind": kind,
                            "phase": one.phase,
                            "amount": amount,
                            "units": units,
                        },
                    )
                )
    rows.sort(key=lambda row: row[:2])
    return (row[2] for row in rows)


def _as_if(one: Occasion, protocol: ClinicProtocol) -> Iterator[tuple[datetime, str, str | None, int | None]]:
    """An occasion, and what hangs on a dose that is confirmed when due."""
    if one.dose is not None:
        ends = one.at + protocol.span("window.no_food")
        yield one.at, "dose", str(one.dose.amount), one.dose.units
        yield (one.at if protocol.text("rinse.order") == "at once" else ends), "rinse", None, None
        yield ends, "window_end", None, None
    elif one.kind.value == "step_change":
        first = one.facts["doses"][0]
        yield one.at, "step_change", first["amount"], first["units"]
    elif one.kind.value in AS_IF and not one.facts.get("days_late"):
        yield one.at, one.kind.value, None, None


def _show_rows(rows: list[dict[str, Any]], plan: Plan, protocol: ClinicProtocol) -> None:
    from bot.previewparts import counted, page, table

    found = table(
        f"{plan.patient.reference}: as if each dose were confirmed when due",
        "When",
        "What",
        "Phase",
        "Amount",
        "Made of",
    )
    for row in rows:
        units = "" if row["units"] is None else counted(row["units"], plan.medicine.unit_name)
        at = datetime.fromisoformat(row["at"])
        found.add_row(
            f"{at:%a %Y-%m-%d %H:%M %z}", row["kind"].replace("_", " "), row["phase"], row["amount"] or "", units
        )
    page([found], protocol)


# --- supply


def _supply(args: argparse.Namespace, plan: Plan, protocol: ClinicProtocol) -> int:
    from scheduler.record import Record
    from scheduler.supply import usage

    supplies = usage(plan, Record(), protocol, _start(plan))
    if args.json:
        print(json.dumps(supply_document(plan, supplies), ensure_ascii=False))
    else:
        from bot.previewparts import page, totals

        page([totals(plan, supplies, protocol)], protocol)
    return 0


def supply_document(plan: Plan, supplies: Supplies) -> dict[str, Any]:
    """Use by phase and in all; null where it does not apply. `latest`: gates wait as long as the protocol expects."""
    out = supplies.run_out
    return {
        "unit": plan.medicine.unit_name,
        **_use(supplies.total, plan),
        "phases": [_use(use, plan) for use in supplies.phases],
        "each_further_28_days": _use(supplies.onward, plan) if supplies.onward else None,
        "latest": _use(supplies.latest, plan) if supplies.latest else None,
        "on_hand": out.on_hand,
        "first_day_without": out.first_day_without.isoformat() if out.first_day_without else None,
        "remind_on": [day.isoformat() for day in out.remind_on],
    }


def _use(use: Use, plan: Plan) -> dict[str, Any]:
    from scheduler.recipe import number

    mixed = plan.medicine.form == "ampoule"
    sweet = plan.medicine.vehicle == "sweetener"
    return {
        "phase": use.name,
        "days": use.days,
        "doses": use.doses,
        f"{plan.medicine.unit_name}s": use.units,
        "packs": use.packs,
        "priming_sprays": None if mixed else use.sprays,
        "vehicle": plan.medicine.vehicle,
        "packets": use.packets if sweet else None,
        "vehicle_ml": number(use.vehicle_ml) if mixed and not sweet else None,
    }


def _start(plan: Plan) -> date:
    return plan.phases[0].starts or datetime(2000, 1, 1, tzinfo=UTC).date()


def _bad(message: str) -> int:
    print(f"coatwell plan: {message}", file=sys.stderr)
    return 2

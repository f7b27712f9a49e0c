"""`coatwell panel`: one row a patient, those who need somebody first."""

from __future__ import annotations

import argparse
import asyncio
import json
import sys
from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from bot.case import Case, Flag, PatientRow
    from bot.ports import Store
    from scheduler.protocol import ClinicProtocol

EPILOG = """examples:
  coatwell panel
  coatwell panel --json

'doses' is the share of days with every due dose confirmed; 0.75 to 0.8 counts as adherent (2020 cohort, US quality
alliance).
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = EPILOG
    parser.add_argument("--json", action="store_true", help="one JSON document")


def run(args: argparse.Namespace) -> int:
    return asyncio.run(_panel(args.json))


async def _panel(as_json: bool) -> int:
    from bot.settings import load_settings
    from bot.storage.opening import open_store
    from scheduler.clock import WallClock

    settings = load_settings()
    protocol = settings.clinic_protocol()
    now = WallClock().now()
    store = await open_store(settings.database, protocol)
    try:
        async with store.work() as work:
            patients = await work.patients()
        rows = [row for patient in patients if (row := await _row(store, patient, now, protocol)) is not None]
    finally:
        await store.close()
    rows.sort(key=lambda row: (-row["most_urgent"], -row["open_flags"], row["reference"]))
    if as_json:
        print(json.dumps({"at": now.isoformat(), "patients": [
            {key: value for key, value in row.items() if key != "most_urgent"} for row in rows]}, indent=2))
    else:
        _print(rows, protocol)
    return 0


async def _row(store: Store, patient: PatientRow, now: datetime, protocol: ClinicProtocol) -> dict[str, Any] | None:
    """One short transaction a patient: reading the panel holds nobody up. A plan that cannot be read stops no other."""
    from scheduler.errors import SchedulerError

    try:
        async with store.work() as work:
            case = await work.case(patient.reference)
        return panel_row(case, now, protocol) if case is not None else None
    except (SchedulerError, ArithmeticError, LookupError, TypeError, ValueError) as error:
        print(f"coatwell panel: {patient.reference}: {error}; sign a new version of this plan", file=sys.stderr)
    async with store.work() as work:
        flags = [flag for flag in await work.open_flags() if flag.reference == patient.reference]
    return _unread_row(patient, flags)


def _unread_row(patient: PatientRow, flags: Sequence[Flag]) -> dict[str, Any]:
    """A patient whose stored plan cannot be read: what is known without it, first on the panel."""
    return {"reference": patient.reference, "state": str(patient.state), "phase": "", "week": None, "dose": "",
            "scores": [], "score_trend": "none", "days_covered": None, "open_flags": len(flags),
            "most_urgent_flag": str(max(flag.urgency for flag in flags)) if flags else "none", "most_urgent": 99,
            "next_endoscopy": None, "first_day_without_medicine": None}


def panel_row(case: Case, now: datetime, protocol: ClinicProtocol) -> dict[str, Any]:
    """Phase, week, score trend, days covered, open flags, next endoscopy, day without medicine; JSON values."""
    from bot.care.figures import adherence, next_endoscopy, scores_by_day
    from bot.case import PatientState
    from bot.escalation.standing import standing
    from scheduler.localtime import local
    from scheduler.supply import runs_out

    where = standing(case, now)
    scores = [total for _, total in scores_by_day(case)]
    covered = adherence(case, now).covered
    today = local(now, case.plan.patient.time_zone).date()
    out = runs_out(case.plan, case.record, protocol, today, case.row.plan_version).first_day_without
    scope = next_endoscopy(case)
    joined = case.row.state not in (PatientState.INVITED, PatientState.ASKED)   # the calendar runs all the same
    urgent = max((flag.urgency for flag in case.open_flags), default=0)
    return {"reference": case.reference, "state": str(case.row.state), "phase": where.phase,
            "week": where.week if joined else None, "dose": where.dose,
            "scores": scores[-4:], "score_trend": trend(scores),
            "days_covered": None if covered is None else round(covered, 2), "open_flags": len(case.open_flags),
            "most_urgent_flag": str(urgent) if urgent else "none", "most_urgent": int(urgent),
            "next_endoscopy": scope.isoformat() if scope else None,
            "first_day_without_medicine": out.isoformat() if out else None}


def trend(scores: list[int]) -> str:
    """The last score against the mean of up to three before it: 'up', 'down', 'level' or 'none'. Higher is worse."""
    if len(scores) < 2:
        return "none"
    before = scores[-4:-1]
    change = scores[-1] - sum(before) / len(before)
    return "up" if change >= 1 else "down" if change <= -1 else "level"


def _print(rows: list[dict[str, Any]], protocol: ClinicProtocol) -> None:
    from rich.box import SIMPLE_HEAD
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    console = Console()
    if protocol.banner:
        console.print(protocol.banner, style="bold")
    if not rows:
        console.print("No patients yet: coatwell enrol FILE adds one.")
        return
    table = Table(expand=True, box=SIMPLE_HEAD, padding=(0, 1, 0, 0), pad_edge=False, show_lines=len(rows) > 1)
    for name in ("patient", "phase", "week", "dose", "score", "doses", "flags", "endoscopy", "runs out"):
        dated = name in ("endoscopy", "runs out")     # a date never breaks; other words may, between words
        table.add_column(name, overflow="fold", no_wrap=dated, min_width=len("2026-03-17") if dated else None)
    for row in rows:
        scores = " ".join(map(str, row["scores"]))
        covered = "-" if row["days_covered"] is None else f"{row['days_covered']:.0%}"
        flags = f"{row['open_flags']} {row['most_urgent_flag']}" if row["open_flags"] else "-"
        cells = (f"{row['reference']} {row['state']}", row["phase"] or "-", str(row["week"] or "-"),
                 row["dose"] or "-", f"{scores} {row['score_trend']}" if scores else "-", covered, flags,
                 row["next_endoscopy"] or "-", row["first_day_without_medicine"] or "-")
        table.add_row(*(Text(cell) for cell in cells))
    console.print(table)

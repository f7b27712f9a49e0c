"""`coatwell export REFERENCE --as fhir|csv|ics --to FILE`: everything held on one patient, for others to read."""

from __future__ import annotations

import argparse
import asyncio
import contextlib
import json
import os
import sys
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bot.export.held import Held
    from scheduler.messages import Message
    from scheduler.protocol import ClinicProtocol

EPILOG = """examples:
  coatwell export KT-014 --as fhir --to kt-014.json
  coatwell export KT-014 --as csv --to kt-014.zip
  coatwell export KT-014 --as ics --to kt-014.ics --days 56

fhir  a FHIR R4B Bundle (collection): patient, plans as care plans with medication requests, doses, check-ins, results,
      what was written, flags; timers and the network's raw updates are in csv only
csv   a .zip with one CSV a table, the plans as they were signed, and a README that explains the columns
ics   a calendar of coming doses, check-ins and steps in the patient's time, for --days days; not a reminder to rely on

FILE is written whole or not at all, readable by its owner only, and never replaced without --force. It holds what the
patient wrote: keep it as a medical record is kept.
Exit status: 0 done; 1 unknown reference; 2 bad use; 3 the database or FILE cannot be used.
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = EPILOG
    parser.add_argument("reference", help="the patient's reference, as in their plan")
    parser.add_argument("--as", dest="form", required=True, choices=("fhir", "csv", "ics"))
    parser.add_argument("--to", dest="file", required=True, type=Path, metavar="FILE")
    parser.add_argument("--days", type=int, default=56, metavar="N", help="ics: so many days ahead (default 56)")
    parser.add_argument("--force", action="store_true", help="replace FILE if it is there")


def run(args: argparse.Namespace) -> int:
    """Exit status 0 done, 1 unknown reference, 2 bad use, 3 trouble with the database or the file."""
    from bot.given import new_file

    if not 1 <= args.days <= 3660:
        return _bad("--days is 1 to 3660")
    if args.form == "csv" and args.file.suffix.lower() != ".zip":
        return _bad(f"--to {args.file}: csv is one file a table in a .zip; name a file that ends in .zip")
    new_file(args.file, "--to", replace=args.force, instead=", or replace it with --force")
    return asyncio.run(_export(args))


async def _export(args: argparse.Namespace) -> int:
    from bot.export.held import held
    from bot.settings import load_settings
    from bot.storage.opening import open_existing
    from scheduler.clock import WallClock
    from scheduler.errors import SchedulerError

    settings = load_settings()
    protocol = settings.clinic_protocol()
    store = await open_existing(settings.database, protocol)
    try:
        async with store.work() as work:
            found = await held(work, args.reference)
    except SchedulerError as error:
        print(f"coatwell export: {args.reference}: {error}; sign a new version of this plan, then export",
              file=sys.stderr)
        return 1
    finally:
        await store.close()
    if found is None:
        print(f"coatwell export: {args.reference}: no patient of this reference is stored; 'coatwell panel' lists all",
              file=sys.stderr)
        return 1
    write_whole(args.file, content(found, args.form, args.days, WallClock().now(), protocol), replace=args.force)
    print(f"{args.reference} written to {args.file}")
    return 0


def content(found: Held, form: str, days: int, now: datetime, protocol: ClinicProtocol) -> bytes:
    """The file's bytes in one of the forms 'fhir', 'csv', 'ics'."""
    if form == "ics":
        from bot.export.ics import calendar

        return calendar(found.case, now, days, protocol)

    def text_of(message: Message) -> str:
        return shown(message, protocol)

    if form == "csv":
        from bot.export.csv import archive

        return archive(found, text_of, now)
    from bot.export.fhir import bundle

    return bundle(found, text_of, now).encode("utf-8")


def shown(message: Message, protocol: ClinicProtocol) -> str:
    """A message's text as it is shown; its kind and facts when this version has no text for it any more, or it is a
    timer or a chart."""
    from bot.care import render as care_render
    from bot.texts import render as patient_render
    from scheduler.messages import To

    if message.to is To.AGENT:
        return ""
    if message.kind != "chart":
        with contextlib.suppress(Exception):
            if message.to is To.PATIENT or message.kind == "stranger":
                return patient_render.render(message).text
            return care_render.render(message, protocol).text
    return f"[{message.kind}] {json.dumps(dict(message.facts), ensure_ascii=False)}"


def write_whole(file: Path, data: bytes, *, replace: bool) -> None:
    """The file appears whole or not at all. Raises TroubleOutside."""
    from bot.errors import TroubleOutside

    part = file.with_name(f".{file.name}.{os.getpid()}.part")
    try:
        with os.fdopen(os.open(part, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600), "wb") as into:
            into.write(data)
            into.flush()
            os.fsync(into.fileno())
        if not replace and file.exists():
            raise FileExistsError(17, "is there already", str(file))
        part.replace(file)
    except OSError as error:
        raise TroubleOutside(f"export: {file}: {error.strerror}; choose a folder that can be written") from error
    finally:
        part.unlink(missing_ok=True)


def _bad(message: str) -> int:
    print(f"coatwell export: {message}", file=sys.stderr)
    return 2

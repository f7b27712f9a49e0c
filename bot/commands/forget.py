"""`coatwell forget REFERENCE`: erase what identifies a patient, and their words; counts stay."""

from __future__ import annotations

import argparse
import asyncio
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import datetime

    from bot.case import Act
    from bot.ports import Store, Work

EPILOG = """examples:
  coatwell export KT-014 --as csv --to kt-014.zip     (first, when the law asks for the record to be kept)
  coatwell forget KT-014
  coatwell forget KT-014 --yes
  coatwell forget --finish                            (when an earlier run could not clean the database's files)

Erased: the plans, the record, what they wrote and were told, flags, findings, invites, the chat's address, and what the
care team typed about them. Kept, under a random reference: how many doses were taken, not taken or unknown, flags by
rule and urgency, scores by week. Nothing is sent to the patient; their chat is a stranger's from then on.
Not reached: earlier backups and exports, the chats on people's phones, PostgreSQL's own log and archives.
Whether a record may be erased at all is for the clinic and its law to say.
Exit status: 0 done; 1 unknown reference, or not confirmed; 3 the database cannot be used.
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.epilog = EPILOG
    parser.add_argument("reference", nargs="?", help="the patient's reference, as in their plan")
    parser.add_argument("--yes", action="store_true", help="do not ask for the reference to be typed again")
    parser.add_argument("--finish", action="store_true", help="only clean the database's files of deleted rows")


def run(args: argparse.Namespace) -> int:
    """Exit status 0 done, 1 unknown or not confirmed, 2 without a reference, 3 the database cannot be used."""
    if bool(args.reference) == args.finish:
        print("coatwell forget: name one patient's reference, or --finish alone", file=sys.stderr)
        return 2
    return asyncio.run(_run(args))


async def _run(args: argparse.Namespace) -> int:
    from bot.settings import load_settings
    from bot.storage.opening import open_existing

    settings = load_settings()
    store = await open_existing(settings.database, settings.clinic_protocol())
    try:
        if args.finish:
            await store.scrub()
            print("the database's files hold nothing of deleted rows")
            return 0
        return await _forget(store, args.reference, sure=args.yes)
    finally:
        await store.close()


async def _forget(store: Store, reference: str, *, sure: bool) -> int:
    from bot.errors import TroubleOutside
    from scheduler.clock import WallClock

    async with store.work() as work:
        known = reference in {row.reference for row in await work.patients()}
    if not known:
        return _unknown(reference)
    if not sure and not _confirmed(reference):
        print(f"coatwell forget: {reference} was not typed again; nothing was erased", file=sys.stderr)
        return 1
    now = WallClock().now()
    async with store.work() as work:
        line = await _counted(work, reference, now)
        if not await work.forget(reference, now):
            return _unknown(reference)
        await work.add_act(line)
    try:
        await store.scrub()
    except TroubleOutside as error:
        raise TroubleOutside(f"{reference} is erased, and counts are kept as {line.reference}; but: {error}, with "
                             "'coatwell forget --finish'") from error
    print(f"{reference} is erased; counts are kept as {line.reference}")
    print("not reached: earlier backups and exports, and what stands in the chats on people's phones")
    return 0


async def _counted(work: Work, reference: str, now: datetime) -> Act:
    """The line that stays. A patient whose stored plan cannot be read any more can be forgotten all the same."""
    from bot.export.counts import kept, random_reference, uncounted
    from bot.export.held import held
    from scheduler.errors import SchedulerError

    try:
        found = await held(work, reference)
    except (SchedulerError, ArithmeticError, LookupError, TypeError, ValueError):
        found = None
    return kept(found, random_reference(), now) if found is not None else uncounted(random_reference(), now)


def _unknown(reference: str) -> int:
    print(f"coatwell forget: {reference}: no patient of this reference is stored; 'coatwell panel' lists all",
          file=sys.stderr)
    return 1


def _confirmed(reference: str) -> bool:
    """The reference is typed again; the end of input is no confirmation."""
    print(f"This erases all that is held on {reference}; it cannot be taken back. Type the reference to go on: ",
          end="", file=sys.stderr, flush=True)
    return sys.stdin.readline().strip() == reference

"""`coatwell db upgrade|check|backup FILE`: the database that COATWELL_DATABASE names."""

from __future__ import annotations

import argparse
import asyncio
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from scheduler.protocol import ClinicProtocol

_EXAMPLE = """example:
  coatwell db check
  coatwell db backup /var/backups/coatwell-2026-03-02.db

upgrade  makes the tables, or brings them up to date ('serve' does it by itself)
check    looks at the file, the tables' version and every plan in force; exit status 1 when something is wrong
backup   copies an SQLite database to a new FILE while the agent runs (for PostgreSQL use pg_dump)
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What to do, and for a backup where to."""
    parser.epilog = _EXAMPLE
    actions = parser.add_subparsers(dest="action", metavar="upgrade|check|backup", required=True)

    def action(name: str, line: str, example: str = "") -> argparse.ArgumentParser:
        shown = f"example:\n  coatwell db {name}{example}\n"
        return actions.add_parser(name, help=line, description=line, epilog=shown,
                                  formatter_class=argparse.RawDescriptionHelpFormatter)

    action("upgrade", "make the tables, or bring them up to date")
    action("check", "look for anything wrong")
    backup = action("backup", "a consistent copy while running", " /var/backups/coatwell-2026-03-02.db")
    backup.add_argument("file", metavar="FILE", help="the new file")


def run(args: argparse.Namespace) -> int:
    """Exit status 0 done, 1 something is wrong, 2 bad use, 3 the database cannot be used."""
    from bot.given import new_file
    from bot.settings import load_settings

    if args.action == "backup":
        new_file(Path(args.file), "FILE")
    settings = load_settings()
    if args.action != "upgrade":
        _must_exist(settings.database)
    return asyncio.run(_ACTIONS[args.action](settings.database, settings.clinic_protocol(), args))


async def _upgrade(url: str, protocol: ClinicProtocol, args: argparse.Namespace) -> int:  # noqa: ARG001
    from bot.storage import schema
    from bot.storage.opening import open_database

    store = await open_database(url, protocol)
    await store.close()
    print(f"tables: version {schema.HEAD}")
    return 0


async def _check(url: str, protocol: ClinicProtocol, args: argparse.Namespace) -> int:  # noqa: ARG001
    from bot.storage.opening import open_database

    store = await open_database(url, protocol, upgrade=False)
    try:
        wrong = await store.check()
    finally:
        await store.close()
    for line in wrong:
        print(line)
    if not wrong:
        print("nothing wrong")
    return 1 if wrong else 0


async def _backup(url: str, protocol: ClinicProtocol, args: argparse.Namespace) -> int:
    from bot.storage.opening import open_database

    store = await open_database(url, protocol, upgrade=False)
    try:
        await store.backup(args.file)
    finally:
        await store.close()
    print(f"copied to {args.file}; keep it as safe as the original: it holds what patients wrote")
    return 0


def _must_exist(url: str) -> None:
    """Looking at a database never makes one."""
    from bot.errors import TroubleOutside
    from bot.storage.engine import database_url

    address = database_url(url)
    if address.get_backend_name() == "sqlite" and not Path(str(address.database)).is_file():
        raise TroubleOutside(f"database: there is no file {address.database}; set COATWELL_DATABASE, or make one with "
                             "'coatwell db upgrade'")


_ACTIONS = {"upgrade": _upgrade, "check": _check, "backup": _backup}

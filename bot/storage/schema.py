"""Tables made and brought up to date by the program itself when it opens a database.

alembic takes long to import, so it is only asked when the version stored is not the one this program needs.
"""

from __future__ import annotations

from importlib import resources
from typing import TYPE_CHECKING

import sqlalchemy as sa
from sqlalchemy.ext.asyncio import AsyncEngine

from bot.errors import TroubleOutside

if TYPE_CHECKING:
    from alembic.config import Config

HEAD = "0001"
_ONE_AT_A_TIME = 8_214_905_117      # this program's own number for PostgreSQL's advisory lock around an upgrade


def version_of(connection: sa.Connection) -> str:
    """The version of the tables, "" when there are none."""
    if not sa.inspect(connection).has_table("alembic_version"):
        return ""
    return str(connection.execute(sa.text("SELECT version_num FROM alembic_version")).scalar_one_or_none() or "")


async def bring_up_to_date(engine: AsyncEngine) -> str:
    """Make or upgrade the tables when needed; returns the version found before. Processes that start together queue."""
    async with engine.begin() as connection:
        before = await connection.run_sync(version_of)
        if before == HEAD:
            return before
        if engine.dialect.name == "postgresql":
            await connection.execute(sa.text("SELECT pg_advisory_xact_lock(:number)"), {"number": _ONE_AT_A_TIME})
        await connection.run_sync(_upgrade)
        return before


def _upgrade(connection: sa.Connection) -> None:
    from alembic import command
    from alembic.script import ScriptDirectory

    config = configuration()
    found = version_of(connection)
    known = {script.revision for script in ScriptDirectory.from_config(config).walk_revisions()}
    if found and found not in known:
        raise TroubleOutside(f"database: its tables have version {found}, which this program does not know; "
                             "it was used by a newer one: install that again, or restore a backup")
    config.attributes["connection"] = connection
    command.upgrade(config, "head")


def configuration() -> Config:
    """alembic's configuration for the migrations that this package carries."""
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(resources.files("bot.storage").joinpath("migrations")))
    return config

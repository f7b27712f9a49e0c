"""A PostgreSQL for tests: the one that COATWELL_TEST_POSTGRES names, else a temporary cluster from Debian's binaries.

The temporary cluster listens on a socket in its own folder only, belongs to `postgres` (the server refuses to run as
root), and is gone with the test run. Each test gets a fresh database.
"""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import psycopg

BINARIES = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: int(path.parts[4]))


class NoPostgres(Exception):
    """No server is named and none can be started here; the message says why."""


@dataclass(frozen=True)
class Server:
    """A running server. `url` names its maintenance database; `data` is its folder when it is ours, to restart it."""

    url: str
    data: Path | None = None

    def new_database(self) -> str:
        """A fresh database; returns its address for the program."""
        name = f"coatwell_{uuid.uuid4().hex[:12]}"
        with psycopg.connect(self.url, autocommit=True) as connection:
            connection.execute(f'CREATE DATABASE "{name}"')  # type: ignore[call-overload]
        head, slash, tail = self.url.partition("://")[2].partition("/")
        query = tail.partition("?")[2]
        return f"postgresql+psycopg://{head}{slash}{name}" + (f"?{query}" if query else "")

    def drop(self, url: str) -> None:
        """Remove a database made by `new_database`, whoever is still connected."""
        name = url.partition("://")[2].partition("/")[2].partition("?")[0]
        with psycopg.connect(self.url, autocommit=True) as connection:
            connection.execute(f'DROP DATABASE IF EXISTS "{name}" WITH (FORCE)')  # type: ignore[call-overload]

    def restart(self) -> None:
        """Stop at once, as in a crash, and start again. Only for a server of ours."""
        if self.data is None:
            raise NoPostgres("the server named by COATWELL_TEST_POSTGRES is not ours to restart")
        _control(self.data, "stop", "-m", "immediate")
        _control(self.data, "start")


@contextmanager
def server() -> Iterator[Server]:
    """A server for a whole test run. Raises NoPostgres with the reason."""
    named = os.environ.get("COATWELL_TEST_POSTGRES", "")
    if named:
        yield Server(named.replace("postgresql+psycopg://", "postgresql://"))
        return
    if not BINARIES:
        raise NoPostgres("COATWELL_TEST_POSTGRES names no server and /usr/lib/postgresql holds none "
                         "(apt-get install postgresql)")
    folder = Path(tempfile.mkdtemp(prefix="coatwell-pg-"))
    data = folder / "data"
    try:
        _own(folder)
        _run("initdb", "-D", str(data), "-A", "trust", "-U", "postgres", "--no-sync", "-E", "UTF8")
        with (data / "postgresql.conf").open("a", encoding="utf-8") as settings:
            settings.write(f"listen_addresses = ''\nunix_socket_directories = '{folder}'\nmax_connections = 60\n")
        _control(data, "start")
        try:
            yield Server(f"postgresql://postgres@/postgres?host={folder}", data)
        finally:
            _control(data, "stop", "-m", "immediate")
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _own(folder: Path) -> None:
    if os.geteuid() != 0:
        return
    try:
        user = pwd.getpwnam("postgres")
    except KeyError:
        raise NoPostgres("the server does not run as root and there is no user 'postgres'") from None
    os.chown(folder, user.pw_uid, user.pw_gid)


def _control(data: Path, action: str, *more: str) -> None:
    log = data.parent / "server.log"
    _run("pg_ctl", "-D", str(data), "-l", str(log), "-w", "-s", action, *more)


def _run(program: str, *arguments: str) -> None:
    command = [str(BINARIES[-1].with_name(program)), *arguments]
    if os.geteuid() == 0:
        command = ["runuser", "-u", "postgres", "--", *command]
    done = subprocess.run(command, cwd="/", stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, check=False,
                          timeout=60)
    if done.returncode != 0:
        raise NoPostgres(f"{program} failed: {done.stderr.strip()[-300:]}")

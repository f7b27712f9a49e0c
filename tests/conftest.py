"""Fixtures that tests of several packages share."""

from __future__ import annotations

import contextlib
from collections.abc import AsyncIterator, Iterator
from pathlib import Path

import postgres
import pytest
from botapi import BotApi
from postgres import NoPostgres, Server


@pytest.fixture
async def bot_api(monkeypatch: pytest.MonkeyPatch) -> AsyncIterator[BotApi]:
    """A local Bot API in the test's own loop."""
    monkeypatch.setenv("NO_PROXY", "127.0.0.1")
    async with BotApi() as server:
        yield server


@pytest.fixture
def bot_api_in_thread(monkeypatch: pytest.MonkeyPatch) -> Iterator[BotApi]:
    """A local Bot API in a thread, for tests that block or start other processes."""
    monkeypatch.setenv("NO_PROXY", "127.0.0.1")
    with BotApi.in_thread() as server:
        yield server


@pytest.fixture(scope="session")
def postgres_server() -> Iterator[Server]:
    """A PostgreSQL for the run, or the test is skipped with the reason."""
    with contextlib.ExitStack() as stack:
        try:
            server = stack.enter_context(postgres.server())
        except NoPostgres as reason:
            pytest.skip(f"PostgreSQL: {reason}")
        yield server


@pytest.fixture
def postgres_url(postgres_server: Server) -> Iterator[str]:
    """A fresh database on it."""
    url = postgres_server.new_database()
    yield url
    postgres_server.drop(url)


@pytest.fixture(params=["sqlite", pytest.param("postgresql", marks=pytest.mark.postgresql)])
def database_url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """A fresh database of each kind."""
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'coatwell.db'}"
    return str(request.getfixturevalue("postgres_url"))


@pytest.fixture(params=["memory", "sqlite", pytest.param("postgresql", marks=pytest.mark.postgresql)])
def store_url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The address of a fresh store of each kind."""
    if request.param == "memory":
        return "memory:"
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'coatwell.db'}"
    return str(request.getfixturevalue("postgres_url"))

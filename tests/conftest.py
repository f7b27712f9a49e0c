"""Fixtures that tests of several packages share."""

from __future__ import annotations

from collections.abc import AsyncIterator, Iterator

import pytest
from botapi import BotApi


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

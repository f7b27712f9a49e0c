"""The webhook route: only with the secret, stored before 200, and anything else makes the network post again."""

from __future__ import annotations

import asyncio
import socket
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import UTC, datetime

import httpx
import pytest
from botapi import BotApi
from starlette.applications import Starlette
from uvicorn import Config
from uvicorn.protocols.http.h11_impl import H11Protocol
from uvicorn.server import ServerState

from bot.chat.telegram import TelegramChat
from bot.chat.types import Incoming
from bot.chat.webhook import LARGEST_BODY, SECRET_HEADER, webhook_route

NOW = datetime(2026, 3, 2, 14, 10, tzinfo=UTC)
UPDATE = {"update_id": 4, "message": {"message_id": 1, "chat": {"id": 1001, "type": "private"}, "text": "it hurts"}}


class Inbox:
    def __init__(self, broken: int = 0) -> None:
        self.kept: dict[str, Incoming] = {}
        self.broken = broken

    async def store(self, updates: list[Incoming]) -> None:
        if self.broken > 0:
            self.broken -= 1
            raise OSError("disk full while storing 'it hurts'")
        for incoming in updates:
            self.kept.setdefault(incoming.id, incoming)


def client(inbox: Inbox) -> httpx.AsyncClient:
    app = Starlette(routes=[webhook_route("/hook", "s3cret", inbox.store, lambda: NOW)])
    return httpx.AsyncClient(transport=httpx.ASGITransport(app), base_url="http://here")


async def test_with_the_secret_it_is_stored_then_answered() -> None:
    inbox = Inbox()
    async with client(inbox) as http:
        answer = await http.post("/hook", json=UPDATE, headers={SECRET_HEADER: "s3cret"})
        again = await http.post("/hook", json=UPDATE, headers={SECRET_HEADER: "s3cret"})
    assert (answer.status_code, again.status_code) == (200, 200)
    assert [incoming.text for incoming in inbox.kept.values()] == ["it hurts"]


@pytest.mark.parametrize("headers", [{}, {SECRET_HEADER: ""}, {SECRET_HEADER: "s3cre"}, {SECRET_HEADER: "S3CRET"}])
async def test_without_the_secret_nobody_speaks_for_a_patient(headers: dict[str, str]) -> None:
    inbox = Inbox()
    async with client(inbox) as http:
        assert (await http.post("/hook", json=UPDATE, headers=headers)).status_code == 403
    assert inbox.kept == {}


async def test_what_was_not_stored_is_not_confirmed(caplog: pytest.LogCaptureFixture) -> None:
    inbox = Inbox(broken=1)
    async with client(inbox) as http:
        headers = {SECRET_HEADER: "s3cret"}
        assert (await http.post("/hook", json=UPDATE, headers=headers)).status_code == 503
        assert (await http.post("/hook", json=UPDATE, headers=headers)).status_code == 200
    assert len(inbox.kept) == 1
    assert "it hurts" not in caplog.text


async def test_nonsense_and_floods() -> None:
    inbox = Inbox()
    async with client(inbox) as http:
        headers = {SECRET_HEADER: "s3cret"}
        assert (await http.post("/hook", content=b"<html>", headers=headers)).status_code == 400
        assert (await http.post("/hook", content=b"[" * 100_000, headers=headers)).status_code == 400
        assert (await http.post("/hook", content=b" " * (LARGEST_BODY + 1), headers=headers)).status_code == 413
        assert (await http.get("/hook", headers=headers)).status_code == 405
        assert inbox.kept == {}
        assert (await http.post("/hook", json={"update_id": 5, "wave": 1}, headers=headers)).status_code == 200
    assert [incoming.data for incoming in inbox.kept.values()] == ["wave"]


def test_an_empty_secret_is_refused() -> None:
    with pytest.raises(ValueError, match="COATWELL_WEBHOOK_SECRET"):
        webhook_route("/hook", "", Inbox().store, lambda: NOW)


@asynccontextmanager
async def serving(inbox: Inbox) -> AsyncIterator[str]:
    app = Starlette(routes=[webhook_route("/hook", "s3cret", inbox.store, lambda: NOW)])
    config = Config(app, log_config=None, lifespan="off", ws="none")
    config.load()
    sock = socket.create_server(("127.0.0.1", 0))
    state = ServerState()
    server = await asyncio.get_running_loop().create_server(
        lambda: H11Protocol(config=config, server_state=state, app_state={}), sock=sock
    )
    try:
        yield f"http://127.0.0.1:{sock.getsockname()[1]}/hook"
    finally:
        server.close()
        for connection in list(state.connections):
            connection.transport.abort()
        await asyncio.sleep(0.01)


async def test_over_the_network_with_a_store_that_fails_at_first(bot_api: BotApi) -> None:
    inbox, maya = Inbox(broken=2), bot_api.user(1001)
    async with serving(inbox) as url, TelegramChat(bot_api.token, bot_api.api) as chat:
        await chat.use_webhook(url, "s3cret")
        maya.text("one")
        maya.text("two")
        for _ in range(600):
            if len(inbox.kept) == 2 and not bot_api.world.updates:
                break
            await asyncio.sleep(0.005)
        assert [incoming.text for incoming in inbox.kept.values()] == ["one", "two"]
        assert bot_api.world.updates == []

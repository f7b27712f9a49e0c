"""The page answers this machine, this browser and itself only; here is what a hostile web page would try."""

from __future__ import annotations

from collections.abc import AsyncIterator

import httpx
import pytest
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from bot.web.guard import Guard

TOKEN = "t0ken-of-the-trial"
HERE = "http://127.0.0.1:8123"


@pytest.fixture
async def client() -> AsyncIterator[httpx.AsyncClient]:
    async def answer(request: Request) -> Response:
        return PlainTextResponse(f"{request.method} done")

    app = Guard(Starlette(routes=[Route("/", answer), Route("/act/say", answer, methods=["POST"]),
                                  Route("/events", answer)]), TOKEN, 8123)
    async with httpx.AsyncClient(transport=httpx.ASGITransport(app), base_url=HERE) as found:
        yield found


async def let_in(client: httpx.AsyncClient) -> None:
    answer = await client.get(f"/?token={TOKEN}")
    assert answer.status_code == 303 and answer.headers["location"] == "/"
    assert "HttpOnly" in answer.headers["set-cookie"] and "SameSite=lax" in answer.headers["set-cookie"]


async def test_the_token_opens_once_and_the_cookie_afterwards(client):
    assert (await client.get("/")).status_code == 403
    assert (await client.get("/?token=wrong")).status_code == 403
    await let_in(client)
    assert (await client.get("/")).text == "GET done"


@pytest.mark.parametrize("host", ["evil.example", "evil.example:8123", "127.0.0.1", "127.0.0.1:9", "0.0.0.0:8123",
                                  "localhost.evil.example:8123"])
async def test_another_host_name_is_refused_even_with_the_cookie(client, host):
    await let_in(client)
    assert (await client.get("/", headers={"host": host})).status_code == 421


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "https://127.0.0.1:8123", "http://127.0.0.1:9"])
async def test_another_origin_is_refused_even_with_the_cookie(client, origin):
    await let_in(client)
    assert (await client.post("/act/say", headers={"origin": origin})).status_code == 403
    assert (await client.get("/events", headers={"origin": origin})).status_code == 403


async def test_changing_something_needs_our_own_origin(client):
    await let_in(client)
    assert (await client.post("/act/say")).status_code == 403
    assert (await client.post("/act/say", headers={"origin": HERE})).text == "POST done"


async def test_a_link_elsewhere_may_lead_here_but_fetch_nothing(client):
    await let_in(client)
    assert (await client.get("/", headers={"sec-fetch-site": "cross-site"})).status_code == 200
    assert (await client.get("/events", headers={"sec-fetch-site": "cross-site"})).status_code == 403


async def test_every_answer_forbids_what_is_not_ours(client):
    for answer in (await client.get("/"), await client.get(f"/?token={TOKEN}"), await client.get("/")):
        policy = answer.headers["content-security-policy"]
        assert "default-src 'none'" in policy and "unsafe" not in policy and "http" not in policy
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["cache-control"] == "no-store"


async def test_the_reference_in_the_opened_address_cannot_lead_elsewhere(client):
    answer = await client.get(f"/?token={TOKEN}&p=//evil.example/%0d%0aX:1")
    assert answer.headers["location"] == "/?p=evilexampleX1"

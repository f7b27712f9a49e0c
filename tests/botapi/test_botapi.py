"""The stand-in itself, asked over plain HTTP: it keeps the documented behaviour that the other tests lean on.

Source: the Bot API reference (getUpdates, sendMessage, InlineKeyboardButton, answerCallbackQuery, 'Making requests').
"""

from __future__ import annotations

import asyncio
import subprocess
import sys
from collections.abc import AsyncIterator
from datetime import UTC, datetime
from typing import Any

import httpx
import pytest
from botapi import BotApi, Pace
from botapi_world import World
from freezegun import freeze_time


@pytest.fixture
async def http(bot_api: BotApi) -> AsyncIterator[httpx.AsyncClient]:
    base = f"{bot_api.api}/bot{bot_api.token}/"
    async with httpx.AsyncClient(base_url=base, trust_env=False, timeout=3) as client:
        yield client


async def ask(http: httpx.AsyncClient, method: str, **params: Any) -> tuple[int, Any]:
    answer = await http.post(method, json=params)
    body = answer.json()
    assert body["ok"] is (answer.status_code == 200)
    return answer.status_code, body["result"] if body["ok"] else body["description"]


async def test_methods_are_known_in_any_case_and_parameters_in_any_form(
    bot_api: BotApi, http: httpx.AsyncClient
) -> None:
    bot_api.user(1)
    assert (await ask(http, "GETME"))[1]["is_bot"] is True
    await http.get("sendMessage", params={"chat_id": 1, "text": "query"})
    await http.post("sendmessage", data={"chat_id": 1, "text": "form"})
    await http.post("sendMessage", json={"chat_id": 1, "text": "json"})
    assert bot_api.texts(1) == ["query", "form", "json"]
    assert await ask(http, "sendDance") == (404, "Not Found: method not found")


async def test_a_wrong_token_is_401_for_methods_and_files(bot_api: BotApi) -> None:
    async with httpx.AsyncClient(trust_env=False) as client:
        assert (await client.get(f"{bot_api.api}/bot1:wrong/getMe")).status_code == 401
        assert (await client.get(f"{bot_api.api}/file/bot1:wrong/files/x")).status_code == 401
        assert (await client.get(f"{bot_api.api}/")).status_code == 404


def keyboard(**button: str) -> dict[str, Any]:
    return {"inline_keyboard": [[button]]}


@pytest.mark.parametrize(
    ("params", "words"),
    [
        ({"chat_id": 1, "text": "x" * 4097}, "too long"),
        ({"chat_id": 1, "text": ""}, "empty"),
        ({"chat_id": 2, "text": "x"}, "chat not found"),
        ({"text": "x"}, "chat_id is empty"),
        ({"chat_id": 1, "text": "x", "reply_markup": keyboard(text="A", callback_data="x" * 65)}, "DATA"),
        ({"chat_id": 1, "text": "x", "reply_markup": keyboard(text="A")}, "inline keyboard"),
        ({"chat_id": 1, "text": "x", "reply_parameters": {"message_id": 99}}, "replied not found"),
    ],
    ids=["4097", "empty", "chat", "no chat", "65 bytes", "no data", "reply"],
)  # fmt: skip
async def test_documented_limits(bot_api: BotApi, http: httpx.AsyncClient, params: dict[str, Any], words: str) -> None:
    bot_api.user(1)
    status, description = await ask(http, "sendMessage", **params)
    assert status == 400 and words in description
    assert bot_api.texts(1) == []


async def test_limits_of_files_and_notes(bot_api: BotApi, http: httpx.AsyncClient) -> None:
    maya = bot_api.user(1)
    png = {"photo": ("a.png", b"\x89PNG")}
    assert (await http.post("sendPhoto", data={"chat_id": 1, "caption": "x" * 1025}, files=png)).status_code == 400
    assert (await http.post("sendPhoto", data={"chat_id": 1}, files={"photo": ("a.png", b"text")})).status_code == 400
    assert (await http.post("sendPhoto", data={"chat_id": 1, "caption": "x" * 1024}, files=png)).status_code == 200
    await ask(http, "sendMessage", chat_id=1, text="Choose", reply_markup=keyboard(text="A", callback_data="a"))
    tap = maya.tap(None, "A")
    assert (await ask(http, "answerCallbackQuery", callback_query_id=tap, text="x" * 201))[0] == 400
    assert (await ask(http, "answerCallbackQuery", callback_query_id=tap))[0] == 200
    assert (await ask(http, "answerCallbackQuery", callback_query_id=tap))[0] == 400


async def test_an_edit_without_change_is_refused(bot_api: BotApi, http: httpx.AsyncClient) -> None:
    bot_api.user(1)
    _, sent = await ask(http, "sendMessage", chat_id=1, text="one")
    status, words = await ask(http, "editMessageText", chat_id=1, message_id=sent["message_id"], text="one")
    assert status == 400 and "message is not modified" in words
    assert (await ask(http, "editMessageText", chat_id=1, message_id=sent["message_id"], text="two"))[0] == 200
    assert bot_api.room(1).by_bot[0].earlier == ["one"]


async def test_updates_come_until_confirmed_by_an_offset(bot_api: BotApi, http: httpx.AsyncClient) -> None:
    for text in ("one", "two", "three"):
        bot_api.user(1).text(text)
    for _ in range(2):
        _, updates = await ask(http, "getUpdates")
        assert [update["message"]["text"] for update in updates] == ["one", "two", "three"]
    _, rest = await ask(http, "getUpdates", offset=updates[0]["update_id"] + 1, limit=1)
    assert [update["message"]["text"] for update in rest] == ["two"]
    assert [update["message"]["text"] for update in (await ask(http, "getUpdates", offset=-1))[1]] == ["three"]


async def test_a_long_question_is_answered_when_something_comes(bot_api: BotApi, http: httpx.AsyncClient) -> None:
    waiting = asyncio.create_task(ask(http, "getUpdates", timeout=3))
    await asyncio.sleep(0.05)
    assert not waiting.done()
    bot_api.user(1).text("now")
    _, updates = await asyncio.wait_for(waiting, 1)
    assert updates[0]["message"]["text"] == "now"
    assert (await ask(http, "getUpdates", offset=updates[0]["update_id"] + 1, timeout=0))[1] == []


async def test_kinds_that_were_not_asked_for_do_not_come(bot_api: BotApi, http: httpx.AsyncClient) -> None:
    await ask(http, "getUpdates", allowed_updates=["message"])
    maya = bot_api.user(1)
    maya.block()
    maya.unblock()
    maya.text("hi")
    assert [set(update) - {"update_id"} for update in (await ask(http, "getUpdates"))[1]] == [{"message"}]


async def test_down_refuses_and_up_is_the_same_address(bot_api: BotApi, http: httpx.AsyncClient) -> None:
    address = bot_api.api
    await bot_api.down()
    with pytest.raises(httpx.ConnectError):
        await http.get("getMe")
    await bot_api.up()
    assert bot_api.api == address
    assert (await http.get("getMe")).status_code == 200


async def test_one_send_takes_no_forty_milliseconds(bot_api: BotApi, http: httpx.AsyncClient) -> None:
    """Delayed acknowledgement and Nagle's algorithm together would cost 40 ms a call."""
    bot_api.user(1)
    await http.get("getMe")
    loop = asyncio.get_running_loop()
    started = loop.time()
    for _ in range(20):
        await http.post("sendMessage", data={"chat_id": 1, "text": "x"})
    assert (loop.time() - started) / 20 < 0.02


async def test_the_networks_pace_can_be_enforced(bot_api: BotApi, http: httpx.AsyncClient) -> None:
    bot_api.user(1)
    bot_api.group(-5)
    bot_api.pace = Pace(overall=5, group_per_minute=2)
    results = [(await ask(http, "sendMessage", chat_id=-5, text="x"))[0] for _ in range(3)]
    assert results == [200, 200, 429]
    results = [(await ask(http, "sendMessage", chat_id=1, text="x"))[0] for _ in range(4)]
    assert results == [200, 200, 200, 429]
    assert bot_api.pace.refused == 2


async def test_a_group_moves_with_both_service_messages(bot_api: BotApi, http: httpx.AsyncClient) -> None:
    nurse, care = bot_api.user(1, "Ann"), bot_api.group(-5)
    nurse.text("hi", chat=care)
    new = care.migrate()
    _, updates = await ask(http, "getUpdates")
    messages = [update["message"] for update in updates]
    assert messages[1]["migrate_to_chat_id"] == new.id == messages[2]["chat"]["id"]
    assert messages[2]["migrate_from_chat_id"] == -5
    answer = (await http.post("sendMessage", json={"chat_id": -5, "text": "x"})).json()
    assert answer["parameters"] == {"migrate_to_chat_id": new.id}


async def test_waiting_in_vain_shows_the_chat(bot_api: BotApi, http: httpx.AsyncClient) -> None:
    maya = bot_api.user(1, "Maya")
    maya.text("hello")
    await ask(http, "sendMessage", chat_id=1, text="Welcome")
    assert (await bot_api.wait_for(maya, "Welc")).text == "Welcome"
    with pytest.raises(AssertionError, match=r"(?s)Maya: hello.*bot: Welcome"):
        await bot_api.wait_for(maya, "Goodbye", 0.02)


async def test_it_lives_under_a_frozen_clock() -> None:
    with freeze_time("2026-03-02 14:05", real_asyncio=True):
        async with BotApi() as server:
            post = server.user(1).text("hi")
            assert post.date == int(datetime(2026, 3, 2, 14, 5, tzinfo=UTC).timestamp())
            with pytest.raises(AssertionError):
                await server.wait_for(1, "nothing", 0.02)


def test_its_clock_can_be_given() -> None:
    world = World(clock=lambda: datetime(2030, 1, 1, tzinfo=UTC))
    assert BotApi(world=world).user(1).text("hi").date == 1893456000


def test_in_a_thread_it_serves_other_processes(bot_api_in_thread: BotApi) -> None:
    server = bot_api_in_thread
    server.user(1)
    program = (
        "import sys, urllib.request as r; r.urlopen(sys.argv[1] + '/sendMessage?chat_id=1&text=from+outside').read()"
    )
    subprocess.run([sys.executable, "-c", program, f"{server.api}/bot{server.token}"], check=True, timeout=20)
    assert server.wait(1, "from outside").by_bot

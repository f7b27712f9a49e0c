"""Polling: an update is stored before it is confirmed, whatever happens, and only a refused token ends it."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager, suppress
from datetime import UTC, datetime
from typing import Any

import pytest
from botapi import TOKEN, BotApi, until

from bot.chat.polling import Patience, Poller, kind_and_place
from bot.chat.telegram import TelegramChat, Timeouts
from bot.chat.types import ChatBusy, ChatConflict, ChatUnauthorised, ChatUncertain, ChatUnreachable, Incoming

NOW = datetime(2026, 3, 2, 14, 10, tzinfo=UTC)
QUICK = Timeouts(connect=0.5, pool=0.2, read=0.3, write=0.5, upload=0.5, whole=2.0)
PATIENCE = Patience(wait=5, first_pause=0.01, longest_pause=0.05)


class Inbox:
    """Stores like the real one: all or nothing, each id once. `broken`: how many stores fail first."""

    def __init__(self, broken: int = 0) -> None:
        self.kept: dict[str, Incoming] = {}
        self.broken = broken
        self.calls = 0

    async def store(self, updates: list[Incoming]) -> None:
        self.calls += 1
        if self.broken > 0:
            self.broken -= 1
            raise OSError("database is locked while storing 'food is stuck'")
        for incoming in updates:
            self.kept.setdefault(incoming.id, incoming)

    @property
    def texts(self) -> list[str]:
        return [incoming.text for incoming in self.kept.values()]

    async def holds(self, *texts: str) -> None:
        for _ in range(600):
            if self.texts == list(texts):
                return
            await asyncio.sleep(0.005)
        raise AssertionError(f"expected {list(texts)}, the inbox holds {self.texts}")


@asynccontextmanager
async def polling(server: BotApi, inbox: Inbox) -> AsyncIterator[tuple[Poller, list[Exception]]]:
    troubles: list[Exception] = []
    async with TelegramChat(server.token, server.api, timeouts=QUICK) as chat:
        poller = Poller(
            chat, inbox.store, lambda: NOW, patience=PATIENCE, on_trouble=lambda error, _pause: troubles.append(error)
        )
        running = asyncio.create_task(poller.run())
        try:
            yield poller, troubles
        finally:
            running.cancel()
            with suppress(asyncio.CancelledError):
                await running


async def confirmed(server: BotApi) -> None:
    for _ in range(600):
        if not server.world.updates:
            return
        await asyncio.sleep(0.005)
    raise AssertionError(f"not confirmed: {server.world.updates}")


async def test_updates_are_stored_then_confirmed(bot_api: BotApi) -> None:
    maya, inbox = bot_api.user(1001, "Maya"), Inbox()
    maya.text("one")
    maya.text("two")
    async with polling(bot_api, inbox) as (poller, troubles):
        await inbox.holds("one", "two")
        await confirmed(bot_api)
        maya.text("three")
        await inbox.holds("one", "two", "three")
        await confirmed(bot_api)
    assert troubles == []
    assert poller.answered_at == NOW
    assert inbox.calls == 2  # a batch is one transaction


async def test_while_storing_fails_nothing_is_confirmed_and_nothing_lost(
    bot_api: BotApi, caplog: pytest.LogCaptureFixture
) -> None:
    inbox = Inbox(broken=3)
    bot_api.user(1001).text("food is stuck")
    async with polling(bot_api, inbox) as (_, troubles):
        await until(lambda: len(troubles) >= 2)
        assert len(bot_api.world.updates) == 1
        await inbox.holds("food is stuck")
        await confirmed(bot_api)
    assert [kind_and_place(error).split(",")[0] for error in troubles] == ["OSError"] * 3
    assert "food is stuck" not in caplog.text


async def test_trouble_is_logged_with_its_place_and_without_words(
    bot_api: BotApi, caplog: pytest.LogCaptureFixture
) -> None:
    inbox = Inbox(broken=1)
    bot_api.user(1001).text("food is stuck")
    async with TelegramChat(bot_api.token, bot_api.api, timeouts=QUICK) as chat:
        running = asyncio.create_task(Poller(chat, inbox.store, lambda: NOW, patience=PATIENCE).run())
        await inbox.holds("food is stuck")
        running.cancel()
    (record,) = [record for record in caplog.records if record.name == "bot.chat.polling"]
    assert "OSError" in record.getMessage() and "test_polling" in record.getMessage()
    assert "food is stuck" not in caplog.text


async def test_a_crash_between_storing_and_confirming_brings_them_again(bot_api: BotApi) -> None:
    """The first process stores and dies before it asks again; the second gets the same updates once more."""
    inbox = Inbox()
    bot_api.user(1001).text("food is stuck")
    stored = asyncio.Event()

    async def store_and_die(updates: list[Incoming]) -> None:
        await inbox.store(updates)
        stored.set()
        await asyncio.Event().wait()

    async with TelegramChat(bot_api.token, bot_api.api, timeouts=QUICK) as chat:
        first = asyncio.create_task(Poller(chat, store_and_die, lambda: NOW, patience=PATIENCE).run())
        await stored.wait()
        first.cancel()
    assert len(bot_api.world.updates) == 1
    async with polling(bot_api, inbox):
        await confirmed(bot_api)
    assert inbox.texts == ["food is stuck"]
    assert inbox.calls == 2


async def test_a_refused_token_ends_it_loudly_without_the_token(
    bot_api: BotApi, caplog: pytest.LogCaptureFixture
) -> None:
    bot_api.fail("401", method="getUpdates")
    async with TelegramChat(bot_api.token, bot_api.api, timeouts=QUICK) as chat:
        with pytest.raises(ChatUnauthorised):
            await asyncio.wait_for(Poller(chat, Inbox().store, lambda: NOW, patience=PATIENCE).run(), 5)
    assert [record.levelno for record in caplog.records if record.name == "bot.chat.polling"] == [logging.CRITICAL]
    assert TOKEN not in caplog.text


@pytest.mark.parametrize(
    ("fault", "expected"),
    [
        ("409", ChatConflict),
        ("500", ChatUncertain),
        ("502 html", ChatUncertain),
        ("200 cut", ChatUncertain),
        ("200 no result", ChatUncertain),
        ("200 empty result", ChatUncertain),
        ("404 html", ChatUncertain),
        ("drop", ChatUncertain),
    ],
)
async def test_trouble_is_told_and_polling_goes_on(bot_api: BotApi, fault: str, expected: type[Exception]) -> None:
    inbox = Inbox()
    async with polling(bot_api, inbox) as (_, troubles):
        bot_api.fail(fault, method="getUpdates", times=3)
        await until(lambda: len(troubles) >= 3)
        bot_api.user(1001).text("still here")
        await inbox.holds("still here")
    assert {type(error) for error in troubles} == {expected}


async def test_an_outage_loses_nothing(bot_api: BotApi) -> None:
    inbox = Inbox()
    async with polling(bot_api, inbox) as (_, troubles):
        bot_api.user(1001).text("before")
        await inbox.holds("before")
        await bot_api.down()
        await until(lambda: any(isinstance(error, ChatUnreachable) for error in troubles))
        bot_api.user(1001).text("during")
        await bot_api.up()
        await inbox.holds("before", "during")


async def test_copies_and_disorder_do_no_harm(bot_api: BotApi) -> None:
    maya, inbox = bot_api.user(1001), Inbox()
    for text in ("one", "two", "three"):
        maya.text(text)
    again = bot_api.world.updates[0]
    bot_api.world.double_next = 1
    bot_api.world.reverse_next = 1
    async with polling(bot_api, inbox):
        await inbox.holds("one", "two", "three")
        await confirmed(bot_api)
        bot_api.replay(again)  # an old one, long confirmed
        maya.text("four")
        await inbox.holds("one", "two", "three", "four")
        await confirmed(bot_api)


async def test_an_update_nobody_can_read_holds_up_no_other(bot_api: BotApi) -> None:
    inbox = Inbox()
    bot_api.push("message", {"message_id": "?", "chat": 7, "text": ["no", "text"]})
    bot_api.push("wave", {"hello": 1})
    bot_api.user(1001).text("I can be read")
    async with polling(bot_api, inbox):
        await inbox.holds("", "", "I can be read")
        await confirmed(bot_api)


async def test_numbers_that_start_again_lower_are_not_overlooked(bot_api: BotApi) -> None:
    """Documented: after a quiet week the next number is chosen at random, perhaps below the last one."""
    maya, inbox = bot_api.user(1001), Inbox()
    maya.text("before the holidays")
    async with TelegramChat(bot_api.token, bot_api.api, timeouts=QUICK) as chat:
        poller = Poller(chat, inbox.store, lambda: NOW, patience=Patience(wait=0))
        running = asyncio.create_task(poller.run())
        await confirmed(bot_api)
        asked = len(bot_api.calls("getUpdates"))
        await until(lambda: len(bot_api.calls("getUpdates")) >= asked + 3)
        bot_api.world.last_update = 500
        maya.text("after the holidays")
        await inbox.holds("before the holidays", "after the holidays")
        running.cancel()


class Scripted:
    """An update source that answers as told, then waits for ever."""

    def __init__(self, *answers: Any) -> None:
        self.answers = list(answers)
        self.asked: list[int | None] = []

    async def updates(self, after: int | None, wait_seconds: int) -> Sequence[object]:  # noqa: ARG002
        self.asked.append(after)
        if not self.answers:
            await asyncio.Event().wait()
        answer = self.answers.pop(0)
        if isinstance(answer, Exception):
            raise answer
        return list(answer)


async def run_through(source: Scripted, patience: Patience) -> list[float]:
    pauses: list[float] = []
    poller = Poller(
        source, Inbox().store, lambda: NOW, patience=patience, on_trouble=lambda _error, pause: pauses.append(pause)
    )
    running = asyncio.create_task(poller.run())
    await until(lambda: not source.answers)
    await asyncio.sleep(0.01)
    running.cancel()
    return pauses


async def test_pauses_double_up_to_a_bound_and_start_again_after_an_answer() -> None:
    down = ChatUnreachable("refused")
    source = Scripted(down, down, down, down, [], down)
    assert await run_through(source, Patience(wait=0, first_pause=0.001, longest_pause=0.004)) == [
        0.001, 0.002, 0.004, 0.004, 0.001
    ]  # fmt: skip


async def test_when_asked_to_wait_it_waits_as_long() -> None:
    source = Scripted(ChatBusy(0.02))
    assert await run_through(source, Patience(wait=0, first_pause=0.001, longest_pause=0.004)) == [0.02]


async def test_the_next_question_names_the_highest_number_stored() -> None:
    updates = [{"update_id": 12}, {"update_id": 14}, {"update_id": 13}]
    source = Scripted(updates, [], [])
    await run_through(source, Patience(wait=0))
    assert source.asked == [None, 14, None, None]


async def test_updates_without_numbers_do_not_spin() -> None:
    source = Scripted([{"message": {"text": "x"}}])
    assert await run_through(source, Patience(wait=0, first_pause=0.001)) == [0.001]

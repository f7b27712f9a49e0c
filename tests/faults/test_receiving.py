"""What can go wrong on the way in: copies, wrong order, unknown kinds, what cannot be handled. None is dropped."""

from __future__ import annotations

import asyncio

import pytest
from botapi import BotApi
from faulty import EMERGENCY, TestClock, join, morning, put, serving, texts, until

from bot.agent import NOTES
from scheduler.messages import Message, SendState, To

START = morning(12, 0)


async def test_an_update_that_comes_twice_is_handled_once(bot_api: BotApi, store_url: str) -> None:
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, store_url, TestClock(START)) as service:
        await join(service, maya)
        maya.text(EMERGENCY)
        update = bot_api.world.updates[-1] if bot_api.world.updates else None
        await bot_api.wait_for(maya, "911")
        assert update is not None
        for _ in range(3):
            bot_api.replay(update)
        await asyncio.sleep(0.5)
        async with service.store.work() as work:
            assert len(await work.replies("KT-014")) == 1
            assert len(await work.open_flags()) == 1
    assert len(texts(bot_api, maya, "911")) == 1


async def test_updates_out_of_order_are_handled_by_their_number(bot_api: BotApi, store_url: str) -> None:
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, store_url, TestClock(START)) as service:
        await join(service, maya)
        await bot_api.down()
        for n in range(6):
            maya.text(f"words {n}")
        bot_api.world.updates.reverse()
        await bot_api.up()
        await until(lambda: count(service, 6), 15)
        async with service.store.work() as work:
            assert [reply.text for reply in reversed(await work.replies("KT-014"))] == [f"words {n}" for n in range(6)]


async def test_an_update_of_a_kind_that_nobody_knows_is_shown_to_a_person(bot_api: BotApi) -> None:
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, "memory:", TestClock(START)) as service:
        await join(service, maya)
        bot_api.push("telepathy", {"from": maya.card, "chat": {"id": maya.id, "type": "private"}, "thought": "help"})
        maya.voice()
        maya.text("good morning")
        await until(lambda: count(service, 3), 8)
        async with service.store.work() as work:
            assert (await service.store.counts(START))["unhandled"] == 0
            assert any("message_to_read" in flag.rules for flag in await work.open_flags()), "the voice message"


async def test_a_reply_that_cannot_be_handled_goes_to_the_care_team_and_stops_no_other(
        bot_api: BotApi, store_url: str, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture) -> None:
    import bot.receiving as receiving

    real = receiving.read

    def read(text: str, **given: object) -> object:
        if "poison" in text:
            raise ValueError(f"cannot read {text}")
        return real(text, **given)  # type: ignore[arg-type]

    monkeypatch.setattr(receiving, "read", read)
    maya, sam = bot_api.user(1001, "Maya"), bot_api.user(1002, "Sam")
    async with serving(bot_api, store_url, TestClock(START)) as service:
        await join(service, maya, "KT-014")
        await join(service, sam, "KT-015")
        maya.text("these words are poison")
        sam.text(EMERGENCY)
        maya.text(EMERGENCY)
        await bot_api.wait_for(-500, "NOT HANDLED · KT-014")
        await bot_api.wait_for(-500, "these words are poison")
        await bot_api.wait_for(sam, "911")
        await bot_api.wait_for(maya, "911")
    assert "poison" not in caplog.text, "patients' words are not for the log"


async def test_a_note_that_cannot_be_acted_on_is_set_aside_and_told(
        bot_api: BotApi, store_url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> object:
        raise KeyError("nothing")

    done: list[str] = []
    monkeypatch.setitem(NOTES, "broken", broken)  # type: ignore[arg-type]
    monkeypatch.setitem(NOTES, "sound", lambda *given: done.append(given[1].key) or nothing())
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, store_url, TestClock(START)) as service:
        await join(service, maya)
        await put(service, *(Message(f"KT-014:{n}", To.AGENT, "broken" if n == 3 else "sound", START, "KT-014")
                             for n in range(8)))
        service.waker.nudge()
        await bot_api.wait_for(-500, "NOT DONE · KT-014")
        await until(lambda: len(set(done)) == 7)
        async with service.store.work() as work:
            found = await work.message("KT-014:3")
        assert found is not None and found.state is SendState.REFUSED


async def test_one_patients_reply_does_not_wait_for_anothers(bot_api: BotApi, postgres_url: str) -> None:
    """The row of a patient is held by somebody else: replies of others are answered meanwhile."""
    maya, sam = bot_api.user(1001, "Maya"), bot_api.user(1002, "Sam")
    async with serving(bot_api, postgres_url, TestClock(START)) as service:
        await join(service, maya, "KT-014")
        await join(service, sam, "KT-015")
        async with service.store.work() as held:
            assert await held.case("KT-014") is not None
            maya.text("food is stuck again")
            await asyncio.sleep(0.2)
            sam.text(EMERGENCY)
            await bot_api.wait_for(sam, "911", 3)
        await until(lambda: count(service, 1, "KT-014"))


async def count(service: object, wanted: int, reference: str = "KT-014") -> bool:
    async with service.store.work() as work:  # type: ignore[attr-defined]
        return len(await work.replies(reference)) == wanted


def nothing() -> object:
    from bot.case import Changes

    return Changes()

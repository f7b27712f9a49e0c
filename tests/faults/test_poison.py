"""One patient's broken plan, a message that cannot be written, a flag that cannot be laid out: nobody else notices."""

from __future__ import annotations

import pytest
from botapi import BotApi
from faulty import CARE, EMERGENCY, TestClock, join, morning, put, serving, state_of, texts, until, window_end

import bot.care.render as care_render
import scheduler.tick as ticking
from scheduler.messages import SendState

DOSE = "it is time for your morning dose (07:45)"


async def test_a_plan_that_cannot_be_expanded(bot_api: BotApi, store_url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    real = ticking.expand

    def expand(due: ticking.Due, *rest: object) -> ticking.Expansion:
        if due.reference == "KT-014":
            raise ZeroDivisionError("a broken plan")
        return real(due, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(ticking, "expand", expand)
    maya, sam = bot_api.user(1001, "Maya"), bot_api.user(1002, "Sam")
    async with serving(bot_api, store_url, TestClock(morning(7, 44, second=58))) as service:
        await join(service, maya, "KT-014", woken=True)
        await join(service, sam, "KT-015", woken=True)
        await bot_api.wait_for(CARE, "STOPPED · KT-014")
        await bot_api.wait_for(sam, DOSE)
        async with service.store.work() as work:
            assert [found[0] for found in await work.quarantined()] == ["KT-014"]
        maya.text(EMERGENCY)                       # and still heard
        await bot_api.wait_for(maya, "911")
    assert not texts(bot_api, maya, DOSE) and len(texts(bot_api, CARE, "STOPPED")) == 1


async def test_a_message_that_cannot_be_written(bot_api: BotApi, store_url: str) -> None:
    maya, sam = bot_api.user(1001, "Maya"), bot_api.user(1002, "Sam")
    start = morning(12, 0)
    async with serving(bot_api, store_url, TestClock(start)) as service:
        await join(service, maya, "KT-014")
        await join(service, sam, "KT-015")
        await put(service, window_end("poison", start, kind="no_such_kind"), window_end("sound", start),
                  window_end("sound", start, "KT-015"))
        await bot_api.wait_for(maya, "You can eat")
        await bot_api.wait_for(sam, "You can eat")
        await bot_api.wait_for(CARE, "KT-014")
        assert await state_of(service, "KT-014:poison") is SendState.REFUSED


async def test_a_flag_that_cannot_be_laid_out_is_shown_plainly(bot_api: BotApi, store_url: str,
                                                               monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(_: object) -> object:
        raise KeyError("phase")

    monkeypatch.setitem(care_render.KINDS, "flag", broken)  # type: ignore[arg-type]
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, store_url, TestClock(morning(12, 0))) as service:
        await join(service, maya)
        maya.text(EMERGENCY)
        await bot_api.wait_for(CARE, "im drooling")
        assert "KT-014" in texts(bot_api, CARE, "im drooling")[0]
        await until(lambda: texts(bot_api, maya, "911"))

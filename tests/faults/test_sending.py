"""What can go wrong when a message leaves, each through the local Bot API: nothing lost, no needless copy."""

from __future__ import annotations

import asyncio
import logging
from datetime import timedelta

import pytest
from botapi import BotApi
from faulty import (
    CARE,
    EMERGENCY,
    ON_CALL,
    TestClock,
    admit,
    care_flag,
    join,
    morning,
    put,
    serving,
    state_of,
    texts,
    until,
    window_end,
)

import bot.chat.polling as polling
from bot.chat.types import ChatUnauthorised
from bot.sending import RESEND
from scheduler.messages import Priority, SendState, To

EAT = "You can eat"
START = morning(12, 0)


@pytest.fixture
def url() -> str:
    return "memory:"


async def test_a_chat_that_must_wait_holds_up_no_other(bot_api: BotApi, url: str) -> None:
    maya, sam = bot_api.user(1001, "Maya"), bot_api.user(1002, "Sam")
    async with serving(bot_api, url, TestClock(START)) as service:
        await join(service, maya, "KT-014")
        await join(service, sam, "KT-015")
        bot_api.fail("429", chat=maya, retry_after=2)
        loop = asyncio.get_running_loop()
        began = loop.time()
        await put(service, window_end("a", START), window_end("b", START, "KT-015"))
        await bot_api.wait_for(sam, EAT)
        assert loop.time() - began < 1.0, "another chat waited too"
        await bot_api.wait_for(maya, EAT)
        assert loop.time() - began >= 1.9, "sooner than the network asked"
    assert len(texts(bot_api, maya, EAT)) == 1


NOT_DELIVERED = ["500", "502 html", "200 html", "200 cut", "drop", "hang"]


@pytest.mark.parametrize("fault", NOT_DELIVERED)
async def test_a_reminder_whose_fate_is_unknown_is_sent_once_more(bot_api: BotApi, url: str, fault: str) -> None:
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, url, TestClock(START)) as service:
        await join(service, maya)
        bot_api.fail(fault, chat=maya)
        await put(service, window_end("a", START))
        await bot_api.wait_for(maya, EAT, 8)
        await until(lambda: is_sent(service, "KT-014:a"))
    assert len(texts(bot_api, maya, EAT)) == 1


@pytest.mark.parametrize("fault", ["500", "drop", "hang", "200 cut"])
async def test_delivered_and_not_known_a_dose_reminder_comes_twice_and_no_more(bot_api: BotApi, url: str,
                                                                               fault: str,
                                                                               monkeypatch: pytest.MonkeyPatch) -> None:
    # a tap that comes with the network's first answers may be old, and is asked about: not so here
    monkeypatch.setattr(polling, "READY", timedelta(0))
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, url, TestClock(morning(7, 44, second=59))) as service:
        bot_api.fail(fault, chat=maya, method="sendMessage", delivered=True, times=None)
        await join(service, maya, woken=True)
        await until(lambda: is_state(service, "dose", SendState.UNCERTAIN), 12)
        reminders = texts(bot_api, maya, "it is time for your morning dose (07:45): 1 mg")
        assert len(reminders) == RESEND["dose"] == 2 and len(set(reminders)) == 1, "the same dose, by the same name"
        bot_api.faults.clear()
        maya.tap(None, "Taken now")
        await bot_api.wait_for(maya, "Nothing to eat or drink until")
        maya.tap(bot_api.room(maya).by_bot[0].id, "Taken now")      # the other copy too
        await bot_api.wait_for(maya, "already")
    async with serving(bot_api, url, TestClock(START)):
        pass
    assert len(texts(bot_api, maya, "Nothing to eat or drink until")) == 1, "one dose, one window"


async def test_a_chart_is_not_sent_again_and_a_flag_is_until_it_is_known(bot_api: BotApi, url: str) -> None:
    nurse = bot_api.user(2001, "Nurse")
    async with serving(bot_api, url, TestClock(START)) as service:
        await admit(service, nurse)
        chart = care_flag("chart", START, to=To.CHAT, kind="chart", address=str(nurse.id), priority=Priority.ANSWER,
                          facts={"lines": ["Chart"], "chart": {}})
        service.agent.sender.render = lambda message: plain(message.kind)
        bot_api.fail("drop", chat=nurse, delivered=True, times=None)
        await put(service, chart)
        await until(lambda: is_state(service, "chart", SendState.UNCERTAIN))
        assert len(texts(bot_api, nurse, "chart")) == 1
        bot_api.fail("drop", chat=CARE, delivered=True, times=3)
        await put(service, care_flag("flag", START))
        await until(lambda: is_sent(service, "KT-014:flag"), 40)
        assert len(texts(bot_api, CARE, "unhandled")) == 4, "three in doubt, then one that is known"


async def test_connections_refused_cost_nothing(bot_api: BotApi, url: str) -> None:
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, url, TestClock(START)) as service:
        await join(service, maya)
        await bot_api.down()
        await put(service, *(window_end(f"n{n}", START) for n in range(4)))
        await until(lambda: service.dispatcher.network_is_away)
        await asyncio.sleep(1.5)
        await bot_api.up()
        await until(lambda: len(texts(bot_api, maya, EAT)) == 4, 20)
        await asyncio.sleep(0.3)
    assert len(texts(bot_api, maya, EAT)) == 4


async def test_a_chat_that_hangs_holds_up_neither_others_nor_an_emergency(bot_api: BotApi, url: str) -> None:
    slow = [bot_api.user(1100 + n) for n in range(35)]
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, url, TestClock(START)) as service:
        for n, user in enumerate(slow):
            await join(service, user, f"SL-{n:03}")
            bot_api.fail("hang", chat=user, times=None)
        await join(service, maya)
        await put(service, *(window_end("a", START, f"SL-{n:03}") for n in range(len(slow))))
        await asyncio.sleep(0.7)      # as many as may are under way, and hang
        loop = asyncio.get_running_loop()
        began = loop.time()
        maya.text(EMERGENCY)
        await bot_api.wait_for(maya, "911")
        await bot_api.wait_for(CARE, "im drooling")
        assert loop.time() - began < 1.0
        bot_api.faults.clear()


async def test_a_message_the_network_refuses_is_told_to_the_care_team(bot_api: BotApi, url: str) -> None:
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, url, TestClock(START)) as service:
        await join(service, maya)
        bot_api.fail("400", chat=maya)
        await put(service, window_end("a", START))
        await bot_api.wait_for(CARE, "KT-014")
        assert await state_of(service, "KT-014:a") is SendState.REFUSED


async def test_blocked_the_care_team_is_told_once_messages_are_held_and_go_on(bot_api: BotApi, url: str) -> None:
    maya = bot_api.user(1001, "Maya")
    clock = TestClock(START)
    async with serving(bot_api, url, clock) as service:
        await join(service, maya)
        maya.room.refuses = "Forbidden: bot was blocked by the user"     # the network has not told us yet
        await put(service, window_end("a", START), window_end("b", START))
        await bot_api.wait_for(CARE, "KT-014")
        await put(service, window_end("c", clock.now()))
        await asyncio.sleep(0.5)
        assert len(texts(bot_api, CARE, "KT-014")) == 1, "told more than once"
        assert [await state_of(service, f"KT-014:{name}") for name in "abc"] == [SendState.WAITING] * 3
        maya.unblock()
        maya.text("I am back")
        await until(lambda: is_patient(service, "active"))
        clock.set_by(timedelta(minutes=11))
        service.waker.nudge()
        await until(lambda: len(texts(bot_api, maya, EAT)) == 3, 12)


async def test_a_patient_who_left_is_not_brought_back_by_blocking(bot_api: BotApi, url: str) -> None:
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, url, TestClock(START)) as service:
        await join(service, maya)
        maya.text("/stop")
        await until(lambda: is_patient(service, "ended"))
        maya.block()
        await asyncio.sleep(0.3)
        maya.unblock()
        maya.text("hello")
        await asyncio.sleep(0.5)
        assert await is_patient(service, "ended")


async def test_a_token_that_is_not_accepted_stops_the_service(bot_api: BotApi, url: str,
                                                              caplog: pytest.LogCaptureFixture) -> None:
    maya = bot_api.user(1001, "Maya")
    caplog.set_level(logging.INFO)
    with pytest.raises((ChatUnauthorised, AssertionError)):
        async with serving(bot_api, url, TestClock(START)) as service:
            await join(service, maya)
            bot_api.fail("401", chat=maya, times=None)
            await put(service, window_end("a", START))
            await asyncio.sleep(2)
    assert await state_of(service, "KT-014:a") is SendState.WAITING
    assert bot_api.token not in caplog.text and bot_api.token.partition(":")[2] not in caplog.text


async def test_the_care_teams_chat_moves_to_a_new_number(bot_api: BotApi, url: str) -> None:
    maya = bot_api.user(1001, "Maya")
    group = bot_api.group(CARE)
    clock = TestClock(START)
    async with serving(bot_api, url, clock) as service:
        await join(service, maya)
        new = group.migrate()
        await put(service, care_flag("flag", START, "look at this"))
        await bot_api.wait_for(new, "look at this")
        async with serving(bot_api, url, clock, store=service.store) as again:     # the setting still names the old one
            assert again.agent.addresses.care in (str(CARE), str(new.id))
            await until(lambda: again.agent.addresses.care == str(new.id))


async def test_a_flag_the_care_teams_chat_refuses_reaches_the_members(bot_api: BotApi, url: str) -> None:
    maya, nurse = bot_api.user(1001, "Maya"), bot_api.user(2001, "Nurse")
    bot_api.group(ON_CALL, "On call")
    async with serving(bot_api, url, TestClock(START), on_call=str(ON_CALL)) as service:
        await join(service, maya)
        await admit(service, nurse)
        bot_api.group(CARE).remove_bot(nurse)
        maya.text(EMERGENCY)
        await bot_api.wait_for(nurse, "im drooling")
        await bot_api.wait_for(ON_CALL, "im drooling")
        await bot_api.wait_for(maya, "911")


async def test_a_full_group_never_delays_an_emergency(bot_api: BotApi, url: str) -> None:
    maya, nurse = bot_api.user(1001, "Maya"), bot_api.user(2001, "Nurse")
    async with serving(bot_api, url, TestClock(START)) as service:
        await join(service, maya)
        await admit(service, nurse)
        await put(service, *(care_flag(f"n{n}", START, f"many {n}") for n in range(40)))
        await asyncio.sleep(1.5)
        loop = asyncio.get_running_loop()
        began = loop.time()
        maya.text(EMERGENCY)
        await bot_api.wait_for(CARE, "im drooling")
        assert loop.time() - began < 1.0
        assert len(texts(bot_api, CARE, "many")) <= 20
        bot_api.fail("429", chat=CARE, retry_after=30, times=None)     # now the network itself says wait
        began = loop.time()
        maya.text("now I cannot breathe")
        await bot_api.wait_for(nurse, "cannot breathe")
        assert loop.time() - began < 1.0


async def test_an_edit_waits_for_the_message_it_edits(bot_api: BotApi, url: str) -> None:
    maya = bot_api.user(1001, "Maya")
    async with serving(bot_api, url, TestClock(START)) as service:
        await join(service, maya)
        bot_api.fail("429", chat=CARE, retry_after=1)
        await put(service, care_flag("first", START, "first words"))
        await put(service, care_flag("then", START, "new words", edits="KT-014:first"))
        await until(lambda: is_sent(service, "KT-014:then"), 12)
        assert len(texts(bot_api, CARE, "new words")) == 1 and not texts(bot_api, CARE, "first words")


async def is_sent(service: object, key: str) -> bool:
    return await state_of(service, key) is SendState.SENT  # type: ignore[arg-type]


async def is_state(service: object, kind: str, state: SendState) -> bool:
    async with service.store.work() as work:  # type: ignore[attr-defined]
        return any(sent.message.kind == kind and sent.state is state for sent in await work.messages_of("KT-014"))


async def is_patient(service: object, state: str) -> bool:
    async with service.store.work() as work:  # type: ignore[attr-defined]
        return all(str(row.state) == state for row in await work.patients())


def plain(words: str) -> object:
    from bot.chat.types import Outgoing

    return Outgoing(words)

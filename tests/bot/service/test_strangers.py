"""Who is not known, or comes with a bad invite, learns nothing; a group never becomes a patient's chat."""

from __future__ import annotations

from collections.abc import AsyncIterator
from datetime import timedelta

import pytest

from bot.rehearsal.demo import demo_plan
from bot.rehearsal.world import World
from bot.storage.opening import open_store
from scheduler.localtime import instant
from scheduler.protocol import load_protocol

PROTOCOL = load_protocol()
PLAN = demo_plan("adult_slurry", PROTOCOL)
START = instant(PLAN.phases[0].starts, PLAN.patient.wakes, PLAN.patient.time_zone)  # type: ignore[arg-type]


@pytest.fixture
async def world(store_url: str) -> AsyncIterator[World]:
    store = await open_store(store_url, PROTOCOL)
    yield World.make(store, PROTOCOL, START)
    await store.close()


async def write(world: World, sender: str, text: str, chat: str = "") -> list[str]:
    """What the chat shows after these words."""
    await world._arrive(world.chat.person(sender, "X").text(text, world.clock.now(), chat=chat))
    world.clock.move_to(world.clock.now() + timedelta(minutes=3))
    return world.chat.texts(chat or sender)


async def test_the_same_answer_whether_an_invite_exists_or_not(world: World) -> None:
    code = await world.enrol(PLAN)
    guessed = await write(world, "900", "/start 0000-0000-0000")
    await write(world, "901", f"/start {code}")
    used = await write(world, "902", f"/start {code}")
    nothing = await write(world, "903", "hello?")
    assert guessed == used == nothing
    assert "Maya" not in guessed[0]
    assert "Do you agree?" in world.chat.texts("901")[-1]


async def test_an_expired_invite_helps_nobody(world: World) -> None:
    code = await world.enrol(PLAN)
    world.clock.move_to(world.clock.now() + PROTOCOL.span("invite.valid_for") + timedelta(minutes=1))
    assert "private service" in (await write(world, "901", f"/start {code}"))[-1]


async def test_guessing_is_slowed_until_even_the_right_code_waits(world: World) -> None:
    code = await world.enrol(PLAN)
    for guess in range(int(PROTOCOL.number("invite.tries"))):
        await write(world, "900", f"/start 0000-0000-{guess:04}")
    assert "private service" in (await write(world, "900", f"/start {code}"))[-1]
    assert "Do you agree?" in (await write(world, "901", f"/start {code}"))[-1]


async def test_an_invite_is_not_used_in_a_group(world: World) -> None:
    code = await world.enrol(PLAN)
    shown = await write(world, "901", f"/start {code}", chat="-77")
    assert "private service" in shown[-1]
    assert "Do you agree?" in (await write(world, "901", f"/start {code}"))[-1]


async def test_a_flood_is_answered_once_a_minute(world: World) -> None:
    for _ in range(20):
        await world._arrive(world.chat.person("900", "X").text("hi", world.clock.now()))
    assert len(world.chat.texts("900")) == 1

"""Words from the care team to a patient: always shown back first, and sent by tap."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from pathlib import Path

import pytest

from bot.rehearsal.world import CARE_CHAT, World
from scheduler.planfile import load_plan

PLANS = Path(__file__).parents[3] / "fixtures" / "plans" / "ok"

Make = Callable[[], Awaitable[World]]


async def test_words_long_after_the_prompt_are_shown_back_first(clinic: Make) -> None:
    world = await clinic()
    await world.says("Ann", "/write KT-014")
    await world.wait(minutes=30)
    before = len(world.maya_sees())
    await world.says("Ann", "lunch at noon?")
    assert "To KT-014: “lunch at noon?”\nSend it?" in world.last_care()
    assert not any("lunch" in text for text in world.maya_sees()[before:])
    _, _, data = world.button(CARE_CHAT, "Send to KT-014")
    await world.taps("Ann", "Do not send")
    assert world.last_care().endswith("Nothing was sent to KT-014.")
    assert [button.label for row in world.chat.last(CARE_CHAT).outgoing.buttons for button in row] == ["Write"]
    await world.taps_what_is_gone("Ann", data)
    assert "There are no words waiting for KT-014" in world.last_care()
    assert not any("lunch" in text for text in world.maya_sees()[before:])


async def test_a_late_reply_to_the_prompt_itself_is_shown_back(clinic: Make) -> None:
    world = await clinic()
    await world.says("Ann", "/write KT-014")
    prompt = world.chat.last(CARE_CHAT)
    assert prompt.outgoing.asks_reply
    await world.wait(hours=3)
    reply = world.people["Ann"].text("See you at two.", world.clock.now(), chat=CARE_CHAT, reply_to=prompt.name)
    await world.agent.store_updates([reply], world.clock.now())
    await world.agent.pass_(world.clock.now())
    await world.taps("Ann", "Send to KT-014")
    assert world.maya_sees()[-1] == "From the care team (nurse):\nSee you at two."


async def test_words_that_name_another_patient_are_not_sent_unseen(clinic: Make) -> None:
    world = await clinic()
    await world.enrol(load_plan(PLANS / "mb-032.toml", world.protocol))
    other = next(row.reference for row in await world.rows() if row.reference != "KT-014")
    await world.says("Ann", "/write KT-014")
    await world.says("Ann", f"about {other}: come in today")
    assert f"Send it?\nLook again: these words name {other}." in world.last_care()


@pytest.mark.parametrize("other", ["/card KT-014", "/team", "Card"])
async def test_words_after_something_else_go_to_nobody(other: str, clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "white patches on my tongue")
    await world.taps("Ann", "Answer the patient")
    if other.startswith("/"):
        await world.says("Ann", other)
    else:
        await world.taps("Ann", other)
    before = world.maya_sees()
    await world.says("Ann", "Ben, can you cover my lunch? That Maya again...")
    assert "Nothing was sent to KT-014: you did something else" in world.last_care()
    shown = len(world.care_shows())
    await world.says("Ann", "and my dinner?")
    assert len(world.care_shows()) == shown, "said once; then chatter is left alone"
    assert world.maya_sees() == before
    await world.taps("Ann", "Answer the patient")
    await world.says("Ann", "Come in at ten.")
    await world.taps("Ann", "Send to KT-014")
    assert world.maya_sees()[-1].endswith("Come in at ten.")


async def test_each_send_button_sends_what_stands_above_it_once(clinic: Make) -> None:
    world = await clinic()
    await world.says("Ann", "/write KT-014")
    await world.says("Ann", "Come in at ten.")
    first, _, data = world.button(CARE_CHAT, "Send to KT-014")
    await world.says("Ann", "Bring your ampoules.")
    assert "To KT-014: “Come in at ten.\nBring your ampoules.”\nSend it?" in world.last_care(), "no line is left behind"
    await world.taps("Ben", "Send to KT-014")
    assert "These are the words of Ann (nurse)" in world.last_care()
    await world.taps_at("Ann", CARE_CHAT, first.name, data)
    assert world.maya_sees()[-1].endswith("(nurse):\nCome in at ten.")
    assert not world.chat.message(CARE_CHAT, first.name).outgoing.buttons


async def test_two_taps_at_once_send_the_words_once(clinic: Make) -> None:
    world = await clinic()
    await world.says("Ann", "/write KT-014 Come in at ten.")
    shown, _, data = world.button(CARE_CHAT, "Send to KT-014")
    taps = [world.people["Ann"].tap(shown.name, data, world.clock.now(), chat=CARE_CHAT) for _ in range(2)]
    await world.agent.store_updates(taps, world.clock.now())
    await world.agent.pass_(world.clock.now())
    assert sum("Come in at ten." in text for text in world.maya_sees()) == 1
    assert [what for _, what in await world.acts()].count("wrote to the patient") == 1


async def test_words_to_who_has_left_are_not_even_shown_back(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "/stop")
    await world.says("Ann", "/write KT-014 Come in at ten.")
    assert world.last_care().endswith("KT-014 has left. Nothing was sent.")


async def test_a_note_after_something_else_is_not_added(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "white patches on my tongue")
    await world.taps("Ann", "Close")
    await world.taps("Ann", "treated")
    await world.says("Ann", "/team")
    await world.says("Ann", "Ben, lunch?")
    assert "Nothing was added to KT-014/1" in world.last_care()
    assert (await world.case()).flags[0].note == ""



async def test_a_plain_reply_to_a_flag_is_shown_back_before_it_is_sent(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "white patches on my tongue")
    flag = world.chat.last(CARE_CHAT)
    reply = world.people["Ann"].text("Come in at two.", world.clock.now(), chat=CARE_CHAT, reply_to=flag.name)
    await world.agent.store_updates([reply], world.clock.now())
    await world.agent.pass_(world.clock.now())
    assert not any("Come in" in text for text in world.maya_sees())
    await world.taps("Ann", "Send to KT-014")
    assert world.maya_sees()[-1] == "From the care team (nurse):\nCome in at two."


@pytest.mark.parametrize(("said", "care_reads", "told"), [
    ("ok i will come", "", False),
    ("ok", "", False),
    ("what do i have to bring?", "they have said: “what do i have to bring?”", True),
    ("ok, but there are more of them now", "Since you wrote to KT-014", True),
    ("yes", "they have said: “yes”", True),
])
async def test_a_nurse_who_has_written_does_not_read_that_nobody_has(clinic: Make, said: str, care_reads: str,
                                                                     told: bool) -> None:
    """What only agrees waits for no answer: 'you were seen' does not come before the visit. All else is answered."""
    world = await clinic()
    await world.says("KT-014", "white patches on my tongue")
    await world.says("Ann", "/write KT-014 Please come in today at three.")
    await world.taps("Ann", "Send to KT-014")
    await world.wait(minutes=1)
    await world.says("KT-014", said)
    await world.taps("Ann", "Close")
    await world.taps("Ann", "seen in clinic")
    shown = world.last_care()
    assert "Nobody has written" not in shown and care_reads in shown
    assert ("they read this" in shown) is told
    await world.wait(minutes=10)
    assert any("you were seen" in text for text in world.maya_sees()) is told

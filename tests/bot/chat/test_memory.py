"""What the network in memory offers beyond the port: failures on demand, people, edits that can be looked at."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from bot.chat.memory import MemoryChat
from bot.chat.types import (
    Button,
    ChatBusy,
    ChatMoved,
    ChatRefused,
    ChatUncertain,
    ChatUnreachable,
    Incoming,
    IncomingKind,
    Outgoing,
)

AT = datetime(2026, 3, 2, 14, 5, tzinfo=UTC)
CHOICE = Outgoing("Choose", buttons=((Button("Yes", "a"), Button("No", "b")),))


async def test_failures_come_in_turn_and_only_where_asked() -> None:
    chat = MemoryChat()
    chat.fail_next(ChatBusy(3), times=2, address="1")
    chat.fail_next(ChatUnreachable("refused"))
    with pytest.raises(ChatUnreachable):
        await chat.send("2", Outgoing("x"))
    for _ in range(2):
        with pytest.raises(ChatBusy):
            await chat.send("1", Outgoing("x"))
    await chat.send("1", Outgoing("x"))
    assert (chat.texts("1"), chat.texts("2")) == (["x"], [])


async def test_an_uncertain_edit_may_be_done() -> None:
    chat = MemoryChat()
    name = await chat.send("1", CHOICE)
    chat.fail_next(ChatUncertain("dropped"), delivered=True)
    with pytest.raises(ChatUncertain):
        await chat.edit("1", name, Outgoing("Done"))
    assert chat.last("1").text == "Done"
    assert chat.last("1").earlier == [CHOICE]


async def test_fetch_fails_on_demand_too() -> None:
    chat = MemoryChat()
    photo = chat.person("1").photo(b"x", AT)
    chat.fail_next(ChatUnreachable("refused"))
    with pytest.raises(ChatUnreachable):
        await chat.fetch(photo.file)
    assert await chat.fetch(photo.file) == b"x"


async def test_a_tap_on_a_button_that_is_not_there_names_those_that_are() -> None:
    chat = MemoryChat()
    name = await chat.send("1", CHOICE)
    maya = chat.person("1", "Maya")
    with pytest.raises(KeyError, match=r"no button 'Maybe'.*\['Yes', 'No'\]"):
        maya.tap(name, "Maybe", AT)
    assert maya.tap(name, "b", AT).data == "b"


def test_updates_are_taken_once_in_order_with_the_given_time() -> None:
    chat = MemoryChat()
    maya = chat.person("1", "Maya")
    maya.text("one", AT)
    maya.other("sticker", AT, chat="-5")
    chat.put(Incoming("77", "1", "1", AT, IncomingKind.TEXT, text="out of order"))
    first = chat.take()
    assert [(i.text, i.kind, i.is_group) for i in first] == [
        ("one", IncomingKind.TEXT, False),
        ("", IncomingKind.OTHER, True),
        ("out of order", IncomingKind.TEXT, False),
    ]
    assert {i.at for i in first} == {AT}
    assert list(chat.take()) == []


async def test_blocked_until_unblocked_and_moved_for_good() -> None:
    chat = MemoryChat()
    maya = chat.person("1", "Maya")
    maya.block(AT)
    with pytest.raises(ChatRefused) as refused:
        await chat.send("1", CHOICE)
    assert refused.value.blocked
    maya.unblock(AT)
    await chat.send("1", CHOICE)
    chat.move("-5", "-1005", AT)
    for _ in range(2):
        with pytest.raises(ChatMoved):
            await chat.send("-5", CHOICE)
    assert [i.kind for i in chat.take()] == [IncomingKind.BLOCKED, IncomingKind.OTHER, IncomingKind.MOVED]


async def test_what_happens_in_all_chats_is_told_in_order() -> None:
    chat = MemoryChat()
    name = await chat.send("1", CHOICE)
    await chat.send("-5", Outgoing("A flag"))
    await chat.edit("1", name, Outgoing("Done"))
    await chat.edit("1", name, Outgoing("Done"))
    events = [(e.address, e.outgoing.text, e.edited) for e in chat.take_events()]
    assert events == [("1", "Choose", False), ("-5", "A flag", False), ("1", "Done", True)]
    assert list(chat.take_events()) == []


async def test_names_count_peoples_messages_too() -> None:
    chat = MemoryChat()
    ours = await chat.send("1", CHOICE)
    theirs = chat.person("1").text("hi", AT)
    assert (ours, theirs.message, await chat.send("1", CHOICE)) == ("1", "2", "3")

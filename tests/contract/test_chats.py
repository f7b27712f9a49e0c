"""Every chat network keeps the same promises: the one in memory, and Telegram over a local Bot API."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

import pytest
from botapi import BotApi

from bot.chat.memory import MemoryChat
from bot.chat.telegram import TelegramChat, Timeouts
from bot.chat.telegram_updates import read_update
from bot.chat.types import (
    Button,
    Chat,
    ChatBusy,
    ChatError,
    ChatMoved,
    ChatRefused,
    ChatUnauthorised,
    ChatUncertain,
    ChatUnreachable,
    Incoming,
    IncomingKind,
    Outgoing,
)

AT = datetime(2026, 3, 2, 14, 5, tzinfo=UTC)
PNG = b"\x89PNG\r\n\x1a\n" + bytes(40)
MAYA, CARE = "1001", "-500"
QUICK = Timeouts(connect=0.5, pool=0.5, read=0.3, write=0.5, upload=0.5, whole=2.0)


@dataclass
class Network:
    """One network under test, with what its people can do."""

    chat: Chat
    receive: Callable[[], Sequence[Incoming]]
    shown: Callable[[str], list[str]]
    write: Callable[[str, str], object]
    tap: Callable[[str, str, str], object]
    photo: Callable[[bytes, str], object]
    document: Callable[[str, bytes], object]
    block: Callable[[], object]
    move: Callable[[], str]
    fail: Callable[[ChatError, bool], object]


def memory_network() -> Network:
    chat = MemoryChat()
    maya = chat.person(MAYA, "Maya")

    def move() -> str:
        chat.move(CARE, "-1000000000500", AT)
        return "-1000000000500"

    return Network(
        chat=chat,
        receive=chat.take,
        shown=chat.texts,
        write=lambda address, text: maya.text(text, AT, chat=address),
        tap=lambda address, message, choice: maya.tap(message, choice, AT, chat=address),
        photo=lambda content, caption: maya.photo(content, AT, caption=caption),
        document=lambda name, content: maya.document(name, content, AT),
        block=lambda: maya.block(AT),
        move=move,
        fail=lambda error, delivered: chat.fail_next(error, delivered=delivered),
    )


def telegram_network(server: BotApi, chat: TelegramChat) -> Network:
    maya, care = server.user(int(MAYA), "Maya"), server.group(int(CARE))
    faults = {ChatBusy: "429", ChatUncertain: "drop", ChatUnauthorised: "401", ChatRefused: "400"}

    def receive() -> list[Incoming]:
        updates, server.world.updates = server.world.updates, []
        return [read_update(update, AT) for update in updates]

    def fail(error: ChatError, delivered: bool) -> None:
        wait = int(error.seconds) if isinstance(error, ChatBusy) else 1
        server.fail(faults[type(error)], retry_after=wait, delivered=delivered)

    return Network(
        chat=chat,
        receive=receive,
        shown=lambda address: server.texts(int(address)),
        write=lambda address, text: maya.text(text, chat=int(address)),
        tap=lambda address, message, choice: maya.tap(int(message), choice, chat=int(address)),
        photo=lambda content, caption: maya.photo(content, caption),
        document=lambda name, content: maya.document(name, content),
        block=maya.block,
        move=lambda: str(care.migrate().id),
        fail=fail,
    )


@pytest.fixture(params=["memory", "telegram"])
async def network(request: pytest.FixtureRequest, bot_api: BotApi) -> AsyncIterator[Network]:
    if request.param == "memory":
        yield memory_network()
        return
    async with TelegramChat(bot_api.token, bot_api.api, timeouts=QUICK) as chat:
        yield telegram_network(bot_api, chat)


TAKEN = Outgoing(
    "Time for your dose.", buttons=((Button("Taken now", "dose:7:taken"), Button("Later", "dose:7:later")),)
)


async def test_a_message_is_shown_and_named(network: Network) -> None:
    first = await network.chat.send(MAYA, Outgoing("Good morning"))
    second = await network.chat.send(MAYA, Outgoing("Zweite Nachricht: Öl, 早上好, 🙂"))
    assert first and second and first != second
    assert network.shown(MAYA) == ["Good morning", "Zweite Nachricht: Öl, 早上好, 🙂"]


async def test_an_edit_replaces_words_and_buttons(network: Network) -> None:
    name = await network.chat.send(MAYA, TAKEN)
    await network.chat.edit(MAYA, name, Outgoing("Taken at 08:17."))
    assert network.shown(MAYA) == ["Taken at 08:17."]
    with pytest.raises((AssertionError, KeyError)):
        network.tap(MAYA, name, "Taken now")


async def test_the_same_edit_twice_is_done_not_refused(network: Network) -> None:
    name = await network.chat.send(MAYA, TAKEN)
    await network.chat.edit(MAYA, name, TAKEN)
    await network.chat.edit(MAYA, name, Outgoing("Taken."))
    await network.chat.edit(MAYA, name, Outgoing("Taken."))
    assert network.shown(MAYA) == ["Taken."]


async def test_an_edit_of_a_message_that_is_not_there_is_refused(network: Network) -> None:
    with pytest.raises(ChatRefused):
        await network.chat.edit(MAYA, "4711", Outgoing("Taken."))


async def test_a_tap_brings_the_data_the_message_and_the_person(network: Network) -> None:
    name = await network.chat.send(MAYA, TAKEN)
    network.tap(MAYA, name, "Later")
    (tap,) = network.receive()
    assert (tap.kind, tap.data, tap.message) == (IncomingKind.TAP, "dose:7:later", name)
    assert (tap.chat, tap.sender, tap.sender_name, tap.is_group) == (MAYA, MAYA, "Maya", False)
    assert tap.at.tzinfo is not None
    await network.chat.confirm_tap(tap.tap, "Noted")
    await network.chat.confirm_tap(tap.tap, "Noted")  # a second time is refused by the network, and that is all right


async def test_64_bytes_of_data_pass_and_65_are_refused(network: Network) -> None:
    name = await network.chat.send(MAYA, Outgoing("Choose", buttons=((Button("A", "ü" * 32),),)))
    network.tap(MAYA, name, "A")
    assert network.receive()[0].data == "ü" * 32
    with pytest.raises(ChatRefused, match=r"'B' takes 65 bytes, the network takes 64"):
        await network.chat.send(MAYA, Outgoing("Choose", buttons=((Button("B", "ü" * 32 + "x"),),)))


async def test_4096_characters_pass_and_4097_are_refused(network: Network) -> None:
    await network.chat.send(MAYA, Outgoing("x" * 4096))
    with pytest.raises(ChatRefused, match="text has 4097 characters"):
        await network.chat.send(MAYA, Outgoing("x" * 4097))
    with pytest.raises(ChatRefused, match="caption has 1025 characters"):
        await network.chat.send(MAYA, Outgoing("x" * 1025, photo=PNG))
    with pytest.raises(ChatRefused, match="empty"):
        await network.chat.send(MAYA, Outgoing(" \n"))
    assert network.shown(MAYA) == ["x" * 4096]


async def test_text_in_a_group_comes_with_its_sender(network: Network) -> None:
    network.write(CARE, "I take this one")
    (incoming,) = network.receive()
    assert (incoming.kind, incoming.text, incoming.is_group) == (IncomingKind.TEXT, "I take this one", True)
    assert (incoming.chat, incoming.sender, incoming.sender_name) == (CARE, MAYA, "Maya")


async def test_updates_have_different_ids(network: Network) -> None:
    for text in ("one", "two", "three"):
        network.write(MAYA, text)
    received = network.receive()
    assert [incoming.text for incoming in received] == ["one", "two", "three"]
    assert len({incoming.id for incoming in received}) == 3


async def test_a_photo_comes_back_whole(network: Network) -> None:
    network.photo(PNG, "my mouth today")
    (incoming,) = network.receive()
    assert (incoming.kind, incoming.text) == (IncomingKind.PHOTO, "my mouth today")
    assert await network.chat.fetch(incoming.file) == PNG


async def test_a_document_comes_back_whole_with_its_name(network: Network) -> None:
    content = bytes(range(256)) * 50
    network.document("letter.pdf", content)
    (incoming,) = network.receive()
    assert (incoming.kind, incoming.file_name) == (IncomingKind.DOCUMENT, "letter.pdf")
    assert await network.chat.fetch(incoming.file) == content


async def test_pictures_and_documents_are_sent_with_a_caption_and_edited(network: Network) -> None:
    chart = await network.chat.send(CARE, Outgoing("Score, 12 weeks", photo=PNG, buttons=TAKEN.buttons))
    await network.chat.send(CARE, Outgoing("All data", document=b"a,b\n1,2\n", file_name="KT-014.csv"))
    await network.chat.edit(CARE, chart, Outgoing("Score, 13 weeks", photo=PNG))
    assert network.shown(CARE) == ["Score, 13 weeks", "All data"]


async def test_a_file_that_is_not_there_is_refused(network: Network) -> None:
    with pytest.raises(ChatRefused):
        await network.chat.fetch("no-such-file")


async def test_a_person_who_stopped_the_bot_is_told_apart(network: Network) -> None:
    network.block()
    assert [incoming.kind for incoming in network.receive()] == [IncomingKind.BLOCKED]
    with pytest.raises(ChatRefused) as refused:
        await network.chat.send(MAYA, Outgoing("Good morning"))
    assert refused.value.blocked
    assert network.shown(MAYA) == []


async def test_a_group_that_moved_gives_its_new_address(network: Network) -> None:
    new = network.move()
    moves = {(incoming.kind, incoming.chat, incoming.data) for incoming in network.receive()}
    assert moves == {(IncomingKind.MOVED, CARE, new)}
    with pytest.raises(ChatMoved) as moved:
        await network.chat.send(CARE, Outgoing("A flag"))
    assert moved.value.new_address == new
    await network.chat.send(new, Outgoing("A flag"))
    assert network.shown(new) == ["A flag"]


@pytest.mark.parametrize(
    "error",
    [ChatBusy(7.0), ChatUncertain("dropped"), ChatUnauthorised("token"), ChatRefused("no")],
    ids=lambda e: type(e).__name__,
)
async def test_each_failure_is_raised_as_itself_and_once(network: Network, error: ChatError) -> None:
    network.fail(error, False)
    with pytest.raises(type(error)) as raised:
        await network.chat.send(MAYA, Outgoing("one"))
    if isinstance(raised.value, ChatBusy):
        assert raised.value.seconds == 7.0
    if isinstance(raised.value, ChatRefused):
        assert not raised.value.blocked
    assert network.shown(MAYA) == []
    await network.chat.send(MAYA, Outgoing("two"))
    assert network.shown(MAYA) == ["two"]


async def test_an_uncertain_message_may_have_been_delivered(network: Network) -> None:
    network.fail(ChatUncertain("dropped"), True)
    with pytest.raises(ChatUncertain):
        await network.chat.send(MAYA, Outgoing("one"))
    assert network.shown(MAYA) == ["one"]


async def test_a_network_that_is_down_took_nothing(bot_api: BotApi) -> None:
    memory = MemoryChat()
    memory.fail_next(ChatUnreachable("refused"))
    bot_api.user(int(MAYA))
    async with TelegramChat(bot_api.token, bot_api.api, timeouts=QUICK) as telegram:
        await bot_api.down()
        for chat in (memory, telegram):
            with pytest.raises(ChatUnreachable):
                await chat.send(MAYA, Outgoing("one"))
        await bot_api.up()
        for chat in (memory, telegram):
            await chat.send(MAYA, Outgoing("two"))
    assert memory.texts(MAYA) == bot_api.texts(int(MAYA)) == ["two"]

"""The Telegram adapter over real HTTP: what each kind of trouble means for the message, and what never shows."""

from __future__ import annotations

import asyncio
import logging
import traceback
from collections.abc import AsyncIterator

import pytest
from botapi import TOKEN, BotApi, until

from bot.chat.telegram import TelegramChat, Timeouts, quiet_logs
from bot.chat.types import (
    Button,
    ChatBusy,
    ChatConflict,
    ChatError,
    ChatMoved,
    ChatRefused,
    ChatUnauthorised,
    ChatUncertain,
    ChatUnreachable,
    Outgoing,
)

QUICK = Timeouts(connect=0.5, pool=0.2, read=0.3, write=0.5, upload=0.5, whole=2.0)
PNG = b"\x89PNG\r\n\x1a\n" + bytes(40)
WORDS = Outgoing("my throat is on fire")


@pytest.fixture
async def chat(bot_api: BotApi) -> AsyncIterator[TelegramChat]:
    bot_api.user(1001, "Maya")
    async with TelegramChat(bot_api.token, bot_api.api, timeouts=QUICK) as chat:
        yield chat


FAULTS = [
    ("429", ChatBusy),
    ("429 html", ChatBusy),
    ("400", ChatRefused),
    ("403", ChatRefused),
    ("413", ChatRefused),
    ("413 html", ChatRefused),
    ("401", ChatUnauthorised),
    ("500", ChatUncertain),
    ("502 html", ChatUncertain),
    ("200 html", ChatUncertain),
    ("200 cut", ChatUncertain),
    ("200 no result", ChatUncertain),
    ("200 empty result", ChatUncertain),
    # A page of a gateway says nothing about the person or the token.
    ("403 html", ChatUncertain),
    ("404 html", ChatUncertain),
    ("drop", ChatUncertain),
    ("hang", ChatUncertain),
]


@pytest.mark.parametrize(("fault", "expected"), FAULTS, ids=[fault for fault, _ in FAULTS])
async def test_each_fault_has_its_error_which_shows_neither_token_nor_words(
    bot_api: BotApi,
    chat: TelegramChat,
    caplog: pytest.LogCaptureFixture,
    fault: str,
    expected: type[ChatError],
) -> None:
    caplog.set_level(logging.DEBUG)
    quiet_logs()
    bot_api.fail(fault, retry_after=9)
    with pytest.raises(expected) as raised:
        await chat.send("1001", WORDS)
    assert type(raised.value) is expected
    if isinstance(raised.value, ChatRefused):
        assert raised.value.blocked is (fault == "403")
    if isinstance(raised.value, ChatBusy):
        assert raised.value.seconds == (9 if fault == "429" else 5)
    shown = caplog.text + "".join(traceback.format_exception(raised.value))
    for secret in (TOKEN, TOKEN.partition(":")[2], WORDS.text, "half of an ans"):
        assert secret not in shown
    await chat.send("1001", Outgoing("again"))
    assert bot_api.texts(1001) == ["again"]


@pytest.mark.parametrize("fault", ["500", "502 html", "200 html", "200 cut", "drop", "hang"])
async def test_what_may_have_been_delivered_is_uncertain(bot_api: BotApi, chat: TelegramChat, fault: str) -> None:
    bot_api.fail(fault, delivered=True)
    with pytest.raises(ChatUncertain):
        await chat.send("1001", WORDS)
    assert bot_api.texts(1001) == [WORDS.text]


async def test_refused_connection_was_certainly_not_sent(bot_api: BotApi, chat: TelegramChat) -> None:
    await bot_api.down()
    with pytest.raises(ChatUnreachable, match="ConnectError"):
        await chat.send("1001", WORDS)
    await bot_api.up()
    await chat.send("1001", WORDS)
    assert bot_api.texts(1001) == [WORDS.text]


async def test_no_free_connection_was_certainly_not_sent(bot_api: BotApi) -> None:
    bot_api.user(1001)
    bot_api.user(1002)
    slow = Timeouts(connect=0.5, pool=0.1, read=0.6, write=0.5, upload=0.5, whole=2.0)
    async with TelegramChat(bot_api.token, bot_api.api, connections=1, timeouts=slow) as chat:
        bot_api.fail("hang", chat=1001)
        holding = asyncio.create_task(chat.send("1001", WORDS))
        await until(lambda: bot_api.calls("sendMessage"))
        with pytest.raises(ChatUnreachable, match="PoolTimeout"):
            await chat.send("1002", WORDS)
        with pytest.raises(ChatUncertain):
            await holding
    assert bot_api.texts(1002) == []


async def test_polling_takes_no_connection_from_the_sender(bot_api: BotApi) -> None:
    bot_api.user(1001)
    async with TelegramChat(bot_api.token, bot_api.api, connections=1, timeouts=QUICK) as chat:
        polling = asyncio.create_task(chat.updates(None, 5))
        await until(lambda: bot_api.calls("getUpdates"))
        await chat.send("1001", WORDS)
        assert bot_api.texts(1001) == [WORDS.text]
        polling.cancel()


async def test_a_slow_chat_holds_up_no_other(bot_api: BotApi, chat: TelegramChat) -> None:
    bot_api.user(1002)
    bot_api.fail("hang", chat=1001)
    started = asyncio.get_running_loop().time()
    slow = asyncio.create_task(chat.send("1001", WORDS))
    await chat.send("1002", WORDS)
    assert asyncio.get_running_loop().time() - started < 0.25  # the hang lasts 0.3 s
    with pytest.raises(ChatUncertain):
        await slow


async def test_a_group_that_moved(bot_api: BotApi, chat: TelegramChat) -> None:
    new = bot_api.group(-500).migrate()
    with pytest.raises(ChatMoved) as moved:
        await chat.send("-500", WORDS)
    assert moved.value.new_address == str(new.id)


@pytest.mark.parametrize("api", ["ftp://127.0.0.1", "http://[", "nonsense"])
async def test_an_address_that_is_none_was_certainly_not_sent(api: str) -> None:
    async with TelegramChat(TOKEN, api, timeouts=QUICK) as chat:
        with pytest.raises(ChatUnreachable, match="COATWELL_TELEGRAM_API") as raised:
            await chat.send("1001", WORDS)
    assert TOKEN not in "".join(traceback.format_exception(raised.value))


async def test_closed_means_not_sent(bot_api: BotApi) -> None:
    bot_api.user(1001)
    chat = TelegramChat(bot_api.token, bot_api.api)
    await chat.close()
    with pytest.raises(ChatUnreachable):
        await chat.send("1001", WORDS)


async def test_a_wrong_token_is_named_not_shown(bot_api: BotApi) -> None:
    wrong = "7000000001:AAF-another-token"
    async with TelegramChat(wrong, bot_api.api, timeouts=QUICK) as chat:
        with pytest.raises(ChatUnauthorised, match="COATWELL_TELEGRAM_TOKEN") as raised:
            await chat.who()
        assert wrong not in "".join(traceback.format_exception(raised.value)) + repr(chat)


@pytest.mark.parametrize("token", ["", "abc", "123:ab cd", "123:abc\n", " 123:abc"])
def test_a_token_without_its_form_is_refused_unseen(token: str) -> None:
    with pytest.raises(ChatUnauthorised, match="COATWELL_TELEGRAM_TOKEN") as raised:
        TelegramChat(token)
    assert not token or token not in str(raised.value)


async def test_a_wrong_address_is_named(bot_api: BotApi) -> None:
    async with TelegramChat(bot_api.token, bot_api.api + "/elsewhere", timeouts=QUICK) as chat:
        with pytest.raises(ChatUnauthorised, match="COATWELL_TELEGRAM_API"):
            await chat.who()


@pytest.mark.parametrize("fault", ["400", "403", "500"])
async def test_a_token_that_the_network_itself_repeats_is_hidden(
    bot_api: BotApi, chat: TelegramChat, fault: str
) -> None:
    bot_api.fail(fault, description=f"Odd words about /bot{TOKEN}/sendMessage")
    with pytest.raises(ChatError) as raised:
        await chat.send("1001", WORDS)
    shown = "".join(traceback.format_exception(raised.value))
    assert "Odd words about /bot<token>/" in shown
    assert TOKEN not in shown


async def test_logs_hold_neither_token_nor_words(bot_api: BotApi, caplog: pytest.LogCaptureFixture) -> None:
    """The libraries log addresses at INFO and texts at DEBUG; whoever asks for DEBUG must not get them."""
    bot_api.user(1001).text("food is stuck")
    caplog.set_level(logging.DEBUG)
    for name in ("httpx", "httpcore", "telegram"):
        caplog.set_level(logging.DEBUG, name)
    async with TelegramChat(bot_api.token, bot_api.api, timeouts=QUICK) as chat:
        await chat.send("1001", WORDS)
        bot_api.fail("200 cut", method="getUpdates")
        with pytest.raises(ChatUncertain):
            await chat.updates(None, 0)
        assert len(await chat.updates(None, 0)) == 1
    for secret in (TOKEN, WORDS.text, "food is stuck", "half of an ans"):
        assert secret not in caplog.text


async def test_the_loggers_would_show_them_without_care(chat: TelegramChat, caplog: pytest.LogCaptureFixture) -> None:
    """The check above can fail: with the loggers left open, the token is in the log."""
    caplog.set_level(logging.DEBUG)
    caplog.set_level(logging.DEBUG, "httpx")
    caplog.set_level(logging.DEBUG, "telegram")
    await chat.send("1001", WORDS)
    assert TOKEN in caplog.text
    assert WORDS.text in caplog.text
    quiet_logs()
    caplog.clear()
    await chat.send("1001", WORDS)
    assert TOKEN not in caplog.text
    assert WORDS.text not in caplog.text


async def test_who_gives_the_name_for_links(chat: TelegramChat) -> None:
    name = await chat.who()
    assert name.link("AB12-cd") == "https://t.me/coatwell_example_bot?start=AB12-cd"


async def test_buttons_links_and_invitations_to_reply(bot_api: BotApi, chat: TelegramChat) -> None:
    rows = ((Button("Yes", "a"), Button("No", "b")), (Button("Read more", url="https://example.org/"),))
    await chat.send("1001", Outgoing("Choose", buttons=rows))
    asked = await chat.send("1001", Outgoing("In your own words?", asks_reply=True))
    answer = bot_api.user(1001).text("sore", reply_to=int(asked))
    await chat.send("1001", Outgoing("Thank you", reply_to=str(answer.id)))
    await chat.send("1001", Outgoing("Thank you again", reply_to="99999"))  # that message is gone: sent all the same
    first, second, third, fourth = bot_api.room(1001).by_bot
    assert [[b["text"] for b in row] for row in first.markup["inline_keyboard"]] == [["Yes", "No"], ["Read more"]]
    assert first.buttons[2]["url"] == "https://example.org/"
    assert second.asks_reply
    assert (third.reply_to, fourth.reply_to) == (answer.id, None)


async def test_a_message_that_invites_a_reply_cannot_be_edited(chat: TelegramChat) -> None:
    """Documented: only messages without reply markup or with inline keyboards can be edited."""
    name = await chat.send("1001", Outgoing("In your own words?", asks_reply=True))
    with pytest.raises(ChatRefused, match="can't be edited"):
        await chat.edit("1001", name, Outgoing("Thank you"))


async def test_an_edit_can_take_the_buttons_away_and_leave_the_words(bot_api: BotApi, chat: TelegramChat) -> None:
    name = await chat.send("1001", Outgoing("Choose", buttons=((Button("Yes", "a"),),)))
    await chat.edit("1001", name, Outgoing("Choose"))
    await chat.edit("1001", name, Outgoing("Choose"))
    (post,) = bot_api.room(1001).by_bot
    assert (post.text, post.labels) == ("Choose", [])


async def test_a_link_is_not_fetched_for_a_preview(bot_api: BotApi, chat: TelegramChat) -> None:
    await chat.send("1001", Outgoing("https://example.org/"))
    assert '"is_disabled": true' in bot_api.calls("sendMessage")[0]["link_preview_options"]


@pytest.mark.parametrize(
    ("outgoing", "words"),
    [
        (Outgoing("x", buttons=((Button("", "a"),),)), "no label"),
        (Outgoing("x", buttons=((Button("A"),),)), "either data or a link"),
        (Outgoing("x", buttons=((Button("A", "a", "https://example.org/"),),)), "either data or a link"),
        (Outgoing("x", buttons=((Button("A", "a"),),), asks_reply=True), "not both"),
        (Outgoing("x", photo=PNG, document=b"x"), "not both"),
        (Outgoing("x", document=b""), "empty"),
    ],
)
async def test_what_no_network_takes_is_refused_before_it_leaves(
    bot_api: BotApi, chat: TelegramChat, outgoing: Outgoing, words: str
) -> None:
    with pytest.raises(ChatRefused, match=words):
        await chat.send("1001", outgoing)
    assert bot_api.calls("sendMessage") == []


async def test_an_address_of_another_network_is_refused(chat: TelegramChat) -> None:
    with pytest.raises(ChatRefused, match="'page:1' is no chat number"):
        await chat.send("page:1", WORDS)
    with pytest.raises(ChatRefused, match="'' is no message number"):
        await chat.edit("1001", "", WORDS)


async def test_a_tap_is_confirmed_with_a_short_note_and_never_raises(bot_api: BotApi, chat: TelegramChat) -> None:
    name = await chat.send("1001", Outgoing("Choose", buttons=((Button("Yes", "a"),),)))
    tap = bot_api.user(1001).tap(int(name), "Yes")
    await chat.confirm_tap(tap, "n" * 300)
    assert bot_api.world.taps[tap] == "n" * 200
    for fault in ("hang", "401", "502 html", "429"):
        bot_api.fail(fault)
        await chat.confirm_tap(tap)
    await bot_api.down()
    await chat.confirm_tap(tap)


async def test_a_file_that_vanished_is_refused_and_the_token_not_blamed(bot_api: BotApi, chat: TelegramChat) -> None:
    post = bot_api.user(1001).photo(PNG)
    assert await chat.fetch(post.file) == PNG
    real_get_file = bot_api.world.files[post.file]

    class Vanishing(dict[str, bytes]):
        def get(self, _key: str, default: object = None) -> object:  # type: ignore[override]
            return default

    bot_api.world.files = Vanishing({post.file: real_get_file})
    with pytest.raises(ChatRefused, match="no longer"):
        await chat.fetch(post.file)


async def test_fetch_of_a_file_of_more_than_20_megabytes_is_refused(bot_api: BotApi, chat: TelegramChat) -> None:
    post = bot_api.user(1001).document("scan.zip", bytes(20 * 1024 * 1024 + 1))
    with pytest.raises(ChatRefused, match="too big"):
        await chat.fetch(post.file)


async def test_an_answer_that_trickles_for_ever_ends() -> None:
    """A read timeout alone does not end it: each piece comes in time."""

    async def trickle(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        await reader.readline()
        writer.write(b"HTTP/1.1 200 OK\r\nContent-Length: 100000\r\n\r\n")
        try:
            while not writer.is_closing():
                writer.write(b" ")
                await writer.drain()
                await asyncio.sleep(0.02)
        except ConnectionError:
            pass
        finally:
            writer.close()

    server = await asyncio.start_server(trickle, "127.0.0.1", 0)
    port = server.sockets[0].getsockname()[1]
    limits = Timeouts(connect=0.5, pool=0.2, read=0.3, write=0.5, upload=0.5, whole=0.4)
    async with server, TelegramChat(TOKEN, f"http://127.0.0.1:{port}", timeouts=limits) as chat:
        with pytest.raises(ChatUncertain, match="longest time"):
            await chat.send("1001", WORDS)
        server.close()
        await asyncio.sleep(0.05)


async def test_two_readers_are_told_of_each_other(bot_api: BotApi, chat: TelegramChat) -> None:
    first = asyncio.create_task(chat.updates(None, 5))
    await until(lambda: bot_api.calls("getUpdates"))
    async with TelegramChat(bot_api.token, bot_api.api, timeouts=QUICK) as second:
        other = asyncio.create_task(second.updates(None, 5))
        with pytest.raises(ChatConflict, match="one process"):
            await first
        bot_api.user(1001).text("for the second")
        assert len(await other) == 1


async def test_webhook_and_polling_exclude_each_other(bot_api: BotApi, chat: TelegramChat) -> None:
    with pytest.raises(ChatRefused, match="COATWELL_WEBHOOK_SECRET"):
        await chat.use_webhook("http://127.0.0.1:1/hook", "with blanks")
    await chat.use_webhook("http://127.0.0.1:1/hook", "s3cret")
    with pytest.raises(ChatConflict):
        await chat.updates(None, 0)
    bot_api.user(1001).text("waits")
    await chat.use_polling()
    assert len(await chat.updates(None, 0)) == 1

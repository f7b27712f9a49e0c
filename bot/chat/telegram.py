"""The Telegram adapter: the `Chat` port over the Bot API, with the client library's `Bot` and real HTTP.

Only the adapter knows the library. Each way in which a call can fail becomes one `ChatError`; what matters is whether
the message was certainly not sent (again at once is safe), or may have been (the sender's policy decides).
Neither the token nor a text is ever in an error or a log line.
"""

from __future__ import annotations

import asyncio
import logging
import os
import re
from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager
from dataclasses import dataclass
from typing import Any, Self, cast
from urllib.parse import urlencode

import telegram
from telegram.error import TelegramError

from bot.chat.limits import NOTE_CHARACTERS, check
from bot.chat.telegram_errors import chat_error, is_unchanged
from bot.chat.telegram_request import QuietRequest
from bot.chat.telegram_updates import ALLOWED_UPDATES
from bot.chat.types import ChatError, ChatRefused, ChatUnauthorised, ChatUncertain, ChatUnreachable, Outgoing

# The library asks to opt in to waits as timedelta; without it each 429 raises a deprecation warning inside the library.
os.environ.setdefault("PTB_TIMEDELTA", "true")

PUBLIC_API = "https://api.telegram.org"
_TOKEN = re.compile(r"\d+:[A-Za-z0-9_-]+")
_SECRET = re.compile(r"[A-Za-z0-9_-]{1,256}")
_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Timeouts:
    """Seconds. `pool`: wait for a free connection; `whole`: one call in all, however slowly the answer trickles."""

    connect: float = 5.0
    pool: float = 2.0
    read: float = 10.0
    write: float = 10.0
    upload: float = 30.0
    whole: float = 60.0


@dataclass(frozen=True, slots=True)
class BotName:
    """Who the bot is: its number and the name in its links."""

    id: str
    username: str

    def link(self, start: str) -> str:
        """The address that opens the bot with `/start START`: at most 64 of A-Z, a-z, 0-9, _ and - (documented)."""
        return telegram.helpers.create_deep_linked_url(self.username, start)


def quiet_logs() -> None:
    """Keep the libraries from logging addresses (with the token) and texts: they do both below WARNING."""
    for name in ("httpx", "httpcore", "telegram"):
        logger = logging.getLogger(name)
        if logger.level < logging.WARNING:
            logger.setLevel(logging.WARNING)


class TelegramChat:
    """The `Chat` port over the Bot API. `api`: base address, without '/bot'. Use as an async context manager."""

    def __init__(
        self,
        token: str,
        api: str = PUBLIC_API,
        *,
        connections: int = 40,
        timeouts: Timeouts | None = None,
    ) -> None:
        if not _TOKEN.fullmatch(token):
            raise ChatUnauthorised(
                "the bot token does not have the form that the network gives out (digits, a colon, letters):"
                " set COATWELL_TELEGRAM_TOKEN to it, whole and without blanks"
            )
        quiet_logs()
        self._token = token
        self._timeouts = timeouts or Timeouts()
        # Polling waits a minute on its connection: it gets one of its own and never takes one from the sender.
        self._poll_request = QuietRequest.of(1, self._timeouts)
        base = api.rstrip("/")
        self._bot = telegram.Bot(
            token,
            base_url=f"{base}/bot",
            base_file_url=f"{base}/file/bot",
            request=QuietRequest.of(connections, self._timeouts),
            get_updates_request=self._poll_request,
        )
        self._closed = False

    def __repr__(self) -> str:
        return "TelegramChat()"

    async def __aenter__(self) -> Self:
        return self

    async def __aexit__(self, *_: object) -> None:
        await self.close()

    async def close(self) -> None:
        """Close the connections; calls after this raise ChatUnreachable."""
        self._closed = True
        await self._poll_request.shutdown()
        await self._bot.request.shutdown()

    async def who(self) -> BotName:
        """Ask the network who this token is: the check at the start. Raises a ChatError."""
        async with self._mapped("getMe"):
            user = await self._bot.get_me()
        return BotName(str(user.id), user.username or "")

    async def send(self, address: str, outgoing: Outgoing) -> str:
        """Deliver; returns the message's number in its chat. Raises a ChatError."""
        chat_id = _number(address, "chat")
        check(outgoing)
        more: dict[str, Any] = {"reply_markup": _markup(outgoing)}
        if outgoing.reply_to:
            more["reply_parameters"] = telegram.ReplyParameters(
                _number(outgoing.reply_to, "message"), allow_sending_without_reply=True
            )
        async with self._mapped("sending"):
            if outgoing.photo is not None:
                photo = telegram.InputFile(outgoing.photo, filename=outgoing.file_name or "picture.png")
                sent = await self._bot.send_photo(chat_id, photo, caption=outgoing.text or None, **more)
            elif outgoing.document is not None:
                document = telegram.InputFile(outgoing.document, filename=outgoing.file_name or "document")
                sent = await self._bot.send_document(chat_id, document, caption=outgoing.text or None, **more)
            else:
                # A preview would make the network fetch every link that a message holds.
                preview = telegram.LinkPreviewOptions(is_disabled=True)
                sent = await self._bot.send_message(chat_id, outgoing.text, link_preview_options=preview, **more)
        return str(sent.message_id)

    async def edit(self, address: str, message: str, outgoing: Outgoing) -> None:
        """Replace words and buttons; a picture or document stays as it is. Raises a ChatError."""
        chat_id, message_id = _number(address, "chat"), _number(message, "message")
        check(outgoing)
        markup = _markup(outgoing)
        if not isinstance(markup, telegram.InlineKeyboardMarkup):
            markup = None  # an edited message can show buttons, not an invitation to reply (documented)
        async with self._mapped("editing", unchanged_is_done=True):
            if outgoing.photo is not None or outgoing.document is not None:
                await self._bot.edit_message_caption(
                    chat_id, message_id, caption=outgoing.text or None, reply_markup=markup
                )
            else:
                preview = telegram.LinkPreviewOptions(is_disabled=True)
                await self._bot.edit_message_text(
                    outgoing.text, chat_id, message_id, reply_markup=markup, link_preview_options=preview
                )

    async def confirm_tap(self, tap: str, note: str = "") -> None:
        """Stop the button's waiting sign. Never raises: the network refuses an old tap, and nobody waits for it."""
        try:
            async with self._mapped("confirming a tap"):
                await self._bot.answer_callback_query(tap, text=note[:NOTE_CHARACTERS] or None)
        except ChatError as error:
            _log.info("a tap was not confirmed: %s", error)

    async def fetch(self, file: str) -> bytes:
        """The content of a file named by an update. Raises a ChatError; ChatRefused when it is no longer there."""
        async with self._mapped("asking for a file"):
            found = await self._bot.get_file(file)
        if not found.file_path:
            raise ChatRefused("the network names no place for this file: ask the person to send it again")
        try:
            async with self._mapped("fetching a file"):
                return bytes(await found.download_as_bytearray())
        except (ChatUnauthorised, ChatRefused) as error:  # a 404 or 403 here speaks of the file, not of token or person
            raise ChatRefused("the network no longer has this file: ask the person to send it again") from error

    async def updates(self, after: int | None, wait_seconds: int) -> Sequence[object]:
        """Raw updates with a number above `after` (None: all that were never confirmed), waiting for the first one.

        Asking with `after` confirms those up to it: the network forgets them. Raises a ChatError.
        """
        query: dict[str, str] = {"timeout": str(wait_seconds), "allowed_updates": _json_list(ALLOWED_UPDATES)}
        if after is not None:
            query["offset"] = str(after + 1)
        patience = wait_seconds + self._timeouts.read
        async with self._mapped("asking for updates", whole=patience + self._timeouts.connect):
            result = await self._poll_request.post(
                f"{self._bot.base_url}/getUpdates?{urlencode(query)}", read_timeout=patience
            )
        if not isinstance(cast(object, result), list):
            raise ChatUncertain("asking for updates: the answer is no list of updates")
        return cast("list[object]", result)

    async def use_webhook(self, url: str, secret: str) -> None:
        """Have updates posted to `url`, each with `secret` in its header. Raises a ChatError."""
        if not _SECRET.fullmatch(secret):
            raise ChatRefused("COATWELL_WEBHOOK_SECRET must be 1 to 256 of A-Z, a-z, 0-9, _ and -")
        async with self._mapped("setting the webhook"):
            await self._bot.set_webhook(url, secret_token=secret, allowed_updates=ALLOWED_UPDATES)

    async def use_polling(self) -> None:
        """Take the webhook away, so that updates can be asked for; none that wait are dropped. Raises a ChatError."""
        async with self._mapped("removing the webhook"):
            await self._bot.delete_webhook(drop_pending_updates=False)

    @asynccontextmanager
    async def _mapped(
        self, doing: str, *, unchanged_is_done: bool = False, whole: float | None = None
    ) -> AsyncIterator[None]:
        """Turn whatever a call raises into a ChatError; the original is left out, it may show the token or a text."""
        if self._closed:
            raise ChatUnreachable(f"{doing}: the connection to the network is closed")
        try:
            async with asyncio.timeout(self._timeouts.whole if whole is None else whole):
                yield
        except ChatError:
            raise
        except TelegramError as error:
            if unchanged_is_done and is_unchanged(error):
                return
            raise chat_error(error, doing, self._token) from None
        except TimeoutError:
            raise ChatUncertain(f"{doing}: no end after the longest time allowed") from None
        except Exception as error:
            # The library could not read the answer: the call may well have worked.
            raise ChatUncertain(f"{doing}: the answer could not be read ({type(error).__name__})") from None


def _markup(outgoing: Outgoing) -> telegram.InlineKeyboardMarkup | telegram.ForceReply | None:
    if outgoing.buttons:
        return telegram.InlineKeyboardMarkup(
            [
                [telegram.InlineKeyboardButton(b.label, callback_data=b.data or None, url=b.url or None) for b in row]
                for row in outgoing.buttons
                if row
            ]
        )
    if outgoing.asks_reply:
        return telegram.ForceReply(selective=bool(outgoing.reply_to))
    return None


def _number(name: str, what: str) -> int:
    try:
        return int(name)
    except ValueError:
        raise ChatRefused(f"'{name}' is no {what} number of this network") from None


def _json_list(names: Sequence[str]) -> str:
    return "[" + ",".join(f'"{name}"' for name in names) + "]"

"""What the client library raises -> what it means for the message. The order of the questions matters, see below."""

from __future__ import annotations

from datetime import timedelta

import httpx
from telegram.error import (
    BadRequest,
    ChatMigrated,
    Conflict,
    EndPointNotFound,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
    TimedOut,
)

from bot.chat.telegram_request import NotTheBotApi
from bot.chat.types import (
    ChatBusy,
    ChatConflict,
    ChatError,
    ChatMoved,
    ChatRefused,
    ChatUnauthorised,
    ChatUncertain,
    ChatUnreachable,
)

BUSY_SECONDS = 5.0
"""Wait after 'too many requests' without a stated wait (from a gateway in front of the network); our own figure."""

# Nothing of the request has left: no connection was free, or none came about.
_NOT_SENT = (
    httpx.PoolTimeout,
    httpx.ConnectError,
    httpx.ConnectTimeout,
    httpx.ProxyError,
    httpx.UnsupportedProtocol,
    httpx.InvalidURL,
)


def chat_error(error: TelegramError, doing: str, token: str) -> ChatError:
    """The ChatError for `error`, raised while `doing`. Its words never hold the token nor the body of an answer."""
    cause = error.__cause__
    if isinstance(error, NotTheBotApi) or isinstance(cause, NotTheBotApi):
        return _not_the_bot_api(error, doing)
    if isinstance(error, ChatMigrated):
        return ChatMoved(str(error.new_chat_id))
    if isinstance(error, RetryAfter):
        wait = error.retry_after
        return ChatBusy(wait.total_seconds() if isinstance(wait, timedelta) else float(wait))
    if isinstance(error, Forbidden):
        return ChatRefused(f"{doing}: {_safe(error, token)}", blocked=True)
    if isinstance(error, InvalidToken | EndPointNotFound):
        return ChatUnauthorised(
            f"{doing}: the network does not accept the bot token:"
            " check COATWELL_TELEGRAM_TOKEN and COATWELL_TELEGRAM_API"
        )
    if isinstance(error, Conflict):
        return ChatConflict(
            f"{doing}: {_safe(error, token)}: let one process ask for updates, and none while a webhook is set"
        )
    if isinstance(error, BadRequest):  # before NetworkError: it is one, to the library
        return ChatRefused(f"{doing}: {_safe(error, token)}")
    if isinstance(cause, _NOT_SENT):
        return ChatUnreachable(
            f"{doing}: no connection to the network ({type(cause).__name__});"
            " if it stays so, look at COATWELL_TELEGRAM_API"
        )
    if isinstance(error, TimedOut):
        return ChatUncertain(f"{doing}: the network did not answer in time ({type(cause).__name__})")
    return _other(error, doing, token)


def is_unchanged(error: TelegramError) -> bool:
    """The edit asked for what the message shows already."""
    return isinstance(error, BadRequest) and "message is not modified" in str(error).lower()


def _not_the_bot_api(error: TelegramError, doing: str) -> ChatError:
    # A page with status 403 or 404 is a gateway's: it says nothing about the person or the token.
    if str(error).startswith("Too Many Requests"):
        return ChatBusy(BUSY_SECONDS)
    if str(error).startswith("Request Entity Too Large"):
        return ChatRefused(f"{doing}: the message is too large for the network")
    return ChatUncertain(
        f"{doing}: something other than the Bot API answered: look at COATWELL_TELEGRAM_API and any gateway in between"
    )


def _other(error: TelegramError, doing: str, token: str) -> ChatError:
    words = _safe(error, token)
    if words.startswith("Too Many Requests"):
        return ChatBusy(BUSY_SECONDS)
    if words.startswith("Request Entity Too Large"):
        return ChatRefused(f"{doing}: {words}")
    if isinstance(error, NetworkError) and error.__cause__ is not None:
        return ChatUncertain(f"{doing}: the connection broke ({type(error.__cause__).__name__})")
    return ChatUncertain(f"{doing}: {words}")


def _safe(error: TelegramError, token: str) -> str:
    """The network's own words, short, without the token."""
    words = str(error).replace(token, "<token>")
    secret = token.partition(":")[2]
    return words.replace(secret, "<token>")[:300] if secret else words[:300]

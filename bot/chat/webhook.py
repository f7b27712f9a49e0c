"""The address to which the network posts updates, for those who run with a webhook: check, store, then answer 200.

Anything but 200 makes the network post the same update again (documented), so nothing is lost when storing fails.
"""

from __future__ import annotations

import hmac
import json
import logging
from collections.abc import Callable
from datetime import datetime

from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from bot.chat.polling import Store, kind_and_place
from bot.chat.telegram_updates import read_update

_log = logging.getLogger(__name__)

SECRET_HEADER = "X-Telegram-Bot-Api-Secret-Token"
LARGEST_BODY = 1_000_000  # bytes; an update holds words and names of files, no files


def webhook_route(path: str, secret: str, store: Store, now: Callable[[], datetime]) -> Route:
    """A route for a Starlette application.

    403 without the secret, 413 when far too large, 400 when it is no JSON, 503 when it was not stored, else 200.
    Raises ValueError for an empty secret: then anybody could speak for any patient.
    """
    if not secret:
        raise ValueError("the webhook needs a secret: set COATWELL_WEBHOOK_SECRET")

    async def take(request: Request) -> Response:
        if not hmac.compare_digest(request.headers.get(SECRET_HEADER, "").encode(), secret.encode()):
            return PlainTextResponse("forbidden", 403)
        body = await _body(request)
        if body is None:
            return PlainTextResponse("too large", 413)
        try:
            update = json.loads(body)
        except (ValueError, RecursionError):
            _log.warning("a webhook call with the right secret held no JSON: %d bytes", len(body))
            return PlainTextResponse("not JSON", 400)
        try:
            await store([read_update(update, now())])
        except Exception as error:
            _log.error("an update was not stored (%s); the network will post it again", kind_and_place(error))
            return PlainTextResponse("not stored", 503)
        return PlainTextResponse("ok")

    return Route(path, take, methods=["POST"])


async def _body(request: Request) -> bytes | None:
    parts: list[bytes] = []
    size = 0
    async for part in request.stream():
        size += len(part)
        if size > LARGEST_BODY:
            return None
        parts.append(part)
    return b"".join(parts)

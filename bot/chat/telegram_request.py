"""The client library's HTTP request, kept from logging what a broken answer holds: that may be patients' words."""

from __future__ import annotations

import json
from typing import Any, Protocol, Self

from telegram.error import TelegramError
from telegram.request import HTTPXRequest


class _Seconds(Protocol):
    @property
    def connect(self) -> float: ...
    @property
    def pool(self) -> float: ...
    @property
    def read(self) -> float: ...
    @property
    def write(self) -> float: ...
    @property
    def upload(self) -> float: ...


class NotTheBotApi(TelegramError):
    """The answer is no JSON: a gateway, a proxy or a captive page spoke, or the answer broke off."""


class QuietRequest(HTTPXRequest):
    """The library's request class with an answer parser of ours (a documented place to override)."""

    __slots__ = ()

    @classmethod
    def of(cls, connections: int, seconds: _Seconds) -> Self:
        """A request object with that many connections; times out as given."""
        return cls(
            connection_pool_size=connections,
            connect_timeout=seconds.connect,
            pool_timeout=seconds.pool,
            read_timeout=seconds.read,
            write_timeout=seconds.write,
            media_write_timeout=seconds.upload,
        )

    @staticmethod
    def parse_json_payload(payload: bytes) -> Any:
        """The answer as a JSON object. Raises NotTheBotApi, which does not quote it."""
        try:
            answer = json.loads(payload.decode("utf-8", "replace"))
        except ValueError:
            answer = None
        if not isinstance(answer, dict):
            raise NotTheBotApi("the answer is not the Bot API's JSON") from None
        return answer

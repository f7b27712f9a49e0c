"""Asking the network for updates, so that none is lost: fetch, store, and only then say that they were received.

The network keeps an update until it is asked for those behind it. So the next question goes out when `store` has
returned; after a crash in between the same updates come again, and the inbox knows them by their number.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Protocol

from bot.chat.telegram_updates import read_update, update_number
from bot.chat.types import ChatBusy, ChatConflict, ChatError, ChatUnauthorised, ChatUncertain, Incoming

_log = logging.getLogger(__name__)

Store = Callable[[list[Incoming]], Awaitable[None]]
"""Puts updates into the inbox in one transaction; one that is there already is left alone. Raises when it cannot."""


# What the network had ready after we were silent this long may have waited about as long (common practice, no source:
# asking for the time once too often is better than a wait that starts at the wrong time). Ready means that it came
# this soon after we asked; later than that it has just been tapped.
SILENCE, READY = timedelta(minutes=2), timedelta(seconds=3)


class UpdateSource(Protocol):
    """Who is asked. See TelegramChat.updates."""

    async def updates(self, after: int | None, wait_seconds: int) -> Sequence[object]: ...


@dataclass(frozen=True, slots=True)
class Patience:
    """Seconds. wait: how long the network may hold a question until something comes.

    After trouble the pause begins at `first_pause` and doubles up to `longest_pause`.
    """

    wait: int = 50
    first_pause: float = 1.0
    longest_pause: float = 30.0


class Poller:
    """Runs until cancelled. `answered_at`: the last instant at which the network answered; None before the first.

    on_trouble(error, pause): told of each failure, before the pause in seconds. It must not raise.
    """

    def __init__(
        self,
        source: UpdateSource,
        store: Store,
        now: Callable[[], datetime],
        *,
        patience: Patience | None = None,
        on_trouble: Callable[[Exception, float], None] | None = None,
    ) -> None:
        self._source = source
        self._store = store
        self._now = now
        self._patience = patience or Patience()
        self._on_trouble = on_trouble or _log_trouble
        self._after: int | None = None
        self._failures = 0
        self.answered_at: datetime | None = None
        self._kept_at: datetime | None = None   # when all that the network had was last stored
        self._late = False                      # whether what comes now may have waited at the network

    async def run(self) -> None:
        """Poll for ever. Raises ChatUnauthorised, and nothing else, when the token is not accepted: stop loudly."""
        while True:
            try:
                await self._round()
                self._failures = 0
            except ChatUnauthorised:
                _log.critical("polling has stopped: the network does not accept the bot token")
                raise
            except Exception as error:  # a database in trouble must not end the polling either
                self._failures += 1
                pause = self._pause(error)
                self._on_trouble(error, pause)
                await asyncio.sleep(pause)

    async def _round(self) -> None:
        asked = self._now()
        updates = await self._source.updates(self._after, self._patience.wait)
        self.answered_at = now = self._now()
        silent = self._kept_at is None or asked - self._kept_at > SILENCE
        self._late = (silent or self._late) and now - asked < READY
        if not updates:
            self._kept_at, self._late = now, False
            # All up to here is confirmed. Numbers may start again lower after a quiet week (documented), so from now
            # on we ask for whatever is not yet confirmed.
            self._after = None
            return
        ordered = sorted(updates, key=lambda update: update_number(update) or 0)
        await self._store([replace(read_update(update, now), delayed=self._late) for update in ordered])
        self._kept_at = now
        numbers = [number for update in ordered if (number := update_number(update)) is not None]
        if not numbers:
            raise ChatUncertain("the updates carry no numbers: they are stored, but cannot be confirmed")
        self._after = max(numbers)

    def _pause(self, error: Exception) -> float:
        if isinstance(error, ChatBusy):
            return min(error.seconds, 10 * self._patience.longest_pause)
        doubled = self._patience.first_pause * 2.0 ** min(self._failures - 1, 16)
        return min(doubled, self._patience.longest_pause)


def _log_trouble(error: Exception, pause: float) -> None:
    if isinstance(error, ChatConflict):
        _log.error("another reader takes this bot's updates: %s; asking again in %.0f s", error, pause)
    elif isinstance(error, ChatError):
        _log.warning("no updates: %s; asking again in %.0f s", error, pause)
    else:
        _log.error("updates were not stored (%s); asking again in %.0f s", kind_and_place(error), pause)


def kind_and_place(error: Exception) -> str:
    """What broke and where, without the error's words: they may hold the patient's words that were being stored."""
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    place = f", {trace.tb_frame.f_globals.get('__name__', '?')}:{trace.tb_lineno}" if trace is not None else ""
    return f"{type(error).__name__}{place}"

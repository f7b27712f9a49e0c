"""The one place that reads the wall clock. Everything else is given `now`."""

from __future__ import annotations

import time
from datetime import UTC, datetime, timedelta
from typing import Protocol


class Clock(Protocol):
    """Where `now` comes from: the wall clock in service, a virtual one in a trial or a rehearsal."""

    def now(self) -> datetime:
        """The present instant, aware, UTC."""
        ...


class WallClock:
    """The machine's clock."""

    def now(self) -> datetime:
        return datetime.now(UTC)  # noqa: TID251 - this is the clock


class SetClock:
    """A clock that stands still until it is moved: the twin for trials, rehearsals and tests."""

    def __init__(self, start: datetime) -> None:
        self._now = start.astimezone(UTC)

    def now(self) -> datetime:
        return self._now

    def move_to(self, instant: datetime) -> None:
        """Move forward to `instant`; a rehearsal never goes back."""
        self._now = max(self._now, instant.astimezone(UTC))


class RunningClock:
    """A virtual clock that runs `speed` virtual seconds per real second from `start`; `skip_to` moves it forward."""

    def __init__(self, start: datetime, speed: float) -> None:
        self._start = start.astimezone(UTC)
        self._speed = speed
        self._since = time.monotonic()

    def now(self) -> datetime:
        return self._start + timedelta(seconds=(time.monotonic() - self._since) * self._speed)

    def skip_to(self, instant: datetime) -> None:
        """Move forward to `instant` and run on from there; never back."""
        self._start = max(self.now(), instant.astimezone(UTC))
        self._since = time.monotonic()

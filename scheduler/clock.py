"""The one place that reads the wall clock. Everything else is given `now`."""

from __future__ import annotations

from datetime import UTC, datetime
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

"""Sleeping until the next instant that matters. APScheduler wakes at the instant; the monotonic clock guards it.

A wall clock set back would make a scheduler that only knows wall time sleep an hour too long, and one set forward
would make it wait the old time out; so no sleep is longer than LONGEST on the monotonic clock, and each pass reads
`now` anew.
"""

from __future__ import annotations

import asyncio
from datetime import UTC, timedelta

from apscheduler.schedulers.asyncio import AsyncIOScheduler
from apscheduler.triggers.date import DateTrigger

from scheduler.clock import WallClock

LONGEST = 20.0   # seconds
_JOB = "next instant"


class Waker:
    """One sleeper for one loop. `nudge` ends the sleep early: something has arrived."""

    def __init__(self, longest: float = LONGEST) -> None:
        self._longest = longest
        self._event = asyncio.Event()
        # misfire_grace_time None: a wake-up that is late is still a wake-up
        self._scheduler = AsyncIOScheduler(timezone=UTC, job_defaults={"misfire_grace_time": None, "coalesce": True})
        self._scheduler.start()

    def nudge(self) -> None:
        """End the sleep now."""
        self._event.set()

    async def sleep(self, seconds: float | None) -> None:
        """Return after `seconds`, when nudged, or after the longest sleep, whichever comes first."""
        if seconds is not None and seconds < self._longest:
            at = WallClock().now() + timedelta(seconds=seconds)
            self._scheduler.add_job(self._wake, DateTrigger(run_date=at), id=_JOB, replace_existing=True)
        try:
            await asyncio.wait_for(self._event.wait(), self._longest)
        except TimeoutError:
            pass
        finally:
            self._event.clear()

    async def _wake(self) -> None:
        self._event.set()

    def close(self) -> None:
        self._scheduler.shutdown(wait=False)

"""Times in words: what instant 'at 7' or '20' means for the question that was asked. Pure."""

from __future__ import annotations

import re
from datetime import datetime, time, timedelta

from bot.case import Case
from bot.understanding.types import Answer, Reading
from scheduler.localtime import instant, local


def earlier_instant(case: Case, reading: Reading, now: datetime, before: datetime | None = None) -> datetime | None:
    """When the dose was taken: a number is minutes ago; a clock time is the last such time before now.

    before: when that dose could no longer be taken: '07:50', asked of yesterday's dose, is yesterday's 07:50.
    """
    if reading.answer in (Answer.CLOCK_TIME, Answer.TAKEN) and reading.clock_time:
        return last_at(case, time.fromisoformat(reading.clock_time), min(now, before) if before else now)
    if reading.answer in (Answer.NUMBER, Answer.LATER, Answer.TAKEN) and reading.number is not None:
        return now - timedelta(minutes=float(reading.number))
    return now if reading.answer is Answer.TAKEN else None


def says_when(reading: Reading) -> bool:
    """Whether the words name a time at which the dose was taken: '07:50', 'took it at 8', 'had it an hour ago'."""
    if reading.answer is Answer.CLOCK_TIME:
        return True
    return reading.answer is Answer.TAKEN and (bool(reading.clock_time) or reading.number is not None)


# Taken, but not just now: the wait is not started on a guess.
_NOT_JUST_NOW = re.compile(r"\b(late|earlier|a while ago|on time|last night|before|hace un rato|tarde|antes|a tiempo|"
                           r"anoche)\b", re.IGNORECASE)


def not_just_now(reading: Reading) -> bool:
    """'Took it late', 'had it a while ago': taken at a time that is not named."""
    return reading.answer is Answer.TAKEN and not says_when(reading) and bool(_NOT_JUST_NOW.search(reading.text))


def later_minutes(case: Case, reading: Reading, now: datetime) -> int | None:
    """How long to wait: a number is minutes; a clock time is the next such time."""
    if reading.answer is Answer.CLOCK_TIME and reading.clock_time:
        clock, zone = time.fromisoformat(reading.clock_time), case.plan.patient.time_zone
        at = instant(local(last_at(case, clock, now), zone).date() + timedelta(days=1), clock, zone)
        return int((at - now).total_seconds() // 60)
    if reading.answer in (Answer.NUMBER, Answer.LATER) and reading.number is not None:
        return int(reading.number)
    return None


def last_at(case: Case, at: time, now: datetime) -> datetime:
    """The last instant at or before now with this wall-clock time at the patient's place."""
    zone = case.plan.patient.time_zone
    today = local(now, zone).date()
    told = instant(today, at, zone)
    return told if told <= now else instant(today - timedelta(days=1), at, zone)

"""Words about a dose: what instant 'at 7' or '20' means for the question that was asked, and whether they are about a
dose at all while an emergency is open. Pure."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime, time, timedelta

from bot.case import Case
from bot.conversation.doses import can_be
from bot.escalation.standing import goes_on
from bot.understanding.grammar_dose import DoseTold
from bot.understanding.types import Answer, Reading, Urgency
from scheduler.localtime import instant, local
from scheduler.occasions import Occasion
from scheduler.protocol import ClinicProtocol


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


def emergency_is_open(case: Case) -> bool:
    """Whether an emergency waits for a person, or doses are held because of one. Where the patient was told to go on,
    words are about the doses again, although the flag is open."""
    return case.record.doses_held() is not None or any(
        flag.urgency is Urgency.EMERGENCY and not goes_on(case, flag) for flag in case.open_flags)


# Said to anybody, and about nothing: with an emergency open, 'fine' or 'all good' is about the emergency.
_JUST_THANKS = re.compile(r"(?:(?:ok|okay|k|thanks|thank you|thank u|thx|ty|got it|understood|i will|will do|gracias|"
                          r"muchas gracias|vale|entendido|de acuerdo)[\s,.!]*)+", re.IGNORECASE)


def for_the_flag(case: Case, reading: Reading, told: DoseTold, since: datetime | None) -> Reading:
    """The reading; with an emergency open, words that do not name the dose answer nothing about one: 'it's down now',
    'done', 'yes' are about what is stuck, and a person reads them. since: when the emergency was last told of, if
    reminders go on beside it; 'took it' after a later reminder is about that."""
    if not emergency_is_open(case) or reading.answer is None or reading.needs_human:
        return reading
    state = case.conversation.state
    asked = {"when_taken": says_when(reading) or reading.answer is Answer.NUMBER,
             "how_long": reading.answer in (Answer.NUMBER, Answer.CLOCK_TIME, Answer.LATER),
             "why_not": reading.answer is Answer.LETTER}.get(
                 state, state not in ("idle", "question", "consent", "who_writes"))
    thanks = reading.answer is Answer.THANKS and bool(_JUST_THANKS.fullmatch(reading.text.strip()))
    after = since is not None and told.verb and reading.answer is Answer.TAKEN
    if asked or thanks or after or (told.named and reading.answer is not Answer.YES):
        return reading
    return replace(reading, answer=None, number=None, clock_time="", needs_human=True, urgency=Urgency.ROUTINE)


def clock_that_fits(case: Case, dose: Occasion, clock_time: str, now: datetime,
                    protocol: ClinicProtocol) -> datetime | None:
    """When this dose can have been taken by that clock time; '9:40' of an evening dose is 21:40. None: it cannot."""
    told = time.fromisoformat(clock_time)
    for hour in (told.hour, (told.hour + 12) % 24) if 1 <= told.hour <= 11 else (told.hour,):
        at = last_at(case, told.replace(hour=hour), now)
        for one in (at, at - timedelta(days=1)):
            if can_be(case, dose, one, now, protocol):
                return one
    return None


def last_at(case: Case, at: time, now: datetime) -> datetime:
    """The last instant at or before now with this wall-clock time at the patient's place."""
    zone = case.plan.patient.time_zone
    today = local(now, zone).date()
    told = instant(today, at, zone)
    return told if told <= now else instant(today - timedelta(days=1), at, zone)

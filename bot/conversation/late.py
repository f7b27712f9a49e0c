"""A reminder that could not be sent in time: it is not sent late as if nothing were; the patient is told once."""

from __future__ import annotations

from datetime import datetime

from bot.case import Case, Changes
from bot.conversation.finding import close_of, facts_of, find_dose
from bot.conversation.saying import clock, say
from scheduler.messages import Message, Priority
from scheduler.protocol import ClinicProtocol
from scheduler.record import EntryKind


def reminder_was_late(case: Case, message: Message, now: datetime, protocol: ClinicProtocol) -> Changes:
    """What to do about the dose whose reminder never came, by the late rule. Asked twice, it makes one message."""
    key = str(message.facts.get("occasion") or message.facts.get("day_key", ""))
    dose = find_dose(case, key, now, protocol)
    if dose is None:
        return Changes()
    if case.record.doses_held() is not None:
        return Changes()                 # it may not be taken now, in time or not
    standing = case.record.dose_answer(key)
    if standing is not None and standing.kind in (EntryKind.DOSE_TAKEN, EntryKind.DOSE_SKIPPED):
        return Changes()
    close = close_of(case, dose, protocol)
    told = say(case, key, "dose_reminder_late", now, priority=Priority.DOSE, occasion=key, open=now < close,
               until=clock(case, close), **facts_of(case, dose, protocol))
    return Changes(messages=(told,))

"""Taper steps and seasons as the patient sees them: told the day before and on the day, confirmed as understood."""

from __future__ import annotations

from datetime import datetime, timedelta

from bot.case import Case, Changes
from bot.conversation.saying import asking, clinic, idle, say
from bot.escalation import assess_event
from scheduler.occasions import OccasionKind
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind
from scheduler.timeline import occasions

_ANSWERABLE = timedelta(hours=24)


def tapped(case: Case, key: str, choice: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'I understand' or 'I have a question' under a step message."""
    if choice == "ask":
        return Changes(messages=(say(case, cause, "step_question", now, **clinic(case, protocol, "reads_when")),),
                       conversation=asking(case, "question", key, now))
    if case.record.has(EntryKind.STEP_UNDERSTOOD, key):
        return Changes()
    return Changes(entries=(Entry(EntryKind.STEP_UNDERSTOOD, now, key),),
                   messages=(say(case, cause, "step_confirmed", now),), conversation=idle(case, now))


def open_step(case: Case, now: datetime, protocol: ClinicProtocol) -> str:
    """Key of the step message of the last day that nobody has confirmed; "" when there is none."""
    told = [one.key for one in occasions(case.plan, case.record, protocol, now - _ANSWERABLE, now,
                                         version=case.row.plan_version, supply=False)
            if one.kind in (OccasionKind.STEP_NOTICE, OccasionKind.STEP_CHANGE)]
    last = told[-1] if told else ""
    return "" if not last or case.record.has(EntryKind.STEP_UNDERSTOOD, last) else last


def unconfirmed(case: Case, key: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """A day after the step nobody has said that it was understood: a person looks."""
    day = key.split(":")[1] if key.count(":") else key
    understood = any(day in entry.about for entry in case.record.of(EntryKind.STEP_UNDERSTOOD)) or case.record.has(
        EntryKind.STEP_UNDERSTOOD, key)
    return Changes() if understood else assess_event(case, "step_not_understood", {"occasion": key}, now, protocol)

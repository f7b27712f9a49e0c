"""Taper steps and seasons as the patient sees them: told the day before and on the day, confirmed as understood."""

from __future__ import annotations

from datetime import datetime, timedelta

from bot.case import Case, Changes
from bot.conversation.finding import next_dose
from bot.conversation.saying import asking, clinic, idle, say
from bot.escalation import assess_event
from scheduler.lasttold import STEPS, told_steps
from scheduler.occasions import Occasion
from scheduler.plan import paused
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind
from scheduler.timeline import occasions

_SEEN = timedelta(days=60)     # a plan that begins or goes on later than this is told when its time comes


def tapped(case: Case, key: str, choice: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'I understand' or 'I have a question' under a step message."""
    if choice == "ask":
        return Changes(messages=(say(case, cause, "step_question", now, **clinic(case, protocol, now, "reads_when")),),
                       conversation=asking(case, "question", key, now))
    newer = open_step(case, now, protocol)
    if newer and key.split(":")[0] != newer.split(":")[0]:      # the plan has been changed since: another dose
        return Changes(messages=(say(case, cause, "step_is_old", now),))
    if case.record.has(EntryKind.STEP_UNDERSTOOD, key):
        return Changes()
    return Changes(entries=(Entry(EntryKind.STEP_UNDERSTOOD, now, key),),
                   messages=(say(case, cause, "step_confirmed", now),), conversation=idle(case, now))


def open_step(case: Case, now: datetime, protocol: ClinicProtocol) -> str:
    """Key of the step message of the last day that nobody has confirmed; "" when there is none."""
    told = told_steps(case.plan, case.record, protocol, case.row.plan_version, now)
    last = told[-1].key if told else ""
    return "" if not last or case.record.has(EntryKind.STEP_UNDERSTOOD, last) else last


def unconfirmed(case: Case, key: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """A day after the step nobody has said that it was understood: a person looks."""
    return Changes() if case.record.step_understood(key) else assess_event(
        case, "step_not_understood", {"occasion": key}, now, protocol)


def said_of_the_plan(case: Case, signed: datetime, protocol: ClinicProtocol) -> str:
    """Text about the plan signed at that instant: another dose is to come (after a pause it may), none, or the same."""
    if paused(case.plan, case.record, signed):
        return "plan_changed"
    if next_dose(case, signed, protocol) is None:
        return "plan_no_dose"
    return "plan_same_dose" if first_announced(case, signed, protocol) is None else "plan_changed"


def first_announced(case: Case, signed: datetime, protocol: ClinicProtocol) -> Occasion | None:
    """The first step message of the plan signed at that instant that tells another dose than the patient knows."""
    coming = occasions(case.plan, case.record, protocol, signed, signed + _SEEN, version=case.row.plan_version,
                       supply=False)
    return next((one for one in coming if one.kind in STEPS and one.facts["reason"] == "plan"), None)

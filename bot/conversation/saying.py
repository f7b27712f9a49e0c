"""Building the messages of the conversation: one place for keys, language and times as the patient sees them."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from bot.case import Case, Conversation
from scheduler.localtime import local
from scheduler.messages import Message, Priority, To
from scheduler.occasions import Occasion
from scheduler.officehours import reads_when
from scheduler.protocol import ClinicProtocol

ANSWER_KEEPS = timedelta(hours=12)   # an answer that could not be sent for this long helps nobody


def clock(case: Case, instant: datetime) -> str:
    """Local wall-clock time of the patient, 24 h: '08:47'."""
    return f"{local(instant, case.plan.patient.time_zone):%H:%M}"


def day_of(case: Case, occasion: Occasion | None) -> str:
    """The patient's local date of an occasion, ISO; "" when there is none."""
    return local(occasion.at, case.plan.patient.time_zone).date().isoformat() if occasion else ""


def say(case: Case, cause: str, kind: str, now: datetime, *, due_at: datetime | None = None,
        send_before: datetime | None = None, priority: Priority = Priority.ANSWER, edits: str | None = None,
        **facts: Any) -> Message:
    """A message to the patient. `cause` makes the key unique for what caused it (a reply id, a dose key)."""
    patient = case.plan.patient
    due = due_at or now
    return Message(key=f"{case.reference}:{cause}:{kind}", to=To.PATIENT, kind=kind, due_at=due,
                   reference=case.reference, send_before=send_before or due + ANSWER_KEEPS, priority=priority,
                   edits=edits, facts={"lang": patient.language, "call_me": patient.call_me,
                                                 "writer": case.row.writer} | facts)


def clinic(case: Case, protocol: ClinicProtocol, now: datetime, *names: str) -> dict[str, Any]:
    """The clinic's own words and numbers of these names (care.<name> of the protocol), in the patient's language; its
    hours by the patient's clock."""
    patient = case.plan.patient
    return {name: reads_when(protocol, patient.language, patient.time_zone, now) if name == "reads_when"
            else protocol.text(f"care.{name}", patient.language) for name in names}


def note(case: Case, cause: str, kind: str, due_at: datetime, **facts: Any) -> Message:
    """A note to ourselves: a timer that survives a restart."""
    return Message(key=f"{case.reference}:{cause}:{kind}", to=To.AGENT, kind=kind, due_at=due_at,
                   reference=case.reference, priority=Priority.ROUTINE, facts=facts)


def timeline_key(case: Case, occasion_key: str, kind: str) -> str:
    """The outbox key that the tick gives to a message of an occasion."""
    return f"{case.reference}:{occasion_key}:{kind}"


def asking(case: Case, state: str, about: str, now: datetime, **facts: Any) -> Conversation:
    """The conversation with a new open question; what else it remembers (a check-in under way) is kept."""
    return replace(case.conversation, state=state, about=about, since=now,
                   facts={**case.conversation.facts, **facts})


def idle(case: Case, now: datetime) -> Conversation:
    """No open question, or back to the check-in that was under way."""
    under_way = "check_in" in case.conversation.facts
    return replace(case.conversation, state="check_in" if under_way else "idle", about="", since=now)

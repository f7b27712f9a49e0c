"""A flag's life: delivered, taken, closed with an outcome, reopened. Each step gives changes, or says why not. Pure."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from bot.case import Act, Case, Changes, Flag, FlagState, PatientState
from bot.escalation import hours, telling
from bot.escalation.flags import closing_key, number_of, overdue_keys, overdue_note
from bot.understanding.types import Urgency
from scheduler.messages import Message
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind


@dataclass(frozen=True, slots=True)
class Step:
    """`trouble` is a text key (care.desk.*) that says why nothing was done; then `changes` is empty."""

    changes: Changes = Changes()
    flag: Flag | None = None
    trouble: str = ""


def delivered(case: Case, flag_id: str) -> Changes:
    """The first message about a flag has left: raised becomes delivered."""
    flag = find(case, flag_id)
    if flag is None or flag.state is not FlagState.RAISED:
        return Changes()
    return Changes(flags=(replace(flag, state=FlagState.DELIVERED),))


def take(case: Case, flag_id: str, who: str, now: datetime, protocol: ClinicProtocol) -> Step:
    """Somebody will act on it. The first wins; a patient whose words are urgent is told that a person is reading."""
    flag = find(case, flag_id)
    if flag is None:
        return Step(trouble="flag_unknown")
    if flag.state is FlagState.CLOSED:
        return Step(flag=flag, trouble="flag_closed")
    if flag.state is FlagState.TAKEN:
        return Step(flag=flag, trouble="flag_yours" if flag.taken_by == who else "flag_taken")
    alarm = int(flag.facts.get("alarm", 0)) + 1
    taken = replace(flag, state=FlagState.TAKEN, taken_by=who, taken_at=now, facts={**flag.facts, "alarm": alarm})
    due = hours.due_after(now, protocol.span(f"care.close_within.{flag.urgency}"), flag.urgency, protocol)
    messages = [overdue_note(taken, due, 1)]
    if flag.urgency > Urgency.ROUTINE and telling.is_told(case, flag):
        messages.append(telling.being_read(case, flag, f"flag:{number_of(flag)}:taken:{alarm}", now, protocol))
    return Step(Changes(flags=(taken,), messages=tuple(messages), cancel=(overdue_keys(flag),),
                        acts=(Act(now, who, "flag taken", case.reference, flag.id),)), taken)


def close(case: Case, flag_id: str, who: str, outcome: str, note: str, now: datetime, protocol: ClinicProtocol) -> Step:
    """Closed with an outcome of the protocol's list and a free note."""
    flag = find(case, flag_id)
    if flag is None:
        return Step(trouble="flag_unknown")
    if flag.state is FlagState.CLOSED:
        return Step(flag=flag, trouble="flag_closed")
    if outcome not in protocol.items("care.outcomes"):
        return Step(flag=flag, trouble="outcome_unknown")
    closed = replace(flag, state=FlagState.CLOSED, closed_at=now, outcome=outcome, note=note,
                     taken_by=flag.taken_by or who, taken_at=flag.taken_at or now)
    act = Act(now, who, "flag closed", case.reference, flag.id, {"outcome": outcome, "note": note})
    return Step(Changes(flags=(closed,), cancel=(overdue_keys(flag),), acts=(act,))
                + _closing_tells(case, closed, who, now, protocol), closed)


def _closing_tells(case: Case, flag: Flag, who: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Doses that this flag held go on, unless the outcome says that nobody has decided so (protocol: hold.kept_by); a
    patient to whom nobody wrote is told how it ended."""
    held = case.record.doses_held()
    frees = held is not None and held.about == flag.id and flag.outcome not in protocol.items("hold.kept_by")
    told = telling.closed(case, flag, now, protocol, doses_go_on=frees)
    if not frees and told:
        waits = replace(flag, facts={**flag.facts, "closing_at": told.due_at.isoformat()})
        return Changes(messages=(told,), flags=(waits,))
    if not frees:
        return Changes()
    return free_doses(case, flag.id, who, now, protocol, told)


def free_doses(case: Case, flag_id: str, who: str, now: datetime, protocol: ClinicProtocol,
               told: Message | None = None) -> Changes:
    """Dose reminders that a flag held go on, and the patient is told: by `told`, or that they go on. Who has left is
    told nothing, and nothing goes on."""
    freed = Entry(EntryKind.DOSES_FREED, now, flag_id, {"by": who})
    if case.row.state is PatientState.ENDED:
        return Changes(entries=(freed,))
    told = told or telling.message(case, f"{flag_id}:freed:{now.isoformat()}", "doses_go_on", now, protocol,
                                   text_keys=["escalation.doses_go_on"])
    return Changes(entries=(freed,), messages=(told,), replan=True)


def reopen(case: Case, flag_id: str, who: str, now: datetime, protocol: ClinicProtocol) -> Step:
    """Opened again, in the hands of who opened it."""
    flag = find(case, flag_id)
    if flag is None:
        return Step(trouble="flag_unknown")
    if flag.is_open:
        return Step(flag=flag, trouble="flag_open")
    alarm = int(flag.facts.get("alarm", 0)) + 1
    again = replace(flag, state=FlagState.TAKEN, taken_by=who, taken_at=now, closed_at=None, outcome="",
                    facts={**flag.facts, "alarm": alarm, "was": flag.outcome})
    due = hours.due_after(now, protocol.span(f"care.close_within.{flag.urgency}"), flag.urgency, protocol)
    act = Act(now, who, "flag reopened", case.reference, flag.id, {"was": flag.outcome})
    return Step(Changes(flags=(again,), messages=(overdue_note(again, due, 1),), acts=(act,),
                        cancel=(f"{case.reference}:{closing_key(flag)}:*",)), again)


def find(case: Case, flag_id: str) -> Flag | None:
    return next((flag for flag in case.flags if flag.id == flag_id), None)

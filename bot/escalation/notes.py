"""Timers that come back: a flag that nobody has taken, one taken and left open, the follow-up question. Pure."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from bot.case import Case, Changes, Flag, FlagState
from bot.escalation import hours, milestones, talking, telling
from bot.escalation.assess import assess_event
from bot.escalation.flags import number_of, overdue_note, to_care
from bot.escalation.life import delivered, find
from bot.escalation.standing import pause_of
from bot.understanding.types import Urgency
from scheduler.localtime import local
from scheduler.messages import Message, To
from scheduler.protocol import ClinicProtocol

PAUSE_NOTE = "pause_look"
ON_CALL_FROM, PATIENT_AT = 2, 3      # stages: 1 the care team again, then also who is on call, then the patient is told


def on_note(case: Case, note: Message, now: datetime, protocol: ClinicProtocol) -> Changes:
    """What a note to ourselves brings when it is due. Notes made void since then bring nothing."""
    if note.kind == PAUSE_NOTE:
        return _still_paused(case, note, now, protocol)
    if note.kind == milestones.NOTE:
        return milestones.posted(case, note, now, protocol)
    flag = find(case, str(note.facts.get("flag", "")))
    if flag is None:
        return Changes()
    if note.kind == "follow_up":
        return _follow_up(case, flag, note, now, protocol)
    if note.kind != "flag_overdue" or int(note.facts.get("alarm", 0)) != int(flag.facts.get("alarm", 0)):
        return Changes()
    if flag.state is FlagState.CLOSED:
        return Changes()
    stage = int(note.facts.get("stage", 1))
    if stage == 0:
        return _has_it_left(case, flag, note, now)
    return _left_open(case, flag, stage, now, protocol) if flag.state is FlagState.TAKEN else _untaken(
        case, flag, stage, now, protocol)


def pause_note(case: Case, since: datetime, now: datetime, protocol: ClinicProtocol) -> Message:
    """A note to ourselves: does the pause that began at `since` still last?"""
    return Message(key=f"{case.reference}:pause:{since.isoformat()}:{now.isoformat()}", to=To.AGENT, kind=PAUSE_NOTE,
                   due_at=now + protocol.span("pause.look_after"), reference=case.reference,
                   facts={"since": since.isoformat()})


def _still_paused(case: Case, note: Message, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The care team is reminded of a pause that goes on, with its day and reason, and again after the same time."""
    pause = pause_of(case, now)
    if pause is None or pause.at.isoformat() != note.facts["since"]:
        return Changes()
    day = local(pause.at, case.plan.patient.time_zone).date().isoformat()
    facts = {"about": note.key, "paused_since": day, "paused_until": pause.facts.get("until") or "",
             "paused_for": pause.facts.get("reason", "")}
    return Changes(messages=(pause_note(case, pause.at, now, protocol),)) + assess_event(
        case, "still_paused", facts, now, protocol)


def _has_it_left(case: Case, flag: Flag, note: Message, now: datetime) -> Changes:
    """`delivered` is put into the note's facts at the edge. What has not left goes to whoever is on call at once."""
    if flag.state is FlagState.TAKEN or "delivered" not in note.facts:
        return Changes()
    if note.facts["delivered"]:
        return delivered(case, flag.id)
    again = replace(flag, raises=flag.raises + 1)
    cause = f"again:{flag.facts.get('alarm', 0)}:0:on_call"
    return Changes(flags=(again,), messages=(to_care(case, again, "flag_again", cause, now, to=To.ON_CALL),))


def _untaken(case: Case, flag: Flag, stage: int, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Raised again and wider, without an end, at ever longer intervals."""
    again = replace(flag, raises=flag.raises + 1)
    cause = f"again:{flag.facts.get('alarm', 0)}:{stage}"
    messages = _to_care_again(case, again, stage, cause, now, protocol)
    if stage >= ON_CALL_FROM and flag.urgency > Urgency.ROUTINE:
        messages.append(to_care(case, again, "flag_again", f"{cause}:on_call", now, to=To.ON_CALL))
    told_at = ON_CALL_FROM if flag.urgency is Urgency.ROUTINE else PATIENT_AT
    if stage == told_at and telling.is_told(case, flag):
        messages.append(telling.nobody_has_read(case, flag, f"flag:{number_of(flag)}:{cause}", now, protocol))
    wait = protocol.span(f"care.raise_again.{flag.urgency}") * 2 ** max(0, stage - PATIENT_AT)
    messages.append(overdue_note(again, hours.due_after(now, wait, flag.urgency, protocol), stage + 1))
    return Changes(flags=(again,), messages=tuple(messages))


def _to_care_again(case: Case, flag: Flag, stage: int, cause: str, now: datetime,
                   protocol: ClinicProtocol) -> list[Message]:
    """A routine flag stands marked in each digest; only once more does it come by itself, in office hours."""
    if flag.urgency > Urgency.ROUTINE:
        return [to_care(case, flag, "flag_again", cause, now)]
    return [to_care(case, flag, "flag_again", cause, now, due_at=hours.next_opening(now, protocol))] if (
        stage == ON_CALL_FROM) else []


def _left_open(case: Case, flag: Flag, stage: int, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Taken, and then nothing: the care team is reminded with the name of who took it."""
    due = hours.due_after(now, protocol.span(f"care.close_within.{flag.urgency}") * 2 ** stage, flag.urgency, protocol)
    reminder = to_care(case, flag, "flag_left_open", f"open:{flag.facts.get('alarm', 0)}:{stage}", now)
    return Changes(messages=(reminder, overdue_note(flag, due, stage + 1)))


def _follow_up(case: Case, flag: Flag, note: Message, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'Is it better, the same, worse?', once for each sign."""
    asked = telling.follow_up(case, flag, note.key.removeprefix(f"{case.reference}:"), now, protocol)
    return asked + Changes(conversation=talking.follow_up_asked(case, flag, now)) if asked.messages else asked

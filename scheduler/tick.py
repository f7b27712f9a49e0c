"""From occasions that have come near to due messages. Safe to repeat: a message's key names its cause.

`expand` is pure; `tick` runs it for every patient whose next occasion has come near, inside one transaction.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Any

from scheduler.dayplan import minimum_gap
from scheduler.lasttold import ANSWERABLE, told_steps
from scheduler.localtime import instant, local
from scheduler.messages import Message, Priority, To, quarantined_message
from scheduler.occasions import Occasion, OccasionKind
from scheduler.officehours import reads_when
from scheduler.plan import Plan, dose_in_force, paused
from scheduler.ports import Due, TickWork
from scheduler.protocol import ClinicProtocol
from scheduler.recipe import preparation
from scheduler.record import EntryKind
from scheduler.timeline import dose_close, next_look, occasions

log = logging.getLogger(__name__)

# Expand when the next occasion is this near, and then this far: one touch of a patient's row covers a few messages.
LEAD = timedelta(minutes=15)
HORIZON = timedelta(hours=2)


@dataclass(frozen=True, slots=True)
class Expansion:
    """What one patient's timeline gives up to `expanded_until`, and when to look again."""

    messages: tuple[Message, ...]
    expanded_until: datetime
    next_at: datetime | None


def expand(due: Due, until: datetime, protocol: ClinicProtocol) -> Expansion:
    """All messages of the occasions after `due.expanded_until` up to `until`. Pure."""
    found = occasions(due.plan, due.record, protocol, due.expanded_until, until, version=due.version)
    messages = tuple(message for occasion in found for message in messages_of(due, occasion, protocol))
    messages = (*_still_open(due, protocol), *messages)
    upcoming = next_look(due.plan, due.record, protocol, until, version=due.version)
    return Expansion(messages, until, upcoming)


async def tick(work: TickWork, now: datetime, protocol: ClinicProtocol, *, limit: int = 100) -> int:
    """Expand every patient who is due, at most `limit`; one broken plan never stops the others. Returns how many."""
    rows = await work.due_patients(now + LEAD, limit)
    messages: list[Message] = []
    cursors: list[tuple[str, datetime, datetime | None]] = []
    for due in rows:
        until = max(now + HORIZON, due.expanded_until)
        try:
            expansion = expand(due, until, protocol)
        except Exception as error:  # whatever is wrong with one plan must not reach the next patient
            why = f"{type(error).__name__}: {error}"
            log.error("a plan cannot be expanded (%s): its patient is quarantined", type(error).__name__)
            await work.quarantine(due.reference, why, now)
            messages.append(quarantined_message(due.reference, why, now))
            continue
        messages += expansion.messages
        cursors.append((due.reference, expansion.expanded_until, expansion.next_at))
    await work.put(messages)
    await work.set_cursors(cursors)
    return len(rows)


def _still_open(due: Due, protocol: ClinicProtocol) -> Iterator[Message]:
    """What is yet to come for doses that were due before and wait for an answer, and for steps that wait for 'I
    understand': when the timeline is expanded anew in the middle of such a dose, its repeat and its close are not lost.
    Those that are stored are left alone."""
    started = due.expanded_until
    joined = max((entry.at for entry in due.record.of(EntryKind.CONSENTED)), default=None)
    signed = due.record.signed_after(due.version)
    asked_since = max((at for at in (joined, signed) if at is not None), default=None)
    for dose in occasions(due.plan, due.record, protocol, started - timedelta(days=1), started, version=due.version,
                          doses_only=True):
        if asked_since is not None and dose.at > asked_since:
            yield from (message for message in _dose(due, dose, protocol) if message.due_at > started)
    for step in told_steps(due.plan, due.record, protocol, due.version, started):
        if step.kind is OccasionKind.STEP_CHANGE and not due.record.step_understood(step.key):
            yield _unconfirmed(due, step)


def messages_of(due: Due, occasion: Occasion, protocol: ClinicProtocol) -> Iterator[Message]:
    """The messages that one occasion causes; kinds and facts, never sentences."""
    make = _MAKERS.get(occasion.kind)
    if make is not None:
        yield from make(due, occasion, protocol)


def _message(due: Due, occasion: Occasion, kind: str, *, to: To = To.PATIENT, due_at: datetime | None = None,
             send_before: datetime | None = None, priority: Priority = Priority.ROUTINE,
             **facts: Any) -> Message:
    held = {"held": True} if due.record.doses_held() is not None else {}   # no text may say 'take it' by itself
    base: dict[str, Any] = held | {"occasion": occasion.key, "lang": due.plan.patient.language,
                            "call_me": due.plan.patient.call_me, "writer": due.writer,
                            "phase": occasion.phase, "step": occasion.step, "at": occasion.at.isoformat()}
    return Message(key=f"{due.reference}:{occasion.key}:{kind}", to=to, kind=kind, due_at=due_at or occasion.at,
                   reference=due.reference, send_before=send_before, priority=priority,
                   facts=base | dict(occasion.facts) | facts)


def dose_facts(plan: Plan, occasion: Occasion, protocol: ClinicProtocol) -> dict[str, Any]:
    """What a dose reminder tells: amount, preparation counts, place in the day, local time."""
    if occasion.dose is None:
        return {}
    facts = dict(preparation(plan, occasion.dose, protocol).as_facts())
    facts |= {"amount": str(occasion.dose.amount), "units": occasion.dose.units, "unit": plan.medicine.unit_name,
              "minutes": int(protocol.span("window.no_food").total_seconds() // 60),
              "form": plan.medicine.form, "medicine": plan.medicine.name, "slot": occasion.slot,
              "clock": f"{local(occasion.at, plan.patient.time_zone):%H:%M}", "day": occasion.day.isoformat()}
    if occasion.facts.get("prime"):   # a new canister, or one that has rested
        facts["prime"] = occasion.facts["prime"]
    return facts


def _dose(due: Due, occasion: Occasion, protocol: ClinicProtocol) -> Iterator[Message]:
    yield from _end_of_course(due, occasion, protocol)
    if due.record.dose_answer(occasion.key) is not None or due.record.taken_under_another(
            due.version, occasion.at, minimum_gap(len(due.plan.dose_times), protocol)):
        return   # told early, or taken shortly before the plan changed: a reminder now would make it two
    facts = dose_facts(due.plan, occasion, protocol)
    close = dose_close(due.plan, due.record, occasion, protocol)
    stale = min(close, occasion.at + protocol.span("dose.reminder_stale_after"))
    again = occasion.at + protocol.span("dose.repeat_reminder_after")
    held = due.record.doses_held()
    if held is not None:   # nothing may say 'take it' while an emergency says 'do not eat or drink'
        yield _message(due, occasion, "dose_held", send_before=stale, priority=Priority.DOSE, flag=held.about, **facts)
        yield _message(due, occasion, "dose_closed", to=To.AGENT, due_at=close, **facts)
        return
    yield _message(due, occasion, "dose", send_before=stale, priority=Priority.DOSE, **facts)
    if again < stale and not paused(due.plan, due.record, again):   # asked before a pause: not asked again in it
        yield _message(due, occasion, "dose_repeat", due_at=again, send_before=stale, priority=Priority.DOSE, **facts)
    yield _message(due, occasion, "dose_closed", to=To.AGENT, due_at=close, **facts)


def _end_of_course(due: Due, occasion: Occasion, protocol: ClinicProtocol) -> Iterator[Message]:
    """After the last dose of the plan the reminders do not just fall silent: told the morning after, also to the care
    team, unless a changed plan goes on."""
    morning = occasion.day + timedelta(days=1)
    if not occasion.facts.get("bedtime") or dose_in_force(due.plan, due.record, morning) is not None:
        return
    at = instant(morning, protocol.clock_time("care.notice_time"), due.plan.patient.time_zone)
    yield _message(due, occasion, "course_ends", due_at=at, send_before=at + timedelta(hours=48),
                   reads_when=reads_when(protocol, due.plan.patient.language, due.plan.patient.time_zone, at))
    yield _message(due, occasion, "event", to=To.AGENT, due_at=at, event="course_over")


def _doses_of(due: Due, day: date, protocol: ClinicProtocol) -> list[dict[str, Any]]:
    """The doses of one local day, as facts, in order: what a step message tells."""
    zone = due.plan.patient.time_zone
    start = instant(day, time(0), zone) - timedelta(seconds=1)
    found = occasions(due.plan, due.record, protocol, start, start + timedelta(hours=40), version=due.version,
                      doses_only=True)
    return [dose_facts(due.plan, one, protocol) for one in found if one.day == day]


def _step_notice(due: Due, occasion: Occasion, protocol: ClinicProtocol) -> Iterator[Message]:
    yield _message(due, occasion, "step_tomorrow", send_before=occasion.at + timedelta(hours=6),
                   doses=_doses_of(due, occasion.day + timedelta(days=1), protocol))


def _step_change(due: Due, occasion: Occasion, protocol: ClinicProtocol) -> Iterator[Message]:
    yield _message(due, occasion, "step_today", send_before=occasion.at + timedelta(hours=20),
                   priority=Priority.DOSE, doses=_doses_of(due, occasion.day, protocol))
    yield _unconfirmed(due, occasion)
    yield _event(due, occasion, "step_change")


def _unconfirmed(due: Due, occasion: Occasion) -> Message:
    return _message(due, occasion, "step_unconfirmed", to=To.AGENT, due_at=occasion.at + ANSWERABLE)


def _event(due: Due, occasion: Occasion, event: str) -> Message:
    """A note to ourselves: the escalation rules look at this event with the case of that moment."""
    return _message(due, occasion, "event", to=To.AGENT, event=event)


def _told_and_noted(kind: str, hours: int) -> Callable[[Due, Occasion, ClinicProtocol], Iterator[Message]]:
    """The patient is told and the care team's rules look at it too."""
    def make(due: Due, occasion: Occasion, protocol: ClinicProtocol) -> Iterator[Message]:
        yield _message(due, occasion, kind, send_before=occasion.at + timedelta(hours=hours),
                       doses=_doses_of(due, occasion.day, protocol))
        yield _event(due, occasion, kind)
    return make


def _noted(event: str) -> Callable[[Due, Occasion, ClinicProtocol], Iterator[Message]]:
    def make(due: Due, occasion: Occasion, protocol: ClinicProtocol) -> Iterator[Message]:  # noqa: ARG001
        yield _event(due, occasion, event)
    return make


def _check_in(due: Due, occasion: Occasion, protocol: ClinicProtocol) -> Iterator[Message]:
    yield _message(due, occasion, "check_in", to=To.AGENT,
                   closes=(occasion.at + protocol.span("check_in.open_for")).isoformat())


_MAKERS: dict[OccasionKind, Callable[[Due, Occasion, ClinicProtocol], Iterator[Message]]] = {
    OccasionKind.DOSE: _dose,
    OccasionKind.STEP_NOTICE: _step_notice,
    OccasionKind.STEP_CHANGE: _step_change,
    OccasionKind.GATE_WAITING: _noted("gate_waiting"),
    OccasionKind.CHECK_IN: _check_in,
    OccasionKind.SUPPLY_LOW: _told_and_noted("supply_low", 48),
    OccasionKind.ENDOSCOPY_DUE: _told_and_noted("endoscopy_due", 48),
    OccasionKind.SEASON_START: _noted("season_start"),   # where it changes the dose, the step messages tell the patient
    OccasionKind.SEASON_END: _noted("season_end"),
    OccasionKind.MILESTONE: _noted("milestone"),
}

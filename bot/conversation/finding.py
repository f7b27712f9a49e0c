"""Which dose a tap or a text is about: found by its key, the open, the last, the next one; also across a plan change.

A reminder that stands in the chat when the plan changes is still answered for what it said: what it told is carried
along in the conversation's facts under "before", since the plan that made it is no longer the plan in force.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

from bot.case import Case, Conversation
from bot.understanding.grammar_dose import Slot
from scheduler.dayplan import minimum_gap
from scheduler.localtime import local
from scheduler.occasions import Occasion, OccasionKind
from scheduler.protocol import ClinicProtocol
from scheduler.record import EntryKind
from scheduler.tick import dose_facts
from scheduler.timeline import dose_close, occasions

_LOOK_BACK = timedelta(days=3)
_MOST_CARRIED = 4
_NIGHT_ENDS, _NOON = 4, 12       # hours of the clock: what people call night and morning


def find_dose(case: Case, key: str, now: datetime, protocol: ClinicProtocol) -> Occasion | None:
    """The dose occasion with this key, if it is of these days and was asked for."""
    return next((o for o in recent(case, now, protocol) if o.key == key), None)


def open_dose(case: Case, now: datetime, protocol: ClinicProtocol) -> Occasion | None:
    """The latest dose that is due, can still be taken and has no answer: what 'done' without a button speaks of."""
    waiting = [o for o in recent(case, now, protocol) if case.record.dose_answer(o.key) is None
               and now < close_of(case, o, protocol)]
    return waiting[-1] if waiting else None


def due_dose(case: Case, now: datetime, protocol: ClinicProtocol) -> Occasion | None:
    """The open dose whose time has come: 'yes', 'later', 'I forgot it' speak of no dose that is yet to come."""
    waiting = [dose for dose, _ in still_to_answer(case, now, protocol)]
    return waiting[-1] if waiting else None


def last_dose(case: Case, now: datetime, protocol: ClinicProtocol) -> Occasion | None:
    """The latest dose that was asked for, or was told before it was: what 'done' speaks of when none is open."""
    joined = max((entry.at for entry in case.record.of(EntryKind.CONSENTED)), default=now - _LOOK_BACK)
    past = [o for o in recent(case, now, protocol)
            if joined < o.at <= now or case.record.dose_answer(o.key) is not None]
    return past[-1] if past else None


def next_dose(case: Case, after: datetime, protocol: ClinicProtocol) -> Occasion | None:
    """The first dose after an instant, within the coming week."""
    coming = occasions(case.plan, case.record, protocol, after, after + timedelta(days=7),
                       version=case.row.plan_version, doses_only=True)
    return next(iter(coming), None)


def dose_of_slot(case: Case, slot: Slot, now: datetime, protocol: ClinicProtocol) -> Occasion | None:
    """The dose that 'this morning's' or 'last night's' names, if the plan has one there."""
    zone = case.plan.patient.time_zone
    today = local(now, zone).date()
    if slot in (Slot.MORNING, Slot.EVENING):
        past = [one for one in recent(case, now, protocol) if (one.at <= now or was_taken(case, one.key))
                and (_NIGHT_ENDS <= local(one.at, zone).hour < _NOON) == (slot is Slot.MORNING)]
        return past[-1] if past else None
    if local(now, zone).hour < _NIGHT_ENDS and slot in (Slot.THIS_EVENING, Slot.LAST_EVENING):
        today -= timedelta(days=1)       # after midnight 'tonight' is still the evening before
    day = today if slot in (Slot.THIS_MORNING, Slot.THIS_EVENING) else today - timedelta(days=1)
    morning = slot in (Slot.THIS_MORNING, Slot.YESTERDAY_MORNING)
    found = [one for one in recent(case, now, protocol)
             if one.day == day and (_NIGHT_ENDS <= local(one.at, zone).hour < _NOON) == morning]
    return (found[0] if morning else found[-1]) if found else None


def recent(case: Case, now: datetime, protocol: ClinicProtocol) -> list[Occasion]:
    """The doses of these days that were or will be asked for, in order of time."""
    version, record = case.row.plan_version, case.record
    signed, gap = record.signed_after(version), minimum_gap(len(case.plan.dose_times), protocol)
    found = [o for o in occasions(case.plan, record, protocol, now - _LOOK_BACK, now + protocol.span("dose.early_by"),
                                  version=version, doses_only=True)
             if (signed is None or o.at > signed) and not record.taken_under_another(version, o.at, gap)]
    before: Mapping[str, Any] = case.conversation.facts.get("before", {})
    carried = [one for key, kept in before.items() if (one := _kept(key, kept)).at > now - _LOOK_BACK]
    return sorted([*carried, *found], key=lambda o: o.at)


def close_of(case: Case, dose: Occasion, protocol: ClinicProtocol) -> datetime:
    """The instant from which this dose may no longer be taken."""
    if "told" in dose.facts:
        return datetime.fromisoformat(str(dose.facts["closes"]))
    return dose_close(case.plan, case.record, dose, protocol)


def facts_of(case: Case, dose: Occasion, protocol: ClinicProtocol) -> dict[str, Any]:
    """What the reminder of this dose told: amount, counts, time."""
    return dict(dose.facts["told"]) if "told" in dose.facts else dose_facts(case.plan, dose, protocol)


def carried(case: Case, now: datetime, protocol: ClinicProtocol) -> Conversation:
    """The conversation at a plan change, with what the last reminders told. `case` is the case before the change."""
    known = [o for o in recent(case, now, protocol) if o.at <= now or case.record.dose_answer(o.key) is not None]
    kept = {o.key: {"at": o.at.isoformat(), "day": o.day.isoformat(), "closes": close_of(case, o, protocol).isoformat(),
                    "told": facts_of(case, o, protocol)} for o in known[-_MOST_CARRIED:]}
    return replace(case.conversation, facts={**case.conversation.facts, "before": kept})


def still_to_answer(case: Case, now: datetime, protocol: ClinicProtocol) -> tuple[tuple[Occasion, datetime], ...]:
    """(dose, close) of the doses that are due and wait for an answer."""
    return tuple((o, close) for o in recent(case, now, protocol)
                 if o.at <= now < (close := close_of(case, o, protocol)) and case.record.dose_answer(o.key) is None)


def was_taken(case: Case, key: str) -> bool:
    standing = case.record.dose_answer(key)
    return standing is not None and standing.kind is EntryKind.DOSE_TAKEN


def _kept(key: str, kept: Mapping[str, Any]) -> Occasion:
    return Occasion(OccasionKind.DOSE, datetime.fromisoformat(kept["at"]), date.fromisoformat(kept["day"]), key, "", 0,
                    facts={"told": kept["told"], "closes": kept["closes"]})

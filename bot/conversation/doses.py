"""Doses: taken now, taken earlier, later, not today; the window that starts when the dose is confirmed; the late rule.

A dose reminder is answered by tap or by words. An answer can be changed; a dose is never doubled: what is too late is
skipped, and 'taken' said twice is told so and recorded once.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from bot.case import Case, Changes, Conversation
from bot.conversation.saying import asking, clock, idle, note, say, timeline_key
from scheduler.dayplan import minimum_gap
from scheduler.localtime import local
from scheduler.messages import Message, Priority
from scheduler.occasions import Occasion
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, taken_at
from scheduler.tick import dose_facts
from scheduler.timeline import dose_close, occasions

REASONS = ("forgot", "ill", "no_medicine", "side_effects", "other")
EARLIER_MINUTES = (10, 20, 30, 60)
LATER_MINUTES = (15, 30, 60, 120)
END_KEEPS = timedelta(minutes=45)   # 'you can eat now' is of no use long after
_LOOK_BACK = timedelta(days=3)


def find_dose(case: Case, key: str, now: datetime, protocol: ClinicProtocol) -> Occasion | None:
    """The dose occasion with this key, if it is of these days and of the plan in force."""
    return next((o for o in _recent(case, now, protocol) if o.key == key), None)


def open_dose(case: Case, now: datetime, protocol: ClinicProtocol) -> Occasion | None:
    """The latest dose that is due, can still be taken and has no answer: what 'done' without a button speaks of."""
    waiting = [o for o in _recent(case, now, protocol) if case.record.dose_answer(o.key) is None
               and now < dose_close(case.plan, case.record, o, protocol)]
    return waiting[-1] if waiting else None


def next_dose(case: Case, after: datetime, protocol: ClinicProtocol) -> Occasion | None:
    """The first dose after an instant, within the coming week."""
    coming = occasions(case.plan, case.record, protocol, after, after + timedelta(days=7),
                       version=case.row.plan_version, doses_only=True)
    return next(iter(coming), None)


def _recent(case: Case, now: datetime, protocol: ClinicProtocol) -> list[Occasion]:
    return list(occasions(case.plan, case.record, protocol, now - _LOOK_BACK, now + protocol.span("dose.early_by"),
                          version=case.row.plan_version, doses_only=True))


def tapped(case: Case, key: str, choice: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """A button under a dose reminder: now, earlier, later, no."""
    dose = find_dose(case, key, now, protocol)
    if dose is None:
        return Changes(messages=(say(case, cause, "dose_is_old", now),))
    if (settled := _settled(case, key, cause, now)) is not None:
        return settled
    close = dose_close(case.plan, case.record, dose, protocol)
    if choice == "now" and now < close:
        return taken(case, dose, now, cause, now, protocol)
    # 'taken now' under a reminder of yesterday: the window is not started on a guess, the time is asked
    question = {"now": ("when_taken", EARLIER_MINUTES), "earlier": ("when_taken", EARLIER_MINUTES),
                "no": ("why_not", REASONS)}.get(choice)
    if question is not None:
        kind, choices = question
        return Changes(messages=(say(case, cause, f"ask_{kind}", now, occasion=key, choices=list(choices)),),
                       conversation=asking(case, kind, key, now))
    if now >= close:
        return _too_late(case, dose, cause, now, protocol)
    fitting = [m for m in LATER_MINUTES if now + timedelta(minutes=m) < close]
    return Changes(messages=(say(case, cause, "ask_how_long", now, occasion=key, choices=fitting),),
                   conversation=asking(case, "how_long", key, now))


def taken(case: Case, dose: Occasion, at: datetime, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The dose was taken at `at` (<= now): record it, start the window at that instant, show the reminder as taken."""
    facts = dose_facts(case.plan, dose, protocol)
    until = at + protocol.span("window.no_food")
    entry = Entry(EntryKind.DOSE_TAKEN, now, dose.key,
                  {"taken_at": at.isoformat(), "units": facts["units"], "amount": facts["amount"]})
    messages: list[Message] = list(_edits(case, dose, "dose_taken", cause, now, facts, taken=clock(case, at)))
    rinse_first = protocol.text("rinse.order") == "at once"
    if _too_close(case, dose, at, protocol):
        messages.append(say(case, cause, "doses_close_together", now, priority=Priority.ANSWER))
    if until > now:
        messages.append(say(case, cause, "window_open", now, until=clock(case, until), occasion=dose.key,
                            rinse_first=rinse_first, minutes=_minutes(protocol)))
        messages.append(say(case, f"{dose.key}:{cause}", "window_end", now, due_at=until, priority=Priority.DOSE,
                            send_before=until + END_KEEPS, day_key=dose.key, rinse_now=not rinse_first))
    else:
        messages.append(say(case, cause, "window_over", now, occasion=dose.key, minutes=_minutes(protocol)))
    return Changes(entries=(entry,), messages=tuple(messages), cancel=pending(case, dose.key),
                   conversation=idle(case, now))


def told_earlier(case: Case, key: str, at: datetime | None, cause: str, now: datetime,
                 protocol: ClinicProtocol) -> Changes:
    """An answer to 'when did you take it?'; None when the words gave no time."""
    dose = find_dose(case, key, now, protocol)
    if dose is None:
        return Changes(messages=(say(case, cause, "dose_is_old", now),), conversation=idle(case, now))
    if (settled := _settled(case, key, cause, now)) is not None:
        return settled
    if at is None or at > now or at < dose.at - protocol.span("dose.minimum_gap"):
        return Changes(messages=(say(case, cause, "time_not_clear", now, occasion=key,
                                     choices=list(EARLIER_MINUTES)),))
    return taken(case, dose, at, cause, now, protocol)


def later(case: Case, key: str, minutes: int, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Remind again in so many minutes, when the dose can still be taken then."""
    dose = find_dose(case, key, now, protocol)
    if dose is None:
        return Changes(messages=(say(case, cause, "dose_is_old", now),), conversation=idle(case, now))
    if (settled := _settled(case, key, cause, now)) is not None:
        return settled
    again = now + timedelta(minutes=minutes)
    close = dose_close(case.plan, case.record, dose, protocol)
    if minutes <= 0 or again >= close or timedelta(minutes=minutes) > protocol.span("later.longest"):
        if now >= close:
            return _too_late(case, dose, cause, now, protocol)
        return Changes(messages=(say(case, cause, "later_not_possible", now, occasion=key,
                                     latest=clock(case, close)),), conversation=asking(case, "how_long", key, now))
    facts = dose_facts(case.plan, dose, protocol)
    reminder = _again(case, dose, cause, again, close, now, facts)
    return Changes(messages=(say(case, cause, "later_noted", now, clock=clock(case, again)), reminder),
                   cancel=(timeline_key(case, key, "dose_repeat"), f"{case.reference}:{key}:later*"),
                   conversation=_remember(case, reminder.key, now))


def missed_asked(case: Case, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'I forgot it, what now?': this patient's own answer. In time: the reminder again; too late: leave it out."""
    dose = open_dose(case, now, protocol)
    if dose is not None:
        close = dose_close(case.plan, case.record, dose, protocol)
        again = _again(case, dose, cause, now, close, now, dose_facts(case.plan, dose, protocol))
        return Changes(messages=(say(case, cause, "dose_still_open", now, latest=clock(case, close)), again),
                       conversation=_remember(case, again.key, now))
    upcoming = next_dose(case, now, protocol)
    return Changes(messages=(say(case, cause, "dose_too_late", now, next_day=_day(case, upcoming),
                                 next_clock=clock(case, upcoming.at) if upcoming else ""),))


def skipped(case: Case, key: str, reason: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Not today: recorded with the reason; the next dose is the usual one, never doubled."""
    dose = find_dose(case, key, now, protocol)
    if dose is None:
        return Changes(messages=(say(case, cause, "dose_is_old", now),), conversation=idle(case, now))
    if (settled := _settled(case, key, cause, now)) is not None:
        return settled
    upcoming = next_dose(case, max(now, dose.at), protocol)
    facts = dose_facts(case.plan, dose, protocol)
    messages = (*_edits(case, dose, "dose_skipped", cause, now, facts),
                say(case, cause, "skip_noted", now, reason=reason, next_day=_day(case, upcoming),
                    next_clock=clock(case, upcoming.at) if upcoming else ""))
    return Changes(entries=(Entry(EntryKind.DOSE_SKIPPED, now, key, {"reason": reason}),), messages=messages,
                   cancel=pending(case, key), conversation=idle(case, now))


def closed(case: Case, key: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:  # noqa: ARG001
    """The dose can no longer be taken: never answered means unknown, not missed."""
    if case.record.dose_answer(key) is not None:
        return Changes()
    open_question = case.conversation.about == key
    if case.record.doses_held() is not None:
        held = Entry(EntryKind.DOSE_SKIPPED, now, key, {"reason": "held"})
        return Changes(entries=(held,), cancel=pending(case, key))
    return Changes(entries=(Entry(EntryKind.DOSE_UNKNOWN, now, key),), cancel=pending(case, key),
                   conversation=idle(case, now) if open_question else None)


def pending(case: Case, key: str) -> tuple[str, ...]:
    """Outbox keys of everything still waiting for this dose's answer."""
    return (*(timeline_key(case, key, kind) for kind in ("dose", "dose_repeat", "dose_held", "dose_closed")),
            f"{case.reference}:{key}:later*")


def _settled(case: Case, key: str, cause: str, now: datetime) -> Changes | None:
    """A dose that stands as taken stays so, whatever old button is tapped; only 'the wrong one' takes it back."""
    standing = case.record.dose_answer(key)
    if standing is None or standing.kind is not EntryKind.DOSE_TAKEN:
        return None
    return Changes(messages=(say(case, cause, "dose_already_taken", now, clock=clock(case, taken_at(standing))),),
                   conversation=idle(case, now))


def _edits(case: Case, dose: Occasion, kind: str, cause: str, now: datetime, facts: dict[str, Any],
           **more: Any) -> tuple[Message, ...]:
    """Every copy of the reminder that may stand in the chat shows the answer, so that a second copy cannot cause a
    second dose."""
    copies = [timeline_key(case, dose.key, kind) for kind in ("dose", "dose_repeat", "dose_held")]
    copies += [key for key in case.conversation.facts.get("copies", []) if f":{dose.key}:" in key]
    return tuple(say(case, f"{cause}:{number}", kind, now, edits=key, occasion=dose.key, **(facts | more))
                 for number, key in enumerate(copies))


def _again(case: Case, dose: Occasion, cause: str, at: datetime, close: datetime, now: datetime,
           facts: dict[str, Any]) -> Message:
    """The reminder once more, at a time the patient asked for."""
    return say(case, f"{dose.key}:later-{cause}", "dose_later", now, due_at=at, send_before=close,
               priority=Priority.DOSE, occasion=dose.key, **facts)


def _remember(case: Case, copy: str, now: datetime) -> Conversation:
    """Back to no open question, remembering the last few copies of reminders, for their edits."""
    calm = idle(case, now)
    return replace(calm, facts={**calm.facts, "copies": [*calm.facts.get("copies", []), copy][-4:]})


def _too_late(case: Case, dose: Occasion, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    upcoming = next_dose(case, max(now, dose.at), protocol)
    return Changes(messages=(say(case, cause, "dose_too_late", now, next_day=_day(case, upcoming),
                                 next_clock=clock(case, upcoming.at) if upcoming else ""),),
                   conversation=idle(case, now))


def _too_close(case: Case, dose: Occasion, at: datetime, protocol: ClinicProtocol) -> bool:
    last = case.record.last_taken()
    return (last is not None and last.about != dose.key
            and abs(at - taken_at(last)) < minimum_gap(len(case.plan.dose_times), protocol))


def _day(case: Case, dose: Occasion | None) -> str:
    return local(dose.at, case.plan.patient.time_zone).date().isoformat() if dose else ""


def _minutes(protocol: ClinicProtocol) -> int:
    return int(protocol.span("window.no_food").total_seconds() // 60)


def reopened(case: Case, key: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'I meant no': the last answer of a dose was a mistake; it is taken back and asked again while there is time."""
    dose = find_dose(case, key, now, protocol)
    if dose is None or case.record.dose_answer(key) is None:
        return Changes(messages=(say(case, cause, "dose_is_old", now),))
    entry = Entry(EntryKind.DOSE_CORRECTED, now, key)
    close = dose_close(case.plan, case.record, dose, protocol)
    stop_window = (f"{case.reference}:{key}:*",)
    if now >= close:
        return Changes(entries=(entry, Entry(EntryKind.DOSE_SKIPPED, now, key, {"reason": "corrected"})),
                       cancel=stop_window, messages=(say(case, cause, "correction_noted", now),))
    again = _again(case, dose, cause, now, close, now, dose_facts(case.plan, dose, protocol))
    return Changes(entries=(entry,), cancel=stop_window,
                   messages=(say(case, cause, "correction_noted", now), again,
                             note(case, f"{key}:{cause}", "dose_closed", close, occasion=key)),
                   conversation=_remember(case, again.key, now))

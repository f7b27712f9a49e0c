"""Doses: taken now, taken earlier, later, not today; the window that starts when the dose is confirmed; the late rule.

A dose reminder is answered by tap or by words. An answer can be changed; a dose is never doubled: what is too late is
skipped, and 'taken' said twice is told so and recorded once.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from bot.case import Case, Changes, Conversation
from bot.conversation import reasons, rinse
from bot.conversation.finding import (
    carried,
    close_of,
    due_dose,
    facts_of,
    find_dose,
    last_dose,
    next_dose,
    open_dose,
    still_to_answer,
    was_taken,
)
from bot.conversation.saying import asking, clock, day_of, idle, note, say, timeline_key
from bot.escalation import assess_event
from scheduler.dayplan import minimum_gap
from scheduler.messages import Message, Priority
from scheduler.occasions import Occasion
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, taken_at
from scheduler.timeline import occasions

REASONS = ("forgot", "ill", "no_medicine", "side_effects", "other")
EARLIER_MINUTES = (10, 20, 30, 60)
LATER_MINUTES = (15, 30, 60, 120)
END_KEEPS = timedelta(minutes=45)   # 'you can eat now' is of no use long after
_MOST_MINUTES = 100_000           # a number of minutes that is typed may have any length
_SAME = timedelta(minutes=2)      # times this near are the same time


def tapped(case: Case, key: str, choice: str, cause: str, now: datetime, protocol: ClinicProtocol, *,
           delayed: bool = False) -> Changes:
    """A button under a dose reminder: now, earlier, later, no. `delayed`: nobody knows when it was tapped."""
    dose = find_dose(case, key, now, protocol)
    if dose is None:
        return Changes(messages=(say(case, cause, "dose_is_old", now),))
    if (settled := _settled(case, key, cause, now)) is not None:
        return settled
    close = close_of(case, dose, protocol)
    if choice == "now" and now < close and not delayed:
        return taken(case, dose, now, cause, now, protocol)
    if choice in ("now", "earlier"):
        # 'taken now' under a reminder of yesterday: the window is not started on a guess, the time is asked
        return ask_when(case, dose, "ask_when_taken", cause, now, protocol)
    if choice == "no":
        return _not_today(case, dose, cause, now, protocol)
    if now >= close:
        return _too_late(case, dose, cause, now, protocol)
    if case.record.doses_held() is not None:
        return Changes(messages=(_held(case, dose, cause, now, protocol),))
    fitting = [m for m in LATER_MINUTES if now + timedelta(minutes=m) < close]
    return Changes(messages=(say(case, cause, "ask_how_long", now, occasion=key, choices=fitting),),
                   conversation=asking(case, "how_long", key, now))


def ask_when(case: Case, dose: Occasion, kind: str, cause: str, now: datetime, protocol: ClinicProtocol, *,
             told: datetime | None = None) -> Changes:
    """When was it taken? Offered are only times at which this dose could be taken. `told`: a time that does not fit."""
    close, first = close_of(case, dose, protocol), dose.at - protocol.span("dose.minimum_gap")
    fitting = [m for m in EARLIER_MINUTES if first <= now - timedelta(minutes=m) < close]
    fits: dict[str, Any] = {"told": clock(case, told), "first": clock(case, first),
                            "last": clock(case, min(now, close))} if told else {}
    return Changes(messages=(say(case, cause, kind, now, occasion=dose.key, choices=fitting, clock=clock(case, dose.at),
                                 **fits),),
                   conversation=asking(case, "when_taken", dose.key, now))


def _not_today(case: Case, dose: Occasion, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Not taken: recorded at once, so that nothing hangs on the reason; then the reason is asked."""
    question = say(case, cause, "ask_why_not", now, occasion=dose.key, choices=list(REASONS))
    entry = Entry(EntryKind.DOSE_SKIPPED, now, dose.key, {"reason": ""})
    edits = _edits(case, dose, "dose_skipped", cause, now, facts_of(case, dose, protocol))
    skip = Changes(entries=(entry,), messages=(*edits, question), cancel=pending(case, dose.key),
                   conversation=asking(case, "why_not", dose.key, now))
    return skip + assess_event(case.after(skip), "dose_skipped", {"occasion": dose.key}, now, protocol)


def said_taken(case: Case, told: datetime | None, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'done', 'took it at 8' when no question is open: about the open dose, else about the last one that was due.

    Said again it is the same dose, told so; said after 'not today' or of a dose never answered it is put right.
    """
    dose = open_dose(case, now, protocol)
    if dose is not None:
        return (tapped(case, dose.key, "now", cause, now, protocol) if told is None else
                told_earlier(case, dose.key, told, cause, now, protocol, corrects=True))
    last = last_dose(case, now, protocol)
    if last is not None and told is not None:
        return told_earlier(case, last.key, told, cause, now, protocol, corrects=True)
    if last is not None and (now < close_of(case, last, protocol) or not was_taken(case, last.key)):
        return tapped(case, last.key, "now", cause, now, protocol)
    return Changes(messages=(say(case, cause, "nothing_open", now),))


def taken(case: Case, dose: Occasion, at: datetime, cause: str, now: datetime, protocol: ClinicProtocol, *,
          quiet: bool = False) -> Changes:
    """The dose was taken at `at` (<= now): record it, start the window at that instant, show the reminder as taken.

    quiet: nothing is said of the window (the wait is broken already, or something graver is answered).
    """
    facts = facts_of(case, dose, protocol)
    until = at + protocol.span("window.no_food")
    entry = Entry(EntryKind.DOSE_TAKEN, now, dose.key,
                  {"taken_at": at.isoformat(), "units": facts["units"], "unit": facts["unit"],
                   "amount": facts["amount"]})
    messages: list[Message] = list(_edits(case, dose, "dose_taken", cause, now, facts, taken=clock(case, at)))
    rinse_first = protocol.text("rinse.order") == "at once"
    rinsed = rinse.stands(case, dose.key)
    if quiet:
        return Changes(entries=(entry,), messages=tuple(messages), cancel=pending(case, dose.key),
                       replan="told" in dose.facts)
    if _too_close(case, dose, at, protocol):
        messages.append(say(case, cause, "doses_close_together", now, priority=Priority.ANSWER))
    if case.record.doses_held() is not None:   # nothing is said about eating, drinking or rinsing in an emergency
        messages.append(say(case, cause, "taken_while_held", now, clock=clock(case, at),
                            emergency_number=protocol.text("care.emergency_number", case.plan.patient.language)))
    elif until > now:
        messages.append(say(case, cause, "window_open", now, until=clock(case, until), occasion=dose.key,
                            rinse_first=rinse_first and not rinsed, minutes=_minutes(protocol)))
        messages.append(say(case, f"{dose.key}:{cause}", "window_end", now, due_at=until, priority=Priority.DOSE,
                            send_before=until + END_KEEPS, day_key=dose.key, rinse_now=not (rinse_first or rinsed)))
    else:
        messages.append(say(case, cause, "window_over", now, occasion=dose.key, minutes=_minutes(protocol),
                            rinsed=rinsed))
    # told under a reminder of the plan before: what the new timeline holds for the same dose is taken out again
    return Changes(entries=(entry,), messages=tuple(messages), cancel=pending(case, dose.key),
                   conversation=idle(case, now), replan="told" in dose.facts)


def plan_changed(case: Case, plan: Plan, version: int, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """`plan` comes into force as `version`; `case` is the case before. A reminder that is out is answered as it was
    told, unless the new plan asks for the same dose of the day later on: then it says so and has no buttons."""
    new = replace(case, plan=plan, row=replace(case.row, plan_version=version))
    coming = {(o.day, o.slot): o for o in occasions(plan, case.record, protocol, now, now + timedelta(days=1),
                                                    version=version, doses_only=True)}
    kept, messages = carried(case, now, protocol), list[Message]()
    for dose, close in still_to_answer(case, now, protocol):
        again = coming.get((dose.day, dose.slot)) if dose.slot is not None else None
        if again is None:
            messages.append(note(case, dose.key, "dose_closed", close, occasion=dose.key))
            continue
        kept = replace(kept, facts={**kept.facts, "before": {
            key: one for key, one in kept.facts["before"].items() if key != dose.key}})
        messages += _edits(case, dose, "dose_moved", cause, now, facts_of(case, dose, protocol),
                           moved=clock(new, again.at))
    return Changes(messages=tuple(messages), conversation=kept)


def told_earlier(case: Case, key: str, at: datetime | None, cause: str, now: datetime,
                 protocol: ClinicProtocol, *, corrects: bool = False) -> Changes:
    """An answer to 'when did you take it?'; `at` None when the words gave no time.

    corrects: words that name a time put an earlier answer right; a tap under an old question does not.
    """
    dose = find_dose(case, key, now, protocol)
    if dose is None:
        return Changes(messages=(say(case, cause, "dose_is_old", now),), conversation=idle(case, now))
    fits = at is not None and can_be(case, dose, at, now, protocol)
    standing = case.record.dose_answer(key)
    if (corrects and fits and at is not None and standing is not None and standing.kind is EntryKind.DOSE_TAKEN
            and at <= standing.at and abs(at - taken_at(standing)) > _SAME):
        # the time was another one: never a time after it was told, which would be a second dose
        undone = Changes(entries=(Entry(EntryKind.DOSE_CORRECTED, now, key, {"reason": rinse.TIME}),),
                         cancel=(f"{case.reference}:{key}:*",))
        return undone + taken(case.after(undone), dose, at, cause, now, protocol)
    if (settled := _settled(case, key, cause, now)) is not None:
        return settled
    if at is None:
        return ask_when(case, dose, "time_not_clear", cause, now, protocol)
    if not fits:
        return ask_when(case, dose, "time_not_fitting", cause, now, protocol, told=at)
    return taken(case, dose, at, cause, now, protocol)


def can_be(case: Case, dose: Occasion, at: datetime, now: datetime, protocol: ClinicProtocol) -> bool:
    """Whether this dose can have been taken at `at`."""
    return at <= now and dose.at - protocol.span("dose.minimum_gap") <= at < close_of(case, dose, protocol)


def later(case: Case, key: str, minutes: int, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Remind again in so many minutes, when the dose can still be taken then."""
    dose = find_dose(case, key, now, protocol)
    if dose is None:
        return Changes(messages=(say(case, cause, "dose_is_old", now),), conversation=idle(case, now))
    if (settled := _settled(case, key, cause, now)) is not None:
        return settled
    close = close_of(case, dose, protocol)
    if now >= close:
        return _too_late(case, dose, cause, now, protocol)
    if case.record.doses_held() is not None:
        return Changes(messages=(_held(case, dose, cause, now, protocol),), conversation=idle(case, now))
    again = now + timedelta(minutes=min(minutes, _MOST_MINUTES))
    if minutes <= 0 or again >= close or again - now > protocol.span("later.longest"):
        return _not_so_late(case, dose, close, cause, now, protocol)
    facts = facts_of(case, dose, protocol)
    reminder = _again(case, dose, cause, again, close, now, facts)
    return Changes(messages=(say(case, cause, "later_noted", now, clock=clock(case, again)), reminder),
                   cancel=(timeline_key(case, key, "dose_repeat"), f"{case.reference}:{key}:later*"),
                   conversation=remember(case, reminder.key, now))


def _not_so_late(case: Case, dose: Occasion, close: datetime, cause: str, now: datetime,
                 protocol: ClinicProtocol) -> Changes:
    """A reminder cannot be put off so far: by when it can, and, which is another thing, until when the dose can be
    taken."""
    longest = protocol.span("later.longest")
    kind = "later_not_possible" if now + longest < close else "later_not_after_close"
    hours = longest.total_seconds() / 3600
    choices = [m for m in LATER_MINUTES if timedelta(minutes=m) <= longest and now + timedelta(minutes=m) < close]
    return Changes(messages=(say(case, cause, kind, now, occasion=dose.key, hours=f"{hours:g}",
                                 latest=clock(case, now + longest), close=clock(case, close), choices=choices),),
                   conversation=asking(case, "how_long", dose.key, now))


def missed_asked(case: Case, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'I forgot it, what now?': this patient's own answer. In time: the reminder again; too late: leave it out."""
    dose = due_dose(case, now, protocol)
    if dose is not None and case.record.doses_held() is not None:
        return Changes(messages=(_held(case, dose, cause, now, protocol),))
    if dose is not None:
        close = close_of(case, dose, protocol)
        again = _again(case, dose, cause, now, close, now, facts_of(case, dose, protocol))
        return Changes(messages=(say(case, cause, "dose_still_open", now, latest=clock(case, close)), again),
                       conversation=remember(case, again.key, now))
    upcoming = next_dose(case, now, protocol)
    return Changes(messages=(say(case, cause, "dose_too_late", now, next_day=day_of(case, upcoming),
                                 next_clock=clock(case, upcoming.at) if upcoming else ""),))


def skipped(case: Case, key: str, reason: str, cause: str, now: datetime, protocol: ClinicProtocol, *,
            words: str = "") -> Changes:
    """Not today: recorded with the reason; the next dose is the usual one, never doubled. words: as it was typed."""
    dose = find_dose(case, key, now, protocol)
    if dose is None:
        return Changes(messages=(say(case, cause, "dose_is_old", now),), conversation=idle(case, now))
    if (settled := _settled(case, key, cause, now)) is not None:   # taken by now; the reason is heard all the same
        return settled + reasons.passed_on(case, reason, cause, now, protocol, words=words)
    standing = case.record.dose_answer(key)
    known = standing is not None and standing.kind is EntryKind.DOSE_SKIPPED
    if known and standing is not None and standing.facts.get("reason") == reason:
        return Changes(conversation=idle(case, now))   # the same reason tapped twice
    upcoming = next_dose(case, max(now, dose.at), protocol)
    edits = () if known else _edits(case, dose, "dose_skipped", cause, now, facts_of(case, dose, protocol))
    noted = say(case, cause, "skip_noted", now, reason=reason, next_day=day_of(case, upcoming),
                next_clock=clock(case, upcoming.at) if upcoming else "")
    skip = Changes(entries=(Entry(EntryKind.DOSE_SKIPPED, now, key, {"reason": reason}),), messages=(*edits, noted),
                   cancel=pending(case, key), conversation=idle(case, now))
    return skip + reasons.passed_on(case.after(skip), reason, cause, now, protocol, words=words)


def closed(case: Case, key: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:  # noqa: ARG001
    """The dose can no longer be taken: never answered means unknown, not missed. How many units it was is kept, since
    a changed plan asks for others."""
    if case.record.dose_answer(key) is not None:
        return Changes()
    open_question = case.conversation.about == key
    if case.record.doses_held() is not None:
        held = Entry(EntryKind.DOSE_SKIPPED, now, key, {"reason": "held"})
        return Changes(entries=(held,), cancel=pending(case, key))
    dose = find_dose(case, key, now, protocol)
    facts = {"units": facts_of(case, dose, protocol)["units"]} if dose else {}
    return Changes(entries=(Entry(EntryKind.DOSE_UNKNOWN, now, key, facts),), cancel=pending(case, key),
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
    copies = [timeline_key(case, dose.key, kind) for kind in ("dose", "dose_repeat", "dose_held", "dose_asked")]
    copies += [key for key in case.conversation.facts.get("copies", []) if f":{dose.key}:" in key]
    return tuple(say(case, f"{cause}:{number}", kind, now, edits=key, occasion=dose.key, **(facts | more))
                 for number, key in enumerate(copies))


def shown_again(case: Case, dose: Occasion, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The reminder with its buttons once more, where the words did not say what happened with the dose."""
    if case.record.doses_held() is not None:
        return Changes(messages=(_held(case, dose, cause, now, protocol),))
    copy = say(case, f"{dose.key}:{cause}", "dose_repeat", now, priority=Priority.ANSWER, day_key=dose.key,
               **facts_of(case, dose, protocol))
    return Changes(messages=(copy,), conversation=remember(case, copy.key, now))


def did_you(case: Case, dose: Occasion, now: datetime, protocol: ClinicProtocol, *, rinsed: bool = False) -> Changes:
    """'Did you take it?', where words spoke of the dose without saying so plainly: in place of the repeated reminder,
    and once more at its time, since no dose is to be forgotten either."""
    if case.record.doses_held() is not None:
        return Changes()
    facts = {**facts_of(case, dose, protocol), "day_key": dose.key}
    first = say(case, dose.key, "dose_asked", now, rinsed=rinsed, **facts)
    again = say(case, f"{dose.key}:later-asked", "dose_asked", now, priority=Priority.DOSE,
                due_at=now + protocol.span("dose.repeat_reminder_after"),
                send_before=close_of(case, dose, protocol), rinsed=False, **facts)
    remembered = remember(case, again.key, now)
    return Changes(messages=(first, again), conversation=remembered,
                   cancel=(timeline_key(case, dose.key, "dose_repeat"), f"{case.reference}:{dose.key}:later*"))


def _held(case: Case, dose: Occasion, cause: str, now: datetime, protocol: ClinicProtocol) -> Message:
    """While doses are held the answer to anything about a dose is: not until a doctor says so."""
    held = case.record.doses_held()
    return say(case, cause, "dose_held", now, day_key=dose.key, flag=held.about if held else "",
               **facts_of(case, dose, protocol))


def _again(case: Case, dose: Occasion, cause: str, at: datetime, close: datetime, now: datetime,
           facts: dict[str, Any]) -> Message:
    """The reminder once more, at a time the patient asked for."""
    return say(case, f"{dose.key}:later-{cause}", "dose_later", now, due_at=at, send_before=close,
               priority=Priority.DOSE, day_key=dose.key, **facts)   # day_key: a new timeline leaves it standing


def remember(case: Case, copy: str, now: datetime) -> Conversation:
    """Back to no open question, remembering the last few copies of reminders, for their edits."""
    calm = idle(case, now)
    return replace(calm, facts={**calm.facts, "copies": [*calm.facts.get("copies", []), copy][-4:]})


def _too_late(case: Case, dose: Occasion, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    upcoming = next_dose(case, max(now, dose.at), protocol)
    return Changes(messages=(say(case, cause, "dose_too_late", now, next_day=day_of(case, upcoming),
                                 next_clock=clock(case, upcoming.at) if upcoming else ""),),
                   conversation=idle(case, now))


def _too_close(case: Case, dose: Occasion, at: datetime, protocol: ClinicProtocol) -> bool:
    last = case.record.last_taken()
    return (last is not None and last.about != dose.key
            and abs(at - taken_at(last)) < minimum_gap(len(case.plan.dose_times), protocol))


def _minutes(protocol: ClinicProtocol) -> int:
    return int(protocol.span("window.no_food").total_seconds() // 60)


def reopened(case: Case, key: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'I tapped the wrong one': the last answer of a dose was a mistake; it is taken back and asked again."""
    dose, standing = find_dose(case, key, now, protocol), case.record.dose_answer(key)
    if dose is None:
        return Changes(messages=(say(case, cause, "dose_is_old", now),))
    if standing is None:
        return Changes()                 # tapped twice: it is taken back already
    entry, close = Entry(EntryKind.DOSE_CORRECTED, now, key), close_of(case, dose, protocol)
    shown = _edits(case, dose, "dose_reopened", cause, now, facts_of(case, dose, protocol))
    back = Changes(entries=(entry,), messages=shown, cancel=(f"{case.reference}:{key}:*",))
    if now >= close and standing.kind is EntryKind.DOSE_SKIPPED:   # so it was taken after all: when?
        back += Changes(entries=(Entry(EntryKind.DOSE_UNKNOWN, now, key),))
        return back + ask_when(case, dose, "ask_when_taken", cause, now, protocol)
    if now >= close:
        return back + Changes(entries=(Entry(EntryKind.DOSE_SKIPPED, now, key, {"reason": "corrected"}),),
                              messages=(say(case, cause, "correction_late", now),))
    noted = Changes(messages=(say(case, cause, "correction_noted", now),
                              note(case, f"{key}:{cause}", "dose_closed", close, occasion=key)))
    if case.record.doses_held() is not None:
        return back + noted + Changes(messages=(_held(case, dose, cause, now, protocol),))
    again = _again(case, dose, cause, now, close, now, facts_of(case, dose, protocol))
    return back + noted + Changes(messages=(again,), conversation=remember(case, again.key, now))

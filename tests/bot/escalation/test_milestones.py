"""A summary for the care team says what is so when it is posted, not when it was made ready."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

from bot.case import Case, Changes
from bot.escalation import assess_event, on_note
from bot.understanding.types import Finding as F
from scheduler.messages import To
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind

Say = Callable[..., Changes]


def test_the_figures_are_those_of_the_posting(case: Case, say: Say, dose: Callable[..., Entry], monday: datetime,
                                              protocol: ClinicProtocol) -> None:
    """A step, then a dose and a flag, then the card: it says 'taken 1, flags 1'."""
    made = assess_event(case, "step_change", {"occasion": "v1:step:2"}, monday, protocol)
    note = next(one for one in made.messages if one.kind == "summary")
    assert note.to is To.AGENT and note.due_at > monday
    after = case.after(made).after(Changes(entries=(dose(EntryKind.DOSE_TAKEN, 0),)))
    after = after.after(say(after, F.THRUSH))
    shown = on_note(after, note, note.due_at, protocol).messages
    assert [one.kind for one in shown] == ["milestone"] and shown[0].to is To.CARE and shown[0].due_at == note.due_at
    figures = shown[0].facts
    assert (figures["title"], figures["taken"], figures["open_flags"], figures["flags"]) == ("step", 1, 1, 1)


def test_week_and_endoscopy_of_one_day_are_one_summary(case: Case, monday: datetime, protocol: ClinicProtocol) -> None:
    week = assess_event(case, "milestone", {"occasion": "m", "completed_weeks": 8}, monday, protocol)
    due = assess_event(case, "endoscopy_due", {"occasion": "e"}, monday + timedelta(minutes=5), protocol)
    keys = {one.key for changes in (week, due) for one in changes.messages if one.kind == "summary"}
    assert len(keys) == 1

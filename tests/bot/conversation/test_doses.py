"""Doses in the conversation: the window starts when the dose is confirmed; late is taken or skipped, never doubled."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.case import Case, Changes, PatientRow, PatientState
from bot.conversation import doses, finding
from bot.conversation.table import Moment, Tap, tapped
from bot.rehearsal.demo import demo_plan
from scheduler.localtime import local
from scheduler.protocol import load_protocol
from scheduler.record import Entry, EntryKind, Record, taken_at

PROTOCOL = load_protocol()
PLAN = demo_plan("adult_slurry", PROTOCOL)       # 07:45 and 21:30 in Denver, 1 mg each, from 2 March
ROW = PatientRow("KT-014", PatientState.ACTIVE, 1, chat="1")
MORNING = datetime(2026, 3, 3, 14, 45, tzinfo=UTC)   # 07:45 there
ZONE = PLAN.patient.time_zone
KEY = "v1:d:20260303:0"


def case(*entries: Entry) -> Case:
    return Case(ROW, PLAN, Record(entries))


def kinds(changes: Changes) -> list[str]:
    return [message.kind for message in changes.messages]


def tap(on: Case, data: str, now: datetime) -> Changes:
    found = Tap.parse(data)
    assert found is not None
    return tapped(on, found, Moment("u1", now, PROTOCOL))


def test_the_dose_key_is_the_timelines() -> None:
    found = finding.open_dose(case(), MORNING + timedelta(minutes=5), PROTOCOL)
    assert found is not None and found.key == KEY


def test_taken_starts_the_window_at_that_instant() -> None:
    now = MORNING + timedelta(minutes=17)
    changes = tap(case(), f"d:{KEY}:now", now)
    assert changes.entries[0].kind is EntryKind.DOSE_TAKEN and taken_at(changes.entries[0]) == now
    end = next(message for message in changes.messages if message.kind == "window_end")
    assert end.due_at == now + PROTOCOL.span("window.no_food")
    assert f"{local(end.due_at, PLAN.patient.time_zone):%H:%M}" == "08:32"


def test_taken_twice_is_told_and_recorded_once() -> None:
    taken = tap(case(), f"d:{KEY}:now", MORNING).entries
    again = tap(case(*taken), f"d:{KEY}:now", MORNING + timedelta(hours=1))
    assert not again.entries and kinds(again) == ["dose_already_taken"]


def test_a_window_that_is_over_is_not_opened() -> None:
    now = MORNING + timedelta(minutes=50)
    changes = tap(case(), f"e:{KEY}:60", now)
    assert "window_over" in kinds(changes) and "window_end" not in kinds(changes)


@pytest.mark.parametrize("told", [timedelta(minutes=-5), timedelta(hours=30)])
def test_a_time_that_cannot_be_is_asked_again(told: timedelta) -> None:
    changes = doses.told_earlier(case(), KEY, MORNING - told, "u1", MORNING, PROTOCOL)
    assert kinds(changes) == ["time_not_fitting"] and not changes.entries
    facts = changes.messages[0].facts
    assert facts["told"] == f"{local(MORNING - told, ZONE):%H:%M}"
    assert facts["first"] < facts["clock"] <= facts["last"], "it says which times do fit"


def test_taken_now_under_yesterdays_reminder_asks_when() -> None:
    changes = tap(case(), f"d:{KEY}:now", MORNING + timedelta(hours=20))
    assert kinds(changes) == ["ask_when_taken"] and not changes.entries


def test_later_past_the_limit_is_refused_and_past_all_is_skipped() -> None:
    close = datetime(2026, 3, 3, 22, 30, tzinfo=UTC)      # six hours before 21:30 (common practice, no source)
    assert kinds(tap(case(), f"l:{KEY}:30", close - timedelta(minutes=10))) == ["later_not_after_close"]
    assert kinds(tap(case(), f"l:{KEY}:30", close)) == ["dose_too_late"]
    assert "dose_later" in kinds(tap(case(), f"l:{KEY}:30", close - timedelta(hours=1)))


def test_how_far_a_reminder_is_put_off_is_another_thing_than_how_long_the_dose_can_be_taken() -> None:
    """Both are said, at every minute the same close; and while doses are held, neither."""
    for minute in (0, 1, 65):
        now = MORNING + timedelta(minutes=minute)
        changes = doses.later(case(), KEY, 10 ** 12, "u1", now, PROTOCOL)
        assert kinds(changes) == ["later_not_possible"]
        facts = changes.messages[0].facts
        assert (facts["close"], facts["hours"]) == ("15:30", "3")
        limit = local(now + timedelta(hours=3), ZONE)
        assert facts["latest"] == f"{limit:%H:%M}" and facts["latest"] < facts["close"]
    held = Entry(EntryKind.DOSES_HELD, MORNING, "KT-014/1")
    assert kinds(doses.later(case(held), KEY, 10 ** 12, "u1", MORNING, PROTOCOL)) == ["dose_held"]


def test_two_doses_close_together_are_told() -> None:
    evening = datetime(2026, 3, 3, 4, 30, tzinfo=UTC)     # 21:30 the day before; taken at 03:30
    late = Entry(EntryKind.DOSE_TAKEN, evening + timedelta(hours=6), "v1:d:20260302:1",
                 {"taken_at": (evening + timedelta(hours=6)).isoformat(), "units": 2, "amount": "1 mg"})
    assert "doses_close_together" in kinds(tap(case(late), f"d:{KEY}:now", MORNING))


def test_a_dose_never_answered_is_unknown_not_missed() -> None:
    changes = doses.closed(case(), KEY, "c", MORNING + timedelta(hours=8), PROTOCOL)
    assert [entry.kind for entry in changes.entries] == [EntryKind.DOSE_UNKNOWN]
    answered = case(Entry(EntryKind.DOSE_SKIPPED, MORNING, KEY, {"reason": "ill"}))
    assert doses.closed(answered, KEY, "c", MORNING + timedelta(hours=8), PROTOCOL) == Changes()


def test_a_wrong_tap_is_taken_back_and_its_window_ends() -> None:
    taken = tap(case(), f"d:{KEY}:now", MORNING)
    back = tap(case(*taken.entries), f"x:{KEY}:undo", MORNING + timedelta(minutes=1))
    assert [entry.kind for entry in back.entries] == [EntryKind.DOSE_CORRECTED]
    window_end = next(message.key for message in taken.messages if message.kind == "window_end")
    assert any(key.endswith("*") and window_end.startswith(key[:-1]) for key in back.cancel)
    assert "dose_later" in kinds(back)


def test_every_copy_of_a_reminder_shows_the_answer() -> None:
    later = tap(case(), f"l:{KEY}:30", MORNING)
    copy = next(message for message in later.messages if message.kind == "dose_later")
    taken = tap(case().after(later), f"d:{KEY}:now", MORNING + timedelta(minutes=31))
    edited = {message.edits for message in taken.messages if message.edits}
    assert {copy.key, f"KT-014:{KEY}:dose", f"KT-014:{KEY}:dose_repeat"} <= edited


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 60 * 40), st.sampled_from(
    [f"d:{KEY}:now", f"d:{KEY}:later", f"d:{KEY}:no", f"e:{KEY}:20", f"l:{KEY}:60", f"n:{KEY}:ill", f"x:{KEY}:undo"])),
    max_size=8))
def test_whatever_is_tapped_a_dose_is_taken_at_most_once(taps: list[tuple[int, str]]) -> None:
    """Any order of taps on one dose: never two answers 'taken' that stand, and every message has its own key."""
    found, now = case(), MORNING
    for number, (minutes, data) in enumerate(sorted(taps)):
        now = MORNING + timedelta(minutes=minutes)
        parsed = Tap.parse(data)
        assert parsed is not None
        changes = tapped(found, parsed, Moment(f"u{number}", now, PROTOCOL))
        keys = [message.key for message in changes.messages]
        assert len(set(keys)) == len(keys)
        found = found.after(changes)
        standing = [entry for key, entry in found.record.dose_answers.items() if key == KEY]
        assert len(standing) <= 1
        taken = sum(entry.kind is EntryKind.DOSE_TAKEN for entry in found.record.entries)
        undone = sum(entry.kind is EntryKind.DOSE_CORRECTED for entry in found.record.entries)
        assert taken - undone <= 1

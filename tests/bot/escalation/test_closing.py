"""What the patient reads when a flag is closed without a word to them, one follow-up a sign, and whose time and words
a flag shows once it has risen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta

import pytest

from bot.care import digest
from bot.care.render import render as care_render
from bot.case import Case, Changes, PatientState
from bot.escalation import assess_event, life, on_note, telling
from bot.escalation.flags import closing_keys, is_late
from bot.texts.render import render
from bot.understanding.types import Finding as F
from bot.understanding.types import Urgency
from scheduler.messages import Message, To
from scheduler.protocol import ClinicProtocol, load_protocol
from scheduler.record import Entry, EntryKind

Say = Callable[..., Changes]
OUTCOMES = load_protocol().items("care.outcomes")
HOUR, MINUTE = timedelta(hours=1), timedelta(minutes=1)


def close(case: Case, outcome: str, now: datetime, protocol: ClinicProtocol) -> tuple[Case, list[Message]]:
    flag = case.open_flags[-1].id
    changes = life.close(case, flag, "Ann (nurse)", outcome, "", now, protocol).changes
    return case.after(changes), [one for one in changes.messages if one.to is To.PATIENT]


# --- closing


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("writer", ["patient", "parent"])
@pytest.mark.parametrize("outcome", [*OUTCOMES, "another one"])
def test_every_outcome_is_told(outcome: str, writer: str, language: str, make_case: Callable[..., Case], say: Say,
                               monday: datetime, protocol: ClinicProtocol) -> None:
    case = make_case(writer=writer)
    case = replace(case, plan=replace(case.plan, patient=replace(case.plan.patient, language=language)))
    case = case.after(say(case, F.THRUSH))
    told = telling.closed(case, replace(case.flags[0], outcome=outcome), monday, protocol, doses_go_on=False)
    assert told is not None and told.due_at == monday + 5 * MINUTE, "time to write first"
    text = render(told).text
    assert ("Tell me at once if" if language == "en" else "Dime enseguida si") in text and "911" in (
        text if outcome != "no answer from patient" else f"{text} 911")
    assert "worr" not in text and "preocup" not in text
    assert told.facts["text_keys"] == [f"escalation.closed.{telling.CLOSED.get(outcome, 'other')}"]


def test_every_outcome_of_the_example_has_its_sentence() -> None:
    assert set(telling.CLOSED) == set(OUTCOMES)


def test_self_harm_is_never_closed_with_nothing_to_add(case: Case, say: Say, monday: datetime,
                                                       protocol: ClinicProtocol) -> None:
    _, told = close(case.after(say(case, F.SELF_HARM)), "nothing to do", monday, protocol)
    text = render(told[0]).text
    assert "988" in text and "911" in text and "nothing" not in text


def test_an_emergency_is_never_closed_with_nothing_to_add(case: Case, say: Say, monday: datetime,
                                                          protocol: ClinicProtocol) -> None:
    case = case.after(say(case, F.IMPACTION_NOW))
    text = render(close(case, "nothing to do", monday, protocol)[1][0]).text
    assert "If it is still as you told me, call 911 now." in text and "nothing to add" not in text


def test_a_closed_flags_follow_up_wakes_nobody(case: Case, say: Say, monday: datetime,
                                               protocol: ClinicProtocol) -> None:
    late = monday + 12 * HOUR                            # 22:00 in Denver; three hours later it is 01:00
    said = say(case, F.IMPACTION_NOW, at=late)
    due = next(one for one in said.messages if one.kind == "follow_up")
    closed, _ = close(case.after(said), "seen in clinic", late + HOUR, protocol)
    wakes = datetime.fromisoformat("2026-03-17T06:45:00-06:00")
    assert [one.due_at for one in on_note(closed, due, due.due_at, protocol).messages] == [wakes]
    assert [one.due_at for one in on_note(case.after(said), due, due.due_at, protocol).messages] == [due.due_at]


def test_who_was_written_to_is_told_no_more(case: Case, say: Say, monday: datetime, protocol: ClinicProtocol) -> None:
    case = case.after(say(case, F.THRUSH))
    written = case.after(Changes(flags=telling.answered(case, monday + MINUTE)))
    assert close(written, "advice given", monday + HOUR, protocol)[1] == []
    wrote_again = written.after(say(written, F.HOARSENESS, text="and hoarse", reply="u2", at=monday + 2 * MINUTE))
    assert len(close(wrote_again, "advice given", monday + HOUR, protocol)[1]) == 1, "those words had no answer"


def test_who_has_left_and_what_the_record_shows_are_not_told(case: Case, say: Say, monday: datetime,
                                                             protocol: ClinicProtocol) -> None:
    left = case.after(say(case, F.THRUSH))
    left = replace(left, row=replace(left.row, state=PatientState.ENDED))
    assert close(left, "nothing to do", monday, protocol)[1] == []
    supply = case.after(assess_event(case, "supply_low", {"about": "x"}, monday, protocol))
    assert close(supply, "nothing to do", monday, protocol)[1] == []


def test_nobody_is_said_to_read_what_the_patient_did_not_write(case: Case, say: Say, monday: datetime,
                                                                protocol: ClinicProtocol) -> None:
    lost = case.after(assess_event(case, "undeliverable", {"about": "x"}, monday, protocol))
    assert lost.flags[0].urgency is Urgency.URGENT
    left = case.after(say(case, F.THRUSH))
    left = replace(left, row=replace(left.row, state=PatientState.ENDED))
    for one in (lost, left):
        taken = life.take(one, one.flags[0].id, "Ann (nurse)", monday, protocol).changes
        assert taken.flags and not [message for message in taken.messages if message.to is To.PATIENT]


def test_reopened_in_time_nothing_is_told(case: Case, say: Say, monday: datetime, protocol: ClinicProtocol) -> None:
    case, told = close(case.after(say(case, F.THRUSH)), "nothing to do", monday, protocol)
    cancelled = life.reopen(case, "KT-014/1", "Ann (nurse)", monday + MINUTE, protocol).changes
    assert [key for key in cancelled.cancel if told[0].key.startswith(key.rstrip("*"))]
    assert told[0].key.startswith(closing_keys(case).rstrip("*")), "and so does writing"
    again = close(case.after(cancelled), "advice given", monday + 2 * MINUTE, protocol)[1]
    assert again[0].key != told[0].key, "what was cancelled does not swallow the next one"


def test_new_words_take_the_place_of_the_sentence(case: Case, say: Say, monday: datetime,
                                                  protocol: ClinicProtocol) -> None:
    case, told = close(case.after(say(case, F.THRUSH)), "nothing to do", monday, protocol)
    worse = say(case, F.IMPACTION_NOW, text="food is stuck", reply="u2", at=monday + MINUTE)
    assert any(told[0].key.startswith(key.rstrip("*")) for key in worse.cancel if key.endswith("*"))


def test_a_sentence_that_new_words_hold_back_is_told_to_the_care_team(case: Case, say: Say, monday: datetime,
                                                                      protocol: ClinicProtocol) -> None:
    case, told = close(case.after(say(case, F.THRUSH)), "nothing to do", monday, protocol)
    words = say(case, text="can i eat now", needs_human=True, reply="u2", at=monday + MINUTE)
    assert any(told[0].key.startswith(key.rstrip("*")) for key in words.cancel if key.endswith("*"))
    seen = [care_render(one, protocol).text for one in words.messages if one.kind == "desk"]
    assert len(seen) == 1 and "the sentence about KT-014/1 was not sent" in seen[0]
    late = say(case, text="can i eat now", needs_human=True, reply="u2", at=monday + 6 * MINUTE)
    assert not [one for one in late.messages if one.kind == "desk"], "by then it has left"


@pytest.mark.parametrize("outcome", ["sent to emergency care", "treated", "advice given"])
def test_a_sentence_that_says_what_to_do_is_sent_whatever_is_written(
        outcome: str, case: Case, say: Say, monday: datetime, protocol: ClinicProtocol) -> None:
    case, told = close(case.after(say(case, F.IMPACTION_NOW)), outcome, monday, protocol)
    words = say(case, text="they said i can take it", needs_human=True, reply="u2", at=monday + MINUTE)
    assert words.flags and not any(told[0].key.startswith(key.rstrip("*")) for key in words.cancel)


def test_held_doses_go_on_in_the_same_message(case: Case, say: Say, monday: datetime,
                                              protocol: ClinicProtocol) -> None:
    case = case.after(say(case, F.IMPACTION_NOW))
    case = case.after(Changes(entries=(Entry(EntryKind.DOSES_HELD, monday, "KT-014/1", {}),)))
    told = close(case, "seen in clinic", monday, protocol)[1]
    assert [one.due_at for one in told] == [monday]
    assert "you were seen" in render(told[0]).text and "The dose reminders go on as planned." in render(told[0]).text
    kept = close(case, "sent to emergency care", monday, protocol)[1]
    assert "go now, or call 911" in render(kept[0]).text and "reminders go on" not in render(kept[0]).text


# --- one follow-up a sign


def follow_ups(case: Case, notes: list[Message], protocol: ClinicProtocol) -> list[str]:
    texts = []
    for due in sorted(notes, key=lambda note: note.due_at):
        changes = on_note(case, due, due.due_at, protocol)
        case = case.after(changes)
        texts += [render(message).text for message in changes.messages]
    return texts


def test_the_same_sign_again_after_closing_is_asked_about_once(case: Case, say: Say, monday: datetime,
                                                               protocol: ClinicProtocol) -> None:
    first = say(case, F.THRUSH)
    case, _ = close(case.after(first), "nothing to do", monday + HOUR, protocol)
    second = say(case, F.THRUSH, F.ODYNOPHAGIA, text="still white, and it hurts", reply="u2", at=monday + 4 * HOUR)
    case = case.after(second)
    notes = [one for one in (*first.messages, *second.messages) if one.kind == "follow_up"]
    asked = follow_ups(case, notes, protocol)
    assert len(notes) == 2 and len(asked) == 1
    assert "white patches or a sore mouth and pain when you swallow" in asked[0].replace(
        "pain when you swallow and white patches or a sore mouth", "white patches or a sore mouth and pain when you "
        "swallow")


def test_a_flag_that_rose_asks_again_only_about_what_is_new(case: Case, say: Say, monday: datetime,
                                                            protocol: ClinicProtocol) -> None:
    first = say(case, F.THRUSH)
    case = case.after(first)
    second = say(case, F.IMPACTION_NOW, text="food is stuck", reply="u2", at=monday + 2 * HOUR)
    case = case.after(second)
    asked = follow_ups(case, [one for one in (*first.messages, *second.messages) if one.kind == "follow_up"], protocol)
    assert len(asked) == 1 and "food is stuck and white patches" in asked[0], "both at once, three hours later"


# --- time, words and calls of what made it urgent


def test_a_flag_that_rose_shows_when_and_why(case: Case, say: Say, monday: datetime, protocol: ClinicProtocol) -> None:
    case = case.after(say(case, text="fine", needs_human=True))
    rose = say(case, F.BREATHING_TROUBLE, text="can't breathe", reply="u2", at=monday + 7 * MINUTE)
    case = case.after(rose)
    due = next(one for one in rose.messages if one.kind == "flag_overdue" and one.facts["stage"])
    calls, truth = [], []
    for _ in range(3):
        changes = on_note(case, due, due.due_at, protocol)
        case = case.after(changes)
        calls += [one.facts["raises"] for one in changes.messages if one.to is To.CARE]
        truth += [render(one).text for one in changes.messages if one.to is To.PATIENT]
        due = next(one for one in changes.messages if one.kind == "flag_overdue")
    assert calls == [2, 3, 4], "the first call was the alarm itself"
    assert len(truth) == 1 and "your message from 10:07" in truth[0]
    row = digest.row(case.flags[0], monday + HOUR)
    assert (row["words"], row["raised_at"], row["late"]) == (
        "can't breathe", (monday + 7 * MINUTE).isoformat(), True)


def test_late_is_past_its_time_only(case: Case, say: Say, monday: datetime) -> None:
    case = case.after(say(case, F.WORSE_DYSPHAGIA))
    case = case.after(say(case, F.THRUSH, text="white patches", reply="u2", at=monday + HOUR))
    flag = case.flags[0]
    assert flag.act_by == monday + 5 * HOUR
    assert not is_late(flag, monday + 2 * HOUR) and not is_late(flag, flag.act_by)
    assert is_late(flag, flag.act_by + MINUTE)
    assert not is_late(replace(flag, taken_by="Ann (nurse)"), flag.act_by + HOUR)


def test_a_flag_that_rose_is_kept_up_to_date_where_it_rose(case: Case, say: Say, monday: datetime) -> None:
    case = case.after(say(case, text="my sofa is green", needs_human=True))
    rose = say(case, F.THRUSH, text="white patches", reply="u2", at=monday + MINUTE)
    alarm = next(one for one in rose.messages if one.to is To.CARE)
    case = case.after(rose)
    for place, words in enumerate(("they are small", "since tuesday")):
        more = say(case, text=words, needs_human=True, reply=f"m{place}", at=monday + (2 + place) * MINUTE)
        assert [one.edits for one in more.messages if one.to is To.CARE] == [alarm.key]
        case = case.after(more)


def test_the_words_that_made_it_urgent_come_first(case: Case, say: Say, monday: datetime,
                                                  protocol: ClinicProtocol) -> None:
    case = case.after(say(case, text="fine", needs_human=True))
    rose = say(case, F.BREATHING_TROUBLE, text="can't breathe", reply="u2", at=monday + MINUTE)
    due = next(one for one in rose.messages if one.kind == "flag_overdue" and one.facts["stage"])
    call = next(one for one in on_note(case.after(rose), due, due.due_at, protocol).messages if one.to is To.CARE)
    assert "“can't breathe”\nAlso said: “fine”\n" in care_render(call, protocol).text


def test_what_cannot_get_better_or_worse_is_not_asked_about(case: Case, say: Say, protocol: ClinicProtocol) -> None:
    expecting = say(case, F.PREGNANCY)
    assert follow_ups(case.after(expecting), [one for one in expecting.messages if one.kind == "follow_up"],
                      protocol) == []
    felt = say(case, F.THRUSH, urgency=Urgency.EMERGENCY)
    asked = follow_ups(case.after(felt), [one for one in felt.messages if one.kind == "follow_up"], protocol)
    assert len(asked) == 1 and "from you: white patches or a sore mouth. How" in asked[0]

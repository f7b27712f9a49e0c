"""A flag's life: joined and raised, taken, closed, reopened; raised again and wider while nobody takes it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta

import pytest

from bot.case import Case, Changes, Flag, FlagState
from bot.escalation import assess, assess_event, assess_tap, life, on_note
from bot.texts.render import render as patient_render
from bot.understanding.types import Context, Finding, Mention, Reading, Urgency
from scheduler.messages import Message, To
from scheduler.protocol import ClinicProtocol, Value, load_protocol

F = Finding
Say = Callable[..., Changes]


def kinds(changes: Changes) -> list[tuple[To, str]]:
    return [(message.to, message.kind) for message in changes.messages]


def note(changes: Changes, kind: str = "flag_overdue") -> Message:
    return next(message for message in changes.messages if message.kind == kind and message.facts.get("stage") != 0)


# --- one patient, one thread


def test_new_findings_join_the_open_flag(case: Case, say: Say, monday: datetime) -> None:
    first = say(case, F.THRUSH, text="white patches", reply="u1")
    case = case.after(first)
    second = say(case, F.THRUSH, text="still white", reply="u2", at=monday + timedelta(hours=1))
    flag = second.flags[0]
    assert flag.id == first.flags[0].id
    assert flag.words == "white patches\nstill white"
    shown = next(message for message in second.messages if message.to is To.CARE)
    assert shown.edits == first.messages[0].key, "shown in place, without another ping"
    told = next(message for message in second.messages if message.to is To.PATIENT)
    assert told.facts["text_keys"] == ["escalation.added"], "the patient is not told the same twice"


def test_a_worse_finding_raises_the_flag_and_pings(case: Case, say: Say, monday: datetime) -> None:
    first = say(case, F.WORSE_DYSPHAGIA, reply="u1")
    assert (To.CARE, "flag") not in kinds(first)
    second = say(case.after(first), F.IMPACTION_NOW, reply="u2", at=monday + timedelta(hours=2))
    flag = second.flags[0]
    assert (flag.id, flag.urgency, flag.raises) == ("KT-014/1", Urgency.EMERGENCY, 1)
    assert flag.rules == ("food_stuck", "worse")
    assert flag.act_by == monday + timedelta(hours=2, minutes=15)
    assert (To.CARE, "flag_more") in kinds(second)
    assert second.cancel == ("KT-014:flag:1:overdue:*",)


def test_a_milder_finding_never_lowers_the_flag(case: Case, say: Say) -> None:
    first = say(case, F.THRUSH, reply="u1")
    second = say(case.after(first), F.HOARSENESS, reply="u2")
    assert second.flags[0].urgency is Urgency.URGENT
    assert second.flags[0].act_by == first.flags[0].act_by


def test_who_took_the_milder_flag_must_take_the_worse_one_anew(case: Case, say: Say, monday: datetime,
                                                               protocol: ClinicProtocol) -> None:
    case = case.after(say(case, F.HOARSENESS, reply="u1"))
    case = case.after(life.take(case, "KT-014/1", "Ann (nurse)", monday, protocol).changes)
    worse = say(case, F.BLEEDING, reply="u2").flags[0]
    assert (worse.state, worse.taken_by, worse.facts["taken_before"]) == (FlagState.RAISED, "", "Ann (nurse)")


def test_an_answer_to_the_nurse_reaches_the_chat_at_once(case: Case, say: Say, monday: datetime,
                                                         protocol: ClinicProtocol) -> None:
    case = case.after(say(case, text="qwe", needs_human=True, reply="u1"))
    case = case.after(life.take(case, "KT-014/1", "Ann (nurse)", monday, protocol).changes)
    answer = say(case, text="since tuesday", needs_human=True, reply="u2")
    assert (To.CARE, "flag_more") in kinds(answer)
    assert note_words(answer) == "since tuesday"


def note_words(changes: Changes) -> str:
    return str(next(message for message in changes.messages if message.kind == "flag_more").facts["new_words"])


def test_course_and_symptoms_are_two_threads(case: Case, say: Say, monday: datetime, protocol: ClinicProtocol) -> None:
    case = case.after(say(case, F.THRUSH))
    supply = assess_event(case, "supply_low", {"occasion": "s"}, monday, protocol)
    assert supply.flags[0].id == "KT-014/2", "closing the one must not close the other"


def test_a_repeated_event_changes_nothing(case: Case, monday: datetime, protocol: ClinicProtocol) -> None:
    case = case.after(assess_event(case, "undeliverable", {"occasion": "x"}, monday, protocol))
    assert assess_event(case, "undeliverable", {"occasion": "x"}, monday, protocol).flags == ()


def test_signs_of_yesterday_complete_the_picture(case: Case, say: Say, monday: datetime) -> None:
    case = case.after(say(case, F.CHEST_PAIN, reply="u1"))
    today = say(case, F.FEVER, reply="u2", at=monday + timedelta(hours=20))
    assert today.flags[0].rules[0] == "chest_pain_signs"
    later = say(case, F.FEVER, reply="u3", at=monday + timedelta(days=3))
    assert "chest_pain_signs" not in later.flags[0].rules


def test_old_news_alone_raises_nothing(case: Case, say: Say, monday: datetime) -> None:
    case = case.after(say(case, F.CHEST_PAIN, F.FEVER, reply="u1"))
    assert say(case, F.BETTER, reply="u2", at=monday + timedelta(hours=1)).flags == ()


@pytest.mark.parametrize("findings", [(), (F.HOARSENESS,), (F.THRUSH,)])
def test_while_an_emergency_is_open_nothing_milder_is_said(case: Case, say: Say, findings: tuple[Finding, ...]) -> None:
    case = case.after(say(case, F.IMPACTION_NOW, reply="u1"))
    second = say(case, *findings, text="please hurry", needs_human=True, reply="u2")
    told = [patient_render(message).text for message in second.messages if message.to is To.PATIENT]
    assert len(told) == 1 and "call now" in told[0] and "911" in told[0] and "Monday" not in told[0]
    assert (To.CARE, "flag_more") in kinds(second) and note_words(second) == "please hurry"
    assert "message_to_read" not in second.flags[0].rules


# --- taken, closed, reopened


def test_taken_closed_reopened(case: Case, say: Say, monday: datetime, protocol: ClinicProtocol) -> None:
    case = case.after(say(case, F.THRUSH))
    taken = life.take(case, "KT-014/1", "Ann (nurse)", monday, protocol)
    assert taken.flag is not None and taken.flag.state is FlagState.TAKEN
    assert (To.PATIENT, "being_read") in kinds(taken.changes)
    case = case.after(taken.changes)
    assert life.take(case, "KT-014/1", "Ben (nurse)", monday, protocol).trouble == "flag_taken"
    assert life.take(case, "KT-014/1", "Ann (nurse)", monday, protocol).trouble == "flag_yours"
    assert life.close(case, "KT-014/1", "Ann (nurse)", "made up", "", monday, protocol).trouble == "outcome_unknown"
    closed = life.close(case, "KT-014/1", "Ann (nurse)", "treated", "nystatin", monday, protocol)
    case = case.after(closed.changes)
    assert (case.flags[0].outcome, case.flags[0].note, case.open_flags) == ("treated", "nystatin", ())
    assert life.close(case, "KT-014/1", "Ann (nurse)", "treated", "", monday, protocol).trouble == "flag_closed"
    assert life.take(case, "KT-014/1", "Ben (nurse)", monday, protocol).trouble == "flag_closed"
    again = life.reopen(case, "KT-014/1", "Ben (nurse)", monday, protocol)
    case = case.after(again.changes)
    assert (case.flags[0].state, case.flags[0].taken_by) == (FlagState.TAKEN, "Ben (nurse)")
    assert [act.what for changes in (taken, closed, again) for act in changes.changes.acts] == [
        "flag taken", "flag closed", "flag reopened"]
    assert life.reopen(case, "KT-014/1", "Ben (nurse)", monday, protocol).trouble == "flag_open"


@pytest.mark.parametrize("step", [life.take, life.reopen])
def test_an_unknown_flag(step: Callable[..., life.Step], case: Case, monday: datetime,
                         protocol: ClinicProtocol) -> None:
    assert step(case, "KT-014/9", "Ann (nurse)", monday, protocol).trouble == "flag_unknown"


# --- untaken: again, wider, and the plain truth


def test_an_untaken_emergency_goes_wider_and_the_patient_is_told_the_truth(case: Case, say: Say,
                                                                           protocol: ClinicProtocol) -> None:
    said = say(case, F.IMPACTION_NOW)
    case = case.after(said)
    due, seen, told = note(said), [], []
    for _ in range(5):
        changes = on_note(case, due, due.due_at, protocol)
        case = case.after(changes)
        seen.append([str(to) for to, kind in kinds(changes) if kind == "flag_again"])
        told.append([patient_render(message).text for message in changes.messages if message.to is To.PATIENT])
        due = note(changes)
    assert seen == [["care"], *[["care", "on_call"]] * 4]
    assert [len(texts) for texts in told] == [0, 0, 1, 0, 0]
    assert "nobody from the care team has read" in told[2][0] and "911" in told[2][0]
    assert case.flags[0].raises == 6


def test_the_times_of_the_ladder(case: Case, say: Say, monday: datetime, protocol: ClinicProtocol) -> None:
    said = say(case, F.IMPACTION_NOW)
    case, due = case.after(said), note(said)
    minutes = []
    for _ in range(5):
        minutes.append((due.due_at - monday) / timedelta(minutes=1))
        changes = on_note(case, due, due.due_at, protocol)
        case, due = case.after(changes), note(changes)
    assert minutes == [15, 25, 35, 45, 65]     # act within 15, again every 10, then ever longer


def test_a_flag_that_has_not_left_goes_on_call_at_once(case: Case, say: Say, monday: datetime,
                                                       protocol: ClinicProtocol) -> None:
    said = say(case, F.IMPACTION_NOW)
    check = next(message for message in said.messages if message.facts.get("stage") == 0)
    assert check.due_at == monday + timedelta(minutes=3) and check.facts["message"] == "KT-014:flag:1:raised"
    case = case.after(said)
    left = on_note(case, replace(check, facts={**check.facts, "delivered": True}), check.due_at, protocol)
    assert left.flags[0].state is FlagState.DELIVERED and not left.messages
    stuck = on_note(case, replace(check, facts={**check.facts, "delivered": False}), check.due_at, protocol)
    assert kinds(stuck) == [(To.ON_CALL, "flag_again")]


def test_taking_makes_older_notes_void(case: Case, say: Say, monday: datetime, protocol: ClinicProtocol) -> None:
    said = say(case, F.IMPACTION_NOW)
    case = case.after(said)
    case = case.after(life.take(case, "KT-014/1", "Ann (nurse)", monday, protocol).changes)
    assert on_note(case, note(said), note(said).due_at, protocol) == Changes()


def test_taken_and_left_open_is_named(case: Case, say: Say, monday: datetime, protocol: ClinicProtocol) -> None:
    case = case.after(say(case, F.IMPACTION_NOW))
    taken = life.take(case, "KT-014/1", "Ann (nurse)", monday, protocol).changes
    case = case.after(taken)
    left = on_note(case, note(taken), note(taken).due_at, protocol)
    assert (To.CARE, "flag_left_open") in kinds(left)
    assert left.messages[0].facts["taken_by"] == "Ann (nurse)"


def test_outside_office_hours_an_emergency_goes_on_call_too(case: Case, say: Say) -> None:
    night = datetime.fromisoformat("2026-03-15T08:00:00+00:00")       # Sunday, 02:00 in Denver
    assert kinds(say(case, F.BLEEDING, at=night))[:2] == [(To.CARE, "flag"), (To.ON_CALL, "flag")]
    assert (To.ON_CALL, "flag") not in kinds(say(case, F.THRUSH, at=night))


def test_a_routine_flag_is_due_on_a_working_day(case: Case, say: Say) -> None:
    friday = datetime.fromisoformat("2026-03-13T22:00:00+00:00")      # 16:00 in Denver
    flag: Flag = say(case, F.HOARSENESS, at=friday).flags[0]
    assert flag.act_by == datetime.fromisoformat("2026-03-18T22:00:00+00:00")   # 72 h of working days: Wednesday 16:00


# --- follow-up and 'what if'


def test_the_follow_up_question_and_its_answers(case: Case, say: Say, monday: datetime,
                                                protocol: ClinicProtocol) -> None:
    said = say(case, F.IMPACTION_NOW)
    case = case.after(said)
    due = note(said, "follow_up")
    assert due.due_at == monday + timedelta(hours=3)
    asked = on_note(case, due, due.due_at, protocol).messages[0]
    shown = patient_render(asked)
    assert [button.data for row in shown.buttons for button in row] == [
        f"u:KT-014/1:{choice}" for choice in ("better", "same", "worse")]
    assert all(len(button.data.encode()) <= 64 for row in shown.buttons for button in row)
    better = assess_tap(case, "u", "KT-014/1", "better", "u7", due.due_at, protocol)
    assert better.flags[0].facts["about"] == {"follow_up": "better"}
    worse = assess_tap(case, "u", "KT-014/1", "worse", "u8", due.due_at, protocol)
    assert "not_better" in worse.flags[0].rules


def test_an_urgent_follow_up_waits_until_the_patient_is_awake(case: Case, say: Say) -> None:
    night = datetime.fromisoformat("2026-03-16T09:00:00+00:00")       # 03:00 in Denver
    asked = note(say(case, F.THRUSH, at=night), "follow_up").due_at
    assert asked == datetime.fromisoformat("2026-03-17T12:45:00+00:00")


def test_what_if_gets_the_fixed_answer_and_no_alarm(case: Case, monday: datetime, protocol: ClinicProtocol) -> None:
    mention = Mention(F.IMPACTION_NOW, 8, 22, frozenset({Context.SUPPOSED}))
    reading = Reading("what if food gets stuck?", mentions=(mention,), needs_human=False, supposed_emergency=True)
    changes = assess(case, reading, None, monday, protocol)
    assert changes.flags == () and [message.kind for message in changes.messages] == ["what_if_answer"]
    shown = patient_render(changes.messages[0])
    assert [button.data for row in shown.buttons for button in row] == ["q:impaction_now:yes", "q:impaction_now:no"]
    yes = assess_tap(case, "q", "impaction_now", "yes", "u2", monday, protocol)
    assert yes.flags[0].urgency is Urgency.EMERGENCY and (To.PATIENT, "emergency_answer") in kinds(yes)
    no = assess_tap(case, "q", "impaction_now", "no", "u3", monday, protocol)
    assert kinds(no) == [(To.PATIENT, "not_now_answer")] and no.flags == ()


def test_what_if_is_read_by_a_person_too_and_answered_once(case: Case, monday: datetime,
                                                           protocol: ClinicProtocol) -> None:
    reading = Reading("what if food gets stuck?", needs_human=True, supposed_emergency=True)
    changes = assess(case, reading, None, monday, protocol)
    assert [flag.rules for flag in changes.flags] == [("message_to_read",)]
    told = [message for message in changes.messages if message.to is To.PATIENT]
    assert [message.kind for message in told] == ["what_if_answer"]
    assert "The care team will read your question too." in patient_render(told[0]).text


def test_two_answers_of_one_check_in_are_told_once(case: Case, say: Say) -> None:
    first = say(case, F.THRUSH, source="check_in", reply="c1")
    second = say(case.after(first), F.HOARSENESS, source="check_in", reply="c2")
    assert [kind for to, kind in kinds(first) if to is To.PATIENT] == ["passed_on"]
    assert [kind for to, kind in kinds(second) if to is To.PATIENT] == []
    third = say(case.after(first), F.BLEEDING, source="check_in", reply="c3")
    assert (To.PATIENT, "emergency_answer") in kinds(third)


def test_self_harm_beside_bleeding_gets_both_answers(case: Case, say: Say) -> None:
    told = [kind for to, kind in kinds(say(case, F.SELF_HARM, F.BLEEDING)) if to is To.PATIENT]
    assert told == ["emergency_answer", "self_harm_answer"]


def test_urgent_at_opening_when_the_protocol_says_so(case: Case) -> None:
    example = load_protocol()
    values = {value.key: value for value in example}
    values["care.urgent_outside_hours"] = Value("care.urgent_outside_hours", "at opening", "", "test")
    waits = ClinicProtocol("test", "", values)
    night = datetime.fromisoformat("2026-03-16T09:00:00+00:00")
    flagged = assess(case, Reading("sore", findings=(F.THRUSH,)), None, night, waits)
    assert note(flagged, "flag").due_at == datetime.fromisoformat("2026-03-16T15:00:00+00:00")


def test_a_rule_about_the_course_rests_from_the_closing_of_its_flag(case: Case, monday: datetime,
                                                                    protocol: ClinicProtocol) -> None:
    case = case.after(assess_event(case, "gate_waiting", {"occasion": "g1"}, monday, protocol))
    closing = monday + timedelta(days=40)
    case = case.after(life.close(case, "KT-014/1", "Ann (nurse)", "nothing to do", "", closing, protocol).changes)
    soon = assess_event(case, "gate_waiting", {"occasion": "g2"}, closing + timedelta(days=7), protocol)
    later = assess_event(case, "gate_waiting", {"occasion": "g3"}, closing + timedelta(days=29), protocol)
    assert not soon.flags and later.flags[0].id == "KT-014/2"


def test_the_name_of_a_new_medicine_may_come_a_message_later(case: Case, say: Say, monday: datetime) -> None:
    case = case.after(say(case, F.NEW_MEDICINE, reply="u1"))
    soon = monday + timedelta(minutes=2)
    named = say(case, text="it is called clarithromycin", needs_human=True, reply="u2", at=soon)
    assert named.flags[0].rules[0] == "strong_inhibitor" and named.flags[0].urgency is Urgency.URGENT
    alone = say(case, text="it is called clarithromycin", needs_human=True, reply="u3", at=monday + timedelta(days=3))
    assert "strong_inhibitor" not in alone.flags[0].rules


def test_a_summary_before_the_endoscopy_once(case: Case, monday: datetime, protocol: ClinicProtocol) -> None:
    first = assess_event(case, "endoscopy_due", {"occasion": "e1"}, monday, protocol)
    assert [message.facts["event"] for message in first.messages if message.kind == "summary"] == ["endoscopy_due"]
    second = assess_event(case.after(first), "endoscopy_due", {"occasion": "e2"}, monday + timedelta(days=14), protocol)
    assert not [message for message in second.messages if message.kind == "summary"]


def test_two_answers_at_one_instant_have_keys_of_their_own(case: Case, monday: datetime,
                                                            protocol: ClinicProtocol) -> None:
    first = assess(case, Reading("mouth: white", findings=(F.THRUSH,)), None, monday, protocol, source="check_in")
    second = assess(case.after(first), Reading("new: blood", findings=(F.BLEEDING,)), None, monday, protocol,
                    source="check_in")
    keys = [message.key for message in (*first.messages, *second.messages)]
    assert len(set(keys)) == len(keys)


def test_five_lines_in_a_row_are_not_confirmed_five_times(case: Case, say: Say, monday: datetime) -> None:
    told = []
    for number in range(6):
        changes = say(case, text=f"line {number}", needs_human=True, reply=f"u{number}",
                      at=monday + timedelta(minutes=number if number < 5 else 20))
        case = case.after(changes)
        told.append([message.kind for message in changes.messages if message.to is To.PATIENT])
    assert told == [["passed_on"], [], [], [], [], ["passed_on"]]
    assert case.flags[0].words.count("\n") == 5, "nothing is lost"

"""Between invite and first dose: what is asked once more, and what the care team is told."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from bot.case import Case, PatientRow, PatientState
from bot.chat.types import Incoming, IncomingKind
from bot.conversation import enrolment, joining
from bot.receiving import patient_said
from bot.texts.render import render
from scheduler.messages import Message, To
from scheduler.planfile import load_plan
from scheduler.protocol import load_protocol

PROTOCOL = load_protocol()
PLANS = Path(__file__).parents[3] / "fixtures" / "plans" / "ok"
NOW = datetime(2026, 3, 2, 16, 0, tzinfo=UTC)


def asked(plan: str, *, writer: str = "") -> tuple[Case, list[Message]]:
    """A patient who has just opened the invite, and the notes that watch over it."""
    read = load_plan(PLANS / plan, PROTOCOL)
    read = replace(read, patient=replace(read.patient, writer=writer)) if writer else read
    case = Case(PatientRow(read.patient.reference, PatientState.INVITED, 1, writer=read.patient.writer), read)
    changes = enrolment.invited(case, "chat", "sender", "u1", NOW, PROTOCOL)
    return case.after(changes), [one for one in changes.messages if one.to is To.AGENT]


def said(case: Case, text: str, at: datetime) -> Case:
    update = Incoming(id=f"t{at}", chat="chat", sender="sender", at=at, kind=IncomingKind.TEXT, text=text)
    return case.after(patient_said(case, update, at, PROTOCOL))


def test_a_child_without_a_named_writer_is_asked_who_writes_and_asked_again() -> None:
    case, notes = asked("fl-207.toml", writer="patient")
    case = case.after(enrolment.consent_tapped(case, "yes", "u2", NOW, PROTOCOL))
    assert (case.row.state, case.conversation.state) == (PatientState.ASKED, "who_writes")
    again = enrolment.on_joining_note(case, notes[0], notes[0].due_at, PROTOCOL)
    assert [one.kind for one in again.messages] == ["who_writes"]
    told = enrolment.on_joining_note(case, notes[1], notes[1].due_at, PROTOCOL)
    assert told.flags[0].rules == ("not_joined",) and told.flags[0].facts["about"]["waits_for"] == "who_writes"


def test_a_parent_whom_the_plan_names_is_not_asked() -> None:
    case, notes = asked("fl-207.toml")
    case = case.after(enrolment.consent_tapped(case, "yes", "u2", NOW, PROTOCOL))
    assert (case.row.state, case.row.writer) == (PatientState.ACTIVE, "parent")
    assert not enrolment.on_joining_note(case, notes[1], notes[1].due_at, PROTOCOL).flags


def test_who_has_refused_is_not_asked_again_and_is_told_of_once() -> None:
    case, notes = asked("kt-014.toml")
    no = enrolment.consent_tapped(case, "no", "u2", NOW, PROTOCOL)
    assert [flag.rules for flag in no.flags] == [("refused",)]
    case = case.after(no)
    assert not enrolment.on_joining_note(case, notes[0], notes[0].due_at, PROTOCOL).messages
    assert not enrolment.on_joining_note(case, notes[1], notes[1].due_at, PROTOCOL).flags
    case = case.after(enrolment.consent_tapped(case, "yes", "u3", NOW + timedelta(days=1), PROTOCOL))
    assert case.row.state is PatientState.ACTIVE and case.flags[0].facts["about"]["joined"] == "2026-03-03"


def test_an_invite_that_nobody_used_is_told_of_when_it_runs_out() -> None:
    plan = load_plan(PLANS / "kt-014.toml", PROTOCOL)
    case = Case(PatientRow("KT-014", PatientState.INVITED, 1), plan)
    note = joining.invite_note("KT-014", NOW, PROTOCOL)
    assert note.due_at == NOW + PROTOCOL.span("invite.valid_for")
    told = enrolment.on_joining_note(case, note, note.due_at, PROTOCOL)
    assert told.flags[0].facts["about"]["waits_for"] == "invite"


def test_an_emergency_before_consent_leaves_the_question_open() -> None:
    case, _ = asked("kt-014.toml")
    case = said(case, "food is stuck and I cannot swallow my spit", NOW + timedelta(minutes=1))
    assert case.open_flags and case.conversation.state == "consent"
    case = said(case, "done", NOW + timedelta(minutes=2))
    assert not case.record.entries or case.record.dose_answers == {}
    assert case.row.state is PatientState.ASKED


def test_who_left_in_an_emergency_and_is_back_is_told_of_and_welcomed_with_the_hold() -> None:
    case, _ = asked("kt-014.toml")
    case = case.after(enrolment.consent_tapped(case, "yes", "u2", NOW, PROTOCOL))
    case = said(case, "food is stuck", NOW + timedelta(minutes=1))
    case = case.after(enrolment.leave(case, "u3", NOW + timedelta(minutes=2), PROTOCOL))
    assert case.flags[0].rules == ("food_stuck", "left_in_emergency")
    case = case.after(enrolment.invited(case, "chat", "sender", "u4", NOW + timedelta(minutes=5), PROTOCOL))
    back = enrolment.consent_tapped(case, "yes", "u5", NOW + timedelta(minutes=6), PROTOCOL)
    case = case.after(back)
    assert case.flags[0].rules == ("food_stuck",) and case.flags[0].is_open, "the emergency itself goes on calling"
    assert [one.facts["text_keys"] for one in back.messages if one.kind == "desk"] == [["desk.patient_joined"]]
    welcome = next(render(one).text for one in back.messages if one.kind == "welcome")
    assert "Do not take a dose until a doctor or your care team says" in welcome and "first dose comes" not in welcome


def test_a_flag_that_only_says_refused_ends_with_joining() -> None:
    case, _ = asked("kt-014.toml")
    case = case.after(enrolment.consent_tapped(case, "no", "u2", NOW, PROTOCOL))
    case = said(case, "yes please", NOW + timedelta(minutes=1))
    case = said(case, "yes", NOW + timedelta(minutes=2))
    assert case.row.state is PatientState.ASKED, "after a refusal it takes a tap"
    joins = enrolment.consent_tapped(case, "yes", "u3", NOW + timedelta(minutes=3), PROTOCOL)
    case = case.after(joins)
    assert case.row.state is PatientState.ACTIVE and not case.open_flags
    assert (case.flags[0].outcome, joins.cancel) == (joining.JOINED, ("KT-014:flag:1:overdue:*",))

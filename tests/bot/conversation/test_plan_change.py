"""A plan change and the patient: the old step message is no longer an answer to the newest; who is not in the chat."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from bot.care.planchange import comes_into_force
from bot.case import Case, Changes, PatientRow, PatientState
from bot.conversation import steps
from bot.rehearsal.demo import demo_plan
from scheduler.planfile import read_plan
from scheduler.protocol import load_protocol
from scheduler.record import Entry, EntryKind, Record

PROTOCOL = load_protocol()
PLAN = demo_plan("adult_slurry", PROTOCOL)       # 1 mg at 07:45 and 21:30 in Denver, from 2 March
DOUBLE = read_plan(PLAN.text.replace('dose = "1 mg"', 'dose = "2 mg"', 1), "double", PROTOCOL)
NOON = datetime(2026, 3, 6, 19, 3, tzinfo=UTC)   # 12:03 there
SIGNED = {"by": "Dr Lindqvist", "on": "2026-03-06"}


def case(state: PatientState = PatientState.ACTIVE) -> Case:
    joined = Entry(EntryKind.CONSENTED, NOON - timedelta(days=5))
    return Case(PatientRow("KT-014", state, 1, chat="1"), PLAN, Record((joined,)))


def changed(before: Case, version: int) -> tuple[Case, Changes]:
    changes = comes_into_force(before, DOUBLE, version, SIGNED, NOON, PROTOCOL)
    return replace(before.after(changes), plan=DOUBLE), changes


def test_what_was_told_is_kept_and_the_change_is_open_until_it_is_confirmed() -> None:
    now, changes = changed(case(), 3)
    assert changes.replan and changes.messages[-1].facts["text_keys"] == ["escalation.plan_changed"]
    signature = now.record.signature(3)
    assert signature is not None
    assert (signature.facts["daily_before"], signature.facts["by"]) == ("2 mg", "Dr Lindqvist")
    told = NOON + timedelta(minutes=5)
    assert steps.open_step(now, told, PROTOCOL) == "v3:s:20260306"
    old = steps.tapped(now, "v1:s:20260305", "ok", "u1", told, PROTOCOL)
    assert [one.kind for one in old.messages] == ["step_is_old"] and not old.entries
    read = steps.tapped(now, "v3:s:20260306", "ok", "u2", told, PROTOCOL)
    assert [entry.kind for entry in read.entries] == [EntryKind.STEP_UNDERSTOOD]
    day_later = NOON + timedelta(hours=24)
    assert steps.unconfirmed(now, "v3:s:20260306", day_later, PROTOCOL).flags[0].rules == ("step_not_understood",)
    assert steps.unconfirmed(now.after(read), "v3:s:20260306", day_later, PROTOCOL) == Changes()


def test_an_earlier_confirmed_step_does_not_silence_a_later_one() -> None:
    earlier = Entry(EntryKind.STEP_UNDERSTOOD, NOON - timedelta(days=20), "v1:s:20260214")
    now = replace(case(), record=Record((earlier,)))
    assert steps.unconfirmed(now, "v1:s:20260305", NOON, PROTOCOL).flags


def test_who_has_not_joined_is_told_nothing() -> None:
    for state in (PatientState.INVITED, PatientState.ASKED, PatientState.ENDED):
        now, changes = changed(case(state), 3)
        signature = now.record.signature(3)
        assert not changes.messages and signature is not None and "before" not in signature.facts

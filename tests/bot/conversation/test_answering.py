"""Common questions in the conversation: when the fixed answer is enough, and that nothing is ever left unanswered."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from importlib import resources

import pytest

from bot.case import Case, Conversation, Flag, FlagState, FoundThen, PatientRow, PatientState
from bot.chat.types import Incoming, IncomingKind
from bot.conversation.answering import answer, settled
from bot.conversation.table import Moment, Tap, tapped
from bot.receiving import patient_said
from bot.rehearsal.demo import demo_plan
from bot.texts.render import render
from bot.understanding import read
from bot.understanding.question_grammar_en import english
from bot.understanding.types import Finding, Urgency
from scheduler.messages import To
from scheduler.protocol import load_protocol, read_protocol
from scheduler.record import Entry, EntryKind, Record

PROTOCOL = load_protocol()
PLANS = {form: demo_plan(name, PROTOCOL) for form, name in (("ampoule", "adult_slurry"), ("inhaler", "teen_inhaler"))}
NOW = datetime(2026, 3, 3, 19, 0, tzinfo=UTC)
EARLY = NOW - timedelta(minutes=10)
ROW = PatientRow("KT-014", PatientState.ACTIVE, 1, chat="1")
CASE = Case(ROW, PLANS["ampoule"])
WATER = read("can i drink water now?", asked="dose")
FLAG = Flag("KT-014/1", "KT-014", ("thrush",), ("thrush",), Urgency.URGENT, "white", FlagState.TAKEN, EARLY, NOW)


def test_a_plain_question_is_settled_answered_recorded_and_counted() -> None:
    reading = settled(CASE, WATER, NOW, PROTOCOL)
    assert not reading.needs_human and reading.urgency is Urgency.NONE
    changes = answer(CASE, reading, "u7", NOW, PROTOCOL)
    assert changes is not None
    assert changes.entries == (Entry(EntryKind.QUESTION_ANSWERED, NOW, "u7", {
        "questions": ["drink_water"], "words": "can i drink water now?"}),)
    assert [act.what for act in changes.acts] == ["answered common questions"]
    shown = render(changes.messages[0])
    assert "wait 30 minutes" in shown.text and "tap below" in shown.text and "Where this is from" in shown.text
    assert [button.data for row in shown.buttons for button in row] == ["a:u7:care"]


@pytest.mark.parametrize("case", [
    replace(CASE, flags=(FLAG,)),
    replace(CASE, flags=(replace(FLAG, urgency=Urgency.EMERGENCY),)),
    replace(CASE, found=(FoundThen(Finding.ODYNOPHAGIA, EARLY),)),
    replace(CASE, row=replace(ROW, state=PatientState.ASKED)),
    replace(CASE, conversation=Conversation("happening_now", "impaction_now", EARLY)),
    replace(CASE, conversation=Conversation(facts={"care_wrote": {"at": EARLY.isoformat(), "who": "Ann (nurse)"}})),
    replace(CASE, record=Record((Entry(EntryKind.DOSES_HELD, EARLY, "KT-014/1"),))),
    replace(CASE, record=Record((Entry(EntryKind.QUESTION_ANSWERED, EARLY, "u1", {"questions": ["drink_water"]}),))),
], ids=["urgent flag", "emergency flag", "a finding just now", "no consent", "is it happening now?", "in talk with a "
        "nurse", "doses held", "asked again"])
def test_a_person_reads_it_while_something_about_the_patient_asks_for_one(case: Case) -> None:
    assert settled(case, WATER, NOW, PROTOCOL).needs_human


def test_old_troubles_keep_nobody() -> None:
    past = NOW - timedelta(days=9)
    case = replace(CASE, found=(FoundThen(Finding.ODYNOPHAGIA, past),), flags=(
        replace(FLAG, state=FlagState.CLOSED), replace(FLAG, id="KT-014/2", urgency=Urgency.ROUTINE)))
    assert not settled(case, WATER, NOW, PROTOCOL).needs_human


def test_what_if_i_miss_one_while_one_is_missing_is_answered_from_the_record_and_read() -> None:
    asked = read("what if I miss a dose?", asked="dose")
    taken = Entry(EntryKind.DOSE_TAKEN, NOW - timedelta(hours=4), "v1:d:20260303:0", {
        "taken_at": (NOW - timedelta(hours=4)).isoformat()})
    assert settled(CASE, asked, NOW, PROTOCOL).needs_human
    assert not settled(replace(CASE, record=Record((taken,))), asked, NOW, PROTOCOL).needs_human


@pytest.mark.parametrize("value", ['"care team"', '{ es = "Pregunta." }'])
def test_a_clinic_that_answers_itself_reads_it(value: str) -> None:
    text = resources.files("scheduler").joinpath("protocol_example.toml").read_text(encoding="utf-8")
    changed = text.replace('drink_water = { value = "standard"', f"drink_water = {{ value = {value}")
    own = read_protocol(changed, "changed")
    assert changed != text and settled(CASE, WATER, NOW, own).needs_human


def test_two_questions_are_both_answered_and_one_without_an_answer_keeps_both() -> None:
    both = read("can i drink water now? and can i mix it ahead?", asked="dose")
    assert both.asks == ("drink_water", "mix_ahead")
    reading = settled(CASE, both, NOW, PROTOCOL)
    changes = answer(CASE, reading, "u7", NOW, PROTOCOL)
    assert changes is not None and not reading.needs_human
    text = render(changes.messages[0]).text
    assert "not even water" in text and "The medicine sinks" in text.replace("the medicine", "The medicine")
    inhaler = replace(CASE, plan=PLANS["inhaler"])
    assert settled(inhaler, both, NOW, PROTOCOL).needs_human, "an inhaler is not mixed: a person answers"


@pytest.mark.parametrize("form", PLANS)
@pytest.mark.parametrize("question", english(False))
def test_what_is_settled_is_never_left_unanswered(question: str, form: str) -> None:
    case = replace(CASE, plan=PLANS[form])
    reading = settled(case, replace(WATER, asks=(question,), question=question), NOW, PROTOCOL)
    said = answer(case, reading, "u7", NOW, PROTOCOL)
    assert reading.needs_human or (said is not None and said.messages[0].kind == "question_answer")


def test_the_tap_brings_the_words_to_a_person() -> None:
    wrote = Incoming("u7", "1", "1", NOW, IncomingKind.TEXT, "Can I drink water now?")
    asked = patient_said(CASE, wrote, NOW, PROTOCOL)
    assert not asked.flags and [message.kind for message in asked.messages] == ["question_answer"]
    assert asked.reply is not None and asked.reply.text == "Can I drink water now?"
    after = CASE.after(asked)
    tap = Tap.parse("a:u7:care")
    assert tap is not None
    passed = tapped(after, tap, Moment("u8", NOW, PROTOCOL))
    assert [(flag.rules, flag.urgency, flag.words) for flag in passed.flags] == [
        (("message_to_read",), Urgency.ROUTINE, "Can I drink water now?")]
    assert [message.kind for message in passed.messages if message.to is To.PATIENT] == ["question_passed_on"]
    again = tapped(after.after(passed), tap, Moment("u9", NOW, PROTOCOL))
    assert not again.flags, "the flag says it already"
    unknown = Tap.parse("a:u1:care")
    assert unknown is not None and not tapped(after, unknown, Moment("u9", NOW, PROTOCOL)).messages

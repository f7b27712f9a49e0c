"""Every kind of patient message renders, in every language, from the facts that messages of its kind carry."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from bot.chat.types import Outgoing
from bot.questions import answer_for
from bot.rehearsal.play import play
from bot.rehearsal.scenario import load_scenario
from bot.texts.catalogue import catalogue, languages
from bot.texts.render import KINDS, render
from scheduler.messages import Message, To
from scheduler.protocol import load_protocol

SCENARIOS = Path(__file__).parents[3] / "fixtures" / "scenarios"

DOSE = {"flag": "KT-014/1", "occasion": "v1:d:20260302:0", "clock": "07:45", "amount": "1 mg", "units": 2,
        "unit": "ampoule", "form": "ampoule", "medicine": "budesonide", "packets": 10, "sweetener_g": "10",
        "day": "2026-03-02"}
# What any message may carry; a kind that needs something else is listed below.
COMMON: dict[str, Any] = {
    "call_me": "Maya", "zone": "America/Denver", "reads_when": "9", "emergency_number": "911", "number": "911",
    "urgent_number": "555-0100", "poison_number": "555-0101", "crisis_number": "555-0102", "minutes": 30,
    "until": "08:15", "rinse_first": True, "rinse_now": True, "day_key": DOSE["occasion"], "taken": "07:46",
    "moved": "09:00", "told": "14:00", "first": "03:45", "last": "07:50", "hours": "3", "close": "15:30",
    "latest": "12:00", "next_day": "2026-03-02", "next_clock": "21:30", "runs_out": "2026-03-20",
    "first_day": "2026-03-02", "asked": "2026-03-02", "first_clock": "07:45",
    "doses": [DOSE, {**DOSE, "clock": "21:30"}], "most": 8,
    "passed": True, "text_key": "check_in.pain", "answers": ["No"], "role": "nurse", "text": "Come by today.",
    "buttons": [], **DOSE,
}
OWN: dict[str, dict[str, Any]] = {
    "ask_when_taken": {"choices": [10, 20]}, "time_not_clear": {"choices": [10, 20]}, "ask_how_long": {"choices": [15]},
    "later_not_possible": {"choices": [15]}, "later_not_after_close": {"choices": [15]},
    "time_not_fitting": {"choices": [10]}, "ask_why_not": {"choices": ["forgot", "ill", "other"]},
    "check_in_item": {"head": "again", "several": True, "buttons": [
        {"label_key": "check_in.mouth_white", "data": "c:mouth:white", "ticked": True},
        {"label_key": "check_in.done", "data": "c:mouth:done", "ticked": False}]},
    "question_answer": dict(zip(("text_key", "facts"), answer_for(
        "drink_water", load_protocol(), {"lang": "en", "form": "ampoule"}) or (), strict=True)),
    "care_answer": {"text_keys": ["escalation.care_answer.nurse"]}, "care_note": {"text_keys": ["escalation.resumed"]},
    "good_to_know": {"days": 14, "text_keys": ["enrolment.good_to_know", *sorted(
        key for key in catalogue("en") if key.startswith("enrolment.caution."))]},
    "answer_to_correct": {"doses": [{"occasion": "v1:d:20260302:0", "clock": "07:45", "taken": "07:46"},
                                    {"occasion": "v1:d:20260302:1", "clock": "21:30", "taken": ""}]},
    "dose_reminder_late": {"open": True}, "supply_noted": {"n": 2},
    "follow_up": {"text_keys": ["escalation.follow_up"], "at": "2026-03-02T14:00:00+00:00",
                  "topic_keys": ["escalation.about.thrush"], "buttons": [
        ["escalation.button.better", "u:KT-014/1:better"], ["escalation.button.worse", "u:KT-014/1:worse"]]},
    "passed_on": {"text_keys": ["escalation.i_read", "escalation.tell.thrush", "escalation.passed_on.urgent",
                                "escalation.if_worse"],
                  "topic_keys": ["escalation.about.thrush"], "by": "2026-03-02T18:00:00+00:00"},
}
OWN["question_answer"] = {**OWN["question_answer"].pop("facts"), **OWN["question_answer"]}


def shown(kind: str, lang: str) -> Outgoing:
    facts = {**COMMON, **OWN.get(kind, {}), "lang": lang}
    return render(Message(f"KT-014:x:{kind}", To.PATIENT, kind, datetime(2026, 3, 2, tzinfo=UTC), "KT-014",
                          facts=facts))


@pytest.mark.parametrize("lang", languages())
@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_kind_renders(kind: str, lang: str) -> None:
    outgoing = shown(kind, lang)
    assert outgoing.text.strip() and len(outgoing.text) <= 4096
    assert not re.search(r"[{}]|\bNone\b", outgoing.text)
    for row in outgoing.buttons:
        for button in row:
            assert button.label and len(button.label) <= 32, button.label
            assert button.url or 0 < len(button.data.encode()) <= 64


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_no_kind_forgets_the_language(kind: str) -> None:
    assert shown(kind, "en").text != shown(kind, "es").text


@pytest.mark.parametrize("lang", languages())
def test_a_parent_reads_about_the_child(lang: str) -> None:
    for kind in ("dose", "window_open", "passed_on", "follow_up"):
        facts = {**COMMON, **OWN.get(kind, {}), "lang": lang}
        child, patient = (render(Message("k", To.PATIENT, kind, datetime(2026, 3, 2, tzinfo=UTC), "KT-014",
                                         facts={**facts, "writer": writer})).text for writer in ("parent", "patient"))
        assert child != patient
        assert "Maya" in child


# Words that only fit who takes the medicine.
TAKER = re.compile(
    r"\byour (?:next |own )?(?:dose|doses|mouth|rinse|spit|tongue|lips)|\byou (?:feel|take|cannot|eat|swallow)"
    r"|you have no medicine|by yourself|harming yourself|bothers you|agree with you|\btus? (?:próxima )?(?:dosis|boca|"
    r"enjuague|saliva)|\btomas\b|te sientes|te caiga|te cae|por tu cuenta|no te queda")


def for_parent(lang: str, text_key: str, topic_key: str) -> str:
    facts = {**COMMON, **OWN["passed_on"], "lang": lang, "writer": "parent", "text_keys": [text_key],
             "topic_keys": [topic_key]}
    return render(Message("k", To.PATIENT, "passed_on", datetime(2026, 3, 2, tzinfo=UTC), "KT-014", facts=facts)).text


@pytest.mark.parametrize("lang", languages())
def test_what_the_rules_say_to_a_parent_is_about_the_child(lang: str) -> None:
    """Whatever a rule tells or names is worded for a parent where it speaks to who takes the medicine."""
    keys = [key for key in catalogue("en") if re.fullmatch(r"escalation\.(?:tell|tell_stopped|about)\.\w+", key)]
    assert len(keys) > 70
    texts = {key: for_parent(lang, key, key) for key in keys}
    assert {key: text for key, text in texts.items() if TAKER.search(text)} == {}
    assert "Maya" in for_parent(lang, "escalation.i_read", "escalation.about.skipped_ill")


@pytest.mark.parametrize("name", ["a_taper_and_its_gate", "a_day_in_spanish", "seldom_said"])
async def test_amounts_in_real_messages_cannot_be_misread(name: str) -> None:
    """As in the catalogue, but filled: no trailing zero, no naked point, no shortened microgram (ISMP, from memory)."""
    played = await play(load_scenario(SCENARIOS / f"{name}.toml"), load_protocol())
    texts = [line.text for line in played.lines if line.who == "Coatwell" and line.chat.startswith("patient")]
    assert any(re.search(r"\d (mg|micrograms|microgramos)", text) for text in texts)
    bad = re.compile(r"\d\.\d*0 ?(mg|mL|g|micro)|(?<![\d])\.\d|\b[uµμ]g\b|\bmcg\b|\d[eE][+-]?\d")
    assert [text for text in texts if bad.search(text)] == []


async def test_a_spanish_patient_never_reads_english() -> None:
    """The whole path, through the real agent. Only the source of an answer may be quoted as the clinic wrote it."""
    played = await play(load_scenario(SCENARIOS / "a_day_in_spanish.toml"), load_protocol())
    lines = [line for line in played.lines if line.who == "Coatwell" and line.chat.startswith("patient")]
    assert len(lines) >= 15
    english = re.compile(r"\b(the|your|you|and|is|of|dose|days|call|take|write|food|done|back|please)\b", re.IGNORECASE)
    for line in lines:
        text = re.sub(r"De dónde viene esto: .*", "", line.text)
        assert not english.search(text), text
        assert not any(english.search(label) for row in line.buttons for label in row), line.buttons

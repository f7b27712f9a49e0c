"""What stands beside a common question is read as if it stood alone; the question is still the one that was asked."""

from __future__ import annotations

import pytest

from bot.questions import answer_for
from bot.texts.catalogue import say
from bot.understanding.question_beside import beside, with_addition
from bot.understanding.reader import read
from bot.understanding.types import Urgency
from scheduler.protocol import load_protocol

ALONE = ("my jaw is locked", "my kid drank one", "its not going well", "my throat hurts when i swallow",
         "i forgot the last 3 days", "food is stuck", "heart racing")


@pytest.mark.parametrize("question", ("where do i keep it?", "can i brush my teeth now?", "how long do i wait,"))
@pytest.mark.parametrize("words", ALONE)
def test_beside_a_question_nothing_is_less_urgent_than_alone(question: str, words: str) -> None:
    alone = read(words)
    for text in (f"{question} {words}", f"{words}. {question}"):
        both = with_addition(read(text), "en", "patient")
        assert both.urgency >= alone.urgency and set(alone.findings) <= set(both.findings), text
        assert both.needs_human and not both.asks, text


def test_the_question_is_the_one_that_was_asked() -> None:
    text = "how do i store it, also i forgot the last 3 days"
    assert read(text).question == "missed_dose"            # what the whole text would be taken for
    assert with_addition(read(text), "en", "patient").question == "storage"


def test_an_urgent_addition_is_answered_alone() -> None:
    both = with_addition(read("can i brush my teeth now? its not going well"), "en", "patient")
    assert both.urgency >= Urgency.URGENT and both.question == ""


def test_the_places_stay_those_of_the_whole_text() -> None:
    text = "¿puedo comer ya? vomité sangre"
    asks, rest = beside(text, "es")
    assert asks == ("when_eat",) and len(rest) == len(text) and rest.endswith("vomité sangre") and "comer" not in rest


def test_thanks_beside_a_question_change_nothing() -> None:
    reading = read("can i eat now? thanks")
    assert with_addition(reading, "en", "patient") == reading


@pytest.mark.parametrize(("text", "question"), (
    ("he spat it out", "spilled"), ("should i take another one? i spat it out", "spilled"),
    ("i spat out the dose", "spilled"), ("should i give another?", "double_up"),
    ("rinsed and spat it out", ""), ("i spat it out after rinsing", "")))
def test_a_dose_that_was_spat_out_is_not_made_up_for(text: str, question: str) -> None:
    assert read(text).question == question


def test_of_an_inhaler_too() -> None:
    found = answer_for("spilled", load_protocol(), {"lang": "en", "form": "inhaler"})
    assert found is not None and "do not take one more" in say("en", found[0], found[1])

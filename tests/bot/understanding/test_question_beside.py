"""What stands beside a common question is read as if it stood alone; the question is still the one that was asked."""

from __future__ import annotations

import pytest

from bot.understanding.question_beside import beside, with_addition
from bot.understanding.reader import read
from bot.understanding.types import Urgency

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

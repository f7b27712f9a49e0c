"""The closed grammar of common questions: plain ones are parsed whole, and nothing worrying ever is."""

from __future__ import annotations

import random
from functools import cache

import pytest
from score import Labelled, load, read_labelled

from bot.questions import QUESTION_EXAMPLES, urgency_of
from bot.understanding import read
from bot.understanding.question_grammar import parse
from bot.understanding.question_grammar_en import english
from bot.understanding.question_grammar_es import spanish
from bot.understanding.tokens import split
from bot.understanding.types import Urgency

PARTS = ("questions_build", "questions_scored")
LANGUAGES = ("en", "es")


@cache
def questions(part: str, language: str) -> tuple[Labelled, ...]:
    return tuple(load(part, language))


def plain(part: str, language: str) -> list[Labelled]:
    return [reply for reply in questions(part, language) if "plain" in reply.tags]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("part", PARTS)
def test_no_question_with_a_worrying_addition_is_closed(part: str, language: str) -> None:
    worrying = [reply for reply in questions(part, language) if "worrying" in reply.tags]
    closed = [reply.text for reply in worrying if read_labelled(reply, language).asks]
    assert len(worrying) >= 10 and not closed, closed


@pytest.mark.parametrize(("part", "language", "least"), [
    ("questions_scored", "en", 20), ("questions_scored", "es", 10), ("questions_fresh", "en", 35),
    ("questions_fresh", "es", 14)])
def test_most_plain_questions_need_nobody(part: str, language: str, least: int) -> None:
    """At least 70 %, and each as the question that it is. The fresh part was written when the grammar stood."""
    asked = [(reply, read_labelled(reply, language).asks) for reply in plain(part, language)]
    closed = [(reply, asks) for reply, asks in asked if asks]
    assert len(asked) >= least and len(closed) / len(asked) >= 0.7, f"{len(closed)}/{len(asked)}"
    assert all(reply.tags.intersection(asks) for reply, asks in closed)


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_worrying_reply_is_closed_by_a_question_beside_it(language: str) -> None:
    """Every urgent or emergency reply of the building part, before and after a plain question, joined in many ways."""
    dice = random.Random(5)
    asks = [reply.text for reply in plain("questions_build", language) if read_labelled(reply, language).asks]
    worrying = [reply.text for reply in load("build", language) if reply.tier in ("urgent", "emergency")]
    joins = (" ", ", ", "? ", ". ", "\n", " and " if language == "en" else " y ")
    assert len(asks) > 15 and len(worrying) > 200
    for words in worrying:
        question, join = dice.choice(asks), dice.choice(joins)
        for text in (f"{question}{join}{words}", f"{words}{join}{question}"):
            assert not parse(text, split(text), split(text), language), text


WORRIES = {
    "en": "stuck blood pain hurts burning swollen vomit fever pregnant twice double two stop toddler baby rash white "
          "black dizzy faint choking worse never cant not breathe lost dead kill hospital ambulance spit sore lump",
    "es": "atascado sangre dolor duele arde hinchado vomito fiebre embarazada doble dejar bebe ronchas blanco negro "
          "mareo desmayo ahogo peor nunca respirar perdido morir hospital saliva llaga bulto tampoco",
}


@pytest.mark.parametrize("language", LANGUAGES)
def test_one_worrying_word_anywhere_keeps_a_person(language: str) -> None:
    for reply in plain("questions_build", language):
        words = reply.text.split()
        for worry in WORRIES[language].split():
            for at in range(len(words) + 1):
                text = " ".join([*words[:at], worry, *words[at:]])
                assert not read(text, language=language, asked="dose", writer=reply.writer).asks, text


@pytest.mark.parametrize("words", [
    "can i stop when i feel better", "I took it twice", "my toddler drank my dose", "i swallowed the rinse",
    "can i take it when pregnant", "should i take two doses tonight", "can i take a second dose later",
    "can i double up", "can i take my ibuprofen right after", "can i take any pills straight after", "can i take it 20",
    "bruise my teeth first", "can i drink water 😭", "can i drink water 🩸", "can i drink water?! \"help\"",
    "can i drink water? can i eat now? does it need the fridge?", "when will i be able to eat", "what now", "?", "",
    "can my son drink water", "can she eat now",
])
def test_these_have_no_grammar(words: str) -> None:
    assert read(words, asked="dose").asks == ()


def test_a_parent_asks_about_the_child() -> None:
    assert read("can she eat now", writer="parent").asks == ("when_eat",)
    assert read("puede comer ya?", language="es", writer="parent").asks == ("when_eat",)
    assert read("puede comer ya?", language="es").asks == ()


def test_two_questions_and_padding_are_one_closed_text() -> None:
    reading = read("Hi! Can I drink water now? And does it need the fridge? Thanks 🙏")
    assert reading.asks == ("drink_water", "storage") and reading.question == "drink_water" and not reading.findings
    assert read("can i drink watr now", asked="dose").asks == ("drink_water",)


def test_the_reader_alone_closes_none_of_them() -> None:
    """Whether the fixed answers are enough is for the case and the clinic protocol to say."""
    assert read("can i drink water now").needs_human


def test_a_supposed_miss_is_the_questions_own_and_a_told_one_is_not() -> None:
    assert read("what if i miss a dose").asks == ("missed_dose",)
    assert read("I forgot my dose, what now").asks == ()


def test_only_questions_that_need_nobody_have_a_grammar() -> None:
    for table in (english(False), english(True), spanish(False), spanish(True)):
        assert set(table) <= set(QUESTION_EXAMPLES)
        assert all(urgency_of(name) is Urgency.NONE for name in table)

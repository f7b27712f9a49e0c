"""'I meant no', 'wrong button', 'back': whole corrections only; anything that says more goes to a person."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime

import pytest

from bot.case import Case
from bot.checkin import Answers, Correction, Item, correction, item_of, items, record_answer
from bot.texts.catalogue import say
from scheduler.protocol import ClinicProtocol


def answers_up_to(*given: tuple[str, str]) -> Answers:
    answers: Answers = {}
    for name, choice in given:
        item = item_of(name)
        assert item is not None
        answers = record_answer(answers, item, choice)
    return answers


def correct(asked: tuple[Item, ...], answers: Answers, text: str, lang: str = "en") -> Correction | None:
    def labels(item: Item) -> Mapping[str, str]:
        return {choice.id: say(lang, choice.label_key, {}) for choice in item.choices}
    return correction(asked, answers, text, lang, labels)


@pytest.fixture
def asked(case_after: Callable[..., Case], week_one: datetime, protocol: ClinicProtocol) -> tuple[Item, ...]:
    return items(case_after(), week_one, protocol)


@pytest.mark.parametrize(("text", "lang", "choice"), [
    ("I meant no", "en", "no"),
    ("sorry, i mean none", "en", "no"),
    ("Oops! I meant to tap 'Yes, a bit'", "en", "little"),
    ("i meant 3", "en", "days"),
    ("wrong button", "en", ""),
    ("go back", "en", ""),
    ("Sorry, I tapped the wrong one", "en", ""),
    ("Quise decir que no", "es", "no"),
    ("perdón, quería decir sí, un poco", "es", "little"),
    ("me equivoqué", "es", ""),
    ("Atrás", "es", ""),
])
def test_the_last_answer_is_corrected(asked: tuple[Item, ...], text: str, lang: str, choice: str) -> None:
    answers = answers_up_to(("swallow", "well"), ("pain", "cannot"))
    assert correct(asked, answers, text, lang) == Correction("pain", choice)


@pytest.mark.parametrize("text", [
    "no", "I meant no but the bread is stuck now", "i mean it hurts", "I meant", "I meant 9",
    "my mistake was the steak", "back pain", "going back to the hospital", "I meant to tell you about the fever", "",
])
def test_what_says_more_is_no_correction(asked: tuple[Item, ...], text: str) -> None:
    assert correct(asked, answers_up_to(("swallow", "well"), ("pain", "cannot")), text) is None


def test_no_is_no_answer_where_it_means_nothing_certain(asked: tuple[Item, ...]) -> None:
    """Nor is a 'yes': what was meant is asked again, by showing the question once more."""
    for words in ("I meant no", "i meant yes", "sorry I meant yes"):
        assert correct(asked, answers_up_to(("swallow", "slow")), words) == Correction("swallow", "")


def test_without_an_answer_there_is_nothing_to_correct(asked: tuple[Item, ...]) -> None:
    for words in ("wrong button", "I meant no", "my mistake"):     # it may be about a dose
        assert correct(asked, {}, words) is None
    assert correct(asked, {}, "back") == Correction("", ""), "the question is shown again"


def test_a_bare_no_to_what_is_seen_in_the_mouth_is_asked_again(asked: tuple[Item, ...]) -> None:
    """'What do you see?' - 'I meant no' says nothing of the mouth; 'I meant none' does."""
    answers = answers_up_to(("swallow", "well"), ("pain", "no"), ("mouth", "white"))
    assert correct(asked, answers, "I meant no") == Correction("mouth", "")
    assert correct(asked, answers, "I meant none") == Correction("mouth", "clean")

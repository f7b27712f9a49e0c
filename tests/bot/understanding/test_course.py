"""'How is it now?' answered in words: closed, and never milder than what was said. Common practice, no source."""

from __future__ import annotations

import pytest

from bot.texts.catalogue import languages, say
from bot.understanding.course import course_of


@pytest.mark.parametrize(("text", "language", "meant"), [
    ("Worse", "en", "worse"), ("it's much worse than before", "en", "worse"), ("no, worse", "en", "worse"),
    ("a bit better, thanks", "en", "better"), ("no I meant better", "en", "better"), ("still the same", "en", "same"),
    ("not better", "en", "same"), ("no better", "en", "same"),
    ("estoy peor", "es", "worse"), ("cada vez peor", "es", "worse"), ("no, peor", "es", "worse"),
    ("un poco mejor, gracias", "es", "better"), ("no estoy mejor", "es", "same"), ("sigue igual", "es", "same"),
])
def test_how_it_goes(text: str, language: str, meant: str) -> None:
    assert course_of(text, language) == meant


@pytest.mark.parametrize("text", ["better but food is stuck", "worse? no, better", "is it better now?", "not worse",
                                  "better than last time but my throat hurts", "no", "worse 3 times", ""])
def test_anything_else_is_for_a_person(text: str) -> None:
    assert course_of(text, "en") == ""


def test_the_labels_of_the_buttons_are_understood() -> None:
    for language in languages():
        for choice in ("better", "same", "worse"):
            assert course_of(say(language, f"escalation.button.{choice}", {}), language) == choice

"""Counts of ampoules and puffs told; the sentences are our own (common practice, no source)."""

import pytest

from bot.understanding import counts, read
from bot.understanding.tokens import split
from bot.understanding.types import Urgency


def told(text: str, language: str = "en") -> counts.Count | None:
    return counts.told([token.word for token in split(text)], language)


@pytest.mark.parametrize(("text", "language"), [
    ("I only took 2 ampoules", "en"), ("he took two puffs instead of four", "en"), ("one ampoule instead of two", "en"),
    ("i accidentally took only one", "en"), ("solo tomé 2 ampollas", "es"), ("tomé una ampolla en vez de dos", "es")])
def test_less_by_its_own_words_is_routine(text: str, language: str) -> None:
    reading = read(text, language=language, asked="dose")
    assert (reading.urgency, reading.extra, reading.findings) == (Urgency.ROUTINE, ("taken_less",), ())


@pytest.mark.parametrize(("text", "language"), [
    ("he took four puffs instead of two", "en"), ("took 3 instead of 2", "en"), ("I took 10 ampoules", "en"),
    ("tomé 4 ampollas en vez de 2", "es"), ("usé 4 disparos en lugar de 2", "es")])
def test_more_by_its_own_words_is_urgent(text: str, language: str) -> None:
    reading = read(text, language=language, asked="dose")
    assert reading.urgency is Urgency.URGENT and "taken_twice" in reading.extra


@pytest.mark.parametrize("text", ["I only took 2 ampoules and my throat is closing",
                                  "i only took one, then another one",
                                  "oops i only took 2 ampoules twice"])
def test_other_words_beside_it_are_never_put_aside(text: str) -> None:
    found = told(text)
    assert found is None or not found.whole
    assert "taken_less" not in read(text, asked="dose").extra


@pytest.mark.parametrize("text", ["I have 2 ampoules", "only two", "took two", "if i took 10 ampoules?", "had only one",
                                  "i used to take 4 puffs", "i take 2 puffs every morning", "took 12 ampoules so far"])
def test_no_count_of_one_dose(text: str) -> None:
    found = told(text)
    assert found is None or found.day

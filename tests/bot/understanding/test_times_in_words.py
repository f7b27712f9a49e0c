"""Times said in several words, as people say them; the hours are those of everyday Spanish and English (common
practice, no source)."""

import pytest

from bot.understanding import read
from bot.understanding.grammar_dose import dose_told
from bot.understanding.types import Answer


@pytest.mark.parametrize(("said", "language", "clock", "minutes"), [
    ("me la tomé a las 6 y cuarto", "es", "06:15", None),
    ("me la tomé a las seis y media", "es", "06:30", None),
    ("la tomé a las seis y media de la tarde", "es", "18:30", None),
    ("la tomé a la una y media", "es", "01:30", None),
    ("la tomé a las siete menos diez", "es", "06:50", None),
    ("la tomé a las 7 y 20", "es", "07:20", None),
    ("la tomé al cuarto para las 6", "es", "05:45", None),
    ("la tomé faltando diez para las siete", "es", "06:50", None),
    ("la tomé hace un cuarto de hora", "es", "", 15),
    ("la tomé hace hora y media", "es", "", 90),
    ("la tomé hace tres cuartos de hora", "es", "", 45),
    ("took it at six thirty", "en", "06:30", None),
    ("took it at 6 30", "en", "06:30", None),
    ("took it at twenty five past six", "en", "06:25", None),
    ("took it at quarter to 7", "en", "06:45", None),
])
def test_a_time_in_words_is_one_time_for_every_reader_of_it(
        said: str, language: str, clock: str, minutes: float | None) -> None:
    reading = read(said, language=language, asked="dose")
    assert (reading.answer, reading.clock_time, reading.number) == (Answer.TAKEN, clock, minutes)
    told = dose_told(said, language)
    assert told.whole and (told.claims[0].clock_time, told.claims[0].minutes) == (clock, minutes)


@pytest.mark.parametrize(("said", "clock"), [
    ("seis y media", "06:30"), ("cuarto para las 6", "05:45"), ("a las seis menos cuarto", "05:45")])
def test_a_time_in_words_answers_when(said: str, clock: str) -> None:
    assert read(said, language="es", asked="when_taken").clock_time == clock


@pytest.mark.parametrize(("said", "language"), [
    ("tomé 2 y media ampollas", "es"), ("la tomé a las 6 y 2 ampollas", "es"), ("took it at 7 and 30 puffs", "en")])
def test_a_number_of_something_else_is_no_part_of_the_time(said: str, language: str) -> None:
    assert read(said, language=language, asked="dose").needs_human

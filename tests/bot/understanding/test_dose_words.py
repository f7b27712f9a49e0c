"""What longer words say of a dose. The sentences are our own; what may close a dose is decided by safety, and there is
no published set to check against: common practice, no source."""

from __future__ import annotations

import random
import time
from pathlib import Path

import pytest

from bot.understanding import read
from bot.understanding.grammar_corrections import Put
from bot.understanding.grammar_dose import Slot, dose_told
from bot.understanding.types import Answer

REPLIES = Path(__file__).parents[3] / "fixtures" / "replies"


@pytest.mark.parametrize(("text", "language", "kind"), [
    ("oops i didnt take it", "en", Put.NOT_TAKEN), ("I did not take it", "en", Put.NOT_TAKEN),
    ("I meant no", "en", Put.NOT_TAKEN), ("oops, not yet", "en", Put.NOT_TAKEN),
    ("nevermind i didn't", "en", Put.NOT_TAKEN), ("oops she didn't take it yet", "en", Put.NOT_TAKEN),
    ("i tapped the wrong button", "en", Put.WRONG), ("sorry my son pressed it by accident", "en", Put.WRONG),
    ("undo", "en", Put.WRONG), ("that was a mistake", "en", Put.WRONG), ("i meant yes", "en", Put.TAKEN),
    ("no, quise decir que no la tomé", "es", Put.NOT_TAKEN), ("perdón, no se la di", "es", Put.NOT_TAKEN),
    ("no me la he tomado", "es", Put.NOT_TAKEN), ("me equivoqué", "es", Put.WRONG),
    ("toqué el botón equivocado", "es", Put.WRONG), ("fue sin querer", "es", Put.WRONG)])
def test_a_correction(text: str, language: str, kind: Put) -> None:
    found = dose_told(text, language).correction
    assert found is not None and not found.loose
    assert found.kind is kind


@pytest.mark.parametrize(("text", "language", "clock"), [
    ("no wait it was 7:50", "en", "07:50"), ("sorry 7:50", "en", "07:50"), ("i meant 7:50 not 7:15", "en", "07:50"),
    ("actually half past 7", "en", "07:30"), ("it was at 8", "en", "08:00"), ("no, fue a las 7:50", "es", "07:50"),
    ("perdón, a las 7:50", "es", "07:50"), ("quise decir 7:50", "es", "07:50")])
def test_a_time_put_right(text: str, language: str, clock: str) -> None:
    found = dose_told(text, language).correction
    assert found is not None and (found.kind, found.clock_time, found.loose) == (Put.TIME, clock, False)


@pytest.mark.parametrize(("text", "language", "kind"), [
    ("wrong, i meant yesterday", "en", Put.OTHER), ("sorry, that was for yesterday", "en", Put.OTHER),
    ("wait it was his brother", "en", Put.OTHER), ("me equivoqué, era de ayer", "es", Put.OTHER),
    ("espera, fue su hermano", "es", Put.OTHER), ("no era hoy, era ayer", "es", Put.OTHER),
    ("not today, it was yesterday", "en", Put.OTHER), ("actually i can take it now", "en", Put.AFTER_ALL),
    ("changed my mind, taking it now", "en", Put.AFTER_ALL), ("ya me la puedo tomar ahora", "es", Put.AFTER_ALL)])
def test_another_day_or_person_or_after_all(text: str, language: str, kind: Put) -> None:
    found = dose_told(text, language).correction
    assert found is not None and (found.kind, found.loose) == (kind, kind is Put.OTHER)


@pytest.mark.parametrize(("text", "language", "clock"), [
    ("i took it at 7:55 actually", "en", "07:55"), ("took it at 7:55 instead", "en", "07:55"),
    ("i took it after all at 11", "en", "11:00"), ("al final la tomé a las 11", "es", "11:00")])
def test_taken_after_all_is_plainly_taken(text: str, language: str, clock: str) -> None:
    told = dose_told(text, language)
    assert told.whole and [claim.clock_time for claim in told.claims] == [clock]


def test_a_time_after_what_was_wrong_is_the_right_one() -> None:
    found = dose_told("that was a mistake, i took it at 10").correction
    assert found is not None and (found.kind, found.clock_time, found.loose) == (Put.TIME, "10:00", False)


@pytest.mark.parametrize(("text", "slot"), [
    ("took the morning one at 9", Slot.MORNING), ("and the evening one just now", Slot.EVENING)])
def test_the_morning_one_and_the_evening_one(text: str, slot: Slot) -> None:
    told = dose_told(text)
    assert told.whole and [claim.slot for claim in told.claims] == [slot]


@pytest.mark.parametrize("text", ["oops, i didnt take it because my throat hurts", "oops", "i didn't have it",
                                  "sorry i spilled it, i didnt take it"])
def test_beside_other_words_a_correction_is_only_asked_about(text: str) -> None:
    found = dose_told(text).correction
    assert found is not None and found.loose


@pytest.mark.parametrize("text", ["is it wrong to take it late?", "i didnt take any ibuprofen", "it was chicken",
                                  "it was 2", "took it at 7:50", "no it hurts", "i feel wrong", "wait for me"])
def test_no_correction(text: str) -> None:
    assert dose_told(text).correction is None


@pytest.mark.parametrize(("text", "language", "writer", "slots"), [
    ("i took it but ate breakfast 5 minutes later", "en", "patient", [None]),
    ("yes took this mornings now but my throat hurts a bit", "en", "patient", [Slot.THIS_MORNING]),
    ("took last night's dose at 10pm and this mornings now", "en", "patient",
     [Slot.LAST_EVENING, Slot.THIS_MORNING]),
    ("tomé la de anoche a las 10pm y la de esta mañana ahora", "es", "patient",
     [Slot.LAST_EVENING, Slot.THIS_MORNING]),
    ("la tomé pero me duele la garganta", "es", "patient", [None]),
    ("gave her the dose but she coughed a lot", "en", "parent", [None]),
    ("ya se la di pero tose mucho", "es", "parent", [None])])
def test_taken_beside_something_else(text: str, language: str, writer: str, slots: list[Slot | None]) -> None:
    assert [claim.slot for claim in dose_told(text, language, writer).claims] == slots


@pytest.mark.parametrize(("text", "language"), [
    ("took it but threw up", "en"), ("i spat it out", "en"), ("took only half", "en"),
    ("yes but my throat hurts", "en"),
    ("done but it burned", "en"), ("i think i took it", "en"), ("took it twice", "en"),
    ("when i took it it burned", "en"),
    ("la tomé pero la vomité", "es")])
def test_not_plainly_taken_is_asked(text: str, language: str) -> None:
    told = dose_told(text, language)
    assert told.perhaps and not told.claims


@pytest.mark.parametrize(("text", "language"), [
    ("my dose is in my bag", "en"), ("i took ibuprofen", "en"), ("should i have took it", "en"),
    ("no la tomé anoche", "es"),
    ("i didnt take it", "en"), ("mi perro vomitó en la alfombra", "es"), ("took it already?", "en"),
    ("he took my dose", "en"),
    ("if i took it late", "en"), ("me quedé dormido y no la tomé", "es"), ("had some turkey and its stuck", "en")])
def test_not_taken_is_never_a_claim(text: str, language: str) -> None:
    assert not dose_told(text, language).claims


def replies(*labels: str) -> list[tuple[str, str, str]]:
    """(text, language, writer) of the labelled replies whose findings hold one of these."""
    found = []
    for path in sorted(REPLIES.glob("*_e?.tsv")):
        for line in path.read_text(encoding="utf-8").splitlines():
            parts = line.split("\t")
            if len(parts) == 6 and set(parts[1].replace(",", " ").split()).intersection(labels):
                found.append((parts[5], path.stem[-2:], parts[4]))
    return found


def test_labelled_replies_of_missed_or_doubled_doses_record_none() -> None:
    """Over every labelled reply that tells of a dose missed, doubled or taken by somebody else."""
    several = replies("missed_doses", "x:taken_twice", "x:child_took_it")
    assert len(several) > 80
    assert [text for text, language, writer in several if dose_told(text, language, writer).claims] == []


@pytest.mark.parametrize(("text", "language"), [
    ("rinsed", "en"), ("I rinsed my mouth", "en"), ("rinsed and brushed my teeth", "en"), ("rinsed, thanks", "en"),
    ("done rinsing", "en"), ("ya me enjuagué", "es"), ("se enjuagó", "es"), ("ya me enjuagué la boca", "es")])
def test_a_rinse_says_nothing_of_the_dose(text: str, language: str) -> None:
    for asked in ("dose", ""):
        reading = read(text, language=language, asked=asked)
        assert (reading.answer, reading.needs_human) == (Answer.RINSED, False)


@pytest.mark.parametrize("text", ["taken and rinsed", "done, he rinsed too", "meds in, mouth rinsed"])
def test_taken_and_rinsed_says_both(text: str) -> None:
    assert read(text, asked="dose", writer="parent").answer is Answer.TAKEN
    assert dose_told(text, "en", "parent").rinsed


def test_brushed_teeth_are_no_dose() -> None:
    assert read("brushed my teeth", asked="dose").answer is Answer.THANKS


def test_long_runs_of_the_same_words_stay_quick() -> None:
    """'Oh no' is also 'oh' and 'no': words that can be cut in many ways are not tried in every way."""
    chance = random.Random(4)
    leads = ("oh no", "no wait", "sorry", "i mean", "undo that", "it was a mistake", "7:50 no", "took it my",
             "y no", "es que")
    texts = ["oh no " * 29 + "x 7:50 z", "took it my " * 300,
             *(" ".join(chance.choices(leads, k=25)) + " x" for _ in range(40))]
    dose_told("oh no, it was 7:50"), dose_told("uy no, fue a las 7:50", "es")      # tables are built on first use
    started = time.perf_counter()
    for text in texts:
        for language in ("en", "es"):
            dose_told(text, language)
    assert time.perf_counter() - started < 20


@pytest.mark.parametrize("words", ["7", "2", "10", "22"])
def test_a_bare_number_under_a_reminder_is_no_dose_taken(words: str) -> None:
    """It may be an hour, a button's number, a pain of ten, puffs: a person reads it. After 'when?' it is the hour."""
    under = read(words, language="en", asked="dose")
    assert (under.answer, under.needs_human) == (None, True)
    assert read(words, language="en", asked="when_taken").clock_time == f"{int(words):02d}:00"
    assert read(f"at {words}:05", language="en", asked="dose").clock_time == f"{int(words):02d}:05"

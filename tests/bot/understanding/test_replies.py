"""The targets on the scored part of the labelled replies, and the wall between that part and the rules."""

from __future__ import annotations

import re
import statistics
import time
from functools import cache
from pathlib import Path

import pytest
from score import FOLDER, Pairs, load, measures, read_labelled

RULES = Path(__file__).resolve().parents[3] / "bot" / "understanding"
# measure -> (language -> bound in percent); True: at least, False: at most.
TARGETS = {
    "emergency and urgent in those tiers": (True, 98.0),
    "emergencies in the emergency tier": (True, 95.0),
    "emergency or urgent closed without a person": (False, 0.0),
    "harmless put in the urgent or emergency tier": (False, 8.0),
    "plain harmless replies that reach a nurse": (False, 10.0),
    "denied, other person or supposed, handled": (True, 92.0),
}


@cache
def scored(language: str) -> Pairs:
    return [(reply, read_labelled(reply, language)) for reply in load("scored", language)]


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("measure", TARGETS)
def test_target_is_met(measure: str, language: str) -> None:
    good, total, passes = measures(scored(language))[measure]
    at_least, bound = TARGETS[measure]
    percent = 100 * good / total
    wrong = [reply.text for reply, reading in scored(language) if passes(reply, reading) is not at_least]
    assert percent >= bound if at_least else percent <= bound, f"{good}/{total}; among {len(wrong)} to look at"


def test_replies_written_after_the_rules_are_read() -> None:
    """Sixty replies written when the rules stood, read once and kept as they were (figures in DEVELOPERS.md)."""
    pairs = [(reply, read_labelled(reply, "en")) for reply in load("fresh", "en")]
    counts = {name: (good, total) for name, (good, total, _) in measures(pairs).items()}
    assert counts["emergency or urgent closed without a person"][0] == 0
    good, total = counts["emergencies in the emergency tier"]
    assert good / total >= 0.95


def test_there_are_enough_labelled_replies() -> None:
    assert len(load("build", "en")) + len(load("scored", "en")) >= 600
    assert len(load("build", "es")) + len(load("scored", "es")) >= 200
    assert len(load("scored", "en")) >= 300 and len(load("scored", "es")) >= 100


def squeezed(text: str) -> str:
    return " ".join(re.findall(r"\w+", text.lower().replace("'", "")))


@pytest.mark.parametrize("prefix", ["", "questions_"])
@pytest.mark.parametrize("language", ["en", "es"])
def test_rules_do_not_quote_the_scored_part(language: str, prefix: str) -> None:
    """A scored reply of five words or more stands in no rule file, not even as a phrase, and (from four) not in
    the building part."""
    rules = " ".join(squeezed(path.read_text(encoding="utf-8").replace("_", " ")) for path in RULES.glob("*.py"))
    built = {squeezed(reply.text) for reply in load(f"{prefix}build", language)}
    for reply in load(f"{prefix}scored", language):
        words = squeezed(reply.text)
        if len(words.split()) >= 4:
            assert len(words.split()) < 5 or words not in rules, "a rule quotes a scored reply"
            assert words not in built, "a scored reply is in the building part too"


@pytest.mark.parametrize("language", ["en", "es"])
def test_rules_do_not_quote_the_voices_part(language: str) -> None:
    """No reply of five words or more of the voices part stands in a rule file, and none (from four) in another part."""
    rules = " ".join(squeezed(path.read_text(encoding="utf-8").replace("_", " ")) for path in RULES.glob("*.py"))
    built = {squeezed(reply.text) for part in ("build", "scored") for reply in load(part, language)}
    for reply in load("voices", language):
        words = squeezed(reply.text)
        assert len(words.split()) < 5 or words not in rules, "a rule quotes a reply of the voices part"
        assert len(words.split()) < 4 or words not in built, "a reply of the voices part is in another part too"


# Replies by eight authors who knew neither the rules nor each other: about what the reader did when it was fitted, so
# that a change that loses other voices is seen (the figures stand in DEVELOPERS.md).
VOICES = {
    ("en", "emergencies in the emergency tier"): (True, 89.0),
    ("en", "emergency and urgent in those tiers"): (True, 88.0),
    ("en", "harmless put in the urgent or emergency tier"): (False, 20.0),
    ("es", "emergencies in the emergency tier"): (True, 85.0),
    ("es", "emergency and urgent in those tiers"): (True, 79.0),
    ("es", "harmless put in the urgent or emergency tier"): (False, 23.0),
}


@pytest.mark.parametrize(("language", "measure"), VOICES)
def test_other_voices_are_read_as_well_as_they_were(language: str, measure: str) -> None:
    counts = measures([(reply, read_labelled(reply, language)) for reply in load("voices", language)])
    assert counts["emergency or urgent closed without a person"][0] == 0
    good, total, _ = counts[measure]
    at_least, bound = VOICES[language, measure]
    assert 100 * good / total >= bound if at_least else 100 * good / total <= bound, f"{good}/{total}"


def test_a_reply_takes_less_than_five_milliseconds() -> None:
    replies = [reply for language in ("en", "es") for reply in load("scored", language)]
    for reply in replies[:20]:
        read_labelled(reply, "en")
    taken = []
    for reply in replies:
        begun = time.process_time()
        read_labelled(reply, "en")
        taken.append(time.process_time() - begun)
    assert statistics.mean(taken) < 0.005
    assert (FOLDER / "scored_en.tsv").exists()

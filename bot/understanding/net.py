"""A second, different reader: a linear model over words, word classes and letter groups. It can only raise the
tier, never lower it.

Where the frames read exact constructions, this one weighs everything at once and so notices worrying words in a
construction that nobody
foresaw. Its weights are fitted on the building part of the labelled replies (tests/bot/understanding/fit_net.py)
and shipped as data.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Mapping
from functools import lru_cache
from importlib.resources import files
from itertools import pairwise

from bot.understanding.language import Language
from bot.understanding.tokens import split
from bot.understanding.types import Urgency

# How sure the model must be, chosen on the building part so that few harmless replies are raised (five-fold check
# of fit_net.py).
SURE_EMERGENCY = 0.65
SURE_URGENT = 0.8
SURE_ABOVE_URGENT = 0.85  # the frames have placed the words already
SURE_LOWERED = 0.9
LEAST_URGENT = 0.5  # what is no emergency or urgent text is no emergency


def seen(text: str, known: Language) -> set[str]:
    """The features of a text: what `features` gives, each once."""
    tokens = split(text)
    words = [known.speller.correct(token.word) for token in tokens]
    return set(features(words, " ".join(token.word for token in tokens), known.class_names))


def features(words: list[str], raw: str, class_names: Mapping[str, tuple[str, ...]]) -> Iterator[str]:
    """Words, neighbouring words, classes, ordered class pairs within four words, letter groups of 3 to 5."""
    yield from ("w" + word for word in words)
    yield from (f"b{a} {b}" for a, b in pairwise(words))
    tagged = [class_names.get(word, ()) for word in words]
    for at, names in enumerate(tagged):
        yield from ("c" + name for name in names)
        for other in tagged[at + 1 : at + 5]:
            yield from (f"p{first} {second}" for first in names for second in other)
    padded = f" {raw} "
    for size in (3, 4, 5):
        yield from ("l" + padded[at : at + size] for at in range(len(padded) - size + 1))


@lru_cache(maxsize=4)
def weights(language: str) -> Mapping[str, tuple[float, float]]:
    """The shipped weights by feature: (urgent or worse, emergency); the biases under ''. Empty where none is
    shipped."""
    place = files("bot.understanding") / f"net_{language}.json"
    if not place.is_file():
        return {}
    loaded: dict[str, tuple[float, float]] = json.loads(place.read_text(encoding="utf-8"))
    return loaded


def score(found: set[str], table: Mapping[str, tuple[float, float]]) -> tuple[float, float]:
    """Probabilities that a text is urgent or worse, and that it is an emergency: presence features of unit
    length, logistic."""
    if not table:
        return 0.0, 0.0
    scale = 1 / math.sqrt(max(len(found), 1))
    known = [table[name] for name in found if name in table]
    urgent, emergency = (table[""][n] + scale * sum(pair[n] for pair in known) for n in (0, 1))
    return _logistic(urgent), _logistic(emergency)


def _logistic(value: float) -> float:
    return 1 / (1 + math.exp(-max(-30.0, min(30.0, value))))


def raised(
    tier: Urgency, text: str, known: Language, language: str, *, lowered: bool, acute: bool = True
) -> Urgency:
    """The tier, raised where this reader is sure enough. Where something in the text was denied, past, supposed or
    somebody else's, or placed as routine by the frames (`lowered`), it must be surer; so must an emergency be where no
    acute sign is named (`acute` false: 'swallowing is still just as bad')."""
    urgent, emergency = score(seen(text, known), weights(language))
    plain = SURE_ABOVE_URGENT if tier is Urgency.URGENT or not acute else SURE_EMERGENCY
    if urgent > LEAST_URGENT and emergency > (SURE_LOWERED if lowered else plain):
        return Urgency.EMERGENCY
    if urgent > (SURE_LOWERED if lowered else SURE_URGENT):
        return max(tier, Urgency.URGENT)
    return tier

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

from bot.understanding.context import words_of
from bot.understanding.language import Language
from bot.understanding.tokens import split
from bot.understanding.types import Urgency

# How sure the model must be, chosen by leaving one author out (fit_net.py --check): what it has not read of anybody is
# what will come, and sensitivity comes first.
SURE_EMERGENCY = 0.2
SURE_URGENT = 0.7
SURE_ABOVE_URGENT = 0.45  # the frames have placed the words already
SURE_LOWERED = 0.75
SURE_PLACED_URGENT = 0.8  # the frames have called it routine: swallowing a little worse
LEAST_URGENT = 0.5  # what is no emergency or urgent text is no emergency
_SHORTEST = 3  # letters that a stem keeps
_DENIAL_REACH = 5
_MARKS = frozenset(".,!?;:…\n()—-¡¿")
_ENDS = frozenset({"but", "and", "so", "pero", "y"})
_DENIES = words_of(
    "no not never none without nothing nor cant cannot couldnt wont wouldnt isnt arent aint hasnt havent doesnt dont "
    "didnt wasnt nope nah hardly barely ni sin nunca tampoco nada jamas apenas"
)


def seen(text: str, known: Language) -> set[str]:
    """The features of a text: what `features` gives, each once."""
    tokens = split(text)
    words = [known.speller.correct(token.word) for token in tokens]
    return set(features(words, [token.word for token in tokens], known.class_names, known.endings))


def features(
    words: list[str], raw: list[str], class_names: Mapping[str, tuple[str, ...]], endings: tuple[str, ...]
) -> Iterator[str]:
    """Words, stems, classes; ordered class pairs and stem pairs within four words, pairs of stems or classes within
    three; stems and classes that a denial shortly before covers; groups of 3 to 5 letters within words as written."""
    stems = [stem(word, endings) for word in words]
    tagged = [class_names.get(word, ()) for word in words]
    yield from ("w" + word for word in words)
    yield from ("s" + word for word in stems)
    yield from ("c" + name for names in tagged for name in names)
    for at, names in enumerate(tagged):
        for other in tagged[at + 1 : at + 5]:
            yield from (f"p{first} {second}" for first in names for second in other)
    bare = [(word, names or (word,)) for word, names in zip(stems, tagged, strict=True) if word not in _MARKS]
    for at, (word, names) in enumerate(bare):
        yield from (f"k{word} {later}" for later, _ in bare[at + 1 : at + 5])
        for _, other in bare[at + 1 : at + 4]:
            yield from (f"m{first} {second}" for first in names for second in other)
    yield from _denied(words, stems, tagged)
    for word in raw:
        padded = f"<{word}>"
        for size in (3, 4, 5):
            yield from ("l" + padded[at : at + size] for at in range(len(padded) - size + 1))


def _denied(words: list[str], stems: list[str], tagged: list[tuple[str, ...]]) -> Iterator[str]:
    """Stems and classes within five words after a denial, to the next mark or 'but'."""
    left = 0
    for word, short, names in zip(words, stems, tagged, strict=True):
        if word in _DENIES:
            left = _DENIAL_REACH
        elif word in _MARKS or word in _ENDS:
            left = 0
        elif left:
            yield "n" + short
            yield from ("N" + name for name in names)
            left -= 1


def stem(word: str, endings: tuple[str, ...]) -> str:
    """A word without its regular ending; every number is one."""
    if word[0].isdigit():
        return "#"
    for ending in endings:
        if word.endswith(ending) and len(word) - len(ending) >= _SHORTEST:
            return word[: -len(ending)]
    return word


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
    if urgent > (SURE_PLACED_URGENT if lowered else SURE_URGENT):
        return max(tier, Urgency.URGENT)
    return tier

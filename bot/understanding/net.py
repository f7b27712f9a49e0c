"""A second, different reader: a linear model over words, word classes and letter groups. It can only raise the tier, never lower it.

Where the frames read exact constructions, this one weighs everything at once and so notices worrying words in a construction nobody foresaw. Its
weights are fitted on the building part of the labelled replies (tests/bot/understanding/fit_net.py) and shipped as data.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Mapping
from functools import lru_cache
from importlib.resources import files

from bot.understanding.frames import Entries


def features(words: list[str], raw: str, classes: Mapping[str, Entries]) -> Iterator[str]:
    """What the model sees of a reply: words, neighbouring words, classes, ordered class pairs within four words, letter groups."""
    yield from (f"w {word}" for word in words)
    yield from (f"b {a} {b}" for a, b in zip(words, words[1:], strict=False))
    index = _index(classes)
    tagged = [index.get(word, ()) for word in words]
    for names in tagged:
        yield from (f"c {name}" for name in names)
    for at, names in enumerate(tagged):
        for other in range(at + 1, min(len(tagged), at + 5)):
            for first in names:
                yield from (f"p {first} {second}" for second in tagged[other])
    padded = f" {raw} "
    for size in (3, 4, 5):
        yield from (f"l {padded[at:at + size]}" for at in range(len(padded) - size + 1))


_INDEXES: dict[int, dict[str, tuple[str, ...]]] = {}


def _index(classes: Mapping[str, Entries]) -> dict[str, tuple[str, ...]]:
    """Word -> the classes that hold it as a single word."""
    found = _INDEXES.get(id(classes))
    if found is None:
        table: dict[str, list[str]] = {}
        for name, entries in classes.items():
            for forms in entries.values():
                for parts in forms:
                    if len(parts) == 1:
                        table.setdefault(parts[0], []).append(name)
        found = _INDEXES[id(classes)] = {word: tuple(sorted(names)) for word, names in table.items()}
    return found


@lru_cache(maxsize=4)
def weights(language: str) -> dict[str, dict[str, float]]:
    """The shipped weights: {'urgent': {feature: weight}, 'emergency': {...}}, with the bias under ''. Empty where none is shipped."""
    place = files("bot.understanding") / f"net_{language}.json"
    if not place.is_file():
        return {}
    loaded: dict[str, dict[str, float]] = json.loads(place.read_text(encoding="utf-8"))
    return loaded


def score(found: set[str], table: Mapping[str, float]) -> float:
    """Probability by one table: presence features, scaled to unit length, logistic."""
    if not table:
        return 0.0
    known = [table[name] for name in found if name in table]
    total = table[""] + sum(known) / math.sqrt(max(len(found), 1))
    return 1 / (1 + math.exp(-max(-30.0, min(30.0, total))))

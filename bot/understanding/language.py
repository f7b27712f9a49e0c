"""What the reader knows of one language: frames, spelling, triggers. Built on first use and kept."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from bot.understanding.context import Triggers
from bot.understanding.frames import Entries, Frame, first_words, index_of, read_classes, read_frames
from bot.understanding.spelling import MIXED, SAME, SAME_ES, Speller


@dataclass(frozen=True, slots=True)
class Everyday:
    """Things that can be stuck or drip, words that keep a clause about a body, words that make a thing a place; words
    of wounds of the skin, and of blood from within; parts whose pain is none of ours, and parts whose pain is."""

    things: frozenset[str] = frozenset()
    bodily: frozenset[str] = frozenset()
    placed: frozenset[str] = frozenset()
    wound: frozenset[str] = frozenset()
    inner: frozenset[str] = frozenset()
    elsewhere: frozenset[str] = frozenset()
    inward: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Language:
    """Tables of one language. `resolved` and `present` decide whether stuck food has passed."""

    frames: list[tuple[Frame, list[frozenset[str]]]]
    index: dict[str, tuple[int, ...]]            # word -> numbers of the frames that need it
    speller: Speller
    triggers: Triggers
    resolved: Entries
    resolved_acts: Entries
    present: Entries
    sometimes: Entries
    over_by_day: Entries
    happened: Entries
    long_ago: Entries
    idioms: Entries  # words that sound like a symptom and are none
    everyday: Everyday
    class_names: dict[str, tuple[str, ...]]  # word -> the classes that hold it as a single word
    endings: tuple[str, ...]  # regular endings, longest first: what the second reader takes off a word


ENDINGS_EN = ("ingly", "edly", "ings", "ing", "ied", "ies", "ed", "es", "s", "ly")
ENDINGS_ES = (
    "iendose", "iendome", "amente", "andose", "andome", "andolo", "ieron", "iendo", "arme", "arse", "arlo", "arla",
    "ados", "adas", "idos", "idas", "ando", "aron", "ado", "ada", "ido", "ida", "aba", "ar", "er", "ir", "os", "as",
    "es", "o", "a", "e", "s",
)


@lru_cache(maxsize=4)
def language_of(code: str) -> Language:
    """The tables for a language code; an unknown code reads as English."""
    if code.startswith("es"):
        from bot.understanding import common_es, frames_es, frames_es_told, passing_es, triggers_es, words_es

        return _build(
            words_es.CLASSES + frames_es_told.CLASSES,
            frames_es.GUARDS,
            frames_es.FRAMES + frames_es_told.FRAMES,
            triggers_es.ES,
            passing_es.__dict__,
            common_es.COMMON,
            SAME_ES,
            frames_es_told.IDIOMS,
            Everyday(frames_es_told.EVERYDAY, frames_es_told.BODILY, frames_es_told.PLACED),
            endings=ENDINGS_ES,
        )
    from bot.understanding import (
        common_en,
        everyday_en,
        frames_en,
        frames_en_signs,
        frames_en_told,
        passing_en,
        triggers_en,
        words_en,
    )

    return _build(
        words_en.CLASSES + frames_en_signs.CLASSES + frames_en_told.CLASSES,
        frames_en.GUARDS + frames_en_signs.GUARDS + frames_en_told.GUARDS,
        frames_en.FRAMES + frames_en_signs.FRAMES + frames_en_told.FRAMES,
        triggers_en.EN,
        passing_en.__dict__,
        common_en.COMMON,
        {**MIXED, **SAME},
        everyday_en.IDIOMS,
        Everyday(
            everyday_en.EVERYDAY,
            everyday_en.BODILY,
            everyday_en.PLACED,
            everyday_en.WOUND,
            everyday_en.INNER,
            everyday_en.ELSEWHERE,
            everyday_en.INWARD,
        ),
    )


def _build(
    words: str,
    guards: str,
    frames: str,
    triggers: Triggers,
    passing: dict[str, object],
    common: str,
    same: Mapping[str, str],
    idioms: Entries | None = None,
    everyday: Everyday | None = None,
    endings: tuple[str, ...] = ENDINGS_EN,
) -> Language:
    classes = read_classes(words, guards)
    table = read_frames(frames, classes)
    vocabulary = {
        word
        for entries in classes.values()
        for first, forms in entries.items()
        for parts in forms
        for word in (first, *parts)
    }
    vocabulary |= {
        word
        for frame in table
        for element in frame.elements
        for first, forms in element.entries.items()
        for parts in forms
        for word in (first, *parts)
    }

    for name in ("negation", "past_before", "past_after", "supposed", "relatives", "asked", "telling"):
        trigger = getattr(triggers, name)
        vocabulary |= {word for forms in trigger.values() for parts in forms for word in parts}

    def entry(name: str) -> Entries:
        value = passing[name]
        assert isinstance(value, dict)
        return value

    everyday = everyday or Everyday()
    protected = {*common.split(), *everyday.things}
    protected |= {word for forms in (idioms or {}).values() for parts in forms for word in parts}
    ready = [(frame, first_words(frame)) for frame in table]
    return Language(
        ready,
        index_of(ready),
        Speller(vocabulary, protected, same),
        triggers,
        entry("RESOLVED"),
        entry("RESOLVED_ACTS"),
        entry("PRESENT"),
        entry("SOMETIMES"),
        entry("OVER_BY_DAY"),
        entry("HAPPENED"),
        entry("LONG_AGO"),
        idioms or {},
        everyday,
        _class_names(read_classes(words)),
        endings,
    )


def _class_names(classes: dict[str, Entries]) -> dict[str, tuple[str, ...]]:
    table: dict[str, list[str]] = {}
    for name, forms in classes.items():
        for first, parts in forms.items():
            if (first,) in parts:
                table.setdefault(first, []).append(name)
    return {word: tuple(sorted(names)) for word, names in table.items()}

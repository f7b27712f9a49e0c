"""Frames: sequences of word classes found in tokens, without regular expressions, so that a clinician can read the
tables.

A class maps the first word of each entry to its further words; a frame is a tuple of elements. Matching is linear
in the text for all
practical frames: gaps are short and every frame is first checked against the set of the reply's words.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from bot.understanding.tokens import STOPS

GUARD_REACH = 5  # words on each side in which a guard word keeps a frame from counting

Entries = Mapping[str, tuple[tuple[str, ...], ...]]


@dataclass(frozen=True, slots=True)
class Element:
    """One step of a frame: a set of words or phrases, or a gap of up to `gap` words."""

    entries: Entries = field(default_factory=dict)
    gap: int = -1
    commas: bool = False
    optional: bool = False
    edge: str = ""  # "^" or "$"


@dataclass(frozen=True, slots=True)
class Frame:
    """A finding (or several, or none) with signals, the elements that show it, and words that keep it from
    counting."""

    findings: tuple[str, ...]
    signals: tuple[str, ...]
    elements: tuple[Element, ...]
    unless: Entries
    source: str


@dataclass(frozen=True, slots=True)
class Hit:
    """A frame found at tokens [first, last); `passed` are the tokens in between that its gaps passed over."""

    frame: Frame
    first: int
    last: int
    passed: tuple[int, ...] = ()


def inflect(word: str) -> list[str]:
    """A word with the regular English endings."""
    stem = word[:-1] if word.endswith("e") else word
    return [word, word + "s", stem + "ed", stem + "ing"]


def read_classes(*sources: str) -> dict[str, Entries]:
    """Class tables from `NAME = words` text; continuation lines are indented."""
    classes: dict[str, Entries] = {}
    for source in sources:
        for block in source.replace("\n    ", " ").strip().splitlines():
            name, _, words = block.partition("=")
            found, known = entries(words.split()), classes.get(name.strip(), {})
            classes[name.strip()] = {  # a class told twice is the words of both
                word: tuple(sorted({*known.get(word, ()), *found.get(word, ())}, key=lambda form: (-len(form), form)))
                for word in {*known, *found}
            }
    return classes


def entries(words: list[str]) -> Entries:
    """Index of words and `_` phrases by their first word, longest first."""
    table: dict[str, set[tuple[str, ...]]] = {}
    for word in words:
        for form in inflect(word[:-1]) if word.endswith("~") else [word]:
            parts = tuple(form.split("_"))
            table.setdefault(parts[0], set()).add(parts)
    return {first: tuple(sorted(forms, key=lambda parts: (-len(parts), parts))) for first, forms in table.items()}


def read_frames(source: str, classes: Mapping[str, Entries]) -> list[Frame]:
    """Frames from their table; see frames_en for the notation. Raises ValueError on a class that does not exist."""
    frames = []
    for line in source.replace("\n    ", " ").strip().splitlines():
        if not line:
            continue
        head, _, rest = line.partition(" : ")
        body, _, unless = rest.partition(" ! ")
        findings = tuple(part for word in head.split() if word[0] != "+" for part in word.split(","))
        signals = tuple(word[1:] for word in head.split() if word[0] == "+")
        words = body.split()
        frames.append(
            Frame(
                findings,
                signals,
                tuple(_element(word, classes, line) for word in words),
                _union(unless.split(), classes, line),
                line,
            )
        )
    return frames


def _element(word: str, classes: Mapping[str, Entries], line: str) -> Element:
    if word.startswith("<"):
        return Element(gap=int(word[1:].rstrip(",")), commas=word.endswith(","))
    if word in "^$":
        return Element(edge=word)
    optional = word.endswith("?")
    parts = word.rstrip("?").split("|")
    return Element(
        _union([p for p in parts if p != "$"], classes, line), optional=optional, edge="$|" if "$" in parts else ""
    )


def _union(parts: list[str], classes: Mapping[str, Entries], line: str) -> Entries:
    table: dict[str, tuple[tuple[str, ...], ...]] = {}
    for part in parts:
        if part.isupper() and part not in classes:
            raise ValueError(f"frame '{line}': there is no class {part}")
        for first, forms in (classes[part] if part.isupper() else entries([part])).items():
            table[first] = table.get(first, ()) + forms
    return table


def first_words(frame: Frame) -> list[frozenset[str]]:
    """For each element that must be there: the words that can begin it. A frame whose sets miss the text cannot
    match."""
    return [frozenset(e.entries) for e in frame.elements if e.entries and not e.optional and not e.edge]


def phrase_at(table: Entries, words: list[str], at: int) -> Iterator[int]:
    """Ends of the entries of a class that stand at a position, longest first."""
    for parts in table.get(words[at], ()) if at < len(words) else ():
        if len(parts) == 1 or tuple(words[at : at + len(parts)]) == parts:
            yield at + len(parts)


def match_at(
    elements: tuple[Element, ...], words: list[str], at: int, step: int = 0
) -> tuple[int, tuple[int, ...]] | None:
    """End of a frame that starts at a position, and the places of the words its gaps passed over; None where it
    does not stand.

    Gaps are tried shortest first."""
    if step == len(elements):
        return at, ()
    element = elements[step]
    if element.edge in ("^", "$"):
        good = _begins(words, at) if element.edge == "^" else _ended(words, at)
        return match_at(elements, words, at, step + 1) if good else None
    if element.gap >= 0:
        return _match_gap(elements, words, at, step)
    for end in phrase_at(element.entries, words, at):
        final = match_at(elements, words, end, step + 1)
        if final is not None:
            return final
    if element.optional or (element.edge == "$|" and _ended(words, at)):
        return match_at(elements, words, at, step + 1)
    return None


def _match_gap(
    elements: tuple[Element, ...], words: list[str], at: int, step: int
) -> tuple[int, tuple[int, ...]] | None:
    for skip in range(elements[step].gap + 1):
        final = match_at(elements, words, at + skip, step + 1)
        if final is not None:
            return final[0], tuple(range(at, at + skip)) + final[1]
        if (
            at + skip >= len(words)
            or words[at + skip] in STOPS
            or (words[at + skip] == "," and not elements[step].commas)
        ):
            return None
    return None


def _begins(words: list[str], at: int) -> bool:
    return at == 0 or words[at - 1] in STOPS or words[at - 1] == ","


def _ended(words: list[str], at: int) -> bool:
    return at >= len(words) or words[at] in STOPS or words[at] == ","


def clause_around(words: list[str], first: int, last: int) -> tuple[int, int]:
    """The clause [begin, end) that holds tokens [first, last): up to a stop or a comma on each side."""
    begin, end = first, last
    while begin > 0 and words[begin - 1] not in STOPS and words[begin - 1] != ",":
        begin -= 1
    while end < len(words) and words[end] not in STOPS and words[end] != ",":
        end += 1
    return begin, end


Table = list[tuple[Frame, list[frozenset[str]]]]


def index_of(frames: Table) -> dict[str, tuple[int, ...]]:
    """Word -> the frames that need it or one of its like: each frame stands under its smallest set of words."""
    found: dict[str, list[int]] = {}
    for number, (_, needs) in enumerate(frames):
        for word in min(needs, key=len) if needs else [""]:
            found.setdefault(word, []).append(number)
    return {word: tuple(numbers) for word, numbers in found.items()}


def find(frames: Table, index: Mapping[str, tuple[int, ...]], words: list[str]) -> list[Hit]:
    """Every frame that the words show, in order of place."""
    present = set(words)
    hits = []
    for number in sorted({number for word in (*present, "") for number in index.get(word, ())}):
        frame, needs = frames[number]
        if any(present.isdisjoint(need) for need in needs):
            continue
        last_end = -1
        for at in _starts(frame, words):
            matched = match_at(frame.elements, words, at)
            if not matched or matched[0] <= at or _guarded(frame, words, at, matched[0]):
                continue
            if at >= last_end:
                hits.append(Hit(frame, at, matched[0], matched[1]))
            elif matched[0] == last_end:
                hits[-1] = Hit(frame, at, matched[0], matched[1])  # the closer beginning is the one that is meant
            last_end = max(last_end, matched[0])
    return sorted(hits, key=lambda hit: (hit.first, hit.last))


def _starts(frame: Frame, words: list[str]) -> Iterator[int]:
    head = frame.elements[0]
    if head.edge == "^":
        yield from (at for at in range(len(words)) if _begins(words, at))
        return
    for at, word in enumerate(words):
        if word in head.entries:
            yield at


def _guarded(frame: Frame, words: list[str], first: int, last: int) -> bool:
    if not frame.unless:
        return False
    begin, end = clause_around(words, first, last)
    begin, end = max(begin, first - GUARD_REACH), min(end, last + GUARD_REACH + 1)
    return any(True for at in range(begin, end) for stop in phrase_at(frame.unless, words, at) if stop <= end)

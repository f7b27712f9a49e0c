"""Words that sound like a symptom and tell of none: idioms, and everyday things that are stuck, drip or burn."""

from __future__ import annotations

from bot.understanding.context import sentence, spans
from bot.understanding.frames import Hit, clause_around
from bot.understanding.language import Language
from bot.understanding.tokens import Token

_THINGS_DO = frozenset({"impaction_now", "cannot_swallow_saliva", "worse_dysphagia"})


def no_symptom(words: list[str], hit: Hit, known: Language) -> bool:
    """Whether a frame's words are an idiom, or speak of an everyday thing in a clause without a body."""
    things_do = bool(_THINGS_DO.intersection(hit.frame.findings))
    for at, to in spans(known.idioms, words, 0, len(words)):
        if at < hit.last and hit.first < to and not (things_do and _food(words[at:to], known)):
            return True
    if "bleeding" in hit.frame.findings:
        begin, end = sentence(words, hit.first, hit.last)
        said = words[begin:end]
        return bool(known.everyday.wound.intersection(said)) and not known.everyday.inner.intersection(said)
    if not things_do:
        return False
    begin, end = clause_around(words, hit.first, hit.last)
    clause = words[begin:end]
    if known.everyday.bodily.intersection(clause) or _food(clause, known):
        return False
    return any(word in known.everyday.things and not _placed(words, at, known) for at, word in enumerate(clause, begin))


def bodiless(words: list[str], known: Language) -> bool:
    """Whether a text is about an everyday thing and names no food and nothing of a body."""
    if known.everyday.bodily.intersection(words) or _food(words, known):
        return False
    return any(word in known.everyday.things and not _placed(words, at, known) for at, word in enumerate(words))


def idioms_in(words: list[str], tokens: list[Token], known: Language) -> list[tuple[int, int]]:
    """Character spans of the idioms in a text."""
    return [(tokens[at].start, tokens[to - 1].end) for at, to in spans(known.idioms, words, 0, len(words))]


def _food(clause: list[str], known: Language) -> bool:
    return any("FOOD" in known.class_names.get(word, ()) for word in clause)


def _placed(words: list[str], at: int, known: Language) -> bool:
    before = words[max(0, at - 3) : at]
    return bool(known.everyday.placed.intersection(before))

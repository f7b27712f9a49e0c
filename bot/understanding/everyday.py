"""Words that sound like a symptom and tell of none: idioms, and everyday things that are stuck, drip or burn."""

from __future__ import annotations

from bot.understanding.context import sentence, spans, words_of
from bot.understanding.frames import Hit, clause_around
from bot.understanding.language import Language
from bot.understanding.reasons import has_reason
from bot.understanding.tokens import Token

_INNER = frozenset({"STOOL", "VOMIT", "VOMITING", "COUGHSPIT", "SALIVA"})
_THINGS_DO = frozenset({"impaction_now", "cannot_swallow_saliva", "worse_dysphagia"})
_THINGS_TOO = frozenset({"adrenal_sign", "breathing_trouble"})      # 'the van collapsed', 'the blender choked'
_PERSONS = words_of("i im ive me my he she hes shes him her we they yo mi")


def no_symptom(words: list[str], hit: Hit, known: Language) -> bool:
    """Whether a frame's words are an idiom, or speak of an everyday thing in a clause without a body."""
    things_do = bool(_THINGS_DO.intersection(hit.frame.findings))
    for at, to in spans(known.idioms, words, 0, len(words)):
        if at < hit.last and hit.first < to and not (things_do and _bodily_beside(words, hit, at, to, known)):
            return True
    begin, end = sentence(words, hit.first, hit.last)
    said, day = words[begin:end], known.everyday
    if has_reason(words, hit, _food([word for word in said if word != "lump"], known)):
        return True
    if "bleeding" in hit.frame.findings:
        return bool(day.wound.intersection(said)) and not _inner(said, known)
    if "odynophagia" in hit.frame.findings:
        return bool(day.elsewhere.intersection(said)) and not day.inward.intersection(said)
    if _THINGS_TOO.intersection(hit.frame.findings):
        begin, end = clause_around(words, hit.first, hit.last)
        before = words[begin : hit.first]
        return not _PERSONS.intersection(before[1:] if before[:1] == ["my"] else before) and _thing(
            words, begin, min(end, hit.last + 3), known)
    if not things_do:
        return False
    begin, end = clause_around(words, hit.first, hit.last)      # 'phone died, nothing goes down'
    return _thing(words, begin, end, known)


def _bodily_beside(words: list[str], hit: Hit, at: int, to: int, known: Language) -> bool:
    """'Pretzel stuck at work': the clause of an idiom at [at, to) names food or a body besides it, or it holds food."""
    begin, end = clause_around(words, hit.first, hit.last)
    beside = [word for n, word in enumerate(words[begin:end], begin) if not at <= n < to]
    return bool(known.everyday.bodily.intersection(beside)) or _food(beside, known) or _food(words[at:to], known)


def _inner(said: list[str], known: Language) -> bool:
    """Whether words speak of blood from within: vomit, stool, what is coughed or spat."""
    return bool(known.everyday.inner.intersection(said)) or any(
        not _INNER.isdisjoint(known.class_names.get(word, ())) for word in said
    )


def _thing(words: list[str], begin: int, end: int, known: Language) -> bool:
    """Whether words [begin, end) are about an everyday thing and name no food and nothing of a body."""
    if known.everyday.bodily.intersection(words[begin:end]) or _food(words[begin:end], known):
        return False
    return any(words[at] in known.everyday.things and not _placed(words, at, known) for at in range(begin, end))


def bodiless(words: list[str], known: Language) -> bool:
    """Whether a text is about an everyday thing and names no food and nothing of a body."""
    return _thing(words, 0, len(words), known)


def idioms_in(words: list[str], tokens: list[Token], known: Language) -> list[tuple[int, int]]:
    """Character spans of the idioms in a text."""
    return [(tokens[at].start, tokens[to - 1].end) for at, to in spans(known.idioms, words, 0, len(words))]


def _food(clause: list[str], known: Language) -> bool:
    return any({"FOOD", "COMIDA"}.intersection(known.class_names.get(word, ())) for word in clause)


def _placed(words: list[str], at: int, known: Language) -> bool:
    before = words[max(0, at - 3) : at]
    if before[-1:] == ["hot"]:
        return True             # a hot dog is food
    return bool(known.everyday.placed.intersection(before))

"""Whether food that is told as stuck is there now, has passed, or sticks now and then."""

from __future__ import annotations

from bot.understanding.context import LONGEST, Place, spans, words_of
from bot.understanding.language import Language
from bot.understanding.surroundings import dated
from bot.understanding.types import Context, Finding

_DOSES = words_of("dose mg puffs lower dosis once one ampoule half")
_NOW = words_of("is its isnt are wont cant hasnt esta sigue")


def passing(place: Place, known: Language, about: frozenset[Context]) -> tuple[Finding, frozenset[Context]]:
    """The finding for a mention of stuck food, and its contexts."""
    words, first = place.words, place.first
    begin, end = place.sentence
    reach = min(len(words), place.last + LONGEST)
    now = spans(known.present, words, max(0, first - LONGEST), reach)
    if not now and any(dated(place, at, to) for at, to in spans(known.long_ago, words, begin, end)):
        return Finding.IMPACTION_NOW, about | {Context.PAST}
    about = about - {Context.PAST}
    passed = [(at, to) for at, to in spans(known.resolved, words, first, reach) if _holds(place, at)]
    passed = passed or spans(known.resolved_acts, words, begin, first + 1)
    if passed and not _still_after(words, now, passed[-1]):
        return Finding.IMPACTION_RESOLVED, about
    if not now and spans(known.sometimes, words, begin, end):
        return Finding.WORSE_DYSPHAGIA, about
    if not now and _happened_on_a_day(place, known):
        return Finding.IMPACTION_RESOLVED, about
    return Finding.IMPACTION_NOW, about


def still(place: Place, known: Language, about: frozenset[Context]) -> tuple[Finding, frozenset[Context]]:
    """Food told as passed: it is over only when nothing after it says that something is still there."""
    words, last = place.words, place.last
    begin, end = place.sentence
    reach = min(len(words), last + LONGEST)
    if Context.DENIED in about and spans(place.triggers.negation, words, place.first, last):
        return Finding.IMPACTION_NOW, about - {Context.DENIED, Context.PAST}        # 'it didnt come back out'
    if spans(known.present, words, last, reach) and not spans(known.resolved, words, last, reach):
        return Finding.IMPACTION_NOW, about - {Context.PAST}
    if any(dated(place, at, to) for at, to in spans(known.long_ago, words, begin, end)):
        return Finding.IMPACTION_RESOLVED, about
    return Finding.IMPACTION_RESOLVED, about - {Context.PAST}


def _holds(place: Place, at: int) -> bool:
    """Whether a cue of passing at a place is not denied and speaks of this mention."""
    denied = spans(place.triggers.negation, place.words, max(0, at - 3), at)
    if _DOSES.intersection(place.words[at : at + 8]) and "to" in place.words[at : at + 4]:
        return False            # 'since i went down to the lower dose'
    return not denied and not place.walled(place.last, at)


def _still_after(words: list[str], now: list[tuple[int, int]], passed: tuple[int, int]) -> bool:
    return any(at > passed[0] or "still" in words[at:to] for at, to in now if not passed[0] <= at < passed[1])


def _happened_on_a_day(place: Place, known: Language) -> bool:
    """'Got stuck on Tuesday': told in the past tense, on a day that is not today."""
    words, first, last = place.words, place.first, place.last
    begin, end = place.sentence
    if _NOW.intersection(words[first:last]):
        return False
    for at, to in spans(known.over_by_day, words, begin, end):
        near = last <= at <= last + 3
        told = spans(known.happened, words, max(begin, first - 6), last) or near
        if told and (near or dated(place, at, to)):
            return True
    return False

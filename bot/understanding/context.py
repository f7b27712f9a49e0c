"""What the words around a mention say about it: denied, past, another person's, supposed, asked, uncertain.

The method is that of NegEx (Chapman 2001) and ConText (Harkema 2009): trigger words before or after the mention, a
scope that ends at a
clause's end or at a termination word, and pseudo-triggers that look like triggers and are none. Patients' messages
differ from notes:
the scope of a denial is one clause and at most `reach` words, and a comma ends it unless the list is closed by 'or'.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field

from bot.understanding.frames import Entries, entries, phrase_at
from bot.understanding.tokens import STOPS
from bot.understanding.types import Context


@dataclass(frozen=True, slots=True)
class Triggers:
    """The trigger tables of one language (or of clinical notes)."""

    negation: Entries
    negation_after: Entries
    pseudo: Entries
    terminate: Entries
    list_or: frozenset[str]
    past_before: Entries
    past_after: Entries
    ongoing: Entries
    supposed: Entries
    true_now: Entries  # 'has been stuck for two hours': told as a fact, whatever the question
    condition: Entries  # 'if', which supposes only within a question
    not_if: Entries  # 'not sure if': no supposition
    asks: Entries  # what makes a sentence a question without its mark
    asked: Entries
    asked_soft: Entries  # 'is it normal to': asked, but perhaps by somebody who has it
    asked_open: Entries
    asked_after: Entries
    uncertain: Entries
    since: Entries
    relatives: Entries
    third: frozenset[str]
    first: frozenset[str]
    children: Entries
    telling: Entries
    not_subject: frozenset[str]
    subjects: frozenset[str] = field(default_factory=frozenset)
    answers: frozenset[str] = field(
        default_factory=frozenset
    )  # 'no' as an answer: what follows with a subject of its own is not denied
    through_commas: bool = False  # clinical notes list what is denied with commas; patients do not
    reach: int = 6


def table(text: str) -> Entries:
    """A trigger table from words; `_` joins phrases."""
    return entries(text.split())


def words_of(text: str) -> frozenset[str]:
    """A set of single words."""
    return frozenset(text.split())


def spans(tables: Entries, words: list[str], begin: int, end: int) -> list[tuple[int, int]]:
    """Places [from, to) of a table's entries within [begin, end), longest at each place."""
    found = []
    at = begin
    while at < end:
        stop = next((e for e in phrase_at(tables, words, at) if e <= end), 0)
        if stop:
            found.append((at, stop))
            at = stop
        else:
            at += 1
    return found


def sentence(words: list[str], first: int, last: int) -> tuple[int, int]:
    """The sentence [begin, end) around tokens [first, last): up to a stop on each side; commas stay inside."""
    begin, end = first, last
    while begin > 0 and words[begin - 1] not in STOPS:
        begin -= 1
    while end < len(words) and words[end] not in STOPS:
        end += 1
    return begin, end


def negated(
    words: list[str], first: int, last: int, triggers: Triggers, inner: Collection[int] | None = None
) -> bool:
    """Whether a denial before, inside or after the mention covers it.

    `inner` are the tokens inside the mention that are not its own words: a denial among them denies it ('my
    tongue is not white'), one of
    its own words does not ('it wont go down'). None: the mention is a plain span of a note, whose words deny
    nothing."""
    begin, end = sentence(words, first, last)
    pseudo = spans(triggers.pseudo, words, begin, end)

    def real(at: int, to: int) -> bool:
        return not any(p <= at and to <= q for p, q in pseudo)

    inside = [(at, to) for at, to in spans(triggers.negation, words, first, last) if real(at, to)]
    own = [place for place in inside if inner is not None and not set(range(*place)) <= set(inner)]
    for at, to in reversed(spans(triggers.negation, words, begin, first)):
        if real(at, to):
            if own and to - at == 1:
                break
            return _covers(words, at, to, first, end, triggers)
    if not own and any(inner and not spans(triggers.terminate, words, to, last) for at, to in inside):
        return True
    stop = next((at for at, _ in spans(triggers.terminate, words, last, end)), end)
    for at, to in spans(triggers.negation_after, words, last, min(stop, last + triggers.reach + 2)):
        closes = to >= len(words) or words[to] in STOPS or words[to] == "," or to - at > 1
        if real(at, to) and closes and ("," not in words[last + 1 : at] or triggers.through_commas):
            return True
    return False


def _covers(words: list[str], at: int, start: int, first: int, end: int, triggers: Triggers) -> bool:
    """Whether a denial at [at, start) reaches the mention that begins at `first`."""
    between = words[start:first]
    if spans(triggers.terminate, words, start, first):
        return False
    if "," in between and not triggers.through_commas and not _closed_list(words, start, first, end, triggers):
        return False
    answers = words[at] in triggers.answers
    subjects = [n for n, word in enumerate(between) if word in triggers.subjects]
    if answers and (subjects or words[first] in triggers.subjects):
        return False
    if subjects and subjects[-1] > 0 and not triggers.not_subject.intersection(between[: subjects[-1]]):
        return False
    pieces = sum(1 for word in between if word == "," or word in triggers.list_or)
    return len(between) <= triggers.reach + 3 * pieces


def _closed_list(words: list[str], start: int, first: int, end: int, triggers: Triggers) -> bool:
    """Whether 'or' closes the list that the mention belongs to: after the last comma before it, or in the
    pieces after it."""
    comma = max(at for at in range(start, first) if words[at] == ",")
    return any(word in triggers.list_or for word in words[comma:end])


def person(words: list[str], first: int, last: int, triggers: Triggers, parent: bool) -> bool:
    """Whether the mention is about somebody else than the patient."""
    begin, _ = sentence(words, first, last)
    other = False
    start = 0 if parent else max(0, _previous_sentence(words, begin))
    at = start
    while at < first:
        stop = next(iter(phrase_at(triggers.relatives, words, at)), 0)
        if stop and stop <= first + 1:
            child = bool(parent and next(iter(phrase_at(triggers.children, words, at)), 0))
            told = next(iter(phrase_at(triggers.telling, words, stop)), 0)
            behind = at > 0 and words[at - 1] in triggers.not_subject
            if not behind:
                other = not child and not told
            at = stop
            continue
        word = words[at]
        if word in triggers.first and not (word == "mine" and words[at - 1] == "of"):
            other = False
        elif word in triggers.third and not parent and at + 1 < len(words):
            other = not next(iter(phrase_at(triggers.telling, words, at + 1)), 0)
        elif word in triggers.third and parent:
            other = other and word not in ("he", "she", "his", "her", "him")
        at += 1
    if other:
        return True
    inside = spans(triggers.relatives, words, first, last)
    return bool(inside) and not parent and words[first] not in triggers.first and inside[0][0] == first


def _previous_sentence(words: list[str], begin: int) -> int:
    at = begin - 1
    while at > 0 and words[at - 1] not in STOPS:
        at -= 1
    return at


def contexts(
    words: list[str],
    first: int,
    last: int,
    triggers: Triggers,
    *,
    inner: Collection[int] | None = None,
    parent: bool = False,
) -> frozenset[Context]:
    """All contexts of a mention at tokens [first, last)."""
    found: set[Context] = set()
    begin, end = sentence(words, first, last)
    if negated(words, first, last, triggers, inner):
        found.add(Context.DENIED)
    if person(words, first, last, triggers, parent):
        found.add(Context.OTHER_PERSON)
    if _past(words, first, last, triggers):
        found.add(Context.PAST)
    barrier = max((to for _, to in spans(triggers.terminate, words, begin, first)), default=begin)
    if _supposed(words, first, last, triggers, barrier):
        found.add(Context.SUPPOSED)
    if spans(triggers.asked, words, barrier, first) or _whether_common(words, first, last, triggers):
        found.add(Context.ASKED)
    if spans(triggers.uncertain, words, begin, end):
        found.add(Context.UNCERTAIN)
    if spans(triggers.since, words, begin, end):
        found.add(Context.SINCE_MEDICINE)
    return frozenset(found)


def _whether_common(words: list[str], first: int, last: int, triggers: Triggers) -> bool:
    """'Is hoarseness normal?', 'are hives a known side effect': about the finding as such, with nobody who has it."""
    begin, end = sentence(words, first, last)
    if triggers.first.intersection(words):
        return False
    opens = first - begin <= 3 and bool(spans(triggers.asked_open, words, begin, first))
    return bool(spans(triggers.asked_after, words, last, min(end, last + (8 if opens else 4)))) and (
        opens or not triggers.asked_open
    )


def _supposed(words: list[str], first: int, last: int, triggers: Triggers, barrier: int) -> bool:
    """Whether a what-if before the mention, or an 'if' within a question, covers it."""
    begin, end = sentence(words, first, last)
    if spans(triggers.true_now, words, first, end):
        return False
    for at, to in spans(triggers.supposed, words, begin, last):
        if at <= first and first - to <= 14 and barrier <= at:
            return True
    asks = spans(triggers.asks, words, begin, end) or (end < len(words) and words[end] == "?")
    if not asks:
        return False
    known = spans(triggers.not_if, words, begin, first)
    return any(
        at < first and first - at <= 8 and barrier <= at and not any(p <= at < q for p, q in known)
        for at, _ in spans(triggers.condition, words, begin, first)
    )


def _past(words: list[str], first: int, last: int, triggers: Triggers) -> bool:
    begin, end = sentence(words, first, last)
    if spans(triggers.ongoing, words, begin, len(words)):
        return False
    barrier = max((to for _, to in spans(triggers.terminate, words, begin, first)), default=begin)
    if any(
        at == 0 or words[at - 1] not in ("than", "since", "que", "desde", "until")
        for at, _ in spans(triggers.past_before, words, barrier, end)
    ):
        return True
    for at, _ in spans(triggers.past_after, words, last, min(len(words), last + 12)):
        if not spans(triggers.negation, words, max(last, at - 2), at):
            return True
    return False

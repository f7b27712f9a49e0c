"""What the words around a mention say about it: denied, past, another person's, supposed, asked, uncertain.

The method is that of NegEx (Chapman 2001) and ConText (Harkema 2009): trigger words before or after the mention, a
scope that ends at a
clause's end or at a termination word, and pseudo-triggers that look like triggers and are none. Patients' messages
differ from notes:
the scope of a denial is one clause and at most `reach` words, and a comma ends it unless the list is closed by 'or'.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from bot.understanding.frames import Entries, entries, phrase_at
from bot.understanding.tokens import STOPS

LONGEST = 60      # words on each side of a mention that are looked at: texts without any stop stay quick to read


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
    clause_starts: frozenset[str] = field(default_factory=frozenset)  # a subject that begins a clause without a mark
    joins: frozenset[str] = field(default_factory=frozenset)  # ... unless one of these stands before it
    openers: frozenset[str] = field(default_factory=frozenset)  # what may stand before 'years ago' at the start
    verbs: frozenset[str] = field(default_factory=frozenset)  # a mention with one of these is a clause itself
    answers: frozenset[str] = field(
        default_factory=frozenset
    )  # 'no' as an answer: what follows with a subject of its own is not denied
    through_commas: bool = False  # clinical notes list what is denied with commas; patients do not
    supposed_after: Entries = field(default_factory=dict)  # 'if I got one'
    reach: int = 6
    speaks_for: Entries = field(default_factory=dict)  # 'mum here': somebody writes for the patient
    after: int = 3                  # words after a mention in which 'no' still belongs to it ('blood: none')


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
    while begin > max(0, first - LONGEST) and words[begin - 1] not in STOPS:
        begin -= 1
    while end < min(len(words), last + LONGEST) and words[end] not in STOPS:
        end += 1
    return begin, end


@dataclass(frozen=True, slots=True)
class Place:
    """A mention at tokens [first, last). `inner`: tokens inside that are not the mention's own words, None for
    a plain
    span of a note. `walls`: places of other findings, which a trigger does not reach over. `parent`: a parent
    writes."""

    words: list[str]
    first: int
    last: int
    triggers: Triggers
    inner: tuple[int, ...] | None = None
    walls: tuple[tuple[int, int], ...] = ()
    parent: bool = False

    @property
    def sentence(self) -> tuple[int, int]:
        """The sentence around the mention."""
        return sentence(self.words, self.first, self.last)

    def walled(self, begin: int, end: int) -> bool:
        """Whether another finding stands in [begin, end) and is not joined to what follows by 'or' or 'and'."""
        joined = self.triggers.list_or | {"and", "y", "a", "an", ",", "any", "the", "my", "no"}
        for _, to in self.walls:
            if begin < to <= end:
                tail = [self.words[at] for at in range(to, end) if not any(a <= at < b for a, b in self.walls)]
                listed = (self.triggers.list_or | {"and", "y"}).intersection(tail) or (
                    "," in tail and self.triggers.list_or.intersection(self.words[end : self.sentence[1]])
                )
                if not listed or not joined.issuperset(tail):
                    return True
        return False

    def starts_of_clauses(self, begin: int, end: int) -> list[int]:
        """Places in [begin, end] where a run-on text begins a clause anew: a subject with no joining word
        before it."""
        words, starts, first = self.words, self.triggers.clause_starts, self.first
        whole = bool(
            self.triggers.verbs.intersection(words[first : self.last])
        )  # 'chicken is stuck': a clause itself
        return [
            at
            for at in range(max(begin, 1), min(end, len(words) - 1) + 1)
            if (words[at] in starts or (whole and at == first))
            and words[at - 1] not in self.triggers.joins
            and words[at - 1] not in starts
        ]

    def linked(self, begin: int, *, through: int = 0, own_subject: bool = True) -> bool:
        """Whether a trigger that ends at `begin` is in one clause with the mention: no termination word, comma, other
        finding or new subject between (but `through` of them, and the one right after the trigger if it is
        its own)."""
        words, first = self.words, self.first
        if begin > first or (begin == first and own_subject):
            return True
        if spans(self.triggers.terminate, words, begin, first) or self.walled(begin, first):
            return False
        if "," in words[begin:first] and not self.triggers.through_commas and not closed_list(self, begin):
            return False
        return sum(1 for at in self.starts_of_clauses(begin, first) if at > begin or not own_subject) <= through


def closed_list(place: Place, begin: int) -> bool:
    """Whether 'or' closes the list that the mention belongs to: after the last comma before it, or in the
    pieces after it."""
    words, (_, end) = place.words, place.sentence
    comma = max(at for at in range(begin, place.first) if words[at] == ",")
    return any(word in place.triggers.list_or for word in words[comma:end])


def denied(place: Place) -> bool:
    """Whether a denial before, inside or after the mention covers it.

    A denial among the mention's inner tokens denies it ('my tongue is not white'); one of its own words does not ('it
    wont go down')."""
    words, first, last, triggers, inner = place.words, place.first, place.last, place.triggers, place.inner
    begin, end = place.sentence
    pseudo = spans(triggers.pseudo, words, begin, end)

    def real(at: int, to: int) -> bool:
        return not any(p <= at and to <= q for p, q in pseudo)

    inside = [(at, to) for at, to in spans(triggers.negation, words, first, last) if real(at, to)]
    own = inner is not None and (
        any(not set(range(*one)) <= set(inner) for one in inside)
        or any(words[at] in triggers.clause_starts and words[at].startswith(("can", "could")) for at in (first,))
    )
    for at, to in reversed(spans(triggers.negation, words, begin, first)):
        if real(at, to):
            if own and to - at == 1:
                break
            return _reaches(place, at, to)
    if not own and any(inner and not spans(triggers.terminate, words, to, last) for at, to in inside):
        return True
    if own:
        return False            # 'no puedo pasar nada'
    stop = next((at for at, _ in spans(triggers.terminate, words, last, end)), end)
    for at, to in spans(triggers.negation_after, words, last, min(stop, last + triggers.after)):
        closes = to >= len(words) or words[to] in STOPS or words[to] == "," or to - at > 1
        if real(at, to) and closes and ("," not in words[last + 1 : at] or triggers.through_commas):
            return not place.walled(last, at)
    return False


def _reaches(place: Place, at: int, start: int) -> bool:
    """Whether a denial at [at, start) reaches the mention: one clause, and few words."""
    words, first, triggers = place.words, place.first, place.triggers
    between = words[start:first]
    if spans(triggers.terminate, words, start, first) or place.walled(start, first):
        return False
    if "," in between and not triggers.through_commas and not closed_list(place, start):
        return False
    subjects = [n for n, word in enumerate(between) if word in triggers.subjects]
    if words[at] in triggers.answers and (subjects or words[first] in triggers.subjects):
        return False
    if subjects and subjects[-1] > 0 and not triggers.not_subject.intersection(between[: subjects[-1]]):
        return False
    if words[at] in triggers.answers and between and triggers.verbs.intersection(words[first : place.last]):
        return False  # 'no pain chicken is stuck'
    pieces = sum(1 for word in between if word == "," or word in triggers.list_or)
    return len(between) <= triggers.reach + 3 * pieces

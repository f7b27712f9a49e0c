"""A common question with something else beside it: 'where do I keep it? my jaw is locked'. Pure.

The text is cut at marks and at 'and', 'also', 'but'. What is no question is read alone, by the same rules, so that the
question's words do not hide it; places keep their offsets in the whole text.
"""

from __future__ import annotations

from dataclasses import replace

from bot.understanding import question_grammar
from bot.understanding.reader import read
from bot.understanding.tokens import Token, split
from bot.understanding.types import Reading, Urgency

_MARKS = frozenset("?.!,;:\n…¿¡()-—")
_LOOSE = " ?.!,;:\n…¿¡)-—"
_JOINS = {"en": frozenset({"and", "also", "but", "plus"}), "es": frozenset({"y", "tambien", "pero", "ademas"})}


def with_addition(reading: Reading, language: str, writer: str) -> Reading:
    """The reading, joined with that of the words beside a common question, where those need a person. The question is
    then the one that was asked; none where the addition is urgent or more: its own answer stands alone."""
    if reading.asks or not reading.needs_human or reading.urgency is Urgency.EMERGENCY:
        return reading
    asks, rest = beside(reading.text, language, parent=writer == "parent")
    words = rest.strip(_LOOSE)         # a mark left over from the question is something to the second reader
    if not asks or not words:
        return reading
    alone = read(words, language=language, writer=writer)
    lead = len(rest) - len(rest.lstrip(_LOOSE))
    moved = [replace(one, start=one.start + lead, end=one.end + lead) for one in alone.mentions]
    if not alone.needs_human:
        return reading
    urgency = max(reading.urgency, alone.urgency)
    question = alone.question or asks[0]
    answered_alone = urgency >= Urgency.URGENT and not alone.question
    return Reading(
        reading.text,
        findings=tuple(dict.fromkeys((*reading.findings, *alone.findings))),
        mentions=tuple(dict.fromkeys((*reading.mentions, *moved))),
        urgency=urgency,
        needs_human=True,
        answer=reading.answer,
        number=reading.number,
        clock_time=reading.clock_time,
        question="" if answered_alone else question,
        supposed_emergency=reading.supposed_emergency or alone.supposed_emergency,
        extra=tuple(sorted({*reading.extra, *alone.extra})),
    )


def beside(text: str, language: str, *, parent: bool = False) -> tuple[tuple[str, ...], str]:
    """Ids of the questions that pieces of the text ask, and the text with those pieces blank; () and "" where the text
    asks none, or is too long to be a question with a few words beside it."""
    tokens = split(text)
    if not tokens or len(tokens) > 2 * question_grammar.MOST_WORDS:
        return (), ""
    for pieces in (_cut(tokens, _MARKS), _cut(tokens, _MARKS | _JOINS.get(language[:2], _JOINS["en"]))):
        asks: list[str] = []
        rest = list(text)
        for first, last in pieces:
            words = text[first:last]
            named = question_grammar.parse(words, split(words), split(words), language[:2], parent=parent)
            if named:
                asks += named
                rest[first:last] = " " * (last - first)
        if asks:
            return tuple(dict.fromkeys(asks)), "".join(rest)
    return (), ""


def _cut(tokens: list[Token], at: frozenset[str]) -> list[tuple[int, int]]:
    """Spans of text between these tokens."""
    pieces: list[tuple[int, int]] = []
    open_at: int | None = None
    end = 0
    for token in tokens:
        if token.word in at:
            if open_at is not None:
                pieces.append((open_at, end))
            open_at = None
            continue
        open_at, end = token.start if open_at is None else open_at, token.end
    return [*pieces, (open_at, end)] if open_at is not None else pieces

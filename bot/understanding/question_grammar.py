"""The closed grammar of common questions: texts that ask one or two of them and say nothing else.

A text is accepted when every word of it belongs to a question's own small grammar, to polite padding, or to the
patient's words for the medicine. One word more ('can I drink water, it is stuck') and nothing is parsed: a person reads
it. A parse alone closes nothing: the reader must find no sign beside it, and the clinic protocol must have the answer.
Questions that name danger (taken twice, a child, a pregnancy, stopping) have no grammar here.
"""

from __future__ import annotations

import re
import unicodedata
from functools import cache

from bot.understanding.question_grammar_en import EN_POLITE, english
from bot.understanding.question_grammar_es import ES_POLITE, spanish
from bot.understanding.tokens import Token

MOST_WORDS = 30        # a longer text tells more than it asks
MOST_QUESTIONS = 2
_MARKS = frozenset("?.!,;:\n…¿¡()-—")
_JOINS = {"en": "and", "es": "y"}
_CALM = frozenset("👍👌🙏🙂😊😀😃😄☺😅🤷❤💊☕🍺🍷🥤")


def parse(tokens: list[Token], text: str, language: str, *, parent: bool = False) -> tuple[str, ...]:
    """Ids of the questions (bot/questions) that the whole text asks, at most two; () when a word is left over.

    parent: a parent writes, so that 'can she eat now' asks about the patient.
    """
    if not tokens or len(tokens) > MOST_WORDS or _picture_says_more(text):
        return ()
    patterns = _patterns(language, parent)
    words = [token.word for token in tokens]
    for pieces in (_whole(words), _cut(words, _MARKS), _cut(words, _MARKS | {_JOINS.get(language, "and")})):
        asked = _each(pieces, patterns, language)
        if asked:
            return asked
    return ()


def _whole(words: list[str]) -> list[str]:
    return [" ".join(word for word in words if word not in _MARKS)]


def _cut(words: list[str], marks: frozenset[str]) -> list[str]:
    pieces: list[list[str]] = [[]]
    for word in words:
        if word in marks:
            pieces.append([])
        else:
            pieces[-1].append(word)
    return [" ".join(piece) for piece in pieces if piece]


def _each(pieces: list[str], patterns: tuple[tuple[str, re.Pattern[str]], ...], language: str) -> tuple[str, ...]:
    """The questions of the pieces, in order and once each; () when one piece is none, or there are too many."""
    asked: list[str] = []
    polite = _polite(language)
    for piece in pieces:
        bare = polite.sub("", piece).strip()
        if not bare:
            continue
        name = next((name for name, pattern in patterns if pattern.fullmatch(bare)), "")
        if not name:
            return ()
        if name not in asked:
            asked.append(name)
    return tuple(asked) if len(asked) <= MOST_QUESTIONS else ()


def _picture_says_more(text: str) -> bool:
    """A crying face or a drop of blood beside a question is more than the question."""
    return any(unicodedata.category(sign) == "So" and sign not in _CALM for sign in text)


@cache
def _polite(language: str) -> re.Pattern[str]:
    """Polite words at the beginning or the end of a piece, as often as they come."""
    words = ES_POLITE if language == "es" else EN_POLITE
    return re.compile(rf"^(?:(?:{words})(?: |$))+|(?:(?:^| )(?:{words}))+$")


@cache
def _patterns(language: str, parent: bool) -> tuple[tuple[str, re.Pattern[str]], ...]:
    table = spanish(parent) if language == "es" else english(parent)
    return tuple((name, re.compile("|".join(f"(?:{form})" for form in forms))) for name, forms in table.items())

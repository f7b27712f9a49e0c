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

from rapidfuzz.distance import OSA

from bot.understanding.question_grammar_en import EN_POLITE, english
from bot.understanding.question_grammar_es import ES_POLITE, spanish
from bot.understanding.tokens import Token, plain

MOST_WORDS = 30        # a longer text tells more than it asks
MOST_QUESTIONS = 2
SHORT = 4              # shorter words are corrected only as abbreviations
_MARKS = frozenset("?.!,;:\n…¿¡()-—")
_JOINS = {"en": "and", "es": "y"}
_CALM = frozenset("👍👌🙏🙂😊😀😃😄☺😅🤷❤💊☕🍺🍷🥤")


def parse(text: str, written: list[Token], corrected: list[Token], language: str, *,
          parent: bool = False) -> tuple[str, ...]:
    """Ids of the questions (bot/questions) that the whole text asks, at most two; () when a word is left over.

    written: the tokens as they stand; corrected: in the field's spelling, looked at where each word is near to what was
    written. parent: a parent writes, so that 'can she eat now' asks about the patient.
    """
    if not written or len(written) > MOST_WORDS or _picture_says_more(text):
        return ()
    patterns = _patterns(language, parent)
    for tokens in (written, corrected if all(map(_near, corrected)) else []):
        words = [token.word for token in tokens]
        for pieces in (_whole(words), _cut(words, _MARKS), _cut(words, _MARKS | {_JOINS.get(language, "and")})):
            asked = _each(pieces, patterns, language)
            if asked:
                return asked
    return ()


def _near(token: Token) -> bool:
    """Whether the spelling is one slip away, or an abbreviation: 'watr', 'n'; 'bruise my teeth' is not 'brush'."""
    return len(token.raw) < SHORT or OSA.distance(plain(token.raw), token.word) <= 1


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
    before, after = _polite(language)
    for piece in pieces:
        left = before.sub("", piece).strip()
        bare = after.sub("", left).strip()
        if not bare:
            continue
        name = next((name for words in (piece, left, after.sub("", piece).strip(), bare) for name, pattern in patterns
                     if pattern.fullmatch(words)), "")          # 'is water ok' ends in no politeness
        if not name:
            return ()
        if name not in asked:
            asked.append(name)
    return tuple(asked) if len(asked) <= MOST_QUESTIONS else ()


def _picture_says_more(text: str) -> bool:
    """A crying face or a drop of blood beside a question is more than the question."""
    return any(unicodedata.category(sign) == "So" and sign not in _CALM for sign in text)


@cache
def _polite(language: str) -> tuple[re.Pattern[str], re.Pattern[str]]:
    """Polite words at the beginning and at the end of a piece, as often as they come."""
    words = ES_POLITE if language == "es" else EN_POLITE
    return re.compile(rf"^(?:(?:{words})(?: |$))+"), re.compile(rf"(?:(?:^| )(?:{words}))+$")


@cache
def _patterns(language: str, parent: bool) -> tuple[tuple[str, re.Pattern[str]], ...]:
    table = spanish(parent) if language == "es" else english(parent)
    return tuple((name, re.compile("|".join(f"(?:{form})" for form in forms))) for name, forms in table.items())

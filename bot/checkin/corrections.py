"""'I meant no': a correction in words, parsed whole or not at all. Pure.

A closed grammar: an opening that takes something back, then a plain 'no', a number or the label of a button, and
nothing else. Whatever says more than that is no correction and goes the way of all words.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from bot.checkin.answers import by_number, label_choice, last_answered
from bot.checkin.types import Answers, Item

_OPENINGS = {
    "en": r"(?:(?:sorry|oops|no wait|wait|actually|correction|my mistake) )*(?:i|we) (?:meant|mean)"
          r"(?: to (?:tap|say|write|press))?",
    "es": r"(?:(?:perdon|ay|espera|en realidad|me equivoque) )*(?:quise|queria|quiero) decir(?: que)?",
}
_BACK = {
    "en": r"(?:(?:sorry|oops) )*(?:go )?back|undo|(?:sorry )?(?:i made a|my) mistake|"
          r"(?:(?:sorry|oops) )*(?:i (?:tapped|pressed|hit) the )?wrong (?:one|button)",
    "es": r"(?:perdon )?(?:atras|volver|regresar|deshacer)|(?:perdon )?me equivoque(?: de boton)?|"
          r"(?:perdon )?(?:toque el )?boton equivocado",
}
_NO = {"en": r"no|nope|none|none of (?:these|them)|nothing", "es": r"no|nada|ninguno|ninguna|nada de (?:esto|eso)"}


@dataclass(frozen=True, slots=True)
class Correction:
    """The answer of `item_id` becomes `choice_id`; with "" the last answer is only taken back."""

    item_id: str
    choice_id: str


def correction(items: Iterable[Item], answers: Answers, text: str, lang: str,
               labels: Callable[[Item], Mapping[str, str]]) -> Correction | None:
    """What a text corrects in the answer given last, or None when it is no correction.

    labels: choice id -> label of a question in the patient's language.
    """
    last = last_answered(items, answers)
    if last is None:
        return None
    language = lang if lang in _OPENINGS else "en"
    words = _bare(text)
    if re.fullmatch(_BACK[language], words):
        return Correction(last.id, "")
    opened = re.fullmatch(rf"{_OPENINGS[language]} (?P<rest>.+)", words)
    if opened is None:
        return None
    rest = opened.group("rest")
    if re.fullmatch(_NO[language], rest):
        return Correction(last.id, last.no) if last.no else None
    bare = {name: _bare(label) for name, label in labels(last).items()}
    choice = by_number(last, int(rest)) if rest.isdecimal() else label_choice(last, rest, bare)
    return Correction(last.id, choice.id) if choice else None


def _bare(text: str) -> str:
    """Lower case, without accents, apostrophes and marks, one space between words."""
    plain = "".join(c for c in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(c))
    return " ".join(re.sub(r"[^\w\s]", " ", re.sub(r"['’]", "", plain)).split())

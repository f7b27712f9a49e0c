"""'I meant no': a correction in words, parsed whole or not at all. Pure.

A closed grammar: an opening that takes something back, then a plain 'no', a number or the label of a button, and
nothing else. Whatever says more than that is no correction and goes the way of all words.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from bot.checkin.answers import by_number, last_answered
from bot.checkin.typed import bare, typed_choice
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
_ONLY_BACK = {"en": r"(?:go )?back", "es": r"atras|volver|regresar"}
_NO = {"en": r"no|nope|none|none of (?:these|them)|nothing", "es": r"no|nada|ninguno|ninguna|nada de (?:esto|eso)"}
_BARE_NO = frozenset({"no", "nope"})
_YES = {"en": r"yes|yeah|yep|yup", "es": r"si|sip"}


@dataclass(frozen=True, slots=True)
class Correction:
    """The answer of `item_id` becomes `choice_id`; with "" the last answer is only taken back (item "": there is none
    yet, and the question is shown again)."""

    item_id: str
    choice_id: str


def correction(items: Iterable[Item], answers: Answers, text: str, lang: str,
               labels: Callable[[Item], Mapping[str, str]]) -> Correction | None:
    """What a text corrects in the answer given last, or None when it is no correction.

    labels: choice id -> label of a question in the patient's language.
    """
    last = last_answered(items, answers)
    language = lang if lang in _OPENINGS else "en"
    words = bare(text)
    if last is None:       # what else is taken back is no answer of the check-in
        return Correction("", "") if re.fullmatch(_ONLY_BACK[language], words) else None
    back = Correction(last.id, "")
    if re.fullmatch(_BACK[language], words):
        return back
    opened = re.fullmatch(rf"{_OPENINGS[language]} (?P<rest>.+)", words)
    if opened is None:
        return None
    rest = opened.group("rest")
    plain = re.fullmatch(rf"{_NO[language]}|{_YES[language]}", rest) is not None   # a correction, of what is not clear
    if re.fullmatch(_NO[language], rest):
        named = last.bare_no or rest not in _BARE_NO
        return Correction(last.id, last.no) if last.no and named else back
    counted = by_number(last, int(rest[:3])) if rest.isdecimal() else None
    name = counted.id if counted else typed_choice(last, rest, labels(last), language)
    if name:
        return Correction(last.id, name)
    return back if plain else None


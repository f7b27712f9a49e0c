"""How much was taken, told as a count: 'I only took 2 ampoules', 'two puffs instead of four', 'tomé 10 ampollas'.

More than planned is urgent, less is routine, and the same word 'two' may be either. The words alone sometimes say
which ('only', 'instead of four'); else the count is compared with the dose in force by whoever knows the plan. Pure.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bot.understanding.grammar_words import LANGUAGES


@dataclass(frozen=True, slots=True)
class Count:
    """said: units taken. meant: units that it should have been, where told. unit: 'ampoule', 'puff', or "" where none
    is named. only: the words themselves call it too little. day: of the whole day, not of one dose. whole: the text
    says nothing else, so what it seems to say otherwise may be put aside."""

    said: float
    meant: float | None = None
    unit: str = ""
    only: bool = False
    day: bool = False
    whole: bool = False

    @property
    def less(self) -> bool:
        """Whether the words alone say that it was too little."""
        return not self.more and (self.only or (self.meant is not None and self.said < self.meant))

    @property
    def more(self) -> bool:
        """Whether the words alone say that it was too much."""
        return self.meant is not None and self.said > self.meant


_UNITS = {"ampoule": r"amp(?:oule|ule|ul)s?|vials?|ampollas?|ampolletas?|viales|vial",
          "puff": r"puffs?|sprays?|squirts?|inhalations?|inhalacion(?:es)?|disparos?|bombazos?|atomizacion(?:es)?"}
_UNIT = "|".join(_UNITS.values())
_NUMBER = r"(?:\d{1,2}(?:[.,]\d)?|half(?: an?| of an?)?|media|[a-z]+)"
_EN = (r"(?:(?:oops|sorry|oh no|actually|yes|ok|hi|hello|by (?:mistake|accident)|accidentally|today|this morning|"
       r"tonight) )*(?:(?:i|we|he|she|they) )?(?:(?:have|has|ve|just|accidentally|(?P<only>only)|mistakenly) )*"
       r"(?:(?P<verb>took|taken|had|used|swallowed|drank|inhaled|gave|puffed|did)(?: him| her)? )?"
       rf"(?:just |(?P<only2>only) )?(?P<said>{_NUMBER})(?: (?P<unit>{_UNIT}))?"
       rf"(?: (?:instead of|rather than|not|and not) (?:the )?(?P<meant>{_NUMBER})(?: (?:{_UNIT}))?)?"
       r"(?: (?P<day>today|in all|in total|so far))?"
       r"(?: (?:by (?:mistake|accident)|accidentally|now|just now|this morning|tonight|sorry|oops|(?P<only3>only)))*")
_ES = (r"(?:(?:ups|uy|perdon|si|hola|por error|sin querer|hoy|esta manana|esta noche) )*"
       r"(?:(?:yo|el|ella) )?(?:(?:me|se|le) )?(?:(?P<only>solo|solamente|nomas) )?(?:(?:me|se|le) )?"
       r"(?:(?P<verb>tome|tomo|tomado|use|uso|di|trague|trago|inhale|inhalo) )?"
       rf"(?:(?P<only2>solo|solamente|nomas) )?(?P<said>{_NUMBER})(?: (?P<unit>{_UNIT}))?"
       rf"(?: (?:en vez de|en lugar de|y no|no) (?:las |los )?(?P<meant>{_NUMBER})(?: (?:{_UNIT}))?)?"
       r"(?: (?P<day>hoy|en total|en todo el dia))?"
       r"(?: (?:por error|sin querer|ahora|esta manana|esta noche|perdon|(?P<only3>solo|solamente|nomas|nada mas)))*")
_WHOLE = {"en": re.compile(_EN), "es": re.compile(_ES)}
# Beside other words only a plain count that was taken is heard, and never lowers anything.
_BESIDE = {
    "en": re.compile(rf"\b(?:took|taken|swallowed|drank|gave (?:him|her)|had) (?:just |only )?(?P<said>{_NUMBER}) "
                     rf"(?P<unit>{_UNIT})\b(?! of)"),
    "es": re.compile(rf"\b(?:tome|tomo|trague|di) (?:solo )?(?P<said>{_NUMBER}) (?P<unit>{_UNIT})\b(?! de)")}
_NOT_NOW = re.compile(
    r"\?|\b(?:if|should|could|would|can|may|not|never|didnt|havent|used to|ago|year|years|month|months|week|weeks|"
    r"days|a day|per day|daily|each|every|before|yesterday|so far|total|left|times|si (?:me )?tom\w+|debo|puedo|nunca|"
    r"no|ano|anos|mes|meses|semana|semanas|dias|al dia|cada|antes|ayer|quedan?|veces)\b")


def told(words: list[str], language: str) -> Count | None:
    """The count that the words tell, or None. words: lower case, marks as words of their own."""
    language = language[:2] if language[:2] in _WHOLE else "en"
    plain = [word.replace("ñ", "n") for word in words]
    said = " ".join(word for word in plain if word not in (",", ".", "!", "…", "\n", "¡"))
    if len(said) > 200:
        return None
    if "?" not in plain and "¿" not in plain and (found := _WHOLE[language].fullmatch(said)) is not None:
        return _whole(found, language)
    if _NOT_NOW.search(said):
        return None
    counts = [(_number(one["said"], language), one["unit"]) for one in _BESIDE[language].finditer(said)]
    known = [(number, unit) for number, unit in counts if number is not None]
    most = max(known, default=None)
    return Count(most[0], unit=_unit(most[1])) if most is not None else None


def _whole(found: re.Match[str], language: str) -> Count | None:
    said = _number(found["said"], language)
    meant = _number(found["meant"], language) if found["meant"] else None
    only = any(found[name] for name in ("only", "only2", "only3"))
    if said is None or (found["meant"] and meant is None):
        return None
    if not found["verb"] and not (found["unit"] and meant is not None):
        return None                  # 'I have 2 ampoules' is the supply, 'only two' an answer to something else
    if not found["unit"] and (found["said"] in ("half", "media") or found["verb"] in ("had", "did") or not (
            meant is not None or only)):
        return None                  # 'took two' may be two doses
    return Count(said, meant, _unit(found["unit"] or ""), only, bool(found["day"]), whole=True)


def _number(word: str, language: str) -> float | None:
    if word[0].isdigit():
        return float(word.replace(",", "."))
    value = LANGUAGES[language].numbers.get(word.split(" ")[0])
    return None if value is None else float(value)


def _unit(word: str) -> str:
    return next((name for name, pattern in _UNITS.items() if word and re.fullmatch(pattern, word)), "")

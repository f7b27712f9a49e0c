"""What a raised reply is probably about, so that the right fixed answer goes out at once: the finding whose words
it holds most of.

Used only where the second reader (net) raised the tier and the frames placed nothing of that tier. The mention is
marked uncertain.
"""

from __future__ import annotations

from collections.abc import Mapping

from bot.understanding.context import words_of
from bot.understanding.types import Finding, Urgency

_LIFE = words_of(
    "die dying dead kill suicide life live living alive myself end ending exist morir morirme vida vivir matar muerto"
)

# finding -> word classes that speak of it (English, Spanish), twice the weight for a class that speaks of nothing
# else.
_EMERGENCY: dict[Finding, tuple[str, str]] = {
    Finding.IMPACTION_NOW: (
        "STUCK PLUG BLOCK ATASCADO VUELVE COME_BACK",
        "FOOD BODYLOC PLACE GO_DOWN MOTION DIRECTION PARKED SWALLOW LIQUID CHOKE COMIDA PUESTO BAJA TRAGAR LIQUIDO",
    ),
    Finding.CANNOT_SWALLOW_SALIVA: ("SALIVA DROOL FROTH BABEA", "VESSEL SPITTING SWALLOW ESCUPE VASO"),
    Finding.BLEEDING: ("BLOOD TAR GROUNDS SANGRE", "DARKRED VOMIT STOOL ROJO VOMITA HECES"),
    Finding.BREATHING_TROUBLE: ("BREATH AIR BREATHWORD RESPIRA AHOGO", "HARDTO CUESTA"),
    Finding.ALLERGIC_REACTION: ("SWELL HIVES HINCHA RONCHAS", "FACE CARA"),
    Finding.CHEST_PAIN: ("CHEST PECHO", "PAIN SEVERE DOLOR FUERTE"),
    Finding.ADRENAL_SIGN: ("COLLAPSE DIZZY WEAK COLAPSO MAREO DEBIL", "VOMITING VOMITO"),
}
_URGENT: dict[Finding, tuple[str, str]] = {
    Finding.THRUSH: ("WHITE THRUSHWORD BLANCO CANDIDA", "PATCH MOUTH MANCHA BOCA"),
    Finding.ODYNOPHAGIA: ("", "HURT EATDRINK SWALLOW DUELE TRAGANDO TRAGAR"),
    Finding.HERPES_SIGN: ("BLISTER COLDSORE HERPES AMPOLLA_BOCA", "LIP"),
    Finding.FEVER: ("FEVER TEMPWORD FIEBRE", ""),
    Finding.IMPACTION_RESOLVED: ("STUCK CHOKED ATASCADO", "FOOD GO_DOWN COMIDA BAJA"),
    Finding.ADRENAL_SIGN: ("DIZZY WEAK MAREO DEBIL", "TIRED CANSADO"),
    Finding.ALLERGIC_REACTION: ("HIVES RONCHAS", ""),
    Finding.CHEST_PAIN: ("CHEST PECHO", "PAIN DOLOR"),
    Finding.PREGNANCY: ("PREGNANT EMBARAZO", ""),
}
LEAST = 2      # points that a guess needs


def guess(
    words: list[str], class_names: Mapping[str, tuple[str, ...]], tier: Urgency
) -> tuple[Finding, int, int] | None:
    """The finding and the tokens [first, last) that speak of it, or None where too few words do."""
    table = _EMERGENCY if tier is Urgency.EMERGENCY else _URGENT
    best: tuple[int, Finding, list[int]] | None = None
    for finding, (strong, weak) in table.items():
        points, places = _points(words, class_names, frozenset(strong.split()), frozenset(weak.split()))
        if points >= LEAST and (best is None or points > best[0]):
            best = points, finding, places
    life = [at for at, word in enumerate(words) if word in _LIFE]
    if tier is Urgency.EMERGENCY and life and (best is None or 2 * len(life) >= best[0]):
        return Finding.SELF_HARM, life[0], life[-1] + 1
    return (best[1], best[2][0], best[2][-1] + 1) if best else None


def _points(
    words: list[str], class_names: Mapping[str, tuple[str, ...]], strong: frozenset[str], weak: frozenset[str]
) -> tuple[int, list[int]]:
    points, places = 0, []
    for at, word in enumerate(words):
        names = class_names.get(word, ())
        worth = 2 if strong.intersection(names) else 1 if weak.intersection(names) else 0
        if worth:
            points += worth
            places.append(at)
    return points, places

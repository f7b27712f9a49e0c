"""Typed instead of tapped: what stands on a button, one of its parts, or a plain word for it. Pure.

Only a text that is wholly such words answers; whatever says more goes the way of all words and is read for findings.
Where food is or was stuck, and where help was needed, only the button's own words count.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping

from bot.checkin.answers import by_number
from bot.checkin.types import Item

_WELL = {"en": "fine, well, good, ok, okay, great, all good, all fine, all ok, all well, perfect, normal, very well, "
               "very good, pretty good, no problem, no problems, no trouble, no issues",
         "es": "bien, muy bien, todo bien, perfecto, normal, ok, vale, genial, sin problema, sin problemas, "
               "ningun problema, de maravilla"}
_UNKNOWN = {"en": "not sure, unsure, dont know, i dont know, no idea, cant tell, i cant tell, cant remember",
            "es": "no se, no lo se, no estoy seguro, no estoy segura, ni idea, no me acuerdo, no puedo decir"}
# question -> choice -> the words for it, by language
_WORDS: Mapping[str, Mapping[str, Mapping[str, str]]] = {
    "swallow": {"well": {"en": f"{_WELL['en']}, easy, easily, smoothly, no trouble at all, went well, it went well, "
                               "went down fine, went down well, it went fine, went fine",
                         "es": f"{_WELL['es']}, facil, sin dificultad, bajo bien, todo bajo bien, paso bien"},
                "slow": {"en": "slowly, a bit slow, a little slow, slow sometimes, sometimes slow, a bit tight, tight",
                         "es": "despacio, lento, un poco lento, a veces lento, un poco despacio, apretado"}},
    "days": {"d7": {"en": "daily, all days, all of them, every single day, the whole week, all week",
                    "es": "diario, a diario, todos, todos los dias, toda la semana"}},
    "worst": {"self": {"en": "by itself, itself, on its own, it went by itself, nothing",
                       "es": "sola, solo, por si sola, por si solo, bajo sola, nada"},
              "drink": {"en": "a drink, drink, drinking, water, with water, a sip of water, drank water",
                        "es": "agua, con agua, bebiendo, beber, tomar agua, un trago"},
              "wait": {"en": "waiting, time, a few minutes, some time, minutes, it took a while, a while",
                       "es": "esperar, esperando, tiempo, unos minutos, un rato"}},
    "trend": {"better": {"en": "better, a bit better, a little better, much better, lots better, improved, improving",
                         "es": "mejor, un poco mejor, mucho mejor, mejorando"},
              "same": {"en": "same, the same, about the same, much the same, no change, no different, unchanged, equal",
                       "es": "igual, lo mismo, mas o menos igual, sin cambio, sin cambios, no ha cambiado"},
              "worse": {"en": "worse, a bit worse, a little worse, much worse",
                        "es": "peor, un poco peor, mucho peor"}},
    "pain": {"no": {"en": f"{_WELL['en']}, no pain, none, never, not at all, not once", "es": f"{_WELL['es']}, nada"},
             "little": {"en": "a bit, a little, little, slightly, a tiny bit, a little bit, yes a little, a bit yes",
                        "es": "un poco, poco, un poquito, si un poquito, ligeramente"}},
    "mouth": {"clean": {"en": f"{_WELL['en']}, clean, clear, looks fine, looks good, looks clean, looks ok, pink, "
                              "nothing, nothing there",
                        "es": f"{_WELL['es']}, limpia, limpio, nada, se ve bien"},
              "unsure": _UNKNOWN},
    "eating": {"none": {"en": "none, nothing, no, none of them, i eat normally, normal",
                        "es": "ninguna, nada, no, normal"}},
    "new": {"none": {"en": "none, nothing, no, nothing new, same, the same, same as always, same as before, no change",
                     "es": "nada, ninguno, no, nada nuevo, igual, lo mismo, sin cambios"}},
    "which": {"unsure": _UNKNOWN},
    "body": {"none": {"en": f"{_WELL['en']}, none, nothing, no, i feel fine, i feel good, im fine, im good",
                      "es": f"{_WELL['es']}, nada, ninguno, no, me siento bien, estoy bien"}},
    "routine": {"all": {"en": f"{_WELL['en']}, all, all of it, all of them, always, every time, each time, all done, "
                              "everything, went well, it went well, went fine",
                        "es": f"{_WELL['es']}, todo, todas, todos, siempre, cada vez, todas las veces, todo hecho"}},
    "why": {"forgot": {"en": "forgot, i forgot, forgot them, just forgot", "es": "se me olvido, olvide, lo olvide"},
            "time": {"en": "no time, time, busy, too busy, work, i was busy",
                     "es": "sin tiempo, no tuve tiempo, trabajo"},
            "taste": {"en": "taste, the taste, feel, texture", "es": "sabor, el sabor, textura"}},
    "else": {"no": {"en": f"{_WELL['en']}, no, nope, no thanks, no thank you, nothing, nothing else, thats all, all",
                    "es": f"{_WELL['es']}, no, no gracias, nada, nada mas, eso es todo"}},
}
_NUMBERS = {"en": "zero one two three four five six seven", "es": "cero uno dos tres cuatro cinco seis siete"}
_OWN_WORDS_ONLY = {"swallow": frozenset({"stuck", "now"}), "worst": frozenset({"back", "help"})}
_PARTS = re.compile(r"[,;]| or | and | o | y ")


def typed_choice(item: Item, text: str, labels: Mapping[str, str], lang: str, *, plain: bool = True) -> str | None:
    """The id of the choice that a text wholly is, or None. labels: choice id -> what stands on its button.

    plain False: only what stands on a button counts (the words may be for somebody else).
    """
    words = bare(text)
    if not words:
        return None
    whole = [name for name, label in labels.items() if bare(label) == words]
    if whole or not plain:
        return whole[0] if whole else None
    language = lang if lang in _NUMBERS else "en"
    meant = {name for name, said in _WORDS.get(item.id, {}).items()
             if words in said[language].split(", ") and item.choice(name)}
    guarded = _OWN_WORDS_ONLY.get(item.id, frozenset())
    meant |= {name for name, label in labels.items() if name not in guarded
              and words in map(bare, _PARTS.split(label.casefold()))}
    if item.numbers and words in (numbers := _NUMBERS[language].split()):
        counted = by_number(item, numbers.index(words))
        meant |= {counted.id} if counted else set()
    return next(iter(meant)) if len(meant) == 1 else None


def bare(text: str) -> str:
    """Lower case, without accents, apostrophes and marks, one space between words."""
    plain = "".join(c for c in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(c))
    return " ".join(re.sub(r"[^\w\s]", " ", re.sub(r"['’]", "", plain)).split())

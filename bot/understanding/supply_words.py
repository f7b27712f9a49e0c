"""Words that say that there is no medicine: none left, run out, the inhaler empty or lost. Pure.

Closed lists: what is supposed, asked in general or about to happen ('almost out', 'what if I run out') is none of
these. What is not recognised goes its usual way to a person.
"""

from __future__ import annotations

import re
from enum import StrEnum

from bot.understanding.tokens import plain, split

MOST_WORDS = 25


class Lack(StrEnum):
    NONE_LEFT = "none_left"          # plainly no medicine: the dose that is due cannot be taken
    DEVICE = "device"                # the inhaler (the box) is empty, lost or broken: there may be another


_THING = r"(?:medicine|medicines|medication|meds|ampoules?|ampules?|doses|puffs|inhalers?|steroids?|vials?)"
_WHOSE = r"(?:my |the |his |her |our |this |your )?(?:last )?"
_BOX = r"(?:inhaler|puffer|canister|box|pack|bottle)"
_NONE = {
    "en": rf"\b(?:none|no {_THING}|no more(?: {_THING})?|zero {_THING}) (?:is |are )?left\b|"
          rf"\b(?:have|has|got|there is|there are|theres|ive|weve) (?:got )?no(?: more)? {_THING}\b|"
          rf"\b(?:dont|do not|doesnt|does not|havent|have not|hasnt) (?:have|got) any(?: more)? (?:left|{_THING})\b|"
          rf"\b(?:am|im|are|were|is|hes|shes|all|ran|run) out of (?:it|them|{_WHOSE}{_THING})\b|"
          r"\b(?:ran|(?:have|has|ive|hes|shes|weve) run) out\b(?! of\b)|"
          rf"\b{_WHOSE}{_THING} (?:is|are) (?:all )?(?:gone|finished|used up)\b",
    "es": r"\bno (?:me|le|nos) quedan?\b(?! (?:claro|duda|dudas|tiempo|otra|bien|remedio|mas remedio))|"
          r"\bse (?:(?:me|le|nos) )?(?:acabo|acabaron|termino|terminaron) (?:el|la|las|los|mi|mis|su|sus) "
          r"(?:medicina|medicamento|ampollas?|inhalador)\b|\bse (?:me|le|nos) (?:acabo|acabaron)$|"
          r"\bno (?:tengo|tiene|tenemos|hay) (?:mas )?(?:medicina|medicamento|ampollas?|inhalador)\b|"
          r"\b(?:me|se|nos) (?:quede|quedo|quedamos) sin (?:la |el |su |mi )?"
          r"(?:medicina|medicamento|ampollas|inhalador)\b",
}
_DEVICE = {
    "en": rf"\b{_WHOSE}{_BOX} (?:is|was|got|has been) (?:now |all |completely |totally )?"
          r"(?:empty|lost|broken|stolen|gone|finished)\b|"
          rf"\b(?:lost|broke) (?:my|the|his|her|our) (?:last )?(?:{_BOX}|{_THING})\b|"
          rf"\bdropped (?:my|the|his|her|our) (?:last )?(?:{_BOX}|{_THING}) (?:in|into|down) (?:the|a) "
          r"(?:toilet|water|sink|bath|tub|pool|sea|lake|river|drain)\b|"
          rf"\bleft (?:my|the|his|her|our) (?:{_BOX}|{_THING}) (?:at|in|on|behind)\b",
    "es": r"\b(?:el|mi|su) inhalador (?:esta|se quedo) (?:ya )?(?:vacio|roto|perdido)\b|"
          r"\b(?:perdi|perdio|perdimos|se me perdio|se le perdio|se me rompio|se le rompio|me robaron|le robaron) "
          r"(?:el|mi|su|la|las|mis|sus) (?:inhalador|medicina|medicamento|ampollas)\b|"
          r"\b(?:deje|dejo|dejamos) (?:el|mi|su|la|las|mis|sus) (?:inhalador|medicina|medicamento|ampollas) en\b|"
          r"\bse (?:me|le) cayo (?:el|mi|su) inhalador (?:al|en el|en la) (?:inodoro|agua|lavabo|bano|piscina)\b",
}
_NOT_SO = {
    "en": r"\b(?:if|when|until|unless|before|almost|nearly|soon|will|wont|ill|would|tomorrow|not(?! even)|isnt|arent|"
          r"wasnt|friend|friends|cousin|neighbor|neighbour|new one|another one|new inhaler|new box|found)\b|"
          r"^(?:is|are|do|does|can|could|how|why)\b",
    "es": r"\b(?:cuando|casi|pronto|manana|amigo|amiga|nuevo|otro|encontre|que (?:hago|pasa) si)\b",
}


def lack_of_medicine(text: str, language: str) -> Lack | None:
    """What a short text says is missing now; None where it says nothing of the kind, or not plainly."""
    words = [plain(token.raw) for token in split(text) if token.raw[:1].isalnum()]
    lang = language[:2] if language[:2] in _NONE else "en"
    said = " ".join(words)
    if not words or len(words) > MOST_WORDS or re.search(_NOT_SO[lang], said):
        return None
    if re.search(_NONE[lang], said):
        return Lack.NONE_LEFT
    return Lack.DEVICE if re.search(_DEVICE[lang], said) else None

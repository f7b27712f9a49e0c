"""'Better', 'the same', 'much worse': a whole text that only says how it goes, the answer to 'how is it now?'. Pure.

Closed like the grammar of answers: every word must belong. What is not wholly understood is no answer and is read as
any other text. 'Not better' is 'the same', never 'better'.
"""

from __future__ import annotations

import re


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


_SAYS = {
    "en": {"better": "better", "improving": "better", "improved": "better",
           "same": "same", "unchanged": "same", "worse": "worse", "worsening": "worse", "worsened": "worse"},
    "es": {"mejor": "better", "mejorando": "better", "mejore": "better", "mejoro": "better",
           "igual": "same", "mismo": "same", "misma": "same",
           "peor": "worse", "empeorando": "worse", "empeore": "worse", "empeoro": "worse"},
}
_BESIDE = {
    "en": _words("""it it's its is i i'm im am feel feels feeling he she they are a an bit little much lot lots the
        now today this morning getting gets got has have become still about just really far way even than before
        yesterday sorry i thanks thank you please and"""),
    "es": _words("""esta estoy sigo sigue siento me se un una poco mucho muy lo la el ahora hoy ya todavia aun que
        ayer antes va voy creo gracias perdon y bastante cada vez mas"""),
}
_NOT = {"en": frozenset({"not", "isn't", "isnt", "no", "never", "any"}), "es": frozenset({"no", "nada", "ni"})}
_ACCENTS = str.maketrans("\u00e1\u00e9\u00ed\u00f3\u00fa\u2019", "aeiou'")
_PUT_RIGHT = re.compile(r".*\b(?:i meant?|quise decir)\b|^\W*no\W*[,.!;:]")   # 'no, worse'; 'no I meant better'


def course_of(text: str, language: str) -> str:
    """"better", "same" or "worse"; "" when the text says anything else, or more than one of them."""
    lang = language.split("-")[0]
    says, beside, nots = _SAYS.get(lang, {}), _BESIDE.get(lang, frozenset()), _NOT.get(lang, frozenset())
    plain = _PUT_RIGHT.sub("", text.casefold().translate(_ACCENTS))
    words = re.findall(r"[^\W\d_]+(?:'[^\W\d_]+)?", plain)
    found = {says[word] for word in words if word in says}
    if len(found) != 1 or re.search(r"[\d?]", plain) or not {*says, *beside, *nots}.issuperset(words):
        return ""
    told = found.pop()
    if nots.isdisjoint(words):
        return told
    return "same" if told == "better" else ""

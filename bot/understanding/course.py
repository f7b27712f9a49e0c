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


_AGAIN = {
    "en": re.compile(
        r"(?:(?:it|its|it's|this|that|the pain|pain)(?: is| has)? )?(?:just )?"
        r"(?:back|come back|came back|comes back|coming back|returned|started again|happening again)(?: again| now)*|"
        r"(?:it |now it |this )?(?:hurts|is hurting|hurting)(?: even| a lot| much)? more(?: now| than before)*|"
        r"(?:it |now it |this )?(?:hurts|is hurting|hurting) again(?: now)?|(?:more|even more) pain(?: now)?"),
    "es": re.compile(
        r"(?:el dolor |ya )?(?:me )?(?:volvio|regreso|ha vuelto|ha regresado|esta de vuelta|esta pasando)"
        r"(?: otra vez| de nuevo| ahora| a pasar| a empezar)*|(?:otra vez|de nuevo)(?: lo mismo)?|"
        r"(?:ahora )?me (?:duele|esta doliendo) (?:mas|otra vez|de nuevo)(?: ahora| que antes)*"),
}


def comes_back(text: str, language: str) -> bool:
    """Whether a whole text says that what was over is there again, or hurts more: 'it is back', 'it hurts more now'."""
    plain = " ".join(re.findall(r"[^\W\d_]+(?:'[^\W\d_]+)?", text.casefold().translate(_ACCENTS)))
    again = _AGAIN.get(language.split("-")[0])
    return again is not None and "?" not in text and again.fullmatch(plain) is not None

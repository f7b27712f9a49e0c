"""Plain words for a button, typed instead of what stands on it: by the text key of the button, and language. Pure."""

from __future__ import annotations

import re
from collections.abc import Mapping

from bot.checkin import bare

_PLAIN: Mapping[str, Mapping[str, str]] = {
    "enrolment.button.agree": {"en": "agree, i accept, accept, agreed", "es": "acepto, estoy de acuerdo, de acuerdo"},
    "enrolment.button.refuse": {"en": "i refuse, refuse, disagree, i disagree", "es": "no acepto, no quiero"},
    "enrolment.button.patient": {"en": "patient, the patient, me, myself, i do, i am, its me, im the patient",
                                 "es": "paciente, el paciente, la paciente, yo, soy yo"},
    "enrolment.button.parent": {"en": "parent, a parent, mother, mom, mum, father, dad, carer, caregiver, guardian, "
                                      "im a parent, his mother, her mother, his father, her father, his mom, her mom, "
                                      "his mum, her mum, his dad, her dad",
                                "es": "madre, padre, mama, papa, cuidador, cuidadora, soy la madre, soy el padre, "
                                      "su madre, su padre, su mama, su papa"},
    "doses.reason.forgot": {"en": "forgot, forgot it, just forgot, i forgot it",
                            "es": "se me olvido, lo olvide, olvide"},
    "doses.reason.no_medicine": {"en": "none left, i have none, ran out, i ran out, no medicine, out of medicine",
                                 "es": "no me queda, no tengo, se acabo, se me acabo"},
    "escalation.button.better": {"en": "a bit better, a little better, much better, better now, im better",
                                 "es": "un poco mejor, mucho mejor, estoy mejor, ya mejor"},
    "escalation.button.same": {"en": "same, no change, about the same, just the same, same as before, unchanged",
                               "es": "igual, lo mismo, sin cambio, sin cambios, igual que antes"},
    "escalation.button.worse": {"en": "a bit worse, a little worse, much worse, its worse, worse now, getting worse",
                                "es": "un poco peor, mucho peor, estoy peor"},
}


def means(text: str, key: str, label: str, language: str) -> bool:
    """Whether a text is what stands on the button (`label`), or one of the plain words for it."""
    words = bare(text)
    if not words:
        return False
    if key == "doses.hold.button" and told_to_go_on(text, language):
        return True
    said = _PLAIN.get(key, {})
    return words == bare(label) or words in said.get(language[:2], said.get("en", "")).split(", ")


# Who may say that held doses go on: a doctor, the hospital, the care team, 'they'; nobody at home.
_GO_ON = {
    "en": re.compile(
        r"(?:(?:the |my |a )?(?:(?:er|hospital|emergency(?: room)?|clinic|on call) )?"
        r"(?:doctors?|docs?|nurses?|hospital|clinic|care team|emergency room|er|they)"
        r"(?: at the (?:er|hospital|clinic|emergency room))? (?:have |has )?(?:said|say|says|told me|tells me)"
        r"(?: (?:at|in) the (?:er|hospital|clinic|emergency room))?|i (?:was|have been|got) told)(?: that)? "
        r"(?:to|(?:its|it is) (?:ok|okay|fine|safe)(?: for me)? to|(?:i|he|she) (?:can|may|could|should))"
        r"(?: now| just)? (?:go on|continue|carry on|keep going|take|keep taking|start|restart|resume)"
        r"(?: taking| with)?"
        r"(?: (?:it|(?:the|my|his|her) (?:doses?|medicine|medication|meds)))?"
        r"(?: again| now| as planned| as usual| as before)*"),
    "es": re.compile(
        r"(?:(?:el |la |los |mi )?(?:medicos?|medica|doctor|doctora|doctores|enfermera|enfermero|hospital|clinica|"
        r"equipo|urgencias|en urgencias|en el hospital) )?(?:ya )?(?:me )?(?:dijo|dijeron|ha dicho|han dicho) que "
        r"(?:ya )?(?:siga|continue|puedo seguir|puedo continuar|puedo tomarla|puedo tomarlo|la puedo tomar|"
        r"puedo tomar|la tome|tome)(?: tomandola| tomandolo| con)?(?: (?:la|las|mi|mis|el) (?:dosis|medicina|medicinas|"
        r"medicamento|tratamiento))?(?: otra vez| ya| ahora| como siempre)*"),
}
_MAY_I = {
    "en": re.compile(
        r"(?:(?:so|ok|and|but|hi|please) )*(?:can|may|should|could|do|shall|is it (?:ok|okay|safe) (?:if|for me to)) ?"
        r"(?:i|he|she|we)? ?(?:still |now |just )?(?:take|have|give|go on|continue)\b.*"),
    "es": re.compile(
        r"(?:(?:entonces|y|ya|pero|hola) )*(?:me )?(?:la |le |lo )?(?:puedo|debo|podria|tengo que|puede)\b.*"
        r"\b(?:tomar|tomarla|tomarlo|tomarme|tomarmela|dar|darle|darsela|seguir|continuar)\b.*"),
}
_DOSE = re.compile(r"\b(?:dose|doses|medicine|medication|meds|it|go on|continue|dosis|medicina|medicamento|tomarla|"
                   r"tomarlo|tomarmela|darsela|seguir|continuar|la)\b")


def told_to_go_on(text: str, language: str) -> bool:
    """Whether a whole text says what stands on 'I was told to go on': 'the doctor said I can take it'."""
    said = _GO_ON.get(language[:2])
    return said is not None and "?" not in text and said.fullmatch(bare(text)) is not None


def asks_to_take(text: str, language: str) -> bool:
    """Whether a text asks if a dose may be taken: 'can I take my dose now?'."""
    words, asks = bare(text), _MAY_I.get(language[:2])
    return asks is not None and asks.fullmatch(words) is not None and _DOSE.search(words) is not None

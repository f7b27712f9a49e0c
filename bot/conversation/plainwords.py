"""Plain words for a button, typed instead of what stands on it: by the text key of the button, and language. Pure."""

from __future__ import annotations

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
    said = _PLAIN.get(key, {})
    return words == bare(label) or words in said.get(language[:2], said.get("en", "")).split(", ")

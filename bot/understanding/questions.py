"""Common questions of patients, recognised by word sets; the answers are the clinic protocol's own texts (bot/texts).

A question is recognised only to send the clinic's fixed text along: the words still reach the care team.
"""

from __future__ import annotations

import re

# id -> patterns over the reply's words (one space between words, accents removed). The first that matches wins.
QUESTIONS: dict[str, tuple[str, ...]] = {
    "rinse_swallowed": (r"\b(swallowed|drank|gulped)\b.{0,24}\b(rinse|rinsing|mouthwash|rinse water|the water i rinsed)\b",
                        r"\b(trague|tragado|trago)\b.{0,24}\b(enjuague|el agua del enjuague)\b"),
    "rinse_forgotten": (r"\b(forgot|didnt|did not|havent|no)\b.{0,10}\b(to )?(rinse|rinsed|rinsing|brush)\b", r"\b(olvide|no)\b.{0,12}\b(enjuagar|enjuagarme|enjuague)\b"),
    "mix_forgotten": (r"\b(forgot|didnt|did not)\b.{0,10}\b(to )?(mix|shake|stir|add)\b", r"\b(olvide|no)\b.{0,14}\b(mezclar|mezclarlo|agitar|agite|mezcle|agitarlo)\b"),
    "ate_early": (r"\b(ate|drank|had (food|breakfast|coffee|water|a drink))\b.{0,24}\b(straight after|right after|too soon|after my dose|after the dose|before the (time|30|half))\b",
                  r"\b(comi|bebi|tome agua|desayune)\b.{0,24}\b(justo despues|enseguida|despues de la dosis|antes de tiempo|demasiado pronto)\b"),
    "water": (r"\b(can|could|may|when can|am i allowed|allowed|ok)\b.{0,20}\b(drink|sip|have)?\b.{0,12}\bwater\b", r"\b(puedo|se puede|cuando puedo)\b.{0,16}\b(beber|tomar)?\b.{0,8}\bagua\b"),
    "coffee_before": (r"\b(can|could|may|ok|coffee first|is)\b.{0,24}\b(coffee|tea|breakfast)\b.{0,24}\b(before|first|ok)\b|\bcoffee first\b",
                      r"\b(puedo|se puede)\b.{0,24}\b(cafe|desayunar|te)\b.{0,20}\b(antes|primero)\b"),
    "eat_when": (r"\b(when|how long|how soon)\b.{0,24}\b(eat|drink|food|breakfast|wait)\b", r"\b(cuando|cuanto)\b.{0,24}\b(comer|beber|esperar|desayunar)\b", r"\bcan i eat\b", r"\bpuedo comer\b"),
    "missed_dose": (r"\b(what|should|do i|can i)\b.{0,30}\b(missed|forgot|skip|late|catch up|double up)\b|\b(missed|forgot)\b.{0,30}\b(what do i|what should|do i take|should i take|can i take)\b",
                    r"\b(que hago|debo|puedo)\b.{0,30}\b(olvide|olvido|salte)\b|\b(olvide|se me olvido)\b.{0,30}\b(que hago|debo|puedo)\b"),
    "steroid_safe": (r"\b(is|are|how)\b.{0,24}\bsteroids?\b.{0,24}\b(dangerous|safe|bad|harmful|risky|addictive)\b|\b(dangerous|safe|harmful)\b.{0,16}\bsteroid", r"\b(es|son)\b.{0,24}\b(peligros[oa]s?|segur[oa]s?|mal[oa]s?|daninos?)\b"),
    "brush_teeth": (r"\b(brush|brushing)\b.{0,20}\b(teeth|before|after)\b", r"\b(cepillar|cepillarme)\b"),
    "mix_with": (r"\b(can|could|ok|may)\b.{0,20}\b(mix|use|add|take)\b.{0,20}\b(with|honey|syrup|yogurt|yoghurt|juice|apple|sauce|sugar|jam|milk|instead)\b", r"\b(puedo|se puede)\b.{0,20}\b(mezclar|usar|poner)\b"),
    "alcohol": (r"\b(can|ok|may|allowed|is)\b.{0,24}\b(alcohol|beer|wine|drink tonight|a drink with)\b", r"\b(puedo)\b.{0,24}\b(alcohol|cerveza|vino)\b"),
    "storage": (r"\b(fridge|store|storage|keep it|room temperature|freeze|refrigerat\w*)\b", r"\b(nevera|guardar|refrigerador|congelar|conservar)\b"),
    "supply": (r"\b(refill|run out|running out|more ampoules|new prescription|repeat prescription|out of stock|renew)\b", r"\b(receta|se me acaban|mas ampollas|se agota|surtir|farmacia no tiene)\b"),
    "appointment": (r"\b(appointment|my scope|endoscopy|reschedule|appt)\b", r"\b(cita|endoscopia)\b"),
    "taste": (r"\b(taste|tastes)\b.{0,20}\b(awful|horrible|bad|disgusting|better|improve)\b", r"\b(sabe|sabor)\b.{0,20}\b(mal|horrible|asqueroso|mejor)\b"),
}
_COMPILED: dict[str, re.Pattern[str]] = {}


def question_of(words: list[str]) -> str:
    """The id of the first common question that the words hold, or ''."""
    text = " ".join(words)
    for name, patterns in QUESTIONS.items():
        if name not in _COMPILED:
            _COMPILED[name] = re.compile("|".join(f"(?:{pattern})" for pattern in patterns))
        if _COMPILED[name].search(text):
            return name
    return ""

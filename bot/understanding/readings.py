"""Numbers that are measurements: body temperatures and blood pressures.

Bounds of what counts (38.0 C or 100.4 F as fever; systolic below 90 mmHg as low): common practice, no source. They
only set how soon a
person reads the words.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

FEVER_CELSIUS = 38.0
FEVER_FAHRENHEIT = 100.4
HIGHEST_CELSIUS = 43.0
HIGHEST_FAHRENHEIT = 109.4
LOW_SYSTOLIC = 90  # mmHg
_NOT_BODY = frozenset(
    [
        "outside",
        "weather",
        "oven",
        "fridge",
        "room",
        "heatwave",
        "sunny",
        "forecast",
        "beach",
        "garden",
        "day",
        "pool",
        "bath",
        "water",
        "car",
        "summer",
        "f_day",
        "calor",
        "horno",
        "nevera",
        "fuera",
        "calle",
        "sol",
        "playa",
        "agua",
    ]
)
_TEMP = frozenset(
    [
        "temp",
        "temperature",
        "temps",
        "fever",
        "thermometer",
        "reading",
        "degrees",
        "c",
        "f",
        "celsius",
        "fahrenheit",
        "fiebre",
        "temperatura",
        "termometro",
        "grados",
    ]
)
_OTHER_UNIT = frozenset(
    [
        "mg",
        "ml",
        "kg",
        "mcg",
        "microgram",
        "puffs",
        "am",
        "pm",
        "lb",
        "lbs",
        "pounds",
        "min",
        "hours",
        "hour",
        "days",
        "weeks",
        "years",
        "percent",
        "dollars",
        "euros",
        "stone",
        "g",
        "oz",
        "minutos",
        "horas",
        "dias",
        "semanas",
    ]
)
_PRESSED = frozenset({"bp", "pressure", "blood", "reading", "machine", "monitor", "cuff"})
_PRESSURE = re.compile(r"(\d{2,3})/(\d{2,3})$")


@dataclass(frozen=True, slots=True)
class Measured:
    """A measurement at one token: kind 'fever', 'normal_temperature', 'low_pressure' or 'pressure'."""

    kind: str
    at: int


def measured(words: list[str]) -> list[Measured]:
    """Temperatures and pressures among tokens. A number alone counts when only a temperature looks like it
    (39.5, 102.3)."""
    found = []
    for at, word in enumerate(words):
        pressure = _PRESSURE.match(word)
        if pressure:
            high, low = int(pressure.group(1)), int(pressure.group(2))
            if 50 <= high <= 260 and 25 <= low < high:
                found.append(Measured("low_pressure" if high < LOW_SYSTOLIC else "pressure", at))
        elif word.isdigit() and words[at + 1 : at + 2] == ["over"] and "".join(words[at + 2 : at + 3]).isdigit():
            high, low = int(word), int(words[at + 2])        # '82 over 50'
            if 50 <= high <= 260 and 25 <= low < high and _PRESSED.intersection(words):
                found.append(Measured("low_pressure" if high < LOW_SYSTOLIC else "pressure", at))
        elif word[0].isdigit():
            kind = _temperature(words, at, word)
            if kind:
                found.append(Measured(kind, at))
    return found


def _temperature(words: list[str], at: int, word: str) -> str:
    digits = word.replace(",", ".")
    if not re.fullmatch(r"\d{2,3}(\.\d{1,2})?", digits):
        return ""
    value = float(digits)
    near = words[max(0, at - 6) : at + 6]
    after = words[at + 1] if at + 1 < len(words) else ""
    if _NOT_BODY.intersection(near) - ({"oven"} if "an" in near else set()) or after in _OTHER_UNIT or after == "%":
        return ""
    if at and words[at - 1] in ("tiene", "tengo") and after not in ("años", "anos"):
        near = [*near, "temperatura"]
    named = bool(_TEMP.intersection(near)) or after in ("°", "º", "f", "c")
    exact = "." in digits
    if (
        not {"temperature", "temp", "fever", "my", "he", "she", "thermometer", "has", "fiebre"}.intersection(words)
        and {"its", "it"}.intersection(near)
        and "degrees" in near
    ):
        return ""  # the weather
    alone = len(words) <= 2
    celsius = 34.0 <= value <= HIGHEST_CELSIUS and (named or exact or (alone and value >= FEVER_CELSIUS))
    fahrenheit = 94.0 <= value <= HIGHEST_FAHRENHEIT and (named or exact or (alone and value >= FEVER_FAHRENHEIT))
    if celsius and after != "f":
        return "fever" if value >= FEVER_CELSIUS else "normal_temperature"
    if fahrenheit:
        return "fever" if value >= FEVER_FAHRENHEIT else "normal_temperature"
    return ""

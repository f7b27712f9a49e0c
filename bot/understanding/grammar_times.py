"""Times and amounts in words: clock times, days, minutes. Pure."""

from __future__ import annotations

import re

from bot.understanding.grammar_words import Words

_DAYS = {
    "day": 1.0,
    "days": 1.0,
    "week": 7.0,
    "weeks": 7.0,
    "month": 30.0,
    "months": 30.0,
    "dia": 1.0,
    "dias": 1.0,
    "semana": 7.0,
    "semanas": 7.0,
    "mes": 30.0,
    "meses": 30.0,
}
_MINUTES = {"min": 1.0, "minuto": 1.0, "minutos": 1.0, "hour": 60.0, "hours": 60.0, "hora": 60.0, "horas": 60.0}
_LEAD = (
    r"(?:(?:about|around|maybe|roughly|nearly|almost|for|its been|like|approx|the last|past|over|just|only|since|at|"
    r"unos|unas|como|hace|desde|casi|a las|las|cerca de|mas o menos) )*"
)
_HOURS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6,
    "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
}


def clock_time(words: str) -> str:
    """A clock time 'HH:MM' in words, or ''."""
    bare = re.sub(rf"^{_LEAD}", "", words).strip()
    bare = re.sub(r"(\w)ish$|^(\d+) ish$", r"\1\2", bare)
    if bare.split(" ")[0] in _HOURS:
        bare = " ".join([str(_HOURS[bare.split(" ")[0]]), *bare.split(" ")[1:]])
    spoken = re.fullmatch(r"(half past|quarter past|quarter to) (\w+)", bare)
    if spoken:
        hour = _HOURS.get(spoken.group(2)) or (int(spoken.group(2)) if spoken.group(2).isdigit() else 0)
        if 1 <= hour <= 12:
            minute = {"half past": 30, "quarter past": 15, "quarter to": 45}[spoken.group(1)]
            return f"{hour - (spoken.group(1) == 'quarter to'):02d}:{minute:02d}"
    found = re.fullmatch(
        r"(\d{1,2})(?:[:.h](\d{2}))? ?(am|pm|a m|p m|h|oclock|de la manana|de la tarde|de la noche)?"
        r"(?: this morning| this evening| tonight| last night| today)?",
        bare,
    )
    if not found or not (found.group(2) or found.group(3) or int(found.group(1)) <= 24):
        return {"noon": "12:00", "midday": "12:00", "midnight": "00:00", "mediodia": "12:00"}.get(bare, "")
    hour, minute = int(found.group(1)), int(found.group(2) or 0)
    half = (found.group(3) or "").replace(" ", "")
    if half in ("pm", "delatarde", "delanoche") and hour < 12:
        hour += 12
    if half == "am" and hour == 12:
        hour = 0
    return f"{hour:02d}:{minute:02d}" if hour < 24 and minute < 60 else ""


def amount_of(words: str, table: Words) -> tuple[float, str | None] | None:
    """A number with its unit: ('days' or 'minutes' or None), or None."""
    numbers = table.numbers
    bare = re.sub(rf"^{_LEAD}(?:in |en |give me |dame |wait |another )?", "", words).strip()
    bare = re.sub(r"\bhalf an? hour\b|\bmedia hora\b", "30 min", bare)
    bare = re.sub(r"\b(?:an?|una?) (hour|day|week|month|min|minute|hora|dia|semana|mes|minuto)\b", r"1 \1", bare)
    bare = re.sub(r"^(\d+) (\d+) ", lambda both: f"{max(both.groups(), key=int)} ", bare)  # '2-3 days'
    found = re.fullmatch(
        r"(?:a |an |un |una )?(\d+(?:[.,]\d+)?|[a-z]+)(?: or (?:\d+|[a-z]+)| to \d+| o \d+|-\d+)?"
        r"(?: of| de)?(?: more| mas)?(?: ([a-z]+))?(?: now| ago| already| or so| ya| mas)?",
        bare,
    )
    if not found:
        return None
    value = float(found.group(1).replace(",", ".")) if found.group(1)[0].isdigit() else numbers.get(found.group(1))
    unit = found.group(2)
    if value is None:
        return None
    if unit is None:
        return (float(value), None) if found.group(1)[0].isdigit() else None
    if unit in _DAYS:
        return float(value) * _DAYS[unit], "days"
    if unit in _MINUTES:
        return float(value) * _MINUTES[unit], "minutes"
    return None


def is_since(words: str, table: Words) -> bool:
    return re.fullmatch(rf"(?:since |desde )?(?:{table.since})", words) is not None

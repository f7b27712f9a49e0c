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
    "una": 1, "dos": 2, "tres": 3, "cuatro": 4, "cinco": 5, "seis": 6, "siete": 7, "ocho": 8, "nueve": 9, "diez": 10,
    "once": 11, "doce": 12,
}

_NAMED = "|".join(_HOURS)
_HOUR = rf"(?:{_NAMED}|1[0-2]|0?[1-9])"
_SPOKEN_MINUTES = {
    "media": 30, "cuarto": 15, "un cuarto": 15, "pico": 0, "cinco": 5, "diez": 10, "quince": 15, "veinte": 20,
    "veinticinco": 25, "veinte y cinco": 25, "treinta": 30, "treinta y cinco": 35, "cuarenta": 40,
    "cuarenta y cinco": 45, "cincuenta": 50, "cincuenta y cinco": 55,
    "oh five": 5, "o five": 5, "five": 5, "ten": 10, "fifteen": 15, "twenty": 20, "twenty five": 25, "thirty": 30,
    "thirty five": 35, "forty": 40, "forty five": 45, "fifty": 50, "fifty five": 55,
}
_MINUTE_WORDS = "|".join(sorted(_SPOKEN_MINUTES, key=len, reverse=True))
_MINUTE = rf"(?:{_MINUTE_WORDS}|[0-5]?\d)"
_AT_ES = r"(?:^|(?<=\blas )|(?<=\bla )|(?<=\bfue )|(?<=\bera )|(?<=\beran )|(?<=\bfueron )|(?<=[,.;!] ))"
# A time in several words, as one: it is cut nowhere, and read the same wherever it stands.
_IN_WORDS = (
    (re.compile(r"\b(?:(?:un|1) )?cuarto de hora\b"), lambda _: "15 min"),
    (re.compile(r"\b(?:tres|3) cuartos de hora\b"), lambda _: "45 min"),
    (re.compile(r"\b(?:(una|1|dos|2|tres|3|cuatro|4|cinco|5|seis|6) )?horas? y (media|cuarto|un cuarto)\b"),
     lambda said: f"{60 * (_hour(said[1] or '1')) + _SPOKEN_MINUTES[said[2]]} min"),
    (re.compile(rf"\b(?:(?:al|el|a|faltando|faltaban) )?(?:un )?({_MINUTE}) (?:min(?:utos)? )?(?:para|pa) "
                rf"las? ({_HOUR})\b"),
     lambda said: f"a las {_clock(said[2], -_minute(said[1]))}"),
    (re.compile(rf"{_AT_ES}({_HOUR}) (y|con|menos) ({_MINUTE})\b(?! (?:de|ampollas?|horas?|dosis|min)\b(?! la))"),
     lambda said: _clock(said[1], (-1 if said[2] == "menos" else 1) * _minute(said[3]))),
    (re.compile(rf"(?:(?<=\bat )|(?<=\baround )|(?<=\babout )|(?<=\bwas )|^)({_HOUR}) "
                rf"((?:{_MINUTE_WORDS})|[0-5]\d)(?= (?:am|pm|this|today|tonight|and|but|[,.;!])|$)"),
     lambda said: _clock(said[1], _minute(said[2]))),
    (re.compile(rf"\b({_MINUTE}) (?:min(?:utes)? )?(past|to) ({_HOUR})\b(?! (?:ampoules?|puffs?|doses?|min|hours?))"),
     lambda said: _clock(said[3], (-1 if said[2] == "to" else 1) * _minute(said[1]))),
)


def timed(words: list[str]) -> list[str]:
    """The words, with a time said in several of them as one: 'las seis y media' is 'las 6:30', 'hace un cuarto de
    hora' is 'hace 15 min', 'at six thirty' is 'at 6:30'."""
    said = " ".join(words)
    for pattern, digits in _IN_WORDS:
        said = pattern.sub(digits, said)
    return said.split()


def _minute(word: str) -> int:
    return _SPOKEN_MINUTES[word] if word in _SPOKEN_MINUTES else int(word)


def _clock(hour: str, minutes: int) -> str:
    """'6' and 15 are 6:15; '6' and -15 are 5:45."""
    told = (_hour(hour.removeprefix("0")) * 60 + minutes) % 720
    return f"{told // 60 or 12}:{told % 60:02d}"


def clock_time(words: str) -> str:
    """A clock time 'HH:MM' in words, or ''."""
    bare = re.sub(rf"^{_LEAD}", "", words).strip()
    bare = re.sub(r" (?:on the dot|en punto|ish|sharp)$", "", bare)
    bare = re.sub(r"(\w)ish$|^(\d+) ish$", r"\1\2", bare)
    bare = re.sub(r"\bo clock\b", "oclock", bare)
    spanish = re.fullmatch(r"(?:a )?(?:las |la )?(\d{1,2}|[a-z]+) (y media|y cuarto|menos cuarto|y pico|en punto)"
                           r"(?: de la (?:mañana|tarde|noche))?", bare)
    if spanish and _hour(spanish.group(1)):
        past = {"y media": 30, "y cuarto": 15, "menos cuarto": -15}.get(spanish.group(2), 0)
        return f"{(_hour(spanish.group(1)) - (past < 0)) % 12 or 12:02d}:{past % 60:02d}"
    if bare.split(" ")[0] in _HOURS:
        bare = " ".join([str(_HOURS[bare.split(" ")[0]]), *bare.split(" ")[1:]])
    spoken = re.fullmatch(
        r"(half past|half|(?:a )?quarter past|(?:a )?quarter to|(?:[a-z]+|\d+)(?: min)? (?:past|to|after)) "
        r"(\w+)( pm| am)?(?: this morning| this evening| tonight| last night| today)?", bare)
    if spoken:
        hour, minute = _hour(spoken.group(2)), _minutes(spoken.group(1))
        if hour and minute is not None:
            hour = (hour + (minute < 0)  * -1) % 12 + (12 if spoken.group(3) == " pm" else 0)
            return f"{hour or 12:02d}:{minute % 60:02d}"
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


def _hour(word: str) -> int:
    hour = _HOURS.get(word) or (int(word) if word.isdigit() else 0)
    return hour if 1 <= hour <= 12 else 0


def _minutes(spoken: str) -> int | None:
    """Minutes after the hour ('half', 'ten past'), below 0 before it ('quarter to')."""
    first, sign = spoken.split(" ")[0 if not spoken.startswith("a ") else 1], -1 if spoken.endswith(" to") else 1
    value = {"half": 30, "quarter": 15, "twenty": 20, "five": 5, "ten": 10}.get(first)
    if value is None and first.isdigit() and int(first) < 60:
        value = int(first)
    return None if value is None else sign * value


def amount_of(words: str, table: Words) -> tuple[float, str | None] | None:
    """A number with its unit: ('days' or 'minutes' or None), or None."""
    numbers = table.numbers
    bare = re.sub(rf"^{_LEAD}(?:in |en |give me |dame |wait |another )?", "", words).strip()
    bare = re.sub(r"^(?:a )?quarter of an hour\b", "15 min", bare)
    bare = re.sub(r"^three quarters of an hour\b", "45 min", bare)
    bare = re.sub(r"^(?:an|1|one) hour and a half\b|^(?:1|one) and a half hours\b|^1.5 hours\b", "90 min", bare)
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

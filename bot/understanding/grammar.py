"""The closed grammar: replies that answer the open question and nothing else. Only these are closed without a person.

A reply is accepted when its words, all of them, parse; one word outside the grammar and a person reads it. The
grammar never looks at
what it does not know, so a longer message cannot slip through.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bot.understanding.grammar_words import EN, ITEMS, LANGUAGES, Words
from bot.understanding.tokens import Token
from bot.understanding.types import Answer


@dataclass(frozen=True, slots=True)
class Parsed:
    """A whole parse: the answer and its value, in the unit of the question (days, minutes, or a plain number)."""

    answer: Answer
    number: float | None = None
    clock_time: str = ""


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
_DOSE = {"dose", "when_taken"}


def parse(tokens: list[Token], asked: str, language: str) -> Parsed | None:
    """The reply's whole parse as an answer to `asked`, or None."""
    words = " ".join(t.word for t in tokens if t.word not in ",.!…\n¡;)(—-:")
    words = re.sub(r"\b(\w+)( \1\b)+", r"\1", words).strip()
    if not words or len(words) > 90 or "?" in words or "¿" in words:
        return None
    table = LANGUAGES.get(language, EN)
    for candidate in _peeled(words, table.polite):
        parsed = _parse(candidate, asked, table)
        if parsed:
            return parsed
    return None


def _peeled(words: str, polite: str) -> list[str]:
    """The words, and the words without polite phrases before and after."""
    bare = re.sub(rf"(?: {polite}| doctor| all| everyone)+$", "", words)
    bare = re.sub(rf"^(?:(?:{polite}|hi|hello|hey|morning|good morning|hola|buenos dias) )+", "", bare)
    return [words] if bare == words or not bare else [words, bare]


def _full(pattern: str, words: str) -> bool:
    return re.fullmatch(pattern, words) is not None


def _parse(words: str, asked: str, table: Words) -> Parsed | None:
    symptom = asked.startswith("check_in:") or asked in ("happening_now", "follow_up")
    clock = _clock(words)
    if asked in _DOSE and clock:
        return Parsed(Answer.CLOCK_TIME, clock_time=clock)
    amount = _amount(words, table)
    if asked == "how_long" and amount is not None:
        return Parsed(Answer.NUMBER, number=amount[0] / 1440 if amount[1] == "minutes" else amount[0])
    if asked == "how_long" and _since(words, table):
        return Parsed(Answer.NUMBER, number=None)
    soon = re.fullmatch(
        r"(?:not yet |no not yet )?(?:(?:i )?(?:will do|ill do|ill take|will take)(?: it)? )?"
        r"(in .+|en .+|give me .+|dame .+)",
        words,
    )
    if soon and asked in _DOSE:
        amount = _amount(soon.group(1), table)
    if asked in _DOSE and amount is not None and amount[1] == "minutes":
        return Parsed(Answer.LATER, number=amount[0])
    if asked.startswith("check_in:") and re.fullmatch(r"\d{1,2}", words):
        return Parsed(Answer.NUMBER, number=float(words))
    if asked.startswith("check_in:") and re.fullmatch(r"[a-e]", words):
        return Parsed(Answer.LETTER, number=float(ord(words) - ord("a") + 1))
    if asked in ("why_not", "understood") and re.fullmatch(r"[1-9a-e]", words):
        return Parsed(Answer.LETTER, number=float(words) if words.isdigit() else float(ord(words) - ord("a") + 1))
    if _full(table.not_taken, words) and asked in ("dose", "when_taken", ""):
        return Parsed(Answer.NOT_TAKEN)
    if symptom and _denies(words, asked, table):
        return Parsed(Answer.NO)
    if _full(table.no, words) and asked:
        return Parsed(Answer.NO)
    if _full(table.yes, words):
        return Parsed(Answer.YES)
    if asked in ("dose", "when_taken", "") and not symptom:
        return _dose(words, asked, table)
    if _full(table.thanks, words) and not symptom:
        return Parsed(Answer.YES if asked == "understood" else Answer.THANKS)
    if symptom and _full(table.polite, words):
        return Parsed(Answer.THANKS)
    return None


def _dose(words: str, asked: str, table: Words) -> Parsed | None:
    timed = re.fullmatch(r"(?P<said>.+?) (?:at|around|about|a las|sobre las|a eso de las) (?P<time>.+)", words)
    if timed and _full(table.taken, timed.group("said")) and _clock(timed.group("time")):
        return Parsed(Answer.TAKEN, clock_time=_clock(timed.group("time")))
    ago = re.fullmatch(r"(?P<said>.+?) (?:about |around )?(?P<n>.+?) ago|(?P<said2>.+?) hace (?P<n2>.+)", words)
    if ago and _full(table.taken, ago.group("said") or ago.group("said2")):
        amount = _amount((ago.group("n") or ago.group("n2")).strip(), table)
        if amount is not None and amount[1] in ("minutes", "days"):
            return Parsed(Answer.TAKEN, number=amount[0] if amount[1] == "minutes" else amount[0] * 1440)
    if _full(table.taken, words):
        return Parsed(Answer.TAKEN)
    if asked and _full(table.later, words):
        return Parsed(Answer.LATER)
    if _full(table.thanks, words):
        return Parsed(Answer.THANKS)
    if _bag(words, table.taken_bag):
        return Parsed(Answer.TAKEN)
    return Parsed(Answer.THANKS) if _bag(words, table.thanks_bag) else None


def _bag(words: str, bag: tuple[frozenset[str], frozenset[str]]) -> bool:
    """Whether every word is of the bag, one at least says it, and nothing asks."""
    says, allowed = bag
    found = words.split()
    if found[0] in ("is", "am", "are", "do", "will", "can", "es", "esta") or len(found) > 14:
        return False
    return bool(says.intersection(found)) and all(word in says or word in allowed for word in found)


def _denies(words: str, asked: str, table: Words) -> bool:
    item = asked.removeprefix("check_in:")
    names = "|".join(value for key, value in ITEMS.items() if item.startswith(key) or key in item)
    times = table.times
    no = table.no
    lead = (
        r"(?:no|not|sin|ni|ningun|ninguna|nada de|no tengo|no hay|no he tenido|no i dont have|i dont have|"
        r"i dont have any|dont have any|havent had any|i havent had any|no hubo|no signs of|zero|no more)"
    )
    if re.fullmatch(rf"{no}{times}", words):
        return True
    if not names:
        return False
    return re.fullmatch(
        rf"(?:(?:{no}|all good|all fine) )?(?:{lead} (?:any )?(?:{names})(?: (?:or|ni|nor|no) (?:{names}))*|"
        rf"(?:nothing stuck|nothing got stuck|nothing has got stuck|it doesnt hurt|doesnt hurt|no me duele|"
        rf"nada atascado|nada se atasco|nothing new|nada nuevo|nothing else|thats all|thats it|"
        rf"nothing more|nothing to add|nada mas|"
        rf"eso es todo|havent missed any|didnt miss any)){times}",
        words,
    ) is not None and (_first_word_ok(words, names))


def _first_word_ok(words: str, names: str) -> bool:
    fixed = (
        "nothing",
        "it doesnt",
        "doesnt",
        "no ",
        "not ",
        "nada",
        "thats",
        "havent",
        "didnt",
        "sin ",
        "ni ",
        "ning",
        "i ",
        "dont",
        "zero",
        "nope",
        "nah",
        "all ",
        "none",
        "never",
        "eso",
    )
    return words.startswith(fixed) and bool(names)


def _clock(words: str) -> str:
    """A clock time 'HH:MM' in words, or ''."""
    bare = re.sub(rf"^{_LEAD}", "", words).strip()
    spoken = re.fullmatch(r"(half past|quarter past|quarter to) (\w+)", bare)
    numbers = {
        "one": 1,
        "two": 2,
        "three": 3,
        "four": 4,
        "five": 5,
        "six": 6,
        "seven": 7,
        "eight": 8,
        "nine": 9,
        "ten": 10,
        "eleven": 11,
        "twelve": 12,
    }
    if spoken:
        hour = numbers.get(spoken.group(2)) or (int(spoken.group(2)) if spoken.group(2).isdigit() else 0)
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


def _amount(words: str, table: Words) -> tuple[float, str | None] | None:
    """A number with its unit: ('days' or 'minutes' or None), or None."""
    numbers = table.numbers
    bare = re.sub(rf"^{_LEAD}(?:in |en |give me |dame |wait )?", "", words).strip()
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


def _since(words: str, table: Words) -> bool:
    return re.fullmatch(rf"(?:since |desde )?(?:{table.since})", words) is not None

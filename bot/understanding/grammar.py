"""The closed grammar: replies that answer the open question and nothing else. Only these are closed without a person.

A reply is accepted when its words, all of them, parse; one word outside the grammar and a person reads it. The
grammar never looks at
what it does not know, so a longer message cannot slip through.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bot.understanding.grammar_clauses import kinds_of, time_of
from bot.understanding.grammar_times import amount_of, clock_time, is_since, timed
from bot.understanding.grammar_words import EN, ITEMS, LANGUAGES, Words
from bot.understanding.tokens import Token
from bot.understanding.types import Answer


@dataclass(frozen=True, slots=True)
class Parsed:
    """A whole parse: the answer and its value, in the unit of the question (days, minutes, or a plain number)."""

    answer: Answer
    number: float | None = None
    clock_time: str = ""


_DOSE = {"dose", "when_taken"}


def parse(tokens: list[Token], asked: str, language: str, *, parent: bool = False) -> Parsed | None:
    """The reply's whole parse as an answer to `asked`, or None. `parent`: a parent writes ('she took it')."""
    said = timed([t.word for t in tokens])
    words = " ".join(word for word in said if word not in ",.!…\n¡;)(—-:")
    words = re.sub(r"\b(\w+)( \1\b)+", r"\1", words).strip()
    if not words or len(words) > 90 or "?" in words or "¿" in words:
        return None
    table = LANGUAGES.get(language, EN)
    for candidate in _peeled(words, table.polite):
        parsed = _parse(candidate, asked, table)
        if parsed:
            return parsed
    return _by_clauses(said, words, asked, table, parent)


def _by_clauses(words: list[str], bare: str, asked: str, table: Words, parent: bool) -> Parsed | None:
    """A parse of every clause by itself, where no question about a symptom is open."""
    if asked.startswith("check_in:") or asked in ("happening_now", "follow_up", "how_long"):
        return None
    if asked == "when_taken" or (asked in ("dose", "") and not bare.isdigit()):
        when = time_of(re.sub(r"^(?:(?:yes|yep|yeah|yup|i did|si) )+", "", bare), table)
        if when is not None:
            return Parsed(Answer.TAKEN, clock_time=when[0], number=when[1])
    found = kinds_of(words, table, spanish=table is LANGUAGES["es"], parent=parent)
    if found is None:
        return None
    kinds, clock, minutes = found
    if "taken" in kinds:
        return Parsed(Answer.TAKEN, clock_time=clock, number=minutes) if asked in (*_DOSE, "") else None
    if "rinsed" in kinds:
        return Parsed(Answer.RINSED) if asked in (*_DOSE, "") and "later" not in kinds else None
    if "later" in kinds:
        return Parsed(Answer.LATER) if asked in (*_DOSE, "") else None
    return Parsed(Answer.YES if asked == "understood" and kinds == {"thanks"} else Answer.THANKS)


def _peeled(words: str, polite: str) -> list[str]:
    """The words, and the words without polite phrases before and after."""
    bare = re.sub(rf"(?: {polite}| doctor| doctora| nurse| all| everyone| enfermera)+$", "", words)
    bare = re.sub(rf"^(?:(?:{polite}|hi|hello|hey|morning|good morning|hola|buenos dias) )+", "", bare)
    return [words] if bare == words or not bare else [words, bare]


def _full(pattern: str, words: str) -> bool:
    return re.fullmatch(pattern, words) is not None


def _parse(words: str, asked: str, table: Words) -> Parsed | None:
    symptom = asked.startswith("check_in:") or asked in ("happening_now", "follow_up")
    clock = clock_time(words)
    # under a reminder a bare 7 may be an hour, a button or a pain: a person reads it. After 'when?' it is the hour
    if clock and (asked == "when_taken" or (asked in ("dose", "") and not words.isdigit())):
        return Parsed(Answer.CLOCK_TIME, clock_time=clock)
    amount = amount_of(words, table)
    if asked == "how_long" and amount is not None:
        return Parsed(Answer.NUMBER, number=amount[0] / 1440 if amount[1] == "minutes" else amount[0])
    if asked == "how_long" and is_since(words, table):
        return Parsed(Answer.NUMBER, number=None)
    soon = re.fullmatch(
        r"(?:not yet |no not yet )?(?:(?:i )?(?:will do|ill do|ill take|will take)(?: it)? )?"
        r"(in .+|en .+|give me .+|dame .+)",
        words,
    )
    if soon and asked in _DOSE:
        amount = amount_of(soon.group(1), table)
        if amount is not None and amount[1] is None:
            amount = amount[0], "minutes"                   # 'in 5'
    if asked in _DOSE and amount is not None and amount[1] == "minutes":
        return Parsed(Answer.NUMBER if asked == "when_taken" else Answer.LATER, number=amount[0])
    if asked in (*_DOSE, "") and re.fullmatch(
        r"(?:(?:yes|yep|yeah|si) )?(?:just now|right now|just this minute|ahora mismo|recien)", words
    ):
        return Parsed(Answer.TAKEN)
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
    nothing_wrong = re.search(r"\b(?:problem|issue|trouble|problema)s?\b", words) is not None
    if _full(table.no, words) and asked and not (nothing_wrong and asked in _DOSE):
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
    timed = _timed(words, table)
    if timed:
        return timed
    if _full(table.rinsed, words):
        return Parsed(Answer.RINSED)
    if _full(table.taken, words):
        return Parsed(Answer.TAKEN)
    if asked and _full(table.later, words):
        return Parsed(Answer.LATER)
    if _full(table.thanks, words):
        return Parsed(Answer.THANKS)
    if _bag(words, table.taken_bag):
        return Parsed(Answer.TAKEN)
    return Parsed(Answer.THANKS) if _bag(words, table.thanks_bag) else None


def _timed(words: str, table: Words) -> Parsed | None:
    """'Took it at 8', 'had it an hour ago': taken, with the clock time or the minutes since."""
    found = words.split()
    for cut in range(1, len(found)):
        said, rest = " ".join(found[:cut]), " ".join(found[cut:])
        if not _full(table.taken, said):
            continue
        at = re.fullmatch(r"(?:at|around|about|a las|a la|sobre las|a eso de las) (.+)", rest)
        if at and clock_time(at.group(1)):
            return Parsed(Answer.TAKEN, clock_time=clock_time(at.group(1)))
        ago = re.fullmatch(r"(?:about |around )?(.+) ago|hace (.+)", rest)
        amount = amount_of(ago.group(1) or ago.group(2), table) if ago else None
        if amount is not None and amount[1] == "minutes":
            return Parsed(Answer.TAKEN, number=amount[0])
    return None


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
    fine = r"(?:all good|all clear|all fine|all ok|everything fine|everything is fine|todo bien|todo limpio)"
    if re.fullmatch(
        rf"(?:{no}|(?:{no} )?{fine}|none that i can (?:see|feel)|(?:no )?not (?:right )?now|ahora no){times}", words
    ):
        return True
    if not names:
        return False
    return re.fullmatch(
        rf"(?:(?:{no}|all good|all fine) )?(?:{lead} (?:any )?(?:{names})(?: (?:or|ni|nor|no) (?:{names}))*|"
        rf"(?:nothing stuck|nothing got stuck|nothing has got stuck|it doesnt hurt|doesnt hurt|no me duele|"
        rf"nada atascado|nada se atasco|nothing new|nada nuevo|nothing else|thats all|thats it|"
        rf"nothing more|nothing to add|nada mas|"
        rf"eso es todo|havent missed any|didnt miss any|none missed|didnt miss one|not missed any|"
        rf"never missed one)){times}",
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

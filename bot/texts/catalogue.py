"""Every sentence, by language: TOML files beside this module, and `say`, which fills one in.

`bot/texts/<language>/<file>.toml` holds `name = "text"`; its key is "<file>.<name>" (tables inside add one more name).
Inside a text:

    {call_me}                    the fact as it is (a number without trailing zeros, never 1.0)
    {n ampoule|ampoules}         the number and the word that goes with it: "1 ampoule", "2 ampoules"
    {n:is|are}                   the word alone
    {until:clock}                a time of day, 24 hours: "07:45"
    {on:date} {on:weekday}       "Monday 2 March", "Monday"
    {foods:list}                 "bread, meat and rice"
    {dose:amount}                "0.5 mg", "880 micrograms": the unit in the reader's language, never shortened
    {{ and }}                    a brace

A missing fact or a fact of the wrong kind is an error that names the key and the placeholder: a patient never reads a
sentence with a hole in it. Instants (aware datetimes, or ISO texts with an offset) are shown in the zone that
facts["zone"] names; without it they are refused, because UTC shown as local time is a wrong dose time.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, tzinfo
from decimal import Decimal
from functools import cache
from importlib import resources
from typing import Any
from zoneinfo import ZoneInfo

from bot.errors import BotError

DEFAULT_LANGUAGE = "en"
CARE_FILES = frozenset({"care"})     # read by the care team: English only

_BRACE = re.compile(r"\{\{|\}\}|\{([^{}]*)\}|[{}]")
_INSIDE = re.compile(r"(?P<name>[a-z][a-z0-9_]*)(?:(?P<mark>[ :])(?P<rest>.+))?", re.DOTALL)

_AMOUNT = re.compile(r"(?P<number>[0-9]+(?:\.[0-9]+)?) (?P<unit>mg|microgram|mL|g)")
# Keys of the words in format.toml, in the calendar's order (in English whatever the machine's locale).
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTHS = ("january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november",
           "december")


class WrongText(BotError):
    """A text cannot be filled in: says which key, which placeholder, and what is missing."""


def say(lang: str, key: str, facts: Mapping[str, Any]) -> str:
    """The sentence for `key` in `lang` (English where the language or its text is missing), filled in with `facts`.

    Raises WrongText for an unknown key, a missing fact, or a fact of the wrong kind.
    """
    language, text = _find(lang, key)
    return fill_in(text, facts, language, key)


def fill_in(text: str, facts: Mapping[str, Any], language: str = DEFAULT_LANGUAGE, key: str = "") -> str:
    """`text` with its placeholders filled; `key` is named in errors only. Raises WrongText."""
    try:
        parts = _parts(text)
    except ValueError as error:
        raise WrongText(f"text {key!r} ({language}): {error}") from error
    return "".join([part if isinstance(part, str) else _fill(language, key, part, facts) for part in parts])


def has(key: str) -> bool:
    """Whether such a text exists (in English, where every key must)."""
    return key in catalogue(DEFAULT_LANGUAGE)


def template(lang: str, key: str) -> str:
    """The text as it is written, with its placeholders."""
    return _find(lang, key)[1]


def placeholders(text: str) -> frozenset[str]:
    """Names of the facts that a text needs."""
    return frozenset(part.name for part in _parts(text) if isinstance(part, _Hole))


@cache
def languages() -> tuple[str, ...]:
    """Languages that have texts, English first."""
    root = resources.files("bot.texts")
    found = sorted(item.name for item in root.iterdir()
                   if item.is_dir() and any(child.name.endswith(".toml") for child in item.iterdir()))
    return (DEFAULT_LANGUAGE, *(name for name in found if name != DEFAULT_LANGUAGE))


@cache
def catalogue(language: str) -> Mapping[str, str]:
    """All texts of one language by key; empty for a language that has none."""
    if language not in languages():
        return {}
    texts: dict[str, str] = {}
    for item in sorted(resources.files("bot.texts").joinpath(language).iterdir(), key=lambda found: found.name):
        if item.name.endswith(".toml"):
            where = f"bot/texts/{language}/{item.name}"
            try:
                tree = tomllib.loads(item.read_text(encoding="utf-8"))
            except tomllib.TOMLDecodeError as error:
                raise WrongText(f"{where}: not a TOML file: {error}") from error
            texts.update(_flatten(tree, item.name.removesuffix(".toml"), where))
    return texts


@cache
def language_of(lang: str) -> str:
    """The language that will be used for a tag: "es-MX" gives "es", an unknown one English."""
    first = lang.replace("_", "-").split("-")[0].lower()
    return first if first in languages() else DEFAULT_LANGUAGE


def _flatten(tree: Mapping[str, Any], prefix: str, where: str) -> Iterable[tuple[str, str]]:
    for name, found in tree.items():
        key = f"{prefix}.{name}"
        if isinstance(found, Mapping):
            yield from _flatten(found, key, where)
        elif isinstance(found, str):
            yield key, found.strip()
        else:
            raise WrongText(f"{where}: {key!r} must be a text in quotes")


@dataclass(frozen=True, slots=True)
class _Hole:
    """One placeholder: {name}, {name rest} or {name:rest}."""

    name: str
    mark: str
    rest: str

    def __str__(self) -> str:
        return f"{{{self.name}{self.mark}{self.rest}}}"


@cache
def _parts(text: str) -> tuple[str | _Hole, ...]:
    """The text taken apart once: plain pieces and placeholders. Raises ValueError."""
    parts: list[str | _Hole] = []
    at = 0
    for match in _BRACE.finditer(text):
        parts.append(text[at:match.start()])
        parts.append(_part(match))
        at = match.end()
    parts.append(text[at:])
    return tuple(part for part in parts if part != "")


def _part(match: re.Match[str]) -> str | _Hole:
    whole, inner = match.group(), match.group(1)
    if whole in ("{{", "}}"):
        return whole[0]
    if inner is None:
        raise ValueError(f"a lone {whole!r}; write {whole * 2!r} for a brace")
    found = _INSIDE.fullmatch(inner)
    if found is None:
        raise ValueError(f"placeholder {whole} cannot be read; "
                         "write {fact}, {fact one|many}, {fact:one|many} or {fact:format}")
    hole = _Hole(found["name"], found["mark"] or "", found["rest"] or "")
    if hole.mark == " " and "|" not in hole.rest:
        raise ValueError(f"placeholder {whole}: give both forms, {{{hole.name} one|many}}")
    return hole


@cache
def _find(lang: str, key: str) -> tuple[str, str]:
    language = language_of(lang)
    text = catalogue(language).get(key)
    if text is not None:
        return language, text
    text = catalogue(DEFAULT_LANGUAGE).get(key)
    if text is None:
        raise WrongText(f"there is no text {key!r}; add it to bot/texts/{DEFAULT_LANGUAGE}/{key.split('.')[0]}.toml")
    return DEFAULT_LANGUAGE, text


def _fill(language: str, key: str, hole: _Hole, facts: Mapping[str, Any]) -> str:
    fact = facts.get(hole.name)
    if fact is None:
        raise _wrong(language, key, hole, f"the fact {hole.name!r} is missing; give it one of its kind")
    try:
        if not hole.mark:
            return _plain(fact)
        if "|" in hole.rest:
            word = _word(fact, hole.rest)
            return word if hole.mark == ":" else f"{_plain(fact)} {word}"
        return _formatted(language, hole.rest, fact, facts.get("zone"))
    except (ValueError, TypeError, ArithmeticError) as error:
        raise _wrong(language, key, hole, str(error)) from error


def _wrong(language: str, key: str, hole: _Hole, what: str) -> WrongText:
    return WrongText(f"text {key!r} ({language}), placeholder {hole}: {what}")


def _plain(fact: Any) -> str:
    if isinstance(fact, str):
        return fact
    if type(fact) is int:
        return str(fact)
    if isinstance(fact, bool) or not isinstance(fact, int | float | Decimal):
        raise TypeError(f"cannot show {fact!r} as it is; give text or a number, or name a format")
    number = Decimal(str(fact)).normalize()
    return f"{number:f}"


def _word(fact: Any, forms: str) -> str:
    one, many = forms.split("|")
    return one if Decimal(_plain(fact)) == 1 else many


def _formatted(language: str, form: str, fact: Any, zone: Any) -> str:
    if form == "clock":
        return f"{_wall_time(fact, zone):%H:%M}"
    if form in ("date", "weekday"):
        day = _wall_date(fact, zone)
        weekday = say(language, f"format.day.{_DAYS[day.weekday()]}", {})
        if form == "weekday":
            return weekday
        month = say(language, f"format.month.{_MONTHS[day.month - 1]}", {})
        return say(language, "format.date", {"weekday": weekday, "day": day.day, "month": month})
    if form == "amount":
        return _amount(language, fact)
    if form == "list":
        return _listed(language, [fact] if isinstance(fact, str) else [_plain(item) for item in fact])
    raise ValueError(f"there is no format {form!r}; use clock, date, weekday, list or amount")


def _listed(language: str, words: list[str]) -> str:
    if not words:
        raise ValueError("the list is empty; choose a text without it")
    if len(words) == 1:
        return words[0]
    listed = say(language, "format.and", {"rest": ", ".join(words[:-1]), "last": words[-1]})
    if language == "es" and re.match(r"h?i(?!e)", words[-1].lower()):
        return re.sub(rf" y (?={re.escape(words[-1])}$)", " e ", listed)     # 'y' becomes 'e' before the same sound
    return listed


def _amount(language: str, fact: Any) -> str:
    found = _AMOUNT.fullmatch(_plain(fact))
    if found is None:
        raise ValueError(f"{fact!r} is no amount; give it like '0.5 mg' or '880 microgram'")
    number = Decimal(found["number"])
    if found["unit"] == "microgram":
        return say(language, "format.microgram", {"n": number})
    return f"{_plain(number)} {found['unit']}"


def _wall_time(fact: Any, zone: Any) -> time:
    if isinstance(fact, str) and "T" not in fact and " " not in fact:
        fact = time.fromisoformat(fact)
    if isinstance(fact, time):
        return fact
    return _local(fact, zone).time()


def _wall_date(fact: Any, zone: Any) -> date:
    if isinstance(fact, str) and len(fact) == len("2026-03-02"):
        fact = date.fromisoformat(fact)
    if isinstance(fact, date) and not isinstance(fact, datetime):
        return fact
    return _local(fact, zone).date()


def _local(fact: Any, zone: Any) -> datetime:
    moment = datetime.fromisoformat(fact) if isinstance(fact, str) else fact
    if not isinstance(moment, datetime):
        raise TypeError(f"{fact!r} is not a date or time")
    if moment.tzinfo is None:
        return moment
    if zone is not None:
        place: tzinfo = zone if isinstance(zone, tzinfo) else ZoneInfo(str(zone))
        return moment.astimezone(place)
    if isinstance(moment.tzinfo, ZoneInfo):
        return moment
    raise ValueError("an instant needs the patient's zone; put the zone's name into the facts as 'zone'")

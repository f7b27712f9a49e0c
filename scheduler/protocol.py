"""The clinic protocol: every number a clinician could dispute, as data with its unit and its source.

A protocol is a TOML file of topics; each leaf is a table `{ value, unit, source }` (`note` optional). The keys that the
program reads are declared in SPEC with the unit they must carry; a missing key, an unknown key or a wrong unit is a
problem that names the key. The file that ships is an example and says so wherever it is used.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import time, timedelta
from decimal import Decimal
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any

from scheduler.errors import Problem, WrongInput
from scheduler.protocol_keys import SPEC

_SPANS = {"min": timedelta(minutes=1), "h": timedelta(hours=1), "d": timedelta(days=1), "wk": timedelta(weeks=1)}
_LONGEST, _LARGEST = timedelta(days=36_525), 10 ** 9      # what a calendar and a sum can hold; no clinical limits


@dataclass(frozen=True, slots=True)
class Value:
    """One disputable value. `unit` is "" for texts, lists and yes/no."""

    key: str
    value: Any
    unit: str
    source: str
    note: str = ""


class ClinicProtocol:
    """Read-only access to a clinic's values by dotted key; asking for an undeclared key is a programming error."""

    def __init__(self, name: str, signed_by: str, values: Mapping[str, Value]) -> None:
        self.name = name
        self.signed_by = signed_by
        self._values = dict(values)

    @property
    def is_signed(self) -> bool:
        return bool(self.signed_by)

    @property
    def banner(self) -> str:
        """What every care team message says under an unsigned protocol; empty for a signed one."""
        return "" if self.is_signed else "example, not signed"

    def __getitem__(self, key: str) -> Value:
        return self._values[key]

    def __iter__(self) -> Iterator[Value]:
        return iter(self._values.values())

    def span(self, key: str) -> timedelta:
        """A length of time: unit min, h, d or wk."""
        found = self._values[key]
        return timedelta(seconds=float(found.value) * _SPANS[found.unit].total_seconds())

    def number(self, key: str) -> Decimal:
        """An exact number in the key's declared unit."""
        return Decimal(str(self._values[key].value))

    def text(self, key: str, lang: str = "en") -> str:
        """A text; one that patients read may be a table by language, e.g. `{ en = "...", es = "..." }`."""
        value = self._values[key].value
        if isinstance(value, Mapping):
            value = value.get(lang, value.get("en", next(iter(value.values()), "")))
        return str(value)

    def flag(self, key: str) -> bool:
        return bool(self._values[key].value)

    def items(self, key: str) -> tuple[Any, ...]:
        return tuple(self._values[key].value)

    def clock_time(self, key: str) -> time:
        return time.fromisoformat(self.text(key))


def read_protocol(text: str, where: str) -> ClinicProtocol:
    """Parse and check a protocol. Raises WrongInput with every problem found."""
    try:
        tree = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise WrongInput(where, (Problem("", f"not a TOML file: {error}"),)) from error
    head = tree.pop("protocol", {})
    problems: list[Problem] = []
    values: dict[str, Value] = {}
    _collect(tree, "", values, problems)
    for key in values.keys() - SPEC.keys():
        problems.append(Problem(key, "no such value is used by this program; remove it or check its spelling"))
    for key in SPEC.keys() - values.keys():
        problems.append(Problem(key, f"is missing; give it a value in {SPEC[key] or 'plain text'} and a source"))
    for key in values.keys() & SPEC.keys():
        _check_unit(values[key], SPEC[key], problems)
    if problems:
        raise WrongInput(where, tuple(sorted(problems, key=lambda problem: problem.field)))
    return ClinicProtocol(str(head.get("name", "unnamed")), str(head.get("signed_by", "")), values)


def load_protocol(path: Path | None = None) -> ClinicProtocol:
    """The protocol in `path`, or the example that ships with the program."""
    if path is not None:
        try:
            return read_protocol(path.read_text(encoding="utf-8"), str(path))
        except (OSError, UnicodeDecodeError) as error:
            why = f"cannot be read: {error}; name the clinic's protocol file"
            raise WrongInput(str(path), (Problem("", why),)) from error
    return read_protocol(_shipped(), "the example protocol")


def _shipped() -> str:
    return resources.files("scheduler").joinpath("protocol_example.toml").read_text(encoding="utf-8")


def _collect(tree: Mapping[str, Any], prefix: str, values: dict[str, Value], problems: list[Problem]) -> None:
    for name, branch in tree.items():
        key = f"{prefix}{name}"
        if not isinstance(branch, Mapping):
            problems.append(Problem(key, "must be a table with value, unit and source"))
        elif "value" in branch:
            extra = branch.keys() - {"value", "unit", "source", "note"}
            if extra:
                problems.append(Problem(key, f"has unknown entries {sorted(extra)}"))
            if not str(branch.get("source", "")).strip():
                problems.append(Problem(key, "needs a source (or 'common practice, no source')"))
            values[key] = Value(key, branch["value"], str(branch.get("unit", "")), str(branch.get("source", "")),
                                str(branch.get("note", "")))
        else:
            _collect(branch, f"{key}.", values, problems)


def _check_unit(found: Value, unit: str, problems: list[Problem]) -> None:
    if unit in _SPANS:
        if found.unit not in _SPANS or isinstance(found.value, bool) or not isinstance(found.value, int | float):
            problems.append(Problem(
                found.key, f"needs a number with a unit of time (min, h, d, wk), not {found.unit!r}"))
        elif found.value < 0:
            problems.append(Problem(found.key, "cannot be negative"))
        elif not found.value * _SPANS[found.unit].total_seconds() <= _LONGEST.total_seconds():      # 'nan' neither
            problems.append(Problem(found.key, f"{found.value} {found.unit} is no length of time; give one of at most "
                                               f"{_LONGEST.days} d"))
    elif found.unit != unit:
        problems.append(Problem(found.key, f"must be in {unit or 'no unit'}, not {found.unit!r}"))
    elif (kind := _kind(found.value)) != (wanted := _kinds()[found.key]):
        problems.append(Problem(found.key, f"must be {wanted}, as in the protocol that ships, not {kind}"))


def _kind(value: Any) -> str:
    """What sort of value it is, in words. Texts may stand by language."""
    if isinstance(value, bool):
        return "true or false"
    if isinstance(value, int | float):
        return "a number" if -_LARGEST <= value <= _LARGEST else "no number"
    return "a text" if isinstance(value, str | Mapping) else "a list" if isinstance(value, list) else "a date or time"


@cache
def _kinds() -> dict[str, str]:
    """The sort of each value in the protocol that ships."""
    tree = tomllib.loads(_shipped())
    tree.pop("protocol", None)
    values: dict[str, Value] = {}
    _collect(tree, "", values, [])
    return {key: _kind(value.value) for key, value in values.items()}

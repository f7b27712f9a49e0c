"""Reading a TOML table that a person wrote: every field checked, every problem collected, unknown keys refused."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from datetime import date, datetime, time
from decimal import Decimal
from difflib import get_close_matches
from typing import Any

from scheduler.errors import Problem

_SPAN = re.compile(r"([0-9]{1,4}) ?(days?|weeks?)")
_DECIMAL = re.compile(r"[0-9]{1,5}(\.[0-9]{1,3})?")
LONGEST_TEXT = 200


class Table:
    """One table. Each reader returns None after noting a problem (or when an optional key is absent)."""

    def __init__(self, data: Any, path: str, problems: list[Problem]) -> None:
        self.path = path
        self.problems = problems
        self.asked: set[str] = set()
        if not isinstance(data, Mapping):
            problems.append(Problem(path, f"must be a table, not {shown(data)}"))
            data = {}
        self.data: Mapping[str, Any] = data

    def field(self, key: str) -> str:
        return f"{self.path}.{key}" if self.path else key

    def wrong(self, key: str, message: str) -> None:
        self.problems.append(Problem(self.field(key), message))

    def has(self, key: str) -> bool:
        return key in self.data

    def raw(self, key: str, needed: bool = True, hint: str = "") -> Any:
        self.asked.add(key)
        if key not in self.data and needed:
            self.wrong(key, f"is missing; {hint}" if hint else "is missing")
        return self.data.get(key)

    def text(self, key: str, needed: bool = True, hint: str = "", longest: int = LONGEST_TEXT) -> str | None:
        found = self.raw(key, needed, hint)
        if found is None:
            return None
        if not isinstance(found, str) or not found.strip():
            self.wrong(key, f"must be a text in quotes, not {shown(found)}")
            return None
        if len(found) > longest or not found.isprintable():
            self.wrong(key, f"must be one line of at most {longest} printable characters")
            return None
        return found.strip()

    def choice(self, key: str, choices: Iterable[str], needed: bool = True) -> str | None:
        allowed = tuple(choices)
        found = self.text(key, needed, f"one of {listed(allowed)}")
        if found is not None and found not in allowed:
            self.wrong(key, f"must be one of {listed(allowed)}, not {shown(found)}{near(found, allowed)}")
            return None
        return found

    def whole(self, key: str, least: int, most: int, needed: bool = True, unit: str = "") -> int | None:
        found = self.raw(key, needed, f"a whole number from {least} to {most}{unit and ' ' + unit}")
        if found is None:
            return None
        if isinstance(found, bool) or not isinstance(found, int) or not least <= found <= most:
            self.wrong(key, f"must be a whole number from {least} to {most}{unit and ' ' + unit}, not {shown(found)}")
            return None
        return found

    def decimal(self, key: str, least: int, most: int, unit: str) -> Decimal | None:
        found = self.raw(key, needed=False)
        if found is None:
            return None
        good = not isinstance(found, bool) and isinstance(found, int | Decimal) and _DECIMAL.fullmatch(str(found))
        if not good or not least <= Decimal(str(found)) <= most:
            self.wrong(key, f"must be a number from {least} to {most} {unit}, not {shown(found)}")
            return None
        return Decimal(str(found))

    def clock(self, key: str, needed: bool = True) -> time | None:
        found = self.raw(key, needed, 'a time such as "07:45"')
        if found is None:
            return None
        at = as_clock(found)
        if at is None:
            self.wrong(key, f'must be a time of day such as "07:45", not {shown(found)}')
        return at

    def clocks(self, key: str, needed: bool = True) -> tuple[time, ...]:
        found = self.raw(key, needed, 'a list of times such as ["07:15", "18:45"]')
        if found is None:
            return ()
        if not isinstance(found, list):
            self.wrong(key, f'must be a list of times such as ["07:15", "18:45"], not {shown(found)}')
            return ()
        times = [as_clock(one) for one in found]
        for one, at in zip(found, times, strict=True):
            if at is None:
                self.wrong(key, f'must hold times of day such as "07:45", not {shown(one)}')
        return tuple(at for at in times if at is not None)

    def texts(self, key: str) -> tuple[str, ...]:
        found = self.raw(key, needed=False)
        if found is None:
            return ()
        if not isinstance(found, list) or not all(isinstance(one, str) and one.strip() for one in found):
            self.wrong(key, f'must be a list of texts such as ["diabetes"], not {shown(found)}')
            return ()
        if any(len(one) > LONGEST_TEXT or not one.isprintable() for one in found):
            self.wrong(key, f"must hold lines of at most {LONGEST_TEXT} printable characters")
            return ()
        return tuple(one.strip() for one in found)

    def day(self, key: str, needed: bool = True) -> date | None:
        found = self.raw(key, needed, "a date such as 2026-03-02")
        if found is None:
            return None
        if isinstance(found, str):
            found = _date_or_text(found)
        if isinstance(found, datetime) or not isinstance(found, date) or not 2000 <= found.year <= 2200:
            self.wrong(key, f"must be a date such as 2026-03-02, not {shown(self.data[key])}")
            return None
        return found

    def days(self, key: str, needed: bool = True, most: int = 3660) -> int | None:
        """A span written '8 weeks' or '10 days', in days."""
        found = self.text(key, needed, 'a span such as "8 weeks" or "10 days"')
        if found is None:
            return None
        match = _SPAN.fullmatch(found)
        days = 0 if match is None else int(match[1]) * (7 if match[2].startswith("week") else 1)
        if not 0 < days <= most:
            self.wrong(key, f'must be a span such as "8 weeks" or "10 days" of at most {most} days, not {shown(found)}')
            return None
        return days

    def table(self, key: str, needed: bool = True) -> Table | None:
        found = self.raw(key, needed, f"a table [{self.field(key)}]")
        return None if found is None else Table(found, self.field(key), self.problems)

    def tables(self, key: str) -> list[Table]:
        """Rows written [[key]]; the path of each counts from 1."""
        found = self.raw(key, needed=False)
        if found is None:
            return []
        if not isinstance(found, list):
            self.wrong(key, f"must be rows that each start with [[{self.field(key)}]]")
            return []
        return [Table(one, f"{self.field(key)}[{number}]", self.problems) for number, one in enumerate(found, 1)]

    def finish(self, explain: Mapping[str, str] | None = None) -> None:
        """Refuse whatever was never asked for; `explain` says more about keys that people are likely to try."""
        for key in self.data:
            if key not in self.asked:
                more = (explain or {}).get(key) or f"check its spelling or remove it{near(key, self.asked)}"
                self.wrong(str(key)[:60], f"is not a key of a plan file; {more}")


def as_clock(found: Any) -> time | None:
    """'07:45', or TOML's own 07:45:00, as a time to the minute; None for anything else."""
    if isinstance(found, str):
        if not re.fullmatch(r"[0-2][0-9]:[0-5][0-9]", found) or found >= "24":
            return None
        return time.fromisoformat(found)
    if isinstance(found, time) and not found.second and not found.microsecond:
        return found
    return None


def shown(found: Any) -> str:
    """What was found, short enough to print."""
    text = repr(found) if not isinstance(found, date | time | Decimal) else str(found)
    text = "".join(c if c.isprintable() else "?" for c in text)
    return text if len(text) <= 60 else text[:57] + "..."


def listed(choices: Iterable[str]) -> str:
    return ", ".join(f'"{choice}"' for choice in choices)


def near(found: str, choices: Iterable[str]) -> str:
    close = get_close_matches(found, tuple(choices), 1, 0.7)
    return f' (did you mean "{close[0]}"?)' if close else ""


def _date_or_text(text: str) -> Any:
    try:
        return date.fromisoformat(text) if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text) else text
    except ValueError:
        return text

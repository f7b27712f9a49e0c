"""An undo log over plain dictionaries: how the in-memory twin takes a transaction back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

K = TypeVar("K")
V = TypeVar("V")

_MISSING: Any = object()


class Undo:
    """What one transaction changed, as steps that restore it; `rollback` takes them in reverse."""

    __slots__ = ("_steps",)

    def __init__(self) -> None:
        self._steps: list[tuple[Callable[..., None], tuple[Any, ...]]] = []

    def add(self, step: Callable[..., None], *args: Any) -> None:
        """Remember a step of one's own."""
        self._steps.append((step, args))

    def set(self, table: dict[K, V], key: K, value: V) -> None:
        """`table[key] = value`, undone by putting back what was there."""
        self._steps.append((_put_back, (table, key, table.get(key, _MISSING))))
        table[key] = value

    def drop(self, table: dict[K, V], key: K) -> None:
        """`del table[key]` if it is there. Undone, the key stands last in the dictionary's order."""
        if key in table:
            self._steps.append((_put_back, (table, key, table.pop(key))))

    def append(self, rows: list[V], value: V) -> None:
        """`rows.append(value)`; nothing else may shorten `rows` within the transaction."""
        self._steps.append((_pop, (rows,)))
        rows.append(value)

    def rollback(self) -> None:
        """Restore everything as it was before."""
        while self._steps:
            step, args = self._steps.pop()
            step(*args)


def _put_back(table: dict[Any, Any], key: Any, before: Any) -> None:
    if before is _MISSING:
        table.pop(key, None)
    else:
        table[key] = before


def _pop(rows: list[Any]) -> None:
    rows.pop()

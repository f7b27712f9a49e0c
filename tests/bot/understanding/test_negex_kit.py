"""The context rules on the open NegEx/ConText test kit (2,376 condition and sentence pairs; repository
chapmanbe/negex, Apache-2.0).

Published beside ours: negation F .947 and .981 (the kit's own programs); historical 26 to 54 % and hypothetical 13
to 44 % (ContextD: Afzal,
BMC Bioinformatics 2014;15:373). The kit is read where it is kept and never copied; where it is absent these checks
are skipped.
"""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from pathlib import Path

import pytest
from notes_triggers import NOTES

from bot.understanding.context import Place
from bot.understanding.surroundings import contexts
from bot.understanding.types import Context

KIT = Path(__file__).resolve().parents[4] / "shared" / "data" / "negex_kit.tsv"
pytestmark = pytest.mark.skipif(not KIT.exists(), reason="the NegEx test kit is not here")


@dataclass
class Counts:
    """Right and wrong answers of one context class."""

    hit: int = 0
    extra: int = 0
    missed: int = 0

    def add(self, said: bool, gold: bool) -> None:
        self.hit += said and gold
        self.extra += said and not gold
        self.missed += gold and not said

    @property
    def f(self) -> float:
        return 2 * self.hit / (2 * self.hit + self.extra + self.missed)


def words_of(text: str) -> list[str]:
    return re.findall(r"[a-z0-9]+|[,;:]", text.lower().replace("'", ""))


def place(words: list[str], condition: list[str]) -> tuple[int, int]:
    """Where the condition stands in its sentence (or its longest beginning; the last word where it does not)."""
    for length in range(len(condition), 0, -1):
        for at in range(len(words) - length + 1):
            if words[at : at + length] == condition[:length]:
                return at, at + length
    return len(words) - 1, len(words)


@pytest.fixture(scope="module")
def counts() -> dict[Context, Counts]:
    found = {Context.DENIED: Counts(), Context.PAST: Counts(), Context.SUPPOSED: Counts()}
    gold_of = {
        Context.DENIED: (3, "Negated"),
        Context.PAST: (4, "Historical"),
        Context.SUPPOSED: (4, "Not particular"),
    }
    with KIT.open(encoding="utf-8", errors="replace", newline="") as lines:
        rows = list(csv.reader(lines, delimiter="\t", quoting=csv.QUOTE_NONE))[1:]
    assert len(rows) == 2376
    for row in rows:
        words = words_of(row[2])
        said = contexts(Place(words, *place(words, words_of(row[1])), NOTES, parent=True))
        for context, (column, label) in gold_of.items():
            found[context].add(context in said, row[column] == label)
    return found


def test_negation_reaches_the_published_figures(counts: dict[Context, Counts]) -> None:
    assert counts[Context.DENIED].f >= 0.95  # published: .947 and .981


def test_history_is_within_the_published_range(counts: dict[Context, Counts]) -> None:
    assert counts[Context.PAST].f >= 0.26  # published: .26 to .54


def test_hypothesis_reaches_the_published_range(counts: dict[Context, Counts]) -> None:
    assert counts[Context.SUPPOSED].f >= 0.13  # published: .13 to .44

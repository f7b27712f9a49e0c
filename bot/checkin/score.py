"""The score of a check-in: how often and how badly swallowing was in trouble, 0 (none) to 9.

    total = frequency (0 none; 1: 1 or 2 of 7 days; 2: 3 or 4; 3: 5 or 6; 4: each day)
          + worst     (0 none; 1 went down by itself; 2 needed a drink; 3 sat there; 4 came back up; 5 needed a doctor)

The form (frequency 0 to 4 plus intensity 0 to 5) is that of an index used in a trial (Straumann 2010; its range and 'a
fall of 3 counts' are from memory); the questions are our own, so its thresholds do not carry over. As in published
diaries pain is kept out of the total (Hudgens 2017), and so are the habits that mask dysphagia: six yes/no, counted
(ACG 2025).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from bot.checkin.answers import chosen, is_answered
from bot.checkin.questions import BODY, DAYS, EATING, MANY, PAIN, SWALLOW, WORST
from bot.checkin.types import Answers, Item

MOST = 9


@dataclass(frozen=True, slots=True)
class Score:
    """total: 0 to max, None while the swallowing questions are not all answered. parts: by name, those answered only:
    frequency 0-4, worst 0-5, pain 0-3, adaptations 0-6 (habits), missed 0-3, adrenal 0-5 (signs)."""

    total: int | None
    max: int = MOST
    parts: Mapping[str, int] = field(default_factory=dict)

    def as_facts(self) -> dict[str, Any]:
        """JSON values for the record."""
        return {"total": self.total, "max": self.max, "parts": dict(self.parts)}


def score(answers: Answers) -> Score:
    """The score of the answers given so far."""
    parts: dict[str, int] = {}
    swallowed = {choice.id for choice in chosen(SWALLOW, answers)}
    if "well" in swallowed:
        parts |= {"frequency": 0, "worst": 0}
    for name, item in (("frequency", DAYS), ("worst", WORST), ("pain", PAIN), ("adaptations", EATING),
                       ("missed", MANY), ("adrenal", BODY)):
        if is_answered(item, answers) and chosen(item, answers):
            parts[name] = _sum(item, answers)
    whole = {"frequency", "worst"} <= parts.keys()
    return Score(parts["frequency"] + parts["worst"] if whole else None, MOST, parts)


def _sum(item: Item, answers: Answers) -> int:
    return sum(choice.score for choice in chosen(item, answers))

"""What a caution is, and the questions that the checks ask of a plan."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from scheduler.amounts import Amount, total
from scheduler.plan import Dose, Plan

_MARKS = re.compile(r"['\u2018\u2019`\u00b4.]")
LABEL = "US label of a budesonide oral suspension"


@dataclass(frozen=True, slots=True)
class Caution:
    """`topic` names it for programs; `text` is for the clinician; `source` says where it comes from."""

    topic: str
    text: str
    source: str
    tell_patient: bool = False


def named(names: tuple[str, ...], written: tuple[str, ...]) -> list[str]:
    """Which of `names` are written in any of the texts, as whole words, whatever the case, accents and apostrophes."""
    texts = [folded(text) for text in written]
    return [
        name
        for name in names
        if any(re.search(rf"(?<![a-z]){re.escape(folded(name))}(?![a-z])", text) for text in texts)
    ]


def folded(text: str) -> str:
    """Small letters without accents, apostrophes and full stops: "St. John's wort" and "st johns wort" are one."""
    plain = "".join(c for c in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(c))
    return " ".join(_MARKS.sub("", plain).split())


def all_doses(plan: Plan) -> list[tuple[Dose, ...]]:
    """The doses of a day of every step and season."""
    return [step.doses for phase in plan.phases for step in phase.steps] + [season.doses for season in plan.seasons]


def highest_day(plan: Plan) -> tuple[Dose, ...]:
    """The doses of the day with the most medicine."""
    return max(all_doses(plan), key=lambda doses: sum(dose.units for dose in doses))


def daily_of(doses: tuple[Dose, ...]) -> Amount:
    return total([dose.amount for dose in doses])

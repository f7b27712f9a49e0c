"""What a check-in is made of: items, choices, and the answers given so far. Pure data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from bot.understanding.types import Finding, Urgency

BACK = "back"      # button data c:back: the question before this one
DONE = "done"      # button data c:<item>:done: closes a question with several answers

# {item id: {"choices": [choice id, ...], "text": words, "done": bool}}: JSON values, kept in the conversation's facts.
# "unasked": true closes a question that is not asked this time.
Answers = Mapping[str, Mapping[str, Any]]


@dataclass(frozen=True, slots=True)
class Choice:
    """One button. `score` counts as the item's part of the score says. `alone`: it excludes the item's other choices.

    `urgency` is the least tier that this answer has by itself; the escalation rules may put it higher, never lower.
    """

    id: str
    label_key: str
    findings: tuple[Finding, ...] = ()
    score: int = 0
    urgency: Urgency = Urgency.NONE
    alone: bool = True
    extra: tuple[str, ...] = ()      # other signals for the rules, as in Reading.extra


@dataclass(frozen=True, slots=True)
class Item:
    """One question. `only_if` names an earlier item and the choices of it after which this one is asked.

    several: more than one choice may be picked, then 'done'. free_text: words are an answer too.
    together: choices that make an emergency when they stand together.
    read_as: what the reader's closed grammar calls the question ('no patches' answers 'thrush'), "" for its id.
    no, numbers: which choice a typed 'no' or a typed number means; a number beyond the list is not an answer.
    bare_no: whether a 'no' alone is an answer; to 'what do you see?' only 'no patches' is.
    """

    id: str
    text_key: str
    choices: tuple[Choice, ...]
    free_text: bool = False
    several: bool = False
    only_if: tuple[str, frozenset[str]] | None = None
    together: tuple[frozenset[str], ...] = ()
    read_as: str = ""
    no: str = ""
    bare_no: bool = True
    numbers: tuple[str, ...] = ()    # choice id for the typed number 0, 1, 2, ...; "" where none fits

    def choice(self, choice_id: str) -> Choice | None:
        return next((choice for choice in self.choices if choice.id == choice_id), None)


@dataclass(frozen=True, slots=True)
class Tap:
    """One button as it is to be shown now: data comes back when it is tapped; `ticked` for a choice picked already."""

    label_key: str
    data: str
    ticked: bool = False


class NotAChoice(ValueError):
    """A tap that this question does not have (an old button of another version)."""

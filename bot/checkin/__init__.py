"""The weekly check-in: questions, answers, score, and the reading that the escalation rules look at. Pure."""

from bot.checkin.answers import (
    applies,
    by_number,
    choice_for,
    chosen,
    is_answered,
    is_emergency,
    last_answered,
    next_item,
    record_answer,
    take_back,
    taps,
)
from bot.checkin.corrections import Correction, correction
from bot.checkin.questions import ALL_ITEMS, item_of, items
from bot.checkin.reading import reading_of
from bot.checkin.score import Score, score
from bot.checkin.typed import bare, typed_choice
from bot.checkin.types import BACK, DONE, Answers, Choice, Item, NotAChoice, Tap

__all__ = [
    "ALL_ITEMS",
    "BACK",
    "DONE",
    "Answers",
    "Choice",
    "Correction",
    "Item",
    "NotAChoice",
    "Score",
    "Tap",
    "applies",
    "bare",
    "by_number",
    "choice_for",
    "chosen",
    "correction",
    "is_answered",
    "is_emergency",
    "item_of",
    "items",
    "last_answered",
    "next_item",
    "reading_of",
    "record_answer",
    "score",
    "take_back",
    "taps",
    "typed_choice",
]

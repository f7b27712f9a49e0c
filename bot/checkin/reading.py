"""Check-in answers as a Reading, so that the escalation rules look at a tap as they look at words."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from bot.checkin.answers import chosen, is_answered, is_emergency
from bot.checkin.questions import ALL_ITEMS, BODY, EATING
from bot.checkin.types import Answers, Choice, Item
from bot.texts.catalogue import DEFAULT_LANGUAGE, say
from bot.understanding.types import Finding, Reading, Urgency
from scheduler.protocol import ClinicProtocol

_T = TypeVar("_T")


def reading_of(answers: Answers, protocol: ClinicProtocol, item: Item | None = None,
               lang: str = DEFAULT_LANGUAGE) -> Reading:
    """What the answers say; of one question, or of all.

    text: the labels tapped, after the question's subject, in the care team's language. A tap is wholly understood
    (needs_human False). Words given to a question that takes words need a person (and the reader, for findings).
    extra: signals of the choices, and "adaptations" for the protocol's number of habits that mask dysphagia.
    """
    asked = [item] if item is not None else list(ALL_ITEMS)
    picked = [(one, choice) for one in asked for choice in chosen(one, answers)]
    choices = [choice for _, choice in picked]
    words = [str(answers[one.id]["text"]) for one in asked if answers.get(one.id, {}).get("text")]
    said = [_said(one, answers, lang) for one in asked if chosen(one, answers)]
    urgency = max((choice.urgency for choice in choices), default=Urgency.NONE)
    if is_emergency({one.id: answers[one.id] for one in asked if one.id in answers and one.only_if is None}):
        urgency = Urgency.EMERGENCY
    signals = list(_once(signal for choice in choices for signal in choice.extra))
    ids = {one.id for one in asked}
    if BODY.id in ids:
        urgency = max(urgency, _adrenal_tier(answers, protocol))
    if EATING.id in ids and _habits(answers) >= protocol.number("flag.adaptations"):
        signals.append("adaptations")
    return Reading(text="; ".join([*said, *words]), findings=_findings(choices),
                   urgency=urgency if not words else max(urgency, Urgency.ROUTINE),
                   needs_human=bool(words), extra=tuple(signals))


def _said(item: Item, answers: Answers, lang: str) -> str:
    labels = ", ".join(say(lang, choice.label_key, {}) for choice in chosen(item, answers))
    return f"{say(lang, f'check_in.about_{item.id}', {})}: {labels}"


def _findings(choices: Iterable[Choice]) -> tuple[Finding, ...]:
    return tuple(_once(finding for choice in choices for finding in choice.findings))


def _once(things: Iterable[_T]) -> Iterable[_T]:
    return dict.fromkeys(things)


def _adrenal_tier(answers: Answers, protocol: ClinicProtocol) -> Urgency:
    signs = sum(choice.score for choice in chosen(BODY, answers))
    return Urgency.URGENT if signs and signs >= protocol.number("check_in.adrenal_signs_urgent") else Urgency.NONE


def _habits(answers: Answers) -> int:
    return sum(choice.score for choice in chosen(EATING, answers)) if is_answered(EATING, answers) else 0

"""Going through the questions: the next one, an answer recorded or changed, one step back. Pure.

Everything is derived from the answers, so a check-in goes on after a night or a restart where it was.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from bot.checkin.questions import ALL_ITEMS
from bot.checkin.types import BACK, DONE, Answers, Choice, Item, NotAChoice, Tap
from bot.understanding.types import Answer, Reading, Urgency


def next_item(items: Iterable[Item], answers: Answers) -> Item | None:
    """The question to ask now; None when all is answered or an emergency answer has ended the check-in."""
    if is_emergency(answers):
        return None
    return next((item for item in items if applies(item, answers) and not is_answered(item, answers)), None)


def is_answered(item: Item, answers: Answers) -> bool:
    """Whether a question has its answer; one with several answers only once it is closed."""
    given = answers.get(item.id, {})
    return bool(given.get("done"))


def applies(item: Item, answers: Answers) -> bool:
    """Whether the answers so far call for this question."""
    if item.only_if is None:
        return True
    earlier, wanted = item.only_if
    return any(choice in wanted for choice in answers.get(earlier, {}).get("choices", ()))


def record_answer(answers: Answers, item: Item, choice_or_text: str) -> dict[str, dict[str, Any]]:
    """The answers with this one: a choice id, `done`, or the patient's words where the question takes words.

    An answer given before is replaced (a second tap of one among several takes it back), and follow-up questions that
    no longer apply lose their answers. Raises NotAChoice for a tap that this question does not have.
    """
    given = dict(answers.get(item.id, {}))
    choice = item.choice(choice_or_text)
    closes = item.several and choice_or_text == DONE
    if choice is None and not closes and not item.free_text:
        raise NotAChoice(f"check-in question {item.id!r} has no answer {choice_or_text!r}; ask it again")
    if choice is None and not closes:
        entry: dict[str, Any] = {"choices": [], "text": choice_or_text, "done": True}
    elif item.several:
        entry = _several(item, given, choice)
    else:
        entry = {"choices": [choice_or_text], "text": "", "done": True}
    return _pruned({**{key: dict(value) for key, value in answers.items()}, item.id: entry})


def take_back(items: Iterable[Item], answers: Answers) -> dict[str, dict[str, Any]]:
    """The answers without the last one given: the button 'back'."""
    last = last_answered(items, answers)
    return _pruned({key: dict(value) for key, value in answers.items() if last is None or key != last.id})


def last_answered(items: Iterable[Item], answers: Answers) -> Item | None:
    """The last question, in order of asking, that has an answer or a part of one."""
    begun = [item for item in items if applies(item, answers) and item.id in answers
             and not answers[item.id].get("unasked")]
    return begun[-1] if begun else None


def chosen(item: Item, answers: Answers) -> tuple[Choice, ...]:
    """The choices picked for a question, in the question's order; none where it no longer applies."""
    if not applies(item, answers):
        return ()
    picked = answers.get(item.id, {}).get("choices", ())
    return tuple(choice for choice in item.choices if choice.id in picked)


def is_emergency(answers: Answers) -> bool:
    """Whether an answer given needs help at once: the check-in ends there."""
    return any(_needs_help(item, {choice.id for choice in chosen(item, answers)}) for item in ALL_ITEMS)


def taps(item: Item, answers: Answers, *, can_go_back: bool) -> tuple[Tap, ...]:
    """The buttons of a question as they are to be shown now, one a row."""
    picked = {choice.id for choice in chosen(item, answers)}
    buttons = [Tap(choice.label_key, f"c:{item.id}:{choice.id}", choice.id in picked) for choice in item.choices]
    if item.several and picked:
        buttons.append(Tap("check_in.done", f"c:{item.id}:{DONE}"))
    if can_go_back:
        buttons.append(Tap("check_in.back", f"c:{BACK}"))
    return tuple(buttons)


def choice_for(item: Item, reading: Reading) -> Choice | None:
    """Which choice typed words mean, by the closed grammar only; None: they are the answer, or a person reads."""
    if reading.needs_human or reading.findings or reading.answer is None:
        return None
    if reading.answer is Answer.NO and item.no and (item.bare_no or not _just_no(reading.text)):
        return item.choice(item.no)
    number = reading.number
    if number is None or number != int(number) or reading.answer not in (Answer.NUMBER, Answer.LETTER):
        return None
    if reading.answer is Answer.LETTER and item.numbers:
        return None
    return by_number(item, int(number))


_NO = re.compile(r"(?:no+|nope|nah|n|not?|really|thanks|thank|you|gracias|todavia|aun)*", re.IGNORECASE)


def _just_no(text: str) -> bool:
    """'No', 'nope', 'no thanks', a thumb down: a 'no' that names nothing."""
    return bool(_NO.fullmatch("".join(re.findall(r"\w", text))))


def by_number(item: Item, number: int) -> Choice | None:
    """The choice that a typed number means: what was counted, or else the place of the button, counted from 1."""
    if item.numbers:
        return item.choice(item.numbers[number]) if 0 <= number < len(item.numbers) else None
    return item.choices[number - 1] if 1 <= number <= len(item.choices) else None


def _several(item: Item, given: Mapping[str, Any], choice: Choice | None) -> dict[str, Any]:
    picked = [name for name in given.get("choices", ()) if item.choice(name)]
    if choice is None:               # 'done'
        return {"choices": picked, "text": "", "done": bool(picked)}
    if choice.alone:
        return {"choices": [choice.id], "text": "", "done": True}
    together = [name for name in picked if not _alone(item, name)]
    together = [name for name in together if name != choice.id] if choice.id in together else [*together, choice.id]
    return {"choices": together, "text": "", "done": _needs_help(item, set(together))}


def _needs_help(item: Item, picked: set[str]) -> bool:
    single = any(choice.urgency is Urgency.EMERGENCY for choice in item.choices if choice.id in picked)
    return single or any(pair <= picked for pair in item.together)


def _alone(item: Item, name: str) -> bool:
    choice = item.choice(name)
    return choice is not None and choice.alone


def _pruned(answers: dict[str, dict[str, Any]]) -> dict[str, dict[str, Any]]:
    """Without the answers to follow-up questions that no longer apply."""
    dead = {item.id for item in ALL_ITEMS if item.id in answers and not applies(item, answers)}
    return {key: value for key, value in answers.items() if key not in dead}


"""Any taps, in any order, old buttons and words among them: the check-in never breaks, never loses an emergency."""

from __future__ import annotations

import json

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.checkin import (
    ALL_ITEMS,
    Answers,
    NotAChoice,
    applies,
    chosen,
    is_emergency,
    next_item,
    reading_of,
    record_answer,
    score,
    take_back,
)
from bot.checkin.types import DONE
from bot.understanding.types import Urgency
from scheduler.protocol import load_protocol

PROTOCOL = load_protocol()
ONE_TAP = st.one_of(
    st.sampled_from(ALL_ITEMS).flatmap(lambda item: st.tuples(st.just(item), st.sampled_from(
        [choice.id for choice in item.choices] + [DONE]))),
    st.tuples(st.sampled_from(ALL_ITEMS), st.text(max_size=12)),
    st.none(),                                     # 'back'
)
TAPS = st.lists(ONE_TAP, max_size=40)


def tapped(taps: list[tuple[object, str] | None]) -> Answers:
    answers: Answers = {}
    for tap in taps:
        if tap is None:
            answers = take_back(ALL_ITEMS, answers)
            continue
        item = next(one for one in ALL_ITEMS if one is tap[0])
        try:
            answers = record_answer(answers, item, tap[1])
        except NotAChoice:
            continue
    return answers


@settings(max_examples=150, deadline=None)
@given(TAPS)
def test_any_taps_leave_answers_that_hold_together(taps: list[tuple[object, str] | None]) -> None:
    answers = tapped(taps)
    assert json.loads(json.dumps(answers)) == answers
    for item in ALL_ITEMS:
        picked = chosen(item, answers)
        assert item.id not in answers or applies(item, answers)
        assert item.several or len(picked) <= 1
        assert not (len(picked) > 1 and any(choice.alone for choice in picked))
    found = score(answers)
    assert found.total is None or 0 <= found.total <= found.max
    assert (reading_of(answers, PROTOCOL).urgency is Urgency.EMERGENCY) == is_emergency(answers)
    assert not is_emergency(answers) or next_item(ALL_ITEMS, answers) is None


@settings(max_examples=100, deadline=None)
@given(TAPS, st.data())
def test_answering_what_is_asked_always_comes_to_an_end(taps: list[tuple[object, str] | None],
                                                        data: st.DataObject) -> None:
    answers = tapped(taps)
    for _ in range(200):
        item = next_item(ALL_ITEMS, answers)
        if item is None:
            return
        first = not answers.get(item.id, {}).get("choices")
        names = [choice.id for choice in item.choices]
        answers = record_answer(answers, item, data.draw(st.sampled_from(names)) if first else DONE)
    raise AssertionError("the questions do not end")


@settings(max_examples=100, deadline=None)
@given(TAPS)
def test_back_as_often_as_needed_leads_to_the_first_question(taps: list[tuple[object, str] | None]) -> None:
    answers = tapped(taps)
    for _ in range(len(ALL_ITEMS) + 1):
        answers = take_back(ALL_ITEMS, answers)
    assert answers == {}

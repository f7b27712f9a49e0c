"""Going through the weekly questions: which come, in which order, and what a changed mind does."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from datetime import date, datetime
from typing import Any

import pytest

from bot.case import Case, PatientState
from bot.checkin import (
    ALL_ITEMS,
    Answers,
    Item,
    NotAChoice,
    choice_for,
    chosen,
    is_emergency,
    item_of,
    items,
    next_item,
    reading_of,
    record_answer,
    score,
    take_back,
    taps,
    typed_choice,
)
from bot.texts.catalogue import has, say
from bot.understanding.types import Answer, Finding, Reading, Urgency
from scheduler.protocol import ClinicProtocol

GOOD_WEEK = {"swallow": ["well"], "pain": ["no"], "mouth": ["clean"], "eating": ["none"], "new": ["none"],
             "body": ["none"], "routine": ["all"], "else": ["no"]}
HARD_WEEK = {"swallow": ["slow"], "days": ["d5"], "worst": ["back"], "trend": ["worse"], "pain": ["days"],
             "mouth": ["white", "lips", "done"], "eating": ["drinks", "soft", "pills", "done"],
             "new": ["voice", "medicine", "done"], "which": ["amoxicillin since Monday"],
             "body": ["tired", "dizzy", "done"], "routine": ["missed", "rinse", "done"], "many": ["m3"],
             "why": ["taste"], "else": ["no"]}


def walk(asked: tuple[Item, ...], script: Mapping[str, list[str]]) -> tuple[list[str], Answers, int]:
    """Answer each question as the script says; returns the ids asked, the answers, and how many taps it took."""
    answers: Answers = {}
    order: list[str] = []
    count = 0
    while (item := next_item(asked, answers)) is not None:
        order.append(item.id)
        assert len(order) < 30
        for answer in script[item.id]:
            answers = record_answer(answers, item, answer)
            count += 1
    return order, answers, count


@pytest.fixture
def asked(case_after: Callable[..., Case], month_four: datetime, protocol: ClinicProtocol) -> tuple[Item, ...]:
    return items(case_after(), month_four, protocol)


def test_a_good_week_is_at_most_eight_taps_even_on_long_use(asked: tuple[Item, ...]) -> None:
    order, answers, count = walk(asked, GOOD_WEEK)
    assert order == ["swallow", "pain", "mouth", "eating", "new", "body", "routine", "else"]
    assert count == len(order) <= 8
    assert score(answers).as_facts() == {
        "total": 0, "max": 9, "parts": {"frequency": 0, "worst": 0, "pain": 0, "adaptations": 0, "adrenal": 0}}


def test_a_good_week_has_nothing_for_the_care_team(asked: tuple[Item, ...], protocol: ClinicProtocol) -> None:
    _, answers, _ = walk(asked, GOOD_WEEK)
    whole = reading_of(answers, protocol)
    assert (whole.findings, whole.urgency, whole.needs_human, whole.extra) == ((), Urgency.NONE, False, ())


def test_a_hard_week_asks_its_follow_ups_and_finds_everything(asked: tuple[Item, ...],
                                                              protocol: ClinicProtocol) -> None:
    order, answers, _ = walk(asked, HARD_WEEK)
    assert order == [item.id for item in ALL_ITEMS]
    assert score(answers).as_facts() == {
        "total": 7, "max": 9,
        "parts": {"frequency": 3, "worst": 4, "pain": 2, "adaptations": 3, "missed": 2, "adrenal": 2}}
    whole = reading_of(answers, protocol)
    assert set(whole.findings) == {
        Finding.IMPACTION_RESOLVED, Finding.WORSE_DYSPHAGIA, Finding.ODYNOPHAGIA, Finding.THRUSH, Finding.HERPES_SIGN,
        Finding.HOARSENESS, Finding.NEW_MEDICINE, Finding.ADRENAL_SIGN, Finding.MISSED_DOSES}
    assert whole.urgency is Urgency.URGENT      # two adrenal signs, by the protocol's number
    assert "adaptations" in whole.extra
    assert whole.needs_human                    # the medicine's name was written
    assert "amoxicillin since Monday" in whole.text
    assert "White spots or white coat" in whole.text


def test_early_in_the_course_adrenal_signs_are_asked_only_beside_another_steroid(
        case_after: Callable[..., Case], week_one: datetime, protocol: ClinicProtocol) -> None:
    def ids(case: Case) -> set[str]:
        return {item.id for item in items(case, week_one, protocol)}

    assert "body" not in ids(case_after())
    assert "body" in ids(case_after(other=("Fluticasone",)))
    assert "body" in ids(case_after(other=("itraconazole",)))
    assert "body" not in ids(case_after(other=("omeprazole",)))


def test_a_patient_who_joined_late_is_asked_by_the_plans_start(case_after: Callable[..., Case], week_one: datetime,
                                                               protocol: ClinicProtocol) -> None:
    """On the medicine for months before the first message: doses and adrenal signs are asked at once."""
    case = case_after(taken=False, starts=date(2025, 11, 1))
    assert {"routine", "body"} <= {item.id for item in items(case, week_one, protocol)}


def test_what_does_not_apply_is_not_asked(case_after: Callable[..., Case], week_one: datetime,
                                          protocol: ClinicProtocol) -> None:
    not_begun = case_after(taken=False, starts=date(2026, 3, 20))
    for case in (not_begun, case_after(state=PatientState.PAUSED)):
        assert not {"routine", "many", "why"} & {item.id for item in items(case, week_one, protocol)}


@pytest.mark.parametrize(("before", "item", "answer"), [
    ({}, "swallow", "now"),
    ({"swallow": ["well"], "pain": ["no"], "mouth": ["clean"], "eating": ["none"]}, "new", "blood"),
    ({"swallow": ["well"], "pain": ["no"], "mouth": ["clean"], "eating": ["none"]}, "new", "chest"),
])
def test_an_emergency_answer_ends_the_check_in_at_once(asked: tuple[Item, ...], protocol: ClinicProtocol,
                                                       before: dict[str, list[str]], item: str, answer: str) -> None:
    answers: Answers = {}
    for name, given in before.items():
        answers = record_answer(answers, found(name), given[0])
    assert next_item(asked, answers) is not None
    answers = record_answer(answers, found(item), answer)
    assert next_item(asked, answers) is None
    assert is_emergency(answers)
    assert reading_of(answers, protocol, found(item)).urgency is Urgency.EMERGENCY
    answers = take_back(asked, answers)        # 'that was the wrong button'
    assert not is_emergency(answers)
    assert (again := next_item(asked, answers)) is not None and again.id == item


def test_food_stuck_now_leaves_no_score() -> None:
    assert score(record_answer({}, found("swallow"), "now")).total is None


def test_it_goes_on_the_next_day_from_what_was_stored(asked: tuple[Item, ...]) -> None:
    answers: Answers = {}
    for name in ("swallow", "pain"):
        answers = record_answer(answers, found(name), GOOD_WEEK[name][0])
    answers = record_answer(answers, found("mouth"), "white")      # begun, not closed
    stored = json.loads(json.dumps(answers, sort_keys=True))
    upcoming = next_item(asked, stored)
    assert upcoming is not None and upcoming.id == "mouth"
    assert [tap.data for tap in taps(upcoming, stored, can_go_back=True) if tap.ticked] == ["c:mouth:white"]


def test_a_changed_answer_drops_the_follow_ups_that_no_longer_apply(asked: tuple[Item, ...],
                                                                    protocol: ClinicProtocol) -> None:
    answers: Answers = {}
    for name in ("swallow", "days", "worst"):
        answers = record_answer(answers, found(name), HARD_WEEK[name][0])
    answers = record_answer(answers, found("swallow"), "well")     # 'I meant well'
    assert set(answers) == {"swallow"}
    assert reading_of(answers, protocol).findings == ()
    assert (upcoming := next_item(asked, answers)) is not None and upcoming.id == "pain"


def test_back_goes_one_question_back_and_stops_at_the_first(asked: tuple[Item, ...]) -> None:
    answers: Answers = {}
    for name in ("swallow", "days", "worst"):
        answers = record_answer(answers, found(name), HARD_WEEK[name][0])
    seen = []
    for _ in range(4):
        answers = take_back(asked, answers)
        upcoming = next_item(asked, answers)
        seen.append(upcoming.id if upcoming else None)
    assert seen == ["worst", "days", "swallow", "swallow"]


def test_one_among_several_can_be_taken_back_and_none_excludes_the_rest() -> None:
    mouth = found("mouth")
    answers: Answers = record_answer({}, mouth, "white")
    answers = record_answer(answers, mouth, "lips")
    answers = record_answer(answers, mouth, "white")
    assert [choice.id for choice in chosen(mouth, answers)] == ["lips"]
    assert not answers["mouth"]["done"]
    answers = record_answer(answers, mouth, "clean")
    assert answers["mouth"] == {"choices": ["clean"], "text": "", "done": True}
    answers = record_answer(answers, mouth, "lips")                # changed the mind once more
    assert answers["mouth"] == {"choices": ["lips"], "text": "", "done": False}


def test_done_with_nothing_picked_asks_again() -> None:
    assert not record_answer({}, found("mouth"), "done")["mouth"]["done"]


def test_a_button_of_another_version_is_refused_and_changes_nothing() -> None:
    with pytest.raises(NotAChoice, match="pain"):
        record_answer({}, found("pain"), "purple")


def test_words_are_taken_where_the_question_takes_words(protocol: ClinicProtocol) -> None:
    for words in ("My sleep is bad since the new dose", "done"):
        answers = record_answer({}, found("else"), words)
        assert answers["else"] == {"choices": [], "text": words, "done": True}
        reading = reading_of(answers, protocol, found("else"))
        assert reading.needs_human and reading.urgency is Urgency.ROUTINE and words in reading.text


@pytest.mark.parametrize(("item", "answer", "number", "meant"), [
    ("pain", Answer.NO, None, "no"),
    ("mouth", Answer.NO, None, "clean"),
    ("else", Answer.NO, None, "no"),
    ("swallow", Answer.NO, None, None),         # 'no' to 'how did food go down?' means nothing certain
    ("days", Answer.NUMBER, 2, "d1"),
    ("days", Answer.NUMBER, 3, "d3"),
    ("days", Answer.NUMBER, 7, "d7"),
    ("days", Answer.NUMBER, 0, None),
    ("days", Answer.NUMBER, 8, None),
    ("days", Answer.NUMBER, 2.5, None),
    ("many", Answer.NUMBER, 14, "m6"),
    ("many", Answer.NUMBER, 15, None),
    ("worst", Answer.LETTER, 2, "drink"),
    ("worst", Answer.LETTER, 9, None),
    ("pain", Answer.YES, None, None),           # which of the three kinds of yes is not known
])
def test_typed_answers_of_the_closed_grammar(item: str, answer: Answer, number: float | None,
                                             meant: str | None) -> None:
    choice = choice_for(found(item), Reading("x", needs_human=False, answer=answer, number=number))
    assert (choice.id if choice else None) == meant


def test_words_that_hold_a_finding_are_never_taken_for_a_plain_answer() -> None:
    text = Reading("no, but the bread is stuck", findings=(Finding.IMPACTION_NOW,), needs_human=True, answer=Answer.NO)
    assert choice_for(found("pain"), text) is None


def test_a_label_can_be_typed_instead_of_tapped() -> None:
    pain = found("pain")
    labels = {choice.id: say("en", choice.label_key, {}) for choice in pain.choices}
    assert typed_choice(pain, " yes  a BIT! ", labels, "en") == "little"
    assert typed_choice(pain, "yes", labels, "en") is None, "it fits three buttons"
    assert typed_choice(pain, "", labels, "en") is None
    assert typed_choice(pain, "a bit", labels, "en", plain=False) is None, "only what stands on the button"


@pytest.mark.parametrize("lang", ["en", "es"])
def test_plain_words_answer_and_no_part_of_a_button_that_speaks_of_stuck_food_does(lang: str) -> None:
    """Common practice, no source: the plain words. What must hold is that none gives a sign that was not said."""
    swallow, trend = found("swallow"), next(item for item in ALL_ITEMS if item.id == "trend")
    labels = {item.id: {choice.id: say(lang, choice.label_key, {}) for choice in item.choices} for item in ALL_ITEMS}
    for words in {"en": ("fine", "OK", "well", "Good.", "all good"), "es": ("bien", "ok", "Todo bien")}[lang]:
        assert typed_choice(swallow, words, labels["swallow"], lang) == "well"
    assert typed_choice(trend, {"en": "same", "es": "igual"}[lang], labels["trend"], lang) == "same"
    for label in (labels["swallow"]["stuck"], labels["swallow"]["now"]):
        assert typed_choice(swallow, label, labels["swallow"], lang) in ("stuck", "now")
        for part in label.replace(",", " ").split():
            assert typed_choice(swallow, part, labels["swallow"], lang) not in ("stuck", "now"), part
    for item in ALL_ITEMS:
        for words in ("fine but it hurts", "stuck", "it is", "I cannot breathe", "no well", "x" * 500, "atascado"):
            assert typed_choice(item, words, labels[item.id], lang) is None, (item.id, words)


def test_a_plain_word_never_stands_for_two_choices() -> None:
    """Each listed word gives the choice it is listed for, whatever stands on the other buttons."""
    from bot.checkin.typed import _WORDS

    for item in ALL_ITEMS:
        for lang in ("en", "es"):
            labels = {choice.id: say(lang, choice.label_key, {}) for choice in item.choices}
            for name, said in _WORDS.get(item.id, {}).items():
                for words in said[lang].split(", "):
                    assert typed_choice(item, words, labels, lang) == name, (item.id, lang, words)


def test_buttons_fit_the_networks_limits() -> None:
    for item in ALL_ITEMS:
        for choice in item.choices:
            data = f"c:{item.id}:{choice.id}"
            assert data.isascii() and len(data.encode()) <= 64
            assert len(item.id) <= 12 and len(choice.id) <= 12
            for lang in ("en", "es"):
                assert len(say(lang, choice.label_key, {})) <= 30, (lang, choice.label_key)
        names = [choice.id for choice in item.choices]
        assert len(set(names)) == len(names) and "done" not in names


def test_every_question_has_its_texts_for_patient_and_parent() -> None:
    for item in ALL_ITEMS:
        for key in (item.text_key, f"check_in.about_{item.id}", *(choice.label_key for choice in item.choices)):
            assert has(key), key
        parent = item_of(item.id, parent=True)
        assert parent is not None and has(parent.text_key)


def test_a_parent_is_asked_about_the_child(case_after: Callable[..., Case], week_one: datetime,
                                           protocol: ClinicProtocol) -> None:
    first = items(case_after(writer="parent"), week_one, protocol)[0]
    assert "Maya" in say("en", first.text_key, {"call_me": "Maya"})


def test_every_follow_up_hangs_on_an_earlier_question_and_real_choices() -> None:
    for place, item in enumerate(ALL_ITEMS):
        if item.only_if is not None:
            earlier, wanted = item.only_if
            host = next(one for one in ALL_ITEMS[:place] if one.id == earlier)
            assert wanted <= {choice.id for choice in host.choices}


def test_the_score_reaches_its_ends_and_no_further(asked: tuple[Item, ...]) -> None:
    worst: dict[str, Any] = {"swallow": ["stuck"], "days": ["d7"], "worst": ["help"], "trend": ["worse"]}
    _, answers, _ = walk(tuple(item for item in asked if item.id in worst), worst)
    assert score(answers).total == score(answers).max == 9
    assert score({}).total is None


def found(item_id: str) -> Item:
    item = item_of(item_id)
    assert item is not None
    return item

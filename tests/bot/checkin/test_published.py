"""What published work says a weekly check must ask and how it counts. Structure and arithmetic only; own wording."""

from __future__ import annotations

from bot.checkin import ALL_ITEMS, Item, record_answer, score
from bot.checkin.questions import BODY, DAYS, EATING, MOUTH, SWALLOW, WORST
from bot.texts.catalogue import catalogue
from bot.understanding.types import Finding


def test_frequency_and_intensity_have_the_published_ranges() -> None:
    """Frequency 0 to 4 plus intensity 0 to 5, 0 to 9 in all (Straumann, EJ Gastroenterol 2010; from memory)."""
    assert [0, *(choice.score for choice in DAYS.choices)] == [0, 1, 2, 3, 4]
    assert [0, *(choice.score for choice in WORST.choices)] == [0, 1, 2, 3, 4, 5]
    assert score({}).max == 4 + 5


def test_pain_stays_outside_the_score() -> None:
    """The pain item is outside the score of the daily diary (Hudgens, J Patient Rep Outcomes 2017;1:3)."""
    calm = record_answer({}, SWALLOW, "well")
    pain = next(item for item in ALL_ITEMS if item.id == "pain")
    sore = record_answer(calm, pain, "cannot")
    assert score(sore).total == score(calm).total == 0
    assert score(sore).parts["pain"] == 3


def test_a_filter_question_comes_first_and_skips_the_rest() -> None:
    """One unscored filter, then the graded items (Hudgens 2017): no trouble means no follow-up on trouble."""
    assert ALL_ITEMS[0] is SWALLOW
    for item in (DAYS, WORST):
        assert item.only_if is not None and item.only_if[0] == "swallow" and "well" not in item.only_if[1]


def test_the_recall_is_seven_days() -> None:
    """Seven days: Schoepfer, Gastroenterology 2014;147:1255 (from memory); two to seven in the others."""
    assert "last 7 days" in catalogue("en")["check_in.days"]
    assert len(DAYS.numbers) == 8 and all(DAYS.numbers[1:])      # each of 1 to 7 days has its answer, 0 has none


def test_all_six_habits_that_mask_dysphagia_are_asked() -> None:
    """Extra fluids, food changed, long meals, hard textures avoided, over-chewing, tablets avoided (ACG 2025, Table 4,
    from a summary)."""
    words = {"drinks": "drink", "soft": "soft", "slow": "long", "avoid": "leave out", "chew": "chew", "pills": "pills"}
    habits = [choice for choice in EATING.choices if not choice.alone]
    assert {choice.id for choice in habits} == set(words)
    for choice in habits:
        assert words[choice.id] in catalogue("en")[choice.label_key].lower()
    assert score(answered(EATING, *words)).parts["adaptations"] == 6


def test_thrush_and_herpes_signs_are_asked() -> None:
    """White patches, redness or soreness (public-health text on candidiasis); mouth sores go with herpes of the
    oesophagus (Quera 2021, Kim 2019)."""
    found = {choice.id: choice.findings for choice in MOUTH.choices}
    assert found["white"] == found["sore"] == (Finding.THRUSH,)
    assert found["lips"] == (Finding.HERPES_SIGN,)


def test_the_signs_of_too_little_steroid_are_asked() -> None:
    """Nausea and vomiting, dizziness, extreme weakness (NHS patient leaflet on adrenal crisis); weight loss and poor
    appetite: common practice, no source."""
    assert {choice.id for choice in BODY.choices if not choice.alone} == {"tired", "dizzy", "weight", "sick", "vomit"}


def answered(item: Item, *choices: str) -> dict[str, dict[str, object]]:
    answers: dict[str, dict[str, object]] = {}
    for choice in choices:
        answers = record_answer(answers, item, choice)
    return record_answer(answers, item, "done")

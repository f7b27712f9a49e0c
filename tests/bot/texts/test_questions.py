"""The common questions: recognised in patients' words and answered from the clinic protocol."""

from __future__ import annotations

from typing import Any

import pytest

from bot.questions import QUESTION_EXAMPLES, QUESTIONS, answer_for, is_plain_question, urgency_of
from bot.texts.catalogue import catalogue, say
from bot.understanding import read
from bot.understanding.questions import PATTERNS
from bot.understanding.types import Urgency
from scheduler.protocol import ClinicProtocol, load_protocol, read_protocol
from scheduler.protocol_keys import QUESTIONS as PROTOCOL_QUESTIONS

AMPOULE = {"lang": "en", "form": "ampoule", "mix_ahead_days": 0}
INHALER = {"lang": "en", "form": "inhaler", "mix_ahead_days": 0}

# Written from how people ask, for this test; the patterns were not changed to fit the reader's scored replies.
ASKED = {
    "drink_water": ["can I drink water yet", "Is a sip of water ok now?", "am i allowed to chew gum after it"],
    "when_eat": ["when can i have breakfast", "how long do I wait before I eat", "can i eat now??"],
    "why_wait": ["why do i have to wait half an hour", "why cant i eat after it"],
    "coffee_before": ["ok to have coffee before my dose?", "can I eat first"],
    "with_food": ["do I take it with food", "does it have to be on an empty stomach"],
    "ate_early": ["I had breakfast too early, ten minutes after", "oops i drank coffee right after the dose"],
    "swallowed_rinse": ["I swallowed the rinse water", "i accidentally swallowed some of the mouthwash"],
    "forgot_rinse": ["forgot to rinse last night", "I didn't rinse this morning"],
    "rinse_how": ["what do I rinse with?", "why do i need to rinse"],
    "brush_teeth": ["can i brush my teeth after", "is it ok to brush teeth right away?"],
    "brush_first": ["can i clean my teeth first?", "should I brush my teeth before"],
    "tablets_wait": ["can i take my usual pills straight after", "may I have my vitamin tablet in the wait"],
    "move_once": ["can i do it at 9 tonight instead?", "could we take it a bit later today"],
    "missed_dose": ["what happens if I forget one",
                    "I missed my dose this morning what do I do", "forgot last night's one, can i still take it?"],
    "double_up": ["should I take two doses tonight", "can i double up"],
    "forgot_mix": ["I forgot to mix it", "i drank the ampoule plain"],
    "mix_ahead": ["can I mix tomorrow's dose the night before?", "is it ok to prepare it in advance"],
    "mix_with": ["can I mix it with yoghurt", "can i use jam instead of the sweetener?"],
    "spilled": ["I spilled half of it", "i couldn't finish my dose"],
    "vomited_dose": ["I threw up right after my dose", "the medicine came straight back up"],
    "breathe_it": ["do I inhale it or swallow it", "the box says for nebulizer, is that right?"],
    "breathed_in": ["I breathed it in by mistake", "oops, inhaled the puff"],
    "spacer": ["do I need the spacer?", "should i use a spacer with it"],
    "prime": ["do I prime the new inhaler?", "how many sprays in the air first"],
    "steroid_danger": ["is this steroid dangerous?", "will the steroid make me gain weight",
                       "are steroids bad for my bones"],
    "side_effects": ["what are the side effects", "which side effects should I look for"],
    "taste": ["the taste is awful", "i hate the texture"],
    "alcohol": ["can I have a beer tonight?", "is alcohol allowed"],
    "grapefruit": ["can i eat grapefruit", "is grapefruit juice ok?"],
    "other_medicine": ["can I take ibuprofen with it", "is an antacid at the same time ok?"],
    "stop_well": ["can I stop taking it", "do I still need to take this, do I keep taking it?"],
    "when_works": ["when does it start to work?", "how long until I feel better"],
    "why_scope": ["why do I need another endoscopy", "do i have to have the scope again?"],
    "vaccine": ["can I get the flu shot", "is the covid vaccine ok with this?"],
    "surgery": ["I am having my teeth out, what about the medicine? its an extraction", "can I go to the dentist"],
    "exposure": ["I was near a kid with chickenpox", "been around measles at work"],
    "feel_ill": ["I have the flu, do I carry on with it", "should I skip it when I have a cold"],
    "pregnant": ["can I take it if I get pregnant?", "is it ok when breastfeeding"],
    "travel": ["we fly to Spain, what about the time zones?", "how do I take it on vacation"],
    "storage": ["does it go in the fridge?", "how long is an opened foil good"],
    "ran_out": ["I am running out", "need a refill", "i have none left"],
    "change_time": ["can I take it at a different time", "can we change the time to 9?"],
    "what_dose": ["what do I take now?", "what's my dose now?", "how many ampoules do i take?"],
    "who_reads": ["are you a real person?", "who reads this"],
    "took_twice": ["I took it twice", "think I had a double dose this morning"],
    "child_took": ["my toddler drank my dose", "the dog swallowed it, the ampoule I mean"],
}
ASKED_ES = {
    "drink_water": "¿puedo beber agua?",
    "coffee_before": "puedo tomar café antes",
    "swallowed_rinse": "me tragué el enjuague",
    "forgot_rinse": "olvidé enjuagarme",
    "missed_dose": "se me olvidó la dosis, ¿qué hago?",
    "brush_first": "¿puedo lavarme los dientes primero?",
    "tablets_wait": "¿puedo tomar mis otras pastillas durante la espera?",
    "move_once": "¿puedo tomarla hoy más tarde?",
    "forgot_mix": "olvidé mezclarla",
    "mix_ahead": "¿puedo prepararla la noche anterior?",
    "steroid_danger": "¿es peligroso este esteroide?",
    "taste": "sabe horrible",
    "alcohol": "¿puedo tomar cerveza?",
    "stop_well": "me siento bien, ¿puedo dejar de tomarla?",
    "vaccine": "¿puedo ponerme la vacuna?",
    "travel": "voy de viaje, ¿qué hago?",
    "storage": "¿va en la nevera?",
    "ran_out": "se me acaba la medicina",
    "brush_teeth": "¿puedo cepillarme los dientes?",
    "why_scope": "¿por qué otra endoscopia?",
    "when_works": "¿cuándo hace efecto?",
    "took_twice": "me la tomé dos veces",
    "grapefruit": "¿puedo comer toronja?",
}
# Words of the same subjects that ask nothing, or ask something else.
NOT_ASKED = [
    "done, thanks", "took it", "I drank water with my dinner", "bread hurts when i eat",
    "had a beer yesterday and it stung", "my steak is stuck", "I rinsed", "taken and rinsed",
    "travelled home yesterday", "feeling fine", "water goes down slowly", "I ate dinner at 7", "no white patches",
    "the wine burned on the way down", "went to the store", "I am tired",
]


@pytest.fixture(scope="module")
def protocol() -> ClinicProtocol:
    return load_protocol()


def test_the_ids_agree_everywhere() -> None:
    assert set(QUESTIONS) == set(PROTOCOL_QUESTIONS) == set(PATTERNS) == set(ASKED) == set(QUESTION_EXAMPLES)


@pytest.mark.parametrize(("question", "words"), [(name, words) for name, several in ASKED.items() for words in several])
def test_recognised_in_english(question: str, words: str) -> None:
    assert read(words, language="en").question == question


@pytest.mark.parametrize(("question", "words"), list(ASKED_ES.items()))
def test_recognised_in_spanish(question: str, words: str) -> None:
    assert read(words, language="es").question == question


@pytest.mark.parametrize("words", NOT_ASKED)
def test_what_asks_nothing_gets_no_answer(words: str) -> None:
    assert read(words, language="en").question == ""


@pytest.mark.parametrize("words", [
    "if my lips swell up do i stop taking it", "if food gets stuck should i drink water?",
    "what should i do if chicken gets stuck on holiday", "is chest pain a side effect",
    "weird white film, tastes gross",
    "can I take ibuprofen, it hurts so much to swallow", "do I keep taking it with a fever of 39.5?",
    "can i stop, i can't breathe well since", "the bread won't go down, can i drink water?",
])
def test_a_question_that_speaks_of_a_sign_gets_no_fixed_answer(words: str) -> None:
    assert not is_plain_question(read(words, language="en"))


def test_most_plain_questions_get_their_fixed_answer() -> None:
    asked = [read(words, language="en") for several in ASKED.values() for words in several]
    assert sum(map(is_plain_question, asked)) / len(asked) >= 0.9


@pytest.mark.parametrize("words", [words for several in ASKED.values() for words in several])
def test_a_person_reads_every_question_too(words: str) -> None:
    assert read(words, language="en").needs_human


@pytest.mark.parametrize("lang", ["en", "es"])
@pytest.mark.parametrize("known", [AMPOULE, INHALER], ids=["ampoule", "inhaler"])
def test_every_question_is_answered_or_left_to_a_person(protocol: ClinicProtocol, known: dict[str, Any],
                                                        lang: str) -> None:
    left = set()
    for question in QUESTIONS:
        answered = answer_for(question, protocol, {**known, "lang": lang})
        if answered is None:
            left.add(question)
            continue
        key, facts = answered
        for part in (key, "questions.also", "questions.source"):
            assert say(lang, part, facts)
    assert left == {"what_dose"} | (set() if known is INHALER else {"prime"}) | (
        {"forgot_mix", "mix_ahead", "mix_with"} if known is INHALER else set())


def test_the_protocols_own_numbers_are_said(protocol: ClinicProtocol) -> None:
    key, facts = answer_for("drink_water", protocol, AMPOULE) or ("", {})
    assert "wait 30 minutes" in say("en", key, facts)
    hour = changed(protocol_text().replace('no_food = { value = 30, unit = "min"', 'no_food = { value = 1, unit = "h"'))
    key, facts = answer_for("drink_water", hour, AMPOULE) or ("", {})
    assert "wait 60 minutes" in say("en", key, facts)
    key, facts = answer_for("took_twice", protocol, AMPOULE) or ("", {})
    assert protocol.text("care.poison_number") in say("en", key, facts)


def test_a_wait_that_is_running_is_answered_with_its_end(protocol: ClinicProtocol) -> None:
    key, facts = answer_for("drink_water", protocol, {**AMPOULE, "until": "08:47"}) or ("", {})
    assert "until 08:47" in say("en", key, facts)


def test_the_rinse_order_of_the_protocol_decides(protocol: ClinicProtocol) -> None:
    after = changed(protocol_text().replace('order = { value = "at once"', 'order = { value = "after the window"'))
    assert (answer_for("rinse_how", protocol, AMPOULE) or ("",))[0] == "questions.rinse_how_at_once"
    assert (answer_for("rinse_how", after, AMPOULE) or ("",))[0] == "questions.rinse_how_after"


def test_a_clinic_can_use_its_own_words_or_leave_it_to_people() -> None:
    own = changed(protocol_text()
                  .replace('\nalcohol = { value = "standard"', '\nalcohol = { value = { en = "Not at all." }')
                  .replace('\ntravel = { value = "standard"', '\ntravel = { value = "care team"'))
    key, facts = answer_for("alcohol", own, AMPOULE) or ("", {})
    assert say("en", key, facts) == "Not at all."
    assert answer_for("alcohol", own, {**AMPOULE, "lang": "es"}) is None     # no words of theirs in Spanish: a person
    assert answer_for("travel", own, AMPOULE) is None


def test_the_source_is_shown_and_practice_is_the_clinics(protocol: ClinicProtocol) -> None:
    assert (answer_for("storage", protocol, AMPOULE) or ("", {}))[1]["source"].startswith("US generic label")
    assert (answer_for("alcohol", protocol, AMPOULE) or ("", {}))[1]["source"] == protocol.name


def test_what_the_rules_answer_is_not_answered_twice(protocol: ClinicProtocol) -> None:
    assert answer_for("took_twice", protocol, {**AMPOULE, "signals": ["taken_twice"]}) is None
    assert answer_for("stop_well", protocol, {**AMPOULE, "signals": ["wants_stop"]}) is None
    assert answer_for("stop_well", protocol, {**AMPOULE, "signals": ["thrush"]}) is not None


def test_an_unknown_question_has_no_answer(protocol: ClinicProtocol) -> None:
    assert answer_for("", protocol, AMPOULE) is None
    assert answer_for("horoscope", protocol, AMPOULE) is None


def test_risk_goes_to_people_in_its_tier() -> None:
    assert urgency_of("child_took") is Urgency.URGENT
    assert urgency_of("took_twice") is urgency_of("exposure") is Urgency.URGENT
    assert urgency_of("vomited_dose") is Urgency.ROUTINE
    assert urgency_of("drink_water") is Urgency.NONE


def test_every_answer_in_the_catalogue_can_be_reached(protocol: ClinicProtocol) -> None:
    after = changed(protocol_text().replace('order = { value = "at once"', 'order = { value = "after the window"'))
    known: list[dict[str, Any]] = [AMPOULE, INHALER, {**AMPOULE, "until": "08:47"}, {**AMPOULE, "mix_ahead_days": 2},
                                   *({**form, "amount": "1 mg", "units": 2, "next_day": "2026-03-11",
                                      "next_clock": "21:30", **due} for form in (AMPOULE, INHALER)
                                     for due in ({}, {"due_clock": "07:45"})),
                                   {**AMPOULE, "over": "08:20", "taken": "07:50"},
                                   {**AMPOULE, "taken": "07:50", "next_day": "2026-03-11", "next_clock": "21:30"}]
    reached = {answered[0] for question in QUESTIONS for rules in (protocol, after) for facts in known
               if (answered := answer_for(question, rules, facts)) is not None}
    reached |= {"questions.own", "questions.also", "questions.also_by", "questions.source", "questions.ask",
                "questions.asked", "questions.button"}
    ours = {key for key in catalogue("en") if key.startswith("questions.")}
    assert {key for key in ours if ".parent." not in key} == reached
    assert {key.replace(".parent.", ".") for key in ours if ".parent." in key} <= reached


def protocol_text() -> str:
    from importlib import resources

    return resources.files("scheduler").joinpath("protocol_example.toml").read_text(encoding="utf-8")


def changed(text: str) -> ClinicProtocol:
    assert text != protocol_text()
    return read_protocol(text, "a changed example")

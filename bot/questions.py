"""Answers to the questions that patients ask most, from the clinic protocol's own values and texts, with their source.

Pure. The reader puts an id from QUESTIONS into Reading.question; `answer_for` gives the text to say, or None when the
clinic answers such a question itself (then the care team reads it, like everything else that is not understood).
"""

from __future__ import annotations

# What each id means, in the patients' words. The reader recognises these ids and no others.
QUESTION_EXAMPLES: dict[str, str] = {
    "drink_water": "can I drink water (chew gum, suck a sweet) now, before the wait is over?",
    "when_eat": "when can I eat, when is breakfast?",
    "why_wait": "why can I not eat or drink after it?",
    "coffee_before": "can I have coffee (food, a drink) before the dose?",
    "with_food": "do I take it with food, on an empty stomach?",
    "ate_early": "I ate or drank too early",
    "swallowed_rinse": "I swallowed the rinse",
    "forgot_rinse": "I forgot to rinse",
    "rinse_how": "how do I rinse, with what, why?",
    "brush_teeth": "can I brush my teeth, use mouthwash?",
    "took_twice": "I took it twice, I took too much",
    "child_took": "my child (somebody else, the dog) swallowed it",
    "missed_dose": "I missed a dose, I am late, what now?",
    "double_up": "can I take two to make up for it?",
    "forgot_mix": "I forgot to mix it, I drank the ampoule as it was",
    "mix_ahead": "can I mix it ahead, mix for the whole day?",
    "mix_with": "can I mix it with honey (juice, yoghurt, something else)?",
    "spilled": "I spilled some, I could not finish it",
    "vomited_dose": "I threw up after the dose",
    "breathe_it": "do I breathe it in, the box says inhale or nebuliser",
    "breathed_in": "I breathed it in by mistake",
    "spacer": "do I use the spacer?",
    "prime": "the inhaler is new, was dropped, has not been used: do I spray first?",
    "steroid_danger": "is this steroid dangerous, will I gain weight, will my child stop growing?",
    "side_effects": "what are the side effects?",
    "taste": "it tastes bad, it stings, it is too thick",
    "alcohol": "can I drink alcohol?",
    "grapefruit": "can I have grapefruit?",
    "other_medicine": "can I take it with another medicine (painkiller, antacid, antibiotic)?",
    "stop_well": "I feel well, can I stop?",
    "when_works": "when does it start to work?",
    "why_scope": "why another endoscopy when I feel well?",
    "vaccine": "can I have a vaccine, the flu shot?",
    "surgery": "I am having an operation, teeth out, a dentist's visit",
    "exposure": "I was near chickenpox, measles",
    "feel_ill": "I have a cold, a stomach bug: do I go on?",
    "pregnant": "I am pregnant, want to be, breast-feed: can I take it?",
    "travel": "I travel, fly, change time zones: what do I do?",
    "storage": "where do I keep it, how long is an open foil good?",
    "ran_out": "I am running out, I have none left",
    "change_time": "can I take it at another time?",
    "who_reads": "who reads this, are you a real person?",
}

QUESTIONS: tuple[str, ...] = tuple(QUESTION_EXAMPLES)

"""Answers to the questions that patients ask most, from the clinic protocol's own values and texts, with their source.

Pure. The reader puts an id from QUESTIONS into Reading.question; `answer_for` gives the text to say, or None when the
clinic answers such a question itself (then the care team reads it, like everything else that is not understood).
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from decimal import Decimal
from typing import Any

from bot.understanding.types import Context, Finding, Reading, Urgency
from scheduler.officehours import reads_when
from scheduler.protocol import ClinicProtocol

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
    "brush_first": "can I brush my teeth first?",
    "tablets_wait": "can I take my other tablets in the half hour?",
    "took_twice": "I took it twice, I took too much",
    "child_took": "my child (somebody else, the dog) swallowed it",
    "missed_dose": "I missed a dose, I am late, what now?",
    "double_up": "can I take two to make up for it?",
    "forgot_mix": "I forgot to mix it, I drank the ampoule as it was",
    "mix_ahead": "can I mix it ahead, mix for the whole day?",
    "mix_with": "can I mix it with honey (juice, yoghurt, something else)?",
    "spilled": "I spilled some, spat it out, could not finish it",
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
    "move_once": "can I take it later today, at 9 instead?",
    "change_time": "can I take it at another time?",
    "what_dose": "what do I take now, how much is my dose?",
    "who_reads": "who reads this, are you a real person?",
}

QUESTIONS: tuple[str, ...] = tuple(QUESTION_EXAMPLES)

# Where the answer depends on something: the text is questions.<id>_<variant>.
_BY_RINSE = frozenset({"forgot_rinse", "rinse_how", "brush_teeth", "brush_first"})      # _at_once, _after
_BY_FORM = frozenset({"breathe_it", "breathed_in", "spacer", "storage"})                # _ampoule, _inhaler
_BY_WINDOW = frozenset({"drink_water", "when_eat"})             # "", _open (a window runs), _over (it was over today)
_AMPOULE_ONLY = frozenset({"forgot_mix", "mix_ahead", "mix_with"})
_INHALER_ONLY = frozenset({"prime"})

# Beside the fixed answer a person of the care team reads the words, in this tier at least; the rules may put it higher.
_READ_BY_CARE: dict[str, Urgency] = {
    "child_took": Urgency.URGENT,
    "took_twice": Urgency.URGENT,
    "exposure": Urgency.URGENT,
} | dict.fromkeys(("mix_with", "spilled", "vomited_dose", "breathed_in", "steroid_danger", "side_effects", "taste",
                   "other_medicine", "stop_well", "vaccine", "surgery", "feel_ill", "pregnant", "travel", "ran_out",
                   "change_time"), Urgency.ROUTINE)

# Findings and signals after which the escalation rules answer the same subject themselves: nothing is said twice.
_ANSWERED_BY_RULES: dict[str, frozenset[str]] = {
    "took_twice": frozenset({"taken_twice"}),
    "double_up": frozenset({"taken_twice"}),
    "child_took": frozenset({"child_took_it"}),
    "exposure": frozenset({"exposure"}),
    "surgery": frozenset({"surgery"}),
    "pregnant": frozenset({"pregnancy"}),
    "stop_well": frozenset({"wants_stop"}),
    "other_medicine": frozenset({"new_medicine"}),
    "ate_early": frozenset({"ate_early"}),
}

_STANDARD, _CARE_TEAM = "standard", "care team"
_NO_SOURCE = "common practice, no source"


# What a question may speak of without speaking of a sign.
_NO_SIGN = frozenset({Finding.WANTS_STOP, Finding.MISSED_DOSES, Finding.BETTER, Finding.NEW_MEDICINE,
                      Finding.PREGNANCY})


def is_plain_question(reading: Reading) -> bool:
    """Whether the words ask a common question and speak of no sign at all, not even supposed or asked about.

    'If my lips swell, do I stop taking it?' must never get the answer to 'can I stop?'.
    """
    signs = any(mention.finding not in _NO_SIGN and Context.DENIED not in mention.context
                for mention in reading.mentions)
    return (reading.question in QUESTION_EXAMPLES and reading.urgency < Urgency.EMERGENCY and not signs
            and not reading.supposed_emergency)


def urgency_of(question_id: str) -> Urgency:
    """The least tier in which a person reads such a question; NONE where the fixed answer is enough."""
    return _READ_BY_CARE.get(question_id, Urgency.NONE)


def answer_for(question_id: str, protocol: ClinicProtocol,
               facts: Mapping[str, Any]) -> tuple[str, dict[str, Any]] | None:
    """The text that answers a common question, and the facts that fill it; None: a person answers.

    facts: "lang"; "form" ("ampoule" or "inhaler"), "until" (local HH:MM while a window runs), "over" (when the last
    one of the day was over), "taken" (the last dose, while none waits), "next_day" and "next_clock", "amount" and
    "units" of the dose that waits ("due_clock") or else of the next one, "mix_ahead_days",
    "reads_when" (by the patient's clock) and "signals" (findings and other signals of the same words, so that nothing
    is answered twice) where known. The clinic
    protocol decides for each question: the text that ships, the clinic's own words in the patient's language, or the
    care team. The facts given back are JSON values and hold "source".
    """
    if question_id not in QUESTION_EXAMPLES or _ANSWERED_BY_RULES.get(question_id, frozenset()).intersection(
            facts.get("signals", ())):
        return None
    row = protocol[f"questions.{question_id}"]
    lang = str(facts.get("lang", "en"))
    known = {name: fact for name, fact in facts.items() if name != "signals"}
    filled = {**_values(protocol, lang), **known, "question": question_id,
              "source": protocol.name if row.source.startswith(_NO_SOURCE) else row.source}
    if row.value == _STANDARD:
        key = _standard_key(question_id, protocol, filled)
        return (key, filled) if key else None
    words = row.value.get(lang) if isinstance(row.value, Mapping) else None if row.value == _CARE_TEAM else row.value
    return ("questions.own", {**filled, "words": str(words)}) if words else None


def _standard_key(question_id: str, protocol: ClinicProtocol, facts: Mapping[str, Any]) -> str:
    """Key of the text that ships, "" where it does not fit this medicine or what is known."""
    key, form = f"questions.{question_id}", facts.get("form")
    if question_id in _BY_RINSE:
        return f"{key}_at_once" if protocol.text("rinse.order") == "at once" else f"{key}_after"
    if question_id in _BY_FORM:
        return f"{key}_{form}" if form in ("ampoule", "inhaler") else ""
    if question_id in _BY_WINDOW and facts.get("until"):
        return f"{key}_open"
    if question_id in _BY_WINDOW and facts.get("over"):
        return f"{key}_over"
    if question_id == "spilled" and form == "inhaler":
        return f"{key}_inhaler"
    if question_id == "missed_dose" and facts.get("taken"):
        return f"{key}_taken" if facts.get("next_clock") else f"{key}_taken_last"
    if question_id == "what_dose":       # from the plan in force, or not at all
        open_now = "_due" if facts.get("due_clock") else ""
        return f"{key}{open_now}_{form}" if facts.get("amount") and form in ("ampoule", "inhaler") else ""
    if (question_id in _AMPOULE_ONLY and form == "inhaler") or (question_id in _INHALER_ONLY and form != "inhaler"):
        return ""
    if question_id == "mix_ahead" and int(facts.get("mix_ahead_days") or 0) > 0:
        return f"{key}_allowed"
    return key


def _values(protocol: ClinicProtocol, lang: str) -> dict[str, Any]:
    """The protocol's values that the answers name."""
    hour, day, week, minute = timedelta(hours=1), timedelta(days=1), timedelta(weeks=1), timedelta(minutes=1)
    return {
        "minutes": _count(protocol, "window.no_food", minute),
        "late_hours": _count(protocol, "dose.late_limit_before_next", hour),
        "gap_hours": _count(protocol, "dose.minimum_gap", hour),
        "foil_days": _count(protocol, "keep.foil_open", day),
        "works_weeks": _count(protocol, "flag.no_benefit_week", week),
        "prime_first": str(protocol.number("inhaler.prime_first")),
        "prime_again": str(protocol.number("inhaler.prime_again")),
        "prime_days": _count(protocol, "inhaler.prime_after", day),
        "reads_when": reads_when(protocol, lang),
        **{name: protocol.text(f"care.{name}", lang)
           for name in ("urgent_number", "emergency_number", "poison_number")},
    }


def _count(protocol: ClinicProtocol, key: str, unit: timedelta) -> str:
    """A span in whole or decimal units, as text (facts are JSON): '30', '1.5'."""
    number = Decimal(str(protocol.span(key) / unit)).quantize(Decimal("0.01")).normalize()
    return f"{number:f}"

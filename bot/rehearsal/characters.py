"""Simulated patients: how they keep to the plan, what befalls them, what they write about it.

Rates come from published figures where there are any; each row names its source, and the rest is marked 'assumed'. The
simulation can show load and loss of the machinery; it cannot show how real patients write or how real nurses work.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta


@dataclass(frozen=True, slots=True)
class Trouble:
    """Something that befalls a patient once. chance: over 26 weeks; words: how it is written about (one is picked)."""

    name: str
    chance: float
    worth: str            # "emergency", "infection", "care" (worth a person's time) or "none" (harmless chatter)
    words: Sequence[str]
    source: str


TROUBLES: tuple[Trouble, ...] = (
    Trouble("thrush", 0.12, "infection",
            ("theres white stuff on my tongue that wont brush off", "mouth is sore and has white patches",
             "white coating inside my cheeks since monday", "my tongue looks furry and white and food tastes odd"),
            "candida 4 to 24 % (ACG 2025, secondary); 12 % taken"),
    Trouble("painful swallowing", 0.05, "infection",
            ("it really hurts to swallow since two days", "burns like fire when i swallow, even water"),
            "candida of the oesophagus 12 to 16 % by endoscopy (Dellon 2019, from memory)"),
    Trouble("herpes signs", 0.02, "infection",
            ("cold sore came up on my lip and i have a fever", "little blisters on my lips and it hurts to swallow"),
            "case reports only (Quera 2021); rate assumed"),
    Trouble("food stuck now", 0.03, "emergency",
            ("steak is stuck and wont go down", "something is stuck in my chest i cant even swallow my spit",
             "bread wont move spitting everything back up"), "rate assumed"),
    Trouble("food was stuck", 0.08, "care",
            ("food got stuck last night but went down after an hour", "had a piece of chicken stuck, it passed"),
            "rate assumed"),
    Trouble("bleeding", 0.004, "emergency",
            ("threw up and it looked like coffee grounds", "there was blood when i was sick"), "rate assumed"),
    Trouble("chest pain", 0.01, "emergency", ("bad chest pain and a fever since this morning",), "rate assumed"),
    Trouble("hoarse", 0.06, "care", ("my voice is hoarse since last week",), "rate not found; assumed"),
    Trouble("worse in the taper", 0.15, "care",
            ("swallowing is getting worse since the lower dose", "more trouble with meat again this week"),
            "relapse 24 to 54 % over longer times (cohorts and withdrawal trials); 15 % in 26 weeks assumed"),
    Trouble("wants to stop", 0.05, "care", ("can i stop this now i feel fine", "i want to quit this stuff"), "assumed"),
    Trouble("new medicine", 0.06, "care",
            ("doctor gave me an antibiotic, clarithromycin", "started a new medicine for my heart"), "assumed"),
    Trouble("chatter", 6.0, "none",
            ("ok", "thanks", "thank you!", "done", "good morning", "all good here", "ok will do", "👍", "taken",
             "no problems"),
            "assumed: six harmless texts in 26 weeks"),
    Trouble("question", 1.0, "none",
            ("can i drink water now?", "is it ok to have coffee before?", "can i brush my teeth after?"), "assumed"),
    Trouble("unclear", 0.4, "none",
            ("the parcel thing again", "see you at the thing", "my cat sat on the phone lkjh"), "assumed"),
)

# share of patients, chance to answer a dose with 'taken', chance to answer 'not today', the rest is silence; check-ins.
# 40 % good adherence (Gold 2025: 37 to 41 %); the split of the others is assumed.
HABITS: tuple[tuple[str, float, float, float, float], ...] = (
    ("good", 0.40, 0.96, 0.02, 0.95),
    ("middling", 0.40, 0.80, 0.08, 0.75),
    ("poor", 0.15, 0.50, 0.15, 0.45),
    ("falls silent", 0.05, 0.90, 0.04, 0.85),
)


@dataclass
class Character:
    """One simulated patient with their own dice."""

    reference: str
    habit: str
    takes: float
    skips: float
    checks_in: float
    silent_from: datetime | None
    dice: random.Random
    rinses: float = 0.7

    def is_silent(self, now: datetime) -> bool:
        return self.silent_from is not None and now >= self.silent_from

    def delay(self) -> timedelta:
        """How long until the phone is picked up."""
        return timedelta(minutes=min(self.dice.expovariate(1 / 8), 90))


@dataclass(frozen=True, slots=True)
class Event:
    """A trouble at its instant, and the words chosen for it."""

    at: datetime
    reference: str
    trouble: Trouble
    words: str


def character(reference: str, start: datetime, weeks: int, dice: random.Random) -> Character:
    """A patient drawn from HABITS."""
    roll, habit = dice.random(), HABITS[-1]
    for habit in HABITS:
        roll -= habit[1]
        if roll < 0:
            break
    name, _, takes, skips, checks_in = habit
    silent = start + timedelta(weeks=weeks * dice.uniform(0.2, 0.7)) if name == "falls silent" else None
    return Character(reference, name, takes, skips, checks_in, silent, dice)


def events(who: Character, start: datetime, weeks: int) -> list[Event]:
    """What befalls this patient within the time: each trouble by its chance, at waking hours."""
    found: list[Event] = []
    for trouble in TROUBLES:
        expected = trouble.chance * weeks / 26
        count = int(expected) + (who.dice.random() < expected - int(expected))
        for _ in range(count):
            day = who.dice.randrange(3, weeks * 7)
            at = start + timedelta(days=day, minutes=who.dice.randrange(15 * 60))
            found.append(Event(at, who.reference, trouble, who.dice.choice(trouble.words)))
    return [event for event in found if not who.is_silent(event.at)]

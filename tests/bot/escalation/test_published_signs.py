"""Signs as published pages and guidelines list them, in a patient's words: from the words to the tier and the answer.

Each row names its source. The words are ours; the list of signs is theirs.
"""

from __future__ import annotations

from datetime import datetime

import pytest

from bot.case import Case, Reply
from bot.escalation import assess
from bot.understanding import read
from bot.understanding.types import Urgency
from scheduler.messages import To
from scheduler.protocol import ClinicProtocol

E, U, R = Urgency.EMERGENCY, Urgency.URGENT, Urgency.ROUTINE

BOLUS = "bolus signs: ENT emergency page; review PMC8640419; ESGE 2016 (Birk et al.) recommendation 7"
AIRWAY = "airway sign, emergency number at once: several emergency pages"
TEAR = "perforation: review table PMC7330325; emergency texts"
BLEED = "gastrointestinal bleeding: national health service page (2022-23)"
WAO = "anaphylaxis criteria: WAO 2020 (from memory)"
CRISIS = "adrenal crisis: national health service patient leaflet"
CANDIDA = "thrush signs: public-health text on candidiasis"
HERPES = "herpes oesophagitis: Quera 2021; Kim 2019"
LABEL = "label of a budesonide oral suspension: infection, exposure, surgery"

SIGNS = [
    ("it stopped going down in the middle of dinner and now nothing passes", E, BOLUS),
    ("i cant swallow my saliva", E, BOLUS),
    ("im drooling because it wont go down", E, BOLUS),
    ("the meat is stuck and i keep retching", E, BOLUS),
    ("i am choking on a piece of bread", E, BOLUS),
    ("my breathing is noisy and hard", E, AIRWAY),
    ("i cannot speak and can hardly breathe", E, AIRWAY),
    ("strong chest pain and a fever", E, TEAR),
    ("i vomited and then got a terrible pain in my chest", E, TEAR),
    ("chest pain and i am short of breath", E, TEAR),
    ("i threw up bright red blood", E, BLEED),
    ("my vomit is dark like coffee grounds", E, BLEED),
    ("my stool is black like tar and i feel faint", E, BLEED),
    ("hives all over and my throat is closing", E, WAO),
    ("my tongue is swelling after the dose", E, WAO),
    ("rash and i cannot breathe well", E, WAO),
    ("i keep vomiting and i am so weak i cannot stand", E, CRISIS),
    ("dizzy, confused and throwing up since this morning", E, CRISIS),
    ("white patches on my tongue", U, CANDIDA),
    ("my mouth feels like cotton and food has no taste", U, CANDIDA),
    ("the corners of my mouth are cracked and sore", U, CANDIDA),
    ("it hurts to swallow and i have a fever and a mouth sore", U, HERPES),
    ("a cold sore came up on my lip", U, HERPES),
    ("my brother has chickenpox and we share a room", U, LABEL),
    ("i have surgery on my knee next week", R, LABEL),
]


@pytest.mark.parametrize(("words", "least", "source"), SIGNS, ids=[row[0][:40] for row in SIGNS])
def test_published_sign(words: str, least: Urgency, source: str, case: Case, monday: datetime,
                        protocol: ClinicProtocol) -> None:
    assert source
    reading = read(words, language="en", writer="patient")
    changes = assess(case, reading, Reply("u1", "KT-014", monday, "text", words), monday, protocol)
    assert changes.flags and changes.flags[0].urgency >= least, reading
    if least is E:
        told = [message for message in changes.messages if message.to is To.PATIENT]
        assert any(message.kind == "emergency_answer" for message in told)
        assert any(message.to is To.CARE and message.edits is None for message in changes.messages)

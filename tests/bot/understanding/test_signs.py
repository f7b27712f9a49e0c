"""Signs told by what happens, idioms and everyday things, and the closed grammar clause by clause."""

from __future__ import annotations

import pytest
from score import load

from bot.understanding import Answer, Finding, Urgency, read


@pytest.mark.parametrize(
    ("text", "finding"),
    [
        ("hunched over the basin letting it drip out", Finding.CANNOT_SWALLOW_SALIVA),
        ("a flannel under my chin for the last hour", Finding.CANNOT_SWALLOW_SALIVA),
        ("came round on the bathroom tiles", Finding.ADRENAL_SIGN),
        ("what I threw up looked like wet soil", Finding.BLEEDING),
        ("his ribs are pulling in", Finding.BREATHING_TROUBLE),
        ("the pie is in a standoff with my gullet", Finding.IMPACTION_NOW),
        ("pollo atorado and the agua comes back up", Finding.IMPACTION_NOW),
        ("drank all the ampoules at once on purpose", Finding.SELF_HARM),
        ("I'm scared I might hurt myself", Finding.SELF_HARM),
    ],
)
def test_signs_told_by_what_happens_are_emergencies(text: str, finding: Finding) -> None:
    reading = read(text)
    assert finding in reading.findings
    assert reading.urgency is Urgency.EMERGENCY


@pytest.mark.parametrize(
    "text",
    [
        "the wardrobe got wedged in the doorway",
        "the garden tap keeps dribbling",
        "blood is thicker than water as they say",
        "I'm dying to eat something",
        "out of breath after running for the bus",
        "cut my thumb on the foil, bit of blood",
        "what would you do if food got stuck and it was night time",
        "bleeding gums? no that was from flossing",
    ],
)
def test_what_only_sounds_like_a_symptom_is_not_raised(text: str) -> None:
    reading = read(text)
    assert reading.urgency <= Urgency.ROUTINE
    assert reading.needs_human


def test_an_idiom_hides_nothing_that_stands_beside_it() -> None:
    assert read("stuck at work with a bit of pretzel stuck in my throat").urgency is Urgency.EMERGENCY
    assert read("out of breath just sitting here").urgency is Urgency.EMERGENCY
    assert read("my phone died, the steak is still stuck").urgency is Urgency.EMERGENCY


def test_more_sticking_since_a_change_of_dose_is_worse_swallowing() -> None:
    reading = read("food gets stuck a lot more since i went down to the lower dose")
    assert reading.findings == (Finding.WORSE_DYSPHAGIA,)
    assert Finding.BETTER not in read("It is not helping, swallowing is no better").findings
    assert read("swallowing is still just as bad").urgency < Urgency.EMERGENCY


@pytest.mark.parametrize(
    "text", ["my toddler puffed the inhaler in his mouth", "kid brother drank one ampoule", "hes 2 and drank my slurry"]
)
def test_a_child_who_took_it_is_a_signal(text: str) -> None:
    assert "child_took_it" in read(text).extra
    assert read(text).urgency is Urgency.URGENT


def test_what_was_stuck_and_passed_is_told_as_passed() -> None:
    assert read("it was stuck, i was sick and it came out, ok now").findings == (Finding.IMPACTION_RESOLVED,)
    assert Finding.IMPACTION_NOW in read("some came out but the rest is stuck").findings


@pytest.mark.parametrize(
    ("text", "asked", "answer", "minutes", "clock"),
    [
        ("I took it 20 minutes ago", "dose", Answer.TAKEN, 20, ""),
        ("took it late, at 08:10", "dose", Answer.TAKEN, None, "08:10"),
        ("had it at half 7", "dose", Answer.TAKEN, None, "07:30"),
        ("about 20 to 8", "when_taken", Answer.CLOCK_TIME, None, "07:40"),
        ("a quarter of an hour ago", "when_taken", Answer.NUMBER, 15, ""),
        ("got it, taken!", "dose", Answer.TAKEN, None, ""),
        ("no issues today, thanks", "", Answer.THANKS, None, ""),
        ("all good nothing new", "", Answer.THANKS, None, ""),
        ("I'll do it after my shower", "dose", Answer.LATER, None, ""),
    ],
)
def test_confirmations_are_parsed_clause_by_clause(
    text: str, asked: str, answer: Answer, minutes: float | None, clock: str
) -> None:
    reading = read(text, asked=asked)
    assert not reading.needs_human
    assert (reading.answer, reading.number, reading.clock_time) == (answer, minutes, clock)


@pytest.mark.parametrize(
    "text", ["no", "no good", "no better", "no change", "not good", "ok but it hurts", "took it again", "taken, again"]
)
def test_what_is_not_wholly_a_confirmation_needs_a_person(text: str) -> None:
    assert read(text).needs_human


def test_somebody_who_writes_for_the_patient_is_heard() -> None:
    assert read("mum here she is confused and floppy").urgency is Urgency.EMERGENCY


@pytest.mark.parametrize(
    "before", ["all good, ", "taken, thanks. ", "the sofa got wedged in the door, ", "cut my thumb, ", "dying to eat, "]
)
def test_a_harmless_clause_before_an_emergency_hides_it_hardly_ever(before: str) -> None:
    """And closes it never. Bound 3 %: common practice, no source."""
    found = [
        reply
        for reply in load("scored", "en") + load("fresh", "en")
        if reply.tier == "emergency"
        and read(reply.text, asked=reply.asked, writer=reply.writer).urgency is Urgency.EMERGENCY
    ]
    readings = [read(before + reply.text, asked="dose", writer=reply.writer) for reply in found]
    assert all(reading.needs_human for reading in readings)
    assert sum(reading.urgency < Urgency.EMERGENCY for reading in readings) <= 0.03 * len(readings)


@pytest.mark.parametrize("text", ["i feel dead tired this morning", "i did not wake up until now", "and it is ugly"])
def test_everyday_words_are_no_self_harm(text: str) -> None:
    reading = read(text)
    assert Finding.SELF_HARM not in reading.findings and reading.urgency < Urgency.EMERGENCY


@pytest.mark.parametrize("text", ["I took 10 ampoules", "I took 6 ampoules by mistake", "I took three",
                                  "i took my sons dose"])
def test_more_medicine_than_a_dose_is_urgent(text: str) -> None:
    assert read(text).urgency is Urgency.URGENT


@pytest.mark.parametrize(("text", "writer", "language"), [
    ("tkn", "patient", "en"), ("cup empty", "patient", "en"), ("mixed and drunk", "patient", "en"),
    ("she's had hers", "parent", "en"), ("he drank the lot", "parent", "en"), ("ya quedó", "patient", "es"),
    ("2 puffs x2 complete", "patient", "en"), ("a las 6 y cuarto", "patient", "es"), ("just now", "patient", "en")])
def test_confirmations_as_they_are_typed_are_closed(text: str, writer: str, language: str) -> None:
    assert not read(text, language=language, asked="dose", writer=writer).needs_human


@pytest.mark.parametrize("text", ["he drank the lot", "cup empty and my throat is closing", "mixed", "i vomited"])
def test_what_is_more_or_less_than_a_confirmation_is_read(text: str) -> None:
    assert read(text, asked="dose").needs_human


def test_what_was_long_ago_and_is_over_is_routine() -> None:
    assert read("passed out at camp in 2019, never repeated").urgency is Urgency.ROUTINE
    assert read("passed out in 2019, and again this morning").urgency is Urgency.EMERGENCY


@pytest.mark.parametrize(
    "text",
    [
        "Chest pain, fever, blood. None of those",
        "wheeze: nah",
        "my neighbour said she wants to die and I don't know what to answer",
        "that heat is suffocating, took it in the shade",
        "cold sore throat weather, nothing more. dose in",
        "they sent me for a blood test on Tuesday",
        "lump in my throat at the school play, lovely it was",
        "my throat was sore from shouting at the match",
        "watching a horror film, blood everywhere, took it in the break",
        "say a crust got wedged, do I drink or wait",
        "would a cold sore matter if I got one",
        "fed the cat, drank the slurry",
        "leaflet page 3: swelling of the face. how common is that",
        "leaflet lists black stools under rare, is that from the steroid",
        "rinsed and spat in the sink at work",
    ],
)
def test_a_sign_with_its_harmless_reason_is_not_raised(text: str) -> None:
    assert read(text).urgency <= Urgency.ROUTINE


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("lump of beef in my throat at the wedding, cannot swallow my spit", "en"),
        ("Swelling of my face. How common is that", "en"),
        ("lips are swelling. is that common?", "en"),
        ("I have chest pain and I vomited blood. None of those tablets helped", "en"),
        ("half of it came up, the other half is still stuck in there", "en"),
        ("spitting into the sink, rinsed my mouth, can't swallow my saliva", "en"),
        ("el labio me cuelga del hinchazón y ya no puedo hablar", "es"),
        ("si me la tomé, pero me duele el pecho muy fuerte", "es"),
    ],
)
def test_a_reason_beside_it_hides_no_emergency(text: str, language: str) -> None:
    assert read(text, language=language).urgency is Urgency.EMERGENCY


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("it stings as my tea goes past halfway", "en"),
        ("took four puffs when it should be two", "en"),
        ("my face has gone round like a moon and I bruise if you look at me", "en"),
        ("He hasn't outgrown a single pair of shoes in 14 months, still the same height", "en"),
        ("my husband gave him it too, not knowing", "en"),
        ("me eché cuatro disparos en vez de dos", "es"),
    ],
)
def test_urgent_kinds_told_without_their_word_are_at_least_urgent(text: str, language: str) -> None:
    assert read(text, language=language).urgency >= Urgency.URGENT

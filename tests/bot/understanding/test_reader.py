"""The reader on sentences that show one rule each."""

from __future__ import annotations

import json
import subprocess
import sys
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.understanding import Answer, Context, Finding, Urgency, read
from bot.understanding.language import language_of

F = Finding


def found(text: str, **how: str) -> set[Finding]:
    return set(read(text, **how).findings)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "finding", "urgency"),
    [
        ("no temperature, only a white coat on my gums", F.THRUSH, Urgency.URGENT),
        ("not coughing but the bread won't go down", F.IMPACTION_NOW, Urgency.EMERGENCY),
        ("swallowing works, it just stings badly", F.ODYNOPHAGIA, Urgency.URGENT),
        ("no fever i cant swallow", F.IMPACTION_NOW, Urgency.EMERGENCY),
        ("no it hurts to swallow", F.ODYNOPHAGIA, Urgency.URGENT),
        ("my son had a cold and now i have a fever", F.FEVER, Urgency.URGENT),
        ("fine yesterday, today my tongue is white", F.THRUSH, Urgency.URGENT),
        ("no tengo fiebre, solo una capa blanca en la lengua", None, Urgency.NONE),
    ],
)
def test_a_denial_never_cancels_another_finding(text: str, finding: Finding | None, urgency: Urgency) -> None:
    language = "en" if finding else "es"
    reading = read(text, language=language)
    assert (finding or F.THRUSH) in reading.findings
    assert reading.urgency >= urgency and reading.needs_human


@pytest.mark.parametrize(
    ("text", "context"),
    [
        ("no white patches", Context.DENIED),
        ("i havent had any fever", Context.DENIED),
        ("my tongue isn't white", Context.DENIED),
        ("no fever, bleeding or chest pain", Context.DENIED),
        ("my son has a cold sore", Context.OTHER_PERSON),
        ("my wife is pregnant", Context.OTHER_PERSON),
        ("it burned when i swallowed last week, fine now", Context.PAST),
        ("what if food gets stuck?", Context.SUPPOSED),
        ("is hoarseness normal?", Context.ASKED),
        ("does this cause thrush", Context.ASKED),
    ],
)
def test_context_lowers_its_own_mention(text: str, context: Context) -> None:
    reading = read(text)
    assert reading.mentions and all(context in mention.context for mention in reading.mentions)
    assert not reading.findings and reading.urgency <= Urgency.ROUTINE and reading.needs_human


@pytest.mark.parametrize(
    ("text", "context"),
    [
        ("maybe a white spot on my tongue", Context.UNCERTAIN),
        ("since the new dose my tongue is white", Context.SINCE_MEDICINE),
    ],
)
def test_context_that_does_not_lower(text: str, context: Context) -> None:
    reading = read(text)
    assert reading.findings == (F.THRUSH,) and context in reading.mentions[0].context


def test_a_what_if_of_an_emergency_is_named() -> None:
    assert read("what if food gets stuck?").supposed_emergency
    assert not read("food is stuck, what do i do").supposed_emergency
    assert read("is it an emergency if chicken has been stuck for 5 hours").urgency is Urgency.EMERGENCY


def test_my_son_is_the_patient_when_a_parent_writes() -> None:
    assert found("my son has white patches in his mouth", writer="parent") == {F.THRUSH}
    assert found("my son has white patches in his mouth") == set()
    assert found("my husband has a fever", writer="parent") == set()


@pytest.mark.parametrize(
    ("text", "finding"),
    [
        ("39.5", F.FEVER),
        ("38,9", F.FEVER),
        ("103F this morning", F.FEVER),
        ("temp of 101.2", F.FEVER),
        ("bp 85/50", F.ADRENAL_SIGN),
    ],
)
def test_readings(text: str, finding: Finding) -> None:
    assert finding in found(text)


@pytest.mark.parametrize("text", ["36.8", "temp 98.4", "hot day, 39 degrees outside", "bp 120/80", "took 2.5 ml"])
def test_readings_that_are_none(text: str) -> None:
    assert not found(text)


@pytest.mark.parametrize(
    ("text", "finding"),
    [
        ("my tounge is wite", F.THRUSH),
        ("stuk food cant swalow", F.IMPACTION_NOW),
        ("vommiting blod", F.BLEEDING),
        ("i have a fevr", F.FEVER),
        ("painfull swollowing", F.ODYNOPHAGIA),
    ],
)
def test_misspelling(text: str, finding: Finding) -> None:
    assert finding in found(text)


@pytest.mark.parametrize("word", ["lounge", "stock", "breast", "father", "mother", "stack"])
def test_common_words_are_left_alone(word: str) -> None:
    assert language_of("en").speller.correct(word) == word


@pytest.mark.parametrize(
    ("text", "asked", "answer"),
    [
        ("taken", "dose", Answer.TAKEN),
        ("Taken 👍", "dose", Answer.TAKEN),
        ("done, thanks", "dose", Answer.TAKEN),
        ("yes", "dose", Answer.YES),
        ("not yet", "dose", Answer.NOT_TAKEN),
        ("in 20 min", "dose", Answer.LATER),
        ("no patches this week", "check_in:thrush", Answer.NO),
        ("no", "check_in:fever", Answer.NO),
        ("3 days", "how_long", Answer.NUMBER),
        ("7:30", "when_taken", Answer.CLOCK_TIME),
        ("took it at 8pm", "dose", Answer.TAKEN),
        ("ok", "", Answer.THANKS),
        ("got it", "understood", Answer.YES),
    ],
)
def test_closed_grammar(text: str, asked: str, answer: Answer) -> None:
    reading = read(text, asked=asked)
    assert reading.answer is answer and not reading.needs_human and reading.urgency is Urgency.NONE


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("taken but it hurts", "dose"),
        ("no patches but a sore", "check_in:thrush"),
        ("no i have patches", "check_in:thrush"),
        ("is it ok", ""),
        ("taken twice", "dose"),
        ("3 days and fever", "how_long"),
        ("ok?", ""),
        ("not good", ""),
        ("done with this medicine", "dose"),
        ("yes a few white ones", "check_in:thrush"),
        ("no pain only when i drink", "check_in:pain"),
        ("took it and threw up", "dose"),
        ("no", ""),
    ],
)
def test_what_the_grammar_leaves_to_a_person(text: str, asked: str) -> None:
    assert read(text, asked=asked).needs_human


def test_values_of_answers() -> None:
    assert read("3 days", asked="how_long").number == 3
    assert read("2 weeks", asked="how_long").number == 14
    assert read("in 20 min", asked="dose").number == 20
    assert read("in 2 hours", asked="dose").number == 120
    assert read("half past seven", asked="when_taken").clock_time == "07:30"
    assert read("took it at 8pm", asked="dose").clock_time == "20:00"


@pytest.mark.parametrize(
    ("text", "signal"),
    [
        ("i took it twice by mistake", "taken_twice"),
        ("my toddler drank my medicine", "child_took_it"),
        ("been around someone with measles", "exposure"),
    ],
)
def test_signals(text: str, signal: str) -> None:
    reading = read(text)
    assert signal in reading.extra and reading.urgency is Urgency.URGENT


@given(st.text(max_size=300))
@settings(max_examples=200, deadline=None)
def test_any_text_is_read_and_spans_are_inside(text: str) -> None:
    for language in ("en", "es"):
        reading = read(text, language=language)
        assert all(0 <= mention.start < mention.end <= len(text) for mention in reading.mentions)
        assert reading.needs_human or reading.answer is not None


EMERGENCIES = (
    "food is stuck and wont go down",
    "i vomited blood",
    "i cant breathe",
    "my lips are swelling",
    "chicken is stuck",
    "i passed out",
    "cant swallow my spit",
    "i want to die",
    "severe chest pain",
    "my poo is black",
)
BESIDE = (
    "no fever",
    "my wife has a cold",
    "i had thrush last year",
    "dose taken at 7",
    "thanks",
    "is hoarseness normal?",
    "what if i get a fever",
    "i had a fever last week, gone now",
    "all fine yesterday",
    "she is a nurse",
    "i used to choke a lot",
    "it was fine until lunch",
    "my mum says hi",
    "does it cause thrush",
    "i was in hospital years ago",
    "my husband is driving me",
)


@pytest.mark.parametrize("emergency", EMERGENCIES)
def test_an_emergency_stays_one_beside_anything(emergency: str) -> None:
    """Denial, past, another person, what-if and question end with their own clause, in either order and however
    joined."""
    for other in BESIDE:
        for text in (
            f"{emergency}. {other}",
            f"{other}. {emergency}",
            f"{emergency}, {other}",
            f"{other}, {emergency}",
            f"{other} but {emergency}",
            f"{other} and now {emergency}",
        ):
            assert read(text).urgency is Urgency.EMERGENCY, text


@pytest.mark.parametrize(
    "emergency",
    ["el pollo esta atorado", "vomite sangre", "no puedo respirar", "se me hinchan los labios", "me desmaye"],
)
def test_an_emergency_stays_one_in_spanish(emergency: str) -> None:
    for other in (
        "no tengo fiebre",
        "mi esposa tiene gripe",
        "tuve candidiasis el año pasado",
        "gracias",
        "es normal la ronquera?",
        "sin dolor",
        "y si me da fiebre",
        "estuve en el hospital hace años",
    ):
        for text in (
            f"{emergency}. {other}",
            f"{other}. {emergency}",
            f"{other}, {emergency}",
            f"{other} pero {emergency}",
        ):
            assert read(text, language="es").urgency is Urgency.EMERGENCY, text


@pytest.mark.parametrize(
    "text",
    [
        "i had the chicken and it got stuck then it moved and my throat hurts " * 60,
        "no fever, " * 400,
        "it wont go down " * 250,
    ],
)
def test_the_longest_message_is_read_in_bounded_time(text: str) -> None:
    begun = time.process_time()
    read(text[:4096])
    assert time.process_time() - begun < 1.0


def test_the_end_of_a_long_text_counts() -> None:
    assert read("no fever, no pain. " * 60 + "but the bread wont go down").urgency is Urgency.EMERGENCY


def test_import_is_quick_and_takes_nothing_heavy() -> None:
    code = (
        "import time; t = time.perf_counter(); import bot.understanding as u; u.read('ok');"
        "took = time.perf_counter() - t;"
        "import sys; print(took, int(bool({'numpy', 'sklearn', 'torch', 'socket'} & set(sys.modules))))"
    )
    took, heavy = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    ).stdout.split()
    assert float(took) < 1.0 and heavy == "0"


def test_read_command(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    import io

    from bot.cli import main

    monkeypatch.setattr(
        "sys.stdin", io.StringIO('{"id": 7, "text": "White patches on my tongue"}\n\n{"id": "b", "text": "taken"}\n')
    )
    assert main(["read"]) == 0
    first, second = (json.loads(line) for line in capsys.readouterr().out.splitlines())
    assert first == {
        "id": 7,
        "findings": ["thrush"],
        "urgency": "urgent",
        "needs_human": True,
        "evidence": first["evidence"],
    }
    assert [e["finding"] for e in first["evidence"]] == ["thrush"]
    assert (
        "White patches on my tongue"[first["evidence"][0]["start"] : first["evidence"][0]["end"]]
        .lower()
        .startswith("white")
    )
    assert second == {"id": "b", "findings": [], "urgency": "none", "needs_human": False, "evidence": []}


def test_read_command_names_a_bad_line(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    import io

    from bot.cli import main

    monkeypatch.setattr("sys.stdin", io.StringIO('{"id": 1, "text": "ok"}\n{"id": 2}\n'))
    assert main(["read"]) == 2
    assert "line 2" in capsys.readouterr().err

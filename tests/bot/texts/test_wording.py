"""What patients read: the same texts in every language, short, plain, exact, kind.

Grade level: Flesch-Kincaid, 0.39 * words/sentences + 11.8 * syllables/words - 15.59 (coefficients as printed by the US
VA research page, and others). Target: at or below sixth grade (AMA: 4th to 6th). One short text has no stable grade, so
the whole set is graded, and hard words are listed besides.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import cache

import pyphen
import pytest

from bot.texts.catalogue import CARE_FILES, catalogue, fill_in, languages, placeholders

NETWORKS_LIMIT = 4096   # characters of one message: Bot API, sendMessage
PHONE_SCREEN = 600      # common practice, no source

# Hard word -> what to say instead (common practice, no source; written for this set).
HARD_WORDS = {
    "administer": "give, take", "adverse": "bad", "approximately": "about", "candidiasis": "thrush",
    "commence": "start", "consult": "ask", "discontinue": "stop", "dysphagia": "trouble swallowing",
    "elevated": "high", "endoscopic": "with the scope", "esophagus": "food pipe", "oesophagus": "food pipe",
    "experience": "have", "facilitate": "help", "frequently": "often", "immediately": "right away",
    "impaction": "stuck food", "inform": "tell", "ingest": "swallow", "inhalation": "breathing in",
    "medication": "medicine", "notify": "tell", "obtain": "get", "odynophagia": "pain on swallowing",
    "oral": "by mouth", "persist": "go on", "physician": "doctor", "prior": "before", "regarding": "about",
    "regimen": "plan", "require": "need", "residual": "left-over", "severe": "bad, strong", "subsequent": "next",
    "sufficient": "enough", "symptom": "sign", "terminate": "stop", "utilize": "use", "nausea": "sick to the stomach",
    "adrenal": "the body's own steroid", "suspension": "medicine", "dosage": "dose", "nebule": "ampoule",
}
HARD_WORDS_ES = {
    "administrar": "dar, tomar", "candidiasis": "hongos", "disfagia": "dificultad al tragar", "ingerir": "tragar",
    "esófago": "el tubo de la comida", "inmediatamente": "ahora mismo", "suspender": "dejar", "fármaco": "medicina",
    "síntoma": "señal", "posterior": "después", "odinofagia": "dolor al tragar", "facultativo": "médico",
}
NEVER = {
    "en": (r"[Dd]on['’]?t worry", r"[Dd]o not worry", r"\d ?[AaPp][Mm]\b", r"\b[AP]M\b", r"[ap]\.m\.",
           r"\b[Yy]ou (?:failed|forgot)\b"),
    "es": (r"[Nn]o te preocupes", r"[Nn]o se preocupe", r"[Tt]ranquil[oa]", r"[ap]\. ?m\.", r"\bfallaste\b"),
}


def patient_texts(lang: str) -> dict[str, str]:
    return {key: text for key, text in catalogue(lang).items() if key.split(".")[0] not in CARE_FILES}


# Facts that are words themselves, as they are in real messages: short stand-ins would flatter the grade.
REAL = {"en": {"reads_when": "on working days from 9:00 to 17:00", "urgent_number": "the clinic's number on your card",
               "call_me": "Maya", "source": "leaflets of hospitals in two countries", "slot": "morning"},
        "es": {"reads_when": "en días de trabajo, de 9:00 a 17:00",
               "urgent_number": "número de la clínica en tu tarjeta", "call_me": "Maya",
               "source": "hojas de hospitales de dos países", "slot": "de la mañana"}}


def sample(text: str, lang: str) -> str:
    """The text filled with values of the right kind, for counting words."""
    facts: dict[str, object] = {**dict.fromkeys(placeholders(text), "2"), **REAL[lang]}
    for name, form in re.findall(r"\{([a-z_0-9]+):(clock|date|weekday|list|amount)\}", text):
        facts[name] = {"list": ["bread", "rice"], "amount": "0.5 mg"}.get(form, "2026-03-02T07:45")
    return fill_in(text, facts, lang)


def words_of(text: str) -> list[str]:
    return re.findall(r"[^\W_]+(?:['’][^\W\d_]+)*", text)


def sentences_of(text: str) -> int:
    return max(1, len([part for part in re.split(r"[.!?]+(?:\s|$)|\n+", text) if words_of(part)]))


@cache
def hyphenator(lang: str) -> pyphen.Pyphen:
    return pyphen.Pyphen(lang={"en": "en_US", "es": "es"}[lang])


def syllables(word: str, lang: str = "en") -> int:
    """The larger of pyphen's parts and the vowel groups: hyphenation makes no part of one letter, so it counts low."""
    parts = len(hyphenator(lang).positions(word)) + 1
    groups = len(re.findall(r"[aeiouyáéíóúü]+", word.lower()))
    if lang == "en" and re.search(r"[^aeiouyl]e$|[^aeiouytd]ed$", word.lower()) and groups > 1:
        groups -= 1                      # a silent e
    return max(parts, groups, 1)


def grade(words: int, sentences: int, parts: int) -> float:
    return 0.39 * words / sentences + 11.8 * parts / words - 15.59


def grade_of(texts: Iterable[str], lang: str = "en") -> float:
    found = list(texts)
    words = [word for text in found for word in words_of(text)]
    return grade(len(words), sum(sentences_of(text) for text in found), sum(syllables(word, lang) for word in words))


def prose(lang: str) -> dict[str, str]:
    """Texts with at least one whole sentence; labels of buttons would only flatter the grade."""
    filled = {key: sample(text, lang) for key, text in patient_texts(lang).items()}
    return {key: text for key, text in filled.items() if re.search(r"[.!?]", text) and len(words_of(text)) > 4}


def test_the_formula_gives_the_published_value_for_given_counts() -> None:
    # An encyclopaedia's example, from memory: 13 words, 1 sentence, 24 syllables have grade 11.3.
    assert grade(13, 1, 24) == pytest.approx(11.3, abs=0.05)


@pytest.mark.parametrize(("word", "count"), [
    ("medicine", 3), ("about", 2), ("swallow", 2), ("rinse", 1), ("care", 1), ("emergency", 4), ("open", 2),
    ("ampoule", 2),
])
def test_syllables_are_not_counted_low(word: str, count: int) -> None:
    assert syllables(word) >= count
    assert syllables(word) <= count + 1


def test_the_whole_set_reads_at_or_below_sixth_grade() -> None:
    assert grade_of(prose("en").values()) <= 6.0


@pytest.mark.parametrize("file", sorted({key.split(".")[0] for key in patient_texts("en")}))
def test_each_file_reads_at_or_below_sixth_grade(file: str) -> None:
    texts = [text for key, text in prose("en").items() if key.startswith(f"{file}.")]
    assert not texts or grade_of(texts) <= 6.0


def test_no_long_text_is_harder_than_eighth_grade() -> None:
    hard = {key: round(grade_of([text]), 1) for key, text in prose("en").items()
            if len(words_of(text)) >= 30 and grade_of([text]) > 8}
    assert hard == {}


def test_spanish_reads_easily() -> None:
    """Szigriszt-Pazos perspicuity, 206.835 - 62.3 * syllables/words - words/sentences: 65 and more is 'quite easy'
    (Inflesz scale). Coefficients and scale from memory."""
    texts = list(prose("es").values())
    words = [word for text in texts for word in words_of(text)]
    ease = (206.835 - 62.3 * sum(syllables(word, "es") for word in words) / len(words)
            - len(words) / sum(sentences_of(text) for text in texts))
    assert ease >= 65


def test_every_language_has_the_same_texts() -> None:
    for lang in languages():
        assert set(patient_texts(lang)) == set(patient_texts("en")), lang


@pytest.mark.parametrize("lang", [lang for lang in languages() if lang != "en"])
def test_every_language_has_the_same_placeholders(lang: str) -> None:
    different = {key: placeholders(text) ^ placeholders(catalogue("en").get(key, ""))
                 for key, text in patient_texts(lang).items()}
    assert {key: names for key, names in different.items() if names} == {}


def test_what_a_parent_reads_needs_no_other_facts() -> None:
    """A variant for parents fills from the same message: its facts, and the child's name."""
    texts = catalogue("en")
    variants = {key: key.replace(".parent.", ".", 1) for key in texts if ".parent." in key}
    assert variants
    for key, base in variants.items():
        assert base in texts, key
        assert placeholders(texts[key]) <= placeholders(texts[base]) | {"call_me"}, key


def test_a_leaflet_in_clinical_words_fails_the_grade() -> None:
    """The measure tells plain from hard: a paragraph as leaflets print it is far above sixth grade."""
    hard = ("Following administration of the suspension, patients experiencing odynophagia or oropharyngeal "
            "candidiasis should immediately consult their prescribing physician regarding discontinuation.")
    assert grade_of([hard]) > 12


def _each(find: Callable[[str, str], object]) -> dict[str, object]:
    return {f"{lang}:{key}": found for lang in languages() for key, text in patient_texts(lang).items()
            if (found := find(text, lang))}


def test_nothing_is_longer_than_a_message_or_a_screen() -> None:
    assert _each(lambda text, lang: len(sample(text, lang)) > NETWORKS_LIMIT) == {}
    long = _each(lambda text, lang: len(sample(text, lang)) > PHONE_SCREEN)
    allowed = {f"{lang}:enrolment.{name}" for lang in languages()
               for name in ("consent", "parent.consent", "consent_again", "welcome")}
    assert set(long) <= allowed, long     # the first contact has to say all of it once


def test_amounts_cannot_be_misread() -> None:
    """No trailing zero, no naked decimal point, no 'ug', 'µg', 'mcg' (ISMP's list of error-prone abbreviations, from
    memory): the texts themselves, the amounts that fill them are printed by scheduler/amounts.py."""
    bad = re.compile(r"\d[.,]0+\b|(?<!\d)[.,]\d|\b[uµμ]g\b|\bmcg\b|\bcc\b", re.IGNORECASE)
    assert _each(lambda text, _: bad.findall(text)) == {}


def test_nothing_soothes_or_blames() -> None:
    assert _each(lambda text, lang: [p for p in NEVER[lang] if re.search(p, text)]) == {}


def test_hard_words_are_replaced() -> None:
    hard = {"en": HARD_WORDS, "es": HARD_WORDS_ES}

    def found(text: str, lang: str) -> list[str]:
        return [f"{word}: say {instead}" for word, instead in hard[lang].items()
                if re.search(rf"\b{word}(?:s|es|d|ed|ing)?\b", text, re.IGNORECASE)]

    assert _each(found) == {}


def test_every_text_can_be_filled_in() -> None:
    for lang in languages():
        for key, text in patient_texts(lang).items():
            assert sample(text, lang).strip(), key

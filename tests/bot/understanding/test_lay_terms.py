"""Layperson synonyms of the Human Phenotype Ontology (release 2025-01-16) for the findings here are all read as them.

The fixture names its source; where the full checklist is at hand the fixture is checked to be an unaltered part of
it. 'Tired' alone is a signal, not
yet a finding: a tired evening is no adrenal sign.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.understanding import read

ROOT = Path(__file__).resolve().parents[3]
FIXTURE = ROOT / "fixtures" / "replies" / "lay_terms.tsv"
CHECKLIST = ROOT.parent / "shared" / "data" / "lay_terms.tsv"
TERMS = [
    line.split("\t")
    for line in FIXTURE.read_text(encoding="utf-8").splitlines()
    if not line.startswith(("#", "finding\t"))
]


@pytest.mark.parametrize(("finding", "source", "term"), TERMS, ids=[term for _, _, term in TERMS])
def test_layperson_term_is_read(finding: str, source: str, term: str) -> None:
    reading = read(term)
    assert finding in {*map(str, reading.findings), *(f"+{signal}" for signal in reading.extra)}, source
    assert reading.needs_human


@pytest.mark.skipif(not CHECKLIST.exists(), reason="the checklist is not here")
def test_fixture_is_an_unaltered_part_of_the_ontology() -> None:
    known = {
        tuple(line.split("\t")[1:3])
        for line in CHECKLIST.read_text(encoding="utf-8").splitlines()
        if "layperson" in line
    }
    assert {(source, term) for _, source, term in TERMS} <= known
    assert len(TERMS) >= 45

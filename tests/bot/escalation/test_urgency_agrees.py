"""The rule table with an empty record and the reader's own tiers agree over all small combinations."""

from itertools import combinations

import pytest

from bot.escalation import urgency_of
from bot.understanding.types import Finding, Urgency
from bot.understanding.urgency import urgency_of as readers_urgency_of

SIGNALS = ("vomiting", "keeps_vomiting", "collapse", "airway_swelling", "severe", "taken_twice", "child_took_it",
           "exposure", "surgery", "marked_dysphagia", "tired", "sore_throat", "heartburn")
ALL: tuple[tuple[Finding | None, str], ...] = (
    *((finding, "") for finding in Finding), *((None, one) for one in SIGNALS))


@pytest.mark.parametrize("size", [0, 1, 2])
def test_same_tier_for_every_combination(size: int) -> None:
    different = []
    for chosen in combinations(ALL, size):
        findings = [finding for finding, _ in chosen if finding is not None]
        extra = [signal for _, signal in chosen if signal]
        if urgency_of(findings, extra) is not readers_urgency_of(findings, extra):
            different.append((findings, extra, urgency_of(findings, extra), readers_urgency_of(findings, extra)))
    assert different == []


def test_more_signs_never_lower_the_tier() -> None:
    for (first, one), (second, two) in combinations(ALL, 2):
        alone = urgency_of([first] if first else [], [one] if one else [])
        both = urgency_of([f for f in (first, second) if f], [s for s in (one, two) if s])
        assert both >= alone


def test_nothing_found_is_no_tier() -> None:
    assert urgency_of([]) is Urgency.NONE

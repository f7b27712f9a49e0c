"""Tiers of findings in combination; and that the escalation rules give the same."""

from __future__ import annotations

from itertools import combinations

import pytest

from bot.escalation import match
from bot.understanding.types import Context, Finding, Mention, Urgency
from bot.understanding.urgency import urgency_of

F = Finding
SIGNALS = (
    "vomiting",
    "keeps_vomiting",
    "severe",
    "collapse",
    "airway_swelling",
    "taken_twice",
    "child_took_it",
    "exposure",
    "marked_dysphagia",
    "surgery",
    "tired",
    "sore_throat",
)


@pytest.mark.parametrize(
    ("findings", "extra", "tier"),
    [
        ({F.IMPACTION_NOW}, (), Urgency.EMERGENCY),
        ({F.BLEEDING}, (), Urgency.EMERGENCY),
        ({F.CHEST_PAIN}, (), Urgency.URGENT),
        ({F.CHEST_PAIN, F.FEVER}, (), Urgency.EMERGENCY),
        ({F.CHEST_PAIN}, ("severe",), Urgency.EMERGENCY),
        ({F.ADRENAL_SIGN}, (), Urgency.URGENT),
        ({F.ADRENAL_SIGN}, ("vomiting",), Urgency.EMERGENCY),
        ({F.ALLERGIC_REACTION}, (), Urgency.URGENT),
        ({F.ALLERGIC_REACTION}, ("airway_swelling",), Urgency.EMERGENCY),
        ({F.HOARSENESS}, (), Urgency.ROUTINE),
        (set(), ("taken_twice",), Urgency.URGENT),
        (set(), (), Urgency.NONE),
        ({F.WORSE_DYSPHAGIA}, (), Urgency.ROUTINE),
        ({F.WORSE_DYSPHAGIA}, ("marked_dysphagia",), Urgency.URGENT),
    ],
)
def test_tier(findings: set[Finding], extra: tuple[str, ...], tier: Urgency) -> None:
    assert urgency_of(findings, extra) is tier


def test_more_findings_never_lower_the_tier() -> None:
    for one, two in combinations(Finding, 2):
        assert urgency_of({one, two}) >= max(urgency_of({one}), urgency_of({two}))


def test_the_escalation_rules_give_the_same_tiers() -> None:
    for size in (0, 1, 2):
        for findings in combinations(Finding, size):
            for signals in [(), *((signal,) for signal in SIGNALS)]:
                assert urgency_of(findings, signals) is match.urgency_of(findings, signals), (findings, signals)


def test_a_mention_that_does_not_stand_is_routine_and_a_denied_one_nothing() -> None:
    def tier(finding: Finding, *context: Context, extra: tuple[str, ...] = ()) -> Urgency:
        return urgency_of((), extra, [Mention(finding, 0, 1, frozenset(context))])

    assert tier(F.THRUSH, Context.DENIED) is Urgency.NONE
    assert tier(F.BLEEDING, Context.OTHER_PERSON) is Urgency.ROUTINE
    assert tier(F.IMPACTION_NOW, Context.SUPPOSED) is Urgency.ROUTINE
    assert tier(F.CHEST_PAIN, Context.PAST) is Urgency.URGENT
    assert tier(F.CHEST_PAIN, Context.PAST, extra=("long_ago",)) is Urgency.ROUTINE

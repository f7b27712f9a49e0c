"""Each escalation rule has a scenario of its own that raises it, under fixtures/scenarios/rules/."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.escalation.rules import RULES, Rule
from bot.rehearsal.scenario import load_scenario

FOLDER = Path(__file__).parents[2] / "fixtures" / "scenarios" / "rules"


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rule_has_its_scenario(rule: Rule) -> None:
    scenario = load_scenario(FOLDER / f"{rule.id}.toml")
    expected = [flag.split() for turn in scenario.turns for flag in turn.checks.get("flags", ())]
    assert any(rule.id in words for words in expected)


def test_no_scenario_without_its_rule() -> None:
    assert {path.stem for path in FOLDER.glob("*.toml")} == {rule.id for rule in RULES}

"""Every scenario file leads to what it says, twice the same."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.rehearsal.play import play
from bot.rehearsal.printed import as_text
from bot.rehearsal.scenario import load_scenario
from scheduler.errors import WrongInput
from scheduler.protocol import load_protocol

FOLDER = Path(__file__).parents[2] / "fixtures" / "scenarios"
FILES = sorted(FOLDER.glob("**/*.toml"))


def test_there_are_at_least_ten() -> None:
    assert len(FILES) >= 10


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
async def test_scenario(path: Path) -> None:
    played = await play(load_scenario(path), load_protocol())
    assert not played.failures, "\n".join(played.failures)
    assert played.lines


async def test_a_rehearsal_is_deterministic() -> None:
    scenario = load_scenario(FOLDER / "thrush_week_5.toml")
    first, second = await play(scenario, load_protocol()), await play(scenario, load_protocol())
    assert list(as_text(first.lines, "America/Denver")) == list(as_text(second.lines, "America/Denver"))


async def test_a_wrong_expectation_fails(tmp_path: Path) -> None:
    text = (FOLDER / "an_ordinary_day.toml").read_text().replace("until 08:17", "until 08:18").replace(
        "../plans", str(FOLDER.parent / "plans"))
    (tmp_path / "wrong.toml").write_text(text)
    played = await play(load_scenario(tmp_path / "wrong.toml"), load_protocol())
    assert any("until 08:18" in failure and "until 08:17" in failure for failure in played.failures)


def test_a_broken_scenario_says_where(tmp_path: Path) -> None:
    path = tmp_path / "broken.toml"
    path.write_text('title = "x"\nplan = "y"\nstart = 2026-01-01\nend = 2026-01-02T00:00:00\n[[turn]]\npatiant = "z"\n')
    with pytest.raises(WrongInput) as caught:
        load_scenario(path)
    assert "start: must be a local date and time" in str(caught.value)
    assert "turn 1: 'patiant' is not known" in str(caught.value)

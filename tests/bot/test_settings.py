"""Settings from the environment: what they are without it, and a clear error that never shows a value."""

from __future__ import annotations

import pytest

from bot.chat.pacing import Limits
from bot.errors import WrongSettings
from bot.settings import load_settings


def test_the_pace_is_the_networks_own_unless_it_is_set(monkeypatch: pytest.MonkeyPatch) -> None:
    """30 a second, 1 a second in a chat, 20 a minute in a group: the network's bot FAQ, 'My bot is hitting limits'."""
    assert load_settings().limits() == Limits(30, 1.0, group_per_minute=20, overall_reserve=2, group_reserve=5)
    monkeypatch.setenv("COATWELL_PACE_PER_SECOND", "300")
    monkeypatch.setenv("COATWELL_PACE_CHAT_SECONDS", "0.2")
    monkeypatch.setenv("COATWELL_PACE_GROUP_PER_MINUTE", "60")
    assert load_settings().limits() == Limits(300, 0.2, group_per_minute=60, overall_reserve=20, group_reserve=15)


@pytest.mark.parametrize("value", ["0", "-3", "many", "1e9"])
def test_a_pace_that_cannot_be_kept_is_named_and_its_value_is_not_shown(
        monkeypatch: pytest.MonkeyPatch, value: str) -> None:
    monkeypatch.setenv("COATWELL_PACE_PER_SECOND", value)
    with pytest.raises(WrongSettings, match="COATWELL_PACE_PER_SECOND") as refused:
        load_settings()
    assert f"'{value}'" not in str(refused.value)

"""Pacing with plain numbers. Figures: the network's bot FAQ (1 a second a chat, 20 a minute a group, 30 a second)."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.chat.pacing import Limits, Pacing, with_reserve


def test_a_chat_that_was_quiet_gets_three_at_once_then_one_a_second() -> None:
    pacing = Pacing()
    for _ in range(3):
        assert pacing.delay("maya", False, 100.0) == 0.0
        pacing.note_sent("maya", False, 100.0)
    assert pacing.delay("maya", False, 100.0) == 1.0
    assert pacing.delay("maya", False, 100.6) == pytest.approx(0.4)
    assert pacing.delay("maya", False, 101.0) == 0.0
    pacing.note_sent("maya", False, 101.0)
    assert pacing.delay("maya", False, 101.0) == 1.0
    # Quiet for long enough, the burst is whole again.
    for _ in range(3):
        assert pacing.delay("maya", False, 110.0) == 0.0
        pacing.note_sent("maya", False, 110.0)
    assert pacing.delay("maya", False, 110.0) == 1.0


def test_one_slow_chat_holds_up_no_other() -> None:
    pacing = Pacing()
    for _ in range(3):
        pacing.note_sent("maya", False, 100.0)
    pacing.note_busy("tom", 30.0, 100.0)
    assert pacing.delay("ann", False, 100.0) == 0.0


def test_overall_thirty_in_any_second() -> None:
    pacing = Pacing()
    for number in range(30):
        assert pacing.delay(f"p{number}", False, 100.0) == 0.0
        pacing.note_sent(f"p{number}", False, 100.0)
    assert pacing.overall_delay(100.0) == 1.0
    assert pacing.delay("another", False, 100.25) == 0.75
    assert pacing.delay("another", False, 101.0) == 0.0


def test_a_group_gets_twenty_in_any_minute() -> None:
    pacing = Pacing()
    for second in range(20):
        assert pacing.delay("care", True, 100.0 + second) == 0.0
        pacing.note_sent("care", True, 100.0 + second)
    assert pacing.delay("care", True, 120.0) == 40.0
    assert pacing.delay("care", True, 160.0) == 0.0
    pacing.note_sent("care", True, 160.0)
    assert pacing.delay("care", True, 160.0) == 1.0
    # A private chat with as many is not held.
    private = Pacing()
    for second in range(20):
        private.note_sent("maya", False, 100.0 + second)
    assert private.delay("maya", False, 120.0) == 0.0


def test_asked_to_wait_counts_for_that_chat_and_a_shorter_wait_never_cuts_it() -> None:
    pacing = Pacing()
    pacing.note_busy("maya", 17.0, 100.0)
    assert pacing.delay("maya", False, 100.0) == 17.0
    pacing.note_busy("maya", 2.0, 101.0)
    assert pacing.delay("maya", False, 101.0) == 16.0
    assert pacing.delay("maya", False, 117.0) == 0.0


def test_a_moved_group_keeps_what_it_was_sent() -> None:
    pacing = Pacing()
    for second in range(20):
        pacing.note_sent("-5", True, 100.0 + second)
    pacing.note_busy("-5", 50.0, 119.0)
    pacing.note_moved("-5", "-1005")
    assert pacing.delay("-1005", True, 120.0) == 49.0
    assert pacing.delay("-5", True, 120.0) == 0.0


def test_limits_can_be_set() -> None:
    pacing = Pacing(Limits(overall_per_second=2, chat_interval=0.5, chat_burst=1, group_per_minute=3))
    pacing.note_sent("maya", False, 10.0)
    assert pacing.delay("maya", False, 10.0) == 0.5
    pacing.note_sent("tom", False, 10.0)
    assert pacing.delay("ann", False, 10.0) == 1.0


def test_a_part_of_any_limits_is_kept_for_what_is_urgent() -> None:
    assert with_reserve(Limits()) == Limits(overall_reserve=2, group_reserve=5)
    fast = with_reserve(Limits(600, 0.1, group_per_minute=60))
    assert (fast.overall_reserve, fast.group_reserve) == (40, 15)
    assert with_reserve(Limits(1, group_per_minute=1)) == Limits(1, group_per_minute=1)


def test_memory_holds_recent_chats_not_all() -> None:
    pacing = Pacing()
    now = 0.0
    for number in range(20_000):
        now += 1 / 30
        pacing.note_sent(f"p{number}", False, now)
    assert pacing.remembered < 100


Sends = st.lists(st.tuples(st.integers(0, 5), st.floats(0, 0.4)), max_size=120)


@settings(deadline=None)
@given(Sends)
def test_who_waits_as_told_never_passes_a_limit(sends: list[tuple[int, float]]) -> None:
    """Any order of sends: never over 30 in a second, 20 in a minute in a group, 3 + elapsed seconds in one chat."""
    pacing, now = Pacing(), 1000.0
    log: list[tuple[str, float]] = []
    for who, gap in sends:
        address, is_group = f"chat{who}", who == 0
        now += gap
        now += pacing.delay(address, is_group, now)
        while (left := pacing.delay(address, is_group, now)) > 0:  # the last bit of a rounding error
            now += left + 1e-9
        pacing.note_sent(address, is_group, now)
        log.append((address, now))
    for _, start in log:
        assert sum(1 for _, at in log if start <= at < start + 1.0 - 1e-6) <= 30
        assert sum(1 for address, at in log if address == "chat0" and start <= at < start + 60 - 1e-6) <= 20
        for name in {address for address, _ in log}:
            assert sum(1 for address, at in log if address == name and start <= at < start + 1.0 - 1e-6) <= 4


def test_a_part_is_kept_for_what_is_urgent() -> None:
    pacing = Pacing(Limits(overall_per_second=10, overall_reserve=2, group_per_minute=5, group_reserve=2))
    for n in range(8):
        assert pacing.delay(f"c{n}", False, 0.0) == 0.0
        pacing.note_sent(f"c{n}", False, 0.0)
    assert pacing.room(0.0) == 0
    assert pacing.delay("another", False, 0.1) == pytest.approx(0.9)
    assert pacing.delay("another", False, 0.1, urgent=True) == 0.0


def test_a_groups_reserve_is_for_what_is_urgent() -> None:
    pacing = Pacing(Limits(group_per_minute=5, group_reserve=2, chat_interval=0.0))
    for n in range(3):
        pacing.note_sent("-1", True, float(n))
    assert pacing.delay("-1", True, 10.0) == pytest.approx(50.0)
    assert pacing.delay("-1", True, 10.0, urgent=True) == 0.0
    for n in range(2):
        pacing.note_sent("-1", True, 20.0 + n)
    assert pacing.delay("-1", True, 30.0, urgent=True) == pytest.approx(30.0), "the network's own limit holds"


def test_processes_share_the_pace() -> None:
    pacing = Pacing(Limits(overall_per_second=30, overall_reserve=1))
    pacing.share_with(3)
    for n in range(9):
        pacing.note_sent(f"c{n}", False, 0.0)
    assert pacing.room(0.0) == 0 and pacing.delay("x", False, 0.5, urgent=True) == 0.0
    pacing.share_with(1)
    assert pacing.room(0.0) == 20

"""Common questions that were answered without a person stay in sight: the digest counts them."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import Any

import pytest

Make = Callable[[], Awaitable[Any]]


@pytest.mark.parametrize("clinic", ["memory", "sqlite"], indirect=True)
async def test_the_next_digest_counts_them_once(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "does it need the fridge?")
    await world.says("KT-014", "can I drink coffee before it")
    assert not (await world.case()).open_flags
    await world.wait(hours=2, minutes=5)                 # past the morning's digest
    digests = [text for text in world.care_shows() if "TO DO" in text]
    assert len(digests) == 1 and "nothing open\n2 common questions answered" in digests[0]
    await world.says("KT-014", "my voice is hoarse")
    await world.wait(days=1)
    digests = [text for text in world.care_shows() if "TO DO" in text]
    assert len(digests) > 1 and "common question" not in digests[-1]


async def test_a_count_stands_beside_what_is_open_and_a_tap_brings_the_words(clinic: Make) -> None:
    world = await clinic()
    await world.says("KT-014", "does it need the fridge?")
    await world.taps("KT-014", "Ask the care team")
    await world.wait(hours=2, minutes=5)
    digest = next(text for text in world.care_shows() if "TO DO" in text)
    assert "1 common question answered" in digest and "“does it need the fridge?”" in digest

"""The network's own limits, enforced by the stand-in with 429: kept without being told, and an emergency never queues.

Limits: the network's bot FAQ, 'My bot is hitting limits': about 30 messages a second, 20 a minute in a group."""

from __future__ import annotations

import asyncio

from botapi import BotApi
from botapi_faults import Pace
from faulty import CARE, EMERGENCY, TestClock, join, morning, put, serving, texts, until, window_end

START = morning(12, 0)
WAITING = 150
A_SECOND = 30                # messages that the network takes: fewer than these leave before an emergency's answer


async def test_at_the_peak_an_emergency_leaves_at_once_and_limits_are_kept(bot_api: BotApi, database_url: str) -> None:
    users = [bot_api.user(2000 + n) for n in range(WAITING)]
    maya = bot_api.user(1001, "Maya")
    bot_api.pace = Pace()
    async with serving(bot_api, database_url, TestClock(START)) as service:
        await join(service, maya)
        for n, user in enumerate(users):
            await join(service, user, f"PK-{n:03}")
        await put(service, *(window_end("a", START, f"PK-{n:03}") for n in range(WAITING)))
        await asyncio.sleep(1.2)
        asked = len(bot_api.calls("sendMessage"))
        maya.text(EMERGENCY)
        await bot_api.wait_for(maya, "911", 10)
        await bot_api.wait_for(CARE, "im drooling", 10)
        passed = len(bot_api.calls("sendMessage")) - asked
        assert passed < A_SECOND, f"{passed} messages left before the answer and the flag"
        assert sum(bool(texts(bot_api, user, "You can eat")) for user in users) < WAITING, "not the peak any more"
        await until(lambda: all(texts(bot_api, user, "You can eat") for user in users), 30)
    assert bot_api.pace.refused <= WAITING // 20, "the network had to say 'too many'"

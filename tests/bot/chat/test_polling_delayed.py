"""A tap carries no time of its own: what the network had ready after we were silent is marked, what comes live is not.

Source: the Bot API reference, object CallbackQuery, has no date. Two minutes: common practice, no source.
"""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from contextlib import suppress
from datetime import UTC, datetime, timedelta

from bot.chat.polling import Patience, Poller
from bot.chat.types import ChatUnreachable, Incoming

START = datetime(2026, 3, 2, 14, 10, tzinfo=UTC)
Round = tuple[int, int, int | None]     # seconds before the question, seconds until the answer, number of the update


def tap(number: int) -> dict[str, object]:
    chat = {"id": 1001, "type": "private"}
    return {"update_id": number, "callback_query": {
        "id": str(number), "from": {"id": 1001, "first_name": "Maya"}, "data": "d:v1:d:20260302:0:now",
        "message": {"message_id": 7, "date": 1772460000, "chat": chat}}}


class Network:
    """Answers question by question; time passes as each round says. An update number -1 is a failed question."""

    def __init__(self, rounds: Sequence[Round]) -> None:
        self.rounds, self.now = list(rounds), START
        self.done = asyncio.Event()

    async def updates(self, after: int | None, wait_seconds: int) -> Sequence[object]:  # noqa: ARG002
        if not self.rounds:
            self.done.set()
            await asyncio.sleep(3600)
        _, answer, number = self.rounds.pop(0)
        self.now += timedelta(seconds=answer)
        upcoming = self.rounds[0][0] if self.rounds else 0
        if number == -1:
            self.now += timedelta(seconds=upcoming)
            raise ChatUnreachable("no route")
        self.waits = upcoming
        return [tap(number)] if number is not None else []


async def delayed(*rounds: Round) -> dict[str, bool]:
    """Which stored updates are marked, by number."""
    network, kept = Network(rounds), dict[str, bool]()

    async def store(updates: list[Incoming]) -> None:
        kept.update({update.id: update.delayed for update in updates})
        network.now += timedelta(seconds=network.waits)

    poller = Poller(network, store, lambda: network.now, patience=Patience(wait=50, first_pause=0, longest_pause=0),
                    on_trouble=lambda _error, _pause: None)
    running = asyncio.create_task(poller.run())
    await asyncio.wait_for(network.done.wait(), 5)
    running.cancel()
    with suppress(asyncio.CancelledError):
        await running
    return kept


async def test_what_waited_while_we_were_away_is_marked() -> None:
    assert await delayed((0, 0, 1), (0, 0, 2), (0, 50, None), (0, 0, 3)) == {"1": True, "2": True, "3": False}


async def test_what_comes_while_we_wait_is_not() -> None:
    assert await delayed((0, 20, 1), (0, 0, 2)) == {"1": False, "2": False}


async def test_after_an_outage_the_first_answer_is_marked() -> None:
    rounds: list[Round] = [(0, 50, None), *[(60, 1, -1)] * 4, (0, 0, 5), (0, 40, 6)]
    assert await delayed(*rounds) == {"5": True, "6": False}


async def test_a_short_hiccup_marks_nothing() -> None:
    assert await delayed((0, 50, None), (0, 1, -1), (20, 0, 5)) == {"5": False}

"""The trial in a terminal, typed at by a newcomer."""

from __future__ import annotations

import argparse
import io
from collections.abc import Iterator

import pytest
from rich.console import Console

from bot.commands import try_
from bot.errors import WrongSettings
from bot.rehearsal.terminal import Terminal
from bot.storage.opening import open_store
from scheduler.protocol import load_protocol


def arguments(*words: str) -> argparse.Namespace:
    parser = argparse.ArgumentParser()
    try_.add_arguments(parser)
    return parser.parse_args(words)


async def session(*typed: str, words: tuple[str, ...] = ("--terminal",)) -> str:
    """What the terminal shows when these lines are typed."""
    world, plans, store = await try_.prepare(arguments(*words))
    out = io.StringIO()
    lines: Iterator[str] = iter([f"{line}\n" for line in typed])
    try:
        codes = await try_.begin(world, plans)
        terminal = Terminal(world, list(codes), Console(file=out, width=100), lambda: next(lines, ""), echo=True)
        for reference, code in codes.items():
            await world.opens_invite(reference, code)
        await terminal.run()
    finally:
        await store.close()
    return out.getvalue()


async def test_the_main_job_in_a_few_keys() -> None:
    shown = await session("1", "next", "1", "white patches on my tongue", "a", "next", "quit")
    for words in ("Do you agree?", "time for your morning dose (07:45): 1 mg", "2 ampoules", "10 packets",
                  "Nothing to eat or drink until 08:15", "URGENT · KT-014", "“white patches on my tongue”",
                  "Taken by Nurse Adeyemi", "You can eat and drink now"):
        assert words in shown, shown


async def test_time_passes_only_when_told() -> None:
    shown = await session("1", "wait 2 h", "at 07:50", "help", "quit")
    assert "Tue 03 Mar 2026 07:50" in shown
    assert "is still open" in shown


async def test_the_nurse_writes_and_the_patient_reads() -> None:
    shown = await session("1", "next", "my tongue has white spots", "b", "care Please come at ten", "a", "quit")
    assert "From the care team" in shown
    assert shown.count("Please come at ten") >= 2


async def test_an_unreadable_start_says_how() -> None:
    with pytest.raises(WrongSettings, match="2026-03-02 07:40"):
        await try_.prepare(arguments("--terminal", "--start", "tomorrow"))


async def test_a_database_that_has_served_is_refused(tmp_path: object) -> None:
    url = f"sqlite:///{tmp_path}/real.db"
    store = await open_store(url, load_protocol())
    await store.mark_served()
    await store.close()
    with pytest.raises(WrongSettings, match="real patients"):
        await try_.prepare(arguments("--terminal", "--database", url))

"""The trial in a terminal, typed at by a newcomer."""

from __future__ import annotations

import argparse
import io
from collections.abc import Iterator
from pathlib import Path

import pytest
from rich.console import Console

from bot.commands import try_
from bot.errors import BadUse, WrongSettings
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


PLANS = Path(__file__).parents[3] / "fixtures" / "plans" / "ok"
TWO = ("--terminal", "--plan", str(PLANS / "kt-014.toml"), "--plan", str(PLANS / "fl-207.toml"))


async def test_buttons_belong_to_the_phone_they_were_shown_on() -> None:
    """With two patients a number means a button of the one who is typed for; one that has gone gets a sentence."""
    shown = await session("1", "who", "1", "who", "1", "7", "quit", words=TWO)
    assert shown.count("  [I agree]") == 3 and "Jonas's first dose comes on" in shown
    assert "KT-014 phone  Maya" in shown.split("> 7")[1], "7 is no button of Maya's: it is words"


async def test_a_button_that_has_gone_gets_a_sentence() -> None:
    shown = await session("1", "white patches on my tongue", "care /ask KT-014", "a", "1", "1", "1", "quit")
    assert shown.count("Button 1 has gone") == 2 and shown.count("[Well, all week]") == 1


async def test_letters_tap_in_the_care_chat_that_was_shown_last() -> None:
    """A flag that nobody takes comes to the on-call chat too: its letter there taps there."""
    shown = await session("1", "next", "food stuck cant swallow", "wait 25 min", "a", "quit")
    assert "on call" in shown and "Taken by" in shown


async def test_too_far_and_no_number() -> None:
    shown = await session("1", "wait 999999999999 d", "wait 0 min", "quit")
    assert "That is too far" in shown and shown.rstrip().count("2026") > 1


async def test_an_unreadable_start_says_how() -> None:
    for start in ("tomorrow", "9999-12-31 23:59", "0001-01-01 00:00", "2026-02-30 10:00"):
        with pytest.raises(BadUse, match="--start"):
            await try_.prepare(arguments("--terminal", "--start", start))


async def test_a_plan_named_twice_or_that_is_not_there(tmp_path: Path) -> None:
    for one in (("--plan", str(PLANS / "kt-014.toml")) * 2, ("--plan", str(tmp_path)), ("--plan", "nope.toml")):
        with pytest.raises(BadUse, match="plan"):
            await try_.prepare(arguments("--terminal", *one))


async def test_a_database_that_has_served_is_refused(tmp_path: object) -> None:
    url = f"sqlite:///{tmp_path}/real.db"
    store = await open_store(url, load_protocol())
    await store.mark_served()
    await store.close()
    with pytest.raises(WrongSettings, match="real patients"):
        await try_.prepare(arguments("--terminal", "--database", url))

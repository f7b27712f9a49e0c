"""What a dose reminder tells of the inhaler: the first canister, a rest, a new canister, told again; who reads."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest

from bot.texts.render import preparation, render
from scheduler.canister import Priming
from scheduler.messages import Message, To

DOSE: dict[str, Any] = {"puffs": 4, "units": 4, "unit": "puff", "form": "inhaler", "call_me": "Ivo"}


def lines(lang: str, priming: Priming | None, **facts: Any) -> list[str]:
    told = priming.as_facts() if priming else {}
    return preparation(lang, {**DOSE, **told, **facts}).split("\n")


@pytest.mark.parametrize(("lang", "times"), [("en", "Do this 4 times."), ("es", "Hazlo 4 veces.")])
def test_the_first_canister_is_only_primed(lang: str, times: str) -> None:
    first, *rest = lines(lang, Priming(4, 1))
    assert times in first
    assert rest == lines(lang, None) == lines(lang, Priming())


@pytest.mark.parametrize(("lang", "once"), [("en", "Do this 1 time."), ("es", "Hazlo 1 vez.")])
def test_a_rested_canister_is_no_new_one(lang: str, once: str) -> None:
    found = lines(lang, Priming(1))
    assert once in found[0] and found[1:] == lines(lang, None)


@pytest.mark.parametrize(("lang", "unless"), [("en", "If this was not done yet"), ("es", "Si aún no lo hiciste")])
def test_what_was_never_answered_may_be_done_already(lang: str, unless: str) -> None:
    for priming in (Priming(4, 1, True), Priming(1, None, True)):
        assert lines(lang, priming)[0].startswith(unless)


@pytest.mark.parametrize("repeated", [False, True])
@pytest.mark.parametrize("writer", ["patient", "parent"])
@pytest.mark.parametrize(("lang", "counter", "away", "times"), [
    ("en", "counter", "throw the old one away, even if it still sprays", "Do this 4 times."),
    ("es", "contador", "tíralo, aunque todavía dispare", "Hazlo 4 veces."),
])
def test_a_new_canister(lang: str, counter: str, away: str, times: str, writer: str, repeated: bool) -> None:
    """US inhaler label: discard when the counter shows 000, although the canister may still spray."""
    first, second, *rest = lines(lang, Priming(4, 2, repeated), writer=writer)
    assert counter in first and away in first and " 4" in first
    assert times in second and ("new one" in second if lang == "en" else "nuevo" in second)
    assert rest == lines(lang, None, writer=writer)
    assert ("Ivo" in first) == (writer == "parent")
    assert (first, second) != tuple(lines(lang, Priming(4, 2, not repeated), writer=writer)[:2])


@pytest.mark.parametrize("lang", ["en", "es"])
def test_a_message_about_a_new_dose_does_not_say_to_spray_each_time(lang: str) -> None:
    """It shows how each dose is taken from now on; the sprays belong to one dose, whose reminder tells them."""
    one = {**DOSE, **Priming(4, 2).as_facts(), "amount": "880 microgram", "clock": "07:45"}
    facts = {"lang": lang, "call_me": "Ivo", "occasion": "v1:s:20260302", "doses": [one, {**one, "clock": "21:30"}]}
    shown = render(Message("x", To.PATIENT, "step_tomorrow", datetime(2026, 3, 1, tzinfo=UTC), facts=facts)).text
    primed = lines(lang, Priming(4, 2))
    assert primed[0] not in shown and primed[1] not in shown
    assert all(line in shown for line in lines(lang, None))

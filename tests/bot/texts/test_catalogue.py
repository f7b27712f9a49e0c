"""How a text is found and filled in."""

from __future__ import annotations

from datetime import UTC, date, datetime, time
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest

from bot.texts.catalogue import (
    WrongText,
    catalogue,
    fill_in,
    has,
    language_of,
    languages,
    placeholders,
    say,
    template,
)


@pytest.mark.parametrize(("text", "facts", "shown"), [
    ("Hello {call_me}.", {"call_me": "Maya"}, "Hello Maya."),
    ("{n ampoule|ampoules}", {"n": 1}, "1 ampoule"),
    ("{n ampoule|ampoules}", {"n": 2}, "2 ampoules"),
    ("{n packet|packets}", {"n": Decimal("10.0")}, "10 packets"),
    ("{n packet|packets}", {"n": "1"}, "1 packet"),
    ("{n:is|are} {n left|left}", {"n": 0}, "are 0 left"),
    ("{x} mL", {"x": 0.5}, "0.5 mL"),
    ("{x} mL", {"x": Decimal("8.00")}, "8 mL"),
    ("{x} mL", {"x": Decimal("100")}, "100 mL"),
    ("{at:clock}", {"at": "07:45"}, "07:45"),
    ("{at:clock}", {"at": time(18, 5)}, "18:05"),
    ("{at:clock}", {"at": "2026-03-02T08:47:00"}, "08:47"),
    ("{day:date}", {"day": "2026-03-02"}, "Monday 2 March"),
    ("{day:date}", {"day": date(2026, 11, 25)}, "Wednesday 25 November"),
    ("{day:weekday}", {"day": "2026-03-02"}, "Monday"),
    ("{f:list}", {"f": ["bread"]}, "bread"),
    ("{f:list}", {"f": ["bread", "meat", "rice"]}, "bread, meat and rice"),
    ("{{{n} %}}", {"n": 3}, "{3 %}"),
    ("{a:amount}", {"a": "0.5 mg"}, "0.5 mg"),
    ("{a:amount}", {"a": "1.0 mg"}, "1 mg"),
    ("{a:amount}", {"a": "880 microgram"}, "880 micrograms"),
])
def test_fill_in(text: str, facts: dict[str, object], shown: str) -> None:
    assert fill_in(text, facts) == shown


def test_spanish_forms() -> None:
    assert fill_in("{d:date}", {"d": "2026-03-02"}, "es") == "lunes 2 de marzo"
    assert fill_in("{a:amount}", {"a": "880 microgram"}, "es") == "880 microgramos"
    assert fill_in("{n ampolla|ampollas}", {"n": 1}, "es") == "1 ampolla"
    assert fill_in("{f:list}", {"f": ["pan", "carne"]}, "es") == "pan y carne"
    assert fill_in("{f:list}", {"f": ["pan", "higos"]}, "es") == "pan e higos"
    assert fill_in("{f:list}", {"f": ["agua", "hielo"]}, "es") == "agua y hielo"


def test_an_instant_is_shown_in_the_patients_zone() -> None:
    instant = "2026-03-02T14:47:00+00:00"
    assert fill_in("{u:clock}", {"u": instant, "zone": "America/Denver"}) == "07:47"
    assert fill_in("{u:date}", {"u": "2026-03-02T03:00:00+00:00", "zone": "America/Denver"}) == "Sunday 1 March"
    local = datetime(2026, 7, 1, 7, 45, tzinfo=ZoneInfo("Europe/Madrid"))
    assert fill_in("{u:clock}", {"u": local}) == "07:45"


@pytest.mark.parametrize("fact", ["2026-03-02T14:47:00+00:00", datetime(2026, 3, 2, 14, 47, tzinfo=UTC)])
def test_an_instant_without_a_zone_is_refused(fact: object) -> None:
    with pytest.raises(WrongText, match=r"doses\.due.*\{u:clock\}.*zone"):
        fill_in("{u:clock}", {"u": fact}, "en", "doses.due")


@pytest.mark.parametrize(("text", "facts", "named"), [
    ("Hello {call_me}.", {}, "call_me"),
    ("Hello {call_me}.", {"call_me": None}, "call_me"),
    ("{n ampoule|ampoules}", {"n": "some"}, "n ampoule"),
    ("{n ampoule|ampoules}", {"n": True}, "n ampoule"),
    ("{n ampoule}", {"n": 2}, "both forms"),
    ("{at:o'clock}", {"at": "07:45"}, "no format"),
    ("{at:clock}", {"at": "soon"}, "at:clock"),
    ("{f:list}", {"f": []}, "empty"),
    ("{Big}", {"Big": 1}, "Big"),
    ("a } b", {}, "lone"),
    ("a { b", {}, "lone"),
    ("{x}", {"x": ["a"]}, "x"),
    ("{a:amount}", {"a": "2"}, "no amount"),
    ("{a:amount}", {"a": "880 mcg"}, "no amount"),
])
def test_a_hole_is_an_error_that_names_key_and_placeholder(text: str, facts: dict[str, object], named: str) -> None:
    with pytest.raises(WrongText) as caught:
        fill_in(text, facts, "en", "doses.due")
    assert "doses.due" in str(caught.value)
    assert named in str(caught.value)


def test_placeholders() -> None:
    assert placeholders("{a} {{b}} {c one|many} {d:clock} {e:x|y}") == {"a", "c", "d", "e"}


def test_languages_fall_back_to_english() -> None:
    assert languages()[0] == "en"
    assert language_of("es-MX") == "es"
    assert language_of("ES_mx") == "es"
    assert language_of("fr") == "en"
    assert say("fr", "check_in.back", {}) == say("en", "check_in.back", {}) != say("es", "check_in.back", {})


def test_an_unknown_key_says_where_to_add_it() -> None:
    assert not has("doses.nonsense")
    with pytest.raises(WrongText, match=r"doses\.nonsense.*bot/texts/en/doses\.toml"):
        say("en", "doses.nonsense", {})


def test_texts_come_from_files_by_name() -> None:
    assert catalogue("en")["check_in.back"] == template("en", "check_in.back")
    assert catalogue("xx") == {}

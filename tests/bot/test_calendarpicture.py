"""The calendar for the fridge shows what is certain, and says what comes after."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from bot.calendarpicture import shown_days, write_calendar
from bot.errors import TroubleOutside
from scheduler.plan import Plan
from scheduler.planfile import read_plan
from scheduler.protocol import ClinicProtocol, load_protocol
from scheduler.record import Entry, EntryKind, Record

OK = Path(__file__).parents[2] / "fixtures" / "plans" / "ok"


@pytest.fixture(scope="module")
def protocol() -> ClinicProtocol:
    return load_protocol()


def plan(name: str, protocol: ClinicProtocol, *changes: tuple[str, str]) -> Plan:
    text = (OK / f"{name}.toml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    return read_plan(text, name, protocol)


def test_a_phase_that_waits_for_its_gate_is_not_promised(protocol: ClinicProtocol) -> None:
    assert shown_days(plan("kt-014", protocol), Record()) == (date(2026, 3, 2), date(2026, 4, 26), "goes_on")


def test_after_the_release_the_taper_is_shown(protocol: ClinicProtocol) -> None:
    release = Entry(
        EntryKind.GATE_RELEASED, datetime(2026, 4, 25, 12, tzinfo=UTC), "endoscopy reviewed", {"from": "2026-04-27"}
    )
    assert shown_days(plan("kt-014", protocol), Record((release,))) == (date(2026, 3, 2), date(2026, 6, 7), "no_end")


def test_a_course_that_ends(protocol: ClinicProtocol) -> None:
    short = plan("mb-032", protocol, ('dose = "1 mg"', 'lasts = "10 days"\ndose = "1 mg"'))
    assert shown_days(short, Record()) == (date(2026, 1, 12), date(2026, 1, 21), "last")


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("name", ["kt-014", "fl-207", "mb-032"])
def test_a_page_for_each_language_and_form(name: str, language: str, protocol: ClinicProtocol, tmp_path: Path) -> None:
    write_calendar(plan(name, protocol, ('language = "en"', f'language = "{language}"')), protocol, tmp_path / "a.png")
    assert (tmp_path / "a.png").stat().st_size > 20_000


def test_no_place_to_write(protocol: ClinicProtocol, tmp_path: Path) -> None:
    with pytest.raises(TroubleOutside, match="choose another place"):
        write_calendar(plan("kt-014", protocol), protocol, tmp_path / "nowhere" / "a.png")

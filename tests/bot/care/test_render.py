"""What the care team reads: every kind, the banner, lengths; buttons only for what can be done."""

from __future__ import annotations

import io
from collections.abc import Awaitable, Callable
from datetime import UTC, datetime
from typing import Any

import pytest
from PIL import Image

from bot.care import chart
from bot.care.render import KINDS, LONGEST, render
from bot.escalation.rules import RULES
from bot.rehearsal.world import World
from bot.texts.catalogue import has
from scheduler.messages import Message, To
from scheduler.protocol import ClinicProtocol

NOW = datetime(2026, 3, 30, 15, 10, tzinfo=UTC)
FLAG: dict[str, Any] = {
    "flag": "KT-014/3", "urgency": "urgent", "state": "raised", "rules": ["thrush", "hoarseness"],
    "findings": ["thrush"], "words": "white patches", "raised_at": NOW.isoformat(), "act_by": NOW.isoformat(),
    "taken_by": "", "outcome": "", "note": "", "raises": 2, "phase": "induction", "week": 5,
    "dose": "1 mg (2 ampoules) twice a day",
    "reason": "phase", "medicine": "budesonide", "writer": "patient", "source": "reply", "about": {}}
CHART: dict[str, Any] = {
    "reference": "KT-014", "start": "2026-03-02", "today": "2026-06-28", "unit": "mg", "first_row": "2026-03-02",
    "scores": [["2026-03-08", 6], ["2026-03-15", 4]], "doses": [["2026-03-02", "2026-06-28", 2.0]],
    "days": "aasn-" * 20,
    "flags": [["2026-03-30", "urgent"], ["2026-04-02", "emergency"], ["2026-05-01", "routine"]],
    "endoscopies": [["2026-04-27", 12], ["2026-06-01", None]], "seasons": [["2026-04-10", "2026-06-15"]]}
ROW = {"flag": "KT-014/3", "reference": "KT-014", "number": "3", "urgency": "routine", "rule": "hoarseness",
       "more_rules": 1, "taken_by": "", "words": "my voice", "raised_at": NOW.isoformat()}
FACTS: dict[str, dict[str, Any]] = {
    "flag": FLAG, "flag_more": {**FLAG, "new_words": "and worse"}, "flag_again": FLAG,
    "flag_left_open": {**FLAG, "state": "taken", "taken_by": "Ann (nurse)"},
    "milestone": {"title": "week", "completed_weeks": 4, "phase": "induction", "week": 5, "dose": "1 mg",
                  "scores": [6.0, 4.0], "first_score": 6.0, "taken": 12, "not_taken": 2, "rinses": 9,
                  "rinses_of": 12, "open_flags": 0,
                  "flags": 1, "endoscopy": "2026-04-27", "peak": 12, "erefs": 2, "options": ["go_on"]},
    "digest": {"day": "2026-03-30", "n": 30, "rows": [ROW] * 20, "more": 10, "next": 20},
    "picture": {"words": "look", "file": "f1"}, "unhandled": {"words": "hello", "trouble": "KeyError"},
    "desk": {"text_keys": ["desk.help"], "lines": ["one"], "buttons": [[["take", "f:KT-014/3:take", {}]]]},
    "chart": {"lines": ["KT-014"], "chart": CHART},
    "quarantined": {"why": "no phase"}, "set_aside": {"what": "event", "trouble": "KeyError"},
    "late": {"since": NOW.isoformat(), "minutes": 12, "limit": 5},
}


def shown(kind: str, protocol: ClinicProtocol, **changed: Any) -> str:
    return render(Message("k", To.CARE, kind, NOW, "KT-014", facts={**FACTS[kind], **changed}), protocol).text


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_kind(kind: str, protocol: ClinicProtocol) -> None:
    text = shown(kind, protocol)
    assert text.startswith("[example, not signed]\n")
    assert "{" not in text and len(text) <= LONGEST


def test_every_kind_has_facts_here() -> None:
    assert FACTS.keys() == KINDS.keys()


def test_a_signed_protocol_has_no_banner(protocol: ClinicProtocol) -> None:
    signed = ClinicProtocol("clinic", "Dr R. Okafor", {value.key: value for value in protocol})
    assert "not signed" not in shown("flag", signed)


def test_a_flag_in_the_order_a_nurse_reads(protocol: ClinicProtocol) -> None:
    lines = shown("flag", protocol).splitlines()
    assert lines[:5] == ["[example, not signed]", "URGENT · KT-014 · flag 3", "Signs of thrush", "Also: Hoarse",
                         "“white patches”"]
    assert "Act by Monday 09:10." in lines               # the clinic's zone


def test_another_language_is_named(protocol: ClinicProtocol) -> None:
    assert "Reads and writes in: Spanish." in shown("flag", protocol, language="es")
    assert "Reads and writes" not in shown("flag", protocol, language="en")


def test_new_words_come_before_the_old_ones(protocol: ClinicProtocol) -> None:
    lines = shown("flag_more", protocol, words="white patches\nand worse", new_words="and worse").splitlines()
    assert lines[4:6] == ["New: “and worse”", "Before: “white patches”"]


def test_long_words_keep_the_newest(protocol: ClinicProtocol) -> None:
    text = shown("flag", protocol, words="old " * 2000 + "the newest words")
    assert len(text) <= LONGEST and "the newest words" in text and "Act by" in text


@pytest.mark.parametrize(("state", "taken_by", "labels"), [
    ("raised", "", ["Take it", "Answer the patient", "Close", "Card"]),
    ("taken", "Ann (nurse)", ["Answer the patient", "Close", "Card"]),
    ("closed", "Ann (nurse)", ["Reopen", "Card"]),
])
def test_buttons_by_state(state: str, taken_by: str, labels: list[str], protocol: ClinicProtocol) -> None:
    message = Message("k", To.CARE, "flag", NOW, "KT-014", facts={**FLAG, "state": state, "taken_by": taken_by,
                                                                  "outcome": "treated"})
    assert [button.label for row in render(message, protocol).buttons for button in row] == labels


@pytest.mark.parametrize("rule", [rule.id for rule in RULES])
def test_every_rule_has_its_texts(rule: str) -> None:
    assert has(f"care.rule.{rule}.title") and has(f"care.rule.{rule}.weigh")


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule.answer], ids=lambda rule: rule.id)
def test_every_rule_that_tells_has_words_for_it(rule: Any) -> None:
    assert has(f"escalation.tell.{rule.tell}") and has(f"escalation.about.{rule.tell}")


def test_no_rule_text_without_a_rule() -> None:
    from bot.texts.catalogue import catalogue

    named = {key.split(".")[2] for key in catalogue("en") if key.startswith("care.rule.")}
    assert named == {rule.id for rule in RULES}


# --- the chart


@pytest.mark.parametrize("changed", [
    {}, {"scores": [], "flags": [], "endoscopies": [], "seasons": [], "days": "a", "today": "2026-03-02"},
    {"doses": [], "days": "", "scores": []}, {"today": "2028-03-02", "days": "a" * 730},
])
def test_the_chart_is_a_picture_for_a_phone(changed: dict[str, Any]) -> None:
    picture = Image.open(io.BytesIO(chart.draw({**CHART, **changed})))
    assert picture.size == (1080, 1224)
    grey = picture.convert("L").getextrema()
    assert isinstance(grey[0], int) and grey[0] < 60 and grey[1] == 255


def test_marks_differ_in_grey() -> None:
    """Taking the flags' shapes away, or another day's answer, changes the grey picture: nothing hangs on colour."""
    def grey(**changed: Any) -> bytes:
        return Image.open(io.BytesIO(chart.draw({**CHART, **changed}))).convert("L").tobytes()

    whole = grey()
    for one in ({"flags": [["2026-03-30", "emergency"], *CHART["flags"][1:]]}, {"days": "aanns" * 20}, {"seasons": []},
                {"endoscopies": []}):
        assert grey(**one) != whole


async def test_chart_and_card_of_a_course(clinic: Callable[[], Awaitable[World]]) -> None:
    world = await clinic()
    await world.wait(hours=1)
    await world.taps("KT-014", "Taken now")
    await world.says("Ann", "/chart KT-014")
    photo = world.chat.last("care-team").outgoing.photo
    assert photo is not None and photo.startswith(b"\x89PNG")
    await world.says("Ann", "/card KT-014")
    card = world.last_care()
    assert "Doses, last 28 days: 1 of" in card and "Next: taper, waits for the gate “endoscopy reviewed”." in card


def test_every_fact_that_a_flag_can_show_has_its_words(protocol: ClinicProtocol) -> None:
    from bot.escalation.assess import SHOWN

    dates = ("due", "first_day_without", "paused_since", "paused_until")
    about = {name: "2026-04-27" if name in dates else 3 for name in SHOWN} | {"waits_for": "consent"}
    text = shown("flag", protocol, about=about)
    assert all(has(f"care.fact.{name}") for name in SHOWN if name != "waits_for")
    assert all(has(f"care.fact.waits_for.{asked}") for asked in ("invite", "consent", "who_writes"))
    assert "Waiting for: the answer to 'do you agree?'" in text
    assert "First day without medicine: Monday 27 April" in text and "Days late: 3" in text

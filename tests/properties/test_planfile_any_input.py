"""Whatever bytes are handed over as a plan file: a plan, or problems in words. Never a traceback."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.amounts import parse_amount, parse_strength
from scheduler.errors import BadAmount, WrongInput
from scheduler.plan import Plan
from scheduler.planfile import load_plan, read_plan
from scheduler.protocol import ClinicProtocol, load_protocol

OK = Path(__file__).parents[2] / "fixtures" / "plans" / "ok"
TEXTS = tuple(path.read_text(encoding="utf-8") for path in sorted(OK.glob("*.toml")))
PIECES = (
    '"1 mg"',
    "0",
    "-1",
    "1e400",
    "nan",
    "inf",
    "true",
    "[]",
    "[[",
    "{}",
    "{a = 1}",
    '""',
    "2026-03-02",
    "07:45:30",
    "2026-03-02T07:45:00Z",
    '"9999999999999999 weeks"',
    '[["1 mg"]]',
    '[1, "2"]',
    "'\\u0000'",
    '"\\u202e"',
    "1_000",
    "0x10",
    "99999999999999999999999",
    '"24:00"',
    '"02-30"',
)
WORDS = st.sampled_from(PIECES) | st.text(max_size=12)


@cache
def protocol() -> ClinicProtocol:
    return load_protocol()


def read(text: str) -> None:
    try:
        assert isinstance(read_plan(text, "anything", protocol()), Plan)
    except WrongInput as error:
        assert error.problems and all(problem.message for problem in error.problems)
        assert all(len(str(problem)) < 700 and str(problem).isprintable() for problem in error.problems)


@settings(max_examples=300, deadline=None)
@given(text=st.sampled_from(TEXTS), data=st.data())
def test_a_good_plan_with_its_values_changed(text: str, data: st.DataObject) -> None:
    lines = text.splitlines()
    for _ in range(data.draw(st.integers(1, 4))):
        number = data.draw(st.integers(0, len(lines) - 1))
        key, mark, _ = lines[number].partition(" = ")
        lines[number] = f"{key} = {data.draw(WORDS)}" if mark else data.draw(WORDS)
    read("\n".join(lines))


@settings(max_examples=150, deadline=None)
@given(text=st.sampled_from(TEXTS), data=st.data())
def test_a_good_plan_with_pieces_cut_out_doubled_and_swapped(text: str, data: st.DataObject) -> None:
    for _ in range(data.draw(st.integers(1, 3))):
        first, last = sorted(data.draw(st.tuples(st.integers(0, len(text)), st.integers(0, len(text)))))
        piece = data.draw(st.sampled_from(["", text[first:last] * 2, text[first:last][::-1]]))
        text = text[:first] + piece + text[last:]
    read(text)


@settings(max_examples=150, deadline=None)
@given(text=st.text())
def test_any_text(text: str) -> None:
    read(text)


@settings(max_examples=100, deadline=None)
@given(data=st.binary(max_size=400))
def test_any_bytes(data: bytes, tmp_path_factory: pytest.TempPathFactory) -> None:
    path = tmp_path_factory.mktemp("plans") / "plan.toml"
    path.write_bytes(data)
    with pytest.raises(WrongInput):
        load_plan(path, protocol())


@given(text=st.text(alphabet="0123456789.,-+eE mgMGµcuicrol/perinL\u00a0½٣\n"))
def test_any_amount(text: str) -> None:
    for parse in (parse_amount, parse_strength):
        try:
            parse(text)
        except BadAmount as error:
            assert str(error)
        else:
            assert any(c.isdigit() for c in text)

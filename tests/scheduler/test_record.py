"""A long record is asked again and again: its answers are the same as by going through all entries."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, Record, taken_at
from scheduler.spending import dose_key, doses_of

START = datetime(2026, 3, 2, 13, 45, tzinfo=UTC)
KINDS = st.sampled_from(list(EntryKind))


@st.composite
def records(draw: st.DrawFn) -> Record:
    entries = []
    for number in range(draw(st.integers(0, 30))):
        version, day = draw(st.integers(1, 2)), date(2026, 3, 2) + timedelta(days=draw(st.integers(0, 3)))
        at = START + timedelta(hours=draw(st.integers(0, 96)))
        facts = {"taken_at": at.isoformat()} if draw(st.booleans()) else {}
        about = draw(st.sampled_from([dose_key(version, day, number % 2), "gate", "other gate"]))
        entries.append(Entry(draw(KINDS), START + timedelta(hours=4 * number), about, facts))
    return Record(tuple(entries))


@given(record=records(), kinds=st.lists(KINDS, max_size=4, unique=True))
def test_entries_of_some_kinds_keep_their_order(record: Record, kinds: list[EntryKind]) -> None:
    assert record.of(*kinds) == tuple(entry for entry in record.entries if entry.kind in kinds)


@given(record=records(), kind=KINDS)
def test_whether_there_is_such_an_entry(record: Record, kind: EntryKind) -> None:
    for about in ("gate", "nowhere"):
        assert record.has(kind, about) == any(one.kind is kind and one.about == about for one in record.entries)


@given(record=records())
def test_the_last_word_on_a_gate_holds(record: Record) -> None:
    told = [one for one in record.entries
            if one.about == "gate" and one.kind in (EntryKind.GATE_RELEASED, EntryKind.GATE_HELD)]
    expected = told[-1] if told and told[-1].kind is EntryKind.GATE_RELEASED else None
    assert record.gate_released("gate") == expected


@given(record=records(), hour=st.integers(0, 96), gap=st.integers(1, 12), version=st.integers(1, 2))
def test_a_dose_of_another_version_is_near_within_the_gap(record: Record, hour: int, gap: int, version: int) -> None:
    at, span = START + timedelta(hours=hour), timedelta(hours=gap)
    near = [key for key, one in record.dose_answers.items()
            if one.kind is EntryKind.DOSE_TAKEN and abs(at - taken_at(one)) < span]
    expected = version > 1 and any(not key.startswith(f"v{version}:") for key in near)
    assert record.taken_under_another(version, at, span) == expected


def test_one_walk_serves_everybody_and_none_of_another_plan(ok_plan: Callable[[str], Plan],
                                                            protocol: ClinicProtocol) -> None:
    plan, record = ok_plan("fl-207"), Record()
    known = doses_of(plan, record, protocol)
    first = next(iter(known))
    assert doses_of(plan, record, protocol) is known and next(iter(known)) is first
    assert doses_of(plan, record, protocol, 2) is not known
    assert doses_of(ok_plan("qd-305"), record, protocol) is not known
    assert doses_of(plan, Record(record.entries), protocol) is not known

"""The undo log restores what was, in the order in which it was changed."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from scheduler.storage.undo import Undo

STEP = st.tuples(st.sampled_from(["set", "drop", "append"]), st.integers(0, 4), st.integers())


@given(st.dictionaries(st.integers(0, 4), st.integers()), st.lists(st.integers()), st.lists(STEP, max_size=20))
def test_rollback_restores(table: dict[int, int], rows: list[int], steps: list[tuple[str, int, int]]) -> None:
    before, rows_before, undo = dict(table), list(rows), Undo()
    for what, key, value in steps:
        if what == "set":
            undo.set(table, key, value)
        elif what == "drop":
            undo.drop(table, key)
        else:
            undo.append(rows, value)
    undo.rollback()
    assert (table, rows) == (before, rows_before)
    undo.rollback()
    assert (table, rows) == (before, rows_before), "a second time there is nothing left to take back"


def test_steps_of_ones_own_run_last_in_first_out() -> None:
    undo, order = Undo(), []
    undo.add(order.append, 1)
    undo.add(order.append, 2)
    undo.rollback()
    assert order == [2, 1]

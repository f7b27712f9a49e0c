"""Plans are read once per text, as often as they are asked for, within a bound."""

from __future__ import annotations

from dataclasses import replace
from datetime import time

import pytest
from stores import plan

from scheduler.errors import Problem, WrongInput
from scheduler.plan import Plan
from scheduler.storage.stored_plans import PlanCache, plan_facts


def cache_of(size: int) -> tuple[PlanCache, list[str]]:
    read: list[str] = []

    def reader(text: str) -> Plan:
        read.append(text)
        if text == "broken":
            raise WrongInput("the stored plan", (Problem("schema", "must be 1"),))
        return replace(plan(), text=text)

    return PlanCache(reader, size), read


def test_a_text_is_read_once_while_it_is_kept() -> None:
    cache, read = cache_of(2)
    for text in ("a", "b", "a", "c", "a", "b"):
        assert cache.plan(text, {}).text == text
    assert read == ["a", "b", "c", "b"], "the one not asked for longest went first"


def test_a_text_that_cannot_be_read_is_tried_each_time() -> None:
    cache, read = cache_of(2)
    for _ in range(2):
        with pytest.raises(WrongInput):
            cache.plan("broken", {})
    assert read == ["broken", "broken"]


def test_dose_times_are_part_of_what_is_kept() -> None:
    cache, _ = cache_of(5)
    early = plan_facts(replace(plan(), dose_times=(time(6, 0), time(21, 0))))
    assert cache.plan("a", early).dose_times == (time(6, 0), time(21, 0))
    assert cache.plan("a", plan_facts(plan())).dose_times == plan().dose_times
    assert cache.plan("a", {}).dose_times == plan().dose_times

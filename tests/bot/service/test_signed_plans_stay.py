"""A plan that was enrolled keeps its taper and dose times in the database when the clinic's protocol changes."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, time
from pathlib import Path

from bot.enrolling import enrol
from bot.storage.opening import open_database
from scheduler.planfile import load_plan
from scheduler.protocol import load_protocol, read_protocol

ROOT = Path(__file__).parents[3]


async def test_enrolled_under_one_protocol_and_read_under_the_next(tmp_path: Path) -> None:
    signed_under = load_protocol()
    text = (ROOT / "scheduler" / "protocol_example.toml").read_text(encoding="utf-8")
    for old, new in (
        ("shortest_step = { value = 14,", "shortest_step = { value = 40,"),
        ("before_sleep = { value = 60,", "before_sleep = { value = 90,"),
    ):
        assert old in text
        text = text.replace(old, new)
    next_protocol = read_protocol(text, "the next protocol")
    path = ROOT / "fixtures" / "plans" / "ok" / "kt-014.toml"
    plan = load_plan(path, signed_under)
    assert load_plan(path, next_protocol).phases[1] != plan.phases[1]  # unsigned, it would follow the protocol

    url = f"sqlite:///{tmp_path / 'clinic.db'}"
    store = await open_database(url, signed_under)
    try:
        async with store.work() as work:
            await enrol(work, plan, datetime(2026, 2, 28, 9, tzinfo=UTC), signed_under)
    finally:
        await store.close()
    store = await open_database(url, next_protocol)
    try:
        async with store.work() as work:
            case = await work.case("KT-014")
    finally:
        await store.close()
    assert case is not None
    assert replace(case.plan, text="") == replace(plan, text="")
    assert case.plan.text.startswith(plan.text)
    assert case.plan.dose_times == (time(7, 45), time(21, 30))

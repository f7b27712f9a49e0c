"""The day on which a swallowed inhaler's next canister is begun, for published regimens and the label's counts.

US inhaler label: 120 actuations a canister; 4 sprays into the air before the first use. That these four are extra, so
that the counter starts at 124, is from memory. The days are worked by hand: 120 puffs over the puffs of a day.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

import pytest

from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol
from scheduler.record import Record
from scheduler.timeline import occasions

START = date(2026, 3, 2)


@pytest.mark.parametrize(("source", "strength", "dose", "times", "age", "height", "days"), [
    ("long-term cohort (Andreae 2016, authors from memory): 2 puffs of 44 twice a day", "44 microgram", "88 microgram",
     2, 4, 105, 30),
    ("the same cohort: 2 puffs of 110 twice a day", "110 microgram", "220 microgram", 2, 8, 128, 30),
    ("Konikoff 2006: 440 twice a day, as 2 puffs of 220", "220 microgram", "440 microgram", 2, 14, 160, 30),
    ("Schaefer 2008: 440 four times a day, 11 to 18 years, as 2 puffs of 220", "220 microgram", "440 microgram", 4, 14,
     160, 15),
    ("Alexander 2012 (from memory): 880 twice a day, as 4 puffs of 220", "220 microgram", "880 microgram", 2, 40, 170,
     15),
])
def test_the_day_of_each_new_canister(source: str, strength: str, dose: str, times: int, age: int, height: int,
                                      days: int, regimen: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    phase = f'[[phase]]\nname = "induction"\nstarts = {{starts}}\nlasts = "8 weeks"\ndose = "{dose}"\n' \
            f"times_per_day = {times}"
    plan = regimen(strength, phase, age=age, height=height)
    found = occasions(plan, Record(), protocol, datetime(2026, 3, 1, tzinfo=UTC), datetime(2026, 6, 1, tzinfo=UTC),
                      doses_only=True)
    told = {(one.day, one.slot): one.facts["prime"] for one in found if "prime" in one.facts}
    expected = {(START + timedelta(days=days * number), 0): {"sprays": 4, "canister": number + 1, "repeated": False}
                for number in range(-(-56 // days))}
    assert told == expected, source

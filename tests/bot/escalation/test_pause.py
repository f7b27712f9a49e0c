"""A pause of the care team's is no silence of the patient's. Common practice, no source."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

from bot.case import Case
from bot.escalation import assess_event
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind

E = EntryKind


def raised(case: Case, event: str, at: datetime, protocol: ClinicProtocol) -> list[str]:
    return [rule for flag in assess_event(case, event, {"occasion": "d"}, at, protocol).flags for rule in flag.rules]


def test_nobody_is_silent_in_a_pause_nor_just_after_it(make_case: Callable[..., Case], monday: datetime,
                                                       protocol: ClinicProtocol,
                                                       dose: Callable[..., Entry]) -> None:
    taken = dose(E.DOSE_TAKEN, 30)
    assert raised(make_case(entries=[taken]), "dose_unknown", monday, protocol) == ["lost"]
    began = Entry(E.PAUSED, monday - timedelta(days=20), facts={"by": "n", "reason": "", "until": None})
    assert raised(make_case(entries=[taken, began]), "dose_unknown", monday, protocol) == []
    until = {"by": "n", "reason": "", "until": (monday - timedelta(days=2)).date().isoformat()}
    over = Entry(E.PAUSED, monday - timedelta(days=20), facts=until)
    assert raised(make_case(entries=[taken, over]), "dose_unknown", monday, protocol) == []
    assert raised(make_case(entries=[taken, over]), "dose_unknown", monday + timedelta(days=3), protocol) == ["silence"]


def test_an_end_that_a_resumption_came_before_counts_for_nothing(make_case: Callable[..., Case], monday: datetime,
                                                                 protocol: ClinicProtocol,
                                                                 dose: Callable[..., Entry]) -> None:
    until = {"by": "n", "reason": "", "until": (monday - timedelta(days=1)).date().isoformat()}
    entries = [dose(E.DOSE_TAKEN, 30), Entry(E.PAUSED, monday - timedelta(days=20), facts=until),
               Entry(E.RESUMED, monday - timedelta(days=10), facts={"by": "n"})]
    assert raised(make_case(entries=entries), "dose_unknown", monday, protocol) == ["silence"]


def test_check_ins_and_doses_missed_in_a_pause_are_not_counted_against_the_patient(
        make_case: Callable[..., Case], monday: datetime, protocol: ClinicProtocol, dose: Callable[..., Entry]) -> None:
    entries = [dose(E.DOSE_TAKEN, 1, 1), *(dose(E.DOSE_SKIPPED, days) for days in (1, 2, 3, 4)),
               Entry(E.CHECK_IN_MISSED, monday - timedelta(7)), Entry(E.CHECK_IN_MISSED, monday)]
    assert raised(make_case(entries=entries), "dose_skipped", monday, protocol) == ["doses_missed"]
    assert raised(make_case(entries=entries), "check_in_missed", monday, protocol) == ["check_ins_missed"]
    entries.append(Entry(E.PAUSED, monday - timedelta(hours=1), facts={"by": "n", "reason": "", "until": None}))
    assert raised(make_case(entries=entries), "dose_skipped", monday, protocol) == []
    assert raised(make_case(entries=entries), "check_in_missed", monday, protocol) == []

"""The first day without medicine after a changed plan and for a late joiner, each worked out by hand.

The plan: two boxes of 30 ampoules of 0.5 mg; 1 mg (2 ampoules) at 07:45 and 21:30 in Denver from 2 March 2026.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime, timedelta

import pytest

from scheduler.lasttold import last_told
from scheduler.localtime import instant, local
from scheduler.occasions import OccasionKind
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, Record
from scheduler.supply import runs_out
from scheduler.timeline import occasions

ZONE = "America/Denver"
DOUBLE = ('lasts = "8 weeks"\ndose = "1 mg"', 'lasts = "8 weeks"\ndose = "2 mg"')


def at(text: str) -> datetime:
    told = datetime.strptime(f"2026-{text}", "%Y-%m-%d %H:%M")  # noqa: DTZ007 - wall clock of the plan's zone
    return instant(told.date(), told.time(), ZONE)


def asked(plan: Plan, record: Record, protocol: ClinicProtocol, after: str, until: str, version: int = 1,
          kind: EntryKind = EntryKind.DOSE_TAKEN) -> Record:
    """The record once every dose asked for between two times was answered, each with the units of its reminder."""
    entries = list(record.entries)
    for one in occasions(plan, record, protocol, at(after), at(until), version, doses_only=True):
        assert one.dose is not None
        entries.append(Entry(kind, one.at, one.key, {"units": one.dose.units} | (
            {"taken_at": one.at.isoformat(), "amount": str(one.dose.amount), "unit": "ampoule"}
            if kind is EntryKind.DOSE_TAKEN else {})))
    return Record(tuple(entries))


def sign(plan: Plan, record: Record, protocol: ClinicProtocol, when: str, version: int = 1) -> Record:
    facts = last_told(plan, record, protocol, version, at(when))
    return Record((*record.entries, Entry(EntryKind.PLAN_SIGNED, at(when), str(version + 1), facts)))


@pytest.mark.parametrize("kind", [EntryKind.DOSE_TAKEN, EntryKind.DOSE_UNKNOWN, None])
def test_the_dose_doubled(kind: EntryKind | None, ok_plan: Callable[[str], Plan], changed: Callable[..., Plan],
                          protocol: ClinicProtocol) -> None:
    """Nine doses of 2 until 6 March noon: 60 - 18 = 42. At 4 a dose: that evening, then 7, 8, 9, 10 March take 36; of
    the 6 left one dose of 11 March can be made. Doses that were never answered were asked for as 2 too, not as 4."""
    old, new = ok_plan("kt-014"), changed("kt-014", DOUBLE)
    record = Record((Entry(EntryKind.CONSENTED, at("03-01 12:00")),))
    record = asked(old, record, protocol, "03-01 00:00", "03-06 12:00", kind=kind) if kind else record
    assert runs_out(old, record, protocol, date(2026, 3, 6)).first_day_without == date(2026, 3, 17)
    record = sign(old, record, protocol, "03-06 12:03")
    out = runs_out(new, record, protocol, date(2026, 3, 6), 2)
    assert (out.first_day_without, out.sooner) == (date(2026, 3, 11), True)
    assert out.remind_on == (date(2026, 3, 6), date(2026, 3, 8))
    told = [one for one in occasions(new, record, protocol, at("03-06 12:03"), at("03-12 00:00"), 2)
            if one.kind is OccasionKind.SUPPLY_LOW]
    assert [f"{local(one.at, ZONE):%m-%d %H:%M}" for one in told] == ["03-06 12:04", "03-08 17:00"]
    assert [one.facts["days_left"] for one in told] == [5, 3]
    later = asked(new, record, protocol, "03-06 12:03", "03-10 09:00", 2)        # and it stays so
    assert runs_out(new, later, protocol, date(2026, 3, 10), 2).first_day_without == date(2026, 3, 11)


def test_every_version_counts(ok_plan: Callable[[str], Plan], changed: Callable[..., Plan],
                              protocol: ClinicProtocol) -> None:
    """18 under the first plan; 3 doses of 4 under the second (6 evening, 7 March): 30 are left on 8 March at 06:00. At
    2 a dose, 8 to 14 March take 28; of 15 March the morning can be made."""
    old, new = ok_plan("kt-014"), changed("kt-014", DOUBLE)
    record = asked(old, Record(), protocol, "03-01 00:00", "03-06 12:00")
    record = asked(new, sign(old, record, protocol, "03-06 12:03"), protocol, "03-06 12:03", "03-08 00:00", 2)
    record = sign(new, record, protocol, "03-08 06:00", 2)
    out = runs_out(old, record, protocol, date(2026, 3, 8), 3)
    assert (out.first_day_without, out.sooner) == (date(2026, 3, 15), False)


def test_a_course_that_begins_anew_has_what_is_left(ok_plan: Callable[[str], Plan], changed: Callable[..., Plan],
                                                    protocol: ClinicProtocol) -> None:
    """18 taken; from 16 March 4 a day: 42 last ten days and one dose, so 26 March is the first day without."""
    old, new = ok_plan("kt-014"), changed("kt-014", ("starts = 2026-03-02", "starts = 2026-03-16"))
    record = asked(old, Record(), protocol, "03-01 00:00", "03-06 12:00")
    record = sign(old, record, protocol, "03-06 12:03")
    assert runs_out(new, record, protocol, date(2026, 3, 6), 2).first_day_without == date(2026, 3, 26)


def test_boxes_of_another_strength_do_not_count(ok_plan: Callable[[str], Plan], changed: Callable[..., Plan],
                                                protocol: ClinicProtocol) -> None:
    """Two more boxes came on 4 March, of 0.5 mg. From the 6th ampoules of 0.25 mg, 4 a dose, 60 on hand: 15 doses are
    that evening and 7 to 13 March."""
    old, new = ok_plan("kt-014"), changed("kt-014", ('strength = "0.5 mg / 2 mL"', 'strength = "0.25 mg / 2 mL"'))
    record = asked(old, Record(), protocol, "03-01 00:00", "03-06 12:00")
    came = Entry(EntryKind.SUPPLY_ADDED, at("03-04 10:00"), facts={"packs": 2})
    record = sign(old, Record((*record.entries, came)), protocol, "03-06 12:03")
    assert runs_out(new, record, protocol, date(2026, 3, 6), 2).first_day_without == date(2026, 3, 14)
    more = Record((*record.entries, Entry(EntryKind.SUPPLY_ADDED, at("03-07 10:00"), facts={"packs": 2})))
    assert runs_out(new, more, protocol, date(2026, 3, 7), 2).first_day_without == date(2026, 3, 21)   # 15 doses more


def test_a_change_that_uses_no_more_is_no_news_of_the_supply(ok_plan: Callable[[str], Plan],
                                                             changed: Callable[..., Plan],
                                                             protocol: ClinicProtocol) -> None:
    """Told on 7 March for the 17th; the check-in is moved on the 9th: the next word is on the 14th as before."""
    old, new = ok_plan("kt-014"), changed("kt-014", ('time = "18:00"', 'time = "19:00"'))
    record = sign(old, asked(old, Record(), protocol, "03-01 00:00", "03-09 12:00"), protocol, "03-09 12:03")
    told = [one.day for one in occasions(new, record, protocol, at("03-09 12:03"), at("03-18 00:00"), 2)
            if one.kind is OccasionKind.SUPPLY_LOW]
    assert told == [date(2026, 3, 14)]


def test_a_late_joiner(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    """Joined on 12 March at 07:00, the plan is from the 2nd: 60 ampoules last for the 12th to the 26th."""
    plan = ok_plan("kt-014")
    record = Record((Entry(EntryKind.CONSENTED, at("03-12 07:00")),))
    assert runs_out(plan, record, protocol, date(2026, 3, 12)).first_day_without == date(2026, 3, 27)
    noon = Record((Entry(EntryKind.CONSENTED, at("03-12 12:00")),))      # its morning dose was not asked for
    taken = asked(plan, noon, protocol, "03-12 12:00", "03-20 12:00")
    assert runs_out(plan, noon, protocol, date(2026, 3, 12)).first_day_without == date(2026, 3, 27)
    assert runs_out(plan, taken, protocol, date(2026, 3, 20)).first_day_without == date(2026, 3, 27)
    assert runs_out(plan, taken, protocol, date(2026, 3, 20)).on_confirmed == date(2026, 3, 27)


def test_who_has_never_joined_has_used_nothing(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    """Asked on 20 April and not joined: 4 a day from that day on are 15 days."""
    today = date(2026, 4, 20)
    out = runs_out(ok_plan("kt-014"), Record(), protocol, today)
    assert (out.first_day_without, out.on_confirmed) == (today + timedelta(days=15),) * 2

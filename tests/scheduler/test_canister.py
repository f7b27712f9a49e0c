"""The inhaler's canisters: when a new one is due, the sprays that ready it, and the supply that counts both."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from scheduler.canister import Canisters, Priming
from scheduler.occasions import Occasion
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, Record
from scheduler.spending import Spending, dose_key
from scheduler.supply import runs_out, usage
from scheduler.timeline import occasions

START = date(2026, 2, 16)
EARLY = datetime(2026, 2, 1, tzinfo=UTC)
FOUR_PUFFS = ('dose = "440 microgram"', 'dose = "880 microgram"')


def reminders(plan: Plan, protocol: ClinicProtocol, record: Record | None = None, days: int = 40,
              version: int = 1) -> list[Occasion]:
    until = datetime(2026, 2, 16, tzinfo=UTC) + timedelta(days=days)
    return list(occasions(plan, record or Record(), protocol, EARLY, until, version, doses_only=True))


def told(found: Iterable[Occasion]) -> list[tuple[str, dict[str, object]]]:
    """What the reminders tell of the inhaler: '20260216:0' and the facts."""
    return [(one.key.split(":", 2)[2], one.facts["prime"]) for one in found if "prime" in one.facts]


def answers(found: Iterable[Occasion], kind: EntryKind = EntryKind.DOSE_TAKEN, version: int = 1) -> Record:
    """A record in which these doses were all answered so, when due."""
    entries = []
    for one in found:
        assert one.dose is not None and one.slot is not None
        facts = {"taken_at": one.at.isoformat(), "units": one.dose.units, "amount": str(one.dose.amount)}
        key = dose_key(version, one.day, one.slot)
        entries.append(Entry(kind, one.at, key, facts if kind is EntryKind.DOSE_TAKEN else {}))
    return Record(tuple(entries))


def plus(record: Record, *more: Entry) -> Record:
    return record + more


def new(canister: int, sprays: int = 4, repeated: bool = False) -> dict[str, object]:
    return {"sprays": sprays, "canister": canister, "repeated": repeated}


def test_120_puffs_of_the_label_are_all_for_doses(changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    """US inhaler label: 120 actuations a canister, 4 sprays to prime, which are extra (the counter starts at 124; the
    last from memory). Four puffs twice a day are 15 days; the second canister is primed on the morning of day 16."""
    found = reminders(changed("fl-207", FOUR_PUFFS), protocol)
    assert told(found) == [("20260216:0", new(1)), ("20260303:0", new(2)), ("20260318:0", new(3))]


def test_the_same_from_a_record_in_which_all_was_taken(ok_plan: Callable[[str], Plan],
                                                       protocol: ClinicProtocol) -> None:
    plan = ok_plan("fl-207")
    planned = reminders(plan, protocol)
    assert told(planned) == told(reminders(plan, protocol, answers(planned)))
    assert told(planned)[1] == ("20260318:0", new(2))       # two puffs twice a day: 30 days


def test_what_does_not_make_a_dose_is_not_used(changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    """Canisters of 30, doses of 4: seven doses each, two puffs stay behind; no dose is put together from two."""
    plan = changed("fl-207", FOUR_PUFFS, ("units_per_pack = 120", "units_per_pack = 30"))
    assert [key for key, _ in told(reminders(plan, protocol, days=12))] == [
        "20260216:0", "20260219:1", "20260223:0", "20260226:1"]
    # seven doses from each of two: 14 doses are seven days
    assert runs_out(plan, Record(), protocol, START).first_day_without == START + timedelta(days=7)


def test_a_skipped_dose_leaves_the_change_to_the_next(changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    plan = changed("fl-207", FOUR_PUFFS)
    planned = reminders(plan, protocol)
    change = next(one for one in planned if one.key.endswith("20260303:0"))
    record = plus(answers(planned[:planned.index(change)]),
                  Entry(EntryKind.DOSE_SKIPPED, change.at, change.key))
    assert told(reminders(plan, protocol, record))[:3] == [
        ("20260216:0", new(1)), ("20260303:0", new(2)), ("20260303:1", new(2))]
    first = planned[0]
    skipped = Record((Entry(EntryKind.DOSE_SKIPPED, first.at, first.key),))
    assert told(reminders(plan, protocol, skipped))[:2] == [("20260216:0", new(1)), ("20260216:1", new(1))]


def test_a_change_that_was_never_answered_is_told_again_and_counted_once(changed: Callable[..., Plan],
                                                                         protocol: ClinicProtocol) -> None:
    plan = changed("fl-207", FOUR_PUFFS)
    planned = reminders(plan, protocol)
    at = next(number for number, one in enumerate(planned) if one.key.endswith("20260303:0"))
    record = answers(planned[:at]) + answers(planned[at:at + 2], EntryKind.DOSE_UNKNOWN).entries
    found = told(reminders(plan, protocol, record))
    assert found[1:4] == [("20260303:0", new(2)), ("20260303:1", new(2, repeated=True)),
                          ("20260304:0", new(2, repeated=True))]
    assert found[4] == ("20260318:0", new(3))
    answered = record + answers(planned[at + 2:at + 3]).entries
    assert told(reminders(plan, protocol, answered)) == found


def test_one_spray_after_more_than_seven_days_of_rest(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    """US inhaler label, section 2.1: prime again with 1 spray when not used for more than 7 days. It comes out of the
    canister's 120, so the new one is due a dose earlier."""
    plan = ok_plan("fl-207")
    planned = reminders(plan, protocol)
    until = planned[6].at - timedelta(hours=1)
    paused = plus(answers(planned[:6]), Entry(EntryKind.PAUSED, until),
                  Entry(EntryKind.RESUMED, until + timedelta(days=8)))
    found = told(reminders(plan, protocol, paused, days=45))
    assert found[1] == ("20260227:0", {"sprays": 1, "canister": None, "repeated": False})
    # 59 doses of 2 and the spray; without it the 60 doses would last 30 days and the 8 of the pause
    assert found[2] == ("20260325:1", new(2))
    week = plus(answers(planned[:6]), Entry(EntryKind.PAUSED, until),
                Entry(EntryKind.RESUMED, until + timedelta(days=6)))
    assert len(told(reminders(plan, protocol, week, days=36))) == 1


def test_a_canister_that_was_begun_before_its_time(changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    """Lost on day 6: the care team records a new one. It counts from there, and the old one's rest is gone."""
    plan = changed("fl-207", FOUR_PUFFS)
    planned = reminders(plan, protocol)
    lost = plus(answers(planned[:10]), Entry(EntryKind.PACK_OPENED, planned[10].at - timedelta(hours=1)))
    assert told(reminders(plan, protocol, lost))[:2] == [("20260216:0", new(1)), ("20260308:0", new(3))]
    before, after = (runs_out(plan, record, protocol, START).first_day_without
                     for record in (answers(planned[:10]), lost))
    assert before == START + timedelta(days=30) and after == START + timedelta(days=20)


def test_saying_that_it_was_begun_when_it_was_due_changes_nothing(changed: Callable[..., Plan],
                                                                  protocol: ClinicProtocol) -> None:
    plan = changed("fl-207", FOUR_PUFFS)
    planned = reminders(plan, protocol)
    at = next(number for number, one in enumerate(planned) if one.key.endswith("20260303:0"))
    said = plus(answers(planned[:at + 1]), Entry(EntryKind.PACK_OPENED, planned[at].at + timedelta(hours=2)))
    assert told(reminders(plan, protocol, said)) == told(planned)
    first = Record((Entry(EntryKind.PACK_OPENED, planned[0].at - timedelta(hours=2)),))
    assert told(reminders(plan, protocol, first))[0] == ("20260303:0", new(2))   # readied before the first dose


def test_more_canisters_begun_than_known_of(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    plan = ok_plan("fl-207")
    planned = reminders(plan, protocol)
    entries = [Entry(EntryKind.PACK_OPENED, planned[number].at - timedelta(hours=1)) for number in (10, 20)]
    out = runs_out(plan, answers(planned[:20]) + tuple(entries), protocol, START)
    assert out.first_day_without == planned[20].day + timedelta(days=30)         # the third is in use


def test_a_changed_plan_goes_on_with_the_canister_in_use(changed: Callable[..., Plan],
                                                         protocol: ClinicProtocol) -> None:
    """Signed in the evening of day 10 after 20 doses of 4 under the first plan: 40 puffs are left for doses of 2."""
    old, plan = changed("fl-207", FOUR_PUFFS), changed("fl-207")
    under_old = reminders(old, protocol, days=12)[:20]
    signed = Entry(EntryKind.PLAN_SIGNED, under_old[-1].at + timedelta(hours=1), "2")
    record = plus(answers(under_old), signed)
    found = [one for one in reminders(plan, protocol, record, version=2) if one.at > signed.at]
    assert told(found) == [("20260308:0", new(2))]
    assert runs_out(plan, record, protocol, START, 2).first_day_without == date(2026, 3, 8) + timedelta(days=30)
    other = changed("fl-207", ('strength = "220 microgram"', 'strength = "110 microgram"'))
    fresh = [one for one in reminders(other, protocol, record, days=20, version=2) if one.at > signed.at]
    assert told(fresh) == [("20260226:0", new(1))]                              # another strength: its own canister
    opened = plus(record, Entry(EntryKind.PACK_OPENED, signed.at - timedelta(days=1)))
    again = [one for one in reminders(other, protocol, opened, days=20, version=2) if one.at > signed.at]
    assert told(again) == told(fresh)                                           # of the old strength


def test_ampoules_before_are_no_puffs_even_of_the_same_amount(changed: Callable[..., Plan],
                                                              protocol: ClinicProtocol) -> None:
    """From ampoules of 0.25 mg to an inhaler of 250 microgram (ex-valve label): the inhaler is new."""
    plan = changed("fl-207", ('strength = "220 microgram"', 'strength = "250 microgram"'),
                   ('dose = "440 microgram"', 'dose = "500 microgram"'),
                   ('to = "220 microgram"', 'to = "250 microgram"'),
                   ('dose = "220 microgram"', 'dose = "250 microgram"'))
    asked = reminders(plan, protocol, days=12)[:20]
    signed = Entry(EntryKind.PLAN_SIGNED, asked[-1].at + timedelta(hours=1), "2")
    for unit, expected in (("ampoule", [("20260226:0", new(1))]), ("puff", [])):
        entries = [replace(entry, facts={**entry.facts, "unit": unit}) for entry in answers(asked).entries]
        found = reminders(plan, protocol, Record((*entries, signed)), days=25, version=2)
        assert told(one for one in found if one.at > signed.at) == expected


def test_a_course_that_begins_anew_does_not_prime_the_inhaler_in_use(changed: Callable[..., Plan],
                                                                     protocol: ClinicProtocol) -> None:
    under_old = reminders(changed("fl-207"), protocol, days=12)[:20]
    plan = changed("fl-207", ("starts = 2026-02-16", "starts = 2026-02-26"))
    record = plus(answers(under_old), Entry(EntryKind.PLAN_SIGNED, under_old[-1].at + timedelta(hours=1), "2"))
    assert told(reminders(plan, protocol, record, days=20, version=2)) == []


def test_two_canisters_of_120_at_eight_puffs_a_day(changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    """Worked by hand: 240 puffs for doses are 30 days; 8 sprays ready the two canisters and cost no dose."""
    plan = changed("fl-207", FOUR_PUFFS)
    assert runs_out(plan, Record(), protocol, START).first_day_without == START + timedelta(days=30)
    induction = usage(plan, Record(), protocol, START).phases[0]
    assert (induction.units, induction.packs, induction.sprays) == (448, 4, 16)


@pytest.mark.parametrize("name", ["kt-014", "mb-032"])
def test_ampoules_need_no_word_about_a_new_box(name: str, ok_plan: Callable[[str], Plan],
                                               protocol: ClinicProtocol) -> None:
    """An ampoule is opened for its dose and thrown away (US generic label, sec. 16): a box's end changes nothing."""
    plan = ok_plan(name)
    found = [one for one in Spending(plan, Record(), protocol) if one.day < date(2026, 5, 1)]
    assert sum(one.units for one in found) > plan.medicine.units_per_pack
    assert not any(one.sprays or one.begun for one in found)
    assert not any("prime" in one.facts for one in reminders(plan, protocol, days=60))
    assert usage(plan, Record(), protocol, START).total.sprays == 0


def test_the_count_of_one_canister() -> None:
    count = Canisters(holds=14, first=4, again=1, rest=timedelta(days=7))
    assert count.before(2, rested=False) == Priming(4, 1)
    for _ in range(5):
        count.give(2, count.before(2, rested=False))
    assert (count.begun, count.left) == (1, 0)
    assert count.before(2, rested=False) == Priming(4, 2)
    count.give(2, Priming(4, 2))
    count.left = 2
    assert count.before(2, rested=False) == Priming()
    assert count.before(2, rested=True) == Priming(4, 3)      # the spray and the dose no longer fit: a new one

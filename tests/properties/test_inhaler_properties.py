"""The inhaler's count: what the reminders tell and what the supply counts are the same sprays, whatever happened."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.amounts import Amount
from scheduler.occasions import Occasion
from scheduler.plan import CheckInTime, Dose, Medicine, Patient, Phase, Plan, Step
from scheduler.protocol import ClinicProtocol, load_protocol
from scheduler.record import Entry, EntryKind, Record
from scheduler.spending import Spending
from scheduler.supply import runs_out
from scheduler.timeline import occasions

START = date(2026, 1, 5)
EARLY, LATE = datetime(2026, 1, 1, tzinfo=UTC), datetime(2026, 8, 1, tzinfo=UTC)
PUFF = Amount(Decimal(110), "microgram")
SOME = settings(max_examples=60, deadline=None)
TIMES = (time(7, 30), time(12, 30), time(17, 30), time(21, 30))


@cache
def protocol() -> ClinicProtocol:
    return load_protocol()


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """An inhaler of 10 to 120 puffs, one to four doses a day of one to four puffs, in one to three steps."""
    times = draw(st.integers(1, 4))
    counts = [draw(st.lists(st.integers(1, 4), min_size=times, max_size=times)) for _ in range(draw(st.integers(1, 3)))]
    steps = [Step(draw(st.integers(5, 40)), tuple(Dose(PUFF * n, n) for n in each)) for each in counts]
    patient = Patient("PR-002", "Sam", 40, draw(st.sampled_from(["America/Denver", "Pacific/Auckland", "UTC"])), "en",
                      time(6, 30), time(22, 30), (time(7), time(12), time(18)))
    medicine = Medicine("fluticasone", "inhaler", PUFF, None, draw(st.sampled_from([10, 30, 60, 120])),
                        draw(st.integers(0, 12)), None)
    return Plan(patient, medicine, (Phase("induction", tuple(steps), START),), CheckInTime(6, time(18)), "Dr R. Okafor",
                START, dose_times=(TIMES if times == 4 else TIMES[-times:]))


@st.composite
def histories(draw: st.DrawFn, plan: Plan) -> Record:
    """The doses of some weeks answered, or never answered, or taken back; a pause; canisters begun out of turn."""
    planned = [one for one in occasions(plan, Record(), protocol(), EARLY, LATE, doses_only=True) if one.dose]
    entries = [_answer(draw, one) for one in planned[:draw(st.integers(0, len(planned)))]]
    record = Record(tuple(entries))
    if entries and draw(st.booleans()):
        begin = planned[len(entries) - 1].at + timedelta(hours=2)
        record += (Entry(EntryKind.PAUSED, begin),
                   Entry(EntryKind.RESUMED, begin + timedelta(days=draw(st.integers(1, 20)))))
    if entries and draw(st.booleans()):
        record += (Entry(EntryKind.DOSE_CORRECTED, entries[-1].at, draw(st.sampled_from(entries)).about),)
    for number in draw(st.lists(st.integers(0, len(planned) - 1), max_size=3, unique=True)):
        record += (Entry(EntryKind.PACK_OPENED, planned[number].at - timedelta(minutes=5)),)
    return Record(tuple(sorted(record.entries, key=lambda entry: entry.at)))


def _answer(draw: st.DrawFn, one: Occasion) -> Entry:
    kind = draw(st.sampled_from([EntryKind.DOSE_TAKEN] * 5 + [EntryKind.DOSE_SKIPPED, EntryKind.DOSE_UNKNOWN]))
    assert one.dose is not None
    at = one.at + timedelta(minutes=draw(st.integers(-20, 90)))
    facts = {"taken_at": at.isoformat(), "units": one.dose.units, "amount": str(one.dose.amount)}
    return Entry(kind, at, one.key, facts if kind is EntryKind.DOSE_TAKEN else {})


@SOME
@given(data=st.data())
def test_what_is_told_is_what_is_counted(data: st.DataObject) -> None:
    """Puffs and priming sprays of all reminders whose dose was not skipped, with those of canisters that somebody said
    were begun, are what the supply counts; each canister is told once, in turn; none gives more than it holds."""
    plan = data.draw(plans())
    record = data.draw(histories(plan))
    skipped = {key for key, entry in record.dose_answers.items() if entry.kind is EntryKind.DOSE_SKIPPED}
    reminders = [one for one in occasions(plan, record, protocol(), EARLY, LATE, doses_only=True)
                 if one.key not in skipped]
    told = [one.facts["prime"] for one in reminders if "prime" in one.facts and not one.facts["prime"]["repeated"]]
    puffs = sum(one.dose.units for one in reminders if one.dose)
    counted = list(Spending(plan, record, protocol()))
    assert sum(one.units for one in counted) == puffs
    said = sum(one.opened for one in counted)
    assert sum(one.sprays for one in counted) == sum(one["sprays"] for one in told) + said
    canisters = [one["canister"] for one in told if one["canister"] is not None]
    assert len(canisters) + said // 4 == max((one.begun for one in counted), default=0)
    assert canisters == sorted(set(canisters))
    holds = plan.medicine.units_per_pack + 4
    by_canister: dict[int, int] = {}
    for one in counted:
        by_canister[one.begun] = by_canister.get(one.begun, 0) + one.units + one.sprays
    assert all(total <= holds for total in by_canister.values())


@SOME
@given(data=st.data())
def test_the_first_day_without_is_the_one_whose_reminder_asks_for_a_canister_that_is_not_there(
    data: st.DataObject
) -> None:
    plan = data.draw(plans())
    record = data.draw(histories(plan))
    packs, first = plan.medicine.packs_on_hand, None
    spent = {(one.day, one.slot): one for one in Spending(plan, record, protocol())}
    for one in occasions(plan, record, protocol(), EARLY, LATE, doses_only=True):
        assert one.slot is not None
        entry = spent[one.day, one.slot]
        if entry.opened:
            packs = max(packs, entry.begun - entry.begins)
        if entry.begins and (one.facts["prime"]["canister"] or 0) > packs:
            first = one.day
            break
    assert runs_out(plan, record, protocol(), START).first_day_without == first


@SOME
@given(plan=plans())
def test_puffs_of_all_canisters_are_enough_for_the_doses_and_no_pack_too_many(plan: Plan) -> None:
    """Against the plain arithmetic of the label: full use of n - 1 canisters is less than the doses need, and what
    stays behind in each is less than the largest dose."""
    counted = list(Spending(plan, Record(), protocol()))
    need, per = sum(one.units for one in counted), plan.medicine.units_per_pack
    most = max(one.units for one in counted)
    canisters = counted[-1].begun
    assert -(-need // per) <= canisters <= -(-need // (per - most + 1))
    assert sum(one.sprays for one in counted) == 4 * canisters

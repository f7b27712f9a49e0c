"""Properties of plans, mixes and timelines that hold for every plan a clinician could sign."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from functools import cache
from itertools import islice, pairwise

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from planprint import print_plan

from scheduler.amounts import Amount, Strength, parse_amount, total
from scheduler.batch import batch
from scheduler.dayplan import minimum_gap, place, since_waking
from scheduler.errors import Refused
from scheduler.occasions import OccasionKind
from scheduler.plan import CheckInTime, Dose, Medicine, Patient, Phase, Plan, Season, Step, dose_in_force
from scheduler.planfile import read_plan
from scheduler.protocol import ClinicProtocol, load_protocol
from scheduler.recipe import mix
from scheduler.record import Entry, EntryKind, Record
from scheduler.spending import Spending
from scheduler.supply import released, runs_out, usage
from scheduler.timeline import next_occasion, occasions

ZONES = ("America/Denver", "Europe/Madrid", "Pacific/Auckland", "Asia/Kathmandu", "Australia/Lord_Howe", "UTC")
START, LATE = date(2026, 1, 5), datetime(2031, 1, 1, tzinfo=UTC)
EARLY = datetime(2020, 1, 1, tzinfo=UTC)
SOME = settings(max_examples=40, deadline=None)


@cache
def protocol() -> ClinicProtocol:
    return load_protocol()


@st.composite
def days_of_patients(draw: st.DrawFn) -> tuple[time, time, tuple[time, ...]]:
    """Waking, sleeping and meals of a day of 13 to 18 waking hours, night workers included."""
    wakes, awake = draw(st.integers(0, 95)) * 15, draw(st.integers(52, 72)) * 15
    meals = sorted(draw(st.sets(st.integers(1, awake // 15 - 4), min_size=1, max_size=4)))

    def clock(minutes: int) -> time:
        return time(minutes // 60 % 24, minutes % 60)

    return clock(wakes), clock(wakes + awake), tuple(clock(wakes + 15 * meal) for meal in meals)


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """A plan of one to four phases with gates, seasons and any times a day; every dose inside the bounds."""
    wakes, sleeps, meals = draw(days_of_patients())
    unit = Amount.of(
        *draw(st.sampled_from([("0.25", "mg"), ("0.5", "mg"), ("220", "microgram"), ("110", "microgram")]))
    )
    ampoule = unit.shown_in == "mg"
    most = 4 if not ampoule or unit.micrograms == 250 else 2

    def doses(times: int) -> tuple[Dose, ...]:
        counts = [draw(st.integers(1, most)) for _ in range(times)]
        return tuple(Dose(unit * count, count) for count in counts)

    phases = []
    for number in range(draw(st.integers(1, 4))):
        steps = tuple(
            Step(draw(st.integers(1, 40)), doses(draw(st.integers(1, 4 if not ampoule else 3))))
            for _ in range(draw(st.integers(1, 3)))
        )
        gate = f"gate {number}" if number and draw(st.booleans()) else None
        phases.append(Phase(f"phase {number}", steps, START if number == 0 else None, gate))
    if draw(st.booleans()):
        phases[-1] = replace(phases[-1], steps=(*phases[-1].steps[:-1], replace(phases[-1].steps[-1], days=None)))
    seasons = []
    if draw(st.booleans()):
        ends = [draw(st.tuples(st.integers(1, 12), st.integers(1, 28))) for _ in range(2)]
        assume(ends[0] != ends[1])
        dose = doses(1)[0]
        seasons.append(Season(ends[0], ends[1], draw(st.integers(0, 40)), (dose,) * draw(st.integers(1, 2))))
    patient = Patient(
        "PR-001",
        "Sam",
        40,
        draw(st.sampled_from(ZONES)),
        "en",
        wakes,
        sleeps,
        meals,
        170,
        draw(st.sampled_from([None, Decimal(61), Decimal("70.5")])),
        draw(st.sampled_from(["patient", "parent"])),
        draw(st.sampled_from([(), ("diabetes", 'a "quoted" word')])),
        ("metformin",) * draw(st.integers(0, 1)),
    )
    medicine = Medicine(
        "budesonide" if ampoule else "fluticasone",
        "ampoule" if ampoule else "inhaler",
        unit,
        Decimal(2) if ampoule else None,
        draw(st.integers(20, 120)),
        draw(st.integers(0, 9)),
        draw(st.sampled_from(["sweetener", "honey", "maple syrup"])) if ampoule else None,
    )
    every = [step.doses for phase in phases for step in phase.steps] + [season.doses for season in seasons]
    most = max(len(one) for one in every)
    times = place(patient, most, protocol()).times
    slots = since_waking(patient, times)  # a day without room for its doses is refused by the plan file
    assume(
        all(
            (later - earlier) * timedelta(minutes=1) >= minimum_gap(most, protocol())
            for earlier, later in pairwise([*slots, slots[0] + 1440])
        )
    )
    return Plan(
        patient,
        medicine,
        tuple(phases),
        CheckInTime(draw(st.integers(0, 6)), wakes),
        "Dr R. Okafor",
        date(2026, 1, 2),
        tuple(seasons),
        draw(st.sampled_from([None, 56])),
        times,
    )


@SOME
@given(plan=plans())
def test_a_plan_printed_and_read_again_is_the_same_plan(plan: Plan) -> None:
    daily = [total([dose.amount for dose in step.doses]) for phase in plan.phases for step in phase.steps]
    assume(all(day <= parse_amount("4 mg") for day in daily) or plan.medicine.form == "inhaler")
    assume(all(day <= parse_amount("2 mg") for day in daily) or plan.medicine.form == "ampoule")
    again = read_plan(print_plan(plan), "printed", protocol())
    assert replace(again, text="") == plan
    assert print_plan(again) == print_plan(plan)


@SOME
@given(plan=plans(), wait=st.integers(0, 60))
def test_doses_keep_apart_and_windows_never_overlap(plan: Plan, wait: int) -> None:
    """On every instant of the timeline; a clock change may take an hour from a night worker's interval."""
    record = released(plan, Record(), wait)
    found = [
        one
        for one in occasions(plan, record, protocol(), EARLY, datetime(2026, 12, 31, tzinfo=UTC))
        if one.kind is OccasionKind.DOSE
    ]
    window = protocol().span("window.no_food")
    for before, after in pairwise(found):
        assert after.at - before.at >= minimum_gap(len(plan.dose_times), protocol()) - timedelta(hours=1)
        assert after.at - before.at >= window
        assert datetime.fromisoformat(before.facts["closes"]) > before.at
        assert datetime.fromisoformat(before.facts["closes"]) < after.at


@SOME
@given(plan=plans())
def test_the_supply_is_the_sum_over_the_timeline(plan: Plan) -> None:
    record = released(plan, Record(), 0)
    supplies = usage(plan, Record(), protocol(), START)
    days = sum(use.days or 0 for use in supplies.phases)
    doses = [
        one.dose
        for one in occasions(plan, record, protocol(), EARLY, LATE, doses_only=True)
        if one.dose and one.day < START + timedelta(days=days)
    ]
    assert supplies.total.units == sum(dose.units for dose in doses)
    assert supplies.total.doses == len(doses)
    assert total([dose.amount for dose in doses]) == plan.medicine.unit_amount * supplies.total.units


@SOME
@given(plan=plans())
def test_the_first_day_without_is_the_first_whose_doses_cannot_be_made(plan: Plan) -> None:
    out = runs_out(plan, Record(), protocol(), START)
    packs, first = plan.medicine.packs_on_hand, None
    left = packs * plan.medicine.units_per_pack
    until = (
        LATE
        if out.first_day_without is None
        else datetime.combine(out.first_day_without, time(), UTC) + timedelta(days=3)
    )
    for one in occasions(plan, Record(), protocol(), EARLY, until, doses_only=True):
        assert one.dose is not None
        left -= one.dose.units
        if (one.facts.get("prime", {}).get("canister") or 0) > packs or (
                plan.medicine.form == "ampoule" and left < 0):
            first = one.day
            break
    assert first == out.first_day_without or (
        first is None and out.first_day_without is not None and out.first_day_without > LATE.date()
    )


@SOME
@given(plan=plans(), wait=st.integers(0, 60))
def test_what_the_doses_spend_is_what_is_in_force_each_day(plan: Plan, wait: int) -> None:
    """Also past the end of a phase that waits for its gate, and in every season; looked up day by day here."""
    for record in (Record(), released(plan, Record(), wait)):
        spent: dict[date, list[int]] = {}
        for one in islice(Spending(plan, record, protocol()), 600):
            spent.setdefault(one.day, []).append(one.units)
        for day in list(spent)[:-1]:
            found = dose_in_force(plan, record, day)
            assert found is not None and spent[day] == [dose.units for dose in found.doses]
        assert list(spent) == [START + timedelta(days=number) for number in range(len(spent))]


@SOME
@given(plan=plans(), data=st.data())
def test_the_timeline_does_not_depend_on_how_it_is_cut(plan: Plan, data: st.DataObject) -> None:
    """Asked for in one piece, in two, or one by one: the same occasions in the same order, keys unique."""
    record = released(plan, Record(), data.draw(st.integers(0, 40)))
    whole = list(occasions(plan, record, protocol(), EARLY, datetime(2026, 8, 1, tzinfo=UTC)))
    assert len({one.key for one in whole}) == len(whole)
    assert [one.at for one in whole] == sorted(one.at for one in whole)
    cut = whole[data.draw(st.integers(0, len(whole) - 1))].at
    parts = [
        *occasions(plan, record, protocol(), EARLY, cut),
        *occasions(plan, record, protocol(), cut, datetime(2026, 8, 1, tzinfo=UTC)),
    ]
    assert parts == whole
    after = whole[data.draw(st.integers(0, len(whole) - 1))]
    follows = next_occasion(plan, record, protocol(), after.at)
    later = [one for one in whole if one.at > after.at]
    assert not later or follows == later[0]


@SOME
@given(plan=plans(), data=st.data())
def test_every_change_of_dose_is_told_before_it_is_taken(plan: Plan, data: st.DataObject) -> None:
    """Whatever is released and paused when: no dose differs from the one before it without a message in between."""
    record = Record()
    for phase in plan.phases:
        if phase.gate and data.draw(st.booleans()):
            told = datetime(2026, 1, 5, tzinfo=UTC) + timedelta(hours=data.draw(st.integers(0, 24 * 150)))
            record += (Entry(EntryKind.GATE_RELEASED, told, phase.gate, {"from": told.date().isoformat()}),)
    if data.draw(st.booleans()):
        begin = datetime(2026, 1, 6, tzinfo=UTC) + timedelta(hours=data.draw(st.integers(0, 24 * 100)))
        end = begin + timedelta(hours=data.draw(st.integers(1, 24 * 20)))
        if data.draw(st.booleans()):
            record += (Entry(EntryKind.PAUSED, begin), Entry(EntryKind.RESUMED, end))
        else:
            record += (Entry(EntryKind.PAUSED, begin, facts={"until": end.date().isoformat()}),)
    in_force = None
    for one in occasions(plan, record, protocol(), EARLY, datetime(2026, 10, 1, tzinfo=UTC)):
        if one.kind is OccasionKind.STEP_CHANGE:
            in_force = [(dose["amount"], dose["units"]) for dose in one.facts["doses"]]
        elif one.kind is OccasionKind.DOSE and one.dose is not None and one.slot is not None:
            if in_force is None:  # the first dose ever asked for is no change, even where a pause took the first step
                first = dose_in_force(plan, record, one.day)
                assert first is not None
                in_force = [(str(dose.amount), dose.units) for dose in first.doses]
            assert (str(one.dose.amount), one.dose.units) == in_force[one.slot]
            assert one.facts["of"] == len(in_force)


@given(
    micrograms=st.sampled_from([250, 500, 1000]),
    quarters=st.integers(1, 8),
    doses=st.integers(1, 10),
    vehicle=st.sampled_from(["sweetener", "honey", "maple syrup", "apple sauce"]),
)
def test_mixing_conserves_the_medicine(micrograms: int, quarters: int, doses: int, vehicle: str) -> None:
    amount = Amount(Decimal(250 * quarters))
    ampoule = Strength(Amount(Decimal(micrograms)), Decimal(2))
    try:
        made = mix("budesonide", amount, ampoule, vehicle, protocol(), doses)
    except Refused:
        return
    assert made.ampoules is not None and made.total_ml is not None and made.dose_ml is not None
    assert ampoule.amount * made.ampoules == amount * doses + (made.leftover or Amount(Decimal(0)))
    assert made.medicine_ml == 2 * made.ampoules
    assert (made.leftover or Amount(Decimal(0))) < ampoule.amount
    in_a_dose = float(made.dose_ml / made.total_ml) * float((ampoule.amount * made.ampoules).micrograms)
    assert abs(in_a_dose / float(amount.micrograms) - 1) <= 0.05 + 1e-9
    if made.part:
        assert abs(in_a_dose / float(amount.micrograms) - 1) * 100 <= abs(float(made.error_percent)) + 0.051
    else:
        assert in_a_dose == float(amount.micrograms)


@SOME
@given(plan=plans(), day=st.integers(0, 100), ahead=st.integers(0, 14))
def test_batches_hold_exactly_the_doses_of_their_days(plan: Plan, day: int, ahead: int) -> None:
    assume(plan.medicine.form == "ampoule")
    clinic = _mixes_ahead(14)
    record = released(plan, Record(), 0)
    try:
        found = batch(plan, record, clinic, START + timedelta(days=day), ahead)
    except Refused:
        return
    until = datetime.combine(found.last_day, time(), UTC) + timedelta(days=3)
    inside = [
        one.dose
        for one in occasions(plan, record, clinic, EARLY, until, doses_only=True)
        if one.dose and found.made_on <= one.day <= found.last_day
    ]
    assert found.amount == total([dose.amount for dose in inside])
    assert (
        found.ampoules
        == sum(dose.units for dose in inside)
        == sum(part.count * (part.amount.units_of(plan.medicine.unit_amount) or 0) for part in found.parts)
    )
    assert (found.last_day - found.made_on).days <= ahead
    changes = {one.day for one in occasions(plan, record, clinic, EARLY, until) if one.kind is OccasionKind.STEP_CHANGE}
    assert not [one for one in changes if found.made_on < one <= found.last_day]


@cache
def _mixes_ahead(days: int) -> ClinicProtocol:
    from pathlib import Path

    from scheduler.protocol import read_protocol

    text = (Path(__file__).parents[2] / "scheduler" / "protocol_example.toml").read_text(encoding="utf-8")
    return read_protocol(text.replace("ahead_limit = { value = 0,", f"ahead_limit = {{ value = {days},"), "test")

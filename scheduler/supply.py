"""What a course uses, what is on hand, and when it runs out.

For the run-out a dose counts what the record says of it: what was taken, nothing when skipped, and what was planned
when it is unknown or not answered, so that a warning comes rather too early. Ampoules are counted one by one; of an
inhaler the canisters, since each is left with what no longer makes a dose (`canister.py`).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, time, timedelta
from decimal import Decimal
from functools import cache

from scheduler.canister import Canisters
from scheduler.localtime import instant, local
from scheduler.plan import Dose, Plan, days_of, phase_dates
from scheduler.protocol import ClinicProtocol
from scheduler.recipe import preparation
from scheduler.record import DOSE_ANSWERS, Entry, EntryKind, Record
from scheduler.spending import Doses, Spending, Spent, course, doses_of

MONTH = 28  # days by which an open-ended phase is counted


@dataclass(frozen=True, slots=True)
class RunOut:
    """first_day_without: the first day whose doses cannot all be made, None when the course ends before.

    on_confirmed: the same when past doses that were never answered count as not taken. on_hand: units that came in,
    in all. refills: how many times supply was added. remind_on: the days on which to say so, earliest first; where a
    change of the plan has brought the day nearer (sooner) none is before the change, which is told at once.
    """

    first_day_without: date | None
    on_confirmed: date | None
    on_hand: int
    refills: int
    remind_on: tuple[date, ...] = ()
    sooner: bool = False


@dataclass(frozen=True, slots=True)
class Use:
    """What a stretch of the course uses. `days` is None for 'all' when the course is open-ended.

    packs: whole boxes or canisters that these doses need by themselves. sprays: into the air, to get a new canister
    ready; they are no units. vehicle_ml and sweetener packets as mixed dose by dose.
    """

    name: str
    days: int | None
    doses: int = 0
    units: int = 0
    packs: int = 0
    sprays: int = 0
    packets: int = 0
    vehicle_ml: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class Supplies:
    """Use by phase and in all, when every gate is released on its first day.

    An open-ended last phase counts its first 28 days; `onward` is what each further 28 days use (None: the course
    ends). latest: all in all when every gate waits for the protocol's `supply.gate_wait` (None: no gate). run_out: as
    the record stands.
    """

    phases: tuple[Use, ...]
    total: Use
    onward: Use | None
    latest: Use | None
    run_out: RunOut


def runs_out(plan: Plan, record: Record, protocol: ClinicProtocol, today: date, version: int = 1,
             look_until: date | None = None, confirmed: bool = True) -> RunOut:
    """When what is on hand is used up, as plan and record stand on `today`; not looked for past `look_until`.

    confirmed False: not counted a second time by what was confirmed taken. For a patient who has not joined nothing
    counts before `today`.
    """
    start, zone = plan.phases[0].starts, plan.patient.time_zone
    assert start is not None
    waits = not record.of(EntryKind.CONSENTED, *DOSE_ANSWERS) and today > start
    since = instant(today, time(0), zone) if waits else None
    doses = Doses(Spending(plan, record, protocol, version, since=since)) if waits else doses_of(
        plan, record, protocol, version)
    added = record.of(EntryKind.SUPPLY_ADDED)
    signed, same = doses.spending.signed, doses.spending.same
    packs = plan.medicine.packs_on_hand + sum(int(entry.facts.get("packs", 0)) for entry in added
                                              if same or signed is None or entry.at > signed)
    first = _first_without(plan, doses, packs, look_until)
    sooner = first is not None and _sooner(record, version, first)
    floor = max(start, local(signed, zone).date()) if sooner and signed else start
    leads = (protocol.span("supply.lead"), protocol.span("supply.remind_again"))
    days = sorted({max(floor, first - lead) for lead in leads}) if first else []
    sure = Spending(plan, record, protocol, version, confirmed_before=today, since=since)
    told = _first_without(plan, sure, packs, look_until) if confirmed else None
    return RunOut(first, told, packs * plan.medicine.units_per_pack, len(added), tuple(days), bool(sooner))


def _sooner(record: Record, version: int, first: date) -> bool:
    """Whether a changed plan uses the supply up earlier than the plan before would have, as its signature tells."""
    signature = record.signature(version) if version > 1 else None
    if signature is None or "first_day_without" not in signature.facts:
        return False
    before = signature.facts["first_day_without"]
    return before is None or first < date.fromisoformat(str(before))


def _first_without(plan: Plan, doses: Iterable[Spent], packs: int, look_until: date | None) -> date | None:
    left = packs * plan.medicine.units_per_pack
    for spent in doses:
        if look_until is not None and spent.day > look_until:
            return None
        if plan.medicine.form != "inhaler":
            left -= spent.units
            if left < 0:
                return spent.day
            continue
        if spent.opened:  # somebody has begun it, so there was one
            packs = max(packs, spent.begun - spent.begins)
        if spent.begins and spent.begun > packs:
            return spent.day
    return None


def usage(plan: Plan, record: Record, protocol: ClinicProtocol, today: date, version: int = 1) -> Supplies:
    """What the whole course uses, phase by phase, and when the supply on hand runs out."""
    by_phase = _by_phase(plan, released(plan, record, 0))
    phases = tuple(_count(phase.name, inside, plan, protocol)
                   for phase, inside in zip(plan.phases, by_phase, strict=True))
    open_ended = days_of(plan.phases[-1]) is None
    total = replace(_count("all", _joined(by_phase), plan, protocol),
                    days=None if open_ended else sum(use.days or 0 for use in phases))
    late = None
    if any(phase.gate for phase in plan.phases):
        wait = protocol.span("supply.gate_wait").days
        waited = _by_phase(plan, released(plan, record, wait))
        late = replace(_count("all", _joined(waited), plan, protocol), days=total.days)
    onward = None
    if open_ended:
        steady = plan.phases[-1].steps[-1].doses
        onward = _count(f"each further {MONTH} days", [steady] * MONTH, plan, protocol)
    return Supplies(phases, total, onward, late, runs_out(plan, record, protocol, today, version))


def released(plan: Plan, record: Record, wait_days: int) -> Record:
    """The record, with every gate that still waits released so many days after its phase could first start."""
    for index, phase in enumerate(plan.phases):
        dates = phase_dates(plan, record)[index]
        if phase.gate and dates.begins is None and dates.earliest is not None:
            day = dates.earliest + timedelta(days=wait_days)
            told = instant(day - timedelta(days=1), time(12), plan.patient.time_zone)
            record += (
                Entry(EntryKind.GATE_RELEASED, told, phase.gate, {"phase": phase.name, "from": day.isoformat()}),
            )
    return record


def _by_phase(plan: Plan, record: Record) -> list[list[tuple[Dose, ...]]]:
    """The doses of each day, by phase; an open-ended last phase for its first days only."""
    days: list[list[tuple[Dose, ...]]] = [[] for _ in plan.phases]
    open_ended = days_of(plan.phases[-1]) is None
    for _, found in course(plan, record):
        if open_ended and found.phase_index == len(plan.phases) - 1:
            steps = plan.phases[-1].steps
            if found.day_of_phase > sum(step.days or 0 for step in steps) + MONTH:
                break
        days[found.phase_index].append(found.doses)
    return days


def _joined(by_phase: list[list[tuple[Dose, ...]]]) -> list[tuple[Dose, ...]]:
    return [doses for inside in by_phase for doses in inside]


def _count(name: str, days: list[tuple[Dose, ...]], plan: Plan, protocol: ClinicProtocol) -> Use:
    @cache
    def made(dose: Dose) -> tuple[int, Decimal]:
        found = preparation(plan, dose, protocol)
        return found.packets or 0, found.vehicle_ml or Decimal(0)

    taken = [dose for day in days for dose in day]
    units = sum(dose.units for dose in taken)
    packs, sprays = _canisters(taken, plan, protocol) if plan.medicine.form == "inhaler" else (_boxes(units, plan), 0)
    return Use(
        name,
        len(days),
        len(taken),
        units,
        packs,
        sprays,
        sum(made(dose)[0] for dose in taken),
        sum((made(dose)[1] for dose in taken), Decimal(0)),
    )


def _canisters(doses: list[Dose], plan: Plan, protocol: ClinicProtocol) -> tuple[int, int]:
    """Canisters that these doses need, taken without a rest, and the sprays that get them ready."""
    count, sprays = Canisters.of(plan, protocol), 0
    for dose in doses:
        priming = count.before(dose.units, rested=False)
        count.give(dose.units, priming)
        sprays += priming.counted
    return count.begun, sprays


def _boxes(units: int, plan: Plan) -> int:
    return -(-units // plan.medicine.units_per_pack)

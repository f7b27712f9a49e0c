"""What a course uses, what is on hand, and when it runs out.

For the run-out a dose counts what the record says of it: what was taken, nothing when skipped, and what was planned
when it is unknown or not answered, so that a warning comes rather too early. Priming sprays are extra to an inhaler's
count and cost nothing here; a single spray to prime it again is left out.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from functools import cache

from scheduler.localtime import instant
from scheduler.plan import Dose, InForce, Plan, days_of, dose_in_force, dose_instant, paused, phase_dates, times_for
from scheduler.protocol import ClinicProtocol
from scheduler.recipe import preparation
from scheduler.record import Entry, EntryKind, Record, taken_at

FAR = 3660  # days; no supply on hand is looked through for longer
MONTH = 28  # days by which an open-ended phase is counted


def dose_key(version: int, day: date, slot: int) -> str:
    """The key of a dose, stable within a plan version: 'v1:d:20260302:0'."""
    return f"v{version}:d:{day:%Y%m%d}:{slot}"


@dataclass(frozen=True, slots=True)
class RunOut:
    """first_day_without: the first day whose doses cannot all be made, None when the course ends before.

    on_confirmed: the same when past doses that were never answered count as not taken. on_hand: units that came in,
    in all. refills: how many times supply was added. remind_on: the days on which to say so, earliest first.
    """

    first_day_without: date | None
    on_confirmed: date | None
    on_hand: int
    refills: int
    remind_on: tuple[date, ...] = ()


@dataclass(frozen=True, slots=True)
class Use:
    """What a stretch of the course uses. `days` is None for 'all' when the course is open-ended.

    packs: whole boxes or canisters that hold the units. vehicle_ml and sweetener packets as mixed dose by dose.
    """

    name: str
    days: int | None
    doses: int = 0
    units: int = 0
    packs: int = 0
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

    confirmed False: not counted a second time by what was confirmed taken.
    """
    added = record.of(EntryKind.SUPPLY_ADDED)
    packs = plan.medicine.packs_on_hand + sum(int(entry.facts.get("packs", 0)) for entry in added)
    units = packs * plan.medicine.units_per_pack
    first = _first_without(plan, record, units, version, today, False, look_until)
    start = plan.phases[0].starts
    leads = (protocol.span("supply.lead"), protocol.span("supply.remind_again"))
    days = sorted({max(start, first - lead) for lead in leads}) if first and start else []
    told = _first_without(plan, record, units, version, today, True, look_until) if confirmed else None
    return RunOut(first, told, units, len(added), tuple(days))


def _first_without(plan: Plan, record: Record, units: int, version: int, today: date, confirmed: bool,
                   look_until: date | None) -> date | None:
    answers, left = record.dose_answers, units
    has_pause = bool(record.pauses)
    for day, found in course(plan, record):
        if look_until is not None and day > look_until:
            return None
        times = times_for(plan, len(found.doses)) if has_pause else ()
        for slot, dose in enumerate(found.doses):
            answer = answers.get(dose_key(version, day, slot))
            if answer is None and has_pause and paused(plan, record, dose_instant(plan, day, times[slot])):
                continue
            used = _used(answer, dose, confirmed and day < today)
            if used > left:
                return day
            left -= used
    return None


def _used(answer: Entry | None, dose: Dose, confirmed_only: bool) -> int:
    if answer is None or answer.kind is EntryKind.DOSE_UNKNOWN:
        return 0 if confirmed_only else dose.units
    if answer.kind is EntryKind.DOSE_SKIPPED:
        return 0
    return int(answer.facts.get("units", dose.units))


def course(plan: Plan, record: Record) -> Iterator[tuple[date, InForce]]:
    """Each day of the course with what is in force, from its start; ends with the course (or after FAR days)."""
    start = plan.phases[0].starts
    assert start is not None
    dates = phase_dates(plan, record)
    for number in range(FAR):
        found = dose_in_force(plan, record, start + timedelta(days=number), dates)
        if found is None:
            return
        yield start + timedelta(days=number), found


def usage(plan: Plan, record: Record, protocol: ClinicProtocol, today: date, version: int = 1) -> Supplies:
    """What the whole course uses, phase by phase, and when the supply on hand runs out."""
    phases = _by_phase(plan, released(plan, record, 0), protocol)
    open_ended = days_of(plan.phases[-1]) is None
    total = _sum("all", phases, plan, None if open_ended else sum(use.days or 0 for use in phases))
    late = None
    if any(phase.gate for phase in plan.phases):
        wait = protocol.span("supply.gate_wait").days
        late = _sum("all", _by_phase(plan, released(plan, record, wait), protocol), plan, total.days)
    onward = None
    if open_ended:
        steady = plan.phases[-1].steps[-1].doses
        onward = _count(f"each further {MONTH} days", MONTH, [steady] * MONTH, plan, protocol)
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


def _by_phase(plan: Plan, record: Record, protocol: ClinicProtocol) -> tuple[Use, ...]:
    days: list[list[tuple[Dose, ...]]] = [[] for _ in plan.phases]
    open_ended = days_of(plan.phases[-1]) is None
    for _, found in course(plan, record):
        if open_ended and found.phase_index == len(plan.phases) - 1:
            steps = plan.phases[-1].steps
            if found.day_of_phase > sum(step.days or 0 for step in steps) + MONTH:
                break
        days[found.phase_index].append(found.doses)
    return tuple(
        _count(phase.name, len(inside), inside, plan, protocol) for phase, inside in zip(plan.phases, days, strict=True)
    )


def _count(name: str, days: int, doses: list[tuple[Dose, ...]], plan: Plan, protocol: ClinicProtocol) -> Use:
    @cache
    def made(dose: Dose) -> tuple[int, Decimal]:
        found = preparation(plan, dose, protocol)
        return found.packets or 0, found.vehicle_ml or Decimal(0)

    taken = [dose for day in doses for dose in day]
    units = sum(dose.units for dose in taken)
    return Use(
        name,
        days,
        len(taken),
        units,
        _packs(units, plan),
        sum(made(dose)[0] for dose in taken),
        sum((made(dose)[1] for dose in taken), Decimal(0)),
    )


def _sum(name: str, uses: tuple[Use, ...], plan: Plan, days: int | None) -> Use:
    units = sum(use.units for use in uses)
    return replace(
        Use(name, days),
        doses=sum(use.doses for use in uses),
        units=units,
        packs=_packs(units, plan),
        packets=sum(use.packets for use in uses),
        vehicle_ml=sum((use.vehicle_ml for use in uses), Decimal(0)),
    )


def _packs(units: int, plan: Plan) -> int:
    return -(-units // plan.medicine.units_per_pack)


def sprays_to_prime(plan: Plan, record: Record, protocol: ClinicProtocol, at: datetime) -> int:
    """Sprays into the air before an inhaler's dose at `at`: new canister, or a long rest. 0 for ampoules."""
    if plan.medicine.form != "inhaler":
        return 0
    taken = [
        when
        for entry in record.dose_answers.values()
        if entry.kind is EntryKind.DOSE_TAKEN and (when := taken_at(entry)) <= at
    ]
    opened = [entry.at for entry in record.of(EntryKind.PACK_OPENED) if entry.at <= at]
    if not taken and not opened:
        return int(protocol.number("inhaler.prime_first"))
    if at - max(taken + opened) > protocol.span("inhaler.prime_after"):
        return int(protocol.number("inhaler.prime_again"))
    return 0

"""What a course uses, and when it runs out.

A dose counts what the record says of it: what was taken, nothing when skipped, and what was planned when it is unknown or not
answered, so that a warning comes rather too early. `on_confirmed` counts confirmed doses only, as the later end of the range.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from scheduler.plan import Dose, Plan, dose_in_force, dose_instant, paused, times_for
from scheduler.protocol import ClinicProtocol
from scheduler.record import DOSE_ANSWERS, Entry, EntryKind, Record

FAR = 3660              # days; no supply on hand lasts longer


def dose_key(version: int, day: date, slot: int) -> str:
    """The key of a dose, stable within a plan version: 'v1:d:20260302:0'."""
    return f"v{version}:d:{day:%Y%m%d}:{slot}"


@dataclass(frozen=True, slots=True)
class RunOut:
    """first_day_without: the first day whose doses cannot all be made, None when the course ends before.

    on_confirmed: the same when doses never answered are counted as not taken. on_hand: units that came in, in all.
    refills: how many times supply was added.
    """

    first_day_without: date | None
    on_confirmed: date | None
    on_hand: int
    refills: int


def runs_out(plan: Plan, record: Record, protocol: ClinicProtocol, today: date, version: int = 1) -> RunOut:
    """When what is on hand is used up, as the plan and the record stand on `today`."""
    added = record.of(EntryKind.SUPPLY_ADDED)
    packs = plan.medicine.packs_on_hand + sum(int(entry.facts.get("packs", 0)) for entry in added)
    units = packs * plan.medicine.units_per_pack
    return RunOut(_first_without(plan, record, units, version, today, False),
                  _first_without(plan, record, units, version, today, True), units, len(added))


def _first_without(plan: Plan, record: Record, units: int, version: int, today: date, confirmed: bool) -> date | None:
    answers, left = _answers(record), units
    has_pause = bool(record.of(EntryKind.PAUSED))
    for day, doses in course(plan, record):
        times = times_for(plan, len(doses)) if has_pause else ()
        for slot, dose in enumerate(doses):
            answer = answers.get(dose_key(version, day, slot))
            if answer is None and has_pause and paused(plan, record, dose_instant(plan, day, times[slot])):
                continue
            used = _used(answer, dose, confirmed and day < today)
            if used > left:
                return day
            left -= used
    return None


def _answers(record: Record) -> dict[str, Entry]:
    """The answer in force for every dose that has one (as `Record.dose_answer` gives it, in one pass)."""
    found: dict[str, Entry] = {}
    for entry in record.entries:
        if entry.kind in DOSE_ANSWERS:
            found[entry.about] = entry
        elif entry.kind is EntryKind.DOSE_CORRECTED:
            found.pop(entry.about, None)
    return found


def _used(answer: Entry | None, dose: Dose, confirmed_only: bool) -> int:
    if answer is None or answer.kind is EntryKind.DOSE_UNKNOWN:
        return 0 if confirmed_only else dose.units
    if answer.kind is EntryKind.DOSE_SKIPPED:
        return 0
    return int(answer.facts.get("units", dose.units))


def course(plan: Plan, record: Record) -> Iterator[tuple[date, tuple[Dose, ...]]]:
    """Each day of the course with its doses, from its start, as the record stands; ends with the course (or after FAR days)."""
    start = plan.phases[0].starts
    assert start is not None
    for number in range(FAR):
        found = dose_in_force(plan, record, start + timedelta(days=number))
        if found is None:
            return
        yield start + timedelta(days=number), found.doses

"""What the doses of a course take from the supply, one by one in their order: units, and sprays that ready an inhaler.

The one count behind the run-out, the use of a course and what a reminder tells of the inhaler. A dose counts what the
record says of it: what was taken, nothing when skipped, and what was planned when it is unknown or not answered.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, datetime, timedelta
from functools import lru_cache
from itertools import accumulate
from typing import NamedTuple

from scheduler.amounts import Amount, parse_amount
from scheduler.canister import Canisters, Priming
from scheduler.dayplan import minimum_gap
from scheduler.localtime import local
from scheduler.plan import Dose, InForce, Plan, dose_in_force, dose_instant, paused, phase_dates, times_for
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, Record, taken_at

FAR = 3660  # days; no supply on hand is looked through for longer
ONE = timedelta(days=1)
NOTHING = Priming()


def dose_key(version: int, day: date, slot: int) -> str:
    """The key of a dose, stable within a plan version: 'v1:d:20260302:0'."""
    return f"v{version}:d:{day.isoformat().replace('-', '')}:{slot}"


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


def _doses_by_day(plan: Plan, record: Record) -> Iterator[tuple[date, tuple[Dose, ...]]]:
    """The doses of each day of the course. Without a season they are looked up only where a step can begin or end."""
    start = plan.phases[0].starts
    assert start is not None
    dates = phase_dates(plan, record)
    borders = set()
    for phase, one in zip(plan.phases, dates, strict=True):
        if one.begins is not None:
            lengths = accumulate((step.days or 0 for step in phase.steps), initial=0)
            borders |= {one.begins + timedelta(days=days) for days in lengths}
    doses: tuple[Dose, ...] = ()
    for number in range(FAR):
        day = start + timedelta(days=number)
        if plan.seasons or day in borders:
            found = dose_in_force(plan, record, day, dates)
            if found is None:
                return
            doses = found.doses
        yield day, doses


class Spent(NamedTuple):
    """One dose of the course, in order.

    units: what it takes, 0 when it is not given. priming: what its reminder tells of the inhaler; only what comes with
    a dose that is given counts. opened: sprays for canisters that somebody said were begun since the dose before.
    begun: canisters begun so far, this dose included.
    """

    day: date
    slot: int
    units: int
    given: bool
    priming: Priming = NOTHING
    opened: int = 0
    begun: int = 0

    @property
    def begins(self) -> bool:
        """Whether a new canister is begun with this dose."""
        return self.given and self.priming.begins is not None and not self.priming.repeated

    @property
    def sprays(self) -> int:
        """Sprays into the air that count."""
        return self.opened + (self.priming.counted if self.given else 0)


class Spending:
    """The doses of a plan as its record stands, to be gone through once, lazily.

    confirmed_before: doses before that day that were never answered count as not taken. Nothing counts that was due
    before `since` (the patient joined then) unless it was answered. Under a changed plan the doses before its signature
    are those that were asked for under the plans before, in their units, as far as they took this medicine.
    """

    def __init__(self, plan: Plan, record: Record, protocol: ClinicProtocol, version: int = 1,
                 confirmed_before: date = date.min, since: datetime | None = None) -> None:
        self.plan, self.record, self.protocol, self.version = plan, record, protocol, version
        self.confirmed_before = confirmed_before
        self.count = Canisters.of(plan, protocol) if plan.medicine.form == "inhaler" else None
        self.gap = minimum_gap(max(1, len(plan.dose_times)), protocol)
        self.signed = record.signed_after(version)
        joined = record.of(EntryKind.CONSENTED)
        self.since = since if since is not None else joined[0].at if joined else None
        news = max((at for at in (self.signed, self.since) if at is not None), default=None)
        self.known_on = local(news, plan.patient.time_zone).date() + ONE if news else date.min
        self.since_day = local(self.since, plan.patient.time_zone).date() - ONE if self.since else date.min
        self.earlier, self.same = self._under_other_versions() if self.signed else ({}, True)
        self.before = self._told_before()
        self.opened = [entry for entry in record.of(EntryKind.PACK_OPENED)
                       if self.same or self.signed is None or entry.at > self.signed]

    def __iter__(self) -> Iterator[Spent]:
        answers = self.record.dose_answers
        yield from self._before_the_start()
        for day, doses in _doses_by_day(self.plan, self.record):
            for slot, before in self.earlier.get(day, ()):
                yield self._spent(day, slot, doses, before)
            key = dose_key(self.version, day, 0)[:-1]
            for slot in range(len(doses)):
                answer = answers.get(f"{key}{slot}")
                if answer is not None or self._asked(day, slot, len(doses)):
                    yield self._spent(day, slot, doses, answer)

    def _asked(self, day: date, slot: int, count: int) -> bool:
        """Whether a dose without an answer counts: not in a pause, nor when it was asked for by the plan before."""
        if day > self.known_on and not self.record.pauses:
            return True
        if day < self.since_day:
            return False
        at = self._due(day, slot, count)
        if paused(self.plan, self.record, at) or (self.since is not None and at <= self.since):
            return False
        if self.signed is None or day > self.known_on:
            return True
        if at <= self.signed:
            answered = self.earlier.get(day)
            if self.before is None or answered == []:
                return answered is None
            return slot < len(self.before) and slot not in [number for number, _ in answered or ()]
        return not self.record.taken_under_another(self.version, at, self.gap)

    def _due(self, day: date, slot: int, count: int) -> datetime:
        times = times_for(self.plan, max(count, slot + 1))
        return dose_instant(self.plan, day, times[min(slot, len(times) - 1)])

    def _spent(self, day: date, slot: int, doses: tuple[Dose, ...], answer: Entry | None) -> Spent:
        planned = self._planned(day, slot, doses, answer)
        units, given = _taken(answer, planned, day < self.confirmed_before)
        if self.count is None:
            return Spent(day, slot, units, given)

        def due() -> datetime:
            return self._due(day, slot, len(doses))

        opened = self._opened_before(due)
        rested = self.count.last is not None and _rested(self.count.last, self.count.rest, day, due)
        priming = self.count.before(planned, rested)
        if given:
            known = answer is None or answer.kind is EntryKind.DOSE_TAKEN
            self.count.give(units, priming, due() if answer is None else taken_at(answer), known)
        return Spent(day, slot, units, given, priming, opened, self.count.begun)

    def _planned(self, day: date, slot: int, doses: tuple[Dose, ...], answer: Entry | None) -> int:
        """Units that the dose was asked for with: what its entry tells; before the signature what was told then."""
        if answer is not None and "units" in answer.facts:
            return int(answer.facts["units"])
        if self.before and self.signed is not None and day <= self.known_on:
            other = answer is not None and not answer.about.startswith(f"v{self.version}:")
            if other or (answer is None and self._due(day, slot, len(doses)) <= self.signed):
                return self.before[min(slot, len(self.before) - 1)]
        return doses[min(slot, len(doses) - 1)].units

    def _told_before(self) -> list[int] | None:
        """Units of the doses of a day as last asked for before the signature; [] of another medicine, None: unknown."""
        signature = self.record.signature(self.version) if self.signed else None
        if signature is None or "before" not in signature.facts:
            return None
        told = signature.facts["before"]
        alike = all(_made_alike(self.plan, one["unit"], one["amount"], one["units"]) for one in told)
        return [int(one["units"]) for one in told] if alike else []

    def _opened_before(self, due: Callable[[], datetime]) -> int:
        assert self.count is not None
        sprays = 0
        while self.opened and self.opened[0].at <= due():
            sprays += self.count.opened(self.opened.pop(0).at)
        return sprays

    def _before_the_start(self) -> Iterator[Spent]:
        """What was answered under the plans before on days that the changed plan's course does not have."""
        start, first = self.plan.phases[0].starts, self.plan.phases[0].steps[0].doses
        for day in sorted(day for day in self.earlier if start is not None and day < start):
            for slot, before in self.earlier[day]:
                yield self._spent(day, slot, first, before)

    def _under_other_versions(self) -> tuple[dict[date, list[tuple[int, Entry]]], bool]:
        """Answers under the plans before, by day: slot and entry; and whether the last of them was of this medicine.
        Doses of another medicine or strength took none of this one."""
        found: dict[date, list[tuple[int, Entry]]] = {}
        own, same = f"v{self.version}:", True
        for key, entry in self.record.dose_answers.items():
            if key.startswith(own):
                continue
            if entry.kind is EntryKind.DOSE_TAKEN:
                same = _same_units(self.plan, entry)
            _, _, day, slot = key.split(":")
            of_day = found.setdefault(date.fromisoformat(day), [])
            if same:
                of_day.append((int(slot), entry))
        return {day: sorted(answers, key=lambda one: one[0]) for day, answers in found.items()}, same


class Doses:
    """The doses of a Spending, worked out as far as somebody has asked and kept."""

    def __init__(self, spending: Spending) -> None:
        self.spending = spending
        self._coming, self._found = iter(spending), list[Spent]()
        self._priming: dict[tuple[date, int], Priming] = {}

    def __iter__(self) -> Iterator[Spent]:
        number = 0
        while number < len(self._found) or self._next():
            yield self._found[number]
            number += 1

    def _next(self) -> bool:
        spent = next(self._coming, None)
        if spent is not None:
            self._found.append(spent)
            self._priming[spent.day, spent.slot] = spent.priming
        return spent is not None

    def priming(self, day: date, slot: int) -> Priming:
        """What the reminder of a dose tells of the inhaler."""
        while (not self._found or self._found[-1].day <= day) and self._next():
            pass
        return self._priming.get((day, slot), NOTHING)


def doses_of(plan: Plan, record: Record, protocol: ClinicProtocol, version: int = 1) -> Doses:
    """The doses of a plan as its record stands. One walk serves everybody who asks of the same record: it is kept with
    the record, which never changes."""
    kept = record.kept.get(version)
    if not isinstance(kept, Doses) or kept.spending.plan is not plan or kept.spending.protocol is not protocol:
        record.kept[version] = kept = Doses(Spending(plan, record, protocol, version))
    return kept


def _taken(answer: Entry | None, planned: int, confirmed: bool) -> tuple[int, bool]:
    """Units that a dose takes, and whether it is given. confirmed: only what was answered counts."""
    if answer is not None and answer.kind is EntryKind.DOSE_TAKEN:
        return planned, True
    if confirmed or (answer is not None and answer.kind is EntryKind.DOSE_SKIPPED):
        return 0, False
    return planned, True


def _rested(last: datetime, rest: timedelta, day: date, due: Callable[[], datetime]) -> bool:
    """Whether a dose comes more than `rest` after the last use; days near enough to be sure need no instant."""
    return day.toordinal() - last.toordinal() + 3 > rest.days and due() - last > rest


def _same_units(plan: Plan, taken: Entry) -> bool:
    """Whether a dose was made of the plan's own ampoules or puffs, as far as its entry tells."""
    return _made_alike(plan, str(taken.facts.get("unit", plan.medicine.unit_name)), str(taken.facts.get("amount", "")),
                       int(taken.facts.get("units", 0)))


def _made_alike(plan: Plan, unit: str, amount: str, units: int) -> bool:
    alike = not amount or not units or _amount(amount) == plan.medicine.unit_amount * units
    return unit == plan.medicine.unit_name and alike


@lru_cache(maxsize=256)
def _amount(text: str) -> Amount:
    return parse_amount(text)

"""Figures about one patient for the card, the chart and the panel: doses by day, adherence, scores. Pure."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal

from bot.case import Case
from scheduler.localtime import local
from scheduler.plan import Plan, dose_in_force, dose_instant, paused, phase_dates, times_for
from scheduler.record import DOSE_ANSWERS, Entry, EntryKind, Record
from scheduler.spending import dose_key


@dataclass(frozen=True, slots=True)
class Day:
    """One local day of the course: doses due (since joining, by now, not paused, not held), and what became of them."""

    day: date
    due: int
    taken: int
    skipped: int
    unknown: int
    daily_micrograms: Decimal


@dataclass(frozen=True, slots=True)
class Adherence:
    """doses_taken of doses_due; days_covered: days with every due dose confirmed, of days_due (0 to 1 as `covered`).

    The published proportion of days covered counts days with the medicine on hand (US quality alliance); here a day
    counts when its doses were confirmed, which is stricter.
    """

    doses_due: int
    doses_taken: int
    days_due: int
    days_covered: int

    @property
    def covered(self) -> float | None:
        return self.days_covered / self.days_due if self.days_due else None


def days(case: Case, now: datetime, last: int | None = None) -> Iterator[Day]:
    """The days of the course up to today, oldest first; only the `last` so many when given."""
    plan, record = case.plan, case.record
    today = local(now, plan.patient.time_zone).date()
    begins = phase_dates(plan, record)[0].begins
    if begins is None or begins > today:
        return
    first = begins if last is None else max(begins, today - timedelta(days=last - 1))
    joined = _joined(record, plan.patient.time_zone)
    answers = _answers(record)
    for offset in range((today - first).days + 1):
        day = first + timedelta(days=offset)
        found = dose_in_force(plan, record, day)
        if found is None:
            continue
        due = _due(plan, record, day, len(found.doses), now) if joined is not None and day >= joined else 0
        kinds = [_answer(answers, day, slot) for slot in range(len(found.doses))]
        held = kinds.count(EntryKind.DOSES_HELD)      # nobody was to take them
        yield Day(day, max(0, due - held), kinds.count(EntryKind.DOSE_TAKEN), kinds.count(EntryKind.DOSE_SKIPPED),
                  kinds.count(EntryKind.DOSE_UNKNOWN), found.daily.micrograms)


def adherence(case: Case, now: datetime, last: int | None = None) -> Adherence:
    """Over the whole course, or over the `last` so many days; doses not yet due do not count."""
    rows = [row for row in days(case, now, last) if row.due]
    return Adherence(sum(row.due for row in rows), sum(min(row.taken, row.due) for row in rows), len(rows),
                     sum(row.taken >= row.due for row in rows))


def scores_by_day(case: Case) -> list[tuple[date, int]]:
    """Check-in totals by local date, oldest first."""
    zone = case.plan.patient.time_zone
    found = ((entry.at, (entry.facts.get("score") or {}).get("total")) for entry in
             case.record.of(EntryKind.CHECK_IN_DONE))
    return [(local(at, zone).date(), int(total)) for at, total in found if total is not None]


def next_endoscopy(case: Case) -> date | None:
    """The day on which the plan's endoscopy is due; None when none is planned or it was recorded since the start."""
    begins = phase_dates(case.plan, case.record)[0].begins
    if begins is None or case.plan.endoscopy_after_days is None:
        return None
    done = (str(entry.facts.get("date", "")) for entry in case.record.of(EntryKind.ENDOSCOPY_DONE))
    if any(day >= begins.isoformat() for day in done):
        return None
    return begins + timedelta(days=case.plan.endoscopy_after_days)


def _joined(record: Record, zone: str) -> date | None:
    """The first local day on which the patient took part; nobody was asked about doses before."""
    first = min((entry.at for entry in record.of(EntryKind.CONSENTED, *DOSE_ANSWERS)), default=None)
    return None if first is None else local(first, zone).date()


def _due(plan: Plan, record: Record, day: date, count: int, now: datetime) -> int:
    """Doses of the day whose time has come and which no pause took away."""
    instants = [dose_instant(plan, day, at) for at in times_for(plan, count)]
    return sum(at <= now and not paused(plan, record, at) for at in instants)


def _answers(record: Record) -> dict[tuple[str, str], EntryKind | None]:
    """The answer in force by (date, slot) of the dose key, whatever the plan version was."""
    found: dict[tuple[str, str], EntryKind | None] = {}
    for entry in record.of(*DOSE_ANSWERS, EntryKind.DOSE_CORRECTED):
        parts = entry.about.split(":")
        if len(parts) >= 2:
            found[(parts[-2], parts[-1])] = _kind(entry)
    return found


def _kind(entry: Entry) -> EntryKind | None:
    """What an answer counts as: a dose held after an emergency is neither taken nor skipped."""
    if entry.kind is EntryKind.DOSE_CORRECTED:
        return None
    return EntryKind.DOSES_HELD if entry.facts.get("reason") == "held" else entry.kind


def _answer(answers: dict[tuple[str, str], EntryKind | None], day: date, slot: int) -> EntryKind | None:
    parts = dose_key(1, day, slot).split(":")
    return answers.get((parts[-2], parts[-1]))

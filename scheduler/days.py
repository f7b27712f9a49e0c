"""The occasions of single days of one patient, from plan and record. Pure; `timeline.py` puts them in order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from scheduler.amounts import Amount, parse_amount
from scheduler.dayplan import minimum_gap
from scheduler.latedose import closes_at
from scheduler.localtime import instant, local
from scheduler.occasions import Occasion, OccasionKind
from scheduler.plan import (
    Dose,
    InForce,
    PhaseDates,
    Plan,
    dose_in_force,
    dose_instant,
    in_season,
    paused,
    phase_dates,
    times_for,
)
from scheduler.protocol import ClinicProtocol
from scheduler.record import EntryKind, Record
from scheduler.spending import dose_key, doses_of
from scheduler.supply import RunOut, runs_out

ONE = timedelta(days=1)
SOON = timedelta(minutes=1)  # how long after a late release or resumption its message is due


@dataclass
class Days:
    """Makes the occasions of single days; keeps what holds for all of them."""

    plan: Plan
    record: Record
    protocol: ClinicProtocol
    version: int
    after: datetime
    until: datetime

    def __post_init__(self) -> None:
        self.looked_until = date.min
        self.lead = max(self.protocol.span("supply.lead"), self.protocol.span("supply.remind_again")) + ONE
        self.dates: tuple[PhaseDates, ...] = phase_dates(self.plan, self.record)
        start = self.plan.phases[0].starts
        assert start is not None
        self.start = start
        self.known: dict[date, InForce | None] = {}
        signed = self.record.signature(self.version) if self.version > 1 else None
        self.signed = signed if signed and "before" in signed.facts else None   # what was told before it, is known
        self.low: RunOut | None = None

    def in_force(self, day: date) -> InForce | None:
        if day not in self.known:
            self.known[day] = dose_in_force(self.plan, self.record, day, self.dates)
        return self.known[day]

    def over(self, day: date) -> bool:
        """Whether the course ended before `day` (season's end and the last change included)."""
        return day > self.start + ONE and self.in_force(day - ONE) is None

    def on(self, day: date, supply: bool = True) -> Iterator[Occasion]:
        """All occasions that belong to the patient's `day`, in no order."""
        yield from self._notice(day)
        found = self.in_force(day)
        if found is None:
            return
        yield from self._change(day, found)
        yield from self._doses(day, found)
        yield from self._weekly(day, found)
        yield from self._for_care(day, found)
        if supply:
            yield from self._supply(day, found)
        yield from self._seasons(day, found)

    def doses_on(self, day: date) -> Iterator[Occasion]:
        """The doses alone: what a reply about a dose asks for, without counting supply and the rest."""
        found = self.in_force(day)
        if found is not None:
            yield from self._doses(day, found)

    def _at(self, day: date, key: str) -> datetime:
        return instant(day, self.protocol.clock_time(key), self.plan.patient.time_zone)

    def _make(self, kind: OccasionKind, at: datetime, day: date, key: str, found: InForce, **facts: Any) -> Occasion:
        week = (found.day_of_course - 1) // 7 + 1
        return Occasion(
            kind,
            at,
            day,
            f"v{self.version}:{key}",
            found.phase.name,
            found.step,
            facts={"week": week, "day_of_phase": found.day_of_phase, "reason": found.reason, **facts},
        )

    def _doses(self, day: date, found: InForce) -> Iterator[Occasion]:
        times = times_for(self.plan, len(found.doses))
        for slot, (dose, at) in enumerate(zip(found.doses, times, strict=True)):
            due = dose_instant(self.plan, day, at)
            if paused(self.plan, self.record, due):
                continue
            closes = closes_at(self.plan, self.record, self.protocol, day, slot, due)
            facts = {
                **self._dose_facts(dose),
                "week": (found.day_of_course - 1) // 7 + 1,
                "day_of_phase": found.day_of_phase,
                "reason": found.reason,
                "of": len(found.doses),
                "bedtime": slot + 1 == len(found.doses),
                "closes": closes.isoformat(),
            }
            if self.plan.medicine.form == "inhaler" and self.after < due <= self.until:
                known = doses_of(self.plan, self.record, self.protocol, self.version)
                facts |= known.priming(day, slot).as_facts()
            yield Occasion(
                OccasionKind.DOSE,
                due,
                day,
                dose_key(self.version, day, slot),
                found.phase.name,
                found.step,
                slot,
                dose,
                facts,
            )

    def _dose_facts(self, dose: Dose) -> dict[str, Any]:
        return {"amount": str(dose.amount), "units": dose.units, "unit": self.plan.medicine.unit_name}

    def _open(self, day: date, found: InForce) -> list[datetime]:
        """When the doses of the day are asked for: those that no pause takes away, and under a changed plan those
        after its signature that were not taken under the plan before."""
        due = (dose_instant(self.plan, day, at) for at in times_for(self.plan, len(found.doses)))
        asked = [at for at in due if not paused(self.plan, self.record, at)]
        if self.signed is None:
            return asked
        gap = minimum_gap(len(self.plan.dose_times), self.protocol)
        return [at for at in asked
                if at > self.signed.at and not self.record.taken_under_another(self.version, at, gap)]

    def _before(self, day: date) -> InForce | None:
        """What was in force on the last earlier day on which a dose was asked for; None when there is none under this
        plan."""
        first = local(self.signed.at, self.plan.patient.time_zone).date() - ONE if self.signed else self.start
        day -= ONE
        found = self.in_force(day)
        while found is not None and not self._open(day, found):
            day -= ONE
            found = self.in_force(day) if day >= first else None
        return found

    def asked_until(self, now: datetime) -> tuple[date | None, list[dict[str, Any]], str]:
        """The last day with a dose that was asked for by `now` (None: none was), its doses as facts, and their sum.

        Without one under this plan: what its signature says of the plan before; without that the first doses to come.
        """
        zone = self.plan.patient.time_zone
        today, joined = local(now, zone).date(), self.record.joined
        since = max((at for at in (joined, self.signed.at if self.signed else None) if at), default=None)
        day = max(today, self.start)
        first = max(self.start, local(since, zone).date() - ONE) if since else self.start
        while day >= first:
            found = self.in_force(day)
            if found and any(at <= now and (since is None or at > since) for at in self._open(day, found)):
                return day, [self._dose_facts(dose) for dose in found.doses], str(found.daily)
            day -= ONE
        if self.signed:
            return None, list(self.signed.facts["before"]), str(self.signed.facts["daily_before"])
        found = self.in_force(max(today, self.start))
        return (None, [self._dose_facts(dose) for dose in found.doses], str(found.daily)) if found else (None, [], "")

    def _changed(self, day: date) -> tuple[InForce, dict[str, Any]] | None:
        """What is in force on `day` and the facts of its step, when its doses are others than those before."""
        found = self.in_force(day)
        opens = self._open(day, found) if found else []
        if found is None or not opens:
            return None
        before = self._before(day)
        if before is not None:
            was = [self._dose_facts(dose) for dose in before.doses]
            return None if before.doses == found.doses else (found, self._step_facts(
                found, day, _why(before, found), was, before.daily))
        told = self.signed.facts if self.signed else {}
        doses = [self._dose_facts(dose) for dose in found.doses]
        if not told.get("before") or (told["before"] == doses and told["announced"] in (None, doses)
                                      and told["understood"]):
            return None
        first = local(opens[0], self.plan.patient.time_zone)
        return found, self._step_facts(found, day, "plan", told["before"], parse_amount(told["daily_before"]),
                                       first_clock=f"{first:%H:%M}")

    def _step_facts(self, found: InForce, day: date, why: str, before: list[dict[str, Any]], daily: Amount,
                    **more: Any) -> dict[str, Any]:
        return {
            "reason": why,
            "from": day.isoformat(),
            "phase": found.phase.name,
            "before": before,
            "doses": [self._dose_facts(dose) for dose in found.doses],
            "times": [f"{at:%H:%M}" for at in times_for(self.plan, len(found.doses))],
            "daily_before": str(daily),
            "daily": str(found.daily),
            "rises": found.daily > daily,
            "step_key": f"v{self.version}:s:{day:%Y%m%d}",
            **more,
        }

    def _notice(self, day: date) -> Iterator[Occasion]:
        """The notice that belongs to `day`: about a change on the day after. A changed plan is told at once."""
        changed = self._changed(day + ONE)
        if changed is None:
            return
        found, facts = changed
        news, at = self._news(found, facts), self._at(day, "step.notice_time")
        if news is not None:
            at = news if facts["reason"] == "plan" and self._day_of(news) == day else max(at, news)
        if self._day_of(at) != day or paused(self.plan, self.record, at):
            return                                   # only on the very day is it known: the message of the day says so
        yield self._make(OccasionKind.STEP_NOTICE, at, day, f"n:{day + ONE:%Y%m%d}", found, **facts)

    def _change(self, day: date, found: InForce) -> Iterator[Occasion]:
        changed = self._changed(day)
        if changed is not None:
            at, facts = self._change_at(day, found, changed[1]), changed[1]
            yield self._make(OccasionKind.STEP_CHANGE, at, day, f"s:{day:%Y%m%d}", found, **facts)

    def _change_at(self, day: date, found: InForce, facts: dict[str, Any]) -> datetime:
        """Before the first dose; later, but not after the dose, when a release or a resumption came only then. A plan
        changed on the day itself is told at once."""
        first = self._open(day, found)[0]
        usual = first - self.protocol.span("step.change_before")
        news = self._news(found, facts)
        at_once = news is not None and facts["reason"] == "plan" and self._day_of(news) in (day, self._day_of(first))
        return usual if news is None or (news <= usual and not at_once) else min(news, first)

    def _day_of(self, at: datetime) -> date:
        return local(at, self.plan.patient.time_zone).date()

    def _news(self, found: InForce, facts: dict[str, Any]) -> datetime | None:
        """When the record last told what may have caused a change: the plan's signature, the phase's release, or the
        end of a pause."""
        release = self.record.gate_released(found.phase.gate) if found.phase.gate and found.day_of_phase == 1 else None
        told = [release] if release else []
        told += [self.signed] if self.signed and facts["reason"] == "plan" else []
        told += [
            entry
            for entry in self.record.of(EntryKind.RESUMED)
            if self._day_of(entry.at) == self._date_of(found)
        ]
        return max((entry.at + SOON for entry in told), default=None)

    def _date_of(self, found: InForce) -> date:
        return self.start + timedelta(days=found.day_of_course - 1)

    def _weekly(self, day: date, found: InForce) -> Iterator[Occasion]:
        check_in = self.plan.check_in
        at = dose_instant(self.plan, day, check_in.at)
        if day.weekday() == check_in.weekday and not paused(self.plan, self.record, at):
            yield self._make(OccasionKind.CHECK_IN, at, day, f"c:{day:%Y%m%d}", found)

    def _for_care(self, day: date, found: InForce) -> Iterator[Occasion]:
        at = self._at(day, "care.notice_time")
        if found.waiting_gate is not None:
            phase_index = found.phase_index + 1
            earliest = self.dates[phase_index].earliest
            assert earliest is not None
            waited, every = (day - earliest).days, self.protocol.span("gate.remind_every").days
            if waited % every == 0:
                yield self._make(
                    OccasionKind.GATE_WAITING,
                    at,
                    day,
                    f"g:{phase_index}:{waited // every}",
                    found,
                    gate=found.waiting_gate,
                    next_phase=self.plan.phases[phase_index].name,
                    days_waited=waited,
                )
        if found.day_of_course - 1 in {7 * int(week) for week in self.protocol.items("milestone.weeks")}:
            week = (found.day_of_course - 1) // 7
            yield self._make(OccasionKind.MILESTONE, at, day, f"m:{week}", found, completed_weeks=week)
        if self.plan.endoscopy_after_days is not None:
            due = self.start + timedelta(days=self.plan.endoscopy_after_days)
            late, every = (day - due).days, self.protocol.span("endoscopy.remind_every").days
            if late >= 0 and late % every == 0 and not self._endoscopy_done(at):
                yield self._make(
                    OccasionKind.ENDOSCOPY_DUE,
                    at,
                    day,
                    f"e:{late // every}",
                    found,
                    due=due.isoformat(),
                    days_late=late,
                )

    def _endoscopy_done(self, at: datetime) -> bool:
        zone = self.plan.patient.time_zone
        return any(
            entry.at <= at and str(entry.facts.get("date") or local(entry.at, zone).date()) >= self.start.isoformat()
            for entry in self.record.of(EntryKind.ENDOSCOPY_DONE)
        )

    def _supply(self, day: date, found: InForce) -> Iterator[Occasion]:
        at, signed = self._at(day, "step.notice_time"), self.record.signed_after(self.version)
        changed = signed + SOON if signed is not None and self._day_of(signed) == day else at
        if not (self.after < at <= self.until or self.after < changed <= self.until):
            return  # counting the supply is the dearest thing here: only when it could be told
        if self.low is None or day > self.looked_until - self.lead:
            self.looked_until = day + self.lead + timedelta(days=7)
            self.low = runs_out(
                self.plan, self.record, self.protocol, self.start, self.version,
                look_until=self.looked_until, confirmed=False,
            )
        without = self.low.first_day_without
        at = changed if self.low.sooner else at  # the plan was changed today: told at once, not at the hour of notices
        if without is None or day not in self.low.remind_on or not self.after < at <= self.until:
            return
        if not paused(self.plan, self.record, at):
            yield self._make(
                OccasionKind.SUPPLY_LOW,
                at,
                day,
                f"u:{self.low.refills}:{self.low.remind_on.index(day)}",
                found,
                first_day_without=without.isoformat(),
                days_left=(without - day).days,
            )

    def _seasons(self, day: date, found: InForce) -> Iterator[Occasion]:
        at = self._at(day, "care.notice_time")
        for index, season in enumerate(self.plan.seasons):
            now, before = in_season(season, day), in_season(season, day - ONE)
            if now is not None and (before is None or day == self.start):
                yield self._make(
                    OccasionKind.SEASON_START,
                    at,
                    day,
                    f"b:{index}:{day:%Y%m%d}",
                    found,
                    last_day=now[1].isoformat(),
                    raises=found.season == index,
                )
            elif now is None and before is not None and day > self.start:
                yield self._make(OccasionKind.SEASON_END, at, day, f"a:{index}:{day:%Y%m%d}", found)


def _why(before: InForce, found: InForce) -> str:
    """Why the doses differ: 'season', 'season over', 'phase' or 'step'."""
    if found.season is not None and found.season != before.season:
        return "season"
    if before.season is not None and found.season is None:
        return "season over"
    return "step" if found.phase_index == before.phase_index else "phase"

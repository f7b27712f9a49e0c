"""What differs between two plans of one patient, one line a difference, as a clinician reads it; and what signing the
new one now would do. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime
from typing import Any

from bot.case import Case
from bot.conversation import steps
from bot.conversation.finding import next_dose
from scheduler.amounts import parse_amount, plain
from scheduler.lasttold import last_told
from scheduler.localtime import local
from scheduler.plan import Dose, Phase, Plan, Season, days_of
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind, Record
from scheduler.supply import runs_out


def differences(old: Plan, new: Plan) -> list[str]:
    """Each line: what, then the value before and after. Empty when nothing but the signature differs."""
    return [*_fields(old, new), *_phases(old, new), *_seasons(old, new)]


def in_practice(case: Case, new: Plan, version: int, now: datetime, protocol: ClinicProtocol) -> list[str]:
    """What signing `new` now would do: the first other dose and when, and the first day without medicine."""
    told = last_told(case.plan, case.record, protocol, case.row.plan_version, now)
    then = _signed(case, new, version, now, told)
    found = []
    step = steps.first_announced(then, now, protocol)
    if step is not None:
        facts = step.facts
        found.append(f"dose in force: {_told(facts['before'])} → {_told(facts['doses'])} from {facts['from']}, "
                     f"{facts['first_clock']}; the day {facts['daily_before']} → {facts['daily']}{_percent(facts)}")
    elif next_dose(then, now, protocol) is None:
        found.append("dose in force: none in the coming week")
    else:
        found.append("dose in force: stays as it is for now")
    today = local(now, new.patient.time_zone).date()
    out = _runs_out(then, today, protocol)
    before = told["first_day_without"]
    found.append(f"first day without medicine: {_supply(date.fromisoformat(before) if before else None)} → "
                 f"{_supply(out)}{_soon(out, today, protocol)}")
    return found


def first_day_without(case: Case, new: Plan, version: int, now: datetime, protocol: ClinicProtocol) -> date | None:
    """The first day without medicine if `new` were signed now as `version`."""
    told = last_told(case.plan, case.record, protocol, case.row.plan_version, now)
    return _runs_out(_signed(case, new, version, now, told), local(now, new.patient.time_zone).date(), protocol)


def _signed(case: Case, new: Plan, version: int, now: datetime, told: dict[str, Any]) -> Case:
    entry = Entry(EntryKind.PLAN_SIGNED, now, str(version), told)
    return replace(case, plan=new, row=replace(case.row, plan_version=version),
                   record=Record((*case.record.entries, entry)))


def _runs_out(then: Case, today: date, protocol: ClinicProtocol) -> date | None:
    return runs_out(then.plan, then.record, protocol, today, then.row.plan_version, confirmed=False).first_day_without


def _told(doses: Sequence[Mapping[str, Any]]) -> str:
    return " + ".join(f"{dose['amount']} ({dose['units']})" for dose in doses)


def _percent(facts: Mapping[str, Any]) -> str:
    """How much the day rises or falls; nothing between ampoules and puffs, which are not compared."""
    if facts["before"][0]["unit"] != facts["doses"][0]["unit"]:
        return ""
    change = 100 * parse_amount(facts["daily"]).micrograms / parse_amount(facts["daily_before"]).micrograms - 100
    return f" ({'+' if change > 0 else ''}{plain(change.quantize(1))} %)" if change else ""


def _supply(out: date | None) -> str:
    return out.isoformat() if out else "none"


def _soon(out: date | None, today: date, protocol: ClinicProtocol) -> str:
    if out is None or out - today > protocol.span("supply.lead"):
        return ""
    if out <= today:
        return " (by the count there is none now: ask)"
    return f" (in {(out - today).days} days: more is needed now)"


def _fields(old: Plan, new: Plan) -> Iterator[str]:
    before, after = dict(_values(old)), dict(_values(new))
    for name in dict.fromkeys((*before, *after)):
        if before.get(name) != after.get(name):
            yield f"{name}: {before.get(name, 'none')} → {after.get(name, 'none')}"


def _values(plan: Plan) -> Iterator[tuple[str, str]]:
    patient, medicine = plan.patient, plan.medicine
    yield "medicine", f"{medicine.name} {medicine.form}, {medicine.unit_amount} each"
    yield "vehicle", medicine.vehicle or "none"
    yield "mixed ahead", f"{medicine.mix_ahead_days} days"
    yield "pack", f"{medicine.units_per_pack} in a pack, {medicine.packs_on_hand} at the start"
    yield "age", f"{patient.age_years}"
    yield "time zone", patient.time_zone
    yield "language", patient.language
    yield "wakes and sleeps", f"{patient.wakes:%H:%M} to {patient.sleeps:%H:%M}"
    yield "meals", ", ".join(f"{meal:%H:%M}" for meal in patient.meals)
    yield "dose times", ", ".join(f"{at:%H:%M}" for at in plan.dose_times)
    yield "conditions", ", ".join(patient.conditions) or "none"
    yield "other medicines", ", ".join(patient.other_medicines) or "none"
    yield "check-in", f"weekday {plan.check_in.weekday + 1}, {plan.check_in.at:%H:%M}"
    yield "endoscopy due after", f"{plan.endoscopy_after_days or 0} days"


def _phases(old: Plan, new: Plan) -> Iterator[str]:
    before = {phase.name: phase for phase in old.phases}
    after = {phase.name: phase for phase in new.phases}
    for name in dict.fromkeys((*before, *after)):
        was = _phase(before[name]) if name in before else "none"
        becomes = _phase(after[name]) if name in after else "none"
        if was != becomes:
            yield f"phase {name}: {was} → {becomes}"


def _phase(phase: Phase) -> str:
    length = days_of(phase)
    steps = [f"{f'{step.days} days' if step.days else 'open-ended'} {_doses(step.doses)}" for step in phase.steps]
    parts = ["; ".join(steps)]
    if phase.starts:
        parts.append(f"from {phase.starts.isoformat()}")
    if phase.gate:
        parts.append(f"gate '{phase.gate}'")
    return ", ".join([*parts, f"{length} days in all" if length else "no end"])


def _seasons(old: Plan, new: Plan) -> Iterator[str]:
    if old.seasons != new.seasons:
        yield f"seasons: {_all(old.seasons)} → {_all(new.seasons)}"


def _all(seasons: tuple[Season, ...]) -> str:
    return "; ".join(
        f"{one.begins[0]:02}-{one.begins[1]:02} to {one.ends[0]:02}-{one.ends[1]:02}, {one.lead_days} days before, "
        f"{_doses(one.doses)}" for one in seasons) or "none"


def _doses(doses: tuple[Dose, ...]) -> str:
    return " + ".join(f"{dose.amount} ({dose.units})" for dose in doses)

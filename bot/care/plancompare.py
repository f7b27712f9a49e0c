"""What differs between two plans of one patient, one line a difference, as a clinician reads it. Pure."""

from __future__ import annotations

from collections.abc import Iterator

from scheduler.plan import Dose, Phase, Plan, Season, days_of


def differences(old: Plan, new: Plan) -> list[str]:
    """Each line: what, then the value before and after. Empty when nothing but the signature differs."""
    return [*_fields(old, new), *_phases(old, new), *_seasons(old, new)]


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

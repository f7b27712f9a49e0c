"""A plan written as a plan file again: read back, it is the same plan. Tapers are written as the steps they became."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import time

from scheduler.amounts import Strength, plain
from scheduler.plan import Dose, Phase, Plan, Season, Step

_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def print_plan(plan: Plan) -> str:
    """TOML in the plan file's format. `Plan.text`, the file as it was signed, is not looked at."""
    parts = [
        ["schema = 1"], _patient(plan), _medicine(plan), *(list(_phase(phase)) for phase in plan.phases),
        *(list(_season(season)) for season in plan.seasons),
        ["[check_in]", f"day = {quoted(_DAYS[plan.check_in.weekday])}", f"time = {_clock(plan.check_in.at)}"],
    ]
    if plan.endoscopy_after_days is not None:
        parts.append(["[endoscopy]", f"due_after = {_span(plan.endoscopy_after_days)}"])
    parts.append(["[signed]", f"by = {quoted(plan.signed_by)}", f"on = {plan.signed_on.isoformat()}"])
    return "\n\n".join("\n".join(lines) for lines in parts) + "\n"


def quoted(text: str) -> str:
    """A TOML basic string of printable text."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def _patient(plan: Plan) -> list[str]:
    patient = plan.patient
    lines = ["[patient]", f"reference = {quoted(patient.reference)}", f"call_me = {quoted(patient.call_me)}",
             f"age_years = {patient.age_years}"]
    if patient.height_cm is not None:
        lines.append(f"height_cm = {patient.height_cm}")
    if patient.weight_kg is not None:
        lines.append(f"weight_kg = {plain(patient.weight_kg)}")
    return [
        *lines, f"time_zone = {quoted(patient.time_zone)}", f"language = {quoted(patient.language)}",
        f"wakes = {_clock(patient.wakes)}", f"sleeps = {_clock(patient.sleeps)}", f"meals = {_clocks(patient.meals)}",
        f"writer = {quoted(patient.writer)}", f"conditions = {_texts(patient.conditions)}",
        f"other_medicines = {_texts(patient.other_medicines)}",
    ]


def _medicine(plan: Plan) -> list[str]:
    medicine = plan.medicine
    lines = [
        "[medicine]", f"name = {quoted(medicine.name)}", f"form = {quoted(medicine.form)}",
        f"strength = {quoted(str(Strength(medicine.unit_amount, medicine.unit_ml)))}",
        f"units_per_pack = {medicine.units_per_pack}", f"packs_on_hand = {medicine.packs_on_hand}",
    ]
    if medicine.vehicle is not None:
        lines += [f"vehicle = {quoted(medicine.vehicle)}", f"mix_ahead_days = {medicine.mix_ahead_days}"]
    return [*lines, f"dose_times = {_clocks(plan.dose_times)}"]


def _phase(phase: Phase) -> Iterator[str]:
    yield "[[phase]]"
    yield f"name = {quoted(phase.name)}"
    if phase.starts is not None:
        yield f"starts = {phase.starts.isoformat()}"
    if phase.gate is not None:
        yield f"gate = {quoted(phase.gate)}"
    for step in phase.steps:
        yield ""
        yield "[[phase.step]]"
        yield from _step(step)


def _step(step: Step) -> Iterator[str]:
    if step.days is not None:
        yield f"lasts = {_span(step.days)}"
    yield from _doses(step.doses)


def _doses(doses: tuple[Dose, ...]) -> Iterator[str]:
    if len(set(doses)) == 1:
        yield f"dose = {quoted(str(doses[0].amount))}"
        yield f"times_per_day = {len(doses)}"
    else:
        yield f"doses = {_texts(str(dose.amount) for dose in doses)}"


def _season(season: Season) -> Iterator[str]:
    yield "[[season]]"
    yield f'from = "{season.begins[0]:02}-{season.begins[1]:02}"'
    yield f'until = "{season.ends[0]:02}-{season.ends[1]:02}"'
    if season.lead_days:
        yield f"lead = {_span(season.lead_days)}"
    yield from _doses(season.doses)


def _span(days: int) -> str:
    return quoted(f"{days} days")


def _clock(at: time) -> str:
    return f'"{at:%H:%M}"'


def _clocks(times: Iterable[time]) -> str:
    return f"[{', '.join(_clock(at) for at in times)}]"


def _texts(texts: Iterable[str]) -> str:
    return f"[{', '.join(quoted(text) for text in texts)}]"

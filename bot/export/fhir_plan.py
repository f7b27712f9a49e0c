"""FHIR: the patient, the condition, and every signed plan version as a care plan with its medication request."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from bot.case import PatientState
from bot.export.fhir import CONDITION, Values, Writer, coded, filled, mass, quantity, text
from bot.ports import PlanVersion
from scheduler.plan import Dose, Phase, Plan, Step, phase_dates, times_for

_STATUS = {PatientState.PAUSED: "on-hold", PatientState.HELD: "active", PatientState.ENDED: "completed"}


def resources(writer: Writer) -> Iterator[Values]:
    """Patient, Condition, what the plan in force says about the patient, and each version's plan and prescription."""
    plan = writer.found.case.plan
    yield _patient(writer)
    yield _condition(writer, "", {"coding": [CONDITION], "text": "eosinophilic oesophagitis"},
                     "as the signed plan supposes; not a diagnosis made by a program")
    for name in plan.patient.conditions:
        yield _condition(writer, name, text(name), "as told in the signed plan")
    for name in plan.patient.other_medicines:
        yield writer.resource("MedicationStatement", name, status="active", subject=writer.patient,
                              medicationCodeableConcept=text(name), dateAsserted=plan.signed_on.isoformat())
    yield from _measures(writer)
    for version in writer.found.plans:
        yield _request(writer, version)
        yield _care_plan(writer, version)


def _patient(writer: Writer) -> Values:
    """The clinic's own reference and the nickname: no full name, no birth date is ever held."""
    who = writer.found.case.plan.patient
    return writer.resource(
        "Patient", identifier=[{"use": "usual", "type": text("the clinic's own reference"), "value": who.reference}],
        name=[{"use": "nickname", "text": who.call_me}],
        communication=[{"language": {"coding": [{"system": "urn:ietf:bcp:47", "code": who.language}]},
                        "preferred": True}])


def _condition(writer: Writer, key: str, code: Values, note: str) -> Values:
    return writer.resource("Condition", key, clinicalStatus=coded("condition-clinical", "active"), code=code,
                           subject=writer.patient, note=[text(note)])


def _measures(writer: Writer) -> Iterator[Values]:
    plan = writer.found.case.plan
    who = plan.patient
    for name, value, unit, code in (("age at signing", who.age_years, "year", "a"),
                                    ("height", who.height_cm, "cm", "cm"), ("weight", who.weight_kg, "kg", "kg")):
        if value is not None:
            yield writer.resource(
                "Observation", name, status="final", code=text(name), subject=writer.patient,
                effectiveDateTime=plan.signed_on.isoformat(), valueQuantity=quantity(value, unit, code))


def _status(writer: Writer, version: PlanVersion) -> str:
    """Of the plan in force: as the patient's state says. An older version was replaced."""
    row = writer.found.case.row
    if version.version != row.plan_version:
        return "revoked" if version.version < row.plan_version else "draft"
    return _STATUS.get(row.state, "active")


def _care_plan(writer: Writer, version: PlanVersion) -> Values:
    plan, key = version.plan, str(version.version)
    begins = plan.phases[0].starts
    seasons = [{"detail": {"status": "scheduled", "description": _season(plan, index)}}
               for index in range(len(plan.seasons))]
    return writer.resource(
        "CarePlan", key, status=_status(writer, version), intent="plan", subject=writer.patient,
        identifier=[{"value": f"{writer.found.reference} plan version {key}"}],
        title=f"Swallowed {plan.medicine.name}, plan version {key}", created=plan.signed_on.isoformat(),
        period={"start": begins.isoformat()} if begins else None, author={"display": plan.signed_by},
        addresses=[writer.ref("Condition")],
        activity=[{"reference": writer.ref("MedicationRequest", key)}, *seasons],
        note=[{"text": f"The plan as it was signed (TOML):\n\n{plan.text}"}] if plan.text else None)


def _season(plan: Plan, index: int) -> str:
    season = plan.seasons[index]
    doses = ", ".join(str(dose.amount) for dose in season.doses)
    return (f"Each year from {season.lead_days} days before {season.begins[1]:02}/{season.begins[0]:02} to "
            f"{season.ends[1]:02}/{season.ends[0]:02} (day/month): {doses} a day instead of the phase's doses, "
            "when that is more")


def _request(writer: Writer, version: PlanVersion) -> Values:
    """One dosage row per step in order; rows of one step whose doses differ share its sequence number."""
    plan, key = version.plan, str(version.version)
    status = {"revoked": "stopped"}.get(_status(writer, version), _status(writer, version))
    return writer.resource(
        "MedicationRequest", key, status=status, intent="order", subject=writer.patient,
        medicationCodeableConcept=text(medicine(plan)), authoredOn=plan.signed_on.isoformat(),
        requester={"display": plan.signed_by}, reasonReference=[writer.ref("Condition")],
        dosageInstruction=list(_dosage(writer, plan)))


def medicine(plan: Plan) -> str:
    """The generic name with form and strength: no trade name is ever held."""
    one = plan.medicine
    strength = str(one.unit_amount) + (f" / {one.unit_ml} mL" if one.unit_ml is not None else "")
    return f"{one.name}, {strength} per {one.unit_name}"


def units(plan: Plan, count: int) -> str:
    """'1 ampoule', '4 puffs'."""
    return f"{count} {plan.medicine.unit_name}{'' if count == 1 else 's'}"


def _dosage(writer: Writer, plan: Plan) -> Iterator[Values]:
    dates = phase_dates(plan, writer.found.case.record)
    sequence = 0
    for phase, when in zip(plan.phases, dates, strict=True):
        begins = when.begins
        for number, step in enumerate(phase.steps, 1):
            sequence += 1
            for frequency, dose, times in _doses(plan, step):
                yield _row(plan, phase, number, step, sequence, frequency, dose, times, begins)
            begins = begins + timedelta(days=step.days) if begins and step.days is not None else None


def _row(plan: Plan, phase: Phase, number: int, step: Step, sequence: int, frequency: int, dose: Dose, times: str,
         begins: date | None) -> Values:
    """Times of day stand in the text: FHIR's timeOfDay does not go with frequency and period, nor with `when`."""
    bounds: Values = {}
    if begins is not None:
        ends = {"end": (begins + timedelta(days=step.days - 1)).isoformat()} if step.days is not None else {}
        bounds = {"boundsPeriod": {"start": begins.isoformat()} | ends}
    elif step.days is not None:
        bounds = {"boundsDuration": quantity(step.days, "day", "d")}
    waits = text(f"only once the care team has released '{phase.gate}'") if phase.gate and begins is None else None
    return filled({
        "sequence": sequence,
        "text": f"{phase.name}, step {number}: {dose.amount} ({units(plan, dose.units)}), swallowed, "
                f"{frequency} a day, at {times} ({plan.patient.time_zone})",
        "additionalInstruction": [waits] if waits else None,
        "timing": {"repeat": {**bounds, "frequency": frequency, "period": 1, "periodUnit": "d"}},
        "asNeededBoolean": False, "route": text("swallowed"),
        "doseAndRate": [{"doseQuantity": mass(dose.amount)}]})


def _doses(plan: Plan, step: Step) -> Iterator[tuple[int, Dose, str]]:
    """(times a day, dose, clock times): one row when all doses of the day are equal, else one for each."""
    clocks = [f"{at:%H:%M}" for at in times_for(plan, len(step.doses))]
    if len(set(step.doses)) == 1:
        yield len(step.doses), step.doses[0], ", ".join(clocks)
        return
    for dose, clock in zip(step.doses, clocks, strict=True):
        yield 1, dose, clock

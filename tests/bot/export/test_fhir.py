"""The FHIR bundle against the standard: the library's R4B classes, the specification's value sets and invariants.

Required value sets are carried by the library with its classes; it does not enforce them, so they are checked here.
Invariants are named as on the pages of the specification (R4).
"""

from __future__ import annotations

import json
import re
import warnings
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from typing import Any
from xml.etree import ElementTree

import pytest
from fhir.resources.R4B import get_fhir_model_class
from fhir.resources.R4B.bundle import Bundle
from lark.exceptions import UnexpectedInput
from lived import HARD_WORDS, NOW
from pydantic import ValidationError
from ucumvert import get_ucum_parser

from bot.commands.export import shown
from bot.export.fhir import CONDITION, bundle, mass
from bot.export.held import Held
from bot.rehearsal.demo import DEMOS, demo_plan
from scheduler.amounts import parse_amount, total
from scheduler.plan import dose_in_force, phase_dates
from scheduler.protocol import ClinicProtocol
from scheduler.record import EntryKind, Record

Values = dict[str, Any]


@pytest.fixture(scope="module")
def text(found: Held, protocol: ClinicProtocol) -> str:
    return bundle(found, lambda message: shown(message, protocol), NOW)


@pytest.fixture(scope="module")
def whole(text: str) -> Values:
    read: Values = json.loads(text)
    return read


def of(whole: Values, kind: str) -> list[Values]:
    return [entry["resource"] for entry in whole["entry"] if entry["resource"]["resourceType"] == kind]


def walk(value: Any) -> Iterator[Values]:
    if isinstance(value, dict):
        yield value
        for one in value.values():
            yield from walk(one)
    elif isinstance(value, list):
        for one in value:
            yield from walk(one)


def test_round_trip_through_the_library(text: str, whole: Values) -> None:
    again = Bundle.model_validate_json(text)
    assert json.loads(again.model_dump_json()) == whole
    for entry in whole["entry"]:
        get_fhir_model_class(entry["resource"]["resourceType"]).model_validate(entry["resource"])


def test_the_library_would_refuse_what_is_wrong(whole: Values) -> None:
    """So that the test above can fail: an unknown field, and a missing required one, deep in the bundle."""
    for change in ({"nickname": "x"}, {"status": None}):
        broken = json.loads(json.dumps(whole))
        target = next(entry for entry in broken["entry"] if entry["resource"]["resourceType"] == "Flag")
        target["resource"] = {key: value for key, value in (target["resource"] | change).items() if value is not None}
        with pytest.raises(ValidationError):
            Bundle.model_validate(broken)


def test_required_codes_are_of_the_value_sets(text: str) -> None:
    checked = Counter[str]()

    def look(model: Any) -> None:
        for name, info in type(model).model_fields.items():
            value = getattr(model, name, None)
            allowed = (info.json_schema_extra or {}).get("enum_values")
            if (type(model).__name__, name) == ("QuestionnaireItem", "type"):
                assert value in ("choice", "open-choice")     # item-type of R4, from memory: the library's list is cut
            elif isinstance(value, str) and allowed:
                assert value in allowed, f"{type(model).__name__}.{name}: {value}"
                checked[f"{type(model).__name__}.{name}"] += 1
            for one in value if isinstance(value, list) else [value]:
                if hasattr(type(one), "model_fields"):
                    look(one)

    look(Bundle.model_validate_json(text))
    assert {"Bundle.type", "CarePlan.status", "CarePlan.intent", "MedicationRequest.status", "MedicationRequest.intent",
            "MedicationAdministration.status", "Communication.status", "Communication.priority", "Flag.status",
            "Observation.status", "Questionnaire.status", "QuestionnaireResponse.status",
            "TimingRepeat.periodUnit", "HumanName.use"} <= checked.keys()


def test_every_reference_leads_to_an_entry(whole: Values) -> None:
    urls = [entry["fullUrl"] for entry in whole["entry"]]
    assert len(urls) == len(set(urls)), "bdl-7: fullUrl is unique"
    assert all(entry["fullUrl"] == f"urn:uuid:{entry['resource']['id']}" for entry in whole["entry"])
    by_url = {entry["fullUrl"]: entry["resource"]["resourceType"] for entry in whole["entry"]}
    references = [one for one in walk(whole) if "reference" in one and isinstance(one["reference"], str)]
    assert references
    for one in references:
        assert by_url[one["reference"]] == one["type"]


def test_nothing_is_empty_and_instants_have_an_offset(whole: Values) -> None:
    """FHIR: no empty strings, lists or objects; instant and dateTime with a time carry an offset."""
    for one in walk(whole):
        assert one != {} and all(value not in ("", []) for value in one.values())
        for name, value in one.items():
            if name in ("recorded", "timestamp", "received", "sent", "authored"):
                assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d", value), (name, value)


def test_the_patient_is_a_reference_and_a_nickname(whole: Values) -> None:
    patient, = of(whole, "Patient")
    assert [one["value"] for one in patient["identifier"]] == ["KT-014"]
    assert patient["name"] == [{"use": "nickname", "text": "Maya"}]
    assert not {"birthDate", "address", "gender", "photo", "telecom"} & patient.keys()


def test_the_condition_is_k20_0_of_icd_10_cm(whole: Values) -> None:
    """Against the CDC's release inside simple_icd_10_cm. The licensed local coding comes first."""
    with warnings.catch_warnings():     # how the package reads its own data
        warnings.simplefilter("ignore", DeprecationWarning)
        import simple_icd_10_cm
    assert simple_icd_10_cm.is_leaf(CONDITION["code"])
    assert simple_icd_10_cm.get_description(CONDITION["code"]) == CONDITION["display"]
    found, = (one for one in of(whole, "Condition") if "coding" in one["code"])
    assert found["code"]["coding"] == [CONDITION]


def test_timings_keep_the_invariants(whole: Values) -> None:
    """tim-2 a period has units; tim-5 it is not negative; tim-9 no offset without when; tim-10 timeOfDay or when, not
    both. From memory, of the comment on timeOfDay: frequency and period do not go with it."""
    repeats = [one["repeat"] for one in walk(whole) if "repeat" in one]
    assert repeats
    for repeat in repeats:
        assert repeat["periodUnit"] and repeat["period"] > 0 and repeat["frequency"] > 0
        assert not {"timeOfDay", "when", "offset"} & repeat.keys()
        assert len({"boundsPeriod", "boundsDuration"} & repeat.keys()) <= 1, "bounds[x] is one of them"


@pytest.mark.parametrize("name", DEMOS)
def test_dosage_rows_add_up_to_the_plan_day_by_day(found: Held, protocol: ClinicProtocol, name: str) -> None:
    """Each day's amount, worked out from the rows alone, is what the plan has in force (seasons apart)."""
    plan = replace(demo_plan(name, protocol), seasons=())
    case = replace(found.case, plan=plan, record=Record(), flags=(), found=(),
                   row=replace(found.case.row, plan_version=1))
    one = Held(case, [replace(found.plans[0], plan=plan, version=1)])
    rows = of(json.loads(bundle(one, lambda _: "", NOW)), "MedicationRequest")[0]["dosageInstruction"]
    sequences = [row["sequence"] for row in rows]
    assert sequences == sorted(sequences) and set(sequences) == set(range(1, max(sequences) + 1))
    begins = phase_dates(plan, Record())[0].begins
    assert begins is not None
    gated = next((place for place, phase in enumerate(plan.phases) if phase.gate), len(plan.phases))
    planned = sum(step.days or 400 for phase in plan.phases[:gated] for step in phase.steps)
    for offset in range(min(planned, 400)):
        day = begins + timedelta(days=offset)
        expected = dose_in_force(plan, Record(), day)
        assert expected is not None
        assert micrograms_on(rows, day) == total([dose.amount for dose in expected.doses]).micrograms


def micrograms_on(rows: list[Values], day: date) -> Decimal:
    amount = Decimal(0)
    for row in rows:
        bounds = row["timing"]["repeat"].get("boundsPeriod")
        if bounds and bounds["start"] <= day.isoformat() <= bounds.get("end", "9999"):
            dose = row["doseAndRate"][0]["doseQuantity"]
            factor = {"mg": 1000, "ug": 1}[dose["code"]]
            amount += Decimal(str(dose["value"])) * factor * row["timing"]["repeat"]["frequency"]
    return amount


def test_units_are_written_in_ucum(whole: Values) -> None:
    """Every code of a quantity, against the grammar and unit table of UCUM as the library ucumvert holds them."""
    parser = get_ucum_parser()
    codes = {one["code"] for one in walk(whole) if one.get("system") == "http://unitsofmeasure.org"}
    assert {"mg", "d", "a", "cm", "nmol/L", "/[HPF]"} <= codes
    for code in codes | {"ug", "ug/dL", "kg"}:
        parser.parse(code)
    with pytest.raises(UnexpectedInput):
        parser.parse("microgram")


def test_amounts_in_ucum() -> None:
    """ug is UCUM's microgram; for readers it is spelt out."""
    assert mass(parse_amount("0.5 mg")) == {"value": Decimal("0.5"), "unit": "mg", "system": "http://unitsofmeasure.org",
                                            "code": "mg"}
    small = mass(parse_amount("880 microgram"))
    assert (small["value"], small["unit"], small["code"]) == (880, "microgram", "ug")


def test_doses_taken_not_taken_and_unknown(found: Held, whole: Values) -> None:
    given = of(whole, "MedicationAdministration")
    record = found.case.record
    taken = record.of(EntryKind.DOSE_TAKEN)
    assert len(taken) > 10
    assert Counter(one["status"] for one in given) == {
        "completed": len(taken) - 1, "not-done": 1, "unknown": len(record.of(EntryKind.DOSE_UNKNOWN)),
        "entered-in-error": 2}, "one was told as taken, then as skipped, taken back, and told as skipped again"
    not_done, = (one for one in given if one["status"] == "not-done")
    assert not_done["statusReason"] == [{"text": "forgot"}] and "dosage" not in not_done
    assert all(one["dosage"]["dose"]["value"] == 1 and one["dosage"]["dose"]["code"] == "mg"
               for one in given if one["status"] == "completed")
    unknown = next(one for one in given if one["effectiveDateTime"] == "2026-03-13")
    assert unknown["status"] == "unknown", "never answered is not the same as missed"


def test_check_ins_answer_their_questions(found: Held, whole: Values) -> None:
    questions, = of(whole, "Questionnaire")
    items = {item["linkId"]: item for item in questions["item"]}
    for item in items.values():
        for condition in item.get("enableWhen", ()):
            asked = items[condition["question"]]
            assert list(items).index(asked["linkId"]) < list(items).index(item["linkId"])
            assert condition["answerCoding"]["code"] in {one["valueCoding"]["code"] for one in asked["answerOption"]}
    answers = of(whole, "QuestionnaireResponse")
    assert len(answers) == len(found.case.record.of(EntryKind.CHECK_IN_DONE)) > 0
    for answer in answers:
        assert answer["questionnaire"] == questions["url"]
        for item in answer["item"]:
            offered = {one["valueCoding"]["code"] for one in items[item["linkId"]]["answerOption"]}
            assert {one["valueCoding"]["code"] for one in item["answer"] if "valueCoding" in one} <= offered
    assert any({"linkId": "mouth"}.items() <= item.items() and item["answer"][0]["valueCoding"]["code"] == "white"
               for item in answers[0]["item"])


def test_results_and_score(whole: Values) -> None:
    by_code = {one["code"]["text"]: one for one in of(whole, "Observation")}
    scope = by_code["endoscopy with biopsies"]
    assert scope["effectiveDateTime"] == "2026-03-20"
    parts = {part["code"]["text"]: part for part in scope["component"]}
    assert parts["peak eosinophils per high-power field"]["valueQuantity"]["value"] == 12
    assert parts["EREFS total"]["valueInteger"] == 2 and parts["dilation"]["valueBoolean"] is False
    cortisol = by_code["morning cortisol, serum"]["valueQuantity"]
    assert (cortisol["value"], cortisol["unit"]) == (310.5, "nmol/L")
    assert by_code["weekly check-in, swallowing score 0 to 9, higher is worse"]["valueInteger"] == 0
    assert by_code["thrush"]["status"] == "preliminary"


def test_words_are_whole_and_flags_tell_their_life(found: Held, whole: Values) -> None:
    said = [one["payload"][0]["contentString"] for one in of(whole, "Communication") if "received" in one]
    assert HARD_WORDS in said and len(said) == len(found.replies)
    told = [one for one in of(whole, "Communication") if "received" not in one]
    assert any("Time for the weekly check-in" in one["payload"][0]["contentString"] for one in told)
    assert all(one["status"] != "completed" or "sent" in one for one in told)
    flags = of(whole, "Flag")
    assert {one["identifier"][0]["value"] for one in flags} == {flag.id for flag in found.case.flags}
    for one in flags:
        assert ElementTree.fromstring(one["text"]["div"]).tag == "{http://www.w3.org/1999/xhtml}div"


def test_ids_are_the_same_at_the_next_export(found: Held, whole: Values) -> None:
    again = json.loads(bundle(found, lambda _: "", NOW + timedelta(days=1)))
    assert [one["fullUrl"] for one in again["entry"]] == [one["fullUrl"] for one in whole["entry"]]


def test_generic_names_only(whole: Values) -> None:
    medicines = {one["medicationCodeableConcept"]["text"] for one in walk(whole) if "medicationCodeableConcept" in one}
    assert medicines == {"budesonide, 0.5 mg / 2 mL per ampoule"}


@pytest.mark.parametrize("name", DEMOS)
def test_every_invented_patient_can_be_written(found: Held, protocol: ClinicProtocol, name: str) -> None:
    plan = demo_plan(name, protocol)
    one = Held(replace(found.case, plan=plan), [replace(found.plans[0], plan=plan)])
    assert json.loads(bundle(one, lambda _: "", NOW))["type"] == "collection"

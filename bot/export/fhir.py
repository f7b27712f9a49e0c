"""Everything clinical that is held on one patient as a FHIR R4B Bundle of type collection.

Patient (the clinic's reference and the nickname, nothing else), Condition, one CarePlan and MedicationRequest per
signed plan version, MedicationAdministration per dose answer, Questionnaire and QuestionnaireResponse for check-ins,
Observation for results, scores and findings, Communication for replies and messages, Flag for flags, AuditEvent for
what else is in the record and for what people did. Timers and the network's raw updates are in the CSV export only.

Resources are built as plain values and validated by the `fhir.resources` library (R4B), which refuses unknown and
missing fields. Ids are made from what they stand for, so two exports of the same patient carry the same ids.
"""

from __future__ import annotations

import uuid
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from bot.export.held import Held
from scheduler.amounts import Amount
from scheduler.localtime import offset_text
from scheduler.messages import Message

Values = dict[str, Any]
UCUM = "http://unitsofmeasure.org"
ICD10_CM = "http://hl7.org/fhir/sid/icd-10-cm"
# K20.0 is what ICD-10-CM calls it (CDC release of April 2026); one web page gives the code to acid reflux: wrong.
CONDITION = {"system": ICD10_CM, "code": "K20.0", "display": "Eosinophilic esophagitis"}
_TERMS = "http://terminology.hl7.org/CodeSystem"
_NAMES = uuid.UUID("5a3ad3a4-6d4f-4c1c-9a57-0d6f8c1f2be7")


@dataclass(frozen=True)
class Writer:
    """What every resource of one patient's bundle needs: ids, references, instants in the patient's zone, texts."""

    found: Held
    text_of: Callable[[Message], str]

    def id(self, kind: str, key: str = "") -> str:
        return str(uuid.uuid5(_NAMES, f"{self.found.reference}|{kind}|{key}"))

    def ref(self, kind: str, key: str = "") -> Values:
        return {"reference": f"urn:uuid:{self.id(kind, key)}", "type": kind}

    def resource(self, kind: str, key: str = "", **values: Any) -> Values:
        """A resource with its id; values that are None or empty are left out."""
        return {"resourceType": kind, "id": self.id(kind, key)} | filled(values)

    @property
    def patient(self) -> Values:
        return self.ref("Patient")

    def at(self, instant: datetime) -> str:
        return offset_text(instant, self.found.case.plan.patient.time_zone)


def filled(values: Values) -> Values:
    """Without what FHIR does not allow: empty texts, lists and objects."""
    return {key: value for key, value in values.items() if value is not None and value not in ("", [], {})}


def text(words: str) -> Values:
    """A concept in words only."""
    return {"text": words}


def coded(system: str, code: str) -> Values:
    return {"coding": [{"system": f"{_TERMS}/{system}", "code": code}]}


def quantity(value: Decimal | int | float, unit: str, code: str) -> Values:
    return {"value": value, "unit": unit, "system": UCUM, "code": code}


def mass(amount: Amount) -> Values:
    """An amount of medicine in the unit it is written in; 'microgram' spelt out for readers, 'ug' in UCUM."""
    if str(amount).endswith(" mg"):
        return quantity(amount.micrograms / 1000, "mg", "mg")
    return quantity(amount.micrograms, "microgram", "ug")


def resources(found: Held, text_of: Callable[[Message], str]) -> Iterator[Values]:
    """Every resource of the bundle, the patient first."""
    from bot.export import fhir_plan, fhir_record, fhir_words

    writer = Writer(found, text_of)
    yield from fhir_plan.resources(writer)
    yield from fhir_record.resources(writer)
    yield from fhir_words.resources(writer)


def bundle(found: Held, text_of: Callable[[Message], str], now: datetime) -> str:
    """The bundle as JSON text. `text_of` shows a message as it was sent. Raises ValueError for what is no FHIR R4B."""
    from fhir.resources.R4B.bundle import Bundle

    entries = [{"fullUrl": f"urn:uuid:{one['id']}", "resource": one} for one in resources(found, text_of)]
    writer = Writer(found, text_of)
    whole = Bundle.model_validate({
        "resourceType": "Bundle", "type": "collection", "timestamp": writer.at(now), "entry": entries,
        "identifier": {"system": "urn:ietf:rfc:3986", "value": f"urn:uuid:{uuid.uuid4()}"}})
    return str(whole.model_dump_json(indent=2)) + "\n"


def details(facts: Iterable[tuple[str, Any]]) -> list[Values]:
    """Facts as an audit event carries them."""
    import json

    return [{"type": name, "valueString": value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)}
            for name, value in facts if value not in ("", None)]

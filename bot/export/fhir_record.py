"""FHIR: the record: doses, check-ins with their questions, results, and whatever else happened."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from bot import checkin
from bot.export.fhir import Values, Writer, coded, details, mass, quantity, text
from bot.export.fhir_plan import medicine, units
from bot.texts.catalogue import say
from scheduler.amounts import parse_amount
from scheduler.record import DOSE_ANSWERS, Entry, EntryKind, taken_at

_DOSE_STATUS = {EntryKind.DOSE_TAKEN: "completed", EntryKind.DOSE_SKIPPED: "not-done",
                EntryKind.DOSE_UNKNOWN: "unknown"}
QUESTIONS = "urn:uuid:0b7f6a52-6b0e-4b1c-8a39-2a1f3f0d9b11"      # what the weekly questions are called
_CORTISOL_UNITS = {"nmol/L": "nmol/L", "ug/dL": "ug/dL"}


def resources(writer: Writer) -> Iterator[Values]:
    """One resource for each entry of the record, oldest first; the questions before their answers."""
    record = writer.found.case.record
    if record.of(EntryKind.CHECK_IN_DONE):
        yield _questionnaire(writer)
    for number, entry in enumerate(record.entries):
        key = str(number)
        if entry.kind in DOSE_ANSWERS:
            yield _administration(writer, entry, key)
        elif entry.kind is EntryKind.CHECK_IN_DONE:
            yield from _check_in(writer, entry, key)
        elif entry.kind is EntryKind.ENDOSCOPY_DONE:
            yield _endoscopy(writer, entry, key)
        elif entry.kind is EntryKind.CORTISOL:
            yield _cortisol(writer, entry, key)
        else:
            yield _event(writer, entry, key)
    for number, found in enumerate(writer.found.case.found):
        yield writer.resource(
            "Observation", f"finding:{number}", status="preliminary", code=text(str(found.finding).replace("_", " ")),
            subject=writer.patient, effectiveDateTime=writer.at(found.at), valueBoolean=True,
            note=[text("read by a program from what the patient wrote or tapped; not a diagnosis")])


def _administration(writer: Writer, entry: Entry, key: str) -> Values:
    """A dose: taken, not taken, or never answered ('unknown', not missed). A corrected answer is in error."""
    case = writer.found.case
    standing = case.record.dose_answer(entry.about)
    version, day, slot = dose_of(entry.about)
    plan = next((one.plan for one in writer.found.plans if one.version == version), case.plan)
    taken = entry.kind is EntryKind.DOSE_TAKEN
    reason = str(entry.facts.get("reason", ""))
    amount = str(entry.facts.get("amount", ""))
    return writer.resource(
        "MedicationAdministration", key, status=_DOSE_STATUS[entry.kind] if standing is entry else "entered-in-error",
        subject=writer.patient, medicationCodeableConcept=text(medicine(plan)),
        effectiveDateTime=writer.at(taken_at(entry)) if taken else (day.isoformat() if day else writer.at(entry.at)),
        request=writer.ref("MedicationRequest", str(version)) if version else None,
        statusReason=[text(reason)] if reason else None,
        dosage={"text": f"{amount} ({units(plan, int(entry.facts.get('units') or 0))})", "route": text("swallowed"),
                "dose": mass(parse_amount(amount))} if taken and amount else None,
        note=[{"text": f"dose {slot + 1} of {day}; told at {writer.at(entry.at)}"}] if day else None)


def dose_of(key: str) -> tuple[int | None, date | None, int]:
    """'v1:d:20260302:0' -> version, local day, slot (0-based)."""
    parts = key.split(":")
    try:
        version, day, slot = int(parts[0].removeprefix("v")), parts[-2], int(parts[-1])
        return version, date(int(day[:4]), int(day[4:6]), int(day[6:])), slot
    except (ValueError, IndexError):
        return None, None, 0


def _questionnaire(writer: Writer) -> Values:
    """The weekly questions as this patient reads them."""
    who = writer.found.case.plan.patient
    lang, parent = who.language, writer.found.case.row.writer == "parent"
    return writer.resource(
        "Questionnaire", url=QUESTIONS, status="active", title="Weekly check-in", language=lang,
        item=[_item(one, lang, parent=parent) for one in checkin.ALL_ITEMS])


def _item(one: checkin.Item, lang: str, *, parent: bool) -> Values:
    shown = checkin.item_of(one.id, parent=parent) or one
    item: Values = {"linkId": one.id, "text": say(lang, shown.text_key, {}), "repeats": one.several,
                    "type": "open-choice" if one.free_text else "choice",
                    "answerOption": [{"valueCoding": _choice(choice, lang)} for choice in one.choices]}
    if one.only_if is not None:
        earlier, choices = one.only_if
        item["enableWhen"] = [{"question": earlier, "operator": "=", "answerCoding": {"code": name}}
                              for name in sorted(choices)]
        item["enableBehavior"] = "any"
    return item


def _choice(choice: checkin.Choice, lang: str) -> Values:
    return {"code": choice.id, "display": say(lang, choice.label_key, {})}


def _check_in(writer: Writer, entry: Entry, key: str) -> Iterator[Values]:
    """The answers as given, and the score that the program made of them."""
    lang = writer.found.case.plan.patient.language
    answers: dict[str, Any] = dict(entry.facts.get("answers") or {})
    items = []
    for name, given in answers.items():
        item = checkin.item_of(name)
        known = {choice.id: choice for choice in item.choices} if item else {}
        told: list[Values] = [{"valueCoding": _choice(known[one], lang) if one in known else {"code": one}}
                              for one in given.get("choices", ())]
        if given.get("text"):
            told.append({"valueString": str(given["text"])})
        items.append({"linkId": name, "answer": told} if told else {"linkId": name})
    yield writer.resource(
        "QuestionnaireResponse", key, questionnaire=QUESTIONS, subject=writer.patient, source=writer.patient,
        status="stopped" if entry.facts.get("left") else "completed", authored=writer.at(entry.at), item=items)
    score = entry.facts.get("score") or {}
    named = (score.get("parts") or {}).items()
    parts = [{"code": text(str(name)), "valueInteger": int(value)} for name, value in named]
    if score.get("total") is not None or parts:
        total = {"valueInteger": int(score["total"])} if score.get("total") is not None else {}
        yield writer.resource(
            "Observation", f"score:{key}", status="final", subject=writer.patient, component=parts,
            code=text(f"weekly check-in, swallowing score 0 to {score.get('max', 9)}, higher is worse"),
            effectiveDateTime=writer.at(entry.at), derivedFrom=[writer.ref("QuestionnaireResponse", key)], **total)


def _endoscopy(writer: Writer, entry: Entry, key: str) -> Values:
    facts = entry.facts
    parts: list[Values] = []
    if facts.get("peak_eos_hpf") is not None:
        parts.append({"code": text("peak eosinophils per high-power field"),
                      "valueQuantity": quantity(facts["peak_eos_hpf"], "eosinophils per high-power field", "/[HPF]")})
    if facts.get("erefs") is not None:
        parts.append({"code": text("EREFS total"), "valueInteger": int(facts["erefs"])})
    if facts.get("dilation") is not None:
        parts.append({"code": text("dilation"), "valueBoolean": bool(facts["dilation"])})
    return writer.resource(
        "Observation", key, status="final", code=text("endoscopy with biopsies"), subject=writer.patient,
        category=[coded("observation-category", "procedure")], component=parts, performer=_by(entry),
        effectiveDateTime=str(facts.get("date") or writer.at(entry.at)))


def _cortisol(writer: Writer, entry: Entry, key: str) -> Values:
    """In the unit that was typed, never converted."""
    unit = str(entry.facts.get("unit", ""))
    return writer.resource(
        "Observation", key, status="final", code=text("morning cortisol, serum"), subject=writer.patient,
        category=[coded("observation-category", "laboratory")], performer=_by(entry),
        effectiveDateTime=str(entry.facts.get("date") or writer.at(entry.at)),
        valueQuantity=quantity(entry.facts["value"], unit, _CORTISOL_UNITS.get(unit, unit)))


def _by(entry: Entry) -> list[Values]:
    return [{"display": str(entry.facts["by"])}] if entry.facts.get("by") else []


def _event(writer: Writer, entry: Entry, key: str) -> Values:
    """What has no resource of its own: a pause, a released gate, a rinse."""
    return audit(writer, f"entry:{key}", str(entry.kind).replace("_", " "), writer.at(entry.at),
                 str(entry.facts.get("by") or "the patient, or the program"), {"about": entry.about, **entry.facts})


def audit(writer: Writer, key: str, what: str, at: str, who: str, facts: Values) -> Values:
    return writer.resource(
        "AuditEvent", key, type={"display": what}, recorded=at, agent=[{"name": who, "requestor": True}],
        source={"observer": {"display": "Coatwell"}},
        entity=[{"what": writer.patient} | ({"detail": found} if (found := details(facts.items())) else {})])

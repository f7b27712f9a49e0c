"""Results that the care team records: endoscopy and morning cortisol. Typed, shown back, recorded at a tap."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

from bot.care.talk import Talk
from bot.case import Act, Case, Changes
from bot.escalation import assess_event
from scheduler.localtime import local
from scheduler.record import Entry, EntryKind

# What can be typed. The bounds refuse slips of the finger, they judge nothing: EREFS 0 to 9 (ACG 2025 notes); a
# high-power field holds some hundreds of eosinophils; cortisol is kept in the unit given and never converted.
MOST_EOS, MOST_EREFS, MOST_PACKS = 1000, 9, 50
CORTISOL = {"nmol/l": ("nmol/L", 2000), "ug/dl": ("ug/dL", 80), "mcg/dl": ("ug/dL", 80)}

_ENDOSCOPY = re.compile(r"(?P<date>\d{4}-\d\d-\d\d)[ ,]+(?:eos\s*)?(?P<eos>\d{1,4})[ ,]+(?:erefs\s*)?(?P<erefs>\d{1,2})"
                        r"(?:[ ,]+(?P<dilation>dilation|dilated))?", re.IGNORECASE)
_CORTISOL = re.compile(r"(?P<date>\d{4}-\d\d-\d\d)[ ,]+(?P<value>\d{1,4}(?:\.\d{1,2})?)\s*(?P<unit>[a-z]+/d?l)",
                       re.IGNORECASE)


class WrongResult(ValueError):
    """What was typed cannot be recorded; the message is a text key under care.desk."""


async def ask(talk: Talk, case: Case, kind: str) -> None:
    """Ask for a result."""
    await talk.say(f"desk.type_{kind}", reference=case.reference, asks_reply=True,
                   prompt={"do": kind, "reference": case.reference})
    await talk.remember(kind, case.reference)


async def typed(talk: Talk, reference: str, kind: str, text: str) -> None:
    """Show back what was understood; nothing is recorded yet."""
    case = await talk.case(reference)
    if case is None or not await talk.may("record_results"):
        return
    today = local(talk.now, case.plan.patient.time_zone).date()
    try:
        facts = parse(kind, text, today)
    except WrongResult as wrong:
        await talk.say(f"desk.{wrong}", reference=case.reference, asks_reply=True,
                       prompt={"do": kind, "reference": case.reference})
        await talk.remember(kind, case.reference)
        return
    await talk.say(f"desk.really_{kind}", reference=case.reference, **_shown(facts), buttons=[[
        ("record", f"p:{case.reference}:record", {}), ("no", f"p:{case.reference}:drop", {})]])
    await talk.remember("record", case.reference, kind=kind, result=facts)


async def record(talk: Talk, case: Case) -> None:
    """'Record' was tapped: into the record, with who, and a summary for the care team."""
    desk = await talk.work.desk(talk.sender)
    if desk.state != "record" or desk.about != case.reference:
        await talk.say("desk.nothing_to_record", reference=case.reference)
        return
    if not await talk.may("record_results"):
        return
    kind, facts = str(desk.facts["kind"]), dict(desk.facts["result"])
    entry_kind = EntryKind.ENDOSCOPY_DONE if kind == "endoscopy" else EntryKind.CORTISOL
    entry = Entry(entry_kind, talk.now, "", {**facts, "by": talk.who})
    act = Act(talk.now, talk.who, f"recorded {kind}", case.reference, "", facts)
    changes = Changes(entries=(entry,), acts=(act,), replan=kind == "endoscopy")
    if kind == "endoscopy":
        about = {"about": talk.incoming.id}
        changes += assess_event(case.after(changes), "endoscopy_done", about, talk.now, talk.protocol)
    await talk.apply(case, changes)
    await talk.forget()
    await talk.say("desk.recorded", reference=case.reference)


async def supply(talk: Talk, reference: str, typed_packs: str) -> None:
    """'/supply REF packs': the patient has received so many packs."""
    case = await talk.case(reference)
    if case is None or not await talk.may("record_results"):
        return
    if not typed_packs.isdigit() or not 0 < int(typed_packs) <= MOST_PACKS:
        await talk.say("desk.wrong_supply", most=MOST_PACKS)
        return
    packs = int(typed_packs)
    entry = Entry(EntryKind.SUPPLY_ADDED, talk.now, f"care:{talk.incoming.id}", {"packs": packs, "by": talk.who})
    act = Act(talk.now, talk.who, "recorded supply", case.reference, "", {"packs": packs})
    await talk.apply(case, Changes(entries=(entry,), acts=(act,), replan=True))
    await talk.say("desk.supply_recorded", reference=case.reference, n=packs)


async def opened(talk: Talk, reference: str) -> None:
    """'/opened REF': the patient has begun a new inhaler before the count said so (lost, broken, its counter)."""
    case = await talk.case(reference)
    if case is None or not await talk.may("record_results"):
        return
    if case.plan.medicine.form != "inhaler":
        await talk.say("desk.opened_no_inhaler", reference=case.reference)
        return
    entry = Entry(EntryKind.PACK_OPENED, talk.now, f"care:{talk.incoming.id}", {"by": talk.who})
    act = Act(talk.now, talk.who, "recorded a new inhaler", case.reference)
    await talk.apply(case, Changes(entries=(entry,), acts=(act,), replan=True))
    await talk.say("desk.opened_recorded", reference=case.reference)


def parse(kind: str, text: str, today: date) -> dict[str, Any]:
    """The facts of a result. Raises WrongResult for what cannot be read, a date to come, or a number out of bounds."""
    found = (_ENDOSCOPY if kind == "endoscopy" else _CORTISOL).fullmatch(text.strip())
    if found is None:
        raise WrongResult(f"wrong_{kind}")
    try:
        day = date.fromisoformat(found["date"])
    except ValueError:
        raise WrongResult("wrong_date") from None
    if day > today:
        raise WrongResult("date_to_come")
    if kind == "endoscopy":
        eos, erefs = int(found["eos"]), int(found["erefs"])
        if eos > MOST_EOS or erefs > MOST_EREFS:
            raise WrongResult("wrong_endoscopy")
        return {"date": day.isoformat(), "peak_eos_hpf": eos, "erefs": erefs, "dilation": bool(found["dilation"])}
    unit, most = CORTISOL.get(found["unit"].lower(), ("", 0))
    if not unit or not 0 < float(found["value"]) <= most:
        raise WrongResult("wrong_cortisol")
    return {"date": day.isoformat(), "value": float(found["value"]), "unit": unit}


def _shown(facts: dict[str, Any]) -> dict[str, Any]:
    return {key: ("yes" if value else "no") if isinstance(value, bool) else value for key, value in facts.items()}

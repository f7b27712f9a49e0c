"""A plan change: a plan file or a tap, shown with cautions and differences, signed by a clinician; a nurse prepares.

The program never changes a plan by itself; what is prepared lies beside the plan in force until somebody signs it.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from bot.care import plancompare
from bot.care.talk import Talk
from bot.case import Act, Case, Changes, PatientState
from bot.conversation import doses, steps
from bot.escalation import telling
from bot.ports import PlanVersion
from scheduler.cautions import cautions
from scheduler.errors import SchedulerError, WrongInput
from scheduler.lasttold import last_told
from scheduler.localtime import local
from scheduler.messages import Priority
from scheduler.plan import Plan
from scheduler.planfile import read_plan
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind
from scheduler.seal import sealed

_MOST_LINES = 40
_TOLD_DOSES = (PatientState.ACTIVE, PatientState.PAUSED, PatientState.HELD, PatientState.QUARANTINED)
_OTHER_PLACES = (("medicine", ("vehicle",)), ("patient", ("wakes", "sleeps", "meals")), ("check_in", ("day", "time")))


async def document(talk: Talk) -> None:
    """A plan file sent as a document. Its text has been fetched into the update; "" when that failed."""
    if not talk.incoming.text.strip():
        await talk.say("plan.not_fetched", name=talk.incoming.file_name or "?")
        return
    await prepare(talk, talk.incoming.text, talk.incoming.file_name or "the plan file")


async def prepare(talk: Talk, text: str, where: str, expected: str = "") -> None:
    """Check a changed plan, store it unsigned, show cautions and the comparison, and offer to sign."""
    if not await talk.may("prepare_plan"):
        return
    try:
        plan = read_plan(text, where, talk.protocol)
    except WrongInput as wrong:
        await talk.say("plan.problems", lines=[f"• {problem}" for problem in wrong.problems[:_MOST_LINES]], name=where)
        return
    reference = plan.patient.reference
    case = await talk.work.case(reference)
    if case is None or (expected and expected != reference):
        await talk.say("plan.other_patient", name=reference)
        return
    changes = plancompare.differences(case.plan, plan)
    if not changes:
        await talk.say("plan.nothing_new", reference=reference)
        return
    version = await talk.work.add_plan(reference, plan, talk.now)
    effects = plancompare.in_practice(case, plan, version, talk.now, talk.protocol)
    await talk.act("prepared a plan", reference, str(version), differences=changes[:_MOST_LINES])
    notes = [f"• {caution.text} ({caution.source})" for caution in cautions(plan, talk.protocol)]
    lines = [f"• {change}" for change in (*changes[:_MOST_LINES], *effects)]
    await talk.say("plan.preview", reference=reference, version=version, old=case.row.plan_version,
                   lines=[*lines, "", *(["Cautions:", *notes] if notes else [])], buttons=_offer(reference, version))


async def tapped(talk: Talk, subject: str, choice: str) -> None:
    """y:REFERENCE:sign_V, drop_V"""
    case = await talk.case(subject)
    if case is None:
        return
    name, _, detail = choice.partition("_")
    if name == "drop":
        await talk.act("dropped a prepared plan", subject, detail)
        await talk.say("plan.dropped", reference=subject)
    elif name == "sign" and detail.isdigit():
        await _sign(talk, case, int(detail))
    else:
        await talk.say("desk.old_button")


async def _sign(talk: Talk, case: Case, version: int) -> None:
    """Sign a prepared version as oneself, today: what is signed is a version of its own, in force at once."""
    if not await talk.may("sign_plan"):
        return
    prepared = next((one for one in await talk.work.plans(case.reference) if one.version == version), None)
    if prepared is None or version <= case.row.plan_version:
        await talk.say("plan.too_late", reference=case.reference, version=case.row.plan_version)
        return
    try:
        plan = _signed(talk, prepared)
    except SchedulerError as wrong:
        await talk.say("plan.problems", lines=[str(wrong)], name=f"version {version}")
        return
    signed = await talk.work.add_plan(case.reference, sealed(plan), talk.now)
    changes = comes_into_force(case, plan, signed, {"by": talk.who, "on": plan.signed_on.isoformat()}, talk.now,
                               talk.protocol)
    act = Act(talk.now, talk.who, "signed the plan", case.reference, str(signed), {"prepared": version})
    await talk.apply(case, changes + Changes(acts=(act,)))
    await talk.say("plan.signed" if changes.messages else "plan.signed_untold", reference=case.reference,
                   version=signed, draft=version, who=talk.who)


def comes_into_force(case: Case, plan: Plan, version: int, facts: dict[str, Any], now: datetime,
                     protocol: ClinicProtocol) -> Changes:
    """What signing `plan` as `version` does to the case: reminders that are out, the timeline, what the patient reads.

    facts: of the signature (by, on). What the patient was last told to take is kept with it, so that another dose is
    announced, with its preparation and 'I understand', before it is asked for. Pure.
    """
    cause, row = f"plan:{version}", replace(case.row, plan_version=version)
    if case.row.state not in _TOLD_DOSES:
        return Changes(entries=(Entry(EntryKind.PLAN_SIGNED, now, str(version), facts),), replan=True, row=row)
    facts = facts | last_told(case.plan, case.record, protocol, case.row.plan_version, now)
    changed = doses.plan_changed(case, plan, version, cause, now, protocol) + Changes(
        entries=(Entry(EntryKind.PLAN_SIGNED, now, str(version), facts),), replan=True, row=row)
    new = replace(case.after(changed), plan=plan)
    told = telling.message(case, cause, "care_note", now, protocol, Priority.ANSWER,
                           text_keys=[f"escalation.{steps.said_of_the_plan(new, now, protocol)}"])
    return changed + Changes(messages=(told,))


def _signed(talk: Talk, prepared: PlanVersion) -> Plan:
    """The prepared plan with the signature of the member who signs now."""
    today = local(talk.now, talk.protocol.text("care.time_zone")).date()
    name = talk.member.name if talk.member else ""
    document = tomlkit.parse(prepared.plan.text)
    document["signed"] = {"by": name, "on": today}
    return read_plan(tomlkit.dumps(document), f"version {prepared.version}", talk.protocol)


def _offer(reference: str, version: int) -> list[list[tuple[str, str, dict[str, Any]]]]:
    return [[("sign", f"y:{reference}:sign_{version}", {}), ("drop_plan", f"y:{reference}:drop_{version}", {})]]


async def menu(talk: Talk, case: Case, detail: str) -> None:
    """Change one value of the plan in force: choose what, then type the new value."""
    values = editable(case.plan)
    if detail.isdigit() and int(detail) < len(values):
        path, label, now = values[int(detail)]
        await talk.say("plan.type_value", reference=case.reference, what=label, now=now, asks_reply=True,
                       prompt={"do": "plan_value", "reference": case.reference, "path": path})
        await talk.remember("plan_value", case.reference, path=path)
        return
    buttons = [[("plan_value", f"p:{case.reference}:plan_{place}", {"what": label, "now": now})]
               for place, (_, label, now) in enumerate(values)]
    await talk.say("plan.menu", reference=case.reference, buttons=buttons)


async def value_typed(talk: Talk, reference: str, prompt: dict[str, Any], text: str) -> None:
    """A new value for one place of the plan in force."""
    case = await talk.case(reference)
    if case is None:
        return
    await talk.forget()
    try:
        changed = with_value(case.plan.text, str(prompt["path"]), text.strip())
    except (TOMLKitError, KeyError, IndexError, ValueError):
        await talk.say("plan.wrong_value", reference=reference)
        return
    await prepare(talk, changed, "the changed plan", expected=reference)


def editable(plan: Plan) -> list[tuple[str, str, str]]:
    """Places of the plan file that can be changed by tap: (path, what it is, value now)."""
    tree = tomlkit.parse(plan.text)
    found: list[tuple[str, str, str]] = []
    for place, phase in enumerate(tree.get("phase", ())):
        for key in ("dose", "to", "starts", "lasts", "times_per_day"):
            if key in phase:
                found.append((f"phase.{place}.{key}", f"{phase.get('name', place + 1)}: {key.replace('_', ' ')}",
                              str(phase[key])))
    for table, keys in _OTHER_PLACES:
        for key in keys:
            if key in tree.get(table, {}):
                found.append((f"{table}.{key}", f"{table.replace('_', ' ')}: {key}", _plain(tree[table][key])))
    return found


def with_value(text: str, path: str, typed: str) -> str:
    """The plan file's text with one value replaced, typed as the value that stood there. Raises ValueError."""
    tree = tomlkit.parse(text)
    parts = path.split(".")
    place: Any = tree
    for part in parts[:-1]:
        place = place[int(part)] if part.isdigit() else place[part]
    old = place[parts[-1]]
    if isinstance(old, list):
        place[parts[-1]] = [word.strip() for word in typed.split(",")]
    elif isinstance(old, int):
        place[parts[-1]] = int(typed)
    elif isinstance(old, date):
        place[parts[-1]] = date.fromisoformat(typed)
    else:
        place[parts[-1]] = typed
    return tomlkit.dumps(tree)


def _plain(value: Any) -> str:
    return ", ".join(map(str, value)) if isinstance(value, list) else str(value)

"""What the care team does about one patient by tap or command: card, chart, write, ask, results, gates, pause."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from bot.care import card, planchange, results, writing
from bot.care.talk import Talk
from bot.case import Act, Case, Changes, PatientState
from bot.conversation import checkins, holds
from bot.conversation.finding import still_to_answer
from bot.escalation import life, telling
from bot.escalation.notes import pause_note
from scheduler.localtime import local
from scheduler.messages import Message, Priority, To
from scheduler.plan import Phase, paused
from scheduler.record import Entry, EntryKind

MOST_SHOWN = 60                  # buttons under one message

# Check-in questions that may be asked by themselves (ids of bot/checkin/questions.py).
QUESTIONS = ("swallow", "stuck", "pain", "mouth", "eating", "new", "body", "routine")
Rows = list[list[tuple[str, str, dict[str, Any]]]]

PAUSES = (1, 3, 7, 14, 0)       # days; 0: until resumed


async def known(talk: Talk, typed: str) -> str:
    """The reference as it is stored, whatever the case it was typed in."""
    wanted = typed.strip().upper()
    return next((row.reference for row in await talk.work.patients() if row.reference.upper() == wanted), typed.strip())


async def everybody(talk: Talk) -> None:
    """All patients by reference and state, with a button to each card."""
    rows = [row for row in await talk.work.patients() if row.state is not PatientState.ENDED]
    shown = rows[:MOST_SHOWN]
    buttons = [[("patient", f"p:{row.reference}:card", {"reference": row.reference, "state": str(row.state)})
                for row in shown[start:start + 3]] for start in range(0, len(shown), 3)]
    key = "desk.no_patients" if not rows else "desk.patients" if len(shown) == len(rows) else "desk.patients_some"
    await talk.say(key, n=len(rows), shown=len(shown), buttons=buttons)


async def tapped(talk: Talk, subject: str, choice: str) -> None:
    """p:REFERENCE:choice"""
    name, _, detail = choice.partition("_")
    if name == "drop" and not detail:
        await talk.forget()
        await talk.say("desk.dropped")
        return
    if name in ("send", "drop"):
        await (writing.send_ready if name == "send" else writing.drop)(talk, subject, detail)
        return
    case = await talk.case(subject)
    if case is None:
        return
    handler = HANDLERS.get(name)
    if handler is None:
        await talk.say("desk.old_button")
        return
    await handler(talk, case, detail)


async def _card(talk: Talk, case: Case, detail: str) -> None:  # noqa: ARG001
    sent = await talk.work.messages_of(case.reference, 20)
    await talk.say("", reference=case.reference, lines=card.lines(case, talk.now, talk.protocol, sent),
                   buttons=card.buttons(case, talk.now))


async def _chart(talk: Talk, case: Case, detail: str) -> None:  # noqa: ARG001
    from bot.care.chart import chart_facts

    facts = {"lines": [card.title(case)], "chart": chart_facts(case, talk.now)}
    await talk.work.put([Message(f"{case.reference}:desk:{talk.incoming.id}:chart", To.CHAT, "chart", talk.now,
                                 reference=case.reference, priority=Priority.ANSWER, address=talk.incoming.chat,
                                 facts=facts)])


async def _write(talk: Talk, case: Case, detail: str) -> None:  # noqa: ARG001
    await writing.ask(talk, case)


async def _ask(talk: Talk, case: Case, detail: str) -> None:
    """One of the check-in's questions, now."""
    if detail in ("endoscopy", "cortisol"):
        await results.ask(talk, case, detail)
        return
    if detail not in QUESTIONS:
        taps: list[tuple[str, str, dict[str, Any]]] = [
            (f"question_{name}", f"p:{case.reference}:ask_{name}", {}) for name in QUESTIONS]
        buttons: Rows = [taps[start:start + 2] for start in range(0, len(taps), 2)]
        await talk.say("desk.which_question", reference=case.reference, buttons=buttons)
        return
    if case.row.state not in (PatientState.ACTIVE, PatientState.PAUSED):
        await talk.say("desk.cannot_write.invited", reference=case.reference)
        return
    if "check_in" in case.conversation.facts:
        await talk.say("desk.check_in_open", reference=case.reference)
        return
    asked = checkins.ask_one(case, detail, f"asked:{talk.incoming.id}", talk.now, talk.protocol)
    act = Act(talk.now, talk.who, "asked a question", case.reference, detail)
    await talk.apply(case, asked + Changes(acts=(act,)))
    await talk.say("desk.asked", reference=case.reference)


async def _results(talk: Talk, case: Case, detail: str) -> None:  # noqa: ARG001
    await talk.say("desk.which_result", reference=case.reference, buttons=[[
        ("endoscopy", f"p:{case.reference}:ask_endoscopy", {}), ("cortisol", f"p:{case.reference}:ask_cortisol", {})]])


async def _record(talk: Talk, case: Case, detail: str) -> None:  # noqa: ARG001
    await results.record(talk, case)


async def _gates(talk: Talk, case: Case, detail: str) -> None:  # noqa: ARG001
    """Every gate of the plan, with what can be done about it."""
    rows: Rows = []
    for place, phase in enumerate(case.plan.phases):
        if phase.gate and case.record.gate_released(phase.gate) is None:
            rows.append([("release", f"p:{case.reference}:release_{place}", {"gate": phase.gate})])
        elif phase.gate:
            rows.append([("hold", f"p:{case.reference}:hold_{place}", {"gate": phase.gate})])
    await talk.say("desk.gates" if rows else "desk.no_gates", reference=case.reference, buttons=rows)


async def _release(talk: Talk, case: Case, detail: str) -> None:
    """The phase behind the gate may start: shown what that means first, done at the second tap."""
    place, _, sure = detail.partition("_")
    phase = case.plan.phases[int(place)] if place.isdigit() and int(place) < len(case.plan.phases) else None
    if phase is None or phase.gate is None:
        await talk.say("desk.old_button")
        return
    if not await talk.may("release_gate"):
        return
    if case.record.gate_released(phase.gate) is not None:
        await talk.say("desk.gate_released_already", reference=case.reference, gate=phase.gate)
        return
    if sure != "yes":
        first = ", ".join(f"{dose.amount}" for dose in phase.steps[0].doses)
        await talk.say("desk.really_release", reference=case.reference, gate=phase.gate, phase=phase.name,
                       doses=first, buttons=[[("yes_release", f"p:{case.reference}:release_{place}_yes", {}),
                                 ("no", f"p:{case.reference}:drop", {})]])
        return
    await _released(talk, case, phase)


async def _released(talk: Talk, case: Case, phase: Phase) -> None:
    gate = phase.gate or ""
    day = local(talk.now, case.plan.patient.time_zone).date()
    entry = Entry(EntryKind.GATE_RELEASED, talk.now, gate,
                  {"phase": phase.name, "from": day.isoformat(), "by": talk.who})
    act = Act(talk.now, talk.who, "released a gate", case.reference, gate)
    await talk.apply(case, Changes(entries=(entry,), acts=(act,), replan=True))
    await talk.say("desk.gate_released", reference=case.reference, gate=gate, phase=phase.name)


async def _hold(talk: Talk, case: Case, detail: str) -> None:
    phase = case.plan.phases[int(detail)] if detail.isdigit() and int(detail) < len(case.plan.phases) else None
    if phase is None or phase.gate is None:
        await talk.say("desk.old_button")
        return
    if not await talk.may("release_gate"):
        return
    entry = Entry(EntryKind.GATE_HELD, talk.now, phase.gate, {"by": talk.who, "reason": ""})
    act = Act(talk.now, talk.who, "held a gate", case.reference, phase.gate)
    await talk.apply(case, Changes(entries=(entry,), acts=(act,), replan=True))
    await talk.say("desk.gate_held", reference=case.reference, gate=phase.gate)


async def release_typed(talk: Talk, reference: str, named: str, *, hold: bool) -> None:
    """'/release REF [gate]', '/hold REF [gate]': typed with the reference, so done at once, for the gate that fits."""
    case = await talk.case(reference)
    if case is None or not await talk.may("release_gate"):
        return
    fits = [place for place, phase in enumerate(case.plan.phases)
            if phase.gate and named.lower() in phase.gate.lower()
            and (case.record.gate_released(phase.gate) is None) is not hold]
    if len(fits) != 1:
        await _gates(talk, case, "")
    elif hold:
        await _hold(talk, case, str(fits[0]))
    else:
        await _released(talk, case, case.plan.phases[fits[0]])


async def pause_typed(talk: Talk, reference: str, reason: str) -> None:
    """'/pause REF reason': until resumed."""
    case = await talk.case(reference)
    if case is not None:
        await _pause(talk, case, "0", reason)


async def _pause(talk: Talk, case: Case, detail: str, reason: str = "") -> None:
    """No dose messages for some days, or until resumed; the patient is told."""
    if not await talk.may("pause"):
        return
    if case.row.state not in (PatientState.ACTIVE, PatientState.PAUSED):
        await talk.say("desk.cannot_write.invited", reference=case.reference)
        return
    if not detail.isdigit():
        buttons: Rows = [[("pause_days" if days else "pause_open", f"p:{case.reference}:pause_{days}", {"days": days})]
                   for days in PAUSES]
        await talk.say("desk.how_long", reference=case.reference, buttons=buttons)
        return
    until = _until(talk, case, int(detail))
    entry = Entry(EntryKind.PAUSED, talk.now, "",
                  {"by": talk.who, "reason": reason, "until": until.isoformat() if until else None})
    told = telling.message(case, f"paused:{talk.incoming.id}", "care_note", talk.now, talk.protocol, Priority.ANSWER,
                           text_keys=["escalation.paused_until" if until else "escalation.paused"],
                           until=until.isoformat() if until else "")
    state = PatientState.ACTIVE if until else PatientState.PAUSED    # a pause with an end is over by itself
    act = Act(talk.now, talk.who, "paused", case.reference, "",
              {"until": until.isoformat() if until else "", "reason": reason})
    later = tuple(f"{case.reference}:{dose.key}:later*"
                  for dose, _ in still_to_answer(case, talk.now, talk.protocol))
    look = pause_note(case, talk.now, talk.now, talk.protocol)
    await talk.apply(case, Changes(entries=(entry,), messages=(told, look), acts=(act,), replan=True, cancel=later,
                                   row=replace(case.row, state=state)))
    await talk.say("desk.paused", reference=case.reference)


async def _resume(talk: Talk, case: Case, detail: str) -> None:  # noqa: ARG001
    if not await talk.may("pause"):
        return
    if not paused(case.plan, case.record, talk.now) and case.row.state is not PatientState.PAUSED:
        await talk.say("desk.not_paused", reference=case.reference)
        return
    entry = Entry(EntryKind.RESUMED, talk.now, "", {"by": talk.who})
    told = telling.message(case, f"resumed:{talk.incoming.id}", "care_note", talk.now, talk.protocol, Priority.ANSWER,
                           text_keys=["escalation.resumed"])
    await talk.apply(case, Changes(entries=(entry,), messages=(told,), replan=True,
                                   acts=(Act(talk.now, talk.who, "resumed", case.reference),),
                                   row=replace(case.row, state=PatientState.ACTIVE)))
    await talk.say("desk.resumed", reference=case.reference)


async def _free(talk: Talk, case: Case, detail: str) -> None:  # noqa: ARG001
    """Doses held after an emergency may go on: somebody of the care team has decided so."""
    if not await talk.may("free_doses"):
        return
    held = case.record.doses_held()
    if held is None:
        await talk.say("desk.not_held", reference=case.reference)
        return
    act = Act(talk.now, talk.who, "let the doses go on", case.reference, held.about)
    freed = life.free_doses(case, held.about, talk.who, talk.now, talk.protocol) + Changes(acts=(act,))
    freed += holds.due_again(case, freed, f"freed:{talk.incoming.id}", talk.now, talk.protocol)
    await talk.apply(case, freed)
    await talk.say("desk.doses_freed", reference=case.reference)


def _until(talk: Talk, case: Case, days: int) -> date | None:
    """The first local day on which doses are due again."""
    return local(talk.now, case.plan.patient.time_zone).date() + timedelta(days=days) if days else None


HANDLERS: dict[str, Callable[[Talk, Case, str], Awaitable[None]]] = {
    "card": _card,
    "chart": _chart,
    "write": _write,
    "ask": _ask,
    "results": _results,
    "record": _record,
    "gates": _gates,
    "release": _release,
    "hold": _hold,
    "pause": _pause,
    "resume": _resume,
    "plan": planchange.menu,
    "free": _free,
}

"""The patient card: what a nurse needs to know before acting, on one phone screen. Reference only, no name. Pure."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from bot.care.figures import adherence, scores_by_day
from bot.care.render import language_name, shorten, text
from bot.care.render import title as rule_title
from bot.case import Case, Flag, PatientState
from bot.escalation.flags import number_of, urgent_since
from bot.escalation.standing import standing
from bot.ports import SentMessage
from scheduler.localtime import local
from scheduler.messages import SendState, To
from scheduler.plan import paused, phase_dates
from scheduler.protocol import ClinicProtocol
from scheduler.record import EntryKind
from scheduler.supply import runs_out

_SHOWN = 5


def title(case: Case) -> str:
    return text("card.head", {"reference": case.reference, "state": str(case.row.state)})


def lines(case: Case, now: datetime, protocol: ClinicProtocol, sent: Iterable[SentMessage] = ()) -> list[str]:
    """The card's lines: who, where in the course, next step and gate, check-ins, doses, flags, last message."""
    plan = case.plan
    who = {"age": plan.patient.age_years, "medicine": plan.medicine.name.capitalize(),
           "version": case.row.plan_version, "signed_by": plan.signed_by}
    found = [title(case), text("card.who", who)]
    if case.row.writer == "parent":
        found.append(text("flag.by_parent", {}))
    if plan.patient.language.split("-")[0] != "en":
        found.append(text("flag.language", {"language": language_name(plan.patient.language)}))
    if plan.patient.conditions:
        found.append(text("card.conditions", {"conditions": list(plan.patient.conditions)}))
    if plan.patient.other_medicines:
        found.append(text("card.other_medicines", {"medicines": list(plan.patient.other_medicines)}))
    found += ["", *_course(case, now), *_doses(case, now, protocol), *_check_ins(case), *_results(case)]
    return [*found, "", *_flags(case, protocol.text("care.time_zone")), *_last_message(case, sent, protocol)]


def buttons(case: Case, now: datetime) -> list[list[tuple[str, str, dict[str, Any]]]]:
    """What can be done from the card."""
    reference = case.reference
    rows: list[list[tuple[str, str, dict[str, Any]]]] = [
        [(name, f"p:{reference}:{name}", {}) for name in ("write", "ask", "chart")],
        [("results", f"p:{reference}:results", {}), ("change_plan", f"p:{reference}:plan", {})]]
    if any(phase.gate for phase in case.plan.phases):
        rows[1].append(("gates", f"p:{reference}:gates", {}))
    stopped = case.row.state is PatientState.PAUSED or paused(case.plan, case.record, now)
    if case.record.doses_held() is not None:
        rows.append([("free", f"p:{reference}:free", {})])
    rows.append([("resume", f"p:{reference}:resume", {})] if stopped else [("pause", f"p:{reference}:pause", {})])
    for flag in case.open_flags[:4]:
        rows.append([("open", f"f:{flag.id}:open", {"reference": reference, "number": number_of(flag)})])
    return rows


def _course(case: Case, now: datetime) -> list[str]:
    where = standing(case, now)
    if where.week is None:
        found = [text("flag.where_none", {})]
    else:
        found = [text("card.where", {"phase": where.phase.capitalize(), "week": where.week, "dose": where.dose})]
    if where.reason in ("waiting", "season"):
        found.append(text(f"flag.{where.reason}", {}))
    if paused(case.plan, case.record, now):
        found.append(text("card.paused", {}))
    if case.record.doses_held() is not None:
        found.append(text("flag.held", {}))
    return found + _next_phase(case, where.phase)


def _next_phase(case: Case, phase: str) -> list[str]:
    names = [one.name for one in case.plan.phases]
    place = names.index(phase) + 1 if phase in names else len(names)
    if place >= len(names):
        return []
    upcoming, dates = case.plan.phases[place], phase_dates(case.plan, case.record)[place]
    if upcoming.gate and dates.begins is None:
        return [text("card.gate", {"phase": upcoming.name, "gate": upcoming.gate})]
    return [text("card.next", {"phase": upcoming.name, "on": dates.begins.isoformat()})] if dates.begins else []


def _doses(case: Case, now: datetime, protocol: ClinicProtocol) -> list[str]:
    month, course = adherence(case, now, 28), adherence(case, now)
    found = []
    if course.covered is not None and month.covered is not None:
        found.append(text("card.doses", {"taken": month.doses_taken, "due": month.doses_due,
                                         "percent": round(100 * month.covered), "all": round(100 * course.covered)}))
    today = local(now, case.plan.patient.time_zone).date()
    out = runs_out(case.plan, case.record, protocol, today, case.row.plan_version).first_day_without
    if out is not None:
        found.append(text("card.runs_out" if out > today else "card.ran_out", {"on": out.isoformat()}))
    return found


def _check_ins(case: Case) -> list[str]:
    scores = scores_by_day(case)[-_SHOWN:]
    if not scores:
        return [text("card.no_scores", {})]
    return [text("card.scores", {"scores": ", ".join(f"{total} ({day:%d %b})" for day, total in scores)})]


def _results(case: Case) -> list[str]:
    found = []
    scope = next(reversed(case.record.of(EntryKind.ENDOSCOPY_DONE)), None)
    if scope is not None:
        found.append(text("card.endoscopy", {"on": str(scope.facts["date"]), "eos": scope.facts["peak_eos_hpf"],
                                             "erefs": scope.facts["erefs"]}))
    cortisol = next(reversed(case.record.of(EntryKind.CORTISOL)), None)
    if cortisol is not None:
        found.append(text("card.cortisol", {"on": str(cortisol.facts["date"]), "value": cortisol.facts["value"],
                                            "unit": cortisol.facts["unit"]}))
    return found


def _flags(case: Case, zone: str) -> list[str]:
    found = [text("card.flags", {"open": len(case.open_flags), "n": len(case.flags)})]
    found += [_flag_line(flag, zone) for flag in case.open_flags]
    closed = [flag for flag in case.flags if not flag.is_open]
    return found + [_flag_line(flag, zone) for flag in closed[-_SHOWN:]]


def _flag_line(flag: Flag, zone: str) -> str:
    state = flag.outcome or (f"taken by {flag.taken_by}" if flag.taken_by else "open")
    more = f" + {len(flag.rules) - 1}" if len(flag.rules) > 1 else ""
    on = local(urgent_since(flag), zone).date().isoformat()
    return text("card.flag", {"number": number_of(flag), "urgency_word": text(f"urgency.{flag.urgency}", {}).lower(),
                              "title": rule_title(flag.rules[0]) + more, "on": on, "state": state})


def _last_message(case: Case, sent: Iterable[SentMessage], protocol: ClinicProtocol) -> list[str]:
    """What became of the last thing that the care team wrote."""
    last = next((one for one in sent if one.message.to is To.PATIENT and one.message.kind == "care_answer"), None)
    if last is None:
        return []
    state = {SendState.SENT: "delivered", SendState.REFUSED: "NOT delivered", SendState.STALE: "NOT delivered",
             SendState.UNCERTAIN: "perhaps delivered"}.get(
        last.state, "NOT delivered" if case.row.state is PatientState.HELD else "on its way")
    words = shorten(str(last.message.facts.get("text", "")), 120)
    return ["", text("card.last_message", {"words": words, "state": state, "at": last.message.due_at.isoformat(),
                                           "zone": protocol.text("care.time_zone")})]

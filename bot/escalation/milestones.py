"""Course milestones: a summary for the care team, figures and sourced options. Options, never a decision. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from bot.case import Case, Changes
from bot.escalation import hours
from bot.escalation.conditions import Look, endoscopy_asked_before, many_missed, no_benefit, rinses, score_up, scores_of
from bot.escalation.standing import standing
from scheduler.messages import Message, Priority, To
from scheduler.protocol import ClinicProtocol
from scheduler.record import EntryKind

NOTE = "summary"         # kind of the note to ourselves that a summary is due
_SOON = 14               # days before the endoscopy is due from which a summary names it

# Events that give a summary, and the text key of its title. "season_*" tell that the dose changes by the plan.
TITLES = {"milestone": "week", "step_change": "step", "endoscopy_due": "endoscopy_due", "endoscopy_done": "endoscopy",
          "season_start": "season_start", "season_end": "season_end", "course_over": "course_over"}


def summary(case: Case, event: str, facts: Mapping[str, Any], cause: str, now: datetime,
            protocol: ClinicProtocol) -> Changes:
    """The care team's message for a milestone, with the next digest; nothing for other events. Until then it is a note
    to ourselves: what it says is looked up when it is posted, so that it agrees with the flags beside it."""
    if event not in TITLES:
        return Changes()
    look = Look(case, now, protocol, standing(case, now), facts=facts)
    if event == "endoscopy_due" and endoscopy_asked_before(look):
        return Changes()              # told before; the overdue flag goes on
    due = hours.next_digest(now, protocol)
    if event in ("milestone", "endoscopy_due"):
        cause = f"day:{due.isoformat()}"      # week eight and the endoscopy fall on one day: one summary
    note = Message(key=f"{case.reference}:{NOTE}:{cause}", to=To.AGENT, kind=NOTE, due_at=due, reference=case.reference,
                   facts={"cause": cause, "event": event, "completed_weeks": facts.get("completed_weeks", 0)})
    return Changes(messages=(note,))


def posted(case: Case, note: Message, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The summary that is due now, with the figures of now."""
    look, event = Look(case, now, protocol, standing(case, now), facts=note.facts), str(note.facts["event"])
    message = Message(key=f"{case.reference}:milestone:{note.facts['cause']}", to=To.CARE, kind="milestone", due_at=now,
                      reference=case.reference, priority=Priority.ROUTINE,
                      facts={"title": TITLES[event], "options": options(look, event),
                             "completed_weeks": note.facts["completed_weeks"]} | figures_of(look))
    return Changes(messages=(message,))


def figures_of(look: Look) -> dict[str, Any]:
    """What the record says, as JSON values: phase, week, dose, scores, doses and rinses of the last week, flags."""
    scores = scores_of(look)
    since = look.since("flag.missed_within")
    taken = look.entries(EntryKind.DOSE_TAKEN, since=since)
    other = look.entries(EntryKind.DOSE_SKIPPED, EntryKind.DOSE_UNKNOWN, since=since)
    done, of = rinses(look)
    last = next(reversed(look.case.record.of(EntryKind.ENDOSCOPY_DONE)), None)
    return {"phase": look.standing.phase, "week": look.standing.week, "dose": look.standing.dose,
            "scores": [float(score) for score in scores[-6:]], "first_score": float(scores[0]) if scores else None,
            "taken": len({entry.about for entry in taken}), "not_taken": len({entry.about for entry in other}),
            "rinses": done, "rinses_of": of, "open_flags": len(look.case.open_flags), "flags": len(look.case.flags),
            "endoscopy": str(last.facts.get("date", "")) if last else "",
            "peak": last.facts.get("peak_eos_hpf") if last else None,
            "erefs": last.facts.get("erefs") if last else None}


def options(look: Look, event: str) -> list[str]:
    """Text keys (care.option.*) of what a clinician weighs here, most fitting first; each text names its source."""
    found: list[str] = []
    if event.startswith("season"):
        return found
    if many_missed(look):
        found.append("adherence_first")
    if score_up(look):
        found.append("step_back_up")
    if no_benefit(look):
        found += ["other_medicine", "diet", "targeted_therapy", "dilation"]
    if not found and len(scores_of(look)) >= 2:      # without figures there is nothing to weigh
        found.append("go_on")
    due = look.case.plan.endoscopy_after_days
    week = look.standing.week
    if due is not None and week is not None and week * 7 >= due - _SOON and event != "endoscopy_done":
        found.append("endoscopy")
    return found

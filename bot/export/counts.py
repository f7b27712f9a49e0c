"""What stays of a forgotten patient: numbers, under a random reference. None of their dates, words or names. Pure."""

from __future__ import annotations

import secrets
from collections import Counter
from collections.abc import Iterable
from datetime import datetime
from typing import Any

from bot.case import Act, Case
from bot.escalation.standing import week_of
from bot.export.held import Held
from bot.understanding.types import Urgency
from scheduler.localtime import local
from scheduler.messages import SendState, To
from scheduler.plan import phase_dates
from scheduler.record import DOSE_ANSWERS, EntryKind

WHAT = "forgot a patient"
_DOSES = {EntryKind.DOSE_TAKEN: "taken", EntryKind.DOSE_SKIPPED: "not taken", EntryKind.DOSE_UNKNOWN: "unknown"}


def random_reference() -> str:
    """A reference that leads back to nobody."""
    return f"forgotten-{secrets.token_hex(6)}"


def kept(found: Held, reference: str, now: datetime) -> Act:
    """The one line of the record of acts that stays: the counts, under `reference`."""
    return Act(now, "coatwell forget", WHAT, reference, "", counts(found))


def uncounted(reference: str, now: datetime) -> Act:
    """The line for a patient whose stored plan cannot be read: nothing could be counted."""
    return Act(now, "coatwell forget", WHAT, reference, "", {"counted": False})


def counts(found: Held) -> dict[str, Any]:
    """Doses by answer, flags by rule and urgency, scores by week of the course, how much was written; JSON values."""
    case = found.case
    done = case.record.of(EntryKind.CHECK_IN_DONE, EntryKind.CHECK_IN_MISSED)
    return {
        "medicine": case.plan.medicine.name,
        "plan_versions": len(found.plans),
        "doses": _doses(case),
        "check_ins": {"done": sum(entry.kind is EntryKind.CHECK_IN_DONE for entry in done),
                      "missed": sum(entry.kind is EntryKind.CHECK_IN_MISSED for entry in done)},
        "scores": [{"week": week, "total": total} for week, total in _scores(case)],
        "flags": _flags((rule, flag.urgency) for flag in case.flags for rule in flag.rules),
        "findings": dict(sorted(Counter(str(one.finding) for one in case.found).items())),
        "replies": len(found.replies),
        "messages_sent": sum(sent.state is SendState.SENT and sent.message.to is To.PATIENT for sent in found.messages),
        "acts": dict(sorted(Counter(act.what for act in found.acts).items())),
    }


def _doses(case: Case) -> dict[str, int]:
    """Each dose once, by the answer that stands."""
    keys = {entry.about for entry in case.record.of(*DOSE_ANSWERS)}
    standing = Counter(answer.kind for key in keys if (answer := case.record.dose_answer(key)) is not None)
    return {word: standing[kind] for kind, word in _DOSES.items()}


def _scores(case: Case) -> list[tuple[int | None, int]]:
    """Check-in totals by week of the course (None before it has begun), in order."""
    begins = phase_dates(case.plan, case.record)[0].begins
    rows: list[tuple[int | None, int]] = []
    for entry in case.record.of(EntryKind.CHECK_IN_DONE):
        total = (entry.facts.get("score") or {}).get("total")
        if total is not None:
            day = local(entry.at, case.plan.patient.time_zone).date()
            rows.append((week_of((day - begins).days + 1) if begins and day >= begins else None, int(total)))
    return rows


def _flags(raised: Iterable[tuple[str, Urgency]]) -> dict[str, dict[str, int]]:
    found: dict[str, dict[str, int]] = {}
    for (rule, urgency), n in sorted(Counter(raised).items()):
        found.setdefault(rule, {})[str(urgency)] = n
    return found

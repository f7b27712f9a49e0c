"""A count told ('I took 10 ampoules', 'I only took 2') against the dose in force. More is urgent; less is routine and
the care team reads it; the same is the dose, taken. Pure."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from bot.case import Case
from bot.conversation.finding import facts_of, last_dose, open_dose
from bot.understanding import counts
from bot.understanding.counts import Count
from bot.understanding.tokens import split
from bot.understanding.types import Answer, Reading, Urgency
from scheduler.protocol import ClinicProtocol

MORE, LESS = "taken_twice", "taken_less"


def weighed(case: Case, reading: Reading, now: datetime, protocol: ClinicProtocol) -> Reading:
    """The reading, with a count in its words compared with the dose that they speak of. An emergency is never lowered,
    nor is anything that stands beside other words."""
    count = counts.told([token.word for token in split(reading.text)], case.plan.patient.language)
    planned = _planned(case, count, now, protocol) if count is not None else None
    if count is None or planned is None or reading.urgency is Urgency.EMERGENCY:
        return reading
    rest = tuple(one for one in reading.extra if one not in (MORE, LESS))
    if count.said > planned or count.more:
        return replace(reading, extra=(*rest, MORE), urgency=max(reading.urgency, Urgency.URGENT), needs_human=True,
                       answer=None, findings=() if count.whole else reading.findings)
    if not count.whole:
        return reading
    if count.said < planned or (count.meant is not None and count.less):
        return replace(reading, extra=(*rest, LESS), urgency=Urgency.ROUTINE, needs_human=True, answer=None,
                       findings=())
    if count.only or case.conversation.state not in ("idle", "when_taken"):
        return replace(reading, extra=rest, urgency=Urgency.ROUTINE, needs_human=True, findings=())
    return replace(reading, extra=(), urgency=Urgency.NONE, needs_human=False, findings=(), answer=Answer.TAKEN,
                   question="", asks=())


def _planned(case: Case, count: Count, now: datetime, protocol: ClinicProtocol) -> float | None:
    """Units of the dose that is open or was the last one, or of the whole day; None where another unit is told."""
    dose = open_dose(case, now, protocol) or last_dose(case, now, protocol)
    facts = facts_of(case, dose, protocol) if dose is not None else {}
    if not facts.get("units") or (count.unit and count.unit != facts.get("unit")):
        return None
    return float(facts["units"]) * (len(case.plan.dose_times) if count.day else 1)

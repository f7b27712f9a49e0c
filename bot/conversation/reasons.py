"""Why a dose was left out, by tap or in words: what the care team is told beyond the count. The rules decide. Pure."""

from __future__ import annotations

from datetime import datetime

from bot.case import Case, Changes
from bot.escalation import assess_event
from bot.texts.catalogue import say as text_of
from scheduler.protocol import ClinicProtocol

# 'I forgot' needs nobody by itself: the rules count how many were missed.
PASSED_ON = ("ill", "no_medicine", "side_effects", "other")


def passed_on(case: Case, reason: str, cause: str, now: datetime, protocol: ClinicProtocol, *,
              words: str = "") -> Changes:
    """What this reason means for the care team and what the patient is told; `case` is the case with the skip in it.
    words: the patient's own, where it was typed."""
    if reason not in PASSED_ON:
        return Changes()
    words = words or text_of(case.plan.patient.language, f"doses.reason.{reason}", {})
    return assess_event(case, f"skipped_{reason}", {"about": cause, "words": words}, now, protocol)

"""'I have none left', typed: the same flag and the same answer as by tap, also where no dose is asked about. Pure."""

from __future__ import annotations

from datetime import datetime

from bot.case import Case, Changes
from bot.conversation import doses, reasons
from bot.conversation.finding import due_dose
from bot.understanding.grammar_dose import DoseTold
from bot.understanding.supply_words import Lack, lack_of_medicine
from bot.understanding.types import Finding, Reading, Urgency
from scheduler.protocol import ClinicProtocol

_REASON = "no_medicine"


def told(case: Case, reading: Reading, about: DoseTold, cause: str, now: datetime,
         protocol: ClinicProtocol) -> Changes | None:
    """What the words change where they say this and no sign besides; None where they do not, or where the care team has
    just been told (then a person reads them as any other words). A dose that is due is left out, if there is plainly
    nothing to take."""
    lack = lack_of_medicine(reading.text, case.plan.patient.language)
    plainly = not reading.extra and set(reading.findings) <= {Finding.MISSED_DOSES} and (
        reading.urgency < Urgency.URGENT)
    if lack is None or not plainly or about.claims:
        return None
    key = _dose_left_out(case, now, protocol) if lack is Lack.NONE_LEFT else ""
    changes = (doses.skipped(case, key, _REASON, cause, now, protocol, words=reading.text) if key else
               reasons.passed_on(case, _REASON, cause, now, protocol, words=reading.text))
    return changes if changes.flags else None


def beside(case: Case, reading: Reading, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The same where signs stand beside it, or a dose that was taken: flagged too; `case` is the case after their
    flags."""
    if lack_of_medicine(reading.text, case.plan.patient.language) is None:
        return Changes()
    return reasons.passed_on(case, _REASON, cause, now, protocol, words=reading.text)


def _dose_left_out(case: Case, now: datetime, protocol: ClinicProtocol) -> str:
    """Key of the dose that cannot be taken then: the one whose reason is asked, else the one that is due; ""."""
    if case.record.doses_held() is not None:
        return ""
    if case.conversation.state == "why_not":
        return case.conversation.about
    due = due_dose(case, now, protocol)
    return due.key if due else ""

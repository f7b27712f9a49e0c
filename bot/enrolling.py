"""A plan file becomes a patient with a one-time invite."""

from __future__ import annotations

from datetime import datetime

from bot import invites
from bot.case import Act, Changes, PatientRow, PatientState
from bot.conversation import joining
from bot.ports import Work
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind
from scheduler.seal import sealed


async def enrol(work: Work, plan: Plan, now: datetime, protocol: ClinicProtocol) -> str:
    """Store the signed plan as version 1 and make an invite; returns its code (kept nowhere else).

    Raises errors.AlreadyThere when the reference is known: a new version is signed in the care team's chat instead.
    """
    reference, plan = plan.patient.reference, sealed(plan)
    await work.add_patient(PatientRow(reference, PatientState.INVITED, 1, writer=plan.patient.writer), plan, now)
    signed = Entry(EntryKind.PLAN_SIGNED, now, "1", {"by": plan.signed_by, "on": plan.signed_on.isoformat()})
    unused = joining.invite_note(reference, now, protocol)
    await work.apply(reference, Changes(entries=(signed,), messages=(unused,), acts=(
        Act(now, plan.signed_by, "signed the plan", reference, "1"),)), now)
    return await invites.make_invite(work, "patient", now, protocol, reference)

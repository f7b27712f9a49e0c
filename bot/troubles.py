"""What follows when a message cannot be delivered: the patient is held, the care team is told, or told another way.

A flag that the care team's chat does not take, or an emergency for which that chat asks to wait, goes to the members'
own chats and to whoever is on call; the first message is kept and tried again as well.
"""

from __future__ import annotations

import logging
from dataclasses import replace
from datetime import datetime

from bot.case import Case, Changes, PatientState
from bot.conversation.late import reminder_was_late
from bot.escalation import assess_event, telling
from bot.ports import Work
from bot.sending import Addresses, Trouble, is_urgent
from scheduler.messages import Message, To
from scheduler.plan import paused
from scheduler.protocol import ClinicProtocol

log = logging.getLogger(__name__)

REACHABLE = (PatientState.ACTIVE, PatientState.PAUSED)
REMINDERS = ("dose", "dose_later")


async def act_on(work: Work, trouble: Trouble, addresses: Addresses, now: datetime, protocol: ClinicProtocol) -> None:
    """Everything that one trouble leads to, in the caller's transaction."""
    message = trouble.message
    if message is None:
        return
    if message.to is not To.PATIENT:
        await _care_not_reached(work, message, trouble, addresses)
        return
    case = await work.case(trouble.reference) if trouble.reference else None
    if case is not None:
        await work.apply(case.reference, _patient_not_reached(case, message, trouble, now, protocol), now)


def _patient_not_reached(case: Case, message: Message, trouble: Trouble, now: datetime,
                         protocol: ClinicProtocol) -> Changes:
    if trouble.what == "moved":
        return Changes(row=replace(case.row, chat=trouble.detail))
    lost = telling.not_delivered(case, message, now) if trouble.what in ("stale", "blocked", "refused") else Changes()
    if trouble.what == "stale":
        return lost + _too_late(case, message, now, protocol)
    if trouble.what == "blocked":
        return lost + blocked(case, now, protocol)
    if trouble.what == "refused":
        return lost + assess_event(case, "undeliverable", {"why": trouble.detail, "about": message.key}, now, protocol)
    return Changes()


def blocked(case: Case, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The patient has stopped the bot: messages are held and the care team is told, once."""
    if case.row.state not in REACHABLE:
        return Changes()
    held = Changes(row=replace(case.row, state=PatientState.HELD))
    return held + assess_event(case.after(held), "undeliverable", {}, now, protocol)


def back_again(case: Case, now: datetime) -> Changes:
    """A patient who was held is here again: the timeline goes on from now, what was held and is not too late leaves."""
    state = PatientState.PAUSED if paused(case.plan, case.record, now) else PatientState.ACTIVE
    return Changes(row=replace(case.row, state=state), replan=True)


def _too_late(case: Case, message: Message, now: datetime, protocol: ClinicProtocol) -> Changes:
    """A reminder that could not be sent in time is not sent; the patient is told so, once a dose."""
    if message.kind not in REMINDERS or case.row.state not in REACHABLE:
        return Changes()
    return reminder_was_late(case, message, now, protocol)


async def _care_not_reached(work: Work, message: Message, trouble: Trouble, addresses: Addresses) -> None:
    if trouble.what not in ("busy", "refused", "blocked") or not is_urgent(message):
        if trouble.what == "refused":
            log.error("a message of kind %s to the care team was refused: %s", message.kind, trouble.detail)
        return
    log.error("the care team's chat does not take a message of kind %s (%s): sent to the members' own chats",
              message.kind, trouble.what)
    if message.to is To.CHAT:
        return
    taken = {addresses.care if message.to is To.CARE else addresses.on_call}
    ways = {"on_call": addresses.on_call} if addresses.on_call else {}
    ways |= {member.sender: member.chat for member in await work.members() if member.removed_at is None}
    await work.put([replace(message, key=f"{message.key}:around:{name}", to=To.CHAT, address=chat, edits=None)
                    for name, chat in ways.items() if chat and chat not in taken])

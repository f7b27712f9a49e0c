"""First contact: what is stored, that a chat network is not private, no emergency service, consent; who writes."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime

from bot.case import Act, Case, Changes, Conversation, PatientState
from bot.conversation import joining
from bot.conversation.finding import next_dose
from bot.conversation.saying import clinic, clock, day_of, say
from bot.escalation import assess_event
from bot.escalation.flags import number_of
from bot.understanding.types import Urgency
from scheduler.cautions import cautions
from scheduler.messages import Message
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind

CONSENT_VERSION = "2"
GROWN_UP = 18
LEAVES = "/stop"

# How the keys of what is yet to come to a patient begin: the timeline, a question of the care team's. What brings flags
# to people, and what a person has written to the patient, are none of these.
STILL_TO_COME = ("v", "asked:")


def invited(case: Case, chat: str, sender: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The invite was good: this chat is the patient's; ask for consent. Nothing else is sent until it is given."""
    row = replace(case.row, state=PatientState.ASKED, chat=chat, sender=sender)
    return Changes(row=row, messages=(consent_question(case, cause, now, protocol),
                                      *joining.notes(case, cause, now, protocol)),
                   conversation=Conversation("consent", since=now, facts=joining.began(cause, now)),
                   acts=(Act(now, "patient", "used the invite", case.reference),))


def consent_question(case: Case, cause: str, now: datetime, protocol: ClinicProtocol, again: bool = False) -> Message:
    return say(case, cause, "consent_again" if again else "consent", now,
               **clinic(case, protocol, now, "emergency_number", "reads_when"))


def consent_tapped(case: Case, choice: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Agreed, or not. A parent or carer may hold the phone of a minor: where the plan does not say so already, it is
    asked who writes."""
    if case.row.state is not PatientState.ASKED:
        return Changes()
    if choice != "yes":
        return joining.refused(case, cause, now, protocol)
    if joining.too_late(case, now, protocol):
        return joining.lapsed(case, cause, now, protocol)
    if joining.has_agreed(case):
        return Changes(messages=(say(case, cause, "who_writes", now),))      # agreed twice: the next question is open
    agreed = Changes(entries=(Entry(EntryKind.CONSENTED, now, facts={"version": CONSENT_VERSION}),),
                     acts=(Act(now, "patient", "agreed", case.reference, facts={"version": CONSENT_VERSION}),))
    if case.plan.patient.age_years < GROWN_UP and case.plan.patient.writer == "patient":
        return agreed + Changes(messages=(say(case, cause, "who_writes", now),),
                                conversation=joining.said(case, "who_writes", now, agreed=True))
    return agreed + begin(case.after(agreed), case.plan.patient.writer, cause, now, protocol)


def who_tapped(case: Case, writer: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    if case.row.state is not PatientState.ASKED or not joining.has_agreed(case):
        return Changes()
    if joining.too_late(case, now, protocol):
        return joining.lapsed(case, cause, now, protocol)
    return begin(case, writer if writer in ("patient", "parent") else "patient", cause, now, protocol)


def begin(case: Case, writer: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """From here on the plan speaks: the timeline is expanded from now."""
    row = replace(case.row, state=PatientState.ACTIVE, writer=writer)
    case = replace(case, row=row)                # a parent is welcomed as one
    first = next_dose(case, now, protocol)
    welcome = say(case, cause, "welcome", now, first_day=day_of(case, first), medicine=case.plan.medicine.name,
                  first_clock=clock(case, first.at) if first else "", held=case.record.doses_held() is not None,
                  **clinic(case, protocol, now, "emergency_number", "reads_when"))
    return joining.joined(case, now) + Changes(
        row=row, messages=(welcome, good_to_know(case, cause, now, protocol)),
        conversation=Conversation("idle", since=now), replan=True)


def open_question(case: Case, cause: str, now: datetime, protocol: ClinicProtocol) -> Message:
    """The question that stands between the invite and the first dose, once more."""
    if joining.has_agreed(case):
        return say(case, cause, "who_writes", now)
    return consent_question(case, cause, now, protocol, again=True)


def on_joining_note(case: Case, due: Message, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Time has passed and the patient takes no part yet: asked once more, then the care team is told."""
    if not joining.still_waits(case, due):
        return Changes()
    if due.facts["stage"] != joining.REMIND:
        return joining.not_joined(case, due, now, protocol)
    if joining.has_refused(case):
        return Changes()                         # who has said no is not asked again
    return Changes(messages=(open_question(case, due.key.removeprefix(f"{case.reference}:"), now, protocol),))


def good_to_know(case: Case, cause: str, now: datetime, protocol: ClinicProtocol) -> Message:
    """The cautions of this plan that belong in the patient's own hands, in the patient's words."""
    topics = dict.fromkeys(one.topic for one in cautions(case.plan, protocol) if one.tell_patient)
    keeping = ["enrolment.caution.open_foil"] if case.plan.medicine.form == "ampoule" else []
    return say(case, cause, "good_to_know", now, days=protocol.span("keep.foil_open").days,
               text_keys=["enrolment.good_to_know", *keeping,
                          *(f"enrolment.caution.{slug(topic)}" for topic in topics)],
               **clinic(case, protocol, now, "emergency_number", "urgent_number"))


def slug(topic: str) -> str:
    """A caution's topic as the name of its text: 'strong CYP3A4 inhibitor' -> 'strong_cyp3a4_inhibitor'."""
    return re.sub(r"\W+", "_", topic.lower())


def leave(case: Case, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The patient withdraws: nothing more is asked or reminded of, and the care team is told by the rules.

    What the care team waits for stays as it is: a flag that is open goes on calling, and an emergency answer on its way
    still arrives.
    """
    row = replace(case.row, state=PatientState.ENDED)
    kind = "left_in_emergency" if any(flag.urgency is Urgency.EMERGENCY for flag in case.open_flags) else "left"
    goodbye = say(case, cause, kind, now, **clinic(case, protocol, now, "emergency_number"))
    stops = [*STILL_TO_COME, *(f"flag:{number_of(flag)}:follow_up:" for flag in case.flags)]
    left = Changes(row=row, messages=(goodbye,), replan=True,
                   cancel=tuple(f"{case.reference}:{start}*" for start in stops),
                   conversation=Conversation("idle", since=now), acts=(Act(now, "patient", "left", case.reference),))
    return left + assess_event(case.after(left), "left", {"words": LEAVES}, now, protocol)

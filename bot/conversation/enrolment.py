"""First contact: what is stored, that a chat network is not private, no emergency service, consent; who writes."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime

from bot.case import Act, Case, Changes, Conversation, PatientState
from bot.conversation.finding import next_dose
from bot.conversation.saying import clinic, clock, say
from scheduler.cautions import cautions
from scheduler.localtime import local
from scheduler.messages import Message
from scheduler.occasions import Occasion
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind

CONSENT_VERSION = "2"
GROWN_UP = 18


def invited(case: Case, chat: str, sender: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The invite was good: this chat is the patient's; ask for consent. Nothing else is sent until it is given."""
    row = replace(case.row, state=PatientState.ASKED, chat=chat, sender=sender)
    return Changes(row=row, messages=(consent_question(case, cause, now, protocol),),
                   conversation=Conversation("consent", since=now),
                   acts=(Act(now, "patient", "used the invite", case.reference),))


def consent_question(case: Case, cause: str, now: datetime, protocol: ClinicProtocol, again: bool = False) -> Message:
    return say(case, cause, "consent_again" if again else "consent", now,
               **clinic(case, protocol, now, "emergency_number", "reads_when"))


def consent_tapped(case: Case, choice: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Agreed, or not. A parent or carer may hold the phone of a minor, so there it is asked who writes."""
    if case.row.state is not PatientState.ASKED:
        return Changes()
    if choice != "yes":
        return Changes(messages=(say(case, cause, "consent_refused", now),),
                       acts=(Act(now, "patient", "did not agree", case.reference),))
    agreed = Changes(entries=(Entry(EntryKind.CONSENTED, now, facts={"version": CONSENT_VERSION}),),
                     acts=(Act(now, "patient", "agreed", case.reference, facts={"version": CONSENT_VERSION}),))
    if case.plan.patient.age_years < GROWN_UP:
        return agreed + Changes(messages=(say(case, cause, "who_writes", now),),
                                conversation=Conversation("who_writes", since=now))
    return agreed + begin(case, "patient", cause, now, protocol)


def who_tapped(case: Case, writer: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    if case.row.state is not PatientState.ASKED or not case.record.of(EntryKind.CONSENTED):
        return Changes()
    return begin(case, writer if writer in ("patient", "parent") else "patient", cause, now, protocol)


def begin(case: Case, writer: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """From here on the plan speaks: the timeline is expanded from now."""
    row = replace(case.row, state=PatientState.ACTIVE, writer=writer)
    first = next_dose(case, now, protocol)
    welcome = say(case, cause, "welcome", now, first_day=_day(case, first), medicine=case.plan.medicine.name,
                  first_clock=clock(case, first.at) if first else "",
                  **clinic(case, protocol, now, "emergency_number", "reads_when"))
    return Changes(row=row, messages=(welcome, good_to_know(case, cause, now, protocol)),
                   conversation=Conversation("idle", since=now), replan=True)


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


def _day(case: Case, occasion: Occasion | None) -> str:
    return local(occasion.at, case.plan.patient.time_zone).date().isoformat() if occasion else ""


def leave(case: Case, cause: str, now: datetime) -> Changes:
    """The patient withdraws: nothing more is sent, and the care team is told by the rules."""
    row = replace(case.row, state=PatientState.ENDED)
    return Changes(row=row, messages=(say(case, cause, "left", now),), cancel=(f"{case.reference}:*",),
                   conversation=Conversation("idle", since=now), acts=(Act(now, "patient", "left", case.reference),))

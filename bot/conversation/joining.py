"""Between the invite and the first dose nobody is lost from sight: no answer, a refusal or an old 'I agree' reaches the
care team.

What the patient was asked stands in the conversation's facts: "joining" names the invite's use (notes of an earlier one
are void), "asked_at" its time, "agreed" and "refused" what the patient has said last.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from typing import Any

from bot.case import Act, Case, Changes, Conversation, Flag, FlagState, PatientState
from bot.conversation.saying import clinic, note, say
from bot.escalation import assess_event
from bot.escalation.flags import overdue_keys, shown_key, to_care
from scheduler.localtime import local
from scheduler.messages import Message, Priority, To
from scheduler.protocol import ClinicProtocol

NOTE = "joining"
REMIND, TELL, UNUSED = "remind", "tell", "unused"
# Rules that say no more than 'takes no part': they end when the patient joins after all.
NO_PART = frozenset({"not_joined", "refused", "joins_late", "left", "left_unwell", "left_in_emergency"})
JOINED = "has joined"               # the outcome of a flag that said nothing else


def began(cause: str, now: datetime) -> dict[str, Any]:
    """What the conversation remembers of the invite's use."""
    return {"joining": cause, "asked_at": now.isoformat()}


def notes(case: Case, cause: str, now: datetime, protocol: ClinicProtocol) -> tuple[Message, ...]:
    """Timers: ask once more, then tell the care team."""
    return tuple(note(case, f"joining:{cause}:{stage}", NOTE, now + protocol.span(key), joining=cause, stage=stage)
                 for stage, key in ((REMIND, "joining.remind_after"), (TELL, "joining.flag_after")))


def invite_note(reference: str, made: datetime, protocol: ClinicProtocol) -> Message:
    """A timer for the day on which an invite that nobody has used runs out."""
    return Message(key=f"{reference}:joining:{made.isoformat()}:{UNUSED}:{NOTE}", to=To.AGENT, kind=NOTE,
                   due_at=made + protocol.span("invite.valid_for"), reference=reference,
                   facts={"joining": "", "stage": UNUSED})


def still_waits(case: Case, due: Message) -> bool:
    """Whether the patient is where this note found them when it was written."""
    if due.facts["stage"] == UNUSED:
        return case.row.state is PatientState.INVITED
    return case.row.state is PatientState.ASKED and case.conversation.facts.get("joining") == due.facts["joining"]


def has_refused(case: Case) -> bool:
    return bool(case.conversation.facts.get("refused"))


def has_agreed(case: Case) -> bool:
    """Agreed to take part, and asked who writes; an agreement before an earlier leaving does not count."""
    return bool(case.conversation.facts.get("agreed")) or case.conversation.state == "who_writes"


def said(case: Case, state: str, now: datetime, *, agreed: bool) -> Conversation:
    """The conversation after 'I agree' or 'I do not agree'."""
    facts = {**case.conversation.facts, "agreed": agreed, "refused": not agreed}
    return replace(case.conversation, state=state, since=now, facts=facts)


def not_joined(case: Case, due: Message, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The care team is told what the patient has not answered. Who has refused was told of at once."""
    if has_refused(case):
        return Changes()
    asked = "invite" if due.facts["stage"] == UNUSED else "who_writes" if has_agreed(case) else "consent"
    return assess_event(case, "not_joined", {"about": due.key, "waits_for": asked}, now, protocol)


def refused(case: Case, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'I do not agree': nothing is sent from now on, and the care team knows."""
    if has_refused(case):
        return Changes(messages=(say(case, cause, "consent_refused", now),))
    no = Changes(messages=(say(case, cause, "consent_refused", now),),
                 conversation=said(case, "consent", now, agreed=False),
                 acts=(Act(now, "patient", "did not agree", case.reference),))
    return no + assess_event(case.after(no), "refused", {"about": cause}, now, protocol)


def too_late(case: Case, now: datetime, protocol: ClinicProtocol) -> bool:
    """Whether the invite was used so long ago that 'I agree' may start a plan that nobody means any more."""
    asked = _asked_at(case)
    return asked is not None and now - asked > protocol.span("joining.open_for")


def lapsed(case: Case, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'I agree', long after: nothing starts by itself; the care team sends a new invite."""
    asked, zone = _asked_at(case), case.plan.patient.time_zone
    told = say(case, cause, "joining_too_late", now, asked=local(asked or now, zone).date().isoformat(),
               **clinic(case, protocol, now, "emergency_number", "reads_when"))
    ended = Changes(row=replace(case.row, state=PatientState.ENDED), messages=(told,),
                    conversation=Conversation("idle", since=now),
                    acts=(Act(now, "patient", "agreed too late", case.reference),))
    return ended + assess_event(case.after(ended), "joins_late", {"about": cause}, now, protocol)


def joined(case: Case, now: datetime) -> Changes:
    """The care team is told that a patient takes part after all, of whom open flags say that they do not. These
    reasons end; what else stands on the flag stays, and a flag that says nothing else is closed."""
    known = [flag for flag in case.open_flags if NO_PART & set(flag.rules)]
    if not known:
        return Changes()
    ended = Changes()
    for flag in known:
        one = _with_part(case, flag, now)
        ended += Changes(flags=(one,), cancel=() if one.is_open else (overdue_keys(flag),), messages=(
            to_care(case, one, "flag", f"joined:{now.isoformat()}", now, edits=shown_key(flag)),))
    back = Message(f"{case.reference}:joined:{now.isoformat()}", To.CARE, "desk", now, reference=case.reference,
                   priority=Priority.FLAG, facts={"text_keys": ["desk.patient_joined"]})
    return ended + Changes(messages=(back,))


def _with_part(case: Case, flag: Flag, now: datetime) -> Flag:
    """The flag without the reasons that joining ends; closed where nothing else is left."""
    day = local(now, case.plan.patient.time_zone).date().isoformat()
    told = replace(flag, facts={**flag.facts, "about": {**_about(flag), "joined": day}})
    rest = tuple(rule for rule in flag.rules if rule not in NO_PART)
    return replace(told, rules=rest) if rest else replace(told, state=FlagState.CLOSED, closed_at=now, outcome=JOINED)


def _about(flag: Flag) -> Mapping[str, Any]:
    found: Mapping[str, Any] = flag.facts.get("about", {})
    return found


def _asked_at(case: Case) -> datetime | None:
    told = case.conversation.facts.get("asked_at")
    return datetime.fromisoformat(str(told)) if told else case.conversation.since

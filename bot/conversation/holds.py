"""After 'do not eat or drink, call now' no dose reminder may say the opposite: doses are held, not dropped;
'you can eat and drink now' at the end of a window is not said either.

An emergency of the protocol's list holds the reminders until the care team closes the flag, or the patient says that a
doctor has told them to go on. The plan itself is not changed: a held dose is recorded as skipped, with the reason.
"""

from __future__ import annotations

from datetime import datetime

from bot.case import Act, Case, Changes, PatientState
from bot.conversation import doses
from bot.conversation.finding import close_of, due_dose, facts_of, next_dose, still_to_answer
from bot.conversation.plainwords import asks_to_take
from bot.conversation.saying import clinic, clock, day_of, say
from bot.escalation import assess_event
from bot.escalation.telling import tells_emergency
from bot.texts.catalogue import say as text_of
from bot.understanding.types import Urgency
from scheduler.messages import Priority
from scheduler.plan import paused
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind


def hold(case: Case, flagged: Changes, now: datetime, protocol: ClinicProtocol) -> Changes:
    """What raising these flags means for the dose reminders; `case` is the case before them. Words that are only added
    to an open emergency hold nothing: the patient may have been told since to go on."""
    if not tells_emergency(flagged):
        return Changes()
    holding = frozenset(map(str, protocol.items("hold.rules")))
    cause = next((flag for flag in case.after(flagged).open_flags if flag.urgency is Urgency.EMERGENCY
                  and holding & set(flag.rules)), None)
    if cause is None or case.record.doses_held() is not None:
        return Changes()
    last = case.record.last_taken()
    stops = [f"{case.reference}:{last.about}:*"] if last else []
    stops += [f"{case.reference}:{dose.key}:later*" for dose, _ in still_to_answer(case, now, protocol)]
    return Changes(entries=(Entry(EntryKind.DOSES_HELD, now, cause.id, {"rules": sorted(holding & set(cause.rules))}),),
                   cancel=tuple(stops), replan=True)


def may_i(case: Case, text: str, flagged: Changes, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'Can I take my dose now?' while doses are held: not yet, and the button for who was told to go on. A person reads
    the words all the same."""
    held = case.record.doses_held()
    if held is None or tells_emergency(flagged) or not asks_to_take(text, case.plan.patient.language):
        return Changes()
    return Changes(messages=(say(case, cause, "hold_answer", now, flag=held.about,
                                 **clinic(case, protocol, now, "emergency_number")),))


def told_to_go_on(case: Case, flag_id: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The patient says that a doctor or the care team has said so."""
    held = case.record.doses_held()
    upcoming = None if due_dose(case, now, protocol) else next_dose(case, now, protocol)
    over = say(case, cause, "hold_over", now, next_day=day_of(case, upcoming),
               next_clock=clock(case, upcoming.at) if upcoming else "",
               **clinic(case, protocol, now, "emergency_number"))
    if held is None:
        return Changes(messages=(over,))     # tapped again, or the care team was first
    if held.about != flag_id:
        return Changes()
    freed = Changes(entries=(Entry(EntryKind.DOSES_FREED, now, flag_id, {"by": "patient"}),), replan=True,
                    messages=(over,),
                    acts=(Act(now, "patient", "was told to go on with the doses", case.reference, flag_id),))
    freed += due_again(case, freed, cause, now, protocol)
    words = text_of(case.plan.patient.language, "doses.hold.button", {})
    return freed + assess_event(case.after(freed), "hold_lifted", {"about": cause, "words": words}, now, protocol)


def due_again(case: Case, freed: Changes, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Where `freed` lets held doses go on: the dose that is due now, whole, since its reminder only said 'not yet'."""
    if not any(entry.kind is EntryKind.DOSES_FREED for entry in freed.entries):
        return Changes()
    if case.row.state is not PatientState.ACTIVE or paused(case.plan, case.record, now):
        return Changes()
    after = case.after(freed)
    dose = due_dose(after, now, protocol)
    if dose is None:
        return Changes()
    copy = say(after, f"{dose.key}:{cause}", "dose", now, send_before=close_of(after, dose, protocol),
               priority=Priority.ANSWER, day_key=dose.key, **facts_of(after, dose, protocol))
    return Changes(messages=(copy,), conversation=doses.remember(after, copy.key, now))

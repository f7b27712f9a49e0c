"""No words of a patient's are met with silence: what is said when nothing else answers them, and when they want out.

Pure. 'Ok', 'thanks', the fourth line in a row: a short line says how things stand, so that nobody takes silence for
'noted'. 'Stop', 'quit texting me' name no command: how to leave is said, and a person reads the words, since they may
mean the medicine.
"""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime

from bot.case import Case, Changes
from bot.checkin import bare
from bot.conversation.finding import due_dose, facts_of
from bot.conversation.saying import clinic, clock, say
from bot.understanding.types import Reading, Urgency
from scheduler.messages import To
from scheduler.protocol import ClinicProtocol

_LEAVING = {
    "en": re.compile(
        r"(?:please |ok |just )*(?:stop(?: it| this| that| now)?|unsubscribe(?: me)?|opt out|cancel|quit|"
        r"leave me alone|go away|shut up|"
        r"(?:stop|quit) (?:texting|messaging|writing|bothering|pestering|spamming|contacting)(?: to)?(?: me)?|"
        r"(?:stop|quit) sending(?: me)?(?: (?:texts|messages|reminders|these|this))?|"
        r"(?:no more|stop|stop the|stop these|stop all|stop your|end the|end these|cancel the) "
        r"(?:texts?|messages?|reminders?|notifications?|texting)|"
        r"(?:i )?(?:dont|do not) want (?:any more|these|your|any|more) (?:texts|messages|reminders)|"
        r"(?:dont|do not) (?:text|message|write|write to|contact|bother) me(?: any ?more| again)?|"
        r"(?:i )?(?:want|would like|wanna)(?: to)? (?:opt out|unsubscribe|(?:leave|quit|stop|get out of|opt out of) "
        r"(?:this|the) (?:program|chat|bot|service)))(?: please| now| already| for good)*"),
    "es": re.compile(
        r"(?:por favor |ya )*(?:para|para ya|parar|basta|basta ya|alto|stop|cancelar|cancela|dejame en paz|"
        r"dejenme en paz|(?:deja|dejen|deje) de (?:escribirme|escribir|molestarme|molestar|"
        r"(?:mandarme|enviarme) (?:mensajes|recordatorios))|"
        r"no me (?:escribas|escriban|escriba|molestes|molesten|contactes)(?: mas)?|"
        r"no me (?:mandes|manden|mande|envies|envien) (?:mas )?(?:mensajes|recordatorios)|"
        r"no quiero (?:mas )?(?:mensajes|recordatorios)|no mas (?:mensajes|recordatorios)|"
        r"(?:quiero )?darme de baja|quiero salir del (?:programa|chat))(?: por favor| ya)*"),
}


def wants_out(text: str, language: str) -> bool:
    """Whether a text asks for no more messages, and says nothing else. A person reads it all the same."""
    words = bare(text)
    return any(_LEAVING[one].fullmatch(words) is not None for one in {language[:2], "en"} if one in _LEAVING)


def for_a_person(reading: Reading) -> Reading:
    """'Stop' is no answer to any question; it may mean the medicine, so a person reads it. The phrases are closed and
    hold no sign: a tier that no finding gives is the second reader's guess ('darme de baja') and is not kept."""
    told = bool(reading.findings or reading.extra)
    return replace(reading, needs_human=True, answer=None, question="", asks=(),
                   urgency=max(reading.urgency, Urgency.ROUTINE) if told else Urgency.ROUTINE)


def how_to_leave(case: Case, flagged: Changes, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """`flagged`, in which 'I did not fully understand' becomes how to leave, and that a person reads the words."""
    kept = tuple(message for message in flagged.messages
                 if message.to is not To.PATIENT or message.facts.get("rule") != "message_to_read")
    told = say(case, cause, "how_to_leave", now, **clinic(case, protocol, now, "reads_when", "emergency_number"))
    return replace(flagged, messages=(*kept, told))


def never_silent(case: Case, changes: Changes, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The changes that words of the patient's make; `case` is the case before. Said only where nothing else is."""
    if any(message.to is To.PATIENT for message in changes.messages):
        return changes
    after = case.after(changes)
    dose = None if after.record.doses_held() is not None else due_dose(after, now, protocol)
    if any(flag.urgency is Urgency.EMERGENCY for flag in after.open_flags):
        told = say(after, cause, "not_over", now, **clinic(after, protocol, now, "emergency_number"))
    elif changes.flags or (changes.reply is not None and changes.reply.reading.get("needs_human")):
        told = say(after, cause, "added_too", now, **clinic(after, protocol, now, "emergency_number"))
    elif after.conversation.state == "check_in":
        told = say(after, cause, "check_in_waits", now)
    elif dose is not None:
        told = say(after, cause, "dose_waits", now, **(facts_of(after, dose, protocol) | {
            "clock": clock(after, dose.at)}))
    else:
        told = say(after, cause, "here_for_you", now)
    return changes + Changes(messages=(told,))

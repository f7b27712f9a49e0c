"""What the patient is told about an escalation: kinds and facts; the sentences are in texts/*/escalation.toml. Pure."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from bot.case import Act, Case, Changes, Flag, PatientState
from bot.escalation import hours
from bot.escalation.flags import closing_key, shown_key, to_care, urgent_since
from bot.escalation.match import most_urgent
from bot.escalation.rules import BY_ID, COURSE, Rule, thread_of
from bot.escalation.standing import goes_on
from bot.escalation.talking import talking_with
from bot.understanding.types import Context, Finding, Reading, Urgency
from scheduler.messages import Message, Priority, To
from scheduler.officehours import reads_when
from scheduler.plan import paused
from scheduler.protocol import ClinicProtocol

KINDS = frozenset({"emergency_answer", "passed_on", "self_harm_answer", "poison_answer", "what_if_answer",
                   "not_now_answer", "being_read", "nobody_has_read", "follow_up", "follow_up_thanks", "flag_closed"})
KEEPS = timedelta(hours=12)          # an answer that could not be sent for this long helps nobody

MOST_TOPICS = 3                      # a follow-up names no more than these
FOLLOW_UPS = ("better", "same", "worse")

# What a patient reads when a flag is closed with this outcome and nobody wrote to them (texts: escalation.closed.*).
CLOSED = {"sent to emergency care": "emergency_care", "seen in clinic": "seen", "advice given": "advice",
          "treated": "treated", "plan to be changed": "plan", "no answer from patient": "no_answer",
          "nothing to do": "nothing"}

NOTHING_TO_ADD = ("nothing", "other")       # sentences that would read as an answer to whatever was written last

# What is said about these (rules' `tell`) speaks of no sign of illness: one line about emergencies is enough.
NO_SIGN = frozenset({"to_read", "to_care", "missed", "wants_stop", "surgery", "pregnancy", "new_medicine", "exposure",
                     "skipped_other", "none_left"})

JUST_FELT = frozenset({"words_alarm", "words_urgent"})

# Texts that say 'go on with your doses'; while reminders are paused or held another one is said (a test holds the two).
GO_ON = frozenset({"thrush", "worse", "hoarseness", "less", "missed"})

# Rules whose text asks for a few words: what comes then is an answer, and 'I did not understand' would be none to it.
ASKS_FOR_WORDS = frozenset({"skipped_ill", "skipped_ill_long", "skipped_bothered", "skipped_other"})

# What only agrees to what the care team wrote, and asks for no more ('yes' alone may answer a question of theirs).
_AGREED = re.compile(
    r"(?:(?:ok|okay|okey|k|thanks|thank you|thank u|thx|ty|great|perfect|got it|understood|will do|i will|i'?ll|"
    r"i(?:'m| am) coming|coming|on my way|do (?:that|it|so)|be there|come(?: in| by)?|see you|then|there|today|"
    r"tomorrow|at \d{1,2}(?::\d\d)?(?: ?[ap]m)?|gracias|muchas gracias|vale|entendido|de acuerdo|perfecto|"
    r"as[ií] lo har[eé]|lo har[eé]|ir[eé]|ah[ií] estar[eé]|voy|all[aá] voy|hoy|mañana|entonces|nos vemos|"
    r"a las \d{1,2}(?::\d\d)?)"
    r"[\s,.!]*)+", re.IGNORECASE)

# Findings whose "what if" gets the fixed answer and the question whether it is happening now.
ALARMS = (Finding.IMPACTION_NOW, Finding.CANNOT_SWALLOW_SALIVA, Finding.BREATHING_TROUBLE, Finding.BLEEDING,
          Finding.CHEST_PAIN, Finding.ALLERGIC_REACTION)


def answers(case: Case, flagged: Changes, rules: tuple[Rule, ...], cause: str, now: datetime,
            protocol: ClinicProtocol) -> Changes:
    """One message for the most urgent rule; a second only where it is of another kind and as urgent (self-harm beside
    bleeding). `case` is the case before the flag, `flagged` what raising it changed."""
    top = most_urgent(rules)
    flag = flagged.flags[-1] if flagged.flags else None
    told_before = tuple(rule for one in case.open_flags for rule in one.rules)
    alarm = any(one.urgency is Urgency.EMERGENCY and not goes_on(case, one) for one in case.open_flags)
    messages: list[Message] = []
    for rule in rules:
        if rule.answer and rule.urgency is top and rule.answer not in {message.kind for message in messages}:
            again = rule.urgency is not Urgency.EMERGENCY and (rule.id in told_before or (
                rule.id == "message_to_read" and not ASKS_FOR_WORDS.isdisjoint(told_before)))
            if again and not alarm and _in_a_burst(case, rule, now, protocol):
                continue
            messages.append(_answer(case, flag or _open(case, rule), rule, rules, cause, now, protocol, again,
                                    alarm and rule.urgency is not Urgency.EMERGENCY))
    return _not_told(case, flagged, now, protocol) + Changes(messages=tuple(messages))


def _not_told(case: Case, flagged: Changes, now: datetime, protocol: ClinicProtocol) -> Changes:
    """New words while the sentence about a closed flag waits: 'they have nothing to add' must not follow them, and
    nothing milder an emergency. The care team is told that it was not sent; any other goes out all the same."""
    known = {flag.id for flag in case.flags}
    new = [flag for flag in flagged.flags if flag.id not in known and thread_of(flag.rules) != COURSE]
    if not new:
        return Changes()
    alarm = any(flag.urgency is Urgency.EMERGENCY for flag in new)
    unsaid = [flag for flag in case.flags if _waits(case, flag, now, protocol)
              and (alarm or _closing_name(flag) in NOTHING_TO_ADD)]
    told = [Message(f"{case.reference}:unsaid:{new[0].id}:{flag.id}", To.CARE, "desk", now, reference=case.reference,
                    priority=Priority.ANSWER, facts={"text_keys": ["desk.closing_not_told"], "flag": flag.id})
            for flag in unsaid]
    return Changes(messages=tuple(told), cancel=tuple(f"{case.reference}:{closing_key(flag)}:*" for flag in unsaid))


def _waits(case: Case, flag: Flag, now: datetime, protocol: ClinicProtocol) -> bool:
    """Whether the sentence about this closed flag is yet to leave."""
    at = flag.facts.get("closing_at")
    spoke = talking_with(case, now, protocol)
    written = spoke is not None and flag.closed_at is not None and bool(spoke["at"] >= flag.closed_at)
    return not flag.is_open and at is not None and now < datetime.fromisoformat(str(at)) and not written


def tells_emergency(changes: Changes) -> bool:
    """Whether the rules have just answered a sign of an emergency; not where words were only added to one."""
    named = (BY_ID.get(str(one.facts.get("rule"))) for one in changes.messages if one.to is To.PATIENT)
    return any(rule is not None and rule.urgency is Urgency.EMERGENCY for rule in named)


def what_if(case: Case, reading: Reading, cause: str, now: datetime, protocol: ClinicProtocol) -> tuple[Message, ...]:
    """'What if food gets stuck?': the fixed answer, and the tap 'is it happening now?'."""
    if not reading.supposed_emergency:
        return ()
    about = next((mention.finding for mention in reading.mentions
                  if mention.finding in ALARMS and Context.SUPPOSED in mention.context), Finding.IMPACTION_NOW)
    tell = "escalation.what_if" if about in (Finding.IMPACTION_NOW, Finding.CANNOT_SWALLOW_SALIVA) else (
        "escalation.what_if_other")
    buttons = [["escalation.button.now", f"q:{about}:yes"], ["escalation.button.not_now", f"q:{about}:no"]]
    read_too = ["escalation.read_too"] if reading.needs_human else []
    return (message(case, cause, "what_if_answer", now, protocol, buttons=buttons,
                    text_keys=[tell, *read_too, "escalation.is_it_now"]),)


def not_now(case: Case, cause: str, now: datetime, protocol: ClinicProtocol) -> tuple[Message, ...]:
    return (message(case, cause, "not_now_answer", now, protocol, text_keys=["escalation.not_now"]),)


def better(case: Case, flag_id: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'Better': kept with the flag for the care team to see, without a ping; the patient is thanked."""
    thanks = message(case, cause, "follow_up_thanks", now, protocol, text_keys=["escalation.better"])
    flag = next((one for one in case.flags if one.id == flag_id), None)
    if flag is None or not flag.is_open:
        return Changes(messages=(thanks,))
    told = replace(flag, facts={**flag.facts, "about": {**flag.facts.get("about", {}), "follow_up": "better"}})
    shown = to_care(case, told, "flag", f"better:{cause}", now, edits=shown_key(flag))
    return Changes(flags=(told,), messages=(thanks, shown))


def being_read(case: Case, flag: Flag, cause: str, now: datetime, protocol: ClinicProtocol) -> Message:
    """A person has taken the flag: the patient knows that somebody is there."""
    return message(case, cause, "being_read", now, protocol, text_keys=[f"escalation.being_read.{flag.urgency}"])


def nobody_has_read(case: Case, flag: Flag, cause: str, now: datetime, protocol: ClinicProtocol) -> Message:
    """The plain truth, when the care team and who is on call have let it lie."""
    urgent = flag.urgency is Urgency.EMERGENCY
    return message(case, cause, "nobody_has_read", now, protocol, Priority.EMERGENCY if urgent else Priority.ANSWER,
                   text_keys=[f"escalation.nobody.{flag.urgency}"], at=urgent_since(flag).isoformat())


def follow_up(case: Case, flag: Flag, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """'Is it better, the same, worse?', once for each sign: not again for what a later flag will ask about, nor for
    what was asked since the patient told it. Who has left is asked nothing."""
    asked = {*map(str, flag.facts.get("asked", ())), *_asked_later(case, flag)}
    fresh = [tell for tell in _signs(flag) if tell not in asked]
    if not fresh or case.row.state is PatientState.ENDED:
        return Changes()
    topics = [f"escalation.about.{tell}" for tell in fresh]
    question = message(case, cause, "follow_up", now, protocol, Priority.DOSE, text_keys=["escalation.follow_up"],
                       at=urgent_since(flag).isoformat(), topic_keys=topics[:MOST_TOPICS],
                       buttons=[[f"escalation.button.{choice}", f"u:{flag.id}:{choice}"] for choice in FOLLOW_UPS])
    if not flag.is_open:              # then it need not wake anybody
        due = hours.awake(now, case.plan.patient)
        question = replace(question, due_at=due, send_before=due + KEEPS)
    known = replace(flag, facts={**flag.facts, "asked": [*map(str, flag.facts.get("asked", ())), *fresh]})
    return Changes(flags=(known,), messages=(question,))


def _signs(flag: Flag) -> list[str]:
    """What a follow-up to this flag asks about (texts: escalation.about.*), the weightiest first: signs, which can be
    better or worse; words that were only felt to be urgent where there is no sign."""
    tells = [BY_ID[rule].tell for rule in flag.rules if rule in BY_ID and BY_ID[rule].answer]
    signs = dict.fromkeys(tell for tell in tells if tell not in NO_SIGN)
    return [tell for tell in signs if tell not in JUST_FELT] or list(signs)


def _asked_later(case: Case, flag: Flag) -> set[str]:
    """Signs of flags that came after this one and have their own follow-up."""
    return {tell for other in case.flags if other.id != flag.id and other.urgency > Urgency.ROUTINE
            and urgent_since(other) > urgent_since(flag) for tell in _signs(other)}


def answered(case: Case, now: datetime) -> tuple[Flag, ...]:
    """The patient's open flags, each marked: the care team has written to the patient, who had said so much by then."""
    return tuple(replace(flag, facts={**flag.facts, "answered_at": now.isoformat(), "answered_words": flag.words})
                 for flag in case.open_flags)


def closed(case: Case, flag: Flag, now: datetime, protocol: ClinicProtocol, *, doses_go_on: bool) -> Message | None:
    """The sentence for a patient who was told that somebody reads their words, when that ends without a word to them.
    It waits a little, so that the care team can still write or reopen; not where doses that were held go on."""
    if not is_told(case, flag) or _answered_all(flag):
        return None
    name = _closing_name(flag)
    sentence = message(case, f"{closing_key(flag)}:{flag.facts.get('alarm', 0)}", "flag_closed", now, protocol,
                       text_keys=[f"escalation.closed.{name}", *(["escalation.doses_as_planned"] * doses_go_on),
                                  *(["escalation.if_worse"] * (flag.urgency is Urgency.EMERGENCY
                                                               and name not in ("self_harm", "emergency")))],
                       at=urgent_since(flag).isoformat(), wrote_at=str(flag.facts.get("answered_at", "")),
                       since=_said_since(flag))
    due = now if doses_go_on else now + protocol.span("care.closing_told_after")
    return replace(sentence, due_at=due, send_before=due + KEEPS)


def _closing_name(flag: Flag) -> str:
    """Which sentence a closed flag brings (texts: escalation.closed.*)."""
    name = "self_harm" if "self_harm" in flag.rules else CLOSED.get(flag.outcome, "other")
    # of an emergency closed so, nobody has said that it is over
    return "emergency" if flag.urgency is Urgency.EMERGENCY and name in NOTHING_TO_ADD else name


def is_told(case: Case, flag: Flag) -> bool:
    """Whether the patient knows of this flag and is still with us: they said something, and it was answered."""
    return case.row.state is not PatientState.ENDED and any(BY_ID[rule].answer for rule in flag.rules if rule in BY_ID)


def _answered_all(flag: Flag) -> bool:
    """Whether the care team has written to the patient since the patient's last words of this flag; 'ok, I will come'
    is no word that waits for an answer."""
    written, said = flag.facts.get("answered_at"), flag.facts.get("words_at") or flag.raised_at.isoformat()
    if not written:
        return False
    since = _said_since(flag)
    return datetime.fromisoformat(str(written)) >= datetime.fromisoformat(str(said)) or (
        bool(since) and all(_AGREED.fullmatch(line.strip()) for line in since.splitlines()))


def _said_since(flag: Flag) -> str:
    """The words of this flag since the care team wrote; "" when there are none, or it is not known which."""
    before = flag.facts.get("answered_words")
    known = before is not None and flag.words.startswith(str(before))
    return flag.words[len(str(before)):].strip() if known else ""


def read_receipt(update_id: str, in_care_chat: bool) -> str:
    """Subject of the button 'I have read it' under what the care team wrote in answer to this update."""
    return f"{'c' if in_care_chat else 'm'}{update_id[:40]}"


def written_key(case: Case, subject: str) -> str:
    """Outbox key of the desk's 'on its way' message, which is brought up to date once the patient has read."""
    return f"{case.reference}:desk:wrote:{subject}"


def have_read(case: Case, subject: str, now: datetime) -> Changes:
    """The patient says that they have read what the care team wrote: on the record, and shown where it was written."""
    act = Act(now, case.reference, "read the care team's message", case.reference, subject)
    if not subject.startswith("c"):
        return Changes(acts=(act,))
    shown = Message(f"{case.reference}:read:{subject}", To.CARE, "desk", now, reference=case.reference,
                    edits=written_key(case, subject), priority=Priority.ANSWER,
                    facts={"text_keys": ["desk.read"], "at": now.isoformat()})
    return Changes(acts=(act,), messages=(shown,))


def not_delivered(case: Case, lost: Message, now: datetime) -> Changes:
    """What the care team wrote will not reach the patient: shown where it was written. Other messages: nothing."""
    if lost.kind != "care_answer":
        return Changes()
    subject = lost.key.removeprefix(f"{case.reference}:wrote:").removesuffix(":care_answer")
    act = Act(now, "Coatwell", "could not deliver the care team's message", case.reference, subject)
    if not subject.startswith("c"):
        return Changes(acts=(act,))
    shown = Message(f"{case.reference}:lost:{subject}", To.CARE, "desk", now, reference=case.reference,
                    edits=written_key(case, subject), priority=Priority.ANSWER,
                    facts={"text_keys": ["desk.not_delivered"], "words": str(lost.facts.get("text", ""))})
    return Changes(acts=(act,), messages=(shown,))


def message(case: Case, cause: str, kind: str, now: datetime, protocol: ClinicProtocol,
            priority: Priority = Priority.ANSWER, send_before: datetime | None = None, **facts: Any) -> Message:
    """A message to the patient with the protocol's numbers, which every text about symptoms needs."""
    patient = case.plan.patient
    return Message(
        key=f"{case.reference}:{cause}:{kind}", to=To.PATIENT, kind=kind, due_at=now, reference=case.reference,
        send_before=send_before or now + KEEPS, priority=priority,
        facts={"lang": patient.language, "call_me": patient.call_me, "zone": patient.time_zone,
               "writer": case.row.writer, "reads_when": reads_when(protocol, patient.language, patient.time_zone, now),
               "number": protocol.text("care.emergency_number", patient.language),
               "urgent_number": protocol.text("care.urgent_number", patient.language),
               "poison_number": protocol.text("care.poison_number", patient.language),
               "crisis_number": protocol.text("care.crisis_number", patient.language)} | facts)


def _answer(case: Case, flag: Flag | None, rule: Rule, rules: tuple[Rule, ...], cause: str, now: datetime,
            protocol: ClinicProtocol, again: bool, alarm: bool) -> Message:
    """The texts of an answer: what to do, what was passed on and who reads it when, what would be an emergency."""
    facts: dict[str, Any] = {"rule": rule.id, "by": (flag.act_by if flag else now).isoformat()}
    if rule.urgency is Urgency.EMERGENCY:
        keys = [f"escalation.tell.{rule.tell}", "escalation.passed_on.emergency"]
        return message(case, cause, rule.answer, now, protocol, Priority.EMERGENCY, text_keys=keys, **facts)
    if alarm:                         # with an emergency open, no milder text may say anything else than: call
        return message(case, cause, rule.answer, now, protocol, Priority.EMERGENCY,
                       text_keys=["escalation.added_emergency"], **facts)
    if rule.id == "answer_to_care":
        return message(case, cause, rule.answer, now, protocol, text_keys=["escalation.tell.to_care"], **facts)
    if again:
        return message(case, cause, rule.answer, now, protocol, text_keys=["escalation.added"], **facts)
    topics = [f"escalation.about.{other.tell}" for other in rules if other.answer]
    passed = "taken" if flag and flag.taken_by else str(rule.urgency)
    plain = rule.urgency is Urgency.ROUTINE and all(other.tell in NO_SIGN for other in rules if other.answer)
    stopped = rule.tell in GO_ON and (case.record.doses_held() is not None or paused(case.plan, case.record, now))
    keys = [f"escalation.tell{'_stopped' if stopped else ''}.{rule.tell}", f"escalation.passed_on.{passed}",
            "escalation.if_emergency" if plain else "escalation.if_worse"]
    if rule.id != "message_to_read":
        keys.insert(0, "escalation.i_read")
        facts["topic_keys"] = list(dict.fromkeys(topics))
    return message(case, cause, rule.answer, now, protocol, text_keys=keys, **facts)


def _in_a_burst(case: Case, rule: Rule, now: datetime, protocol: ClinicProtocol) -> bool:
    """Whether the same flag has got words just before: five lines in a row are not confirmed five times."""
    before = _open(case, rule)
    told = before.facts.get("words_at") if before else None
    return told is not None and now - datetime.fromisoformat(str(told)) < protocol.span("flag.burst")


def _open(case: Case, rule: Rule) -> Flag | None:
    return next((flag for flag in reversed(case.open_flags) if rule.id in flag.rules), None)

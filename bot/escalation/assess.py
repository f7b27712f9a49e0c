"""From what a patient said, tapped or did not do, to flags and to what the patient is told at once. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any
from zlib import crc32

from bot.case import Case, Changes, Flag, FoundThen, Reply
from bot.escalation import milestones, telling
from bot.escalation.conditions import Look, names_a_medicine
from bot.escalation.flags import JUST_WORDS, Raising, raise_flag
from bot.escalation.match import matching, most_urgent
from bot.escalation.rules import BY_ID, Rule
from bot.escalation.standing import standing
from bot.escalation.talking import answers_care, is_over, talking_with
from bot.texts.catalogue import say
from bot.understanding.types import Finding, Reading, Urgency
from scheduler.protocol import ClinicProtocol

# Facts of events that a flag shows, in this order.
SHOWN = ("why", "first_day_without", "days_left", "due", "days_late", "gate", "next_phase", "days_waited",
         "follow_up_of", "follow_up", "waits_for", "paused_since", "paused_until", "paused_for")


def assess(case: Case, reading: Reading, reply: Reply | None, now: datetime, protocol: ClinicProtocol, *,
           source: str = "reply") -> Changes:
    """What a reply means for the care team: findings kept, flags raised or joined, the patient's answer.

    The reader's own tier can raise what the rules say, never lower it. What nobody understood becomes a flag to read.
    """
    cause = reply.id if reply else f"{source}:{now.isoformat()}:{crc32(reading.text.encode()):08x}"
    words = reading.text or (reply.text if reply else "")
    found = tuple(FoundThen(finding, now, reply.id if reply else "") for finding in reading.findings)
    signals = {*map(str, reading.findings), *reading.extra}
    look = Look(case.after(Changes(found=found)), now, protocol, standing(case, now), reading.text)
    lately = _lately(look)
    if Finding.NEW_MEDICINE in lately and names_a_medicine(look):
        signals.add(str(Finding.NEW_MEDICINE))     # its name comes a message later: 'a new medicine' - 'clarithromycin'
    rules = matching(frozenset(signals), lately, look)
    talking = answers_care(case, reading, now, protocol)
    rules = _heard(reading, rules, talking)
    if not rules:
        return Changes(found=found, messages=telling.what_if(case, reading, cause, now, protocol))
    who = str((talking_with(case, now, protocol) or {}).get("who", ""))
    raising = Raising(rules, tuple(map(str, reading.findings)), words, cause, source, taken_by=who)
    flagged = raise_flag(case, raising, now, protocol)
    told = telling.answers(case, flagged, rules, cause, now, protocol)
    just_words = all(rule.id in JUST_WORDS for rule in rules)
    if (reading.supposed_emergency and just_words) or (
            source == "check_in" and _told_in_this_check_in(look, flagged, rules)):
        told = Changes()              # 'what if' has its own answer; a second answer of one check-in is known already
    return Changes(found=found, messages=telling.what_if(case, reading, cause, now, protocol)) + flagged + told


def assess_event(case: Case, event: str, facts: Mapping[str, Any], now: datetime, protocol: ClinicProtocol) -> Changes:
    """What an event means that is not a reply: doses and check-ins missed, supply, endoscopy, gate, delivery, course.

    `facts` are kept with the flag and shown; facts["occasion"] or facts["about"] names the cause, so that the same
    event assessed twice gives the same message keys.
    """
    cause = f"{event}:{facts.get('occasion') or facts.get('about') or now.isoformat()}"
    summary = milestones.summary(case, event, facts, cause, now, protocol)
    look = Look(case, now, protocol, standing(case, now), facts=facts)
    rules = tuple(rule for rule in matching(frozenset({f"event:{event}"}), frozenset(), look)
                  if not _resting(case, rule, now, protocol))
    if not rules:
        return summary
    raising = Raising(rules, (), str(facts.get("words", "")), cause, "event", _shown(facts))
    flagged = raise_flag(case, raising, now, protocol)
    return summary + flagged + telling.answers(case, flagged, rules, cause, now, protocol)


def assess_tap(case: Case, prefix: str, subject: str, choice: str, cause: str, now: datetime,
               protocol: ClinicProtocol) -> Changes:
    """The patient tapped an answer to 'is it happening now?' (prefix q, subject a finding, choice yes or no) or to a
    follow-up (prefix u, subject a flag id, choice better, same or worse), or 'I have read it' (prefix u, choice read).
    Any other tap gives no changes."""
    if prefix == "q" and choice == "yes":
        known = [finding for finding in Finding if str(finding) == subject] or [Finding.IMPACTION_NOW]
        reading = Reading("", findings=tuple(known), needs_human=False)
        return assess(case, reading, Reply(cause, case.reference, now, "tap", "it is happening now"), now, protocol,
                      source="tap")
    if prefix == "q" and choice == "no":
        return Changes(messages=telling.not_now(case, cause, now, protocol))
    over = next((flag for flag in case.flags if flag.id == subject and is_over(case, flag)), None)
    if prefix == "u" and choice in ("same", "worse") and over is not None:
        return _emergency_again(case, over, choice, cause, now, protocol)
    if prefix == "u" and choice in ("same", "worse"):
        return assess_event(case, f"follow_up_{choice}", {"about": cause, "follow_up_of": subject}, now, protocol)
    if prefix == "u" and choice == "read":
        return telling.have_read(case, subject, now)
    if prefix == "u" and choice == "better":
        return telling.better(case, subject, cause, now, protocol)
    return Changes()


def _emergency_again(case: Case, flag: Flag, choice: str, cause: str, now: datetime,
                     protocol: ClinicProtocol) -> Changes:
    """'Worse', 'the same', 'it is back' of an emergency that was taken as over: its signs raise it again."""
    signs = (BY_ID[rule] for rule in flag.rules if rule in BY_ID)
    rules = (*(rule for rule in signs if rule.urgency is Urgency.EMERGENCY and rule.answer),
             BY_ID["not_better" if choice == "worse" else "not_same"])
    words = say(case.plan.patient.language, f"escalation.button.{choice}", {})
    of = {} if flag.is_open else {"follow_up_of": flag.id}
    raising = Raising(rules, flag.findings, words, cause, "event", of)
    flagged = raise_flag(case, raising, now, protocol)
    return flagged + telling.answers(case, flagged, rules, cause, now, protocol)


def pass_on_words(case: Case, words: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The patient wants a person to read words that had been answered without one: a flag to read, nothing told."""
    who = str((talking_with(case, now, protocol) or {}).get("who", ""))
    raising = Raising((BY_ID["message_to_read"],), (), words, cause, "tap", taken_by=who)
    return raise_flag(case, raising, now, protocol)


def _heard(reading: Reading, rules: tuple[Rule, ...], talking: bool) -> tuple[Rule, ...]:
    """The rules, with the reader's own tier where it is higher; when nothing else speaks, an answer to the care team
    that waits for one, or a message to read."""
    if reading.urgency > most_urgent(rules) and reading.urgency > Urgency.ROUTINE:
        return (BY_ID["words_alarm" if reading.urgency is Urgency.EMERGENCY else "words_urgent"], *rules)
    if not rules and talking:
        return (BY_ID["answer_to_care"],)
    if not rules and reading.needs_human:
        return (BY_ID["message_to_read"],)
    return rules


def _told_in_this_check_in(look: Look, flagged: Changes, rules: tuple[Rule, ...]) -> bool:
    """A second answer of the same check-in that joined the flag of the first: the patient knows already."""
    if most_urgent(rules) is Urgency.EMERGENCY:
        return False
    since = look.since("flag.together_within")
    before = {flag.id: flag for flag in look.case.open_flags
              if flag.facts.get("source") == "check_in" and flag.raised_at > since}
    return all(flag.id in before and before[flag.id].urgency >= flag.urgency for flag in flagged.flags)


def _lately(look: Look) -> frozenset[str]:
    """Findings of the last hours: chest pain yesterday and fever today are one picture."""
    since = look.since("flag.together_within")
    return frozenset(str(then.finding) for then in look.case.found if since < then.at <= look.now)


def _resting(case: Case, rule: Rule, now: datetime, protocol: ClinicProtocol) -> bool:
    """Whether this rule about the course has raised a flag, or had one closed, so lately that it stays quiet."""
    if not rule.rest:
        return False
    since = now - protocol.span(rule.rest)
    return any(rule.id in flag.rules and (flag.closed_at or flag.raised_at) > since for flag in case.flags)


def _shown(facts: Mapping[str, Any]) -> dict[str, Any]:
    """Facts of an event that the care team reads with the flag (texts: care.fact.*)."""
    return {key: facts[key] for key in SHOWN if facts.get(key) not in (None, "")}

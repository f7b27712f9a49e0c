"""Whom a bare answer is for: the care team that has just written, or the follow-up 'how is it now?'. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from typing import Any

from bot.case import Case, Conversation, Flag
from bot.escalation.standing import goes_on
from bot.understanding.types import Answer, Reading, Urgency
from scheduler.protocol import ClinicProtocol
from scheduler.record import EntryKind

KEY = "care_wrote"
FOLLOW_UP = "follow_up"

# What may be an answer to whatever the care team asked; 'taken', 'later' and 'thanks' speak of the dose or need nobody.
BARE = frozenset({Answer.YES, Answer.NO, Answer.NUMBER, Answer.LETTER, Answer.CLOCK_TIME})


def care_wrote(case: Case, who: str, now: datetime) -> Conversation:
    """The conversation, which now remembers that `who` of the care team has written."""
    facts = {**case.conversation.facts, KEY: {"at": now.isoformat(), "who": who}}
    return replace(case.conversation, facts=facts)


def talking_with(case: Case, now: datetime, protocol: ClinicProtocol) -> Mapping[str, Any] | None:
    """Who wrote last and when, while an answer may still be expected (protocol: care.talk_open_for); else None."""
    last = case.conversation.facts.get(KEY)
    if last is None or now - datetime.fromisoformat(str(last["at"])) > protocol.span("care.talk_open_for"):
        return None
    return {"at": datetime.fromisoformat(str(last["at"])), "who": str(last["who"])}


def answers_care(case: Case, reading: Reading, now: datetime, protocol: ClinicProtocol) -> bool:
    """Whether these words answer the care team: not understood, or a bare answer and no other question is open."""
    if talking_with(case, now, protocol) is None:
        return False
    return reading.needs_human or (reading.answer in BARE and case.conversation.state == "idle")


def spoke_since(case: Case, since: datetime, now: datetime, protocol: ClinicProtocol) -> bool:
    """Whether the care team has written after `since` and waits for an answer: then a bare answer is theirs."""
    last = talking_with(case, now, protocol)
    return last is not None and bool(last["at"] > since)


def follow_up_asked(case: Case, flag: Flag, now: datetime) -> Conversation:
    """The conversation, which now remembers that 'how is it now?' has been asked about this flag."""
    return replace(case.conversation, facts={**case.conversation.facts,
                                             FOLLOW_UP: {"flag": flag.id, "at": now.isoformat()}})


def follow_up_open(case: Case, now: datetime, protocol: ClinicProtocol) -> tuple[str, datetime] | None:
    """What a typed 'worse' answers: (id of the flag asked about lately, when), be it closed by now; or None."""
    asked: Mapping[str, Any] = case.conversation.facts.get(FOLLOW_UP, {})
    at = datetime.fromisoformat(str(asked["at"])) if asked else None
    if at is None or now - at > protocol.span("follow_up.open_for"):
        return None
    return str(asked["flag"]), at


def is_over(case: Case, flag: Flag) -> bool:
    """Whether this was an emergency, and the care team, or who told the patient to go on, has taken it as over."""
    return flag.urgency is Urgency.EMERGENCY and (not flag.is_open or goes_on(case, flag))


def emergency_over(case: Case, now: datetime, protocol: ClinicProtocol) -> tuple[str, datetime] | None:
    """The emergency that 'worse', 'the same' or 'it is back' is about though nobody has asked yet: (id of the flag
    closed lately, or whose doses go on, since when); None when there is none, or one that still calls for help."""
    since = now - protocol.span("follow_up.open_for")
    last = next((flag for flag in reversed(case.flags) if flag.urgency is Urgency.EMERGENCY), None)
    if last is None or not is_over(case, last):
        return None
    freed = next((one.at for one in reversed(case.record.of(EntryKind.DOSES_FREED)) if one.about == last.id), None)
    at = last.closed_at or freed
    return (last.id, at) if at is not None and at > since else None

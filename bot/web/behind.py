"""What stands behind the phones: the window, the outbox, the flags, and how the last replies were read. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from bot.case import Case, Flag, Reply
from bot.escalation.flags import urgent_since
from bot.escalation.rules import BY_ID
from bot.texts.catalogue import catalogue
from scheduler.localtime import local
from scheduler.messages import Message, To
from scheduler.protocol import ClinicProtocol
from scheduler.record import EntryKind, taken_at
from scheduler.timeline import occasions

NEXT = 10
_TO = {To.PATIENT: "patient", To.CARE: "care team", To.ON_CALL: "on call", To.CHAT: "one chat",
       To.AGENT: "note to itself"}


@dataclass(frozen=True, slots=True)
class Window:
    """state: "none" (no dose confirmed today), "running", "over", "broken". Minutes are whole."""

    state: str
    words: str
    gone: int = 0
    whole: int = 0
    left: int = 0
    rinse: str = ""


@dataclass(frozen=True, slots=True)
class Coming:
    """One message that waits, or an occasion of the plan that has not become a message yet."""

    when: str
    to: str
    what: str
    key: str


@dataclass(frozen=True, slots=True)
class RuleShown:
    """A rule that spoke, with what a clinician may weigh and where it comes from."""

    id: str
    title: str
    urgency: str
    weigh: str
    source: str


@dataclass(frozen=True, slots=True)
class FlagShown:
    """A flag as the page lists it."""

    id: str
    urgency: str
    state: str
    raised: str
    act_by: str
    words: str
    rules: tuple[RuleShown, ...]


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of the patient's words; finding and context are "" outside a mention."""

    text: str
    finding: str = ""
    context: str = ""
    stands: bool = False


@dataclass(frozen=True, slots=True)
class ReadReply:
    """How one reply was read, and what came of it."""

    when: str
    pieces: tuple[Piece, ...]
    findings: tuple[str, ...]
    extra: tuple[str, ...]
    urgency: str
    answer: str
    question: str
    needs_human: bool
    flag: str
    rules: tuple[RuleShown, ...] = field(default=())


def window(case: Case, now: datetime, protocol: ClinicProtocol) -> Window:
    """The time with nothing to eat or drink after the last confirmed dose."""
    last = case.record.last_taken()
    if last is None:
        return Window("none", "It starts when a dose is confirmed, not when the dose was due.")
    zone = case.plan.patient.time_zone
    began = taken_at(last)
    ends = began + protocol.span("window.no_food")
    whole = int((ends - began).total_seconds() // 60)
    rinse = "rinse confirmed" if case.record.has(EntryKind.RINSE_DONE, last.about) else "rinse not confirmed yet"
    said = f"dose taken {local(began, zone):%a %d %b %H:%M}"
    if case.record.has(EntryKind.WINDOW_BROKEN, last.about):
        return Window("broken", f"Not kept: the patient ate or drank too soon ({said}).", whole=whole, rinse=rinse)
    if now >= ends:
        return Window("over", f"Over since {local(ends, zone):%a %d %b %H:%M} ({said}).", whole, whole, 0, rinse)
    gone = int((now - began).total_seconds() // 60)
    return Window("running", f"Nothing to eat or drink until {local(ends, zone):%H:%M} ({said}).", gone, whole,
                  whole - gone, rinse)


def outbox(case: Case, coming: Sequence[Message]) -> tuple[Coming, ...]:
    """The next messages that wait for this patient, the care team's about them included."""
    zone = case.plan.patient.time_zone
    mine = [one for one in coming if one.reference in (case.reference, None)][:NEXT]
    return tuple(Coming(_when(one.due_at, zone), _TO[one.to], one.kind.replace("_", " "), one.key) for one in mine)


def from_plan(case: Case, now: datetime, protocol: ClinicProtocol, many: int) -> tuple[Coming, ...]:
    """What the plan says comes next; it becomes a message when it is near."""
    zone = case.plan.patient.time_zone
    after = max(now, case.row.expanded_until or now)
    found: list[Coming] = []
    for one in occasions(case.plan, case.record, protocol, after, after + timedelta(days=60),
                         version=case.row.plan_version):
        if len(found) == many:
            break
        dose = f" {one.dose.amount}" if one.dose else ""
        found.append(Coming(_when(one.at, zone), "plan", f"{str(one.kind).replace('_', ' ')}{dose}", one.key))
    return tuple(found)


def flags(case: Case) -> tuple[FlagShown, ...]:
    """All of the patient's flags: the open ones by urgency, then the newest."""
    zone = case.plan.patient.time_zone
    ordered = sorted(case.flags, key=lambda flag: (not flag.is_open, -flag.urgency if flag.is_open else 0,
                                                     -flag.raised_at.timestamp()))
    return tuple(FlagShown(flag.id, str(flag.urgency), _state(flag), _when(urgent_since(flag), zone),
                           _when(flag.act_by, zone) if flag.is_open else "", flag.words, rules_of(flag))
                 for flag in ordered)


def rules_of(flag: Flag) -> tuple[RuleShown, ...]:
    """The rules that raised a flag, as the care team reads them."""
    return tuple(rule_shown(rule) for rule in flag.rules if rule in BY_ID)


def rule_shown(rule_id: str) -> RuleShown:
    rule, texts = BY_ID[rule_id], catalogue("en")
    return RuleShown(rule_id, texts.get(f"care.rule.{rule_id}.title", rule_id.replace("_", " ")), str(rule.urgency),
                     texts.get(f"care.rule.{rule_id}.weigh", ""), rule.source)


def readings(case: Case, replies: Sequence[Reply], many: int = 4) -> tuple[ReadReply, ...]:
    """How the patient's last words were read, newest first."""
    zone = case.plan.patient.time_zone
    found = [reply for reply in replies if reply.reading]
    return tuple(_read(case, reply, zone) for reply in found[:many])


def _read(case: Case, reply: Reply, zone: str) -> ReadReply:
    reading = reply.reading
    flag = next((one for one in reversed(case.flags) if reply.text and reply.text in one.words.split("\n")
                 and one.raised_at <= reply.at + timedelta(minutes=1)), None)
    signals = {*reading.get("findings", ()), *reading.get("extra", ())}
    rules = rules_of(flag) if flag else ()
    spoke = tuple(rule for rule in rules if signals & {*map(str, BY_ID[rule.id].any_of)}) or rules
    return ReadReply(
        _when(reply.at, zone), _pieces(reply.text, reading.get("mentions", ()), reading.get("findings", ())),
        tuple(map(_plain, reading.get("findings", ()))), tuple(map(_plain, reading.get("extra", ()))),
        str(reading.get("urgency", "none")), _plain(reading.get("answer", "")), _plain(reading.get("question", "")),
        bool(reading.get("needs_human")), flag.id if flag else "", spoke)


def _pieces(text: str, mentions: Sequence[Mapping[str, Any]], findings: Sequence[str]) -> tuple[Piece, ...]:
    """The words cut at the mentions; where two overlap the first stands."""
    pieces: list[Piece] = []
    at = 0
    for one in sorted(mentions, key=lambda mention: (mention["start"], -mention["end"])):
        start, end = int(one["start"]), int(one["end"])
        if start < at or end > len(text) or start >= end:
            continue
        if start > at:
            pieces.append(Piece(text[at:start]))
        context = ", ".join(_plain(word) for word in one.get("context", ()))
        pieces.append(Piece(text[start:end], _plain(one["finding"]), context, one["finding"] in findings))
        at = end
    if at < len(text):
        pieces.append(Piece(text[at:]))
    return tuple(pieces)


def _state(flag: Flag) -> str:
    if flag.taken_by and flag.is_open:
        return f"taken by {flag.taken_by}"
    if not flag.is_open:
        return f"closed: {flag.outcome or 'no outcome'}"
    return str(flag.state)


def _plain(name: object) -> str:
    return str(name).replace("_", " ")


def _when(at: datetime, zone: str) -> str:
    return f"{local(at, zone):%a %d %b %H:%M}"

"""Raising a flag, or joining what is new to the patient's open one; the care team's messages about it. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from typing import Any

from bot.case import Case, Changes, Flag, FlagState, PatientState
from bot.escalation import hours
from bot.escalation.match import most_urgent
from bot.escalation.rules import BY_ID, COURSE, Rule, thread_of
from bot.escalation.standing import goes_on, standing
from bot.understanding.types import Urgency
from scheduler.messages import Message, Priority, To
from scheduler.plan import paused
from scheduler.protocol import ClinicProtocol
from scheduler.record import EntryKind, Record

PRIORITY = {Urgency.EMERGENCY: Priority.EMERGENCY, Urgency.URGENT: Priority.FLAG, Urgency.ROUTINE: Priority.ROUTINE}
JUST_WORDS = ("message_to_read", "answer_to_care")    # say nothing that the words on an open flag do not say
MOST_WORDS = 1500       # characters of the patient's words kept on a flag; the whole reply is stored with the replies


@dataclass(frozen=True)
class Raising:
    """What is to be raised. cause: what the message keys are made from (a reply's id, an event)."""

    rules: tuple[Rule, ...]
    findings: tuple[str, ...]
    words: str
    cause: str
    source: str = "reply"
    facts: Mapping[str, Any] = field(default_factory=dict)
    taken_by: str = ""               # who is in talk with the patient: a new routine flag is theirs from the start

    @property
    def urgency(self) -> Urgency:
        return most_urgent(self.rules)

    @property
    def thread(self) -> str:
        return thread_of(rule.id for rule in self.rules)


def raise_flag(case: Case, raising: Raising, now: datetime, protocol: ClinicProtocol) -> Changes:
    """A new flag, or the same patient's open flag of that thread with what is new joined to it."""
    open_flag = next((flag for flag in reversed(case.open_flags) if thread_of(flag.rules) == raising.thread), None)
    if open_flag is None:
        return _new(case, raising, now, protocol)
    return _join(case, open_flag, raising, now, protocol)


def urgent_since(flag: Flag) -> datetime:
    """Since when the flag has had its present urgency."""
    higher = flag.facts.get("higher_at")
    return datetime.fromisoformat(str(higher)) if higher else flag.raised_at


def urgent_words(flag: Flag) -> str:
    """The words that gave the flag its present urgency; all of them where that is not known."""
    return str(flag.facts.get("urgent_words") or flag.words)


def is_late(flag: Flag, now: datetime) -> bool:
    """Nobody has taken it by its time."""
    return flag.is_open and not flag.taken_by and now > flag.act_by


def number_of(flag: Flag) -> str:
    """The flag's number within the patient's own: "3" of "KT-014/3"."""
    return flag.id.rpartition("/")[2]


def act_by(rules: Iterable[Rule], now: datetime, protocol: ClinicProtocol) -> datetime:
    """The earliest instant by which one of these rules wants somebody to act."""
    return min(hours.due_after(now, protocol.span(rule.act_within), rule.urgency, protocol) for rule in rules)


def care_facts(case: Case, flag: Flag, now: datetime) -> dict[str, Any]:
    """Everything that a care team message about a flag shows."""
    where = standing(case, now)
    return {"flag": flag.id, "urgency": str(flag.urgency), "state": str(flag.state), "rules": list(flag.rules),
            "findings": list(flag.findings), "words": flag.words,
            "urgent_words": urgent_words(flag) if "higher_at" in flag.facts else "",
            "raised_at": flag.raised_at.isoformat(), "act_by": flag.act_by.isoformat(), "taken_by": flag.taken_by,
            "outcome": flag.outcome, "note": flag.note, "raises": flag.raises,
            "phase": where.phase, "week": where.week, "dose": where.dose, "reason": where.reason,
            "medicine": case.plan.medicine.name, "writer": case.row.writer,
            "age": case.plan.patient.age_years, "language": case.plan.patient.language,
            "source": flag.facts.get("source", "reply"), "about": dict(flag.facts.get("about", {})),
            "held": holds(case, flag), "reached": _reached(case, now), **lately(case.record, now)}


def holds(case: Case, flag: Flag) -> bool:
    """Whether this flag holds dose reminders that would otherwise go out: who has left gets none anyway."""
    held = case.record.doses_held()
    return held is not None and held.about == flag.id and case.row.state is not PatientState.ENDED


def _reached(case: Case, now: datetime) -> str:
    """Why not everything goes out to the patient: "left", "unreachable", "paused"; "" when all does."""
    stopped = {PatientState.ENDED: "left", PatientState.HELD: "unreachable", PatientState.PAUSED: "paused"}
    return stopped.get(case.row.state) or ("paused" if paused(case.plan, case.record, now) else "")


def lately(record: Record, now: datetime) -> dict[str, Any]:
    """Doses and rinses confirmed in the last seven days, and the last check-in scores, for whoever weighs a flag."""
    since = now - timedelta(days=7)
    taken = {entry.about for entry in record.of(EntryKind.DOSE_TAKEN)
             if entry.at > since and record.dose_answer(entry.about) is entry}
    scores = [(entry.facts.get("score") or {}).get("total") for entry in record.of(EntryKind.CHECK_IN_DONE)[-4:]]
    return {"taken_7": len(taken), "rinses_7": sum(record.has(EntryKind.RINSE_DONE, dose) for dose in taken),
            "scores": [score for score in scores if score is not None]}


def to_care(case: Case, flag: Flag, kind: str, suffix: str, now: datetime, *, to: To = To.CARE,
            due_at: datetime | None = None, edits: str | None = None, **facts: Any) -> Message:
    """A message to the care team (or whoever is on call) about a flag."""
    return Message(key=f"{case.reference}:flag:{number_of(flag)}:{suffix}", to=to, kind=kind, due_at=due_at or now,
                   reference=case.reference, priority=PRIORITY[flag.urgency], edits=edits,
                   facts=care_facts(case, flag, now) | facts)


def shown_key(flag: Flag) -> str:
    """Outbox key of the care team's message that shows this flag: the one to be brought up to date."""
    return str(flag.facts.get("shown") or f"{flag.reference}:flag:{number_of(flag)}:raised")


def overdue_note(flag: Flag, due_at: datetime, stage: int) -> Message:
    """A note to ourselves: look whether this flag has been taken. The alarm count makes an older note void."""
    alarm = int(flag.facts.get("alarm", 0))
    return Message(key=f"{flag.reference}:flag:{number_of(flag)}:overdue:{alarm}:{stage}", to=To.AGENT,
                   kind="flag_overdue", due_at=due_at, reference=flag.reference,
                   facts={"flag": flag.id, "alarm": alarm, "stage": stage})


def delivery_note(flag: Flag, message: Message, protocol: ClinicProtocol) -> Message:
    """A note to ourselves: has the message that brings this flag to people left? Stage 0 of the same ladder."""
    note = overdue_note(flag, message.due_at + protocol.span("care.delivered_within"), 0)
    return replace(note, facts={**note.facts, "message": message.key})


def overdue_keys(flag: Flag) -> str:
    """All notes of that kind, as a prefix to cancel."""
    return f"{flag.reference}:flag:{number_of(flag)}:overdue:*"


def closing_key(flag: Flag) -> str:
    """What the key of the sentence to the patient begins with that a closed flag brings, behind their reference."""
    return f"closing:{number_of(flag)}"


def closing_keys(case: Case) -> str:
    """All sentences of that kind that wait for this patient, as a prefix to cancel."""
    return f"{case.reference}:closing:*"


def follow_up_note(flag: Flag, due_at: datetime) -> Message:
    alarm = int(flag.facts.get("alarm", 0))
    return Message(key=f"{flag.reference}:flag:{number_of(flag)}:follow_up:{alarm}", to=To.AGENT, kind="follow_up",
                   due_at=due_at, reference=flag.reference, facts={"flag": flag.id})


def _new(case: Case, raising: Raising, now: datetime, protocol: ClinicProtocol) -> Changes:
    flag = Flag(id=f"{case.reference}/{len(case.flags) + 1}", reference=case.reference,
                rules=tuple(rule.id for rule in raising.rules), findings=raising.findings, urgency=raising.urgency,
                words=_cut(raising.words), state=FlagState.RAISED, raised_at=now,
                act_by=act_by(raising.rules, now, protocol),
                facts={"alarm": 1, "source": raising.source, "about": dict(raising.facts),
                       "words_at": now.isoformat(), "urgent_words": _cut(raising.words)})
    if raising.taken_by and raising.urgency is Urgency.ROUTINE:
        flag = replace(flag, state=FlagState.TAKEN, taken_by=raising.taken_by, taken_at=now)
        due = hours.due_after(now, protocol.span("care.close_within.routine"), flag.urgency, protocol)
        return Changes(flags=(flag,), messages=(*_alarm(case, flag, "flag", "raised", now, protocol),
                                                overdue_note(flag, due, 1)))
    alarm = _alarm(case, flag, "flag", "raised", now, protocol)
    messages = [*alarm, *(delivery_note(flag, one, protocol) for one in alarm[:1]), overdue_note(flag, flag.act_by, 1)]
    messages += _follow_up(case, flag, now, protocol)
    return Changes(flags=(flag,), messages=tuple(messages))


def _join(case: Case, flag: Flag, raising: Raising, now: datetime, protocol: ClinicProtocol) -> Changes:
    fresh = tuple(rule for rule in raising.rules if rule.id not in flag.rules and rule.id not in JUST_WORDS)
    words = _joined(flag.words, raising.words)
    back = raising.urgency is Urgency.EMERGENCY and goes_on(case, flag)      # the same words, of what was over
    if not fresh and words == flag.words and not back:
        return Changes()              # nothing that the flag does not say already
    higher = raising.urgency > flag.urgency
    rules = _strongest_first((*flag.rules, *(rule.id for rule in fresh)))
    joined = replace(flag, rules=rules, findings=tuple(dict.fromkeys((*flag.findings, *raising.findings))),
                     urgency=max(flag.urgency, raising.urgency), words=words,
                     act_by=min(flag.act_by, act_by(raising.rules, now, protocol)),
                     facts={**flag.facts, "about": {**flag.facts.get("about", {}), **raising.facts},
                            "words_at": now.isoformat()})
    if higher:                        # it must be taken anew: who took the milder one may not be looking
        joined = replace(joined, state=FlagState.RAISED, taken_by="", taken_at=None, raises=1,
                         act_by=act_by(raising.rules, now, protocol),
                         facts={**joined.facts, "alarm": int(flag.facts.get("alarm", 0)) + 1,
                                "taken_before": flag.taken_by, "higher_at": now.isoformat(),
                                "urgent_words": _cut(raising.words)})
    suffix = f"more:{raising.cause}"
    if higher or flag.state is FlagState.TAKEN or (fresh and flag.urgency > Urgency.ROUTINE) or (
            flag.urgency is Urgency.EMERGENCY):
        messages = _alarm(case, joined, "flag_more", suffix, now, protocol, new_words=_cut(raising.words))
        if messages:                  # from now on this is the message that is kept up to date
            joined = replace(joined, facts={**joined.facts, "shown": messages[0].key})
    elif flag.urgency > Urgency.ROUTINE:
        messages = [to_care(case, joined, "flag", suffix, now, edits=shown_key(flag))]   # shown, without another ping
    else:
        messages = []                 # in the next digest
    if higher:
        messages += [*(delivery_note(joined, one, protocol) for one in messages[:1]),
                     overdue_note(joined, joined.act_by, 1), *_follow_up(case, joined, now, protocol)]
    return Changes(flags=(joined,), messages=tuple(messages), cancel=(overdue_keys(flag),) if higher else ())


def _alarm(case: Case, flag: Flag, kind: str, suffix: str, now: datetime, protocol: ClinicProtocol,
           **facts: Any) -> list[Message]:
    """The messages that bring a flag to people: an emergency at once, and to whoever is on call outside office hours;
    an urgent one at once or at opening, as the protocol says; a routine one waits for the digest unless taken."""
    if flag.urgency is Urgency.EMERGENCY:
        messages = [to_care(case, flag, kind, suffix, now, **facts)]
        if not hours.is_open(now, protocol):
            messages.append(to_care(case, flag, kind, f"{suffix}:on_call", now, to=To.ON_CALL, **facts))
        return messages
    if flag.urgency is Urgency.URGENT:
        waits = protocol.text("care.urgent_outside_hours") == "at opening"
        due = hours.next_opening(now, protocol) if waits else now
        return [to_care(case, flag, kind, suffix, now, due_at=due, **facts)]
    if flag.state is FlagState.TAKEN:
        return [to_care(case, flag, kind, suffix, now, **facts)]
    return []


def _follow_up(case: Case, flag: Flag, now: datetime, protocol: ClinicProtocol) -> list[Message]:
    """Ask the patient later how it is; only for what they told us about."""
    if flag.urgency is Urgency.ROUTINE or thread_of(flag.rules) == COURSE:
        return []
    due = now + protocol.span(f"follow_up.{flag.urgency}")
    if flag.urgency is not Urgency.EMERGENCY:
        due = hours.awake(due, case.plan.patient)
    return [follow_up_note(flag, due)]


def _strongest_first(rules: Iterable[str]) -> tuple[str, ...]:
    order = {rule: place for place, rule in enumerate(BY_ID)}
    return tuple(sorted(dict.fromkeys(rules), key=lambda rule: (-BY_ID[rule].urgency, order[rule])))


def _joined(old: str, new: str) -> str:
    """Words added below, once; the newest are kept when there are too many."""
    if not new or new in old.split("\n"):
        return old
    return f"{old}\n{new}"[-MOST_WORDS:] if old else _cut(new)


def _cut(words: str) -> str:
    return words if len(words) <= MOST_WORDS else words[: MOST_WORDS - 1] + "…"

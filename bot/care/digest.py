"""The digest: what is open, in one message on working days at the protocol's times, the most urgent first."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from bot.case import Flag, FlagState
from bot.conversation.answering import ANSWERED
from bot.escalation import hours
from bot.escalation.flags import is_late, number_of, urgent_since, urgent_words
from bot.ports import Work
from scheduler.localtime import local
from scheduler.messages import Message, Priority, To
from scheduler.protocol import ClinicProtocol

ROWS = 20
MOST_ACTS = 5000                    # of the last days, looked through for the count
COUNTED_TO = "digest:answered_to"


async def schedule(work: Work, now: datetime, protocol: ClinicProtocol) -> None:
    """Make sure that the next digest is on the outbox. Safe to repeat: its key names its instant."""
    due = hours.next_digest(now, protocol)
    await work.put([Message(key=f"digest:{due.isoformat()}", to=To.AGENT, kind="digest", due_at=due)])


async def on_note(work: Work, note: Message, now: datetime, protocol: ClinicProtocol) -> None:
    """A digest is due: one message if anything is open, and the note for the next one."""
    if note.kind != "digest":
        return
    flags = await work.open_flags()
    before = hours.digest_before(note.due_at, protocol)
    if before is not None:               # later in the day only what is new and not taken
        flags = [flag for flag in flags if flag.state is not FlagState.TAKEN and urgent_since(flag) > before]
    answered = await _answered(work)
    if flags or (answered and before is None):
        await work.put([digest(flags, f"{note.key}:message", now, protocol, answered=answered)])
        await work.set_note(COUNTED_TO, now.isoformat())
    await schedule(work, now, protocol)


async def _answered(work: Work) -> int:
    """Common questions answered without a person since the last digest that counted them."""
    since = await work.get_note(COUNTED_TO)
    acts = await work.acts(limit=MOST_ACTS)
    return sum(act.what == ANSWERED and (not since or act.at > datetime.fromisoformat(since)) for act in acts)


def digest(flags: Iterable[Flag], key: str, now: datetime, protocol: ClinicProtocol, *, to: To = To.CARE,
           address: str | None = None, start: int = 0, answered: int = 0) -> Message:
    """Open flags, the most urgent first, then the oldest; those beyond ROWS are counted. answered: common questions
    that got their fixed answer and that nobody has to read."""
    ordered = sorted(flags, key=lambda flag: (-flag.urgency, flag.state is FlagState.TAKEN, urgent_since(flag)))
    shown = ordered[start:start + ROWS]
    return Message(key=key, to=to, kind="digest", due_at=now, priority=Priority.ROUTINE, address=address,
                   facts={"day": local(now, protocol.text("care.time_zone")).date().isoformat(), "n": len(ordered),
                          "rows": [row(flag, now) for flag in shown], "more": max(0, len(ordered) - start - len(shown)),
                          "next": start + len(shown), "answered": answered})


def row(flag: Flag, now: datetime) -> dict[str, Any]:
    """What one line of a digest shows of a flag: the words and the time that gave it its urgency."""
    return {"flag": flag.id, "reference": flag.reference, "number": number_of(flag), "urgency": str(flag.urgency),
            "rule": flag.rules[0], "more_rules": len(flag.rules) - 1, "taken_by": flag.taken_by,
            "words": " ".join(urgent_words(flag).split())[:80], "raised_at": urgent_since(flag).isoformat(),
            "act_by": flag.act_by.isoformat(), "late": is_late(flag, now)}

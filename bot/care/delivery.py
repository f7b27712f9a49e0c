"""Whether a message about a flag has left: looked up at the edge, since the rules themselves read no outbox."""

from __future__ import annotations

from dataclasses import replace

from bot.ports import Work
from scheduler.messages import Message, SendState


async def with_delivery(work: Work, note: Message) -> Message:
    """The note with `delivered` among its facts, when it names a message; any other note as it is."""
    key = note.facts.get("message")
    if note.kind != "flag_overdue" or key is None:
        return note
    sent = await work.message(str(key))
    return replace(note, facts={**note.facts, "delivered": sent is not None and sent.state is SendState.SENT})

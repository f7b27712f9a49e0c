"""Everything held on one patient, read in one transaction."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bot.case import Act, Case, Reply
from bot.chat.types import Incoming
from bot.ports import Invite, PlanVersion, SentMessage, Work

ALL = 10**9


@dataclass(frozen=True)
class Held:
    """One patient, oldest first everywhere. `updates`: what the chat network delivered, as far as it is kept."""

    case: Case
    plans: Sequence[PlanVersion] = ()
    replies: Sequence[Reply] = ()
    messages: Sequence[SentMessage] = ()
    acts: Sequence[Act] = ()
    updates: Sequence[Incoming] = ()
    invites: Sequence[Invite] = ()

    @property
    def reference(self) -> str:
        return self.case.reference


async def held(work: Work, reference: str) -> Held | None:
    """Everything held on this patient; None for an unknown reference."""
    case = await work.case(reference)
    if case is None:
        return None
    return Held(
        case,
        await work.plans(reference),
        (await work.replies(reference, ALL))[::-1],
        sorted(await work.messages_of(reference, ALL), key=lambda sent: (sent.message.due_at, sent.message.key)),
        (await work.acts(reference, ALL))[::-1],
        await work.updates_of(reference),
        await work.invites_of(reference),
    )

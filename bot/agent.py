"""The agent: one pass does everything that is due at `now`. The same under `serve`, `try` and `rehearse`.

A pass: expand timelines that have come near -> handle stored updates -> act on notes to ourselves -> send. Each unit is
its own transaction, so that a crash between any two loses nothing and one patient's trouble never stops another's.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from bot.care import digest
from bot.care import render as care_render
from bot.case import Case, Changes, PatientState
from bot.chat.types import Chat, ChatError, Incoming, IncomingKind, Outgoing
from bot.conversation import checkins, doses, steps
from bot.escalation import assess_event, on_note
from bot.ports import Store, Work
from bot.receiving import Receiver
from bot.sending import Addresses, Sender, Trouble
from bot.texts import render as patient_render
from scheduler.messages import Message, Priority, SendState, To
from scheduler.ports import Mark
from scheduler.protocol import ClinicProtocol
from scheduler.tick import tick

log = logging.getLogger(__name__)
_NOTES_AT_ONCE = 20

NoteHandler = Callable[[Case, Message, datetime, ClinicProtocol], Changes]

NOTES: dict[str, NoteHandler] = {
    "dose_closed": lambda case, note, now, protocol: _dose_closed(case, note, now, protocol),
    "step_unconfirmed": lambda case, note, now, protocol: steps.unconfirmed(case, note.facts["occasion"], now, protocol),
    "check_in": lambda case, note, now, protocol: checkins.begin(case, note, now, protocol),
    "check_in_repeat": lambda case, note, now, protocol: checkins.repeat(case, note, now, protocol),
    "check_in_closed": lambda case, note, now, protocol: checkins.closed(case, note, now, protocol),
    "event": lambda case, note, now, protocol: assess_event(case, note.facts["event"], note.facts, now, protocol),
}


@dataclass
class Agent:
    """Everything behind one store and one chat network."""

    store: Store
    chat: Chat
    protocol: ClinicProtocol
    addresses: Addresses
    holder: str = "one"

    def __post_init__(self) -> None:
        self.receiver = Receiver(self.protocol, self.addresses.care)
        self.sender = Sender(self.store, self.chat, self.addresses, self.render, self.holder)
        self._digest_is_planned = False

    def render(self, message: Message) -> Outgoing:
        """What a message looks like in the chat."""
        if message.to is To.PATIENT or message.kind == "stranger":
            return patient_render.render(message)
        return care_render.render(message, self.protocol)

    async def store_updates(self, updates: Iterable[Incoming], now: datetime) -> int:
        """Keep updates before they are confirmed to the network."""
        async with self.store.work() as work:
            return await work.store_updates(updates, now)

    async def pass_(self, now: datetime) -> int:
        """Do everything that is due; returns how many things were done."""
        done = 0
        if not self._digest_is_planned:      # once a process; from then on each digest plans the next
            async with self.store.work() as work:
                await digest.schedule(work, now, self.protocol)
            self._digest_is_planned = True
        while True:
            round_done = await self._tick(now) + await self._inbox(now) + await self._notes(now) + await self._send(now)
            done += round_done
            if round_done == 0:
                return done

    async def next_due(self) -> datetime | None:
        """The next instant at which a pass would find something."""
        async with self.store.work() as work:
            return await work.next_due()

    async def _tick(self, now: datetime) -> int:
        async with self.store.work() as work:
            return await tick(work, now, self.protocol)

    async def _inbox(self, now: datetime) -> int:
        done = 0
        while await self._next_update(now):
            done += 1
        return done

    async def _next_update(self, now: datetime) -> bool:
        """Handle one stored update; its effects and its 'handled' mark are one transaction."""
        update: Incoming | None = None
        try:
            async with self.store.work() as work:
                found = await work.unhandled(1)
                if not found:
                    return False
                update = await self._with_file(work, found[0])
                await self.receiver.handle(work, update, now)
                await work.mark_handled(update.id, now)
        except Exception as error:  # one update must never stop the others, and is never dropped
            if update is None:
                raise
            log.exception("an update could not be handled")
            await self._pass_on_unhandled(update, now, error)
        if update.tap:
            await self.chat.confirm_tap(update.tap)
        return True

    async def _with_file(self, work: Work, update: Incoming) -> Incoming:
        """A plan file that a care team member sent, with its text; "" when it cannot be fetched or is no text."""
        if update.kind is not IncomingKind.DOCUMENT or await work.member(update.sender) is None:
            return update
        try:
            return replace(update, text=(await self.chat.fetch(update.file)).decode("utf-8-sig"))
        except (ChatError, UnicodeDecodeError):
            return replace(update, text="")

    async def _pass_on_unhandled(self, update: Incoming, now: datetime, error: Exception) -> None:
        async with self.store.work() as work:
            reference = await work.reference_of(update.chat)
            await work.put([Message(
                key=f"chat:{update.id}:unhandled", to=To.CARE, kind="unhandled", due_at=now, reference=reference,
                priority=Priority.FLAG, facts={"words": update.text or update.data or f"[{update.kind}]",
                                               "trouble": type(error).__name__})])
            await work.mark_handled(update.id, now, trouble=f"{type(error).__name__}: {error}")

    async def _notes(self, now: datetime) -> int:
        """Notes to ourselves that are due; each is acted on and marked in one transaction."""
        done = 0
        for _ in range(_NOTES_AT_ONCE):
            async with self.store.work() as work:
                claimed = await work.claim(now, 1, now + timedelta(seconds=60), self.holder, agent=True)
                if not claimed:
                    break
                note = claimed[0].message
                await self._act_on(work, note, now)
                await work.mark([Mark(note.key, SendState.SENT, now)])
            done += 1
        return done

    async def _act_on(self, work: Work, note: Message, now: datetime) -> None:
        if note.reference is None:
            await digest.on_note(work, note, now, self.protocol)
            return
        case = await work.case(note.reference)
        if case is None or case.row.state is PatientState.ENDED:
            return
        handler = NOTES.get(note.kind, on_note)
        await work.apply(case.reference, handler(case, note, now, self.protocol), now)

    async def _send(self, now: datetime) -> int:
        done, troubles = await self.sender.pass_(now)
        for trouble in troubles:
            await self._act_on_trouble(trouble, now)
        return done

    async def _act_on_trouble(self, trouble: Trouble, now: datetime) -> None:
        """The network will not take a message: held and told, moved, or shown to the care team."""
        if trouble.message is None or trouble.reference is None or trouble.message.to is not To.PATIENT:
            if trouble.what == "moved":
                self._care_moved(trouble.detail.split()[-1])
            else:
                log.error("a message to the care team was refused: %s", trouble.detail)
            return
        async with self.store.work() as work:
            case = await work.case(trouble.reference)
            if case is None:
                return
            if trouble.what == "moved":
                changes = Changes(row=replace(case.row, chat=trouble.detail.split()[-1]))
            elif trouble.what == "blocked":
                held = Changes(row=replace(case.row, state=PatientState.HELD))
                changes = held + assess_event(case.after(held), "undeliverable", {}, now, self.protocol)
            else:
                changes = assess_event(case, "undeliverable", {"why": trouble.detail}, now, self.protocol)
            await work.apply(case.reference, changes, now)

    def _care_moved(self, new: str) -> None:
        """The care team's chat has a new address: used at once (the setting must be changed before the next start)."""
        log.warning("the care team's chat has moved: set COATWELL_CARE_CHAT to its new address, %s", new)
        self.addresses = replace(self.addresses, care=new)
        self.sender.addresses = self.addresses
        self.receiver = replace(self.receiver, care_chat=new)


def _dose_closed(case: Case, note: Message, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Never answered: unknown, not missed; then the rules look whether silence has lasted too long."""
    changes = doses.closed(case, note.facts["occasion"], note.key, now, protocol)
    if not changes.entries:
        return changes
    return changes + assess_event(case.after(changes), "dose_unknown", {"occasion": note.facts["occasion"]}, now, protocol)

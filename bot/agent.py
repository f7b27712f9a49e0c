"""The agent: one pass does everything that is due at `now`. The same under `serve`, `try` and `rehearse`.

A pass: expand timelines that have come near -> handle stored updates -> act on notes to ourselves -> send. Each unit is
its own transaction, so that a crash between any two loses nothing and one patient's trouble never stops another's.
"""

from __future__ import annotations

import logging
from collections.abc import Awaitable, Callable, Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from bot import troubles
from bot.care import digest
from bot.care import render as care_render
from bot.care.delivery import with_delivery
from bot.case import Case, Changes, PatientState
from bot.chat.polling import kind_and_place
from bot.chat.types import Chat, ChatError, Incoming, IncomingKind, Outgoing
from bot.conversation import checkins, doses, enrolment, joining, steps
from bot.errors import TroubleOutside
from bot.escalation import assess_event, on_note
from bot.ports import Store, Work
from bot.receiving import Receiver, unhandled_answer
from bot.sending import LEASE, Addresses, Sender, Trouble
from bot.texts import render as patient_render
from scheduler.messages import Message, Priority, SendState, To
from scheduler.ports import Mark
from scheduler.protocol import ClinicProtocol
from scheduler.tick import tick

log = logging.getLogger(__name__)
NOTES_AT_ONCE = 20
PATIENTS_AT_ONCE = 25             # whose timelines one transaction expands: a few hundredths of a second
MOVED_NOTE = "moved:"             # stored note: where a chat of the care team's has moved to

NoteHandler = Callable[[Case, Message, datetime, ClinicProtocol], Changes]

NOTES: dict[str, NoteHandler] = {
    "dose_closed": lambda case, note, now, protocol: _dose_closed(case, note, now, protocol),
    "step_unconfirmed": lambda case, note, now, protocol: steps.unconfirmed(
        case, note.facts["occasion"], now, protocol),
    "check_in": lambda case, note, now, protocol: checkins.begin(case, note, now, protocol),
    "check_in_repeat": lambda case, note, now, protocol: checkins.repeat(case, note, now, protocol),
    "check_in_closed": lambda case, note, now, protocol: checkins.closed(case, note, now, protocol),
    joining.NOTE: lambda case, note, now, protocol: enrolment.on_joining_note(case, note, now, protocol),
    "event": lambda case, note, now, protocol: assess_event(case, note.facts["event"], note.facts, now, protocol),
}


async def _nothing() -> None:
    return None


@dataclass(frozen=True, slots=True)
class Step:
    """One update handled. `finish` is what is left to do at the network: it may take long and must hold nobody up."""

    finish: Callable[[], Awaitable[None]] = _nothing


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
        self._fetching: set[str] = set()      # chats whose next update waits for its file
        self._files: dict[str, str] = {}      # update -> text of its file

    def render(self, message: Message) -> Outgoing:
        """What a message looks like in the chat."""
        if message.to is To.PATIENT or message.kind in ("stranger", "unhandled_answer"):
            return patient_render.render(message)
        try:
            return care_render.render(message, self.protocol)
        except Exception as error:  # a flag is never lost to a fault in its layout: what it holds is shown plainly
            log.error("a message of kind %s cannot be laid out: %s", message.kind, kind_and_place(error))
            return care_render.plain(message, self.protocol)

    async def store_updates(self, updates: Iterable[Incoming], now: datetime) -> int:
        """Keep updates before they are confirmed to the network."""
        async with self.store.work() as work:
            return await work.store_updates(updates, now)

    async def pass_(self, now: datetime) -> int:
        """Do everything that is due; returns how many things were done."""
        await self.plan_digest(now)
        done = 0
        while True:
            round_done = await self.tick(now) + await self._inbox(now) + await self.notes(now) + await self._send(now)
            done += round_done
            if round_done == 0:
                return done

    async def next_due(self) -> datetime | None:
        """The next instant at which a pass would find something."""
        async with self.store.work() as work:
            return await work.next_due()

    async def plan_digest(self, now: datetime) -> None:
        """Once a process; from then on each digest plans the next."""
        if self._digest_is_planned:
            return
        async with self.store.work() as work:
            await digest.schedule(work, now, self.protocol)
        self._digest_is_planned = True

    async def tick(self, now: datetime) -> int:
        """Expand timelines that have come near; returns how many patients were looked at."""
        async with self.store.work() as work:
            return await tick(work, now, self.protocol, limit=PATIENTS_AT_ONCE)

    # --- the inbox

    async def handle_next(self, now: datetime) -> Step | None:
        """Handle the oldest stored update of a chat that nobody is handling; None when there is none. Its effects and
        its 'handled' mark are one transaction. What the step leaves to do at the network is done after it."""
        update: Incoming | None = None
        try:
            async with self.store.work() as work:
                found = await work.unhandled(1, self._fetching)
                if not found:
                    return None
                update = found[0]
                if await self._wants_file(work, update):
                    self._fetching.add(update.chat)
                    return Step(lambda: self._fetch(found[0]))
                await self._handle(work, update, now)
                await work.mark_handled(update.id, now)
        except TroubleOutside:
            raise
        except Exception as error:  # one update must never stop the others, and is never dropped
            if update is None:
                raise
            log.error("an update could not be handled: %s", kind_and_place(error))
            await self._pass_on_unhandled(update, now, error)
        self._files.pop(update.id, None)
        tap = update.tap
        return Step(lambda: self.chat.confirm_tap(tap)) if tap else Step()

    async def _inbox(self, now: datetime) -> int:
        done = 0
        while (step := await self.handle_next(now)) is not None:
            await step.finish()
            done += 1
        return done

    async def _handle(self, work: Work, update: Incoming, now: datetime) -> None:
        if update.kind is IncomingKind.MOVED and update.chat == self.addresses.care:
            await work.set_note(MOVED_NOTE + update.chat, update.data)
            self.care_moved(update.data)
            return
        if update.id in self._files:
            update = replace(update, text=self._files[update.id])
        await self.receiver.handle(work, update, now)

    async def _wants_file(self, work: Work, update: Incoming) -> bool:
        """A plan file that a care team member sent is fetched first, and not within a transaction."""
        return (update.kind is IncomingKind.DOCUMENT and update.id not in self._files
                and await work.member(update.sender) is not None)

    async def _fetch(self, update: Incoming) -> None:
        """Keep the text of the file; "" when it cannot be fetched or is no text."""
        text = ""
        try:
            text = (await self.chat.fetch(update.file)).decode("utf-8-sig")
        except (ChatError, UnicodeDecodeError) as error:
            log.warning("a file of the care team could not be read: %s", type(error).__name__)
        finally:
            self._files[update.id] = text
            self._fetching.discard(update.chat)

    async def _pass_on_unhandled(self, update: Incoming, now: datetime, error: Exception) -> None:
        async with self.store.work() as work:
            reference = await work.reference_of(update.chat)
            await work.put([Message(
                key=f"chat:{update.id}:unhandled", to=To.CARE, kind="unhandled", due_at=now, reference=reference,
                priority=Priority.FLAG, facts={"words": update.text or update.data or f"[{update.kind}]",
                                               "trouble": type(error).__name__})])
            if reference is not None:
                await work.put([unhandled_answer(update, now, self.protocol)])
            await work.mark_handled(update.id, now, trouble=f"{type(error).__name__}: {error}")

    # --- notes to ourselves

    async def notes(self, now: datetime) -> int:
        """Act on the notes that are due; acts and marks are one transaction. A note that cannot be acted on is set
        aside and told, and stops no other. Returns how many."""
        try:
            return await self._some_notes(now, NOTES_AT_ONCE)
        except TroubleOutside:
            raise
        except Exception:  # one of them is broken: one at a time finds which
            return await self._one_note(now)

    async def _some_notes(self, now: datetime, limit: int) -> int:
        async with self.store.work() as work:
            claimed = await work.claim(now, limit, now + LEASE, self.holder, agent=True)
            # patients in one order in every process, so that no two wait for each other's rows
            for one in sorted(claimed, key=lambda one: one.message.reference or ""):
                await self._act_on(work, one.message, now)
            await work.mark([Mark(one.message.key, SendState.SENT, now) for one in claimed])
            return len(claimed)

    async def _one_note(self, now: datetime) -> int:
        note: Message | None = None
        try:
            async with self.store.work() as work:
                claimed = await work.claim(now, 1, now + LEASE, self.holder, agent=True)
                if not claimed:
                    return 0
                note = claimed[0].message
                await self._act_on(work, note, now)
                await work.mark([Mark(note.key, SendState.SENT, now)])
        except TroubleOutside:
            raise
        except Exception as error:
            if note is None:
                raise
            log.error("a note of kind %s could not be acted on: %s", note.kind, kind_and_place(error))
            await self._set_note_aside(note, now, error)
        return 1

    async def _set_note_aside(self, note: Message, now: datetime, error: Exception) -> None:
        async with self.store.work() as work:
            await work.mark([Mark(note.key, SendState.REFUSED, now, trouble=f"{type(error).__name__}: {error}")])
            await work.put([Message(
                key=f"{note.key}:set_aside", to=To.CARE, kind="set_aside", due_at=now, reference=note.reference,
                priority=Priority.FLAG, facts={"what": note.kind, "trouble": type(error).__name__})])

    async def _act_on(self, work: Work, note: Message, now: datetime) -> None:
        if note.reference is None:
            await digest.on_note(work, note, now, self.protocol)
            return
        case = await work.case(note.reference)
        if case is None or (case.row.state is PatientState.ENDED and note.kind not in ("flag_overdue", "summary")):
            return                # who has left gets nothing more; what is for the care team still comes
        handler = NOTES.get(note.kind, on_note)
        note = await with_delivery(work, note)
        await work.apply(case.reference, handler(case, note, now, self.protocol), now)

    # --- sending

    async def _send(self, now: datetime) -> int:
        done, found = await self.sender.pass_(now)
        for trouble in found:
            await self.act_on(trouble, now)
        return done

    async def act_on(self, trouble: Trouble, now: datetime) -> None:
        """What sending has learnt: a patient held, a chat moved, a message too late, the care team told another way."""
        if trouble.what == "moved" and trouble.address == self.addresses.care:
            async with self.store.work() as work:
                await work.set_note(MOVED_NOTE + trouble.address, trouble.detail)
            self.care_moved(trouble.detail)
            return
        async with self.store.work() as work:
            await troubles.act_on(work, trouble, self.addresses, now, self.protocol)

    async def tell_set_aside(self, trouble: Trouble, now: datetime, error: Exception) -> None:
        """The care team is told of a message that did not arrive, where the program failed at what follows from it."""
        key = trouble.message.key if trouble.message else now.isoformat()
        async with self.store.work() as work:
            await work.put([Message(
                key=f"{key}:set_aside", to=To.CARE, kind="set_aside", due_at=now, reference=trouble.reference,
                priority=Priority.FLAG, facts={"what": trouble.what, "trouble": type(error).__name__})])

    async def follow_moves(self) -> None:
        """The care team's chat may have moved since the setting was written: go where it went."""
        async with self.store.work() as work:
            new = await work.get_note(MOVED_NOTE + self.addresses.care)
        if new:
            self.care_moved(new)

    def care_moved(self, new: str) -> None:
        """The care team's chat has a new address: used at once."""
        log.warning("the care team's chat has moved: set COATWELL_CARE_CHAT to its new address, %s", new)
        on_call = new if self.addresses.on_call == self.addresses.care else self.addresses.on_call
        self.addresses = replace(self.addresses, care=new, on_call=on_call)
        self.sender.addresses = self.addresses
        self.receiver = replace(self.receiver, care_chat=new)


def _dose_closed(case: Case, note: Message, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Never answered: unknown, not missed; then the rules look whether silence has lasted too long."""
    changes = doses.closed(case, note.facts["occasion"], note.key, now, protocol)
    if not changes.entries:
        return changes
    about = {"occasion": note.facts["occasion"]}
    return changes + assess_event(case.after(changes), "dose_unknown", about, now, protocol)

"""A small world on a virtual clock: the real agent, a chat network in memory, patients, a care team.

Rehearsals, trials and the simulated panel all run in it; of the agent only clock and network are replaced.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from bot.agent import Agent
from bot.case import PatientRow
from bot.chat.memory import MemoryChat, Person, Shown
from bot.chat.types import Incoming, Outgoing
from bot.enrolling import enrol
from bot.invites import make_invite
from bot.ports import Store
from bot.sending import Addresses
from scheduler.clock import SetClock
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol

CARE_CHAT = "care-team"
ON_CALL_CHAT = "on-call"


@dataclass(frozen=True, slots=True)
class Line:
    """One thing that somebody said or did. who: "Coatwell", or a person's name. chat: the address."""

    at: datetime
    chat: str
    who: str
    text: str
    buttons: tuple[tuple[str, ...], ...] = ()
    edits: bool = False
    picture: bool = False
    data: tuple[str, ...] = ()      # what the buttons carry, in order
    tapped: str = ""                # what a tapped button carries


class LoggedChat(MemoryChat):
    """The chat in memory, telling a listener of everything that is shown."""

    def __init__(self, clock: SetClock) -> None:
        super().__init__()
        self.clock = clock
        self.listeners: list[Callable[[Line], None]] = []
        self.watchers: list[Callable[[str, Shown], None]] = []   # told of each new message: address, message

    async def send(self, address: str, outgoing: Outgoing) -> str:
        name = await super().send(address, outgoing)
        self.tell(line_of(self.clock.now(), address, outgoing))
        for watcher in self.watchers:
            watcher(address, self.message(address, name))
        return name

    async def edit(self, address: str, message: str, outgoing: Outgoing) -> None:
        before = self.message(address, message).outgoing
        await super().edit(address, message, outgoing)
        if before != outgoing:
            self.tell(line_of(self.clock.now(), address, outgoing, edits=True))

    def tell(self, line: Line) -> None:
        for listener in self.listeners:
            listener(line)


def line_of(at: datetime, chat: str, outgoing: Outgoing, *, edits: bool = False) -> Line:
    """What a message of ours looks like in the log."""
    labels = tuple(tuple(button.label for button in row) for row in outgoing.buttons)
    data = tuple(button.data for row in outgoing.buttons for button in row)
    return Line(at, chat, "Coatwell", outgoing.text, labels, edits,
                outgoing.photo is not None or outgoing.document is not None, data=data)


class NoSuchButton(LookupError):
    """A tap on a label that stands nowhere in the chat; names those that do."""


@dataclass
class World:
    """Everything of one trial. `people` maps a patient's reference or a care team name to who acts for them."""

    store: Store
    protocol: ClinicProtocol
    clock: SetClock
    chat: LoggedChat
    agent: Agent
    log: list[Line] = field(default_factory=list)
    people: dict[str, Person] = field(default_factory=dict)
    zones: dict[str, str] = field(default_factory=dict)

    @classmethod
    def make(cls, store: Store, protocol: ClinicProtocol, start: datetime) -> World:
        clock = SetClock(start)
        chat = LoggedChat(clock)
        agent = Agent(store, chat, protocol, Addresses(CARE_CHAT, ON_CALL_CHAT))
        world = cls(store, protocol, clock, chat, agent)
        chat.listeners.append(world.log.append)
        return world

    def restart(self, store: Store) -> None:
        """The program is started again over the same database; the network and the people stay."""
        self.store = store
        self.agent = Agent(store, self.chat, self.protocol, Addresses(CARE_CHAT, ON_CALL_CHAT))

    # --- who is there

    async def enrol(self, plan: Plan) -> str:
        """Store a plan; returns the invite's code."""
        async with self.store.work() as work:
            code = await enrol(work, plan, self.clock.now(), self.protocol)
        reference = plan.patient.reference
        self.people[reference] = self.chat.person(f"patient-{reference}", plan.patient.call_me)
        self.zones[reference] = plan.patient.time_zone
        return code

    async def join(self, plan: Plan) -> None:
        """Enrol a patient, open the invite and agree: what happens before the first dose."""
        code = await self.enrol(plan)
        reference = plan.patient.reference
        await self.opens_invite(reference, code)
        await self.taps(reference, "k:yes")
        if any("w:" in button.data for row in self.last(reference).outgoing.buttons for button in row):
            await self.taps(reference, f"w:{plan.patient.writer}")

    async def admit(self, name: str, role: str) -> None:
        """A care team member joins with an invite of their own."""
        async with self.store.work() as work:
            code = await make_invite(work, role, self.clock.now(), self.protocol)
        self.people[name] = self.chat.person(f"care-{name.lower().replace(' ', '-')}", name)
        self.chat.tell(Line(self.clock.now(), self.address(name), name, f"(joins with an invite, as {role})"))
        await self._arrive(self.people[name].text(f"/join {code}", self.clock.now()))

    # --- what they do

    async def opens_invite(self, who: str, code: str) -> None:
        """The deep link of an invite. The code itself is not logged: it is random, and it is a key."""
        self.chat.tell(Line(self.clock.now(), self.address(who), self._name(who), "(opens the invite)"))
        await self._arrive(self.people[who].text(f"/start {code}", self.clock.now()))

    async def says(self, who: str, text: str, *, in_group: bool = True) -> None:
        """Words of a patient, or of a care team member in the care team's chat."""
        chat = self._chat(who, in_group)
        self.chat.tell(Line(self.clock.now(), chat or self.address(who), self._name(who), text))
        await self._arrive(self.people[who].text(text, self.clock.now(), chat=chat))

    async def taps(self, who: str, wanted: str, *, in_group: bool = True) -> None:
        """A tap on the newest button with this label (or whose data is `wanted`). Raises NoSuchButton."""
        chat = self._chat(who, in_group)
        address = chat or self.address(who)
        shown, label, data = self.button(address, wanted)
        self.chat.tell(Line(self.clock.now(), address, self._name(who), f"[{label}]", tapped=data))
        await self._arrive(self.people[who].tap(shown.name, data, self.clock.now(), chat=chat))

    async def says_at(self, who: str, address: str, text: str) -> None:
        """Words in the chat at `address`, whichever it is."""
        self.chat.tell(Line(self.clock.now(), address, self._name(who), text))
        chat = "" if address == self.address(who) else address
        await self._arrive(self.people[who].text(text, self.clock.now(), chat=chat))

    async def taps_at(self, who: str, address: str, message: str, data: str) -> None:
        """A tap on a button of exactly this message. Raises NoSuchButton when it no longer has it."""
        rows = self.chat.message(address, message).outgoing.buttons
        label = next((button.label for row in rows for button in row if button.data == data), None)
        if label is None:
            raise NoSuchButton(f"message {message} in {address} no longer has the button {data!r}")
        self.chat.tell(Line(self.clock.now(), address, self._name(who), f"[{label}]", tapped=data))
        chat = "" if address == self.address(who) else address
        await self._arrive(self.people[who].tap(message, data, self.clock.now(), chat=chat))

    async def sends_photo(self, who: str, caption: str = "", content: bytes = b"picture") -> None:
        chat = self._chat(who, True)
        self.chat.tell(Line(self.clock.now(), chat or self.address(who), self._name(who), f"[a picture] {caption}",
                            picture=True))
        await self._arrive(self.people[who].photo(content, self.clock.now(), caption=caption, chat=chat))

    async def sends_file(self, who: str, name: str, content: bytes) -> None:
        chat = self._chat(who, True)
        self.chat.tell(Line(self.clock.now(), chat or self.address(who), self._name(who), f"[file {name}]"))
        await self._arrive(self.people[who].document(name, content, self.clock.now(), chat=chat))

    async def blocks(self, who: str) -> None:
        """The person stops the bot."""
        self.chat.tell(Line(self.clock.now(), self.address(who), self._name(who), "(stops the bot)"))
        await self._arrive(self.people[who].block(self.clock.now()))

    async def _arrive(self, incoming: Incoming) -> None:
        self.chat.take()
        await self.agent.store_updates([incoming], self.clock.now())
        await self.agent.pass_(self.clock.now())

    # --- time

    async def next_thing(self) -> datetime | None:
        """When something happens next, without anybody doing anything."""
        found = await self.agent.next_due()
        return max(found, self.clock.now()) if found else None

    async def run_to(self, instant: datetime) -> None:
        """Let everything happen that is due up to `instant`, each at its own time."""
        await self.agent.pass_(self.clock.now())
        while (upcoming := await self.next_thing()) is not None and upcoming <= instant:
            standing = upcoming <= self.clock.now()
            self.clock.move_to(upcoming)
            if await self.agent.pass_(self.clock.now()) == 0 and standing:
                raise RuntimeError(f"something is due at {upcoming} and a pass does not do it")
        self.clock.move_to(instant)

    async def run_to_next(self, limit: datetime) -> bool:
        """Go on until somebody sees something new, or `limit`. Returns whether something was shown."""
        seen = len(self.log)
        while len(self.log) == seen:
            upcoming = await self.next_thing()
            if upcoming is None or upcoming > limit:
                return False
            await self.run_to(max(upcoming, self.clock.now() + timedelta(microseconds=1)))
        return True

    # --- looking

    def address(self, who: str) -> str:
        """The chat in which this person reads us."""
        return self.people[who].sender

    def last(self, who: str) -> Shown:
        return self.chat.last(self.address(who))

    def button(self, address: str, wanted: str) -> tuple[Shown, str, str]:
        """The newest message with a button of this label or data: (message, label, data)."""
        seen: list[str] = []
        for shown in reversed(self.chat.shown.get(address, [])):
            for row in shown.outgoing.buttons:
                for button in row:
                    if wanted in (button.label, button.data) or button.label.removeprefix("✓ ") == wanted:
                        return shown, button.label, button.data
                    seen.append(button.label)
        raise NoSuchButton(f"no button {wanted!r} in {address}; newest: {seen[:8]}")

    def _chat(self, who: str, in_group: bool) -> str:
        is_care = self.address(who).startswith("care-")
        return CARE_CHAT if is_care and in_group else ""

    def _name(self, who: str) -> str:
        return self.people[who].name or who

    async def rows(self) -> list[PatientRow]:
        async with self.store.work() as work:
            return list(await work.patients())

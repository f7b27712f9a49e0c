"""A stage of the trial: one world with its clock, everything its chats show in order, and who acts in them.

Nothing here decides anything: what people write and tap goes to the real agent, time is moved on the virtual clock.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, time, timedelta

from bot.chat.memory import Shown
from bot.rehearsal.habit import Habit
from bot.rehearsal.play import CLINICIAN, NURSE, ON_CALL
from bot.rehearsal.scenario import Scenario
from bot.rehearsal.world import CARE_CHAT, ON_CALL_CHAT, Line, World
from bot.web.recording import Recording
from scheduler.localtime import instant, local
from scheduler.plan import Plan

FAR = timedelta(days=400)           # no jump is longer
QUIET = timedelta(days=15)          # who takes part hears from us every week; after this long nothing comes by itself
_HOP = timedelta(hours=12)          # time passes in hops, so that the page stays alive on a long way
CARE_TEAM = ((NURSE, "nurse"), (CLINICIAN, "clinician"), (ON_CALL, "on_call"))
USUAL = {"doses": "taken", "check_ins": "good", "steps": "confirm", "rinses": "done"}


@dataclass
class Item:
    """One entry of a chat as the page shows it: a message of ours (`shown`), or what a person wrote, tapped or sent.

    kind: "ours", "words", "tap", "picture", "file" or "note" (something that happened outside the words).
    seen: the agent has handled it.
    """

    at: datetime
    who: str
    kind: str
    text: str = ""
    shown: Shown | None = None
    content: bytes = b""
    seen: bool = False


@dataclass
class Stage:
    """One world, its patients, and the acts of the page on it. Every act holds the lock: one thing at a time."""

    world: World
    plans: list[Plan]
    changed: Callable[[], None] = lambda: None      # told when something on this stage is to be shown anew
    announce: Callable[[], None] = lambda: None     # told when pages of other stages should know, too
    speed: int = 60                     # virtual seconds per real second while running
    running: bool = False
    history: Scenario | None = None     # what is played before the stage opens
    preparing: str = ""                 # what is still being made ready, "" when the stage can be used
    care_who: str = NURSE
    care_chat: str = CARE_CHAT
    about: dict[str, str] = field(default_factory=dict)     # a patient's reference -> one line on them
    usual: bool = False                 # whether the patient answers as usual while time passes
    trouble: str = ""                   # what went wrong with the last act
    chats: dict[str, list[Item]] = field(default_factory=dict)
    read: dict[str, int] = field(default_factory=dict)      # entries of a chat that were on the page
    recordings: dict[str, Recording] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.lock = asyncio.Lock()
        self._habits: dict[str, Habit] = {}
        self._content = b""
        self._left_over = 0.0
        self._stop = False
        self.world.chat.watchers.append(self._shown)
        self.world.chat.listeners.append(self._told)

    # --- what there is

    @property
    def references(self) -> list[str]:
        return [plan.patient.reference for plan in self.plans]

    @property
    def now(self) -> datetime:
        return self.world.clock.now()

    def zone(self, reference: str) -> str:
        return self.world.zones.get(reference) or self.plan(reference).patient.time_zone

    def plan(self, reference: str) -> Plan:
        return next(plan for plan in self.plans if plan.patient.reference == reference)

    def items(self, address: str) -> list[Item]:
        return self.chats.get(address, [])

    def unread(self, address: str) -> int:
        """Messages of ours that came since this chat was last on the page."""
        return sum(item.kind == "ours" for item in self.items(address)[self.read.get(address, 0):])

    # --- listening

    def _shown(self, address: str, shown: Shown) -> None:
        self._add(address, Item(self.now, "Coatwell", "ours", shown=shown))

    def _told(self, line: Line) -> None:
        if line.who == "Coatwell":
            self.changed()
            return
        for recording in self.recordings.values():
            recording.told(line, self._content)
        kind = "tap" if line.tapped or (line.text.startswith("[") and line.text.endswith("]")) else "words"
        text = line.text[1:-1] if kind == "tap" else line.text
        if line.picture:
            kind, text = "picture", line.text.removeprefix("[a picture]").strip()
        elif line.text.startswith("[file "):
            kind, text = "file", line.text.removeprefix("[file ").removesuffix("]")
        elif line.text.startswith("(") and line.text.endswith(")"):
            kind = "note"
        self._add(line.chat, Item(line.at, line.who, kind, text, content=self._content))

    def _add(self, address: str, item: Item) -> None:
        self.chats.setdefault(address, []).append(item)
        self.changed()

    # --- who is there

    async def open(self) -> list[tuple[str, str]]:
        """The care team joins; each patient opens an invite and is asked to agree. Returns (reference, code)."""
        codes = []
        async with self.lock:
            for name, role in CARE_TEAM:
                await self.world.admit(name, role)
            for plan in self.plans:
                reference = plan.patient.reference
                code = await self.world.enrol(plan)
                codes.append((reference, code))
                self.recordings[reference] = Recording(self.world, plan, self.now)
                await self.world.opens_invite(reference, code)
            await self.settle()
        return codes

    # --- what people do

    async def says(self, who: str, address: str, text: str) -> None:
        """Words of `who` (a reference or a care team name) in the chat at `address`."""
        async with self.lock:
            await self.world.says_at(who, address, text)
            await self.settle()

    async def taps(self, who: str, address: str, message: str, data: str) -> None:
        """A tap on a button of one message. Raises NoSuchButton for a button that has gone."""
        async with self.lock:
            await self.world.taps_at(who, address, message, data)
            await self.settle()

    async def sends_picture(self, reference: str, content: bytes, caption: str) -> None:
        async with self.lock:
            self._content = content
            try:
                await self.world.sends_photo(reference, caption, content)
            finally:
                self._content = b""
            await self.settle()

    async def sends_plan(self, text: str) -> None:
        """The clinician puts a plan file into the care team's chat; signing it is done there."""
        async with self.lock:
            self._content = text.encode()
            try:
                await self.world.sends_file(CLINICIAN, "plan.toml", self._content)
            finally:
                self._content = b""
            self.care_who, self.care_chat = CLINICIAN, CARE_CHAT
            await self.settle()

    async def settle(self) -> None:
        """Everything that waited has been handled: marks, and what the recordings check."""
        for recording in self.recordings.values():
            await recording.after()
        for items in self.chats.values():
            for item in reversed(items):
                if item.seen:
                    break
                item.seen = True
        self.changed()

    # --- time

    async def to_next(self) -> bool:
        """Go on until somebody sees something new; False when nothing more happens by itself."""
        async with self.lock:
            seen, limit = len(self.world.log), self.now + QUIET
            self._stop = False
            while len(self.world.log) == seen and not self._stop:
                upcoming = await self._upcoming()
                if upcoming is None or upcoming > limit:
                    return False
                await self._run_to(upcoming if upcoming > self.now else self.now + timedelta(seconds=1))
                await asyncio.sleep(0)
            return True

    async def to_instant(self, until: datetime) -> None:
        """Everything that is due up to `until` happens, each at its own time; `halt` ends it early."""
        until = min(until, self.now + FAR)
        async with self.lock:
            self._stop = False
            while self.now < until and not self._stop:
                await self._run_to(min(until, self.now + _HOP))
                self.changed()
                await asyncio.sleep(0)

    async def to_next_day(self, reference: str) -> None:
        """The patient's next morning, some minutes before the first dose of the day or on waking."""
        plan, zone = self.plan(reference), self.zone(reference)
        morning = min((*plan.dose_times, plan.patient.wakes), key=lambda at: _after_waking(plan, at))
        early = (datetime.combine(local(self.now, zone).date(), morning) - timedelta(minutes=5)).time()
        day = local(self.now, zone).date() + timedelta(days=1)
        await self.to_instant(instant(day, early, zone))

    async def pass_time(self, seconds: float) -> None:
        """Real seconds have gone by while the clock runs."""
        self._left_over += seconds * self.speed
        whole = int(self._left_over)
        if whole <= 0 or not self.running or self.lock.locked():
            return
        self._left_over -= whole
        async with self.lock:
            await self._run_to(self.now + timedelta(seconds=whole))
        self.changed()

    def halt(self) -> None:
        """Stop running, and a jump that is under way."""
        self.running = False
        self._stop = True
        self.changed()

    def set_usual(self, usual: bool) -> None:
        """Whether patients answer doses, steps and check-ins by themselves a few minutes after they are asked."""
        self.usual = usual
        for habit in self._habits.values():
            habit.stop()
        self._habits = {}
        if usual:
            self._habits = {reference: Habit(self.world, reference, USUAL) for reference in self.references}
        self.changed()

    async def _upcoming(self) -> datetime | None:
        due = [await self.world.next_thing(), *(habit.answers_at() for habit in self._habits.values())]
        return min((one for one in due if one is not None), default=None)

    async def _run_to(self, until: datetime) -> None:
        until = until.replace(microsecond=0) + timedelta(seconds=until.microsecond > 0)
        while (upcoming := await self._upcoming()) is not None and upcoming <= until:
            await self.world.run_to(max(upcoming, self.now))
            for habit in self._habits.values():
                await habit.run_to(self.now)
        await self.world.run_to(until)
        await self.settle()


def _after_waking(plan: Plan, at: time) -> int:
    wakes = plan.patient.wakes
    return (at.hour * 60 + at.minute - wakes.hour * 60 - wakes.minute) % 1440


def places(stage: Stage) -> list[tuple[str, str]]:
    """The care team's chats with something in them beyond a member's welcome: (address, name)."""
    found = [(CARE_CHAT, "Care team")]
    if stage.items(ON_CALL_CHAT):
        found.append((ON_CALL_CHAT, "On call"))
    for name, _ in CARE_TEAM:
        person = stage.world.people.get(name)
        if person is not None and (len(stage.items(person.sender)) > 2 or stage.care_chat == person.sender):
            found.append((person.sender, name))
    return found

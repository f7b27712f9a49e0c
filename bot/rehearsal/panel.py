"""A panel of simulated patients on the real engine, and what it costs a nurse. `coatwell rehearse --patients N`.

Built from: the real agent over the in-memory store on a virtual clock; patients from `characters.py`; one nurse who
works the protocol's hours and one person on call, both acting through the care team's chat as people do. It measures
flags per nurse per working day, flags that no simulated trouble explains, time to a person, and whether any simulated
emergency or infection went without a flag. It cannot tell how real patients write (the words are few and our own) or
how long real answers take.
"""

from __future__ import annotations

import asyncio
import heapq
import random
import time
from collections import Counter
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta

from bot.case import Flag
from bot.chat.memory import Shown
from bot.chat.types import Incoming, IncomingKind
from bot.escalation.flags import urgent_since
from bot.escalation.hours import is_open, is_working_day
from bot.rehearsal.characters import Character, Event, character, events
from bot.rehearsal.demo import demo_plan
from bot.rehearsal.world import CARE_CHAT, World
from bot.settings import load_settings
from bot.storage.opening import MEMORY, open_store
from bot.understanding.types import Urgency
from scheduler.localtime import instant
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol

NURSE, CLINICIAN, ON_CALL = "Nurse Adeyemi", "Dr Lindqvist", "Dr Osei"
FIRST_DAY = date(2026, 3, 2)
_GOOD_WEEK = ("c:swallow:well", "c:pain:no", "c:mouth:clean", "c:eating:none", "c:new:none", "c:body:none",
              "c:routine:all", "c:else:no")


@dataclass
class Panel:
    """One run. The heap holds what people will do: (instant, order, who, data or words, is a tap)."""

    world: World
    people: dict[str, Character]
    troubles: list[Event]
    dice: random.Random
    heap: list[tuple[datetime, int, str, str, bool]] = field(default_factory=list)
    order: int = 0
    updates: int = 0
    pruned: datetime = field(init=False)
    booked: set[str] = field(default_factory=set)   # patients whose endoscopy the clinic has booked

    def later(self, at: datetime, who: str, what: str, tap: bool = True) -> None:
        self.order += 1
        heapq.heappush(self.heap, (at, self.order, who, what, tap))

    # --- patients

    def shown(self, address: str, shown: Shown) -> None:
        """A message came up on a patient's phone: they will answer by their character."""
        who = self.people.get(address.removeprefix("patient-"))
        if who is None or who.is_silent(self.world.clock.now()):
            return
        data = [button.data for row in shown.outgoing.buttons for button in row]
        choice = self._choice(who, data)
        if choice is not None:
            self.later(self.world.clock.now() + who.delay(), who.reference, choice)

    def _choice(self, who: Character, data: list[str]) -> str | None:
        first = data[0] if data else ""
        roll = who.dice.random()
        if first.startswith("d:"):
            return first if roll < who.takes else data[-1] if roll < who.takes + who.skips else None
        if first.startswith(("s:", "k:", "n:")):
            return first
        if first.startswith("w:"):
            return data[-1]
        if first.startswith("r:"):
            return first if roll < who.rinses else None
        if first.startswith("u:"):
            return first if roll < 0.7 else data[1]
        if first.startswith("c:"):
            begun = not first.startswith("c:swallow")
            return next((one for one in data if one in _GOOD_WEEK), first) if begun or roll < who.checks_in else None
        return None

    # --- the care team

    async def nurse_round(self, now: datetime) -> None:
        """Within hours: take what is open, the most urgent first, a few minutes each, and close it."""
        async with self.world.store.work() as work:
            waiting = [flag for flag in await work.open_flags() if not flag.taken_by]
        if not is_open(now, self.world.protocol):
            return
        at = now
        for flag in waiting:
            at += timedelta(minutes=self.dice.uniform(2, 8))
            self.later(at, NURSE, f"f:{flag.id}:take")
            self.later(at + timedelta(minutes=self.dice.uniform(3, 20)), NURSE, f"f:{flag.id}:o0")
            if {"endoscopy_due", "endoscopy_overdue", "gate_waiting"} & set(flag.rules):
                self._examined(flag.reference, at)

    def _examined(self, reference: str, now: datetime) -> None:
        """An endoscopy is booked, done one to three weeks later and entered; a gate that waits is released then."""
        if reference in self.booked:
            return
        self.booked.add(reference)
        done = now + timedelta(days=self.dice.uniform(7, 21))
        eos = int(self.dice.expovariate(1 / 12))
        self.later(done, CLINICIAN, f"/endoscopy {reference} {done:%Y-%m-%d} {eos} {min(eos // 8, 6)}", tap=False)
        self.later(done + timedelta(minutes=1), CLINICIAN, f"p:{reference}:record")
        self.later(done + timedelta(days=2), CLINICIAN, f"/release {reference}", tap=False)

    async def on_call_round(self, now: datetime) -> None:
        """At any hour: emergencies that nobody has taken."""
        async with self.world.store.work() as work:
            waiting = [flag for flag in await work.open_flags()
                       if not flag.taken_by and flag.urgency is Urgency.EMERGENCY]
        for flag in waiting:
            self.later(now + timedelta(minutes=self.dice.uniform(1, 6)), ON_CALL, f"f:{flag.id}:take")
            self.later(now + timedelta(minutes=30), ON_CALL, f"f:{flag.id}:o0")

    # --- running

    async def run(self, until: datetime) -> None:
        """Everything in order of time: what is due, what people do, the care team's rounds."""
        world = self.world
        rounds = self.pruned = world.clock.now()
        while True:
            upcoming = await world.next_thing()
            coming = [at for at in (upcoming, self.heap[0][0] if self.heap else None, rounds) if at is not None]
            now = max(min(coming), world.clock.now())
            if now > until:
                return
            await world.run_to(now)
            while self.heap and self.heap[0][0] <= now:
                _, _, who, what, tap = heapq.heappop(self.heap)
                await self._does(who, what, tap)
            if self.pruned + timedelta(weeks=1) <= now:
                await self._prune(now)
            if rounds <= now:
                await self.nurse_round(now)
                await self.on_call_round(now)
                rounds = now + timedelta(minutes=15)

    async def _prune(self, now: datetime) -> None:
        """What is long done is thrown away once a week, as in service; phones keep their last messages."""
        self.pruned = now
        await self.world.store.prune(now - timedelta(weeks=1))
        for shown in self.world.chat.shown.values():
            del shown[:-60]

    async def _does(self, who: str, what: str, tap: bool) -> None:
        """One tap or text, straight into the inbox as the network would bring it."""
        self.updates += 1
        person = self.world.people[who]
        care = who in (NURSE, CLINICIAN, ON_CALL)
        await self.world.agent.store_updates([Incoming(
            f"s{self.updates}", CARE_CHAT if care else person.sender, person.sender, self.world.clock.now(),
            IncomingKind.TAP if tap else IncomingKind.TEXT, text="" if tap else what, data=what if tap else "",
            sender_name=person.name, is_group=care)], self.world.clock.now())
        await self.world.agent.pass_(self.world.clock.now())


def plans(count: int, dice: random.Random, weeks: int, protocol: ClinicProtocol) -> list[Plan]:
    """Invented patients: slurry and inhaler by turns, each starting somewhere in the first third of the time."""
    found = []
    models = [demo_plan(name, protocol) for name in ("adult_slurry", "teen_inhaler", "adult_maintenance")]
    for number in range(count):
        model = models[number % len(models)]
        starts = FIRST_DAY + timedelta(days=dice.randrange(max(weeks * 7 // 3, 1)))
        first = replace(model.phases[0], starts=starts)
        found.append(replace(
            model, phases=(first, *model.phases[1:]), medicine=replace(model.medicine, packs_on_hand=40), text="",
            seasons=(), patient=replace(model.patient, reference=f"SIM-{number:03d}", writer="patient", age_years=30)))
    return found


async def simulate(count: int, weeks: int, seed: int, protocol: ClinicProtocol) -> Result:
    """Run the panel; see the module for how it is built."""
    dice = random.Random(seed)
    store = await open_store(MEMORY, protocol)
    everybody = plans(count, dice, weeks, protocol)
    zone = everybody[0].patient.time_zone
    start = instant(FIRST_DAY, everybody[0].patient.wakes, zone)
    world = World.make(store, protocol, start)
    world.chat.listeners.clear()   # the log of everything would be larger than the panel
    await world.admit(NURSE, "nurse")
    await world.admit(CLINICIAN, "clinician")
    await world.admit(ON_CALL, "on_call")
    people = {plan.patient.reference: character(plan.patient.reference, start, weeks, random.Random(f"{seed}-{number}"))
              for number, plan in enumerate(everybody)}
    panel = Panel(world, people, [], dice)
    world.chat.watchers.append(panel.shown)
    for plan in everybody:
        code = await world.enrol(plan)
        await world.opens_invite(plan.patient.reference, code)
        who = people[plan.patient.reference]
        first = instant(plan.phases[0].starts or FIRST_DAY, plan.patient.wakes, zone)
        remaining = max((start + timedelta(weeks=weeks) - first).days // 7, 1)
        panel.troubles += events(who, first, remaining)
    for event in panel.troubles:
        panel.later(event.at, event.reference, event.words, tap=False)
    until = start + timedelta(weeks=weeks)
    began = time.perf_counter()
    await panel.run(until)
    flags = [flag for plan in everybody for flag in await _flags(world, plan.patient.reference)]
    return Result(count, weeks, flags, [one for one in panel.troubles if one.at <= until - timedelta(hours=1)],
                  panel.updates, time.perf_counter() - began, working_days(weeks, protocol), until)


async def _flags(world: World, reference: str) -> list[Flag]:
    async with world.store.work() as work:
        case = await work.case(reference)
        return list(case.flags) if case else []


def working_days(weeks: int, protocol: ClinicProtocol) -> int:
    """Days on which the care team works, by the protocol's week and public holidays."""
    return sum(is_working_day(FIRST_DAY + timedelta(days=day), protocol) for day in range(weeks * 7))


@dataclass
class Result:
    """What the run gave."""

    patients: int
    weeks: int
    flags: list[Flag]
    troubles: list[Event]
    updates: int
    seconds: float
    days: int
    until: datetime

    def missed(self) -> list[Event]:
        """Emergencies and infections for which no flag of the patient was raised or joined within an hour."""
        return [event for event in self.troubles if event.trouble.worth in ("emergency", "infection")
                and not self._flag_for(event)]

    def _flag_for(self, event: Event) -> bool:
        return any(flag.reference == event.reference and flag.raised_at <= event.at + timedelta(hours=1)
                   and (flag.closed_at is None or flag.closed_at >= event.at) and flag.urgency >= Urgency.URGENT
                   for flag in self.flags)

    def needless(self) -> list[Flag]:
        """Flags of words that no trouble worth a person's time explains (the simulation knows who wrote what)."""
        worth = {(event.reference, event.words) for event in self.troubles if event.trouble.worth != "none"}
        return [flag for flag in self.flags if flag.words and not any(
            reference == flag.reference and words in flag.words for reference, words in worth)]

    def report(self) -> str:
        """The care team's load, in plain text."""
        by_urgency = Counter(str(flag.urgency) for flag in self.flags)
        by_rule = Counter(flag.rules[0] for flag in self.flags)
        taken = [flag for flag in self.flags if flag.taken_at is not None]
        lines = [f"{self.patients} simulated patients, {self.weeks} weeks, one nurse, {self.days} working days, "
                 f"{self.updates} replies; {self.seconds:.0f} s of computing",
                 f"flags: {len(self.flags)}; per nurse per working day: {len(self.flags) / max(self.days, 1):.1f}"]
        for urgency in ("emergency", "urgent", "routine"):
            waits = [flag.taken_at - urgent_since(flag) for flag in taken
                     if str(flag.urgency) == urgency and flag.taken_at is not None]
            longest = max(waits, default=timedelta(0))
            middle = sorted(waits)[len(waits) // 2] if waits else timedelta(0)
            per_day = by_urgency[urgency] / max(self.days, 1)
            lines.append(f"  {urgency:9} {by_urgency[urgency]:5}   per day {per_day:5.2f}"
                         f"   until taken: median {_hours(middle)}, longest {_hours(longest)}")
        untaken = [flag for flag in self.flags if flag.is_open and not flag.taken_by]
        overdue = [flag for flag in untaken if flag.act_by < self.until]
        needless = self.needless()
        lines += [f"words that nobody needed to read: {len(needless)} ({len(needless) / max(len(self.flags), 1):.0%})",
                  f"still unread at the end: {len(untaken)}, of these past their time: {len(overdue)}",
                  f"simulated emergencies and infections without an urgent flag: {len(self.missed())} of "
                  f"{sum(e.trouble.worth in ('emergency', 'infection') for e in self.troubles)}"]
        common = Counter(words for flag in needless for words in flag.words.split("\n"))
        lines += [f"    read for nothing, {number} times: {words!r}" for words, number in common.most_common(8)]
        lines += [f"    missed: {event.trouble.name}: {event.words!r}" for event in self.missed()[:10]]
        lines += ["by rule: " + ", ".join(f"{rule} {number}" for rule, number in by_rule.most_common(16)),
                  "The simulation knows few words and no real nurse: it shows load and loss, not understanding."]
        return "\n".join(lines)


def _hours(span: timedelta) -> str:
    minutes = span.total_seconds() / 60
    return f"{minutes:.0f} min" if minutes < 120 else f"{minutes / 60:.1f} h"


def simulate_and_print(patients: int, weeks: int, seed: int) -> int:
    """0 when nothing simulated as an emergency or infection went without its flag."""
    result = asyncio.run(simulate(patients, weeks, seed, load_settings().clinic_protocol()))
    print(result.report())
    return 1 if result.missed() else 0

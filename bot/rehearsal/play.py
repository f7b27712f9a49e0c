"""Playing a scenario: every message as it is shown, and whether each turn led to what it must. Deterministic."""

from __future__ import annotations

import math
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path

from bot.given import readable
from bot.rehearsal.habit import Habit
from bot.rehearsal.scenario import Scenario, Turn
from bot.rehearsal.world import CARE_CHAT, ON_CALL_CHAT, Line, NoSuchButton, World
from bot.storage.opening import open_store
from scheduler.errors import Problem, WrongInput
from scheduler.localtime import instant
from scheduler.plan import Plan
from scheduler.planfile import read_plan, read_text
from scheduler.protocol import ClinicProtocol, Value

NURSE, CLINICIAN, ON_CALL = "Nurse Adeyemi", "Dr Lindqvist", "Dr Osei"
STRANGER = "somebody"
_ACTORS = {"nurse": NURSE, "clinician": CLINICIAN, "on_call": ON_CALL, "stranger": STRANGER}


@dataclass
class Played:
    """What a scenario gave: the log of everything shown, and what was expected and did not happen."""

    lines: list[Line]
    failures: list[str] = field(default_factory=list)


def with_values(protocol: ClinicProtocol, differing: dict[str, object]) -> ClinicProtocol:
    """The protocol with some values of a scenario's own; units stay. Raises WrongInput for one it does not have."""
    values = {value.key: value for value in protocol}
    unknown = tuple(Problem(f"protocol.{key}", "the clinic protocol has no such value")
                    for key in differing if key not in values)
    unfit = tuple(Problem(f"protocol.{key}", f"must be of the kind that the clinic protocol has: {values[key].value!r}")
                  for key, value in differing.items() if key in values and not _fits(value, values[key].value))
    if unknown or unfit:
        raise WrongInput("this scenario", unknown + unfit)
    for key, value in differing.items():
        values[key] = Value(key, value, values[key].unit, "this scenario")
    return ClinicProtocol(protocol.name, protocol.signed_by, values)


def _fits(value: object, model: object) -> bool:
    if isinstance(model, int | float) and not isinstance(model, bool):
        return isinstance(value, int | float) and not isinstance(value, bool) and 0 <= value < math.inf
    return isinstance(value, type(model)) or (isinstance(value, str) and isinstance(model, dict))


def plan_of(scenario: Scenario, protocol: ClinicProtocol) -> Plan:
    """The plan that the scenario carries or names. Raises BadUse when the file is not there, WrongInput as read."""
    text = scenario.plan_text or read_text(readable(scenario.plan, "the scenario's plan file"))
    return read_plan(text, str(scenario.plan), protocol)


async def play(scenario: Scenario, protocol: ClinicProtocol) -> Played:
    """Run it on a virtual clock; with a restart in it, over a database file that outlives the restart."""
    protocol = with_values(protocol, dict(scenario.protocol))
    plan = plan_of(scenario, protocol)
    with tempfile.TemporaryDirectory(prefix="coatwell-") as folder:
        url = f"sqlite:///{Path(folder) / 'rehearsal.db'}" if scenario.restarts else "memory:"
        store = await open_store(url, protocol)
        player = Player(scenario, World.make(store, protocol, _at(plan, scenario.start)), plan, url)
        try:
            return await player.play()
        finally:
            await player.world.store.close()


@dataclass
class Player:
    """One run of a scenario."""

    scenario: Scenario
    world: World
    plan: Plan
    url: str
    failures: list[str] = field(default_factory=list)
    code: str = ""

    async def play(self) -> Played:
        world, reference = self.world, self.plan.patient.reference
        world.people[STRANGER] = world.chat.person("stranger", STRANGER)
        for name, role in ((NURSE, "nurse"), (CLINICIAN, "clinician"), (ON_CALL, "on_call")):
            await world.admit(name, role)
        if self.scenario.joins:
            await world.join(self.plan)
        else:
            self.code = await world.enrol(self.plan)
        habit = Habit(world, reference, self.scenario.habit)
        turns = self.scenario.turns
        for number, turn in enumerate(turns, 1):
            await self._go(habit, _at(self.plan, turn.at))
            before = len(world.log)
            try:
                await self.act(turn, reference)
            except NoSuchButton as error:
                self._fail(number, turn, str(error))
            until = turns[number].at if number < len(turns) else self.scenario.end
            await self._go(habit, _at(self.plan, until) - timedelta(seconds=1))
            await self._check(number, turn, world.log[before:])
        await self._go(habit, _at(self.plan, self.scenario.end))
        return Played(world.log, self.failures)

    async def _go(self, habit: Habit, until: datetime) -> None:
        """Time passes; the habit ends where the scenario says so."""
        if self.scenario.habit_until is not None and until >= (alone := _at(self.plan, self.scenario.habit_until)):
            await habit.run_to(alone)
            habit.stop()
        await habit.run_to(until)

    async def act(self, turn: Turn, reference: str) -> None:
        world = self.world
        words = turn.words.replace("{reference}", reference).replace("{code}", self.code)
        if turn.action == "restart":
            await world.store.close()
            world.restart(await open_store(self.url, world.protocol))
            return
        who = reference if turn.action.startswith("patient") else _ACTORS.get(turn.action.removesuffix("_taps"), "")
        if turn.action.endswith("_taps"):
            await world.taps(who, words)
        elif self.code and words == f"/start {self.code}":
            await world.opens_invite(who, self.code)
        elif turn.action == "patient_photo":
            await world.sends_photo(who, words)
        elif turn.action == "patient_blocks":
            await world.blocks(who)
        elif turn.action == "clinician_file":
            await world.sends_file(CLINICIAN, "plan.toml", words.encode())
        elif turn.action:
            await world.says(who, words)

    async def _check(self, number: int, turn: Turn, shown: list[Line]) -> None:
        chats = {"patient_sees": self.world.address(self.plan.patient.reference), "care_sees": CARE_CHAT,
                 "on_call_sees": ON_CALL_CHAT, "stranger_sees": "stranger"}
        for check, wanted in turn.checks.items():
            if check == "flags":
                await self._check_flags(number, wanted)
            elif check == "not_seen":
                for words in wanted:
                    if any(words.casefold() in line.text.casefold() for line in shown if line.who == "Coatwell"):
                        self._fail(number, turn, f"{words!r} was shown and must not be")
            else:
                lines = [line for line in shown if line.chat == chats[check] and line.who == "Coatwell"]
                for words in wanted:
                    if not any(words.casefold() in line.text.casefold() for line in lines):
                        seen = " | ".join(line.text.replace("\n", " ")[:90] for line in lines[:8]) or "nothing"
                        self._fail(number, turn, f"{check} {words!r}, but saw: {seen}")

    async def _check_flags(self, number: int, wanted: Iterable[str]) -> None:
        async with self.world.store.work() as work:
            found = sorted(f"{flag.urgency} {' '.join(flag.rules)}" for flag in await work.open_flags())
        if len(found) != len(list(wanted)) or not all(any(set(one.split()) <= set(flag.split()) for flag in found)
                                                      for one in wanted):
            self.failures.append(f"turn {number}: open flags {list(wanted)} expected, found {found}")

    def _fail(self, number: int, turn: Turn, what: str) -> None:
        self.failures.append(f"turn {number} at {turn.at}: {turn.action} {turn.words!r}: {what}")


def _at(plan: Plan, local: datetime) -> datetime:
    return instant(local.date(), local.time(), plan.patient.time_zone)


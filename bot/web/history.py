"""The record of an invented patient who did not begin today: the real agent plays it before the stage opens."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Callable
from datetime import datetime, timedelta

from bot.rehearsal.habit import Habit
from bot.rehearsal.play import Player
from bot.rehearsal.scenario import Scenario
from bot.rehearsal.world import NoSuchButton
from bot.web.recording import Recording
from bot.web.stage import CARE_TEAM, Stage
from scheduler.localtime import instant, local

log = logging.getLogger(__name__)
_HOP = timedelta(hours=6)       # the page gets its turn this often (of virtual time)


async def live(stage: Stage, history: Scenario) -> None:
    """Play `history` on the stage up to its end. The page stays alive meanwhile; stage.preparing says how far it is."""
    plan, world = stage.plans[0], stage.world
    reference = plan.patient.reference
    player = Player(history, world, plan, "memory:")
    async with stage.lock:
        for name, role in CARE_TEAM:
            await world.admit(name, role)
        await world.join(plan)
        habit = Habit(world, reference, history.habit)
        tell = _telling(stage, history)
        for turn in history.turns:
            await _pass(stage, habit, turn.at, tell)
            try:
                await player.act(turn, reference)
            except NoSuchButton as gone:    # a history is decoration: the trial opens without this turn
                log.warning("the history of %s, turn at %s: %s", reference, turn.at, gone)
        await _pass(stage, habit, history.end, tell)
        habit.stop()
        stage.recordings[reference] = Recording(world, plan, stage.now, history=history)
        await stage.settle()
        stage.preparing = ""
        for address in stage.chats:
            stage.read[address] = len(stage.chats[address])
    stage.announce()


def _telling(stage: Stage, history: Scenario) -> Callable[[datetime], None]:
    weeks = max(1, (history.end - history.start).days // 7)

    def tell(at: datetime) -> None:
        said = f"week {min(weeks, (at - history.start).days // 7 + 1)} of {weeks}"
        if said != stage.preparing:
            stage.preparing = said
            stage.announce()
    return tell


async def _pass(stage: Stage, habit: Habit, wall: datetime, tell: Callable[[datetime], None]) -> None:
    zone = stage.plans[0].patient.time_zone
    until = instant(wall.date(), wall.time(), zone)
    while stage.now < until:
        await habit.run_to(min(until, stage.now + _HOP))
        tell(local(stage.now, zone).replace(tzinfo=None))
        await asyncio.sleep(0)

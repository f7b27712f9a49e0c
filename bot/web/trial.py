"""The trial behind the page: its stages, who is told of a change, the real time that moves running clocks."""

from __future__ import annotations

import asyncio
import logging
from contextlib import suppress
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path

from bot.rehearsal.demo import DEMOS, demo_history, demo_plan
from bot.rehearsal.world import World
from bot.storage.opening import MEMORY, open_store
from bot.web.history import live
from bot.web.stage import Stage
from scheduler.localtime import instant
from scheduler.protocol import ClinicProtocol

log = logging.getLogger(__name__)
FIRST_PAGE = 3.0        # seconds in which nothing else is done, so that the first page comes quickly
BEAT = 0.5              # seconds between two looks at the running clocks
ABOUT = {"adult_slurry": "the first week", "teen_inhaler": "in a taper, before the season",
         "adult_maintenance": "half a year of record"}


@dataclass
class Trial:
    """All stages. `record`: where the trial is saved as it goes on, None when nowhere."""

    protocol: ClinicProtocol
    stages: list[Stage]
    record: Path | None = None
    closing: bool = False
    shown: asyncio.Event = field(default_factory=asyncio.Event)     # the page has been asked for once
    watchers: dict[asyncio.Event, Stage] = field(default_factory=dict)      # an open page -> the stage that it shows

    def __post_init__(self) -> None:
        self._saved = 0
        for stage in self.stages:
            stage.changed = partial(self.changed, stage)
            stage.announce = self.changed

    @property
    def references(self) -> list[str]:
        return [reference for stage in self.stages for reference in stage.references]

    def stage_of(self, reference: str) -> Stage:
        """The stage on which this patient is; KeyError when nobody is called that."""
        for stage in self.stages:
            if reference in stage.references:
                return stage
        raise KeyError(reference)

    def changed(self, stage: Stage | None = None) -> None:
        """Tell the open pages that show this stage, or all of them."""
        for watcher, shown in self.watchers.items():
            if stage is None or stage is shown:
                watcher.set()

    def close(self) -> None:
        """Let open pages go."""
        self.closing = True
        for stage in self.stages:
            stage.halt()
        self.changed()

    # --- in the background

    async def beat(self) -> None:
        """Real time moves the clocks that run, for ever."""
        loop = asyncio.get_running_loop()
        last = loop.time()
        while True:
            await asyncio.sleep(BEAT)
            now = loop.time()
            for stage in self.stages:
                if stage.running and not stage.preparing:
                    try:
                        await stage.pass_time(now - last)
                    except Exception as error:      # one clock that stops must not stop the page
                        log.exception("the clock of %s stopped", stage.references)
                        stage.trouble = f"The clock stopped: {error}"
                        stage.halt()
            last = now
            if any(one.acted > self._saved for stage in self.stages for one in stage.recordings.values()):
                self.save()         # a patient who answers as usual has acted

    async def prepare(self) -> None:
        """Give the patients who did not begin today their record, one after the other, once the first page is there."""
        with suppress(TimeoutError):
            await asyncio.wait_for(self.shown.wait(), FIRST_PAGE)
        for stage in self.stages:
            if stage.history is None or not stage.preparing:
                continue
            try:
                await live(stage, stage.history)
            except Exception as error:      # the other patients can be tried all the same
                log.exception("the record of %s could not be made", stage.references)
                stage.preparing = f"stopped ({type(error).__name__})"
                self.changed()

    def save(self) -> None:
        """Write the trial to `record`: the patient with whom something was done last."""
        if self.record is None:
            return
        found = [one for stage in self.stages for one in stage.recordings.values() if one.acted]
        if not found:
            return
        newest = max(found, key=lambda one: one.acted)
        self._saved, text = newest.acted, newest.toml()
        if not self.record.exists() or self.record.read_text(encoding="utf-8") != text:
            self.record.write_text(text, encoding="utf-8")


async def demo_stages(protocol: ClinicProtocol, first: Stage) -> list[Stage]:
    """The invented patients that ship: the one who begins (already made), and those with a history to be played."""
    stages = [first]
    for name in DEMOS[1:]:
        plan, history = demo_plan(name, protocol), demo_history(name)
        assert history is not None
        world = World.make(await open_store(MEMORY, protocol), protocol,
                           instant(history.start.date(), history.start.time(), plan.patient.time_zone))
        stages.append(Stage(world, [plan], history=history, preparing="waiting",
                            about={plan.patient.reference: ABOUT[name]}))
    first.about = {plan.patient.reference: ABOUT[DEMOS[0]] for plan in first.plans}
    return stages



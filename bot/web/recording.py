"""The trial as a scenario file that `coatwell rehearse` plays again: what was done, when, which flags were open."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from itertools import count
from typing import Any

import tomlkit

from bot.rehearsal.play import CLINICIAN, NURSE, ON_CALL
from bot.rehearsal.scenario import Scenario
from bot.rehearsal.world import CARE_CHAT, Line, NoSuchButton, World
from scheduler.localtime import local
from scheduler.plan import Plan

_COUNT = count(1)
_ROLES = {NURSE: "nurse", CLINICIAN: "clinician", ON_CALL: "on_call"}


@dataclass
class Recorded:
    """One turn. flags: those open before the next turn, as a scenario checks them; None when nobody looked."""

    at: datetime
    action: str
    words: str
    flags: list[str] | None = None


@dataclass
class Recording:
    """What happened to one patient of a world since `start`. history: what was played before the page opened."""

    world: World
    plan: Plan
    start: datetime
    turns: list[Recorded] = field(default_factory=list)
    history: Scenario | None = None
    acted: int = 0                  # grows with every act in the trial: who has the largest was acted on last

    def told(self, line: Line, content: bytes = b"") -> None:
        """Somebody did something (it is not handled yet): one more turn, if it concerns this patient."""
        reference = self.plan.patient.reference
        actor = "patient" if line.chat == self.world.address(reference) else _ROLES.get(line.who, "")
        others = self.world.zones.keys() - {reference}
        if not actor or any(other in line.tapped or line.chat == self.world.address(other) for other in others):
            return
        action, words = actor, line.text
        if line.tapped:
            action, words = f"{actor}_taps", self._button(line)
        elif line.picture:
            action, words = f"{actor}_photo", line.text.removeprefix("[a picture]").strip()
        elif line.text == "(opens the invite)":
            words = "/start {code}"
        elif line.text.startswith("(") and actor != "patient":
            return
        elif line.text.startswith("[file ") and content:
            action, words = f"{actor}_file", content.decode("utf-8", "replace")
        self.acted = next(_COUNT)
        self.turns.append(Recorded(line.at, action, words))

    async def after(self) -> None:
        """Everything is handled: keep which flags are open, for the newest turn."""
        if self.turns:
            async with self.world.store.work() as work:
                flags = await work.open_flags()
            self.turns[-1].flags = sorted(f"{flag.urgency} {' '.join(flag.rules)}" for flag in flags)

    def _button(self, line: Line) -> str:
        """The label where the newest button with it is the tapped one (it reads better), else the button's data.

        In a chat of one member only the data: the rehearsal taps what stands in the care team's chat.
        """
        label = line.text[1:-1]
        if line.chat not in (CARE_CHAT, self.world.address(self.plan.patient.reference)):
            return line.tapped
        try:
            return label if self.world.button(line.chat, label)[2] == line.tapped else line.tapped
        except NoSuchButton:
            return line.tapped

    def toml(self, title: str = "") -> str:
        """The scenario file."""
        now = self.world.clock.now()
        history = self.history
        name = self.plan.patient.call_me
        doc = tomlkit.document()
        doc.add(tomlkit.comment("Recorded in a trial with an invented patient. 'flags' are those that were open then:"))
        doc.add(tomlkit.comment("change them to what should have been, and it is a bug report that can be replayed."))
        doc["title"] = title or f"Trial with {name} on {self._wall(now):%d %B %Y}"
        doc["start"] = history.start if history else self._wall(self.start)
        doc["end"] = self._wall(now)
        doc["joins"] = history is not None
        if history is not None:
            doc["habit"] = dict(history.habit)
            doc["habit_until"] = history.end
        doc["plan_text"] = tomlkit.string(f"\n{self.plan.text}", multiline=True)
        rows = tomlkit.aot()
        for row in self._rows(history):
            table = tomlkit.table()
            table.update(row)
            rows.append(table)
        if len(rows):
            doc["turn"] = rows
        return tomlkit.dumps(doc)

    def _rows(self, history: Scenario | None) -> list[dict[str, Any]]:
        found = [_row(turn.at, turn.action, turn.words, turn.checks) for turn in (history.turns if history else ())]
        standing: list[str] | None = None
        for turn in self.turns:
            checks = {} if turn.flags is None or turn.flags == standing else {"flags": tuple(turn.flags)}
            standing = turn.flags if turn.flags is not None else standing
            found.append(_row(self._wall(turn.at), turn.action, turn.words, checks))
        return found

    def _wall(self, at: datetime) -> datetime:
        return local(at, self.plan.patient.time_zone).replace(tzinfo=None, microsecond=0)


def _row(at: datetime, action: str, words: str, checks: Mapping[str, tuple[str, ...]]) -> dict[str, Any]:
    row: dict[str, Any] = {"at": at}
    if action:
        row[action] = tomlkit.string(words, multiline=True) if "\n" in words else words
    return row | {name: list(values) for name, values in checks.items()}



"""The trial in a terminal: the patient's chat and the care team's chat side by side in one stream, on a virtual clock.

Buttons shown last have marks: the patient's have numbers, the care team's letters; words are sent as
they are. The input may come from a pipe: then it is echoed, so that the output reads like the session.
"""

from __future__ import annotations

import string
import sys
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from bot.rehearsal.world import CARE_CHAT, ON_CALL_CHAT, Line, NoSuchButton, World
from scheduler.localtime import instant, local

NURSE = "Nurse Adeyemi"
CLINICIAN = "Dr Lindqvist"
FAR = timedelta(days=400)
_NUMBERS = [str(number) for number in range(1, 31)]
_LETTERS = list(string.ascii_lowercase)
_SPANS = {"min": timedelta(minutes=1), "h": timedelta(hours=1), "d": timedelta(days=1)}
HELP = """  words          the patient writes them            1, 2, ...   the patient taps that button
  care WORDS     the nurse writes in the care chat   a, b, ...   the nurse taps that button
  doctor WORDS   the clinician writes there          doctor a    the clinician taps that button
  next (or an empty line)   the next thing that happens
  wait 30 min | 2 h | 3 d   time passes               at 07:50    go on to that time
  who            switch the patient (with several)   quit        end
"""


@dataclass
class Terminal:
    """One trial in one terminal. `read` gives a line, "" at the end of input; `console` shows."""

    world: World
    references: list[str]
    console: Console = field(default_factory=Console)
    read: Callable[[], str] = field(default=sys.stdin.readline)
    echo: bool = False

    def __post_init__(self) -> None:
        self.who = self.references[0]
        # the buttons shown last in each chat, by their mark; the chat shown last comes last
        self._shown: dict[str, dict[str, str]] = {}
        self.world.chat.listeners.append(self.show)

    @property
    def zone(self) -> str:
        return self.world.zones[self.who]

    async def run(self) -> None:
        """Read and act until 'quit' or the end of input."""
        self.console.print(HELP, style="dim", highlight=False)
        while True:
            self._prompt()
            line = self.read()
            if not line:
                return
            if self.echo:
                self.console.print(line.rstrip("\n"), highlight=False, markup=False)
            if line.strip() == "quit":
                return
            await self._act(line.strip())

    async def _act(self, line: str) -> None:
        word, _, rest = line.partition(" ")
        commands = {"next": self._next, "": self._next, "n": self._next}
        if word in commands and not rest:
            await commands[word]()
        elif word == "help":
            self.console.print(HELP, style="dim", highlight=False)
        elif word == "who" and not rest:
            self.who = self.references[(self.references.index(self.who) + 1) % len(self.references)]
            self.console.print(f"now {self.world.people[self.who].name} ({self.who})", style="dim")
        elif word in ("wait", "at") and (until := self._until(word, rest)) is not None:
            await self._run_to(until)
        elif word == "care" and rest:
            await self.world.says(NURSE, rest)
        elif word == "doctor" and rest:
            if not await self._tapped(CLINICIAN, rest, self._care_chats(CLINICIAN)):
                await self.world.says(CLINICIAN, rest)
        elif not (await self._tapped(self.who, line, (self.world.address(self.who),))
                  or await self._tapped(NURSE, line, self._care_chats(NURSE))):
            await self.world.says(self.who, line)

    def _care_chats(self, who: str) -> tuple[str, ...]:
        return CARE_CHAT, ON_CALL_CHAT, self.world.address(who)

    async def _tapped(self, who: str, mark: str, chats: Iterable[str]) -> bool:
        """Tap the button with this mark in the one of these chats that was shown last; whether it is a mark there.
        A button that has gone since says so: nothing is sent in its place."""
        address = next((one for one in reversed(self._shown) if one in chats), "")
        data = self._shown.get(address, {}).get(mark)
        if data is None:
            return False
        try:
            shown, _, _ = self.world.button(address, data)
            await self.world.taps_at(who, address, shown.name, data)
        except NoSuchButton:
            self.console.print(f"Button {mark} has gone: it was answered, or its message has changed. Nothing was "
                               "tapped.", style="dim", highlight=False)
        return True

    async def _run_to(self, until: datetime) -> None:
        if until > self.world.clock.now() + FAR:
            self.console.print(f"That is too far: at most {FAR.days} days at a time.", style="dim", highlight=False)
        else:
            await self.world.run_to(until)

    async def _next(self) -> None:
        if not await self.world.run_to_next(self.world.clock.now() + FAR):
            self.console.print("Nothing more happens unless somebody does something.", style="dim")

    def _until(self, word: str, rest: str) -> datetime | None:
        now = self.world.clock.now()
        if word == "at":
            try:
                wanted = datetime.strptime(rest, "%H:%M").time()  # noqa: DTZ007 - a wall-clock time, no date
            except ValueError:
                return None
            today = local(now, self.zone).date()
            found = instant(today, wanted, self.zone)
            return found if found > now else instant(today + timedelta(days=1), wanted, self.zone)
        number, _, unit = rest.partition(" ")
        if not number.isdecimal() or unit not in _SPANS:
            return None
        return now + min(int(number[:9]) * _SPANS[unit], 2 * FAR)

    # --- showing

    def show(self, line: Line) -> None:
        """One line of the log: the patient's phone on the left, the care team's indented."""
        is_care = line.chat in (CARE_CHAT, ON_CALL_CHAT) or line.chat.startswith("care-")
        clock = f"{local(line.at, self.zone):%a %d %b %H:%M}"
        place = "on call" if line.chat == ON_CALL_CHAT else "care team" if is_care else (
            f"{line.chat.removeprefix('patient-')} phone")
        head = Text(f"{clock}  {place}  {line.who}{' (edited)' if line.edits else ''}", style="dim")
        body = Text(line.text + ("  [picture]" if line.picture and line.who == "Coatwell" else ""))
        if line.who != "Coatwell":
            body.stylize("bold")
        indent = 24 if is_care else 0
        self.console.print(Padding(head, (1, 0, 0, indent)))
        self.console.print(Padding(body, (0, 0, 0, indent + 2)), highlight=False)
        marks = _LETTERS if is_care else _NUMBERS
        if line.data:
            flat = [label for row in line.buttons for label in row]
            self._shown.pop(line.chat, None)      # so that this chat comes last
            self._shown[line.chat] = dict(zip(marks, line.data, strict=False))
            marked = "   ".join(f"{mark} {label}" for mark, label in zip(marks, flat, strict=False))
            self.console.print(Padding(Text(marked, style="bold cyan"), (0, 0, 0, indent + 2)), highlight=False)

    def _prompt(self) -> None:
        now = local(self.world.clock.now(), self.zone)
        self.console.print(f"\n{now:%a %d %b %Y %H:%M} · {self.world.people[self.who].name} ({self.who}) > ", end="",
                           highlight=False, markup=False)


"""What a patient does unasked, so that a scenario of weeks needs only the turns that matter."""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from bot.chat.memory import Shown
from bot.rehearsal.world import World

ANSWERS_AFTER = timedelta(minutes=4)
# A good week, item by item; whatever is not listed is answered with the first choice offered.
_GOOD = ("c:swallow:well", "c:pain:no", "c:mouth:clean", "c:eating:none", "c:new:none", "c:body:none", "c:routine:all",
         "c:else:no")


@dataclass
class Habit:
    """Answers what the habit covers, a few minutes after it is shown, if it still has its buttons then."""

    world: World
    reference: str
    habit: Mapping[str, str]
    _waiting: deque[tuple[datetime, Shown]] = field(default_factory=deque)

    def __post_init__(self) -> None:
        self.world.chat.watchers.append(self._shown)

    def _shown(self, address: str, shown: Shown) -> None:
        if address == self.world.address(self.reference) and self._choice(shown):
            self._waiting.append((self.world.clock.now() + ANSWERS_AFTER, shown))

    async def run_to(self, until: datetime) -> None:
        """Time passes up to `until`, each thing at its own instant."""
        while True:
            due = [await self.world.next_thing(), self.answers_at()]
            coming = [instant for instant in due if instant is not None and instant <= until]
            if not coming:
                break
            await self.world.run_to(max(min(coming), self.world.clock.now()))
            while self._waiting and self._waiting[0][0] <= self.world.clock.now():
                _, shown = self._waiting.popleft()
                if (data := self._choice(shown)) is not None:
                    await self.world.taps(self.reference, data)
        await self.world.run_to(until)

    def answers_at(self) -> datetime | None:
        """When the patient answers next, None while nothing waits."""
        return self._waiting[0][0] if self._waiting else None

    def stop(self) -> None:
        """From now on the patient does nothing unasked; what waits for an answer stays unanswered."""
        self._waiting.clear()
        if self._shown in self.world.chat.watchers:
            self.world.chat.watchers.remove(self._shown)

    def _choice(self, shown: Shown) -> str | None:
        data = [button.data for row in shown.outgoing.buttons for button in row]
        if self.habit.get("doses") == "taken" and (now := _ending(data, "d:", ":now")):
            return now
        if self.habit.get("rinses") == "done" and (done := _ending(data, "r:", ":done")):
            return done
        if self.habit.get("steps") == "confirm" and (ok := _ending(data, "s:", ":ok")):
            return ok
        if self.habit.get("check_ins") == "good" and any(one.startswith("c:") for one in data):
            return next((one for one in data if one in _GOOD), next(one for one in data if one.startswith("c:")))
        return None


def _ending(data: list[str], prefix: str, suffix: str) -> str | None:
    return next((one for one in data if one.startswith(prefix) and one.endswith(suffix)), None)

"""A clinic in memory on a virtual clock: the real agent, Maya at home, two nurses and a clinician in one chat."""

from __future__ import annotations

from collections.abc import AsyncIterator, Awaitable, Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.case import Case
from bot.chat.types import Incoming, IncomingKind
from bot.rehearsal.world import CARE_CHAT, World
from bot.storage.opening import MEMORY, open_store
from scheduler.planfile import load_plan
from scheduler.protocol import ClinicProtocol, load_protocol

PLANS = Path(__file__).parents[3] / "fixtures" / "plans" / "ok"
START = datetime(2026, 3, 30, 13, 0, tzinfo=UTC)        # Monday of week 5, 07:00 in Denver
ANN, BEN, DOCTOR = "Ann", "Ben", "Dr Lindqvist"


@pytest.fixture(scope="session")
def protocol() -> ClinicProtocol:
    return load_protocol()


class Clinic(World):
    """A World with short ways to look at it."""

    async def case(self, reference: str = "KT-014") -> Case:
        async with self.store.work() as work:
            found = await work.case(reference)
        assert found is not None
        return found

    def care_shows(self) -> list[str]:
        return [shown.text for shown in self.chat.shown.get(CARE_CHAT, [])]

    def last_care(self) -> str:
        return self.care_shows()[-1]

    def maya_sees(self) -> list[str]:
        return [shown.text for shown in self.chat.shown.get(self.address("KT-014"), [])]

    async def taps_what_is_gone(self, who: str, data: str) -> None:
        """A tap whose button no message shows any more, or that somebody made up."""
        self.forged = getattr(self, "forged", 0) + 1
        tap = Incoming(f"forged-{self.forged}", CARE_CHAT, self.address(who), self.clock.now(), IncomingKind.TAP,
                       data=data, is_group=True)
        await self.agent.store_updates([tap], self.clock.now())
        await self.agent.pass_(self.clock.now())

    async def wait(self, **span: float) -> None:
        await self.run_to(self.clock.now() + timedelta(**span))

    async def acts(self) -> list[tuple[str, str]]:
        async with self.store.work() as work:
            return [(act.who, act.what) for act in reversed(await work.acts())]


@pytest.fixture
async def clinic(request: pytest.FixtureRequest, tmp_path: Path,
                 protocol: ClinicProtocol) -> AsyncIterator[Callable[[], Awaitable[Clinic]]]:
    """In memory, or on the store that a test asks for by an indirect parameter."""
    kind = getattr(request, "param", "memory")
    url = MEMORY if kind == "memory" else f"sqlite:///{tmp_path / 'coatwell.db'}"
    store = await open_store(url, protocol)

    async def make() -> Clinic:
        world = Clinic.make(store, protocol, START)
        assert isinstance(world, Clinic)
        await world.admit(ANN, "nurse")
        await world.admit(BEN, "nurse")
        await world.admit(DOCTOR, "clinician")
        await world.join(load_plan(PLANS / "kt-014.toml", protocol))
        return world

    yield make
    await store.close()

"""A stage with the invented adult, before anybody has done anything; the example protocol."""

from __future__ import annotations

from collections.abc import AsyncIterator

import pytest

from bot.rehearsal.beginning import start_of
from bot.rehearsal.demo import demo_plan
from bot.rehearsal.world import World
from bot.storage.opening import open_store
from bot.web.stage import Stage
from scheduler.protocol import ClinicProtocol, load_protocol


@pytest.fixture(scope="session")
def protocol() -> ClinicProtocol:
    return load_protocol()


@pytest.fixture
async def stage(protocol: ClinicProtocol) -> AsyncIterator[Stage]:
    """Maya has been invited and is asked to agree; the care team is there."""
    plan = demo_plan("adult_slurry", protocol)
    store = await open_store("memory:", protocol)
    found = Stage(World.make(store, protocol, start_of("", plan)), [plan])
    await found.open()
    yield found
    await store.close()


@pytest.fixture
async def first_dose(stage: Stage) -> Stage:
    """She has agreed, and the first dose is asked for."""
    address = stage.world.address("KT-014")
    await stage.taps("KT-014", address, stage.world.last("KT-014").name, "k:yes")
    await stage.to_next()
    return stage

"""A patient who has lived three weeks in a database file, and everything then held on them."""

from __future__ import annotations

import asyncio
import shutil
from pathlib import Path

import pytest
from lived import Lived, live

from bot.export.held import Held, held
from bot.storage.opening import open_store
from scheduler.protocol import ClinicProtocol, load_protocol


@pytest.fixture(scope="session")
def protocol() -> ClinicProtocol:
    return load_protocol()


@pytest.fixture(scope="session")
def lived_once(tmp_path_factory: pytest.TempPathFactory, protocol: ClinicProtocol) -> Lived:
    """Doses, a check-in with thrush, a flag; then results, a release, a corrected dose and hard words on top."""
    file = tmp_path_factory.mktemp("lived") / "coatwell.db"
    reference = asyncio.run(live(f"sqlite:///{file}", protocol))
    return Lived(file, reference)


@pytest.fixture
def lived(lived_once: Lived, tmp_path: Path) -> Lived:
    """A copy of the file, for this test alone."""
    copy = tmp_path / "coatwell.db"
    for one in lived_once.file.parent.glob("coatwell.db*"):
        shutil.copy(one, tmp_path / one.name)
    return Lived(copy, lived_once.reference)


@pytest.fixture(scope="session")
def found(lived_once: Lived, protocol: ClinicProtocol) -> Held:
    async def read() -> Held:
        store = await open_store(lived_once.url, protocol)
        async with store.work() as work:
            whole = await held(work, lived_once.reference)
        await store.close()
        assert whole is not None
        return whole

    return asyncio.run(read())

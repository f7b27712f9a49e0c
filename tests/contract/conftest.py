"""Fixtures of the command line's contract: folders in which the program is run."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from shell import INHALER, KT014, Shell


@pytest.fixture
def coatwell(tmp_path: Path) -> Shell:
    return Shell(tmp_path)


@pytest.fixture(scope="session")
def enrolled_once(tmp_path_factory: pytest.TempPathFactory) -> Shell:
    """KT-014 and FL-207 are enrolled here."""
    shell = Shell(tmp_path_factory.mktemp("enrolled"))
    for plan in (KT014, INHALER):
        assert shell("enrol", plan).status == 0
    return shell


@pytest.fixture
def enrolled(coatwell: Shell, enrolled_once: Shell) -> Shell:
    """A folder of one's own with a copy of that database."""
    for file in enrolled_once.folder.glob("coatwell.db*"):
        shutil.copy(file, coatwell.folder / file.name)
    return coatwell


@pytest.fixture(scope="session")
def once(tmp_path_factory: pytest.TempPathFactory) -> Shell:
    """For commands that keep nothing."""
    return Shell(tmp_path_factory.mktemp("once"))

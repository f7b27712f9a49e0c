"""Runs the program as a process, in a folder of its own with no settings but those given."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
PLANS = ROOT / "fixtures" / "plans"
SCENARIOS = ROOT / "fixtures" / "scenarios"
KT014 = str(PLANS / "ok" / "kt-014.toml")
INHALER = str(PLANS / "ok" / "fl-207.toml")
INVITE = re.compile(r"^invite (\S+) ([0-9A-Z-]+)$", re.MULTILINE)     # the line that enrol and try print


@dataclass(frozen=True)
class Ran:
    """A process that has ended."""

    status: int
    out: str
    err: str

    @property
    def document(self) -> Any:
        """Standard output as exactly one JSON document."""
        return json.loads(self.out)

    @property
    def lines(self) -> list[Any]:
        """Standard output as one JSON document a line, and nothing else."""
        return [json.loads(line) for line in self.out.splitlines()]


@dataclass(frozen=True)
class Shell:
    """Runs `coatwell` in an empty folder, with no settings but those given."""

    folder: Path

    def __call__(self, *words: str, stdin: str = "", **settings: str) -> Ran:
        done = subprocess.run([sys.executable, "-W", "error", "-m", "bot.cli", *words], cwd=self.folder, input=stdin,
                              text=True, encoding="utf-8", capture_output=True, timeout=120, check=False,
                              env=environment(self.folder, settings))
        assert "Traceback" not in done.stderr, done.stderr
        return Ran(done.returncode, done.stdout, done.stderr)

    @property
    def database(self) -> Path:
        return self.folder / "coatwell.db"


def environment(folder: Path, settings: dict[str, str]) -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if not name.startswith("COATWELL_")}
    named = {f"COATWELL_{name.upper()}": value for name, value in settings.items()}
    ours = {"PYTHONPATH": str(ROOT), "NO_PROXY": "127.0.0.1", "COLUMNS": "160", "MPLCONFIGDIR": str(folder)}
    return kept | ours | named

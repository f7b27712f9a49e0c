"""Commands run in process, for tests: exit status, standard output, standard error."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

PLANS = Path(__file__).parents[2] / "fixtures" / "plans"
KT = str(PLANS / "ok" / "kt-014.toml")
FL = str(PLANS / "ok" / "fl-207.toml")

Run = Callable[..., tuple[int, str, str]]


def document(run: Run, *words: str) -> Any:
    """The JSON document that a command prints and nothing else."""
    status, out, err = run(*words)
    assert (status, err) == (0, "")
    return json.loads(out)

"""What was computed when a plan was signed, kept with its text: nothing computed later changes a signed dose.

A taper (`to`) and the dose times are computed from the clinic protocol. A later protocol, or a later version of
this program, may compute them otherwise; a signed plan must not follow. So the signed text ends with one comment
line that holds the steps and times as they were shown, with a digest of the text above it. Reading honours the line
only while the digest fits: a changed text is computed anew, and sealed again when it is signed.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from datetime import time
from hashlib import sha256
from typing import Any

from scheduler.plan import Plan

MARK = "#: as signed "


@dataclass(frozen=True, slots=True)
class Seal:
    """Dose times, and for each phase its steps as (days or None, units of each dose)."""

    dose_times: tuple[time, ...]
    phases: tuple[tuple[tuple[int | None, tuple[int, ...]], ...], ...]


def sealed(plan: Plan) -> Plan:
    """The same plan, its text ending with the seal of what it computes to."""
    body = without_seal(plan.text)
    found = {
        "dose_times": [f"{at:%H:%M}" for at in plan.dose_times],
        "phases": [[[step.days, [dose.units for dose in step.doses]] for step in phase.steps] for phase in plan.phases],
    }
    return replace(plan, text=f"{body}{MARK}{_digest(body)} {json.dumps(found, separators=(',', ':'))}\n")


def without_seal(text: str) -> str:
    """The text as the clinician wrote it, ending with a line's end."""
    lines = [line for line in text.splitlines(keepends=True) if not line.startswith(MARK)]
    body = "".join(lines)
    return body if body.endswith("\n") or not body else f"{body}\n"


def read_seal(text: str) -> Seal | None:
    """The seal of a text, or None when there is none, it is damaged, or the text was changed after it."""
    line = next((line for line in reversed(text.splitlines()) if line.startswith(MARK)), "")
    digest, _, found = line.removeprefix(MARK).partition(" ")
    if not line or digest != _digest(without_seal(text)):
        return None
    try:
        return _parsed(json.loads(found))
    except (ValueError, TypeError, KeyError, RecursionError):
        return None


def _parsed(found: Any) -> Seal:
    phases = tuple(
        tuple((None if days is None else int(days), tuple(int(count) for count in units)) for days, units in steps)
        for steps in found["phases"]
    )
    return Seal(tuple(time.fromisoformat(at) for at in found["dose_times"]), phases)


def _digest(body: str) -> str:
    return sha256(body.encode()).hexdigest()[:32]

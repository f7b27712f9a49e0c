"""Scenario files: a plan, habits, and timed turns with what each must lead to. Readable by a nurse.

    title = "Thrush signs in week 5"
    plan = "../plans/ok/kt-014.toml"     # or plan_text: the whole plan, so that a report is one file
    start = 2026-03-29T07:00:00          # local time of the patient
    end = 2026-03-30T12:00:00
    protocol = { "window.no_food" = 60 } # values of the clinic protocol that differ, if any
    habit = { doses = "taken", check_ins = "good", steps = "confirm" }   # what the patient does unasked; or "silent"
    habit_until = 2026-04-01T07:00:00    # from then on nothing unasked (without it: to the end)

    [[turn]]
    at = 2026-03-29T07:50:00
    patient = "white patches on my tongue"     # or patient_taps, nurse, nurse_taps, clinician, clinician_taps,
                                               # on_call_taps, stranger, patient_photo, patient_blocks; restart = true;
                                               # clinician_file: a plan file, its text, sent to the care team's chat
    patient_sees = ["reads"]                   # each must stand in a message shown from this turn to the next one
    care_sees = ["thrush"]
    not_seen = ["..."]                         # in neither chat
    flags = ["urgent thrush"]                  # open flags afterwards, "urgency finding", all of them

A scenario that fails says which turn, what was expected, and what was shown.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from bot.given import EARLIEST, LATEST
from scheduler.errors import Problem, WrongInput

ACTIONS = ("patient", "patient_taps", "patient_photo", "patient_blocks",
           "nurse", "nurse_taps", "clinician", "clinician_taps",
           "clinician_file", "on_call", "on_call_taps", "stranger", "restart")
CHECKS = ("patient_sees", "care_sees", "on_call_sees", "stranger_sees", "not_seen", "flags")
LONGEST = timedelta(days=5 * 366)
_TIMES = ("start", "end", "habit_until")
_KINDS: dict[str, tuple[type, str]] = {
    "title": (str, "a text"), "note": (str, "a text"), "plan": (str, "the path of a plan file"),
    "plan_text": (str, "the text of a plan"), "habit": (dict, "a table"), "protocol": (dict, "a table"),
    "joins": (bool, "true or false"), **dict.fromkeys(_TIMES, (object, "a local date and time"))}
_HABITS = {"doses": ("taken", "silent"), "check_ins": ("good", "silent"), "steps": ("confirm", "silent"),
           "rinses": ("done", "silent")}


@dataclass(frozen=True, slots=True)
class Turn:
    """At `at` (naive, the patient's wall clock) somebody does something; then the checks hold until the next turn."""

    at: datetime
    action: str
    words: str
    checks: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Scenario:
    """A scenario as read; `plan` is the path of the plan file, `start` and `end` naive local times.

    plan_text: the plan itself, when the scenario carries it; then `plan` is the scenario's own path.
    """

    title: str
    plan: Path
    start: datetime
    end: datetime
    turns: tuple[Turn, ...]
    habit: Mapping[str, str] = field(default_factory=dict)
    protocol: Mapping[str, Any] = field(default_factory=dict)
    joins: bool = True          # False: the scenario plays the enrolment itself
    plan_text: str = ""
    habit_until: datetime | None = None
    care: tuple[tuple[str, str], ...] = (("Nurse Adeyemi", "nurse"), ("Dr Lindqvist", "clinician"))

    @property
    def restarts(self) -> bool:
        return any(turn.action == "restart" for turn in self.turns)


def load_scenario(path: Path) -> Scenario:
    """Read and check a scenario. Raises WrongInput with every problem."""
    try:
        tree = tomllib.loads(path.read_text(encoding="utf-8"))
    except UnicodeDecodeError as error:
        why = f"is not a text in UTF-8 (byte {error.start}); name a scenario file"
        raise WrongInput(str(path), (Problem("", why),)) from error
    except (OSError, ValueError, RecursionError) as error:
        raise WrongInput(str(path), (Problem("", f"is not a TOML file that can be read: {error}"),)) from error
    problems = [Problem(key, "is not known here") for key in tree.keys() - {*_KINDS, "turn"}]
    problems += [Problem(key, "is missing") for key in ("title", "start", "end") if key not in tree]
    problems += [Problem(key, f"must be {named}") for key, (kind, named) in _KINDS.items()
                 if key in tree and not isinstance(tree[key], kind)]
    if ("plan" in tree) == ("plan_text" in tree):
        problems.append(Problem("plan", "is needed: the path of a plan file, or plan_text with the plan itself"))
    if not problems:
        problems += _times(tree) + _habit(tree.get("habit", {}))
    rows = tree.get("turn", [])
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        problems.append(Problem("turn", "must be tables: [[turn]]"))
        rows = []
    turns = [_turn(number, row, problems) for number, row in enumerate(rows, 1)]
    _in_order([turn for turn in turns if turn], tree, problems)
    if problems:
        raise WrongInput(str(path), tuple(problems))
    plan = path.parent / tree["plan"] if "plan" in tree else path
    return Scenario(tree["title"], plan, tree["start"], tree["end"],
                    tuple(turn for turn in turns if turn), tree.get("habit", {}), tree.get("protocol", {}),
                    tree.get("joins", True), tree.get("plan_text", ""), tree.get("habit_until"))


def _times(tree: Mapping[str, Any]) -> list[Problem]:
    """Local times, the end after the start, both on a clock that can be set."""
    wrong = [Problem(key, "must be a local date and time like 2026-03-29T07:00:00") for key in _TIMES
             if key in tree and not _is_local(tree[key])]
    if wrong:
        return wrong
    start, end = tree["start"], tree["end"]
    if not EARLIEST <= start.year <= LATEST:
        return [Problem("start", f"must be in the years {EARLIEST} to {LATEST}")]
    if end < start:                   # a trial recorded without a step of the clock begins and ends at one instant
        return [Problem("end", f"must not be before the start ({start})")]
    return [Problem("end", f"must be within {LONGEST.days} days of the start")] if end - start > LONGEST else []


def _is_local(value: object) -> bool:
    return isinstance(value, datetime) and value.tzinfo is None


def _habit(habit: Mapping[str, Any]) -> list[Problem]:
    return [Problem(f"habit.{name}", f"must be one of {', '.join(_HABITS[name])}" if name in _HABITS else
                    f"is not known here; known are {', '.join(_HABITS)}")
            for name, value in habit.items() if value not in _HABITS.get(name, ())]


def _in_order(turns: Sequence[Turn], tree: Mapping[str, Any], problems: list[Problem]) -> None:
    """Each turn at or after the one before, within start and end; what comes out of order would be played late."""
    start, end = tree.get("start"), tree.get("end")
    if problems or not isinstance(start, datetime) or not isinstance(end, datetime):
        return
    for number, turn in enumerate(turns, 1):
        if not start <= turn.at <= end:
            problems.append(Problem(f"turn {number}", f"at {turn.at} is not between start ({start}) and end ({end})"))
        start = max(start, turn.at)


def _turn(number: int, row: Mapping[str, Any], problems: list[Problem]) -> Turn | None:
    where = f"turn {number}"
    found = [action for action in ACTIONS if action in row]
    problems.extend(Problem(where, f"{key!r} is not known") for key in row.keys() - {"at", *ACTIONS, *CHECKS})
    if len(found) > 1:
        problems.append(Problem(where, f"one thing a turn, not {found}"))
    if not _is_local(row.get("at")):
        problems.append(Problem(where, "needs 'at', a local date and time"))
        return None
    action = found[0] if found else ""
    words = row.get(action, "") if action else ""
    return Turn(row["at"], action, str(words), {key: _listed(row[key]) for key in CHECKS if key in row})


def _listed(value: Any) -> tuple[str, ...]:
    return (value,) if isinstance(value, str) else tuple(str(item) for item in value)

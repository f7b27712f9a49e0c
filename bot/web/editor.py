"""The plan editor of a trial: fields of the plan in force, changed and read again as the plan file they make.

Nothing is put in force here: the changed file goes to the care team's chat, where a clinician signs it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from typing import Any

import tomlkit
from tomlkit.items import AoT

from bot.care.plancompare import differences, first_day_without
from bot.case import Case
from bot.web.strip import Strip, strip
from scheduler.amounts import plain
from scheduler.cautions import cautions
from scheduler.errors import Problem, WrongInput
from scheduler.medicine import VEHICLES
from scheduler.plan import Plan
from scheduler.planfile import read_plan
from scheduler.protocol import ClinicProtocol
from scheduler.recipe import Preparation, preparation

_PART = re.compile(r"([a-z_]+)(?:\[([0-9]+)\])?")
_PHASE_KEYS = (("dose", "dose", 'such as "1 mg"'), ("to", "tapers to", 'such as "0.5 mg"'),
               ("times_per_day", "times a day", "a whole number"),
               ("lasts", "lasts", 'such as "8 weeks"; empty: no end'))
_STEP_KEYS = (("lasts", "lasts", ""), ("dose", "dose", ""), ("morning", "morning", ""), ("evening", "evening", ""),
              ("times_per_day", "times a day", ""))
_SEASON_KEYS = (("dose", "dose", ""), ("from", "from", "month-day"), ("until", "until", "month-day"),
                ("lead", "lead", 'such as "3 weeks"'))


@dataclass
class Field:
    """One field of the editor. path: as the plan file names it. choices: a closed list."""

    path: str
    label: str
    value: str
    hint: str = ""
    choices: tuple[str, ...] = ()
    problems: list[str] = field(default_factory=list)

    @property
    def id(self) -> str:
        return "plan-" + re.sub(r"[^a-z0-9]+", "-", self.path)


@dataclass(frozen=True)
class Group:
    """Fields that belong together: the medicine, one phase, one season."""

    name: str
    fields: tuple[Field, ...]


@dataclass(frozen=True)
class Preview:
    """What the changed plan would be. problems: those that belong to no field. Without a plan: only problems."""

    groups: tuple[Group, ...]
    problems: tuple[Problem, ...]
    text: str
    changes: tuple[str, ...] = ()
    strip: Strip | None = None
    recipe: str = ""
    times: str = ""
    lasts_until: str = ""
    cautions: tuple[tuple[str, str], ...] = ()

    @property
    def is_good(self) -> bool:
        return self.strip is not None


def groups_of(plan: Plan) -> tuple[Group, ...]:
    """The fields of the plan as it is in force."""
    doc = tomlkit.parse(plan.text)
    medicine = doc["medicine"]
    fields = []
    if plan.medicine.form == "ampoule":
        fields.append(Field("medicine.vehicle", "vehicle", str(medicine.get("vehicle", "")), choices=tuple(VEHICLES)))
    times = ", ".join(f"{at:%H:%M}" for at in plan.dose_times) if "dose_times" in medicine else ""
    placed = ", ".join(f"{at:%H:%M}" for at in plan.dose_times)
    fields.append(Field("medicine.dose_times", "dose times", times, f"empty: by meals ({placed})"))
    fields.append(Field("medicine.packs_on_hand", "packs on hand", str(medicine.get("packs_on_hand", ""))))
    found = [Group("medicine", tuple(fields))]
    for number, phase in enumerate(doc.get("phase", []), 1):
        found.append(Group(f"phase {number}: {phase.get('name', '')}", tuple(_phase_fields(phase, f"phase[{number}]"))))
    for number, season in enumerate(doc.get("season", []), 1):
        found.append(Group(f"season {number}" if number > 1 else "season",
                           tuple(_fields(season, f"season[{number}]", _SEASON_KEYS, optional=True))))
    return tuple(found)


def _phase_fields(phase: Mapping[str, Any], path: str) -> list[Field]:
    found = _fields(phase, path, _PHASE_KEYS)
    if "lasts" not in phase and "step" not in phase:
        found.append(Field(f"{path}.lasts", "lasts", "", _PHASE_KEYS[3][2]))
    for number, step in enumerate(phase.get("step", []), 1):
        for one in _fields(step, f"{path}.step[{number}]", _STEP_KEYS):
            one.label = f"step {number} {one.label}"
            found.append(one)
    return found


def _fields(table: Mapping[str, Any], path: str, keys: tuple[tuple[str, str, str], ...],
            optional: bool = False) -> list[Field]:
    return [Field(f"{path}.{key}", label, str(table.get(key, "")), hint) for key, label, hint in keys
            if key in table or (optional and key != "lead")]


def changed_text(plan: Plan, typed: Mapping[str, str]) -> str:
    """The plan file with the typed values in it; an empty value removes its key."""
    doc = tomlkit.parse(plan.text)
    known = {one.path for group in groups_of(plan) for one in group.fields}
    for path, value in typed.items():
        if path in known:
            _put(doc, path, value.strip())
    return tomlkit.dumps(doc)


def _put(doc: Any, path: str, value: str) -> None:
    *before, last = path.split(".")
    table = doc
    for part in before:
        match = _PART.fullmatch(part)
        if match is None:
            return
        table = table[match[1]]
        if match[2] is not None and isinstance(table, AoT | list):
            table = table[int(match[2]) - 1]
    if not value:
        if last in table:
            del table[last]
        return
    new: Any = value
    if last in ("times_per_day", "packs_on_hand") and re.fullmatch(r"[0-9]{1,4}", value):
        new = int(value)
    elif last == "dose_times":
        new = [one for one in re.split(r"[,\s]+", value) if one]
    if table.get(last) != new:
        table[last] = new


def preview(case: Case, typed: Mapping[str, str], now: datetime, protocol: ClinicProtocol) -> Preview:
    """The changed plan read by the program's own reader: problems beside their fields, or all that it would mean."""
    groups = groups_of(case.plan)
    by_path = {one.path: one for group in groups for one in group.fields}
    for path, value in typed.items():
        if path in by_path:
            by_path[path].value = value
    text = changed_text(case.plan, typed)
    try:
        plan = read_plan(text, "the changed plan", protocol)
    except WrongInput as wrong:
        general = [problem for problem in wrong.problems if problem.field not in by_path]
        for problem in wrong.problems:
            if problem.field in by_path:
                by_path[problem.field].problems.append(problem.message)
        return Preview(groups, tuple(general), text)
    out = first_day_without(case, plan, case.row.plan_version + 1, now, protocol)
    dose = plan.phases[0].steps[0].doses[0]
    return Preview(groups, (), text, tuple(differences(case.plan, plan)), strip(plan, case.record, now),
                   recipe_words(preparation(plan, dose, protocol)), ", ".join(f"{at:%H:%M}" for at in plan.dose_times),
                   f"{out:%d %b %Y}" if out else "",
                   tuple((one.text, one.source) for one in cautions(plan, protocol)))


def recipe_words(made: Preparation) -> str:
    """How the first dose is made, in one line."""
    if made.puffs is not None:
        return f"{made.amount}: {made.puffs} puff{'' if made.puffs == 1 else 's'}, swallowed"
    add = (f"{made.packets} packets of sweetener" if made.packets is not None else
           f"{plain(made.vehicle_ml or Decimal(0))} mL of {made.vehicle}")
    part = f", swallow {plain(made.dose_ml or Decimal(0))} mL of it" if made.part else ", swallow all of it"
    return f"{made.amount}: {made.ampoules} ampoule{'' if made.ampoules == 1 else 's'} with {add}{part}"

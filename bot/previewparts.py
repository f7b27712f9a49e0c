"""Tables that several pages for clinicians share: mixing, totals, ladders."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping
from datetime import date, time
from decimal import Decimal
from typing import TYPE_CHECKING

from rich import box
from rich.console import Console, Group, RenderableType
from rich.table import Table

from scheduler.amounts import plain
from scheduler.dayplan import day_shift
from scheduler.plan import Dose, Plan, times_for
from scheduler.protocol import ClinicProtocol
from scheduler.recipe import Preparation, parse_rule, preparation
from scheduler.supply import Supplies

if TYPE_CHECKING:
    from scheduler.taper import Ladder

WIDTH = 110
CODE_NOTE = "No diagnosis and no emergency service. Local codes and licensed practice come first."


def page(parts: Iterable[RenderableType], protocol: ClinicProtocol) -> None:
    """Print the parts; an unsigned protocol says so at the top and at the end of every page."""
    console = Console(width=WIDTH if not sys.stdout.isatty() else None, highlight=False)
    banner = f"Clinic protocol: {protocol.name}" + (f" ({protocol.banner})" if protocol.banner else "")
    console.print(banner, style="bold")
    for part in parts:
        console.print()
        console.print(part)
    console.print()
    console.print(CODE_NOTE, style="dim")


def table(title: str, *columns: str, right: tuple[str, ...] = ()) -> Table:
    found = Table(title=title, title_justify="left", title_style="bold", box=box.SIMPLE_HEAD, pad_edge=False)
    for column in columns:
        found.add_column(column, justify="right" if column in right else "left")
    return found


def counted(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"


def day_text(day: date) -> str:
    return f"{day:%a} {day.isoformat()}"


def doses_text(doses: tuple[Dose, ...], plan: Plan) -> str:
    """'1 mg (2 ampoules) at 07:45, 21:30', or each dose by itself when they differ."""
    clocks = [clock_text(at, plan) for at in times_for(plan, len(doses))]
    if len(set(doses)) == 1:
        return f"{_dose(doses[0], plan)} at {', '.join(clocks)}"
    return "; ".join(f"{_dose(dose, plan)} at {clock}" for dose, clock in zip(doses, clocks, strict=True))


def clock_text(at: time, plan: Plan) -> str:
    """A dose time; one that falls on the date after the day it belongs to says so."""
    return f"{at:%H:%M}" + (" (next day)" if day_shift(plan.patient, at) else "")


def _dose(dose: Dose, plan: Plan) -> str:
    return f"{dose.amount} ({counted(dose.units, plan.medicine.unit_name)})"


def mixing(plan: Plan, protocol: ClinicProtocol) -> list[RenderableType]:
    """One card for each dose of the plan, smallest first, and both sweetener rules side by side."""
    every = {dose for phase in plan.phases for step in phase.steps for dose in step.doses}
    every |= {dose for season in plan.seasons for dose in season.doses}
    doses = sorted(every, key=lambda dose: dose.units)
    found: list[RenderableType] = [cards([preparation(plan, dose, protocol) for dose in doses])]
    if plan.medicine.vehicle == "sweetener":
        rules = table(
            "Sweetener by the two published rules", "Dose", *(_rule_names(protocol)), right=tuple(_rule_names(protocol))
        )
        for dose in doses:
            rules.add_row(
                str(dose.amount),
                *(
                    f"{plain(parse_rule(protocol.text(key)).grams_for(dose.amount, dose.units))} g"
                    for key in ("sweetener.rule", "sweetener.other_rule")
                ),
            )
        found.append(rules)
    return found


def _rule_names(protocol: ClinicProtocol) -> tuple[str, str]:
    return f"{protocol.text('sweetener.rule')} (in force)", f"{protocol.text('sweetener.other_rule')} (not in force)"


def mixing_card(made: Preparation) -> RenderableType:
    return cards([made])


def cards(made: list[Preparation]) -> RenderableType:
    """How each dose is made."""
    if made[0].puffs is not None:
        found = table("How each dose is made", "Dose", "Puffs", right=("Puffs",))
        for one in made:
            found.add_row(str(one.amount), str(one.puffs))
        return found
    found = table(
        "How each dose is made",
        "Dose",
        "Ampoules",
        "Liquid",
        "Add",
        "Whole mix",
        "Swallow",
        "Strength of mix",
        right=("Ampoules", "Liquid", "Whole mix", "Swallow", "Strength of mix"),
    )
    for one in made:
        add = (
            f"{counted(one.packets, 'packet')} ({plain(one.sweetener_g or Decimal(0))} g) of sweetener"
            if one.packets is not None
            else f"{_ml(one.vehicle_ml)} of {one.vehicle}"
        )
        name = str(one.amount) if one.doses == 1 else f"{one.doses} x {one.amount}"
        found.add_row(
            name,
            str(one.ampoules),
            _ml(one.medicine_ml),
            add,
            "about " + _ml(one.total_ml) if one.total_ml else "-",
            f"{_ml(one.dose_ml)} ({off_text(one.error_percent)})" if one.part else "all of it",
            f"{plain(one.mg_per_ml.quantize(Decimal('0.001')))} mg/mL" if one.mg_per_ml else "-",
        )
    return found


def off_text(percent: Decimal) -> str:
    """How far a measure is off: '+3.7 %', '-2 %'."""
    return f"{'+' if percent > 0 else ''}{plain(percent)} %"


def _ml(value: Decimal | None) -> str:
    return "-" if value is None else f"{plain(value.quantize(Decimal('0.1')))} mL"


def totals(plan: Plan, supplies: Supplies, protocol: ClinicProtocol) -> RenderableType:
    """What the course uses; boxes are rounded up in each row by itself."""
    medicine = plan.medicine
    unit, pack = f"{medicine.unit_name}s", "boxes" if medicine.form == "ampoule" else "canisters"
    vehicle = {"sweetener": "packets", None: ""}.get(medicine.vehicle, medicine.vehicle or "")
    columns = ["Phase", "Days", "Doses", unit, f"{pack} of {medicine.units_per_pack}", *([vehicle] if vehicle else [])]
    found = table("What it uses, when every gate is released on its first day", *columns, right=tuple(columns[1:]))
    rows = [*supplies.phases, supplies.total, *([supplies.onward] if supplies.onward else [])]
    for use in rows:
        amount = str(use.packets) if medicine.vehicle == "sweetener" else f"{plain(use.vehicle_ml)} mL"
        found.add_row(
            use.name,
            str(use.days or ""),
            str(use.doses),
            str(use.units),
            str(use.packs),
            *([amount] if vehicle else []),
        )
    out = supplies.run_out
    on_hand = f"On hand: {out.on_hand} {unit}. "
    lasts = (
        f"First day that cannot be made from them: {day_text(out.first_day_without)} (no gate released); "
        "the patient and the "
        f"care team are told on {', '.join(day_text(day) for day in out.remind_on)}."
        if out.first_day_without
        else "They last to the end of the course."
    )
    late = supplies.latest
    wait = (
        f"\nIf every gate waits {counted(protocol.span('supply.gate_wait').days, 'day')}: {late.units} "
        f"{unit} in all, {late.packs} {pack}."
        if late
        else ""
    )
    if supplies.total.sprays:
        wait += f"\nNot among these puffs: {supplies.total.sprays} sprays into the air, to get each canister ready."
    note = "\nThe last phase is open-ended: its first 28 days are counted in 'all'." if supplies.onward else ""
    return Group(found, on_hand + lasts + wait + note)


def ladders(found: Mapping[str, Ladder], larger: str) -> RenderableType:
    """Ladders side by side, with what each costs."""
    rows = table("Tapers to choose from (units of each dose, first to last; below, the amount a day)", "", *found)
    longest = max(len(one.steps) for one in found.values())
    for number in range(longest):
        cells = []
        for one in found.values():
            if number < len(one.steps):
                step = one.steps[number]
                units = step.units[::-1] if larger == "morning" else step.units
                cells.append(
                    f"day {step.from_day}, {step.days} d: {' + '.join(str(count) for count in units)}\n"
                    f"  {one.unit * step.daily_units}"
                )
            else:
                cells.append("")
        rows.add_row(f"step {number + 1}", *cells)
    rows.add_section()
    rows.add_row("largest drop", *(f"{round(float(one.largest_drop * 100), 1):g} %" for one in found.values()))
    rows.add_row("units in all", *(str(one.total_units) for one in found.values()))
    return rows

"""Pages for the clinician who signs: tables in the terminal. What is shown is computed elsewhere; nothing is decided here."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from rich import box
from rich.console import Console, Group, RenderableType
from rich.panel import Panel
from rich.table import Table

from scheduler.amounts import plain, total
from scheduler.cautions import Caution, cautions
from scheduler.localtime import instant, local
from scheduler.medicine import bounds
from scheduler.occasions import Occasion, OccasionKind
from scheduler.plan import Dose, Plan, Step, days_of, in_season, phase_dates, times_for
from scheduler.protocol import ClinicProtocol
from scheduler.recipe import Preparation, parse_rule, preparation
from scheduler.record import Record
from scheduler.stretches import stretches
from scheduler.supply import Supplies, released, usage
from scheduler.timeline import occasions

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
    """'1 mg (2 ampoules) at 07:45 and at 21:30', or each dose by itself when they differ."""
    times = times_for(plan, len(doses))
    if len(set(doses)) == 1:
        clocks = ", ".join(f"{at:%H:%M}" for at in times)
        return f"{_dose(doses[0], plan)} at {clocks}"
    return "; ".join(f"{_dose(dose, plan)} at {at:%H:%M}" for dose, at in zip(doses, times, strict=True))


def _dose(dose: Dose, plan: Plan) -> str:
    return f"{dose.amount} ({counted(dose.units, plan.medicine.unit_name)})"


# --- the whole page of a plan


def plan_page(plan: Plan, protocol: ClinicProtocol) -> list[RenderableType]:
    """Everything a clinician reads before signing."""
    supplies = usage(plan, Record(), protocol, plan.phases[0].starts or date.min)
    return [
        head(plan, protocol),
        first_day(plan, protocol),
        Group(calendar(plan), *as_taken(plan)),
        first_week(plan, protocol),
        Group(*mixing(plan, protocol)),
        totals(plan, supplies, protocol),
        gates(plan, protocol),
        caution_list(cautions(plan, protocol)),
        f"Signed: {plan.signed_by}, {plan.signed_on}      Read by: ______________________   Date: ____________",
    ]


def head(plan: Plan, protocol: ClinicProtocol) -> RenderableType:
    patient, medicine = plan.patient, plan.medicine
    facts = [f"{patient.age_years} years"]
    facts += [f"{patient.height_cm} cm"] if patient.height_cm else []
    facts += [f"{plain(patient.weight_kg)} kg"] if patient.weight_kg else []
    facts.append(f"{patient.writer} writes" if patient.writer == "parent" else "the patient writes")
    liquid = f" / {plain(medicine.unit_ml)} mL" if medicine.unit_ml else ""
    group = "adult" if patient.age_years >= protocol.number("bounds.adult_from") else "child"
    return Panel(
        f"[bold]{patient.reference}[/bold], called {patient.call_me}: {', '.join(facts)}; {patient.time_zone}, "
        f"language {patient.language}\n"
        f"Medicine: {medicine.name}, {medicine.form} of {medicine.unit_amount}{liquid}"
        + (f", with {medicine.vehicle}" if medicine.vehicle else ", swallowed from the inhaler")
        + "\n"
        f"Allowed for this {group}: {bounds(medicine.name, group, 'dose', protocol)} a dose, "
        f"{bounds(medicine.name, group, 'daily', protocol)} a day\n"
        f"Conditions: {', '.join(patient.conditions) or 'none named'}; other medicines: "
        f"{', '.join(patient.other_medicines) or 'none named'}\n"
        f"Day: wakes {patient.wakes:%H:%M}, eats {', '.join(f'{meal:%H:%M}' for meal in patient.meals)}, "
        f"sleeps {patient.sleeps:%H:%M}; doses at {', '.join(f'{at:%H:%M}' for at in plan.dose_times)}; "
        f"window {protocol.text('window.no_food')} min, rinse {protocol.text('rinse.order')}",
        title="Plan for signature",
        title_align="left",
        width=WIDTH,
        box=box.ASCII2,
    )


def first_day(plan: Plan, protocol: ClinicProtocol) -> RenderableType:
    """The first day as the patient will read it, from the patient texts themselves."""
    from bot.texts.render import render
    from scheduler.ports import Due
    from scheduler.tick import messages_of

    start = plan.phases[0].starts
    assert start is not None
    due = Due(plan.patient.reference, plan, 1, Record(), datetime(2000, 1, 1, tzinfo=UTC))
    found = Table(
        title="The first day, as the patient reads it",
        title_justify="left",
        title_style="bold",
        box=box.SIMPLE_HEAD,
        pad_edge=False,
        show_header=False,
    )
    for one in plan_occasions(plan, Record(), protocol, start, 1):
        if one.kind is OccasionKind.DOSE and one.day == start:
            told = next(message for message in messages_of(due, one, protocol) if message.kind == "dose")
            found.add_row(f"{local(one.at, plan.patient.time_zone):%H:%M}", render(told).text)
            found.add_section()
    return found


def plan_occasions(plan: Plan, record: Record, protocol: ClinicProtocol, start: date, days: int) -> list[Occasion]:
    """Occasions of `days` of the patient's days from `start`, a bedtime dose after midnight included."""
    zone = plan.patient.time_zone
    after = instant(start, time(0), zone) - timedelta(seconds=1)
    until = instant(start + timedelta(days=days + 1), time(0), zone)
    last = start + timedelta(days=days - 1)
    return [one for one in occasions(plan, record, protocol, after, until) if start <= one.day <= last]


def calendar(plan: Plan) -> RenderableType:
    """Phases and steps with their dates, when each gate opens on its first day, and the seasons over them."""
    found = table(
        "The course, when every gate is released on its first day",
        "Phase",
        "From",
        "Until",
        "Days",
        "Doses",
        "A day",
        right=("Days", "A day"),
    )
    dates = phase_dates(plan, released(plan, Record(), 0))
    for phase, when in zip(plan.phases, dates, strict=True):
        begins = when.begins
        assert begins is not None
        waits = f"{phase.name}\n(waits: {phase.gate})" if phase.gate else phase.name
        for number, step in enumerate(phase.steps):
            until = begins + timedelta(days=(step.days or 0) - 1)
            found.add_row(
                waits if number == 0 else "",
                day_text(begins),
                day_text(until) if step.days else "open",
                str(step.days or ""),
                doses_text(step.doses, plan),
                str(_daily(step)),
            )
            begins = until + timedelta(days=1)
        found.add_section()
    for season in plan.seasons:
        days = f"{season.begins[0]:02}-{season.begins[1]:02}", f"{season.ends[0]:02}-{season.ends[1]:02}"
        lead = f"\n({season.lead_days} days ahead)" if season.lead_days else ""
        found.add_row(
            f"season{lead}",
            _season_start(plan, season),
            f"{days[1]} every year",
            "",
            doses_text(season.doses, plan),
            str(total([dose.amount for dose in season.doses])),
        )
    return found


def as_taken(plan: Plan) -> list[RenderableType]:
    """What is taken once seasons lie over the phases; nothing for a plan without seasons."""
    start = plan.phases[0].starts
    if not plan.seasons or start is None:
        return []
    found = table(
        "As taken with the season over it, first 18 months",
        "From",
        "Until",
        "Days",
        "In force",
        "Doses",
        "A day",
        right=("Days", "A day"),
    )
    for one in stretches(plan, released(plan, Record(), 0), start + timedelta(days=548)):
        days = str((one.ends - one.begins).days + 1) if one.ends else ""
        found.add_row(
            day_text(one.begins),
            day_text(one.ends) if one.ends else "goes on",
            days,
            "season" if one.why == "season" else one.phase,
            doses_text(one.doses, plan),
            str(one.daily),
        )
    return [found]


def _season_start(plan: Plan, season: Any) -> str:
    """The day of the year on which the season's dose begins, its lead included."""
    start = plan.phases[0].starts
    assert start is not None
    for number in range(366):
        inside = in_season(season, start + timedelta(days=number))
        if inside:
            return f"{inside[0]:%m-%d} every year"
    return f"{season.begins[0]:02}-{season.begins[1]:02}"


def _daily(step: Step) -> Any:
    return total([dose.amount for dose in step.doses])


def first_week(plan: Plan, protocol: ClinicProtocol) -> RenderableType:
    start = plan.phases[0].starts
    assert start is not None
    found = table("The first week", "Day", "Doses", "Also")
    for number in range(7):
        day = start + timedelta(days=number)
        ones = plan_occasions(plan, Record(), protocol, day, 1)
        doses = [
            f"{local(one.at, plan.patient.time_zone):%H:%M} {one.dose.amount}"
            for one in ones
            if one.kind is OccasionKind.DOSE and one.dose
        ]
        also = [
            f"{one.kind.value.replace('_', ' ')} {local(one.at, plan.patient.time_zone):%H:%M}"
            for one in ones
            if one.kind is not OccasionKind.DOSE
        ]
        found.add_row(day_text(day), "   ".join(doses), ", ".join(also))
    return found


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
            f"{_ml(one.dose_ml)} ({one.error_percent:+} %)" if one.part else "all of it",
            f"{plain(one.mg_per_ml.quantize(Decimal('0.001')))} mg/mL" if one.mg_per_ml else "-",
        )
    return found


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
        f"First day that cannot be made from them: {day_text(out.first_day_without)} (no gate released); the patient and the "
        f"care team are told on {', '.join(day_text(day) for day in out.remind_on)}."
        if out.first_day_without
        else "They last to the end of the course."
    )
    late = supplies.latest
    wait = (
        f"\nIf every gate waits {counted(protocol.span('supply.gate_wait').days, 'day')}: {late.units} {unit} in all, {late.packs} {pack}."
        if late
        else ""
    )
    note = "\nThe last phase is open-ended: its first 28 days are counted in 'all'." if supplies.onward else ""
    return Group(found, on_hand + lasts + wait + note)


def gates(plan: Plan, protocol: ClinicProtocol) -> RenderableType:
    waiting = [phase for phase in plan.phases if phase.gate]
    lines = [
        f'- {phase.name}: starts only when the care team releases "{phase.gate}"; until then the dose before goes on, and '
        f"the care team is reminded every {protocol.text('gate.remind_every')} days."
        for phase in waiting
    ]
    if plan.endoscopy_after_days is not None and plan.phases[0].starts:
        due = plan.phases[0].starts + timedelta(days=plan.endoscopy_after_days)
        lines.append(f"- endoscopy due {day_text(due)}; the patient goes on with the medicine until told otherwise.")
    lasts = days_of(plan.phases[-1])
    lines.append(
        "- the last phase has no end: the clinic ends or changes it with a new signature."
        if lasts is None
        else "- after the last day no dose is asked for; stopping is the clinic's decision."
    )
    return "[bold]What waits[/bold]\n" + "\n".join(lines)


def caution_list(found: tuple[Caution, ...]) -> RenderableType:
    rows = table("Cautions to read before signing (p: the patient is told too)", "", "Caution", "Source")
    for one in found:
        rows.add_row("p" if one.tell_patient else "", one.text, one.source)
    return rows


def ladders(found: Mapping[str, Ladder], larger: str) -> RenderableType:
    """Ladders side by side, with what each costs."""
    rows = table("Tapers to choose from", "", *found)
    longest = max(len(one.steps) for one in found.values())
    for number in range(longest):
        cells = []
        for one in found.values():
            if number < len(one.steps):
                step = one.steps[number]
                units = step.units[::-1] if larger == "morning" else step.units
                cells.append(
                    f"day {step.from_day}, {step.days} d: {' + '.join(str(count) for count in units)}\n"
                    f"  = {one.unit * step.daily_units} a day"
                )
            else:
                cells.append("")
        rows.add_row(f"step {number + 1}", *cells)
    rows.add_section()
    rows.add_row("largest drop", *(f"{round(float(one.largest_drop * 100), 1):g} %" for one in found.values()))
    rows.add_row("units in all", *(str(one.total_units) for one in found.values()))
    return rows

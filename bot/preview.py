"""Pages for the clinician who signs, as tables in the terminal. Nothing is computed or decided here."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from rich import box
from rich.console import Group, RenderableType
from rich.panel import Panel
from rich.table import Table

from bot.previewparts import WIDTH, clock_text, day_text, doses_text, mixing, off_text, table, totals
from bot.texts.catalogue import languages
from scheduler.amounts import plain, total
from scheduler.batch import batch
from scheduler.cautions import Caution, cautions, signed_ahead
from scheduler.localtime import instant, local
from scheduler.medicine import bounds
from scheduler.occasions import Occasion, OccasionKind
from scheduler.plan import Plan, Step, days_of, in_season, phase_dates
from scheduler.protocol import ClinicProtocol
from scheduler.record import Record
from scheduler.stretches import stretches
from scheduler.supply import released, usage
from scheduler.timeline import occasions

if TYPE_CHECKING:
    pass


# --- the whole page of a plan


def plan_page(plan: Plan, protocol: ClinicProtocol, now: datetime) -> list[RenderableType]:
    """Everything a clinician reads before signing."""
    supplies = usage(plan, Record(), protocol, plan.phases[0].starts or date.min)
    return [
        head(plan, protocol),
        first_day(plan, protocol),
        Group(calendar(plan), *as_taken(plan)),
        first_week(plan, protocol),
        Group(*mixing(plan, protocol), *batch_label(plan, protocol)),
        totals(plan, supplies, protocol),
        gates(plan, protocol),
        caution_list(all_cautions(plan, protocol, now)),
        f"Signed: {plan.signed_by}, {plan.signed_on}      Read by: ______________________   Date: ____________",
    ]


def all_cautions(plan: Plan, protocol: ClinicProtocol, now: datetime) -> tuple[Caution, ...]:
    """The plan's cautions; before them a signature in the future, and a language in which there are no texts."""
    known, found = languages(), (*signed_ahead(plan, now), *cautions(plan, protocol))
    if plan.patient.language.split("-")[0] in known:
        return found
    told = f"There are no texts in language '{plan.patient.language}', only in {', '.join(known)}: they read English."
    return (Caution("language", told, "the patient texts"), *found)


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
        f"sleeps {patient.sleeps:%H:%M}; doses at {', '.join(clock_text(at, plan) for at in plan.dose_times)}; "
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
        found_doses = tuple(one.dose for one in ones if one.dose)
        doses = doses_text(found_doses, plan) if found_doses else ""
        also = [
            f"{one.kind.value.replace('_', ' ')} {local(one.at, plan.patient.time_zone):%H:%M}"
            for one in ones
            if one.kind is not OccasionKind.DOSE
        ]
        found.add_row(day_text(day), doses, ", ".join(also))
    return found


def batch_label(plan: Plan, protocol: ClinicProtocol) -> list[RenderableType]:
    """For a plan that mixes ahead: the first mix with the text of its label. Nothing for a plan that does not."""
    start = plan.phases[0].starts
    if not plan.medicine.mix_ahead_days or start is None:
        return []
    first = batch(plan, Record(), protocol, start, plan.medicine.mix_ahead_days)
    parts = "; ".join(
        f"{part.count} x {part.amount}: {plain(part.dose_ml)} mL each ({off_text(part.error_percent)})"
        for part in first.parts
    )
    add = (
        f"{plain(first.sweetener_g)} g of sweetener"
        if first.sweetener_g
        else f"{plain(first.vehicle_ml or Decimal(0))} mL"
    )
    label = (
        f"{plan.patient.reference}   {plan.medicine.name}, {first.amount} in about {first.total_ml:.0f} mL\n"
        f"Made on {day_text(first.made_on)}   Discard after {day_text(first.discard_after)}\n"
        f"Keep cold, out of reach of children. Mix again before every dose.\n{parts}"
    )
    made = f"First mix ahead: {first.ampoules} ampoules, {add}. A mix never runs past a change of dose."
    return [made, Panel(label, title="Label", title_align="left", width=WIDTH, box=box.ASCII2)]


def gates(plan: Plan, protocol: ClinicProtocol) -> RenderableType:
    waiting = [phase for phase in plan.phases if phase.gate]
    lines = [
        f'- {phase.name}: starts only when the care team releases "{phase.gate}"; until then the dose '
        "before goes on, and "
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

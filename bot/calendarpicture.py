"""A one-page calendar of the doses for the fridge (PNG or PDF), with the sentences of the patient texts.

It shows only what is certain: a phase that waits for its gate is left out, and the page says to go on with the dose
before. matplotlib is imported only here, when a picture is asked for; the Agg canvas needs no display.
"""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from textwrap import wrap
from typing import Any

from bot.errors import TroubleOutside
from bot.texts.catalogue import say
from scheduler.amounts import plain
from scheduler.plan import Dose, Plan, dose_in_force, times_for
from scheduler.protocol import ClinicProtocol
from scheduler.record import Record
from scheduler.stretches import Stretch, merged, stretches

WEEKS = 14  # what one page can show and still be read across a kitchen
LINE = 92  # characters of a legend line
INDENT = " "  # a legend line that goes on
INCHES = (8.27, 11.69)  # A4 upright
_SHADES = ("#ffffff", "#dfe8f3", "#c1d3ea", "#a2bde0", "#84a7d5", "#6690ca")


def write_calendar(plan: Plan, protocol: ClinicProtocol, path: Path, record: Record | None = None) -> None:
    """Write the page; the ending of `path` says which form. Raises TroubleOutside when it cannot be written."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=INCHES)
    FigureCanvasAgg(figure)
    axes = figure.add_axes((0.06, 0.04, 0.88, 0.92))
    axes.set_axis_off()
    axes.set_xlim(-0.01, 7.01)
    first, last, ending = shown_days(plan, record or Record())
    top = _grid(axes, plan, record or Record(), first, last)
    _words(axes, plan, protocol, record or Record(), last, ending, top)
    try:
        figure.savefig(path, dpi=150)
    except OSError as error:
        why = error.strerror or error
        raise TroubleOutside(f"{path}: the calendar cannot be written ({why}); choose another place") from error


def shown_days(plan: Plan, record: Record) -> tuple[date, date, str]:
    """First and last day to show, and the text that says what comes after: 'goes_on', 'no_end' or 'last'."""
    first = plan.phases[0].starts
    assert first is not None
    most = first - timedelta(days=first.weekday()) + timedelta(weeks=WEEKS) - timedelta(days=1)
    day = first
    while day < most:
        after = dose_in_force(plan, record, day + timedelta(days=1))
        if after is None:
            return first, day, "last"
        if after.waiting_gate is not None:
            return first, day, "goes_on"
        day += timedelta(days=1)
    return first, day, "no_end"


def _grid(axes: Any, plan: Plan, record: Record, first: date, last: date) -> float:
    """A row a week, a box a day; returns the height that it takes."""
    from matplotlib.patches import Rectangle

    monday = first - timedelta(days=first.weekday())
    weeks = (last - monday).days // 7 + 1
    shade = _shades(stretches(plan, record, last))
    lang = plan.patient.language
    for column in range(7):
        name = say(lang, "calendar.weekday", {"on": monday + timedelta(days=column)})
        axes.text(column + 0.5, 0.75, name, ha="center", va="center", fontsize=10, fontweight="bold")
    for number in range(weeks * 7):
        day = monday + timedelta(days=number)
        column, row = number % 7, number // 7 + 1
        inside = first <= day <= last
        doses = _doses(plan, record, day) if inside else ()
        axes.add_patch(
            Rectangle((column, row), 1, 1, facecolor=shade.get(doses, "#ffffff"), edgecolor="#777777", linewidth=0.6)
        )
        if inside:
            axes.text(
                column + 0.06,
                row + 0.3,
                _day_label(day, day == first, lang),
                fontsize=7.5,
                va="center",
                color="#333333",
            )
            axes.text(
                column + 0.5,
                row + 0.68,
                " + ".join(str(dose.units) for dose in doses),
                fontsize=11,
                ha="center",
                va="center",
            )
    return weeks + 1


def _words(
    axes: Any, plan: Plan, protocol: ClinicProtocol, record: Record, last: date, ending: str, top: float
) -> None:
    """Title above, and below the grid what each shade means and what to do."""
    lang, patient, medicine = plan.patient.language, plan.patient, plan.medicine
    strength = say(lang, "calendar.strength", {"amount": str(medicine.unit_amount)})
    strength += f" / {plain(medicine.unit_ml)} mL" if medicine.unit_ml else ""
    axes.text(
        0, -0.55, say(lang, "calendar.title", {"call_me": patient.call_me}), fontsize=19, fontweight="bold", va="center"
    )
    axes.text(
        0,
        0.1,
        f"{say(lang, 'calendar.medicine', {'medicine': medicine.name, 'strength': strength})}   ({patient.reference})",
        fontsize=10.5,
        va="center",
    )
    lines: list[tuple[str, str]] = []
    parts = merged(stretches(plan, record, last))
    shade = _shades(parts)
    for part in parts:
        why = f" {say(lang, 'calendar.season', {})}" if part.why == "season" else ""
        told = wrap(f"{say(lang, 'calendar.from', {'on': part.begins})} {_legend(plan, part.doses)}.{why}", LINE)
        lines += [(shade[part.doses] if number == 0 else INDENT, line) for number, line in enumerate(told)]
    lines.append(("", say(lang, f"calendar.counts_{medicine.unit_name}", {})))
    lines.append(("", say(lang, f"calendar.{ending}", {"on": last})))
    lines.append(("", say(lang, "calendar.window", {"minutes": int(protocol.number("window.no_food"))})))
    lines.append(("", say(lang, "calendar.emergency", {"number": protocol.text("care.emergency_number", lang)})))
    lines.append(("", say(lang, "calendar.note", {}) + (f"   ({protocol.banner})" if protocol.banner else "")))
    height = 0.62
    for number, (colour, line) in enumerate(lines):
        at = top + 0.6 + number * height
        if colour.startswith("#"):
            axes.text(
                0.02,
                at,
                "    ",
                fontsize=9,
                va="center",
                bbox={"facecolor": colour, "edgecolor": "#777777", "linewidth": 0.6, "pad": 2},
            )
        axes.text(
            0.35 if colour else 0,
            at,
            line,
            fontsize=9,
            va="center",
            wrap=True,
            fontweight="bold" if number == len(lines) - 2 else "normal",
        )
    axes.set_ylim(max(top + 0.6 + len(lines) * height, WEEKS + 3), -1.1)


def _shades(parts: list[Stretch]) -> dict[tuple[Dose, ...], str]:
    """A shade for each set of doses: the more, the darker; never colour alone, since the counts are in the boxes."""
    kinds = sorted({part.doses for part in parts}, key=lambda doses: sum(dose.units for dose in doses))
    return {doses: _SHADES[min(number + 1, len(_SHADES) - 1)] for number, doses in enumerate(kinds)}


def _doses(plan: Plan, record: Record, day: date) -> tuple[Dose, ...]:
    found = dose_in_force(plan, record, day)
    return found.doses if found else ()


def _legend(plan: Plan, doses: tuple[Dose, ...]) -> str:
    key = "calendar.legend" if plan.medicine.form == "ampoule" else "calendar.legend_puff"
    return "; ".join(
        say(plan.patient.language, key, {"amount": str(dose.amount), "clock": f"{at:%H:%M}", "units": dose.units})
        for dose, at in zip(doses, times_for(plan, len(doses)), strict=True)
    )


def _day_label(day: date, is_first: bool, lang: str) -> str:
    """The day of the month; with the month's name on the first day shown and on each first of a month."""
    if is_first or day.day == 1:
        return say(lang, "calendar.date", {"on": day}).partition(" ")[2]  # without the weekday: it heads the column
    return str(day.day)

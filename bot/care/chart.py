"""The chart of one patient as a picture for the chat: score by week over the dose, marks, and a strip of doses taken.

Made for a phone held upright, and for grey: shapes, hatching and words carry the meaning, colour only helps.
"""

from __future__ import annotations

import io
import threading
from collections.abc import Mapping
from datetime import date, datetime, timedelta
from typing import Any

from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from bot.care.figures import Day, days, scores_by_day
from bot.case import Case
from bot.checkin.score import MOST
from bot.escalation.flags import urgent_since
from scheduler.localtime import local
from scheduler.plan import in_season
from scheduler.record import EntryKind

SIZE, DOTS = (6.0, 6.8), 180          # inches and dots an inch: 1080 by 1224 pixels
_TEXT, _SMALL = 13, 11                # points: 11 points are 27 pixels, 10 on a phone 400 wide
_INK, _BAND, _STEP = "#1a1a1a", "#d9d9d9", "#b5c7d9"

_DRAWING = threading.Lock()

# Flags by shape and filling, so that they differ in grey: size, marker, filled.
_FLAGS = {"emergency": (130, "^", True), "urgent": (90, "s", True), "routine": (60, "o", False)}

# A day of the strip: all doses confirmed, some, none, paused or none due.
ALL, SOME, NONE, OFF = "a", "s", "n", "-"


def chart_facts(case: Case, now: datetime) -> dict[str, Any]:
    """Everything the chart shows, as JSON values (dates as ISO texts), so that it can wait on the outbox."""
    zone = case.plan.patient.time_zone
    today = local(now, zone).date()
    rows = list(days(case, now))
    first = rows[0].day if rows else (case.plan.phases[0].starts or today)
    dose_unit = 1000 if case.plan.medicine.name == "budesonide" else 1
    return {
        "reference": case.reference, "start": first.isoformat(), "today": max(today, first).isoformat(),
        "scores": [[day.isoformat(), total] for day, total in scores_by_day(case)],
        "unit": "mg" if dose_unit == 1000 else "microgram",
        "doses": _steps(rows, dose_unit), "days": "".join(map(_mark, rows)),
        "first_row": rows[0].day.isoformat() if rows else first.isoformat(),
        "flags": [[local(urgent_since(flag), zone).date().isoformat(), str(flag.urgency)] for flag in case.flags],
        "endoscopies": [[str(entry.facts["date"]), entry.facts.get("peak_eos_hpf")]
                        for entry in case.record.of(EntryKind.ENDOSCOPY_DONE)],
        "seasons": _seasons(case, first, today)}


def draw(facts: Mapping[str, Any]) -> bytes:
    """The picture of `chart_facts`. PNG. One at a time: the drawing library promises nothing for threads."""
    with _DRAWING:
        return _drawn(facts)


def _drawn(facts: Mapping[str, Any]) -> bytes:
    figure = Figure(figsize=SIZE, dpi=DOTS, facecolor="white")
    FigureCanvasAgg(figure)
    heights = {"height_ratios": [5, 2.4, 0.8], "hspace": 0.32}
    top, middle, strip = figure.subplots(3, 1, sharex=True, gridspec_kw=heights)
    figure.subplots_adjust(left=0.13, right=0.97, top=0.89, bottom=0.215)
    start, today = _day(facts["start"]), _day(facts["today"])
    weeks = max(4.0, ((today - start).days + 1) / 7)
    figure.suptitle(f"{facts['reference']}   {today.isoformat()}", fontsize=_TEXT + 2, fontweight="bold", y=0.985)
    _scores(top, facts, start, weeks)
    _dose(middle, facts, start, weeks)
    _strip(strip, facts, start, weeks)
    figure.text(0.05, 0.012, _legend(facts), fontsize=_SMALL, color=_INK, va="bottom", linespacing=1.45)
    picture = io.BytesIO()
    figure.savefig(picture, format="png")
    return picture.getvalue()


def _scores(axes: Axes, facts: Mapping[str, Any], start: date, weeks: float) -> None:
    """Score by week; flags above, endoscopies as lines, seasons as bands."""
    axes.set_title(f"Symptom score, 0 to {MOST} (higher is worse)", fontsize=_TEXT, loc="left")
    for begins, ends in facts["seasons"]:
        left, right = _week(begins, start), _week(ends, start) + 1 / 7
        axes.add_patch(Rectangle((left, -1), right - left, 14, facecolor="none", edgecolor="#9a9a9a", hatch="//", lw=0))
    for at, eos in facts["endoscopies"]:
        place = _week(at, start)
        axes.axvline(place, color=_INK, linestyle=(0, (4, 3)), linewidth=1.6)
        axes.annotate(f" {eos} eos" if eos is not None else " endoscopy", (place, MOST - 0.6), fontsize=_SMALL,
                      fontweight="bold", va="center", ha="left" if place < weeks * 0.8 else "right",
                      bbox={"facecolor": "white", "edgecolor": "none", "pad": 1})
    at = [_week(day, start) for day, _ in facts["scores"]]
    totals = [total for _, total in facts["scores"]]
    axes.plot(at, totals, color="#20456b", linewidth=2.2, marker="o", markersize=7, markerfacecolor="white",
              markeredgewidth=2, zorder=3)
    if not totals:
        axes.text(weeks / 2, MOST / 2, "no check-in yet", ha="center", fontsize=_TEXT, color="#555555")
    for day, urgency in facts["flags"]:
        size, shape, filled = _FLAGS[urgency]
        axes.scatter([_week(day, start)], [MOST + 1.1], s=size, marker=shape, zorder=4, linewidths=1.6,
                     edgecolors=_INK, facecolors=_INK if filled else "white", clip_on=False)
    axes.set_ylim(-0.5, MOST + 1.9)
    axes.set_yticks(range(0, MOST + 1, 3))
    _plain(axes, weeks)


def _dose(axes: Axes, facts: Mapping[str, Any], start: date, weeks: float) -> None:
    """The day's planned amount as steps, each level written out."""
    axes.set_title(f"Dose a day ({facts['unit']})", fontsize=_TEXT, loc="left")
    most = max((amount for _, _, amount in facts["doses"]), default=1) or 1
    shown: float | None = None
    for begins, ends, amount in facts["doses"]:
        left, right = _week(begins, start), _week(ends, start) + 1 / 7
        axes.add_patch(Rectangle((left, 0), right - left, amount, facecolor=_STEP, edgecolor=_INK, linewidth=1.2))
        if amount != shown and right - left > weeks * 0.05:
            axes.text(left + weeks * 0.01, amount, f"{amount:g}", fontsize=_SMALL, fontweight="bold", va="bottom")
        shown = amount
    axes.set_ylim(0, most * 1.45)
    axes.set_yticks([0, most])
    axes.set_yticklabels(["0", f"{most:g}"])
    _plain(axes, weeks)


def _strip(axes: Axes, facts: Mapping[str, Any], start: date, weeks: float) -> None:
    """One cell a day: black all doses confirmed, half black some, empty none, hatched not due."""
    axes.set_title("Doses confirmed, day by day", fontsize=_TEXT, loc="left")
    first = _week(facts["first_row"], start)
    for place, mark in enumerate(facts["days"]):
        left = first + place / 7
        axes.add_patch(Rectangle((left, 0), 1 / 7, 1, facecolor="white", edgecolor="#888888", linewidth=0.4,
                                 hatch="////" if mark == OFF else None))
        if mark in (ALL, SOME):
            axes.add_patch(Rectangle((left, 0), 1 / 7, 1 if mark == ALL else 0.5, facecolor=_INK, linewidth=0))
    axes.set_ylim(0, 1)
    axes.set_yticks([])
    _plain(axes, weeks)
    axes.tick_params(axis="x", labelbottom=True)
    axes.set_xlabel("weeks since the start", fontsize=_SMALL)


def _plain(axes: Axes, weeks: float) -> None:
    axes.set_xlim(0, weeks)
    gap = next(one for one in (1, 2, 4, 8, 13, 26, 52, 104, 520) if weeks / one <= 9)
    axes.set_xticks([*range(0, int(weeks) + 1, gap)])
    axes.tick_params(axis="both", labelsize=_SMALL)
    axes.tick_params(axis="x", labelbottom=False)
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)


def _legend(facts: Mapping[str, Any]) -> str:
    """Only what the picture shows."""
    urgencies = {urgency for _, urgency in facts["flags"]}
    marks = [f"{sign} {name} flag" for sign, name in (("▲", "emergency"), ("■", "urgent"), ("○", "routine"))
             if name in urgencies]
    if facts["endoscopies"]:
        marks.append("┆ endoscopy")
    if facts["seasons"]:
        marks.append("/// season")
    rows = ["   ".join(marks[start:start + 3]) for start in range(0, len(marks), 3)]
    strip = "Strip: black all doses, half some, white none"
    return "\n".join([*rows, strip, "or not answered" + (", hatched not due" if OFF in facts["days"] else "")])


def _steps(rows: list[Day], dose_unit: int) -> list[list[Any]]:
    """Stretches of one amount: first day, last day, amount."""
    found: list[list[Any]] = []
    for row in rows:
        amount = float(row.daily_micrograms / dose_unit)
        if found and found[-1][2] == amount and date.fromisoformat(found[-1][1]) + timedelta(days=1) == row.day:
            found[-1][1] = row.day.isoformat()
        else:
            found.append([row.day.isoformat(), row.day.isoformat(), amount])
    return found


def _mark(row: Day) -> str:
    if not row.due and not row.taken:
        return OFF
    return ALL if row.taken >= row.due else SOME if row.taken else NONE


def _seasons(case: Case, first: date, today: date) -> list[list[str]]:
    """Stretches of the patient's seasons between two days."""
    found: list[list[str]] = []
    day = first
    while day <= today:
        ends = max((span[1] for season in case.plan.seasons if (span := in_season(season, day))), default=None)
        if ends is not None:
            found.append([day.isoformat(), min(ends, today).isoformat()])
            day = ends
        day += timedelta(days=1)
    return found


def _day(text: str) -> date:
    return date.fromisoformat(text)


def _week(text: str, start: date) -> float:
    """Weeks from the start of the course, 0 at its first day."""
    return (date.fromisoformat(text) - start).days / 7

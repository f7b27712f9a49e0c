"""A plan file (TOML, written and signed by a clinician) read into a Plan, with every problem named at once.

Beyond the agreed keys a plan may hold: [patient] weight_kg and writer ("patient" or "parent"); [medicine] dose_times,
which override the placement; [[phase]] times_per_day with `to`; and [[phase.step]] rows with `lasts` and either
`dose` and `times_per_day`, or `morning` and `evening`, or `doses` (a list). Fields are named as in the file; rows
count from 1: phase[2].lasts.
"""

from __future__ import annotations

import re
import tomllib
from datetime import time
from decimal import Decimal
from itertools import pairwise
from pathlib import Path
from typing import Any

from scheduler.amounts import parse_strength
from scheduler.dayplan import minimum_gap, minutes_of, place, since_waking, waking_minutes
from scheduler.errors import BadAmount, Problem, Refused, WrongInput
from scheduler.growth import height_doubt
from scheduler.localtime import zone
from scheduler.medicine import FORMS, VEHICLES, age_group, check_strength
from scheduler.phasefile import read_phases, read_season
from scheduler.plan import CheckInTime, Medicine, Patient, Phase, Plan, Season
from scheduler.protocol import ClinicProtocol
from scheduler.recipe import check_ahead
from scheduler.seal import read_seal
from scheduler.tomltable import Table, shown

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
LARGEST_FILE = 100_000  # characters; a plan has about two thousand
_REFERENCE = re.compile(r"[A-Za-z0-9][A-Za-z0-9-]{1,19}")
_BIRTHDAY = re.compile(r"(19|20)[0-9]{2}-?[01][0-9]-?[0-3][0-9]|[0-3]?[0-9]-[01]?[0-9]-(19|20)[0-9]{2}")
_LANGUAGE = re.compile(r"[a-z]{2}(-[A-Z]{2})?")


def read_plan(text: str, where: str, protocol: ClinicProtocol, stored: bool = False) -> Plan:
    """The plan in `text`; `where` names the file in errors. Raises WrongInput with every problem found.

    stored: the text comes from our own store; its seal, if it fits, keeps the taper steps and dose times that were
    signed. In a file from outside a seal is only a comment.
    """
    problems: list[Problem] = []
    top = Table(_toml(text, where), "", problems)
    if top.raw("schema", hint="write schema = 1") not in (1, None) or isinstance(top.data.get("schema"), bool):
        top.wrong("schema", f"must be 1, not {shown(top.data['schema'])}; this program reads version 1 of the format")
    patient = _patient(top.table("patient"), protocol)
    given, medicine = _medicine(top.table("medicine"), protocol)
    if patient and medicine and medicine.vehicle == "honey" and patient.age_years < 1:
        problems.append(
            Problem(
                "medicine.vehicle", "honey is never given under 12 months of age (infant botulism); use another vehicle"
            )
        )
    group = age_group(patient.age_years, protocol) if patient else "adult"  # a broken age hides no broken dose
    seal = read_seal(text) if stored else None
    phases = read_phases(top, medicine, group, protocol, seal)
    seasons = tuple(read_season(row, medicine, group, phases, protocol) for row in top.tables("season"))
    check_in = _check_in(top.table("check_in"), patient)
    endoscopy = _endoscopy(top.table("endoscopy", needed=False))
    signed = _signed(top.table("signed"))
    if given is None and seal is not None:
        given = seal.dose_times
    times = _times(given, patient, phases, [one for one in seasons if one], top, protocol)
    top.finish({"medicines": "one plan is one medicine; a switch needs a new plan with a new signature"})
    if problems:
        raise WrongInput(where, tuple(problems))
    assert patient and medicine and check_in and signed and all(phases) and all(seasons)
    return Plan(
        patient,
        medicine,
        tuple(one for one in phases if one),
        check_in,
        signed[0],
        signed[1],
        tuple(one for one in seasons if one),
        endoscopy,
        times,
        text,
    )


def load_plan(path: Path, protocol: ClinicProtocol) -> Plan:
    """The plan in a file. Raises WrongInput, also for a file that cannot be read or is no text."""
    return read_plan(read_text(path), str(path), protocol)


def read_text(path: Path) -> str:
    """A plan file's text. Raises WrongInput when it cannot be read, is no UTF-8, or is far too long."""
    try:
        with path.open("rb") as file:
            return file.read(4 * LARGEST_FILE).decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise WrongInput(
            str(path), (Problem("", f"is not a text in UTF-8 (byte {error.start}); save it as UTF-8"),)
        ) from error
    except (OSError, ValueError) as error:
        raise WrongInput(str(path), (Problem("", f"cannot be read: {error}"),)) from error


def _toml(text: str, where: str) -> Any:
    if len(text) > LARGEST_FILE:
        raise WrongInput(where, (Problem("", f"is longer than {LARGEST_FILE} characters; this is no plan file"),))
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError, ArithmeticError) as error:
        raise WrongInput(where, (Problem("", f"is not a TOML file that can be read: {error}"),)) from error


def _patient(table: Table | None, protocol: ClinicProtocol) -> Patient | None:
    if table is None:
        return None
    reference = table.text("reference", hint="the clinic's own reference")
    if reference and (not _REFERENCE.fullmatch(reference) or _BIRTHDAY.fullmatch(reference)):
        table.wrong(
            "reference",
            "must be the clinic's own reference of 2 to 20 letters, digits and hyphens, no name and no date of birth",
        )
    call_me = table.text("call_me", longest=30, hint="a first name to use")
    age = table.whole("age_years", 0, 120)
    height = table.whole("height_cm", 40, 250, needed=False)
    if age is not None and age < 18 and not table.has("height_cm"):
        table.wrong("height_cm", "is missing; it is needed under 18 years, where doses go by height too")
    if age is not None and (doubt := height_doubt(age, height, protocol, far=True)):
        table.wrong("height_cm", f"does not fit the age: {doubt} Correct age_years or height_cm")
    weight = table.decimal("weight_kg", 2, 400, "kg")
    time_zone = table.text("time_zone", hint='a name such as "America/Denver"')
    if time_zone:
        try:
            zone(time_zone)
        except WrongInput as error:
            table.wrong("time_zone", error.problems[0].message)
            time_zone = None
    language = table.text("language", hint='such as "en"')
    if language and not _LANGUAGE.fullmatch(language):
        table.wrong("language", f'must be a language code such as "en", not {shown(language)}')
    wakes, sleeps, meals = table.clock("wakes"), table.clock("sleeps"), table.clocks("meals")
    writer = table.choice("writer", ("patient", "parent"), needed=False) or "patient"
    conditions, others = table.texts("conditions"), table.texts("other_medicines")
    table.finish(
        {"name": "plans hold no full name; use call_me", "date_of_birth": "plans hold no birth date; use age_years"}
    )
    if None in (reference, call_me, age, time_zone, language, wakes, sleeps):
        return None
    assert (
        reference
        and call_me
        and age is not None
        and time_zone
        and language
        and wakes is not None
        and sleeps is not None
    )
    patient = Patient(
        reference, call_me, age, time_zone, language, wakes, sleeps, meals, height, weight, writer, conditions, others
    )
    return patient if _day_is_sound(patient, table) else None


def _day_is_sound(patient: Patient, table: Table) -> bool:
    awake = waking_minutes(patient)
    if not 8 * 60 <= awake <= 22 * 60:
        table.wrong(
            "sleeps",
            f"{patient.wakes:%H:%M} to {patient.sleeps:%H:%M} is a day of {awake // 60} h "
            f"{awake % 60} min; were wakes and sleeps exchanged?",
        )
        return False
    asleep = [
        f"{meal:%H:%M}" for meal in patient.meals if (minutes_of(meal) - minutes_of(patient.wakes)) % 1440 >= awake
    ]
    if asleep:
        table.wrong(
            "meals", f"{', '.join(asleep)} lies between sleeps {patient.sleeps:%H:%M} and wakes {patient.wakes:%H:%M}"
        )
    if len(set(patient.meals)) < len(patient.meals):
        table.wrong("meals", "names the same time twice")
    if not patient.meals:
        table.wrong("meals", "needs at least one time; doses are placed around meals")
    return not asleep and bool(patient.meals)


def _medicine(table: Table | None, protocol: ClinicProtocol) -> tuple[tuple[time, ...] | None, Medicine | None]:
    if table is None:
        return None, None
    name = table.choice("name", FORMS)
    form = table.choice("form", sorted(set(FORMS.values())))
    if name and form and FORMS[name] != form:
        table.wrong(
            "form",
            f'{name} comes as "{FORMS[name]}" here, not as "{form}"; the two medicines and their forms '
            "are not interchangeable",
        )
    strength = table.text("strength", hint='such as "0.5 mg / 2 mL" or "220 microgram"')
    found = None
    if strength and name:
        try:
            found = parse_strength(strength)
            check_strength(found, name, protocol)
        except BadAmount as error:
            table.wrong("strength", str(error))
            found = None
    per_pack = table.whole("units_per_pack", 1, 1000)
    on_hand = table.whole("packs_on_hand", 0, 100)
    vehicle = _vehicle(table, form)
    ahead = table.whole("mix_ahead_days", 0, 14, needed=False, unit="days") or 0
    if ahead:
        try:
            check_ahead(ahead, protocol)
        except Refused as error:
            table.wrong("mix_ahead_days", str(error))
    if form == "inhaler" and table.data.get("mix_ahead_days", 0) != 0:
        table.wrong("mix_ahead_days", "does not apply to an inhaler; remove it")
    times = table.clocks("dose_times", needed=False) if table.has("dose_times") else None
    table.finish()
    if name is None or form is None or FORMS[name] != form or found is None or per_pack is None or on_hand is None:
        return times, None
    return times, Medicine(name, form, found.amount, found.ml, per_pack, on_hand, vehicle, ahead)


def _vehicle(table: Table, form: str | None) -> str | None:
    if form == "inhaler":
        if table.has("vehicle"):
            table.asked.add("vehicle")
            table.wrong("vehicle", "does not apply to an inhaler, whose puffs are swallowed as they are; remove it")
        return None
    return table.choice("vehicle", VEHICLES, needed=form == "ampoule")


def _check_in(table: Table | None, patient: Patient | None) -> CheckInTime | None:
    if table is None:
        return None
    day, at = table.choice("day", WEEKDAYS), table.clock("time")
    table.finish()
    if day is None or at is None:
        return None
    if patient and (minutes_of(at) - minutes_of(patient.wakes)) % 1440 >= waking_minutes(patient):
        table.wrong("time", f"{at:%H:%M} lies between sleeps {patient.sleeps:%H:%M} and wakes {patient.wakes:%H:%M}")
    return CheckInTime(WEEKDAYS.index(day), at)


def _endoscopy(table: Table | None) -> int | None:
    if table is None:
        return None
    days = table.days("due_after")
    table.finish()
    return days


def _signed(table: Table | None) -> tuple[str, Any] | None:
    if table is None:
        return None
    by, on = table.text("by", hint="the clinician who signs", longest=80), table.day("on")
    table.finish()
    return None if by is None or on is None else (by, on)


def _times(
    given: tuple[time, ...] | None,
    patient: Patient | None,
    phases: list[Phase | None],
    seasons: list[Season],
    top: Table,
    protocol: ClinicProtocol,
) -> tuple[time, ...]:
    """The day's dose times: the clinician's own, or the best placement of the largest number of doses a day."""
    steps = [step for phase in phases if phase for step in phase.steps]
    most = max([len(step.doses) for step in steps] + [len(season.doses) for season in seasons], default=0)
    if patient is None or not most:
        return ()
    field = "medicine.dose_times"
    least = int(minimum_gap(most, protocol).total_seconds() // 60)
    if given is None:
        times = place(patient, most, protocol).times
        if _closest(since_waking(patient, times)) < least:
            told = f"this day leaves no room for {most} doses {least} min apart; plan fewer, or give dose_times"
            top.problems.append(Problem(field, told))
        return times
    if len(given) != most:
        top.problems.append(Problem(field, f"names {len(given)} times; the plan has up to {most} doses a day"))
    slots = since_waking(patient, given)
    if list(slots) != sorted(slots):
        top.problems.append(Problem(field, "must follow the patient's day, from waking to bedtime"))
    closest = _closest(slots)
    if closest < least:
        told = f"two doses are {closest} min apart; the protocol's minimum is {least} min: move one of them"
        top.problems.append(Problem(field, told))
    return given


def _closest(slots: tuple[int, ...]) -> int:
    """The least minutes between two neighbours, the night included; a whole day for a single dose."""
    ring = sorted(slots)
    return min(
        (later - earlier for earlier, later in pairwise([*ring, *(ring[:1] and [ring[0] + 1440])])), default=1440
    )

"""The signed plan: who, which medicine, which phases and steps, seasons and gates; and the dose in force on a date.

Pure data. Reading a plan from its TOML file is `planfile.py`; turning it into occasions is `timeline.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time
from decimal import Decimal

from scheduler.amounts import Amount


@dataclass(frozen=True, slots=True)
class Patient:
    """What the plan knows of the patient: a reference and a first name to use, never a full name or birth date."""

    reference: str
    call_me: str
    age_years: int
    time_zone: str
    language: str
    wakes: time
    sleeps: time
    meals: tuple[time, ...]
    height_cm: int | None = None
    weight_kg: Decimal | None = None
    writer: str = "patient"          # or "parent": who holds the phone
    conditions: tuple[str, ...] = ()
    other_medicines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Medicine:
    """The formulation that is repurposed. `unit_amount` is the medicine in one ampoule or one puff."""

    name: str                        # "budesonide" | "fluticasone"
    form: str                        # "ampoule" | "inhaler"
    unit_amount: Amount
    unit_ml: Decimal | None          # liquid in one ampoule; None for an inhaler
    units_per_pack: int
    packs_on_hand: int
    vehicle: str | None              # "sweetener", "honey", ...; None for an inhaler
    mix_ahead_days: int = 0

    @property
    def unit_name(self) -> str:
        return "ampoule" if self.form == "ampoule" else "puff"


@dataclass(frozen=True, slots=True)
class Dose:
    """One taking: the amount and the whole units that make it."""

    amount: Amount
    units: int


@dataclass(frozen=True, slots=True)
class Step:
    """A stretch with the same doses every day, in the order of the day (the last is the bedtime one).

    days is None for the last step of an open-ended phase.
    """

    days: int | None
    doses: tuple[Dose, ...]


@dataclass(frozen=True, slots=True)
class Phase:
    """A named part of the course. With a `gate` it starts only when the care team releases it."""

    name: str
    steps: tuple[Step, ...]
    starts: date | None = None       # None: the day after the phase before it, or the release of its gate
    gate: str | None = None


@dataclass(frozen=True, slots=True)
class Season:
    """The patient's own season, set by the clinic (month, day). The dose is raised `lead_days` before `begins`."""

    begins: tuple[int, int]
    ends: tuple[int, int]
    lead_days: int
    doses: tuple[Dose, ...]


@dataclass(frozen=True, slots=True)
class CheckInTime:
    """Weekly: Monday is 0, local wall-clock time."""

    weekday: int
    at: time


@dataclass(frozen=True, slots=True)
class Plan:
    """One signed plan. `text` is the TOML it was read from, kept word for word."""

    patient: Patient
    medicine: Medicine
    phases: tuple[Phase, ...]
    check_in: CheckInTime
    signed_by: str
    signed_on: date
    seasons: tuple[Season, ...] = ()
    endoscopy_after_days: int | None = None
    dose_times: tuple[time, ...] = ()   # given in the plan, or placed by dayplan
    text: str = ""

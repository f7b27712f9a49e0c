"""How a trial begins: which plans, on which database, at which instant of the virtual clock."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from bot.errors import BadUse, WrongSettings
from bot.given import EARLIEST, LATEST, readable
from bot.ports import Store
from bot.rehearsal.demo import demo_plan
from bot.storage.opening import MEMORY, open_store
from scheduler.localtime import instant
from scheduler.plan import Plan
from scheduler.planfile import load_plan
from scheduler.protocol import ClinicProtocol


def load_plans(paths: list[Path], protocol: ClinicProtocol) -> list[Plan]:
    """The plans named, or the invented adult that ships. Raises BadUse, and WrongInput for a plan with problems."""
    found = [load_plan(readable(path, "a plan file"), protocol) for path in paths]
    named = [plan.patient.reference for plan in found]
    if twice := next((one for one in named if named.count(one) > 1), None):
        raise BadUse(f"--plan: {twice} is named twice; give each patient one plan with a reference of its own")
    return found or [demo_plan("adult_slurry", protocol)]


async def trial_store(url: str, protocol: ClinicProtocol) -> Store:
    """A fresh store, or the one at `url`; refuses a database that may hold real patients. Raises WrongSettings."""
    store = await open_store(url or MEMORY, protocol)
    if await store.was_served():
        await store.close()
        raise WrongSettings(f"{url}: 'coatwell serve' has used this database, so it may hold real patients; "
                            "leave --database out, or name a new file")
    return store


def start_of(text: str, plan: Plan) -> datetime:
    """The virtual clock's first instant: as given, or five minutes before the plan's first dose. Raises BadUse."""
    if not text:
        first = plan.phases[0].starts or plan.signed_on
        opening = plan.dose_times[0]
        minutes = max(opening.hour * 60 + opening.minute - 5, 0)
        return instant(first, opening.replace(hour=minutes // 60, minute=minutes % 60), plan.patient.time_zone)
    try:
        told = datetime.strptime(text, "%Y-%m-%d %H:%M")  # noqa: DTZ007 - wall clock of the plan's zone
    except ValueError:
        raise BadUse(f'--start {text[:40]!r}: write it like "2026-03-02 07:40"') from None
    if not EARLIEST <= told.year <= LATEST:
        raise BadUse(f"--start {text}: give a time in the years {EARLIEST} to {LATEST}")
    return instant(told.date(), told.time(), plan.patient.time_zone)

"""A patient whose scenario is played by the real agent over a database, with every kind of entry on top."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from bot.case import Changes, Reply
from bot.rehearsal.play import Player, plan_of
from bot.rehearsal.scenario import load_scenario
from bot.rehearsal.world import World
from bot.storage.opening import open_store
from scheduler.localtime import instant
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind

SCENARIOS = Path(__file__).parents[2] / "fixtures" / "scenarios"
NOW = datetime(2026, 3, 23, 19, 0, tzinfo=UTC)
HARD_WORDS = '=cmd|"x"!A1, <b>ouch</b> & "quotes"\nsecond line, ünïcode ✓'


@dataclass(frozen=True)
class Lived:
    """A database file with one patient in it."""

    file: Path
    reference: str

    @property
    def url(self) -> str:
        return f"sqlite:///{self.file}"


async def live(url: str, protocol: ClinicProtocol) -> str:
    scenario = load_scenario(SCENARIOS / "a_weekly_check_in.toml")
    plan = plan_of(scenario, protocol)
    store = await open_store(url, protocol)
    start = instant(scenario.start.date(), scenario.start.time(), plan.patient.time_zone)
    played = await Player(scenario, World.make(store, protocol, start), plan, url).play()
    assert played.failures == []
    reference = plan.patient.reference
    async with store.work() as work:
        await work.apply(reference, Changes(entries=(
            Entry(EntryKind.ENDOSCOPY_DONE, NOW, "", {"date": "2026-03-20", "peak_eos_hpf": 12, "erefs": 2,
                                                      "dilation": False, "by": "Dr Okafor (clinician)"}),
            Entry(EntryKind.CORTISOL, NOW, "", {"date": "2026-03-20", "value": 310.5, "unit": "nmol/L",
                                                "by": "Dr Okafor (clinician)"}),
            Entry(EntryKind.PAUSED, NOW, "", {"by": "Ana (nurse)", "reason": "teeth", "until": None}),
            Entry(EntryKind.RESUMED, NOW, "", {"by": "Ana (nurse)"}),
            Entry(EntryKind.DOSE_SKIPPED, NOW, "v1:d:20260322:1", {"reason": "ill"}),
            Entry(EntryKind.DOSE_CORRECTED, NOW, "v1:d:20260322:1"),
            Entry(EntryKind.DOSE_SKIPPED, NOW, "v1:d:20260322:1", {"reason": "forgot"}),
            Entry(EntryKind.DOSE_UNKNOWN, NOW, "v1:d:20260313:0"),
        ), reply=Reply("hard", reference, NOW, "text", HARD_WORDS)), NOW)
    await store.close()
    return reference

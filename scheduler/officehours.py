"""When the care team reads: the clinic's own words, with the hours as the clock of whoever reads them shows them."""

from __future__ import annotations

from datetime import datetime

from scheduler.localtime import instant, local
from scheduler.protocol import ClinicProtocol


def reads_when(protocol: ClinicProtocol, language: str = "en", zone: str = "", at: datetime | None = None) -> str:
    """care.reads_when with its {opens} and {closes} filled in: "on working days from 9:00 to 17:00". With a zone and an
    instant the hours are those of that zone at that time of year; else the clinic's own."""
    words = protocol.text("care.reads_when", language)
    for name in ("opens", "closes"):
        clock = protocol.clock_time(f"care.{name}")
        if zone and at is not None:
            clinic = protocol.text("care.time_zone")
            clock = local(instant(local(at, clinic).date(), clock, clinic), zone).time()
        words = words.replace(f"{{{name}}}", f"{clock.hour}:{clock.minute:02}")
    return words

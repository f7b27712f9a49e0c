"""The clinic's hours in the clock of who reads them. Offsets by hand from the IANA time zone database: Denver UTC-7,
and UTC-6 from 8 March 2026; Madrid UTC+1, and UTC+2 from 29 March 2026; Phoenix UTC-7 all year."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from scheduler.officehours import reads_when
from scheduler.protocol import ClinicProtocol, Value, load_protocol


@pytest.mark.parametrize(("at", "zone", "hours"), [
    ("2026-03-02", "America/Denver", "from 9:00 to 17:00"),
    ("2026-03-02", "Europe/Madrid", "from 17:00 to 1:00"),
    ("2026-03-16", "Europe/Madrid", "from 16:00 to 0:00"),        # America has changed its clocks, Europe not yet
    ("2026-03-30", "Europe/Madrid", "from 17:00 to 1:00"),
    ("2026-07-01", "America/Phoenix", "from 8:00 to 16:00"),
])
def test_by_the_readers_clock(at: str, zone: str, hours: str) -> None:
    now = datetime.fromisoformat(f"{at}T15:00:00").replace(tzinfo=UTC)
    assert reads_when(load_protocol(), "en", zone, now) == f"on working days {hours}"


def test_by_the_clinics_own_where_nobodys_zone_is_known() -> None:
    assert reads_when(load_protocol(), "es") == "en días de trabajo, de 9:00 a 17:00"


def test_a_clinics_own_words_without_hours_stay() -> None:
    shipped = load_protocol()
    own = ClinicProtocol("own", "", {value.key: value for value in shipped} | {
        "care.reads_when": Value("care.reads_when", "every morning", "", "common practice, no source")})
    assert reads_when(own, "en", "Europe/Madrid", datetime(2026, 3, 2, tzinfo=UTC)) == "every morning"

"""Invites: one time, expiring, only a hash kept; guesses counted and slowed, and no hint whether a code exists."""

from __future__ import annotations

from collections.abc import AsyncIterator
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot import invites
from bot.ports import Work
from bot.storage.memory import MemoryStore
from scheduler.protocol import ClinicProtocol

NOW = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)


@pytest.fixture
async def work() -> AsyncIterator[Work]:
    async with MemoryStore().work() as opened:
        yield opened


async def test_used_once(work: Work, protocol: ClinicProtocol) -> None:
    code = await invites.make_invite(work, "patient", NOW, protocol, "KT-014")
    found = await invites.redeem(work, code, "maya", NOW, protocol)
    assert found is not None and (found.reference, found.used_by) == ("KT-014", "maya")
    assert await invites.redeem(work, code, "eve", NOW, protocol) is None
    assert await invites.redeem(work, code, "maya", NOW, protocol) is None


async def test_expired(work: Work, protocol: ClinicProtocol) -> None:
    code = await invites.make_invite(work, "patient", NOW, protocol, "KT-014")
    assert await invites.redeem(work, code, "maya", NOW + timedelta(days=7), protocol) is None


async def test_the_code_is_not_kept(work: Work, protocol: ClinicProtocol) -> None:
    code = await invites.make_invite(work, "nurse", NOW, protocol)
    kept = await work.invite(invites.hash_of(code))
    assert kept is not None and code not in repr(kept) and code.replace("-", "") not in repr(kept)


async def test_a_role_that_was_not_asked_for_is_not_used_up(work: Work, protocol: ClinicProtocol) -> None:
    code = await invites.make_invite(work, "nurse", NOW, protocol)
    assert await invites.redeem(work, code, "maya", NOW, protocol, roles=("patient",)) is None
    assert await invites.redeem(work, code, "ann", NOW, protocol, roles=invites.ROLES) is not None


async def test_guesses_are_slowed_then_locked_and_a_right_code_is_no_way_out(
        work: Work, protocol: ClinicProtocol) -> None:
    """The example protocol: slowed after 3 tries, locked after 5, for 60 minutes."""
    code = await invites.make_invite(work, "patient", NOW, protocol, "KT-014")
    for _ in range(3):
        assert await invites.redeem(work, "AAAA-AAAA-AAAA", "eve", NOW, protocol) is None
    assert await invites.redeem(work, code, "eve", NOW + timedelta(seconds=30), protocol) is None
    assert await work.tries("eve", NOW - timedelta(hours=1)) == 4
    assert await invites.redeem(work, code, "maya", NOW, protocol) is not None, "others are not slowed"
    other = await invites.make_invite(work, "patient", NOW, protocol, "MB-032")
    assert await invites.redeem(work, "wrong", "eve", NOW + timedelta(minutes=10), protocol) is None
    assert await invites.redeem(work, other, "eve", NOW + timedelta(minutes=40), protocol) is None
    assert await invites.redeem(work, other, "eve", NOW + timedelta(minutes=141), protocol) is not None


async def test_slowed_but_not_locked_waits_a_minute(work: Work, protocol: ClinicProtocol) -> None:
    code = await invites.make_invite(work, "patient", NOW, protocol, "KT-014")
    for _ in range(3):
        await invites.redeem(work, "AAAA-AAAA-AAAA", "maya", NOW, protocol)
    assert await invites.redeem(work, code, "maya", NOW + timedelta(minutes=2), protocol) is not None


async def test_an_unknown_role_is_refused(work: Work, protocol: ClinicProtocol) -> None:
    with pytest.raises(ValueError, match="there is no role 'boss'"):
        await invites.make_invite(work, "boss", NOW, protocol)


@given(st.text(alphabet="0123456789ABCDEFGHJKMNPQRSTVWXYZ", min_size=12, max_size=12))
def test_a_code_survives_how_people_type_it(letters: str) -> None:
    code = f"{letters[:4]}-{letters[4:8]}-{letters[8:]}"
    for typed in (code.lower(), f" {letters} ", code.replace("0", "O"), code.replace("1", "l"), code.replace("1", "I")):
        assert invites.hash_of(typed) == invites.hash_of(code)


def test_a_code_fits_a_deep_link() -> None:
    """Bot API: a start parameter is at most 64 of A-Z, a-z, 0-9, _ and -."""
    import re

    assert re.fullmatch(r"[A-Za-z0-9_-]{1,64}", "7Q4M-ABCD-WXYZ")
    assert len(invites._LETTERS) ** invites._LENGTH >= 2 ** 60

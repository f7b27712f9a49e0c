"""One-time invites, for patients and for the care team: only a hash is kept, guesses are counted and slowed.

A wrong, used, expired or locked-out code gives the same answer (None) after the same work: no hint whether it exists.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from collections.abc import Container
from dataclasses import replace
from datetime import datetime, timedelta

from bot.ports import Invite, Work
from scheduler.protocol import ClinicProtocol

PATIENT = "patient"
ROLES = ("clinician", "nurse", "on_call")

# Without I, L, O and U: they are read as 1, 1, 0 and V. 12 letters are 60 bits; a link takes letters, digits, - and _.
_LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_LENGTH, _GROUP = 12, 4
_SLOW_STEP = timedelta(minutes=1)


async def make_invite(work: Work, role: str, now: datetime, protocol: ClinicProtocol, reference: str = "") -> str:
    """Store a new invite and return its code, which is kept nowhere else. Raises ValueError for an unknown role."""
    if role not in (PATIENT, *ROLES):
        raise ValueError(f"there is no role {role!r}; use one of {', '.join((PATIENT, *ROLES))}")
    letters = "".join(secrets.choice(_LETTERS) for _ in range(_LENGTH))
    code = "-".join(letters[start:start + _GROUP] for start in range(0, _LENGTH, _GROUP))
    await work.add_invite(Invite(hash_of(code), role, reference, now, now + protocol.span("invite.valid_for")))
    return code


async def redeem(work: Work, code: str, sender: str, now: datetime, protocol: ClinicProtocol, *,
                 roles: Container[str] = (PATIENT, *ROLES)) -> Invite | None:
    """Use an invite for one of `roles` up, or count a failed try of this sender. None says nothing about why."""
    wanted = hash_of(code)
    allowed = await _may_try(work, sender, now, protocol)
    found = await work.invite(wanted)
    good = (found is not None and hmac.compare_digest(found.code_hash, wanted) and found.used_at is None
            and now < found.expires_at and found.for_role in roles)
    if found is None or not good or not allowed:
        await work.add_try(sender, now)
        return None
    await work.use_invite(wanted, sender, now)
    return replace(found, used_at=now, used_by=sender)


def hash_of(code: str) -> str:
    """SHA-256 of a code as somebody may have typed it: small letters, spaces, O for 0 and I or L for 1 are the same."""
    plain = "".join(code.split()).replace("-", "").upper().replace("O", "0").replace("I", "1").replace("L", "1")
    return hashlib.sha256(f"coatwell invite {plain}".encode()).hexdigest()


async def _may_try(work: Work, sender: str, now: datetime, protocol: ClinicProtocol) -> bool:
    """Locked after too many failures; before that each further try has to wait twice as long as the one before."""
    failed = await work.tries(sender, now - protocol.span("invite.lock"))
    if failed >= protocol.number("invite.tries"):
        return False
    beyond = failed - int(protocol.number("invite.slow_after"))
    if beyond < 0:
        return True
    return await work.tries(sender, now - _SLOW_STEP * 2 ** beyond) == 0

"""The count of a swallowed inhaler, canister by canister: when a new one is due, and the sprays that ready it.

A canister holds the puffs on its label and some sprays beyond them for getting it ready (protocol). It is used while
it covers the next dose, with the spray that readies it again after a rest; then a new one is begun, and what is left
in the old one is not used, although it may still spray (US inhaler label: discard at 000). The counter on the canister
decides; this count says when to look at it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any

from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol

SAME_CANISTER = 1  # doses given from a canister up to which 'a new one was begun' speaks of that canister


@dataclass(frozen=True, slots=True)
class Priming:
    """What to do with the inhaler before a dose.

    sprays: into the air. begins: the number of the canister that is begun with this dose (the first is 1), or None.
    repeated: it was told with an earlier dose that was never answered, and is counted there.
    """

    sprays: int = 0
    begins: int | None = None
    repeated: bool = False

    def as_facts(self) -> dict[str, Any]:
        """JSON values for the dose's reminder: {} when there is nothing to do."""
        if not self.sprays and self.begins is None:
            return {}
        return {"prime": {"sprays": self.sprays, "canister": self.begins, "repeated": self.repeated}}

    @property
    def counted(self) -> int:
        """Sprays that this dose takes from the canister."""
        return 0 if self.repeated else self.sprays


@dataclass
class Canisters:
    """The count while doses are gone through in order. `begun`: canisters begun; `left`: sprays in the one in use.

    last: when the inhaler was last known to be used. unsure: what was told with a dose that was never answered.
    """

    holds: int
    first: int
    again: int
    rest: timedelta
    begun: int = 0
    left: int = 0
    given: int = 0
    last: datetime | None = None
    unsure: Priming | None = None

    @classmethod
    def of(cls, plan: Plan, protocol: ClinicProtocol) -> Canisters:
        """No canister begun yet."""
        holds = plan.medicine.units_per_pack + int(protocol.number("inhaler.extra_sprays"))
        return cls(holds, int(protocol.number("inhaler.prime_first")), int(protocol.number("inhaler.prime_again")),
                   protocol.span("inhaler.prime_after"))

    def before(self, units: int, rested: bool) -> Priming:
        """What to do before a dose of so many puffs. rested: not used for longer than the protocol says."""
        again = self.again if rested and self.unsure is None else 0
        if not self.begun or again + units > self.left:
            return Priming(self.first, self.begun + 1)
        return self.unsure or Priming(again)

    def give(self, units: int, priming: Priming, at: datetime | None = None, known: bool = True) -> None:
        """The dose was given after `priming`, at `at`; known False: it was never answered, and is only reckoned."""
        if priming.begins is not None and not priming.repeated:
            self.begun, self.left, self.given = priming.begins, self.holds, 0
        self.left = max(0, self.left - priming.counted - units)
        self.given += 1
        if known:
            self.last, self.unsure = at, None
        elif priming.sprays or priming.begins is not None:
            self.unsure = replace(priming, repeated=True)

    def opened(self, at: datetime) -> int:
        """Somebody said that a new canister was begun and readied. The sprays that this counts: none when it is the
        one that the last dose began by this count already."""
        self.unsure, self.last = None, at if self.last is None else max(self.last, at)
        if self.begun and self.given <= SAME_CANISTER:
            return 0
        self.begun, self.left, self.given = self.begun + 1, self.holds - self.first, 0
        return self.first

"""What has happened to one patient: an append-only list of entries, and the questions asked of it.

The timeline is a pure function of the plan and of this record. Nothing here reads a clock.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from enum import StrEnum
from functools import cached_property
from heapq import merge
from operator import itemgetter
from typing import Any


class EntryKind(StrEnum):
    """Every kind of thing that the record keeps; `facts` keys in brackets, all JSON values."""

    DOSE_TAKEN = "dose_taken"            # about = dose key [taken_at, units, unit, amount]
    DOSE_SKIPPED = "dose_skipped"        # about = dose key [reason]
    DOSE_UNKNOWN = "dose_unknown"        # about = dose key: never answered; not the same as missed
    DOSE_CORRECTED = "dose_corrected"    # about = dose key: the last answer was a mistake [reason]
    DOSES_HELD = "doses_held"            # about = flag id: an emergency; no dose reminders until freed [rules]
    DOSES_FREED = "doses_freed"          # about = flag id [by]
    WINDOW_BROKEN = "window_broken"      # about = dose key: ate or drank too early [minutes]
    RINSE_DONE = "rinse_done"            # about = dose key
    STEP_UNDERSTOOD = "step_understood"  # about = step key
    GATE_RELEASED = "gate_released"      # about = gate name [phase, from (ISO date), by]
    GATE_HELD = "gate_held"              # about = gate name [by, reason]
    PAUSED = "paused"                    # [by, reason, until (ISO date) or null]
    RESUMED = "resumed"                  # [by]
    ENDOSCOPY_DONE = "endoscopy_done"    # [date, peak_eos_hpf, erefs, dilation, by]
    CORTISOL = "cortisol"                # [date, value, unit, by]
    SUPPLY_ADDED = "supply_added"        # [packs]
    PACK_OPENED = "pack_opened"          # a new inhaler was begun and readied, whatever the count says [by]
    CHECK_IN_DONE = "check_in_done"      # about = check-in key [score, answers]
    CHECK_IN_MISSED = "check_in_missed"  # about = check-in key
    QUESTION_ANSWERED = "question_answered"  # about = reply id: by its fixed answer alone [questions, words]
    CONSENTED = "consented"              # [version of the consent text]
    PLAN_SIGNED = "plan_signed"          # about = plan version [by, on; a changed plan: what `lasttold.py` names]


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing that happened. `at` is an aware instant; `facts` holds JSON values only."""

    kind: EntryKind
    at: datetime
    about: str = ""
    facts: Mapping[str, Any] = field(default_factory=dict)


DOSE_ANSWERS = (EntryKind.DOSE_TAKEN, EntryKind.DOSE_SKIPPED, EntryKind.DOSE_UNKNOWN)


@dataclass(frozen=True)
class Record:
    """All entries of one patient, oldest first."""

    entries: tuple[Entry, ...] = ()

    def __add__(self, more: Iterable[Entry]) -> Record:
        return Record((*self.entries, *more))

    @cached_property
    def kept(self) -> dict[int, object]:
        """What was worked out from this record and is dear, by plan version (`spending.doses_of`)."""
        return {}

    @cached_property
    def _by_kind(self) -> Mapping[EntryKind, list[tuple[int, Entry]]]:
        """Entries with their place, by kind; sorted out once, since a long record is asked again and again."""
        found: dict[EntryKind, list[tuple[int, Entry]]] = {}
        for place, entry in enumerate(self.entries):
            found.setdefault(entry.kind, []).append((place, entry))
        return found

    def of(self, *kinds: EntryKind) -> tuple[Entry, ...]:
        """Entries of these kinds, oldest first."""
        some = [found for kind in kinds if (found := self._by_kind.get(kind))]
        return tuple(entry for _, entry in (some[0] if len(some) == 1 else merge(*some, key=itemgetter(0))))

    @cached_property
    def pauses(self) -> tuple[Entry, ...]:
        """Pauses and resumptions, oldest first; looked for once, since every dose asks."""
        return self.of(EntryKind.PAUSED, EntryKind.RESUMED)

    @cached_property
    def dose_answers(self) -> Mapping[str, Entry]:
        """The answer in force for every dose that has one, by dose key; worked out once, in one pass."""
        found: dict[str, Entry] = {}
        for entry in self.entries:
            if entry.kind in DOSE_ANSWERS:
                found[entry.about] = entry
            elif entry.kind is EntryKind.DOSE_CORRECTED:
                found.pop(entry.about, None)
        return found

    def dose_answer(self, dose_key: str) -> Entry | None:
        """The answer in force for a dose: the last one given, or None when none stands (or it was taken back)."""
        return self.dose_answers.get(dose_key)

    def last_taken(self) -> Entry | None:
        """The dose most recently taken by its own `taken_at` instant."""
        return self._last_taken

    @cached_property
    def _last_taken(self) -> Entry | None:
        taken = (entry for entry in self.dose_answers.values() if entry.kind is EntryKind.DOSE_TAKEN)
        return max(taken, key=taken_at, default=None)

    def signed_after(self, version: int) -> datetime | None:
        """When a changed plan (version 2 and later) was signed; None for the first plan."""
        signed = self.signature(version) if version > 1 else None
        return signed.at if signed else None

    def signature(self, version: int) -> Entry | None:
        """The signature of a version of the plan, or None."""
        return next((entry for entry in self.of(EntryKind.PLAN_SIGNED) if entry.about == str(version)), None)

    @cached_property
    def joined(self) -> datetime | None:
        """When the patient last agreed to take part; None when not yet, or when the record tells nothing of it."""
        return max((entry.at for entry in self.of(EntryKind.CONSENTED)), default=None)

    def step_understood(self, key: str) -> bool:
        """Whether the step of this key was confirmed: by its notice of the day before or by its message of the day."""
        version, _, day = key.split(":")
        return any(entry.about.startswith(f"{version}:") and entry.about.endswith(f":{day}")
                   for entry in self.of(EntryKind.STEP_UNDERSTOOD))

    def taken_under_another(self, version: int, at: datetime, gap: timedelta) -> bool:
        """Whether a dose of another version of the plan was taken nearer to `at` than the least time between doses:
        then the dose of this version is the same dose of the day, and is not asked for again."""
        if version <= 1:
            return False
        prefix = f"v{version}:"
        near = self._taken[bisect_right(self._taken, at - gap, key=itemgetter(0)):
                           bisect_left(self._taken, at + gap, key=itemgetter(0))]
        return any(not key.startswith(prefix) for _, key in near)

    @cached_property
    def _taken(self) -> list[tuple[datetime, str]]:
        """When doses were taken, in order, with their keys."""
        return sorted((taken_at(entry), key) for key, entry in self.dose_answers.items()
                      if entry.kind is EntryKind.DOSE_TAKEN)

    def gate_released(self, gate: str) -> Entry | None:
        """The release of a gate, or None while it waits (a later hold takes a release back)."""
        told = (entry for entry in reversed(self.of(EntryKind.GATE_RELEASED, EntryKind.GATE_HELD))
                if entry.about == gate)
        last = next(told, None)
        return last if last is not None and last.kind is EntryKind.GATE_RELEASED else None

    def doses_held(self) -> Entry | None:
        """The hold in force (an emergency says 'do not eat or drink'), or None."""
        last = next(iter(reversed(self.of(EntryKind.DOSES_HELD, EntryKind.DOSES_FREED))), None)
        return last if last is not None and last.kind is EntryKind.DOSES_HELD else None

    def has(self, kind: EntryKind, about: str) -> bool:
        """Whether such an entry exists."""
        return any(entry.about == about for entry in self.of(kind))


def taken_at(entry: Entry) -> datetime:
    """The instant at which a dose was taken, as the patient told it (it may be earlier than the telling)."""
    told = entry.facts.get("taken_at")
    return datetime.fromisoformat(told) if told else entry.at

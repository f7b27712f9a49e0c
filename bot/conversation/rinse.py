"""The rinse after a dose: noted once, however it is told, and not asked for when told with the dose. Pure."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from bot.case import Case, Changes
from scheduler.record import Entry, EntryKind

TIME = "time"        # reason of a dose corrected: taken all the same, at another time; the rinse after it stands


def beside_dose(changes: Changes, now: datetime) -> Changes:
    """What a dose told as taken changes, where the same words tell of the rinse: it is recorded, and not asked for."""
    done = tuple(Entry(EntryKind.RINSE_DONE, now, entry.about) for entry in changes.entries
                 if entry.kind is EntryKind.DOSE_TAKEN)
    told = {"rinse_first": False, "rinse_now": False, "rinsed": True}
    messages = tuple(replace(one, facts={**one.facts, **told}) if one.kind.startswith("window_") else one
                     for one in changes.messages)
    return replace(changes, entries=(*changes.entries, *done), messages=messages) if done else changes


def stands(case: Case, key: str) -> bool:
    """Whether a rinse was told for this dose, and the dose not taken back since."""
    told = [entry.kind for entry in case.record.of(EntryKind.RINSE_DONE, EntryKind.DOSE_CORRECTED)
            if entry.about == key and entry.facts.get("reason") != TIME]
    return bool(told) and told[-1] is EntryKind.RINSE_DONE


def noted(case: Case, key: str, now: datetime) -> Changes:
    """The rinse after this dose, once."""
    if stands(case, key):
        return Changes()
    return Changes(entries=(Entry(EntryKind.RINSE_DONE, now, key),))

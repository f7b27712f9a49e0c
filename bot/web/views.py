"""From a stage to what the templates show: the two phones, the clock, the patients, what stands behind."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cache
from importlib import resources
from typing import Any

from bot.chat.types import Outgoing
from bot.web import behind
from bot.web.stage import CARE_TEAM, Item, Stage, places
from bot.web.strip import strip
from scheduler.localtime import local

SHOWN = 40                  # entries of a chat on the page; more on asking
SPEEDS = ((1, "real time"), (60, "1 min a second"), (600, "10 min a second"), (3600, "1 hour a second"))
_COMING = 60
_REPLIES = 3000         # taps are replies too: words may lie far back


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of a chat. kind: ours, words, tap, picture, file, note or day; `choices`: rows of (label, data)."""

    id: str
    kind: str
    clock: str
    who: str
    text: str
    name: str = ""
    choices: tuple[tuple[tuple[str, str], ...], ...] = ()
    picture: str = ""
    file: str = ""
    file_name: str = ""
    edited: bool = False
    seen: bool = True


def entries(stage: Stage, address: str, zone: str, many: int) -> tuple[list[Entry], int]:
    """The newest `many` entries of a chat, with the days between them; and how many older ones there are."""
    items = stage.items(address)
    older = max(0, len(items) - many)
    found: list[Entry] = []
    day = ""
    for number, item in enumerate(items[older:], older):
        wall = local(item.at, zone)
        if f"{wall:%Y%m%d}" != day:
            day = f"{wall:%Y%m%d}"
            found.append(Entry(f"{_id(address)}-day-{day}", "day", "", "", f"{wall:%A} {wall.day} {wall:%B %Y}"))
        found.append(_entry(item, f"{_id(address)}-{number}", address, number, f"{wall:%H:%M}"))
    return found, older


def _entry(item: Item, entry_id: str, address: str, number: int, clock: str) -> Entry:
    where = f"/content?chat={address}&entry={number}"
    if item.shown is None:
        picture = where if item.kind == "picture" and item.content else ""
        file = where if item.kind == "file" and item.content else ""
        return Entry(entry_id, item.kind, clock, item.who, item.text, picture=picture, file=file,
                     file_name=item.text if item.kind == "file" else "", seen=item.seen)
    outgoing = item.shown.outgoing
    return Entry(entry_id, "ours", clock, item.who, outgoing.text, item.shown.name, _choices(outgoing),
                 where if outgoing.photo is not None else "", where if outgoing.document is not None else "",
                 outgoing.file_name or "file", bool(item.shown.earlier))


def _choices(outgoing: Outgoing) -> tuple[tuple[tuple[str, str], ...], ...]:
    return tuple(tuple((button.label, button.data) for button in row if button.data) for row in outgoing.buttons)


def _id(address: str) -> str:
    return "".join(c if c.isalnum() else "-" for c in address)


def phones(stage: Stage, reference: str, many: int) -> dict[str, Any]:
    """Both phones. Marks what is shown as read."""
    zone = stage.zone(reference)
    plan = stage.plan(reference)
    person = stage.world.people.get(reference)
    address = person.sender if person else f"patient-{reference}"
    patient, patient_older = entries(stage, address, zone, many)
    care, care_older = entries(stage, stage.care_chat, zone, many)
    stage.read[stage.care_chat] = len(stage.items(stage.care_chat))
    parent = plan.patient.writer == "parent"
    return {
        "patient": {"name": plan.patient.call_me, "reference": reference, "address": address, "entries": patient,
                    "older": patient_older, "more": many + 200, "holder": "a parent writes" if parent else "",
                    "language": plan.patient.language},
        "care": {"address": stage.care_chat, "entries": care, "older": care_older, "more": many + 200,
                 "who": stage.care_who, "team": [(name, role.replace("_", " ")) for name, role in CARE_TEAM],
                 "places": [(chat, name, chat == stage.care_chat, 0 if chat == stage.care_chat else stage.unread(chat))
                            for chat, name in places(stage)],
                 "asks": _asks(stage, stage.care_chat)},
    }


def _asks(stage: Stage, address: str) -> bool:
    """Whether the newest message of ours waits for words."""
    newest = next((item.shown for item in reversed(stage.items(address)) if item.shown), None)
    return newest is not None and newest.outgoing.asks_reply


def clock(stage: Stage, reference: str) -> dict[str, Any]:
    """The virtual clock and its handles."""
    wall = local(stage.now, stage.zone(reference))
    return {"day": f"{wall:%A} {wall.day} {wall:%B %Y}", "time": f"{wall:%H:%M}", "seconds": f"{wall:%S}",
            "iso": wall.isoformat(timespec="seconds"), "zone": stage.zone(reference), "running": stage.running,
            "speed": stage.speed, "speeds": SPEEDS, "usual": stage.usual, "trouble": stage.trouble,
            "first": f"{wall:%Y-%m-%dT%H:%M}", "last": f"{wall + timedelta(days=365):%Y-%m-%dT%H:%M}",
            "busy": stage.lock.locked() and not stage.preparing}


def switcher(stages: Sequence[Stage], chosen: str) -> list[dict[str, Any]]:
    """The patients to switch between."""
    found = []
    for stage in stages:
        for plan in stage.plans:
            patient, medicine = plan.patient, plan.medicine
            found.append({"reference": patient.reference, "name": patient.call_me, "age": patient.age_years,
                          "what": f"{medicine.name}, {medicine.vehicle}" if medicine.vehicle else
                          f"{medicine.name}, {medicine.form}",
                          "about": stage.about.get(patient.reference, ""), "preparing": stage.preparing,
                          "chosen": patient.reference == chosen})
    return found


async def background(stage: Stage, reference: str) -> dict[str, Any] | None:
    """What stands behind the phones; None while the patient is not there yet."""
    protocol = stage.world.protocol
    async with stage.world.store.work() as work:
        case = await work.case(reference)
        coming = list(await work.coming(_COMING))
        replies = list(await work.replies(reference, _REPLIES))
    if case is None:
        return None
    now = stage.now
    waiting = behind.outbox(case, coming)
    return {"strip": strip(case.plan, case.record, now), "version": case.row.plan_version, "state": str(case.row.state),
            "signed_by": case.plan.signed_by, "signed_on": case.plan.signed_on,
            "window": behind.window(case, now, protocol),
            "outbox": waiting, "later": behind.from_plan(case, now, protocol, max(3, behind.NEXT - len(waiting))),
            "flags": behind.flags(case), "open_flags": len(case.open_flags), "readings": behind.readings(case, replies),
            "protocol": protocol.name, "banner": protocol.banner}


@cache
def situations() -> tuple[tuple[str, str], ...]:
    """(name, words) of the one-tap situations."""
    text = resources.files("bot.web").joinpath("situations.toml").read_text(encoding="utf-8")
    return tuple((row["name"], row["says"]) for row in tomllib.loads(text)["situation"])


def situation_words(number: int, now: datetime, zone: str) -> str:
    """The words of one situation, with a time of day filled in where it has one."""
    return situations()[number][1].replace("{ago}", f"{local(now - timedelta(minutes=20), zone):%H:%M}")

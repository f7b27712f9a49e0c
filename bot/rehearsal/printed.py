"""The log of a rehearsal as text: who said what to whom, when, by the patient's wall clock."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import wrap

from bot.rehearsal.world import CARE_CHAT, ON_CALL_CHAT, Line
from scheduler.localtime import local

WIDTH = 100
_CHATS = {CARE_CHAT: "care team", ON_CALL_CHAT: "on call"}


def as_text(lines: Iterable[Line], zone: str) -> Iterator[str]:
    """One paragraph a line of the log; a heading for each new day."""
    day = None
    for line in lines:
        at = local(line.at, zone)
        if at.date() != day:
            day = at.date()
            yield f"\n== {at:%A %d %B %Y} =="
        yield from _paragraph(line, f"{at:%H:%M}")


def _paragraph(line: Line, clock: str) -> Iterator[str]:
    chat = _CHATS.get(line.chat, line.chat.removeprefix("patient-"))
    head = f"{clock}  {line.who} > {chat}" if line.who == "Coatwell" else f"{clock}  {line.who} ({chat})"
    yield head + ("  (edited)" if line.edits else "") + ("  (picture)" if line.picture else "")
    for paragraph in line.text.split("\n"):
        for part in wrap(paragraph, WIDTH - 8) or [""]:
            yield f"        {part}"
    for row in line.buttons:
        yield "        " + " ".join(f"[{label}]" for label in row)


def as_json(line: Line, zone: str) -> dict[str, object]:
    """One record for programs."""
    return {"at": local(line.at, zone).isoformat(), "chat": line.chat, "who": line.who, "text": line.text,
            "buttons": [list(row) for row in line.buttons], "edited": line.edits}

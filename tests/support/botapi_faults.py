"""Faults that a test asks the Bot API stand-in for, and the network's own limits."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass

from botapi_world import ApiError

HTML = b"<html><head><title>Bad gateway</title></head><body><h1>Bad gateway</h1></body></html>"


@dataclass
class Fault:
    """kind: see KINDS. chat, method: None for any (getUpdates only by name). left: how many more; None for ever."""

    kind: str
    chat: int | None
    method: str | None
    left: int | None
    retry_after: int = 1
    delivered: bool = False
    description: str = ""

    def fits(self, method: str, chat: int | None) -> bool:
        if self.method is None and method == "getupdates":
            return False
        return self.method in (None, method) and self.chat in (None, chat)

    def api_error(self) -> ApiError | None:
        """The refusal in the Bot API's own form, for those kinds that have one."""
        match self.kind:
            case "429":
                wait = self.retry_after
                return ApiError(429, f"Too Many Requests: retry after {wait}", {"retry_after": wait})
            case "500":
                return ApiError(500, self.description or "Internal Server Error")
            case "400":
                return ApiError(400, self.description or "Bad Request: chat not found")
            case "401":
                return ApiError(401, "Unauthorized")
            case "403":
                return ApiError(403, self.description or "Forbidden: bot was blocked by the user")
            case "409":
                return ApiError(
                    409,
                    "Conflict: terminated by other getUpdates request; make sure that only one bot instance is running",
                )
            case "413":
                return ApiError(413, "Request Entity Too Large")
        return None

    def page(self) -> tuple[int, bytes] | None:
        """Status and body of an answer that is not the Bot API's."""
        status, _, what = self.kind.partition(" ")
        match what:
            case "html":
                return int(status), HTML
            case "cut":
                return int(status), b'{"ok":true,"result":{"message_id":12,"text":"half of an ans'
            case "no result":
                return int(status), b'{"ok":true}'
            case "empty result":
                return int(status), b'{"ok":true,"result":{}}'
        return None


KINDS = (
    "429", "500", "400", "401", "403", "409", "413",
    "502 html", "200 html", "403 html", "404 html", "429 html", "413 html",
    "200 cut", "200 no result", "200 empty result",
    "drop", "hang",
)  # fmt: skip
"""What can be asked for. With delivered=True the call does its work first; then the answer goes wrong."""


class Faults:
    """The faults waiting, first come first served."""

    def __init__(self) -> None:
        self._waiting: list[Fault] = []

    def add(self, fault: Fault) -> None:
        if fault.kind not in KINDS:
            raise ValueError(f"no fault '{fault.kind}'; there are {KINDS}")
        self._waiting.append(fault)

    def clear(self) -> None:
        self._waiting.clear()

    def waits_for(self, method: str) -> bool:
        """Whether a fault for exactly this method is waiting."""
        return any(fault.method == method for fault in self._waiting)

    def take(self, method: str, chat: int | None) -> Fault | None:
        for fault in self._waiting:
            if fault.fits(method, chat):
                if fault.left is not None:
                    fault.left -= 1
                    if fault.left <= 0:
                        self._waiting.remove(fault)
                return fault
        return None


class Pace:
    """The network's own limits, enforced with 429: messages a second overall, a minute in a group."""

    def __init__(self, overall: int = 30, group_per_minute: int = 20) -> None:
        self._overall: deque[float] = deque(maxlen=overall)
        self._groups: dict[int, deque[float]] = {}
        self._per_minute = group_per_minute
        self.refused = 0

    def count(self, chat: int, now: float) -> None:
        """Raises ApiError 429 when this call is one too many."""
        piles: list[tuple[deque[float], float]] = [(self._overall, 1.0)]
        if chat < 0:
            piles.append((self._groups.setdefault(chat, deque(maxlen=self._per_minute)), 60.0))
        for pile, span in piles:
            if len(pile) == pile.maxlen and now - pile[0] < span:
                self.refused += 1
                wait = max(1, round(span - (now - pile[0])))
                raise ApiError(429, f"Too Many Requests: retry after {wait}", {"retry_after": wait})
        for pile, _ in piles:
            pile.append(now)

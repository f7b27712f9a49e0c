"""How fast messages may leave, so that the network never has to say 'too many': per chat, per group and overall.

Pure: every call takes `now` in seconds of a monotonic clock. Which message goes first is the sender's business.
Defaults from the network's own guidance (its bot FAQ, 'My bot is hitting limits'): about one message a second in one
chat with short bursts allowed, 20 a minute in a group, about 30 a second overall. The burst of 3 is our own figure.
"""

from __future__ import annotations

from collections import OrderedDict, deque
from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Limits:
    """The network's pace: messages a second overall and a minute in one group; seconds between messages of one chat.

    chat_burst: how many a chat that was quiet may get at once. The reserves are parts of the overall and of a group's
    allowance that only urgent messages may use, so that one never waits behind others.
    """

    overall_per_second: int = 30
    chat_interval: float = 1.0
    chat_burst: int = 3
    group_per_minute: int = 20
    overall_reserve: int = 0
    group_reserve: int = 0


def with_reserve(limits: Limits) -> Limits:
    """The same with a part kept for what is urgent, our own choice: 2 of 30 a second, 5 of 20 a minute."""
    return replace(limits, overall_reserve=-(-limits.overall_per_second // 15) if limits.overall_per_second > 1 else 0,
                   group_reserve=limits.group_per_minute // 4)


class Pacing:
    """Remembers what was sent lately. Call `note_sent` when a send starts, not when it ends: sends overlap."""

    def __init__(self, limits: Limits | None = None) -> None:
        self._whole = self._limits = limits or Limits()
        self._overall: deque[float] = deque(maxlen=self._limits.overall_per_second)
        # Per chat, the instant at which its allowance is whole again; oldest sender first, so that old ones fall off.
        self._full_at: OrderedDict[str, float] = OrderedDict()
        self._group_sent: dict[str, deque[float]] = {}
        self._busy_until: dict[str, float] = {}

    @property
    def limits(self) -> Limits:
        """This process's part of the pace."""
        return self._limits

    def share_with(self, processes: int) -> None:
        """So many processes send with this bot's token: each takes its part of the overall pace."""
        part = max(1, self._whole.overall_per_second // max(1, processes))
        if part != self._limits.overall_per_second:
            self._limits = replace(self._whole, overall_per_second=part,
                                   overall_reserve=min(self._whole.overall_reserve, part - 1))
            self._overall = deque(self._overall, maxlen=part)

    def overall_delay(self, now: float, urgent: bool = False) -> float:
        """Seconds until anything at all may leave. Cheap: ask this before looking through many waiting messages."""
        allowed = self._limits.overall_per_second - (0 if urgent else self._limits.overall_reserve)
        return _until_free(self._overall, allowed, 1.0, now)

    def room(self, now: float) -> int:
        """How many messages that are not urgent may leave at this instant."""
        lately = sum(1 for at in self._overall if at + 1.0 > now)
        return max(0, self._limits.overall_per_second - self._limits.overall_reserve - lately)

    def chat_delay(self, address: str, is_group: bool, now: float, urgent: bool = False) -> float:
        """Seconds until this chat may get a message. An urgent one waits only for the network's own word and, in a
        group, for the group's whole allowance."""
        limits = self._limits
        wait = self._busy_until.get(address, now) - now
        full_at = self._full_at.get(address)
        if full_at is not None and not urgent:
            wait = max(wait, full_at - (limits.chat_burst - 1) * limits.chat_interval - now)
        sent = self._group_sent.get(address)
        if is_group and sent is not None:
            allowed = limits.group_per_minute - (0 if urgent else limits.group_reserve)
            wait = max(wait, _until_free(sent, allowed, 60.0, now))
        return max(0.0, wait)

    def delay(self, address: str, is_group: bool, now: float, urgent: bool = False) -> float:
        """Seconds until a message to `address` may leave; 0.0 means now."""
        return max(self.overall_delay(now, urgent), self.chat_delay(address, is_group, now, urgent))

    def note_sent(self, address: str, is_group: bool, now: float) -> None:
        """One message to `address` leaves at `now`."""
        self._overall.append(now)
        full_at = max(self._full_at.get(address, now), now) + self._limits.chat_interval
        self._full_at[address] = full_at
        self._full_at.move_to_end(address)
        if is_group:
            sent = self._group_sent.setdefault(address, deque(maxlen=self._limits.group_per_minute))
            sent.append(now)
        self._forget_idle(now)

    def note_busy(self, address: str, seconds: float, now: float) -> None:
        """The network asked this chat, and no other, to wait `seconds`. A shorter wait never cuts a longer one."""
        until = max(self._busy_until.get(address, now), now + seconds)
        self._busy_until = {key: at for key, at in self._busy_until.items() if at > now}
        self._busy_until[address] = until

    def note_moved(self, old: str, new: str) -> None:
        """A group has a new address: what it was sent counts there too."""
        if old in self._full_at:
            self._full_at[new] = max(self._full_at.pop(old), self._full_at.get(new, float("-inf")))
        if old in self._group_sent:
            self._group_sent[new] = self._group_sent.pop(old)
        if old in self._busy_until:
            self._busy_until[new] = max(self._busy_until.pop(old), self._busy_until.get(new, float("-inf")))

    @property
    def remembered(self) -> int:
        """How many chats are held in memory: those that sent lately, not all there are."""
        return len(self._full_at.keys() | self._group_sent.keys() | self._busy_until.keys())

    def _forget_idle(self, now: float) -> None:
        """Drop chats whose allowance is whole again; a few at a time, so that no call is slow."""
        for _ in range(2):
            oldest = next(iter(self._full_at), None)
            if oldest is None or self._full_at[oldest] > now:
                break
            group = self._group_sent.get(oldest)
            if group and group[-1] + 60.0 > now:
                self._full_at.move_to_end(oldest)
                continue
            del self._full_at[oldest]
            self._group_sent.pop(oldest, None)


def _until_free(sent: deque[float], allowed: int, span: float, now: float) -> float:
    """Seconds until fewer than `allowed` of what was sent lie within the last `span` seconds."""
    if len(sent) < allowed:
        return 0.0
    return max(0.0, sent[len(sent) - allowed] + span - now)

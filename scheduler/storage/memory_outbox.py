"""The outbox kept in memory: the twin of the outbox table, with the same order and the same rules.

Heaps hold hints only: an entry counts when it still agrees with its row, so changing a row never searches a heap and a
rollback only has to push the restored row's hints again.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from heapq import heappop, heappush, nsmallest

from scheduler.messages import Message, Priority, SendState, To
from scheduler.ports import Claimed, Mark
from scheduler.storage.undo import Undo

OPEN = (SendState.WAITING, SendState.CLAIMED)
Hint = tuple[datetime, int, str]                 # (instant, seq, key)


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the outbox. `not_before` is due_at, or later when it was put back for another try."""

    message: Message
    seq: int
    not_before: datetime
    state: SendState = SendState.WAITING
    lease_until: datetime | None = None
    holder: str = ""
    attempts: int = 0
    in_flight: bool = False
    name: str = ""
    sent_to: str = ""
    at: datetime | None = None
    trouble: str = ""


class MemoryOutbox:
    """Rows by key, with what finds them: by time, by priority, by patient, by the network's name."""

    def __init__(self) -> None:
        self.rows: dict[str, Row] = {}
        self._seq = 0
        self._waiting: list[str] = []                                    # sorted keys of WAITING rows
        self._by_time: list[Hint] = []                                   # every WAITING row, for next_due
        self._later: list[Hint] = []                                     # WAITING rows not yet promoted
        self._ready: dict[bool, list[tuple[int, datetime, int, str]]] = {False: [], True: []}
        self._leases: list[Hint] = []
        self._of: dict[str, list[Hint]] = {}                             # a patient's messages, sorted by due_at
        self._named: dict[tuple[str, str], str] = {}

    # writing

    def put(self, messages: Iterable[Message], undo: Undo) -> int:
        """Add messages whose key is new; returns how many."""
        new = 0
        for message in messages:
            if message.key in self.rows:
                continue
            self._seq += 1
            self._write(message.key, Row(message, self._seq, message.due_at), undo)
            if message.reference is not None:
                insort(self._of.setdefault(message.reference, []), (message.due_at, self._seq, message.key))
            new += 1
        return new

    def claim(self, now: datetime, limit: int, lease_until: datetime, holder: str, agent: bool, urgent: bool,
              chat_of: Callable[[str], tuple[str, bool]], undo: Undo) -> list[Claimed]:
        """Take up to `limit` due rows by priority, then time, then order of arrival."""
        self._take_back(now, undo)
        self._promote(now)
        ready = self._ready[agent]
        claimed: list[Claimed] = []
        while ready and len(claimed) < limit:
            if urgent and ready[0][0] > Priority.FLAG:
                break
            _, instant, seq, key = heappop(ready)
            row = self._valid(key, seq, SendState.WAITING)
            if row is None or row.not_before != instant:
                continue
            if instant > now:                      # the clock was set back since this row was promoted
                heappush(self._later, (instant, seq, key))
                continue
            self._write(key, replace(row, state=SendState.CLAIMED, lease_until=lease_until, holder=holder,
                                     attempts=row.attempts + 1), undo)
            claimed.append(self._claimed(row, chat_of))
        return claimed

    def mark(self, marks: Iterable[Mark], undo: Undo) -> None:
        """What became of claimed rows. A row known as SENT never goes back to another state."""
        for mark in marks:
            row = self.rows.get(mark.key)
            if row is None or (row.state is SendState.SENT and mark.state is not SendState.SENT):
                continue
            new = replace(row, state=mark.state, at=mark.at, lease_until=None, holder="", trouble=mark.trouble,
                          name=mark.name or row.name, sent_to=mark.address or row.sent_to,
                          not_before=mark.retry_at or row.not_before, attempts=row.attempts - mark.unsent)
            self._write(mark.key, new, undo)
            if new.name:
                undo.set(self._named, (new.sent_to, new.name), mark.key)

    def holders(self) -> list[str]:
        """Who holds claims."""
        return sorted({row.holder for row in self.rows.values() if row.state is SendState.CLAIMED})

    def take_back(self, holders: Iterable[str], undo: Undo) -> int:
        """Claims of these holders wait again, known to have been in flight; returns how many."""
        dead = set(holders)
        found = [(key, row) for key, row in self.rows.items() if row.state is SendState.CLAIMED and row.holder in dead]
        for key, row in found:
            self._write(key, replace(row, state=SendState.WAITING, lease_until=None, holder="", in_flight=True), undo)
        return len(found)

    def clock_set_back(self, before: datetime, now: datetime, undo: Undo) -> int:
        """What was due before the clock went back stays due; leases are not stretched. Returns how many."""
        changed: dict[str, Row] = {}
        for key, row in self.rows.items():
            if row.state is SendState.WAITING and row.not_before > now and row.message.due_at <= before:
                changed[key] = replace(row, not_before=now)
            elif row.state is SendState.CLAIMED and row.lease_until is not None and row.lease_until > now:
                changed[key] = replace(row, lease_until=now, not_before=min(row.not_before, now))
        for key, row in changed.items():
            self._write(key, row, undo)
        return len(changed)

    def cancel(self, keys: Iterable[str], undo: Undo) -> None:
        """WAITING rows with these keys (or prefixes, ending in "*") become CANCELLED."""
        for key in keys:
            for found in list(self._matching(key)):
                row = self.rows.get(found)
                if row is not None and row.state is SendState.WAITING:
                    self._write(found, replace(row, state=SendState.CANCELLED), undo)

    def drop_expanded(self, reference: str, now: datetime, undo: Undo) -> None:
        """Delete a patient's WAITING rows that came from the timeline and are due after `now`."""
        for row in list(self.of(reference)):
            if row.message.due_at <= now:
                break
            if row.state is SendState.WAITING and "occasion" in row.message.facts:
                self._write(row.message.key, None, undo)

    def erase(self, key: str, undo: Undo) -> None:
        """Delete a row, whatever its state."""
        row = self.rows.get(key)
        if row is not None:
            undo.drop(self._named, (row.sent_to, row.name))
            self._write(key, None, undo)

    def rewrite(self, key: str, message: Message, undo: Undo) -> None:
        """Put another message in a row's place; it keeps its state and its place in time."""
        row = self.rows.get(key)
        if row is not None:
            self._write(key, replace(row, message=message), undo)

    def prune(self, before: datetime) -> int:
        """Delete rows done before that instant; returns how many."""
        done = [key for key, row in self.rows.items() if row.state not in OPEN and row.not_before < before
                and (row.at is None or row.at < before)]
        for key in done:
            row = self.rows.pop(key)
            self._named.pop((row.sent_to, row.name), None)
        for reference, hints in self._of.items():
            self._of[reference] = [hint for hint in hints if self._valid(hint[2], hint[1]) is not None]
        return len(done)

    # reading

    def next_due(self) -> datetime | None:
        """The earliest instant at which a row could be claimed."""
        waiting = self._first(self._by_time, lambda row, at: row.state is SendState.WAITING and row.not_before == at)
        leased = self._first(self._leases, lambda row, at: row.state is SendState.CLAIMED and row.lease_until == at)
        return min((instant for instant in (waiting, leased) if instant is not None), default=None)

    def of(self, reference: str) -> Iterator[Row]:
        """A patient's rows, newest due first."""
        for _, seq, key in reversed(self._of.get(reference, ())):
            row = self._valid(key, seq)
            if row is not None:
                yield row

    def named(self, address: str, name: str) -> Row | None:
        """The row that the network knows as `name` in this chat."""
        key = self._named.get((address, name))
        return self.rows.get(key) if key is not None else None

    def waiting(self) -> Iterator[Row]:
        """All WAITING rows, in no useful order."""
        return (self.rows[key] for key in self._waiting)

    def coming(self, limit: int) -> list[Row]:
        """WAITING rows in order of time."""
        return nsmallest(limit, self.waiting(), key=lambda row: (row.not_before, row.seq))

    # inside

    def _write(self, key: str, new: Row | None, undo: Undo) -> None:
        undo.add(self._place, key, self.rows.get(key))
        self._place(key, new)

    def _place(self, key: str, new: Row | None) -> None:
        old = self.rows.get(key)
        if new is None:
            self.rows.pop(key, None)
        else:
            self.rows[key] = new
        was_waiting = old is not None and old.state is SendState.WAITING
        waits = new is not None and new.state is SendState.WAITING
        if waits and not was_waiting:
            insort(self._waiting, key)
        elif was_waiting and not waits:
            del self._waiting[bisect_left(self._waiting, key)]
        if new is None:
            return
        if waits:
            heappush(self._by_time, (new.not_before, new.seq, key))
            heappush(self._later, (new.not_before, new.seq, key))
        elif new.state is SendState.CLAIMED and new.lease_until is not None:
            heappush(self._leases, (new.lease_until, new.seq, key))

    def _valid(self, key: str, seq: int, state: SendState | None = None) -> Row | None:
        row = self.rows.get(key)
        if row is None or row.seq != seq or (state is not None and row.state is not state):
            return None
        return row

    def _take_back(self, now: datetime, undo: Undo) -> None:
        """Rows whose sender died with them: waiting again, and known to have been in flight."""
        while self._leases and self._leases[0][0] <= now:
            instant, seq, key = heappop(self._leases)
            row = self._valid(key, seq, SendState.CLAIMED)
            if row is not None and row.lease_until == instant:
                back = replace(row, state=SendState.WAITING, lease_until=None, holder="", in_flight=True)
                self._write(key, back, undo)

    def _promote(self, now: datetime) -> None:
        while self._later and self._later[0][0] <= now:
            instant, seq, key = heappop(self._later)
            row = self._valid(key, seq, SendState.WAITING)
            if row is not None and row.not_before == instant:
                heappush(self._ready[row.message.to is To.AGENT], (row.message.priority, instant, seq, key))

    def _claimed(self, row: Row, chat_of: Callable[[str], tuple[str, bool]]) -> Claimed:
        message = row.message
        address, held = "", False
        if message.to is To.PATIENT and message.reference is not None:
            address, held = chat_of(message.reference)
        elif message.to is To.CHAT:
            address = message.address or ""
        edited = self.rows.get(message.edits) if message.edits is not None else None
        return Claimed(message, address, row.attempts, row.in_flight, edited.name if edited is not None else "",
                       edited is not None and edited.state in OPEN, held)

    def _matching(self, key: str) -> Iterator[str]:
        if not key.endswith("*"):
            yield key
            return
        prefix = key[:-1]
        for index in range(bisect_left(self._waiting, prefix), len(self._waiting)):
            if not self._waiting[index].startswith(prefix):
                return
            yield self._waiting[index]

    def _first(self, heap: list[Hint], agrees: Callable[[Row, datetime], bool]) -> datetime | None:
        while heap:
            instant, seq, key = heap[0]
            row = self._valid(key, seq)
            if row is not None and agrees(row, instant):
                return instant
            heappop(heap)
        return None

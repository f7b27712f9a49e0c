"""A chat network in memory, the twin of the real ones: rehearsals, trials and tests run on it.

It keeps what every chat shows, lets people write and tap, and fails on demand. It has no clock: callers pass `at`.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime

from bot.chat.limits import check
from bot.chat.types import ChatError, ChatMoved, ChatRefused, Incoming, IncomingKind, Outgoing


@dataclass(slots=True)
class Shown:
    """One message of ours as it stands in a chat. `earlier`: what it showed before it was edited, oldest first."""

    name: str
    outgoing: Outgoing
    earlier: list[Outgoing] = field(default_factory=list)

    @property
    def text(self) -> str:
        return self.outgoing.text

    def data_of(self, label: str) -> str:
        """What the button with this label carries. KeyError names the labels that there are."""
        for row in self.outgoing.buttons:
            for button in row:
                if button.label == label:
                    return button.data
        labels = [button.label for row in self.outgoing.buttons for button in row]
        raise KeyError(f"no button '{label}' on message {self.name}; there are {labels}")


@dataclass(frozen=True, slots=True)
class Event:
    """Something that became visible in a chat: a new message, or one that was edited to `outgoing`."""

    address: str
    name: str
    outgoing: Outgoing
    edited: bool = False


@dataclass(slots=True)
class _Failure:
    error: ChatError
    address: str | None
    left: int
    delivered: bool


class MemoryChat:
    """The `Chat` port without a network. `shown[address]`: messages in order; `taps`: (tap, note) confirmed."""

    def __init__(self) -> None:
        self.shown: dict[str, list[Shown]] = {}
        self.taps: list[tuple[str, str]] = []
        self._events: list[Event] = []
        self._files: dict[str, bytes] = {}
        self._waiting: deque[Incoming] = deque()
        self._failures: list[_Failure] = []
        self._numbers: dict[str, int] = {}
        self._updates = 0
        self._blocked: set[str] = set()
        self._moved: dict[str, str] = {}

    # --- the port

    async def send(self, address: str, outgoing: Outgoing) -> str:
        """Show a message. Raises the ChatError set by `fail_next`, or ChatRefused for one no network takes."""
        check(outgoing)
        self._refuse_closed(address)
        failure = self._failure(address)
        if failure is not None and not failure.delivered:
            raise failure.error
        shown = Shown(self.next_number(address), outgoing)
        self.shown.setdefault(address, []).append(shown)
        self._events.append(Event(address, shown.name, outgoing))
        if failure is not None:
            raise failure.error
        return shown.name

    async def edit(self, address: str, message: str, outgoing: Outgoing) -> None:
        """Replace what a message shows; the same content again is done at once."""
        check(outgoing)
        self._refuse_closed(address)
        failure = self._failure(address)
        if failure is not None and not failure.delivered:
            raise failure.error
        shown = self.message(address, message)
        if shown.outgoing != outgoing:
            shown.earlier.append(shown.outgoing)
            shown.outgoing = outgoing
            self._events.append(Event(address, message, outgoing, edited=True))
        if failure is not None:
            raise failure.error

    async def confirm_tap(self, tap: str, note: str = "") -> None:
        """Note that a tap was confirmed."""
        self.taps.append((tap, note))

    async def fetch(self, file: str) -> bytes:
        """What a person sent. Raises ChatRefused for a file that nobody sent."""
        failure = self._failure(None)
        if failure is not None:
            raise failure.error
        if file not in self._files:
            raise ChatRefused("the network no longer has this file: ask the person to send it again")
        return self._files[file]

    # --- what a test or a rehearsal does

    def fail_next(
        self, error: ChatError, *, times: int = 1, address: str | None = None, delivered: bool = False
    ) -> None:
        """Make the next `times` calls fail, those to `address` or any. delivered: shown all the same (uncertain)."""
        self._failures.append(_Failure(error, address, times, delivered))

    def message(self, address: str, name: str) -> Shown:
        """The message with this name. Raises ChatRefused when this chat has none."""
        for shown in self.shown.get(address, ()):
            if shown.name == name:
                return shown
        raise ChatRefused(f"chat {address} has no message {name}")

    def texts(self, address: str) -> list[str]:
        """What a chat shows of ours, in order, as edited last."""
        return [shown.text for shown in self.shown.get(address, ())]

    def last(self, address: str) -> Shown:
        """The newest message in a chat. Raises LookupError when it is empty."""
        messages = self.shown.get(address)
        if not messages:
            raise LookupError(f"nothing was sent to {address}")
        return messages[-1]

    def take_events(self) -> Sequence[Event]:
        """All that was shown or edited in any chat since the last call, in order."""
        events, self._events = self._events, []
        return events

    def take(self) -> Sequence[Incoming]:
        """All updates since the last call, in order."""
        taken = list(self._waiting)
        self._waiting.clear()
        return taken

    def put(self, incoming: Incoming) -> Incoming:
        """Add an update as it is: a second copy, one out of order, one of another kind."""
        self._waiting.append(incoming)
        return incoming

    def person(self, sender: str, name: str = "") -> Person:
        """Somebody who can write and tap; their private chat has their own number."""
        return Person(self, sender, name)

    def keep_file(self, content: bytes) -> str:
        """Store a file and return its name at this network."""
        name = f"file-{len(self._files) + 1}"
        self._files[name] = content
        return name

    def next_update(self) -> str:
        """A fresh update id."""
        self._updates += 1
        return str(self._updates)

    def next_number(self, address: str) -> str:
        # People's messages and ours count together, as they do at the real networks.
        self._numbers[address] = self._numbers.get(address, 0) + 1
        return str(self._numbers[address])

    def block(self, address: str, blocked: bool = True) -> None:
        """Sends to this chat are refused from now on (or no longer): the person stopped the bot."""
        if blocked:
            self._blocked.add(address)
        else:
            self._blocked.discard(address)

    def move(self, old: str, new: str, at: datetime) -> Incoming:
        """A group gets a new address; the old one answers with it from now on."""
        self._moved[old] = new
        self._numbers.setdefault(new, 0)
        incoming = Incoming(self.next_update(), old, old, at, IncomingKind.MOVED, data=new, is_group=True)
        return self.put(incoming)

    def _refuse_closed(self, address: str) -> None:
        if address in self._moved:
            raise ChatMoved(self._moved[address])
        if address in self._blocked:
            raise ChatRefused("the person stopped the bot", blocked=True)

    def _failure(self, address: str | None) -> _Failure | None:
        for failure in self._failures:
            if failure.address is None or failure.address == address:
                failure.left -= 1
                if failure.left <= 0:
                    self._failures.remove(failure)
                return failure
        return None


@dataclass(frozen=True, slots=True)
class Person:
    """Acts at the network. `chat`: the address to write in, the person's private chat when left out."""

    network: MemoryChat
    sender: str
    name: str = ""

    def text(self, text: str, at: datetime, *, chat: str = "", reply_to: str = "") -> Incoming:
        """Write a message."""
        return self._act(IncomingKind.TEXT, at, chat, text=text, reply_to=reply_to)

    def tap(self, message: str, choice: str, at: datetime, *, chat: str = "") -> Incoming:
        """Tap a button of `message`, named by its label or by the data it carries."""
        shown = self.network.message(chat or self.sender, message)
        known = [button.data for row in shown.outgoing.buttons for button in row]
        data = choice if choice in known else shown.data_of(choice)
        incoming = Incoming(
            id=self.network.next_update(),
            chat=chat or self.sender,
            sender=self.sender,
            at=at,
            kind=IncomingKind.TAP,
            data=data,
            message=message,
            tap=f"tap-{self.network.next_update()}",
            sender_name=self.name,
            is_group=self._is_group(chat),
        )
        return self.network.put(incoming)

    def photo(self, content: bytes, at: datetime, *, caption: str = "", chat: str = "") -> Incoming:
        """Send a picture."""
        return self._act(IncomingKind.PHOTO, at, chat, text=caption, file=self.network.keep_file(content))

    def document(self, file_name: str, content: bytes, at: datetime, *, caption: str = "", chat: str = "") -> Incoming:
        """Send a document."""
        file = self.network.keep_file(content)
        return self._act(IncomingKind.DOCUMENT, at, chat, text=caption, file=file, file_name=file_name)

    def other(self, what: str, at: datetime, *, chat: str = "") -> Incoming:
        """Send something the agent does not read: 'sticker', 'voice'."""
        return self._act(IncomingKind.OTHER, at, chat, data=what)

    def block(self, at: datetime) -> Incoming:
        """Stop the bot: what is sent here is refused until `unblock`."""
        self.network.block(self.sender)
        return self._act(IncomingKind.BLOCKED, at, "", counted=False)

    def unblock(self, at: datetime) -> Incoming:
        """Let the bot write again."""
        self.network.block(self.sender, False)
        return self._act(IncomingKind.OTHER, at, "", counted=False, data="unblocked")

    def _act(self, kind: IncomingKind, at: datetime, chat: str, *, counted: bool = True, **more: str) -> Incoming:
        address = chat or self.sender
        return self.network.put(
            Incoming(
                id=self.network.next_update(),
                chat=address,
                sender=self.sender,
                at=at,
                kind=kind,
                message=self.network.next_number(address) if counted else "",
                sender_name=self.name,
                is_group=self._is_group(chat),
                text=more.get("text", ""),
                data=more.get("data", ""),
                reply_to=more.get("reply_to", ""),
                file=more.get("file", ""),
                file_name=more.get("file_name", ""),
            )
        )

    def _is_group(self, chat: str) -> bool:
        return bool(chat) and chat != self.sender

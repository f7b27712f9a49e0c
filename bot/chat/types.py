"""What passes between the agent and any chat network: incoming updates, outgoing messages, and how sending can fail."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Protocol


class IncomingKind(StrEnum):
    TEXT = "text"
    TAP = "tap"  # a button; `data` holds what it carries
    PHOTO = "photo"  # `file` names the picture at the network; `text` its caption
    DOCUMENT = "document"  # `file` and `file_name`
    MOVED = "moved"  # the chat has a new address, in `data`
    BLOCKED = "blocked"  # the person stopped the bot
    OTHER = "other"  # sticker, voice, something new: never dropped, a person looks


@dataclass(frozen=True, slots=True)
class Incoming:
    """One update of a chat network, as stored in the inbox.

    id: unique for ever within the network; a second copy is ignored. chat: address to answer to. sender: the person.
    at: aware instant given by the network. message: the network's name of the message tapped or written.
    reply_to: the network's name of the message this one replies to. tap: name to confirm a tap with.
    delayed: it may have waited at the network for longer than `at` tells (a tap carries no time of its own).
    """

    id: str
    chat: str
    sender: str
    at: datetime
    kind: IncomingKind
    text: str = ""
    data: str = ""
    message: str = ""
    reply_to: str = ""
    tap: str = ""
    file: str = ""
    file_name: str = ""
    sender_name: str = ""
    is_group: bool = False
    delayed: bool = False


@dataclass(frozen=True, slots=True)
class Button:
    """`data` comes back when tapped: at most 64 bytes of UTF-8. `url` opens a link instead."""

    label: str
    data: str = ""
    url: str = ""


@dataclass(frozen=True, slots=True)
class Outgoing:
    """One message to show: plain text (at most 4096 characters) and rows of buttons, or a picture or document with a
    caption (at most 1024).
    """

    text: str
    buttons: tuple[tuple[Button, ...], ...] = ()
    photo: bytes | None = None
    document: bytes | None = None
    file_name: str = ""
    asks_reply: bool = False  # the network should invite a reply to exactly this message
    reply_to: str = ""


class Chat(Protocol):
    """A chat network. One thin adapter each; the same contract test runs over every one."""

    async def send(self, address: str, outgoing: Outgoing) -> str:
        """Deliver; returns the network's name of the message. Raises a ChatError."""
        ...

    async def edit(self, address: str, message: str, outgoing: Outgoing) -> None:
        """Replace text and buttons of a message sent before. Raises a ChatError."""
        ...

    async def confirm_tap(self, tap: str, note: str = "") -> None:
        """Stop the button's waiting sign; `note` is shown briefly. Never raises: the tap itself is already stored."""
        ...

    async def fetch(self, file: str) -> bytes:
        """The content of a picture or document named by an update. Raises a ChatError."""
        ...


class ChatError(Exception):
    """Root of what can go wrong at a chat network."""


class ChatRefused(ChatError):
    """Will never be taken: bad request, chat gone. `blocked`: the person stopped the bot."""

    def __init__(self, why: str, *, blocked: bool = False) -> None:
        super().__init__(why)
        self.blocked = blocked


class ChatMoved(ChatError):
    """The chat has a new address; send again there."""

    def __init__(self, new_address: str) -> None:
        super().__init__(f"the chat moved to {new_address}")
        self.new_address = new_address


class ChatBusy(ChatError):
    """Not sent; this chat asks to wait `seconds`."""

    def __init__(self, seconds: float) -> None:
        super().__init__(f"asked to wait {seconds} s")
        self.seconds = seconds


class ChatUnreachable(ChatError):
    """Certainly not sent: the connection was refused, or no connection was free."""


class ChatUncertain(ChatError):
    """Sent or not: unknowable (timed out, dropped, answered with nonsense)."""


class ChatUnauthorised(ChatError):
    """The token is not accepted: stop loudly. The message never shows the token."""


class ChatConflict(ChatError):
    """Another reader takes this bot's updates, or a webhook is set: only one may read."""

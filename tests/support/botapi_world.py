"""What a Bot API server knows: people, chats, messages, files, updates not yet confirmed. The stand-in for tests."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

Json = dict[str, Any]
BOT_ID = 7000000001


class ApiError(Exception):
    """Answered as `{"ok": false, ...}` with this status."""

    def __init__(self, status: int, description: str, parameters: Json | None = None) -> None:
        super().__init__(description)
        self.status, self.description, self.parameters = status, description, parameters


@dataclass
class Post:
    """One message in a chat. `earlier`: texts before edits. `file`: name of its picture or document, '' for words."""

    id: int
    sender: Json
    date: int
    text: str = ""
    kind: str = "text"  # text, photo, document, or a service or other content
    markup: Json | None = None
    file: str = ""
    file_name: str = ""
    content: bytes = b""
    reply_to: int | None = None
    extra: Json = field(default_factory=dict)
    earlier: list[str] = field(default_factory=list)

    @property
    def by_bot(self) -> bool:
        return bool(self.sender["is_bot"])

    @property
    def buttons(self) -> list[Json]:
        """All buttons, row after row, as sent: {"text", "callback_data" or "url"}."""
        return [button for row in (self.markup or {}).get("inline_keyboard", []) for button in row]

    @property
    def labels(self) -> list[str]:
        return [button["text"] for button in self.buttons]

    @property
    def asks_reply(self) -> bool:
        return bool((self.markup or {}).get("force_reply"))

    def data_of(self, choice: str) -> str:
        """What a tap on the button with this label, or this data, sends."""
        for button in self.buttons:
            if choice in (button["text"], button.get("callback_data")) and "callback_data" in button:
                return str(button["callback_data"])
        raise AssertionError(f"message {self.id} has no button {choice!r}; it has {self.labels}: {self.text!r}")


@dataclass
class Room:
    """A chat. `refuses`: description of a 403 for whoever sends here. `moved_to`: the supergroup it became."""

    id: int
    type: str
    title: str = ""
    posts: list[Post] = field(default_factory=list)
    refuses: str = ""
    moved_to: int | None = None
    numbers: int = 0

    @property
    def by_bot(self) -> list[Post]:
        return [post for post in self.posts if post.by_bot]

    def texts(self) -> list[str]:
        """What the bot's messages show now."""
        return [post.text for post in self.by_bot]

    def post(self, number: int) -> Post | None:
        return next((post for post in self.posts if post.id == number), None)

    def as_shown(self) -> str:
        lines = []
        for post in self.posts:
            who = "bot" if post.by_bot else post.sender.get("first_name", "?")
            buttons = "  ".join(f"[{label}]" for label in post.labels)
            kind = "" if post.kind == "text" else f"({post.kind}) "
            lines.append(f"{post.id:>4} {who}: {kind}{post.text}" + (f"   {buttons}" if buttons else ""))
        return "\n".join(lines) or "(nothing)"


def wall_clock() -> datetime:
    return datetime.now(UTC)  # noqa: TID251 - the network has a clock of its own


class World:
    """All state of the stand-in. `clock` gives the dates of messages. Not locked: each change is one step."""

    def __init__(self, clock: Callable[[], datetime] = wall_clock) -> None:
        self.clock = clock
        self.bot: Json = {
            "id": BOT_ID,
            "is_bot": True,
            "first_name": "Coatwell",
            "username": "coatwell_example_bot",
            "can_join_groups": True,
            "can_read_all_group_messages": False,
            "supports_inline_queries": False,
        }
        self.rooms: dict[int, Room] = {}
        self.people: dict[int, Json] = {}
        self.files: dict[str, bytes] = {}
        self.updates: list[Json] = []  # not confirmed
        self.stray: list[Json] = []  # put into the next answer whatever its offset: copies, old ones
        self.taps: dict[str, str | None] = {}  # tap -> the note it was answered with; None: still waiting
        self.calls: list[tuple[str, Json]] = []
        self.allowed: list[str] | None = None
        self.webhook: Json | None = None
        self.double_next = 0
        self.reverse_next = 0
        self.last_update = 100_000
        self.changed: Callable[[], None] = lambda: None

    def room(self, chat: int) -> Room:
        """The chat a bot may write to. Raises the network's own refusals."""
        room = self.rooms.get(chat)
        if room is None:
            raise ApiError(400, "Bad Request: chat not found")
        if room.moved_to is not None:
            raise ApiError(
                400,
                "Bad Request: group chat was upgraded to a supergroup chat",
                {"migrate_to_chat_id": room.moved_to},
            )
        if room.refuses:
            raise ApiError(403, room.refuses)
        return room

    def now(self) -> int:
        return int(self.clock().timestamp())

    def add(self, room: Room, sender: Json, **content: Any) -> Post:
        """A new message; numbers run within a chat."""
        room.numbers += 1
        post = Post(room.numbers, sender, self.now(), **content)
        room.posts.append(post)
        return post

    def keep(self, content: bytes, suffix: str) -> str:
        """Store a file; returns its id."""
        name = f"file{len(self.files) + 1:04}{suffix}"
        self.files[name] = content
        return name

    def push(self, kind: str, content: Json, *, asked_for: bool = True) -> Json:
        """Add an update. Those of a kind that the bot did not ask for are left out, as documented."""
        self.last_update += 1
        update = {"update_id": self.last_update, kind: content}
        if not asked_for or self.allowed is None or kind in self.allowed:
            self.updates.append(update)
            self.changed()
        return update

    def view(self, room: Room, post: Post) -> Json:
        """A message as the Bot API shows it."""
        chat: Json = {"id": room.id, "type": room.type}
        if room.type == "private":
            chat["first_name"] = self.people.get(room.id, {}).get("first_name", "")
        else:
            chat["title"] = room.title
        seen: Json = {"message_id": post.id, "from": post.sender, "chat": chat, "date": post.date, **post.extra}
        if post.kind == "text":
            seen["text"] = post.text
        elif post.text:
            seen["caption"] = post.text
        if post.kind == "photo":
            seen["photo"] = [
                photo_size(post.file, 90, len(post.content)),
                photo_size(post.file, 800, len(post.content)),
            ]
        if post.kind == "document":
            seen["document"] = {
                "file_id": post.file,
                "file_unique_id": "u" + post.file,
                "file_name": post.file_name,
                "file_size": len(post.content),
            }
        if post.earlier:
            seen["edit_date"] = self.now()
        if (post.markup or {}).get("inline_keyboard"):
            seen["reply_markup"] = post.markup
        replied = room.post(post.reply_to) if post.reply_to else None
        if replied is not None:
            seen["reply_to_message"] = self.view(room, replied)
        return seen


def photo_size(file: str, side: int, size: int) -> Json:
    """The small one carries a name of its own, so that a reader who takes the wrong one is found out."""
    name = file if side > 100 else "small-" + file
    return {"file_id": name, "file_unique_id": "u" + name, "width": side, "height": side, "file_size": size}


def parse_markup(value: object) -> Json | None:
    """The reply_markup parameter, checked against the documented limits."""
    if value in (None, ""):
        return None
    markup = json.loads(value) if isinstance(value, str) else value
    if not isinstance(markup, dict):
        raise ApiError(400, "Bad Request: object expected as reply markup")
    for row in markup.get("inline_keyboard", []):
        for button in row:
            if not button.get("text"):
                raise ApiError(400, "Bad Request: can't parse inline keyboard button: text is empty")
            data, url = button.get("callback_data"), button.get("url")
            if (data is None) == (url is None):
                raise ApiError(400, "Bad Request: text buttons are unallowed in the inline keyboard")
            if data is not None and not 1 <= len(data.encode()) <= 64:
                raise ApiError(400, "Bad Request: BUTTON_DATA_INVALID")
    return markup

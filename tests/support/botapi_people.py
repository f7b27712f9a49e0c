"""People and groups of the Bot API stand-in: they write, tap, send pictures, block, join, as a test tells them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from botapi_world import Json, Post, Room, World


@dataclass(frozen=True)
class User:
    """A person. `chat` in the methods: a group, its id, or None for the private chat with the bot."""

    world: World
    id: int

    @property
    def card(self) -> Json:
        return self.world.people[self.id]

    @property
    def room(self) -> Room:
        return self.world.rooms[self.id]

    def start(self, code: str = "") -> Post:
        """Open the bot by its link."""
        return self.text(f"/start {code}".strip())

    def text(self, text: str, chat: Group | int | None = None, reply_to: int | None = None) -> Post:
        return self._write(chat, text=text, reply_to=reply_to)

    def photo(self, content: bytes, caption: str = "", chat: Group | int | None = None) -> Post:
        name = self.world.keep(content, ".jpg")
        return self._write(chat, text=caption, kind="photo", file=name, content=content)

    def document(self, file_name: str, content: bytes, caption: str = "", chat: Group | int | None = None) -> Post:
        name = self.world.keep(content, ".bin")
        return self._write(chat, text=caption, kind="document", file=name, file_name=file_name, content=content)

    def sticker(self, emoji: str = "🙂", chat: Group | int | None = None) -> Post:
        content = {"file_id": self.world.keep(b"sticker", ".webp"), "emoji": emoji, "type": "regular"}
        return self._write(chat, kind="sticker", extra={"sticker": content})

    def voice(self, content: bytes = b"OggS", chat: Group | int | None = None) -> Post:
        name = self.world.keep(content, ".ogg")
        return self._write(chat, kind="voice", extra={"voice": {"file_id": name, "duration": 3}})

    def edit(self, message: int, text: str, chat: Group | int | None = None) -> Post:
        """Change the words of a message of one's own."""
        room = self._room(chat)
        post = room.post(message)
        assert post is not None and not post.by_bot, f"no message {message} of a person in chat {room.id}"
        post.earlier.append(post.text)
        post.text = text
        self.world.push("edited_message", self.world.view(room, post))
        return post

    def tap(self, message: int | None, choice: str, chat: Group | int | None = None) -> str:
        """Tap a button, by its label or its data; message None: the newest that has it. Returns the tap's id."""
        room = self._room(chat)
        if message is None:
            shown = [p for p in room.by_bot if any(choice in (b["text"], b.get("callback_data")) for b in p.buttons)]
            assert shown, f"nothing in chat {room.id} has a button {choice!r}:\n{room.as_shown()}"
            post = shown[-1]
        else:
            found = room.post(message)
            assert found is not None, f"no message {message} in chat {room.id}:\n{room.as_shown()}"
            post = found
        data = post.data_of(choice)
        tap = f"tap{len(self.world.taps) + 1}"
        self.world.taps[tap] = None
        query = {
            "id": tap,
            "from": self.card,
            "chat_instance": str(room.id),
            "message": self.world.view(room, post),
            "data": data,
        }
        self.world.push("callback_query", query)
        return tap

    def block(self) -> None:
        """Stop the bot: it is told, and its messages are refused."""
        self.room.refuses = "Forbidden: bot was blocked by the user"
        self._membership("member", "kicked")

    def unblock(self) -> None:
        self.room.refuses = ""
        self._membership("kicked", "member")

    def _membership(self, before: str, after: str) -> None:
        self.world.push("my_chat_member", membership(self.world, self.room, self.card, before, after))

    def _room(self, chat: Group | int | None) -> Room:
        if chat is None:
            return self.room
        return self.world.rooms[chat if isinstance(chat, int) else chat.id]

    def _write(self, chat: Group | int | None, **content: Any) -> Post:
        room = self._room(chat)
        assert room.moved_to is None, f"chat {room.id} is now {room.moved_to}: write there"
        post = self.world.add(room, self.card, **content)
        self.world.push("message", self.world.view(room, post))
        return post


@dataclass(frozen=True)
class Group:
    """A group chat in which the bot is a member."""

    world: World
    id: int

    @property
    def room(self) -> Room:
        return self.world.rooms[self.id]

    def migrate(self) -> Group:
        """Make it a supergroup with a new id: both chats say so, sends to the old id are refused with the new one."""
        old = self.room
        new_id = -1_000_000_000_000 + old.id
        new = Room(new_id, "supergroup", old.title)
        self.world.rooms[new_id] = new
        author = next(iter(self.world.people.values()), self.world.bot)
        told_old = self.world.add(old, author, kind="moved", extra={"migrate_to_chat_id": new_id})
        told_new = self.world.add(new, author, kind="moved", extra={"migrate_from_chat_id": old.id})
        self.world.push("message", self.world.view(old, told_old))
        self.world.push("message", self.world.view(new, told_new))
        old.moved_to = new_id
        return Group(self.world, new_id)

    def remove_bot(self, by: User) -> None:
        """Take the bot out of the group."""
        self.room.refuses = "Forbidden: bot was kicked from the group chat"
        self.world.push("my_chat_member", membership(self.world, self.room, by.card, "member", "kicked"))


def membership(world: World, room: Room, by: Json, before: str, after: str) -> Json:
    """A ChatMemberUpdated about the bot itself."""
    chat: Json = {"id": room.id, "type": room.type}
    if room.title:
        chat["title"] = room.title
    return {
        "chat": chat,
        "from": by,
        "date": world.now(),
        "old_chat_member": {"user": world.bot, "status": before},
        "new_chat_member": {"user": world.bot, "status": after},
    }

"""One raw update of the Bot API, a JSON object, becomes an `Incoming`. Pure, and never an exception: an update that
cannot be read still reaches a person as `IncomingKind.OTHER`, and never holds up the updates behind it.

Source: the Bot API reference, objects Update, Message, CallbackQuery, ChatMemberUpdated. The client library's own
parsing is left out on purpose: one field that it does not expect makes it refuse the whole batch.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from bot.chat.types import Incoming, IncomingKind

Json = dict[str, Any]

ALLOWED_UPDATES = ("message", "edited_message", "callback_query", "my_chat_member")
"""What we ask the network for: everything a person does in a chat with the bot."""

# Fields of a message that say nothing about what kind of message it is.
_ENVELOPE = frozenset(
    {
        "message_id", "message_thread_id", "direct_messages_topic", "from", "sender_chat", "sender_boost_count",
        "sender_business_bot", "sender_tag", "date", "business_connection_id", "chat",
        "forward_origin", "is_topic_message",
        "is_automatic_forward", "reply_to_message", "external_reply", "quote", "reply_to_story", "via_bot", "edit_date",
        "has_protected_content", "is_from_offline", "is_paid_post", "media_group_id", "author_signature",
        "paid_star_count", "entities", "caption", "caption_entities", "link_preview_options", "effect_id",
        "show_caption_above_media", "has_media_spoiler", "reply_markup", "reply_to_checklist_task_id",
    }
)  # fmt: skip
_WITH_FILE = ("voice", "audio", "video", "video_note", "animation", "sticker")
_GROUPS = frozenset({"group", "supergroup", "channel"})
_GONE = frozenset({"kicked", "left"})


def read_update(update: object, received: datetime) -> Incoming:
    """The `Incoming` of one update.

    received: aware instant at which the update came; used where the network gives none (a tap carries no time).
    For OTHER, `data` names the content in the network's word ('sticker', 'voice', 'unblocked', ...) and `file` names
    its file if it has one. What a person changed later comes again with `data` 'edited' ('edited location', ...).
    """
    number = _update_id(update)
    try:
        incoming = _read(update, number, received)
    except (TypeError, ValueError, KeyError, AttributeError, OverflowError, RecursionError):
        incoming = Incoming(number, chat="", sender="", at=received, kind=IncomingKind.OTHER, data="unreadable")
    return _clean(incoming)


def update_number(update: object) -> int | None:
    """The network's running number of this update; None when there is none to move on by."""
    if isinstance(update, dict):
        number = update.get("update_id")
        if isinstance(number, int) and not isinstance(number, bool):
            return number
    return None


def _update_id(update: object) -> str:
    number = update_number(update)
    if number is not None:
        return str(number)
    # Without a number the content itself is the name, so that a second copy is still known as one.
    content = json.dumps(update, sort_keys=True, default=repr)
    return "unnumbered-" + hashlib.sha256(content.encode("utf-8", "surrogatepass")).hexdigest()[:24]


def _read(update: object, number: str, received: datetime) -> Incoming:
    fields = _object(update)
    if "callback_query" in fields:
        return _read_tap(_object(fields["callback_query"]), number, received)
    if "my_chat_member" in fields:
        return _read_membership(_object(fields["my_chat_member"]), number, received)
    for name in ("message", "edited_message"):
        if name in fields:
            incoming = _read_message(_object(fields[name]), number, received)
            if name == "edited_message" and incoming.kind is not IncomingKind.MOVED:
                return replace(incoming, data=f"edited {incoming.data}".strip())
            return incoming
    return _read_unknown(fields, number, received)


def _read_message(message: Json, number: str, received: datetime) -> Incoming:
    chat = _object(message.get("chat"))
    sender, name = _person(message, chat)
    base = Incoming(
        id=number,
        chat=_name(chat.get("id")),
        sender=sender,
        at=_instant(message.get("edit_date") or message.get("date"), received),
        kind=IncomingKind.OTHER,
        text=_text(message.get("text")) or _text(message.get("caption")),
        message=_name(message.get("message_id")),
        reply_to=_name(_object(message.get("reply_to_message")).get("message_id")),
        sender_name=name,
        is_group=chat.get("type") in _GROUPS,
    )
    if "migrate_to_chat_id" in message:
        return replace(base, kind=IncomingKind.MOVED, data=_name(message["migrate_to_chat_id"]))
    if "migrate_from_chat_id" in message:  # the same news, told in the new chat
        return replace(base, kind=IncomingKind.MOVED, chat=_name(message["migrate_from_chat_id"]), data=base.chat)
    if _text(message.get("text")):
        return replace(base, kind=IncomingKind.TEXT)
    if picture := _largest(message.get("photo")):
        return replace(base, kind=IncomingKind.PHOTO, file=picture)
    # An animation carries a document too (documented): it is no report that a person sent, so it stays OTHER.
    if "document" in message and "animation" not in message:
        document = _object(message["document"])
        file, file_name = _name(document.get("file_id")), _text(document.get("file_name"))
        if file:
            return replace(base, kind=IncomingKind.DOCUMENT, file=file, file_name=file_name)
    return _other(base, message)


def _other(base: Incoming, message: Json) -> Incoming:
    for what in _WITH_FILE:
        if what in message:
            content = _object(message[what])
            file_name = _text(content.get("file_name"))
            text = base.text or _text(content.get("emoji"))
            return replace(base, data=what, file=_name(content.get("file_id")), file_name=file_name, text=text)
    what = next((key for key in message if key not in _ENVELOPE), "empty")
    return replace(base, data=what)


def _read_tap(query: Json, number: str, received: datetime) -> Incoming:
    sender, name = _person(query, {})
    message = _object(query.get("message"))
    chat = _object(message.get("chat"))
    data = _text(query.get("data"))
    return Incoming(
        id=number,
        chat=_name(chat.get("id")) or sender,
        sender=sender,
        at=received,
        kind=IncomingKind.TAP if data else IncomingKind.OTHER,
        data=data or "tap without data",
        message=_name(message.get("message_id")),
        tap=_name(query.get("id")),
        sender_name=name,
        is_group=chat.get("type") in _GROUPS,
    )


def _read_membership(change: Json, number: str, received: datetime) -> Incoming:
    chat = _object(change.get("chat"))
    sender, name = _person(change, chat)
    is_group = chat.get("type") in _GROUPS
    gone = _object(change.get("new_chat_member")).get("status") in _GONE
    back = "added" if is_group else "unblocked"
    return Incoming(
        id=number,
        chat=_name(chat.get("id")),
        sender=sender,
        at=_instant(change.get("date"), received),
        kind=IncomingKind.BLOCKED if gone else IncomingKind.OTHER,
        data="" if gone else back,
        sender_name=name,
        is_group=is_group,
    )


def _read_unknown(fields: Json, number: str, received: datetime) -> Incoming:
    """A kind of update that we did not ask for, or that did not exist when this was written."""
    what = next((key for key in fields if key != "update_id"), "empty")
    content = _object(fields.get(what))
    chat = _object(content.get("chat"))
    sender, name = _person(content, chat)
    return Incoming(
        id=number,
        chat=_name(chat.get("id")) or sender,
        sender=sender,
        at=_instant(content.get("date"), received),
        kind=IncomingKind.OTHER,
        text=_text(content.get("text")),
        data=what,
        message=_name(content.get("message_id")),
        sender_name=name,
        is_group=chat.get("type") in _GROUPS,
    )


def _person(content: Json, chat: Json) -> tuple[str, str]:
    """Who acted: the person, else the chat in whose name they wrote, else the chat itself."""
    person = _object(content.get("from") or content.get("user"))
    if not person:
        person = _object(content.get("sender_chat")) or chat
    parts = (_text(person.get("first_name")), _text(person.get("last_name")))
    name = " ".join(part for part in parts if part) or _text(person.get("title")) or _text(person.get("username"))
    return _name(person.get("id")), name


def _largest(photo: object) -> str:
    sizes = [_object(size) for size in photo] if isinstance(photo, list) else []
    named = [size for size in sizes if _name(size.get("file_id"))]
    if not named:
        return ""
    return _name(max(named, key=_area)["file_id"])


def _area(size: Json) -> int:
    sides = (size.get("width"), size.get("height"))
    return sides[0] * sides[1] if isinstance(sides[0], int) and isinstance(sides[1], int) else 0


def _object(value: object) -> Json:
    return value if isinstance(value, dict) else {}


def _text(value: object) -> str:
    return value if isinstance(value, str) else ""


def _name(value: object) -> str:
    """A number or name of the network as text; "" when it is missing or of another type."""
    if isinstance(value, bool):
        return ""
    return str(value) if isinstance(value, int | str) else ""


def _instant(value: object, received: datetime) -> datetime:
    # 0 is documented as the date of a message that the bot can no longer see.
    if not isinstance(value, int) or isinstance(value, bool) or value <= 0:
        return received
    try:
        return datetime.fromtimestamp(value, UTC)
    except (ValueError, OverflowError, OSError):
        return received


def _clean(incoming: Incoming) -> Incoming:
    """Halves of characters and NUL cannot be stored by every database; one such text must not stop all the others."""
    fixed: dict[str, Any] = {
        name: _storable(value)
        for name in ("chat", "sender", "text", "data", "message", "reply_to", "tap", "file", "file_name", "sender_name")
        if (value := getattr(incoming, name)) and not (value.isascii() and "\0" not in value)
    }
    return replace(incoming, **fixed) if fixed else incoming


def _storable(text: str) -> str:
    whole = text.encode("utf-16-le", "surrogatepass").decode("utf-16-le", "replace")
    return whole.replace("\0", "\ufffd")

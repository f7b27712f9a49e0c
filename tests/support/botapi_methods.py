"""The Bot API methods that the stand-in speaks, each a function of the world and the call's parameters.

Limits and refusals as documented in the Bot API reference; the words of the refusals from memory.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from botapi_world import ApiError, Json, Post, Room, World, parse_markup

TEXT, CAPTION, DATA, NOTE = 4096, 1024, 64, 200


def _chat(world: World, params: Json) -> Room:
    try:
        return world.room(int(params.get("chat_id", "")))
    except ValueError:
        raise ApiError(400, "Bad Request: chat_id is empty") from None


def _reply(room: Room, params: Json) -> int | None:
    value = params.get("reply_parameters")
    if not value:
        return None
    wanted = json.loads(value) if isinstance(value, str) else value
    if room.post(wanted["message_id"]) is not None:
        return int(wanted["message_id"])
    if wanted.get("allow_sending_without_reply"):
        return None
    raise ApiError(400, "Bad Request: message to be replied not found")


def _caption(params: Json) -> str:
    caption = str(params.get("caption", ""))
    if len(caption) > CAPTION:
        raise ApiError(400, "Bad Request: message caption is too long")
    return caption


def _text(params: Json) -> str:
    text = str(params.get("text", ""))
    if not text.strip():
        raise ApiError(400, "Bad Request: message text is empty")
    if len(text) > TEXT:
        raise ApiError(400, "Bad Request: message is too long")
    return text


def _upload(params: Json, name: str) -> tuple[bytes, str]:
    value = params.get(name)
    if isinstance(value, str) and value.startswith("attach://"):
        value = params.get(value.removeprefix("attach://"))
    if not isinstance(value, tuple):
        raise ApiError(400, f"Bad Request: there is no {name} in the request")
    content, file_name = value
    if not content:
        raise ApiError(400, "Bad Request: file must be non-empty")
    return content, file_name


def get_me(world: World, _params: Json) -> object:
    return world.bot


def send_message(world: World, params: Json) -> object:
    room = _chat(world, params)
    text, markup, reply = _text(params), parse_markup(params.get("reply_markup")), _reply(room, params)
    return world.view(room, world.add(room, world.bot, text=text, markup=markup, reply_to=reply))


def send_photo(world: World, params: Json) -> object:
    room = _chat(world, params)
    content, _ = _upload(params, "photo")
    if not content.startswith((b"\x89PNG", b"\xff\xd8\xff")):
        raise ApiError(400, "Bad Request: IMAGE_PROCESS_FAILED")
    return _send_file(world, room, params, "photo", content, "picture.jpg", ".jpg")


def send_document(world: World, params: Json) -> object:
    room = _chat(world, params)
    content, name = _upload(params, "document")
    return _send_file(world, room, params, "document", content, name, ".bin")


def _send_file(world: World, room: Room, params: Json, kind: str, content: bytes, name: str, suffix: str) -> object:
    post = world.add(
        room,
        world.bot,
        text=_caption(params),
        kind=kind,
        markup=parse_markup(params.get("reply_markup")),
        reply_to=_reply(room, params),
        content=content,
        file_name=name,
        file=world.keep(content, suffix),
    )
    return world.view(room, post)


def _own_post(world: World, params: Json) -> tuple[Room, Post]:
    room = _chat(world, params)
    post = room.post(int(params.get("message_id", 0)))
    if post is None:
        raise ApiError(400, "Bad Request: message to edit not found")
    # Documented: only messages without reply_markup or with inline keyboards can be edited.
    if not post.by_bot or post.asks_reply:
        raise ApiError(400, "Bad Request: message can't be edited")
    return room, post


def _edit(world: World, room: Room, post: Post, text: str, markup: Json | None) -> object:
    if text == post.text and (markup or {}) == (post.markup or {}):
        raise ApiError(
            400,
            "Bad Request: message is not modified: specified new message content and reply markup are exactly the same"
            " as a current content and reply markup of the message",
        )
    if text != post.text:
        post.earlier.append(post.text)
    post.text, post.markup = text, markup
    return world.view(room, post)


def edit_message_text(world: World, params: Json) -> object:
    room, post = _own_post(world, params)
    if post.kind != "text":
        raise ApiError(400, "Bad Request: there is no text in the message to edit")
    return _edit(world, room, post, _text(params), parse_markup(params.get("reply_markup")))


def edit_message_caption(world: World, params: Json) -> object:
    room, post = _own_post(world, params)
    if post.kind == "text":
        raise ApiError(400, "Bad Request: there is no caption in the message to edit")
    return _edit(world, room, post, _caption(params), parse_markup(params.get("reply_markup")))


def edit_message_reply_markup(world: World, params: Json) -> object:
    room, post = _own_post(world, params)
    return _edit(world, room, post, post.text, parse_markup(params.get("reply_markup")))


def answer_callback_query(world: World, params: Json) -> object:
    tap = str(params.get("callback_query_id", ""))
    if world.taps.get(tap, "unknown") is not None:
        raise ApiError(400, "Bad Request: query is too old and response timeout expired or query ID is invalid")
    note = str(params.get("text", ""))
    if len(note) > NOTE:
        raise ApiError(400, "Bad Request: MESSAGE_TOO_LONG")
    world.taps[tap] = note
    return True


def get_file(world: World, params: Json) -> object:
    name = str(params.get("file_id", ""))
    if name not in world.files:
        raise ApiError(400, "Bad Request: wrong file_id or the file is temporarily unavailable")
    size = len(world.files[name])
    if size > 20 * 1024 * 1024:  # documented: bots can download files of up to 20 MB
        raise ApiError(400, "Bad Request: file is too big")
    return {"file_id": name, "file_unique_id": "u" + name, "file_size": size, "file_path": "files/" + name}


def set_webhook(world: World, params: Json) -> object:
    url = str(params.get("url", ""))
    world.allowed = _names(params.get("allowed_updates"), world.allowed)
    world.webhook = {"url": url, "secret": str(params.get("secret_token", ""))} if url else None
    world.changed()
    return True


def delete_webhook(world: World, params: Json) -> object:
    world.webhook = None
    if str(params.get("drop_pending_updates", "")).lower() == "true":
        world.updates.clear()
    return True


def take_updates(world: World, params: Json) -> list[Json]:
    """getUpdates without its waiting: confirm below the offset, return what is there."""
    offset = int(params.get("offset") or 0)
    if offset > 0:
        world.updates = [update for update in world.updates if update["update_id"] >= offset]
    elif offset < 0:
        world.updates = world.updates[offset:]
    limit = min(max(int(params.get("limit") or 100), 1), 100)
    found = world.updates[:limit] + world.stray
    world.stray = []
    if found and world.double_next > 0:
        world.double_next -= 1
        found = [copy for update in found for copy in (update, update)]
    if found and world.reverse_next > 0:
        world.reverse_next -= 1
        found = found[::-1]
    return found


def remember_allowed(world: World, params: Json) -> None:
    world.allowed = _names(params.get("allowed_updates"), world.allowed)


def _names(value: object, before: list[str] | None) -> list[str] | None:
    if value in (None, ""):
        return before  # documented: if not specified, the previous setting is used
    names = json.loads(value) if isinstance(value, str) else value
    return list(names) or None  # type: ignore[call-overload]


METHODS: dict[str, Callable[[World, dict[str, Any]], object]] = {
    "getme": get_me,
    "sendmessage": send_message,
    "sendphoto": send_photo,
    "senddocument": send_document,
    "editmessagetext": edit_message_text,
    "editmessagecaption": edit_message_caption,
    "editmessagereplymarkup": edit_message_reply_markup,
    "answercallbackquery": answer_callback_query,
    "getfile": get_file,
    "setwebhook": set_webhook,
    "deletewebhook": delete_webhook,
}

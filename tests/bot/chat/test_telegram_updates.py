"""Raw updates, in the shapes that the Bot API reference documents, become what the inbox stores."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.chat.telegram_updates import read_update, update_number
from bot.chat.types import IncomingKind

NOW = datetime(2026, 3, 2, 14, 10, tzinfo=UTC)
DATE = 1772460300  # 2026-03-02 14:05 UTC
MAYA = {"id": 1001, "is_bot": False, "first_name": "Maya", "last_name": "O.", "language_code": "en"}
PRIVATE = {"id": 1001, "type": "private", "first_name": "Maya"}
CARE = {"id": -1000000000500, "type": "supergroup", "title": "Care team"}


def message(**content: Any) -> dict[str, Any]:
    return {"update_id": 77, "message": {"message_id": 12, "from": MAYA, "chat": PRIVATE, "date": DATE, **content}}


def test_text() -> None:
    read = read_update(message(text="it hurts", reply_to_message={"message_id": 9, "text": "How is it?"}), NOW)
    assert (read.id, read.kind, read.text) == ("77", IncomingKind.TEXT, "it hurts")
    assert (read.chat, read.sender, read.sender_name, read.message, read.reply_to) == (
        "1001",
        "1001",
        "Maya O.",
        "12",
        "9",
    )
    assert read.at == datetime(2026, 3, 2, 14, 5, tzinfo=UTC)
    assert not read.is_group


def test_text_in_a_supergroup() -> None:
    read = read_update(message(text="/panel", chat=CARE), NOW)
    assert (read.chat, read.sender, read.is_group) == ("-1000000000500", "1001", True)


def test_an_edited_text_is_read_again_with_the_time_of_the_edit() -> None:
    fields = message(text="food is stuck", edit_date=DATE + 60)["message"]
    read = read_update({"update_id": 78, "edited_message": fields}, NOW)
    assert (read.kind, read.text, read.data) == (IncomingKind.TEXT, "food is stuck", "edited")
    assert read.at == datetime(2026, 3, 2, 14, 6, tzinfo=UTC)


def test_an_edit_of_what_is_not_read_is_told_apart_too() -> None:
    """A shared live location is edited every few seconds: whoever gets these must be able to tell."""
    fields = message(location={"latitude": 1.0, "longitude": 2.0}, edit_date=DATE + 5)["message"]
    read = read_update({"update_id": 79, "edited_message": fields}, NOW)
    assert (read.kind, read.data) == (IncomingKind.OTHER, "edited location")


def test_a_photo_gives_its_largest_size_and_its_caption() -> None:
    sizes = [
        {"file_id": "big", "width": 1280, "height": 960},
        {"file_id": "small", "width": 90, "height": 67},
        {"file_id": "no size"},
    ]
    read = read_update(message(photo=sizes, caption="white spots"), NOW)
    assert (read.kind, read.file, read.text) == (IncomingKind.PHOTO, "big", "white spots")


def test_a_document() -> None:
    read = read_update(message(document={"file_id": "f1", "file_name": "letter.pdf"}, caption="from my doctor"), NOW)
    assert (read.kind, read.file, read.file_name) == (IncomingKind.DOCUMENT, "f1", "letter.pdf")


def test_a_tap_carries_its_data_message_and_name_and_the_time_it_came() -> None:
    # CallbackQuery has no time of its own, and its message's date is the time of the message.
    query = {
        "id": "900",
        "from": MAYA,
        "chat_instance": "x",
        "data": "dose:7:taken",
        "message": {"message_id": 12, "chat": PRIVATE, "date": DATE, "text": "Time for your dose"},
    }
    read = read_update({"update_id": 5, "callback_query": query}, NOW)
    assert (read.kind, read.data, read.message, read.tap, read.at) == (
        IncomingKind.TAP,
        "dose:7:taken",
        "12",
        "900",
        NOW,
    )
    assert (read.chat, read.sender, read.text) == ("1001", "1001", "")


def test_a_tap_on_a_message_too_old_to_see() -> None:
    query = {"id": "900", "from": MAYA, "data": "a", "message": {"message_id": 12, "chat": CARE, "date": 0}}
    read = read_update({"update_id": 5, "callback_query": query}, NOW)
    assert (read.kind, read.chat, read.is_group, read.at) == (IncomingKind.TAP, "-1000000000500", True, NOW)


def test_a_tap_without_data_or_message() -> None:
    read = read_update({"update_id": 5, "callback_query": {"id": "900", "from": MAYA, "game_short_name": "g"}}, NOW)
    assert (read.kind, read.chat, read.tap) == (IncomingKind.OTHER, "1001", "900")


@pytest.mark.parametrize(
    "fields",
    [
        {"chat": {"id": -500, "type": "group", "title": "Care"}, "migrate_to_chat_id": -1000000000500},
        {"chat": CARE, "migrate_from_chat_id": -500},
    ],
    ids=["told in the old chat", "told in the new chat"],
)
def test_a_group_that_moved_says_the_same_in_both_chats(fields: dict[str, Any]) -> None:
    read = read_update(message(**fields), NOW)
    assert (read.kind, read.chat, read.data, read.is_group) == (IncomingKind.MOVED, "-500", "-1000000000500", True)


def membership(chat: dict[str, Any], status: str) -> dict[str, Any]:
    bot = {"id": 7, "is_bot": True, "first_name": "Coatwell"}
    change = {"chat": chat, "from": MAYA, "date": DATE, "new_chat_member": {"user": bot, "status": status}}
    return {"update_id": 6, "my_chat_member": {**change, "old_chat_member": {"user": bot, "status": "member"}}}


def test_blocked_unblocked_removed_added() -> None:
    blocked = read_update(membership(PRIVATE, "kicked"), NOW)
    assert (blocked.kind, blocked.chat, blocked.is_group) == (IncomingKind.BLOCKED, "1001", False)
    back = read_update(membership(PRIVATE, "member"), NOW)
    assert (back.kind, back.data) == (IncomingKind.OTHER, "unblocked")
    removed = read_update(membership(CARE, "left"), NOW)
    assert (removed.kind, removed.is_group) == (IncomingKind.BLOCKED, True)
    assert read_update(membership(CARE, "member"), NOW).data == "added"


@pytest.mark.parametrize(
    ("content", "data", "file"),
    [
        ({"sticker": {"file_id": "s", "emoji": "😢"}}, "sticker", "s"),
        ({"voice": {"file_id": "v", "duration": 4}}, "voice", "v"),
        ({"animation": {"file_id": "a"}, "document": {"file_id": "a", "file_name": "x.mp4"}}, "animation", "a"),
        ({"location": {"latitude": 1.0, "longitude": 2.0}}, "location", ""),
        ({"contact": {"phone_number": "0", "first_name": "X"}}, "contact", ""),
        ({"new_chat_title": "Team"}, "new_chat_title", ""),
        ({"something_of_2031": {"a": 1}, "caption": "look"}, "something_of_2031", ""),
        ({}, "empty", ""),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_is_no_text_photo_or_document_reaches_a_person(content: dict[str, Any], data: str, file: str) -> None:
    read = read_update(message(**content), NOW)
    assert (read.kind, read.data, read.file, read.chat) == (IncomingKind.OTHER, data, file, "1001")


def test_the_emoji_of_a_sticker_and_the_caption_of_a_voice_are_its_words() -> None:
    assert read_update(message(sticker={"file_id": "s", "emoji": "😢"}), NOW).text == "😢"
    assert read_update(message(voice={"file_id": "s"}, caption="listen"), NOW).text == "listen"


def test_a_kind_of_update_that_is_new() -> None:
    read = read_update({"update_id": 8, "wave": {"from": MAYA, "chat": PRIVATE, "date": DATE, "text": "hello"}}, NOW)
    assert (read.kind, read.data, read.chat, read.sender, read.text) == (
        IncomingKind.OTHER,
        "wave",
        "1001",
        "1001",
        "hello",
    )


def test_somebody_who_writes_in_the_name_of_the_group() -> None:
    fields = message(text="hi", chat=CARE, sender_chat=CARE)["message"]
    del fields["from"]
    read = read_update({"update_id": 9, "message": fields}, NOW)
    assert (read.sender, read.sender_name) == ("-1000000000500", "Care team")


def test_text_that_a_database_would_refuse_is_made_storable() -> None:
    raw = json.loads(
        '{"update_id": 3, "message": {"message_id": 1, "chat": {"id": 5}, "text": "a\\u0000b \\ud83d c 🙂"}}'
    )
    text = read_update(raw, NOW).text
    assert text == "a\ufffdb \ufffd c 🙂"
    assert text.encode("utf-8")


@pytest.mark.parametrize(
    "raw",
    [None, 7, "x", [], {}, {"update_id": 1}, {"update_id": 1, "message": None}, {"update_id": True, "message": {}},
     {"update_id": 1, "message": {"date": 10**30, "chat": [], "photo": [{"file_id": None}]}}],
)  # fmt: skip
def test_nonsense_is_kept_for_a_person(raw: object) -> None:
    read = read_update(raw, NOW)
    assert (read.kind, read.at) == (IncomingKind.OTHER, NOW)
    assert read.id == read_update(raw, NOW).id != ""


def test_nonsense_without_a_number_is_named_by_its_content() -> None:
    assert read_update({"a": 1}, NOW).id != read_update({"a": 2}, NOW).id
    assert update_number({"a": 1}) is None
    assert update_number({"update_id": 41}) == 41


names = st.sampled_from(
    ["update_id", "message", "edited_message", "callback_query", "my_chat_member", "from", "chat", "id", "type", "date",
     "text", "caption", "photo", "document", "file_id", "width", "height", "data", "migrate_to_chat_id",
     "new_chat_member", "status", "reply_to_message", "message_id", "sticker", "first_name", "animation"]
)  # fmt: skip
leaves = st.none() | st.booleans() | st.integers() | st.floats() | st.text(st.characters(), max_size=5)
trees = st.recursive(
    leaves, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(names, inner, max_size=6), max_leaves=25
)


@settings(max_examples=300, deadline=None)
@given(st.dictionaries(names, trees, max_size=5))
def test_whatever_comes_it_is_read_and_storable(raw: dict[str, Any]) -> None:
    read = read_update(raw, NOW)
    assert read.id and read.at.tzinfo is not None
    for value in (read.chat, read.sender, read.text, read.data, read.file, read.sender_name):
        assert "\0" not in value
        value.encode("utf-8")

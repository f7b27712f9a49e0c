"""What a message may be, checked before it leaves, so that the error says which text or button is too long.

Source of the figures: the Bot API's documented limits (sendMessage `text`, sendPhoto `caption`, InlineKeyboardButton
`callback_data`). The client library checks none of them.
"""

from __future__ import annotations

from bot.chat.types import Button, ChatRefused, Outgoing

TEXT_CHARACTERS = 4096
CAPTION_CHARACTERS = 1024
DATA_BYTES = 64
NOTE_CHARACTERS = 200  # shown when a tap is confirmed


def check(outgoing: Outgoing) -> None:
    """Raise ChatRefused, naming the limit and the length, when the network would not take this message."""
    has_file = outgoing.photo is not None or outgoing.document is not None
    if outgoing.photo is not None and outgoing.document is not None:
        raise ChatRefused("a message carries a picture or a document, not both: send two messages")
    if outgoing.photo == b"" or outgoing.document == b"":
        raise ChatRefused("the file of this message is empty: send the text alone, or a file with content")
    limit = CAPTION_CHARACTERS if has_file else TEXT_CHARACTERS
    length = len(outgoing.text)
    if length > limit:
        what = "caption" if has_file else "text"
        raise ChatRefused(f"the {what} has {length} characters, the network takes {limit}: shorten or split it")
    if not outgoing.text.strip() and not has_file:
        raise ChatRefused("the text is empty: a message needs words, a picture or a document")
    if outgoing.asks_reply and outgoing.buttons:
        raise ChatRefused("a message asks for a typed reply or shows buttons, not both: drop one of them")
    for row in outgoing.buttons:
        for button in row:
            _check_button(button)


def _check_button(button: Button) -> None:
    if not button.label.strip():
        raise ChatRefused("a button has no label: give it words")
    if bool(button.data) == bool(button.url):
        raise ChatRefused(f"button '{button.label}' needs either data or a link, and only one of them")
    size = len(button.data.encode("utf-8", "surrogatepass"))
    if size > DATA_BYTES:
        raise ChatRefused(
            f"the data of button '{button.label}' takes {size} bytes, the network takes {DATA_BYTES}: shorten it"
        )

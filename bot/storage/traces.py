"""What in a store's rows tells of one patient, and such values without it. Pure; for `erasing` and its twin."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

GONE = "erased"          # stands as the trouble of an update that lost its content
NOBODY = "[forgotten]"   # stands where a text of the care team named the patient


def names(reference: str) -> Callable[[str], bool]:
    """Whether a text names this patient: the reference whole, in any case ('KT-01' is not in 'KT-014')."""
    found = _pattern(reference)
    return lambda text: found.search(text) is not None


def without_name(text: str, reference: str) -> str:
    """The text with the reference taken out."""
    return _pattern(reference).sub(NOBODY, text)


def _pattern(reference: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![A-Za-z0-9-]){re.escape(reference)}(?![A-Za-z0-9-])", re.IGNORECASE)


def mentions(value: Any, named: Callable[[str], bool]) -> bool:
    """Whether a text anywhere in this JSON value names the patient."""
    if isinstance(value, str):
        return named(value)
    if isinstance(value, Mapping):
        return any(named(str(key)) or mentions(one, named) for key, one in value.items())
    if isinstance(value, list | tuple):
        return any(mentions(one, named) for one in value)
    return False


def pruned(value: Any, named: Callable[[str], bool]) -> Any:
    """This JSON value without what names the patient: such elements of a list go whole, such texts become ""."""
    if isinstance(value, str):
        return "" if named(value) else value
    if isinstance(value, Mapping):
        return {key: pruned(one, named) for key, one in value.items() if not named(str(key))}
    if isinstance(value, list | tuple):
        return [one for one in value if not mentions(one, named)]
    return value


def texts_of(value: Any) -> Iterable[str]:
    """Every text in a JSON value."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for one in value.values():
            yield from texts_of(one)
    elif isinstance(value, list | tuple):
        for one in value:
            yield from texts_of(one)


@dataclass(frozen=True, slots=True)
class Traces:
    """What tells that an update belongs to the patient, or speaks of them.

    chats: addresses that are the patient's alone; others_chats: where other patients write. replies: ids of the
    patient's updates; others_replies: of other patients'. sent: (chat, the network's name) of our messages about the
    patient. words: texts that the care team typed about them.
    """

    reference: str
    chats: frozenset[str] = frozenset()
    others_chats: frozenset[str] = frozenset()
    replies: frozenset[str] = frozenset()
    others_replies: frozenset[str] = frozenset()
    sent: frozenset[tuple[str, str]] = frozenset()
    words: frozenset[str] = frozenset()

    @property
    def named(self) -> Callable[[str], bool]:
        return names(self.reference)

    def touch(self, update_id: str, chat: str, text: str, rest: Mapping[str, Any], *, handled: bool) -> bool:
        """Whether an update must lose its content. What another patient wrote never does, nor what nobody has read."""
        if update_id in self.replies or (chat in self.chats and update_id not in self.others_replies):
            return True
        if update_id in self.others_replies or chat in self.others_chats or not handled:
            return False
        about = {(chat, str(rest.get(name, ""))) for name in ("message", "reply_to")}
        return (bool(about & self.sent) or (text.strip() != "" and text in self.words)
                or self.named(text) or mentions(rest, self.named))

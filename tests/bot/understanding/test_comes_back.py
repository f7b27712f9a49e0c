"""'It is back', 'it hurts more now': whole texts that say that what was over is there again."""

from __future__ import annotations

import pytest

from bot.understanding.course import comes_back


@pytest.mark.parametrize(("text", "language"), [
    ("it is back", "en"), ("It's back!", "en"), ("back again", "en"), ("it hurts more now", "en"), ("more pain", "en"),
    ("it came back", "en"), ("the pain is back", "en"), ("volvió", "es"), ("me duele más", "es"),
    ("ya volvio otra vez", "es"),
])
def test_it_is_there_again(text: str, language: str) -> None:
    assert comes_back(text, language)


@pytest.mark.parametrize(("text", "language"), [
    ("I'm back", "en"), ("I am back home", "en"), ("it is not back", "en"), ("what if it comes back?", "en"),
    ("is it back?", "en"), ("no more pain", "en"), ("ya volví a casa", "es"), ("no me duele mas", "es"), ("", "en"),
])
def test_anything_else_is_read_as_any_text(text: str, language: str) -> None:
    assert not comes_back(text, language)

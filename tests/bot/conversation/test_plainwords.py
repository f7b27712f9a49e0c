"""What counts as 'I was told to go on', and as the question whether a dose may be taken."""

from __future__ import annotations

import pytest

from bot.conversation.plainwords import asks_to_take, told_to_go_on


@pytest.mark.parametrize(("text", "language", "freed"), [
    ("they said i can take it", "en", True), ("the ER doctor said i can go on with the medicine", "en", True),
    ("they told me at the ER to go on with my doses", "en", True), ("el doctor dijo que puedo tomarla", "es", True),
    ("they said i can't take it", "en", False), ("my mom said i can take it", "en", False),
    ("the doctor said to stop", "en", False), ("they said to take medicine for the pain", "en", False),
    ("did they say i can take it?", "en", False), ("dijeron que no la tome", "es", False),
])
def test_only_who_was_told_by_the_clinic_goes_on(text: str, language: str, freed: bool) -> None:
    assert told_to_go_on(text, language) is freed


@pytest.mark.parametrize(("text", "language", "asks"), [
    ("can i take my dose now?", "en", True), ("should i take it", "en", True), ("¿puedo tomar la dosis?", "es", True),
    ("i take my dose now", "en", False), ("can i eat now?", "en", False), ("ya la tomo", "es", False),
])
def test_may_i_take_it(text: str, language: str, asks: bool) -> None:
    assert asks_to_take(text, language) is asks

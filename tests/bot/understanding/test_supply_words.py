"""Words for 'no medicine left', as they are typed; what is supposed, coming or somebody else's is none of them."""

from __future__ import annotations

import pytest

from bot.understanding.supply_words import Lack, lack_of_medicine

NONE_LEFT = ("i have none left", "i ran out of medicine", "he has none left", "I have no ampoules left", "none left!",
             "im out of meds", "we have no more ampoules", "my ampoules are gone", "I don't have any medicine",
             "i have none left, what now?")
DEVICE = ("my inhaler is empty", "the inhaler is empty and i have no other", "i dropped the inhaler in the toilet",
          "i lost my inhaler", "i left my medicine at my mom's", "her inhaler got broken")
SPANISH = ("hoy no, no me queda", "no me queda medicina", "se me acabó la medicina", "ya no tengo ampollas",
           "perdí el inhalador", "el inhalador está vacío")
NEITHER = ("what if i run out of medicine", "i am almost out of meds", "when the inhaler is empty, what then",
           "i ran out of time", "the inhaler is not empty", "i have no pain left", "no patches left",
           "my friend ran out of meds", "i have none", "took it, none of it came back", "is the inhaler empty at 0?",
           "the cup is empty", "i lost my appetite", "i dropped the inhaler", "i opened a new box")


@pytest.mark.parametrize("text", NONE_LEFT)
def test_none_left(text: str) -> None:
    assert lack_of_medicine(text, "en") is Lack.NONE_LEFT


@pytest.mark.parametrize("text", DEVICE)
def test_the_inhaler_is_empty_or_lost(text: str) -> None:
    assert lack_of_medicine(text, "en") is Lack.DEVICE


@pytest.mark.parametrize("text", SPANISH)
def test_in_spanish(text: str) -> None:
    assert lack_of_medicine(text, "es") is not None


@pytest.mark.parametrize("text", ("no me queda claro", "se me acabó el tiempo",
                                  "¿qué hago si se me acaba la medicina?"))
def test_in_spanish_something_else(text: str) -> None:
    assert lack_of_medicine(text, "es") is None


@pytest.mark.parametrize("text", NEITHER)
def test_neither(text: str) -> None:
    assert lack_of_medicine(text, "en") is None

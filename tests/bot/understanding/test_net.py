"""The second reader: it only raises, it is fitted to today's classes, and it is surer where something was denied."""

from __future__ import annotations

import pytest
from score import load

from bot.understanding import Urgency, net, read
from bot.understanding.language import language_of


@pytest.mark.parametrize("language", ["en", "es"])
def test_it_only_raises(language: str, monkeypatch: pytest.MonkeyPatch) -> None:
    replies = load("scored", language)
    with_net = [read(reply.text, language=language, asked=reply.asked).urgency for reply in replies]
    monkeypatch.setattr(net, "weights", lambda _language: {})
    without = [read(reply.text, language=language, asked=reply.asked).urgency for reply in replies]
    assert all(one >= other for one, other in zip(with_net, without, strict=True))
    if language == "en":
        assert with_net != without


@pytest.mark.parametrize("language", ["en", "es"])
def test_the_weights_are_fitted_to_the_classes_of_today(language: str) -> None:
    known = set(language_of(language).class_names.values())
    names = {name for group in known for name in group}
    fitted = {feature[1:] for feature in net.weights(language) if feature.startswith("c")}
    assert fitted <= names, "a class is gone: run fit_net.py again"


def test_no_weights_no_raising() -> None:
    assert net.score({"wstuck"}, {}) == (0.0, 0.0)
    assert net.raised(Urgency.ROUTINE, "food is stuck", language_of("en"), "xx", lowered=False) is Urgency.ROUTINE


def test_it_must_be_surer_where_something_was_lowered() -> None:
    known = language_of("en")
    emergency = "my chest is plugged with a wad of bread and water comes back"
    assert net.raised(Urgency.ROUTINE, emergency, known, "en", lowered=False) is Urgency.EMERGENCY
    assert net.SURE_LOWERED > net.SURE_URGENT > net.SURE_EMERGENCY

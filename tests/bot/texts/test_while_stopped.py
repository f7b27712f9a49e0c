"""While doses are paused or held no answer about a sign says 'go on with your doses'. Common practice, no source."""

from __future__ import annotations

import re

from bot.escalation.rules import RULES
from bot.escalation.telling import GO_ON
from bot.texts.catalogue import catalogue, languages

GOES_ON = {"en": r"go on with (your|the) doses|as planned",
           "es": r"sig(ue|an) con (tus|las) dosis|como (dice|en) el plan"}
TELLS = ("escalation.tell", "escalation.parent.tell")


def test_each_text_that_says_go_on_has_another_for_a_pause() -> None:
    for language in languages():
        texts = catalogue(language)
        said = {rule.tell: [texts.get(f"{start}.{rule.tell}", "") for start in TELLS]
                for rule in RULES if rule.tell}
        says = {tell for tell, both in said.items()
                if any(re.search(GOES_ON[language], str(one), re.IGNORECASE) for one in both)}
        assert says == GO_ON, language
        for tell in GO_ON:
            for key in (f"escalation.tell_stopped.{tell}", f"escalation.parent.tell_stopped.{tell}"):
                assert not re.search(GOES_ON[language], str(texts[key]), re.IGNORECASE), key

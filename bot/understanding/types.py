"""What reading a reply gives: mentions with their context and place, the findings that stand, and a tier."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import IntEnum, StrEnum


class Finding(StrEnum):
    """What a reply can tell about the patient. A finding about somebody else, denied, or long over is not reported."""

    THRUSH = "thrush"
    ODYNOPHAGIA = "odynophagia"
    IMPACTION_NOW = "impaction_now"
    IMPACTION_RESOLVED = "impaction_resolved"
    CANNOT_SWALLOW_SALIVA = "cannot_swallow_saliva"
    BLEEDING = "bleeding"
    CHEST_PAIN = "chest_pain"
    BREATHING_TROUBLE = "breathing_trouble"
    FEVER = "fever"
    HERPES_SIGN = "herpes_sign"
    HOARSENESS = "hoarseness"
    ADRENAL_SIGN = "adrenal_sign"
    WORSE_DYSPHAGIA = "worse_dysphagia"
    BETTER = "better"
    MISSED_DOSES = "missed_doses"
    WANTS_STOP = "wants_stop"
    PREGNANCY = "pregnancy"
    NEW_MEDICINE = "new_medicine"
    ALLERGIC_REACTION = "allergic_reaction"
    SELF_HARM = "self_harm"


class Urgency(IntEnum):
    """Tiers, ordered: the larger is the more urgent. `str()` gives the contract's word."""

    NONE = 0
    ROUTINE = 1
    URGENT = 2
    EMERGENCY = 3

    def __str__(self) -> str:
        return self.name.lower()


class Context(StrEnum):
    """What the words around a mention say about it."""

    DENIED = "denied"
    OTHER_PERSON = "other_person"
    PAST = "past"                     # over
    SUPPOSED = "supposed"             # what if, in case
    ASKED = "asked"                   # is it normal?
    UNCERTAIN = "uncertain"           # maybe
    SINCE_MEDICINE = "since_medicine"


class Answer(StrEnum):
    """A reply that the closed grammar parsed whole, as an answer to the question that was open."""

    YES = "yes"
    NO = "no"
    TAKEN = "taken"
    NOT_TAKEN = "not_taken"
    RINSED = "rinsed"                 # the mouth, after a dose: says nothing of the dose itself
    THANKS = "thanks"
    NUMBER = "number"                 # value in `number` (of what was asked: days, minutes, a score)
    CLOCK_TIME = "clock_time"         # value in `clock_time` "HH:MM"
    LATER = "later"                   # value in `number`: minutes
    LETTER = "letter"                 # a choice by its number or letter, in `number`


@dataclass(frozen=True, slots=True)
class Mention:
    """One place in the text that speaks of a finding: half-open character span [start, end) of the original text."""

    finding: Finding
    start: int
    end: int
    context: frozenset[Context] = frozenset()

    @property
    def stands(self) -> bool:
        """Whether the mention is about the patient, now or lately, and told as a fact (perhaps an uncertain one)."""
        return not self.context & {Context.DENIED, Context.OTHER_PERSON, Context.PAST, Context.SUPPOSED, Context.ASKED}


@dataclass(frozen=True, slots=True)
class Reading:
    """What one reply says.

    findings: those that stand (about the patient, now or lately, not denied), each once, in order of the text.
    mentions: every mention with its context, standing or not. urgency: the reader's tier for the text as a whole.
    needs_human: a person must read the words (whatever is not wholly understood). answer: the closed grammar's parse.
    question: id of a common question recognised in the words (see bot/texts), or "". asks: ids, where the closed
    grammar of questions parsed every word and nothing else was found: nobody has to read them once they are answered.
    """

    text: str
    findings: tuple[Finding, ...] = ()
    mentions: tuple[Mention, ...] = ()
    urgency: Urgency = Urgency.NONE
    needs_human: bool = True
    answer: Answer | None = None
    number: float | None = None
    clock_time: str = ""
    question: str = ""
    asks: tuple[str, ...] = ()         # the whole text asks these common questions and says nothing else
    supposed_emergency: bool = False   # "what if food gets stuck?": fixed answer and the tap "is it happening now?"
    # other signals that the rules may use: "taken_twice", "child_took_it", "exposure", "surgery", "vomiting", ...
    extra: tuple[str, ...] = field(default=())

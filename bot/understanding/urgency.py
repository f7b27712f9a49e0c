"""How soon a person reads the words: a tier from the findings in combination.

emergency: food stuck now; saliva not swallowed; breathing trouble; blood, or black or coffee-ground vomit or stool;
    swelling of face, tongue or throat, or an allergic sign with breathing trouble; chest pain that is severe or sudden,
    or with fever, vomiting, breathing trouble or after food was stuck; an adrenal sign with vomiting, confusion or a
    low pressure; collapse; words of self-harm.
urgent: thrush; painful swallowing; herpes signs; fever; food that was stuck and has passed; an adrenal sign alone;
    chest pain alone; rash or hives alone; pregnancy; swallowing much worse, or worse with vomiting, tiredness or a
    sore throat; repeated vomiting; taken twice; somebody else took it; chickenpox or measles contact.
routine: hoarseness; missed doses; wants to stop; new medicine; swallowing a little worse; better; whatever is not
    wholly understood.

Sources: obstruction and saliva ESGE 2016 (Birk); bolus and perforation signs emergency reviews (PMC8640419,
PMC7330325); bleeding signs a national health service page; anaphylaxis WAO 2020 (Cardona); adrenal crisis a national
patient leaflet; thrush signs a public-health text on candidiasis; herpes signs Quera 2021 and Kim 2019; chickenpox and
measles contact the label of a budesonide oral suspension. Where the tiers part: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable

from bot.understanding.types import Context, Finding, Mention, Urgency

ALWAYS_EMERGENCY = frozenset(
    {
        Finding.IMPACTION_NOW,
        Finding.CANNOT_SWALLOW_SALIVA,
        Finding.BREATHING_TROUBLE,
        Finding.BLEEDING,
        Finding.SELF_HARM,
    }
)
URGENT = frozenset(
    {
        Finding.THRUSH,
        Finding.ODYNOPHAGIA,
        Finding.HERPES_SIGN,
        Finding.FEVER,
        Finding.IMPACTION_RESOLVED,
        Finding.ADRENAL_SIGN,
        Finding.CHEST_PAIN,
        Finding.ALLERGIC_REACTION,
        Finding.PREGNANCY,
    }
)
URGENT_SIGNALS = frozenset({"taken_twice", "child_took_it", "exposure", "keeps_vomiting", "marked_dysphagia"})
CHEST_PAIN_WITH = frozenset({Finding.FEVER, Finding.IMPACTION_RESOLVED})
# Mentions that are over, but so lately that a nurse still wants them the same day.
RECENT = ALWAYS_EMERGENCY | {Finding.CHEST_PAIN, Finding.IMPACTION_RESOLVED}


def urgency_of(findings: Iterable[Finding], extra: Collection[str] = (), mentions: Iterable[Mention] = ()) -> Urgency:
    """The tier of a reply. `findings` are those that stand; `extra` the reader's other signals ("vomiting",
    "collapse", "airway_swelling",
    "severe", "taken_twice", ...); `mentions` all mentions: those that do not stand (past, another person's,
    supposed, asked about) keep
    the reply at least routine, and a recent past of an emergency keeps it urgent."""
    present = frozenset(findings)
    mentions = tuple(mentions)
    signals = frozenset(extra)
    if is_emergency(present, signals):
        return Urgency.EMERGENCY
    if present & URGENT or signals & URGENT_SIGNALS:
        return Urgency.URGENT
    if Finding.WORSE_DYSPHAGIA in present and signals & {"vomiting", "tired", "sore_throat"}:
        return Urgency.URGENT
    lowered = [
        mention for mention in mentions if mention.finding not in present and Context.DENIED not in mention.context
    ]
    if any(
        mention.context == {Context.PAST} and mention.finding in RECENT and "long_ago" not in signals
        for mention in lowered
    ):
        return Urgency.URGENT
    if any(mention.finding is Finding.SELF_HARM for mention in mentions):
        return Urgency.ROUTINE          # words of self-harm are read by a person even where they deny it
    return Urgency.ROUTINE if present or lowered or signals else Urgency.NONE


def is_emergency(present: frozenset[Finding], signals: frozenset[str]) -> bool:
    """Whether these findings and signals together need help now."""
    if present & ALWAYS_EMERGENCY or "airway_swelling" in signals or "collapse" in signals:
        return True
    vomiting = bool(signals & {"vomiting", "keeps_vomiting"})
    if Finding.CHEST_PAIN in present and (vomiting or "severe" in signals or present & CHEST_PAIN_WITH):
        return True
    return Finding.ADRENAL_SIGN in present and vomiting

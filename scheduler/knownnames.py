"""Names of medicines and conditions that the cautions know; what they do not know is said, never passed over.

A list can only warn of what stands in it. A name that is not in it is shown to the one who signs, and where it lies
near a known one (a typing error) that one is asked for.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from rapidfuzz.distance import OSA

from scheduler.cautioning import Caution, folded, named
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol

BINDERS = ("colestyramine", "cholestyramine", "antacid", "antacids")
PREGNANCY = ("pregnant", "pregnancy", "breastfeeding", "breast-feeding")
LIVER = ("liver", "hepatic", "cirrhosis")
INFECTION = ("tuberculosis", "tb", "hepatitis b", "ocular herpes", "herpes")
DIABETES = ("diabetes", "diabetic")
_CONDITIONS = {"pregnancy": PREGNANCY, "liver disease": LIVER, "infection": INFECTION, "diabetes": DIABETES}
_LISTS = {"medicines.strong_inhibitors": "strong CYP3A4 inhibitor", "medicines.moderate_inhibitors":
          "moderate CYP3A4 inhibitor", "medicines.inducers": "CYP3A4 inducer",
          "medicines.inducers_by_practice": "CYP3A4 inducer", "cautions.other_steroids": "another steroid"}
_PARTS = re.compile(r"[,;+/]|\band\b|\bwith\b|\by\b|\bcon\b")
_LETTERS = re.compile(r"[a-z]+")
_SHORT = 5          # letters; a shorter word near a known one is more often another word
_NEAR = {5: 1, 6: 1}    # edits that a typing error may have, by letters; more letters: 2


def known_medicines(protocol: ClinicProtocol) -> dict[str, str]:
    """Every name that a caution knows, and what it is."""
    known = {name: what for key, what in _LISTS.items() for name in protocol.items(key)}
    return known | dict.fromkeys(BINDERS, "binds the medicine")


def unknown(plan: Plan, protocol: ClinicProtocol) -> Iterator[Caution]:
    """The medicines and conditions of the plan that no list here holds."""
    medicine = plan.medicine.name
    yield from _said(plan.patient.other_medicines, known_medicines(protocol), "other medicine",
                     f"check by hand for interactions with {medicine}", "the lists in the clinic protocol, [medicines]")
    conditions = {name: what for what, names in _CONDITIONS.items() for name in names}
    yield from _said(plan.patient.conditions, conditions, "condition",
                     f"check by hand what it means for a steroid such as {medicine}",
                     "the conditions that these cautions know")


def _said(written: Iterable[str], known: Mapping[str, str], topic: str, do: str, source: str) -> Iterator[Caution]:
    strange = []
    for part in (part.strip() for text in written for part in _PARTS.split(text)):
        if not _LETTERS.search(folded(part)) or named(tuple(known), (part,)):
            continue
        meant = nearest(part, known)
        if meant is None:
            strange.append(part)
        else:
            told = f"{part}: not known here. Is {meant} meant ({known[meant]})? Correct the plan, or {do}."
            yield Caution(f"misspelt {topic}", told, source)
    if strange:
        yield Caution(f"unknown {topic}", f"{', '.join(dict.fromkeys(strange))}: not known here; {do}.", source)


def nearest(written: str, known: Iterable[str]) -> str | None:
    """The known name that the words come nearest to, within a typing error or two; None when there is none."""
    words = _LETTERS.findall(folded(written))
    best: tuple[int, str] | None = None
    for name in known:
        target = _LETTERS.findall(folded(name))
        for start in range(len(words) - len(target) + 1):
            near = " ".join(words[start:start + len(target)])
            if len(near) < _SHORT:
                continue
            edits = OSA.distance(near, " ".join(target), score_cutoff=_NEAR.get(len(near), 2))
            if edits <= _NEAR.get(len(near), 2) and (best is None or edits < best[0]):
                best = (edits, name)
    return best[1] if best else None

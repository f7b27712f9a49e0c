"""What the cautions do not know is said; typing errors ask for the known name; other spellings are one medicine."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from scheduler.cautions import Caution, cautions
from scheduler.knownnames import known_medicines, nearest
from scheduler.plan import Plan
from scheduler.protocol import ClinicProtocol


def of(plan: Plan, protocol: ClinicProtocol, *topics: str) -> list[Caution]:
    return [one for one in cautions(plan, protocol) if one.topic in topics]


def with_names(changed: Callable[..., Plan], key: str, *names: str) -> Plan:
    listed = ", ".join(f'"{name}"' for name in names)
    return changed("kt-014", (f"{key} = []", f"{key} = [{listed}]"))


@pytest.mark.parametrize(("written", "meant", "what"), [
    ("clarithromicin", "clarithromycin", "strong CYP3A4 inhibitor"),
    ("Itraconazol 100 mg", None, ""),                          # the Spanish name is known as it stands
    ("ketoconasole", "ketoconazole", "strong CYP3A4 inhibitor"),
    ("ritonivir 100 mg", "ritonavir", "strong CYP3A4 inhibitor"),
    ("carbamazapine", "carbamazepine", "CYP3A4 inducer"),
    ("prednisolon", "prednisolone", "another steroid"),
    ("st jons wort", "St John's wort", "CYP3A4 inducer"),
])
def test_a_typing_error_asks_for_the_known_name(written: str, meant: str | None, what: str,
                                                changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    found = of(with_names(changed, "other_medicines", written), protocol, "misspelt other medicine")
    if meant is None:
        assert not found
    else:
        told, = found
        assert told.text.startswith(f"{written}: not known here. Is {meant} meant ({what})?")


@pytest.mark.parametrize("written", ["azithromycin", "metformin", "omeprazole", "cetirizine", "montelukast",
                                     "salbutamol", "lansoprazole", "pantoprazole", "dupilumab", "ibuprofen",
                                     "paracetamol", "amoxicillin", "sertraline", "levothyroxine", "insulin"])
def test_other_medicines_are_not_taken_for_known_ones(written: str, changed: Callable[..., Plan],
                                                      protocol: ClinicProtocol) -> None:
    """Common medicines that are no misspelling of a listed one: said to be unknown, and nothing else is asked for."""
    assert nearest(written, known_medicines(protocol)) is None
    told, = of(with_names(changed, "other_medicines", written), protocol, "unknown other medicine",
               "misspelt other medicine")
    assert told.text == f"{written}: not known here; check by hand for interactions with budesonide."


@pytest.mark.parametrize("written", ["St John's wort", "st johns wort", "St. John\u2019s Wort", "Saint Johns wort",
                                     "hypericum", "Hypericum perforatum", "hierba de San Juan"])
def test_spellings_of_one_plant(written: str, changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    """Labels of oral budesonide name St John's wort; hypericum is its botanical name."""
    plan = with_names(changed, "other_medicines", written)
    told, = of(plan, protocol, "CYP3A4 inducer")
    assert "labels of oral budesonide" in told.source
    assert not of(plan, protocol, "unknown other medicine", "misspelt other medicine")


def test_phenytoin_is_marked_as_practice(changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    told, = of(with_names(changed, "other_medicines", "phenytoin"), protocol, "CYP3A4 inducer")
    assert told.text.startswith("phenytoin: lowers the level") and "common practice, no source" in told.source


def test_every_part_of_an_entry_is_looked_at(changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    plan = with_names(changed, "other_medicines", "metformin 500 mg and omeprazole, ritonavir", "100 mg")
    told, = of(plan, protocol, "unknown other medicine")
    assert told.text.startswith("metformin 500 mg, omeprazole, 100 mg: not known here")
    assert of(plan, protocol, "strong CYP3A4 inhibitor")


def test_conditions(changed: Callable[..., Plan], protocol: ClinicProtocol) -> None:
    plan = with_names(changed, "conditions", "banana", "diabetis", "liver disease")
    told, = of(plan, protocol, "unknown condition")
    assert told.text == "banana: not known here; check by hand what it means for a steroid such as budesonide."
    asked, = of(plan, protocol, "misspelt condition")
    assert asked.text.startswith("diabetis: not known here. Is diabetes meant")
    assert len(of(plan, protocol, "liver")) == 1


def test_an_empty_list_says_nothing(ok_plan: Callable[[str], Plan], protocol: ClinicProtocol) -> None:
    assert not of(ok_plan("kt-014"), protocol, "unknown other medicine", "unknown condition", "misspelt condition")

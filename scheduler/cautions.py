"""What a clinician should have read before signing this plan, each with its source.

Cautions never stop a plan (what must not be signed at all is a problem of the plan file); they are data for the one
who signs. `tell_patient` marks those that belong in the patient's own hands too; the sentence they get is one of the
patient texts.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from decimal import Decimal
from itertools import pairwise

from scheduler.amounts import Amount, parse_amount, plain
from scheduler.cautioning import LABEL, Caution, daily_of, highest_day, named
from scheduler.dayplan import judge
from scheduler.growth import height_doubt
from scheduler.knownnames import BINDERS, INFECTION, LIVER, PREGNANCY, unknown
from scheduler.localtime import local
from scheduler.medicine import age_group, bounds
from scheduler.mixcautions import mixing, sucralose, sugars
from scheduler.plan import Plan, days_of
from scheduler.protocol import ClinicProtocol
from scheduler.record import Record
from scheduler.stretches import stretches
from scheduler.supply import released
from scheduler.tapercautions import drops

__all__ = ["Caution", "cautions", "signed_ahead"]


def cautions(plan: Plan, protocol: ClinicProtocol) -> tuple[Caution, ...]:
    """Every caution that this plan calls for, the plan's own first, those of every plan last."""
    return tuple(one for check in _CHECKS for one in check(plan, protocol))


def signed_ahead(plan: Plan, now: datetime) -> tuple[Caution, ...]:
    """The caution for a signature dated after `now`, by the patient's own calendar; none otherwise."""
    today = local(now, plan.patient.time_zone).date()
    if plan.signed_on <= today:
        return ()
    told = (f"The signature is dated {plan.signed_on}, in the future (today is {today}): nobody can have signed then. "
            "Correct the date, or sign anew.")
    return (Caution("signed ahead", told, "the plan file against the clock of this machine"),)


def _other_medicines(plan: Plan, protocol: ClinicProtocol) -> Iterator[Caution]:
    others, name = plan.patient.other_medicines, plan.medicine.name
    strong = named(protocol.items("medicines.strong_inhibitors"), others)
    if strong:
        how = (
            "budesonide levels rise about 6 times with ketoconazole, about 3 times when given 12 h apart, "
            "about 4 times with "
            "itraconazole (inhaled)"
            if name == "budesonide"
            else "nasal fluticasone with ritonavir lowered the cortisol AUC by 86 %; inhaled fluticasone "
            "with ketoconazole rose by "
            "150 %"
        )
        yield Caution(
            "strong CYP3A4 inhibitor",
            f"{_and(strong)}: strong CYP3A4 inhibitor; {how}. Avoid, or watch the adrenals.",
            "FDA-based lists; labels of oral and inhaled budesonide, nasal and inhaled fluticasone",
            True,
        )
    moderate = named(protocol.items("medicines.moderate_inhibitors"), others)
    if moderate:
        yield Caution(
            "moderate CYP3A4 inhibitor",
            f"{_and(moderate)}: moderate CYP3A4 inhibitor, raises the level of {name}; "
            "watch for signs of too much steroid.",
            "FDA-based lists",
            True,
        )
    for key in ("medicines.inducers", "medicines.inducers_by_practice"):
        inducers = named(protocol.items(key), others)
        if inducers:
            told = f"{_and(inducers)}: lowers the level of {name}; the treatment may fail."
            yield Caution("CYP3A4 inducer", told, protocol[key].source)
    steroids = named(protocol.items("cautions.other_steroids"), others)
    if steroids:
        yield Caution(
            "other steroids",
            f"{_and(steroids)}: steroids by all routes add up; consider the adrenals.",
            protocol["cautions.other_steroids"].source,
        )
    binders = named(BINDERS, others)
    if binders:
        yield Caution(
            "binding",
            f"{_and(binders)}: keep 2 h apart from the dose (advice is not uniform).",
            "web summary of a label; a review gives a home slurry in antacid (CMAJ Table 1)",
        )


def _steroid_card(plan: Plan, protocol: ClinicProtocol) -> Iterator[Caution]:
    limit = parse_amount(protocol.text("cautions.steroid_card"))
    daily = daily_of(highest_day(plan))
    if plan.medicine.name == "fluticasone" and daily > limit:
        yield Caution(
            "steroid card",
            f"{daily} a day is above {limit} of fluticasone: a steroid emergency card is due in the UK "
            "(the rule is made for the inhaled route).",
            protocol["cautions.steroid_card"].source,
            True,
        )
    inhibitors = (*protocol.items("medicines.strong_inhibitors"), *protocol.items("medicines.moderate_inhibitors"))
    if named(inhibitors, plan.patient.other_medicines):
        yield Caution(
            "steroid card",
            "An inhibitor of cortisol clearance is taken as well: a steroid emergency card is due "
            "in the UK at any dose.",
            protocol["cautions.steroid_card"].source,
            True,
        )


def _height(plan: Plan, protocol: ClinicProtocol) -> Iterator[Caution]:
    doubt = height_doubt(plan.patient.age_years, plan.patient.height_cm, protocol)
    if doubt is not None:
        yield Caution("height for age", f"{doubt} Check both.", protocol["bounds.height_for_age"].source)


def _children(plan: Plan, protocol: ClinicProtocol) -> Iterator[Caution]:
    patient, highest = plan.patient, highest_day(plan)
    if age_group(patient.age_years, protocol) != "child":
        return
    name = plan.medicine.name
    yield Caution(
        "child",
        f"Under {plain(protocol.number('bounds.adult_from'))} years: measure height at every visit; the plan's "
        f"bounds are {bounds(name, 'child', 'dose', protocol)} a dose and {bounds(name, 'child', 'daily', protocol)} "
        "a day.",
        "growth: Jensen 2019 (topical steroid with elemental formula, girls: height z -0.24)",
    )
    if name != "budesonide":
        return
    most = parse_amount(protocol.text("cautions.child_daily_below_height"))
    height = protocol.number("cautions.child_height")
    if patient.height_cm is not None and patient.height_cm < height and daily_of(highest) > most:
        yield Caution(
            "child height",
            f"{daily_of(highest)} a day at {patient.height_cm} cm: below {plain(height)} cm the published "
            f"dose is up to {most} a day.",
            protocol["cautions.child_daily_below_height"].source,
        )
    age, dose = protocol.number("cautions.child_age"), parse_amount(protocol.text("cautions.child_dose_below_age"))
    if patient.age_years < age and max(one.amount for one in highest) > dose:
        yield Caution(
            "child age",
            f"Below {plain(age)} years the published induction dose is {dose} twice a day.",
            protocol["cautions.child_dose_below_age"].source,
        )


def _conditions(plan: Plan, protocol: ClinicProtocol) -> Iterator[Caution]:  # noqa: ARG001
    has = plan.patient.conditions
    if named(PREGNANCY, has):
        yield Caution(
            "pregnancy",
            "Pregnancy or breast-feeding: weigh the need with the obstetric team before signing.",
            "common practice, no source",
            True,
        )
    if named(LIVER, has):
        yield Caution(
            "liver", "Liver disease: severe, not recommended; moderate, watch for signs of too much steroid.", LABEL
        )
    if named(INFECTION, has):
        yield Caution("infection", "Tuberculosis, hepatitis B or ocular herpes: steroids may wake it.", LABEL)


def _course(plan: Plan, protocol: ClinicProtocol) -> Iterator[Caution]:
    lengths = [days_of(phase) for phase in plan.phases]
    weeks = protocol.number("cautions.long_use")
    if None in lengths or sum(length or 0 for length in lengths) > weeks * 7:
        yield Caution(
            "long use",
            f"Longer than {plain(weeks)} weeks: consider a morning cortisol (above 300 nmol/L or 10 ug/dL the "
            "adrenals have recovered; 150 to 300 or 5 to 10: repeat in weeks to months; below: repeat in months).",
            f"{protocol['cautions.long_use'].source}; ESE and Endocrine Society 2024; ACG 2025 (second-hand)",
        )
    if None not in lengths:
        yield Caution(
            "stopping",
            "The course ends with its last phase: within a year of stopping 78 to 94 % relapse in the histology, "
            "57 % in symptoms. After long use think of the adrenals when it stops.",
            "ACG 2025 (second-hand); Dellon et al., Clin Gastroenterol Hepatol, observation phase (n 58); Ahmet 2016",
        )
    if plan.endoscopy_after_days is None:
        yield Caution(
            "endoscopy",
            "No endoscopy is planned: symptoms do not follow the histology.",
            "BSG/BSPGHAN 2022 statement, via a summary",
        )
    yield from drops(plan, protocol)
    for before, after in _changes(plan):
        if after > before:
            yield Caution(
                "rise",
                f"One step raises the day from {before} to {after}. Check that this is meant.",
                "arithmetic on this plan",
            )
    yield from _season_ends(plan)
    if plan.seasons:
        yield Caution(
            "season",
            "A season raises the dose: it is the clinic's own entry for this patient. Studies disagree on any "
            "season at all.",
            "Lucendo 2015 (none); Jensen 2015 (July, adjusted OR 1.13)",
        )


def _season_ends(plan: Plan) -> Iterator[Caution]:
    """A season that covers taper steps ends in one fall past all of them."""
    start = plan.phases[0].starts
    if not plan.seasons or start is None:
        return
    taken = stretches(plan, released(plan, Record(), 0), start + timedelta(days=730))
    planned = max((1 - after.micrograms / before.micrograms for before, after in _falls(plan)), default=Decimal(0))
    for before, after in pairwise(taken):
        drop = 1 - after.daily.micrograms / before.daily.micrograms
        if before.why == "season" and after.why != "season" and drop > planned:
            yield Caution(
                "season end",
                f"When the season ends on {after.begins} the day falls from {before.daily} to {after.daily} "
                f"in one step ({plain((drop * 100).quantize(Decimal('1')))} %), past taper steps that were not taken "
                "(every gate released on its first day).",
                "arithmetic on this plan",
            )
            return


def _changes(plan: Plan) -> Iterator[tuple[Amount, Amount]]:
    """The daily amounts before and after each step of the plan, seasons aside."""
    return pairwise(daily_of(step.doses) for phase in plan.phases for step in phase.steps)


def _falls(plan: Plan) -> list[tuple[Amount, Amount]]:
    return [(before, after) for before, after in _changes(plan) if after < before]


def _placing(plan: Plan, protocol: ClinicProtocol) -> Iterator[Caution]:
    for gives in judge(plan.patient, plan.dose_times, protocol):
        yield Caution(
            "dose times",
            f"With doses at {', '.join(f'{at:%H:%M}' for at in plan.dose_times)} a rule of the day gives. "
            f"{str(gives).capitalize()}.",
            "clinic protocol, dayplan",
        )


def _always(plan: Plan, protocol: ClinicProtocol) -> Iterator[Caution]:  # noqa: ARG001
    medicine = plan.medicine
    product = "ampoules made for a nebuliser" if medicine.form == "ampoule" else "an inhaler"
    yield Caution(
        "repurposed",
        f"{product.capitalize()}, swallowed: outside the product's licence in most countries; the patient should know.",
        "product labels",
        True,
    )
    yield Caution(
        "not interchangeable",
        "Budesonide and fluticasone are not interchangeable dose for dose; a switch needs a new plan and signature.",
        "Dellon 2019: 1 mg against 880 microgram, each twice a day",
    )
    yield Caution(
        "ask before signing",
        "Ask about pregnancy and breast-feeding, severe liver disease (not recommended), "
        "tuberculosis, hepatitis B, ocular herpes, and steroids by other routes, unless named above.",
        LABEL,
    )
    yield Caution(
        "grapefruit", "No grapefruit: it raises the level.", "labels of oral budesonide; FDA-based lists", True
    )
    yield Caution(
        "surgery or severe illness",
        "Surgery, injury or severe infection on treatment: cover with a systemic steroid is advised.",
        LABEL,
        True,
    )
    yield Caution(
        "chickenpox or measles", "Contact with chickenpox or measles without immunity: call the same day.", LABEL, True
    )


def _and(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


_CHECKS: tuple[Callable[[Plan, ClinicProtocol], Iterator[Caution]], ...] = (
    _other_medicines,
    unknown,
    _steroid_card,
    _conditions,
    sugars,
    sucralose,
    _height,
    _children,
    mixing,
    _course,
    _placing,
    _always,
)

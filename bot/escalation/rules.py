"""The escalation rules, as one table: which signals, what else in the record, how urgent, who is told what, the source.

A signal is the name of a finding ("thrush"), another sign that the reader reports ("vomiting"), or something that
happened ("event:supply_low"). The order of the table is the order of importance within an urgency. What the care team
reads about a rule is `care.rule.<id>`, what the patient reads is `escalation.tell.<tell>`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from bot.understanding.types import Finding, Urgency

EMERGENCY, URGENT, ROUTINE = Urgency.EMERGENCY, Urgency.URGENT, Urgency.ROUTINE

SYMPTOMS, COURSE = "symptoms", "course"

PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Rule:
    """One row.

    any_of: one of these signals stands. also: and one of these (a second sign, or a second mention of it). when: and
    all of these conditions of the record hold (names in conditions.py). replaces: rules that say less than this one.
    answer: kind of the message to the patient ("" tells nothing). tell: text of that message. within: protocol value
    for the time to act, "" for that of the urgency. rest: protocol value, how long the rule stays quiet once it has
    raised a flag (for things that go on). thread: one open flag a patient in each thread.
    """

    id: str
    urgency: Urgency
    any_of: tuple[str, ...]
    source: str
    also: tuple[str, ...] = ()
    when: tuple[str, ...] = ()
    replaces: tuple[str, ...] = ()
    answer: str = "passed_on"
    tell: str = ""
    within: str = ""
    rest: str = ""
    thread: str = SYMPTOMS

    @property
    def act_within(self) -> str:
        """Key of the protocol value that says within what time somebody acts."""
        return self.within or f"care.act_within.{self.urgency}"


def _emergency(id: str, *any_of: str, source: str, also: tuple[str, ...] = (), when: tuple[str, ...] = (),
               replaces: tuple[str, ...] = (), answer: str = "emergency_answer", tell: str = "") -> Rule:
    return Rule(id, EMERGENCY, any_of, source, also, when, replaces, answer, (tell or id) if answer else "")


def _urgent(id: str, *any_of: str, source: str, also: tuple[str, ...] = (), when: tuple[str, ...] = (),
            replaces: tuple[str, ...] = (), answer: str = "passed_on", tell: str = "") -> Rule:
    return Rule(id, URGENT, any_of, source, also, when, replaces, answer, (tell or id) if answer else "")


def _routine(id: str, *any_of: str, source: str, also: tuple[str, ...] = (), when: tuple[str, ...] = (),
             replaces: tuple[str, ...] = (), tell: str = "", soon: bool = False, rest: str = "") -> Rule:
    return Rule(id, ROUTINE, any_of, source, also, when, replaces, "passed_on", tell or id,
                "care.act_within.soon" if soon else "", rest)


def _course(id: str, *events: str, source: str, when: tuple[str, ...] = (), replaces: tuple[str, ...] = (),
            urgency: Urgency = ROUTINE, soon: bool = False, rest: str = "flag.rest", tell: str = "") -> Rule:
    """Something about the course, not about symptoms; without `tell` the patient is not told by the rule."""
    return Rule(id, urgency, tuple(f"event:{event}" for event in events), source, when=when, replaces=replaces,
                answer="passed_on" if tell else "", tell=tell, within="care.act_within.soon" if soon else "", rest=rest,
                thread=COURSE)


F = Finding

# Sources used more than once; those read only in somebody else's summary, or known from memory, say so.
ESGE = "ESGE 2016, recommendation 7: complete obstruction within 2 h, at latest 6 h; other food bolus within 24 h"
GAP = "a gap in care: 26 % more odds of stricture each year (Chang 2022, from a news page)"
LOST = "after an impaction 54.5 % are lost to follow-up (Dis Esophagus 2019)"
TEAR = ("perforation: chest, neck or back pain, fever, vomiting then pain (review PMC7330325); fever may be absent for "
        "hours to days, and skin crackling that is not felt never reassures (emergency medicine pages)")
WAO = "WAO 2020 (criteria from memory)"
CRISIS = "severe vomiting, weakness, confusion, faintness: national health service leaflet"
LABEL = "label of a budesonide oral suspension"
HERPES = "fever, painful swallowing, chest pain, often mouth sores: Quera 2021, Kim 2019"
CANDIDA = "signs: public-health text on candidiasis; against placebo RR 4.31 (Ghazaleh 2023)"
AZOLES = "fluconazole is a moderate, other azoles are strong CYP3A4 inhibitors (FDA-based lists)"
RELAPSE = "loss of response on a lower dose 61 % (Eluri 2017); 57 % within a year of stopping (Dellon)"
HISTOLOGY = "symptoms do not track histology: BSG and BSPGHAN 2022 (from a summary)"
SCOPE = "endoscopy 8 to 12 weeks after the start and after a change of dose: ACG 2025 (from a summary)"
ADHERENCE = "thresholds 0.75 (2020 cohort) and 0.8 (US quality alliance); poor adherence 41.8 % (Haasnoot 2022)"
CHANGE = "the size of change used in trials: 27 % (Hudgens 2017), 30 % (suspension phase 3)"

WORSE = ("worse", "worse_in_taper", "worse_in_season")

RULES: tuple[Rule, ...] = (
    # ---- emergencies: answered at once, day and night
    _emergency("breathing", F.BREATHING_TROUBLE, source="emergency pages: hard or noisy breathing, cannot speak"),
    _emergency("airway_swelling", "airway_swelling", source=WAO, replaces=("allergic", "allergic_severe"),
               tell="allergic_severe"),
    _emergency("allergic_severe", F.ALLERGIC_REACTION, also=(F.BREATHING_TROUBLE, "collapse"), source=WAO,
               replaces=("allergic",)),
    _emergency("saliva", F.CANNOT_SWALLOW_SALIVA, source=ESGE),
    _emergency("food_stuck", F.IMPACTION_NOW, source=ESGE),
    _emergency("bleeding", F.BLEEDING, source="national health service page: red, brown, black or coffee-like vomit"),
    _emergency("chest_pain_after_stuck", F.CHEST_PAIN, when=("after_impaction",), source=TEAR,
               replaces=("chest_pain",)),
    _emergency("chest_pain_signs", F.CHEST_PAIN, source=TEAR,
               also=(F.FEVER, F.IMPACTION_RESOLVED, "vomiting", "keeps_vomiting", "severe"),
               replaces=("chest_pain", "chest_pain_after_stuck", "fever", "vomiting", "vomiting_lasts",
                         "ill_long_course")),
    _emergency("adrenal_crisis", F.ADRENAL_SIGN, also=("vomiting", "keeps_vomiting", "collapse"), source=CRISIS,
               replaces=("adrenal", "adrenal_stress", "vomiting", "vomiting_lasts")),
    _emergency("adrenal_stress", F.ADRENAL_SIGN, also=(F.FEVER, "surgery"), when=("long_course",),
               source=f"infection, surgery, trauma on treatment: {LABEL}; {CRISIS}", replaces=("adrenal",),
               tell="adrenal_crisis"),
    _emergency("collapse", "collapse", source=PRACTICE),
    _emergency("self_harm", F.SELF_HARM, answer="self_harm_answer", source=PRACTICE),
    _emergency("words_alarm", "event:words_emergency", source=f"the reader's own tier for the words; {PRACTICE}"),
    _emergency("left_in_emergency", "event:left", when=("emergency_open",), source=PRACTICE, answer="",
               replaces=("left_unwell", "left")),
    # ---- urgent: a person the same day, in office hours
    _urgent("allergic", F.ALLERGIC_REACTION, source=WAO),
    _urgent("stuck_again", F.IMPACTION_RESOLVED, when=("stuck_before",), replaces=("was_stuck",), tell="was_stuck",
            source=f"{ESGE}; {LOST}"),
    _urgent("was_stuck", F.IMPACTION_RESOLVED, source=f"{ESGE}; {LOST}"),
    _urgent("chest_pain", F.CHEST_PAIN, source=TEAR),
    _urgent("herpes_again", F.HERPES_SIGN, F.ODYNOPHAGIA, F.FEVER, when=("herpes_before",), tell="herpes",
            source=HERPES, replaces=("herpes", "odynophagia", "fever", "pain_and_fever")),
    _urgent("herpes", F.HERPES_SIGN, source=HERPES),
    _urgent("pain_and_fever", F.ODYNOPHAGIA, also=(F.FEVER,), replaces=("odynophagia", "fever"), tell="odynophagia",
            source=HERPES),
    _urgent("thrush_on_inhibitor", F.THRUSH, when=("on_inhibitor",), replaces=("thrush", "thrush_again"),
            tell="thrush", source=f"{AZOLES}; {CANDIDA}"),
    _urgent("thrush_again", F.THRUSH, when=("thrush_before",), replaces=("thrush",), tell="thrush", source=CANDIDA),
    _urgent("thrush", F.THRUSH, source=f"{CANDIDA}; {AZOLES}"),
    _urgent("odynophagia", F.ODYNOPHAGIA, source=f"candida or herpes in the oesophagus; {CANDIDA}; {HERPES}"),
    _urgent("adrenal", F.ADRENAL_SIGN,
            source="ESE and Endocrine Society 2024; 65.5 % low two weeks after stopping (children, Ahmet 2016)"),
    _urgent("ill_long_course", F.FEVER, "vomiting", "keeps_vomiting", "surgery", when=("long_course",), tell="ill",
            replaces=("fever", "vomiting", "vomiting_lasts", "surgery"),
            source=f"systemic steroid cover may be needed: {LABEL}; UK Steroid Emergency Card"),
    _urgent("fever", F.FEVER, tell="ill", source=f"infection on treatment: {LABEL}"),
    _urgent("vomiting_lasts", "keeps_vomiting", tell="ill", replaces=("vomiting",),
            source=f"the medicine is not kept down: {PRACTICE}"),
    _urgent("worse_much", "marked_dysphagia", tell="worse", source=HISTOLOGY, replaces=WORSE),
    _urgent("worse_with_signs", F.WORSE_DYSPHAGIA, also=("vomiting", "keeps_vomiting", "tired", "sore_throat"),
            tell="worse", source=HISTOLOGY, replaces=WORSE),
    _urgent("pregnancy", F.PREGNANCY, source=PRACTICE),
    _urgent("exposure", "exposure", source=f"chickenpox or measles contact: {LABEL}"),
    _urgent("child_took_it", "child_took_it", answer="poison_answer", source=PRACTICE),
    _urgent("taken_twice", "taken_twice", answer="poison_answer",
            source=f"{PRACTICE}; never double (UK specialist pharmacy service)"),
    _urgent("strong_inhibitor", F.NEW_MEDICINE, when=("names_strong_inhibitor",), tell="new_medicine",
            replaces=("new_medicine", "moderate_inhibitor"),
            source=f"with ketoconazole about 6 times the level (labels of oral budesonide); {AZOLES}"),
    _urgent("not_better", "event:follow_up_worse", source=PRACTICE),
    _urgent("words_urgent", "event:words_urgent", source=f"the reader's own tier for the words; {PRACTICE}"),
    _urgent("skipped_ill_long", "event:skipped_ill", when=("long_course",), replaces=("skipped_ill",),
            tell="skipped_ill",
            source=f"a dose left out while ill; steroid cover may be needed: {LABEL}; UK Steroid Emergency Card"),
    _urgent("hold_lifted", "event:hold_lifted", answer="", source=PRACTICE),
    _urgent("left_unwell", "event:left", when=("urgent_open",), replaces=("left",), answer="", source=PRACTICE),
    # ---- routine: gathered for the digest
    _routine("worse_in_taper", F.WORSE_DYSPHAGIA, when=("tapering",), replaces=("worse", "worse_in_season"),
             tell="worse", soon=True, source=RELAPSE),
    _routine("worse_in_season", F.WORSE_DYSPHAGIA, when=("in_season",), replaces=("worse",), tell="worse", soon=True,
             source="mild July peak (Jensen 2015), none (Lucendo 2015): the clinic sets a season, patient by patient"),
    _routine("worse", F.WORSE_DYSPHAGIA, soon=True, source=HISTOLOGY),
    _routine("hidden_dysphagia", "adaptations", "event:adaptations", tell="habits",
             source="six habits mask dysphagia: ACG 2025 (from a summary)"),
    _routine("hoarse_long", F.HOARSENESS, when=("hoarse_before",), replaces=("hoarseness",), tell="hoarseness",
             source=PRACTICE),
    _routine("hoarseness", F.HOARSENESS, source="a main side effect of fluticasone: US respiratory leaflet"),
    _routine("stopped", "stopped", soon=True, replaces=("wants_stop",), tell="wants_stop",
             source=f"{RELAPSE}; adrenal tests low two weeks after stopping (Ahmet 2016)"),
    _routine("wants_stop", F.WANTS_STOP, soon=True, source=RELAPSE),
    _routine("moderate_inhibitor", F.NEW_MEDICINE, when=("names_moderate_inhibitor",), replaces=("new_medicine",),
             tell="new_medicine", soon=True, source=f"{AZOLES}; inducers lower the level (labels of oral budesonide)"),
    _routine("new_medicine", F.NEW_MEDICINE, source=PRACTICE),
    _routine("surgery", "surgery", soon=True, source=f"surgery on treatment: {LABEL}"),
    _routine("vomiting", "vomiting", soon=True, tell="ill", source=PRACTICE),
    _routine("mouth_unsure", "mouth_unsure", tell="mouth_unsure", source=CANDIDA),
    _routine("side_effect", "side_effect", tell="side_effect", soon=True, source=PRACTICE),
    _routine("skipped_ill", "event:skipped_ill", soon=True, source=f"illness on treatment: {LABEL}"),
    _routine("skipped_bothered", "event:skipped_side_effects", soon=True, source=PRACTICE),
    _routine("skipped_other", "event:skipped_other", source=PRACTICE, rest="flag.rest"),
    _routine("taken_less", "taken_less", tell="less", source=PRACTICE),
    _routine("missed_said", F.MISSED_DOSES, tell="missed",
             source="adherent 37 to 41 %, forgetfulness the top reason: Gold 2025"),
    _routine("not_same", "event:follow_up_same", tell="not_better", soon=True, source=PRACTICE),
    _routine("answer_to_care", "event:answer_to_care", tell="to_care", soon=True, source=PRACTICE),
    _routine("message_to_read", "event:needs_human", tell="to_read", source=PRACTICE),
    # ---- the course: what the record shows
    _course("undeliverable", "undeliverable", urgency=URGENT, source=PRACTICE),
    _course("none_left", "skipped_no_medicine", urgency=URGENT, rest="flag.together_within", tell="none_left",
            source=f"adrenal tests low two weeks after stopping (Ahmet 2016); {RELAPSE}"),
    _course("left", "left", soon=True, source=GAP),
    _course("refused", "refused", soon=True, rest="", source=PRACTICE),
    _course("not_joined", "not_joined", soon=True, rest="", source=PRACTICE),
    _course("joins_late", "joins_late", soon=True, rest="", source=PRACTICE),
    _course("still_paused", "still_paused", rest="", source=GAP),
    _course("step_not_understood", "step_not_understood", soon=True, rest="", source=PRACTICE),
    _course("lost", "dose_unknown", "check_in_missed", when=("lost",), soon=True, rest="flag.rest_long",
            replaces=("silence", "check_ins_missed", "doses_missed"),
            source=GAP),
    _course("silence", "dose_unknown", "check_in_missed", when=("silent",),
            replaces=("doses_missed", "check_ins_missed"), source=f"{ADHERENCE}; days: {PRACTICE}"),
    _course("check_ins_missed", "check_in_missed", when=("check_ins_missed",), source=PRACTICE),
    _course("doses_missed", "doses_missed", "dose_skipped", "dose_unknown", when=("many_missed",),
            rest="flag.rest_long", source=ADHERENCE),
    _course("window_given_up", "window_broken", "check_in_done", when=("windows_given_up",), rest="flag.rest_long",
            source=f"30 minutes (UK leaflet); how often: {PRACTICE}"),
    _course("rinse_given_up", "check_in_done", "rinse_missed", when=("rinses_given_up",), rest="flag.rest_long",
            source="not rinsing goes with colonisation: OR 9.4 (dry-powder inhaler in asthma)"),
    _course("score_worse_in_taper", "check_in_done", when=("score_up", "tapering"), replaces=("score_worse",),
            soon=True, source=f"{CHANGE}; {RELAPSE}"),
    _course("score_worse", "check_in_done", when=("score_up",), source=CHANGE),
    _course("no_benefit", "check_in_done", "milestone", when=("no_benefit",), rest="flag.again_within",
            source=f"{PRACTICE}: first improvement in about a week, full benefit by two months; {CHANGE}"),
    _course("supply_low", "supply_low", soon=True, source=PRACTICE),
    _course("endoscopy_overdue", "endoscopy_due", when=("endoscopy_asked_before",), replaces=("endoscopy_due",),
            rest="flag.rest_long",
            source=f"close follow-up, fewer strictures (Bon 2022); {SCOPE}"),
    _course("endoscopy_due", "endoscopy_due", source=f"{SCOPE}; {HISTOLOGY}"),
    _course("gate_waiting", "gate_waiting", rest="flag.rest_long", source=SCOPE),
)

BY_ID = {rule.id: rule for rule in RULES}


def thread_of(ids: Iterable[str]) -> str:
    """The thread of a flag that these rules raised: COURSE only while none of them is about the patient's state."""
    rules = [BY_ID[one] for one in ids if one in BY_ID]
    return COURSE if rules and all(rule.thread == COURSE for rule in rules) else SYMPTOMS

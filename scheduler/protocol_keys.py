"""Which values the clinic protocol must hold, and the unit each must carry ("" for texts, lists and yes/no)."""

from __future__ import annotations

# Common questions of patients; each is a value of the protocol ("standard", "care team", or the clinic's own words).
QUESTIONS = (
    "drink_water", "when_eat", "why_wait", "coffee_before", "with_food", "ate_early", "swallowed_rinse",
    "forgot_rinse", "rinse_how", "brush_teeth", "brush_first", "tablets_wait", "took_twice", "child_took",
    "missed_dose", "double_up",
    "forgot_mix", "mix_ahead", "mix_with", "spilled", "vomited_dose", "breathe_it", "breathed_in",
    "spacer", "prime", "steroid_danger", "side_effects", "taste", "alcohol", "grapefruit",
    "other_medicine", "stop_well", "when_works", "why_scope", "vaccine", "surgery", "exposure",
    "feel_ill", "pregnant", "travel", "storage", "ran_out", "move_once", "change_time", "what_dose",
    "who_reads",
)

SPEC: dict[str, str] = {
    "window.no_food": "min",
    "rinse.order": "",                    # "at once" | "after the window"
    "dose.repeat_reminder_after": "min",
    "dose.late_limit_before_next": "min",
    "dose.minimum_gap": "h",
    "dose.early_by": "min",
    "dose.reminder_stale_after": "min",
    "step.notice_time": "",               # local HH:MM, the day before a step
    "gate.remind_every": "d",
    "check_in.repeat_after": "h",
    "check_in.open_for": "h",
    "check_in.adrenal_after": "wk",       # of the course: from here on the check-in asks for adrenal signs
    "check_in.adrenal_beside": "",        # list: other steroids beside which it asks from the start
    "check_in.adrenal_signs_urgent": "signs",
    "care.reads_when": "",                # said to patients: when somebody reads, with {opens} and {closes}
    "care.closing_told_after": "min",     # from closing a flag until the patient is told, if nobody wrote
    "care.emergency_number": "",
    "care.urgent_number": "",
    "care.poison_number": "",
    "care.crisis_number": "",
    "care.act_within.emergency": "min",
    "care.act_within.urgent": "h",
    "care.act_within.routine": "h",
    "joining.remind_after": "h",          # the invite was used, the question before the first dose is not answered
    "joining.flag_after": "h",
    "joining.open_for": "d",              # 'I agree' later than this starts nothing by itself
    "invite.valid_for": "d",
    "invite.tries": "tries",
    "invite.slow_after": "tries",
    "invite.lock": "min",
    "hold.rules": "",
    "later.longest": "h",
    "correction.open_for": "h",            # 'oops, I did not take it' is about an answer no older than this
    "question.open_for": "min",           # unanswered this long, 'when did you take it?' is open no more
    # the day, tapers, supply, bounds: read by dayplan, taper, supply, planfile, timeline
    "step.change_before": "min",          # before the first dose of the day of a step
    "care.notice_time": "",               # local HH:MM for what the care team alone gets
    "endoscopy.remind_every": "d",
    "milestone.weeks": "",                # list of weeks of the course
    "dayplan.after_meal": "min",
    "dayplan.meal_lasts": "min",
    "dayplan.before_sleep": "min",
    "dayplan.apart_least": "h",
    "dayplan.apart_most": "h",
    "taper.largest_drop": "%",
    "taper.comfortable_drop": "%",        # a ladder with a larger one says so, and names a gentler one
    "taper.shortest_step": "d",
    "taper.most_units": "units",          # ampoules or puffs of one dose; more is a mistyped unit
    "supply.lead": "d",
    "supply.remind_again": "d",
    "supply.gate_wait": "wk",             # how long a gate may wait, for the upper end of what a course uses
    "bounds.adult_from": "a",             # years
    "bounds.height_for_age": "cm",        # rows [age from, lowest, highest]; outside is a caution
    "bounds.height_far": "%",             # beyond those by more than this is a problem
    "bounds.budesonide_ampoule.strengths": "",
    "bounds.budesonide_ampoule.child.dose": "",      # [lowest, highest] of one dose
    "bounds.budesonide_ampoule.child.daily": "",     # [lowest, highest] of one day
    "bounds.budesonide_ampoule.adult.dose": "",
    "bounds.budesonide_ampoule.adult.daily": "",
    "bounds.fluticasone_inhaler.strengths": "",
    "bounds.fluticasone_inhaler.child.dose": "",
    "bounds.fluticasone_inhaler.child.daily": "",
    "bounds.fluticasone_inhaler.adult.dose": "",
    "bounds.fluticasone_inhaler.adult.daily": "",
    # the care team's hours, paging and rules: read by bot/escalation and bot/care
    "care.time_zone": "",                 # zone of the care team's clock
    "care.opens": "",                     # local HH:MM
    "care.closes": "",
    "care.working_days": "",              # list: 0 is Monday
    "care.country": "",                   # two letters, for public holidays
    "care.region": "",                    # part of the country with holidays of its own, or empty
    "care.closed_days": "",               # list of ISO dates besides the public holidays
    "care.digest_at": "",                 # list of local HH:MM on working days
    "care.urgent_outside_hours": "",      # "at once" | "at opening"
    "care.act_within.soon": "h",          # routine, but not to be left lying
    "care.talk_open_for": "h",            # after the care team wrote, a bare 'yes' is for them this long
    "care.delivered_within": "min",       # a flag that has not left by then goes to whoever is on call
    "care.raise_again.emergency": "min",
    "care.raise_again.urgent": "h",
    "care.raise_again.routine": "h",
    "care.close_within.emergency": "h",
    "care.close_within.urgent": "h",
    "care.close_within.routine": "h",
    "care.lag_limit": "min",              # messages later than this: the care team is warned
    "care.outcomes": "",                  # list: how a flag can end
    "care.may.invite": "",                # lists of roles
    "care.may.remove": "",
    "care.may.prepare_plan": "",
    "care.may.sign_plan": "",
    "care.may.release_gate": "",
    "care.may.record_results": "",
    "care.may.pause": "",
    "care.may.free_doses": "",
    "hold.kept_by": "",                   # outcomes of a flag after which held doses stay held
    "pause.look_after": "d",              # a pause that still lasts: the care team is reminded, and again
    "follow_up.open_for": "h",            # so long a typed 'worse' answers 'how is it now?'
    "follow_up.emergency": "h",
    "follow_up.urgent": "h",
    "flag.together_within": "h",          # signs this close together are read as one picture
    "flag.again_within": "d",             # the same trouble once more
    "flag.after_impaction": "d",          # chest pain this soon after food stuck or an endoscopy
    "flag.missed_within": "d",
    "flag.missed_doses": "doses",
    "flag.windows_broken": "windows",
    "flag.rinse_share": "%",              # rinses confirmed, of doses taken, below which it counts as given up
    "flag.silent_days": "d",
    "flag.silent_check_ins": "check-ins",
    "flag.hoarse_for": "d",
    "flag.taper_watch": "d",              # this long after a step down, worse swallowing is read as relapse
    "flag.score_rise": "points",           # of the check-in score, higher is worse
    "flag.no_benefit_week": "wk",
    "flag.no_benefit_fall": "%",
    "flag.adaptations": "habits",
    "flag.burst": "min",                  # words that follow so soon are not each confirmed to the patient
    "flag.rest": "d",                     # a rule about the course that has raised a flag stays quiet this long
    "flag.rest_long": "d",                # the same for what goes on for months (endoscopy, gate, doses, rinse, window)
    "flag.lost_days": "d",
    "flag.long_course": "d",              # from here on stopping or stress needs a thought about the adrenals
    "medicines.strong_inhibitors": "",    # list of generic names
    "medicines.moderate_inhibitors": "",
    "medicines.inducers": "",
    "medicines.inducers_by_practice": "",
    # mixing and cautions: read by recipe and cautions
    "sweetener.rule": "",                 # "N g per mg" | "N g per ampoule"
    "sweetener.other_rule": "",           # the other published form, shown beside it before signing
    "sweetener.packet": "g",
    "sweetener.displacement": "mL/g",     # what a gram adds to the volume
    "sweetener.carbohydrate": "g",        # in one packet
    "sweetener.sucralose": "mg",          # in one packet
    "sweetener.limit_low": "mg/kg",       # a day
    "sweetener.limit_high": "mg/kg",      # a day
    "vehicle.honey": "mL",
    "vehicle.maple_syrup": "mL",
    "vehicle.apple_sauce": "mL",
    "vehicle.formula_powder": "mL",
    "vehicle.per": "",                    # "dose" | "ampoule": what these millilitres are for
    "vehicle.carbohydrate.honey": "g",    # in 5 mL
    "vehicle.carbohydrate.maple_syrup": "g",
    "vehicle.carbohydrate.apple_sauce": "g",
    "mix.ahead_limit": "d",               # 0: each dose is mixed when taken; never above 14 days, kept cold
    "mix.part_step": "mL",                # what a measuring spoon or syringe at home can tell apart
    "mix.part_error": "%",
    "cautions.steroid_card": "",          # daily fluticasone above which a steroid emergency card is due
    "cautions.long_use": "wk",
    "cautions.child_height": "cm",
    "cautions.child_daily_below_height": "",
    "cautions.child_age": "a",
    "cautions.child_dose_below_age": "",
    "cautions.other_steroids": "",        # list of generic names: by other routes they add up
    # answers to the common questions: read by bot/questions
    **{f"questions.{name}": "" for name in QUESTIONS},
    "keep.foil_open": "d",
    "keep.done_messages": "d",
    "inhaler.extra_sprays": "sprays",     # beyond the count on the label of a new canister
    "inhaler.prime_first": "sprays",
    "inhaler.prime_again": "sprays",
    "inhaler.prime_after": "d",
}

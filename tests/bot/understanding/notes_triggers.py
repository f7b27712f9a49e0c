"""Trigger words of clinical notes, for the open NegEx/ConText test kit: classes and most entries as published by
Chapman 2001 (NegEx) and
Harkema 2009 (ConText). Patients do not write like this; the program reads with its own tables, the engine is the
same."""

from __future__ import annotations

from bot.understanding.context import Triggers, table, words_of

NOTES = Triggers(
    negation=table("""
no not without denies denied deny denying negative_for no_evidence_of no_sign_of no_signs_of absence_of free_of
never none neither nor
ruled_out rules_out rule_out_for no_evidence fails_to_reveal failed_to_reveal did_not cannot unremarkable_for
no_suggestion_of no_complaints_of no_new
no_other not_have not_had not_feel not_know_of not_demonstrate not_appear not_show not_reveal unable_to_find
resolved_of no_significant
not_associated_with without_any without_evidence no_abnormal no_cause_of not_complain_of declined absent lack_of
lacked isnt wasnt doesnt didnt hasnt havent
no_further patient_was_not r_o evaluate_negative clear_of non
"""),
    negation_after=table("""
unlikely is_ruled_out was_ruled_out are_ruled_out were_ruled_out have_been_ruled_out has_been_ruled_out ruled_out
free negative absent was_negative were_negative
is_negative are_negative not_seen not_present not_identified not_detected was_not_seen is_not_seen are_not_seen
were_not_seen is_absent not_noted
has_resolved have_resolved had_resolved resolved is_negative negative is_not_present are_absent not_appreciated
not_palpable not_visualized was_not_present was_absent not_demonstrated none denied was_denied no
is_not was_not are_not were_not has_not
"""),
    pseudo=table("""
no_increase no_suspicious_change no_significant_change no_interval_change not_only not_certain_if
not_certain_whether gram_negative not_necessarily
without_difficulty no_longer not_drain not_cause not_cause no_significant_interval_change not_been no_further_change
no_definite_change not_extend
not_tolerate not_take not_know not_know_what not_certain not_clear not_rule_out could_not_be_ruled_out
cannot_be_excluded not_be_excluded cannot_rule_out
cannot_exclude not_be_ruled_out cant_rule_out not_given not_felt_to_be not_well not_able not_recall not_aware no_pcp
not_improve non_tender
not_respond not_resolve not_responding not_controlled not_tolerated does_not_know no_response non_st not_currently
not_ambulate
"""),
    terminate=table("""
but however although though except aside_from apart_from secondary_to due_to because_of because since which who
still yet causing caused_by cause_of cause_for causes_of
reason_for reasons_for etiology_for etiology_of source_of source_for origin_of with_the_exception
other_possibilities_of as_a_cause_of as_the_cause_of nevertheless
presenting presented presents complaining complains then until for_which was_found is_found remained there_was
there_were there_is_a there_are : ;
on_exam assessment impression otherwise has_a had_a does_have did_have reports was_noted notes noted_to secondary
revealed past_medical reveals shows showed and_has and_had
and_was and_is and_were and_the given
"""),
    list_or=frozenset({"or", "nor", "and"}),
    past_before=table("""
history_of past_history_of past_medical_history_of previous prior_history_of pmh_of h_o hx_of status_post s_p
past_medical_history history remote_history_of known_history_of
history_significant_for medical_history_significant_for history_remarkable_for history_is_significant_for previously
a_history_of long_history_of family_history past_surgical_history in_the_past
prior years_ago last_year distant_history old social_history months_ago
"""),
    past_after=table("years_ago in_the_past year_ago months_ago last_year"),
    ongoing=table(
        "history_of_present history_of_presenting history_physical history_taking prior_to chief_complaint"
    ),
    supposed=table("""
if return_if return_for should_he should_she should_there should_the_patient as_needed_for in_case_of call_if
for_any prn_for come_back_for for_concerning_signs call_for return_with
"""),
    true_now=table("zzz"),
    asked_soft=table("zzz"),
    asked_open=table("zzz"),
    condition=table("zzz"),
    not_if=table("zzz"),
    asks=table("zzz"),
    asked=table("zzz"),
    asked_after=table("zzz"),
    uncertain=table("possible possibly probable suspected rule_out r_o may_be could_be"),
    since=table("zzz"),
    relatives=table("""
mother father sister brother aunt uncle grandmother grandfather son daughter family wife husband cousin mothers
fathers sisters brothers parents siblings
"""),
    third=frozenset(),
    first=words_of("patient he she patients"),
    children=table("zzz"),
    telling=table("zzz"),
    not_subject=words_of("with by per from and to his her"),
    through_commas=True,
    reach=60,
    after=60,
)

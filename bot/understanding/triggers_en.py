"""English trigger words around a mention, for patients' messages. Classes after NegEx (Chapman 2001) and ConText
(Harkema 2009)."""

from __future__ import annotations

from bot.understanding.context import Triggers, table, words_of

RELATIVES = table("""
resident residents patients one_of_my_patients my_patient my_pupil my_students goldfish
puppy kitten budgie parrot pony pooch pup hound labrador terrier spaniel guinea_pig tortoise hamster a_girl a_boy
a_man a_kid some_bloke some_kid some_man some_woman the_old_man the_old_lady an_old_man an_old_lady the_guy passenger
bridesmaid groom stranger kid_next_door next_door neighbours_kid uncle brother_in_law sister_in_law
father_in_law son_in_law daughter_in_law opposite_desk cleaner driver waiter waitress hairdresser barber referee
singer
pensioner bystander great_aunt godmother godfather stepdad stepfather
lad lass wee_one bub littlun son sons daughter daughters kid kids child children toddler baby grandson granddaughter
grandchild grandkids mum mums mom moms mother mothers dad dads father fathers parents wife wifes husband husbands
hubby hubbys partner partners spouse boyfriend girlfriend fiance sister sisters brother brothers aunt uncle cousin
nephew niece gran grandma grandpa grandad nan nana friend friends mate colleague coworker co_worker boss neighbor
neighbors neighbour neighbours flatmate roommate housemate teacher someone somebody everyone_else another_person
mother_in_law father_in_law little_boy little_girl in_laws people family_member dog cat classmate bf gf missus
stepson stepdaughter twin actor_in coach teammate teammates workmate workmates tenant barista customer customers pupil
student bloke guy chap
lady woman ex godson goddaughter stepmom stepdad stepmum uncles aunts aunties auntie cousins nephews nieces
girlfriends
boyfriends another_patient other_patient other_patients somebody_else someone_else im_the_one_with im_the_one_who
its_me_her_mum its_me_his_mum lodger landlord manager supervisor postman builder plumber priest vicar teachers coaches
gramps grandfather grandmother bestie besties roomie roomies client clients my_other_half
step_sis stepsister stepbrother lil_bro lil_sis flatmates roommates nextdoors a_film_about film_about movie_about
show_about documentary_about book_about story_about
article_about article_on programme_about program_about video_about podcast_about post_about episode_about
character actor actress in_the_film in_the_movie
""")

CHILDREN = table("""
lad lass wee_one bub littlun son sons daughter daughters kid kids child children toddler baby little_boy little_girl
stepson stepdaughter
""")

_YEARS = " ".join(str(year) for year in range(1955, 2026))

EN = Triggers(
    negation=table("""
no not never without none nothing nowt neither nor zero nope nah havent hasnt hadnt dont doesnt didnt isnt arent
wasnt werent aint cant_see cant_feel cannot_see cant_find cant_say_i free_of negative_for denies deny no_sign_of
no_signs_of no_sign no_evidence_of no_more no_longer dont_have dont_think do_not did_not does_not have_not has_not
is_not are_not was_not absence_of absent rather_than instead_of not_a hardly_any barely_any never_had cant_see_any
stopped_having stopped_getting
"""),
    negation_after=table("""
free no none nope nil nah negative absent is_absent was_negative is_negative not_present isnt_there not_there
ruled_out
"""),
    pseudo=table("""
no_sorry no_wait no_actually no_but no_its no_theres no_i_have not_only not_just not_sure not_certain no_wonder
no_doubt no_idea no_joke no_change no_better not_better no_luck not_cause not_because no_improvement not_gone
not_going_away not_healing not_healed not_getting_any_better not_improving dont_know didnt_know do_not_know
not_feeling_well not_feeling_great not_well not_great not_good not_right not_so_good not_too_good not_much_better
dont_feel_well dont_feel_good no_one nobody not_stopped hasnt_stopped hasnt_gone hasnt_cleared not_normal
isnt_normal dont_understand no_matter not_long no_appetite no_energy no_strength no_voice no_taste no_ampoules
not_working isnt_working didnt_help doesnt_help no_good not_able not_yet why_not if_not or_not not_kidding not_lying
no_sleep didnt_sleep not_slept no_question didnt_realise not_eating cant_see_properly dont_want not_funny not_ideal
not_nice isnt_right doesnt_look_right doesnt_feel_right isnt_good no_offence not_to_be dont_like not_a_fan not_okay
not_ok didnt_want dont_remember didnt_notice_until not_until cant_tell wont_stop wont_go_away wont_go doesnt_stop
doesnt_go dont_go not_stopping doesnt_brush doesnt_scrape doesnt_wipe doesnt_come not_usually not_used_to
never_stops never_been_so never_been_this never_felt never_had_it_this never_had_this no_relief no_help
not_being_funny not_gonna_lie not_coming_off not_panicking dont_panic dont_mean not_enough
"""),
    terminate=table("""
if but however although though only just except apart aside because since so then yet still now and_now and_also
and_then even_though whereas while until till instead also plus which secondary anyway actually otherwise besides
my_only unless
"""),
    list_or=frozenset({"or", "nor"}),
    past_before=table(_YEARS + """
my_childhood late_childhood early_childhood my_youth i_was_six i_was_seven i_was_eight i_was_nine i_was_ten
i_was_eleven
i_was_twelve i_was_thirteen i_was_fourteen i_was_fifteen i_was_sixteen i_was_seventeen i_was_eighteen i_was_nineteen
i_was_twenty at_university in_my_teens in_the_army as_a_student year_before_last years_back yrs_back yrs_ago yr_ago
years_since yrs_since when_he_was when_she_was as_a_toddler
as_a_tot as_a_boy as_a_girl as_a_baby when_i_was_at in_8th_grade in_middle_school in_high_school in_primary back_in
prior_to_the prior_to_treatment when_i_was_pregnant at_christmas_was last_february last_january last_march last_april
last_may last_june last_july last_august last_september last_october last_november last_december of_2019
one_time_years
in_1985 in_1986 in_1987 in_1988 in_1989 in_1990 in_1991 in_1992 in_1993 in_1994 in_1995 in_1996 in_1997
in_1998 in_1999 in_2000 in_2001 in_2002 in_2003 in_2004 in_2005 in_2006 in_2007 in_2008 in_2009 in_2010
in_2011 in_2012 in_2013 in_2014
in_2015 in_2016 in_2017 in_2018 in_2019 in_2020 in_2021 in_2022 in_2023 in_2024 in_2025 used_to years_ago year_ago
months_ago month_ago weeks_ago last_year last_month last_summer last_winter last_autumn last_fall last_spring
when_i_was_little when_i_was_young when_i_was_younger when_i_was_small when_i_was_a when_i_was_at_school
when_i_was_in when_i_was_ten when_i_was_a_kid when_i_was_pregnant in_the_spring in_the_summer in_the_autumn
in_the_winter as_a_kid as_a_child as_a_teenager in_the_past previously history_of long_ago ages_ago before_treatment
before_i_started before_this before_starting before_the_steroid once_had in_january in_february in_march in_april
in_may in_june in_july in_august in_september in_october in_november in_december back_in_the_day a_while_ago
in_childhood growing_up back_when back_at_school pre_treatment before_the_medicine before_i_was_diagnosed
in_my_twenties last_christmas when_he_was_little when_he_was_younger when_he_was_a when_she_was_little
when_she_was_younger when_she_was_a
"""),
    past_after=table("""
have_not_returned has_not_returned not_returned_since outgrown outgrown_by found_nothing cleared_it not_shown_its_face
never_since never_again never_repeated hasnt_since none_since not_returned outgrew outgrew_it grew_out_of put_right
sorted_with been_sound been_fine_since clean_gums turned_out_to_be all_ancient
pink_again normal_again clear_again clean_again fine_again ok_again treated all_better_now long_gone packed_up
never_came_back not_come_back hasnt_returned fine_now ok_now okay_now good_now better_now all_better gone_now
has_gone have_gone is_gone are_gone its_gone went_away gone_away cleared_up all_cleared has_cleared have_cleared
healed healed_up has_healed has_stopped have_stopped not_anymore not_any_more no_longer nothing_since none_since
back_to_normal all_gone all_clear settled settled_down sorted_now over_now has_passed went_on_its_own but_gone
is_better_now much_better_now cleared resolved disappeared has_disappeared faded is_over are_over have_healed
went_by_itself stopped_now wore_off calmed_down gone_today better_today fine_today subsided eased_off is_ok_now
all_good_now is_fine_now went_down_now hasnt_come_back has_settled dried_up not_since
"""),
    ongoing=table("""
and_again again_this again_today again_now again_tonight again_last again_yesterday again_just this_time_too
still not_gone wont_go_away hasnt_gone not_going_away comes_and_goes keeps_coming back_again came_back_again
never_went never_cleared right_now currently at_the_moment started_again ever_since getting_worse started_weeks_ago
been_there for_weeks for_months since worse but_now and_now now_i now_my now_its started_a started_two started_2
started_3 every_day returned
"""),
    supposed=table("""
would_a would_an say_one say_he_got suppose_a suppose_i suppose_she what_would_i_see what_would_it
were_i_to if_i_were_to say_he say_she let_us_imagine lets_imagine suppose_he suppose_she supposing
will_get will_choke might_choke could_choke would_get scared_that afraid_that worried_that paranoid_about
terrified_of frightened_of dreading_getting say_a say_the say_it say_some say_my what_if in_case suppose supposing
should_i_get should_i_have what_do_i_do_if
what_should_i_do_if what_to_do_if what_happens_if when_should_i_worry do_if if_i_ever if_i_get if_i_start
if_i_develop if_i_have if_i_had if_it_gets if_food if_my if_something if_there_is if_theres if_a if_chicken
if_i_cant if_i_throw if_i_took if_i_take if_i_notice if_i_feel if_i_see if_i_were if_i_become if_i_choke if_i_vomit
if_i_miss if_he if_she if_his if_her imagine say_i_get worried_about_getting scared_of afraid_of worry_about
worried_about in_the_event should_anything lets_say hypothetically if_meat if_bread if_anything if_the if_one
scared_i_might afraid_ill worried_ill scared_ill might_get could_get to_er_if to_a_and_e_if call_if ring_if
when_to_call how_do_i_avoid how_to_avoid avoid_getting prevent to_prevent stop_me_getting go_to_the_er_for
when_should_i_go when_to_go scared_of_getting scared_of_food afraid_of_getting afraid_of_choking nervous_about
if_i_wake should_my what_would_happen if_someone if_some watch_out_for look_out_for
"""),
    true_now=table("""
has_been have_been still_there still_stuck is_still still_have still_has still_cant right_now currently for_hours
now since hours_now already been_stuck
"""),
    asked_soft=table("is_it_normal is_it_common is_it_usual is_it_expected is_it_ok is_it_bad"),
    asked_open=table("is are can could does do was it"),
    condition=table("if should when_would"),
    not_if=table("""
not_sure_if dont_know_if wondering_if wonder_if see_if tell_if as_if even_if only_if idk_if unsure_if not_certain_if
ask_if know_if hurts_if asking_if what_should should_i should_it
"""),
    asks=table("""
is_that is_this would_that who_would who_should do_you should_we can_you what who when_should should_i do_i can_i
shall_i where who_do how_do will_i would_i is_it when_do need_to_call
"""),
    asked=table("""
how_would_i_know_if_i how_do_i_know_if_i how_can_i_tell_if_i how_would_i_tell_if_i how_would_you_know says_on_the
what_would how_do_you_spot spot_the_signs what_exactly_is what_even_is what_is_meant_by meaning_of is_it_true_that
give_you give_people give_someone cause_people could_the_inhaler could_the_medicine could_the_spray could_the_slurry
could_the_steroid could_steroids could_budesonide leaflet_mentions leaflet_lists leaflet_warns page_says page_mentions
page_two page_three insert_says insert_lists box_says side_effect_list list_of_side sheet_says booklet_says
booklet_mentions website_says paper_says asked_me_to_report told_me_to_report asked_to_report to_look_out_for
told_to_watch_for supposed_to_report asked_me_about asked_if_i asked_whether_i you_listed you_warned_me
you_warned_about supposed_to_watch
which_are_signs which_are_the_signs how_common how_often_does leaflet leaflet_page the_leaflet_says should_i_double
what_does_it_mean_if know_if_it_was the_difference_between
how_long_does how_long_do how_long_can how_long_should how_long_is_it_ok
it_can_cause that_it_can what_counts_as what_are what_do do_other_people do_lots_of do_many do_most do_some
is_it_normal_to is_it_common_to is_it_normal_that_people is_it_usual_to is_it_expected_to could_it would_this
could_this might_this does_this does_it can_it can_this could_it_cause could_this_cause will_this will_it would_it
might_it can_you_get do_you_get do_people is_it_true is_it_common how_would_i_know how_do_i_know how_will_i_know
how_can_i_tell what_are_the_signs what_are_the_symptoms what_does does_budesonide does_fluticasone do_steroids
can_steroids does_the_medicine can_the_medicine does_the_steroid can_the_steroid risk_of chance_of chances_of
read_about leaflet_says heard_about are_there signs_of_what symptoms_of read_that heard_that does_everyone
do_you_ever will_i_get will_i could_i_get can_i_get am_i_going_to_get likely_to_get side_effects_like what_is
whats_a can_budesonide can_fluticasone is_there_a_risk can_the_inhaler does_the_inhaler can_the_spray
does_the_slurry do_inhalers can_inhalers
"""),
    asked_after=table("""
one_must_look to_look_out_for to_watch_for i_should_look_for to_worry_about
common normal expected usual typical known possible a_side_effect a_common_side_effect normal_with common_with
a_known_side_effect a_possible_side_effect side_effect common_side expected_with normal_on common_on possible_with
a_known_side known_side
"""),
    uncertain=table("""
maybe might perhaps possibly not_sure could_be i_think think_its kind_of kinda sort_of seems probably i_guess unsure
wondering_if cant_tell looks_like_it_could dont_know_if idk_if not_certain
"""),
    since=table("""
since_the_new since_starting since_i_started since_the since_taking after_the_dose after_my_dose after_taking
since_i_took after_i_took since_my_dose ever_since_i_started after_the_new since_you_changed since_changing
since_cutting since_the_medicine after_the_puffs
"""),
    relatives=RELATIVES,
    third=words_of("""
he she hes shes his her him
"""),
    first=words_of("""
i im ive my me mine ill id myself we our weve
"""),
    children=CHILDREN,
    telling=table("""
says said thinks think noticed saw told reckons pointed can_see looked wants wanted asked took drove made gave_me
found spotted noticed_that is_worried worried insisted insists checked has_noticed says_that keeps_telling
complains_that can_hear heard had_to_drive had_to_take suggested is_a_nurse laughed laughs called_an already
had_already is_driving
"""),
    not_subject=words_of("""
from off by like with than to think feel believe as and_my about for of at say
"""),
    subjects=words_of("""
still i ive im my its it theres there he she his hers we they got youre
"""),
    answers=words_of("""
no nope nah
"""),
    verbs=words_of("""
is are was its wont isnt hasnt keeps got cant cannot
"""),
    clause_starts=words_of("""
i ive im its theres there he she hes shes we cant cannot couldnt
"""),
    joins=words_of("""
and or if when whenever ever again just really suddenly already while that because so what do should can does
will is then as before after until like think feel believe say said nor than how where who might could would may
did has have are was but says which
"""),
    openers=words_of("""
and well so but about some like over a it was back maybe around it its from since that one two three few couple
of yes yeah no nope only just
"""),
    speaks_for=table("""
mum_here mom_here dad_here mother_here father_here wife_here husband_here parent_here mummy_here daddy_here gran_here
this_is_his_mum this_is_her_mum this_is_his_mom this_is_her_mom this_is_his_dad this_is_her_dad this_is_his_wife
this_is_her_husband its_his_mum its_her_mum its_his_mom its_her_mom its_his_dad its_her_dad its_his_wife
its_her_husband
his_mum_here her_mum_here his_mom_here her_mom_here his_wife_here her_husband_here writing_for_my writing_on_behalf
on_behalf_of typing_for_my texting_for_my messaging_for_my
"""),
    supposed_after=table("""
if_i_got_one if_i_ever if_i_did_get if_that_happened if_it_ever if_it_happened if_that_happens if_i_had_one
if_he_ever if_she_ever if_i_do_get if_one_came if_it_came_up
"""),
    reach=6,
)

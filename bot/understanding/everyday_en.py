"""English idioms and everyday things that sound like symptoms: 'dying to eat', 'the sofa got wedged in the doorway'.

An idiom's words say nothing about a body, wherever they stand. An everyday thing counts only as what a clause is
about
(not after 'on the', 'in the'), and only in a clause that names no food and no part of the body. Written by hand.
"""

from __future__ import annotations

from bot.understanding.context import table, words_of

IDIOMS = table("""
hand_on_heart cross_my_heart confused_about_the confused_by_the confused_by_this confused_by_your confused_about_my
confused_over_here_by confused_about_when confused_about_which confused_which breathe_in_these breathe_in_this_dress
breathe_in_this_corset breathe_in_this_suit nesting_in thrush_singing song_thrush mistle_thrush
blood_all_over_the_screen
heat_is_suffocating weather_is_suffocating suffocating_heat suffocating_weather its_suffocating_out
suffocating_outside
sun_is_suffocating humidity_is_suffocating room_is_suffocating
cold_sore_throat collapsed_into_the_armchair collapsed_into_the_sofa collapsed_into_my_armchair
collapsed_into_my_chair
collapsed_into_an_armchair collapsed_into_the_chair collapsed_into_the_settee collapsed_into_a_heap_of_laughter
blood_test blood_tests
blood_results blood_work bloodwork tubes_of_blood vials_of_blood vial_of_blood tube_of_blood took_blood take_blood
taking_blood took_my_blood take_my_blood drew_blood draw_blood drawing_blood blood_draw blood_taken blood_sample
blood_samples give_blood giving_blood gave_blood donate_blood donating_blood blood_type blood_group blood_count
blood_counts blood_sugar blood_sugars blood_donor blood_bank blood_pressure blood_thinner blood_thinners
dead_tired dead_beat dead_on_me_feet dead_to_the_world breathless_with_excitement breathe_for_laughing
breathing_for_laughing breathe_from_laughing breath_from_laughing gasping_for_a_brew gasping_for_a_cuppa
gasping_for_a_tea gasping_for_a_coffee gasping_for_a_pint gasping_for_a_drink gasping_for_a_smoke gasping_for_my_tea
blood_form blood_forms blood_test_form fake_blood festival_fever world_cup_fever election_fever carnival_fever
wedding_fever gold_fever heart_attack_moment a_heart_attack_when bleeding_umpire bleeding_ref bleeding_referee
bleeding_useless bleeding_typical bleeding_alarm bleeding_phone bleeding_traffic childcare_fell_over black_mould
black_mold suffocation_risk suffocation_hazard choking_hazard dribble_champion like_every_teether temps_normal
temp_normal temps_are_normal temps_fine temps_ok choked_with_laughter choked_with_laughing laughing_so_hard
crying_with_laughter collapsed_laughing collapsed_in_giggles collapsed_with_laughter dying_with_laughter
nearly_died_when nearly_died_of nearly_fainted_at_the_price nearly_fainted_when_i_saw blood_and_germs blood_orange
blood_moon blood_brothers killing_it strangled_by_this choking_hazards
 die_of_embarrassment die_of_shame die_of_boredom dying_of_shame die_of_laughter bleeding_heck bleeding_early
bleeding_freezing bleeding_cold bleeding_annoying boiling_here boiling_today its_boiling hot_here hot_today
roasting_here its_roasting sweating_in_this hot_in_here so_hot_outside hot_outside sunburnt_my sunburned_my
burst_pipe burst_pipes up_the_sink up_the_plughole up_the_drain for_armpits dying_to_eat dying_to_get dying_to_know
dying_to_see dying_to_try dying_to_have dying_for_a dying_for_some
dying_for_my im_dying_to die_for_a to_die_for died_laughing dying_laughing dying_of_laughter died_of_laughter
died_of_embarrassment died_of_boredom dying_of_boredom nearly_died_laughing almost_died_laughing phone_died
battery_died phone_is_dying battery_is_dying wifi_died laptop_died car_died car_battery_died kettle_died died_on_me
killing_me_with killed_me_with weather_is_killing heat_is_killing feet_are_killing back_is_killing killing_time
kill_time kill_for_a kill_an_hour dressed_to_kill could_murder could_kill_for could_kill_a murder_a make_a_killing
killing_it killed_it killed_the_mood traffic_is_killing job_is_killing suspense_is_killing took_my_breath_away
takes_my_breath_away take_your_breath_away breath_of_fresh_air hold_your_breath hold_my_breath holding_my_breath
holding_our_breath save_your_breath waste_my_breath waste_your_breath under_my_breath same_breath caught_my_breath
breathing_space breathing_room breathing_down_my breathe_a_sigh breathing_exercise breathing_exercises heart_sank
heart_skipped heart_stopped_when heart_melted heart_broken heartbroken broke_my_heart nearly_had_a_heart
gave_me_a_heart_attack heart_attack_when heart_in_my_mouth lump_in_my_throat_watching blood_is_thicker bad_blood
in_cold_blood blood_sweat_and_tears sweat_and_tears blood_boil blood_boiling boils_my_blood makes_my_blood new_blood
blood_out_of_a_stone blood_from_a_stone flesh_and_blood in_my_blood in_our_blood blood_brother
blood_relative blood_relatives blood_oranges blood_orange bloodhound bleeding_heart bleeding_us_dry bled_dry
bleeding_money bleed_the_radiator bleed_the_radiators bleed_the_brakes bled_the_radiators bled_the_radiator
bleeding_the_radiators bleeding_the_radiator colours_bled color_bled ink_bled stuck_at_work stuck_in_traffic
stuck_on_the_train stuck_on_a_train stuck_in_a_meeting stuck_in_meetings stuck_in_a_queue stuck_in_the_lift
stuck_in_my_head stuck_in_a_rut stuck_on_the_motorway stuck_on_hold stuck_for_time stuck_for_ideas stuck_around
sticking_around stuck_to_it stick_to_the_plan stuck_with_it stick_with_it sticking_with_it stuck_together
stuck_overnight stuck_abroad stuck_in_the_snow stuck_in_the_mud stuck_home chest_of_drawers chest_freezer tool_chest
treasure_chest medicine_chest burning_candle burning_candles burning_the_candle burning_question
burning_the_midnight burning_smell burnt_toast burnt_the_toast burnt_the_dinner burnt_out burned_out burn_out
burning_calories burned_my_dinner burnt_my_dinner burning_rubber burn_the_toast slow_burn burning_a_hole
coffee_grounds_in_the coffee_grounds_blocked coffee_grounds_everywhere coffee_grounds_on_the coffee_grounds_for
coffee_grounds_all coffee_ground_by black_pudding blood_pudding blood_sausage black_tea black_coffee black_friday
black_cat black_dress black_jeans black_shirt black_bin black_bag black_ice blackout_curtains blackout_blind
blackout_blinds black_out_blinds black_tie black_tar_road white_shirt white_shirts white_blouse white_dress
white_trousers white_lie white_noise white_christmas white_wash white_wine white_paint white_board whiteboard
white_goods white_flag white_van white_as_a_sheet patchy_signal patchy_wifi patch_of_grass eye_patch nicotine_patch
nicotine_patches patch_things rough_patch bad_patch purple_patch elbow_patch patch_on_my_jeans patch_of_ice
vegetable_patch pumpkin_patch coat_of_paint new_coat winter_coat raw_deal sore_loser sore_point sore_subject
sore_losers sore_thumb sight_for_sore_eyes sore_from_the_gym sore_after_the_gym hard_to_swallow_that bitter_pill
hard_pill hard_to_swallow_the_news tough_to_swallow_that swallow_my_pride swallowed_my_pride swallow_the_cost
swallow_the_news swallow_that_news eat_my_words ate_my_words eat_my_hat food_for_thought sticks_in_my_mind
sticks_in_my_head stick_in_the_mud sick_of_this sick_of_the sick_of_it sick_of_hearing sick_and_tired sick_of_being
worried_sick sick_day sick_note sick_pay sick_leave off_sick phoned_in_sick called_in_sick sick_tune sick_beat
thats_sick spitting_image spitting_feathers spitting_with_rain spitting_outside spit_it_out spit_and_polish
within_spitting drooling_over drool_over dribbling_the_ball dribble_past dribbling_practice
frothy_coffee foam_mattress foam_roller shaving_foam foam_party swelling_with_pride
swollen_river river_is_swollen big_head big_mouth fat_chance puffed_with_pride lips_are_sealed tongue_tied
tongue_in_cheek slip_of_the_tongue tip_of_my_tongue tip_of_the_tongue bite_my_tongue bit_my_tongue mother_tongue
cold_feet cold_shoulder head_spinning_with spinning_class head_in_the_clouds dizzy_heights dizzy_with_excitement
dizzy_with_joy weak_coffee weak_tea weak_signal weak_excuse weak_joke weak_spot shaky_wifi shaky_start shaky_signal
shaky_ladder shaky_camera collapsed_into_bed collapsed_laughing passed_out_drunk tent_collapsed shelf_collapsed
bed_collapsed cake_collapsed chair_collapsed deal_collapsed on_the_floor_laughing rolling_on_the_floor
floor_laughing dropped_on_the_floor slept_on_the_floor sleeping_on_the_floor sat_on_the_floor sitting_on_the_floor
lying_on_the_floor_playing on_the_floor_playing fell_on_the_floor_and_smashed pass_out_laughing dead_good dead_easy
dead_on_time dead_battery dead_line deadline over_my_dead_body dead_chuffed dead_busy drop_dead_gorgeous
bored_to_death scared_to_death frightened_to_death freezing_to_death starving_to_death worried_to_death
tickled_to_death sick_to_death suicide_squad life_of_me pain_in_the_neck pain_in_the_arse pain_in_the_ass
pain_in_the_bum pain_in_the_backside pain_in_the_butt what_a_pain a_pain_to_open a_pain_to_mix a_pain_to_remember
real_pain_to pain_to_mix no_pain_no_gain growing_pains painful_to_watch hurts_my_wallet hurt_my_feelings
hurts_my_feelings hurting_my_wallet fever_pitch cabin_fever football_fever hay_fever spring_fever baby_fever
gold_fever hot_potato hot_water_bottle cool_as_a_cucumber frog_in_the_pond horse_riding hoarse_from_cheering_is
butterflies_in_my_stomach green_with_envy in_stitches bursting_with_joy over_the_moon under_the_weather_forecast
wont_go_down_well go_down_well went_down_well went_down_a_treat going_down_well going_down_a_storm
wont_go_in_the_cup wont_go_on_the wont_come_off_the wont_go_through_customs tap_keeps tap_is_dribbling tap_dribbling
breaking_out_the rash_decision rash_guard scratching_my_head head_scratcher itching_to itchy_feet itchy_jumper
scarf_is_itchy no_sweat cold_sweat_over pregnant_pause expecting_a_parcel expecting_a_delivery expecting_a_call
expecting_guests expecting_visitors expecting_company expecting_rain expecting_snow expecting_a_package
missed_the_bus missed_the_train missed_your_call missed_the_point missed_you kick_the_habit cut_to_the_chase
cut_myself_some_slack cut_me_some_slack jump_off_the_bus hanging_the_washing caught_a_cold caught_the_train
caught_the_bus catch_up catching_up caught_in_the_rain caught_in_traffic caught_short caught_on_camera
down_in_the_dumps feeling_down_the choked_up_at choked_up_over choked_up_about choked_up_when choked_up_watching
choked_up_by all_choked_up bit_choked_up little_choked_up choked_up_during choked_up_reading get_it_off_my_chest
something_off_my_chest that_off_my_chest lump_in_my_throat_at_the_wedding stuck_at_the_airport stuck_at_the_office
stuck_at_the_station stuck_at_home
""")

EVERYDAY = words_of("""
greenhouse polytunnel stage scaffold deckchair hammock pergola awning calendar childcare starter sourdough exhaust
marquee scaffolding souffle mill cleaner appointment website diary
schedule umbrella gazebo trampoline shelving cake soufflé budget market company deal
sofa couch settee wardrobe cupboard shelf table chair desk lamp mattress bedframe fridge freezer oven toaster kettle
dishwasher washer washing dryer hoover vacuum microwave tap taps pipe pipes hose gutter drain sinkhole plughole
radiator
boiler heating roof ceiling gate fence door doors window windows garage shed lawnmower mower car van truck lorry
bus train
tram bike bicycle scooter wheel tyre tire engine brakes exhaust key keys lock padlock zip zipper button phone app
website
page screen laptop computer tablet_screen printer paper keyboard mouse_mat wifi router password login account game
level
update download video link email parcel package letter post delivery box lid cap jar tin can_opener drawer drawers
suitcase
bag backpack coat jacket trousers jeans shirt jumper sweater sock socks shoe shoes boot boots scarf hat ring earring
necklace glasses carpet rug curtain curtains blind blinds wall paint fence tree branch leaf leaves grass garden lawn
hedge snow ice mud river lake boat kite ball dog cat hamster rabbit_hutch horse goat cow sheep kitten puppy pony pram
buggy stroller pushchair swing slide_park lego toy toys doll drone piano guitar telly tv remote camera candle candles
fireplace bonfire stove barbecue_grill tent caravan road traffic queue lift elevator escalator ladder hammer screw
nail_gun
drill bolt machine atm coin ticket card wallet purse kart trolley cart bin bins recycling deal sale bill price economy
project team match score goal ball_game plot film movie song book chapter puzzle crossword sudoku homework exam lesson
printer_tray paperwork form cabinet ampoule ampoules straw carton packet sachet nozzle canister mouthpiece blender
""")

# Words that keep a clause about a body, whatever else it names.
BODILY = words_of("""
dribble drool slobber
throat gullet esophagus chest breastbone sternum neck mouth tongue lips lip gums cheek cheeks face stomach belly
swallow
swallowing swallowed saliva spit vomit vomited vomiting puked puke threw sick poo poop stool breathe breathing breath
choking food bite mouthful eating eat ate drink sip sips dinner lunch breakfast supper tea meal pain hurts hurt
blood bloody bleeding coughed coughing cough loo toilet
""")

# Words before 'the sofa' that make it a place or a likeness, not what the clause is about.
PLACED = words_of("on in at to into over by near from under behind beside off inside with like as through onto")

# Blood of a wound of the skin or the nose, or of a test, is none of ours ...
WOUND = words_of("""
thumb finger fingers knee elbow toe toes shin hand leg arm cut plaster bandaid bandage graze grazed scraped razor
shaving
shaved nosebleed nosebleeds nose pricked needle scratch scratched stitches tooth papercut period periods tampon
mosquito
donated donation donate donor transfusion
""")
# ... unless one of these stands in the sentence.
INNER = words_of("""
vomit vomited vomiting puke puked sick threw throwing spit spat spitting saliva cough coughed coughing throat stool
poo
poop toilet loo swallow swallowed retched heaved stools wiped wipe mouth throw bring brought came coming bowl
inside pee peeing wee
mouthful lots loads number everywhere heavily throwing
""")

# Pain of another part of the body is none of ours, unless the sentence names one of INWARD too.
ELSEWHERE = words_of("""
toe toes knee knees ankle foot feet back hip wrist elbow shoulder shoulders thumb finger fingers head headache
tooth ear
eye leg legs calf shin thigh nail hand hands bum tailbone bruise bruised sunburn sunburnt period periods cramps gym
""")
INWARD = words_of("""
throat gullet chest swallow swallowing swallowed eat eating drink drinking food breastbone mouth esophagus ribs
heart sip
sternum meal down tongue jaw arm sweating
""")

"""English word classes of the frames. A trailing `~` adds the regular endings; `_` joins the words of a phrase.

Lay words, slang, UK and US words. Written by hand for this project; the layperson terms of the Human Phenotype
Ontology are
checked against them in the tests (they lack 'cold sore', 'stuck', 'white patch', 'spit').
"""

CLASSES = """
MOTION = go goes going gone went move moves moving moved pass passes passing passed get gets getting got slide
    slides sliding stay stays staying make makes made budge shift progress progressing travel come comes coming drop
    dropping slip slipping continue
DIRECTION = by down past through further farther anywhere any_further all_the_way either_way nowhere
BODYLOC = throat gullet esophagus food_pipe foodpipe chest breastbone sternum halfway neck pipe windpipe midway
PARKED = parked sitting sits sat sitting_there resting planted hanging_around lying perched settled_in wedged stays
    staying stayed remains remaining residing camped lives glued cemented stuck_there there in_there
PLUG = dam wall blockade bottleneck pebble bung obstacle cork plug stopper golf_ball fist rock brick ball boulder
    stone marble lump knot tennis_ball football bowling_ball
BLOODNOUN = blood bleed bled bleeding bleeds
FOOD = food foods meal lunch dinner breakfast supper snack bite bites mouthful piece bit lump chunk morsel crumb
    bone chicken beef steak pork lamb meat meats turkey ham sausage sausages hotdog hot_dog bacon burger hamburger
    fish tuna salmon shrimp prawn prawns duck veal mince meatball meatballs roast chop ribs kebab brisket gristle
    bread toast bagel bun roll baguette sandwich pizza crust rice pasta noodles noodle spaghetti potato potatoes
    chips fries crisps apple carrot grape grapes banana orange mango peach pear salad lettuce broccoli celery sprout
    onion egg eggs pancake pancakes waffle muffin cereal oatmeal porridge granola nut nuts almond peanut peanuts
    cashew cheese cake cookie biscuit cracker crackers popcorn corn sweetcorn bean beans stew curry taco burrito
    wrap tortilla dumpling nugget nuggets pie pastry croissant donut doughnut pretzel pill pills tablet tablets
    capsule capsules vitamin vitamins paracetamol ibuprofen gummy candy sweet jerky tofu omelette omelet bolus
    vegetable vegetables veg fruit seed skin pepperoni lasagna quesadilla naan scone cutlet fillet drumstick wing
    wings patty schnitzel stuffing date raisin pineapple sushi
THING = something somethings it its that thats this everything whatever anything thing one stuff
STUCK = stuck lodged jammed wedged trapped impacted plugged clogged blocked hung_up hanging_up caught lodging
    bunged_up stuck_fast in_there_solid
STUCKBARE = stuck lodged wedged jammed impacted
STICKY = stick sticks sticking catching catches catch snag snags snagging snagged drag drags dragging hangs hanging
PLACE = throat gullet esophagus food_pipe foodpipe windpipe chest breastbone breast_bone sternum neck halfway
    half_way midway mid_way pipe adams_apple goozle swallowing_tube tube partway part_way
ELSEWHERE = stuck_for stuck_between stuck_on_hold meetings complaint motorway lock ideas sinuses stuck_the stuck_a
    stuck_it stuck_them stuck_my stuck_on_what stuck_on_how stuck_on_a_decision the_top_wont the_top_is
    the_top_of_the truck lorry stuck_to stuck_at_home stuck_at_work stuck_at_my stuck_with stuck_behind_a
    stuck_behind_the stuck_doing stuck_here stuck_indoors stuck_inside stuck_waiting stuck_working stuck_on_level
    stuck_on_the stuck_in_the_house stuck_in_bed stuck_in_line pen drawers zipper ring boot mud wheel heating boiler
    traffic work office meeting call phone train bus car snow lift elevator school home lid cap bottle zip door key
    app screen wifi internet website login account drawer package parcel post mail gate lane road jam airport queue
    line cup glass pan spoon mixer blender pot ampoule wrapper box foil drain toilet_blocked nose sinus ear ears
    nostril number card battery computer laptop window message link button page update mind head_song level job
    situation rain storm hospital_waiting city town desk flight shower_drain past_my_mind inhaler nozzle canister
    mouthpiece syringe packet powder sweetener lump_of_sweetener grease gum hair bubble_gum label teeth tooth braces
    taxi uber tram tube_train underground
NOTV = not never cannot cant couldnt wont wouldnt isnt arent aint hasnt havent doesnt dont didnt wasnt refuses
    refusing unable can_not could_not will_not failed fails hardly barely no_longer
CAN_NOT = cannot cant couldnt can_not could_not unable_to not_able_to hardly barely impossible_to can_hardly
    can_barely cannae wasnt_able_to struggling_to struggle_to cant_even isnt_able_to
NOTHING = nothing nothings none not_a_thing not_anything
GO_DOWN = go_down goes_down going_down gone_down went_down get_down getting_down gone_through go_through
    going_through slide_down slid_down pass passing passed move moving moved movin budge budging budged shift
    shifting shifted clear clearing cleared come_up drain draining wash_down going_anywhere gone_anywhere
    go_anywhere dislodge dislodging loosen go_past going_either_way go_up_or_down go_either_way slip_down
    make_it_down
DOWN_IT = get_it_down wash_it_down shift_it move_it clear_it dislodge_it get_it_to_move get_it_to_go get_it_past
    get_it_out get_it_up push_it_down swallow_it_down get_it_to_budge wash_it_through get_it_through force_it_down
MOVE_VERB = budge budging budged shift shifting shifted move moving moved dislodge dislodging pass passing passed
PASS_ALL = getting_through get_through gets_through getting_past get_past going_down go_down goes_down passing
    passes pass getting_down get_down gets_down staying_down stays_down stay_down going_in goes_through
    going_through gets_past going_past go_past
LIQUID = water liquid liquids fluid fluids drink drinks drinking sip sips soda coke cola juice milk tea coffee soup
COME_BACK = pops_straight pops_back rises_back rise_back rises rise regurgitate_what regurgitating_what come_back
    comes_back coming_back came_back bounces_back bounce_back bouncing_back comes_right_back comes_straight_back
    coming_right_back coming_straight_back came_right_back came_straight_back shoots_back bubbles_back spits_back
    goes_back comes_up coming_up regurgitate~ regurgitating regurgitated fountain~ rising comes_out coming_out
    shoot_back come_right_back come_straight_back come_up_again straight_back_up right_back_up come_out flows_back
    shooting_back spews_back
BACKOUT = up out again
SWALLOW = swallow~ gulp~
SALIVA = saliva spit spittle drool slobber dribble spits
FROTH = froth frothy foam foamy foaming phlegm mucus slime
DROOL = drooling drool dribbling slobbering drools dribbles salivating
VESSEL = cup bowl bucket sink bag tissue tissues towel bin bottle basin napkin kleenex toilet can mug
SPITTING = spit spitting spits spat
CHOKE = choking chokin choke
CHOKED = choked
BLOCK = blockage obstruction obstructed impaction food_bolus bolus blocked_up plugged_up logjam food_impaction
    stoppage
BLOOD = blood bloody bleeding bleed bled bleeds blood_clots clot clots
DARKRED = rust_coloured rust_colored rust red bright_red black dark brown maroon blackish reddish crimson rusty
    burgundy dark_brown
VOMIT = sicked sicked_up hurl chuck_up chundering puked_up threw_back_up vomit~ vomited vomiting vomits vomitted
    vomitting puke~ puking puked threw_up throwing_up throw_up throws_up thrown_up sick brought_up bringing_up
    bring_up retch~ retched heave~ heaving heaved spew~ barf~ barfed barfing upchuck hurled hurling chucked_up
    chucking_up been_sick being_sick chundered coughing_up coughed_up cough_up hacking_up hacked_up coughs_up
    throwup spitting_up spat_up spit_up coming_up came_up
VOMITING = sicked chundering hurl thrown_up_twice vomit vomiting vomited vomits vomitted vomitting puke puking puked
    threw_up throwing_up throw_up thrown_up been_sick being_sick retching retched heaving heaved barfed barfing
    was_sick sick_twice chucking_up spewing dry_heaving dry_heaves hurled hurling keep_being_sick throwup upchucking
    sick_to_my_stomach_and_sick brought_it_all_up
STOOL = the_runs runs squits pooing number_twos no_2 gone_number_two jobbies passed_a_motion passing_stool poo poop
    poos poops pooped pooping stool stools bowel_movement bowel_movements bm bms number_two number_2 shit crap
    motions motion diarrhea feces turd toilet loo back_passage bum rectum pooed bathroom bowels butt backside potty
    nappy toilet_paper went_number_two
TAR = tar tarry tar_like coal jet_black jet ink treacle tarlike molasses
COUGHSPIT = cough~ spit spitting spat hack~ hacking phlegm mucus saliva snot throat mouth sputum gob
GROUNDS = coffee_grounds coffee_ground coffee_grinds coffee_granules used_coffee coffee_like coffeegrounds
    wet_coffee old_coffee
NOTBLEED = blood_taken taken_blood take_blood oranges orange tooth bleeding_heart bleeding_edge blood_orange
    nose_bleed drawn draw blood_draw blood_group thinners pricked cholesterol blood_count mosquito blood_moon
    blood_drive lab labs cut_myself sanitary dentist flossing flossed brushing brushed floss blood_test blood_tests
    blood_pressure blood_sugar blood_work bloods bloodwork blood_results gave_blood give_blood giving_blood
    blood_donation donated_blood finger nose nosebleed knee shaving period gums_bleed thumb toe blood_type
    blood_thinner bleeding_hell bleeding_expensive bleeding_obvious nosebleeds bloody_hell bloody_expensive
    bloody_good bloody_awful bloody_alarm bloody_phone bloody_thing bloody_lid bloody_reminder bloody_mary
    bloody_weather bloody_cold bloody_hard bloody_taste papercut paper_cut blood_pudding bleeding_annoying
BREATH = breath breathe breathing breaths breathin breathes
AIR = air oxygen
HARDTO = fight battle effort hard harder difficult difficulty trouble struggle~ struggling tough problem problems
    cant_get troubles difficulties fighting gasping labored heavy finding_it_hard cant_catch having_a_hard_time
    finding_it_difficult
BADBREATH = wrong all_wrong strange ragged labored bad worse tight noisy fast hard heavy laboured difficult shallow
    funny off weird rapid wheezy harder rough raspy awful terrible tricky noisily strained
BREATHWORD = out_of_puff puffed_out no_puff wheeze~ wheezing wheezy gasping suffocating suffocate breathless
    breathlessness panting stridor dyspnea gasp short_of_breath shortness_of_breath out_of_breath short_of_air
    sob_at_rest air_hunger winded respiratory_distress cant_get_air fighting_for_breath fighting_for_air
    gulping_for_air asthma_attack
FACE = face lips lip tongue throat mouth eyes eye eyelids eyelid windpipe uvula
SWELL = narrowing narrowed puffing massive blew_up blew enormous gigantic ginormous botox swole swelled_shut swell~
    swollen swelled swelling puffy ballooned ballooning blown_up blowing_up huge fat puffed_up puffed puff_up
    bloated enlarged double_the_size twice_the_size twice_its_size inflated swelled_up closing_up closing_over
    closed_up balloon balloons bulging bigger_than_normal closing puffing_up
HIVES = hives urticaria welts wheals nettle_rash rash rashes itchy_bumps red_bumps itchy_all_over hive skin_rash
    itchy_spots come_up_in_lumps itching_all_over allergic_reaction
ANAPH = anaphylaxis anaphylactic anaphylactic_shock epipen epi_pen anaphylatic angioedema
CHEST = shoulder_blades chest breastbone breast_bone sternum ribcage rib_cage ribs
PAIN = pain pains painful hurt hurts hurting ache aches aching achey sore soreness tight tightness pressure heavy
    heaviness agony killing kills discomfort cramp cramping stabbing spasm spasms throbbing crushing squeezing stabs
    sharp ow ouch twinge twinges agonising agonizing excruciating tender burning burns burn
SEVERE = massive spreads spreading stabbed squeezing 9/10 10/10 8/10 like_a_knife to_my_arm down_my_left_arm
    left_arm my_arm sweating sweaty clammy horrible horrendously excruciatingly cant_move so_much_pain unreal
    wont_let_up 8_10 strong_pain strong_pains very_strong really_strong so_strong brutal insane agonizingly
    absolute_agony doubled_up in_tears screaming crying_in_pain severe
    severely really_bad terrible terribly crushing agonising agonizing excruciating worst killing intense sudden
    suddenly tearing stabbing all_of_a_sudden unbearable horrendous horrific awful agony very_bad so_bad ripping
    knife out_of_nowhere extreme through_to_my_back to_my_back to_the_back into_my_back into_my_shoulder down_my_arm
    into_my_arm 10_out_of_10 10_10 9_10 worst_pain really_really_bad came_on_fast cant_bear doubled_over never_felt
    real_bad super_bad pretty_bad splitting elephant jaw rips
BADPAIN = bad badly
FEVER = fever fevers feverish febrile high_temp high_temperature running_a_temperature running_a_temp got_a_temp
    got_a_temperature have_a_temp have_a_temperature has_a_temp has_a_temperature with_a_temperature with_a_temp
    burning_up pyrexia hot_and_cold hot_and_shivery shivery shivering chills rigors temp_is_high temperature_is_high
    temp_is_up temperature_is_up spiked_a_temp hot_flushes_and_chills cold_sweats night_sweats boiling_up
    running_hot temps_up fevery the_shivers temps_high feverishly hot_to_the_touch shivers running_temperature
    running_temp temps_sky_high a_temp a_temperature raging_temp raging_temperature temperatures temps my_temp_is_up
    got_temp shivery_and_hot
TEMPWORD = temp temperature fever thermometer temps
NOTFEVER = football_fever saturday_night_fever fever_for_football fever_pitch bus_stop fever_dream wedding_fever
    spring_fever
    baby_fever outside weather oven fridge room hay_fever cabin_fever yellow_fever degrees_outside sun beach sunny
    scarlet_fever_as hot_day fever_blister fever_blisters here_its forecast summer_day heatwave heat_wave
COLDSORE = cold_sore cold_sores coldsore coldsores fever_blister fever_blisters herpes canker_sore canker_sores
    mouth_ulcer mouth_ulcers mouth_sore mouth_sores stomatitis shingles cankers canker herpetic oral_herpes hsv
    coldsoar cold_soar
BLISTER = blister~ blistery blistering blisters blister sores ulcer ulcers ulcerated vesicles fluid_filled_spots
    water_blisters scab scabs blistered blisterd
LIP = lip lips mouth tongue gum gums cheek cheeks palate inside_my_lip roof_of_my_mouth mouths
NOTHERPES = cream ointment foot feet heel toe stomach_ulcer thumb patch_in_drawer finger hand hands shoe shoes
MOUTH = mouth tongue gum gums cheek cheeks throat palate tonsils lips lip roof tonsil mouths uvula gob
WHITE = white whitish creamy milky pale_patches whites whitey yellowish_white off_white whiteish cream_colored
    cream_coloured
PATCH = patch patches spot spots coat coating coated film layer stuff gunk blob blobs dot dots bits bit lump lumps
    plaque plaques fur furry fuzz fuzzy marks mark specks speckles splotches blotches goo flecks areas stripes
    residue crust mould mold ones gunky growth slime scum snow curd curds
THRUSHWORD = thrush candida candidiasis yeast yeast_infection fungus fungal fungal_infection oral_thrush moniliasis
    cottage_cheese candidosis
TASTE = metallic_taste taste_of_metal tastes_like_metal tastes_of_metal lost_taste lost_my_taste
    lost_my_sense_of_taste cant_taste cannot_taste tastes_of_nothing no_taste taste_gone tastes_like_nothing
    cotton_mouth cottony cotton_wool tastes_like_cardboard altered_taste altered_sense_of_taste tastes_metallic
    tastes_like_pennies tastes_off cant_taste_anything sense_of_taste_has_gone taste_buds furry_tongue
    mouth_full_of_cotton full_of_cotton tastes_like_coins like_cotton
CORNERS = sides edges corner corners
CRACK = cracked crack cracks red sore split splitting raw inflamed inflammation splits
SOREMOUTH = sore red raw burning inflamed painful burns tender inflammation hurts stings
HURT = pins poker battle torture scrape scraped stabbed jab jabs prickly ripping scream screaming yelp cry crying
    flinch winced uncomfortable rough hurt~ hurts hurting pain painful pains sore stings sting stinging stung burn
    burns burning burnt burned kill kills killing agony raw knives knife glass razor razors razor_blades blades
    sharp wince winces ouch ow needles excruciating unbearable sandpaper soreness agonising agonizing scratches
    painfully painfull fire scraping stabbing hurty aches ache torn scalding acid_burn barbed_wire nails
    gravel_going
EATDRINK = swallow swallows swallowed swallowing swallow_anything gulp gulping going_down goes_down go_down
    went_down eat eating eats drink drinking drinks food_passes food_goes on_the_way_down on_the_way
    all_the_way_down way_down all_the_way get_food_down food_going eaten gulps swallowin sip sipping
NOTODYN = knee leg legs back_pain_gym head headache gym tongue_burn burnt_my_tongue burned_my_tongue hot_coffee
    hot_soup
HOARSE = smoke_forty smoker darth_vader all_gravel hoarse hoarseness croaky croak croaking croaked raspy rasping
    gravelly husky lost_my_voice losing_my_voice no_voice voice_gone laryngitis horse_voice sound_like_a_frog
    voice_change husky_voice lost_her_voice lost_his_voice dysphonia losing_her_voice losing_his_voice
    scratchy_voice croaks aphonia inability_to_produce_voice_sounds hoarsness sounding_like_a_frog voiceless
VOICE = voice
VOICEBAD = comes_and_goes in_and_out on_and_off gone going cracking croaky funny weak rough changed change raspy
    weird breaking different deeper quiet disappearing vanished cracks scratchy lost off strange broken disappeared
    gravelly hoarse hoars shot
DIZZY = room_spins room_tilts room_is_spinning room_tilting head_is_all_over nearly_passed_out almost_passed_out
    nearly_fainted almost_fainted nearly_collapsed about_to_pass_out going_to_pass_out gonna_pass_out head_rush
    head_rushes swaying off_balance dizzy dizziness dizzy_spell dizzy_spells lightheaded light_headed faint faintish
    fainting woozy wobbly head_spins head_is_spinning head_spinning room_spinning giddy unsteady see_stars
    seeing_stars vertigo swimmy fainty faintness spaced_out spacey
WEAK = weak weakness no_energy no_strength exhausted exhaustion wiped_out fatigue fatigued drained lethargic shaky
    so_tired really_tired very_tired tired_all_the_time always_tired worn_out shattered_all knackered_all sluggish
    extremely_tired run_down zero_energy zonked dead_on_my_feet no_get_up_and_go tired_easily constantly_tired
    too_tired constantly_exhausted ever_so_tired bone_tired dog_tired tiredness listless feeble limp super_tired
TIRED = tired knackered shattered
ADRENALWORD = adrenal_crisis adrenal_insufficiency adrenal_suppression adrenal addisons low_cortisol cortisol_is_low
ADREXTRA = nauseous nausea nauseated no_appetite off_my_food losing_weight lost_weight weight_loss dizzy
    aching_all_over muscles_ache muscle_aches feel_sick feeling_sick muscle_pain achy_all_over salt craving_salt
    not_hungry loss_of_appetite decreased_appetite
COLLAPSE = found_me_on_the_floor hit_the_floor cold_clammy clammy_and drowsy muddled legs_gave_out went_down_like
    dropped_to_the_floor legs_gave_way legs_wont_hold out_cold came_round came_to_on what_day_it_is on_the_tiles
    on_the_bathroom was_on_the_floor found_myself_on_the_floor woke_up_on went_black going_black keeling_over keeled
    keel_over blackness ended_up_on_the_floor fell_over woke_up_on_the_floor wont_wake hard_to_rouse cant_be_woken
    wont_wake_properly limp unconcious blackout black_outs blackouts faint_and_fell lost_consciousness
    losing_consciousness zoned_out slurring slurred not_with_it collapse collapsed passed_out pass_out passing_out
    blacked_out blacking_out black_out fainted faints unconscious keeled_over hit_the_deck fell_unconscious floppy
    unresponsive not_responding wont_wake_up cant_wake keeps_fainting cold_and_clammy gone_limp went_limp confused
    confusion disoriented delirious not_making_sense talking_nonsense very_drowsy fainting_spell hard_to_wake
    seizure seizures fitting convulsion cant_stand_up
NOTWEAK = weak_at_the_knees faint_smell faint_hope faint_memory on_the_sofa_after asleep_by out_asleep into_bed
    lizzy tired_of sick_of dizzy_with coffee signal tea wifi battery mix muscle_gym gym workout run marathon
    confused_about confused_by bed_now dose_is instructions which confused_on password schedule confusing
SELFHARM = never_been_born if_i_was_dead if_i_were_dead want_out_of_life easier_if_i_was_dead on_purpose_cut
    overdosing_on thinking_of_overdosing overdose_on want_to_overdose written_a_note better_if_i_was_gone
    better_if_i_were_gone if_i_was_gone if_i_wasnt_around cope_better enough_of_being_alive enough_of_life
    enough_of_living rather_be_dead would_rather_be_dead rather_not_be_alive rather_not_be_here all_my_pills
    all_the_pills not_waking_up want_it_over hate_my_life not_wake_up want_to_not_exist dont_want_to_live_like_this
    end_it_tonight be_dead wanting_to_die disappear_forever life_is_pointless dark_thoughts ending_things
    do_something_stupid do_myself_in top_myself end_my_suffering dont_want_to_carry_on_living no_will_to_live
    wish_i_wouldnt_wake wouldnt_wake_up be_better_off_dead cant_see_a_future see_no_way_out
    dont_want_to_exist_anymore drive_into_a kill_myself killing_myself killed_myself want_to_die wanna_die suicidal
    suicide end_my_life ending_my_life end_it_all hurt_myself hurting_myself harm_myself harming_myself self_harm
    self_harming wish_i_was_dead wish_i_were_dead better_off_without_me better_off_dead take_my_own_life
    take_my_life ending_it_all ending_it dont_want_to_be_here dont_want_to_live dont_want_to_be_alive
    dont_want_to_wake_up no_point_living no_point_in_living no_reason_to_live point_of_living cutting_myself
    took_an_overdose taken_an_overdose took_all_my_pills took_all_the_pills taken_all_my dont_wanna_be_here
    dont_wanna_live not_want_to_be_here want_it_all_to_end want_it_to_end kms unalive unalive_myself end_my_own_life
    hang_myself want_to_disappear_forever wish_i_wasnt_here wish_i_could_die rather_die wish_i_wasnt_alive
    tired_of_living tired_of_being_alive never_wake_up dont_want_to_exist thinking_of_ending life_isnt_worth
    not_worth_living nothing_to_live_for done_with_life ready_to_die hope_i_die jump_off jump_in_front
    dont_want_to_go_on cant_go_on want_to_end_things end_things_for_good not_want_to_live not_want_to_be_alive
    want_to_be_dead dont_see_the_point_in_living dont_see_a_reason_to_live thoughts_of_dying harmed_myself
PREGNANT = pregnant pregnancy preggo preggers expecting_a_baby im_expecting up_the_duff baby_on_the_way with_child
    positive_pregnancy_test positive_test test_was_positive test_is_positive two_lines period_is_late period_late
    missed_my_period missed_a_period trying_for_a_baby trying_to_conceive ttc trying_to_get_pregnant late_period
    having_a_baby found_out_im_expecting bun_in_the_oven breastfeeding late_on_my_period we_are_expecting
    were_expecting knocked_up weeks_gone gravid starting_a_family
NOTTAKEN = havent_taken havent_had havent_been_taking didnt_take didnt_have hasnt_taken hasnt_had didnt_get
    not_taken not_been_taking have_not_taken did_not_take not_had never_took hadnt_taken didnt_do havent_done
    didnt_manage
MISS = missed miss missing skipped skip skipping
MISSOBJ = sat sun mon tue tues wed thu thurs fri dose doses it one ones morning evening night day days yesterday
    today meds medicine medication last_night mine ampoule puffs inhaler slurry am pm couple few several some two
    three four weekend week tablets sunday monday tuesday wednesday thursday friday saturday this nite tonight
    this_morning times lot most
FORGOT = forgot forget forgotten forgetting forgets forgettin
FORGOTOBJ = dose doses it last_night this_morning again take took to_take my_meds meds medicine yesterday today
    evening morning tonight one the_evening my_medicine completely totally ampoule slurry inhaler puffs mine night
    days twice
FORGOTBARE = forgot forgotten
NOTMISS = period mix shake rinse bus train appointment call message miss_you mum missed_call missing_you brush say
    tell ask flight birthday password prime wash name question mention reply answer missing_out missed_the_boat step
OUTOF = ran_out run_out running_out_of_ampoules running_out_of_medicine none_left no_ampoules no_more_ampoules
    ran_outta out_of_ampoules out_of_medicine
ASLEEP = fell_asleep slept_through overslept asleep
STOPTAKE = just_stop want_to_keep_going cant_be_bothered_with want_off come_off_of wants_to_stop wants_off
    stop_taking stopped_taking quit_taking stop_this stop_the stop_using stopped_using quitting want_to_quit
    going_to_quit come_off coming_off came_off get_off giving_up give_up gave_up give_it_up no_longer_taking
    dont_want_to_take dont_want_this dont_want_to_carry_on not_taking_it_any_more not_taking_it_anymore
    not_taking_this ive_stopped id_rather_stop rather_stop want_to_stop like_to_stop need_to_stop can_i_stop
    should_i_stop thinking_of_stopping ive_had_enough had_enough done_with_this done_with_the done_with_it
    dont_want_to_keep wanna_stop going_to_stop gonna_stop stop_it_now stopping dont_want_to_do_this dont_want_it
    stopped_it i_stopped i_quit pack_it_in packing_it_in jacking_it_in sick_of_taking dont_want_any_more
    dont_need_it wean_off wean_myself not_going_to_take refusing_to_take refuses_to_take wont_take not_want_to_take
    binned_it chuck_it_in thinking_about_stopping
NOTSTOP = smoking working traffic bus
STARTED = started start put prescribed gave given taking on added switched prescribes having starting
MEDWORD = antibiotic antibiotics med meds medicine tablet tablets pill pills inhaler medication drug steroid_tablets
    antidepressant antidepressants blood_thinner cream injection spray drops
NEWDRUG = antibiotic antibiotics clarithromycin erythromycin telithromycin azithromycin amoxicillin penicillin
    doxycycline itraconazole ketoconazole fluconazole posaconazole voriconazole ritonavir cobicistat atazanavir
    darunavir nefazodone prednisone prednisolone dexamethasone methylprednisolone diltiazem verapamil ciclosporin
    aprepitant imatinib grapefruit carbamazepine rifampicin nystatin metformin sertraline antifungal antifungals
    steroid_tablets antidepressants antidepressant biologic dupilumab montelukast warfarin antiviral aciclovir
    acyclovir valaciclovir hiv_meds st_johns_wort
NEW = new another different extra
BETTER = nicely smoothly better easier improved improving improvement improve great normally amazing much_better
    so_much_better like_a_dream brilliant best game_changer fantastic
BETTERFEEL = feel feeling felt eating swallow swallowing food steak so_much much huge big definite definitely meat
    eat ate things everything goes getting way loads health
WORSE = worse worsening worsened harder slower difficult difficulty difficulties tricky tough struggling struggle
    slow trouble troublesome problems problem deteriorating poor effort tight tighter tougher worser awkward
DYSPH = swallow swallowing swallows eating food meat bread solids down eat rice things meals getting_down food_down
    meal steak chicken bite bites solid_food swallowed dry_foods
DYSPHWORD = dysphagia trouble_swallowing difficulty_swallowing hard_to_swallow harder_to_swallow
    swallowing_difficulty swallowing_difficulties poor_swallowing difficult_to_swallow problems_swallowing
    swallowing_problems swallowing_is_hard swallowing_is_worse swallowing_is_difficult swallowing_trouble
    tough_to_swallow
SLOWDOWN = slower_than_before more_water_to_get drags_on takes_ages chew_forever need_water wash_it_down_every
    wash_everything_down take_forever_to_eat takes_forever need_more_water more_water need_a_drink_with every_bite
ONLYLIQ = only_soup only_liquids only_managing_soup just_liquids just_soup liquids_only only_get_liquids
    cant_eat_solids cannot_eat_solids only_manage_soup only_manage_liquids down_to_liquids living_on_soup
    living_on_shakes only_liquid only_smoothies only_managing_liquids cant_do_solids only_yogurt only_shakes
    cant_manage_solids soup_only stuck_to_soup only_drink only_mush cant_eat_meat only_puree cant_swallow_solids
    only_soft not_managing_solids
MUCHWORSE = much a_lot really way lots far so
CHILD = yo yr lad lass littlun wee_one bub friend friends sibling month_old months_old tot preschooler kiddo
    grandkid toddler baby son daughter child kid kids boy girl grandson granddaughter grandchild nephew niece
    little_one infant 2_year_old 3_year_old 4_year_old 5_year_old year_old yr_old brother sister wife husband
    partner mum mom dad dog cat flatmate roommate little_brother little_sister someone_else twin
TOOKIT = emptied opened drained swigging guzzled sipped nicked drank ate swallowed took eaten drunk got_into
    got_hold_of gotten_into swallows licked taken got_hold drinking inhaled had swigged downed tasted consumed
    necked used
OURMED = syringe bottle medicine budesonide mix slurry ampoule ampoules inhaler puffs syrup dose my_cup my_dose meds
    medication steroid fluticasone my_mix mixture my_medicine vial my_puffs
TWICE = second_lot second_go a_second_time second_time overdosed a_double_lot twice two_times double_dose
    doubled_up doubled_the_dose two_doses 2_doses double_dosed a_double extra_dose another_dose second_dose
    dose_twice it_twice double_up 2x doubled too_much_medicine two_lots took_another a_second_one took_2
    doses_at_once overdid_it gave_it_again took_it_again had_it_again took_too_much too_many_puffs taken_too_much
    2_lots three_doses 3_doses
TOOK = took had taken gave given take doubled accidentally mistake accident whoops oops think have already
POX = chickenpox chicken_pox measles varicella
EXPOSED = exposed around contact near class nursery school kids someone sat_next_to has have had got with family
SURGERY = surgery operation general_anesthetic having_an_op anesthetic tooth_extraction wisdom_teeth_out
NEGDAILY = twice_a_day twice_daily twice_per_day two_times_a_day day_dose each_day
"""

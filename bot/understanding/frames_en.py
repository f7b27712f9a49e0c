"""English frames: which sequences of word classes speak of which finding.

One frame a line: `finding +signal : elements ! classes that must not stand near`. Elements: `UPPER` a class of
words_en, `lower` the word
itself, `a|b` either, a trailing `?` optional, `<n` up to n words of the same clause, `<n,` the same but commas may
stand between, `^` the
start of the text, `$` its end. A frame that holds a negation of its own ('wont go down') is not denied by it.
Frames about food and
swallowing are in frames_en_stuck.
"""

from __future__ import annotations

from bot.understanding.frames_en_stuck import SWALLOWING

FRAMES = SWALLOWING + """
bleeding : VOMIT <5 BLOOD ! NOTBLEED
bleeding : BLOOD <4 VOMIT ! NOTBLEED
bleeding : VOMIT <5 DARKRED ! wine juice coffee_drink beetroot NOTBLEED
bleeding : DARKRED <3 VOMIT ! wine juice beetroot NOTBLEED
bleeding : VOMIT <6, DARKRED stuff|bits|streaks|gritty|specks|flecks|blood|liquid|clots|sludge ! wine juice beetroot
bleeding : VOMIT <4 something|stuff|smth <2 DARKRED ! wine juice beetroot
bleeding : retched|retching|heaved <5 DARKRED
bleeding : VOMIT <8, streaks|streak|specks|flecks|clots|bits|clumps <3 DARKRED|blood|BLOOD
bleeding : STOOL <5, black|TAR|maroon|bloody ! pudding beetroot coffee bag shoes
bleeding : red|blood <2 in <2 spit|saliva|vomit|stool|poo|poop|sputum|phlegm|sick ! wine juice
bleeding : coming|comes|came out <2 black|red|blood ! PRINTER
bleeding : black|red|blood <3 both ends

bleeding : GROUNDS ! KITCHEN
bleeding : VOMIT <7 like|used|old|ground coffee
bleeding : coffee ground|grounds|grinds|granules <3 VOMIT
bleeding : STOOL|wipe|wiped|wiping|bottom <5 BLOOD ! NOTBLEED nappy_rash
bleeding : BLOOD <5 STOOL ! NOTBLEED
bleeding : STOOL <5 black|TAR|maroon|dark_red|bright_red|red|very_dark ! pudding beetroot
bleeding : black|TAR|maroon|red|dark|tarry <2 STOOL ! pudding beetroot coffee
bleeding : black|dark|sticky <1 TAR ! liver gravy coffee tea stout road roof
bleeding : COUGHSPIT <3 BLOOD ! NOTBLEED GUMS
bleeding : BLOOD <3 in|from|with|out <2 my? COUGHSPIT|VOMIT|throat|sick ! NOTBLEED
bleeding : passing|losing|passed|lost|peeing|seeing|see <2 blood|clots ! NOTBLEED
bleeding : blood <2 when <1 i? STOOL|VOMIT|COUGHSPIT|wipe|go|swallow|retch ! NOTBLEED
bleeding : bleeding|bleed <2 inside|internally|throat|heavily|lots|loads|again|badly ! NOTBLEED
bleeding : am|im|still|started bleeding ! NOTBLEED MONEY GUMS
bleeding : theres|got|lots|loads|bit|had|some|have <3 blood ! NOTBLEED ELSEWHERE
bleeding : had a bleed ! NOTBLEED
bleeding : BLOODNOUN ! NOTBLEED MONEY GUMS
bleeding : VOMIT <5, black|red|brown|maroon|dark ! wine juice beetroot shirt dress coat
bleeding : # 2 <3 black|red|dark|tarry|bloody
bleeding : spit|spat|spitting <2 out? red|pink_froth ! wine juice
bleeding : ^ blood|bleeding ! NOTBLEED GUMS
breathing_trouble : CAN_NOT <2 BREATH|inhale
breathing_trouble : CAN_NOT <2 get|catch|draw|take <3 BREATH|AIR
breathing_trouble : HARDTO <3 BREATH
breathing_trouble : gasping|fighting|struggling|gulping|starved <2 AIR
breathing_trouble : BREATH <3 BADBREATH|whistling|whistles|HARDTO|blocked|restricted ! SMELL
breathing_trouble : BADBREATH BREATH ! SMELL SMELLS
breathing_trouble : BREATHWORD ! EXERCISE RESTWORD
breathing_trouble : AIR NOTV <2 go|get|in|into|reach
breathing_trouble : short|shortness|run|out|running of|on <1 BREATH|breth|AIR ! EXERCISE RESTWORD
breathing_trouble : NOTV|cant <2 getting|get|pull|suck|take|draw <3 AIR ! conditioning fryer plane port
breathing_trouble : AIR <2 not|isnt|wont|barely <2 getting|going|coming|go|get
breathing_trouble : BREATH <4 straw|pillow|cloth
breathing_trouble : HARDTO <4 AIR ! conditioning fryer
breathing_trouble : CAN_NOT <2 fill|expand <2 lungs
breathing_trouble : whistling|whistle <4 BREATH
breathing_trouble : BREATH <3 whistling|whistle|fight
breathing_trouble : CAN_NOT <1 speak|talk|finish <2 sentences|sentence|words
breathing_trouble : BREATH <2 short|sharp|shallow|quick|rapid
breathing_trouble : without stopping|pausing for|to <1 AIR|BREATH
breathing_trouble : lips|lip|face|hes|shes|fingers|fingertips <3 blue|grey|gray|purple ! candy sweet lolly slush
breathing_trouble : going|turning|gone|turned blue|purple|grey ! candy sweet lolly slush bruise litmus
breathing_trouble : chest <2 whistling|rattling|whistles
breathing_trouble : NOTV <2 enough AIR|oxygen|breath
breathing_trouble : choking to_death|badly|cant_stop
breathing_trouble : ^ choking|chokin $
breathing_trouble : abnormal breathing
allergic_reaction,breathing_trouble +airway_swelling : throat|airway|windpipe <3
    closing|closed|closes|closing_up|shutting|tightening|closing_over
allergic_reaction +airway_swelling : FACE <4 SWELL ! GLAND
allergic_reaction +airway_swelling : SWELL <4 FACE ! GLAND
allergic_reaction +airway_swelling : tight|tightness throat
allergic_reaction +airway_swelling : throat <2 tight|tightening|tightness
allergic_reaction +airway_swelling : FACE|eyes <3 twice|double its|the|their|as normal|size|big
allergic_reaction +airway_swelling : ANAPH
allergic_reaction : lips|lip|tongue <2 numb|tingling|tingly|itchy|prickly
allergic_reaction +airway_swelling : lips|tongue|lip <2 big|bigger|fatter|thick|thicker ! layer coating white coat
    film
allergic_reaction +airway_swelling : lip|lips|tongue|eye|cheeks <3 doubled|ballooning|ballooned|sausages|closed_up
allergic_reaction +airway_swelling : tongue <1 filling|fills <2 mouth
allergic_reaction +airway_swelling : face <3 football|balloon|melon|pumpkin
allergic_reaction : HIVES ! NAPPY rash_guard decision bee bees activity
allergic_reaction : bumps|lumps|spots|blotches|welts <4 all_over|over|everywhere|itch|itchy|arms|body ! paint ink
    mud
allergic_reaction : itchy|itching|itches <3 skin|all_over|everywhere|arms|hands|legs|red|rash|spots|bumps
allergic_reaction : come|came|broke|broken|coming out in <3 bumps|rash|hives|spots|welts|lumps|blotches
chest_pain : CHEST <5 PAIN ! NOTCHEST
chest_pain : PAIN <4 CHEST ! NOTCHEST
chest_pain : pain|pains|pressure|pressing|ache <3 behind|under|in <3 CHEST|ribs|breastbone|sternum|heart
chest_pain : elephant|weight|brick <4 chest
chest_pain : heart attack ! nearly_gave gave_me haha lol
chest_pain : SEVERE <1 PAIN <8 CHEST
chest_pain +severe : tore|torn|ripped|popped|snapped|burst|gave <4 CHEST
chest_pain : PAIN <8 CHEST ! NOTCHEST
chest_pain : angina
chest_pain : crackly|crackling|crunchy <4 skin|neck
+severe : SEVERE
+severe : BADPAIN <2 PAIN
+severe : bad|badly|worst CHEST <1 PAIN
+severe : PAIN <3 BADPAIN
+vomiting : VOMITING ! sick_of off_sick COUGH
+vomiting : sick twice|again|times|all|everywhere ! feel feeling feels felt been_feeling
+keeps_vomiting : VOMITING <3
    all_day|all_night|nonstop|non_stop|constantly|repeatedly|hours|times|twice|everything|all_over|over_and_over
+keeps_vomiting : keep|keeps|kept|cant_stop|wont_stop|nonstop|constantly|been VOMITING
fever : FEVER ! NOTFEVER
fever : TEMPWORD <4 high|up|raised|sky_high|spiking|going_up|through_the_roof|elevated ! NOTFEVER i_was_up up_all
    were_up up_with
fever : high|raised|spiking <1 TEMPWORD ! NOTFEVER
fever : burning up ! NOTFEVER
fever : feel|feels|feeling|been|so <1 hot <2 shivery|cold|sweaty|shaky|achy
herpes_sign : COLDSORE ! NOTHERPES loser
herpes_sign : cold sore|sores ! NOTHERPES
herpes_sign : BLISTER <5 LIP ! NOTHERPES CORNERS
herpes_sign : LIP <5 BLISTER ! NOTHERPES CORNERS ONLYSORE
herpes_sign : sore <3 on|inside|in <2 LIP
herpes_sign : painful|mouth <1 ulcer|ulcers ! NOTHERPES
herpes_sign : ulcers|blisters $ ! NOTHERPES
thrush : THRUSHWORD ! baking bread_dough dough mushroom mushrooms log bird garden forest beer hedge nesting nest
    sings singing feeder blackbird
thrush : WHITE <2 PATCH <5 MOUTH ! NOTWHITE
thrush : MOUTH <6 WHITE ! NOTWHITE teeth
thrush : WHITE <4 MOUTH ! NOTWHITE teeth whitening
thrush : WHITE patch|patches|spot|spots|coating|blobs|plaques|dots|film|fur|furry|lumps|fuzz|specks|splotches !
    NOTWHITE
thrush : PATCH <4 on|in|inside|over|at <3 MOUTH ! FOODBIT CORNERS crumb food chicken bread
thrush : MOUTH <3 furry|fuzzy|furred|coated|fur|mouldy|moldy|cheesy
thrush : furry|fuzzy|coated|mouldy|moldy <2 MOUTH
thrush : MOUTH <5 snow|carpet|cotton|cottage|curds|cobwebs|felt|velvet ! candy
thrush : cotton|cottony <3 MOUTH
thrush : MOUTH <5, WHITE <2 PATCH|patchy|all|spotty|and
thrush : MOUTH <2 has|have|with|got|covered <2 PATCH|patches ! FOODBIT
thrush : NOTV taste <3 anything|food|much|nothing
thrush : wipe|wiped|scrape|scraped|brush|brushed|rub <4 white <4 off|underneath|away|comes ! NOTWHITE
thrush : white <2 off <5 red|raw|sore
thrush : white|whitish|milky <4 MOUTH ! NOTWHITE teeth
thrush : white|whitish|milky <6 back <2 MOUTH ! NOTWHITE teeth
thrush : MOUTH <5 milk ! NOTODYN
thrush : TASTE ! tap_water
thrush : taste|tastes|tasting <3 metal|metallic|cardboard|nothing|gone|pennies|coins ! tap_water slurry mix
thrush : lost|losing|no <2 taste
thrush : CORNERS <2 MOUTH|mouth|lips <4 CRACK|SOREMOUTH
thrush : CRACK|SOREMOUTH <4 CORNERS <2 MOUTH
thrush : mouth|tongue|gums|cheeks|inside_of_my_mouth <3 SOREMOUTH <2 red|sore|raw|and|inflamed? ! NOTODYN
thrush : SOREMOUTH mouth|tongue|gums
thrush : inflammation|redness <2 MOUTH
thrush : white ones|bits|stuff|patch|spot ! NOTWHITE
hoarseness : HOARSE ! horse
hoarseness : VOICE <3 VOICEBAD
hoarseness : lost|losing|funny|weird|croaky|rough|weak|strange <2 VOICE
hoarseness : no VOICE
hoarseness : sound|sounding|sounds like <2 frog|robot|smoker|gravel|batman
hoarseness : CAN_NOT <2 speak|talk|whisper
adrenal_sign : ALMOST <2 COLLAPSE ! NOTWEAK
adrenal_sign : DIZZY ! lizzy faint_smell faint_hope dizzy_with goats wine roller_coaster ride GAME
adrenal_sign : WEAK ! NOTWEAK
adrenal_sign : TIRED <6, ADREXTRA|WEAK|DIZZY
adrenal_sign : ADREXTRA <6, TIRED|WEAK
adrenal_sign : head <2 spins|spinning|swimming|swims
adrenal_sign : losing|lost <1 weight
adrenal_sign : no|lost|decreased|poor <2 appetite
adrenal_sign : ADRENALWORD
adrenal_sign : legs <3 jelly|give_way|buckling|giving_way ! EXERCISE ran marathon ten_k workout squats
adrenal_sign +collapse : COLLAPSE ! NOTWEAK bill ALMOST TRIP
adrenal_sign +collapse : bp|pressure <2 low|dropped|tanked|in_my_boots
self_harm : SELFHARM ! DEADWORD squad tv film movie book bridge_club cutting_my_finger lol_die
self_harm : want|wants|wanted|wanting|wishes to|he|she die|be_dead|kill
self_harm : kill|killing|hurt|hurting|harm|harming himself|herself|themselves
self_harm : everyone|everybody|they|family <4 without me
self_harm : taking|take|took|swallow <2 all <3 pills|tablets|meds
self_harm : bother|bothering|point|reason|why|bothered <4 living|alive|live|existing ! with_you nearby where_i
self_harm : no|not|dont|cant|cannot|never|wheres|whats <5 point|reason|sense|meaning <4
    living|live|alive|life|going_on|carrying_on
self_harm : dont|cant|not|do_not|cannot <2 want|wanna|bear|face|stand <4
    live|living|alive|exist|existing|be_here|life ! without_coffee coffee near abroad sea home lol
self_harm : better <3 without me ! meeting party lunch
self_harm : cut|cutting|slit|burn|burned <2 arms|arm|wrists|wrist|legs|thighs ! ampoule accident oven shaving
    cooking sunburn sun
self_harm : cut|cutting|burning|burned|scratching myself ! shaving opening ampoule razor_by knife_slipped finger
    toast cooking foil oven hob
self_harm :
    want|wanna|wanted|wish|wishing|ready|going|gonna|plan|planning|think|thinking|thought|thoughts|about|feel <4
    die|dying|dead|suicide|suicidal|kill_myself|killing_myself|end_it|ending_it|ending_my_life ! DEADWORD
self_harm : everyone|everybody|family|world|they <3 better_off
self_harm : hurt|hurting|harm|harming|kill|killing myself ! gym running lifting opening
pregnancy : PREGNANT ! pause school test_was_negative
pregnancy : weeks|months pregnant
pregnancy : expecting <2 baby|child|twins|june|summer ! parcel
pregnancy : expecting $
pregnancy : just|im|am expecting ! parcel delivery package
pregnancy : period <2 late|missed|overdue
pregnancy : baby <2 due
pregnancy : due <2
    january|february|march|april|may|june|july|august|september|october|november|december|spring|summer ! refill
    prescription order delivery endoscopy scope appointment
pregnancy : test <4 positive ! covid flu strep blood_test
pregnancy : planning|trying|hoping <3 baby|conceive|pregnant
missed_doses : MISS <5 MISSOBJ ! NOTMISS
missed_doses : ^ missed|skipped ! NOTMISS
missed_doses : keep|kept missing|forgetting ! NOTMISS
missed_doses : FORGOT <3 FORGOTOBJ ! NOTMISS TWICECLASS
missed_doses : FORGOT $
missed_doses : NOTTAKEN any|the|my|me|a? MISSOBJ|since|for ! NOTMISS
missed_doses : NOTTAKEN it|any|mine|them $
missed_doses : NOTTAKEN my|the|any dose|medicine|meds|medication
missed_doses : NOTTAKEN since|for|$|in|because
missed_doses : NOTV <3 ampoules|medicine|doses|inhaler|meds <1 left
missed_doses : only did|doing|managed|remembered <3 mornings|evenings|one|half|some|few
missed_doses : slipped <1 mind ! mix shake
missed_doses : blanked <3 dose|it|medicine|puffs
missed_doses : forgot <1 on MISSOBJ
missed_doses : OUTOF ! SALIVA mouth nose
missed_doses : ASLEEP ! baby took_it took_mine taken_it
missed_doses : only took|had|taken|managed <3 days|doses|times|mornings|nights|out|once|half
missed_doses : not <3 taking|taken <3 days|weeks|regularly|properly|every
wants_stop +stopped : stopped|quit <2 taking|it|using|my|the <2
    meds|medicine|medication|it|steroid|slurry|treatment|inhaler|on|ages|weeks|days|$ ! food traffic smoking
    STUCKSTOP
wants_stop +stopped : no_longer|not taking <1 it|my|the|this
+rinse_skipped : NOTV <1 rinse|rinsed|rinsing
+rinse_skipped : forgot|skipped <2 rinse|rinsing
+ate_early : ate|drank|had <3 straight|right|too|immediately after|soon
wants_stop : STOPTAKE ! NOTSTOP food_stops COFFEE_STOP
wants_stop : stop|stopped|stopping|quit|quitting <3 OURMED|steroid|steroids|treatment|this|taking ! NOTSTOP
wants_stop : NOTV <2 want|wanna|wish|like <2 carry_on|continue|take|this|it|more|keep_going
wants_stop : fed_up|sick <2 with|of this|taking|medicine|it|mixing_it_stop
new_medicine : STARTED <5 NEWDRUG
new_medicine : STARTED <4 NEW <2 MEDWORD
new_medicine : NEW MEDWORD <3 for|from ! ampoule
new_medicine : NEWDRUG
new_medicine : STARTED <4 MEDWORD <2 for|from <3 CONDITION
new_medicine : started|prescribed|put_me <4 antidepressants|statin|statins|antacid|antacids|insulin|pill
new_medicine : course of <2 MEDWORD|steroids|steroid|NEWDRUG
new_medicine : new meds|med|medicine|medication|tablets|tablet|pill
+child_took_it : CHILD <6 TOOKIT <5 OURMED|it ! PERSCRIBED hot_dog coin wedged
+child_took_it : CHILD|3yo|2yo|4yo|5yo <4 ampoule|slurry|cup|inhaler <3 mouth
+child_took_it : 2yo|3yo|4yo|5yo <5 TOOKIT
+child_took_it : CHILD <9 drank|ate|swallowed|licked|emptied|drained <2 it
+child_took_it : CHILD <10, TOOKIT <4 OURMED ! had_my took_my drank_my
+child_took_it : OURMED <4 TOOKIT by <3 CHILD
+taken_twice : TOOK <5 TWICE ! NEGDAILY DOUBLEASK
+taken_twice : TWICE ! NEGDAILY FORGOTDOUBLE DOUBLEASK
+taken_twice : took|had|taken <4, and|then <6 another|again|more ! rinse
+taken_twice : took|taken|had|gave|given two|2|three|3 <5 instead|by_mistake|accidentally|by_accident|rather|not_one
+taken_twice : took|taken|had <1 double|triple
+taken_twice : already <3 had|took|taken|given <3, and|then <2 took|another|had|again|gave
+taken_twice : took|taken|had|gave <2 another one|dose|lot
+taken_twice : gave|took|given|had it again
+exposure : POX
+exposure : EXPOSED <3 POX
+surgery : SURGERY
+sore_throat : sore throat
+sore_throat : throat <2 sore|scratchy|tickly
+tired : TIRED
+heartburn : heartburn|reflux|acid|indigestion
"""


GUARDS = """
PRINTER = printer wash photo oven toaster
EXERCISE = chasing chased view from_running lol laughter laughing zumba running run jog jogging gym workout dancing
    treadmill exercise sprint hike goals novel
ALMOST = almost nearly about_to going_to gonna close_to
CONTAINER = maker bread_maker slicer pan cup glass ampoule lid cap bottle teeth tooth braces label gum hair pot
    spoon mixer blender fridge
    microwave oven door toaster stuck_to traffic customs post mail airport packet sweetener powder inhaler bed
    car_seat drawer wrapper oven_tray tray bag grill machine
KITCHEN = cup mug counter machine compost lol filter grinder bin shirt
MONEY = money cash wallet
STUCKSTOP = stuck hurting bleeding vomiting
PEOPLEMOVE = am im house flat i we they
PRICE = pride price cost bill news lol taste flavor excuse idea that_story without pain
SOLIDS = solids solid solid_food meat
PEOPLE = i we you they doctor pharmacy myself bed stairs work hill door internet_down price prices
GLAND = crying cried hay hayfever hay_fever pollen onions mosquito from_crying allergies_spring gums glands gland
    neck_glands huge_mouthful ankle ankles foot feet knee fat_free
NAPPY = nappy diaper
FEVERISH = fever temperature temp
PRICE2 = day morning week shift night through_to pharmacy login phone price prices cost weight website order
    delivery line hill road swelling post interview plan level game song email payment
GLOBUS = emotional lump_in_my_throat
NOTCHEST = laughing gym coughing_so_much chest_of_drawers chest_freezer
COUGH = cough
NOTWHITE = black_and_white ampoule wine bread rice chocolate powder paste noise sugar cup skin arm arms leg legs
    teeth_whitening paper page foam_on_top shirt cream_in tea coffee house paint sink van foods
FOODBIT = corner corners ampoule
ONLYSORE = only_sore_when
IMPORTCHEST = hair
TWICECLASS = already another double
FORGOTDOUBLE = twice_this_week missed skipped forgot twice_now_forgotten missed_it
COFFEE_STOP = coffee
HURTONLY = hurts
GAME = game
TRIP = tripped slipped_on ice stumbled skating skiing tripping trip over_the_dog over_the_cat
SMELL = smell smells stinks stink smelly smelling odour odor morning_breath bad_breath mint minty
SMELLS = bad mouthwash
GUMS = gum gums
REVIVE = results
WORSENING = worse worsening worsened harder
PERSCRIBED = son_took_his son_has_taken
CONDITION = ear ears infection asthma chest pressure sleep acne uti pain throat heart cholesterol anxiety depression
    eye skin
"""

"""English frames and classes for signs told by what happens: over the sink, a towel under the chin, on the floor.

Roles instead of set phrases: what it is about (food, saliva, a body part, unnamed), what it does, where, for how
    long,
and what it looks like. The notation is that of frames_en; a class named in words_en is extended here.
"""

from __future__ import annotations

CLASSES = """
FOOD = roasties roastie ribeye sirloin rump brisket gammon veal venison mutton goat rabbit fajita fajitas quiche
    falafel
    kale spinach cabbage mushroom mushrooms tomato tomatoes cucumber strawberry strawberries plum cherry melon avocado
    crouton tots gnocchi ravioli macaroni dumplings samosa chapati roti biryani kofta gyro bratwurst chorizo salami
    brownie crumpet ciabatta focaccia pitta cornbread dough flapjack oats granola_bar lozenge pork_chop chop cutlet
    nugget rib ribs crackling kebab sub hoagie panini blt toastie paella noodle ramen hamburger cob barm pasty
    spud spuds yam cauliflower parsnip turnip squash pea peas olive olives grits sandwich morsel portion hunk slab
LIQUID = beer wine pop lemonade squash fizzy fizz gatorade ginger_ale gulp gulps smoothie smoothies coke pepsi broth
    liquids tap_water
COME_BACK = spills_back spill_back spills_over overflows overflow bubbles_up bubbling_back wells_up welling_up
    floods_back
    bounces rebounds up_again right_up_again straight_up resurfaces reappears returns returning pops_up shoots_up
    gushes_back pours_back pouring_back squirts_back ejected rejects it_all_back
NOTV = declines declining wasnt_able aint refuse
LEAN = sat sitting sit stood standing leaning lean hunched bent hanging hang hovering camped hover kneeling knelt
BOWLS = sink basin bowl bucket washbasin bin bath
SPITOUT = drip drips dripping run runs running drain drains draining dribble fall falls roll rolls pour pours ooze
    leak leaks leaking trickle
CLOTH = towel tissue tissues cloth bib flannel rag napkin kitchen_roll hanky hankie muslin tea_towel paper_towel
    washcloth
    kleenex paper_towels
HURT = smarts smarting nips nipping chafes grates grating
BODYLOC = collarbone collarbones collar_bone collar_bones goozle adams_apple tummy_pipe ribcage tonsils voice_box
STATIC = holding_up traffic_jam stationary static immobile motionless standstill standoff stand_off stalemate
    gridlock gridlocked limbo marooned
    stranded beached docked anchored moored residence squatting camping camped_out hostage deadlock no_plans_to_leave
    taken_root rooted set_up_camp setting_up_camp parked_up not_leaving overstayed going_nowhere
WALL = wall brick_wall dead_end roadblock closed_door locked_door closed_gate cul_de_sac blockade bouncer plug dam
    no_entry
OTHERDRUG = omeprazole lansoprazole esomeprazole pantoprazole famotidine ibuprofen naproxen codeine tramadol statin
    ramipril
    amlodipine insulin semaglutide levothyroxine citalopram fluoxetine propranolol cetirizine loratadine antihistamine
    antihistamines iron_tablets melatonin losartan metoprolol gabapentin methotrexate
COME_BACK = returned return
AIR = airs
PASS_ALL = shifting shift shifts moving moves move budging budge draining sinking gets_by getting_by slides sliding
CHIN = chin mouth face collar pillow
SINCETIME = lunch lunchtime dinner breakfast supper tea teatime tea_time noon midday morning yesterday last_night
    tonight
    this_morning this_afternoon 1 2 3 4 5 6 7 8 9 10 11 12 one two three four five six seven eight nine ten eleven
    brunch bedtime earlier
SOILLIKE = soil mud dirt tea_leaves tealeaves tea_leaf coffee_filter filter_coffee coffee_grounds grounds gravy
    ketchup
    jam ink tar treacle liquorice licorice coal soot marmite molasses molases rust beetroot_juice red_paint
    crime_scene murder_scene horror_film horror_movie liver raspberry_sauce cranberry_sauce tomato_sauce compost
    wet_sand cola coke cocoa potting engine_oil oil black_paint cherry_jam
FRIGHTPAIN = pins needles glass match matches lit fire lava nettles nettle thorns thorn gravel nails barbed bees coals
    tacks swords sword acid chilli chillies razor razors knives knife bleach petrol splinters cactus hedgehog wire
    burning hot_poker blowtorch torch flames flame broken_glass stinging wasps shards pinecone porcupine drawing_pins
    bleach sunburn
FURRYLIKE = shave shaving hairy woolly wooly carpet rug moss mossy sheepskin sheep fur furry yoghurt yogurt chalk
    chalky
    plaster flour talc talcum icing frosting cottage_cheese curds curdled cheese cheesy milk_skin paint painted
    whitewash whitewashed snow frost frosted snowfield snowstorm blizzard dusting snowman dandruff cotton_wool
    cobwebs velvet felt mould mouldy moldy porridge tippex paste
    lint fluff fluffy
BREATHTHROUGH = straw stirrer sock pillow cloth blanket pinhole mask wet_cloth tube reed
BREATHNOISE = whistling whistle rattling rattle crowing barking_noise squeaking grunting wheezing rasping
FLOORED = floor ground carpet tiles deck lino rug_below kerb pavement
PASTEVENT = woke came_to came_round come_round ended_up found_myself was_on woke_up finding_myself lying laid wound_up
    waking_up
ATONCE = at_once in_one_go all_at_once together in_one_sitting one_after_another one_after_the_other back_to_back
MANY = all whole bunch loads entire several handful box pack bottle six five four ten every
OURDOSES = ampoules vials ampules doses ampoule vial inhaler pots sachets puffs
PURPOSE = on_purpose deliberately intentionally purposely to_end_it to_hurt_myself to_harm_myself because_i_want
CHILD = bro sis brothers sisters little_man grandkids lil_man bairn wean niece toddlers two_year three_year twins
KID = toddler baby bairn wean kid kids child grandson granddaughter grandchild tot infant 2yo 3yo 4yo 5yo
    little_brother
    little_sister kid_brother kid_sister nephew niece
HOARSE = voice_packed lost_our_voice
ROUGHVOICE = sandpaper gravel gravelly kermit frog rust cement_mixer chainsaw darth smoker foghorn barry_white rasp
    cheese_grater old_man old_woman crow
VOICEBAD = packed_up given_up packed_in packing_up done_in conked_out fading faded breathy scratchy
HARDGO = more_often more_and_more a_lot_more lot_more much_more more_than more_since more_lately again_since
SWOLLENLIKE = fillers filler botox trout duck_lips hamster chipmunk balloon football melon golf_balls sausage sausages
    pufferfish
BODYSWELL = face lip lips tongue eyelids eyelid eyes cheeks throat
NEGDAILY = twice_as think_twice twice_the_size twice_the_price twice_the_time twice_about twice_over_i
    twice_this_week_i_forgot
SOUPY = soup soups liquids liquid smoothies smoothie yogurt yoghurt shakes shake puree mush custard porridge baby_food
    broth ice_cream jelly mash
TIMES = 2 3 4 5 6 7 8 9 10 two three four five six seven eight nine ten several many loads_of couple_of
MISSOBJ = fri sat both_days nights mornings evenings couple_of_days two_nights two_days three_nights weekend
BETTERFEEL = swallowing_is steak_last chewing food_is
BETTER = lovely easy_now a_treat no_bother like_butter first_time_in_years first_time_in_ages lush
DYSPH = meat_is rice swallowin
"""

GUARDS = """
NOBETTER = no_better not_better not_any_better isnt_better any_better isnt_any_better not_much_better hasnt_improved
    no_easier not_easier no_improvement not_improved hasnt_got_better not_getting_better isnt_getting_better
    not_improving isnt_improving wish want hope hoping should when_will will_it not
SPILL = slurry medicine mix mixture dose coffee tea soup gravy milk toothpaste sauce ketchup beer juice ball football
OBJECTS = carbs hair grass hedge veg food fabric wood bread sugar gluten dairy
RESTWORD = five_a_side tennis rugby netball basketball hockey rowing digging stairs staircase running run ran jog
    jogging bus gym treadmill exercise football hill hills sprint workout
    zumba dancing dance swim swimming cycling cycle bike laughing laughter lol singing trampoline chasing hike hiking
    uphill match training carrying_the shopping hoovering
ALCOHOL = wine juice beetroot shirt dress coat carpet paint jelly lollipop lolly sweets popsicle slush squash
THRUSHNOT = shirt coat paint wall teeth whitening eaten ate eating drank sofa dog cat house garden board
FLOORNOT = tripped slipped_on ice stumbled playing laughing cleaning mopping sweeping spilled spilt dropped toys
    sleeping yoga mattress glass smashed
    wet sticky phone ampoule mix slurry dose bottle scrubbing gym exercises
OVERSLEEP = alarm late dose until till in_time for_it for_my
RINSING = rinse rinsed rinsing toothpaste brushing brush teeth mouthwash washing dishes plates pots tap
EATING = delicious eating meal cake hungry feast smells looks_so
"""

FRAMES = """
cannot_swallow_saliva : LEAN <5 over|above|by|at|beside <2 BOWLS ! RINSING
cannot_swallow_saliva : head|face <4 over|above|in <2 BOWLS|cup ! RINSING
cannot_swallow_saliva : let|letting|lets <2 it|everything|spit|saliva <3 SPITOUT ! RINSING
cannot_swallow_saliva : tilt|tip|lean|turn|hang|hold|bend <3 head|forward|over <6 SPITOUT|spit|out ! RINSING nosebleed
cannot_swallow_saliva : SPITOUT <3 out|down|off <2 my|his|her|the? <1 mouth|chin|face|lips ! RINSING rinse SPILL
cannot_swallow_saliva : CLOTH <3 under|on|round|around|against|to|over|in <2 CHIN ! RINSING nosebleed fever cold
cannot_swallow_saliva : CHIN <3 wet|soaked|soaking|drenched|sopping|saturated ! RINSING sweat shower
cannot_swallow_saliva : mouth <3 filling|fills|pooling|overflowing|flooding|overflows|floods|watering ! cotton food
    blisters
    sores ulcers fur patches smell thought hungry delicious
cannot_swallow_saliva : CLOTH|box|roll <6 spitting|spit|drool|dribble ! RINSING spit_roast
cannot_swallow_saliva : SALIVA|spit <6 SPITOUT <2 out|down ! RINSING
cannot_swallow_saliva : empty|emptying|clear|drain <2 mouth <4 BOWLS|CLOTH|cup|out
cannot_swallow_saliva : cant|cannot|couldnt keep <3 SALIVA
cannot_swallow_saliva : gets|get|getting|keep|keeps|have|having <2 to? spit|spitting|dribble <3
    it|everything|instead ! RINSING
impaction_now : fills|filling|fill up <3 to|and|then <3 top|spills|back|out|over ! RINSING sink bath cup tank petrol
impaction_now : LIQUID|THING|anything|everything|whatever|FOOD <6
    spills|spill|wells|floods|gushes|rises|returns|bounces
    <2 back|up|out|over|$ ! RINSING
impaction_now : NOTV <2 come|came|coming|made|get|got <1 it? <1 out <2 other side|end
impaction_now : FOOD|THING|bit|lump <4 PARKED|stuck|lodged|remained|remains|been_there|there <4 since|for <2
    SINCETIME|hours|hour|min|ages
    ! ELSEWHERE phone fridge bed sofa oven worktop counter
impaction_now : FOOD <5 declines|refuses|unwilling|reluctant <2 to? <1 descend|move|pass|budge|go|shift
impaction_now : PARKED|stuck|lodged <2 in <2 BODYLOC <3 since
impaction_now : nothing <4 goes|gets|going|getting|go|get <1 past|beyond|through|by|below|in ! ELSEWHERE SOLIDS
worse_dysphagia +marked_dysphagia : nothing solid
impaction_now : NOTV|cant|even <3 get|getting|gets|go|goes <3 anything|water|food|sip|drop|teaspoon|LIQUID <3
    past|beyond|through|by|below|in|down ! ELSEWHERE
impaction_now : FOOD|THING|LIQUID <1 no <1 go|goes|pass|passes|move|moves|come|down|pasa|baja|going
cannot_swallow_saliva : mouth|saliva|spit|drool <4 like <2 tap|fountain|waterfall|river|faucet|hose|flood|dog
cannot_swallow_saliva : mouth|saliva|spit <6 swallowing|swallow <1 does|doing|do nothing
impaction_now : FOOD|THING <6 hung|hangs|snagged|wedged <2 in|and|up|there|for|on|$ ! ELSEWHERE picture washing
impaction_now : FOOD <6 wont|not|refuses <1 turn|let|come <1 loose|go ! sweetener
impaction_now : SWALLOW|swallowed <5 never|hasnt|didnt|not <1 arrive|arrived|land|landed|reach|reached
impaction_now : FOOD <8 got|gets|getting|has_got|become itself|all? STUCK ! CONTAINER ELSEWHERE
impaction_now : FOOD|THING <3 glued|cemented|welded|nailed|superglued|wedged|rammed <2 in|there|inside ! ELSEWHERE
impaction_now : FOOD|BODYLOC <6 STATIC ! ELSEWHERE stranded_at
impaction_now : STATIC <5 FOOD|BODYLOC ! ELSEWHERE
impaction_now : SWALLOW|swallowing|FOOD|LIQUID|drink <4 into|against|hits|hitting|hit|at <3 WALL
impaction_now : WALL <4 BODYLOC|swallow ! hit_a_wall_today
impaction_now : NOTHING <3 gets|getting|get|let|allowed in|down|past|entry
impaction_now : FOOD|LIQUID|water <5 COME_BACK <2 to sender
impaction_now : LIQUID|THING|anything|everything <4 out|up|back again|straight|immediately|instantly ! ELSEWHERE
    voice appetite
impaction_now : traffic|jam|queue|pileup|tailback|logjam|holding_up <5 BODYLOC
impaction_now : FOOD <8 quit|stalled|halted|froze|gave_up|conked_out|stopped ! ELSEWHERE smoking eating
impaction_now : FOOD|meals|bite|bites|everything <5 stacks|stacking|stacked|piles|piling|queues|queueing up
impaction_resolved : got|had|needed|gave|doing <2 heimlich
impaction_resolved : choked|choking_fit|choking_episode <2
    at|during|over|while|earlier|yesterday|today|last_night|this|again|twice <2
    lunch|dinner|breakfast|tea|supper|eating|the|morning|week|weekend|$ ! price film movie tears song up
impaction_now : waiting <4 FOOD|lunch|dinner|it <3 land|arrive|go|drop|move|pass|clear ! order delivery oven microwave
impaction_now : FOOD|lunch|dinner|meal <8 having none of
impaction_resolved : FOOD|meal <12, popped|slid|slipped|shot|dropped|squeezed|plopped <1 through|down ! lovely
    no_bother treat_down nicely beautifully easy gorgeous
impaction_resolved : FOOD <4 gave|gives <2 me <2 grief|trouble|bother|scare|fright|jip|gyp|a_hard_time
impaction_resolved : pulled|fished|removed|took|got|pushed <4 FOOD <3 out|through|down|with
worse_dysphagia +marked_dysphagia : all|only <4 manage|eat|swallow|do|face|have|get_down <3 SOUPY ! fancy
worse_dysphagia : takes <3 twice|double|ages|forever|longer|hours <3 finish|eat|plate|meal|long
impaction_now : staying|stays put|there ! home indoors hotel
impaction_now : just didnt|hasnt|wont|doesnt go|move|shift|budge ! ELSEWHERE
impaction_now : back|straight up|out <2 every_time|each_time <3 SWALLOW|sip|drink|try
worse_dysphagia : FOOD|things|stuff|food|it <3 get|gets|getting|got stuck|caught <3 HARDGO|more|lately ! ELSEWHERE
worse_dysphagia : FOOD|rice|bread|meat <3 catches|catching|sticks|sticking|snags|drags <3
    sometimes|now|lately|more|again
worse_dysphagia : more|bit_more|slightly_more <1 sticking|catching|trouble|difficulty|choking ! no not any once
worse_dysphagia : SWALLOW|swallowing|eating|food <3 just_as|still|as <1 bad|hard|difficult|awful|tricky|slow ! HURT
worse_dysphagia : SWALLOW|swallowing|eating|food <3 no|not|isnt <1 any? better|easier|improved|improving
worse_dysphagia : FOOD|meat|bread|it <4 bit|little|lot|slightly|much slower|harder|trickier
bleeding : VOMIT <4 colour|color <2 of <2 SOILLIKE
bleeding : VOMIT|came_up <8, like|colour|color|coloured|colored|resembled|resembles|shade <5 SOILLIKE ! ALCOHOL drank
bleeding : SOILLIKE <7, VOMIT|came_up ! ALCOHOL coffee_machine
bleeding : colour|color|looks|looked <3 SOILLIKE <7, VOMIT|STOOL
bleeding : STOOL <7, like|colour|color|resembled|shade <4 SOILLIKE|black|red ! beetroot licorice_sweets iron_tablets
bleeding : STOOL <3 looked|looks <3 SOILLIKE ! beetroot
bleeding : red|pink|black|blood <3 in <6 VOMIT|STOOL|spit|saliva ! ALCOHOL
bleeding : spit|saliva|phlegm|sputum|mucus <5 pink|red|bloody|pinkish|rusty ! ALCOHOL
bleeding : red|pink|bloody|blood <1 FROTH ! ALCOHOL
bleeding : FROTH <6 red|bloody|blood ! ALCOHOL
bleeding : VOMIT <10, red|black|maroon|crimson|pink <2 streaks|bits|in|through|all|strings|lumps|spots ! ALCOHOL
bleeding : VOMIT <10, streaks|strings|bits|lumps <2 of <1 red|black|blood|maroon ! ALCOHOL
bleeding : red|blood|pink|bloody <3 on|in <3 STOOL|bowl|paper|wipe|pan ! ALCOHOL sugar cereal fruit
+keeps_vomiting : VOMITING|sick|vomit <2 TIMES times|goes ! feel felt feeling
+keeps_vomiting : TIMES times|goes <2 VOMITING|sick ! feel felt
allergic_reaction +airway_swelling : FACE <3 tripled|doubled|quadrupled|ballooned|inflated|expanded
self_harm : pills|tablets|meds|ampoules <3 lined_up|stockpiled|saved_up|hoarded|counted_out ! week box organiser
    organizer
breathing_trouble : NOTV|cant <3 get|take|draw|manage|fill <3 lungful|breath|lungs
breathing_trouble : BREATH <3 through|thru|like <5 BREATHTHROUGH
breathing_trouble : chest|ribs|tummy|throat <3 sucking|sucks|pulling|pulls|caving|tugging <2 in|inwards|hard|$
breathing_trouble : chest|BREATH|breathe|he|she|hes|shes|making <4 BREATHNOISE <2 noise|noises|sound|sounds|when|$
    ! tune kettle
    song dog
breathing_trouble : sitting|lying|resting|rest|sat|laid|still|even|asleep|bed <6 BREATHWORD
breathing_trouble : BREATHWORD <5
    sitting|lying|resting|rest|still|nothing|talking|speaking|bed|couch|sofa|chair|doing_nothing
breathing_trouble : airway|airways|windpipe <2 blocked|closed|closing|tight|obstructed|narrow
breathing_trouble : stop|stopping|pause|pausing|fight|gasp|gulp <3 for|to <3 AIR|BREATH
breathing_trouble : AIR|BREATH <2 between words|sentences
breathing_trouble : lungs <3 wont|not|cant <2 fill|open|work|expand
allergic_reaction +airway_swelling : throat|airway|windpipe <4
    shrinking|shrunk|narrowing|narrower|smaller|shut|shuts|squeezing
    <1 $|up|shut|in|and ! food chicken swallow when_i
allergic_reaction +airway_swelling : tongue|lips|lip|face|eyes|eyelids <6 too|twice|double <1 big|large|fat|thick|size
allergic_reaction +airway_swelling : BODYSWELL <7 like <4 SWOLLENLIKE
allergic_reaction +airway_swelling : BODYSWELL <3 blown|puffed|blowing|puffing|come|coming up|out ! spots blisters
allergic_reaction +airway_swelling : like|had fillers|botox
adrenal_sign +collapse : next thing <6 FLOORED ! FLOORNOT
adrenal_sign +collapse : PASTEVENT <3 on <2 FLOORED ! FLOORNOT
adrenal_sign +collapse : i|im|he|she|hes|shes|found|was <1 on <1 the? FLOORED ! FLOORNOT
adrenal_sign +collapse : CAN_NOT|NOTV|struggling <2 get|find|string|make <3 words|sentence|speech <1
    out|together|right|$
adrenal_sign +collapse : words|speech <3 jumbled|slurred|slurry_speech|wrong_order|mixed_up|garbled|muddled
adrenal_sign +collapse : im|he|she|hes|shes|i|wasnt <2 NOTV? <1 making <1 no|any sense
adrenal_sign +collapse : NOTV|cant|couldnt|cannot <1 stand|get_up|sit_up|stay_awake|keep_my_eyes_open <2
    $|up|properly|without ! smell taste sight noise heat
adrenal_sign +collapse : legs|knees <2 gave|give|went|buckled|folded|crumpled
adrenal_sign +collapse : lights|everything|world|it <2 went|going|goes <1 out|black|dark|grey ! power electric
    street kitchen
adrenal_sign : keep|keeps|kept <1 drifting|nodding|dozing|zoning off|out|in_and_out
adrenal_sign +collapse : drifting|slipping|going <1 in <1 and out
adrenal_sign : come|came|coming over <3 DIZZY|funny|faint|wobbly|weak|queer|strange
self_harm : easier|better|happier|relief|best|kinder <8, if|when <3 i|id <3
    wasnt|werent|didnt|gone|dead|died|disappeared|vanished|never|not ! took_it
self_harm : hope|wish|pray|rather|praying|wishing <5 not|didnt|dont|never|wouldnt|dont_have <2
    wake|wake_up|exist|be_alive|alive
self_harm : not|no_longer|stop|stopped <2 being|be <2 around|here|alive <1 any_more|anymore|$ ! home office town
    on_time
self_harm : think|thinking|thought|thoughts|imagine|picture <3 about|of|that <4
    not_being|ending|dying|disappearing|death
    ! phone_dying battery
self_harm : took|taken|swallowed|drank|had|take <9 PURPOSE
self_harm : PURPOSE <6 took|taken|swallowed|drank|take
self_harm : overdose|overdosed|od PURPOSE
self_harm : point|reason|sense <3 being|existing|living|carrying_on|going_on ! on taking
+taken_twice : took|had|taken|gave|given|did|used|swallowed|drank|made|drew <3 two|2|three|3|double|extra <3
    by_mistake|accidentally|by_accident|in_error|instead|wrongly|whoops|oops
+taken_twice : oops|whoops|mistake|accidentally|error <6 two|2|three|3|double|extra ! hours days weeks min late
    NEGDAILY
self_harm : been|started|am|im|keep cutting|harming|hurting ! OBJECTS down back out carbs grass hair it_fine
self_harm : plan|plans|going <2 to <2 end <2 things|it|everything|life|my_life ! treatment subscription course
self_harm : better|best off|if <3 dead|gone|not_here|without
self_harm : goodbye|farewell|suicide letter|letters|note|notes|messages
self_harm : goodbye <3 everyone|everybody|world|forever|cruel
self_harm : everyone|everybody|they|people|family <7, didnt|wasnt|werent <2 wake_up|wake|here|around
+taken_twice : took|taken|drank|swallowed|had|used|downed|necked <2 MANY <4 OURDOSES <3 ATONCE
+taken_twice : took|taken|drank|swallowed|had|used|downed|necked <3 OURDOSES <3 ATONCE
+taken_twice : took|taken|drank|swallowed|downed|necked <2 all|whole|entire|every|loads|bunch|handful <4
    ampoules|vials|box|pack|bottle
    ! week month finished_my course today
+taken_twice : too_many <3 puffs|ampoules|doses|pills|tablets|sprays|of
+taken_twice : overdose|overdosed|overdosing
+child_took_it : KID <5 TOOKIT|puffed|chewed|sucked|squirted|played <6 OURMED|ampoules|vials
+child_took_it : KID <5 got|gotten|getting|get <1 hold|into|at <4 OURMED|it|ampoules|medicine
+child_took_it : OURMED|ampoules|vials <4 KID <2 TOOKIT|puffed|chewed|sucked|squirted
+child_took_it : hes|shes|he_is|she_is|aged|only <1 1|2|3|4|5|one|two|three|four|five <2 and|years <4 TOOKIT <5
    OURMED|it|whole
+child_took_it : CHILD <3 drank|swallowed|ate|emptied|downed|necked|swigged|sucked|puffed <4
    OURMED|ampoules|vials|mine
thrush : white <3 at|on|in <2 back|sides|inside|edges|roof ! NOTWHITE THRUSHNOT
thrush : white <4 ahh|ah|aah
thrush : MOUTH <6 like|needs|is|looks|has|have|with|feels|gone|covered|full|theres|of <4 FURRYLIKE ! THRUSHNOT
thrush : FURRYLIKE <6 on|in|inside|insides|over|all|coating|covering <4 MOUTH ! THRUSHNOT HURT
thrush : like <2 FURRYLIKE <8 MOUTH ! THRUSHNOT HURT
thrush : creamy|milky|white|pale|cheesy <2 blobs|bits|lumps|islands|splodges|clumps|flecks|smears ! THRUSHNOT NOTWHITE
thrush : food|everything|tastes|taste <3 of|like <1 nothing|cardboard|metal|pennies ! mix slurry mixture stuff
    medicine dose puffs
thrush : MOUTH <8 like <4 eating|eaten|drinking|licking|sucking|licked|gargled|gargling <3 FURRYLIKE|milk|cream
thrush : mouth <4 cotton_wool|cotton
pregnancy : expecting <2 second|third|first|another|baby|twins|little_one ! parcel delivery order
pregnancy : late|test|stick <6 test|stick|says|said|shows|has <2 yes|positive|two_lines|pregnant ! covid flu strep
odynophagia : SWALLOW|swallowing|eating <5 eyes|eye water|stream|run
odynophagia : eyes|eye <2 water|watering|tears|stream|streaming <5 SWALLOW|EATDRINK
odynophagia : SWALLOW|gulp|sip|mouthful|bite|swallowing|swig|drinking|eating <8 like <5 FRIGHTPAIN
odynophagia : dread|dreading|scared|avoid|avoiding|bracing|brace|putting_off|frightened <4 SWALLOW|swallowing <3
    pain|hurts|because|$
odynophagia : flinch|flinches|flinching|wince|winces|wincing|grimace|grimaces|cries|yelps|squeals <5
    SWALLOW|swallows|eats|drinks
odynophagia : SWALLOW|swallowing|drinking|eating|gulp|sip <5 makes <3 cry|wince|flinch|yelp|scream|jump
odynophagia : burns|stings|hurts|scalds|scratches|rips|tears|sore|raw <2 all? <1 way <1 down ! acid reflux
odynophagia : tears <2 in|running <4 SWALLOW|EATDRINK
hoarseness : sound|sounds|sounding|voice <3 like <3 ROUGHVOICE
hoarseness : VOICE|voice <4 packed|given|giving|conked <1 up|in|out
missed_doses : forgot|forgotten|missed|skipped|slipped|left|didnt <4 last|past|two|three|couple|few <3
    nights|days|mornings|doses|evenings
missed_doses : no|without|hadnt|missing <1 dose|doses|medicine|meds|ampoules|puffs <4 MISSOBJ|since|for
missed_doses : didnt|forgot|left|hadnt bring|pack|take|behind|at <3 it|them|my_medicine|meds|ampoules|home|with
better : FOOD|food|meat|everything|steak|dinner <3 goes|going|went|slides|slips <2 down <2
    lovely|well|great|fine|easier|easy|nicely|treat
    ! NOTV NOBETTER
better : managed|ate|eaten|finished|had <3 whole|entire|full|proper <3 FOOD|meal|plate|dinner|burger
better : first <2 time in <3 years|ages|months|forever ! stuck blood
wants_stop : cant|cannot|couldnt|not|dont <2 be <1 bothered|arsed|doing <3 with|to|taking|this
wants_stop : pack|jack|chuck|sack|knock|give it in|up|on ! smoking
wants_stop : fed_up|over|done|bored|tired|had_enough|had_it <2 with|of <3
    this|medicine|stuff|steroid|meds|slurry|treatment
new_medicine : STARTED|taking|added|on|me <3 OTHERDRUG ! can should allowed
chest_pain +severe : PAIN|pain <2 shooting|spreading|going|radiating|boring|through <4 back|jaw|arm|shoulder ! lower
herpes_sign : blisters|blister|sores|bumps|tingling|tingly|crusty|scabby <4 along|round|around|on|by|near <3
    lip|lips|mouth
    ! NOTHERPES
fever : sweating|sweats|sweaty|shivering|shaking <4 all|through|in <1 night|day|bed|covers
fever : boiling|burning|roasting|scorching <1 hot <2 and|to ! weather outside water day soup tea coffee
fever : thermometer <4 says|said|reads|reading|shows|is 38|39|40|101|102|103|104
+surgery : surgery|operation|op|procedure|anaesthetic|anesthetic|knee_replacement|hip_replacement|root_canal <4
    next|tomorrow|monday|tuesday|wednesday|thursday|friday|soon|week|month|booked|scheduled|coming
+surgery : having|booked|scheduled|going_in <3 surgery|operation|op|teeth_out|tooth_out|tonsils|procedure|knee|hip
"""

"""English frames for signs as other voices tell them: by what is seen and done, by likeness, and without naming it.

The notation is that of frames_en; a class named there is extended here.
"""

from __future__ import annotations

CLASSES = """
FOOD = asparagus halloumi mutton tamal kimbap carnitas biltong lamington dosa rasher tater_tot tender hunk cashew
    plantain vitamin multivitamin sticky_cake rice_ball pork_crackling crackling bacon_rind rind gristle
DROOL = slaver slavering slobber slobbering drooly leaking_from_the_mouth
SALIVA = slaver slobber wet_of_my_mouth own_wet
SOILLIKE = sealer hockey_puck puck turf sump_oil sump liquorice_laces fruit_punch ketchup_coloured road_tar kajal
    black_as_tar wine_coloured claret
SWOLLENLIKE = slug dough bread_dough risen_dough boxer bullfrog frog frogs chipolatas chipolata hot_dog hot_dogs
    fish_lips puffer bread_roll balloons toad
BREATHNOISE = creaky creak creaks squeaky squeak squeaks barking seal bark barks honking donkey dragging rattly
    gurgling crowing whistly whooping
PAIN = paining pn agony squeeze squeezes vice vise crushes
SEVERE = nine_out_of_ten ten_by_ten ghastly savage fierce ferocious wringing_wet sweating_buckets pouring_sweat
    crushes never_had_pain flattening 9_out_of_10 8_out_of_10 worst_of_my_life
FEVER = fevery febrile rigors roasting_hot on_fire_with_fever
COLLAPSE = conked_out keeled slumped passed_clean_out out_like_a_light off_like_a_lamp barely_answering
    talking_rubbish
    talking_gibberish lights_went_out cold_and_damp not_with_us blackd_out
COLOURED = maroon scarlet crimson red claret black
PRESS = band vice vise anvil clamp strap ratchet elephant heifer brick bricks cylinder boulder weight cement belt
    tongs
GONEBLUE = blue mauve purple lilac dusky greyish grayish bluish slate grey gray
NAILS = lips lip nails fingernails fingertips nail_beds fingers
ENDPLACE = platform bridge roof terrace balcony train building cliff tracks car_park parking_garage overpass tower
KINPOSS = sons daughters wifes husbands mums moms dads brothers sisters kids childs partners twins mothers fathers
    grans boyfriends girlfriends friends neighbours roommates
DOSEWORD = dose doses medicine ampoule ampoules inhaler puffs slurry meds medication cup
KINWORD = gran granny nan nana mum mom mam dad wife husband hubby aunt auntie carer childminder sitter babysitter
    grandad grandma grandpa sister brother partner nanny school nurse teacher
PASSES = goes_past going_past as_it_passes as_it_goes as_they_go passes_behind going_past as_it_travels
    on_its_way on_the_way_down passing_through slides_past as_my_tea_goes when_it_passes as_food_goes when_food_goes
    going_through
HEIGHTWORD = height_mark height_chart growth_chart growth_line centile growth_curve
MANYNUM = 6 7 8 9 10 11 12 15 16 18 20 24 30 six seven eight nine ten eleven twelve fifteen twenty thirty dozen
FEWNUM = 3 4 5 three four five
"""

FRAMES = """
self_harm : picked|chosen|set <1 a|the day|date ! wedding holiday scope endoscopy appointment party
self_harm : jump|jumping|step|stepping|throw|throwing|leap <4 off|from|under|front <4 ENDPLACE ! catch queue late
self_harm : going|go|went|walk <1 under <1 the? train|bus|lorry|truck
self_harm : finish|hang|end myself|himself|herself|themselves
self_harm : rope|noose <6 barn|beam|neck|garage|tree|rail|look_at ! tow skipping washing climbing
self_harm : belt <4 tied|rail|neck ! seat fan conveyor
self_harm : fresh|new|more|row_of <2 cuts|scars|marks <6 arms|arm|legs|leg|thigh|thighs|wrist|wrists
self_harm : blade|razor <6 hidden|hid|sock|pillow|drawer ! shaving leg_hair kitchen
self_harm : how <2 many|high <6 stop|kill|fall|die|overdose <3 a? heart|you|someone|from|$ ! calories
self_harm : tablets|pills|ampoules|meds <4 stop|kill <2 heart|you|someone|me ! side reflux
self_harm : when im|i_am gone ! holiday away work abroad shopping
self_harm : prays|pray|hopes|wishes|praying <4 not|never|wont|wouldnt <2 wake
self_harm : sleep|asleep <2 for_good|forever ! beauty
self_harm : better|cheaper|happier <6 without|if <2 me|her|him|i <3 gone|disappeared|dead|$ ! game match team coffee
self_harm : disappeared|disappear|vanish|vanished <6 cheaper|better|easier|miss|notice ! phone parcel
self_harm : burden <3 on|for|to <2 family|everyone|me|you|them|him|her|us
self_harm : letters|letter|note <8 bank|goodbye|sorry|rather_not|pillow ! doctors doctor school sick clinic
self_harm : saving|saved|hoarding|stockpiling|counting <3 up? <3 pills|tablets|sleeping_tablets
self_harm : end|want|wish <2 it|everything|this <2 to_be <1 over|finished ! winter week exams treatment
self_harm : burned|burnt|burns|cut|cuts|hurts|scratched himself|herself|themselves <8 purpose|again|deliberately
self_harm : last|log_in|goodbye <4 forever <4 means|meant|door|locked
adrenal_sign +collapse : cant|cannot|couldnt|wont|not|unable <3 wake|rouse|waking|waken <2
    him|her|them|up|properly|fully|to|good|$ ! alarm early late dont_want until till
adrenal_sign +collapse : cant|cannot|couldnt <2 get <2 up|sense|sensible|word <4 him|her|them|of|from
adrenal_sign +collapse : we|i cant get him|her|them up ! stairs
adrenal_sign +collapse : only|just <1 grunts|groans|mumbles|grunt|moans <2 when|and|back|$
adrenal_sign +collapse : doesnt|dont|didnt|not <1 know|knowing <2 who|where|what_day|what_year|which_house|our_address
    <3 i|am|im|he|she|is|we|it|are|$ ! to_order to_send to_buy to_start to_ask keep ampoules post clinic
adrenal_sign +collapse : what|which year|day is it
adrenal_sign +collapse : call|called|calling|calls <1 me|us <2 by|his|her|the <3 name|names|brothers|dogs
adrenal_sign +collapse : thinks its|it_is <1 1960|1965|1970|1974|1975|1980|1985|1990|christmas
adrenal_sign +collapse : slumped|slid|sliding|slidding <3 off|over|down|bath|chair|toilet|wall ! sofa_cushions roof
    no_bother lovely nicely pancakes food dinner
adrenal_sign +collapse : cant|cannot <1 hold <1 myself|himself|herself up
adrenal_sign +collapse : eyes <2 rolling|rolled|half_open
adrenal_sign +collapse : eyes <2 wont|not <1 stay|staying open
adrenal_sign +collapse : went|off|out <1 like <1 a lamp|light ! sold selling
adrenal_sign +collapse : shoes|jam|phone|keys <2 in|on <2 the fridge|remote|remote_control|oven ! left
adrenal_sign +collapse : confused|muddled|dopey|drowsy <8 sweaty|clammy|grey|shaking|vomiting|sick|weak
chest_pain +severe : PRESS <6 CHEST ! drawers
chest_pain +severe : CHEST <6 PRESS ! drawers weights
chest_pain +severe : severe|crushing|heavy|awful|horrible <2 chest ! cold cough infection
chest_pain +severe : clutching|clutches|gripping|grips|punching|holding|fist|hand|rubbing <6
    chest|heart|breastbone|sternum ! breast_bone_china
chest_pain +severe : not heartburn <8 grey|gray|sweat|sweating|grip|anvil|worse
chest_pain +severe : tear|tearing|tore|ripped|ripping <6 pecs|chest|heaves|retching|sternum
chest_pain +severe : stone|car <5 heart|chest ! rolling
chest_pain +severe : heavy <6 middle|chest <6 sweat|sweating|grey|clammy
chest_pain +severe : pressure|tightness|pain <8 jaw|shoulder|elbow|left_arm ! blood sinus tooth ear gym
breathing_trouble : NAILS <5 GONEBLUE ! lolly slush candy sweet plums ink jeans blueberries gloves wine
breathing_trouble : GONEBLUE <2 NAILS ! lolly slush candy sweet plums ink blueberries polish wine
breathing_trouble : skin|tummy|ribs|collarbones|throat|neck|belly <6 suck|sucks|sucking|pull|pulls <2
    in|under|hard|inward|each
breathing_trouble : sucking|sucks <3 under|between|above <3 ribs|collarbones
breathing_trouble : BREATHNOISE <4 noise|sound|breath|breaths|inhale|air ! tune kettle song dog gate toy film
breathing_trouble : breath|breaths|inhale <4 BREATHNOISE ! mint tune
breathing_trouble : every|each <2 breath <3 a? BREATHNOISE|drag|fight|effort
breathing_trouble : tiny|small|little sips <2 of air
breathing_trouble : stop <2 after|every <2 every? 2|3|two|three|few words
breathing_trouble : breaths <1 a|per minute
breathing_trouble : nostrils|nose_holes|nose <2 flaring|wide|flare
breathing_trouble : o2|oxygen|sats|saturation <3 7|8 ! normal
breathing_trouble : o2|oxygen|sats|saturation <3 78|79|80|81|82|83|84|85|86|87|88|89|90
breathing_trouble : like <2 drowning ! work paperwork admin emails debt
cannot_swallow_saliva : wont|cant|doesnt|not <2 swallow|swallowing <1 his|her|my|its? own <1 wet|spit|juices|saliva
cannot_swallow_saliva : mouth|gob <5 filling|fills|fill <1 up? ! cavity dentist
cannot_swallow_saliva : gob|mouth <4 leaky|faucet|tap|fountain
cannot_swallow_saliva : gobbing|gob <3 into|in <3 BOWLS|bag|packet|cup|bottle
cannot_swallow_saliva : chin|shirt|bib|pillow|jumper|cardigan <4 soaked|drenched|soaking|wet <8
    drool|spit|swallow|mouth|saliva|milk|bib
cannot_swallow_saliva : blowing|blows|bubbles <2 foam|froth|bubbles ! bath soap gum
cannot_swallow_saliva : foamy|frothy|stringy <2 bubbles|spit|foam|strings ! coffee milk beer
cannot_swallow_saliva : bag|bucket|cup|bottle|jar|bowl|basin|towel|hanky|pot <5 full|filled|filling|soaked <3
    dribble|drool|saliva|spit|slobber|froth|foam
cannot_swallow_saliva : strings|string <2 of <1 saliva|slobber|spit|drool|foam
cannot_swallow_saliva : sips|water|milk|squash|juice|tea|drink|drinks|liquid <4 fall|falls|dribble|dribbles|drips|ooze
    <3 out|back ! jug cup lid fridge carton
cannot_swallow_saliva : lets|let|letting|tips|tilts <4 run|fall|slide|ooze|out|drip|dribble <3
    out|mouth|pillow|saucer|towel|you ! cat dog
cannot_swallow_saliva : havent|hasnt|not|couldnt <3 swallowed|swallow <3 anything|water|spit|fluids|drop <8
    hours|hrs|hour|since
cannot_swallow_saliva : cant|cannot|couldnt|unable|not <3 take|taking <1 inside|in <1 anything|water|$ ! pill dose
cannot_swallow_saliva : no <1 liquids|fluids|drinks|oral_intake <3 since|possible|at_all
cannot_swallow_saliva : nothing|zilch|nowt|zero|nada|nil|zip <3 goes|going|go|gets|passes <2
    down|inside|past|in|way ! sick wrong price
impaction_now : FOOD <8 sideways|crossways ! crab walking
impaction_now : FOOD <3 didnt|hasnt|not <1 land|landed
impaction_now : blocked|plugged <1 now $
impaction_now : cant|cannot|wont|not <2 burp|drink <2 cant|cannot|wont? drink|walking
impaction_now : like|a <1 squatter|cork <3 in|there <2 pipe|throat|bottle|gullet
allergic_reaction +airway_swelling : lips|lip|tongue|face|cheeks|eyes|gob|neck|chin <6 like|size|as <5 SWOLLENLIKE
allergic_reaction +airway_swelling : fat|fatter|thick|growing|bulging|huge lip|lips|tongue ! lolly kiss
allergic_reaction +airway_swelling : lip|lips|tongue|throat|face <4 growing|fatter|bulging|bulge|crowding|hanging !
    hair
allergic_reaction +airway_swelling : tongue <5 wont_fit|doesnt_fit|too <1 fit|thick|big|fat
allergic_reaction +airway_swelling : eyes <3 slits|shut <4 puff|puffiness|swollen|red|tight|face
allergic_reaction +airway_swelling : gob|mouth|lips|face|tongue swole|blew_up|sweling
bleeding : VOMIT|vomitted|barfed|spewed|hurled|burp|burps|burped|puking|puke|threw_up|came_up <10 COLOURED ! ALCOHOL
    shirt wine dress coat face cheeks
bleeding : stool|stools|poo|poop|dunny|pan|toilet|loo|motion|motions|number_twos|number_2|feces <8 SOILLIKE ! beetroot
bleeding : melted|like <2 liquorice|licorice|tar <6 pan|toilet|smell ! sweets
bleeding : black|tarry <2 mess|tarry <4 knickers|pants|underwear|nappy|pad|pair
+taken_twice : took|taken|drank|swallowed|used|had|inhaled <1 MANYNUM <1 ampoules|doses|vials|ampules|puffs|nebs
    ! days weeks far so ago left hours course total
+taken_twice : took|taken|drank|swallowed <1 FEWNUM $
+taken_twice : took|taken|drank|swallowed|used|had|gave <2 KINPOSS <1 DOSEWORD ! advice
+taken_twice : i|he|she|we|mum|dad|hubby|husband|wife|nan <2 dosed|gave|give <8 not_knowing|again|already|both
+taken_twice : husband|wife|mum|dad|he|she|nan <2 gave|give <2 again ! up
+taken_twice : so double
+taken_twice : puffs|ampoules|doses|vials|puff|ampoule|dose <4, when|but|instead|whereas|should|supposed <6
    should|meant|supposed|told|prescribed|label|says|said ! left delivered
+taken_twice : mg|puffs|puff|ampoules|ampoule|doses <2 instead|rather <1 of|than <3 1|2|one|two|half|the ! left
+taken_twice : two|2|three|four|eight <1 puffs|ampoules|doses <10, instead|written|prescribed|supposed ! left
+taken_twice : another|extra|second <2 puffs|ampoule|dose|vial|cup <8 already|top|forgetting|forgot|without ! can
    should
    may late missed
+taken_twice : KINWORD <4 gave|given|did|handed|dosed|puffed <4 as_well|too|already|twice|again ! advice lift
+taken_twice : gave|given <3 as_well|too <6 not_knowing|didnt_know|without_knowing|unaware
+taken_twice : both <3 gave|given|dosed ! advice
adrenal_sign : face|cheeks <4 round|rounder|moon|puffy_and_round|chubby|chubbier|hamster <10,
    bruise|bruises|bruising|bruised|weight|stretch_marks|stone|kilos
adrenal_sign : bruise|bruises|bruising <12, moon|rounder|weight|stretch_marks|dizzy ! gym fell fall football
adrenal_sign : bruises|bruise|bruising <6 everywhere|nothing|random|easy|easily|without|no_reason|tumble|leaning !
    gym fell
    fall football rugby blood_draw could can
adrenal_sign : skin <4 thin|thinner|papery|tissue_paper <4 paper|tears|tore|bruise|bruises|$ ! peach
adrenal_sign : stretch_marks|stretch|hump <6 tummy|neck|belly|thighs|purple
adrenal_sign : put_on|gained|piled_on <5 stone|kilos|kg|pounds|lbs|weight <8 steroid|spray|bruise|bruises|slurry|face
adrenal_sign : hasnt|not|havent|stopped|no <3 grown|growing|growth|outgrown|taller|inch|cm ! hair beard nails plants
    garden grass
adrenal_sign : same <1 height|shoe_size|shoes|size|trousers|clothes|jeans <8 year|months|september|last|ago ! pill
adrenal_sign : HEIGHTWORD <4 same|flat|stuck_at|not_moved|not_changed|hasnt_moved|hasnt_changed ! price
odynophagia : PASSES <5 hurts|hurt|burns|burn|stings|sting|smarts|scratches|scrapes|rips|pinches|aches|soreness
    ! acid reflux hot_sauce
odynophagia : hurts|hurt|burns|stings|smarts|scratches|scrapes|rips|pinches|winces|wincing <3 PASSES ! acid reflux
worse_dysphagia +marked_dysphagia : chew|chewing|mash|mashing|puree|blend|blending <6 now|these_days|lately <8
    last|used_to|managed|could|month ! baby gum
+taken_twice : two|2 lots in|of <1 him|her|me|it
+child_took_it : toddler|cousin|sibling|brother|sister <6 sucking|eaten|licked|drank|puffing <4
    puffer|mixture|medicine|slurry|beaker
"""

GUARDS = """
DEADWORD = dead_tired dead_on dead_beat dead_easy dead_good dead_chuffed dead_pleased dead_busy dead_slow dead_sleepy
    didnt_wake did_not_wake overslept until_now till_now
DOUBLEASK = threw_up_twice sick_twice vomited_twice puked_twice thrown_up_twice should_i_double shall_i_double
    can_i_double do_i_double must_i_double should_we_double could_i_double
    should_i_take_two should_i_take_double can_i_take_two should_i_take_2 do_i_take_two do_i_take_double on_the_label
    two_lots_of_good on_the_second_go at_the_second_go two_lots_of_people on_second_go
"""

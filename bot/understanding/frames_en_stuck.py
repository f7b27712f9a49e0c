"""English frames about food that is stuck, saliva, swallowing and pain on it; the notation is that of frames_en."""

SWALLOWING = """
impaction_now : FOOD <4 STUCK ! CONTAINER
impaction_now : STUCK <4 FOOD ! ELSEWHERE
impaction_now : STUCK <4 PLACE ! ELSEWHERE
impaction_now : THING <3 STUCKBARE ! ELSEWHERE
impaction_now : got|gets|get|getting|is|its|was|still|feels|feel|completely|yes|yup|im|again|all STUCKBARE !
    ELSEWHERE
impaction_now : ^ STUCKBARE ! ELSEWHERE
impaction_now : FOOD <3 still in|there|here|sitting|lodged ! ELSEWHERE
impaction_now : still in|sitting|up|down there ! ELSEWHERE
impaction_now : FOOD|THING <2 sitting <3 PLACE|there|bottom|here ! ELSEWHERE
impaction_now : FOOD <3 NOTV <3 GO_DOWN ! ELSEWHERE
impaction_now : THING <2 NOTV <3 GO_DOWN ! ELSEWHERE NOTFEVER SALIVA
impaction_now : FOOD <4 NOTV <1 MOVE_VERB ! ELSEWHERE
impaction_now : LIQUID <3 NOTV <2 GO_DOWN ! ELSEWHERE
impaction_now : NOTV go_down|going_down|gone_down|went_down|budge|budging|budged ! ELSEWHERE NOTFEVER SWELL SALIVA
impaction_now : NOTV <3 move|moved|shift|shifted|get past <1 PLACE
impaction_now : CAN_NOT <1 DOWN_IT ! ELSEWHERE
impaction_now : CAN_NOT <2 get|keep|force|push|wash|make <3 down|past|through|move|budge|in ! ELSEWHERE BREATH AIR
    PRICE2
impaction_now : CAN_NOT <1 SWALLOW ! PRICE SOLIDS SALIVA
impaction_now : CAN_NOT <1 SWALLOW <2 anything|water|food|liquid|liquids|it ! PRICE SOLIDS
impaction_now : CAN_NOT <1 sip|drink|eat|drink <1 anything|water|sip ! ELSEWHERE
impaction_now : since <4 FOOD <5 cant_drink|cannot_drink|cant_sip
impaction_now : stuck|lodged <6 cant|cannot drink|sip|swallow
impaction_now : NOTHING <2 PASS_ALL ! ELSEWHERE SOLIDS
impaction_now : LIQUID|THING|FOOD <5 COME_BACK <2 BACKOUT? ! acid reflux heartburn appetite voice fever taste thrush
    REVIVE
impaction_now : throwing|bringing|spitting|sicking <2 LIQUID|everything|food <1 back|right|straight up|back
impaction_now : BLOCK ! ELSEWHERE
impaction_now : completely|totally|all|fully blocked|clogged|plugged|obstructed ! ELSEWHERE
impaction_now : feel|feels|feeling|im|am blocked|plugged|obstructed|clogged ! ELSEWHERE BREATH
impaction_now : CHOKE on <3 FOOD ! ELSEWHERE
impaction_now : CHOKED <2 on <4 FOOD ! ELSEWHERE
impaction_now : CHOKED <2 now|still
impaction_now : feels|like|got|theres|a <2 plug|stopper|golf_ball|fist|rock <4 PLACE|there ! ELSEWHERE
impaction_now : feels|feel|is like|as a? plug|stopper ! ELSEWHERE
impaction_now : FOOD <3 wont|refuses|not|isnt|hasnt <2 go|going|gone|budge|down ! ELSEWHERE
impaction_now : FOOD <4 hung|hanging up ! ELSEWHERE
impaction_now : keep|keeps gagging|retching <4 FOOD|it
impaction_now : cannot|cant|couldnt keep <2 anything|water|food|liquids down
impaction_now : NOTV <2 MOTION <2 DIRECTION ! ELSEWHERE NOTFEVER SWELL FEVERISH PRICE2 SALIVA
impaction_now : NOTHING <3 MOTION <2 DIRECTION ! ELSEWHERE PRICE2 SOLIDS
impaction_now : never made it down|through|past ! ELSEWHERE
impaction_now : never MOTION it? DIRECTION ! ELSEWHERE
impaction_now : not going anywhere|nowhere ! ELSEWHERE
impaction_now : FOOD <5 going nowhere
impaction_now : FOOD <5 PARKED <4 BODYLOC ! ELSEWHERE
impaction_now : FOOD <8 PARKED <3 BODYLOC ! ELSEWHERE
impaction_now : half|most|some|rest <3 it|FOOD <3 PARKED|still|stuck ! ELSEWHERE
impaction_now : PLUG <2 in|at <2 BODYLOC ! ELSEWHERE GLOBUS
impaction_now : feel|sense <2 FOOD <2 there|in ! ELSEWHERE
impaction_now : BODYLOC <2 blocked|clogged|plugged|closed_off|obstructed|jammed|bunged ! ELSEWHERE
impaction_now : swallow <6 wont go|move|work|happen
impaction_now : wont|not|isnt|hasnt|cant <1 go|going|moved|move $ ! ELSEWHERE PEOPLE
impaction_now : trying|tried <3 get <4 FOOD|it|this <2 up|down|out|to_move ! ELSEWHERE
impaction_now : CAN_NOT <1 get_rid_of|clear|dislodge|shift|move <4 FOOD|it|lump ! ELSEWHERE
impaction_now : LIQUID|THING|FOOD <2 NOTV <2 stay|staying <1 down ! ELSEWHERE
impaction_now : since|after <5 FOOD <6, cant|cannot swallow|drink|eat
worse_dysphagia +marked_dysphagia : lump|knot|ball|something <2 in <2 throat
worse_dysphagia +marked_dysphagia : CAN_NOT <2 swallow|eat|manage <2 SOLIDS
odynophagia : CAN_NOT <2 SWALLOW|eat|drink <2 without <3 HURT|wincing|crying|screaming
impaction_now : FOOD <3 stopped|stopping|stops|halted <3 halfway|midway|short|there|BODYLOC ! ELSEWHERE
impaction_now : everything|it|liquid|water|food <2 backing|backs|backed up ! ELSEWHERE
impaction_now : LIQUID|drink|swallow <6 pours|pouring|comes|came|runs|flows|shoots|shot|squirts|goes <3 back|nose
impaction_now : waiting <3 to? pass|go_down|clear|move|shift ! ELSEWHERE customs order
impaction_now : ^ still there|stuck|in|not
impaction_now : no|nope|yes|yeah|and still there|stuck|in
impaction_now : NOTV moving|moved|budging|budged|passing|shifting|shifted ! ELSEWHERE bowels bowel house PEOPLEMOVE
impaction_now : SWALLOW <2 impossible|blocked|not_happening|not_possible|not_working
impaction_now : NOTHING <3 making|getting|going|coming it? past|through|down|by ! ELSEWHERE SOLIDS
impaction_now : dont|doesnt|didnt <1 think|feel|seem|believe|look <5 went|gone|go|moved|passed|cleared|going <1
    down|through|away ! ELSEWHERE NOTFEVER
impaction_now : FOOD|THING|is|got|its stock|struck|stack|stucked in <2 BODYLOC
impaction_now : FOOD <3 filled|filling up
impaction_now : like|got a? dam|wall|cork|plug <3 there|BODYLOC
impaction_now : FOOD <4 wont|cant|refuses <2 dissolve|release|loosen|unstick ! sweetener powder
impaction_now : cant|cannot get past <2 FOOD
impaction_now : FOOD|THING <2 blocking|plugging|clogging <3 me|BODYLOC|everything|it
impaction_now : FOOD <2 in|blocking <1 way
impaction_now : no way <3 get|getting <3 down|past
impaction_now : shot|shoots|came|comes|coming|flies|flew <1 back|right|straight up ! acid reflux heartburn appetite
impaction_now : FOOD <4 never <2 landed|arrived|made|reached
impaction_resolved : FOOD|it|thing <2 finally|eventually|just <2
    moved|went|passed|cleared|dropped|budged|shifted|slid|freed
impaction_resolved : unstuck|dislodged itself
impaction_resolved : false alarm
impaction_resolved : panic over
impaction_resolved : ^ it|yes|yeah|no it? has? went|gone|passed|cleared
    now|eventually|through|down_now|down_eventually
impaction_resolved : ^ it|yes has? went|gone|passed|cleared|moved $
impaction_now : regurgitate|regurgitating|regurgitated|regurgitation ! acid
impaction_resolved : stuck|choking|impaction|sticking episode|incident|event|scare
impaction_resolved : episode|incident|scare <2 of|with|where <3 stuck|choking|impaction|food ! now
impaction_now : FOOD|THING <5 wont|refuses|refusing|not <1 leave|leaving|quit ! alone
impaction_now : FOOD <2 went halfway|partway
impaction_now : THING <1 just? sits|sitting|sat there
impaction_now : PLACE <3 closed|clamped|shut <2 on|around <2 it|FOOD
impaction_now : hitting|hits a wall
impaction_now : what|whatever|everything|anything <5 mouth|swallow|eat|drink <3 comes|comes_straight|shoots|pops <2
    out|back|up
impaction_now : feel <2 it|FOOD <2 in there|here|chest|throat ! heart
impaction_now : FOOD <2 in <2 PLACE <4 wont|camp|leave|days|hours|hrs
cannot_swallow_saliva : SWALLOW <2 SALIVA <2 impossible|not|cant|blocked
impaction_resolved : FOOD <5 went|gone|go down <2 in_the_end|eventually|finally|ok|after
impaction_now : PLACE <3 locked|locking|seized|spasmed|clenched <3 on|up|around
impaction_now : throat|gullet|esophagus wont|not|refuses <1 open|opening|relax|let
impaction_now : FOOD <3 stay|stayed|staying put
impaction_now : hours|hrs|hour|min <2 with <4 FOOD
impaction_now : jam|blockage|pileup <2 in <2 PLACE
impaction_now : no chance|way <2 SWALLOW
impaction_now : solid|lump|lodged <2 behind|in|under <2 CHEST|sternum|breastbone
impaction_now : still not down|moving|moved|passed|through|clear|shifted
impaction_now : FOOD <8 feels|feel like? its? just? there
impaction_now : its|it just there ! ELSEWHERE
impaction_resolved : not|no_longer stuck now|anymore|any_more
impaction_now : FOOD <6 in|inside|around|behind|at|near <2 my|the? BODYLOC ! HURT easily fine burns passes taste
    CONTAINER
impaction_now : hours|hrs|hour|min|minutes of <3 FOOD
impaction_now : where <2 FOOD <2 stopped|stuck|is
impaction_now : FOOD <3 in limbo
impaction_now : refusing|refuses <2 leave|move|go|say|budge
impaction_now : every <1 sip|swallow|mouthful <3 back|up|out ! HURT
impaction_resolved : fright|scare|moment <3 FOOD
impaction_resolved : stuck|caught|lodged <8 then <1 dropped|moved|passed|slid|went|cleared
worse_dysphagia +marked_dysphagia : living|live|back|down|surviving <1 to|on|off <2
    soup|soups|liquids|shakes|smoothies|yogurt|puree|mush
worse_dysphagia +marked_dysphagia : solids|solid <5 no_go|impossible|off|wont|not|cannot
worse_dysphagia : takes <3 goes|tries|attempts <4 down
worse_dysphagia : FOOD|bread|meat <2 taking <2 time
odynophagia : brace|bracing <5 SWALLOW
odynophagia : SWALLOW <3 then|and|it <2 HURT
odynophagia : mouthful|bite <4 HURT
better : managed|ate|finished|polished_off <2 whole|entire|roast|full <2 FOOD|dinner|meal
better : night and day difference
impaction_now : still no joy|luck
impaction_now : it|FOOD <2 stopped dead|halfway|short
impaction_now : CHOKE me ! hugs laughing
impaction_now : getting nowhere <2 FOOD
impaction_now : FOOD <3 went|going|goes nowhere
impaction_now : CHEST|throat|gullet <2 full <2 FOOD
impaction_now : stuck|jammed|wedged solid|fast|tight ! ELSEWHERE
impaction_resolved : FOOD <2 removed|extracted|taken_out|pulled_out
odynophagia : painful to <2 get|eat|drink|swallow
impaction_now : gullet|esophagus|throat <1 shut|closed_off|closed_for
impaction_resolved : got|brought|coughed|threw|spat|pulled|fished|sicked <3 FOOD <1 out|up ! holding_up
impaction_resolved : had|managed|finally to? <1 get|throw|bring|cough|spit|vomit|puke|sick <5 FOOD|it <2 out|up|back
impaction_resolved : had|managed to <1 throw|bring|cough|vomit|puke|sick|throw_up|bring_up|cough_up <4 FOOD
impaction_resolved : made|make|making myself|me sick|vomit|throw_up|puke|heave <5 FOOD|it ! steroid
impaction_resolved : FOOD <3 came|come|popped|coughed up|out
cannot_swallow_saliva : CAN_NOT|NOTV <5 SALIVA ! rinse rinsed
cannot_swallow_saliva : SALIVA <4 NOTV|cant|wont <3 GO_DOWN|swallow|swallowed|drain
cannot_swallow_saliva : SALIVA <2 pooling|pools|pooled|building|backing|filling|everywhere|dripping|running|bubbling
cannot_swallow_saliva : filling|fills|filled|full|pooling|pool|pools <3 SALIVA
cannot_swallow_saliva : have|having|need|got|keep|keeps to? <2 spit|spitting|spitting_out|dribble <3
    out|because|into|cup|everything|it|up|constantly|saliva|$ ! rinse rinsed rinsing
cannot_swallow_saliva : SPITTING <4 into|in <2 VESSEL ! rinse rinsed rinsing toothpaste
cannot_swallow_saliva : SALIVA <3 choking|drowning|gagging|suffocating
cannot_swallow_saliva : NOTV|cant control|manage|handle|contain <2 SALIVA
cannot_swallow_saliva : SALIVA <2 overflowing|overflows|flooding|spilling|pouring
cannot_swallow_saliva : VESSEL <6 to|for spit|drool ! rinse rinsing toothpaste
cannot_swallow_saliva : too_much|loads|lots|tons <2 SALIVA <5 NOTV|none|nothing|down|swallow
cannot_swallow_saliva : VESSEL <4 because|cos|from|for <3 SALIVA ! rinse
cannot_swallow_saliva : SALIVA <6 none|nothing <4 GO_DOWN
cannot_swallow_saliva : CAN_NOT|unable <2 handle|manage|control|swallow|tolerate <2 secretions
cannot_swallow_saliva : tolerate|handle secretions
cannot_swallow_saliva : let|letting <2 SALIVA <2 run|drip|fall|dribble|flow
cannot_swallow_saliva : DROOL ! over_that over_the_menu pizza_ad menu SPILL
cannot_swallow_saliva : FROTH <4 COME_BACK|coming|bringing|spitting|spit
cannot_swallow_saliva : FROTH SALIVA
cannot_swallow_saliva : bringing|throwing|spitting|coughing up <2 FROTH
cannot_swallow_saliva : CAN_NOT <1 SWALLOW <3 own|even|my SALIVA
odynophagia : EATDRINK <4 HURT ! NOTODYN IMPORTCHEST
odynophagia : HURT <5 EATDRINK ! NOTODYN to_death
odynophagia : throat|gullet|esophagus|food_pipe <3 HURT ! NOTODYN clearing
odynophagia : HURT|raw <3 throat|gullet|esophagus ! NOTODYN sore_throat
odynophagia : HURT <3 get|getting <3 FOOD|it <1 down
odynophagia : painful|sore <2 swallowing|swallow
odynophagia : FOOD|LIQUID|everything <3 hurts|stings|burns|scratches <2
    me|down|going|throat|inside|like|on|bad|badly|a|$ ! NOTODYN
odynophagia : hurts|stings|burns <1 bad|badly|like|so|all|going|when
odynophagia : feels|felt|like raw|knives|glass|razors|razor
better : BETTER <4 BETTERFEEL ! WORSENING NOTV NOBETTER
better : BETTERFEEL <4 BETTER ! WORSENING NOTV NOBETTER
better : BETTER than <3 before|ever|usual ! WORSENING NOBETTER
better : havent|hasnt|not <2 felt this|so good|well|great
better : havent|no|not <3 food|anything stick|stuck|sticking in weeks|months|ages
better : no|never|not more|longer|any <4 stuck|sticking|choking
better : FOOD no problem|problems|trouble|issue|issues
better : goes|go|going|went <2 down <2 easy|easily|easier|smoothly
better : can eat <2 again|normally|anything|everything
better : hardly|barely any <1 trouble|problem|problems|difficulty
better : no issue|issues|trouble|problem|problems <1 eating
better : improving|improvement|improved ! NOBETTER
worse_dysphagia : DYSPH <4 WORSE ! acid HURTONLY
worse_dysphagia : WORSE <3 DYSPH
worse_dysphagia : DYSPH <2 not|isnt <2 great|good|right|well|as_good
worse_dysphagia : DYSPHWORD
worse_dysphagia : FOOD|THING|things|stuff|foods <3 STICKY ! ELSEWHERE
worse_dysphagia : STICKY <3 more|again|little|bit|slightly <2 often|$ ! ELSEWHERE
worse_dysphagia : FOOD|foods|meat|bread|dry <2 drags|dragging|slower|slowly
worse_dysphagia : SLOWDOWN
worse_dysphagia : need|needing|needs|having|have <3 water|drink|sips <3 every|each|get|help|wash|to|with ! can_i
    allowed wait
worse_dysphagia +marked_dysphagia : ONLYLIQ
worse_dysphagia +marked_dysphagia : MUCHWORSE <2 WORSE|worse|harder ! voice
worse_dysphagia +marked_dysphagia : only|just <3 soup|liquids|smoothies|liquid|yogurt|shakes <3 down|now|manage|$
worse_dysphagia +marked_dysphagia : NOTV|cant <2 eat|swallow|manage <2 solids|solid|meat|bread
"""

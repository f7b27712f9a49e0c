"""Common English words that lie near a field word in spelling and are none: they are never 'corrected'."""

COMMON = """
abbott accent access accidental accidents accounted accounts acids acre acres acting adam additions advisors aesthetic
aesthetics affair affects against aged agency agent agents agnes agrees aided aims airports airways alarms alfred alice alike
alleged allergies allergy almost alpine amazingly amazon amid ample amusing angela angeles angels angle angles anne answered
answers anthem anyone apples applied applies apply appointments area arena argued arising armies army arrest arts ashes asteroid
attach attacked attacker attacks attain attract auburn augusta avid avoided avoids awaiting awhile baba babe babys bach backed
backs backup badge badges bail bailey bakery baking balcony bald bale bali ballet ballot ballots ballroom balls bananas banging
bank banker bankers banking banned banning bans barack barber barbie bare bark barker barking barn barnes barney baron barred
barrel barrels bars bart barton basic basics basil basis bass bates bath bathing bathrooms baton bats batter batting battle
battling baxter beaches beacon beads beam beams beard bearing bears beast beasts beat beaten beating beats beau beaver became
beck becomes bedford beds beer bees began begging begins behold beijing beings belief bell belong belt bench bending benign bent
bert beth bets betting beware beyond bias biased bids bieber biggest bike bikes bill billed billing billions binding bing
biological biology births biscuits bitches bitter blacks bladder blade blamed blames blaming blank blanket blasting bleach blend
blended blessed blessing blew bloc block blockade blocking blocks blog blogging blogs bloke blond blonde bloom blow blows blues
blur blush blvd boarding boast boasts boats bodily bodys boeing boil bolt bolton bolts bombing bond bonded bonding bones bong
bonnie bonus bonuses boobs booked booking books boost boot booth booty bore boring born borne bosses boston bother bothers
bottles bottoms bought bounded bounds bounty bout bowen bowling bowls bows boxing boyd boys brace bracket brackets brad brains
brake brakes branches branding brands braves breach break breaks breasts breed breeding breeds brenda brett brewing brexit
bricks bridge briefing briggs brighter brighton brings brink brits broad broader brock broker brokers bronze brooke brooks brow
browns browse browser browsing bruh bruins brushed brushes brushing bryant buck buckets buckle budget budgets buenos buffer
buffet bugs buildings builds bull bullet bullying bump bumper bundle bundles bunker burden burgers burgess buried burner burst
bursts burton bury bush bust busted butler butter buttons butts buying buys buzzing cabinet cables cafe cain cakes calf caller
calls calm calmly calvin camden camel camera camp camping canada cancel cancer cancers candidate candle cane canned cannes
cannon canopy cans canton canvas canyon capable cape capped capt capture captures carbon cards care cared career careers carey
caring carl carlos carmen carpet carr carrie carroll carrots cars carson cart carter carved carving casa cases casey cash
cashier casino cass cast caste casting castle catcher catering caused causes cave cease ceased cell cent cerebral chains chairs
chamber champ champs chandler chang changes changing channel channels chant chanting chap chapter charge charged charger
chargers charges charles charming charter chase chased chasing chat chatting cheat cheated cheating check checking checks cheeky
cheer cheering cheers chef chelsea chemist chen cherry chess chester chewing chick chickens chicks chiefs childrens childs chile
chili chill chilly chinas chinese chip choi choice choices choose choosing chopped chores chose chosen christ christian
christians chrome chuckle church cindy cite citys claims clap clash clashes classes classic classmates classy clause claws clean
cleaned cleaner cleaning cleansing clearer clearly clears clever clicked clicking clips cloak clocks close closely closer
closest closet cloth clothes clothing clouds clowns coached coaching coast coaster coats coca code codes coding coffin coil coin
colder cole collar colleagues college collins colonel colony colorado coloring colors colours colt colts coma comb combat
combine comedy comet comics command comment commit commonly commons commute comp compact compete competed complain complained
complaint complaints complete completed completes complex comply composer computers conceived conclusion concussion conduct cone
confessed confession confined confuse connect connor cons constant consulted consume consumer consumers consuming contacted
contacts contain contend content contest context continued continues contract contracts contrast conversion convict convince
cooked cookies cooking cool cooled cooler cooling cooper cope copied copies coping copper copying coral cord core cores cork
cornell corp corpse cortex cory cosmos cost costing couch couldve counted counter counters counting counts coupled couples
coupon courage courier course courts cousins cove covered covers crab crafted crafting crafts crank crappy crashed crashes
crashing crater crawling create created creating creek creeping creepy crest crew cricket crimes crises crisp critic critics
crooked crop crosby crossed crossing crowded crowds crowned cruise cruising crunch crush crying cunt curb cure cured curl
curling curly cursed curtis curved curves cutter dairy daisy dale dame dams dante dare darker darn dart data dated dates dating
dave dawn deadly deaf deal dealer dean dear deaths debate decade deceased decides decks decrease decreases decree dedication
deed deemed deepest deeply deficit deficits define defines defining definitive delicious demand demise denial denied denis
denise dennis dent denver depressed depressing depth depths derive desires detained developed developer develops devices devils
dexter diagnosis dick died dies differ difference differently differing ding dinners dipped disappears disk disney distressed
dive diving dock docs doctor dogs doin doing dome dominated domination donald donate donating donations dong donkey donor donors
doom doomed doors dope dosage doubles doubts doug dove downs dozens drafted drafting drafts dragged dragon dragons drains dramas
drawing drawn draws dread dreamed dreams dressing drew drifting drilled drilling drills driven driver drivers drives drone
drones drop dropping drought drown drowned drowning drugs drum drunken drying ducks duct dumping dunk duration dwelling earl
earlier earn earned earning earns earths ease easiest east easter eastern eden effect efforts eleanor elected elegant elephants
elevation elses emotion emotions enable endings enduring engaged engine ensuing esther evan evelyn evenings evenly events
everton everybodys everyones everythings evident excessive executing exhaust exhausting existed exists exit exits expense
expired exploded explored explosive exported expose extensive extinction extract extras eyed faced faces facing fact fade fading
fail failing fairly fairness fake fallen falling falls fame famed familys famine fare farmer farmers farming fart farther faster
fasting fate fats faults faulty fearing feast feat feather feathers feed feeding feeds feelings fees fellas fellow female fences
fencing ferry fertile fest fewer fiat fibers fibre fields fierce fight fighter fights figure figuring file filed files filing
fill filmed filming films filter filters finale finals finance financed finances findings finds fined finely fines finest finish
finished finite finn fired fires firing firm first fischer fisher fishing fits fitted five fixing fixture flashes flaws flee
fleet flies flights flint flirting floating flood floods floors flour flow flower flowers flowing flown fold folding fond font
fool fooled fools footing forbes forced forces forcing ford fore forecasts foremost forest forests forge forged form formal
formally format formats formed former forming forrest fort forth fossil fought foul founded founder founding fourth frames
framing france freaking fred freed freely freeze freezing fried friendly fringe frogs fronts frost fruits fucked fuel fueled
fuels fulfil fuller fund funded funding funeral funky fury gaining gale gamble gamer gamers games gaming gaps gary gates gather
gaze gems gender gene generally generals generate generic geneva gettin gill ginger girlfriends girls gives glad glance glasses
glowing gods gold golden goods google googles gore grab grace grad grade grades grain grains gram grammy grand grande granny
grant granted grants graph graphs grasp grass grave graves gravity greater greatly greece greedy greene greet greeting greg
grenade grew grin grind grounded grouped groups guided guiding gulf guns guts guys hacker hackers hail haired hairs hairy hale
hall hallway halo halt halted hamburg hammer handed handing handle handler handles handling handy hanged hank hans hansen
happened happier harbor harden hardest hardy hare harlem harley harmony harold harper hart harvest harvey hate hating hatred
haunt haunting havana haven hawk hawkins hawks hayden hazard headaches header heading heads headset heal healing healthy heap
hearing hearings hears hearted hearts heated heater heath heather heating heaven heavenly heavens heavier hebrew heck heels
height heir held hello helm helped helping helps herald herb herd hereby herein heres hero heroes hers hicks hide hides higher
highly highs hike hill hind hire historic hitting hobby holden holder holding holds hole holmes holt holy homage homer homes
homo hong honors honours hood hooked hoped hopes hopkins horace horses hose hospitals hosting hour hourly housed houses housing
howard howe hugely hugh hughes hugo hugs hull hungary hunt hunted hunter hunters hunting hurdles hurry hype hypothetical
imagined imaging impact impacts impaired imported impose imposed imposing improper improvements improves inception inch inches
indicted induction infantry infants infected infections infectious inflation inflicted info informed infrared inherent
injections inland inmate insane insects inserted insider insights insist inspection inspire instability instant instruction
instructional instructors insufficient insult insulted insulting insults intact intake intend intended intends intensely
intensive intent intention interact intercept interest intern internal interpret intro invade invaded invalid invent invention
invested invite invited iphone isolated issues itunes jacket jackie jaguar jailed jane jeremy jerk jerry jersey john johnny
johnson joins joints jolly judged judging judy juicy jumped jumper jumps jung jungle junk jury justice justin keen keeper keller
kent kettle kicked kicking kidding killer killers killings kinds kiss kissed kissing kits knees knew knicks knight knights
knocks knot known knows knox labeled labels labs lace lacked lacking ladder lads lake lakers lame lamp lamps lana lance land
landed lanes lang laps laptops larger laser lasers lasted lasting lastly lasts lately later latest latter laugh laughter launch
launched laurel lawful lawn lawson lawyer lawyers layers lays leads leased least leather leaves leaving lecture lego lender
lending lens lent less lest letter letting levels lever liable lick licking lies lifes lifted lifting lifts lighter lighting
lightly lights liked likes liking lima limb lime linear lined linen liner lines lineup ling lining linked linking links lionel
liquor list listed listens listing lite litter lived lively liver lives load loaded loading loans locals lock locked locker
locking lodge loft logan logged logging logic logs lois lone longest longing lookin looking looks loop loose loosely lords lose
losers loses losses lotus louder lounge love loving lowest luke lumber lung lust lynch mack madame madden maid maiden mailed
mailing mails main maine mainly maker makers makes makeup male mali mall manager managers manages mandate mandated manga manila
mankind manly mann manning manny mans mantle mapped mapping marc marcel marched marco marcus mare margin marina marine marion
marked marker markers market markets marking markings marrow marry mars marsh mart martha martin marty marvin marx marys mash
mask masked masks mass massage masses mast master match matches matching mates math mating mats matt matte matter mature maze
mean meaning meanings means meant measures medal medals mediation medicare medications medicinal medicines meditation meet
meetings meets melt melting members memoir mens mental mentioned mentions mentor mere merger merits mesh mess messages messed
messing meta metabolic metals mets mice mick mickey mighty mike mild mile miley mill miller milo minded minds miner miners mines
ming mini mining mint misery misses missile mission missions mist mistaken mistakes mister mistress misuse mixed mixes mocking
mode modest module moist moisture mole molly moment moments monkey monroe monte monthly monty monument monuments mood moody
moore morale mormon morons morse mortal morton moss mostly motive motives motors mound mountain mountains mounting mounts
mourning moves movie movies munich muse must mute nail nailed named namely names naples nasa nate nathan neal nearby nearly neat
needed needle needless needy negatively nerd nerves nest nets newark newer nice nick nike nile nina nine node noises norman
norway note notices noticing notified notify noting notion notions numbered numbers nurses obviously offence offend officer
officers offices offline omitted onions open operating operational operations operative operator oracle oranges others ounce
ounces outlaw outlet outline outsider outsiders oval overcome overly overs oversee owen owes pace packaged packages packaging
packed packers packets packs pact pads pages paid paige painted painter painters painting paintings paints pair paired pairing
pairs palace palette palm palmer pals panther panthers panties papers para parade parent parental parenting park parked parker
parking parole partial parties partly partnered parts party partys passages passion passions passive passport passwords pastor
patent patents path pathway patient patients pawn paying payments pays peace peak pearl pearls pearson peas peer pending pension
peoples periodic periods persian persona personal persons pest peterson petty peyton phones pick picked picking pieces pierce
pierre pike pile piles pillar pillars pillow pilots pine pinned pins pint piper pipes piss pissed pissing pitch pitches pitching
places placing plague plain plains plane planes planet plans plant planting plants plate plates play player playing pleasing
pleasure pledged plum plus pocket poet poetry pointer pointing points poke pole poll polling polls polo poorer poorly pope
popping porn port porter pose posed posing position positively postal posted poster posting posts potent pots potter pottery
pounding pounds pour poured pouring power powers praise praised praising preach prefers present presents pressures presume
pretend prevalent prevented prevents previous price priced prices pride prince print printed printing prize prizes processing
produced producer producers produces product products prone prop proper property props pros proven puck pull pulling pulls
pumped pumping punish pure purely purge purpose purse pursue pushed pushes pushing putting puzzle quebec questioned questions
quietly quite quiz quoting race rachel racing rack raid rail raining rains rainy raise raises raising rally ramsey rang ranged
ranger ranges ranging ranked ranking raped rapidly rapids raping rapist rapper rarely rating ratings reached reaches reaching
react reacted reacting reactions reactive reactor reacts reader readily readiness reads reagan realised reality realm reap rear
reasons recall recalls recess reckon reddit reduces reducing reduction reed reel refuge refugee refugees refusal refuse refused
regard region regions regular reid rejection relation rely remainder remedy remind reminded reminds removed render rent rental
repay repeal repeated replay reportedly repost repression reps rescue rescued reserved reset reside resides residual resist
resolve resort resorts rested rests result resulted retail retired retiring reveal reward rica rich richer riches richie rick
rico ride riders riding rightly rights rigorous ringing rings ripe rise risking risks risky rite rivers roads roar roasted
robert robotic robots robust rocked rocket rocks rocky roland role rolled roller rolls ronald roofs rookie rooms root rotten
rouge roughly rounds rubbing ruin ruining ruling rush rushing rust sack sacked sacred sail sailed saints sake salary sale salon
salty salute salvage same sand sandwiches sang sank sans saturdays savage saving saying scaled scales scaling scam scan scanned
scanning scans scar scarce scare scares scars scattered scene scenes scheduled schedules schooling schools scope score scored
scorer scores scots scratch scream screaming screened screens screwed screws scroll sealed season seat seated seating seats
seattle secondly seconds secure seeded seeds seek seeking seem seemed seen sees seize seized selfie sell selling sells senate
send sending senses sensing sensor sept served server servers serving seth setting settings settle settlers settling severed
severity sewing sexist shade shades shadow shady shaft shaken shaking shale shame shane shape shaped shapes shaping share shared
shares sharing shark sharks sharon sharply shave shaved shed sheep sheet sheets shelf shell shells shield shifts shin shines
shining ship shipped shipping ships shirts shits shitty shocked shocking shocks shook shooter shooters shootings shop shoppers
shopping shops shore shores shorter shortest shortly shorts shots shoulders shouldnt shouldve shout shouted shouting shouts
shove show showed showers showing shows shrine shrink shut sibling sided sides sidney sigh sights signals signed signing silence
silk silver sims simulation sincere sing singer singers singing single singles sings sinister sinking sins site sits situations
sized sizes skiing skill skilled skills skinned skinny skins skipper skirt slack slap sleeping sleeps sleepy sleeve slender
slice sliced slices slick slides slight slim slipped slipping slips slopes sloppy slot slots slowed slowing smack smart smell
smelling smells smiling smith smiths smoke smoked smokers smooth smuggling snacks snake snakes snap snapped snaps snatch sneak
soak soaked soap sock sofa softer softly solar sold sole solved someones songs sonny sony soon sort sorts soul sounded sour
source sourced sources space spaces spam span spanning spared sparked sparks speaker speaking speaks spear spears spec species
specs speed speeding speeds speedy spelled spelling spending spends spices spider spies spike spikes spill spilled spin spinal
spine spiral spirit spirits splash spoiled spoken sponge spooky sport sporting sports spouses spread springer springs sprint
spying stab stabbed stable stack stacked staff staffing staged stages staging stain stained stairs stake stakes stalin stalking
stall stalls stamped stamps stan stance standing stands stanton star stare stared staring stark starred starring starter
starters starts startup starve starving stat stated states static stating station stations stats statue statues status stayed
steady steal stealing steals steam steep steering stefan stella stem stephen stepped stepping steps sterling stewart sticker
stickers stiff stint stirring stitch stitches stock stocks stokes stone stones stood stops storage store stored stores storey
stories storing storms story strain strains strait strand stranded strangely stranger strangers stray streak stream streams
streets strengthen strengths stress stretches stretching strict strike striker strikes striking string strings stripe striped
stripped stripping strips strive strokes stroll strong stronger struck stuart studying stuffed stunning stunt subsidies subsidy
subway suck sucker sucking sued suffer suggest suggests suit suits summary summed summers summit summon sundays sung sunk suns
superb supplier supply supplying support supporting supposed sure surely surgeon surrey survey sutton sway swearing sweat
sweater sweating sweden sweep sweeping sweetie sweets swept swift swim swing swinging swings swiss switch switches swore symptom
table tables tackle tackles tagged tale talent talents tales talked talkin talks tall taller tame tandem tank tanner tape tapes
tapped tapping target targets task tasked tasty tate taught tavern taxes teachers teaches teaching team teasing teen teenage
teenagers tells temper temple temples tempo tended tent tenth tents tenure terry tested testing text texting texts thai thames
thank thanked thanking thanks thatd thatll theatre theatres thee theirs them theme themed themes theo theorem theories theory
thereby thereof theresa these thesis theyd theyll theyre theyve thick thicker thieves thighs thin thirds thirst thorough though
thread threat threats thrive thriving throne thrones thrust thumbs thunder thus ticket tide tied ties tigers tighten tightly
tile tiles till timber timed timely timer tina tinder tipped tipping tire tires titled titles todays todd toilets token toledo
toll tonights tool topped topping torch tore torque tortured tory touched touches toughest towels tower towers towns toyota
traced traces tracing tracked tracker tracking tracks traded trading tragic trail trails trained trainer training trains trait
traits trap trauma travel travis tray treason treaties treating treatments tree trick tricks tried trim tripping troubled truce
trucks trusting tubes tucked tucker tune tuned tuning tunnel turbine turf turn turner twentieth twitch tying typed types tyre
ulster unclear undergo unlike unstable updated updates usable user uses usually vary vehicle vehicles veil vera verb verbal
verify viable vice viral visiting visual vital voiced voices voting wade wage wagner wait waited waiter waits waiver wakes
waking walked walker walking wall walnut walsh walt walter wander wang wanting ware warfare warmer warming warn warned warner
warning warp washing wasted wasting watched watches watching waters watt watts waved waves waving weakened weaker weakest
weaknesses wealth weapon wear wearing weave weaver weaving websites webster wedge weed weeds weekends weekly weigh weighed
weighing weighs weighted weights weir wellness wells wenger west weve whale whales whatsoever wheat wheeler wheels whenever
where whereby wheres wherever whilst whining whipped whiskey whisky whispers whistle whitney whoever whole whore wicked wide
widow width wiki wild wildly willie willing willis willow wills willy wind winding windows winds windsor wines winger winner
winners winning wins winters wired wires wiring wise wished wishes witch witches within wives woke wonder wong wood woody word
wording worked workers workouts works worlds worm worries worrying worthy wound wounds wrapped wraps wrestling wright write
writes writing writings yeah yearly yelled yelling yesterdays youthful youths
"""

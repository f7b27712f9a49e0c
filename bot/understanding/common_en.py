"""Common English words that lie near a field word in spelling and are none: they are never 'corrected'.

Chosen with the help of open word-frequency lists (wordfreq, data under CC BY-SA 4.0; spacy-lookups-data, MIT).
"""

COMMON = """
wets hisses bugle hiss hissing wetted menu lisp lisping burp burps burped burping
abbott able abnormal about absence absent absolute absolutely accent access accident accidental accidentally
accidents account accounted accounts acid acids acne acre acres acting adam adams added additions advisors aesthetic
aesthetics affair affects afraid after again against aged agency agent agents ages agnes agony agrees aided aims
aint airport airports airways alarm alarms alfred alice alike alive alleged allergic allergies allergy almond almost
alpine already alter altered always amazing amazingly amazon amid ample amusing angela angeles angels angle angles
ankle ankles anne annoying another answer answered answers anthem antibiotic antibiotics anxiety anymore anyone
anything anywhere appetite apple apples applied applies apply appointment appointments april area areas arena arent
argued arises arising armies arms army around arrest arrival arrive arrived arrives arts ashes asked asleep asteroid
asthma attach attack attacked attacker attacks attain attempt attempted attempts attract auburn august augusta aunt
autumn avid avoid avoided avoids awaiting away awful awhile awkward baba babe baby babys bach back backed backing
backs backup bacon badge badges badly bail bailey baked bakery baking balance balanced balances balcony bald bale
bali ball ballet balloon balloons ballot ballots ballroom balls banana bananas bang banging bank banker bankers
banking banks banned banning bans barack barber barbie bare barely bark barker barking barn barnes barney baron
barred barrel barrels bars bart barton basic basics basil basin basis basket bass bates bath bathing bathroom
bathrooms batman baton bats batter battery batting battle battles battling baxter beach beaches beacon beads beam
beams bean beans bear beard bearing bears beast beasts beat beaten beating beats beau beaver became because beck
become becomes bedford beds beef been beer bees before began begging begins behind behold beijing being beings
belief beliefs believe believed believer believers believes bell belong belt bench bending benign bent bert best
beth bets better betting between beware beyond bias biased bids bieber bigger biggest bike bikes bill billed billing
billions bills billy binding bing biological biology birthday births biscuits bitches bite bites bits bitter black
blackout blacks bladder blade blades blamed blames blaming blank blanket blankets blasting bleach bleed bleeding
blend blended blessed blessing blew bloc block blockade blocked blocking blocks blog blogging blogs bloke blond
blonde blood bloody bloom blow blowing blown blows blue blues blur blush blvd boarding boast boasts boat boats
bodily body bodys boeing boil boiled boiler boiling bolt bolton bolts bomber bombing bond bonded bonding bone bones
bong bonnie bonus bonuses boobs book booked booker booking books boom boost boot booth boots booty border bore
boring born borne boss bosses boston both bother bothered bothering bothers bottle bottles bottom bottoms bought
boulder bounce bouncing bounded bounds bounty bout bowel bowen bowl bowling bowls bows boxing boyd boyfriend boys
brace bracket brackets brad brains brake brakes branch branches branding brands brave braves breach bread break
breakfast breaking breaks breast breastfeeding breasts breath breathe breathing breed breeding breeds brenda brett
brew brewing brexit brick bricks bridal bridge briefing briggs bright brighter brighton brilliant bring bringing
brings brink brits broad broader broccoli brock broke broken broker brokers bronze brooke brooks brother brothers
brought brow brown browns browse browser browsing bruce bruh bruins brush brushed brushes brushing brutal brutally
bryant bryce bubble bubbles buck bucket buckets buckle bucks budget budgets buds buenos buffer buffet bugs building
buildings builds bull bullet bullying bump bumper bumps bundle bundles bunker burden burger burgers burgess buried
burn burned burner burning burns burnt burst bursts burton bury bush bushes bust busted butler butt butter button
buttons butts buying buys buzzing cabin cabinet cables cafe cage cain cake cakes calf call called caller calls calm
calmly calvin camden came camel camera camp camping camps campus canada cancel cancer cancers candidate candle candy
cane canned cannes cannon cannot canopy cans cant canton canvas canyon capable cape capped capsule capt capture
captures carbon card cardboard cards care cared career careers carey caring carl carlos carmen carpet carr carrie
carroll carrot carrots carry carrying cars carson cart cartel carter carved carving casa case cases casey cash
cashier casino cass cast caste casting castle catch catcher catches catching catering cattle caught cause caused
causes causing cave cease ceased cell cement cent cereal cerebral chains chairs chamber champ champs chance chances
chandler chang change changed changes changing channel channels chant chanting chap chapel chapter charge charged
charger chargers charges charging charles charming charter chase chased chasing chat chatting cheat cheated cheating
check checked checking checks cheek cheeks cheeky cheer cheering cheers cheese cheesy chef chelsea chemist chen
cherry chess chest chester chew chewing chick chicken chickens chicks chiefs child childhood children childrens
childs chile chili chill chilly chinas chinese chip chips chocolate choi choice choices choke choked choking
cholesterol choose choosing chop chopped chores chose chosen christ christian christians christmas chrome chuck
chuckle chunk church cindy cite city citys claimed claims clan clap clash clashes class classes classic classmates
classy clause claws clean cleaned cleaner cleaning cleansing clear cleared clearer clearing clearly clears clever
clicked clicking climbed clips cloak clocks clone close closed closely closer closes closest closet closing closure
cloth clothes clothing clouds clowns clutch coached coaching coal coast coaster coat coated coating coats coca cock
code codes coding coffee coffin coil coin coins coke cola cold colder cole collapse collapsed collar colleague
colleagues college collins colonel colony colorado colored coloring colors coloured colours colt colts coma comb
combat combine come comedy comes comet comfort comics coming command comment commented commit common commonly
commons commute comp compact compass compete competed complain complained complaint complaints complete completed
completely completes complex comply composed composer composite computer computers conceived conclusion concussion
conduct cone confessed confession confined confuse confused confusing confusion connect connor cons consciousness
constant constantly consulted consume consumed consumer consumers consuming contact contacted contacts contain
contained container contains contend content contest context continue continued continues contract contracts
contrast control controls conversion converted convict convince cook cooked cookie cookies cooking cool cooled
cooler cooling cooper cope copied copies coping copper cops copy copying coral cord core cores cork corn cornell
corner corners corp corpse cortex cory cosmos cost costa costing costly costs cottage cotton couch cough could
couldnt couldve counsel count counted counter counters countess counties counting country countrys counts county
couple coupled couples coupon courage courier course courses court courts cousin cousins cove covered covers covert
crab crack cracked cracking cracks crafted crafting crafts crank crap crappy crash crashed crashes crashing crater
craving crawling cream create created creating creek creeping creepy crest crew cricket crimes crimson cringe crises
crisis crisp critic critics crooked crop crosby crossed crossing crowded crowds crowned cruise cruising crunch crush
crushed crushing crust crying cunt curb cure cured curl curling curly curry curse cursed curtis curved curves
custody custom customer customers customs cutter cutting dads daily dairy daisy dale dame dams dancing dante dare
daring dark darker darling darn dart data date dated dates dating daughter daughters dave dawn days dead deadly deaf
deal dealer dean dear death deaths debate decade deceased december decides decision decisions decisive deck decks
decrease decreased decreases decree dedication deed deemed deeper deepest deeply deficit deficits define defines
defining definite definitely definitive degrees delicious deliver delivered delivers delivery demand demise denial
denied denies denis denise dennis dent dentist denver deny depressed depressing depression depth depths derive
desires desk detained develop developed developer develops devices devils dexter diagnosed diagnosis diarrhea dick
didnt died dies differ difference differences different differently differing difficult difficulties difficulty ding
dinner dinners dipped disappear disappeared disappearing disappears discomfort dishes disk disney dissolved distress
distressed dive diving division dock docs doctor doctoral doctors does doesnt dogs doin doing dome dominated
domination donald donate donated donating donation donations done dong donkey donor donors dont doom doomed door
doors dope dosage dose doses dots double doubled doubles doubts doug dove down downs dozens drafted drafting drafts
drag dragged dragging dragon dragons drain drained draining drains dramas drank draw drawer drawing drawn draws
dread dream dreamed dreams dressing drew dried drifting drilled drilling drills drink drinking drinks drip drive
driven driver drivers drives driving drone drones drop dropped dropping drops drought drove drown drowned drowning
drug drugs drum drunk drunken drying duck ducks duct dumping dunk duration dwelling dying each earl earlier earn
earned earning earnings earns ears earths ease easier easiest easily east easter eastern easy eaten eating eats eden
edge edged edges effect effects effort efforts eggs either eleanor elected elegant elephant elephants elevated
elevation elevator else elses email emailed emails emotion emotional emotionally emotions enable ended ending
endings ends endure endured enduring energy engaged engine enlarged enormous enough ensuing ensure entered enters
entire entirely entirety entity entries episode episodes esther evan evelyn even evening evenings evenly event
events eventual eventually ever everton every everybody everybodys everyone everyones everything everythings
everywhere evidence evident excess excessive exciting exclude excuse excuses execute executed executing exercise
exercised exercises exhaust exhausted exhausting exist existed existent existing exists exit exits expand expanded
expands expect expected expecting expects expelled expense expensive expertise expired exploded explored explosive
exported expose exposed extend extensive extinction extra extract extracted extraction extras extreme extremely eyed
eyes face faced faces facing fact factor fade faded fading fail failed failing fails faint fairly fairness fake fall
fallen falling falls false falsely fame famed family familys famine fantastic fare farmer farmers farming fart
farther fast faster fasting fate father fathers fatigue fats faults faulty favor fearing feast feat feather feathers
february feed feeding feeds feel feeling feelings feels fees feet fell fellas fellow felt female fences fencing
ferry fertile fest fever fewer fiat fibers fibre fields fierce fight fighter fighting fights figure figuring file
filed files filing fill filled filling fills film filmed filming films filter filtered filters filthy finale finally
finals finance financed finances finch find finding findings finds fine fined finely fines finest finger fingers
finish finished finishes finite finn finnish fire fired fires firing firm first fischer fish fisher fishing fist
fits fitted fitting five fixing fixture flag flames flashes flashing flat flats flavor flavors flavour flaw flaws
fled flee fleet flew flex flies flight flights flint flipped flipping flirting float floating flood flooded flooding
floods floor floors flop flour flow flower flowers flowing flown flows fluid fluids flyers flying foam foil fold
folding fond font food foods fool fooled fools foot football footballer footing forbes force forced forces forcing
ford fore forecast forecasts foremost forest forests forever forge forged forget forgetting forgot forgotten form
formal formally format formats formed former forming forrest fort forth forty fossil fought foul found founded
founder founding fountain four fourth framed frames framing france freaked freaking fred free freed freedom freely
freeze freezer freezing freight friday fridge fried friend friendly friends fries fringe frog frogs from front
fronts frost fruit fruits fucked fuel fueled fuels fulfil full fuller fully fund funded funding funeral fungus funky
funny furnished furry further fury future futures fuzzy gaining gale gamble game gamer gamers games gaming gaps gary
gate gates gather gave gaze gems gender gene general generally generals generate generic geneva gets gettin getting
gigantic gill ginger girl girlfriend girlfriends girls give given gives giving glad glance glass glasses glowing
glue gluten goal goals goats gods goes going gold golden golf gone gonna good goods google googles gore gotten grab
grace grad grade grades grain grains gram grammy grand granddaughter grande grandma grandpa grandson granny grant
granted grants grape grapes graph graphs grasp grass grave gravel graves gravity gray grease great greater greatly
greece greedy greene greet greeting greg grenade grew grey grill grilled grin grind ground grounded grounds group
grouped groups growing growth guided guiding gulf guns guts guys hack hacked hacker hackers hacking hadnt hail hair
haired hairs hairy hale half halfway hall hallway halo halt halted hamburg hammer hand handed handing handle handled
handler handles handling hands handy hang hanged hanging hangs hank hans hansen happen happened happening happens
happier harbor hard harden harder hardest hardly hardy hare harlem harley harm harmony harold harper hart harvest
harvey hasnt hassle hate hated haters hates hath hating hatred hats haunt haunted haunting havana have haven havent
having hawk hawkins hawks hayden hazard head headache headaches headed header heading heads headset heal healed
healing health healthy heap hear heard hearing hearings hears heart hearted hearts heat heated heater heath heather
heating heaven heavenly heavens heavier heavily heavy hebrew heck heel heels height heir held hell hello helm help
helped helping helps herald herb herd here hereby herein heres hero heroes hers herself hicks hide hides hiding high
higher highly highs hike hiking hill hills himself hind hints hips hire hiring historic history hits hitting hive
hobbies hobby hold holden holder holding holds hole holmes holt holy homage home homer homes homo hong honors honour
honours hood hooked hope hoped hopes hoping hopkins horace horrible horrific horse horses hose hospital hospitals
hosting hour hourly hours house housed houses housing howard howe huge hugely hugh hughes hugo hugs hull hung
hungary hunger hungry hunt hunted hunter hunters hunting hurdles hurry hurt hurting hurts husband husbands hype
hypothetical idea ideal ideals ideas imagine imagined imaging immediate immediately impact impacted impacts impaired
imported impose imposed imposing impossible improper improve improved improvement improvements improves improving
inability inception inch inches incidence incident incidents indicted indoor indoors induction infant infantry
infants infected infection infections infectious inflammation inflated inflation inflicted info informed infrared
inherent injection injections inland inmate insane insects inserted inside insider insights insist insisted insists
inspection inspire instability instance instant instead instruction instructional instructions instructors
insufficient insulin insult insulted insulting insults intact intake intend intended intends intense intensely
intensive intent intention interact intercept interest intern internal internally internet interpret interview
interviewed interviewer interviews into intro invade invaded invalid invent invention invested invite invited iphone
isnt isolated issue issued issues itself itunes jacket jackie jacobs jaguar jailed jane january jaws jelly jeremy
jerk jerry jersey jobs john johnny johns johnson joining joins joints joking jolly judged judging judy juice juicy
july jump jumped jumper jumps june jung jungle junk jury just justice justin keen keep keeper keeping keeps keller
kent kept kernel kettle kicked kicking kidding kids kill killed killer killers killing killings kills kinds kiss
kissed kissing kits knee knees knew knicks knife knight knights knit knives knocked knocks knot knots know known
knows knox label labeled labels labs lace lack lacked lacking ladder lads lake lakers lamb lame lamp lamps lana
lance land landed lane lanes lang laps laptop laptops larger larry laser lasers last lasted lasting lastly lasts
late lately later latest latter laugh laughed laughing laughs laughter launch launched launching laurel lawful lawn
laws lawson lawyer lawyers layer layers laying lays leader leading leads league leaked leaking leaning learning
lease leased leasing least leather leave leaves leaving lecture left lego legs lender lending lens lent less lest
lets letter letting lettuce level levels lever liable lick licking lies life lifes lift lifted lifting lifts light
lighter lighting lightly lights like liked likely likes liking lima limb limbs lime line linear lined linen liner
lines lineup ling lining link linked linking links lionel lips liquid liquor lisbon list listed listens listing lite
litter little live lived lively liver lives living load loaded loading loads loans locals located lock locke locked
locker locking locks lodge loft logan logged logging logic logs lois lone long longer longest longing look looked
lookin looking looks loop loose loosely lords lose losers loses losing loss losses lost lots lotus louder lounge
love loves loving lowest luck lucky lucy luke lumber lump lunch lung lungs lust lying lynch machine machinery
machines mack madame madden made maid maiden mail mailed mailing mails main maine mainly make maker makers makes
makeup making male males mali mall manage managed manager managers manages managing mandate mandated manga mango
manila mankind manly mann manning manny mans mantle many mapping marathon marble marc marcel march marched marching
marco marcus mare margin marina marine marion mark marked marker markers market markets marking markings marks
marrow marry marrying mars marsh mart martha martin marty marvel marvin marx mary marys mash mask masked masks mass
massage masses massive massively mast master match matches matching mate mates math mating mats matt matte matter
mature maze meal meals mean meaning meanings means meant measures meat medal medals mediation medicare medication
medications medicinal medicine medicines meditation meds meet meeting meetings meets melody melt melting member
members memoir memoirs memory mens mental mention mentioned mentions mentor mere merger merits mesh mess message
messages messed messing meta metabolic metal metallic metals mets mice mick mickey microwave midway might mighty
mike mild mile miley milk milky mill miller milo mind minded minds mine miner miners mines ming mini mining mint
misery miss missed misses missile missing mission missions mist mistake mistaken mistakes mister mistress misuse
mixed mixes mixing mixture mocking mode models modes modest module moist moisture mold mole molly moment moments
momentum moms monday money monkey monkeys mono monroe monte month monthly months monty monument monuments mood moody
moon moore morale more mormon morning mornings moron morons morse mortal morton moses mosquito moss most mostly
mother mothers motion motions motive motives motors mound mountain mountains mounting mounts mourning mouth mouths
move moved movement movements moves movie movies moving much munich muscle muscles muse must mute myself nail nailed
nails name named namely names nana naples narrow narrowly nasa nate nathan nausea neal near nearby nearly neat neck
need needed needing needle needles needless needs needy negative negatively neighbor neighbors neighbour neighbours
neither nephew nerd nerves nervous ness nest nets never newark newer newest news next nice nicely nicest nick nickel
nicola nicole niece night nights nike nile nina nine ninety nobel node noel noise noises noisy none nonsense noodles
nope normal normally norman norway nose note noted notes nothing notice noticed notices noticing notified notify
noting notion notions notre novel novels novelty november nowhere numb number numbered numbers nurse nursery nurses
nuts obstacle obstacles obstruction obvious obviously october offence offend office officer officers offices offline
often okay older omitted once ones onion onions only oops open opened opener opening openings openly opens operating
operation operational operations operative operator oracle oral orange oranges order ordered orders other others
ouch ounce ounces ours outlaw outlet outline outs outside outsider outsiders outta oval oven over overcome
overcoming overdose overly overs oversee owen owes oxygen pace paced pack package packaged packages packaging packed
packers packet packets packing packs pact pads page pages paid paige pain painful pains paint painted painter
painters painting paintings paints pair paired pairing pairs palace pale palette palm palmer pals pancakes panic
panther panthers panties paper papers para parade parcel parent parental parenting parents park parked parker
parking parole part partial parties partly partner partnered partners parts party partys pass passage passages
passed passes passing passion passions passive passport password passwords past pasta paste pastor pastry patch
patches patent patents path pathway patient patients patty pavement pawn paying payment payments pays peace peach
peak peanut peanuts pearl pearls pearson peas peer pending pens pension people peoples period periodic periods
persian person persona personal persons pest peterson petty peyton pharmacy phone phones photo photos pick picked
picking pickup pics piece pieces pierce pierre pies pigs pike pile piles pill pillar pillars pillow pills pilots
pinch pine pineapple ping pink pinned pins pint pipe piper pipes piss pissed pissing pitch pitched pitcher pitches
pitching pits pizza placed places placing plague plain plains plan plane planes planet planets planned planner
planning plans plant planted planting plants plaque plaster plate plates play played player playing pleasing
pleasure pledged plug plum plumbing plus pocket poet poetry point pointed pointer pointing pointless points poke
poker pole polish polished poll polling polls polo pool pools poop poor poorer poorly popcorn pope popped popping
pops pork porn port porter pose posed posing position positive positively possible possibly post postal posted
poster posting posts potato potatoes potent pots potter pottery pounding pounds pour poured pouring powder power
powers praise praised praises praising preach prefers pregnancy pregnant preschool prescribed present presents
pressing pressure pressures presume pretend pretty prevalent prevent prevented prevents previous previously price
priced prices prick pride priest prime prince princes princess print printed printer printers printing prints prize
prizes problem problems proceed process processing produce produced producer producers produces product products
programs progress progressed progression progressive prone prop proper properly property props pros proven proves
provide published puck pudding puff pull pulled pulling pulls pulp pumped pumping pumpkin punish punished punk pure
purely purge purple purpose purposes purse pursue push pushed pushes pushing putting puzzle quebec question
questioned questions queue quick quicker quickly quiet quietly quirky quit quite quitting quiz quoting race rachel
racing rack raging raid rail rain raining rains rainy raise raised raises raising rally ramsey rang ranged ranger
ranges ranging ranked ranking raped rapid rapidly rapids raping rapist rapper rarely rash rather rating ratings
razor reach reached reaches reaching react reacted reacting reaction reactions reactive reactor reacts read reader
readily readiness reading reads ready reagan real realised reality really realm reap rear reason reasons recall
recalls recess reckon recover reddit reduces reducing reduction reed reel refuge refugee refugees refusal refuse
refused refuses refusing regain regard region regions regular regularly reid rejection relate relating relation
relax relaxed relay release released releases relieve rely relying remain remainder remained remaining remains
remarks remedy remember remembered remembers remind reminded reminder reminding reminds remote removal remove
removed removes render rent rental renting repairing repairs repay repeal repeated repeatedly replay reply
reportedly repost repression reps rescue rescued reserved reset reside resident resides residing residual residue
resign resist resisting resolve resolved resort resorts respiratory responding rest rested resting restoring
restrict restricted rests result resulted resulting results retail retain retained retaining retains retarded
retired retiring return returned returns reveal reverse revived reward ribs rica rice rich richer riches richie rick
rico ride riders rides riding rifles rigged right rightly rights rigorous ring ringing rings ripe ripped ripping
rise risen rises rising risk risking risks risky rite rivers road roads roar roast roasted robert robot robotic
robots robust rock rocked rocket rocking rocks rocky roland role roll rolled roller rolls ronald roof roofs rookie
room roommate rooms root rose roses rotten rouge rough roughly round rounded rounds route routes rubbing rugged ruin
ruining ruins ruling running runs rush rushed rushing russ rust rusty ruth sack sacked sacred said sail sailed
saints sake salad salary sale salmon salon salt salty salute salvage same sanctuary sand sandwich sandwiches sang
sank sans saturday saturdays sausage savage saving saying says scale scaled scales scaling scam scan scanned
scanning scans scar scarce scare scared scares scarf scarlet scars scary scattered scene scenes schedule scheduled
schedules school schooling schools scope score scored scorer scores scots scrap scrapped scratch scratching scream
screamed screaming screams screen screened screening screens screwed screws script scroll scum seal sealed sean seas
season seat seated seating seats seattle second secondly seconds sect sections secure seed seeded seeds seeing seek
seeking seem seemed seems seen sees seize seized seizure seizures self selfie sell selling sells senate send sending
sense senses sensing sensor sent sentence sentenced sentences sept september sequence sequences served server
servers serving seth sets setting settings settle settled settlers settling several severe severed severely severity
sewing sexist shade shades shadow shady shaft shake shaken shakes shaking shale shallow shame shane shape shaped
shapes shaping share shared shares sharing shark sharks sharon sharp sharply shattered shave shaved shaving shed
sheep sheet sheets shelf shell shells shes shield shift shifted shifting shifts shin shines shining ship shipped
shipping ships shirt shirts shit shits shitty shock shocked shocking shocks shoe shoes shook shoot shooter shooters
shooting shootings shoots shop shoppers shopping shops shore shores short shorter shortest shortly shorts shot shots
should shoulder shoulders shouldnt shouldve shout shouted shouting shouts shove show showed shower showers showing
shows shrimp shrine shrink shut shutting sibling siblings sick side sided sides sidney sigh sights sign signal
signals signed signing signs silence silk silver sims simulation since sincere sing singer singers singing single
singles sings sinister sink sinking sins sister sisters site sites sits sitting situation situations size sized
sizes skiing skill skilled skills skin skinned skinny skins skip skipped skipper skipping skirt slack slap slapped
slaughter slaves sleep sleeping sleeps sleepy sleeve slender slept slice sliced slices slick slid slide slides
sliding slight slightly slim slip slipped slippery slipping slips slopes sloppy slot slots slow slowed slower
slowing slowly slut smack small smart smell smelling smells smiling smith smiths smoke smoked smokers smoking smooth
smoothly smuggling snack snacks snake snakes snap snapped snaps snatch sneak snow soak soaked soap sock soda sofa
sofia soft softer softly solar sold sole solid solitary solved some somebody someone someones something song songs
sonny sons sony soon sooner sore sort sorted sorts soul souls sound sounded sounding sounds soup sour source sourced
sources space spaces spaghetti spam span spanning spare spared sparked sparks speak speaker speaking speaks spear
spears spec species specs speed speeding speeds speedy spell spelled spelling spells spending spends spices spider
spies spike spikes spill spilled spin spinal spine spinning spins spiral spirit spirits spit spite splash split
splitting spoiled spoke spoken sponge spooky spoon sport sporting sports spot spotify spots spotted spouse spouses
spray spread spreading spreads spring springer springs sprint spying squads squares stab stabbed stabbing stable
stack stacked staff staffing staged stages staging stain stained stairs stake stakes stalin stalking stall stalls
stamped stamps stan stance stand standing stands stanton star stare stared staring stark starred starring stars
start started starter starters starting starts startup starve starving stat stated states static stating station
stations stats statue statues status stay stayed staying stays steady steak steal stealing steals steam steep
steering stefan stella stem step stephen stepped stepping steps sterling steroids stewart stick sticker stickers
sticking sticks sticky stiff still sting stint stirring stitch stitches stock stocks stoke stokes stole stolen
stomach stone stones stood stool stop stopped stopping stops storage store stored stores storey stories storing
storm storms story stove straight strain strained strains strait strand stranded strange strangely stranger
strangers strap straw stray streak stream streaming streams street streets strength strengthen strengths stress
stretches stretching strict strike striker strikes striking string strings stripe striped stripes stripped stripping
strips strive stroke strokes stroll strong stronger strongly struck struggle struggled struggles struggling stuart
stuck studied studio studying stuff stuffed stunned stunning stunt stupid styled subsidies subsidy subway such suck
sucked sucker sucking sucks sudden suddenly sued suffer suffering sugar suggest suggested suggests suicidal suicide
suit suits summary summed summer summers summit summon sunday sundays sung sunk sunny suns super superb supper
supplier supply supplying support supporting suppose supposed suppression sure surely surgeon surgery surrey survey
surviving sushi sutton swallow swallowed sway swearing sweat sweater sweating sweaty sweden sweep sweeping sweet
sweetie sweets swell swelling swept swift swim swimming swing swinging swings swiss switch switched switches swollen
swords swore symptom symptoms syrup table tables tablet tablets tackle tackles taco tagged take taken takes taking
tale talent talents tales talk talked talkin talking talks tall taller tame tandem tank tanner tape tapes tapped
tapping target targets task tasked taste tasted tastes tasting tasty tate taught tavern taxes taxi teacher teachers
teaches teaching team teams tear tearing tears teasing teen teenage teenager teenagers teeth tell telling tells temp
temper temperature temperatures temple temples tempo tenants tended tender tennis tens tent tenth tents tenure
terrible terribly terry test tested testing tests texans text texting texts thai thames than thank thanked thanking
thanks that thatd thatll thats theatre theatres thee their theirs them theme themed themes themselves then theo
theorem theories theory there thereby thereof theres theresa these thesis they theyd theyll theyre theyve thick
thicker thieves thigh thighs thin thing things think thinking thinks thinner thirds thirst this thorough though
thought thoughts thread threat threaten threats three threw thrive thriving throat throne thrones through throw
throwing thrown throws thrust thugs thumb thumbs thunder thursday thus tick ticket tide tied ties tigers tight
tighten tighter tightly tile tiles till tilt timber time timed timely timer times timing tina tinder tipped tipping
tire tired tires tissue tissues titled titles tits toast today todays todd toddler toes toilet toilets token tokens
told toledo tolerance tolerant tolerate tolerated toll tone tones tongue toni tonight tonights tonnes tons tony took
tool tooth topped topping tops torch tore tories torn torque torres torture tortured tory toss totally touch touched
touches tough tougher toughest touring tours towel towels tower towers town towns toyota toys traced traces tracing
track tracked tracker tracking tracks tracy traded trader trades trading traffic tragic trail trails train trained
trainer training trains trait traits trap trapped trauma travel traveled traveler travels travis tray treason
treated treaties treating treatment treatments treats treaty tree trees trials tribes trick tricks tricky tried
tries trim triple tripping trips trouble troubled troubles troy truce truck trucks true trunk trusted trusting
trying tube tubes tuck tucked tucker tuesday tuna tune tuned tunes tuning tunnel turbine turf turkey turn turned
turner turning twentieth twice twin twins twitch tying type typed types tyre uber ulster unable uncle unclear
uncomfortable unconscious under undergo underground underneath unlike unreal unrest unstable update updated updates
usable used user uses using usual usually vanished vary vegetable vegetables vehicle vehicles veil velvet vera verb
verbal verify very viable vice view viewed viewer views viral visiting visual vital vitamin vitamins voice voiced
voices vomit vomiting voting wade wage wagner waist wait waited waiter waiting waits waiver wake wakes waking walk
walked walker walking wall wallet walls walnut walsh walt walter wander wang wanna want wanted wanting wants wards
ware warfare warmer warming warn warned warner warning warp wash washed washing wasnt wasted wasting watch watched
watches watching water waters watkins watt watts wave waved waves waving weak weakened weaker weakest weakness
weaknesses wealth weapon wear wearing weather weave weaver weaving website websites webster wedding weddings wedge
wednesday weed weeds week weekend weekends weekly weeks weigh weighed weighing weighs weight weighted weights weir
weird welding well wellness wells wenger went were werent west weve whale whales what whatever whats whatsoever
wheat wheel wheeler wheels when whenever where whereas whereby wherein wheres wherever which while whilst whining
whipped whiskey whisky whisper whispers whistle white whites whitney whoever whole wholly whore whose whove wicked
wide widow width wife wifes wifi wiki wild wildly will willie willing willis willow wills willy wind winding window
windows winds windsor wine wines wing winger wings winner winners winning wins winter winters wipe wiped wire wired
wires wiring wisdom wise wish wished wishes wishing witch witches with within without wives woke women womens wonder
wong wont wood wooden woods woody wool word wording words wore work worked worker workers working workout workouts
works world worlds worm worms worn worried worries worry worrying worse worst worth worthy would wouldnt wound
wounds woven wrap wrapped wraps wrestling wright wrist write writer writes writing writings written wrong yeah year
yearly years yeast yell yelled yelling yellow yesterday yesterdays yogurt youthful youths zero zone zones
aboard abort accord across action addons agenda agreed aids airsoft allied among angled apes archive arcs armed assed
aware axes badger baffled bailed baiting bake band bane banter barb barring baseball bash bashing batch batches
bearded beards beater becuase beep begs bells benched bender biases bigots bikers biking bind binder bios bitten
blasted blazing blending blends blinded blinking blurred blurry blushes bodies boggling bogus bombed bonds boosted
boosters boosts booted booting bots boxed boxers boxes bragging braking brat brewed bronies browsers buffed bugged
bugging bulking bulls bummed bummer bumped bumping bundled bunk buns busting butcher bytes calling calming calves carb
cares carts caso caster casters casual causal chants char charts cheats cheered chem chime choir chopping chops chore
chubby chugged clans clipping clog clones clumsy coach coils coined combos comcast comme commuter compile comps concur
converse convert converting converts convey cooker coop cords cram cramped crates crazier crazies crease creed creeps
cringed crippled crits crock cropped cruelty crushes crutch cuddle cures curls cursing curvy cutest danger dank dans
daunting dearly decent deciding defend deities delusion depend diary diet diff digress dining dipping dips dire direct
doable docking dodged dodging doge dollar donde dota doubting dues dumber dyed edgy element empathy employ engage ents
epitome equating erased exes exiting extended faked faking farmed fave feats fetched fiasco finder firewall flairs
flak flakes flaming flap flare flares flashed flawed flea fleshed flimsy flips floats flops fodder folds fooling
forearm formatting fracking frame fret frowned frying funnel futile gallon gambling gank ganked ganking garner gearing
gens gifting giggling gloss googled googling govt grabbing grabs grader grading grads grams grasping greatest grinding
grins gripe grips gross grouping guesses guides guilds gulped gyms hace halls halves hanger harmful harsher harshly
haste hatched hatching hateful helt hemp herring hiatus hinder hinges hires hoarding hoodie hopped hopping hops horde
hordes host hosted hotter however hugged hugging hulk hundred hunts hurdle icon importing inane incase infect infested
infront ingame inline innate insanely insure inverse invites jacked jamming jams jarring jars jest junkie kicker
kidney knob lagging laner laners laning largely lash lashes lather lead leaders leagues leaned leans leap leaps learn
learns lend lenses lesser limits lion liter loaf loan lobbies locally lonely loops loosing loot looting loudly lover
lovers lows lurk mace macros mage mages mais mana manned manner mashed maxed maxing mech mellow melts merch merging
messy mics midget mids mildly mined mislead misread moan moaning mobile mobs mocked modded modders modding mods moot
moreso mounted mumble mustard muster mutation muzzle nagging nano neatly neon nerds nerfed nether niet nodes noses
noun novice oath oblivious oder onwards opinions pacing paddle painless panicked pans parece parity parrot parse
partake parte particle partying pasted patrol pats paused pauses paws payer peaks pedals peeling pencils perk permit
pets phrasing pickles pierced pirating pitchers pixels place placement plat players plays please pleased pleases plots
plotting plunge pods poking poles ponder ported ports potion potions prayer prefer prequel prey pricing probes
prosecco proved proving prowess puddle punched puns pursued puts queens queries quests quid quieter quirks quotes
rabid raffle raided raiding rambling ramp ranting rapping raven recurring reds reduce refined reflects regarding
regards rejected relapse relaxing reload reloading rematch renders rented repaired repeats replied replies reposting
reread resent resets resetting resorting respects resume resumes rethink retina retire reuse review revoked revolve
revolver revolves rewarding rewards rewatch rider rigs rims riot roach roam roaming robbed robbing rofl roles rooting
roster rotating rotting rounding routing rubs ruby rune runes safari sane saturation scammed scams scaring scheme
science scouting screwing scripted scripting scrubs searching seeming seller selves senior sentry serves shading
shadows shall shamed shaming sheltered shill shills shopped shoved shovel shoving showering shrooms shudder sich sighs
sind sinful sinks sizing skew skewed skim skimmed skit slam slamming slapping slash slayer slew slider sling slurp
slurped sluts smacked smarter smashing smiles smiley snapping snare snarky sneaking snob snuck sobbing social socket
solves solving sono soothing sorting spacing spammed spammer spamming spanking spawned spawning spawns sped spoil
spoiling spotting sprayed spraying sprinting sprite spun spurs squats squishy stalk stalker stamina stances staple
staples steaming stocked stocking stoked stomp stomped stomping strapped straps strat stud studs sturdy styling subbed
subpar suburb succeed suing suited surfing swag swapped swapping swayed swung tack tackled tackling tacos tact tagging
tainted tanking tanks tasks taxing teased teaser terror tester thou threaded thrift thrilled ticking ticks tint tinted
tiring toggle toke toon tout trashed trashy tricked trimmed trio trolled trolls tropes trough turret tweaking tweets
twisting twists typo undead unions unusable uphold upvote vending version vill visuals voicing wager wand wandering
warmed warped washes wastes weaken wether whey whine whipping whomever wich wielding wierd wingers wink wipes worded
yells zerg zoomed
slammed slamming matron
"""

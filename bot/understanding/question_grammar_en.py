"""English grammar of the common questions: whole forms over plain words (no accents, no apostrophes, no marks)."""

from __future__ import annotations

EN_POLITE = (r"hi there|hi|hello there|hello|hey|morning|good morning|good evening|good afternoon|evening|please|"
             r"pls|plz|"
             r"thank you so much|thank you|thanks so much|thanks a lot|thanks in advance|many thanks|thanks|thx|ty|ta|"
             r"cheers|sorry to bother you|sorry to bother|sorry to ask|sorry|excuse me|a quick question|quick question|"
             r"quick one|quick q|just a question|i have a question|ive got a question|got a question|"
             r"just a quick question|another question|one more question|"
             r"one question|a question|question|silly question|stupid question|just wondering|"
             r"i was wondering|was wondering|wondering|just checking|just to check|can i ask|may i ask|can you tell me|"
             r"could you tell me|can someone tell me|do you know|i wanted to ask|wanted to ask|i wanted to know|"
             r"wanted to know|just wanted to ask|just wanted to know|i need to know|remind me|please tell me|"
             r"ok|okay|ok so|so|also|and|oh|um|doc|doctor|nurse|team|again sorry|x")

_DAY = (r"(?:today|tonight|this (?:morning|evening|afternoon|once|time)|just (?:today|tonight|this once|once)|"
        r"for (?:today|tonight|once)|once)")
_TIME = r"(?:[01]?\d|2[0-4])(?:[:.][0-5]\d)?(?: ?(?:am|pm|a m|p m|oclock|o clock|ish))?"
_MEDICINE = (r"(?:dose|doses|medicine|medication|meds|med|budesonide|fluticasone|slurry|shake|mix|mixture|ampoules?|"
             r"ampules?|vials?|inhaler|puffs?|spray|steroid|pouch|foil)")
_PART = r"(?:morning|evening|night|nightly|bedtime|daily|first|second|next)"
_IT = (rf"(?:it|this|that|them|these|(?:my|the|our|his|her|this|todays|tonights|this mornings|this evenings)"
       rf"(?: {_PART})? {_MEDICINE})")
_TAKING = rf"(?:i take {_IT}|taking {_IT}|i have {_IT}|having {_IT}|{_IT})"
_MEAL = (r"(?:food|foods|a meal|meals|my meal|my food|eating|breakfast|my breakfast|lunch|my lunch|dinner|my dinner|"
         r"supper|tea|his (?:breakfast|lunch|dinner|tea)|her (?:breakfast|lunch|dinner|tea)|a snack|snacks)")
_SOME = (r"(?:(?:a|an|some|any|my|his|her|the|a little|a bit of|a sip of|sips of|a few sips of|a small sip of|a cup of|"
         r"a mug of|a glass of|a drink of|just|just a sip of|a small) )*")
_DRINK = r"(?:water|tea|coffee|coffees|juice|milk|squash|cup of tea|cup of coffee|cuppa|drink|sip|soda|lemonade)"
_NIBBLE = r"(?:gum|chewing gum|a sweet|sweets|a mint|mints|candy)"
_WAIT = (r"(?:half hour|half an hour|30 min|30 mins|30 minutes|thirty minutes|half hour wait|30 min wait|"
         r"30 minute wait|waiting time|wait|window|waiting window)")
_AFTER = (rf"(?:(?:straight |right |soon |just )?after(?:wards|ward)?(?: {_TAKING})?|straight away|right away|"
          rf"(?:in|during|within|inside) (?:the|that|my) {_WAIT}|while (?:i wait|i am waiting|im waiting|waiting))")
_NOW = rf"(?: (?:now|yet|already|right now|again|at this point|{_AFTER}))*"
_BEFORE = rf"(?:first|before(?:hand)?(?: {_TAKING})?|(?:just |right )before {_TAKING})"
_WHEN = r"(?: (?:in the (?:morning|evening|mornings|evenings)|at night|at bedtime|at breakfast|today|tonight))?"
_ALCOHOL = r"(?:alcohol|beers?|wine|wines|cocktails?|cider|pint|pints|glass of wine|glass of beer)"
_FEW = r"(?:(?:a|an|some|any|the|my|one|a couple of|a glass of|the odd|a small|a little|bit of) )*"
_TABLETS = r"(?:tablets?|pills?|meds|medicines?|medication|vitamins?)"
_VITAMINS = r"(?:tablets?|pills?|vitamins?|vitamin d|multivitamins?|vitamin tablets?)"
_SPAN = r"(?:(?:a (?:bit|little|little bit)|an hour|one hour|1 hour|half an hour|an hour or two|two hours|2 hours|" \
        r"a couple of hours|\d\d? (?:min|mins|minutes)) )?"


def english(parent: bool) -> dict[str, tuple[str, ...]]:
    """id -> whole forms. A parent's 'he', 'she' and 'my daughter' are the patient."""
    who = r"(?:i|we|he|she|they|my (?:son|daughter|child|kid|boy|girl|little one))" if parent else r"(?:i|we)"
    may = (rf"(?:(?:can|could|may|should|shall|must) {who}(?: just)?|(?:am|are|is) {who} "
           rf"(?:allowed|ok|okay|fine|alright|good|supposed|meant)(?: to)?|(?:is it|would it be|its|is it also) "
           rf"(?:ok|okay|fine|alright|all right|allowed|possible|a problem|good|too soon|too early)(?: for {who} to| "
           rf"if {who}| to| that "
           rf"{who})?|(?:ok|okay|fine|alright|all right) (?:to|if {who}|for {who} to)|do(?:es)? {who}(?: (?:have|need) "
           rf"to)?|(?:how|what) about if {who})")
    teeth = r"(?:brush|clean|brushing|cleaning)(?: (?:(?:my|his|her|our|the|their) )?teeth)?"
    when = (rf"(?:when|how soon|how soon {_AFTER}|how long {_AFTER}|what time|at what time|after how long|"
            rf"after how many minutes)")
    ask_when = (rf"(?:{when} (?:can|may|could|should|do|am|is|are) {who}(?: allowed to| ok to)?|(?:how long|how much "
                rf"longer|how many minutes|how much time)(?: is it)?(?: (?:until|till|til|before)) {who}(?: can| may|"
                rf" could| (?:am|is|are) allowed to)?)")
    long_wait = rf"how long (?:do|should|must|does) {who}(?: (?:have|need) to)?(?: wait)?"
    eat = rf"(?:eat|drink|eat and drink|eat or drink|(?:have|eat) (?:something|anything|{_MEAL}))"
    miss = rf"(?:miss|missed|forget|forgot)(?: to take)? (?:one|a dose|{_IT})"
    take = r"(?:take|have|do|drink|give(?: (?:him|her))?)"
    moved = rf"(?:take|have|do|move|delay|push|shift|give(?: (?:him|her))?) {_IT}(?: (?:back|forward))?"
    return {
        "coffee_before": (
            rf"{may} (?:have|drink|eat|get)(?: (?:{_SOME}{_DRINK}|{_MEAL}|something|anything))? {_BEFORE}{_WHEN}",
            rf"{may} (?:have|drink|eat)(?: (?:{_SOME}{_DRINK}|{_MEAL}))? (?:before or after|first or after)"
            rf"(?: {_TAKING})?",
            rf"{may} (?:have|drink|eat)(?: (?:{_SOME}{_DRINK}|{_MEAL}))? first or (?:do|should) {who} {take} {_IT} "
            rf"first",
            rf"{may} {_SOME}{_DRINK} {_BEFORE}",
            rf"(?:is |are )?{_SOME}(?:{_DRINK}|{_MEAL}) (?:ok|okay|fine|allowed|alright) {_BEFORE}{_WHEN}",
            rf"(?:do|should|does) {who} (?:eat|drink|have {_MEAL}) (?:before|first)(?: {_TAKING})?",
            rf"{_DRINK} before or after(?: {_TAKING})?",
        ),
        "with_food": (
            rf"(?:{may}|(?:when|how) (?:do|should) {who}) {take} {_IT} (?:with|after|without|with or without|before or "
            rf"after|after or before|with or after) {_MEAL}(?: or (?:without|not|before|after|on an empty stomach))?",
            rf"{may} {take} {_IT} (?:on|with) (?:an empty|a full) stomach",
            rf"(?:is|are|does|do) {_IT} (?:meant|supposed|need|have|to be|best|better)?(?: to)?(?: be)?(?: taken| "
            rf"had)? (?:with|after|without|with or without|on|before or after) (?:{_MEAL}|an empty stomach|a full "
            rf"stomach)(?: or (?:without|not|after|before))?",
            rf"(?:should|must) {_IT} be (?:taken|had) (?:with|after|without|with or without|before or after|on) "
            rf"(?:{_MEAL}|an empty stomach|a full stomach)(?: or (?:without|not|after|before))?",
        ),
        "drink_water": (
            rf"{may} (?:drink|sip|have|get) {_SOME}{_DRINK}{_NOW}",
            rf"{ask_when} (?:drink|have|sip) {_SOME}{_DRINK}{_NOW}", rf"{may} for {_SOME}{_DRINK}{_NOW}",
            rf"{may} drink(?: (?:something|anything|stuff))?{_NOW}",
            rf"{may} have (?:something|anything) to drink{_NOW}",
            rf"{may} (?:chew|have|suck|suck on) {_SOME}{_NIBBLE}{_NOW}",
            rf"(?:is|are) {_SOME}(?:{_DRINK}|{_NIBBLE}) (?:ok|okay|fine|allowed|alright){_NOW}",
            rf"{_SOME}(?:{_DRINK}|{_NIBBLE}) (?:ok|okay|fine|allowed|alright){_NOW}",
        ),
        "when_eat": (
            rf"{ask_when} {eat}{_NOW}{_WHEN}",
            rf"(?:do|must|should) {who}(?: (?:have|need) to)? wait (?:the |for the |for )?(?:full |whole )?{_WAIT} "
            rf"(?:before|to) (?:{eat}|eating|drinking|eating or drinking)",
            rf"{long_wait} (?:to|before|until|till|for)(?: {who})?(?: can)? "
            rf"(?:{eat}|eating|drinking|eating or drinking|{_MEAL}){_NOW}",
            rf"{long_wait} wait{_NOW}", rf"how long (?:until|till|til|before|to) (?:{_MEAL}|food)",
            rf"how long is the {_WAIT}", rf"{may} eat(?: (?:something|anything|{_MEAL}))?{_NOW}",
            rf"{may} have {_MEAL}{_NOW}",
        ),
        "why_wait": (
            rf"why (?:do|must|should|does) {who}(?: (?:have|need) to)? wait(?: (?:for )?(?:the )?{_WAIT})?"
            rf"(?: (?:before|to) (?:eating|eat|drinking|drink))?{_NOW}",
        ),
        "brush_first": (
            rf"{may} {teeth} {_BEFORE}", rf"{may} {teeth} (?:before or after)(?: {_TAKING})?",
        ),
        "brush_teeth": (
            rf"{may} {teeth}{_NOW}",
            rf"{ask_when} {teeth}{_NOW}", rf"{long_wait}(?: before| until| till| to)? {teeth}{_NOW}",
            rf"{may} use mouthwash{_NOW}",
        ),
        "rinse_how": (
            rf"(?:how|what|when|why|with what) (?:do|should|must|does) {who}(?: (?:have|need) to)? rinse(?: with)?"
            rf"(?: (?:my|his|her|the) mouth)?(?: out)?(?: with)?{_NOW}",
        ),
        "missed_dose": (
            rf"what(?:s the rule)? (?:if|happens if|happens when|do {who} do if|should {who} do if|to do if) {who} "
            rf"{miss}",
            rf"if {who} {miss} what (?:do|should) {who} do",
            rf"what (?:do|should) {who} do (?:about|with) a missed dose",
        ),
        "move_once": (
            rf"{may} {moved} {_SPAN}(?:later|earlier|late|early|sooner)(?: (?:on )?{_DAY})?"
            rf"(?: (?:than usual|instead))?",
            rf"{may} {moved} {_SPAN}(?:later|earlier|late|early|sooner) (?:on )?{_DAY}",
            rf"{may} {moved}(?: {_DAY})? (?:at|around|about|to|at about) {_TIME}(?: {_DAY})?(?: instead)?"
            rf"(?: of {_TIME})?(?: {_DAY})?",
        ),
        "storage": (
            rf"(?:does|do|should|must|will) (?:{_IT}|they) (?:need|have|go|live|stay|be|belong|need to go|have to go|"
            rf"need to be|have to be|need to stay)?(?: (?:kept|stored|put))?(?: in)? (?:the|a) (?:fridge|refrigerator)",
            rf"{may} (?:keep|store|put|leave) {_IT} (?:in (?:the|a) (?:fridge|refrigerator)|at room temperature)",
            rf"(?:where|how) (?:do|should|must) {who} (?:keep|store) {_IT}",
            rf"(?:where|how) (?:is|are|should) {_IT} (?:be )?(?:kept|stored)",
            rf"(?:do|should|must) {who}(?: (?:have|need) to)? (?:keep|store|put) {_IT} in (?:the|a) "
            rf"(?:fridge|refrigerator)",
            r"fridge or (?:no fridge|not|room temperature)",
            r"how long (?:is|does|will) (?:an|the) open(?:ed)? (?:foil|pouch|foil pouch) (?:good|last|keep)(?: for)?",
        ),
        "when_works": (
            rf"(?:how long|how soon)(?: (?:until|till|til|before|does|will|is it until|does it take until|for))? {_IT} "
            rf"(?:take to |start to |starts to |begins to |to )?(?:work|works|working|start working|starts working|"
            rf"kick in|kicks in|help|helps)",
            rf"(?:how long) (?:does|will) {_IT} take(?: to (?:work|help|start working|kick in|take effect))?",
            rf"when (?:does|will|should|would) {_IT} (?:start |begin )?(?:to )?(?:work|working|kick in|help|helping|"
            rf"take effect)",
            rf"when (?:will|should|do|would) {who} (?:see|notice|feel) (?:a|any|the) (?:difference|effect|results?|"
            rf"change)",
        ),
        "tablets_wait": (
            rf"{may} (?:take|have|swallow) (?:(?:my|his|her|our) (?:other|usual|regular|normal|daily) {_TABLETS}|"
            rf"(?:my|his|her|our|a) {_VITAMINS}) {_AFTER}(?: or (?:do {who}(?: (?:have|need) to)?|should {who}) wait)?",
        ),
        "alcohol": (
            rf"{may} (?:have|drink) {_FEW}{_ALCOHOL}(?: (?:{_DAY}|with (?:{_MEAL}|{_IT})|at (?:the )?weekends?|on "
            rf"{_IT}|while (?:on|taking) {_IT}))*",
            rf"is {_FEW}{_ALCOHOL} (?:ok|okay|fine|allowed|alright|all right)(?: (?:with|on) {_IT})?",
        ),
        "grapefruit": (
            rf"{may} (?:have|eat|drink) {_SOME}grape ?fruits?(?: juice)?(?: with {_IT})?",
            rf"is grape ?fruit(?: juice)? (?:ok|okay|fine|allowed)(?: with {_IT})?",
        ),
        "mix_ahead": (
            rf"{may} (?:mix|make|prepare|prep|make up|mix up) (?:{_IT}|tomorrows dose)(?: up)? (?:ahead|ahead of "
            rf"time|tonight|the night before|"
            rf"in advance|the (?:night|evening|day) before|for tomorrow|for the (?:whole )?day)",
        ),
        "breathe_it": (
            r"do i (?:inhale|breathe) (?:it|this)(?: in)?(?: or (?:swallow|drink)(?: it| this)?)?",
            r"do i (?:swallow|drink) (?:it|this) or (?:inhale|breathe)(?: it| this)?(?: in)?",
        ),
        "spacer": (rf"{may} (?:need|use|have|need to use)(?: to use)? (?:a|the|my) spacer(?: (?:with|for) {_IT})?",),
        "prime": (
            r"(?:do|should) i(?: (?:need|have) to)? prime (?:it|the inhaler|the new inhaler|a new inhaler|my "
            r"inhaler|my new inhaler)(?: first)?", r"how many (?:sprays|puffs) (?:in|into) the air(?: first)?",
        ),
        "what_dose": (
            rf"(?:what|how much)(?: of it)? (?:do|should|must|does) {who}(?: (?:have|need) to)? (?:take|have|give)"
            rf"(?: {_IT})?{_NOW}{_WHEN}",
            rf"(?:what|what dose|which dose|how much) am i (?:supposed )?(?:to take|taking|on){_NOW}{_WHEN}",
            rf"how many (?:ampou?les?|puffs?) (?:do|should|must|does) {who}(?: (?:have|need) to)? (?:take|have|use|"
            rf"give){_NOW}{_WHEN}", rf"(?:which|what) dose (?:do|should|must|does) {who}(?: (?:have|need) to)? "
            rf"(?:take|have|give){_NOW}{_WHEN}",
            rf"what(?:s| is) (?:my|his|her|the) (?:new |next |current )?dose{_NOW}{_WHEN}",
        ),
        "who_reads": (
            r"are you (?:a )?(?:real |actual )?(?:person|human|bot|robot|machine|computer|program)",
            r"am i (?:talking|speaking|writing) to a (?:real )?(?:person|human|bot|robot|machine|computer)",
            r"(?:is|does) (?:anyone|anybody|someone|somebody|a person)(?: (?:really|actually))? (?:reading|read) "
            r"(?:this|these|my messages|them)",
            r"who (?:reads|is reading|sees) (?:this|these|these messages|my messages|my texts|what i write)",
        ),
    }

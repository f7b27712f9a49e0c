"""The closed grammar, as people type it with one thumb: 'tkn', 'cup empty', 'mixed and drunk', 'ya quedó'.

Patterns of whole clauses. 'beside' is said beside a dose that is taken ('timer on', 'no fuss') and closes nothing by
itself. What somebody else did counts only where a parent or carer writes: 'he drank the lot' of a patient is another
person who drank it.
"""

from __future__ import annotations

import re
from functools import cache

_DAY = r"(?:morning|evening|night|am|pm|bedtime|nightly|daily|first|second|1st|2nd|usual|last)"
_PART = (r"(?:one|1|dose|puffs|slurry|preparation|shake|mix|mixture|cup|meds|medicine|medication|syrup|potion)")
_MY = r"(?:my|the|this|tonights|todays|this mornings|this evenings|both|his|her|hers|its)"
_YES = (r"(?:(?:yes|yep|yeah|yup|ok|okay|oki|doki|hi|hello|hey|right|sure|and|thanks|thank you|cheers|ta|done|sorted|"
        r"thanks for the (?:nudge|reminder|ping)|cheers for the (?:nudge|reminder|ping)) )*")
_ENDING = (r"(?: (?:now|already|today|tonight|this morning|this evening|x|xx|ty|mate|love|sir|maam|boss|captain|"
    r"nurse|doc|"
           r"team|thanks|thank you|for today|for tonight|for the night|done|too|also|in one|in one go|in one gulp|"
           r"in two gulps|in 2 gulps|on the dot|on time|as usual|like always|like a champ|like a pro|yay|"
           r"before (?:your|the) (?:ping|message|text|reminder|buzz|nudge)|"
           r"(?:as )?soon as you (?:buzzed|pinged|texted|messaged|reminded me)|"
           r"before (?:bed|work|school|breakfast|dinner|the school run)|after (?:breakfast|dinner|brushing|"
           r"my shower)|"
           r"with (?:breakfast|dinner|the late news)|(?:with )?no (?:fuss|bother|drama|trouble|complaints|moaning)|"
           r"without (?:fuss|a fuss|bother|complaint|a murmur)|himself|herself|all by himself|all by herself))*")
_VERB = (r"(?:tkn|takn|takne|tok|tookn|tooken|taken|took|had|drank|drunk|drink|swallowed|swallow|did|done|finished|"
         r"downed|necked|chugged|slurped|gulped|glugged|sunk|polished off|knocked back|completed|puffed|administered|"
         r"consumed|drained)")
_WHAT = (rf"(?: (?:it|itt|mine|them|that|all|all of it|it all|the lot|everything|every drop|every bit|"
    rf"every last drop|"
         rf"both|the whole lot|the whole cup|my lot|(?:{_MY} )?(?:{_DAY} )?{_PART}))?")
_CHILD = (r"(?:he|hes|she|shes|they|the (?:boy|girl|lad|little one|wee one|kid)|my (?:son|daughter|boy|girl|lad)|"
          r"little one|kiddo|wee man)")
_GIVER = (r"(?:i|we|ive|weve|mum|mummy|mom|mommy|dad|daddy|nan|nana|nanny|gran|granny|grandma|grandad|grandpa|"
          r"auntie|my (?:wife|husband|mum|mom|partner|sister)|his (?:dad|mum|mom|gran|nan)|her (?:dad|mum|mom|"
          r"gran|nan)|"
          r"(?:the )?(?:school )?nurse|(?:the )?(?:school|nursery|carer|teacher|sitter|babysitter))")

_TAKEN = (
    rf"(?:(?:i|ive|have|has|just|already|weve|we|all|now) )*{_VERB}{_WHAT}|(?:already|just) (?:did|had|done|taken)|"
    rf"(?:(?:the|my) )?(?:cup|cups|beaker|glass|medicine cup)(?: is| are|s)? (?:empty|emptied|drained|licked clean)|"
    rf"empty (?:cup|beaker|glass)|not a drop left(?: in the (?:cup|beaker|glass))?|licked (?:it|the cup) clean|"
    rf"now its in|all (?:swallowed|drunk)|finito|"
    rf"(?:{_MY} )?(?:{_DAY} )?{_PART}(?: is| are| was|s)? (?:in|down|done|taken|drunk|swallowed|sunk|finished|"
    rf"complete|"
    rf"completed|gone|downed|puffed)|puffs puffed|(?:all )?sorted|(?:2|two) (?:squirts|sprays|puffs)(?: x ?2|"
    rf" twice)?(?: complete| done)?|"
    rf"(?:no |number )?(?:1|2) (?:of|/) 2(?: complete| done| in| taken)?|[12]/2|"
    rf"(?:thats|and thats|that was) (?:the )?{_DAY}(?: {_PART})?(?: done| in| taken| finished)?|"
    rf"(?:first|second) of the day(?: done| finished| in| taken)?|(?:am|pm) (?:and (?:am|pm) )?(?:y|yes)|"
    rf"am (?:y|yes) pm (?:y|yes)|am and pm (?:done|taken|in)|glass raised|slurry sunk|(?:evening|morning|"
    rf"night) ones? in|"
    rf"(?:yes )?(?:i )?(?:took|had|did|done) (?:it|mine) (?:this morning|this evening|tonight|earlier|early|"
    rf"late)(?: on)?|"
    rf"job(?:s)? (?:is )?a good un|done done|medicated|dosed|thats tonights(?: one)? (?:taken|done|in)|"
    rf"both (?:done|taken|in|had) (?:today|am pm|am and pm)|both puffs (?:done|taken|in)|"
    rf"(?:all )?(?:ticked|ticked off)|dose took"
)
_TAKEN_CHILD = (
    rf"(?:{_CHILD} )(?:(?:has|had|just|already) )*(?:{_VERB}{_WHAT}|had (?:his|hers|her)(?: {_PART})?|did it)|"
    rf"{_GIVER} (?:(?:has|have|just|already) )*(?:gave|given|did|administered|done) (?:it|his|hers|him his|her hers|"
    rf"(?:his|her|the) (?:{_DAY} )?{_PART}|it to (?:him|her)|(?:him|her) (?:it|(?:his|her|the) {_PART}))|"
    rf"(?:took|drank|swallowed) (?:every bit|every drop|the lot|it all)"
)
_BESIDE = (
    r"(?:dusted|dusted x|(?:dad|mum|mom|nan|gran) here|before (?:your|the) (?:ping|message|text|reminder)|mixed|"
    r"stirred|shaken|mixed it|mixed up|made|(?:set )?(?:the |my )?(?:oven |kitchen )?timer (?:is )?(?:on|set|going|"
    r"running)|(?:set )?(?:the |my )?(?:oven )?timer for (?:30|thirty) min|clock running|window started|"
    r"teeth (?:done|cleaned|brushed)|brushed|teeth|rinsed|spat|rinse|spit|gargled|mouth (?:washed|rinsed|clean)|"
    r"mouth (?:washed|rinsed) (?:also|too)|story read|off to bed|bed|in bed|going to bed|to bed|so proud|"
    r"proud of (?:him|her)|"
    r"sticker (?:given|earned)|gold star|no (?:fuss|bother|drama|trouble|complaints|tears)|nobody noticed|"
    r"at my desk|at work|on the train|on the bus|in the car|easy|easy peasy|job done|jobs done|happy days|"
    r"(?:i )?waited (?:the |my )?(?:half (?:an )?hour|30|30 min|thirty min)(?: after)?|half an hour(?: wait)?|"
    r"no food (?:till|until|til) (?:half past|later|then|after)|kettle on|telly on|slippers on|"
    r"(?:the |my )?(?:glass|cup|beaker|spoon|bottle) (?:is )?(?:washed|rinsed|in the sink|put away)|"
    r"(?:(?:back|off|now|then|home|straight|heading|going) )*(?:to|at|on|in|by|into|from) (?:the |my |our |a )?"
    r"(?:work|school|college|uni|office|desk|train|bus|tram|platform|station|car|kitchen|sink|staff room|"
    r"canteen|library|"
    r"garden|allotment|beach|park|gym|pool|airport|hotel|caravan|campsite|market|shop|shops|church|choir|football|"
    r"practice|class|lectures|lecture|night shift|shift|meeting|bath|shower|sofa|couch|balcony|pyjamas|holiday|"
    r"grandmas|nans|mums|cows|hens|dog walk|telly|onions|peeling (?:spuds|potatoes))|"
    r"(?:sticker|star|gold star|smiley|tick)(?: is| goes)?(?: on| up)?(?: on| in)?(?: the| his| her)? (?:chart|"
    r"fridge|calendar|"
    r"given|earned|awarded)|(?:he|she) (?:got|gets|earned|chose|picked) (?:a|his|her|the) (?:sticker|star)|"
    r"(?:with|before|after) (?:the )?(?:birds|cows|telly|news|story|cartoons)|first thing|"
    r"shift work(?:er)?(?: life)?|"
    r"(?:the )?(?:suns|sun is) out|beach next|roll on (?:friday|the weekend)|(?:its )?(?:snowing|raining|sunny|"
    r"lovely out)|"
    r"(?:same )?(?:again|time) tomorrow(?: then)?|good (?:ta|thanks) (?:and|n) (?:you|u)|good ta|(?:and )?you|"
    r"until (?:this evening|tonight|tomorrow)(?: then)?|am|pm|am pm|spat(?: too)?|two gulps|"
    r"until tomorrow|til tomorrow|see you tomorrow|night|night night|thats me(?: for the night| for today)?)"
)
_POLITE = (r"(?:splendid|certainly|yes indeed|indeed|yes chef|yes captain|fair enough|good as gold|roger that|oui|"
           r"understood thank you|message received and understood|i shall do as you say|"
           r"i shall(?: do so)?(?: again)?|thank you kindly|bless|ah right|"
           r"thats clear(?: now)?|makes sense(?: now)?|thanks for explaining(?: that)?|"
           r"(?:thanks|thx|thank you) (?:for|4) (?:ur|your) patience|good to know|"
           r"same time tomorrow(?: then)?|ok see you (?:monday|tuesday|wednesday|thursday|friday|then)|"
           r"much obliged|ta love|cheers love|okey dokey|okie dokie|okey doke|righto|right you are|affirmative|"
           r"affirmative captain|aye aye|aye aye captain|roger|will do|noted|k|kk|ta|ty|cheers)")
_LATER = (r"(?:gimme|give me) (?:a (?:sec|minute|min|mo|bit)|(?:5|10|15|20|30|five|ten|fifteen|twenty|thirty) min)|"
          r"snooze|snooze (?:it|please|pls)|remind me (?:later|in a bit)|after my (?:bath|shower|tea|coffee|"
          r"breakfast|"
          r"dinner|lunch)|on it (?:now|right now)|doing it (?:now|right now)|taking it (?:now|right now)")

_YES_ES = r"(?:(?:si|ya|vale|ok|okay|dale|listo|lista|yep|simon|sip|buenas|hola|buenos dias|bueno|pues|claro|y) )*"
_ENDING_ES = (r"(?: (?:ya|hoy|gracias|doctora|doctor|carnal|mija|mijita|ok|bien|done|causa|saludos|un saludo|"
    r"a tiempo|como siempre|todo|"
              r"completa|completita|enterita|de un trago|de un jalon|de una|sin problema|sin problemas|too|jaja|jeje|"
              r"antes del mensaje|anoche|esta mañana|esta noche|esta tarde|con todo|y todo|nomas|por recordarme|"
              r"por avisar))*")
_VERB_ES = (r"(?:tome|tomo|tomada|tomado|bebi|bebida|bebido|trague|hice|hecha|hecho|cumpli|cumplida|cumplido|"
            r"complete|completada|completado|termine|terminada|terminado|puse|puesta|habia tomado|he tomado|"
            r"he bebido)")
_WHAT_ES = (r"(?: (?:la dosis|mi dosis|la toma|la medicina|la mezcla|el jarabe|el remedio|el spray|los puffs|"
    r"el asunto|"
            r"la de la noche|la de la mañana|la de hoy|la de anoche|las dos|todo|todito|completo|lo mio|"
            r"con la de la noche|"
            r"con la de la mañana|con la de hoy))?")
_TAKEN_ES = (
    rf"(?:(?:ya|me|la|lo|las|los|si|acabo de|lla) )*{_VERB_ES}{_WHAT_ES}|confirmo(?: la)? toma|toma confirmada|"
    r"ya (?:quedo|estuvo|esta|cumpli|fue)|quedo lista|listo el pollo|listo calixto|(?:la )?dosis (?:adentro|"
    r"dentro|puesta|"
    r"lista|ok|hecha|tomada)|(?:el )?vaso vacio|pa dentro|para adentro|pa adentro|adentro|done deal|la de la noche|"
    r"la de la mañana|para dentro|(?:las dos|ambas)(?: mañana y noche)?|dos inhalaciones|recien|recien tomada|"
    r"hace un ratito|"
    r"hace un rato|hace un ratito nomas|la tome tarde|tarde pero la tome"
)
_TAKEN_ES_CHILD = (
    r"(?:ya )?se (?:la|lo) (?:di|dimos|dio (?:la abuela|el abuelo|su papa|su mama|la maestra)|tomo|bebio|ha tomado|"
    r"ha bebido|acabo|termino)(?: (?:todo|toda|todito|todita|completa|completita|completito|enterita|bien))*|"
    r"(?:la peque|el peque|mi hijo|mi hija|la niña|el niño|la nena|el nene|ella|el) (?:ya )?(?:se (?:la|"
    r"lo) )?(?:tomo|"
    r"bebio|ha bebido|ha tomado|termino|acabo)(?: (?:todo|todito|todita|la dosis|su dosis|su vasito|su vaso|"
    r"su medicina|"
    r"lo suyo))*"
)
_BESIDE_ES = (r"(?:(?:ya )?(?:a|en|al|de camino a|camino a|saliendo de|llegando a|rumbo a) (?:la |el |"
    r"mi )?(?:trabajo|escuela|"
              r"cole|colegio|oficina|cama|casa|metro|bus|camion|playa|parque|cocina|turno|clase|pelota|misa|"
              r"gasolinera|"
              r"terminal|universidad|chamba|pega|sofa|ducha)|(?:a )?la cama|(?:y )?a (?:dormir|jugar|descansar|"
              r"trabajar|"
              r"cocinar)|con (?:miel|cajeta|su cuento)|ni gestos(?: hizo)?|ni chisto|sin chistar|en punto|"
              r"como un clavo|"
              r"como un reloj|feliz (?:domingo|lunes|dia|noche|viernes)|buen dia|que tengan buen dia|(?:el )?vaso "
              r"(?:vacio|lavado)|escupi|enjuague(?: y escupi)?|cuento|pijama|que puntual(?: eres)?|mezclado|"
              r"mezclada|revuelto|enjuagado|enjuagada|enjuagada y todo|enjuagado y escupido|escupido|"
              r"dientes (?:cepillados|lavados)|me lave los dientes|me enjuague|a dormir|sin pelear|sin protestar|"
              r"sin problema|ni protesto|un saludo|saludos|jaja|jeje|como siempre|mañana|noche|buenas noches|todo)")
_POLITE_ES = (r"(?:vale gracias(?: majo| maja| guapa)?|gracias (?:majo|maja|guapo|guapa|hija|mija|mijo|che|doc|"
    r"por la paciencia|"
              r"por acordarse|por estar pendientes?)|recibido|tomo nota|queda claro|clarisimo|okis|perfecto gracias|"
              r"bendiciones|igualmente gracias|hasta mañana|hasta la noche|feliz (?:domingo|lunes|dia|noche|"
              r"viernes)|a la orden|oki|oki doki|oki doki done|simon|simon carnal|sale|sale y vale|orale|va|"
              r"dale|afirmativo|"
              r"enterado|enterada|un saludo|saludos|mijita)")
_LATER_ES = (r"(?:dame (?:un (?:minuto|ratito|momento|ratico)|(?:5|10|15|20|cinco|diez|quince|veinte) min)|"
    r"ahorita voy|"
             r"voy|ya voy|al ratito|en un ratito|ahorita la tomo|ahora voy|llegando a casa)")


@cache
def _patterns(spanish: bool, parent: bool) -> dict[str, re.Pattern[str]]:
    if spanish:
        taken = f"(?:{_TAKEN_ES}{'|' + _TAKEN_ES_CHILD if parent else ''})"
        found = {"taken": f"{_YES_ES}{taken}{_ENDING_ES}", "beside": _BESIDE_ES, "thanks": _POLITE_ES,
                 "later": _LATER_ES}
    else:
        taken = f"(?:{_TAKEN}{'|' + _TAKEN_CHILD if parent else ''})"
        found = {"taken": f"{_YES}{taken}{_ENDING}", "beside": _BESIDE, "thanks": _POLITE, "later": f"(?:{_LATER})"}
    return {name: re.compile(pattern) for name, pattern in found.items()}


def typed(clause: str, *, spanish: bool, parent: bool) -> str:
    """What a clause says: 'taken', 'thanks', 'later', or 'beside' (said beside one of these); '' where it does not
    parse whole."""
    table = _patterns(spanish, parent)
    return next((name for name in ("taken", "thanks", "later", "beside") if table[name].fullmatch(clause)), "")

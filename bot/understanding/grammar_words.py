"""Words of the closed grammar by language: patterns over a reply's words (one space between, no accents, no marks).

Line breaks in a pattern are removed when it is read; every alternative is whole.
"""

from __future__ import annotations

from dataclasses import dataclass


def _joined(pattern: str) -> str:
    return pattern.replace("\n", "")


def _bag(says: str, allowed: str) -> tuple[frozenset[str], frozenset[str]]:
    return frozenset(says.split()), frozenset(allowed.split())


@dataclass(frozen=True, slots=True)
class Words:
    """Patterns that must match whole, number words, and bags: (words that say it, words that may stand beside them)."""

    polite: str
    yes: str
    no: str
    taken: str
    rinsed: str
    not_taken: str
    later: str
    thanks: str
    numbers: dict[str, float]
    taken_bag: tuple[frozenset[str], frozenset[str]]
    thanks_bag: tuple[frozenset[str], frozenset[str]]
    times: str
    since: str


EN = Words(
    polite=_joined(r"""
(?:thanks|thank you|thank u|thx|ty|ta|cheers|please|thank you so much|thanks so much|thank you very much|
many thanks|great|perfect|ok|okay)"""),
    yes=_joined(r"""
(?:yes|yeah|yep|yup|yess|ye|y|ya|yea|aye|sure|correct|right|thats right|affirmative|of course|yes please|
yes i did|i did|yes i have|yes i do|i have|yes it did|yes it is|yes i am|absolutely|definitely|indeed)"""),
    no=_joined(r"""
(?:no|nope|nah|none|n|nothing|not at all|no nothing|nope nothing|nope none|no none|none at all|nothing at all|
never|no never|no i havent|no i didnt|i havent|i didnt|no not at all|nothing like that|none of those|
none of that|no problems|no issues|no problem at all|no trouble|not really|no i dont|i dont|nil|zero|
no not this week|not this week|none this week)"""),
    taken=_joined(r"""
(?:(?:i |ive |i have |have |yes i |yes ive |yep |yes |yeah |yup |just |i just |ive just |already |ok |
okay )*(?:taken|took|had|drank|swallowed|did|done|finished|drunk)(?: it| my dose| the dose| mine| them|
 my medicine| my meds| the medicine| my puffs| my shake| the slurry| all of it| it all)?(?: just now| now|
 already| on time| this morning| tonight| this evening| earlier| today| a while ago| in one go)?|
done and dusted|all done|dose done|dose taken|dose in|down the hatch|all taken|just did|yeah just did|
yes just did|its done|its taken|medicine taken|meds taken|puffs done|taken and rinsed|done and rinsed|
took it and rinsed)"""),
    rinsed=_joined(r"""
(?:(?:yes|yep|yeah|ok|okay|and|also|just|already|i|ive|have|we|weve|he|hes|she|shes|has|all) )*
(?:rinsed|gargled|swished|did (?:the|my|his|her) rinse)(?: (?:out|it out|and|my mouth|his mouth|her mouth|the mouth|
mouth|after|too|also|as well|with water|well|now|just now|already|spat|spat it out|brushed|brushed my teeth|my teeth))*|
(?:mouth|rinse|rinsing) (?:is |has been )?(?:rinsed|done)|(?:done|finished) rinsing"""),
    not_taken=_joined(r"""
(?:not yet|no not yet|not taken|havent yet|not taken yet|i havent yet|havent taken it yet|i havent taken it yet|
nope not yet|not just yet)"""),
    later=_joined(r"""
(?:(?:not yet )?(?:will do|ill do|ill take|will take) (?:it )?(?:later|soon|now|in a bit|in a minute|shortly)|
later|soon|in a bit|in a minute|in a sec|not yet soon|will do it later|remind me later|a bit later|shortly|
will do soon|will take it later|will take it soon|ill take it later|ill do it later|ill take it soon|
ill do it soon|not now|not right now|after breakfast|after dinner|after lunch|before bed|when im home|
when i get home|about to|about to take it|taking it now|doing it now|on it)"""),
    thanks=_joined(r"""
(?:(?:happy new year|merry christmas|see you|see you next week|see you then|have a good weekend|have a nice weekend|
yes i got it|i got it|yes got it|ok|okay|k|kk|cool|great|good|lovely|perfect|fine|brilliant|awesome|super|
sounds good|will do|got it|
understood|noted|all good|all fine|all well|all ok|im fine|im good|im ok|fine thanks|good thanks|all good here|
i understand|yes i understand|yes understood|i see|sure|right|no problem|no worries|np|hi|hello|hey|morning|
good morning|good evening|good night|goodnight|good afternoon|night|bye|see you|alright|everything is fine|
everything fine|everything ok|everything is ok|feeling fine|feeling good|doing fine|doing well|doing good|
very well|roger|makes sense|clear|all clear|that makes sense|thanks for the reminder|thanks for letting me know|
thank you for the reminder|appreciated|much appreciated|appreciate it|got that|ok got it|ok will do|ok great|
ok cool|ok good|ok perfect|ok fine|nice|nice one|wonderful|excellent|happy with that|gotcha|have a good day|
have a nice day|you too)|(?:thanks|thank you|thank u|thx|ty|ta|cheers|please|thank you so much|thanks so much|
thank you very much|many thanks|great|perfect|ok|okay))"""),
    numbers={
        "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
        "ten": 10, "a": 1, "an": 1, "eleven": 11, "twelve": 12, "fourteen": 14, "fifteen": 15, "twenty": 20,
        "thirty": 30, "half": 0.5, "couple": 2, "few": 3, "zero": 0,
    },
    taken_bag=_bag("""
took taken had done did finished drank swallowed completed
""", """
i ive have yes yeah yep yup ok okay just now already it my dose the this morning evening tonight today earlier
and all thanks thank you doctor nurse meds medicine puffs slurry mine night on time as usual for the reminder
reminding me good great fine ta cheers perfectly sure sir rinsed brushed hi hello hey there
"""),
    thanks_bag=_bag("""
ok okay thanks thank thx good great perfect fine understood noted cool lovely brilliant awesome cheers excellent
wonderful well alright right gotcha appreciated sure
""", """
you so much very all is everythings everything its it im i am doing feeling got will do sounds today here still
really a lot for the reminder your help info and hi hello morning evening night u have day nice too that helps
message checking in asking to know now everyone this week far yes yep happy with going on my end as usual
"""),
    times=_joined(r"""
(?: this week| today| lately| these days| so far| at all| any more| anymore| since last time| recently| ever)?"""),
    since=_joined(r"""
monday|tuesday|wednesday|thursday|friday|saturday|sunday|yesterday|today|last week|last night|this morning|
the weekend|last monday"""),
)

ES = Words(
    polite=_joined(r"""
(?:gracias|muchas gracias|mil gracias|por favor|ok|vale|perfecto|genial)"""),
    yes=_joined(r"""
(?:si ya|ya si|si|sip|sii|claro|claro que si|correcto|asi es|por supuesto|si claro|si asi es|eso es|afirmativo|
s)"""),
    no=_joined(r"""
(?:no|nop|nope|ninguno|ninguna|nada|no nada|para nada|nunca|no nunca|ninguna de esas|nada de eso|
ninguno de esos|en absoluto|no para nada|no ninguno|no ninguna|no tengo nada|sin problemas|ningun problema|
nada de nada|n)"""),
    taken=_joined(r"""
(?:(?:ya |si |si ya |acabo de |me la |me lo |la |lo |ya me la |ya me lo |ya la |ya lo |si la |si lo |si me la |
si me lo |la he |lo he |ya la he |ya lo he |me la he |me lo he |ya me la he |he |ya he )*(?:tome|tomado|tomada|
hecho|hecha|tomarla|tomarlo|listo|lista|tragado|bebido)(?: la dosis| mi dosis| la medicina| el medicamento|
 todo| el jarabe)?(?: ahora| ya| esta manana| hoy| hace un rato| a tiempo| anoche)?|dosis tomada|dosis hecha|
ya esta|ya|todo listo|hecho y enjuagado|tomado y enjuagado|(?:ya |si )*(?:se (?:la|lo) (?:di|dimos|tomo|bebio|trago)|
le di (?:la dosis|su dosis|la medicina|su medicina|el jarabe))(?: ahora| ya| hace un rato| a tiempo| anoche)?)"""),
    rinsed=_joined(r"""
(?:ya |si |y |tambien )*(?:me |se |nos )?(?:(?:he |ha )?enjuagad[oa]|enjuague|enjuago|enjuagar|enjuagamos|
hice el enjuague)
(?: (?:la boca|la boquita|bien|ya|con agua|y escupi|y escupio|y la escupi|ahora|tambien))*|enjuague hecho|
boca enjuagada"""),
    not_taken=_joined(r"""
(?:todavia no|aun no|no todavia|no aun|no la he tomado|no lo he tomado|no me la he tomado|
no la he tomado todavia|todavia no la he tomado|aun no la he tomado|todavia no la tomo)"""),
    later=_joined(r"""
(?:luego|despues|mas tarde|mas tarde la tomo|ahora la tomo|ahorita|ahora mismo|enseguida|en un rato|
en un momento|al rato|ahora voy|cuando llegue a casa|despues de cenar|despues de desayunar|ya voy|en breve|
pronto)"""),
    thanks=_joined(r"""
(?:vale|ok|okay|bien|estamos bien|muy bien|todo bien|perfecto|genial|entendido|comprendido|de acuerdo|hola|buenas|
buenos dias|buenas noches|buenas tardes|gracias|muchas gracias|mil gracias|gracias por avisar|
gracias por el recordatorio|estupendo|excelente|ya entendi|entiendo|lo entiendo|claro|todo en orden|estoy bien|
bien gracias|todo perfecto|sin novedad|listo|de nada|adios|hasta luego|igualmente|vale perfecto|ok perfecto|
super|si entendido|si entiendo|esta bien)"""),
    numbers={
        "un": 1, "uno": 1, "una": 1, "dos": 2, "tres": 3, "cuatro": 4, "cinco": 5, "seis": 6, "siete": 7,
        "ocho": 8, "nueve": 9, "diez": 10, "par": 2, "once": 11, "doce": 12, "quince": 15, "veinte": 20,
        "treinta": 30, "media": 0.5, "cero": 0, "pocos": 3, "pocas": 3,
    },
    taken_bag=_bag("""
tome tomado tomada hecho hecha tomarla tomarlo bebido tragado listo lista
""", """
si ya la lo me he acabo de mi dosis medicina hoy ahora esta mañana noche tarde gracias a tiempo todo y bien el
jarabe las los ok vale doctor hace un rato como siempre enjuagado enjuague buenos dias
hola
"""),
    thanks_bag=_bag("""
ok vale gracias bien perfecto genial entendido listo bueno estupendo excelente claro super
""", """
muchas mil todo muy de acuerdo por el recordatorio aviso esta estoy va si doctor hoy y a usted buenos dias hola
yo lo se hare asi doctora amable la informacion ayuda
"""),
    times=_joined(r"""
(?: esta semana| hoy| ultimamente| por ahora| para nada| en absoluto| nunca| estos dias)?"""),
    since=_joined(r"""
lunes|martes|miercoles|jueves|viernes|sabado|domingo|ayer|hoy|anoche|la semana pasada|esta manana|el lunes|
el martes|el miercoles|el jueves|el viernes|el sabado|el domingo"""),
)

LANGUAGES = {"en": EN, "es": ES}

# What a check-in item is called in a denial: 'no patches this week' closes `check_in:thrush`. Names are
#  matched by their beginning.
ITEMS = {
    "swallow": (
        "trouble|problems|trouble swallowing|problems swallowing|food stuck|nothing stuck|difficulty|"
        "problemas|dificultad"
    ),
    "mouth": (
        "white patches|patches|spots|sores|soreness|cold sores|white|white bits|white stuff|white spots|manchas|"
        "llagas"
    ),
    "new": (
        "fever|new medicine|new medicines|hoarseness|blood|chest pain|nothing new|fiebre|sangre|"
        "nada nuevo"
    ),
    "body": "dizziness|tiredness|vomiting|weight loss|nausea|mareos|cansancio|vomitos",
    "thrush": (
        "white patches|patches|white spots|white bits|spots|bits|white|thrush|white stuff|coating|soreness|"
        "white coating|"
        "manchas|manchas blancas|placas|llagas"
    ),
    "odynophagia": (
        "pain|burning|stinging|pain swallowing|pain when swallowing|pain when i swallow|it doesnt hurt|"
        "doesnt hurt|soreness|dolor|dolor al tragar|no me duele|ardor"
    ),
    "pain": (
        "pain|burning|stinging|pain swallowing|pain when swallowing|pain when i swallow|it doesnt hurt|"
        "doesnt hurt|soreness|dolor|dolor al tragar|no me duele|ardor"
    ),
    "food": (
        "food stuck|stuck food|food sticking|sticking|getting stuck|nothing stuck|nothing got stuck|"
        "nothing has got stuck|food got stuck|problems|nada atascado|comida atascada|nada se atasco"
    ),
    "impaction": (
        "food stuck|stuck food|food sticking|sticking|nothing stuck|nothing got stuck|food got stuck|"
        "nada atascado|comida atascada"
    ),
    "herpes": "cold sores|cold sore|blisters|sores|ulcers|mouth sores|calenturas|ampollas|herpes|llagas|aftas",
    "fever": "fever|temperature|temp|fevers|fiebre|temperatura",
    "voice": "hoarseness|hoarse|voice change|voice changes|change|ronquera|afonia",
    "hoarse": "hoarseness|voice change|change|ronquera|afonia",
    "adrenal": "dizziness|tiredness|dizzy spells|weakness|mareo|mareos|cansancio|debilidad",
    "missed": (
        "missed doses|missed dose|doses missed|missed any|havent missed any|didnt miss any|"
        "dosis olvidadas|olvidos"
    ),
    "new_med": (
        "new medicine|new medicines|new meds|new tablets|new medication|nothing new|medicinas nuevas|"
        "nada nuevo|medicamentos nuevos"
    ),
    "new_medicine": (
        "new medicine|new medicines|new meds|new tablets|new medication|nothing new|medicinas nuevas|"
        "nada nuevo|medicamentos nuevos"
    ),
    "anything": (
        "nothing else|thats all|thats it|nothing more|nothing to add|that is all|nada mas|eso es todo|"
        "es todo"
    ),
}

"""A sign that has its harmless reason beside it: red from beetroot, a lump in the throat at a wedding, a throat
sore from
cheering. Only where no word of the text says that there is more to it. English and Spanish words, written by hand."""

from __future__ import annotations

from bot.understanding.context import sentence, words_of
from bot.understanding.frames import Hit

_COLOURING = words_of("""
beetroot beetroots beets beet blackberries blackberry blueberries blueberry liquorice licorice popsicle popsicles
lolly lollies slush slushie candy candyfloss squid borscht dragonfruit facepaint lipstick ink
remolacha betabel betarraga moras mora arandanos regaliz paleta pitahaya jamaica raspado granizado tinta
""")
_WHITENING = words_of("""
marshmallow marshmallows yoghurt yogurt milk milkshake icing toothpaste meringue custard pudding doughnut donut flour
sherbet chalk leche yogur merengue malvavisco malvaviscos nieve
""")
_EATEN = words_of("""
picked picking painted painting dye dyed ate eaten eating had having from because cause after licked drank scoffed
cos bc blame comi comio comiendo por despues
porque tome tomando chupo chupe fue culpa
""")
_MORE = words_of("""
blood bloody bleeding clots clot tar tarry sticky smell smells stinks foul black vomit vomited vomiting threw sick
faint dizzy weak swollen swelling swelled hurts hurt pain sore stings burns burning breathe breath breathing patches
looks look like colour colored coloured coughed cough spat spit came comes bringing up heaved retched puked puking
patch furry lumps itchy hives not isnt hasnt didnt no without since days still weeks keeps fever
sangre negro negra negras alquitran vomito vomite vomitar mareo mareado mareada hinchado hinchada hinchada duele dolor
respirar aire sin no ni dias sigue todavia fiebre pica como color escupi tosi
""")
_MOVING = words_of("""
bugle parade remembrance wedding funeral play concert speech film movie graduation anthem assembly nativity carols
hymn recital prizegiving
goodbye christening memorial ceremony song hymns proposal reunion airport vows first_day nostalgia emotional proud
boda funeral obra concierto discurso pelicula graduacion himno bautizo despedida ceremonia cancion emocion orgullo
festival acto aeropuerto
""")
_SHOWN = words_of("""
film films movie movies picture screen zombie vampire horror halloween gore gory episode series costume costumes
thriller detective telly tv game playstation theatre panto novel pelicula peliculas serie zombis vampiros disfraz
telenovela videojuego pimenton
""")
_WITHIN = words_of("""
vomit vomited vomiting threw puked sick cough coughed coughing spat spit spitting stool stools poo poop toilet loo
throat i im my ive me he she his her hes shes vomite vomito tosi escupi heces popo mi me baño
""")
_RINSED = words_of("""
rinse rinsed rinsing rinses gargle gargled swish swished brushed toothpaste mouthwash enjuague enjuago
""")
_SPAT = words_of("spit spat spits spitting escupe escupi escupio")
_CANNOT = words_of("""
saliva drool drooling dribble cant cannot wont unable swallow swallowing bucket hours constantly keeps
baba babea no puedo tragar
""")
_LUMP = words_of("lump nudo")
_USED = words_of("""
shouting cheering singing yelling screaming talking lecturing karaoke choir coaching gritar gritando cantar cantando
karaoke animar
""")
_OF_FOOD = words_of("""
food swallow swallowing swallowed swallows eat eating ate drink drinking saliva spit down bite mouthful meal meat
breathe breath comida tragar trago comer comi beber saliva baja bajar pasa respirar carne pedazo
""")
_MAY_BE_COLOUR = frozenset({"breathing_trouble"})
_COLOURS = words_of("""
red pink purple blue dark brown maroon crimson white whitish milky yellow orange colour coloured
rojo roja rosa rosado morado morada morados moradas azul azules oscuro oscura cafe blanco blanca blancas blancos
""")


def has_reason(words: list[str], hit: Hit, food: bool) -> bool:
    """Whether the text gives the harmless reason of a hit. `food`: the sentence names something eaten besides."""
    found = set(hit.frame.findings)
    begin, end = sentence(words, hit.first, hit.last)
    said = set(words[begin:end])
    own = set(words[hit.first : hit.last])
    foods = _WHITENING | _COLOURING if found == {"thrush"} else _COLOURING if found & _MAY_BE_COLOUR else frozenset()
    if own & _COLOURS and not _MORE & set(words) and _because_of(words, foods):
        return True
    near = set(words[max(begin, hit.first - 4) : min(end, hit.last + 4)])
    if found == {"bleeding"} and _SHOWN & said and not _WITHIN & near:
        return True
    if found == {"cannot_swallow_saliva"} and own & _SPAT and _RINSED & set(words) and not _CANNOT & set(words):
        return True
    if _LUMP & own and _MOVING & said and not food and not _OF_FOOD & said:
        return True
    sore = found == {"odynophagia"} or "sore_throat" in hit.frame.signals
    return sore and bool(_USED & said) and not _OF_FOOD & said


def _because_of(words: list[str], foods: frozenset[str]) -> bool:
    """Whether one of these foods is named as eaten, or as the reason, shortly before it."""
    return any(word in foods and _EATEN & set(words[max(0, at - 5) : at + 2]) for at, word in enumerate(words))

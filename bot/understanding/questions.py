"""Common questions of patients, recognised by their words; the answers are the clinic protocol's own (bot/questions).

A question is recognised only to send the clinic's fixed text along: the words still reach the care team. A wrong answer
is worse than none, so a pattern names the subject and, unless the words tell of something that happened, asks for the
form of a question as well. The ids are those of bot/questions.
"""

from __future__ import annotations

import re
from functools import cache

# Words that make a question, with or without a question mark (many patients write none).
_ASKS = re.compile(
    r"\?|^(is|are|was|will|does|do|can|may|should|es|son)\b|"
    r"\b(can|could|may|should|shall|must) (i|we|he|she|they|you)\b|\b(am|are) (i|we) allowed\b|"
    r"\b(is|are|was) (it|this|that|there|he|she|they|the|these)\b|"
    r"\b(do|does|did|will|would) (i|we|it|this|that|he|she|you)\b|"
    r"\b(ok|okay|safe|fine|allowed|alright|all right) (to|if|for)\b|"
    r"\b(what|how|why|where|which|who|wondering|whether|when (can|could|may|do|does|did|should|will|is|are|am))\b|"
    r"\b(puedo|podemos|puede|podria|se puede|debo|deberia|tengo que|hay que|necesito|que (hago|pasa)|como|cuando|"
    r"cuanto|cuanta|cuantos|por que|para que|donde|cual|quien|esta bien|"
    r"es (malo|mala|seguro|segura|peligroso|peligrosa|normal))\b|¿")

_DRINKS = r"(water|sips?|gum|sweets?|cand(y|ies)|mints?|lozenges?)"
_FOODS = r"(coffee|tea|breakfast|lunch|dinner|food|eat|drink|juice|milk|snack|cafe|te|" \
         r"desayun\w+|comer|comida|cenar|beber)"
_SOONER = r"(straight after|right after|too soon|too early|before (the )?(time|wait|30|half|window)|" \
          r"in the (window|wait)|" \
          r"enseguida|antes de tiempo|muy pronto|demasiado pronto|justo despues)"
_DOSE = r"(dose|doses|medicine|medication|meds|med|slurry|mix|mixture|ampou?le|steroid|" \
        r"dosis|medicina|medicamento|mezcla|ampolla)"
_MEDICINES = r"(ibuprofen|paracetamol|acetaminophen|aspirin|antacids?|omeprazole|antibiotics?|antihistamines?|" \
             r"painkillers?|vitamins?|supplements?|fluconazole|allergy (pills?|tablets?|medicine)|" \
             r"other (medicines?|medications?|meds|pills)|" \
             r"ibuprofeno|paracetamol|aspirina|antiacidos?|antibioticos?|vitaminas?|otras? (medicinas?|pastillas?))"
_VEHICLES = r"(honey|syrup|yogh?urt|juice|apple ?sauce|jam|milk|sugar|stevia|pudding|ice cream|chocolate|formula|" \
            r"something else|miel|jarabe|yogur|jugo|zumo|leche|azucar|pure|mermelada|otra cosa)"

# id -> patterns over the words (one space between, accents removed, punctuation gone). The first id that matches wins.
PATTERNS: dict[str, tuple[str, ...]] = {
    "took_twice": (
        r"\b(took|taken|had|gave|given)\b.{0,30}\b(twice|two times|2 times|double)\b",
        r"\b(tome|tomo|di|he tomado)\b.{0,30}\b(dos veces|doble|de mas)\b",
    ),
    "child_took": (
        r"\b(son|daughter|child|kid|toddler|baby|dog|cat|brother|sister)\b.{0,30}\b(drank|swallowed|ate|got into|"
        r"took) (it|one|some|two|a (bit|sip|puff|mouthful) of (it|mine)|mine|(my|the|some of my)\b.{0,20}" + _DOSE +
        r")\b",
        r"\bmi (hijo|hija|nino|nina|bebe|perro|gato)\b.{0,30}\b(se (tomo|trago|bebio)|tomo|trago|"
        r"bebio)\b.{0,14}\bmi\b",
    ),
    "swallowed_rinse": (
        r"\b(swallowed|drank|gulped|swallow)\b.{0,24}\b(rinse|rinsing|mouthwash|rinse water|the water i rinsed)\b",
        r"\b(trague|tragado|trago|tragarme)\b.{0,24}\benjuague\b",
    ),
    "forgot_rinse": (
        r"\b(forgot|forget|didnt|did not|havent|have not|skipped)( to)?( do)?( my| the)? (rinse|rinsed|rinsing)\b",
        r"\b(olvide|no me|no)\b.{0,10}\b(enjuague|enjuagar|enjuagarme|enjuagado)\b",
    ),
    "forgot_mix": (
        r"\b(forgot|didnt|did not)( to)? (mix|stir|add (the|any)? ?(sweetener|packets|honey|syrup))\b|\b(drank|"
        r"took|swallowed) (it|the ampou?le) (plain|neat|straight|unmixed|without mixing)\b",
        r"\b(olvide|no|sin)\b.{0,10}\b(mezclar|mezclarla|mezclarlo|mezcle|la mezcle|lo mezcle)\b",
    ),
    "vomited_dose": (
        r"\b(threw up|throw up|vomited|puked|was sick|been sick)\b.{0,40}\b" + _DOSE + r"\b|\b" + _DOSE +
        r"\b.{0,24}\b(came (straight |right )?back up|i threw up|i vomited)\b",
        r"\bvomite\b.{0,40}\b" + _DOSE + r"\b",
    ),
    "spilled": (
        r"\b(spilled|spilt|knocked over)\b|\b(didnt|couldnt|could not|did not) finish (my|the|all (of )?(my|"
        r"the)) " + _DOSE + r"\b|^(?!.*\b(rins\w*|blood\w*|food|mouthwash|toothpaste|all in)\b).*\b(spat|spit) "
        r"((it|half|some|half of it|some of it|(my|the|his|her) " + _DOSE +
        r") out|out (it|half|some|(my|the|his|her) " +
        _DOSE + r"))\b",
        r"^(?!.*\b(enjuag\w*|sangre|comida)\b).*\b(la|lo) escup(i|io)\b|"
        r"\b(derrame|se me cayo|tire sin querer)\b.{0,24}\b" + _DOSE + r"\b|\bno (termine|pude terminar) (la|mi) " +
        _DOSE + r"\b",
    ),
    "breathed_in": (
        r"\bbreathed (it|the dose|the puff|the spray) in|\b(breathed in (the|my) (dose|puff|spray|medicine)|"
        r"inhaled (it|the (dose|puff|medicine|spray)|my (dose|puff|medicine)) ?)",
        r"\b(la|lo) (respire|inhale|aspire)\b|\binhale (la|mi) (dosis|medicina)\b",
    ),
    "ate_early": (
        r"\b(ate|drank|had (some |a |my )?(food|breakfast|coffee|tea|water|drink|snack|sip))\b.{0,40}\b" +
        _SOONER + r"\b|\b(forgot|didnt)( to)? wait\b",
        r"\b(comi|bebi|tome agua|desayune)\b.{0,30}\b" + _SOONER + r"\b",
    ),
    "ran_out": (
        r"\b(running|run|ran) out\b|\bnone left\b|\bout of (ampou?les|medicine|meds|my medicine)\b|\b(refill|"
        r"new prescription|repeat prescription|last (ampou?le|box))\b",
        r"\b(se me (acaba|acabo|acaban|termina|termino)|no me queda\w*|otra receta|receta nueva|ultima (ampolla|"
        r"caja))\b",
    ),
    "exposure": (
        r"\b(near|around|contact|exposed|met)\b.{0,30}\b(chicken ?pox|measles|shingles)\b",
        r"\b(varicela|sarampion|culebrilla)\b",
    ),
    "mix_ahead": (
        r"\b(mix|make|prepare|prep)\b.{0,30}\b(ahead|in advance|night before|evening before|day before|for (the|"
        r"both|all|tomorrow|a|two|2)|in one batch|whole day|all at once)\b",
        r"\b(mezclar|mezclarla|preparar|prepararla|hacer)\b.{0,30}\b(antes|la noche anterior|el dia anterior|"
        r"para (todo|manana|dos|la semana)|con tiempo|de una vez)\b",
    ),
    "mix_with": (
        r"\b(mix|mixed|use|add|put|stir|swap|replace|instead)\b.{0,30}\b" + _VEHICLES + r"\b",
        r"\b(mezclar|mezclarla|mezclarlo|usar|poner|agregar|echar)\b.{0,30}\b" + _VEHICLES + r"\b",
    ),
    "tablets_wait": (
        r"\b(take|have|swallow)\b.{0,20}\b(other|usual|regular|vitamin\w*|supplements?|tablets?|pills?)\b.{0,24}"
        r"\b(half hour|half an hour|30 min\w*|straight after|right after|in the (wait|window))\b",
        r"\b(tomar|tomarme)\b.{0,12}\b(otras?|pastillas?|vitaminas?)\b.{0,24}\b(media hora|espera|30 minutos|"
        r"justo despues|enseguida)\b",
    ),
    "brush_first": (
        r"\b(brush|clean)\b.{0,12}\bteeth\b (first|before)\b",
        r"\b(cepillar\w*|lavar\w*)\b.{0,6}\bdientes (antes|primero)\b",
    ),
    "brush_teeth": (
        r"\bbrush\b.{0,20}\bteeth\b|\bbrushing\b.{0,12}\bteeth\b",
        r"\b(cepillar\w*|lavar\w*)\b.{0,12}\bdientes\b",
    ),
    "rinse_how": (
        r"\b(how|what|which|why|when)\b.{0,30}\b(rinse|rinsing)\b|\brinse with\b|\bmouthwash\b",
        r"\b(como|con que|por que|para que|cuando)\b.{0,24}\b(enjuag\w+)\b|\benjuague bucal\b",
    ),
    "double_up": (
        r"\b(two|2|double|both|twice)\b.{0,12}\bdoses?\b|\bdouble (up|it|the dose)\b|\b(take|have) (two|2|both|"
        r"double)\b.{0,24}\b(make up|catch up|missed|forgot|instead)\b|\bcatch up\b|\b(should|do|can|shall|may|must) "
        r"(i|we|he|she) (give|take)( him| her)? (another|one more|a second)( one| dose)?( \?)?$",
        r"\b(dos dosis|doble dosis|dosis doble)\b|\btomar (dos|doble|el doble)\b",
    ),
    "missed_dose": (
        r"\bwhat (if|happens if)\b.{0,10}\b(miss|forget|skip)\b.{0,16}\b(one|dose|it)\b|"
        r"\b(missed|forgot|skipped|late|slept (in|through))\b.{0,50}\b(what (do|should|now)|what now|should i|"
        r"do i|can i|still (take|have)|ok to)\b|\b(what|should i|do i|can i|still)\b.{0,40}\b(missed|forgot|"
        r"skipped|late (dose|for))\b",
        r"\b(que (pasa|hago)) si\b.{0,12}\b(olvid\w+|salto)\b.{0,12}\b(dosis|una|alguna)\b|"
        r"\b(olvid\w+|salte|tarde)\b.{0,50}\b(que hago|debo|puedo|todavia|la tomo)\b|\b(que hago|debo|"
        r"puedo)\b.{0,40}\b(olvid\w+|salte)\b",
    ),
    "why_wait": (
        r"\bwhy\b.{0,30}\b(wait|not (eat|drink)|cant i (eat|drink)|no (food|water|drink))\b",
        r"\bpor que\b.{0,30}\b(esperar|no (puedo )?(comer|beber))\b",
    ),
    "grapefruit": (
        r"\bgrape ?fruit\b",
        r"\b(toronja|pomelo)\b",
    ),
    "coffee_before": (
        r"\b" + _FOODS + r"\b.{0,20}\b(before|first)\b|\bbefore\b.{0,24}\b(dose|medicine|it)\b.{0,20}\b" +
        _FOODS + r"\b",
        r"\b" + _FOODS + r"\b.{0,24}\b(antes|primero)\b",
    ),
    "with_food": (
        r"\b(with|after|without) (food|a meal|meals|my meal|breakfast|dinner)\b|\bempty stomach\b",
        r"\b(con|sin|despues de) (la )?(comida|comer|cenar|desayunar)\b|\ben ayunas\b",
    ),
    "drink_water": (
        r"\b(drink|sip|have|sips of|some|any|just)\b.{0,12}\b" + _DRINKS + r"\b|\bwater\b.{0,24}\b(ok|allowed|"
        r"yet|now|after|during)\b|\bchew\w*\b.{0,8}\bgum\b|\bcan i drink\b(?!.{0,16}(alcohol|beer|wine))",
        r"\b(tomar|beber|un poco de|traguito de)\b.{0,10}\b(agua|chicle|caramelo)\b|\bmasticar chicle\b|"
        r"\bpuedo beber\b(?!.{0,16}(alcohol|cerveza|vino))",
    ),
    "when_eat": (
        r"\b(when (can|could|may|do|should|will|is|am)|how long|how soon|how much longer)\b.{0,30}\b(eat|"
        r"breakfast|lunch|dinner|food|wait)\b|\b(can|may) i eat\b",
        r"\b(cuando|cuanto)\b.{0,24}\b(comer|beber|esperar|desayunar|cenar)\b|\bpuedo comer\b",
    ),
    "breathe_it": (
        r"\b(inhale|breathe) (it|this)\b|\b(inhale|breathe)\b.{0,10}\bor swallow\b|"
        r"\bswallow\b.{0,16}\bor (breathe|inhale)\b|\bnebuli[sz]er\b|\bsays? (to |for )?(inhale|inhalation)\b",
        r"\b(inhalar|respirar|aspirar)(la|lo)\b|\bse (inhala|respira|aspira)\b|\bnebuli\w+\b",
    ),
    "spacer": (
        r"\bspacer\b|\bchamber\b",
        r"\bespaciador\w*\b|\bcamara\b.{0,14}\binhalador\b|\baerocamara\b",
    ),
    "prime": (
        r"\bprim(e|ing)\b|\b(spray|puff)s?\b.{0,10}\b(in(to)? the air|before (using|the first))\b|\bnew inhaler\b",
        r"\b(inhalador nuevo|disparos? al aire|cebar)\b",
    ),
    "side_effects": (
        r"\bside effects?\b",
        r"\befectos? (secundarios?|adversos?)\b",
    ),
    "steroid_danger": (
        r"\bsteroids?\b.{0,40}\b(dangerous|safe|bad|harm\w*|risk\w*|addict\w*|weight|grow\w*|bones?|scare\w*|"
        r"worr\w*)\b|\b(dangerous|safe|harmful|risky|scared|worried|weight|growth|growing)\b.{0,30}\bsteroids?\b",
        r"\b(esteroides?|corticoides?|cortisona)\b.{0,40}\b(peligros\w+|segur\w+|mal\w*|dan\w*|engord\w*|crec\w*|"
        r"huesos|miedo)\b|\b(peligros\w+|segur\w+|miedo|engord\w*|crec\w*)\b.{0,30}\b(esteroides?|corticoides?|"
        r"cortisona)\b",
    ),
    "taste": (
        r"\b(tastes?|texture|flavou?r)\b.{0,20}\b(awful|horrible|bad|disgusting|gross|nasty|better|improve|"
        r"terrible|yucky)\b|\b(hate|cant stand|awful|horrible|disgusting|gross|nasty)\b.{0,16}\b(taste|texture|"
        r"flavou?r)\b",
        r"\b(sabe|sabor|textura)\b.{0,20}\b(mal|horrible|asqueros\w+|feo|fea|mejor|asco)\b|\b(odio|"
        r"no soporto)\b.{0,14}\b(sabor|textura)\b",
    ),
    "alcohol": (
        r"\b(alcohol|beers?|wine|cocktails?|whisk(e)?y|vodka)\b",
        r"\b(alcohol|cerveza|vino|trago de|copa)\b",
    ),
    "pregnant": (
        r"\b(pregnan\w+|breast ?feed\w*|trying for a baby|conceive)\b",
        r"\b(embaraz\w+|lactancia|dar pecho|amamant\w+)\b",
    ),
    "feel_ill": (
        r"\b(cold|flu|covid|stomach bug|virus|ill|sick|infection)\b.{0,40}\b(keep taking|still take|carry on|"
        r"go on|continue|skip)\b|\b(keep taking|still take|carry on|continue|skip)\b.{0,40}\b(a cold|flu|covid|"
        r"bug|virus|ill|sick|infection)\b",
        r"\b(resfriado|gripe|catarro|virus|enferm\w+)\b.{0,40}\b(sigo|seguir|la tomo|tomarla|continuo)\b|\b(sigo|"
        r"seguir|la tomo|tomarla)\b.{0,40}\b(resfriado|gripe|catarro|enferm\w+)\b",
    ),
    "other_medicine": (
        r"\b" + _MEDICINES + r"\b.{0,50}\b(with|too|same time|together|ok|safe|while|this)\b|\b(take|have|"
        r"use)\b.{0,16}\b" + _MEDICINES + r"\b",
        r"\b(tomar|con|junto)\b.{0,20}\b" + _MEDICINES + r"\b",
    ),
    "stop_well": (
        r"\b(stop|quit|come off|still need|keep|carry on) (taking |using |on |to take |with )?(it|this|them|the|"
        r"my)? ?(steroids?|medicine|medication|meds|treatment|slurry|doses|taking it|taking)\b|"
        r"\bcan i (just )?stop\b(?!.{0,6}(eating|coughing|drinking))",
        r"\b(dejar|parar|dejo|suspender)\b.{0,14}\b(de tomarla|de tomarlo|tomarla|la medicina|el medicamento|"
        r"el tratamiento|los esteroides)\b",
    ),
    "when_works": (
        r"\b(when|how long|how soon)\b.{0,40}\b(works?|working|kick in|feel better|help|improve|get better|"
        r"take effect)\b|\bis (it|this) (even )?working\b",
        r"\b(cuando|cuanto)\b.{0,40}\b(efecto|funciona\w*|mejor\w*|hacer efecto|ayuda\w*)\b",
    ),
    "why_scope": (
        r"\b(why|need|necessary|have to|another)\b.{0,40}\b(scope|endoscop\w+|biops\w+)\b",
        r"\b(por que|necesito|necesari\w+|otra)\b.{0,40}\b(endoscopia|biopsia)\b",
    ),
    "vaccine": (
        r"\b(vaccin\w+|flu (shot|jab)|covid (shot|jab)|booster|immuni[sz]ation|shingles shot)\b",
        r"\bvacun\w+\b",
    ),
    "surgery": (
        r"\b(surgery|operation|an(a)?esthetic|tooth out|teeth out|dentist|extraction)\b",
        r"\b(cirugia|operacion|operar|anestesia|dentista|sacar (una|la) muela)\b",
    ),
    "travel": (
        r"\b(travel\w*|holidays?|vacation|flights?|flying|time ?zones?|trip|abroad|airport)\b",
        r"\b(viaj\w+|vacaciones|vuelo|avion|zona horaria|aeropuerto)\b",
    ),
    "storage": (
        r"\b(fridge|refrigerat\w*|freez(e|er|ing)|store (it|them)|storage|room temp\w*|keep (it|them) (in|at|"
        r"cold|cool))\b|\bhow long\b.{0,40}\b(open|opened|foil|pouch)\b",
        r"\b(nevera|refrigerador|congelar\w*|guardar\w*|conservar\w*|temperatura ambiente)\b|"
        r"\bcuanto\b.{0,30}\b(abiert\w+|sobre)\b",
    ),
    "move_once": (
        r"\b(take|have|do|move) (it|this|my (\w+ )?dose|tonights dose|todays dose)\b.{0,16}\b(later|earlier|sooner)"
        r" (today|tonight|this \w+)\b|\b(take|have|do) (it|this|my (\w+ )?dose)\b.{0,12}\bat \d{1,2}\b.{0,16}"
        r"\b(instead|today|tonight)\b",
        r"\btomar(la|lo)?\b.{0,12}\bhoy\b.{0,12}\b(mas tarde|mas temprano|a las?)\b|\btomar(la|lo)?\b.{0,16}"
        r"\b(mas tarde|mas temprano|a las? \d{1,2})\b.{0,8}\bhoy\b",
    ),
    "change_time": (
        r"\b(another|different|earlier|later|change|move|switch|shift)\b.{0,24}\b(times?|hour|reminders?|"
        r"schedule)\b|\btake it (earlier|later)\b",
        r"\b(otra hora|cambiar\b.{0,12}\b(hora|horario)|mas (temprano|tarde) la)\b",
    ),
    "what_dose": (
        r"\b(what|how much|how many (ampou?les|puffs)|(which|what) dose) (do|should) (i|we) (have to )?take( now| "
        r"today| tonight)?[ ?]*$|\bwhat(s| is) my( new| next)? dose( now)?[ ?]*$",
        r"\b(que|cuanto|que dosis) (tomo|tengo que tomar)( ahora| hoy)?[ ?]*$|\bcual es mi( nueva)? dosis[ ?]*$",
    ),
    "who_reads": (
        r"\b(are you|is this|am i talking to|talking to|who)\b.{0,20}\b(real|human|person|bot|robot|computer|"
        r"machine|reads?|reading)\b",
        r"\b(eres|es usted|hablo con|quien)\b.{0,20}\b(persona|robot|maquina|real|lee|humano)\b",
    ),
}
# What has happened is told, not asked.
_TOLD = frozenset({"took_twice", "child_took", "swallowed_rinse", "forgot_rinse", "forgot_mix", "vomited_dose",
                   "spilled", "breathed_in", "ate_early", "ran_out", "exposure", "taste"})


def question_of(words: list[str], corrected: list[str] | None = None) -> str:
    """The id of the first common question in the words as written, else in their corrected spelling, or ''."""
    return _find(words) or (_find(corrected) if corrected and corrected != words else "")


def _find(words: list[str]) -> str:
    text = " ".join(word for word in words if word[:1].isalnum() or word in "?¿")
    asks = _ASKS.search(text) is not None
    return next((name for name, pattern in _compiled() if (asks or name in _TOLD) and pattern.search(text)), "")


@cache
def _compiled() -> tuple[tuple[str, re.Pattern[str]], ...]:
    return tuple((name, re.compile("|".join(f"(?:{pattern})" for pattern in patterns)))
                 for name, patterns in PATTERNS.items())

"""Spanish grammar of the common questions: whole forms over plain words (no accents, no marks)."""

from __future__ import annotations

ES_POLITE = (r"hola|buenas|buenos dias|buenas tardes|buenas noches|por favor|porfa|porfavor|gracias|muchas gracias|"
             r"mil gracias|perdon|perdona|perdone|disculpe|disculpa|una pregunta|una duda|una consulta|tengo una "
             r"pregunta|tengo una duda|pregunta|duda|queria preguntar|queria saber|quisiera saber|solo queria saber|"
             r"me puede decir|me puedes decir|oye|oiga|y|ok|vale|doctor|doctora|enfermera")

_MEDICINE = (r"(?:dosis|medicina|medicamento|mezcla|ampollas?|inhalador|budesonida|fluticasona|jarabe|esteroide|"
             r"pastilla de siempre)")
_THE = rf"(?:la|el|mi|mis|las|los|esta|este|una|su) (?:{_MEDICINE})"
_MEAL = r"(?:comida|comer|cenar|desayunar|la comida|el desayuno|la cena|el almuerzo|alimentos)"
_SOME = (r"(?:(?:un|una|algo|algo de|un poco de|poco de|un vaso de|una taza de|un trago de|un traguito de|traguito de|"
         r"mi|el|la|solo|su) )*")
_DRINK = r"(?:agua|cafe|te|jugo|zumo|leche|refresco|agua ya)"
_WAIT = r"(?:media hora|espera|ventana|30 minutos|treinta minutos)"
_TAKING = rf"(?:tomarla|tomarlo|tomar {_THE}|{_THE}|darsela)"
_AFTER = (rf"(?:(?:justo |enseguida )?despues(?: de {_TAKING})?|enseguida|(?:en|durante|dentro de) (?:la|esa|los|"
          rf"esos|el) {_WAIT}|mientras espero)")
_NOW = rf"(?: (?:ya|ahora|ahorita|todavia|por ahora|otra vez|{_AFTER}))*"
_BEFORE = rf"(?:antes(?: de {_TAKING})?|primero)"
_ALCOHOL = r"(?:alcohol|cervezas?|vino|copa de vino|copita de vino|vaso de vino)"
_DAY = r"(?:hoy|esta (?:noche|manana|tarde|vez)|solo (?:hoy|por hoy)|por hoy|por esta vez)"
_TIME = (r"(?:a las|a la|sobre las|como a las) (?:[01]?\d|2[0-4])(?:[:.][0-5]\d)?(?: (?:de la (?:manana|noche|tarde)|"
         r"am|pm))?")
_SPAN = r"(?:(?:un poco|un poquito|una hora|media hora|dos horas|2 horas|1 hora) )?"


def spanish(parent: bool) -> dict[str, tuple[str, ...]]:
    """id -> whole forms. A parent's 'puede' is about the patient."""
    who = r"(?:puedo|puede|podemos|podria|debo|debe)" if parent else r"(?:puedo|podemos|podria|debo)"
    may = (rf"(?:(?:ya )?(?:me |la |lo |se )?{who}(?: (?:mi hijo|mi hija|el nino|la nina))?(?: ya)?|(?:ya )?se "
           rf"puede(?: ya)?|esta bien|esta bien si|es posible|hay que|tengo que|(?:la|lo) (?:puedo|podria))")
    eat = (r"(?:comer(?: algo)?|beber|comer y beber|comer o beber|desayunar|cenar|almorzar|merendar|tomar algo|"
           r"comer algo)")
    teeth = r"(?:cepillar|cepillarme|lavar|lavarme|cepillarse|lavarse|cepillarle|lavarle) los dientes"
    take = (rf"(?:tomarla|tomarlo|tomar(?: {_THE})?|darle {_THE}|darsela|me la tomo|la tomo|lo tomo|la toma|se toma|"
            rf"tomo {_THE})")
    fridge = r"(?:la nevera|nevera|el refrigerador|refrigerador|la heladera|el frigorifico|frio)"
    forget = (rf"(?:se me olvida|olvido|me olvido de|me salto|se me pasa|no tomo|se le olvida)(?: tomar)? (?:{_THE}|"
              rf"alguna|una)")
    return {
        "coffee_before": (
            rf"{may} (?:tomar|beber|comer|desayunar)(?: {_SOME}{_DRINK}| algo)? {_BEFORE}",
            rf"{_SOME}{_DRINK} antes o despues(?: de {_TAKING})?",
        ),
        "with_food": (
            rf"(?:{may} )?{take} (?:con|sin|despues de) {_MEAL}(?: o (?:sin|con) (?:ella|{_MEAL})| o en ayunas)?",
            rf"(?:{may} )?{take} en ayunas(?: o con {_MEAL})?",
        ),
        "drink_water": (
            rf"{may} (?:tomar|beber) {_SOME}(?:{_DRINK}){_NOW}", rf"{may} beber(?: algo)?{_NOW}",
            rf"(?:esta bien|pasa algo|puede ser) si (?:bebo|tomo|bebe|toma) {_SOME}(?:{_DRINK}){_NOW}",
            rf"cuando (?:ya )?{who} (?:beber|tomar) {_SOME}(?:{_DRINK})",
            rf"{may} masticar {_SOME}chicle{_NOW}",
        ),
        "when_eat": (
            rf"(?:a que hora|cuando|en cuanto tiempo) (?:ya )?{who} {eat}{_NOW}",
            rf"(?:cuanto|cuanto tiempo) (?:hay que|tengo que|debo|tiene que|debe) esperar(?: (?:para|antes de) "
            rf"{eat})?{_NOW}",
            rf"(?:cuanto|cuanto tiempo) (?:falta|me falta) para {eat}", rf"{may} {eat}{_NOW}",
        ),
        "why_wait": (rf"por que (?:hay que|tengo que|debo) esperar(?: (?:la )?{_WAIT})?(?: para {eat})?{_NOW}",),
        "brush_first": (rf"{may} {teeth} {_BEFORE}", rf"{teeth} antes o despues(?: de {_TAKING})?"),
        "brush_teeth": (rf"{may} {teeth}{_NOW}", rf"cuando (?:me )?{who} {teeth}"),
        "rinse_how": (r"(?:como|con que|cuando|por que|para que) (?:me enjuago|debo enjuagarme|tengo que enjuagarme|"
                      r"hay que enjuagarse)(?: la boca)?",),
        "missed_dose": (
            rf"(?:que pasa si|que hago si|y si|que debo hacer si|que se hace si) {forget}",
            rf"si {forget} que (?:hago|pasa|debo hacer)",
        ),
        "move_once": (
            rf"{may} {take}(?: {_DAY})? {_SPAN}(?:mas tarde|mas temprano|antes de hora|despues|tarde|temprano)(?: "
            rf"{_DAY})?",
            rf"{may} (?:tomar|tomarla|tomarlo|tomar {_THE}|darsela)(?: {_DAY})? {_TIME}(?: {_DAY})?"
            rf"(?: en vez de {_TIME})?",
        ),
        "storage": (
            rf"(?:(?:esto|{_THE}) )?(?:va|necesita|se guarda|debe ir|tiene que ir|necesita estar)(?: en)? {fridge}",
            rf"(?:hay que|tengo que|debo|{may}) (?:guardarla|guardarlo|guardar {_THE}|meterla|ponerla) en {fridge}",
            rf"(?:donde|como) (?:la guardo|lo guardo|se guarda(?: {_THE})?|guardo {_THE}|tengo que guardarla|debo "
            rf"guardarla)",
        ),
        "when_works": (
            r"(?:cuanto|cuanto tiempo) (?:tarda|demora|tardara)(?: en| para)? (?:hacer efecto|funcionar|hacerme "
            r"efecto|actuar)",
            r"(?:cuando|en cuanto tiempo) (?:hace|hara|empieza a hacer|hace ya|va a hacer) efecto",
            r"cuando (?:funciona|empieza a funcionar|va a funcionar|notare (?:la diferencia|algun cambio))",
        ),
        "tablets_wait": (
            rf"{may} (?:tomar|tomarme) (?:mis|las|los|mi|la) (?:otras? |otros? )?(?:pastillas?|medicinas?|"
            rf"medicamentos?|vitaminas?)(?: de siempre)? {_AFTER}(?: o (?:espero|tengo que esperar))?",
        ),
        "alcohol": (
            rf"{may} (?:tomar|beber|tomarme) {_SOME}{_ALCOHOL}(?: (?:{_DAY}|con {_MEAL}|el fin de semana|de vez en "
            rf"cuando))*",
        ),
        "grapefruit": (rf"{may} (?:comer|tomar|beber) {_SOME}(?:jugo de |zumo de )?(?:toronja|pomelo)",),
        "mix_ahead": (
            rf"{may} (?:mezclar|preparar|hacer)(?:la|lo| {_THE})? (?:antes|con tiempo|la noche (?:anterior|antes)|"
            rf"el dia (?:anterior|antes)|para manana|para todo el dia)",
        ),
        "breathe_it": (r"(?:se|la|lo) (?:inhala|respira|inhalo|respiro)(?: o (?:se traga|la trago|lo trago))?",
                       r"(?:se traga|la trago|lo trago) o (?:se inhala|se respira|la inhalo|la respiro)"),
        "spacer": (rf"(?:{may} )?(?:usar|uso|necesito|necesito usar) (?:el|un|la) (?:espaciador|camara|aerocamara|"
                   rf"camara espaciadora)(?: con {_THE})?",),
        "what_dose": (
            r"(?:que|cuanto|cuanta|que dosis|cual dosis) (?:tomo|toma|tengo que tomar|debo tomar|le doy|me toca)"
            r"(?: (?:ahora|ahorita|hoy|esta noche|ya))?",
            r"cuant[oa]s (?:ampollas|ampolletas|disparos) (?:tomo|toma|son|le doy|tengo que tomar)"
            r"(?: (?:ahora|ahorita|hoy|esta noche))?",
            r"cual es (?:mi|su|la) (?:nueva |proxima )?dosis(?: nueva)?(?: (?:ahora|ahorita|hoy))?",
        ),
        "who_reads": (r"(?:eres|es usted|hablo con) (?:una? )?(?:persona|robot|maquina|humano|programa)(?: real)?",
                      r"quien (?:lee|ve) (?:esto|mis mensajes|lo que escribo)"),
    }

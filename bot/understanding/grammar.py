"""The closed grammar: replies that answer the open question and nothing else. Only these are closed without a person.

A reply is accepted when its words, all of them, parse; one word outside the grammar and a person reads it. The grammar never looks at
what it does not know, so a longer message cannot slip through.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bot.understanding.tokens import Token
from bot.understanding.types import Answer


@dataclass(frozen=True, slots=True)
class Parsed:
    """A whole parse: the answer and its value, in the unit of the question (days, minutes, or a plain number)."""

    answer: Answer
    number: float | None = None
    clock_time: str = ""


_POLITE = r"(?:thanks|thank you|thank u|thx|ty|ta|cheers|please|thank you so much|thanks so much|thank you very much|many thanks|great|perfect|ok|okay)"
_EN = {
    "polite": _POLITE,
    "yes": r"(?:yes|yeah|yep|yup|yess|ye|y|ya|yea|aye|sure|correct|right|thats right|affirmative|of course|yes please|yes i did|i did|yes i have|yes i do|i have|"
           r"yes it did|yes it is|yes i am|absolutely|definitely|indeed)",
    "no": r"(?:no|nope|nah|none|n|nothing|not at all|no nothing|nope nothing|nope none|no none|none at all|nothing at all|never|no never|no i havent|no i didnt|i havent|"
          r"i didnt|no not at all|nothing like that|none of those|none of that|no problems|no issues|no problem at all|no trouble|not really|no i dont|i dont|nil|zero|no not this week|not this week|none this week)",
    "taken": r"(?:(?:i |ive |i have |have |yes i |yes ive |yep |yes |yeah |yup |just |i just |ive just |already |ok |okay )*(?:taken|took|had|drank|swallowed|did|done|finished|drunk)"
             r"(?: it| my dose| the dose| mine| them| my medicine| my meds| both| the medicine| my puffs| my shake| the slurry| all of it| it all)?"
             r"(?: just now| now| already| on time| this morning| tonight| this evening| earlier| today| a while ago| in one go)?|done and dusted|all done|dose done|dose taken|dose in|down the hatch|all taken|just did|yeah just did|yes just did|"
             r"its done|its taken|medicine taken|meds taken|puffs done|taken and rinsed|done and rinsed|took it and rinsed|rinsed)",
    "not_taken": r"(?:not yet|no not yet|not taken|havent yet|not taken yet|i havent yet|havent taken it yet|i havent taken it yet|nope not yet|not just yet)",
    "later": r"(?:(?:not yet )?(?:will do|ill do|ill take|will take) (?:it )?(?:later|soon|now|in a bit|in a minute|shortly)|later|soon|in a bit|in a minute|in a sec|not yet soon|will do it later|remind me later|a bit later|shortly|will do soon|will take it later|will take it soon|ill take it later|ill do it later|ill take it soon|"
             r"ill do it soon|not now|not right now|after breakfast|after dinner|after lunch|before bed|when im home|when i get home|about to|about to take it|taking it now|doing it now|on it)",
    "thanks": r"(?:(?:ok|okay|k|kk|cool|great|good|lovely|perfect|fine|brilliant|awesome|super|sounds good|will do|got it|understood|noted|all good|all fine|all well|all ok|im fine|im good|im ok|fine thanks|good thanks|all good here|"
              r"i understand|yes i understand|yes understood|i see|sure|right|no problem|no worries|np|hi|hello|hey|morning|good morning|good evening|good night|goodnight|good afternoon|night|bye|see you|alright|"
              r"everything is fine|everything fine|everything ok|everything is ok|feeling fine|feeling good|doing fine|doing well|doing good|very well|roger|makes sense|clear|all clear|that makes sense|thanks for the reminder|"
              r"thanks for letting me know|thank you for the reminder|appreciated|much appreciated|appreciate it|got that|ok got it|ok will do|ok great|ok cool|ok good|ok perfect|ok fine|nice|nice one|wonderful|excellent|happy with that|gotcha|have a good day|have a nice day|you too)|" + _POLITE + r")",
    "number_words": {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "a": 1, "an": 1, "eleven": 11,
                     "twelve": 12, "fourteen": 14, "fifteen": 15, "twenty": 20, "thirty": 30, "half": 0.5, "couple": 2, "few": 3, "zero": 0},
}
_DAYS = {"day": 1.0, "days": 1.0, "week": 7.0, "weeks": 7.0, "month": 30.0, "months": 30.0, "dia": 1.0, "dias": 1.0, "semana": 7.0, "semanas": 7.0,
         "mes": 30.0, "meses": 30.0}
_MINUTES = {"min": 1.0, "minuto": 1.0, "minutos": 1.0, "hour": 60.0, "hours": 60.0, "hora": 60.0, "horas": 60.0}
_LEAD = r"(?:(?:about|around|maybe|roughly|nearly|almost|for|its been|like|approx|the last|past|over|just|only|since|at|unos|unas|como|hace|desde|casi|a las|las|cerca de|mas o menos) )*"
# What a check-in item is called in a denial: 'no patches this week' closes `check_in:thrush`. Item names are matched by their beginning.
_ITEM_WORDS = {
    "swallow": "trouble|problems|trouble swallowing|problems swallowing|food stuck|nothing stuck|difficulty|problemas|dificultad",
    "mouth": "white patches|patches|spots|sores|soreness|cold sores|white|manchas|llagas",
    "new": "fever|new medicine|new medicines|hoarseness|blood|chest pain|nothing new|fiebre|sangre|nada nuevo",
    "body": "dizziness|tiredness|vomiting|weight loss|nausea|mareos|cansancio|vomitos",
    "thrush": "white patches|patches|white spots|spots|white|thrush|white stuff|coating|soreness|white coating|manchas|manchas blancas|placas|llagas",
    "odynophagia": "pain|burning|stinging|pain swallowing|pain when swallowing|pain when i swallow|it doesnt hurt|doesnt hurt|soreness|dolor|dolor al tragar|no me duele|ardor",
    "pain": "pain|burning|stinging|pain swallowing|pain when swallowing|pain when i swallow|it doesnt hurt|doesnt hurt|soreness|dolor|dolor al tragar|no me duele|ardor",
    "food": "food stuck|stuck food|food sticking|sticking|getting stuck|nothing stuck|nothing got stuck|nothing has got stuck|food got stuck|problems|nada atascado|comida atascada|nada se atasco",
    "impaction": "food stuck|stuck food|food sticking|sticking|nothing stuck|nothing got stuck|food got stuck|nada atascado|comida atascada",
    "herpes": "cold sores|cold sore|blisters|sores|ulcers|mouth sores|calenturas|ampollas|herpes|llagas|aftas",
    "fever": "fever|temperature|temp|fevers|fiebre|temperatura",
    "voice": "hoarseness|hoarse|voice change|voice changes|change|ronquera|afonia",
    "hoarse": "hoarseness|voice change|change|ronquera|afonia",
    "adrenal": "dizziness|tiredness|dizzy spells|weakness|mareo|mareos|cansancio|debilidad",
    "missed": "missed doses|missed dose|doses missed|missed any|havent missed any|didnt miss any|dosis olvidadas|olvidos",
    "new_med": "new medicine|new medicines|new meds|new tablets|new medication|nothing new|medicinas nuevas|nada nuevo|medicamentos nuevos",
    "new_medicine": "new medicine|new medicines|new meds|new tablets|new medication|nothing new|medicinas nuevas|nada nuevo|medicamentos nuevos",
    "anything": "nothing else|thats all|thats it|nothing more|nothing to add|that is all|nada mas|eso es todo|es todo",
}
_TIMES_EN = r"(?: this week| today| lately| these days| so far| at all| any more| anymore| since last time| recently| ever)?"
_TIMES_ES = r"(?: esta semana| hoy| ultimamente| por ahora| para nada| en absoluto| nunca| estos dias)?"
_ES = {
    "polite": r"(?:gracias|muchas gracias|mil gracias|por favor|ok|vale|perfecto|genial)",
    "yes": r"(?:si ya|ya si|si|sip|sii|claro|claro que si|correcto|asi es|por supuesto|si claro|si asi es|eso es|afirmativo|s)",
    "no": r"(?:no|nop|nope|ninguno|ninguna|nada|no nada|para nada|nunca|no nunca|ninguna de esas|nada de eso|ninguno de esos|en absoluto|no para nada|no ninguno|no ninguna|no tengo nada|sin problemas|ningun problema|nada de nada|n)",
    "taken": r"(?:(?:ya |si |si ya |acabo de |me la |me lo |la |lo |ya me la |ya me lo |ya la |ya lo |si la |si lo |si me la |si me lo |la he |lo he |ya la he |ya lo he |me la he |me lo he |ya me la he |he |ya he )*"
             r"(?:tome|tomado|tomada|hecho|hecha|tomarla|tomarlo|listo|lista|tragado|bebido)(?: la dosis| mi dosis| la medicina| el medicamento| todo| el jarabe)?(?: ahora| ya| esta manana| hoy| hace un rato| a tiempo| anoche)?|"
             r"dosis tomada|dosis hecha|ya esta|ya|todo listo|hecho y enjuagado|tomado y enjuagado)",
    "not_taken": r"(?:todavia no|aun no|no todavia|no aun|no la he tomado|no lo he tomado|no me la he tomado|no la he tomado todavia|todavia no la he tomado|aun no la he tomado|todavia no la tomo)",
    "later": r"(?:luego|despues|mas tarde|mas tarde la tomo|ahora la tomo|ahorita|ahora mismo|enseguida|en un rato|en un momento|al rato|ahora voy|cuando llegue a casa|despues de cenar|despues de desayunar|ya voy|en breve|pronto)",
    "thanks": r"(?:vale|ok|okay|bien|muy bien|todo bien|perfecto|genial|entendido|comprendido|de acuerdo|hola|buenas|buenos dias|buenas noches|buenas tardes|gracias|muchas gracias|mil gracias|gracias por avisar|gracias por el recordatorio|"
              r"estupendo|excelente|ya entendi|entiendo|lo entiendo|claro|todo en orden|estoy bien|bien gracias|todo perfecto|sin novedad|listo|de nada|adios|hasta luego|igualmente|vale perfecto|ok perfecto|super|si entendido|si entiendo|esta bien)",
    "number_words": {"un": 1, "uno": 1, "una": 1, "dos": 2, "tres": 3, "cuatro": 4, "cinco": 5, "seis": 6, "siete": 7, "ocho": 8, "nueve": 9, "diez": 10, "par": 2, "once": 11,
                     "doce": 12, "quince": 15, "veinte": 20, "treinta": 30, "media": 0.5, "cero": 0, "pocos": 3, "pocas": 3},
}
# A reply of only these words, with at least one that says it, is a confirmation; a single word outside and it is none.
_BAGS = {
    "en": {
        "taken": ("took taken had done did finished drank swallowed rinsed",
                  "i ive have yes yeah yep yup ok okay just now already it my dose the this_morning this_evening tonight today earlier and all thanks thank you doctor meds medicine "
                  "puffs slurry mine morning evening night on time as usual both in too also got then well good great fine ta cheers a few min ago on_time perfectly sure sir "
                  "rinsed brushed spat spit out mouth after breakfast dinner lunch hi hello hey there"),
        "thanks": ("ok okay thanks thank thx good great perfect fine understood noted cool lovely brilliant awesome cheers excellent wonderful well alright right gotcha appreciated sure",
                   "you so much very all is everythings everything its it im i am doing feeling got will do sounds today here still really a lot for the reminder your help info and "
                   "hi hello morning evening night u have day nice too that helps message checking in asking to know now everyone this week so far yes yep happy with going on my end as usual"),
    },
    "es": {
        "taken": ("tome tomado tomada hecho hecha tomarla tomarlo bebido tragado listo lista",
                  "si ya la lo me he acabo de mi dosis medicina hoy ahora esta mañana noche tarde gracias a tiempo todo y bien el jarabe las los ok vale doctor hace un rato como siempre "
                  "despues desayuno cena enjuagado enjuague buenos dias hola"),
        "thanks": ("ok vale gracias bien perfecto genial entendido listo bueno estupendo excelente claro super",
                   "muchas mil todo muy de acuerdo por el recordatorio aviso esta estoy va si doctor hoy y a usted buenos dias hola yo lo se hare asi doctora muy_amable la informacion ayuda"),
    },
}
_TABLES = {"en": _EN, "es": _ES}
_DOSE = {"dose", "when_taken"}


def parse(tokens: list[Token], asked: str, language: str) -> Parsed | None:
    """The reply's whole parse as an answer to `asked`, or None."""
    words = " ".join(t.word for t in tokens if t.word not in ",.!…\n¡;)(—-:")
    words = re.sub(r"\b(\w+)( \1\b)+", r"\1", words).strip()
    if not words or len(words) > 90 or "?" in words or "¿" in words:
        return None
    table = _TABLES.get(language, _EN)
    for candidate in _peeled(words, str(table["polite"])):
        parsed = _parse(candidate, asked, language, table)
        if parsed:
            return parsed
    return None


def _peeled(words: str, polite: str) -> list[str]:
    """The words, and the words without polite phrases before and after."""
    bare = re.sub(rf"(?: {polite}| doctor| all| everyone)+$", "", words)
    bare = re.sub(rf"^(?:(?:{polite}|hi|hello|hey|morning|good morning|hola|buenos dias) )+", "", bare)
    return [words] if bare == words or not bare else [words, bare]


def _full(pattern: object, words: str) -> bool:
    return re.fullmatch(str(pattern), words) is not None


def _parse(words: str, asked: str, language: str, table: dict[str, object]) -> Parsed | None:
    symptom = asked.startswith("check_in:") or asked in ("happening_now", "follow_up")
    clock = _clock(words)
    if asked in _DOSE and clock:
        return Parsed(Answer.CLOCK_TIME, clock_time=clock)
    amount = _amount(words, table)
    if asked == "how_long" and amount is not None:
        return Parsed(Answer.NUMBER, number=amount[0] / 1440 if amount[1] == "minutes" else amount[0])
    if asked == "how_long" and _since(words, language):
        return Parsed(Answer.NUMBER, number=None)
    soon = re.fullmatch(r"(?:not yet |no not yet )?(?:(?:i )?(?:will do|ill do|ill take|will take)(?: it)? )?(in .+|en .+|give me .+|dame .+)", words)
    if soon and asked in _DOSE:
        amount = _amount(soon.group(1), table)
    if asked in _DOSE and amount is not None and amount[1] == "minutes":
        return Parsed(Answer.LATER, number=amount[0])
    if asked.startswith("check_in:") and re.fullmatch(r"\d{1,2}", words):
        return Parsed(Answer.NUMBER, number=float(words))
    if asked.startswith("check_in:") and re.fullmatch(r"[a-e]", words):
        return Parsed(Answer.LETTER, number=float(ord(words) - ord("a") + 1))
    if asked in ("why_not", "understood") and re.fullmatch(r"[1-9a-e]", words):
        return Parsed(Answer.LETTER, number=float(words) if words.isdigit() else float(ord(words) - ord("a") + 1))
    if _full(table["not_taken"], words) and asked in ("dose", "when_taken", ""):
        return Parsed(Answer.NOT_TAKEN)
    if symptom and _denies(words, asked, language, table):
        return Parsed(Answer.NO)
    if _full(table["no"], words) and asked:
        return Parsed(Answer.NO)
    if _full(table["yes"], words):
        return Parsed(Answer.YES)
    if asked in ("dose", "when_taken", "") and not symptom:
        return _dose(words, asked, table)
    if _full(table["thanks"], words) and not symptom:
        return Parsed(Answer.YES if asked == "understood" else Answer.THANKS)
    if symptom and _full(table["polite"], words):
        return Parsed(Answer.THANKS)
    return None


def _dose(words: str, asked: str, table: dict[str, object]) -> Parsed | None:
    timed = re.fullmatch(r"(?P<said>.+?) (?:at|around|about|a las|sobre las|a eso de las) (?P<time>.+)", words)
    if timed and _full(table["taken"], timed.group("said")) and _clock(timed.group("time")):
        return Parsed(Answer.TAKEN, clock_time=_clock(timed.group("time")))
    ago = re.fullmatch(r"(?P<said>.+?) (?:about |around )?(?P<n>.+?) ago|(?P<said2>.+?) hace (?P<n2>.+)", words)
    if ago and _full(table["taken"], ago.group("said") or ago.group("said2")):
        amount = _amount((ago.group("n") or ago.group("n2")).strip(), table)
        if amount is not None and amount[1] in ("minutes", "days"):
            return Parsed(Answer.TAKEN, number=amount[0] if amount[1] == "minutes" else amount[0] * 1440)
    if _full(table["taken"], words):
        return Parsed(Answer.TAKEN)
    if asked and _full(table["later"], words):
        return Parsed(Answer.LATER)
    if _full(table["thanks"], words):
        return Parsed(Answer.THANKS)
    language = "es" if table is _ES else "en"
    if _bag(words, language, "taken"):
        return Parsed(Answer.TAKEN)
    return Parsed(Answer.THANKS) if _bag(words, language, "thanks") else None


def _bag(words: str, language: str, kind: str) -> bool:
    """Whether every word is of the kind, one at least says it, and nothing asks."""
    says, allowed = (frozenset(" ".join(part).split() if isinstance(part, tuple) else part.replace("_", " ").split()) for part in _BAGS[language][kind])
    found = words.split()
    if found[0] in ("is", "am", "are", "do", "will", "can", "es", "esta") or len(found) > 14:
        return False
    return bool(says.intersection(found)) and all(word in says or word in allowed for word in found)


def _denies(words: str, asked: str, language: str, table: dict[str, object]) -> bool:
    item = asked.removeprefix("check_in:")
    names = "|".join(value for key, value in _ITEM_WORDS.items() if item.startswith(key) or key in item)
    times = _TIMES_ES if language == "es" else _TIMES_EN
    no = str(table["no"])
    lead = r"(?:no|not|sin|ni|ningun|ninguna|nada de|no tengo|no hay|no he tenido|no i dont have|i dont have|i dont have any|dont have any|havent had any|i havent had any|no hubo|no signs of|zero|no more)"
    if re.fullmatch(rf"{no}{times}", words):
        return True
    if not names:
        return False
    return re.fullmatch(rf"(?:(?:{no}|all good|all fine) )?(?:{lead} (?:any )?(?:{names})(?: (?:or|ni|nor|no) (?:{names}))*|"
                        rf"(?:nothing stuck|nothing got stuck|nothing has got stuck|it doesnt hurt|doesnt hurt|no me duele|nada atascado|nada se atasco|nothing new|nada nuevo|nothing else|thats all|thats it|nothing more|nothing to add|nada mas|eso es todo|havent missed any|didnt miss any)){times}",
                        words) is not None and (_first_word_ok(words, names))


def _first_word_ok(words: str, names: str) -> bool:
    fixed = ("nothing", "it doesnt", "doesnt", "no ", "not ", "nada", "thats", "havent", "didnt", "sin ", "ni ", "ning", "i ", "dont", "zero", "nope", "nah", "all ", "none", "never", "eso")
    return words.startswith(fixed) and bool(names)


def _clock(words: str) -> str:
    """A clock time 'HH:MM' in words, or ''."""
    bare = re.sub(rf"^{_LEAD}", "", words).strip()
    spoken = re.fullmatch(r"(half past|quarter past|quarter to) (\w+)", bare)
    numbers = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12}
    if spoken:
        hour = numbers.get(spoken.group(2)) or (int(spoken.group(2)) if spoken.group(2).isdigit() else 0)
        if 1 <= hour <= 12:
            minute = {"half past": 30, "quarter past": 15, "quarter to": 45}[spoken.group(1)]
            return f"{hour - (spoken.group(1) == 'quarter to'):02d}:{minute:02d}"
    found = re.fullmatch(r"(\d{1,2})(?:[:.h](\d{2}))? ?(am|pm|a m|p m|h|oclock|de la manana|de la tarde|de la noche)?(?: this morning| this evening| tonight| last night| today)?", bare)
    if not found or not (found.group(2) or found.group(3) or int(found.group(1)) <= 24):
        return {"noon": "12:00", "midday": "12:00", "midnight": "00:00", "mediodia": "12:00"}.get(bare, "")
    hour, minute = int(found.group(1)), int(found.group(2) or 0)
    half = (found.group(3) or "").replace(" ", "")
    if half in ("pm", "delatarde", "delanoche") and hour < 12:
        hour += 12
    if half == "am" and hour == 12:
        hour = 0
    return f"{hour:02d}:{minute:02d}" if hour < 24 and minute < 60 else ""


def _amount(words: str, table: dict[str, object]) -> tuple[float, str | None] | None:
    """A number with its unit: ('days' or 'minutes' or None), or None."""
    numbers = table["number_words"]
    assert isinstance(numbers, dict)
    bare = re.sub(rf"^{_LEAD}(?:in |en |give me |dame |wait )?", "", words).strip()
    found = re.fullmatch(r"(?:a |an |un |una )?(\d+(?:[.,]\d+)?|[a-z]+)(?: or (?:\d+|[a-z]+)| to \d+| o \d+|-\d+)?(?: of| de)?(?: more| mas)?(?: ([a-z]+))?(?: now| ago| already| or so| ya| mas)?", bare)
    if not found:
        return None
    value = float(found.group(1).replace(",", ".")) if found.group(1)[0].isdigit() else numbers.get(found.group(1))
    unit = found.group(2)
    if value is None:
        return None
    if unit is None:
        return (float(value), None) if found.group(1)[0].isdigit() else None
    if unit in _DAYS:
        return float(value) * _DAYS[unit], "days"
    if unit in _MINUTES:
        return float(value) * _MINUTES[unit], "minutes"
    return None


def _since(words: str, language: str) -> bool:
    days = "monday|tuesday|wednesday|thursday|friday|saturday|sunday|yesterday|today|last week|last night|this morning|the weekend|last monday"
    dias = "lunes|martes|miercoles|jueves|viernes|sabado|domingo|ayer|hoy|anoche|la semana pasada|esta manana|el lunes|el martes|el miercoles|el jueves|el viernes|el sabado|el domingo"
    return re.fullmatch(rf"(?:since |desde )?(?:{dias if language == 'es' else days})", words) is not None

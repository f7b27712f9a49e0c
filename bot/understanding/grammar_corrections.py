"""'Oops, I didn't take it', 'I meant no', 'I tapped the wrong button', 'no wait, it was 7:50': an answer put right.

A correction parses whole, as everything in the closed grammar does; beside other words it is `loose`, and then nothing
is taken back on it: it is asked about.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from bot.understanding.grammar_clauses import taken_at, time_of
from bot.understanding.grammar_times import clock_time
from bot.understanding.grammar_words import EN, LANGUAGES, Words


class Put(StrEnum):
    """What the words put right."""

    WRONG = "wrong"              # the last answer was a mistake, whatever it was
    NOT_TAKEN = "not_taken"
    TAKEN = "taken"
    TIME = "time"
    OTHER = "other"              # it was about another day, another dose or another person
    AFTER_ALL = "after_all"      # not taken, and now it will be


@dataclass(frozen=True, slots=True)
class Correction:
    """explicit: the words themselves say that they correct ('oops', 'I meant'). loose: other words stand beside it."""

    kind: Put
    clock_time: str = ""
    minutes: float | None = None
    explicit: bool = True
    loose: bool = False


@dataclass(frozen=True, slots=True)
class _Patterns:
    lead: str           # words before it
    plain: str          # of these, the ones that do not yet say 'I correct'
    slip: str           # alone: something was wrong, and not what
    meant: str
    no: str
    yes: str
    wrong: str
    not_taken: str
    bare: str           # 'I didn't': only after words that say 'I correct'
    taken: str
    when: str           # before a time
    other: str          # another day, dose or person, after the words before it
    after_all: str
    tail: str


_EN = _Patterns(
    lead=(r"(?:oops|oopsie|oopsy|whoops|woops|ooops|oh no|oh|ah|ugh|sorry|im sorry|so sorry|im so sorry|apologies|"
          r"my apologies|no|nope|wait|no wait|wait no|hang on|hold on|actually|my bad|my mistake|correction|"
          r"scratch that|er|um|damn|shoot|crap|shit|hey|hi|hello|i mean|i meant|pardon|well|but|and|ok|okay|yes|please|"
          r"never mind|nevermind|nvm|forget it|forget that|i lied|haha|lol|in fact|to be honest|tbh|truth is|"
          r"honestly|that|thats|silly me|excuse me|strike that)"),
    plain=r"(?:oh|ah|no|nope|hey|hi|hello|well|but|and|ok|okay|yes|please|that|thats|er|um|haha|lol)",
    slip=r"(?:oops|whoops|woops|oopsie|my bad|my mistake|wait no|no wait|never mind|nevermind|nvm|scratch that)",
    meant=r"(?:(?:i )?(?:mean|meant|ment|wanted)(?: to (?:say|tap|press|put|write|type|send|answer))?(?: that)?)",
    no=(r"(?:no|nope|not yet|no not yet|not taken|not taken yet|i didnt|i did not|i havent|havent yet|not today|later|"
        r"not now|i didnt yet|i havent yet|he didnt|she didnt|he hasnt|she hasnt)"),
    yes=r"(?:yes|yep|yeah|taken|taken now|i did|i took it|done|i have|took it|he took it|she took it)",
    wrong=(r"(?:(?:i |ive |i have |i just |i must have |we |he |she |my (?:kid|son|daughter|finger|thumb|cat|toddler|"
           r"phone|wife|husband) )?(?:tapped|taped|pressed|hit|clicked|pushed|touched|typed|chose|picked|sent|wrote|"
           r"answered|put|selected)(?: on)? (?:the |a )?wrong(?: button| one| thing| answer| key| option|"
           r" message| word)?|"
           r"(?:it was |that was |thats |was )?(?:the |a )?wrong (?:button|one|answer|tap|key|option)|"
           r"(?:(?:i |my (?:kid|son|daughter|finger|thumb|cat|toddler|phone) )?(?:tapped|pressed|hit|clicked|pushed|"
           r"touched|sent|typed|said|answered|put)(?: on)?(?: (?:it|that|this|yes|the button|taken|taken now|done))? )?"
           r"(?:by|in) (?:mistake|accident|error)|"
           r"(?:i )?accidentally (?:tapped|pressed|hit|clicked|pushed|touched|sent)(?: (?:it|that|the button|taken|"
           r"taken now|the wrong (?:button|one)))?|(?:it |that |this )?was (?:a |an |my )?(?:mistake|accident|error|"
           r"by mistake|by accident|wrong)|(?:i )?made a mistake|(?:i )?didnt mean (?:to (?:tap|press|send|say|do|hit|"
           r"click|push)(?: (?:it|that|taken|yes))?|that|it)|(?:i was|im|that is|thats|that was|its|it is) (?:wrong|"
           r"not right|not true|not correct|incorrect)|(?:please )?(?:undo|cancel|ignore|delete|remove)(?: (?:that|it|"
           r"this|my answer|my last answer|that one|the last one))?|(?:i )?take (?:that|it) back|take that back|"
           r"mis ?tap|mis ?click|butt dial|mistake)"),
    not_taken=(r"(?:(?:(?:i|we|he|she|they) )?(?:actually |really |still )?(?:did not|didnt|have not|havent|hasnt|"
               r"has not|never)(?: actually| really| even)? (?:take|taken|took|have|had|swallow|swallowed|"
               r"drink|drank|drunk|give|given|gave)"
               r"(?: (?:it|mine|them|that|this one|(?:him|her) (?:it|(?:the|his|her) dose)|"
               r"(?:my|the|this|his|her|this mornings|tonights|todays|last nights)(?: morning| evening| night)?"
               r" ?(?:dose|medicine|meds|one|medication|puffs|slurry)?))?|(?:its |it is |it was |dose |that was )?not "
               r"taken|(?:i )?forgot to take it|(?:i )?still (?:have|need) to take it|no dose taken)"),
    bare=r"(?:(?:i|we|he|she) (?:did not|didnt|have not|havent|hasnt)|not yet|not taken)",
    taken=r"(?:(?:i|he|she|we) did take (?:it|mine|my dose|the dose)|(?:i|he|she) did have it)",
    when=r"(?:(?:it|that|the dose|mine) (?:was|were)|(?:i |he |she )?(?:took|had) it|make (?:it|that)|"
         r"(?:it )?should (?:be|say)|(?:i )?meant|it was taken)",
    other=(r"(?:wrong )?(?:i (?:mean|meant)|(?:that|it|this) was|that is|thats|was|for|i was thinking of)"
           r"(?: about| for| from)?(?: the| my| his| her)? (?:yesterdays?|last nights?|night before|day before|"
           r"other (?:day|dose|one)|(?:mon|tues|wednes|thurs|fri|satur|sun)days?|tomorrows?|"
           r"wrong (?:day|dose|person|child|kid)|(?:(?:little|big|older|younger|twin) )?(?:brother|sister|son|daughter|"
           r"husband|wife|mum|mom|dad|twin|cousin|friend)s?|somebody else|someone else|"
           r"not (?:me|him|her|mine|his|hers))\b"),
    after_all=(r"(?:(?:i )?(?:have )?changed my mind )?(?:(?:(?:i|he|she|we) )?(?:can|could|will|want to|wants to|"
               r"would like to|am going to|is going to|going to|gonna) (?:still )?(?:take|have|do|give)|"
               r"ill (?:still )?(?:take|have|do|give)|(?:(?:i am|im|he is|hes|she is|shes) )?(?:taking|having|giving)) "
               r"(?:it|mine|my dose|the dose|him it|her it|his dose|her dose)(?: now| right now| after all| actually|"
               r" still| please)*|(?:i )?(?:have )?changed my mind"),
    tail=(r"(?: (?:yet|today|tonight|this morning|this evening|last night|after all|at all|actually|sorry|oops|whoops|"
          r"in the end|still|now|though|my bad|by mistake|please|instead|thanks|thank you|im sorry|so sorry|again))*"),
)
_ES = _Patterns(
    lead=(r"(?:uy|ay|ups|oops|huy|perdon|perdona|perdone|disculpa|disculpe|disculpen|lo siento|no|espera|espere|"
          r"un momento|en realidad|la verdad|de hecho|quise decir|queria decir|quiero decir|digo|me equivoque|"
          r"mejor dicho|que|oye|bueno|pero|correccion|hola|si|es que|y|ya|ah|oh)"),
    plain=r"(?:no|que|oye|bueno|pero|hola|si|es que|y|ya|ah|oh)",
    slip=r"(?:ups|uy|oops|no espera|espera no)",
    meant=r"(?:(?:quise|queria|quiero) (?:decir|poner|escribir|tocar|contestar)(?: que)?|digo(?: que)?)",
    no=r"(?:no|que no|todavia no|aun no|no todavia|hoy no|mas tarde|luego|despues|ahora no)",
    yes=r"(?:si|que si|ya|ya la tome|la tome|si la tome|tomada)",
    wrong=(r"(?:me equivoque(?: de (?:boton|respuesta|mensaje|tecla)| al (?:tocar|escribir|contestar))?|"
           r"(?:toque|aprete|presione|pulse|oprimi|marque|puse|escogi|mande|le di)(?: a| al)? ?(?:el |la )?"
           r"(?:boton |respuesta )?(?:equivocado|equivocada|que no era|sin querer|por error|por accidente|mal|otro)|"
           r"(?:eso |ese |esto )?(?:fue|era) (?:un error|sin querer|por error|un accidente|equivocado)|"
           r"(?:el )?boton equivocado|por error|sin querer|me confundi(?: de boton)?|error mio|mi error|error|deshacer|"
           r"deshaz|(?:eso )?no es (?:cierto|verdad|correcto|asi)|(?:eso )?esta mal|(?:borra|quita|cancela|"
           r"anula|borre|quite|cancele|anule)(?: eso| esa respuesta| lo anterior| mi respuesta)?|"
           r"mi (?:hijo|hija|nino|nina|dedo) (?:lo toco|toco el boton|le dio))"),
    not_taken=(r"(?:(?:todavia |aun )?no (?:me |se )?(?:la |lo |las )?(?:he |ha |habia )?(?:tome|tomo|tomado|di|dado|"
               r"dio|trague|bebi)(?: (?:la|mi|esa|esta|su|el) (?:dosis|medicina|medicamento|jarabe))?|"
               r"(?:se me olvido|olvide) (?:tomarla|tomarlo|darsela)|(?:la dosis )?no (?:esta )?tomada)"),
    bare=r"(?:todavia no|aun no)",
    taken=r"(?:si (?:me |se )?(?:la|lo) (?:tome|tomo|di))",
    when=r"(?:(?:fue|era|eran)|(?:me |se )?(?:la|lo) (?:tome|tomo|di)|(?:quise|queria) decir)",
    other=(r"(?:(?:quise|queria) decir|(?:eso |esa |ese )?(?:fue|era|es))(?: de| la de| para| lo de)?(?: la| el)?"
           r"(?: de)? (?:ayer|anoche|anteayer|manana pasada|otro dia|otra dosis|lunes|martes|miercoles|jueves|viernes|"
           r"sabado|domingo|(?:su|mi) (?:herman[oa]|hij[oa]|espos[oa]|mama|papa|prim[oa]|amig[oa])|otra persona|"
           r"otro nin[oa])\b"),
    after_all=(r"(?:(?:ya )?cambie de (?:idea|opinion) )?(?:(?:ya |si |ahora )*(?:(?:me |se )?(?:la|lo) "
               r"(?:puedo|voy a|quiero) (?:tomar|dar)|(?:puedo|voy a|quiero) (?:tomarla|tomarlo|tomarmela|darsela)|"
               r"me la tomo|la tomo|se la doy))(?: ahora| ahora mismo| ya| de todos modos)*|"
               r"(?:ya )?cambie de (?:idea|opinion)"),
    tail=(r"(?: (?:todavia|aun|hoy|esta manana|esta noche|anoche|perdon|lo siento|al final|en realidad|por favor|"
          r"gracias|ya|ahora|disculpa))*"),
)
_BY = {"en": _EN, "es": _ES}
_DROP = frozenset(",.!…\n¡;)(—-:?¿")


def without_lead(clause: str, language: str) -> str:
    """The clause without 'oops', 'sorry', 'actually' before it; "" where it says no more. A 'no' stays: it may deny."""
    patterns = _BY.get(language, _EN)
    return re.sub(rf"^(?:(?!no\b|nope\b|que\b|never\b)(?:{patterns.lead})(?: |$))+", "", clause)


def correction_of(words: list[str], clauses: list[str], language: str) -> Correction | None:
    """The correction that the words are, or that stands among them (loose); None where there is none."""
    patterns, table = _BY.get(language, _EN), LANGUAGES.get(language, EN)
    if "?" in words or "¿" in words or len(words) > 60:
        return None
    bare = re.sub(r"\b(\w+)( \1\b)+", r"\1", " ".join(word for word in words if word not in _DROP)).strip()
    if (found := _whole(bare, patterns, table)) is not None:
        return found
    parsed = [(clause, _whole(clause, patterns, table)) for clause in clauses]
    if (timed := _time_after(parsed, table)) is not None:
        return timed
    if _other(bare, patterns) or any(len(clause.split()) <= _SHORT and _other(clause, patterns) for clause in clauses):
        return Correction(Put.OTHER, loose=True)
    kinds = [one for _, one in parsed if one is not None]
    if not kinds:      # 'oops', 'oops, I meant the food': something was wrong, and not what
        slip = re.match(rf"(?:(?:{patterns.plain}|sorry|perdon) )*?(?:{patterns.slip}|{patterns.meant})\b", bare)
        return Correction(Put.WRONG, loose=True) if slip else None
    best = min(kinds, key=lambda one: _FIRST.index(one.kind))
    leads = re.compile(rf"(?:{patterns.lead}(?: |$))++")
    whole = all(one is not None or leads.fullmatch(clause) for clause, one in parsed)
    said = any(re.match(rf"(?:{patterns.meant}|{patterns.lead})\b", clause) and not
               re.fullmatch(rf"(?:{patterns.plain}(?: |$))++", clause) for clause, one in parsed if one is None)
    explicit = any(one.explicit for one in kinds) or (whole and said)
    if best.kind is Put.TIME and not (explicit or whole):
        return None
    return Correction(best.kind, best.clock_time, best.minutes, explicit, loose=not whole)


_SHORT = 8          # words of a clause that only says which day or person it was: 'not today, it was yesterday'
_FIRST = (Put.TIME, Put.NOT_TAKEN, Put.TAKEN, Put.AFTER_ALL, Put.WRONG)


def _time_after(parsed: list[tuple[str, Correction | None]], table: Words) -> Correction | None:
    """'That was a mistake, I took it at 10': what was wrong is the time, and here is the right one."""
    if len(parsed) != 2 or parsed[0][1] is None or parsed[0][1].kind is not Put.WRONG or parsed[1][1] is not None:
        return None
    when = taken_at(parsed[1][0], table, parent=True)
    return Correction(Put.TIME, when[0], when[1]) if when is not None and when != ("", None) else None


def _other(bare: str, patterns: _Patterns) -> bool:
    """'Wrong, I meant yesterday', 'wait, it was his brother'."""
    return any(re.match(patterns.other, rest) for _, rest in _splits(bare, patterns))


@cache
def _compiled(patterns: _Patterns) -> dict[str, re.Pattern[str]]:
    """The shapes of a correction, without the words before it. Stars over those words are possessive: "oh no" is also
    "oh" and "no", and a long run of them must not be tried in every way."""
    tail, wrong_first = patterns.tail, rf"(?:{patterns.wrong} (?:{patterns.lead} )*+)?"
    at = "(?:more like |at |around |about |a las |a la |como a las )*+"
    shapes = {
        "meant_no": rf"{patterns.meant} {patterns.no}{tail}",
        "meant_yes": rf"{patterns.meant} {patterns.yes}{tail}",
        "not_taken": rf"{wrong_first}{patterns.not_taken}(?: {patterns.wrong})?{tail}",
        "bare": rf"{wrong_first}{patterns.bare}{tail}",
        "wrong": rf"{patterns.wrong}{tail}",
        "taken": rf"{patterns.taken}{tail}",
        "after_all": patterns.after_all,
        "time": rf"(?P<when>{patterns.when} )?{at}(?P<time>.+?)"
                rf"(?: (?:no|not)(?: at| a las| a la)? (?P<old>.+?))?{tail}",
    }
    return {name: re.compile(shape) for name, shape in shapes.items()}


def _whole(words: str, patterns: _Patterns, table: Words) -> Correction | None:
    """The words, all of them, as one correction."""
    shapes, splits = _compiled(patterns), _splits(words, patterns)

    def lead_of(name: str) -> str | None:
        """The words before this shape; None when no rest of the words has it."""
        return next((lead for lead, rest in splits[::-1] if shapes[name].fullmatch(rest)), None)

    if lead_of("meant_no") is not None:
        return Correction(Put.NOT_TAKEN)
    if lead_of("meant_yes") is not None:
        return Correction(Put.TAKEN)
    if (lead := lead_of("not_taken")) is not None:
        marked = _marked(lead, patterns) or bool(re.search(patterns.wrong, words))
        unsure = not marked and re.search(r"\b(?:have|had)(?: (?:it|mine|them|that))?$", words) is not None
        return Correction(Put.NOT_TAKEN, explicit=marked, loose=unsure)    # 'I didn't have it': a dose, or a fever
    if (lead := lead_of("bare")) is not None:
        marked = _marked(lead, patterns) or bool(re.match(patterns.wrong, words))
        return Correction(Put.NOT_TAKEN, explicit=marked, loose=not marked)
    if lead_of("wrong") is not None:
        return Correction(Put.WRONG)
    if lead_of("taken") is not None:
        return Correction(Put.TAKEN)
    if lead_of("after_all") is not None:
        return Correction(Put.AFTER_ALL)
    return _time(words, shapes["time"], patterns, table)


def _time(words: str, shape: re.Pattern[str], patterns: _Patterns, table: Words) -> Correction | None:
    """'No wait, it was 7:50', 'sorry, 20 minutes ago': a time, after words that say that it corrects one."""
    if len(words) > 80 or not re.search(r"\d|half|quarter|media|cuarto|hour|hora|noon|ago|hace", words):
        return None
    for found in _splits(words, patterns):
        lead, rest = found
        whole = shape.fullmatch(rest)
        if whole is None:
            continue
        taken = re.match(r"(?:i |he |she |me |se )?(?:took|had|la|lo)\b", whole["when"] or "")
        told = whole["when"] is not None and not taken
        if not (told or _marked(lead, patterns) or whole["old"]):
            continue
        if whole["old"] and not clock_time(whole["old"]):
            continue
        said = whole["time"]
        spoken = re.search(r"[:.]\d|[ap]m$|past|half|quarter|to |noon|media|cuarto|de la", said) or re.search(
            rf"(?:at|around|a las|a la) {re.escape(said)}", rest)
        if spoken and clock_time(said):
            return Correction(Put.TIME, clock_time(said))
        when = time_of(said, table) or time_of(rest, table)
        if when is not None:
            return Correction(Put.TIME, when[0], when[1])
    return None


def _splits(words: str, patterns: _Patterns) -> list[tuple[str, str]]:
    """The words cut after each leading run of words that may stand before a correction, the longest first."""
    found, at = [("", words)], 0
    lead = re.compile(rf"{patterns.lead} ")
    while (one := lead.match(words, at)) is not None:
        at = one.end()
        found.append((words[:at], words[at:]))
    return found[::-1]


def _marked(lead: str, patterns: _Patterns) -> bool:
    """Whether the leading words themselves say that something is put right: 'oops', 'sorry', 'I meant'."""
    return bool(re.sub(rf"\b{patterns.plain}\b", "", lead).strip())

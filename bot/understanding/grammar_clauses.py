"""The closed grammar, clause by clause: 'Got it, taken!', 'no issues today, thanks', 'took it late, at 08:10'.

Every clause must parse whole as something that a person need not read: the dose is taken (perhaps with its time), it
will be taken later, a thank-you or a greeting, or a general 'nothing wrong'. One clause that does not, or two that
disagree, and a person reads the reply. A general 'nothing wrong' answers no open question about a symptom.
"""

from __future__ import annotations

import re
from functools import cache

from bot.understanding.grammar_times import amount_of, clock_time
from bot.understanding.grammar_typed import typed
from bot.understanding.grammar_words import LANGUAGES, Words

_MARKS = frozenset(",.!…\n¡;)(—-:")
_OF_THE_CLOCK = (["media"], ["cuarto"], ["pico"])      # 'a las 6 y cuarto' is one clause
_YES = r"(?:(?:yes|yep|yeah|yup|yea|ye|aye|mate|ok|okay|oh|hi|hello|hey|morning|good morning|evening|si|vale) )*"
_WHO = r"(?:(?:i|ive|have|just|already|we|weve|got it|finally|all) )*"
_WHO_CHILD = r"(?:(?:he|hes|she|shes|has|had|just|already|we|weve|i|ive|they|finally) )*"
_CLEANED = (r"(?:(?:i|ive|he|hes|she|shes|have|has|we) )*(?:(?:mouth|teeth) )?(?:brushed|washed)"
           r"(?: (?:out|it out|(?:my|his|her|the) (?:mouth|teeth)))*(?: (?:out|after|too|and spat|as well|"
           r"with water))*")
# 'spat it out' by itself may be the dose, not the rinse: a person reads it
_DID = (r"(?:taken care of|gave|given|taken|took|had|drank|swallowed|did|done|finished|drunk|downed|necked|"
        r"completed|puffed)")
_DAYPART = r"(?:first |second |2nd |1st |morning |evening |night |nightly |daily |am |pm |bedtime |usual )?"
_NOUN = (r"(?:dose|doses|one|medicine|meds|med|puffs|slurry|shake|mix|mixture|medication|steroid|ampoule|inhaler|"
         r"syrup)")
_OWNER = (r"(?:my two|my 2|my|the|this|todays|tonights|this mornings|this evenings|his|her|our|both|2|two|all my|"
          r"all the)")
_OBJECT = (rf"(?: (?:it|mine|them|both|both doses|that|his|hers|all of it|it all|the lot|"
           rf"(?:{_OWNER} )?{_DAYPART}{_NOUN}|(?:him|her) (?:it|(?:his|her|the) {_DAYPART}{_NOUN})))?")
_HOW = (r"(?: (?:just now|now|already|on time|late|a bit late|a little late|early|this morning|tonight|this evening|"
        r"earlier|earlier on|today|last night|a while ago|as directed|as usual|as prescribed|as normal|as instructed|"
        r"no problem|no problems|no bother|after breakfast|before breakfast|before bed|after dinner|after brushing|"
        r"with breakfast|with dinner|at breakfast|at bedtime|too|as well|both times|fine|like normal|"
        r"like always|for tonight|for today|for now|for the day|"
        r"for this morning|for the night|right on time|sir|thanks|thank you|thx|ta|cheers|"
        r"rinsed|rinsed too|rinsed after|rinsed after it|rinsed my mouth|rinsed out|rinsed and spat|"
        r"and rinsed|and brushed|brushed my teeth|brushed|washed my mouth|washed my mouth out))*")
_SMALL = (r"(?: (?:today|tonight|this week|this morning|so far|here|yet|at all|at the moment|right now|on my end|"
          r"with me|lately|really|thanks|thank you|either|for me|for us|your end|from me|from us|this time|to report|"
          r"since last time|as such|whatsoever|thankfully))*")
_FINE = (
    rf"(?:(?:i have |ive had |ive got |there are |had |having |got |just )?(?:no|zero|without|not any|havent had any|"
    rf"had no|no other|no new) "
    rf"(?:issues|issue|problems|problem|trouble|troubles|complaints|concerns|worries|side effects|symptoms|news|"
    rf"updates|dramas|drama|bother|difficulties|hiccups|bad news|surprises)"
    rf"(?: or (?:issues|problems|complaints|concerns|worries|side effects|symptoms))?|"
    rf"(?:theres |there is |absolutely |got |ive got )?nothing (?:new|to report|wrong|different|unusual|to add|"
    rf"to worry about|of note|bad|to tell|to tell you|to say|has changed|to complain about|much|much new|"
    rf"much to report|out of the ordinary|exciting)|"
    rf"(?:all |its |still |its all |everything is |everythings |everything )?(?:the )?same as (?:usual|always|"
    rf"normal|ever)|"
    rf"(?:its |all )?(?:business|much|all|just) as usual|same old|all (?:quiet|normal|good|fine|well|ok|okay|"
    rf"great|calm)|"
    rf"cant complain|not (?:too )?bad|ticking along|(?:still )?going strong|smooth sailing|plain sailing|"
    rf"no news is good news|so far so good|good you|fine you|"
    rf"(?:everything|everythings|all|alls|it|its|things|thing|im|i am|we|were|we are|hes|shes|he is|she is|is|are|"
    rf"(?:it|everything|all) seems)"
    rf"(?: (?:is|are|all|going|doing|feeling|been|still|going on|has been|seems|looks))* "
    rf"(?:good|fine|well|ok|okay|great|normal|smoothly|perfect|alright|all right|as usual|as normal|brilliant|lovely|"
    rf"very well|quite well|really well|pretty good|in order|under control)|"
    rf"(?:still|doing|feeling|going|been)(?: (?:all|very|pretty|quite|really|just))* (?:good|fine|well|ok|okay|"
    rf"great|alright))"
    rf"{_SMALL}"
)
_NEUTRAL = (rf"(?:no change|no changes|nothing has changed|unchanged|nothing else|thats all|thats it|"
            rf"that is all){_SMALL}")
_THANKS = (
    r"(?:(?:ok|okay|k|great|perfect|good|lovely|cool|great stuff|good stuff|sure thing|no bother|no drama|"
    r"brilliant|fab|sweet|sound|nice one|nice|got it|understood|noted|"
    r"will do|many|yes|yep|aw|oh|and|thanks again|thank you again|right|alright|all good|no worries|no problem|"
    r"wonderful|excellent|super|"
    r"sounds good|thanks|thank you|thank u|thx|tysm|ty|ta|cheers|much appreciated|appreciate it|bless you|"
    r"hi|hello|hey|bye|bye for now|good morning|good night|goodnight|good evening|good afternoon|morning|night|"
    r"night night|nighty night|sleep well|see you|see you tomorrow|see you soon|"
    r"have a (?:good|nice|great|lovely) (?:day|one|evening|weekend|week|night|afternoon)|you too|same to you|"
    r"haha|hahaha|lol|hehe|merci|danke|grazie|gracias|copy|copy that|received|roger|roger that|message received|"
    r"got your message|sir|maam|mam|miss|mate|love|doc|doctor|team|guys|all|everyone|nurse|dear|pal|buddy|hun|x|"
    r"xx|xoxo|so much|a lot|very much|kindly|"
    r"a million|a bunch|for asking|for checking|for checking in|for checking up|for the reminder|for reminding me|"
    r"for the info|for the message|for the help|for your help|for letting me know|for your message|for the nudge|"
    r"for the heads up|to you|that helps|will do that|ill do that|makes sense)(?: |$))+"
)
_AFTER = (r"(?:now|soon|later|shortly|in a bit|in a minute|in a sec|in a moment|in a while|tonight|after work|"
          r"after school|"
          r"before bed|when i get home|when im home|when i get in|once im home|first thing|straight away|"
          r"after (?:my|the|a) (?:shower|bath|breakfast|dinner|lunch|tea|meeting|class|gym|walk|run|show|game|"
          r"nap|call|"
          r"coffee|school run)|after (?:breakfast|dinner|lunch|tea|brushing|class|gym|brushing my teeth))")
_LATER = (rf"(?:not yet )?(?:(?:i )?(?:will|ill|gonna|im gonna|going to|im going to|about to|im about to|let me) "
          rf"(?:just )?(?:do|take|have|get to|grab) (?:it|that|mine|my dose|the dose|them)|taking it|doing it|"
          rf"having it) "
          rf"{_AFTER}|(?:not yet )?{_AFTER}")

_FINE_ES = (r"(?:sin (?:novedad|novedades|problemas|ningun problema|molestias|sintomas)|ningun problema|"
            r"nada (?:nuevo|que reportar|que contar|que decir|que comentar|raro|malo)|"
            r"(?:todo|todo va|va todo|todo sigue|sigo|estoy|voy|me siento) (?:bien|muy bien|igual de bien|"
            r"normal|en orden|"
            r"perfecto|estupendo)|como siempre|igual que siempre)(?: hoy| por ahora| esta semana| por aqui| gracias)*")


@cache
def _pattern(name: str, parent: bool) -> re.Pattern[str]:
    who = _WHO_CHILD if parent else _WHO
    taken = (rf"{_YES}(?:{who}{_DID}{_OBJECT}|(?:{_OWNER} )?{_DAYPART}{_NOUN} (?:is |are |was |"
             rf"has been |all )?"
             rf"(?:done|taken|in|finished|complete|completed|down|had)|(?:2|two|both|all|its|"
             rf"thats) (?:all )?(?:done|taken|in|gone|down|"
             rf"puffs|puffs done|puffs taken|puffs in)|(?:all )?(?:done|taken|finished|sorted)|consider it done|"
             rf"mission accomplished){_HOW}")
    return re.compile({"taken": taken, "fine": _FINE, "neutral": _NEUTRAL, "thanks": _THANKS,
                       "cleaned": rf"{_YES}{_CLEANED}", "later": rf"{_YES}(?:{_LATER})", "fine_es": _FINE_ES}[name])


def clauses_of(words: list[str]) -> list[str]:
    """The reply cut at its marks and at 'and': each piece one space between its words."""
    pieces: list[list[str]] = [[]]
    for at, word in enumerate(words):
        if word in _MARKS or (word in ("and", "y") and words[at + 1 : at + 2] not in _OF_THE_CLOCK):
            pieces.append([])
        else:
            pieces[-1].append(word)
    return [" ".join(piece) for piece in pieces if piece]


def taken_at(clause: str, table: Words, parent: bool) -> tuple[str, float | None] | None:
    """Clock time and minutes since, of a clause that tells the dose is taken; ("", None) where it tells no time."""
    if _says_taken(clause, table, parent):
        return "", None
    words = clause.split()
    for cut in range(1, len(words)):
        said, rest = " ".join(words[:cut]), " ".join(words[cut:])
        bare = _bare_time(rest)
        when = time_of(bare, table) or ((clock_time(bare), None) if ":" in bare and clock_time(bare) else None)
        if when is not None and _says_taken(said, table, parent):
            return when
    return None


def _says_taken(clause: str, table: Words, parent: bool) -> bool:
    spanish = table is LANGUAGES["es"]
    return bool(
        _pattern("taken", parent).fullmatch(clause)
        or re.fullmatch(table.taken, clause)
        or typed(clause, spanish=spanish, parent=parent) == "taken"
    )


def _bare_time(rest: str) -> str:
    """A time without what may follow it: 'at 6:40 before the school run', 'at 8 on the dot'."""
    return re.sub(r" (?:on the dot|before (?:bed|work|school|breakfast|dinner|the school run)|after (?:breakfast|"
    r"dinner)|"
                  r"en punto)$", "", rest)


def time_of(rest: str, table: Words) -> tuple[str, float | None] | None:
    """'at half 7', 'about 20 minutes ago': clock time or minutes since."""
    at = re.fullmatch(r"(?:(?:this morning|tonight|last night|today|esta manana|hoy) )?"
                      r"(?:at|around|about|bout|at about|at around|by|just after|like|just before|a las|a la|"
                      r"sobre las|a eso de las) (.+)",
                      rest)
    if at and clock_time(at.group(1)):
        return clock_time(at.group(1)), None
    ago = re.fullmatch(r"(?:about |bout |around |like |maybe |just |roughly |only )*(.+) (?:ago|back)|hace (.+)", rest)
    amount = amount_of(ago.group(1) or ago.group(2), table) if ago else None
    return ("", amount[0]) if amount is not None and amount[1] == "minutes" else None


def kinds_of(
    words: list[str], table: Words, *, spanish: bool, parent: bool
) -> tuple[set[str], str, float | None] | None:
    """What all clauses say: of 'taken', 'rinsed', 'later', 'thanks', 'fine', 'neutral', 'beside'; with the time told.
    None when one does not parse."""
    kinds: set[str] = set()
    clock, minutes = "", None
    for clause in clauses_of(words):
        told = taken_at(clause, table, parent)
        if told is not None:
            kinds.add("taken")
            clock, minutes = clock or told[0], minutes if told[1] is None else told[1]
            continue
        open_time = "taken" in kinds and not clock and minutes is None
        when = time_of(clause, table) if open_time else None
        if open_time and when is None and not clause.isdigit() and clock_time(clause):
            when = clock_time(clause), None      # 'sorted, twenty past seven'
        if when is not None:
            clock, minutes = when
            continue
        kind = _kind(clause, table, spanish) or typed(clause, spanish=spanish, parent=parent)
        if not kind:
            return None
        kinds.add(kind)
    if kinds == {"neutral"} or {"taken", "later"} <= kinds or ("beside" in kinds and "taken" not in kinds):
        return None
    return (kinds, clock, minutes) if kinds else None


def _kind(clause: str, table: Words, spanish: bool) -> str:
    if re.fullmatch(table.rinsed, clause):
        return "rinsed"
    for name in (["fine_es"] if spanish else ["fine", "neutral", "later"]):
        if _pattern(name, False).fullmatch(clause):
            return name.removesuffix("_es")
    if re.fullmatch(table.thanks, clause) or (not spanish and (
            _pattern("thanks", False).fullmatch(clause + " ") or _pattern("cleaned", False).fullmatch(clause))):
        return "thanks"
    bare = re.sub(r"^(?:(?:nope|nah|no) (?=all |everything|nothing|im |its |no )|haha |lol |(?:ok|okay|yes|yep|"
                  r"yup|yeah|yeah mate|great|all good|thanks|si|vale) )|(?: thanks| thank you| gracias|"
                  r" x)$", "", clause)
    return _kind(bare, table, spanish) if bare != clause else ""

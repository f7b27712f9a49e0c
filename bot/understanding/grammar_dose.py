"""What a longer text says of a dose: told as taken beside something else, an answer put right, a rinse.

The closed grammar decides whether a person must read a reply; this only says what the same words mean for the dose, so
that it is not asked for again as if nothing had been said. What is not plain is `perhaps`, and is asked.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from bot.understanding.grammar_clauses import kinds_of, taken_at, time_of
from bot.understanding.grammar_corrections import Correction, correction_of, without_lead
from bot.understanding.grammar_times import timed
from bot.understanding.grammar_words import LANGUAGES
from bot.understanding.language import language_of
from bot.understanding.tokens import split


class Slot(StrEnum):
    """Which dose of which day the words name."""

    THIS_MORNING = "this_morning"
    THIS_EVENING = "this_evening"
    LAST_EVENING = "last_evening"
    YESTERDAY_MORNING = "yesterday_morning"
    MORNING = "morning"              # the last one of a morning, of an evening: 'the morning one'
    EVENING = "evening"


@dataclass(frozen=True, slots=True)
class Claim:
    """One dose told as taken: which, and when (clock "HH:MM", minutes ago, or just now)."""

    slot: Slot | None = None
    clock_time: str = ""
    minutes: float | None = None
    just_now: bool = False
    past: bool = False               # at a time that is not named: 'late', 'a while ago'

    @property
    def timed(self) -> bool:
        return bool(self.clock_time) or self.minutes is not None


@dataclass(frozen=True, slots=True)
class DoseTold:
    """claims: plainly taken. perhaps: something of a dose taken that is not plain. whole: the text says nothing else.
    named: the words name the dose ('my dose', 'the medicine'), not only 'it'. verb: 'take', 'took', 'taken'. ate: and
    then ate. slot: the first that is named."""

    claims: tuple[Claim, ...] = ()
    perhaps: bool = False
    whole: bool = False
    named: bool = False
    verb: bool = False
    rinsed: bool = False
    ate: bool = False
    slot: Slot | None = None
    correction: Correction | None = None


_BREAKS = frozenset(",.!…\n¡;)(—-:?¿") | frozenset(
    ("but", "though", "although", "however", "because", "cause", "cos", "coz", "then", "so", "except", "and", "n",
     "pero", "aunque", "porque", "luego", "entonces", "y"))
_NAMES = re.compile(r"\b(?:doses?|medicines?|meds?|medication|slurry|puffs?|steroid|ampoules?|inhaler|budesonide|"
                    r"fluticasone|dosis|medicina|medicamento|ampollas?|inhalador|remedio|budesonida|fluticasona)\b")
_WENT = re.compile(r"\b(?:down|gone|through|went|passed|bajo|bajado|paso|pasado)\b")
_VERB = re.compile(r"\b(?:took|taken|tome|tomo|tomado|tomada|se l[ao] di)\b")
_RINSED = re.compile(r"\b(?:rinsed|gargled|enjuague|enjuagado|enjuagada|enjuago)\b")
_NOT_RINSED = re.compile(r"\b(?:not|no|didnt|forgot|havent|sin|olvid\w+|to|will|before|antes)\b.*(?:rins|enjuag)")
_NOT = re.compile(r"\b(?:didnt|did not|havent|have not|hasnt|hadnt|not|never|forgot to take|cant|couldnt|wont|without|"
                  r"no|nunca|sin|if|should|would|could|can|whether|what|before i|puedo|debo|hay que)\b")
# Something about the dose that is more than 'taken': how much of it, whether it stayed, whether it is meant at all.
_DOUBT = re.compile(
    r"\b(?:half(?! (?:an |a )?(?:hours?|past|\d+|five|six|seven|eight|nine|ten|eleven|twelve)\b)|"
    r"another|again|second|(?:2|two|both|3|three|every|all) (?:\w+ )?doses|spat|spit|spilled|spilt|spill|vomit\w*|"
    r"threw|throw|puked?|only|some of|part of|most of|not all|"
    r"all of it came|wrong|twice|double|doubled|extra|too much|maybe|think|might|not sure|unsure|"
    r"forgot (?:it|my|the|to take)|"
    r"(?:took|taken|had|drank|used) (?:\w+ )?(?:sons|daughters|husbands|wifes|mums|moms|dads|brothers|sisters|kids|"
    r"childs|partners|twins|friends)|"
    r"almost|nearly|tried|yesterday|monday|tuesday|wednesday|thursday|friday|saturday|sunday|instead|"
    r"otra vez|otra dosis|mitad|escupi\w*|vomit\w*|derram\w*|tire|solo|dos veces|doble|creo|quiza|quizas|tal vez|casi|"
    r"ayer|lunes|martes|miercoles|jueves|viernes|sabado|domingo|devolvi\w*)\b")
_DOSES = r"(?:\w+ ){0,3}(?:doses?|medicine|meds|medication|slurry|puffs|ampoules?|inhaler)"
_PERHAPS = re.compile(
    rf"\b(?:took|taken) (?:only |just )?(?:it|mine|them|that|half|some|all|one|{_DOSES})\b|"
    rf"\b(?:swallowed|drank|drunk|downed|finished|had|gave (?:him|her)) (?:it|mine|them|{_DOSES})\b|"
    r"\b(?:took|taken)$|"
    r"^(?:yes|yep|yeah|yup|done|all done|finished|ok done|yes done|si|listo|hecho)$|"
    r"\b(?:la|lo|me la|me lo|ya|si) (?:tome|he tomado|di|tomo)\b|\btome (?:la|mi|el|los|las|mis) \w+|\bdosis tomada\b|"
    r"\b(?:spat|spit|threw|spilled|spilt) (?:it|half|some)\b|"
    r"\b(?:la|lo) (?:escupi|escupio|vomite|vomito|derrame|tire)\b")
_SLOTS = tuple((re.compile(pattern), slot) for pattern, slot in (
    (r"\b(?:yesterday mornings?|ayer por la manana|ayer en la manana)\b", Slot.YESTERDAY_MORNING),
    (r"\b(?:last nights?|yesterday (?:evening|night)s?|last evenings?|anoche|ayer por la (?:noche|tarde)|"
     r"ayer en la noche)\b", Slot.LAST_EVENING),
    (r"\b(?:this mornings?|todays morning|esta manana|hoy por la manana)\b", Slot.THIS_MORNING),
    (r"\b(?:tonights?|this evenings?|esta noche|esta tarde)\b", Slot.THIS_EVENING),
    (r"\b(?:the|my|his|her) morning (?:one|dose|meds|medicine|puffs|slurry)\b|\b(?:la|mi|su) (?:dosis )?de la manana\b",
     Slot.MORNING),
    (r"\b(?:the|my|his|her) (?:evening|night|bedtime) (?:one|dose|meds|medicine|puffs|slurry)\b|"
     r"\b(?:la|mi|su) (?:dosis )?de la (?:noche|tarde)\b", Slot.EVENING)))
# 'last night's dose', 'this mornings', 'la de anoche' as the thing taken: read as 'my dose', once its slot is noted.
_OWNED = re.compile(
    r"\b(?:the )?(?:last nights|yesterdays|yesterday (?:morning|evening|night)s|last evenings|this mornings|tonights|"
    r"this evenings|todays)(?: (?:morning|evening|night|bedtime|daily|usual))?(?: (?:dose|one|meds|medicine|puffs|"
    r"slurry))?\b|\b(?:the |my )?(?:dose|one|meds|medicine) (?:from|of) (?:last night|this morning|yesterday "
    r"(?:morning|evening|night))\b")
_OWNED_ES = re.compile(r"\bla (?:dosis )?de (?:anoche|esta manana|esta noche|esta tarde|hoy|ayer por la (?:manana|"
                       r"noche|tarde))\b")
_SHORT = re.compile(r"(?:the|my|his|her) (?:morning|evening|night|bedtime) (?:one|dose|meds|medicine|puffs|slurry) "
                    r"(?:(?:just |right )?now|at .+|.+ ago)")      # 'and the evening one just now'
_SHORT_ES = re.compile(r"(?:la|mi) (?:dosis )?de la (?:noche|tarde|manana) (?:ahora(?: mismo)?|a las? .+|hace .+)")
# Said of an answer that is put right, and of nothing else: 'took it at 7:55 actually', 'I took it after all at 11'.
_SOFT = re.compile(r" ?\b(?:actually|after all|in the end|al final|en realidad|de hecho)\b|(?<=\d) instead$")
_NOW = re.compile(r"\b(?:now|just now|right now|ahora|ahora mismo)\b")
_PAST = re.compile(r"\b(?:late|earlier|a while ago|on time|before|hace un rato|tarde|antes|a tiempo)\b")
_CHILD = re.compile(r"\b(?:he|hes|she|shes|they|him|her)\b")
_LONGEST = 24                      # words of a clause that tells of one dose
_RUN_ON = frozenset(("my", "i", "im", "ive", "now", "still", "its", "me", "mi", "ahora", "todavia", "tengo", "siento"))
# Eaten or drunk after it, so the wait is broken.
_ATE = re.compile(r"^(?:(?:i|ive|he|she|we|then|just|already|accidentally|have|has|me) )*(?:ate|eaten|drank|"
                  r"had (?:a (?:sip|bite|bit|drink|glass) of |a |some |my |his |her )?"
                  r"(?:breakfast|lunch|dinner|coffee|tea|water|juice|food|snack|"
                  r"something)|comi|comio|desayune|desayuno|almorce|cene|bebi|bebio)\b(?!.*\b(?:before|antes)\b)")


@lru_cache(maxsize=64)
def dose_told(text: str, language: str = "en", writer: str = "patient") -> DoseTold:
    """What the text says of a dose; empty for a text that speaks of none. Never raises."""
    tokens = split(text)
    speller = language_of(language).speller
    told = [_told([token.word for token in tokens], language[:2], writer == "parent"),
            _told([part for token in tokens for part in speller.correct(token.word).split("_")], language[:2],
                  writer == "parent")]
    return max(told, key=lambda one: (one.correction is not None, len(one.claims), one.perhaps))


def _told(words: list[str], language: str, parent: bool) -> DoseTold:
    words = timed([word.replace("ñ", "n") for word in words])
    clauses = _clauses(words)
    everything = " ".join(_SOFT.sub("", clause) for clause, _ in clauses)
    named = bool(_NAMES.search(everything)) and not _WENT.search(everything)
    claims, whole = _claims(clauses, language, parent)
    doubt = _DOUBT.search(everything if not any(claim.slot for claim in claims) else
                          re.sub(r"\b(?:yesterday|ayer)\b", "", everything))
    perhaps = not claims or bool(doubt)
    perhaps = perhaps and any(_PERHAPS.search(clause) and not _NOT.search(clause)
                              for clause, asks in clauses if not asks)
    plain = [clause for clause, asks in clauses if not asks]
    return DoseTold(
        claims=() if doubt else claims, perhaps=perhaps or bool(doubt and claims),
        whole=bool(claims) and whole and not doubt, named=named,
        verb=bool(_VERB.search(everything) or re.search(r"\btake\b", everything)),
        rinsed=bool(_RINSED.search(everything)) and not _NOT_RINSED.search(everything),
        slot=next((slot for pattern, slot in _SLOTS if pattern.search(everything)), None),
        ate=bool(claims) and any(_ATE.search(clause) for clause in plain),
        correction=correction_of(words, plain, language))


def _clauses(words: list[str]) -> list[tuple[str, bool]]:
    """The clauses between marks and joining words, with whether each asks something."""
    pieces: list[tuple[list[str], bool]] = [([], False)]
    for word in words:
        if word in ("?", "¿"):
            at = -1
            while pieces[at][0] == [] and -at < len(pieces):
                at -= 1
            if word == "?":
                pieces[at] = (pieces[at][0], True)
        if word in _BREAKS:
            pieces.append(([], False))
        else:
            pieces[-1][0].append(word)
    return [(" ".join(piece), asks) for piece, asks in pieces if piece]


def _claims(clauses: list[tuple[str, bool]], language: str, parent: bool) -> tuple[tuple[Claim, ...], bool]:
    """The clauses that plainly tell of a dose taken, and whether no clause says anything else."""
    found: list[Claim] = []
    whole = True
    for clause, asks in clauses:
        claim, said = (None, clause) if asks else _claim(clause, language, parent, after=bool(found))
        if claim is not None:
            found.append(claim)
            whole = whole and said == clause
            continue
        table = LANGUAGES[language] if language in LANGUAGES else LANGUAGES["en"]
        when = time_of(clause, table) if found and not found[-1].timed and not asks else None
        if when is not None:
            found[-1] = Claim(found[-1].slot, when[0], when[1])
            continue
        said = without_lead(clause, language)
        other = not said or kinds_of(clause.split(), table, spanish=language == "es", parent=parent) is not None
        whole = whole and not asks and other
    return tuple(found), whole


def _claim(clause: str, language: str, parent: bool, *, after: bool) -> tuple[Claim | None, str]:
    """One clause that says, whole or up to a new 'my', 'I', that a dose is taken, and how far it says so. after: one
    was told before it."""
    slot = next((slot for pattern, slot in _SLOTS if pattern.search(clause)), None)
    plain = _SOFT.sub("", _OWNED_ES.sub("la dosis", _OWNED.sub("my dose", without_lead(clause, language)))).strip()
    if _SHORT.fullmatch(plain) or _SHORT_ES.fullmatch(plain):
        plain = f"{'tome' if language == 'es' else 'took'} {plain}"
    if after and slot and not _VERB.search(plain) and plain.startswith(("my dose", "la dosis")):
        plain = f"{'tome' if language == 'es' else 'took'} {plain}"    # '... and this morning's now'
    if not (_VERB.search(plain) or (_NAMES.search(plain) and not _WENT.search(plain)) or (parent and "gave" in plain)):
        return None, ""                                # 'done', 'swallowed it': not plain beside other words
    if _CHILD.search(plain) and not parent:
        return None, ""
    table = LANGUAGES[language] if language in LANGUAGES else LANGUAGES["en"]
    words = plain.split()
    if re.search(r"\b(?:if|when|before|once|since|until|cuando|desde)\b", plain):
        return None, ""
    cuts = (at for at in range(min(len(words), _LONGEST) - 1, 1, -1) if words[at] in _RUN_ON)
    ends = [*([len(words)] if len(words) <= _LONGEST else []), *cuts]
    for end in ends:
        said = " ".join(words[:end])
        cut = end < len(words) and not _VERB.search(said)          # 'my dose is in' of 'my dose is in my bag'
        when = None if cut else taken_at(said, table, parent)
        if when is not None:
            told = Claim(slot, when[0], when[1], bool(_NOW.search(said)), bool(_PAST.search(said)))
            return told, clause if end == len(words) else ""
    return None, ""

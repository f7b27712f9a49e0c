"""Who a mention is about, when it was, and whether it is told, supposed or asked: ConText's classes beside the
denial (Harkema 2009)."""

from __future__ import annotations

from bot.understanding.context import LONGEST, Place, denied, spans, table
from bot.understanding.frames import Entries, phrase_at
from bot.understanding.tokens import STOPS
from bot.understanding.types import Context

_REACH_AFTER = 12  # words after the mention in which 'fine now' is looked for
_REACH_SUPPOSED = 14  # words that a what-if reaches


# Words that open a question about a thing as such, and words of somebody who has it.
_OPENS = frozenset({"can", "does", "do", "will", "could", "would"})
_ABOUT = frozenset({"about", "like", "two", "three", "a", "few", "over", "in", "back"})
_THIRD = frozenset({"he", "she", "hes", "shes", "his", "him", "her"})
_KIN = frozenset(
    {"husband", "hubby", "wife", "mum", "mom", "mother", "dad", "father", "gran", "granny", "grandma", "grandad",
     "grandpa", "nan", "nana", "marido", "esposo", "esposa", "mujer", "abuelo", "abuela", "papa", "mama", "madre",
     "padre"}
)
_TELLS = frozenset({"not", "hardly", "barely", "only", "just", "feel", "see", "taste", "even", "still", "breathe"})
_HAS = frozenset({"im", "ive", "my", "me", "got", "have", "having", "feel", "this", "these", "our", "his", "her"})


# 'Never since', 'five years since': what was then is over.
_SINCE_THEN_NOT = frozenset({"nothing", "none", "not", "nada", "never", "hasnt", "havent", "years", "yrs", "yr"})


_OVER_BEFORE = frozenset({"not", "never", "no", "nothing", "clean", "clear", "fine", "hasnt", "havent", "outgrown"})


# What prints a sign (a leaflet), and a question after it: about the sign as such.
_PRINTED = frozenset({
    "leaflet", "page", "booklet", "insert", "box", "website", "article", "sheet", "list", "listed", "folleto",
    "prospecto", "hoja", "caja", "papel",
})
_THEN_ASKS = table("""
how_common how_usual how_likely how_often is_that_common is_that_usual es_comun es_frecuente que_tan_comun
que_tan_frecuente
""")
# A text that dates itself long ago and says that it is over or for the file only, and names nothing of today.
_OVER = table("""
never_since never_again never_repeated never_happened_again nothing_since none_since hasnt_since not_since
sound_ever_since
fine_ever_since unrelated for_the_file for_your_file for_my_file for_your_notes for_the_notes for_your_records
on_my_record for_the_record in_my_file old_stuff ancient_history years_over long_over outgrew outgrew_it grew_out
put_right
clear_every never_came_back no_trouble_since no_bother_since wanted_dates you_asked_about is_that_daft
para_el_expediente para_su_ficha por_el_historial para_el_historial historia_antigua nunca_mas desde_entonces_nada
no_volvio se_acabo ahora_ni_me_acuerdo es_historia
""")
_TODAY = table("""
today tonight this_morning this_evening this_afternoon this_week right_now still currently again_now came_back
is_back since_yesterday yesterday last_night hoy anoche ayer ahora_mismo todavia sigue otra_vez esta_mañana
""")


# Words that deny all of a list before them, and words of a list that the clinic asked for.
_NONE_OF_THEM = table("""
none_of_those none_of_these none_of_that none_of_them none_of_it none_of_the_above none_of_the_list none_at_all
nothing_of_the_sort nothing_of_the_kind nothing_like_that no_to_all no_to_everything no_to_the_lot all_no
nada_de_eso nada_de_esto ninguna_de_esas ninguno_de_esos ninguna_de_las_tres todo_no no_a_todo
""")
_ANSWERS_NO = table("no nope nah none never not_at_all not_a_bit not_once para_nada ni_hablar nada que_va nunca")
_DONE = frozenset({"tome", "bebi", "hice", "puse", "cumpli", "di", "dimos", "tomamos"})
_CANNOT_NOW = frozenset({
    "puedo", "puede", "pronuncio", "habla", "hablo", "respira", "respiro", "traga", "trago", "entra", "pasa", "baja",
    "come", "bebe", "alcanza", "cabe", "cierra",
})
_MYSELF = table("soy_yo its_me thats_me me_not_him me_not_her im_the_one")
_MYSELF_WHO = frozenset({"who", "whos", "with", "not", "que"})
_ASKED_ME = frozenset({"asked", "told", "report", "listed", "list", "preguntaron", "pregunto", "dijeron", "pidieron"})


def all_over(words: list[str], long_ago: Entries) -> bool:
    """Whether the whole text tells of what was long ago and is over."""
    end = len(words)
    return bool(spans(long_ago, words, 0, end) and spans(_OVER, words, 0, end)) and not spans(_TODAY, words, 0, end)


def contexts(place: Place) -> frozenset[Context]:
    """All contexts of a mention."""
    words, triggers = place.words, place.triggers
    begin, end = place.sentence
    checks = {
        Context.DENIED: denied(place) or _none_of_those(place) or _answered_no(place),
        Context.OTHER_PERSON: somebody_else(place),
        Context.PAST: _past(place),
        Context.SUPPOSED: _supposed(place),
        Context.ASKED: _asked(place),
        Context.UNCERTAIN: bool(spans(triggers.uncertain, words, begin, end)),
        Context.SINCE_MEDICINE: bool(spans(triggers.since, words, begin, end)),
    }
    return frozenset(context for context, holds in checks.items() if holds)


def somebody_else(place: Place) -> bool:
    """Whether the mention is about somebody else than the patient. A relative carries on within the clause; a
    comma, 'but' or 'I' ends it."""
    words, first, triggers, parent = place.words, place.first, place.triggers, place.parent
    begin, _ = place.sentence
    ends = {at for at, _ in spans(triggers.terminate, words, begin, first)}
    other = False
    at = begin
    while at < first:
        stop = next(iter(phrase_at(triggers.relatives, words, at)), 0)
        if stop and stop <= first + 1:
            child = bool(parent and next(iter(phrase_at(triggers.children, words, at)), 0))
            told = next(iter(phrase_at(triggers.telling, words, stop)), 0)
            joint = "and" in words[max(0, at - 2) : at] and triggers.first.intersection(
                words[max(0, at - 3) : at - 1]
            )
            if not joint and not (at > 0 and words[at - 1] in triggers.not_subject):
                other = not child and not told
            at = stop
            continue
        other = _carried(place, at, other, at in ends)
        at += 1
    if parent and _MYSELF_WHO.intersection(words[begin : place.sentence[1]]) and spans(
            _MYSELF, words, begin, place.sentence[1]):
        return True         # 'it's me, her mum, who has a fever'
    own = triggers.first.intersection(words[first : place.last])
    inside = spans(triggers.relatives, words, first, place.last)
    if other:
        return not own or bool(inside)
    return bool(inside) and not parent and inside[0][0] == first


def cared_for(place: Place) -> bool:
    """Whether the grown relative before a mention may be the patient that a carer writes of: no child is named ('my
    husband vomits blood'), and it is not 'his dad'."""
    words, (begin, _) = place.words, place.sentence
    grown = any(
        words[at] in _KIN and (at == 0 or words[at - 1] not in ("his", "her", "our", "su"))
        for at in range(begin, place.last)
    )
    return grown and place.parent and not spans(place.triggers.children, words, 0, len(words))


def _carried(place: Place, at: int, other: bool, ends: bool) -> bool:
    """Whether somebody else is still spoken of after the word at a place."""
    words, triggers = place.words, place.triggers
    word = words[at]
    aside = word == "my" and at > 0 and words[at - 1] in ("in", "at", "from")     # 'a friend in my group'
    if ends or word == "," or (word in triggers.first and not aside and not (word == "mine" and words[at - 1] == "of")):
        return False
    if word in triggers.third and not place.parent and at + 1 < len(words):
        if not other and word in _THIRD and not spans(triggers.relatives, words, 0, at):
            return False        # nobody is named: perhaps somebody writes for the patient
        wishes = words[at + 1] in ("wants", "wanted") and words[at + 2 : at + 3] == ["to"]     # 'she wants to die'
        return wishes or not next(iter(phrase_at(triggers.telling, words, at + 1)), 0)
    if word in triggers.third and word in ("he", "she", "his", "her", "him"):
        return False
    return other


def _answered_no(place: Place) -> bool:
    """'Wheeze: nah', 'blood? not at all': a sign said back and answered, with nothing before it."""
    words, (begin, _) = place.words, place.sentence
    at = place.last
    while at < min(len(words), place.last + 3) and words[at] not in ("?", ":"):
        at += 1
    return place.first - begin <= 2 and bool(spans(_ANSWERS_NO, words, at + 1, at + 4)) and any(
        words[n] in ("?", ":") for n in range(place.last, min(at + 1, len(words)))
    )


def _none_of_those(place: Place) -> bool:
    """'Chest pain, fever, blood. None of those': a list that the next words deny whole, told of nobody."""
    words, (begin, end) = place.words, place.sentence
    if place.triggers.first.intersection(words[begin:end]) and not _ASKED_ME.intersection(words[begin:end]):
        return False
    for at, to in spans(_NONE_OF_THEM, words, place.last, min(len(words), end + 4)):
        closes = to >= len(words) or words[to] in STOPS or words[to] == ","
        if closes and (words[at - 1] in STOPS or words[at - 1] == ","):
            return True
    return False


def _asked(place: Place) -> bool:
    words, triggers = place.words, place.triggers
    begin, end = place.sentence
    if any(place.linked(to) for _, to in spans(triggers.asked, words, begin, place.first)) or _whether_common(place):
        return True
    if place.first == begin + 1 and words[begin] in ("whats", "define") and end == place.last:
        return True         # 'whats stridor'
    then = spans(_THEN_ASKS, words, end, min(len(words), end + 5))
    printed = _PRINTED.intersection(words[: place.first])      # 'face swelling. Is that normal?' alone is told
    own = triggers.first | _HAS
    return bool(then and printed) and not own.intersection(words[begin:end])


def _whether_common(place: Place) -> bool:
    """'Is hoarseness normal?', 'are hives a known side effect': about the finding as such, with nobody who has it."""
    words, first, last, triggers = place.words, place.first, place.last, place.triggers
    begin, end = place.sentence
    asks = end < len(words) and words[end] == "?"
    plain = (_OPENS if asks else _OPENS - {"can", "could", "do"}).issuperset(words[begin : begin + 1])
    near = first - begin <= 2 and last - first <= 2 and not _TELLS.intersection(words[begin:last])
    if begin < first and plain and near and not _HAS.intersection(words[begin:end]) and place.linked(begin + 1):
        return True         # 'can thrush go away by itself?'
    if triggers.first.intersection(words):
        return False
    opens = first - begin <= 3 and bool(spans(triggers.asked_open, words, begin, first))
    if triggers.asked_open and not opens:
        return False
    return any(
        not place.walled(last, at) and "," not in words[last:at]
        for at, _ in spans(triggers.asked_after, words, last, min(end, last + 8))
    )


def _supposed(place: Place) -> bool:
    """Whether a what-if before the mention, or an 'if' within a question, covers it."""
    words, first, triggers = place.words, place.first, place.triggers
    begin, end = place.sentence
    if spans(triggers.true_now, words, first, end):
        return False
    for at, to in spans(triggers.supposed, words, begin, place.last):
        if words[at] == "si" and _DONE.intersection(words[at + 1 : at + 5]):
            continue            # 'si me la tome': yes, I took it
        said = int(words[at] in ("say", "suppose", "supposing", "imagine", "hypothetically"))
        if at <= first and first - to <= _REACH_SUPPOSED and place.linked(to, through=said):
            return True
        if first < at and words[at] in ("will", "might", "could", "would"):
            return True            # 'food will get stuck'
    after = spans(triggers.supposed_after, words, place.last, min(end, place.last + 10))
    if any(not place.walled(place.last, at) for at, _ in after):
        return True         # 'would a cold sore matter if I got one'
    asks = spans(triggers.asks, words, begin, end) or (end < len(words) and words[end] == "?")
    if not asks:
        return False
    known = spans(triggers.not_if, words, begin, first)
    return any(
        first - at <= 8 and place.linked(to) and not any(p <= at < q for p, q in known)
        for at, to in spans(triggers.condition, words, begin, first)
    )


def _past(place: Place) -> bool:
    """Whether it is over: 'last year' in the mention's clause, or 'fine now' after it."""
    words, last, triggers = place.words, place.last, place.triggers
    begin, end = place.sentence
    reach = min(len(words), last + LONGEST)
    if any(not _over_since(words, at, to) for at, to in spans(triggers.ongoing, words, begin, reach)):
        return False
    if any(dated(place, at, to) for at, to in spans(triggers.past_before, words, begin, end)):
        return True
    for at, to in spans(triggers.past_after, words, last, min(len(words), last + _REACH_AFTER)):
        if words[to - 1] == "no" and _CANNOT_NOW.intersection(words[to : to + 2]):
            continue            # 'ya no puedo hablar' is worse, not over
        if not spans(triggers.negation, words, max(last, at - 2), at) and not place.walled(last, at):
            return True
    return False


def _over_since(words: list[str], at: int, to: int) -> bool:
    """Whether a word that would tell of something going on tells that it is over: 'nothing since', 'it has not
    returned', 'has not shown its face since'."""
    if at and words[at - 1] in _SINCE_THEN_NOT:
        return True
    last = words[at] == "since" and (to >= len(words) or words[to] in STOPS or words[to] == ",")
    return (last or words[at] == "returned") and bool(_OVER_BEFORE.intersection(words[max(0, at - 5) : at]))


def dated(place: Place, at: int, to: int) -> bool:
    """Whether a time word at [at, to) dates the mention."""
    words, first, last, triggers = place.words, place.first, place.last, place.triggers
    if at and words[at] == "back" and words[at - 1] in ("the", "my"):
        return False            # 'white at the back when I say ahh'
    if at and words[at - 1] in ("like", "as", "than", "since", "que", "desde", "until"):
        return False
    if triggers.through_commas:
        return at >= last or place.linked(to)
    if at >= last and at - last <= 8 and _that_was(words, at) and not place.walled(last, at):
        return True
    if at >= last:
        return not (
            spans(triggers.terminate, words, last, at)
            or ("," in words[last:at] and not _aside(place, at, to))
            or place.walled(last, at)
            or place.starts_of_clauses(last, at)
            or at - last > 8
        )
    if at >= first:
        return True
    opens = all(word in triggers.openers or word[0].isdigit() for word in words[_clause_begin(place, at) : at])
    if opens and "," in words[to : to + 2]:
        to = words.index(",", to) + 1
    return place.linked(to, through=1 if opens else 0, own_subject=False)


def _that_was(words: list[str], at: int) -> bool:
    """'... but that was two years ago': what was told before is meant, whatever stands between."""
    lead = words[max(0, at - 4) : at]
    while lead and (lead[-1][0].isdigit() or lead[-1] in _ABOUT):
        lead.pop()
    return lead[-1:] == ["thats"] or (lead[-1:] == ["was"] and lead[-2:-1] in (["that"], ["this"], ["it"]))


def _aside(place: Place, at: int, to: int) -> bool:
    """'Had it once, years ago, not now': a time of its own between marks belongs to what stands before it."""
    words, openers = place.words, place.triggers.openers
    closed = to >= len(words) or words[to] in STOPS or words[to] == ","
    return closed and all(word in openers or word in (",", "once", "at", "school") for word in words[place.last : at])


def _clause_begin(place: Place, at: int) -> int:
    words = place.words
    begin, _ = place.sentence
    cut = [to for _, to in spans(place.triggers.terminate, words, begin, at)]
    cut += [n + 1 for n in range(begin, at) if words[n] == ","]
    return max([begin, *cut])

"""The reader: a reply's words to mentions, findings, a tier, and whether a person must read them."""

from __future__ import annotations

from dataclasses import replace

from bot.understanding import counts, grammar, net, question_grammar
from bot.understanding.context import LONGEST, Place, sentence, spans, words_of
from bot.understanding.everyday import bodiless, idioms_in, no_symptom
from bot.understanding.frames import Hit, find
from bot.understanding.guess import guess
from bot.understanding.language import Language, language_of
from bot.understanding.passing import passing, still
from bot.understanding.questions import question_of
from bot.understanding.readings import measured
from bot.understanding.surroundings import all_over, cared_for, contexts, somebody_else
from bot.understanding.tokens import Token, split
from bot.understanding.types import Answer, Context, Finding, Mention, Reading, Urgency
from bot.understanding.urgency import ALWAYS_EMERGENCY, urgency_of

# Contexts that keep a mention from standing as a finding.
LOWERING = frozenset({Context.DENIED, Context.OTHER_PERSON, Context.PAST, Context.SUPPOSED, Context.ASKED})
MOST_OF_ONE = 6  # hits of one frame that are looked at, at each end of the text
_NEVER_SOMEBODY_ELSE = frozenset({"child_took_it", "exposure"})


_GAVE = frozenset({"gave", "given", "dosed", "handed", "puffed", "dio", "dieron", "di"})
_CARED = frozenset({"fed", "walked", "bathed"})
_PARTNER = words_of("""
wifes girlfriends partners sisters daughters friends cousins nieces
wife girlfriend partner sister daughter friend cousin niece mum mom colleague boss
""")


def read(text: str, *, language: str = "en", asked: str = "", writer: str = "patient") -> Reading:
    """Read one reply. `asked` names the open question ("" when none is open); `writer` is "patient" or
    "parent". Never raises on any text."""
    known = language_of(language)
    tokens = [Token(known.speller.correct(token.word), token.start, token.end, token.raw) for token in split(text)]
    tokens = _unfold(tokens)
    words = [token.word for token in tokens]
    if spans(known.triggers.speaks_for, words, 0, min(len(words), 10)):
        writer = "parent"       # 'mum here, she is confused'
    as_typed = split(text)
    parsed = grammar.parse(tokens, asked, language[:2], parent=writer == "parent")
    if parsed is None and words != [token.word for token in as_typed]:
        parsed = grammar.parse(as_typed, asked, language[:2], parent=writer == "parent")
    hits = _enough(find(known.frames, known.index, words))
    idle = [hit for hit in hits if no_symptom(words, hit, known) or _taken_by_writer(words, hit)]
    live = [hit for hit in hits if hit not in idle]
    mentions, signals = _mentions(words, tokens, known, live, writer == "parent")
    idle += _others(words, live, known, writer == "parent")
    standing = _standing(mentions)
    if parsed and not set(standing) - {Finding.BETTER} and not signals & {"child_took_it", "taken_twice", "exposure"}:
        return Reading(
            text,
            mentions=mentions,
            needs_human=False,
            answer=parsed.answer,
            number=parsed.number,
            clock_time=parsed.clock_time,
        )
    count = counts.told([token.word for token in as_typed], language)
    if count is not None and count.whole and count.less:       # 'I only took 2', 'two instead of four'
        return Reading(text, urgency=Urgency.ROUTINE, needs_human=True, extra=("taken_less",))
    if count is not None and count.more:
        signals |= {"taken_twice"}
    tier = urgency_of(standing, signals, mentions)
    denied_only = bool(mentions) and all(Context.DENIED in mention.context for mention in mentions)
    if tier is Urgency.NONE and not denied_only and not _fine(signals):
        tier = Urgency.ROUTINE
    lowered = [mention for mention in mentions if not mention.stands]
    placed = bool(standing) and tier is Urgency.ROUTINE
    silent = idioms_in(words, tokens, known) + [(tokens[hit.first].start, tokens[hit.last - 1].end) for hit in idle]
    placed = placed or bool(idle and not mentions) or bodiless(words, known)
    raised = _raised(tier, text, [(m.start, m.end) for m in lowered], silent, known, language[:2], placed=placed)
    if raised > tier:
        mentions = (*mentions, *_guessed(words, tokens, known, raised, mentions))
        standing, tier = _standing(mentions), raised
    supposed = any(
        Context.SUPPOSED in mention.context
        and Context.DENIED not in mention.context
        and mention.finding in ALWAYS_EMERGENCY | {Finding.CHEST_PAIN, Finding.ALLERGIC_REACTION}
        for mention in mentions
    )
    raw = split(text)
    asks = question_grammar.parse(text, raw, tokens, language[:2], parent=writer == "parent")
    says_more = tier > Urgency.ROUTINE or bool(signals) or not _of_question(hits, mentions, asks)
    return Reading(
        text,
        findings=standing,
        mentions=mentions,
        urgency=tier,
        needs_human=True,
        answer=_loose(words, asked),
        question=asks[0] if asks else question_of([token.word for token in raw], words),
        asks=() if says_more else asks,
        supposed_emergency=supposed,
        extra=tuple(sorted(signals)),
    )


def _of_question(hits: list[Hit], mentions: tuple[Mention, ...], asks: tuple[str, ...]) -> bool:
    """Whether nothing is found but what the questions themselves speak of: 'what if I miss a dose' supposes a
    miss."""
    own = {str(Finding.MISSED_DOSES)} if "missed_dose" in asks else set()
    return all(own.issuperset(hit.frame.findings) and not hit.frame.signals for hit in hits) and all(
        Context.SUPPOSED in mention.context and mention.finding in own for mention in mentions)


def _raised(
    tier: Urgency,
    text: str,
    lowered: list[tuple[int, int]],
    silent: list[tuple[int, int]],
    known: Language,
    language: str,
    *,
    placed: bool,
) -> Urgency:
    """The tier by the second reader, without the words of lowered mentions; without idioms it must be raised too."""
    def weighed(places: list[tuple[int, int]]) -> Urgency:
        left = _without(text, places)
        words = [known.speller.correct(token.word) for token in split(left)]
        acute = guess(words, known.class_names, Urgency.EMERGENCY) is not None
        return net.raised(tier, left, known, language, lowered=bool(lowered) or placed, acute=acute)

    least = weighed(lowered)
    if silent and least > tier:
        least = min(least, weighed(lowered + silent))
    return least


def _without(text: str, places: list[tuple[int, int]]) -> str:
    """The text without some of its words: what was denied, or is an idiom, is not weighed a second time."""
    kept = list(text)
    for start, end in places:
        kept[start:end] = " " * (end - start)
    return "".join(kept)


def _guessed(
    words: list[str], tokens: list[Token], known: Language, tier: Urgency, mentions: tuple[Mention, ...]
) -> tuple[Mention, ...]:
    """What a reply that only the second reader found worrying is probably about: one uncertain mention, or none."""
    found = guess(words, known.class_names, tier)
    if found is None or any(mention.finding is found[0] for mention in mentions):
        return ()
    finding, first, last = found
    return (Mention(finding, tokens[first].start, tokens[last - 1].end, frozenset({Context.UNCERTAIN})),)


def _unfold(tokens: list[Token]) -> list[Token]:
    """Spelling may give a phrase ('a_lot'): back to one token a word, all at the same place."""
    return [
        Token(word, token.start, token.end, token.raw) for token in tokens for word in token.word.split("_") if word
    ]


def _fine(signals: frozenset[str]) -> bool:
    return signals == {"normal_reading"}


def _loose(words: list[str], asked: str) -> Answer | None:
    """The answer a longer reply begins with ('yes a few white ones'): a hint for the conversation, never a
    reason to close."""
    if asked and words and words[0] in ("yes", "yeah", "yep", "si"):
        return Answer.YES
    return Answer.NO if asked and words and words[0] in ("no", "nope", "nah") else None


def _mentions(
    words: list[str], tokens: list[Token], known: Language, hits: list[Hit], parent: bool
) -> tuple[tuple[Mention, ...], frozenset[str]]:
    mentions: list[Mention] = []
    signals: set[str] = set()
    for hit in hits:
        place = Place(
            words, hit.first, hit.last, known.triggers, hit.passed, _walls(hits, hit.first, hit.last, hit), parent
        )
        about = contexts(place)
        if Context.ASKED in about and _has_it(words, hit, known):
            about = about - {Context.ASKED}
        lowered = about & LOWERING
        if not (
            lowered - {Context.OTHER_PERSON} if _whoever(words, hit) else lowered
        ):
            signals.update(hit.frame.signals)
        for name in hit.frame.findings:
            finding = Finding(name)
            if Context.OTHER_PERSON in about and _grave(finding, hit) and cared_for(place):
                about = about - {Context.OTHER_PERSON}
                signals.update(hit.frame.signals)
            if finding is Finding.PREGNANCY and {"due", "expecting", "having"}.intersection(words):
                about = about - {Context.PAST}  # 'due in June'
            own_baby = "baby" in words[hit.first : hit.last] and not _PARTNER.intersection(words)
            if finding is Finding.PREGNANCY and own_baby:
                about = about - {Context.PAST, Context.OTHER_PERSON}  # 'having a baby in May'
            if finding is Finding.SELF_HARM and parent and spans(known.triggers.children, words, 0, len(words)):
                about = about - {Context.OTHER_PERSON}  # the child whom a parent writes of, whoever is named beside
            if finding is Finding.SELF_HARM and known.triggers.first.intersection(words):
                about = about - {Context.SUPPOSED, Context.ASKED}  # 'I'm scared I might hurt myself'
            if finding is Finding.IMPACTION_NOW:
                finding, about = passing(place, known, about)
            elif finding is Finding.IMPACTION_RESOLVED:
                finding, about = still(place, known, about)
            mentions.append(Mention(finding, tokens[hit.first].start, tokens[hit.last - 1].end, about))
    for reading in measured(words):
        at = reading.at
        about = contexts(Place(words, at, at + 1, known.triggers, walls=_walls(hits, at, at + 1), parent=parent)) - {
            Context.DENIED
        }
        if reading.kind == "fever":
            mentions.append(Mention(Finding.FEVER, tokens[at].start, tokens[at].end, about))
        elif reading.kind == "low_pressure":
            mentions.append(Mention(Finding.ADRENAL_SIGN, tokens[at].start, tokens[at].end, about))
            if not about & LOWERING:
                signals.add("collapse")
        else:
            signals.add("normal_reading")
    if spans(known.long_ago, words, 0, len(words)):
        signals.add("long_ago")
    settled = _settle(_then_passed(mentions, words, tokens, known))
    if all_over(words, known.long_ago):
        settled = [replace(mention, context=mention.context | {Context.PAST}) for mention in settled]
        signals &= {"long_ago", "normal_reading"}
    return tuple(settled), frozenset(signals)


def _grave(finding: Finding, hit: Hit) -> bool:
    grave = {"collapse", "airway_swelling", "severe"}
    return finding in ALWAYS_EMERGENCY or bool(grave.intersection(hit.frame.signals))


def _then_passed(mentions: list[Mention], words: list[str], tokens: list[Token], known: Language) -> list[Mention]:
    """'It was stuck, I was sick and it came out': told as passed after it was told as stuck, and nothing after that
    says that something is still there."""
    passed = max((m.start for m in mentions if m.finding is Finding.IMPACTION_RESOLVED and m.stands), default=-1)
    stuck = [m for m in mentions if m.finding is Finding.IMPACTION_NOW and m.stands]
    if passed < 0 or not stuck or max(m.start for m in stuck) >= passed:
        return mentions
    after = next((at for at, token in enumerate(tokens) if token.start >= stuck[-1].end), len(words))
    if spans(known.present, words, after, len(words)):
        return mentions
    return [replace(m, finding=Finding.IMPACTION_RESOLVED) if m in stuck else m for m in mentions]


def _has_it(words: list[str], hit: Hit, known: Language) -> bool:
    """'Is it normal to not be able to swallow?' asks about what the writer has; so does any question with 'I'
    or 'my' after 'is it normal'."""
    begin, end = sentence(words, hit.first, hit.last)
    soft = spans(known.triggers.asked_soft, words, begin, hit.first)
    emergency = any(Finding(name) in ALWAYS_EMERGENCY for name in hit.frame.findings)
    return bool(soft) and (emergency or bool(known.triggers.first.intersection(words[begin:end])))


def _others(words: list[str], hits: list[Hit], known: Language, parent: bool) -> list[Hit]:
    """Hits that give only a signal, of somebody else: 'my boyfriend is being sick'."""
    return [
        hit
        for hit in hits
        if not hit.frame.findings
        and not _whoever(words, hit)
        and somebody_else(Place(words, hit.first, hit.last, known.triggers, hit.passed, (), parent))
    ]


def _whoever(words: list[str], hit: Hit) -> bool:
    """Whether a signal counts whoever is named: a child took it, or somebody gave a dose besides."""
    given = "taken_twice" in hit.frame.signals and _GAVE.intersection(words[hit.first : hit.last])
    return bool(_NEVER_SOMEBODY_ELSE.intersection(hit.frame.signals) or given)


def _taken_by_writer(words: list[str], hit: Hit) -> bool:
    """'The grandkids are here, but I've had my dose': a child is named, and the writer took it."""
    if "child_took_it" not in hit.frame.signals:
        return False
    passed = {words[at] for at in hit.passed}
    if _CARED.intersection(words[max(0, hit.first - 3) : hit.first]):
        return "," in passed and not {"he", "she", "they", "who"} & passed      # 'fed the cat, drank the slurry'
    return bool({"i", "ive", "we", "weve", "yo"} & passed)


def _enough(hits: list[Hit]) -> list[Hit]:
    """Of one frame the first and the last hits: a text that says the same a hundred times stays quick to read."""
    of_frame: dict[int, list[Hit]] = {}
    for hit in hits:
        of_frame.setdefault(id(hit.frame), []).append(hit)
    kept = {id(hit) for same in of_frame.values() for hit in (same[:MOST_OF_ONE] + same[-MOST_OF_ONE:])}
    return [hit for hit in hits if id(hit) in kept]


def _walls(hits: list[Hit], first: int, last: int, own: Hit | None = None) -> tuple[tuple[int, int], ...]:
    """Places of other findings that do not overlap tokens [first, last)."""
    findings = set(own.frame.findings) if own else set()
    return tuple(
        (hit.first, hit.last)
        for hit in hits
        if hit.frame.findings
        and first - LONGEST <= hit.last
        and hit.first <= last + LONGEST
        and not findings.issuperset(hit.frame.findings)
        and (hit.last <= first or hit.first >= last)
    )


def _settle(mentions: list[Mention]) -> list[Mention]:
    """Mentions in order; a finding told twice at overlapping places is kept once, the standing one first; what
    a larger finding explains goes."""
    kept: list[Mention] = []
    for mention in sorted(mentions, key=lambda m: (m.start, len(m.context & LOWERING), -m.end)):
        if not any(
            k.finding is mention.finding
            and k.context & LOWERING == mention.context & LOWERING
            and mention.start < k.end
            and k.start < mention.end
            for k in kept
        ):
            kept.append(mention)
    denied = [m for m in kept if Context.DENIED in m.context]
    kept = [m for m in kept if not (Context.DENIED not in m.context and _covered(m, denied))]
    supposed = [m for m in kept if Context.SUPPOSED in m.context]
    kept = [m for m in kept if m.context & LOWERING or not _covered(m, supposed)]
    found = {m.finding for m in kept if not m.context & LOWERING}
    if found & {Finding.IMPACTION_NOW, Finding.IMPACTION_RESOLVED, Finding.CANNOT_SWALLOW_SALIVA, Finding.BETTER}:
        kept = [m for m in kept if m.finding is not Finding.WORSE_DYSPHAGIA]
    return kept


def _covered(mention: Mention, denied: list[Mention]) -> bool:
    """A shorter frame inside a denied longer one of the same finding is denied with it."""
    return any(d.finding is mention.finding and d.start <= mention.start and mention.end <= d.end for d in denied)


def _standing(mentions: tuple[Mention, ...]) -> tuple[Finding, ...]:
    return tuple(dict.fromkeys(m.finding for m in mentions if not m.context & LOWERING))

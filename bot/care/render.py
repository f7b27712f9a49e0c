"""Every message to the care team as it is shown: kind and facts -> text and buttons. Texts: texts/en/care.toml."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from bot.chat.types import Button, Outgoing
from bot.escalation.rules import BY_ID
from bot.texts.catalogue import has, say
from scheduler.messages import Message
from scheduler.protocol import ClinicProtocol

LONGEST = 4096          # characters of one message of the chat network
_CAPTION = 1024
_WORDS_SHOWN = 900
_BEFORE_SHOWN = 300

Facts = Mapping[str, Any]
Rows = tuple[tuple[Button, ...], ...]


def render(message: Message, protocol: ClinicProtocol) -> Outgoing:
    """What a care team member sees. Under an unsigned protocol every message begins with the banner.

    An unknown kind is a programming error (KeyError), found by the test over all kinds.
    """
    facts = {"reference": message.reference or "", "zone": protocol.text("care.time_zone"),
             "emergency_number": protocol.text("care.emergency_number"),
             "poison_number": protocol.text("care.poison_number"),
             "crisis_number": protocol.text("care.crisis_number"), **message.facts}
    return _with_banner(KINDS[message.kind](facts), protocol.banner)


def text(key: str, facts: Facts) -> str:
    """A text of care.toml."""
    return say("en", f"care.{key}", facts)


def button(key: str, data: str, facts: Facts | None = None) -> Button:
    return Button(text(f"button.{key}", facts or {}), data)


def title(rule: str) -> str:
    """A rule's name as the care team reads it."""
    key = f"care.rule.{rule}.title"
    return say("en", key, {}) if has(key) else rule.replace("_", " ")


def language_name(tag: str) -> str:
    """A patient's language in English: "es-MX" is "Spanish"; its tag where it has no name here."""
    code = tag.split("-")[0].lower()
    return text(f"language.{code}", {}) if has(f"care.language.{code}") else tag


# --- flags


def flag_lines(facts: Facts) -> list[str]:
    """Urgency and reference, what, their words, where they stand, what they were told, by when, what to weigh."""
    rules: Sequence[str] = facts["rules"]
    filled = {**facts, "number": str(facts["flag"]).rpartition("/")[2],
              "urgency_word": text(f"urgency.{facts['urgency']}", {})}
    head = facts.get("head", "head")
    lines = [text(f"flag.{head}", filled), title(rules[0])]
    if len(rules) > 1:
        lines.append(text("flag.also", {"titles": [title(rule) for rule in rules[1:6]]}))
    if facts.get("new_words"):
        lines.append(text("flag.new_words", facts))
        before = str(facts.get("words", "")).removesuffix(str(facts["new_words"])).strip()
        if before:
            lines.append(text("flag.before", {"words": shorten(before, _BEFORE_SHOWN)}))
    elif facts.get("words"):
        lines += _words(str(facts["words"]), str(facts.get("urgent_words") or ""))
    lines += [_fact(name, value) for name, value in facts.get("about", {}).items()
              if has(f"care.fact.{name}") or has(f"care.fact.{name}.{value}")]
    if facts.get("source") == "check_in":
        lines.append(text("flag.check_in", {}))
    return [*lines, "", *_standing(facts), *_told(facts), *_state(facts), "", *_advice(rules[0])]


def _words(words: str, urgent: str) -> list[str]:
    """The patient's words; those that made the flag as urgent as it is come first."""
    rest = words.replace(urgent, "", 1).replace("\n\n", "\n").strip() if urgent else ""
    if not rest:
        return [text("flag.words", {"words": shorten(words, _WORDS_SHOWN)})]
    return [text("flag.words", {"words": shorten(urgent, _WORDS_SHOWN)}),
            text("flag.also_said", {"words": shorten(rest, _WORDS_SHOWN)})]


def _fact(name: str, value: Any) -> str:
    """A fact of an event: its own sentence for this value, or the one for any value."""
    own = f"fact.{name}.{value}"
    return text(own if has(f"care.{own}") else f"fact.{name}", {"value": value})


def _standing(facts: Facts) -> list[str]:
    if facts.get("week") is None:
        lines = [text("flag.where_none", {})]
    else:
        lines = [text("flag.where", {**facts, "phase": str(facts["phase"]).capitalize(),
                                     "medicine": str(facts["medicine"]).capitalize()})]
    if facts.get("reason") in ("waiting", "season"):
        lines.append(text(f"flag.{facts['reason']}", {}))
    if facts.get("held"):
        lines.append(text("flag.held", {}))
    if facts.get("reached"):
        lines.append(text(f"flag.{facts['reached']}", {}))
    if "taken_7" in facts:
        lines.append(text("flag.lately", facts))
    if facts.get("scores"):
        lines.append(text("flag.scores", {"scores": ", ".join(map(str, facts["scores"]))}))
    if facts.get("age") is not None:
        lines.append(text("flag.age", facts))
    if facts.get("writer") == "parent":
        lines.append(text("flag.by_parent", {}))
    if str(facts.get("language", "en")).split("-")[0] != "en":
        lines.append(text("flag.language", {"language": language_name(str(facts["language"]))}))
    return lines


def _told(facts: Facts) -> list[str]:
    rule = BY_ID.get(facts["rules"][0])
    return [text(f"told.{(rule.answer if rule else '') or 'nothing'}", facts)]


def _state(facts: Facts) -> list[str]:
    if facts["state"] == "closed":
        lines = [text("flag.closed", facts)]
        return [*lines, text("flag.note", facts)] if facts.get("note") else lines
    lines = [text("flag.taken_before", facts)] if facts.get("taken_before") and not facts.get("taken_by") else []
    return [*lines, text("flag.taken" if facts.get("taken_by") else "flag.act_by", facts)]


def _advice(rule: str) -> list[str]:
    found = BY_ID.get(rule)
    if found is None:
        return []
    return [text("flag.weigh", {"weigh": text(f"rule.{rule}.weigh", {})}),
            text("flag.source", {"source": found.source})]


def flag_buttons(facts: Facts) -> Rows:
    """Only what can be done in the flag's state."""
    flag, reference = facts["flag"], facts["reference"]
    card = button("card", f"p:{reference}:card")
    if facts["state"] == "closed":
        return ((button("reopen", f"f:{flag}:reopen"), card),)
    first = () if facts.get("taken_by") else (button("take", f"f:{flag}:take"),)
    answer = () if facts.get("reached") == "left" else (button("answer", f"f:{flag}:answer"),)   # it would reach nobody
    if not (first or answer):
        return ((button("close", f"f:{flag}:close"), card),)
    return ((*first, *answer), (button("close", f"f:{flag}:close"), card))


def _flag(head: str) -> Callable[[Facts], Outgoing]:
    def show(facts: Facts) -> Outgoing:
        return Outgoing("\n".join(flag_lines({**facts, "head": head})), flag_buttons(facts))
    return show


# --- milestones, digest, pictures, what failed


def _milestone(facts: Facts) -> Outgoing:
    lines = [text(f"milestone.{facts['title']}", {**facts, "week": facts.get("week") or 0})]
    if facts.get("week") is not None:
        lines.append(text("milestone.where", {**facts, "phase": str(facts["phase"]).capitalize()}))
    scores = [f"{score:g}" for score in facts["scores"]]
    lines.append(text("milestone.scores", {"scores": ", ".join(scores)}) if scores else text("milestone.no_scores", {}))
    if facts.get("first_score") is not None and len(scores) > 1:
        lines.append(text("milestone.first_score", facts))
    lines.append(text("milestone.doses", facts))
    if facts.get("endoscopy"):
        full = facts.get("peak") is not None and facts.get("erefs") is not None
        lines.append(text("milestone.endoscopy_line" if full else "milestone.endoscopy_date", facts))
    lines.append(text("milestone.flags", facts))
    if facts["options"]:
        lines += [text("milestone.options", {}), *(f"• {text(f'option.{name}', {})}" for name in facts["options"])]
    reference = facts["reference"]
    return Outgoing("\n".join(lines),
                    ((button("card", f"p:{reference}:card"), button("chart", f"p:{reference}:chart")),))


def _digest(facts: Facts) -> Outgoing:
    rows = facts["rows"]
    answered = [text("digest.answered", facts)] if facts.get("answered") else []
    if not rows:
        return Outgoing("\n".join([text("digest.none_head", facts), *answered]))
    lines = [text("digest.head", facts)]
    for place, row in enumerate(rows, 1):
        more = f" + {row['more_rules']}" if row["more_rules"] else ""
        line = text("digest.row", {**row, "mark": f"{place}.", "title": title(row["rule"]) + more,
                                   "urgency_word": text(f"urgency.{row['urgency']}", {})})
        lines.append(line)
        if row.get("late"):
            lines.append(f"    {text('digest.late', {**row, 'zone': facts['zone']})}")
        if row["taken_by"]:
            lines.append(f"    {text('digest.taken', row)}")
        elif row["words"]:
            lines.append(f"    “{row['words']}”")
    lines += ["", *answered, text("digest.open_tap", {})]
    taps = [button("open", f"f:{row['flag']}:open", row) for row in rows]
    buttons = [tuple(taps[start:start + 2]) for start in range(0, len(taps), 2)]
    if facts.get("more"):
        buttons.append((button("more", f"f:{facts['next']}:list", {"n": facts["more"]}),))
    return Outgoing("\n".join(lines), tuple(buttons))


def _picture(facts: Facts) -> Outgoing:
    lines = [text("picture.head" if facts["reference"] else "picture.head_none", facts)]
    if facts.get("words"):
        lines.append(text("flag.words", {"words": shorten(str(facts["words"]), 400)}))
    return Outgoing("\n".join([*lines, text("picture.note", {})]))


def _unhandled(facts: Facts) -> Outgoing:
    lines = [text("unhandled.head" if facts["reference"] else "unhandled.head_stranger", facts)]
    lines.append(text("flag.words", {"words": shorten(str(facts["words"]), _WORDS_SHOWN)}))
    rows: Rows = ((button("write", f"p:{facts['reference']}:write"),
                   button("card", f"p:{facts['reference']}:card")),) if facts["reference"] else ()
    return Outgoing("\n".join([*lines, text("unhandled.note", facts)]), rows)


def _quarantined(facts: Facts) -> Outgoing:
    return Outgoing("\n".join([text("quarantined.head", facts), text("quarantined.why", facts),
                               text("quarantined.note", facts)]), _to_card(facts))


def _set_aside(facts: Facts) -> Outgoing:
    head = text("set_aside.head" if facts["reference"] else "set_aside.head_none", facts)
    return Outgoing("\n".join([head, text("set_aside.note", facts)]), _to_card(facts))


def _to_card(facts: Facts) -> Rows:
    return ((button("card", f"p:{facts['reference']}:card"),),) if facts["reference"] else ()


def _late(facts: Facts) -> Outgoing:
    return Outgoing("\n".join([text("late.head", facts), text("late.body", facts), text("late.note", facts)]))


def plain(message: Message, protocol: ClinicProtocol) -> Outgoing:
    """What a message holds when its layout fails: the kind, the reference and the patient's words."""
    facts = {"reference": message.reference or "?", "kind": message.kind.replace("_", " "),
             "words": shorten(str(message.facts.get("new_words") or message.facts.get("words") or "-"), _WORDS_SHOWN)}
    lines = [text("plain.head", facts), text("flag.words", facts), text("plain.note", facts)]
    return _with_banner(Outgoing("\n".join(lines)), protocol.banner)


# --- the desk's answers


def _desk(facts: Facts) -> Outgoing:
    """An answer made of texts (text_keys, under care.), plain lines, and buttons (label key, data, facts)."""
    lines = [text(key, facts) for key in facts.get("text_keys", ())] + list(facts.get("lines", ()))
    rows = tuple(tuple(button(label, data, more) for label, data, more in row) for row in facts.get("buttons", ()))
    return Outgoing("\n".join(lines), rows, asks_reply=bool(facts.get("asks_reply")))


def _chart(facts: Facts) -> Outgoing:
    from bot.care.chart import draw  # matplotlib is slow to load: only when a chart is asked for

    return Outgoing("\n".join(facts.get("lines", ())), photo=draw(facts["chart"]), file_name="chart.png")


KINDS: dict[str, Callable[[Facts], Outgoing]] = {
    "flag": _flag("head"),
    "flag_more": _flag("head_more"),
    "flag_again": _flag("head_again"),
    "flag_left_open": _flag("head_left_open"),
    "milestone": _milestone,
    "digest": _digest,
    "picture": _picture,
    "unhandled": _unhandled,
    "quarantined": _quarantined,
    "set_aside": _set_aside,
    "late": _late,
    "desk": _desk,
    "chart": _chart,
}


def shorten(words: str, most: int) -> str:
    """The newest words are kept: they are what has changed."""
    return words if len(words) <= most else f"… {words[-most:]}"


def _with_banner(outgoing: Outgoing, banner: str) -> Outgoing:
    most = _CAPTION if outgoing.photo else LONGEST
    whole = f"[{banner}]\n{outgoing.text}" if banner else outgoing.text
    if len(whole) > most:
        whole = whole[: most - 1] + "…"
    return Outgoing(whole, outgoing.buttons, outgoing.photo, outgoing.document, outgoing.file_name, outgoing.asks_reply,
                    outgoing.reply_to)

"""Patient messages as they are shown: kind and facts -> text and buttons. Sentences come from the catalogue only."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from bot.chat.types import Button, Outgoing
from bot.texts.catalogue import DEFAULT_LANGUAGE, has, language_of, say
from scheduler.messages import Message

Facts = Mapping[str, Any]

# What the rules say to the patient (bot/escalation/telling.py); a test holds the two lists together.
ESCALATION_KINDS = ("emergency_answer", "passed_on", "self_harm_answer", "poison_answer", "what_if_answer",
                    "not_now_answer", "being_read", "nobody_has_read", "follow_up", "follow_up_thanks",
                    "doses_go_on", "flag_closed")
Rows = tuple[tuple[Button, ...], ...]


def render(message: Message) -> Outgoing:
    """What the patient sees. An unknown kind is a programming error (KeyError), found by the test over all kinds."""
    return KINDS[message.kind](str(message.facts.get("lang", "en")), message.facts)


def _say(lang: str, key: str, facts: Facts) -> str:
    """The sentence; where a parent or carer reads, its form about the child, if it has one."""
    file, _, name = key.partition(".")
    for_parent = f"{file}.parent.{name}"
    return say(lang, for_parent if facts.get("writer") == "parent" and has(for_parent) else key, facts)


def _plain(key: str) -> Callable[[str, Facts], Outgoing]:
    return lambda lang, facts: Outgoing(_say(lang, key, facts))


def _button(lang: str, key: str, data: str, facts: Facts | None = None) -> Button:
    return Button(say(lang, key, facts or {}), data)


def _rows(buttons: Sequence[Button], per_row: int = 2) -> Rows:
    return tuple(tuple(buttons[start:start + per_row]) for start in range(0, len(buttons), per_row))


# --- doses


_SLOTS = (("morning", 4, 11), ("midday", 11, 16), ("evening", 16, 23))   # hours; the rest is night


def slot_name(lang: str, clock: str) -> str:
    """Which dose of the day, by its planned time: a person who works nights still reads a name that fits the clock."""
    hour = int(clock[:2])
    name = next((name for name, start, end in _SLOTS if start <= hour < end), "night")
    return say(lang, f"doses.slot.{name}", {})


def _named(lang: str, facts: Facts) -> dict[str, Any]:
    slot = slot_name(lang, facts["clock"])
    return {**facts, "slot": slot, "slot_title": slot[:1].upper() + slot[1:]}


def preparation(lang: str, facts: Facts) -> str:
    """How one dose is made and taken, step by step, with counts."""
    if facts.get("puffs"):
        return "\n".join([*_inhaler_first(lang, facts), _say(lang, "doses.prepare.puffs", facts)])
    lines = [say(lang, "doses.prepare.ampoules", facts)]
    if facts.get("packets"):
        lines.append(say(lang, "doses.prepare.sweetener", facts))
    elif facts.get("vehicle_ml"):
        vehicle = say(lang, f"doses.vehicle.{str(facts['vehicle']).replace(' ', '_')}", {})
        lines.append(say(lang, "doses.prepare.vehicle", {**facts, "vehicle": vehicle}))
    lines.append(_say(lang, "doses.prepare.measured" if facts.get("dose_ml") else "doses.prepare.swallow", facts))
    return "\n".join(lines)


def _inhaler_first(lang: str, facts: Facts) -> Iterator[str]:
    """Before the puffs: that a new canister is due, and the sprays into the air that ready the inhaler. What was told
    with a dose that was never answered is told again, as something that may be done already."""
    told = facts.get("prime") or {}
    again, changed = "_again" if told.get("repeated") else "", (told.get("canister") or 1) > 1
    if changed:
        yield _say(lang, f"doses.prepare.canister{again}", facts)
    if told.get("sprays"):
        yield say(lang, f"doses.prepare.prime{'_new' if changed else ''}{again}", told)


def _dose_buttons(lang: str, key: str) -> list[Button]:
    return [_button(lang, f"doses.button.{choice}", f"d:{key}:{choice}")
            for choice in ("now", "earlier", "later", "no")]


def _reminder(which: str) -> Callable[[str, Facts], Outgoing]:
    def show(lang: str, facts: Facts) -> Outgoing:
        head = _say(lang, f"doses.reminder.{which}", _named(lang, facts))
        key = facts.get("occasion") or facts["day_key"]
        buttons = _dose_buttons(lang, key)
        body = head if which == "again" else "\n\n".join(
            [head, preparation(lang, facts), say(lang, "doses.prepare.after", facts)])
        return Outgoing(body, _rows(buttons))
    return show


def _held(lang: str, facts: Facts) -> Outgoing:
    return Outgoing(_say(lang, "doses.hold.reminder", _named(lang, facts)),
                    ((_button(lang, "doses.hold.button", f"h:{facts['flag']}:go"),),))


def _hold_answer(lang: str, facts: Facts) -> Outgoing:
    return Outgoing(_say(lang, "doses.hold.answer", facts),
                    ((_button(lang, "doses.hold.button", f"h:{facts['flag']}:go"),),))


def _taken(lang: str, facts: Facts) -> Outgoing:
    return Outgoing(_say(lang, "doses.reminder.taken", {**_named(lang, facts), "taken": facts["taken"]}),
                    _rows([_button(lang, "doses.button.wrong", f"x:{facts['occasion']}:undo")]))


def _skipped(lang: str, facts: Facts) -> Outgoing:
    return Outgoing(_say(lang, "doses.reminder.skipped", _named(lang, facts)),
                    _rows([_button(lang, "doses.button.wrong", f"x:{facts['occasion']}:undo")]))


def _asked(lang: str, facts: Facts) -> Outgoing:
    """'Did you take it?', with the buttons of the reminder."""
    key = "doses.ask.took_rinsed" if facts.get("rinsed") else "doses.ask.took"
    return Outgoing(_say(lang, key, _named(lang, facts)), _rows(_dose_buttons(lang, facts["day_key"])))


def _to_correct(lang: str, facts: Facts) -> Outgoing:
    """Which answer was wrong: a button for every dose that was answered lately."""
    rows = tuple((_button(lang, f"doses.correct.{'taken' if one['taken'] else 'skipped'}",
                          f"x:{one['occasion']}:undo", one),) for one in facts["doses"])
    return Outgoing(_say(lang, "doses.correct.which", facts), rows)


def _late(lang: str, facts: Facts) -> Outgoing:
    """The reminder could not leave in time. While the dose can still be taken, it can be confirmed as taken now."""
    text = _say(lang, f"doses.reminder.late_{'open' if facts['open'] else 'closed'}", _named(lang, facts))
    choices = ("now", "earlier", "no") if facts["open"] else ("earlier", "no")
    return Outgoing(text, _rows([_button(lang, f"doses.button.{choice}", f"d:{facts['occasion']}:{choice}")
                                 for choice in choices]))


def _ask_minutes(key: str, prefix: str, label: str) -> Callable[[str, Facts], Outgoing]:
    def show(lang: str, facts: Facts) -> Outgoing:
        buttons = [_button(lang, label, f"{prefix}:{facts['occasion']}:{minutes}", {"minutes": minutes})
                   for minutes in facts.get("choices", ())]
        name = key if buttons else f"{key}_untapped"   # nothing to tap: only the time in words helps
        return Outgoing(_say(lang, name, facts), _rows(buttons))
    return show


def _ask_why(lang: str, facts: Facts) -> Outgoing:
    buttons = [_button(lang, f"doses.reason.{reason}", f"n:{facts['occasion']}:{reason}")
               for reason in facts["choices"]]
    return Outgoing(_say(lang, "doses.ask.why_not", facts), _rows(buttons))


def _rinse_button(lang: str, dose_key: str) -> Rows:
    return ((_button(lang, "doses.button.rinsed", f"r:{dose_key}:done"),),)


def _window_open(lang: str, facts: Facts) -> Outgoing:
    text = _say(lang, "doses.window.open", facts)
    if not facts["rinse_first"]:
        return Outgoing(text)
    rinse = _say(lang, "doses.window.rinse_first", facts)
    return Outgoing(f"{text}\n\n{rinse}", _rinse_button(lang, facts["occasion"]))


def _window_over(lang: str, facts: Facts) -> Outgoing:
    if facts.get("rinsed"):
        return Outgoing(_say(lang, "doses.window.over", facts))
    return Outgoing(f"{_say(lang, 'doses.window.over', facts)} {_say(lang, 'doses.window.rinse_now', facts)}",
                    _rinse_button(lang, facts["occasion"]))


def _window_end(lang: str, facts: Facts) -> Outgoing:
    if not facts["rinse_now"]:
        return Outgoing(_say(lang, "doses.window.end", facts))
    return Outgoing(f"{_say(lang, 'doses.window.rinse_now', facts)} {_say(lang, 'doses.window.end', facts)}",
                    _rinse_button(lang, facts["day_key"]))


def _with_last(key: str) -> Callable[[str, Facts], Outgoing]:
    """A sentence that names the next dose, or its short form when there is none."""
    return lambda lang, facts: Outgoing(_say(lang, key if facts.get("next_day") else f"{key}_last", facts))


# --- steps, seasons, course


def _dose_change(key: str, confirm: bool) -> Callable[[str, Facts], Outgoing]:
    def show(lang: str, facts: Facts) -> Outgoing:
        doses = [say(lang, "doses.step.one", {**one, "unit": say(lang, f"doses.unit.{one['unit']}", one)})
                 for one in facts["doses"]]
        parts = [_say(lang, key, {**facts, "doses": doses})]
        different = _different(facts["doses"])
        head = "doses.step.prepare" if len(different) == 1 else "doses.step.prepare_at"
        who = {"writer": facts.get("writer"), "call_me": facts.get("call_me", ""),
               "prime": None}   # the sprays belong to one dose, and its reminder tells them
        parts += [f"{say(lang, head, one)}\n{preparation(lang, {**one, **who})}" for one in different]
        if facts.get("held"):
            parts.insert(0, _say(lang, "doses.hold.change", facts))
        if not confirm:
            return Outgoing("\n\n".join(parts))
        parts.append(say(lang, "doses.step.confirm", facts))
        buttons = [_button(lang, f"doses.button.{choice}", f"s:{facts['occasion']}:{choice}")
                   for choice in ("ok", "ask")]
        return Outgoing("\n\n".join(parts), _rows(buttons))
    return show


def _step_today(lang: str, facts: Facts) -> Outgoing:
    """The change of today; a season that raises the dose, its end that lowers it, and a changed plan are named."""
    why, rises = str(facts.get("reason", "")), bool(facts.get("rises"))
    named = {("season", True): "doses.season.start", ("season over", False): "doses.season.end",
             ("plan", rises): "doses.step.plan_today"}.get((why, rises))
    return _dose_change(named or "doses.step.today", confirm=True)(lang, facts)


def _step_tomorrow(lang: str, facts: Facts) -> Outgoing:
    key = "doses.step.plan_tomorrow" if facts.get("reason") == "plan" else "doses.step.tomorrow"
    return _dose_change(key, confirm=True)(lang, facts)


def _different(doses: Sequence[Facts]) -> list[Facts]:
    """Each preparation once: morning and evening are usually the same."""
    seen: dict[Any, Facts] = {}
    for one in doses:
        seen.setdefault(one["units"], one)
    return list(seen.values())


def _supply_low(lang: str, facts: Facts) -> Outgoing:
    without = facts.get("first_day_without")
    key = f"doses.course.supply_low{'' if without else '_undated'}"
    pack = "inhaler" if facts.get("form") == "inhaler" else "ampoule"
    buttons = [_button(lang, f"doses.course.got_{pack}", f"b:{facts['occasion']}:{n}", {"n": n}) for n in (1, 2, 3)]
    return Outgoing(_say(lang, key, {**facts, "runs_out": without}), tuple((one,) for one in buttons))


# --- enrolment


def _consent(key: str) -> Callable[[str, Facts], Outgoing]:
    return lambda lang, facts: Outgoing(_say(lang, key, facts), (
        (_button(lang, "enrolment.button.agree", "k:yes"),), (_button(lang, "enrolment.button.refuse", "k:no"),)))


def _who(lang: str, facts: Facts) -> Outgoing:
    return Outgoing(say(lang, "enrolment.who_writes", facts), (
        (_button(lang, "enrolment.button.patient", "w:patient"),),
        (_button(lang, "enrolment.button.parent", "w:parent"),)))


def _welcome(lang: str, facts: Facts) -> Outgoing:
    name = "welcome_held" if facts.get("held") else "welcome" if facts.get("first_day") else "welcome_later"
    return Outgoing(_say(lang, f"enrolment.{name}", facts))


def _bullets(lang: str, facts: Facts) -> Outgoing:
    head, *points = (_say(lang, key, facts) for key in facts["text_keys"])
    return Outgoing("\n".join([head, *(f"• {point}" for point in points)]))


# --- check-in


def _item(lang: str, facts: Facts) -> Outgoing:
    head = f"{say(lang, 'check_in.' + facts['head'], facts)}\n\n" if facts.get("head") else ""
    rows = tuple((Button(("✓ " if tap["ticked"] else "") + say(lang, tap["label_key"], {}), tap["data"]),)
                 for tap in facts["buttons"])
    tail = f"\n{say(lang, 'check_in.tap_all', facts)}" if facts.get("several") else ""
    return Outgoing(head + say(lang, facts["text_key"], facts) + tail, rows)


def _thanks(lang: str, facts: Facts) -> Outgoing:
    return Outgoing(say(lang, f"check_in.thanks_{'passed' if facts['passed'] else 'good'}", facts))


def _item_answered(lang: str, facts: Facts) -> Outgoing:
    return Outgoing(f"{say(lang, facts['text_key'], facts)}\n→ {', '.join(facts['answers'])}")


# --- what the care team and the rules say to the patient


def _by_text_key(lang: str, facts: Facts) -> Outgoing:
    """Texts named by their keys (text_key, or text_keys as paragraphs), with the buttons that the rules gave: (label
    key, data). topic_keys are texts in a word or two that {topics:list} shows."""
    filled = {**facts, "topics": [_say(lang, key, facts) for key in facts.get("topic_keys", ())]}
    keys = facts.get("text_keys") or [facts["text_key"]]
    rows = tuple((_button(lang, label, data, facts),) for label, data in facts.get("buttons", ()))
    return Outgoing("\n\n".join(_say(lang, key, filled) for key in keys), rows)


def _question(lang: str, facts: Facts) -> Outgoing:
    """The clinic's own answers to common questions, where they are from (the protocol says so in English: who reads
    another language is spared it), and who else reads the words and when; or, where nobody has to, the tap that brings
    them to the care team."""
    answers = [facts, *({**facts, **one} for one in facts.get("more", ()))]
    sources = list(dict.fromkeys(_say(lang, "questions.source", one) for one in answers))
    if language_of(lang) != DEFAULT_LANGUAGE:
        sources = []
    ask = facts.get("ask", "")
    reads = "questions.ask" if ask else "questions.also_by" if facts.get("by") else "questions.also"
    parts = [*(_say(lang, one["text_key"], one) for one in answers), _say(lang, reads, facts), *sources]
    return Outgoing("\n\n".join(parts), ((_button(lang, "questions.button", f"a:{ask}:care"),),) if ask else ())


KINDS: dict[str, Callable[[str, Facts], Outgoing]] = {
    "dose": _reminder("first"),
    "dose_repeat": _reminder("again"),
    "dose_later": _reminder("later"),
    "dose_held": _held,
    "hold_answer": _hold_answer,
    "dose_asked": _asked,
    "answer_to_correct": _to_correct,
    "dose_reopened": lambda lang, facts: Outgoing(_say(lang, "doses.reminder.reopened", _named(lang, facts))),
    "dose_noted": lambda lang, facts: Outgoing(_say(lang, "doses.answer.noted", _named(lang, facts))),
    "hold_over": _with_last("doses.hold.over"),
    "dose_taken": _taken,
    "dose_skipped": _skipped,
    "dose_moved": lambda lang, facts: Outgoing(_say(lang, "doses.reminder.moved", _named(lang, facts))),
    "dose_reminder_late": _late,
    "ask_when_taken": _ask_minutes("doses.ask.when_taken", "e", "doses.button.minutes_ago"),
    "time_not_fitting": _ask_minutes("doses.answer.time_not_fitting", "e", "doses.button.minutes_ago"),
    "time_not_clear": _ask_minutes("doses.answer.time_not_clear", "e", "doses.button.minutes_ago"),
    "ask_how_long": _ask_minutes("doses.ask.how_long", "l", "doses.button.in_minutes"),
    "later_not_possible": _ask_minutes("doses.answer.later_not_possible", "l", "doses.button.in_minutes"),
    "later_not_after_close": _ask_minutes("doses.answer.later_not_after_close", "l", "doses.button.in_minutes"),
    "ask_why_not": _ask_why,
    "window_open": _window_open,
    "window_over": _window_over,
    "window_end": _window_end,
    "window_broken": _plain("doses.window.broken"),
    "rinse_noted": _plain("doses.answer.rinse_noted"),
    "later_noted": _plain("doses.answer.later_noted"),
    "skip_noted": _with_last("doses.answer.skip_noted"),
    "dose_too_late": _with_last("doses.answer.too_late"),
    "dose_still_open": _plain("doses.answer.still_open"),
    "dose_already_taken": _plain("doses.answer.already_taken"),
    "dose_is_old": _plain("doses.answer.is_old"),
    "doses_close_together": _plain("doses.answer.close_together"),
    "nothing_open": _plain("doses.answer.nothing_open"),
    "nothing_asked": _plain("doses.answer.nothing_asked"),
    "correction_noted": _plain("doses.answer.correction_noted"),
    "correction_late": _plain("doses.answer.correction_late"),
    "taken_while_held": _plain("doses.hold.taken"),
    "step_tomorrow": _step_tomorrow,
    "step_today": _step_today,
    "step_confirmed": _plain("doses.step.confirmed"),
    "step_is_old": _plain("doses.step.is_old"),
    "step_question": _plain("doses.step.question"),
    "supply_low": _supply_low,
    "supply_noted": _plain("doses.course.supply_noted"),
    "endoscopy_due": _plain("doses.course.endoscopy_due"),
    "course_ends": _plain("doses.course.ends"),
    "course_over": lambda lang, facts: Outgoing("\n\n".join(_say(lang, key, facts) for key in (
        *(["escalation.tell.words_alarm"] if facts.get("alarm") else []), "doses.course.over"))),
    "consent": _consent("enrolment.consent"),
    "consent_again": _consent("enrolment.consent_again"),
    "joining_too_late": _plain("enrolment.joining_too_late"),
    "consent_refused": _plain("enrolment.consent_refused"),
    "who_writes": _who,
    "welcome": _welcome,
    "good_to_know": _bullets,
    "left": _plain("enrolment.left"),
    "left_in_emergency": _plain("enrolment.left_in_emergency"),
    "how_to_leave": _plain("enrolment.how_to_leave"),
    "not_over": _plain("enrolment.not_over"),
    "added_too": _plain("enrolment.added_too"),
    "here_for_you": _plain("enrolment.here_for_you"),
    "dose_waits": lambda lang, facts: Outgoing(_say(lang, "doses.answer.dose_waits", _named(lang, facts))),
    "help": _plain("enrolment.help"),
    "stranger": _plain("enrolment.stranger"),
    "unhandled_answer": _by_text_key,
    "check_in_item": _item,
    "check_in_answered": _item_answered,
    "check_in_thanks": _thanks,
    "check_in_closed": _plain("check_in.closed"),
    "check_in_waits": _plain("check_in.waits"),
    "question_answer": _question,
    "question_passed_on": _plain("questions.asked"),
    "care_answer": _by_text_key,
    "care_note": _by_text_key,
    **dict.fromkeys(ESCALATION_KINDS, _by_text_key),
}

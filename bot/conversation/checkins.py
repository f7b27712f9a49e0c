"""The weekly check-in in the conversation: asked item by item, tapped or typed, resumed, corrected, closed.

What it remembers stands in the conversation's facts under "check_in": {"key", "item", "shown" (key of the message that
asks), "asked_at", "answers", "closes"}; the questions, their branches and the score are `bot/checkin`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from typing import Any

from bot import checkin
from bot.case import Case, Changes, Conversation
from bot.conversation import holds
from bot.conversation.finding import due_dose
from bot.conversation.saying import clinic, note, say
from bot.conversation.words import emergency_is_open
from bot.escalation import assess, assess_event
from bot.escalation.talking import spoke_since
from bot.texts.catalogue import say as text_of
from bot.understanding import read
from bot.understanding.types import Answer, Reading
from scheduler.messages import Message, Priority, To
from scheduler.plan import paused
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind

_UNASKED = ("intro", "again", "asked")   # a question that no answer of the patient's has led to
_BY_CARE = "asked:"                      # how the key of a question begins that the care team has asked itself
MOST_TAPS = 8   # of a good week, as the intro says and a test holds


def begin(case: Case, due: Message, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The plan's time has come: the first question. An older check-in still open is closed with what it has."""
    closing = _close(case, now, protocol) if "check_in" in case.conversation.facts else Changes()
    key = str(due.facts.get("occasion", due.key))
    closes = datetime.fromisoformat(due.facts["closes"]) if "closes" in due.facts else (
        now + protocol.span("check_in.open_for"))
    progress = {"key": key, "item": "", "shown": "", "answers": {}, "closes": closes.isoformat()}
    notes = (note(case, key, "check_in_repeat", now + protocol.span("check_in.repeat_after"), check_in=key),
             note(case, key, "check_in_closed", closes, check_in=key))
    return closing + Changes(messages=notes) + _ask(case.after(closing), progress, key, now, protocol, head="intro")


def tapped(case: Case, item_id: str, choice: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """A button of a question, or 'back'."""
    progress = case.conversation.facts.get("check_in")
    if progress is None:
        return Changes(messages=(say(case, cause, "check_in_closed", now),))
    items = checkin.items(case, now, protocol)
    if choice == checkin.BACK and not item_id:
        return _ask(case, {**progress, "answers": checkin.take_back(items, progress["answers"])}, cause, now, protocol)
    item = next((one for one in items if one.id == item_id), None)
    if item is None:
        return Changes()
    try:
        answers = checkin.record_answer(progress["answers"], item, choice)
    except checkin.NotAChoice:
        return _ask(case, progress, cause, now, protocol)
    progress = {**progress, "answers": answers}
    if not checkin.is_answered(item, answers):   # one of several: show the tick in the same message
        tick = _question(case, progress, item, cause, now, protocol, edits=progress["shown"])
        return Changes(messages=(tick,), conversation=_with(case, progress, now))
    return _answered(case, progress, item, cause, now, protocol)


def words(case: Case, reading: Reading, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Typed instead of tapped. The escalation rules have seen the words; here they are only an answer."""
    progress = case.conversation.facts.get("check_in")
    if progress is None:
        return Changes()
    item = next((one for one in checkin.items(case, now, protocol) if one.id == progress["item"]), None)
    if item is None:
        return Changes()
    choice = checkin.choice_for(item, reading)
    if choice is not None:
        return tapped(case, item.id, choice.id, cause, now, protocol)
    if item.free_text:
        answers = checkin.record_answer(progress["answers"], item, reading.text)
        return _go_on(case, {**progress, "answers": answers}, cause, now, protocol)
    # not an answer to this question: it has gone to a person, or was a 'yes' that fits several buttons. Shown again
    # once: who writes three lines in a row is not asked three times; the buttons above stay good, and that is said.
    if reading.needs_human and progress.get("shown_again") == item.id:
        return Changes(messages=(say(case, cause, "check_in_waits", now),))
    progress = {**progress, "shown_again": item.id}
    return _ask(case, progress, cause, now, protocol, head="" if reading.needs_human else "tap_one")


def waits(case: Case, cause: str, now: datetime) -> Changes:
    """'Later': the questions stay where they are and are not asked again at once."""
    return Changes(messages=(say(case, cause, "check_in_waits", now),))


def typed(case: Case, text: str, now: datetime, protocol: ClinicProtocol, *,
          plain: bool = True) -> tuple[str, str] | None:
    """(question, choice) that a text means when it is wholly what stands on a button of the open question, or (plain) a
    plain word for it ('fine', 'same'); else None. The choice may be DONE."""
    progress, lang = case.conversation.facts.get("check_in"), case.plan.patient.language
    item = next((one for one in checkin.items(case, now, protocol) if progress and one.id == progress["item"]), None)
    if item is None or progress is None or case.conversation.state != "check_in":
        return None
    if of_the_dose(case, text, now, protocol) is not None:
        return None
    plain = plain and not (emergency_is_open(case) or spoke_since(case, case.conversation.since or now, now, protocol))
    choice = checkin.typed_choice(item, text, _labels(item, lang), lang, plain=plain)
    if choice is not None:
        return item.id, choice
    done = {checkin.bare(text_of(one, "check_in.done", {})) for one in (lang, "en")}
    if item.several and checkin.chosen(item, progress["answers"]) and checkin.bare(text) in done:
        return item.id, checkin.DONE
    return None


def of_the_dose(case: Case, text: str, now: datetime, protocol: ClinicProtocol) -> Reading | None:
    """A bare 'yes' or 'no', read as about the dose whose reminder came after the open question of the check-in: the
    newest question gets the word. None: it is another word, or for somebody else."""
    asked_at = case.conversation.facts.get("check_in", {}).get("asked_at")
    due = due_dose(case, now, protocol)
    if case.conversation.state != "check_in" or due is None or not asked_at or (
            due.at <= datetime.fromisoformat(str(asked_at))):
        return None
    if emergency_is_open(case) or spoke_since(case, due.at, now, protocol):
        return None
    reading = read(text, language=case.plan.patient.language, asked="dose", writer=case.row.writer)
    return reading if reading.answer in (Answer.YES, Answer.NO) and not reading.needs_human else None


def left(case: Case, now: datetime, protocol: ClinicProtocol) -> Changes:
    """An emergency in words: the weekly questions end there, with what was answered, and do not come back tomorrow. A
    question that the care team has asked itself stays open."""
    progress = case.conversation.facts.get("check_in")
    if progress is None or str(progress["key"]).startswith(_BY_CARE):
        return Changes()
    return _finish(case, progress, "emergency", now, protocol, left=True, alarm=True)


def _labels(item: checkin.Item, lang: str) -> dict[str, str]:
    return {choice.id: text_of(lang, choice.label_key, {}) for choice in item.choices}


def corrected(case: Case, text: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes | None:
    """'I meant no': the answer given last is changed; None when the words are no correction of a check-in answer."""
    progress = case.conversation.facts.get("check_in")
    if progress is None or case.conversation.state != "check_in":
        return None
    lang = case.plan.patient.language
    found = checkin.correction(checkin.items(case, now, protocol), progress["answers"], text, lang,
                               lambda item: _labels(item, lang))
    if found is None:
        return None
    if not found.choice_id:
        return tapped(case, "", checkin.BACK, cause, now, protocol)
    return tapped(case, found.item_id, found.choice_id, cause, now, protocol)


def repeat(case: Case, due: Message, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Asked once more, where it stood, if it is still open and no pause has come between."""
    progress = case.conversation.facts.get("check_in")
    if progress is None or progress["key"] != due.facts.get("check_in") or paused(case.plan, case.record, now):
        return Changes()
    return _ask(case, progress, due.key, now, protocol, head="again")


def closed(case: Case, due: Message, now: datetime, protocol: ClinicProtocol) -> Changes:
    """Its time is over: what was answered is kept; nothing answered is a check-in missed."""
    progress = case.conversation.facts.get("check_in")
    if progress is None or progress["key"] != due.facts.get("check_in"):
        return Changes()
    return _close(case, now, protocol)


def ask_one(case: Case, item_id: str, cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    """The care team asks one check-in question now: a check-in of that question alone (and its follow-ups)."""
    key, closes = f"{_BY_CARE}{cause}", now + protocol.span("check_in.open_for")
    others = {one.id: {"choices": [], "text": "", "done": True, "unasked": True}
              for one in checkin.items(case, now, protocol) if one.id != item_id and one.only_if is None}
    progress = {"key": key, "item": "", "shown": "", "closes": closes.isoformat(), "answers": others}
    closing = note(case, key, "check_in_closed", closes, check_in=key)
    return Changes(messages=(closing,)) + _ask(case, progress, cause, now, protocol, head="asked")


def _answered(case: Case, progress: Mapping[str, Any], item: checkin.Item, cause: str, now: datetime,
              protocol: ClinicProtocol) -> Changes:
    """A question has its answer: the rules look at it first; an emergency leaves the questionnaire at once."""
    lang = case.plan.patient.language
    labels = [text_of(lang, choice.label_key, {}) for choice in checkin.chosen(item, progress["answers"])]
    shown = say(case, f"{cause}:shown", "check_in_answered", now, edits=progress["shown"], text_key=item.text_key,
                answers=labels)
    reading = checkin.reading_of(progress["answers"], protocol, item)
    flagged = assess(case, reading, None, now, protocol, source="check_in") if (
        reading.findings or reading.extra) else Changes()
    flagged += holds.hold(case, flagged, now, protocol)
    flagged += _changed(case.after(flagged), progress, reading, now, protocol)
    progress = {**progress, "told": _told(progress)}
    changes = Changes(messages=(shown,), conversation=_with(case, progress, now)) + flagged
    if checkin.is_emergency(progress["answers"]) or is_emergency(flagged):
        return changes + _finish(case.after(changes), progress, cause, now, protocol, left=True, alarm=True)
    return changes + _go_on(case.after(changes), progress, cause, now, protocol)


def _told(progress: Mapping[str, Any]) -> dict[str, list[str]]:
    """What each question has told so far: findings by question."""
    found = {item.id: [str(finding) for choice in checkin.chosen(item, progress["answers"])
                       for finding in choice.findings] for item in checkin.ALL_ITEMS}
    return {name: findings for name, findings in found.items() if findings}


def _changed(case: Case, progress: Mapping[str, Any], reading: Reading, now: datetime,
             protocol: ClinicProtocol) -> Changes:
    """An answer that had raised a flag is taken back: the flag stays, and the care team sees that it was changed."""
    now_told = _told(progress)
    gone = {finding for name, findings in progress.get("told", {}).items() for finding in findings
            if finding not in now_told.get(name, ())}
    if not gone:
        return Changes()
    words = text_of("en", "check_in.changed", {"answer": reading.text})
    notice = assess(case, Reading(words, needs_human=True), None, now, protocol, source="check_in")
    return replace(notice, messages=tuple(message for message in notice.messages if message.to is not To.PATIENT))


def is_emergency(changes: Changes) -> bool:
    """Whether the rules have just answered the patient as an emergency: then nothing else is said or asked."""
    return any(message.to is To.PATIENT and message.priority is Priority.EMERGENCY for message in changes.messages)


def _go_on(case: Case, progress: Mapping[str, Any], cause: str, now: datetime, protocol: ClinicProtocol) -> Changes:
    upcoming = checkin.next_item(checkin.items(case, now, protocol), progress["answers"])
    if upcoming is None:
        return _finish(case, progress, cause, now, protocol)
    return _ask(case, progress, cause, now, protocol)


def _ask(case: Case, progress: Mapping[str, Any], cause: str, now: datetime, protocol: ClinicProtocol,
         head: str = "") -> Changes:
    item = checkin.next_item(checkin.items(case, now, protocol), progress["answers"])
    if item is None:
        return _finish(case, progress, cause, now, protocol)
    question = _question(case, progress, item, cause, now, protocol, head=head)
    asked = {**progress, "item": item.id, "shown": question.key, "asked_at": now.isoformat()}
    return Changes(messages=(question,), conversation=_with(case, asked, now))


def _question(case: Case, progress: Mapping[str, Any], item: checkin.Item, cause: str, now: datetime,
              protocol: ClinicProtocol, *, edits: str | None = None, head: str = "") -> Message:
    items = checkin.items(case, now, protocol)
    can_go_back = checkin.last_answered(items, progress["answers"]) not in (None, item)
    buttons = [{"label_key": tap.label_key, "data": tap.data, "ticked": tap.ticked}
               for tap in checkin.taps(item, progress["answers"], can_go_back=can_go_back)]
    return say(case, f"{cause}:{item.id}", "check_in_item", now, edits=edits, text_key=item.text_key,
               buttons=buttons, head=head, several=item.several, most=MOST_TAPS,
               priority=Priority.ROUTINE if head in _UNASKED else Priority.ANSWER)


def _with(case: Case, progress: Mapping[str, Any], now: datetime) -> Conversation:
    """The check-in is remembered; an open question about a dose stays the open question."""
    waits_for_words = case.conversation.state in ("when_taken", "how_long", "why_not")
    return replace(case.conversation, state=case.conversation.state if waits_for_words else "check_in", since=now,
                   facts={**case.conversation.facts, "check_in": dict(progress)})


def _finish(case: Case, progress: Mapping[str, Any], cause: str, now: datetime, protocol: ClinicProtocol, *,
            left: bool = False, alarm: bool = False) -> Changes:
    """The check-in ends; left: before the last question; alarm: an emergency has broken it off. Then it has no total: a
    'well' from before the alarm would stand beside it as the best score there is."""
    facts = {key: value for key, value in case.conversation.facts.items() if key != "check_in"}
    state = "idle" if case.conversation.state == "check_in" else case.conversation.state
    score = checkin.score(progress["answers"])
    entry = Entry(EntryKind.CHECK_IN_DONE, now, progress["key"],
                  {"score": (replace(score, total=None) if alarm else score).as_facts(),
                   "answers": dict(progress["answers"]), "left": left})
    passed = bool(checkin.reading_of(progress["answers"], protocol).findings)
    thanks = () if left else (say(
        case, f"{progress['key']}:{cause}", "check_in_thanks", now, passed=passed,
        **clinic(case, protocol, now, "reads_when", "urgent_number", "emergency_number")),)
    done = Changes(entries=(entry,), messages=thanks,
                   cancel=tuple(f"{case.reference}:{progress['key']}:{kind}"
                                for kind in ("check_in_repeat", "check_in_closed")),
                   conversation=replace(case.conversation, state=state, facts=facts, since=now))
    if not progress["answers"]:
        return done
    return done + assess_event(case.after(done), "check_in_done", {"about": progress["key"]}, now, protocol)


def _close(case: Case, now: datetime, protocol: ClinicProtocol) -> Changes:
    progress = case.conversation.facts["check_in"]
    if progress["answers"]:
        return _finish(case, progress, "closed", now, protocol, left=True)
    finished = _finish(case, progress, "closed", now, protocol, left=True)
    missed = replace(finished, entries=(Entry(EntryKind.CHECK_IN_MISSED, now, progress["key"]),))
    return missed + assess_event(case.after(missed), "check_in_missed", {"check_in": progress["key"]}, now, protocol)


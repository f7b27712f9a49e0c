"""The conversation's one table: which event, in which state, does what.

A tap carries its own subject, so it means the same in every state. Words are read against the question that is open
(the state). What no row answers has already gone to the care team by the escalation rules, which run first.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.case import Case, Changes, PatientState
from bot.conversation import answering, beside, checkins, corrections, doses, enrolment, holds, joining, rinse, steps
from bot.conversation.finding import close_of, due_dose, find_dose, last_dose, open_dose, was_taken
from bot.conversation.plainwords import means
from bot.conversation.saying import clock, idle, say
from bot.conversation.words import (
    clock_that_fits,
    earlier_instant,
    emergency_is_open,
    later_minutes,
    not_just_now,
    says_when,
)
from bot.escalation import assess_event, assess_tap
from bot.escalation.talking import BARE, emergency_over, follow_up_open, spoke_since
from bot.escalation.telling import FOLLOW_UPS
from bot.texts.catalogue import say as text_of
from bot.understanding.course import comes_back, course_of
from bot.understanding.grammar_dose import DoseTold, dose_told
from bot.understanding.types import Answer, Reading, Urgency
from scheduler.occasions import Occasion
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind


@dataclass(frozen=True, slots=True)
class Tap:
    """A button: `prefix` says which kind, `subject` what it is about (may be ""), `choice` what was chosen."""

    prefix: str
    subject: str
    choice: str

    @classmethod
    def parse(cls, data: str) -> Tap | None:
        """'d:v1:d:20260302:0:now' -> Tap('d', 'v1:d:20260302:0', 'now'); None when it is none of ours."""
        first, _, rest = data.partition(":")
        subject, _, choice = rest.rpartition(":")
        return cls(first, subject, choice) if first and choice else None


@dataclass(frozen=True, slots=True)
class Moment:
    """What a handler is given besides the case. cause: id of the update, for message keys. delayed: it waited at the
    network for nobody knows how long."""

    cause: str
    now: datetime
    protocol: ClinicProtocol
    delayed: bool = False


TapHandler = Callable[[Case, Tap, Moment], Changes]
WordsHandler = Callable[[Case, Reading, Moment], Changes]


def _dose(case: Case, tap: Tap, at: Moment) -> Changes:
    return doses.tapped(case, tap.subject, tap.choice, at.cause, at.now, at.protocol, delayed=at.delayed)


def _earlier(case: Case, tap: Tap, at: Moment) -> Changes:
    # 'ten minutes ago', tapped nobody knows when, is no time: it is asked again
    told = at.now - timedelta(minutes=int(tap.choice)) if tap.choice.isdigit() and not at.delayed else None
    return doses.told_earlier(case, tap.subject, told, at.cause, at.now, at.protocol)


def _later(case: Case, tap: Tap, at: Moment) -> Changes:
    minutes = int(tap.choice) if tap.choice.isdigit() else 0
    return doses.later(case, tap.subject, minutes, at.cause, at.now, at.protocol)


def _not_today(case: Case, tap: Tap, at: Moment) -> Changes:
    return doses.skipped(case, tap.subject, tap.choice, at.cause, at.now, at.protocol)


def _rinse(case: Case, tap: Tap, at: Moment) -> Changes:
    noted = rinse.noted(case, tap.subject, at.now)
    return noted + Changes(messages=(say(case, at.cause, "rinse_noted", at.now),)) if noted.entries else noted


def _step(case: Case, tap: Tap, at: Moment) -> Changes:
    return steps.tapped(case, tap.subject, tap.choice, at.cause, at.now, at.protocol)


def _consent(case: Case, tap: Tap, at: Moment) -> Changes:
    return enrolment.consent_tapped(case, tap.choice, at.cause, at.now, at.protocol)


def _who(case: Case, tap: Tap, at: Moment) -> Changes:
    return enrolment.who_tapped(case, tap.choice, at.cause, at.now, at.protocol)


def _check_in(case: Case, tap: Tap, at: Moment) -> Changes:
    return checkins.tapped(case, tap.subject, tap.choice, at.cause, at.now, at.protocol)


def _correction(case: Case, tap: Tap, at: Moment) -> Changes:
    return doses.reopened(case, tap.subject, at.cause, at.now, at.protocol)


def _escalation(case: Case, tap: Tap, at: Moment) -> Changes:
    told = assess_tap(case, tap.prefix, tap.subject, tap.choice, at.cause, at.now, at.protocol)
    return told + holds.hold(case, told, at.now, at.protocol)


def _go_on(case: Case, tap: Tap, at: Moment) -> Changes:
    return holds.told_to_go_on(case, tap.subject, at.cause, at.now, at.protocol)


def _ask_care(case: Case, tap: Tap, at: Moment) -> Changes:
    return answering.asked_for_person(case, tap.subject, at.cause, at.now, at.protocol)


def _supply(case: Case, tap: Tap, at: Moment) -> Changes:
    """'I got two boxes' under the message that the medicine runs out: counted once a message."""
    if not tap.choice.isdigit() or case.record.has(EntryKind.SUPPLY_ADDED, tap.subject):
        return Changes()
    packs = int(tap.choice)
    entry = Entry(EntryKind.SUPPLY_ADDED, at.now, tap.subject, {"packs": packs, "by": "patient"})
    return Changes(entries=(entry,), messages=(say(case, at.cause, "supply_noted", at.now, n=packs),), replan=True)


TAPS: dict[str, TapHandler] = {
    "d": _dose,         # taken now, earlier, later, not today
    "e": _earlier,      # so many minutes ago
    "l": _later,        # remind in so many minutes
    "n": _not_today,    # the reason
    "x": _correction,   # 'I tapped the wrong one'
    "r": _rinse,
    "h": _go_on,        # 'I was told to go on', under a held dose
    "s": _step,
    "b": _supply,       # so many packs received
    "a": _ask_care,     # 'Ask the care team', under the answer to a common question
    "k": _consent,
    "w": _who,
    "c": _check_in,
    "q": _escalation,   # 'is it happening now?'
    "u": _escalation,   # follow-up: better, the same, worse
}


def _time_told(case: Case, reading: Reading, at: Moment) -> Changes:
    """An answer to 'when did you take it?'. What is no time leaves the question and its buttons standing."""
    about = find_dose(case, case.conversation.about, at.now, at.protocol)
    if reading.answer in (Answer.NOT_TAKEN, Answer.NO) and about is not None:
        if was_taken(case, about.key) or at.now >= close_of(case, about, at.protocol):
            return doses.tapped(case, about.key, "no", at.cause, at.now, at.protocol)
        return doses.shown_again(case, about, at.cause, at.now, at.protocol)
    if reading.answer is None or reading.answer is Answer.THANKS:
        return Changes()
    if reading.answer is Answer.TAKEN and not says_when(reading):
        return doses.tapped(case, case.conversation.about, "now", at.cause, at.now, at.protocol)
    told = _instant_told(case, reading, about, at)
    return doses.told_earlier(case, case.conversation.about, told, at.cause, at.now, at.protocol, corrects=True)


def _instant_told(case: Case, reading: Reading, dose: Occasion | None, at: Moment) -> datetime | None:
    """When it was taken: 'at 9:30' of an evening dose is 21:30. A time that fits no way stays, to be asked about."""
    fits = clock_that_fits(case, dose, reading.clock_time, at.now, at.protocol) if dose and reading.clock_time else None
    return fits or earlier_instant(case, reading, at.now, close_of(case, dose, at.protocol) if dose else None)


def _delay_told(case: Case, reading: Reading, at: Moment) -> Changes:
    minutes = later_minutes(case, reading, at.now)
    if minutes is None and reading.answer is not None and reading.answer is not Answer.THANKS:
        return doses.tapped(case, case.conversation.about, "later", at.cause, at.now, at.protocol)
    if minutes is None:
        return Changes()
    return doses.later(case, case.conversation.about, minutes, at.cause, at.now, at.protocol)


def _reason_told(case: Case, reading: Reading, at: Moment) -> Changes:
    """A reason by its number; in their own words it goes to a person, and the dose stands as not taken anyway."""
    if reading.answer is Answer.LETTER and reading.number and 1 <= reading.number <= len(doses.REASONS):
        choice = doses.REASONS[int(reading.number) - 1]
        return doses.skipped(case, case.conversation.about, choice, at.cause, at.now, at.protocol)
    return Changes(conversation=idle(case, at.now)) if reading.needs_human else Changes()


def _step_words(case: Case, reading: Reading, at: Moment) -> Changes:
    if reading.answer is Answer.YES:
        return steps.tapped(case, case.conversation.about, "ok", at.cause, at.now, at.protocol)
    return Changes(conversation=idle(case, at.now)) if reading.needs_human else Changes()


def _question_words(case: Case, reading: Reading, at: Moment) -> Changes:  # noqa: ARG001
    return Changes(conversation=idle(case, at.now))


def _consent_words(case: Case, reading: Reading, at: Moment) -> Changes:
    """'yes' in words counts; anything else and the question is asked again: no tap, no consent. Beside an open
    emergency 'ok yes' is about that, and after a refusal it is not plain enough."""
    if emergency_is_open(case):
        return Changes()
    if reading.answer is Answer.YES and not reading.needs_human and not joining.has_refused(case):
        return enrolment.consent_tapped(case, "yes", at.cause, at.now, at.protocol)
    if reading.answer is Answer.NO:
        return enrolment.consent_tapped(case, "no", at.cause, at.now, at.protocol)
    return Changes(messages=(enrolment.consent_question(case, at.cause, at.now, at.protocol, again=True),))


def _who_words(case: Case, reading: Reading, at: Moment) -> Changes:  # noqa: ARG001
    return Changes() if emergency_is_open(case) else Changes(messages=(say(case, at.cause, "who_writes", at.now),))


def _idle_words(case: Case, reading: Reading, at: Moment) -> Changes:
    """No question is open: a bare answer may be for the care team; else it is about the dose; thanks need no answer."""
    dose = open_dose(case, at.now, at.protocol)
    if reading.answer in BARE and spoke_since(case, dose.at if dose else at.now, at.now, at.protocol):
        return Changes()              # the care team has asked something since; it has gone to them
    return dose_words(case, reading, at)


def dose_words(case: Case, reading: Reading, at: Moment) -> Changes:
    changes = _dose_words(case, reading, at)
    rinsed = reading.answer is Answer.TAKEN and told_about(case, reading).rinsed
    return rinse.beside_dose(changes, at.now) if rinsed else changes


def _dose_words(case: Case, reading: Reading, at: Moment) -> Changes:
    """'Done', 'took it at 8', 'not yet', 'in 20 min': about the dose that is open, or the last one that was due."""
    if reading.needs_human and reading.answer in (Answer.YES, Answer.NO):
        return Changes()              # 'yes, I took it on Monday too': more than a 'yes', and a person reads it
    told_of = told_about(case, reading)
    if reading.answer is Answer.RINSED:
        return beside.rinsed(case, at.cause, at.now, at.protocol)
    if reading.answer is Answer.TAKEN and beside.names_another(case, told_of, at.now, at.protocol):
        return beside.recorded(case, told_of, at.cause, at.now, at.protocol, answers=True)
    dose = open_dose(case, at.now, at.protocol)
    last = dose or last_dose(case, at.now, at.protocol)
    if says_when(reading) and (reading.answer is Answer.TAKEN or (last and not was_taken(case, last.key))):
        told = _instant_told(case, reading, last, at)
        return doses.said_taken(case, told, at.cause, at.now, at.protocol)
    if dose is not None and not_just_now(reading):
        return doses.tapped(case, dose.key, "earlier", at.cause, at.now, at.protocol)
    due = due_dose(case, at.now, at.protocol)
    if reading.answer is Answer.CLOCK_TIME and dose is None and last is not None:    # just '7:40', after 'done'
        when = clock_that_fits(case, last, reading.clock_time, at.now, at.protocol)
        if when is not None and at.now - last.at < at.protocol.span("correction.open_for"):
            return doses.told_earlier(case, last.key, when, at.cause, at.now, at.protocol, corrects=True)
    if reading.answer is Answer.TAKEN or (due is not None and reading.answer is Answer.YES):
        return doses.said_taken(case, None, at.cause, at.now, at.protocol)
    if due is None and dose is not None and reading.answer in (Answer.LATER, Answer.NOT_TAKEN):
        coming = say(case, at.cause, "later_noted", at.now, clock=clock(case, dose.at))   # its reminder is yet to come
        return Changes(messages=(coming,))
    if due is None and reading.answer is Answer.YES and (step := steps.open_step(case, at.now, at.protocol)):
        return steps.tapped(case, step, "ok", at.cause, at.now, at.protocol)
    if due is None:   # an answer to nothing that is open: never silence, and nothing is noted
        asks = reading.answer is not None and reading.answer is not Answer.THANKS
        denies = reading.answer in (Answer.NO, Answer.NOT_TAKEN)
        if denies and (perhaps := corrections.bare_no(case, at.cause, at.now, at.protocol)) is not None:
            return perhaps
        return Changes(messages=(say(case, at.cause, "nothing_asked", at.now),)) if asks else Changes()
    if reading.answer is Answer.LATER and reading.number:
        return doses.later(case, due.key, int(reading.number), at.cause, at.now, at.protocol)
    if reading.answer in (Answer.LATER, Answer.NOT_TAKEN):
        return doses.tapped(case, due.key, "later", at.cause, at.now, at.protocol)
    if reading.answer is Answer.NO:   # a bare 'no' does not say whether it is not yet or not today
        return doses.shown_again(case, due, at.cause, at.now, at.protocol)
    return Changes()


def _happening_words(case: Case, reading: Reading, at: Moment) -> Changes:
    """'yes' or 'no' typed to 'is it happening now?' means what its buttons mean."""
    calm = Changes(conversation=idle(case, at.now))
    if reading.answer in (Answer.YES, Answer.NO):
        choice = "yes" if reading.answer is Answer.YES else "no"
        return calm + _escalation(case, Tap("q", case.conversation.about, choice), at)
    return calm + _idle_words(case.after(calm), reading, at)


WORDS: dict[str, WordsHandler] = {
    "idle": _idle_words,
    "when_taken": _time_told,
    "how_long": _delay_told,
    "why_not": _reason_told,
    "step": _step_words,
    "question": _question_words,
    "happening_now": _happening_words,
    "consent": _consent_words,
    "who_writes": _who_words,
    "check_in": lambda case, reading, at: checkins.words(case, reading, at.cause, at.now, at.protocol),
}


def tapped(case: Case, tap: Tap, at: Moment) -> Changes:
    """A button of the patient's. One we do not know (an old version's) changes nothing."""
    handler = TAPS.get(tap.prefix)
    return handler(case, tap, at) if handler else Changes()


# Questions before the first dose, and 'is it happening now?': what is typed then answers them.
_BEFORE_DOSES = ("consent", "who_writes")
_ASKS_FIRST = (*_BEFORE_DOSES, "happening_now")


def typed(case: Case, text: str, at: Moment) -> Tap | None:
    """The button whose label was typed, of the question that is open or of the reminder that waits for an answer."""
    state, about = case.conversation.state, case.conversation.about
    asked, since = follow_up_open(case, at.now, at.protocol), case.conversation.since
    plain = asked is None or since is None or asked[1] <= since     # else 'same' answers what was asked last
    if (answer := checkins.typed(case, text, at.now, at.protocol, plain=plain)) is not None:
        return Tap("c", *answer)
    named: dict[str, tuple[str, str]] = {}
    due = None if emergency_is_open(case) else due_dose(case, at.now, at.protocol)   # then a label names no dose
    if state in _BEFORE_DOSES and (emergency_is_open(case) or joining.has_refused(case)):
        return None                   # then it takes a tap
    if state == "consent":
        named = {"enrolment.button.agree": ("k", "yes"), "enrolment.button.refuse": ("k", "no")}
    elif state == "who_writes":
        named = {f"enrolment.button.{who}": ("w", who) for who in ("patient", "parent")}
    elif state == "why_not":
        named = {f"doses.reason.{reason}": ("n", reason) for reason in doses.REASONS}
    elif due is not None:
        about = due.key
        named = {f"doses.button.{choice}": ("d", choice) for choice in ("now", "earlier", "later", "no")}
    buttons = [(key, Tap(prefix, about if prefix in "nd" else "", choice)) for key, (prefix, choice) in named.items()]
    if (held := case.record.doses_held()) is not None:
        buttons.append(("doses.hold.button", Tap("h", held.about, "go")))
    worrying = [flag for flag in case.open_flags if flag.urgency >= Urgency.URGENT]
    if worrying and state == "idle":    # 'How is it now?' will be asked about it
        buttons += [(f"escalation.button.{choice}", Tap("u", worrying[-1].id, choice)) for choice in FOLLOW_UPS]
    lang = case.plan.patient.language
    found = next((tap for key, tap in buttons if means(text, key, text_of(lang, key, {}), lang)), None)
    return _how_it_goes(case, text, at) or found


def _how_it_goes(case: Case, text: str, at: Moment) -> Tap | None:
    """'Worse', 'a bit better': the answer to 'how is it now?' that was asked, also where its flag is closed by now."""
    if case.conversation.state in _ASKS_FIRST:
        return None
    language, over = case.plan.patient.language, emergency_over(case, at.now, at.protocol)
    if over is not None and comes_back(text, language):
        return Tap("u", over[0], "worse")
    both = filter(None, (follow_up_open(case, at.now, at.protocol), over))
    asked = max(both, key=lambda one: one[1], default=None)
    choice = course_of(text, language) if asked else ""
    if asked is None or choice not in FOLLOW_UPS:
        return None
    flag, since = asked
    if choice != "worse" and spoke_since(case, since, at.now, at.protocol):
        return None                   # the care team has written since: it is an answer to them
    return Tap("u", flag, choice)


def words(case: Case, reading: Reading, at: Moment, *, about_dose: bool = False) -> Changes:
    """Words of the patient's, after the escalation rules have seen them. about_dose: they answer no open question, but
    speak of the dose ('done', in the middle of a check-in)."""
    changes = _beside(case, reading, at)
    spoken = bool(changes.entries or changes.messages)
    if "ate_early" in reading.extra or (spoken and told_about(case, reading).ate):
        changes += _ate_early(case.after(changes), at)
    answered = answering.answer(case.after(changes), reading, at.cause, at.now, at.protocol)
    if answered is not None:
        return changes + answered
    if spoken:
        return changes
    waiting = reading.answer in (Answer.TAKEN, Answer.RINSED) or open_dose(case, at.now, at.protocol) is not None
    if about_dose and not waiting:
        return changes + (checkins.waits(case, at.cause, at.now) if "check_in" in case.conversation.facts
                          else Changes())
    if about_dose:
        return changes + dose_words(case, reading, at)
    return changes + WORDS.get(case.conversation.state, _idle_words)(case, reading, at)


def told_about(case: Case, reading: Reading) -> DoseTold:
    return dose_told(reading.text, case.plan.patient.language, case.row.writer)


def _beside(case: Case, reading: Reading, at: Moment) -> Changes:
    """What words that are no plain answer say of a dose besides: taken, or an answer that was wrong."""
    if not (reading.needs_human or reading.answer is None) or case.row.state is not PatientState.ACTIVE:
        return Changes()
    told = told_about(case, reading)
    wrong = corrections.beside(case, told, reading, at.cause, at.now, at.protocol)
    return wrong if wrong.messages else beside.heard(case, told, reading.extra, at.cause, at.now, at.protocol)


def _ate_early(case: Case, at: Moment) -> Changes:
    """The window was not kept: recorded for the dose it belongs to; the patient is told what to do next time."""
    last = case.record.last_taken()
    if last is None:
        return Changes()
    noted = Changes(entries=(Entry(EntryKind.WINDOW_BROKEN, at.now, last.about),),
                    messages=(say(case, at.cause, "window_broken", at.now),),
                    cancel=(f"{case.reference}:{last.about}:*",))
    return noted + assess_event(case.after(noted), "window_broken", {"about": at.cause}, at.now, at.protocol)

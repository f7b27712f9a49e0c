"""Whatever is typed, something is said; what wants out is told how, and a person reads it. In every state, both
languages, the same words twice in a row. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from bot.case import Case, Changes, Conversation, Flag, FlagState, PatientRow, PatientState
from bot.chat.types import Incoming, IncomingKind
from bot.conversation import checkins
from bot.conversation.unanswered import wants_out
from bot.receiving import patient_said
from bot.rehearsal.demo import demo_plan
from bot.understanding.types import Urgency
from scheduler.messages import Message, To
from scheduler.protocol import load_protocol
from scheduler.record import Entry, EntryKind, Record

PROTOCOL = load_protocol()
PLAN = demo_plan("adult_slurry", PROTOCOL)       # 07:45 and 21:30 in Denver
JOINED = datetime(2026, 3, 2, 14, 0, tzinfo=UTC)
DUE, QUIET = datetime(2026, 3, 3, 14, 50, tzinfo=UTC), datetime(2026, 3, 3, 18, 0, tzinfo=UTC)
KEY = "v1:d:20260303:0"
OUT = {"en": ("stop", "STOP!", "Stop it please", "quit texting me", "unsubscribe", "leave me alone", "no more messages",
              "don't text me again", "please stop sending me reminders", "I want to leave the program"),
       "es": ("para", "basta ya", "no me escribas más", "déjame en paz", "deja de escribirme", "no más mensajes",
              "darme de baja", "stop")}
NOT_OUT = ("stop the medicine?", "it won't stop bleeding", "stop hurting me", "should I stop", "food stop going down",
           "para comer me cuesta", "I want out", "I want to leave", "I want to quit", "quiero salir", "enough",
           "I cannot stop coughing", "no more pain", "quit smoking last week", "stopped it")
SAID = ("ok", "thanks", "7", "x", "yes", "no", "later", "👍", "lkjh", "good night", "same", "fine", "back",
        "i meant yes", "maybe", "?", "...", "hm", "sí", "gracias", "bien", "vale", *OUT["en"], *OUT["es"])


def about(state: str) -> Conversation:
    subject = {"when_taken": KEY, "how_long": KEY, "why_not": KEY, "step": KEY, "happening_now": "impaction_now"}
    return Conversation(state, about=subject.get(state, ""), since=DUE)


def case(state: str, language: str) -> Case:
    """A patient in this state; 'alarm' with an emergency open, 'taken' with the dose taken."""
    plan = replace(PLAN, patient=replace(PLAN.patient, language=language))
    entries = [Entry(EntryKind.CONSENTED, JOINED)]
    if state == "taken":
        facts = {"taken_at": DUE.isoformat(), "units": 2, "amount": "1 mg"}
        entries.append(Entry(EntryKind.DOSE_TAKEN, DUE, KEY, facts))
    row = PatientRow("KT-014", PatientState.PAUSED if state == "paused" else PatientState.ACTIVE, 1, chat="1")
    flags = (Flag("KT-014/1", "KT-014", ("breathing",), ("breathing_trouble",), Urgency.EMERGENCY, "can't breathe",
                  FlagState.DELIVERED, DUE, DUE),) if state == "alarm" else ()
    found = Case(row, plan, Record(tuple(entries)), flags=flags,
                 conversation=about("idle" if state in ("alarm", "taken", "paused", "check_in") else state))
    if state == "check_in":
        due = Message("KT-014:v1:c:1", To.AGENT, "check_in", DUE, reference="KT-014", facts={"occasion": "v1:c:1"})
        found = found.after(checkins.begin(found, due, DUE, PROTOCOL))
    return found


def said(found: Case, words: str, now: datetime, number: int) -> Changes:
    return patient_said(found, Incoming(f"u{number}", "1", "1", now, IncomingKind.TEXT, text=words), now, PROTOCOL)


def told(changes: Changes) -> list[str]:
    return [message.kind for message in changes.messages if message.to is To.PATIENT]


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("state", ["idle", "taken", "check_in", "when_taken", "how_long", "why_not", "step", "question",
                                   "happening_now", "alarm", "paused"])
def test_no_words_meet_silence(state: str, language: str) -> None:
    for words in SAID:
        found = case(state, language)
        for number, now in enumerate((DUE, DUE + timedelta(seconds=20), QUIET)):
            changes = said(found, words, now, number)
            assert told(changes), (state, words, number)
            found = found.after(changes)


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("state", ["idle", "check_in", "when_taken", "why_not", "alarm"])
def test_who_wants_out_is_told_how_and_a_person_reads_it(state: str, language: str) -> None:
    for words in OUT[language]:
        found = case(state, language)
        for number in range(2):
            changes = said(found, words, DUE + timedelta(seconds=number), number)
            how = "passed_on" if state == "alarm" else "how_to_leave"      # with an emergency open: call, and only that
            assert how in told(changes), (words, number)
            assert not {EntryKind.DOSE_TAKEN, EntryKind.DOSE_SKIPPED} & {one.kind for one in changes.entries}, words
            found = found.after(changes)
        assert words in found.open_flags[-1].words


@pytest.mark.parametrize("words", NOT_OUT)
def test_what_says_more_is_not_taken_for_leaving(words: str) -> None:
    assert not wants_out(words, "en") and not wants_out(words, "es")

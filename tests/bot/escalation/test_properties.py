"""Whatever a patient says, in whatever order: no emergency is lost, lowered, or unanswered, and nobody drowns."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.case import Case, Changes, FlagState
from bot.escalation import life, on_note, urgency_of
from bot.escalation.rules import thread_of
from bot.understanding.types import Finding, Urgency
from scheduler.messages import Message, To
from scheduler.protocol import ClinicProtocol

SIGNALS = ("vomiting", "collapse", "airway_swelling", "severe", "taken_twice", "exposure", "tired")
REPLY = st.tuples(st.lists(st.sampled_from(list(Finding)), max_size=3), st.lists(st.sampled_from(SIGNALS), max_size=2),
                  st.integers(0, 400))                    # findings, other signs, minutes since the reply before
quiet = settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@quiet
@given(replies=st.lists(REPLY, min_size=1, max_size=6), taken=st.booleans())
def test_a_course_of_replies(replies: list[tuple[list[Finding], list[str], int]], taken: bool,
                             make_case: Callable[..., Case], say: Callable[..., Changes], monday: datetime,
                             protocol: ClinicProtocol) -> None:
    case, now, keys, pings = make_case(), monday, set[str](), 0
    for number, (findings, extra, minutes) in enumerate(replies):
        now += timedelta(minutes=minutes)
        tier = urgency_of(findings, extra)
        changes = say(case, *dict.fromkeys(findings), extra=tuple(dict.fromkeys(extra)), at=now, reply=f"u{number}",
                      text=f"words {number}", needs_human=True)
        before, case = case, case.after(changes)
        made = [message.key for message in changes.messages]
        assert len(set(made)) == len(made) and not keys & set(made), "a key names one cause"
        keys |= set(made)
        here = [flag for flag in case.open_flags if thread_of(flag.rules) == "symptoms"]
        assert len(here) == 1, "one patient, one thread"
        assert here[0].urgency >= tier, "the record raises, never lowers"
        assert all(flag.urgency >= old.urgency for old in before.flags for flag in case.flags if flag.id == old.id)
        if tier is Urgency.EMERGENCY:
            assert any(message.to is To.CARE and message.edits is None for message in changes.messages)
            assert any(message.to is To.PATIENT and message.kind in ("emergency_answer", "self_harm_answer")
                       and message.due_at == now for message in changes.messages)
        pings += sum(message.to is To.CARE and message.edits is None for message in changes.messages)
        if taken and number == 0:
            case = case.after(life.take(case, here[0].id, "Ann (nurse)", now, protocol).changes)
    assert pings <= len(replies), "never more than one message to the care team for one reply"


@quiet
@given(findings=st.lists(st.sampled_from(list(Finding)), min_size=1, max_size=3, unique=True), hour=st.integers(0, 167))
def test_an_untaken_flag_never_falls_silent(findings: list[Finding], hour: int, make_case: Callable[..., Case],
                                            say: Callable[..., Changes], monday: datetime,
                                            protocol: ClinicProtocol) -> None:
    now = monday + timedelta(hours=hour)
    changes = say(make_case(), *findings, at=now, needs_human=True)
    case = make_case().after(changes)
    told = pings = 0
    for _ in range(8):
        due = min((message for message in changes.messages if message.kind == "flag_overdue"
                   and message.facts["stage"]), key=lambda message: message.due_at)
        assert due.due_at > now, "time goes on"
        now = due.due_at
        changes = on_note(case, due, now, protocol)
        case = case.after(changes)
        pings += sum(message.to is To.CARE for message in changes.messages)
        told += sum(message.kind == "nobody_has_read" for message in changes.messages)
    assert told == 1, "the plain truth is told once"
    assert pings == (8 if case.flags[0].urgency > Urgency.ROUTINE else 1), "a routine one stands late in the digest"
    assert case.flags[0].state is FlagState.RAISED and case.flags[0].raises == 9


@quiet
@given(text=st.text(max_size=3000))
def test_any_words_are_kept_and_shown(text: str, make_case: Callable[..., Case], say: Callable[..., Changes],
                                      protocol: ClinicProtocol) -> None:
    from bot.care.render import LONGEST, render

    changes = say(make_case(), Finding.BLEEDING, text=text)
    flag = next(message for message in changes.messages if message.to is To.CARE)
    shown = render(flag, protocol)
    assert len(shown.text) <= LONGEST and "EMERGENCY" in shown.text
    assert all(isinstance(message, Message) for message in changes.messages)

"""Every rule of the table is provoked once and says what it must to the patient and to the care team."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

import pytest

from bot.care.render import render as care_render
from bot.case import Case, Changes, Flag, FlagState
from bot.escalation import assess_event, assess_tap
from bot.escalation.rules import COURSE, RULES, Rule
from bot.escalation.talking import care_wrote
from bot.texts.render import render as patient_render
from bot.understanding.types import Finding, Urgency
from scheduler.messages import Priority, To
from scheduler.protocol import ClinicProtocol
from scheduler.record import Entry, EntryKind

F = Finding
E = EntryKind

# By rule: findings and extra signs of one reply, then what the record holds.
SAID: dict[str, tuple[tuple[Finding, ...], tuple[str, ...], dict[str, Any]]] = {
    "breathing": ((F.BREATHING_TROUBLE,), (), {}),
    "airway_swelling": ((), ("airway_swelling",), {}),
    "allergic_severe": ((F.ALLERGIC_REACTION,), ("collapse",), {}),
    "saliva": ((F.CANNOT_SWALLOW_SALIVA,), (), {}),
    "food_stuck": ((F.IMPACTION_NOW,), (), {}),
    "bleeding": ((F.BLEEDING,), (), {}),
    "chest_pain_after_stuck": ((F.CHEST_PAIN,), (), {"found": [(F.IMPACTION_RESOLVED, 2)]}),
    "chest_pain_signs": ((F.CHEST_PAIN, F.FEVER), (), {}),
    "adrenal_crisis": ((F.ADRENAL_SIGN,), ("vomiting",), {}),
    "adrenal_stress": ((F.ADRENAL_SIGN,), ("surgery",), {"entries": "long course"}),
    "collapse": ((), ("collapse",), {}),
    "self_harm": ((F.SELF_HARM,), (), {}),
    "allergic": ((F.ALLERGIC_REACTION,), (), {}),
    "stuck_again": ((F.IMPACTION_RESOLVED,), (), {"found": [(F.IMPACTION_NOW, 20)]}),
    "was_stuck": ((F.IMPACTION_RESOLVED,), (), {}),
    "chest_pain": ((F.CHEST_PAIN,), (), {}),
    "herpes_again": ((F.ODYNOPHAGIA,), (), {"conditions": ["herpes before"]}),
    "herpes": ((F.HERPES_SIGN,), (), {}),
    "pain_and_fever": ((F.ODYNOPHAGIA, F.FEVER), (), {}),
    "thrush_on_inhibitor": ((F.THRUSH,), (), {"other_medicines": ["Diltiazem"]}),
    "thrush_again": ((F.THRUSH,), (), {"found": [(F.THRUSH, 40)]}),
    "thrush": ((F.THRUSH,), (), {}),
    "odynophagia": ((F.ODYNOPHAGIA,), (), {}),
    "adrenal": ((F.ADRENAL_SIGN,), (), {}),
    "ill_long_course": ((F.FEVER,), (), {"entries": "long course"}),
    "fever": ((F.FEVER,), (), {}),
    "vomiting_lasts": ((), ("keeps_vomiting",), {}),
    "worse_much": ((), ("marked_dysphagia",), {}),
    "worse_with_signs": ((F.WORSE_DYSPHAGIA,), ("tired",), {}),
    "pregnancy": ((F.PREGNANCY,), (), {}),
    "exposure": ((), ("exposure",), {}),
    "child_took_it": ((), ("child_took_it",), {}),
    "taken_twice": ((), ("taken_twice",), {}),
    "strong_inhibitor": ((F.NEW_MEDICINE,), (), {"text": "got Clarithromycin for my chest"}),
    "worse_in_taper": ((F.WORSE_DYSPHAGIA,), (), {"entries": "taper"}),
    "worse_in_season": ((F.WORSE_DYSPHAGIA,), (), {"at": datetime.fromisoformat("2026-04-13T16:00:00+00:00")}),
    "worse": ((F.WORSE_DYSPHAGIA,), (), {}),
    "hidden_dysphagia": ((), ("adaptations",), {}),
    "hoarse_long": ((F.HOARSENESS,), (), {"found": [(F.HOARSENESS, 25)]}),
    "hoarseness": ((F.HOARSENESS,), (), {}),
    "stopped": ((F.WANTS_STOP,), ("stopped",), {}),
    "wants_stop": ((F.WANTS_STOP,), (), {}),
    "moderate_inhibitor": ((F.NEW_MEDICINE,), (), {"text": "they gave me fluconazole"}),
    "new_medicine": ((F.NEW_MEDICINE,), (), {}),
    "surgery": ((), ("surgery",), {}),
    "vomiting": ((), ("vomiting",), {}),
    "mouth_unsure": ((), ("mouth_unsure",), {}),
    "side_effect": ((), ("side_effect",), {}),
    "taken_less": ((), ("taken_less",), {}),
    "missed_said": ((F.MISSED_DOSES,), (), {}),
}


def long_course(monday: datetime) -> list[Entry]:
    """A first dose 60 days ago."""
    at = monday - timedelta(days=60)
    return [Entry(E.DOSE_TAKEN, at, f"v1:d:{at:%Y%m%d}:0", {"taken_at": at.isoformat()})]


def released(at: datetime) -> list[Entry]:
    """The gate of the taper, released."""
    return [Entry(E.GATE_RELEASED, at, "endoscopy reviewed", {"phase": "taper", "from": at.date().isoformat()})]


def scores(monday: datetime, totals: Iterable[int]) -> list[Entry]:
    """A check-in a week, the last one just now."""
    totals = list(totals)
    return [Entry(E.CHECK_IN_DONE, monday - timedelta(weeks=len(totals) - 1 - place), f"v1:c:{place}",
                  {"score": {"total": total, "max": 9}, "answers": {}}) for place, total in enumerate(totals)]


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule.id in SAID], ids=lambda rule: rule.id)
def test_said(rule: Rule, make_case: Callable[..., Case], say: Callable[..., Changes], monday: datetime,
              protocol: ClinicProtocol) -> None:
    findings, extra, record = SAID[rule.id]
    record = dict(record)
    at, text = record.pop("at", monday), record.pop("text", "my own words")
    if record.get("entries") == "long course":
        record["entries"] = long_course(monday)
    elif record.get("entries") == "taper":
        record["entries"] = released(datetime.fromisoformat("2026-04-27T16:00:00+00:00"))
        at = datetime.fromisoformat("2026-06-22T16:00:00+00:00")      # in the taper, after the season
    case = make_case(**record)
    changes = say(case, *findings, extra=extra, text=text, at=at)
    check(rule, case, changes, protocol, words=text)


def events(rule: str, monday: datetime, make_case: Callable[..., Case],
           protocol: ClinicProtocol) -> tuple[Case, Changes, datetime]:
    """What happened, for the rules that no words provoke."""

    def dose(kind: EntryKind, days: float, slot: int = 0) -> Entry:
        at = monday - timedelta(days=days)
        return Entry(kind, at, f"v1:d:{at:%Y%m%d}:{slot}", {"taken_at": at.isoformat()} if kind is E.DOSE_TAKEN else {})

    taken = [dose(E.DOSE_TAKEN, days, slot) for days in (5.5, 4.5, 3.5, 2.5, 1.5) for slot in (0, 1)]
    made: dict[str, tuple[str, list[Entry], dict[str, Any]]] = {
        "undeliverable": ("undeliverable", [], {"why": "blocked"}),
        "left": ("left", [], {}),
        "none_left": ("skipped_no_medicine", [], {"about": "u1", "words": "I have none left"}),
        "refused": ("refused", [], {"about": "u1"}),
        "not_joined": ("not_joined", [], {"about": "u1", "waits_for": "consent"}),
        "joins_late": ("joins_late", [], {"about": "u1"}),
        "still_paused": ("still_paused", [], {"about": "u1", "paused_since": "2026-03-09"}),
        "step_not_understood": ("step_not_understood", [], {"occasion": "v1:step:1"}),
        "lost": ("dose_unknown", [dose(E.DOSE_TAKEN, 30)], {"occasion": "d"}),
        "silence": ("dose_unknown", [dose(E.DOSE_TAKEN, 5)], {"occasion": "d"}),
        "check_ins_missed": ("check_in_missed", [dose(E.DOSE_TAKEN, 1), Entry(E.CHECK_IN_MISSED, monday - timedelta(7)),
                                                 Entry(E.CHECK_IN_MISSED, monday)], {"check_in": "c"}),
        "doses_missed": ("dose_unknown", [dose(E.DOSE_TAKEN, 1, 1), *(dose(E.DOSE_UNKNOWN, days) for days in (1, 2, 3)),
                                          dose(E.DOSE_SKIPPED, 4)], {"occasion": "d"}),
        "window_given_up": ("window_broken", [dose(E.DOSE_TAKEN, 1), *(
            Entry(E.WINDOW_BROKEN, monday - timedelta(days=days), f"d{days}") for days in (1, 2, 3))], {}),
        "rinse_given_up": ("check_in_done", [*taken, Entry(E.RINSE_DONE, monday, taken[0].about)], {"about": "c"}),
        "score_worse_in_taper": ("check_in_done", [], {"about": "c"}),
        "score_worse": ("check_in_done", scores(monday, (4, 3, 2, 5)), {"about": "c"}),
        "no_benefit": ("milestone", [], {"occasion": "m"}),
        "supply_low": ("supply_low", [], {"occasion": "s", "runs_out": "2026-03-20"}),
        "endoscopy_overdue": ("endoscopy_due", [], {"occasion": "e2"}),
        "endoscopy_due": ("endoscopy_due", [], {"occasion": "e1"}),
        "gate_waiting": ("gate_waiting", [], {"occasion": "g", "gate": "endoscopy reviewed"}),
    }
    event, entries, facts = made[rule]
    at, case = monday, make_case(entries=entries)
    if rule == "endoscopy_overdue":
        earlier = assess_event(case, "endoscopy_due", {"occasion": "e1"}, monday - timedelta(days=14), protocol)
        case = case.after(Changes(flags=tuple(replace(flag, state=FlagState.CLOSED) for flag in earlier.flags)))
    if rule == "no_benefit":
        at = monday + timedelta(weeks=7)
        case = make_case(entries=scores(at, (6, 6, 5, 6, 6)))
    if rule == "score_worse_in_taper":
        at = datetime.fromisoformat("2026-06-22T16:00:00+00:00")
        case = make_case(entries=[*released(datetime.fromisoformat("2026-04-27T16:00:00+00:00")), *scores(at, (1, 4))])
    return case, assess_event(case, event, facts, at, protocol), at


COURSE_RULES = [rule for rule in RULES if rule.thread == COURSE]


@pytest.mark.parametrize("rule", COURSE_RULES, ids=lambda rule: rule.id)
def test_happened(rule: Rule, make_case: Callable[..., Case], monday: datetime, protocol: ClinicProtocol) -> None:
    case, changes, at = events(rule.id, monday, make_case, protocol)
    check(rule, case, changes, protocol)
    if rule.rest and rule.id != "endoscopy_due":      # due again without a result is overdue: another rule
        again = assess_event(case.after(changes), events_of(rule), {"occasion": "later"}, at, protocol)
        assert not again.flags, "a rule about the course rests once it has raised a flag"


def events_of(rule: Rule) -> str:
    return rule.any_of[0].removeprefix("event:")


# By rule about the patient's state that an event provokes: the event, and whether the course is long.
TOLD: dict[str, tuple[str, bool]] = {
    "skipped_ill": ("skipped_ill", False), "skipped_ill_long": ("skipped_ill", True),
    "skipped_bothered": ("skipped_side_effects", False), "skipped_other": ("skipped_other", False),
    "hold_lifted": ("hold_lifted", False),
}


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule.id in TOLD], ids=lambda rule: rule.id)
def test_told_by_an_event(rule: Rule, make_case: Callable[..., Case], monday: datetime,
                          protocol: ClinicProtocol) -> None:
    event, long = TOLD[rule.id]
    case = make_case(entries=long_course(monday) if long else ())
    changes = assess_event(case, event, {"about": "u1", "words": "my words"}, monday, protocol)
    check(rule, case, changes, protocol, words="my words")


@pytest.mark.parametrize(("findings", "rule_id"), [((F.CANNOT_SWALLOW_SALIVA,), "left_in_emergency"),
                                                   ((F.THRUSH,), "left_unwell")])
def test_who_leaves_with_a_flag_open_is_told_of_at_once(
        findings: tuple[Finding, ...], rule_id: str, case: Case, say: Callable[..., Changes], monday: datetime,
        protocol: ClinicProtocol) -> None:
    case = case.after(say(case, *findings))
    left = assess_event(case, "left", {"words": "/stop"}, monday, protocol)
    assert [(flag.id, flag.urgency) for flag in left.flags] == [(case.flags[0].id, case.flags[0].urgency)]
    assert rule_id in left.flags[0].rules and not left.cancel
    assert [message.kind for message in left.messages if message.to is To.CARE] == ["flag_more"]
    assert not [message for message in left.messages if message.to is To.PATIENT]


@pytest.mark.parametrize(("tier", "rule_id"), [(Urgency.EMERGENCY, "words_alarm"), (Urgency.URGENT, "words_urgent")])
def test_the_readers_tier_raises(tier: Urgency, rule_id: str, case: Case, say: Callable[..., Changes],
                                 protocol: ClinicProtocol) -> None:
    rule = next(rule for rule in RULES if rule.id == rule_id)
    changes = say(case, urgency=tier, needs_human=True)
    check(rule, case, changes, protocol, words="my words")


def test_the_readers_tier_never_lowers(case: Case, say: Callable[..., Changes]) -> None:
    changes = say(case, F.IMPACTION_NOW, urgency=Urgency.ROUTINE)
    assert changes.flags[0].urgency is Urgency.EMERGENCY


def test_message_to_read(case: Case, say: Callable[..., Changes], protocol: ClinicProtocol) -> None:
    rule = next(rule for rule in RULES if rule.id == "message_to_read")
    check(rule, case, say(case, text="qwe rty", needs_human=True), protocol, words="qwe rty")


@pytest.mark.parametrize(("choice", "rule_id"), [("worse", "not_better"), ("same", "not_same")])
def test_follow_up(choice: str, rule_id: str, case: Case, monday: datetime, protocol: ClinicProtocol) -> None:
    rule = next(rule for rule in RULES if rule.id == rule_id)
    check(rule, case, assess_tap(case, "u", "KT-014/1", choice, "u9", monday, protocol), protocol)


def test_an_answer_to_care_is_theirs_who_asked(case: Case, say: Callable[..., Changes], monday: datetime) -> None:
    asked = replace(case, conversation=care_wrote(case, "Ann (nurse)", monday))
    changes = say(asked, text="since tuesday", needs_human=True, at=monday + timedelta(hours=1))
    assert (changes.flags[0].rules, changes.flags[0].taken_by) == (("answer_to_care",), "Ann (nurse)")
    assert [str(message.to) for message in changes.messages if message.kind == "flag"] == ["care"]
    assert [message.kind for message in changes.messages if message.to is To.PATIENT] == ["passed_on"]
    late = say(asked, text="since tuesday", needs_human=True, at=monday + timedelta(hours=25))
    assert late.flags[0].rules == ("message_to_read",)


def test_no_rule_is_without_a_test() -> None:
    here = {*SAID, *(rule.id for rule in COURSE_RULES), "answer_to_care", "words_alarm", "words_urgent",
            "message_to_read", "not_better", "not_same", *TOLD, "left_in_emergency", "left_unwell"}
    assert {rule.id for rule in RULES} == here


def check(rule: Rule, case: Case, changes: Changes, protocol: ClinicProtocol, words: str = "") -> None:
    """One flag led by this rule; told, paged and timed as its urgency says; all texts can be shown."""
    assert len(changes.flags) == 1
    flag = changes.flags[0]
    assert (flag.rules[0], flag.urgency, flag.id) == (rule.id, rule.urgency, f"KT-014/{len(case.flags) + 1}")
    assert words in flag.words
    to_patient = [message for message in changes.messages if message.to is To.PATIENT]
    assert [message.kind for message in to_patient] == ([rule.answer] if rule.answer else [])
    to_care = [message for message in changes.messages if message.to is To.CARE and message.kind == "flag"]
    assert len(to_care) == (rule.urgency > Urgency.ROUTINE)
    notes = [message for message in changes.messages if message.kind == "flag_overdue" and message.facts["stage"] == 1]
    assert [note.due_at for note in notes] == [flag.act_by]
    for message in to_patient:
        shown = patient_render(message).text
        if rule.urgency is Urgency.EMERGENCY:
            assert message.priority is Priority.EMERGENCY
            assert "911" in shown or rule.id == "self_harm"
        assert protocol.text("care.emergency_number") in shown
        assert "{" not in shown
    for message in to_care:
        shown = care_render(message, protocol).text
        assert shown.startswith("[example, not signed]\n")
        assert str(rule.urgency).upper() in shown and "KT-014" in shown and words in shown
        assert rule.source in shown


def test_facts_are_json(case: Case, say: Callable[..., Changes]) -> None:
    import json

    for message in say(case, F.CHEST_PAIN, F.FEVER).messages:
        assert json.loads(json.dumps(dict(message.facts))) == dict(message.facts)


def test_a_flag_names_each_of_its_rules(case: Case, say: Callable[..., Changes]) -> None:
    flag: Flag = say(case, F.THRUSH, F.HOARSENESS, F.MISSED_DOSES).flags[0]
    assert flag.rules == ("thrush", "hoarseness", "missed_said")
    assert flag.findings == ("thrush", "hoarseness", "missed_doses")


def test_chest_pain_after_an_endoscopy(make_case: Callable[..., Case], say: Callable[..., Changes],
                                       monday: datetime) -> None:
    scope = Entry(E.ENDOSCOPY_DONE, monday, "", {"date": date(2026, 3, 15).isoformat(), "peak_eos_hpf": 3, "erefs": 1})
    assert say(make_case(entries=[scope]), F.CHEST_PAIN).flags[0].rules == ("chest_pain_after_stuck",)
    old = replace(scope, facts={**scope.facts, "date": "2026-03-01"})
    assert say(make_case(entries=[old]), F.CHEST_PAIN).flags[0].rules == ("chest_pain",)

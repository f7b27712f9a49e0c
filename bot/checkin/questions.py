"""The weekly questions: own wording (the sentences are in bot/texts/<language>/check_in.toml), and which of them apply.

Structure and time span follow published weekly recall instruments (seven days; frequency and intensity of the trouble;
pain apart; the six habits that mask dysphagia asked one by one), the wording and the names are the project's own.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time

from bot.case import Case, PatientState
from bot.checkin.types import Choice, Item
from bot.understanding.types import Finding, Urgency
from scheduler.localtime import instant
from scheduler.protocol import ClinicProtocol
from scheduler.record import EntryKind, taken_at


def _choice(item: str, name: str, *findings: Finding, score: int = 0, urgency: Urgency = Urgency.NONE,
            alone: bool = True, extra: tuple[str, ...] = ()) -> Choice:
    tier = max(urgency, Urgency.ROUTINE) if findings else urgency
    return Choice(name, f"check_in.{item}_{name}", findings, score, tier, alone, extra)


def _sign(item: str, name: str, *findings: Finding, urgency: Urgency = Urgency.NONE, score: int = 0,
          extra: tuple[str, ...] = ()) -> Choice:
    """A choice that can stand beside others."""
    return _choice(item, name, *findings, urgency=urgency, score=score, alone=False, extra=extra)


_TROUBLE = ("swallow", frozenset({"slow", "stuck"}))

SWALLOW = Item("swallow", "check_in.swallow", (
    _choice("swallow", "well"),
    _choice("swallow", "slow", score=1),
    _choice("swallow", "stuck", Finding.IMPACTION_RESOLVED, score=1),
    _choice("swallow", "now", Finding.IMPACTION_NOW, urgency=Urgency.EMERGENCY),
))
DAYS = Item("days", "check_in.days", (
    _choice("days", "d1", score=1),
    _choice("days", "d3", score=2),
    _choice("days", "d5", score=3),
    _choice("days", "d7", score=4),
), only_if=_TROUBLE, numbers=("", "d1", "d1", "d3", "d3", "d5", "d5", "d7"))
WORST = Item("worst", "check_in.worst", (
    _choice("worst", "self", score=1),
    _choice("worst", "drink", score=2),
    _choice("worst", "wait", score=3),
    _choice("worst", "back", Finding.IMPACTION_RESOLVED, score=4),
    _choice("worst", "help", Finding.IMPACTION_RESOLVED, score=5, urgency=Urgency.URGENT),
), only_if=_TROUBLE)
TREND = Item("trend", "check_in.trend", (
    _choice("trend", "better", Finding.BETTER),
    _choice("trend", "same"),
    _choice("trend", "worse", Finding.WORSE_DYSPHAGIA),
), only_if=_TROUBLE)
PAIN = Item("pain", "check_in.pain", (
    _choice("pain", "no"),
    _choice("pain", "little", Finding.ODYNOPHAGIA, score=1),
    _choice("pain", "days", Finding.ODYNOPHAGIA, score=2),
    _choice("pain", "cannot", Finding.ODYNOPHAGIA, score=3, urgency=Urgency.URGENT),
), no="no")
MOUTH = Item("mouth", "check_in.mouth", (
    _choice("mouth", "clean"),
    _sign("mouth", "white", Finding.THRUSH),
    _sign("mouth", "sore", Finding.THRUSH),
    _sign("mouth", "lips", Finding.HERPES_SIGN),
    _sign("mouth", "unsure", extra=("mouth_unsure",)),
), several=True, read_as="thrush", no="clean", bare_no=False)
EATING = Item("eating", "check_in.eating", (
    _choice("eating", "none"),
    _sign("eating", "drinks", score=1),
    _sign("eating", "soft", score=1),
    _sign("eating", "slow", score=1),
    _sign("eating", "avoid", score=1),
    _sign("eating", "chew", score=1),
    _sign("eating", "pills", score=1),
), several=True, no="none")
NEW = Item("new", "check_in.new", (
    _choice("new", "none"),
    _sign("new", "voice", Finding.HOARSENESS),
    _sign("new", "fever", Finding.FEVER),
    _sign("new", "medicine", Finding.NEW_MEDICINE),
    _sign("new", "chest", Finding.CHEST_PAIN, urgency=Urgency.EMERGENCY, extra=("severe",)),
    _sign("new", "blood", Finding.BLEEDING, urgency=Urgency.EMERGENCY),
), several=True, no="none")
WHICH = Item("which", "check_in.which", (_choice("which", "unsure", extra=("medicine_name_unknown",)),),
             free_text=True, only_if=("new", frozenset({"medicine"})))
BODY = Item("body", "check_in.body", (
    _choice("body", "none"),
    _sign("body", "tired", Finding.ADRENAL_SIGN, score=1),
    _sign("body", "dizzy", Finding.ADRENAL_SIGN, score=1),
    _sign("body", "weight", Finding.ADRENAL_SIGN, score=1),
    _sign("body", "sick", Finding.ADRENAL_SIGN, score=1),
    _sign("body", "vomit", score=1, urgency=Urgency.URGENT, extra=("vomiting",)),
    # weak or dizzy, and vomiting, on long use: an adrenal crisis until a person says otherwise (NHS patient leaflet)
), several=True, together=(frozenset({"vomit", "tired"}), frozenset({"vomit", "dizzy"})), no="none")
ROUTINE = Item("routine", "check_in.routine", (
    _choice("routine", "all"),
    _sign("routine", "missed"),
    _sign("routine", "rinse", extra=("rinse_skipped",)),
    _sign("routine", "early", extra=("ate_early",)),
    _sign("routine", "stopped", Finding.WANTS_STOP, extra=("stopped",)),
), several=True)
MANY = Item("many", "check_in.many", (
    _choice("many", "m1", score=1),
    _choice("many", "m3", Finding.MISSED_DOSES, score=2),
    _choice("many", "m6", Finding.MISSED_DOSES, score=3),
), only_if=("routine", frozenset({"missed"})), numbers=("", "m1", "m1", "m3", "m3", "m3", *("m6",) * 9))
WHY = Item("why", "check_in.why", (
    _choice("why", "forgot"),
    _choice("why", "time"),
    _choice("why", "taste"),
    _choice("why", "well"),
    _choice("why", "upset", extra=("side_effect",)),
), only_if=("routine", frozenset({"missed", "stopped"})))
ELSE = Item("else", "check_in.else", (_choice("else", "no"),), free_text=True, read_as="anything", no="no")

ALL_ITEMS: tuple[Item, ...] = (SWALLOW, DAYS, WORST, TREND, PAIN, MOUTH, EATING, NEW, WHICH, BODY, ROUTINE, MANY, WHY,
                               ELSE)
_BY_ID = {item.id: item for item in ALL_ITEMS}
_FOR_PARENT = frozenset({"swallow", "days", "worst", "pain", "mouth", "eating", "new", "body"})


def items(case: Case, now: datetime, protocol: ClinicProtocol) -> tuple[Item, ...]:
    """The questions that may apply to this patient now, in order of asking (each one's `only_if` decides later)."""
    parent = case.row.writer == "parent" or case.plan.patient.writer == "parent"
    asked = [item for item in ALL_ITEMS if _applies(item, case, now, protocol)]
    return tuple(_worded(item, parent) for item in asked)


def item_of(item_id: str, *, parent: bool = False) -> Item | None:
    """The question with this id, worded for the patient or for the parent who writes."""
    found = _BY_ID.get(item_id)
    return _worded(found, parent) if found else None


def _worded(item: Item, parent: bool) -> Item:
    return replace(item, text_key=f"check_in.parent_{item.id}") if parent and item.id in _FOR_PARENT else item


def _applies(item: Item, case: Case, now: datetime, protocol: ClinicProtocol) -> bool:
    if item is BODY:
        return _asks_adrenal(case, now, protocol)
    if item in (ROUTINE, MANY, WHY):
        return case.row.state is not PatientState.PAUSED and _first_dose(case, now) is not None
    return True


def _asks_adrenal(case: Case, now: datetime, protocol: ClinicProtocol) -> bool:
    """On long use; or from the start beside another steroid or a strong inhibitor of its breakdown."""
    start = _first_dose(case, now)
    if start is None:
        return False
    if now - start >= protocol.span("check_in.adrenal_after"):
        return True
    named = {str(name).casefold() for key in ("check_in.adrenal_beside", "medicines.strong_inhibitors")
             for name in protocol.items(key)}
    return any(medicine.casefold() in named for medicine in case.plan.patient.other_medicines)


def _first_dose(case: Case, now: datetime) -> datetime | None:
    """The start of the course: its first day in the plan (the patient may have joined later), or the first dose told;
    None before both."""
    told = case.record.of(EntryKind.DOSE_TAKEN, EntryKind.DOSE_UNKNOWN, EntryKind.DOSE_SKIPPED)
    starts = [taken_at(entry) for entry in told]
    first = case.plan.phases[0].starts
    if first is not None:
        starts.append(instant(first, time(0), case.plan.patient.time_zone))
    return min((start for start in starts if start <= now), default=None)

"""What every store must do, run over memory, SQLite and PostgreSQL alike."""

from __future__ import annotations

from collections.abc import AsyncIterator
from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from stores import HOUR, MINUTE, T0, message, opened, patient, plan

from bot.case import Act, Changes, Conversation, Flag, FlagState, FoundThen, PatientState, Reply
from bot.chat.types import Incoming, IncomingKind
from bot.errors import AlreadyThere
from bot.ports import Invite, Member, Store, Work
from bot.understanding.types import Finding, Urgency
from scheduler.messages import Priority, SendState, To
from scheduler.ports import Mark
from scheduler.record import Entry, EntryKind

LEASE = T0 + MINUTE


@pytest.fixture
async def store(store_url: str) -> AsyncIterator[Store]:
    async with opened(store_url) as found:
        yield found


def flag(number: int = 1, reference: str = "KT-014", **given: Any) -> Flag:
    values: dict[str, Any] = {
        "rules": ("R1",), "findings": ("thrush",), "urgency": Urgency.URGENT, "words": "white spots, it hurts",
        "state": FlagState.RAISED, "raised_at": T0, "act_by": T0 + HOUR, "facts": {"week": 5}}
    return Flag(f"{reference}/{number}", reference, **values | given)


def update(name: str, chat: str = "c1", **given: Any) -> Incoming:
    values: dict[str, Any] = {"sender": "s1", "at": T0, "kind": IncomingKind.TEXT, "text": f"words of {name}"}
    return Incoming(name, chat, **values | given)


async def keys(work: Work, limit: int = 100, now: Any = T0, **given: Any) -> list[str]:
    return [one.message.key for one in await work.claim(now, limit, now + MINUTE, "h", **given)]


# the outbox


async def test_a_key_is_put_once_whatever_its_state(store: Store) -> None:
    async with store.work() as work:
        assert await work.put([message("a"), message("b"), message("a", kind="other")]) == 2
        assert await work.put([message("a"), message("c")]) == 1
        assert await work.put([]) == 0
        assert await keys(work) == ["a", "b", "c"]
        await work.mark([Mark("a", SendState.SENT, T0)])
        await work.cancel(["b"])
        assert await work.put([message("a"), message("b")]) == 0
        found = await work.message("a")
        assert found is not None and found.message.kind == "test" and found.state is SendState.SENT
        assert await work.message("nothing") is None


async def test_claims_go_by_priority_then_time_then_arrival(store: Store) -> None:
    async with store.work() as work:
        await work.put([
            message("routine-early", due_at=T0 - HOUR),
            message("z-first", priority=Priority.ANSWER), message("a-second", priority=Priority.ANSWER),
            message("dose", priority=Priority.DOSE), message("dose-early", priority=Priority.DOSE, due_at=T0 - MINUTE),
            message("emergency", priority=Priority.EMERGENCY), message("flag", priority=Priority.FLAG),
            message("not-yet", priority=Priority.EMERGENCY, due_at=T0 + timedelta(microseconds=1)),
            message("own", to=To.AGENT, priority=Priority.EMERGENCY),
        ])
        assert await keys(work, 4) == ["emergency", "flag", "z-first", "a-second"]
        assert await keys(work, 2) == ["dose-early", "dose"]
        assert await keys(work, agent=True) == ["own"]
        assert await keys(work) == ["routine-early"]
        assert await keys(work) == []
        assert await keys(work, now=T0 + timedelta(microseconds=1)) == ["not-yet"]


async def test_a_claim_tells_where_to_and_what_is_edited(store: Store) -> None:
    facts = {"occasion": "d1", "amount": "1 mg", "text": "täglich ✓", "n": [1, 2.5, None, {"x": True}]}
    async with store.work() as work:
        for reference in ("KT-014", "AB-001"):
            await work.add_patient(patient(reference), plan(reference), T0)
        await work.put([message("first", to=To.PATIENT, reference="KT-014"), message("never")])
        await keys(work, 1)
        await work.mark([Mark("first", SendState.SENT, T0, name="m7", address="chat-KT-014")])
        await work.cancel(["never"])
        whole = message("edit", to=To.PATIENT, reference="KT-014", edits="first", facts=facts,
                        send_before=T0 + timedelta(hours=3, microseconds=5))
        await work.put([whole, message("edit-never", edits="never"), message("edit-unknown", edits="unknown"),
                        message("stranger", to=To.CHAT, address="c9"), message("care"),
                        message("nobody", to=To.PATIENT, reference="ZZ-999"),
                        message("another", to=To.PATIENT, reference="AB-001", edits="edit")])
    async with store.work() as work:
        found = {one.message.key: one for one in await work.claim(T0, 10, LEASE, "h")}
    assert found["edit"].message == whole
    assert found["edit"].message.due_at.utcoffset() == timedelta(0)
    assert (found["edit"].address, found["edit"].edit_name) == ("chat-KT-014", "m7")
    assert found["edit-never"].edit_name == found["edit-unknown"].edit_name == ""
    assert (found["another"].address, found["another"].edit_name) == ("chat-AB-001", "")
    assert found["stranger"].address == "c9"
    assert found["care"].address == found["nobody"].address == ""


async def test_a_lease_that_ran_out_is_claimed_again_as_in_flight(store: Store) -> None:
    async with store.work() as work:
        await work.put([message("a"), message("own", to=To.AGENT)])
        first, = await work.claim(T0, 10, LEASE, "one")
        await work.claim(T0, 10, LEASE, "one", agent=True)
        assert (first.attempts, first.in_flight_before) == (0, False)
    async with store.work() as work:
        assert await keys(work, now=LEASE - timedelta(microseconds=1)) == []
        assert await work.next_due() == LEASE
        again, = await work.claim(LEASE, 10, LEASE + MINUTE, "two")
        assert (again.message.key, again.attempts, again.in_flight_before) == ("a", 1, True)
        own, = await work.claim(LEASE, 10, LEASE + MINUTE, "two", agent=True)
        assert own.in_flight_before
        await work.mark([Mark("a", SendState.WAITING, LEASE, retry_at=LEASE)])
        third, = await work.claim(LEASE, 10, LEASE + MINUTE, "two")
        assert (third.attempts, third.in_flight_before) == (2, True), "it may have been sent: that stays so"


async def test_marks(store: Store) -> None:
    later = T0 + timedelta(seconds=90)
    async with store.work() as work:
        await work.put([message(key) for key in ("sent", "back", "stale", "refused", "uncertain")])
        await keys(work)
        await work.mark([
            Mark("sent", SendState.SENT, T0, name="m1", address="c1"),
            Mark("back", SendState.WAITING, T0, trouble="busy", retry_at=later),
            Mark("stale", SendState.STALE, T0), Mark("refused", SendState.REFUSED, T0, trouble="gone"),
            Mark("uncertain", SendState.UNCERTAIN, T0), Mark("unknown", SendState.SENT, T0)])
        assert await keys(work, now=later - timedelta(microseconds=1)) == []
        assert await work.next_due() == later
        back, = await work.claim(later, 10, later + MINUTE, "h")
        assert (back.message.key, back.message.due_at, back.attempts) == ("back", T0, 1)
        assert not back.in_flight_before
        await work.mark([Mark("sent", SendState.WAITING, later, retry_at=T0)])
        found = await work.sent_as("c1", "m1")
        assert found is not None
        assert (found.message.key, found.state, found.at) == ("sent", SendState.SENT, T0)
        assert await work.sent_as("c2", "m1") is None
        assert await work.sent_as("c1", "") is None
        await work.mark([Mark("uncertain", SendState.SENT, later, name="m2", address="c1")])
        uncertain = await work.message("uncertain")
        assert uncertain is not None and uncertain.state is SendState.SENT and uncertain.name == "m2"


async def test_what_certainly_did_not_leave_is_no_attempt(store: Store) -> None:
    async with store.work() as work:
        await work.put([message("a")])
        for attempts, unsent in ((0, True), (0, False), (1, True), (1, False), (2, False)):
            one, = await work.claim(T0, 9, LEASE, "h")
            assert one.attempts == attempts
            await work.mark([Mark("a", SendState.WAITING, T0, retry_at=T0, unsent=unsent)])


async def test_urgent_claims_leave_the_rest(store: Store) -> None:
    async with store.work() as work:
        await work.put([message(str(int(priority)), priority=priority) for priority in Priority])
        assert await keys(work, 1, urgent=True) == ["0"]
        assert await keys(work, urgent=True) == ["1"]
        assert await keys(work, urgent=True) == []
        assert await keys(work) == ["2", "3", "4"]


async def test_an_edit_of_what_has_not_left_yet_and_a_patient_who_is_held(store: Store) -> None:
    async with store.work() as work:
        await work.add_patient(patient(state=PatientState.HELD), plan(), T0)
        await work.add_patient(patient("AB-001"), plan("AB-001"), T0)
        await work.put([message("waits", due_at=T0 + HOUR), message("edit-1", edits="waits"),
                        message("held", to=To.PATIENT, reference="KT-014"), message("care", reference="KT-014"),
                        message("free", to=To.PATIENT, reference="AB-001")])
        found = {one.message.key: one for one in await work.claim(T0, 9, LEASE, "h")}
        assert found["edit-1"].edit_waits and found["edit-1"].edit_name == ""
        assert not found["care"].edit_waits
        assert {key for key, one in found.items() if one.held} == {"held"}
        await work.cancel(["waits"])
        await work.mark([Mark("edit-1", SendState.WAITING, T0, retry_at=T0)])
        edit, = await work.claim(T0, 9, LEASE, "h")
        assert not edit.edit_waits


async def test_claims_of_the_dead_are_taken_back_before_their_lease_ends(store: Store) -> None:
    async with store.work() as work:
        await work.put([message("a"), message("b"), message("own", to=To.AGENT)])
        await work.claim(T0, 1, T0 + HOUR, "dead")
        await work.claim(T0, 1, T0 + HOUR, "alive")
        await work.claim(T0, 1, T0 + HOUR, "dead", agent=True)
        assert sorted(await work.holders()) == ["alive", "dead"]
        assert await work.take_back(["dead", "unknown"]) == 2
        assert await work.take_back([]) == 0
        assert await work.holders() == ["alive"]
        again, = await work.claim(T0, 9, T0 + HOUR, "other")
        assert again.message.key == "a" and again.in_flight_before
        own, = await work.claim(T0, 9, T0 + HOUR, "other", agent=True)
        assert own.in_flight_before


async def test_a_clock_set_back_holds_up_nothing_that_was_due(store: Store) -> None:
    back = T0 - HOUR
    async with store.work() as work:
        await work.put([message("due"), message("future", due_at=T0 + MINUTE), message("retry", due_at=T0 - MINUTE),
                        message("held", due_at=T0 - 2 * MINUTE)])
        await work.claim(T0, 2, T0 + MINUTE, "h")
        await work.mark([Mark("retry", SendState.WAITING, T0, retry_at=T0 + MINUTE)])
        assert await keys(work, now=back) == []
        assert await work.clock_set_back(T0, back) == 3
        assert sorted(await keys(work, now=back)) == ["due", "held", "retry"]
        assert [one.key for one in await work.coming()] == ["future"], "what was not due yet keeps its time"


async def test_cancel_by_key_and_by_prefix_takes_only_what_waits(store: Store) -> None:
    async with store.work() as work:
        await work.put([message(key) for key in (
            "KT:d1:dose", "KT:d1:again", "KT:d10:dose", "ÅB:d1:x", "KT:d1", "KT:d2%")])
        await work.put([message("KT:d1:sent", priority=Priority.EMERGENCY)])
        assert await keys(work, 1) == ["KT:d1:sent"]
        await work.cancel(["KT:d1:*", "ÅB*", "nothing*", "KT:d2%"])
        assert await keys(work) == ["KT:d10:dose", "KT:d1"]
        cancelled = await work.message("KT:d1:dose")
        assert cancelled is not None and cancelled.state is SendState.CANCELLED
        held = await work.message("KT:d1:sent")
        assert held is not None and held.state is SendState.CLAIMED
        await work.cancel([])


async def test_messages_of_a_patient_and_what_is_coming(store: Store) -> None:
    async with store.work() as work:
        await work.put([message(f"m{n}", reference="KT-014", due_at=T0 + n * MINUTE) for n in (3, 1, 2)])
        await work.put([message("other", reference="AB-001", due_at=T0 + 90 * MINUTE),
                        message("m1b", reference="KT-014", due_at=T0 + MINUTE)])
        found = await work.messages_of("KT-014")
        assert [one.message.key for one in found] == ["m3", "m2", "m1b", "m1"]
        assert {one.state for one in found} == {SendState.WAITING} and {one.at for one in found} == {None}
        assert [one.message.key for one in await work.messages_of("KT-014", limit=2)] == ["m3", "m2"]
        assert await work.messages_of("ZZ-000") == []
        await keys(work, now=T0 + MINUTE)
        assert [one.key for one in await work.coming(2)] == ["m2", "m3"]


async def test_next_due_is_the_earliest_of_messages_leases_and_patients(store: Store) -> None:
    async with store.work() as work:
        assert await work.next_due() is None
        await work.add_patient(patient(next_at=T0 + 9 * HOUR), plan(), T0)
        assert await work.next_due() == T0 + 9 * HOUR
        await work.put([message("later", due_at=T0 + 5 * HOUR), message("now"),
                        message("own", to=To.AGENT, due_at=T0 + 4 * HOUR)])
        assert await work.next_due() == T0
        await work.claim(T0, 1, T0 + 3 * HOUR, "h")
        assert await work.next_due() == T0 + 3 * HOUR
        await work.mark([Mark("now", SendState.SENT, T0)])
        assert await work.next_due() == T0 + 4 * HOUR
        await work.cancel(["own"])
        assert await work.next_due() == T0 + 5 * HOUR
        await work.set_cursor("KT-014", T0, T0 + 2 * HOUR)
        assert await work.next_due() == T0 + 2 * HOUR
        await work.set_cursor("KT-014", T0, None)
        assert await work.next_due() == T0 + 5 * HOUR


# patients and the tick


async def test_a_patient_is_added_once(store: Store) -> None:
    async with store.work() as work:
        await work.add_patient(patient(), plan(), T0)
        with pytest.raises(AlreadyThere, match="KT-014"):
            await work.add_patient(patient(chat="other"), plan(), T0)
        await work.add_patient(patient("AB-001", chat=""), plan("AB-001"), T0)
        assert await work.patients() == [patient("AB-001", chat=""), patient()]
        case = await work.case("KT-014")
        assert case is not None
        assert (case.row, case.plan, case.conversation) == (patient(), plan(), Conversation())
        assert case.record.entries == () and case.flags == () and case.found == ()
        assert await work.case("ZZ-999") is None


async def test_plan_versions(store: Store) -> None:
    changed = replace(plan(), text=plan().text.replace("Dr R. Okafor", "Dr B. Lind"), signed_by="Dr B. Lind")
    async with store.work() as work:
        await work.add_patient(patient(), plan(), T0)
        assert await work.add_plan("KT-014", changed, T0 + HOUR) == 2
        first, second = await work.plans("KT-014")
        assert (first.version, first.plan, first.signed_by, first.stored_at) == (1, plan(), "Dr R. Okafor", T0)
        assert (second.version, second.plan, second.signed_by) == (2, changed, "Dr B. Lind")
        assert second.stored_at == T0 + HOUR
        case = await work.case("KT-014")
        assert case is not None and case.plan.signed_by == "Dr R. Okafor", "a stored version is not yet in force"
        await work.apply("KT-014", Changes(row=replace(case.row, plan_version=2)), T0)
        case = await work.case("KT-014")
        assert case is not None and case.plan == changed
        due, = await work.due_patients(T0, 10)
        assert (due.version, due.plan) == (2, changed)
        assert await work.plans("ZZ-999") == []


async def test_only_woken_patients_are_due_earliest_first(store: Store) -> None:
    async with store.work() as work:
        for number, state in enumerate(PatientState):
            row = patient(f"PT-{number:03}", state=state, next_at=T0 - number * MINUTE)
            await work.add_patient(row, plan(row.reference), T0)
        await work.add_patient(patient("LA-001", next_at=T0 + HOUR), plan("LA-001"), T0)
        await work.add_patient(patient("NO-001", next_at=None), plan("NO-001"), T0)
        states = list(PatientState)
        expected = [f"PT-{states.index(state):03}" for state in (PatientState.PAUSED, PatientState.ACTIVE)]
        assert [due.reference for due in await work.due_patients(T0, 10)] == expected
        assert [due.reference for due in await work.due_patients(T0, 1)] == expected[:1]
        assert [due.reference for due in await work.due_patients(T0 + HOUR, 10)] == [*expected, "LA-001"]
        await work.set_cursor(expected[0], T0 + HOUR, T0 + 2 * HOUR)
        due, = await work.due_patients(T0, 10)
        assert due.reference == expected[1] and due.plan == plan(expected[1]) and due.expanded_until == T0
        await work.quarantine(expected[1], "broken plan", T0)
        assert await work.due_patients(T0, 10) == []
        assert (expected[1], "broken plan", T0) in await work.quarantined()
        case = await work.case(expected[1])
        assert case is not None and case.row.state is PatientState.QUARANTINED


async def test_apply_writes_everything(store: Store) -> None:
    taken = Entry(EntryKind.DOSE_TAKEN, T0, "d1", {"taken_at": T0.isoformat(), "units": 2})
    consent = Entry(EntryKind.CONSENTED, T0 - HOUR, facts={"version": 1})
    found = FoundThen(Finding.THRUSH, T0, "r1")
    act = Act(T0, "nurse", "took the flag", "KT-014", "KT-014/1", {"minutes": 3})
    reply = Reply("r1", "KT-014", T0, "text", "white spots", {"findings": ["thrush"]})
    talk = Conversation("asked", "d1", T0, {"tries": 1})
    changes = Changes(entries=(consent, taken), messages=(message("m1"), message("m2")), cancel=("old*", "m1"),
                      found=(found,), flags=(flag(1), flag(2, urgency=Urgency.EMERGENCY)), acts=(act,),
                      conversation=talk, reply=reply,
                      row=patient(state=PatientState.PAUSED, chat="new", expanded_until=None, next_at=None))
    async with store.work() as work:
        await work.add_patient(patient(), plan(), T0)
        await work.put([message("old1")])
        before = await work.case("KT-014")
        assert before is not None
        await work.apply("KT-014", changes, T0)
    async with store.work() as work:
        case = await work.case("KT-014")
        assert case is not None
        assert case.record.entries == (consent, taken)
        assert (case.found, case.conversation) == ((found,), talk)
        assert case.flags == (flag(1), flag(2, urgency=Urgency.EMERGENCY))
        assert case.row == patient(state=PatientState.PAUSED, chat="new"), "the cursor stays as stored"
        assert case.after(Changes()) == before.after(changes).after(Changes(row=case.row))
        assert await work.acts() == [act]
        assert await work.replies("KT-014") == [reply]
        assert await keys(work) == ["m1", "m2"], "a cancel comes before what is put with it"
        assert await work.reference_of("new") == "KT-014"
        assert await work.reference_of("chat-KT-014") is None


async def test_apply_adds_and_replaces(store: Store) -> None:
    async with store.work() as work:
        await work.add_patient(patient(), plan(), T0)
        await work.apply("KT-014", Changes(flags=(flag(1), flag(2)), conversation=Conversation("a")), T0)
    closed = flag(1, state=FlagState.CLOSED, taken_by="nurse", taken_at=T0, closed_at=T0 + HOUR, outcome="advised",
                  note="called", raises=2)
    entries = tuple(Entry(EntryKind.RINSE_DONE, T0 - n * HOUR, f"d{n}") for n in range(3))
    async with store.work() as work:
        await work.apply("KT-014", Changes(flags=(closed,), entries=entries[:2]), T0)
        await work.apply("KT-014", Changes(entries=entries[2:], conversation=Conversation("b", facts={"x": 1})), T0)
        await work.apply("KT-014", Changes(), T0)
        case = await work.case("KT-014")
        assert case is not None
        assert case.flags == (closed, flag(2)), "oldest first, replaced by id"
        assert case.record.entries == entries, "in order of arrival"
        assert case.conversation == Conversation("b", facts={"x": 1})
        assert await work.flag("KT-014/1") == closed
        assert await work.flag("KT-014/9") is None
        with pytest.raises(LookupError):
            await work.apply("ZZ-999", Changes(entries=entries), T0)


async def test_replan_forgets_what_the_timeline_will_make_anew(store: Store) -> None:
    async with store.work() as work:
        for reference in ("KT-014", "AB-001"):
            await work.add_patient(patient(reference, expanded_until=T0 + HOUR, next_at=T0 + HOUR), plan(reference), T0)
            await work.put([message(f"{reference}:{n}", reference=reference, due_at=T0 + n * MINUTE,
                                    facts={"occasion": "o"}) for n in range(3)])
        await work.put([message("KT:talk", reference="KT-014", due_at=T0 + MINUTE)])
        await work.apply("KT-014", Changes(replan=True, messages=(
            message("KT-014:2", reference="KT-014", due_at=T0 + 2 * MINUTE, kind="anew"),)), T0)
        case = await work.case("KT-014")
        assert case is not None and (case.row.expanded_until, case.row.next_at) == (T0, T0)
        assert await work.next_due() == T0
        left = await keys(work, now=T0 + HOUR)
        assert left == ["KT-014:0", "AB-001:0", "AB-001:1", "KT:talk", "AB-001:2", "KT-014:2"]
        anew = await work.message("KT-014:2")
        assert anew is not None and anew.message.kind == "anew"
        due, = await work.due_patients(T0, 9)
        assert due.reference == "KT-014"


async def test_who_talks_in_a_chat(store: Store) -> None:
    async with store.work() as work:
        await work.add_patient(patient("AA-001", chat="c", state=PatientState.ENDED), plan("AA-001"), T0)
        assert await work.reference_of("c") == "AA-001"
        await work.add_patient(patient("BB-001", chat="c"), plan("BB-001"), T0 + HOUR)
        await work.add_patient(patient("CC-001", chat=""), plan("CC-001"), T0)
        assert await work.reference_of("c") == "BB-001"
        assert await work.reference_of("") is None
        assert await work.reference_of("unknown") is None


# the inbox


async def test_an_update_is_stored_once_and_handled_once(store: Store) -> None:
    whole = update("u1", message="m1", reply_to="m0", tap="t1", file="f", file_name="f.png", sender_name="Maya",
                   is_group=True, data="d", kind=IncomingKind.TAP)
    async with store.work() as work:
        assert await work.store_updates([whole, update("u2", "c2"), update("u1", text="again")], T0) == 2
        assert await work.store_updates([update("u2", "c2")], T0) == 0
        assert await work.store_updates([], T0) == 0
    async with store.work() as work:
        assert await work.unhandled(5) == [whole, update("u2", "c2")]
        await work.mark_handled("u1", T0)
        assert await work.unhandled(5) == [update("u2", "c2")]
        await work.mark_handled("u2", T0, trouble="KeyError: 'x'")
        assert await work.unhandled(5) == []
        assert await work.store_updates([update("u1")], T0) == 0, "a copy that comes late is known"


async def test_a_chat_is_handled_in_order(store: Store) -> None:
    async with store.work() as work:
        await work.store_updates([update("a1", "a", at=T0 + HOUR), update("a2", "a"), update("b1", "b"),
                                  update("a3", "a"), update("c1", "c")], T0)
        assert [one.id for one in await work.unhandled(9)] == ["a1", "b1", "c1"]
        assert [one.id for one in await work.unhandled(2)] == ["a1", "b1"]
        assert [one.id for one in await work.unhandled(9, ["a", "x"])] == ["b1", "c1"]
        await work.mark_handled("a1", T0)
        assert [one.id for one in await work.unhandled(9)] == ["a2", "b1", "c1"]


async def test_a_text_that_no_database_takes_holds_nothing_up(store: Store) -> None:
    async with store.work() as work:
        await work.store_updates([update("u1", text="half \ud83d and \x00 none", sender_name="\ud83d"),
                                  update("u2", "c2")], T0)
        first, second = await work.unhandled(5)
        assert (first.text, first.sender_name) == ("half ? and ? none", "?")
        assert second.id == "u2"


async def test_facts_with_characters_that_no_text_column_takes(store: Store) -> None:
    async with store.work() as work:
        await work.put([message("a", facts={"words": "half \ud83d and \x00 none", "ok": "täglich"})])
    async with store.work() as work:
        one, = await work.coming()
        assert one.facts["ok"] == "täglich" and str(one.facts["words"]).startswith("half ")


# invites, the care team, notes


async def test_invites(store: Store) -> None:
    invite = Invite("hash", "patient", "KT-014", T0, T0 + HOUR)
    async with store.work() as work:
        assert await work.invite("hash") is None
        await work.add_invite(invite)
        assert await work.invite("hash") == invite
        await work.use_invite("hash", "s1", T0 + MINUTE)
        await work.use_invite("hash", "s2", T0 + HOUR)
        assert await work.invite("hash") == replace(invite, used_at=T0 + MINUTE, used_by="s1")
        for n in range(3):
            await work.add_try("s1", T0 + n * MINUTE)
        assert await work.tries("s1", T0 + MINUTE) == 2
        assert await work.tries("s2", T0) == 0


async def test_members_and_desks(store: Store) -> None:
    nurse = Member("s1", "N. Abel", "nurse", T0 + HOUR)
    doctor = Member("s2", "Dr R. Okafor", "clinician", T0, chat="c2")
    async with store.work() as work:
        await work.add_member(nurse)
        await work.add_member(doctor)
        assert await work.members() == [doctor, nurse]
        gone = replace(nurse, removed_at=T0 + 2 * HOUR, role="on_call")
        await work.add_member(gone)
        assert await work.member("s1") is None
        assert await work.member("s2") == doctor
        assert await work.members() == [doctor, gone]
        assert await work.desk("s1") == Conversation()
        await work.set_desk("s1", Conversation("writing", "KT-014/1", T0, {"a": [1]}))
        await work.set_desk("s1", Conversation("idle"))
        await work.set_desk("s2", Conversation("writing", "KT-014/1", T0, {"a": [1]}))
        assert await work.desk("s1") == Conversation("idle")
        assert await work.desk("s2") == Conversation("writing", "KT-014/1", T0, {"a": [1]})


async def test_open_flags_the_most_urgent_first_then_the_oldest(store: Store) -> None:
    async with store.work() as work:
        for reference in ("KT-014", "AB-001"):
            await work.add_patient(patient(reference), plan(reference), T0)
        await work.apply("KT-014", Changes(flags=(
            flag(1, urgency=Urgency.ROUTINE), flag(2, raised_at=T0 + HOUR),
            flag(3, urgency=Urgency.EMERGENCY, state=FlagState.CLOSED))), T0)
        await work.apply("AB-001", Changes(flags=(
            flag(1, "AB-001", urgency=Urgency.EMERGENCY, state=FlagState.TAKEN, raised_at=T0 + HOUR),
            flag(2, "AB-001"))), T0)
        assert [one.id for one in await work.open_flags()] == ["AB-001/1", "AB-001/2", "KT-014/2", "KT-014/1"]


async def test_acts_and_replies_newest_first(store: Store) -> None:
    async with store.work() as work:
        await work.add_patient(patient(), plan(), T0)
        for n in range(4):
            await work.add_act(Act(T0, "nurse", f"act {n}", "KT-014" if n % 2 else ""))
            await work.apply("KT-014", Changes(reply=Reply(f"r{n}", "KT-014", T0, "text", f"words {n}")), T0)
        assert [act.what for act in await work.acts()] == ["act 3", "act 2", "act 1", "act 0"]
        assert [act.what for act in await work.acts("KT-014")] == ["act 3", "act 1"]
        assert [act.what for act in await work.acts(limit=1)] == ["act 3"]
        assert [reply.text for reply in await work.replies("KT-014", 2)] == ["words 3", "words 2"]
        assert await work.replies("AB-001") == []


async def test_notes(store: Store) -> None:
    async with store.work() as work:
        assert await work.get_note("offset") == ""
        await work.set_note("offset", "17")
        await work.set_note("offset", "18")
        assert await work.get_note("offset") == "18"


# the store


async def everything(store: Store) -> list[Any]:
    """All that can be read of one patient and of the clinic."""
    async with store.work() as work:
        return [await work.case("KT-014"), await work.patients(), await work.plans("KT-014"), await work.next_due(),
                await work.messages_of("KT-014"), await work.coming(99), await work.sent_as("c", "m"),
                await work.unhandled(9), await work.invite("hash"), await work.tries("s", T0), await work.members(),
                await work.desk("s"), await work.open_flags(), await work.acts(), await work.replies("KT-014"),
                await work.get_note("n"), await work.reference_of("chat-KT-014"), await work.reference_of("new"),
                await work.quarantined()]


async def change_everything(work: Work, at: Any = T0) -> None:
    row = patient(state=PatientState.PAUSED, chat="new")
    await work.put([message("x", reference="KT-014", facts={"occasion": 1}), message("y", to=To.AGENT)])
    await work.claim(at + HOUR, 3, at + 2 * HOUR, "h")
    await work.mark([Mark("x", SendState.SENT, at, "m", "c")])
    await work.store_updates([update("new", "c7")], at)
    await work.mark_handled("u1", at)
    await work.add_invite(Invite("hash2", "nurse", "", at, at))
    await work.use_invite("hash", "s", at)
    await work.add_try("s", at)
    await work.add_member(Member("s", "N", "nurse", at))
    await work.set_desk("s", Conversation("x"))
    await work.set_note("n", "2")
    await work.add_plan("KT-014", plan(), at)
    await work.add_patient(patient("ZZ-001"), plan("ZZ-001"), at)
    await work.apply("KT-014", Changes(
        entries=(Entry(EntryKind.RINSE_DONE, at),), messages=(message("z"),), cancel=("w*",), row=row, replan=True,
        found=(FoundThen(Finding.FEVER, at),), flags=(flag(1, state=FlagState.CLOSED), flag(2)),
        acts=(Act(at, "a", "b"),), conversation=Conversation("y"), reply=Reply("r2", "KT-014", at, "text", "w")), at)
    await work.set_cursor("ZZ-001", at, None)
    await work.quarantine("ZZ-001", "why", at)


async def test_an_exception_takes_everything_back(store: Store) -> None:
    async with store.work() as work:
        await work.add_patient(patient(), plan(), T0)
        await work.put([message("w1", reference="KT-014"), message("w2", to=To.AGENT, due_at=T0 + MINUTE),
                        message("o", reference="KT-014", due_at=T0 + HOUR, facts={"occasion": 2})])
        await work.store_updates([update("u1"), update("u2")], T0)
        await work.add_invite(Invite("hash", "patient", "KT-014", T0, T0))
        await work.set_note("n", "1")
        await work.apply("KT-014", Changes(flags=(flag(1),), conversation=Conversation("first"),
                                           entries=(Entry(EntryKind.CONSENTED, T0),),
                                           reply=Reply("r1", "KT-014", T0, "text", "w")), T0)
    before = await everything(store)
    with pytest.raises(ZeroDivisionError):
        async with store.work() as work:
            await change_everything(work)
            raise ZeroDivisionError
    assert await everything(store) == before
    async with store.work() as work:
        await change_everything(work)
    assert await everything(store) != before
    async with store.work() as work:
        assert [one.id for one in await work.unhandled(9)] == ["u2", "new"]


async def test_counts_prune_and_served(store: Store) -> None:
    async with store.work() as work:
        await work.add_patient(patient(state=PatientState.QUARANTINED), plan(), T0)
        await work.apply("KT-014", Changes(flags=(flag(1), flag(2, state=FlagState.CLOSED))), T0)
        await work.put([message("old", priority=Priority.EMERGENCY), message("b"), message("c", due_at=T0 + HOUR),
                        message("d")])
        await keys(work, 2)
        await work.mark([Mark("old", SendState.SENT, T0, "m", "c")])
        await work.store_updates([update("u1"), update("u2")], T0)
        await work.mark_handled("u1", T0)
    assert await store.counts(T0 + 5 * MINUTE) == {
        "waiting": 2, "claimed": 1, "due": 1, "lag_seconds": 300.0, "unhandled": 1, "patients": 1, "quarantined": 1,
        "open_flags": 1}
    assert await store.prune(T0) == 0
    assert await store.prune(T0 + MINUTE) == 2
    assert await store.prune(T0 + MINUTE) == 0
    async with store.work() as work:
        assert await work.message("old") is None and await work.sent_as("c", "m") is None
        assert [one.id for one in await work.unhandled(9)] == ["u2"]
        assert await work.store_updates([update("u1")], T0) == 1, "what is pruned is forgotten"
        assert await keys(work, now=T0 + HOUR) == ["b", "d", "c"]
    assert not await store.was_served()
    await store.mark_served()
    assert await store.was_served()
    assert await store.check() == []


async def test_transactions_of_many_tasks_do_not_mix(store: Store) -> None:
    import asyncio

    async with store.work() as work:
        await work.set_note("n", "0")
        await work.add_patient(patient(), plan(), T0)

    async def add_one() -> None:
        async with store.work() as work:
            await work.case("KT-014")      # the lock: whoever reads a case is alone with it
            number = int(await work.get_note("n"))
            await asyncio.sleep(0)
            await work.set_note("n", str(number + 1))

    await asyncio.gather(*(add_one() for _ in range(20)))
    async with store.work() as work:
        assert await work.get_note("n") == "20"

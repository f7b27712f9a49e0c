"""What every store must do with messages, run over memory, SQLite and PostgreSQL alike."""

from __future__ import annotations

from collections.abc import AsyncIterator
from datetime import timedelta

import pytest
from stores import HOUR, MINUTE, T0, keys, message, opened, patient, plan

from bot.case import PatientState
from bot.ports import Store
from scheduler.messages import Priority, SendState, To
from scheduler.ports import Mark

LEASE = T0 + MINUTE


@pytest.fixture
async def store(store_url: str) -> AsyncIterator[Store]:
    async with opened(store_url) as found:
        yield found


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

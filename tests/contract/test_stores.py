"""What every store must do as a whole, run over memory, SQLite and PostgreSQL alike."""

from __future__ import annotations

from collections.abc import AsyncIterator
from typing import Any

import pytest
from stores import HOUR, MINUTE, T0, flag, keys, message, opened, patient, plan, update

from bot.case import Act, Changes, Conversation, FlagState, FoundThen, PatientState, Reply
from bot.ports import Invite, Member, Store, Work
from bot.understanding.types import Finding
from scheduler.messages import Priority, SendState, To
from scheduler.ports import Mark
from scheduler.record import Entry, EntryKind


@pytest.fixture
async def store(store_url: str) -> AsyncIterator[Store]:
    async with opened(store_url) as found:
        yield found


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

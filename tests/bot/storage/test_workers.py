"""Many workers on one database, and what is left when one of them dies."""

from __future__ import annotations

import asyncio
import multiprocessing
import os
from collections import Counter
from datetime import timedelta

from stores import HOUR, MINUTE, T0, message, opened, patient, plan, protocol

from bot.case import Changes
from bot.chat.types import Incoming, IncomingKind
from bot.ports import Store
from scheduler.messages import SendState, To
from scheduler.ports import Mark
from scheduler.record import Entry, EntryKind
from scheduler.tick import tick

ROWS = 400
WORKERS = 8
LEASE = timedelta(minutes=5)


async def _claim_all(store: Store, name: str) -> list[str]:
    mine: list[str] = []
    idle = 0
    while idle < 3:
        async with store.work() as work:
            claimed = await work.claim(T0, 7, T0 + LEASE, name)
        async with store.work() as work:
            await work.mark([Mark(one.message.key, SendState.SENT, T0, name="x", address="c") for one in claimed])
        mine += [one.message.key for one in claimed]
        idle = 0 if claimed else idle + 1
        await asyncio.sleep(0)
    return mine


async def test_eight_workers_share_the_rows_and_none_is_claimed_twice(database_url: str) -> None:
    async with opened(database_url) as store:
        async with store.work() as work:
            await work.put([message(f"m{n:03}", reference=f"R{n % 20}") for n in range(ROWS)])
        found = await asyncio.gather(*(_claim_all(store, f"w{n}") for n in range(WORKERS)))
    counted = Counter(key for mine in found for key in mine)
    assert len(counted) == ROWS and set(counted.values()) == {1}


def _in_a_process(url: str, name: str, answers: multiprocessing.Queue[list[str]]) -> None:
    async def main() -> list[str]:
        async with opened(url) as store:
            return await _claim_all(store, name)

    answers.put(asyncio.run(main()))


def test_processes_share_the_rows_too(database_url: str) -> None:
    async def fill() -> None:
        async with opened(database_url) as store, store.work() as work:
            await work.put([message(f"m{n:03}") for n in range(ROWS)])

    asyncio.run(fill())
    context = multiprocessing.get_context("spawn")
    answers: multiprocessing.Queue[list[str]] = context.Queue()
    processes = [context.Process(target=_in_a_process, args=(database_url, f"w{n}", answers)) for n in range(3)]
    for process in processes:
        process.start()
    found = [answers.get(timeout=120) for _ in processes]
    for process in processes:
        process.join(60)
    counted = Counter(key for mine in found for key in mine)
    assert len(counted) == ROWS and set(counted.values()) == {1}


def _expand(url: str, answers: multiprocessing.Queue[int]) -> None:
    async def main() -> int:
        expanded = 0
        async with opened(url) as store:
            for _ in range(30):
                async with store.work() as work:
                    expanded += await tick(work, T0, protocol(), limit=2)
        return expanded

    answers.put(asyncio.run(main()))


def test_two_processes_expand_each_patient_once(database_url: str) -> None:
    references = [f"KT-{n:03}" for n in range(12)]

    async def fill() -> None:
        async with opened(database_url) as store, store.work() as work:
            for reference in references:
                await work.add_patient(patient(reference), plan(reference), T0)

    async def counted() -> list[int]:
        async with opened(database_url) as store, store.work() as work:
            assert await work.due_patients(T0, 99) == []
            return [len(await work.messages_of(reference)) for reference in references]

    asyncio.run(fill())
    context = multiprocessing.get_context("spawn")
    answers: multiprocessing.Queue[int] = context.Queue()
    processes = [context.Process(target=_expand, args=(database_url, answers)) for _ in range(2)]
    for process in processes:
        process.start()
    expanded = [answers.get(timeout=120) for _ in processes]
    for process in processes:
        process.join(60)
    assert sum(expanded) == len(references), "each patient was expanded by one of them, once"
    assert len(set(asyncio.run(counted()))) == 1


def _die_holding(url: str) -> None:
    async def main() -> None:
        async with opened(url) as store:
            async with store.work() as work:
                await work.claim(T0, 2, T0 + MINUTE, "dies")
            async with store.work() as work:
                await work.mark([Mark("a", SendState.SENT, T0)])
                await work.put([message("unseen")])
                await work.store_updates([Incoming("u1", "c", "s", T0, IncomingKind.TEXT)], T0)
                os._exit(9)      # in the middle of a transaction: no commit, no goodbye

    asyncio.run(main())


async def test_what_a_dead_sender_held_is_claimed_again(database_url: str) -> None:
    async with opened(database_url) as store:
        async with store.work() as work:
            await work.put([message("a"), message("b"), message("c")])
        process = multiprocessing.get_context("spawn").Process(target=_die_holding, args=(database_url,))
        process.start()
        await asyncio.to_thread(process.join, 60)
        assert process.exitcode == 9
        async with store.work() as work:
            assert [one.message.key for one in await work.claim(T0, 9, T0 + HOUR, "other")] == ["c"]
            assert await work.message("unseen") is None
            assert await work.unhandled(9) == []
            again = await work.claim(T0 + MINUTE, 9, T0 + HOUR, "other")
            assert [(one.message.key, one.in_flight_before, one.attempts) for one in again] == [
                ("a", True, 1), ("b", True, 1)]


async def test_replies_of_one_patient_queue_and_others_do_not_wait(postgres_url: str) -> None:
    """Row locks, so PostgreSQL only: SQLite has one writer at a time."""
    async with opened(postgres_url) as store, opened(postgres_url) as other:
        async with store.work() as work:
            for reference in ("KT-014", "AB-001"):
                await work.add_patient(patient(reference), plan(reference), T0)
            await work.put([message("KT:1"), message("KT:2")])
            await work.store_updates([Incoming(f"{chat}{n}", chat, "s", T0, IncomingKind.TEXT)
                                      for chat in "ab" for n in (1, 2)], T0)
        async with store.work() as work:
            assert [one.id for one in await work.unhandled(1)] == ["a1"]
            assert await work.case("KT-014") is not None
            await work.claim(T0, 1, T0 + HOUR, "one")
            async with other.work() as beside:
                assert [one.id for one in await beside.unhandled(9)] == ["b1"], "chat a is being handled"
                assert [one.reference for one in await beside.due_patients(T0, 9)] == ["AB-001"]
                assert [one.message.key for one in await beside.claim(T0, 9, T0 + HOUR, "two")] == ["KT:2"]
                await beside.cancel(["KT:*"])      # what the other is claiming is neither waited for nor cancelled
            slow = asyncio.create_task(_read_note_of(other, "KT-014"))
            await asyncio.sleep(0.1)
            assert not slow.done(), "the case is locked until the first transaction ends"
            await work.apply("KT-014", Changes(entries=(Entry(EntryKind.RINSE_DONE, T0),)), T0)
            await work.mark_handled("a1", T0)
        assert await asyncio.wait_for(slow, 5) == 1, "what was written before the lock was given is seen"
        async with other.work() as beside:
            assert [one.id for one in await beside.unhandled(9)] == ["a2", "b1"]


async def _read_note_of(store: Store, reference: str) -> int:
    async with store.work() as work:
        case = await work.case(reference)
        assert case is not None
        return len(case.record.entries)


async def test_notes_and_changes_of_one_patient_do_not_lock_each_other_out(postgres_url: str) -> None:
    """One worker claims a patient's note and then wants the case, another has the case and cancels the notes."""
    async with opened(postgres_url) as store, opened(postgres_url) as other:
        async with store.work() as work:
            await work.add_patient(patient(), plan(), T0)
            await work.put([message("KT:note", to=To.AGENT, reference="KT-014")])

        async def notes() -> int:
            async with store.work() as work:
                claimed = await work.claim(T0, 1, T0 + MINUTE, "one", agent=True)
                await asyncio.sleep(0.1)
                await work.case("KT-014")
                await work.mark([Mark(one.message.key, SendState.SENT, T0) for one in claimed])
                return len(claimed)

        async def changes() -> None:
            async with other.work() as work:
                await work.case("KT-014")
                await asyncio.sleep(0.2)
                await work.apply("KT-014", Changes(cancel=("KT:*",), replan=True), T0)

        claimed, _ = await asyncio.wait_for(asyncio.gather(notes(), changes()), 10)
        assert claimed == 1

"""The database's trouble: told as such, nothing half done, no patient's words in a message, and on again afterwards."""

from __future__ import annotations

import asyncio
import shutil
import sqlite3
import traceback
from pathlib import Path

import postgres
import pytest
import sqlalchemy as sa
from stores import HOUR, MINUTE, T0, message, opened, patient, plan, protocol

from bot.case import Changes, PatientState
from bot.errors import TroubleOutside
from bot.storage import engine as engines
from bot.storage.opening import open_database
from scheduler.record import Entry, EntryKind


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(engines, "WAIT_SECONDS", 0.2)


@pytest.mark.usefixtures("quick")
async def test_a_database_held_by_another_program_is_trouble_outside_and_then_works(tmp_path: Path) -> None:
    path = tmp_path / "coatwell.db"
    async with opened(f"sqlite:///{path}") as store:
        async with store.work() as work:
            await work.set_note("n", "1")
        beside = sqlite3.connect(path, isolation_level=None)
        beside.execute("BEGIN IMMEDIATE")
        with pytest.raises(TroubleOutside, match="locked"):
            async with store.work() as work:
                await work.set_note("n", "2")
        assert await store.counts(T0), "reading goes on meanwhile"
        beside.execute("ROLLBACK")
        beside.close()
        async with store.work() as work:
            assert await work.get_note("n") == "1"
            await work.set_note("n", "3")


async def test_a_full_disk_changes_nothing_and_is_told_without_words(tmp_path: Path) -> None:
    path = tmp_path / "coatwell.db"
    store = await open_database(f"sqlite:///{path}", protocol())
    try:
        async with store.work() as work:
            await work.put([message("a")])
        async with store.writing() as connection:
            pages = (await connection.exec_driver_sql("PRAGMA page_count")).scalar_one()
            await connection.exec_driver_sql(f"PRAGMA max_page_count={pages}")     # SQLite's own way to be full
        with pytest.raises(TroubleOutside, match="full") as caught:
            async with store.work() as work:
                await work.claim(T0, 1, T0 + HOUR, "h")
                await work.put([message(f"b{n}", facts={"words": "it hurts " * 200}) for n in range(200)])
        assert "hurts" not in str(caught.value) and "hurts" not in repr(caught.value.__cause__)
        async with store.writing() as connection:
            await connection.exec_driver_sql("PRAGMA max_page_count=1000000")
        async with store.work() as work:
            assert [one.key for one in await work.coming()] == ["a"]
    finally:
        await store.close()


async def test_a_statement_that_is_wrong_is_not_blamed_on_the_database(database_url: str) -> None:
    store = await open_database(database_url, protocol())
    try:
        for row in ({"n": "secret words", "v": "x"}, {"n": None, "v": "secret words"}):
            with pytest.raises(engines.WrongStatement, match="notes") as caught:
                async with store.writing() as connection:
                    await connection.execute(sa.text("INSERT INTO notes (name, value) VALUES (:n, :v)"), [row, row])
            told = "".join(traceback.format_exception(caught.value))
            assert "INSERT INTO notes" in told and "secret words" not in told
    finally:
        await store.close()


async def test_a_plan_that_cannot_be_read_any_more_stops_only_its_patient(database_url: str) -> None:
    store = await open_database(database_url, protocol())
    try:
        async with store.work() as work:
            for reference in ("KT-014", "AB-001", "CD-002"):
                await work.add_patient(patient(reference), plan(reference), T0)
        async with store.writing() as connection:
            for reference, text in (("AB-001", "schema = 99"), ("CD-002", "not [toml")):
                await connection.execute(sa.text("UPDATE plans SET text = :text WHERE reference = :whose"),
                                         {"text": text, "whose": reference})
        problems = await store.check()
        assert len(problems) == 2 and any("AB-001" in line for line in problems)
        async with store.work() as work:
            assert [due.reference for due in await work.due_patients(T0, 9)] == ["KT-014"]
        async with store.work() as work:
            assert [(one[0], one[2]) for one in await work.quarantined()] == [("AB-001", T0), ("CD-002", T0)]
            assert all("cannot be read" in why for _, why, _ in await work.quarantined())
            states = {row.reference: row.state for row in await work.patients()}
            assert states["AB-001"] is PatientState.QUARANTINED and states["KT-014"] is PatientState.ACTIVE
    finally:
        await store.close()


async def test_a_transaction_within_a_transaction_is_refused_at_once(tmp_path: Path) -> None:
    """It would wait for itself for ever. PostgreSQL allows it: two connections."""
    for url in ("memory:", f"sqlite:///{tmp_path / 'coatwell.db'}"):
        async with opened(url) as store, store.work():
            with pytest.raises(RuntimeError, match="inside"):
                async with store.work():
                    pass


async def test_a_cancelled_task_leaves_nothing_and_frees_the_store(store_url: str) -> None:
    async with opened(store_url) as store:
        started = asyncio.Event()

        async def hang() -> None:
            async with store.work() as work:
                await work.put([message("never")])
                started.set()
                await asyncio.sleep(60)

        task = asyncio.create_task(hang())
        await started.wait()
        task.cancel()
        with pytest.raises(asyncio.CancelledError):
            await task
        async with store.work() as work:
            assert await work.message("never") is None


async def test_a_copy_made_while_writing_is_whole(tmp_path: Path) -> None:
    path, copy = tmp_path / "coatwell.db", tmp_path / "copy.db"
    async with opened(f"sqlite:///{path}") as store:
        async with store.work() as work:
            await work.add_patient(patient(), plan(), T0)

        async def write() -> None:
            for n in range(60):
                async with store.work() as work:
                    # one message and one entry in each transaction: a copy holds as many of one as of the other
                    await work.apply("KT-014", Changes(entries=(Entry(EntryKind.RINSE_DONE, T0, f"d{n}"),),
                                                       messages=(message(f"m{n}", reference="KT-014"),)), T0)

        writing = asyncio.create_task(write())
        await asyncio.sleep(0.02)
        await store.backup(str(copy))
        done_meanwhile = not writing.done()
        await writing
        with pytest.raises(TroubleOutside, match="exists already"):
            await store.backup(str(copy))
    async with opened(f"sqlite:///{copy}") as copied:
        assert await copied.check() == []
        async with copied.work() as work:
            case = await work.case("KT-014")
            assert case is not None
            assert len(case.record.entries) == len(await work.messages_of("KT-014", 99))
    assert done_meanwhile, "the copy was made while the store was being written to"
    assert copy.stat().st_mode & 0o077 == 0
    assert not list(tmp_path.glob("*.part"))


async def test_a_broken_file_is_found(tmp_path: Path) -> None:
    path = tmp_path / "coatwell.db"
    async with opened(f"sqlite:///{path}") as store, store.work() as work:
        await work.put([message(f"m{n}", facts={"n": "x" * 200}) for n in range(200)])
    shutil.copy(path, tmp_path / "broken.db")
    with (tmp_path / "broken.db").open("rb+") as file:
        file.seek(path.stat().st_size // 2)
        file.write(b"\xff" * 8192)
    store = await open_database(f"sqlite:///{tmp_path / 'broken.db'}", protocol(), upgrade=False)
    try:
        try:
            problems = await store.check()
        except TroubleOutside as trouble:
            problems = [str(trouble)]
        assert problems
    finally:
        await store.close()


async def test_backup_elsewhere_is_refused_with_what_to_do(postgres_url: str, tmp_path: Path) -> None:
    for url, words in ((postgres_url, "pg_dump"), ("memory:", "COATWELL_DATABASE")):
        async with opened(url) as store:
            with pytest.raises(TroubleOutside, match=words):
                await store.backup(str(tmp_path / "x"))


async def test_postgresql_restarted_in_the_middle_goes_on_by_itself() -> None:
    """A server of this test's own: stopped as in a crash, while a transaction is open."""
    try:
        with postgres.server() as server:
            if server.data is None:
                pytest.skip("the server named by COATWELL_TEST_POSTGRES is not ours to restart")
            async with opened(server.new_database()) as store:
                async with store.work() as work:
                    await work.put([message("kept")])
                with pytest.raises(TroubleOutside, match="nothing was changed"):
                    async with store.work() as work:
                        await work.put([message("lost")])
                        await asyncio.to_thread(server.restart)
                        await work.put([message("lost too")])
                async with store.work() as work:
                    claimed = await work.claim(T0, 9, T0 + MINUTE, "h")
                    assert [one.message.key for one in claimed] == ["kept"]
    except postgres.NoPostgres as reason:
        pytest.skip(f"PostgreSQL: {reason}")


async def test_postgresql_waits_for_nobody_for_ever(postgres_url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(engines, "WAIT_SECONDS", 1)
    async with opened(postgres_url) as store, opened(postgres_url) as other:
        async with store.work() as work:
            await work.add_patient(patient(), plan(), T0)
        async with store.work() as work:
            await work.case("KT-014")
            with pytest.raises(TroubleOutside, match="lock timeout"):
                async with other.work() as beside:
                    await beside.case("KT-014")


async def test_instants_are_utc_wherever_the_server_lives(postgres_url: str) -> None:
    store = await open_database(postgres_url, protocol())
    async with store.writing() as connection:
        name = store.engine.url.database
        await connection.execute(sa.text(f"ALTER DATABASE \"{name}\" SET timezone = 'Asia/Kolkata'"))
    await store.close()
    async with opened(postgres_url) as store, store.work() as work:
        await work.put([message("a")])
        one, = await work.coming()
        assert one.due_at == T0 and one.due_at.tzinfo is not None and str(one.due_at).endswith("+00:00")

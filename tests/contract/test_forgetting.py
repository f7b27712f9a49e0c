"""What every store must do when a patient is forgotten: their words and names are gone, everybody else's rows stay."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import AsyncIterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import sqlalchemy as sa
from stores import HOUR, MINUTE, T0, message, opened, patient, plan

from bot.case import Act, Changes, Conversation, Flag, FlagState, FoundThen, Reply
from bot.chat.types import Incoming, IncomingKind
from bot.errors import TroubleOutside
from bot.ports import Invite, Member, Store, Work
from bot.storage.sql import SqlStore
from bot.understanding.types import Finding, Urgency
from scheduler.messages import SendState, To
from scheduler.ports import Mark
from scheduler.record import Entry, EntryKind
from scheduler.storage.tables import Stored

# Each stands in one place of what is stored about KT-014, and nowhere else.
SECRETS = ("plumtree", "quincewords", "medlarnote", "damsonreply", "loquatact", "cherrychat", "sorbsender",
           "mulberryname", "figdigest", "rowanother", "elderberry", "Maya", "KT-014")


@pytest.fixture
async def store(store_url: str) -> AsyncIterator[Store]:
    async with opened(store_url) as found:
        yield found


def update(name: str, chat: str, **given: Any) -> Incoming:
    values: dict[str, Any] = {"sender": "nurse", "at": T0, "kind": IncomingKind.TEXT, "text": f"text of {name}"}
    return Incoming(name, chat, **values | given)


def flag(reference: str, number: int, **given: Any) -> Flag:
    values: dict[str, Any] = {
        "rules": ("thrush",), "findings": ("thrush",), "urgency": Urgency.URGENT, "words": "calm words",
        "state": FlagState.RAISED, "raised_at": T0, "act_by": T0 + HOUR}
    return Flag(f"{reference}/{number}", reference, **values | given)


async def fill(work: Work) -> None:
    """KT-014, with a secret in every kind of row; AB-001 and the care team, whose rows must stay."""
    signed = plan("KT-014")
    signed = replace(signed, text=signed.text + "\n# plumtree\n")
    other = plan("AB-001")
    other = replace(other, text=other.text.replace("Maya", "Noor"))
    await work.add_patient(patient("KT-014", chat="cherrychat", sender="sorbsender"), signed, T0)
    await work.add_patient(patient("AB-001", chat="other-chat"), other, T0)
    await work.apply("KT-014", Changes(
        entries=(Entry(EntryKind.DOSE_TAKEN, T0, "v1:d:20260302:0", {"note": "elderberry"}),),
        messages=(message("KT-014:d:dose", to=To.PATIENT, reference="KT-014", facts={"call_me": "Maya"}),
                  message("KT-014:flag:1", reference="KT-014", facts={"words": "quincewords"})),
        found=(FoundThen(Finding.THRUSH, T0, "u1"),),
        flags=(flag("KT-014", 1, words="quincewords", note="medlarnote"),),
        acts=(Act(T0, "Ana (nurse)", "wrote to the patient", "KT-014", "KT-014/1", {"text": "loquatact"}),),
        conversation=Conversation("why_not", "d", T0, {"said": "damsonreply"}),
        reply=Reply("u1", "KT-014", T0, "text", "damsonreply", {"urgency": "routine"})), T0)
    await work.apply("AB-001", Changes(flags=(flag("AB-001", 1, note="as with KT-014"),),
                                       acts=(Act(T0, "Ana", "kept", "AB-001", "KT-014", {"like": ["KT-014", "x"]}),),
                                       reply=Reply("u2", "AB-001", T0, "text", "my own words")), T0)
    await work.store_updates([
        update("u1", "cherrychat", sender="sorbsender", text="damsonreply", sender_name="mulberryname"),
        update("u2", "other-chat", sender="p-AB-001", text="my own words, as KT-014 said"),
        update("u3", "care", text="/write KT-014 rowanother"), update("u4", "care", text="loquatact"),
        update("u5", "care", text="quite right", reply_to="m1"), update("u6", "care", text="lunch?"),
        update("u7", "care", text="/pause KT-014"),
    ], T0)
    for name in ("u1", "u2", "u3", "u4", "u5", "u6"):
        await work.mark_handled(name, T0)
    row = {"reference": "KT-014", "flag": "KT-014/1", "words": "figdigest"}
    await work.put([message("digest:1", facts={"rows": [row, {"reference": "AB-001", "words": "calm words"}], "n": 2}),
                    message("chat:s", to=To.CHAT, address="cherrychat"), message("AB-001:x", reference="AB-001")])
    await work.claim(T0, 10, T0 + MINUTE, "h")
    await work.mark([Mark("KT-014:flag:1", SendState.SENT, T0, name="m1", address="care"),
                     Mark("KT-014:d:dose", SendState.SENT, T0, name="m2", address="cherrychat"),
                     Mark("digest:1", SendState.SENT, T0, name="m3", address="care")])
    await work.add_invite(Invite("hash-kt", "patient", "KT-014", T0, T0 + HOUR))
    await work.add_invite(Invite("hash-ab", "patient", "AB-001", T0, T0 + HOUR))
    await work.add_try("sorbsender", T0)
    await work.add_member(Member("nurse", "Ana", "nurse", T0))
    await work.set_desk("nurse", Conversation("write_ready", "KT-014", T0, {"text": "rowanother"}))
    await work.set_desk("second", Conversation("close", "AB-001/1", T0))
    await work.set_note("moved:cherrychat", "elsewhere")
    await work.set_note("moved:care", "care-2")


async def test_a_forgotten_patient_is_nowhere(store: Store) -> None:
    async with store.work() as work:
        await fill(work)
    async with store.work() as work:
        assert await work.forget("KT-014", T0 + HOUR)
        assert not await work.forget("KT-014", T0 + HOUR), "there is nobody of that name any more"
    async with store.work() as work:
        assert await work.case("KT-014") is None
        assert [row.reference for row in await work.patients()] == ["AB-001"]
        assert await work.reference_of("cherrychat") is None
        assert not await work.plans("KT-014")
        assert not await work.replies("KT-014")
        assert not await work.acts("KT-014")
        assert not await work.messages_of("KT-014")
        assert not await work.updates_of("KT-014")
        assert not await work.invites_of("KT-014")
        assert await work.flag("KT-014/1") is None
        assert [one.id for one in await work.open_flags()] == ["AB-001/1"]
        assert await work.invite("hash-kt") is None, "an open invite is dead"
        assert await work.tries("sorbsender", T0 - HOUR) == 0
        assert await work.desk("nurse") == Conversation()
        assert await work.get_note("moved:cherrychat") == ""
        for key in ("KT-014:d:dose", "KT-014:flag:1", "chat:s"):
            assert await work.message(key) is None
        assert await work.sent_as("cherrychat", "m2") is None
        assert await work.sent_as("care", "m1") is None


async def test_everybody_else_stays(store: Store) -> None:
    async with store.work() as work:
        await fill(work)
        await work.forget("KT-014", T0 + HOUR)
    async with store.work() as work:
        case = await work.case("AB-001")
        assert case is not None and case.flags[0].words == "calm words"
        assert case.flags[0].note == "as with [forgotten]" == (await work.open_flags())[0].note
        act, = await work.acts("AB-001")
        assert (act.what, act.about, act.facts) == ("kept", "[forgotten]", {"like": ["x"]})
        assert [one.what for one in await work.acts()] == ["kept"]
        digest = await work.message("digest:1")
        assert digest is not None and digest.state is SendState.SENT
        assert digest.message.facts == {"rows": [{"reference": "AB-001", "words": "calm words"}], "n": 2}
        assert (await work.sent_as("care", "m3")) == digest
        assert [reply.text for reply in await work.replies("AB-001")] == ["my own words"]
        assert await work.invite("hash-ab") is not None
        assert (await work.desk("second")).about == "AB-001/1"
        assert await work.get_note("moved:care") == "care-2"
        assert [one.id for one in await work.unhandled(10)] == ["u7"], "nobody has read it yet"
        assert await work.store_updates([update("u1", "cherrychat")], T0) == 0, "a second copy is still known"
    assert await store.check() == []


async def test_forgetting_is_taken_back_with_its_transaction(store: Store) -> None:
    async with store.work() as work:
        await fill(work)
    with pytest.raises(ZeroDivisionError):
        async with store.work() as work:
            await work.forget("KT-014", T0 + HOUR)
            raise ZeroDivisionError
    async with store.work() as work:
        case = await work.case("KT-014")
        assert case is not None and case.flags[0].words == "quincewords"
        assert case.conversation.facts == {"said": "damsonreply"}
        assert [act.facts for act in await work.acts("KT-014")] == [{"text": "loquatact"}]
        assert len(await work.acts()) == 2
        assert await work.sent_as("care", "m1") is not None
        assert {one.message.key for one in await work.messages_of("KT-014")} == {"KT-014:d:dose", "KT-014:flag:1"}
        assert await work.reference_of("cherrychat") == "KT-014"
        assert await work.tries("sorbsender", T0 - HOUR) == 1


async def test_two_patients_of_one_chat(store: Store) -> None:
    """Two children, one parent's phone: what belongs to the other child stays."""
    async with store.work() as work:
        await work.add_patient(patient("KT-014", chat="family", sender="mother"), plan("KT-014"), T0)
        await work.add_patient(patient("KT-015", chat="family", sender="mother"), plan("KT-015"), T0 + MINUTE)
        for name, reference in (("u1", "KT-014"), ("u2", "KT-015")):
            await work.apply(reference, Changes(reply=Reply(name, reference, T0, "text", f"about {reference}")), T0)
        await work.put([message("KT-015:x", to=To.PATIENT, reference="KT-015", due_at=T0 + HOUR)])
        await work.store_updates([update("u3", "family", text="it is stuck")], T0)
        assert [one.id for one in await work.updates_of("KT-015")] == ["u3"]
        assert await work.forget("KT-014", T0)
        assert await work.reference_of("family") == "KT-015"
        assert [one.text for one in await work.unhandled(10)] == ["it is stuck"]
        assert [one.text for one in await work.replies("KT-015")] == ["about KT-015"]
        assert await work.message("KT-015:x") is not None


async def test_a_reference_that_begins_another_is_not_it(store: Store) -> None:
    async with store.work() as work:
        for reference in ("KT-01", "KT-014", "KT-01-B"):
            await work.add_patient(patient(reference), plan(reference), T0)
        rows = [{"reference": reference} for reference in ("KT-01", "kt-01", "KT-014", "KT-01-B")]
        await work.put([message("digest:1", facts={"rows": rows, "n": 3})])
        assert await work.forget("KT-01", T0)
        found = await work.message("digest:1")
        assert found is not None and [row["reference"] for row in found.message.facts["rows"]] == ["KT-014", "KT-01-B"]


async def test_a_reference_can_be_used_again(store: Store) -> None:
    async with store.work() as work:
        await fill(work)
        await work.forget("KT-014", T0)
        await work.add_patient(patient("KT-014", chat="new"), plan("KT-014"), T0)
        case = await work.case("KT-014")
        assert case is not None and case.record.entries == () and case.flags == () and case.found == ()
        assert await work.put([message("KT-014:d:dose", reference="KT-014")]) == 1


async def test_no_secret_is_left_in_any_row(database_url: str) -> None:
    async with opened(database_url) as store:
        assert isinstance(store, SqlStore)
        async with store.work() as work:
            await fill(work)
        assert {secret for secret in SECRETS if secret in await everything(store)} == set(SECRETS)
        async with store.work() as work:
            await work.mark_handled("u7", T0)
            await work.forget("KT-014", T0)
        left = await everything(store)
        theirs = "my own words, as KT-014 said"   # another patient's own words are theirs
        assert theirs in left
        assert [secret for secret in SECRETS if secret in left.replace(theirs, "")] == []
        await store.scrub()
        assert await store.check() == []


def test_every_table_is_thought_of() -> None:
    """A new table fails here until `bot/storage/erasing.py` says what of it a forgotten patient takes along."""
    own = {"patients", "plans", "entries", "conversations", "replies", "findings", "flags", "acts", "outbox", "invites"}
    emptied = {"inbox", "desks", "notes", "tries"}
    of_others = {"members"}
    assert set(Stored.metadata.tables) == own | emptied | of_others


async def everything(store: SqlStore) -> str:
    """Every row of every table as text."""
    lines = []
    async with store.reading() as connection:
        for table in Stored.metadata.tables.values():
            for row in await connection.execute(sa.select(table)):
                lines.append(json.dumps(dict(row._mapping), default=str, ensure_ascii=False))
    return "\n".join(lines)


async def test_nothing_is_left_in_the_files_of_sqlite(tmp_path: Path) -> None:
    path = tmp_path / "coatwell.db"
    async with opened(f"sqlite:///{path}") as store:
        async with store.work() as work:
            await fill(work)
            for number in range(200):      # enough for pages of their own, and for the write-ahead log
                reply = Reply(f"r{number}", "KT-014", T0, "text", f"damsonreply {number} " + "long " * 200)
                await work.apply("KT-014", Changes(reply=reply), T0)
        assert b"damsonreply" in files(path)
        async with store.work() as work:
            await work.mark_handled("u7", T0)
            await work.forget("KT-014", T0)
        await store.scrub()
        left = files(path).replace(b"as KT-014 said", b"")
        assert [secret for secret in SECRETS if secret.encode() in left] == []


def files(path: Path) -> bytes:
    """The database file with its write-ahead log and that log's index."""
    found = sorted(path.parent.glob(path.name + "*"))
    assert path in found
    return b"".join(one.read_bytes() for one in found)


async def test_a_reader_that_holds_the_file_is_told_of(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("bot.storage.maintenance.WAIT_SECONDS", 0.2)
    path = tmp_path / "coatwell.db"
    async with opened(f"sqlite:///{path}") as store:
        async with store.work() as work:
            await fill(work)
        with closing(sqlite3.connect(path, isolation_level=None)) as reader:
            reader.execute("BEGIN")
            reader.execute("SELECT count(*) FROM replies").fetchone()
            async with store.work() as work:
                await work.forget("KT-014", T0)
            with pytest.raises(TroubleOutside, match="deleted rows are still in its files"):
                await store.scrub()
            reader.execute("COMMIT")
        await store.scrub()
        assert b"damsonreply" not in files(path)


@pytest.mark.postgresql
async def test_a_table_that_another_holds_is_told_of(postgres_url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("bot.storage.maintenance.WAIT_SECONDS", 0.2)
    async with opened(postgres_url) as store:
        assert isinstance(store, SqlStore)
        async with store.engine.connect() as holder:
            await holder.execute(sa.select(Stored.metadata.tables["replies"]))
            with pytest.raises(TroubleOutside, match="deleted rows are still in its files"):
                await store.scrub()
        await store.scrub()


@pytest.mark.postgresql
async def test_nothing_is_left_in_the_tables_files_of_postgresql(postgres_server: Any, postgres_url: str) -> None:
    """The server's own log keeps what was until it is recycled; its tables do not."""
    if postgres_server.data is None:
        pytest.skip("the server is not ours: its files cannot be looked at")
    async with opened(postgres_url) as store:
        async with store.work() as work:
            await fill(work)
        assert isinstance(store, SqlStore)
        await checkpoint(store)
        assert b"damsonreply" in tables_of(postgres_server.data)
        async with store.work() as work:
            await work.forget("KT-014", T0)
        await store.scrub()
        await checkpoint(store)
        left = tables_of(postgres_server.data)
        assert [secret for secret in SECRETS if secret.encode() in left.replace(b"KT-014", b"")] in ([], ["KT-014"])


async def checkpoint(store: SqlStore) -> None:
    async with store.engine.connect() as connection:
        await connection.execution_options(isolation_level="AUTOCOMMIT")
        await connection.exec_driver_sql("CHECKPOINT")


def tables_of(data: Path) -> bytes:
    return b"".join(path.read_bytes() for path in (data / "base").rglob("*") if path.is_file())



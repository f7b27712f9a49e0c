"""What the command `forget` leaves of a patient whom the real agent has talked to for three weeks."""

from __future__ import annotations

import asyncio
import json
import os
import re
import sqlite3
import sys
from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from lived import HARD_WORDS, NOW, Lived

from bot.cli import main
from bot.export.counts import counts, random_reference
from bot.export.held import Held
from bot.storage.opening import open_store
from scheduler.protocol import ClinicProtocol
from scheduler.record import EntryKind, Record


def acts(lived: Lived) -> list[tuple[str, str, dict[str, object]]]:
    with closing(sqlite3.connect(lived.file)) as database:
        rows = database.execute("SELECT what, reference, facts FROM acts WHERE what = 'forgot a patient'").fetchall()
    return [(what, reference, json.loads(facts)) for what, reference, facts in rows]


def files(lived: Lived) -> bytes:
    return b"".join(one.read_bytes() for one in sorted(lived.file.parent.glob("coatwell.db*")))


def test_counts_are_of_the_record(found: Held) -> None:
    kept = counts(found)
    record = found.case.record
    standing = {entry.about for entry in record.of(EntryKind.DOSE_TAKEN) if record.dose_answer(entry.about) is entry}
    assert kept["doses"] == {"taken": len(standing), "not taken": 1,
                             "unknown": len(record.of(EntryKind.DOSE_UNKNOWN))}
    assert kept["scores"] == [{"week": 2, "total": 0}], "15 March is in the second week from 2 March"
    assert kept["flags"]["thrush"] == {"urgent": 1}
    assert kept["check_ins"]["done"] == 1 and kept["replies"] == len(found.replies)


def test_counts_hold_no_words_names_or_dates(found: Held) -> None:
    kept = json.dumps(counts(found))
    assert not re.search(r"\d{4}-\d\d-\d\d|KT-014|Maya|Ana|Okafor|patient-", kept)
    case = replace(found.case, record=Record(), flags=(), found=())
    empty = replace(found, case=case, replies=(), messages=(), acts=())
    assert counts(empty)["doses"] == {"taken": 0, "not taken": 0, "unknown": 0}


def test_random_references_lead_nowhere() -> None:
    made = {random_reference() for _ in range(200)}
    assert len(made) == 200 and all(re.fullmatch(r"forgotten-[0-9a-f]{12}", one) for one in made)


def test_forgotten_by_the_command(lived: Lived, found: Held, monkeypatch: pytest.MonkeyPatch,
                                  capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setenv("COATWELL_DATABASE", lived.url)
    words = {reply.text for reply in found.replies if len(reply.text) > 8}
    secrets = {*words, HARD_WORDS.split("\n")[1], "Maya", "KT-014", "America/Denver", "white patches", "teeth",
               found.case.row.chat}
    before = files(lived)
    assert {one for one in secrets if one.encode() in before} >= {"Maya", "KT-014", found.case.row.chat}
    assert main(["forget", "KT-014", "--yes"]) == 0
    told = capsys.readouterr().out
    (_, reference, facts), = acts(lived)
    assert reference in told and reference.startswith("forgotten-")
    assert facts == json.loads(json.dumps(counts(found)))
    left = files(lived)
    assert [one for one in secrets if one.encode() in left or json.dumps(one)[1:-1].encode() in left] == []
    assert main(["forget", "KT-014", "--yes"]) == 1
    assert main(["export", "KT-014", "--as", "fhir", "--to", str(lived.file.with_name("x.json"))]) == 1
    assert main(["db", "check"]) == 0


async def test_the_chat_is_told_nothing_and_is_a_strangers(lived: Lived, protocol: ClinicProtocol) -> None:
    from bot.agent import Agent
    from bot.chat.memory import MemoryChat
    from bot.sending import Addresses

    chat = MemoryChat()
    store = await open_store(lived.url, protocol)
    async with store.work() as work:
        row, = await work.patients()
        assert await work.forget(lived.reference, NOW)
    agent = Agent(store, chat, protocol, Addresses("care", "on-call"))
    await agent.pass_(NOW)
    assert chat.texts(row.chat) == []
    await store.close()


async def test_forgotten_while_the_agent_runs(lived: Lived, protocol: ClinicProtocol) -> None:
    """Another process forgets; the agent, which keeps its connections, goes on, and nothing is left in the files."""
    from bot.agent import Agent
    from bot.chat.memory import MemoryChat
    from bot.sending import Addresses

    store = await open_store(lived.url, protocol)
    agent = Agent(store, MemoryChat(), protocol, Addresses("care", "on-call"))
    await agent.pass_(NOW)
    assert lived.reference.encode() in files(lived)
    command = await asyncio.create_subprocess_exec(
        sys.executable, "-m", "bot.cli", "forget", lived.reference, "--yes", cwd=lived.file.parent,
        env={**os.environ, "COATWELL_DATABASE": lived.url, "PYTHONPATH": str(Path(__file__).parents[3])},
        stdout=asyncio.subprocess.PIPE, stderr=asyncio.subprocess.PIPE)
    _, complained = await asyncio.wait_for(command.communicate(), 60)
    assert (command.returncode, complained) == (0, b"")
    assert lived.reference.encode() not in files(lived)
    await agent.pass_(NOW + timedelta(days=1))
    assert lived.reference.encode() not in files(lived)
    await store.close()


def test_a_plan_that_cannot_be_read_any_more_is_forgotten_too(lived: Lived, monkeypatch: pytest.MonkeyPatch) -> None:
    with closing(sqlite3.connect(lived.file, isolation_level=None)) as database:
        database.execute("UPDATE plans SET text = 'schema = 99'")
    monkeypatch.setenv("COATWELL_DATABASE", lived.url)
    assert main(["forget", "KT-014", "--yes"]) == 0
    assert [facts for _, _, facts in acts(lived)] == [{"counted": False}]
    assert b"KT-014" not in files(lived)

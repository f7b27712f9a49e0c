"""Long random histories, run on the store in memory and on a database side by side: every answer must be the same."""

from __future__ import annotations

import random
from collections.abc import Awaitable, Callable
from datetime import timedelta
from typing import Any

import pytest
from stores import MINUTE, T0, message, opened, patient, plan

from bot.case import Act, Changes, Conversation, Flag, FlagState, FoundThen, PatientState, Reply
from bot.chat.types import Incoming, IncomingKind
from bot.ports import Work
from bot.understanding.types import Finding, Urgency
from scheduler.messages import Priority, SendState, To
from scheduler.ports import Claimed, Mark
from scheduler.record import Entry, EntryKind

REFERENCES = ("KT-014", "AB-001", "CD-002")
STEPS = 350
Step = Callable[[Work], Awaitable[Any]]


class TakenBack(Exception):
    """Ends a transaction that must leave nothing."""


class History:
    """Makes steps, the same for the same seed whatever the store."""

    def __init__(self, seed: int) -> None:
        self.rng = random.Random(seed)
        self.now = T0
        self.keys: list[str] = []
        self.made = 0

    def step(self) -> Step:
        self.now += timedelta(seconds=self.rng.randint(0, 90))
        return self.rng.choice((self.put, self.claim, self.claim, self.mark, self.mark, self.cancel, self.apply,
                                self.apply, self.tick, self.updates, self.handle, self.look, self.dead, self.jump))()

    def _message(self) -> Any:
        rng = self.rng
        key = f"{rng.choice(REFERENCES)}:d{rng.randint(0, 12)}:{rng.choice('abé')}"
        self.keys.append(key)
        facts = {"occasion": "o"} if rng.random() < 0.5 else {"n": rng.random(), "é": [None, True]}
        return message(key, to=rng.choice(list(To)), due_at=self.now + rng.randint(-3, 10) * MINUTE, facts=facts,
                       reference=rng.choice((None, *REFERENCES)), priority=rng.choice(list(Priority)),
                       edits=rng.choice(self.keys) if rng.random() < 0.3 else None,
                       address="c9" if rng.random() < 0.3 else None)

    def put(self) -> Step:
        messages = [self._message() for _ in range(self.rng.randint(0, 6))]
        return lambda work: work.put(messages)

    def claim(self) -> Step:
        now, limit, agent = self.now, self.rng.randint(1, 8), self.rng.random() < 0.3
        lease = now + self.rng.randint(0, 4) * MINUTE
        holder, urgent = self.rng.choice("pq"), self.rng.random() < 0.2
        return lambda work: work.claim(now, limit, lease, holder, agent, urgent)

    def dead(self) -> Step:
        holder = self.rng.choice("pqr")

        async def run(work: Work) -> Any:
            return sorted(await work.holders()), await work.take_back([holder]), sorted(await work.holders())
        return run

    def jump(self) -> Step:
        before, now = self.now, self.now - self.rng.randint(0, 20) * MINUTE
        return lambda work: work.clock_set_back(before, now)

    def mark(self) -> Step:
        marks = []
        for _ in range(self.rng.randint(0, 5)):
            state = self.rng.choice(list(SendState))
            if state is SendState.CLAIMED or not self.keys:
                continue
            self.made += 1
            sent = state is SendState.SENT
            marks.append(Mark(self.rng.choice(self.keys), state, self.now, name=f"m{self.made}" if sent else "",
                              address="c1" if sent else "", trouble="t",
                              retry_at=self.now + MINUTE if state is SendState.WAITING else None,
                              unsent=self.rng.random() < 0.3))
        return lambda work: work.mark(marks)

    def cancel(self) -> Step:
        keys = [self.rng.choice((f"{self.rng.choice(REFERENCES)}:d{self.rng.randint(0, 12)}*", *self.keys[-3:], "x"))
                for _ in range(self.rng.randint(0, 2))]
        return lambda work: work.cancel(keys)

    def apply(self) -> Step:
        rng, now, reference = self.rng, self.now, self.rng.choice(REFERENCES)
        self.made += 1
        number = rng.randint(1, 4)
        words = f"words {self.made}"
        flag = Flag(f"{reference}/{number}", reference, ("R1",), ("thrush",), rng.choice(list(Urgency)), "w",
                    rng.choice(list(FlagState)), now, now + MINUTE, facts={"n": self.made})
        row = patient(reference, state=rng.choice(list(PatientState)), chat=rng.choice(("c1", "c2", "")))
        maybe: dict[str, Any] = {
            "entries": (Entry(EntryKind.RINSE_DONE, now, f"d{self.made}", {"n": 1}),),
            "messages": (self._message(), self._message()), "cancel": (f"{reference}:d1*",),
            "found": (FoundThen(Finding.FEVER, now, "r"),), "flags": (flag,),
            "acts": (Act(now, "nurse", f"act {self.made}", reference),),
            "conversation": Conversation(f"s{self.made}", "a", now, {"x": [1]}), "row": row,
            "reply": Reply(f"{reference}:r{rng.randint(0, 30)}", reference, now, "text", words), "replan": True}
        changes = Changes(**{name: value for name, value in maybe.items() if rng.random() < 0.35})
        return lambda work: work.apply(reference, changes, now)

    def tick(self) -> Step:
        now, limit, forth = self.now, self.rng.randint(1, 3), self.rng.randint(1, 40) * MINUTE

        async def run(work: Work) -> Any:
            due = await work.due_patients(now, limit)
            for one in due:
                await work.set_cursor(one.reference, now, now + forth)
            return due
        return run

    def updates(self) -> Step:
        found = [Incoming(f"u{self.rng.randint(0, 60)}", self.rng.choice("abc"), "s", self.now, IncomingKind.TEXT,
                          text=f"t{self.rng.randint(0, 9)}") for _ in range(self.rng.randint(0, 4))]
        return lambda work: work.store_updates(found, self.now)

    def handle(self) -> Step:
        now, limit, skip = self.now, self.rng.randint(1, 3), self.rng.sample("abc", self.rng.randint(0, 2))

        async def run(work: Work) -> Any:
            found = await work.unhandled(limit, skip)
            for one in found:
                await work.mark_handled(one.id, now)
            return found
        return run

    def look(self) -> Step:
        reference, key = self.rng.choice(REFERENCES), self.rng.choice(self.keys or ["x"])

        async def run(work: Work) -> Any:
            return await everything(work, reference, key)
        return run


async def everything(work: Work, reference: str, key: str = "") -> list[Any]:
    return [await work.case(reference), await work.messages_of(reference, 20), await work.message(key),
            await work.coming(40), await work.next_due(), await work.open_flags(), await work.acts(limit=9),
            await work.acts(reference), await work.replies(reference), await work.patients(), await work.unhandled(99),
            await work.reference_of("c1"), await work.reference_of("c2"), await work.sent_as("c1", "m7")]


async def run(url: str, seed: int) -> list[Any]:
    """All answers of one history; about one transaction in five is taken back."""
    history = History(seed)
    answers: list[Any] = []
    async with opened(url) as store:
        async with store.work() as work:
            for reference in REFERENCES:
                await work.add_patient(patient(reference, chat="c1"), plan(reference), T0)
        for _ in range(STEPS // 3):
            steps = [history.step() for _ in range(3)]
            take_back = history.rng.random() < 0.2
            try:
                async with store.work() as work:
                    for step in steps:
                        answers.append(await step(work))
                    if take_back:
                        raise TakenBack
            except TakenBack:
                answers.append("taken back")
        async with store.work() as work:
            answers += [await everything(work, reference) for reference in REFERENCES]
            answers += [await work.message(key) for key in sorted(set(history.keys))]
        answers.append(await store.counts(history.now))
        answers.append(await store.prune(history.now - 20 * MINUTE))
        answers.append(await store.counts(history.now))
    return answers


@pytest.mark.parametrize("seed", range(4))
async def test_memory_and_database_answer_alike(seed: int, database_url: str) -> None:
    in_memory, in_database = await run("memory:", seed), await run(database_url, seed)
    for number, (one, other) in enumerate(zip(in_memory, in_database, strict=True)):
        assert _plain(one) == _plain(other), f"answer {number} of seed {seed}"
    claims = [one for one in in_memory if isinstance(one, list) and one and isinstance(one[0], Claimed)]
    assert len(claims) > 30 and any(one.in_flight_before for claim in claims for one in claim), "a history of some life"


def _plain(answer: Any) -> Any:
    return list(answer) if isinstance(answer, (list, tuple)) else answer

"""A patient who taps anything that stands in the chat and writes anything at any time: what holds whatever they do."""

from __future__ import annotations

import random
import re
from collections import Counter
from datetime import UTC, datetime, timedelta

import pytest

from bot.rehearsal.demo import demo_plan
from bot.rehearsal.world import Line, World
from bot.storage.opening import open_store
from scheduler.protocol import load_protocol
from scheduler.record import EntryKind, taken_at

PROTOCOL = load_protocol()
START = datetime(2026, 3, 2, 13, 0, tzinfo=UTC)
DAYS = 6
WORDS = ("done", "taken", "not yet", "later", "no", "yes", "08:10", "took it at 7", "I took it 20 minutes ago", "30",
         "not today", "thanks", "in 30 min", "asdf", "1", "it hurts a bit", "white patches on my tongue",
         "I ate right after the dose", "can I drink water?", "I forgot my dose, what now", "what if food gets stuck?",
         "better", "I meant no", "oops i didnt take it", "i tapped the wrong button", "rinsed",
         "took it but my throat hurts", "no wait it was 7:50", "took it but spat half of it", "oops", "it went down",
         "took last night's dose at 10pm and this mornings now",
         "/help", "ok", "took it at 23:50", "took it late", "Not today", "half of it")
EMERGENCY = "food is stuck and I can't swallow my spit"


async def lived(seed: int, plan_name: str, *, emergency: bool) -> tuple[World, str, list[tuple[Line, list[Line]]]]:
    """The world after some days, and for everything the patient did: what was shown at once."""
    chance = random.Random(seed)
    plan = demo_plan(plan_name, PROTOCOL)
    world = World.make(await open_store("memory:", PROTOCOL), PROTOCOL, START)
    await world.admit("Nurse Adeyemi", "nurse")
    await world.join(plan)
    who, did = plan.patient.reference, list[tuple[Line, list[Line]]]()
    until = START + timedelta(days=DAYS)
    while world.clock.now() < until:
        await world.run_to(world.clock.now() + timedelta(minutes=chance.choice((0, 1, 3, 20, 90, 400))))
        before = len(world.log)
        shown = [one for one in world.chat.shown[world.address(who)] if one.outgoing.buttons]
        if chance.random() < 0.5 and shown:
            one = chance.choice(shown[-6:])
            button = chance.choice([button for row in one.outgoing.buttons for button in row])
            await world.taps_at(who, world.address(who), one.name, button.data)
        else:
            await world.says(who, EMERGENCY if emergency and chance.random() < 0.05 else chance.choice(WORDS))
        mine = [line for line in world.log[before:] if line.chat == world.address(who)]
        did.append((mine[0], [line for line in mine[1:] if line.who == "Coatwell"]))
    return world, who, did


@pytest.mark.parametrize("plan_name", ["adult_slurry", "teen_inhaler"])
@pytest.mark.parametrize("seed", range(6))
async def test_whatever_a_patient_does(seed: int, plan_name: str) -> None:
    world, who, did = await lived(seed, plan_name, emergency=False)
    async with world.store.work() as work:
        case = await work.case(who)
    assert case is not None
    for line, shown in did:
        new = [one for one in shown if not one.edits]
        said = f"{line.at} {line.text!r}: {[one.text[:60] for one in new]}"
        assert len(new) <= 2, f"more than two messages in answer to {said}"
        assert not any("Something went wrong" in one.text for one in new), said
        assert max(Counter(one.text for one in new).values(), default=1) == 1, f"said twice at once: {said}"
    standing = [entry for entry in case.record.dose_answers.values() if entry.kind is EntryKind.DOSE_TAKEN]
    for entry in standing:
        assert taken_at(entry) <= entry.at, "a dose in the future"
    # each 'you can eat' belongs to a wait that is over: none is open at that moment
    texts = [line for line in world.log if line.chat == world.address(who) and line.who == "Coatwell"]
    zone_free = re.compile(r"drink(?: for \w+)? until (\d\d:\d\d)")
    for place, line in enumerate(texts):
        if "eat and drink now" not in line.text or "minutes are over" in line.text:
            continue
        opened = [one for one in texts[:place] if zone_free.search(one.text)]
        assert opened, line.text
        wait = PROTOCOL.span("window.no_food")
        assert line.at - opened[-1].at <= wait, f"a wait that ended late: {line.at}"
    await world.store.close()


@pytest.mark.parametrize("seed", range(6))
async def test_while_doses_are_held_nothing_says_take_it(seed: int) -> None:
    world, who, _ = await lived(100 + seed, "adult_slurry", emergency=True)
    async with world.store.work() as work:
        case = await work.case(who)
    assert case is not None
    held: datetime | None = None
    spans = []
    for entry in case.record.of(EntryKind.DOSES_HELD, EntryKind.DOSES_FREED):
        if entry.kind is EntryKind.DOSES_HELD:
            held = entry.at
        elif held is not None:
            spans.append((held, entry.at))
            held = None
    if held is not None:
        spans.append((held, world.clock.now()))
    takes = re.compile(r"swallow all of it|is still open|You can eat and drink|Go on with your doses")
    for line in world.log:
        if line.chat == world.address(who) and line.who == "Coatwell" and not line.edits:
            assert not (any(start < line.at < end for start, end in spans) and takes.search(line.text)), line
    await world.store.close()

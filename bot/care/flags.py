"""Taps on flags: open, take, answer, close, reopen. Two nurses at once: the first wins, the other is told."""

from __future__ import annotations

from dataclasses import replace

from bot.care import digest, writing
from bot.care.render import text
from bot.care.talk import Talk
from bot.case import Act, Case, Changes, Flag
from bot.conversation import holds
from bot.escalation import life
from bot.escalation.flags import care_facts, shown_key, to_care
from bot.escalation.flags import holds as holds_doses
from bot.texts.render import render as patient_render
from scheduler.messages import Message, Priority, To


async def tapped(talk: Talk, subject: str, choice: str) -> None:
    """f:FLAG:choice; a digest's 'next' is f:NUMBER:list."""
    if choice == "list":
        await show_open(talk, int(subject) if subject.isdigit() else 0)
        return
    found = await talk.work.flag(subject)
    case = await talk.work.case(found.reference) if found else None
    flag = life.find(case, subject) if case else None
    if case is None or flag is None:
        await talk.say("desk.flag_unknown", name=subject)
    elif choice == "open":
        await show(talk, case, flag, edits=None)
    elif choice == "take":
        await _take(talk, case, flag)
    elif choice == "answer":
        await _answer(talk, case, flag)
    elif choice == "close":
        await _ask_outcome(talk, case, flag)
    elif choice == "reopen":
        await _step(talk, case, life.reopen(case, flag.id, talk.who, talk.now, talk.protocol))
    elif choice.startswith("o") and choice[1:].isdigit():
        await _close(talk, case, flag, int(choice[1:]))
    else:
        await talk.say("desk.old_button")


async def show_open(talk: Talk, start: int = 0) -> None:
    """All open flags of all patients, the most urgent first."""
    flags = await talk.work.open_flags()
    await talk.work.put([digest.digest(flags, f"desk:{talk.incoming.id}:flags", talk.now, talk.protocol, to=To.CHAT,
                                       address=talk.incoming.chat, start=start)])


async def show(talk: Talk, case: Case, flag: Flag, edits: str | None) -> None:
    """The flag as it is now: anew, or in place of the message whose button was tapped."""
    await talk.work.put([Message(
        f"{case.reference}:desk:{talk.incoming.id}:flag", To.CHAT, "flag", talk.now, reference=case.reference,
        priority=Priority.ANSWER, facts=care_facts(case, flag, talk.now), edits=edits, address=talk.incoming.chat)])


async def _take(talk: Talk, case: Case, flag: Flag) -> None:
    await _step(talk, case, life.take(case, flag.id, talk.who, talk.now, talk.protocol))


async def _step(talk: Talk, case: Case, step: life.Step) -> None:
    """Apply a step of the flag's life and bring the tapped message up to date; or say why not."""
    if step.trouble or step.flag is None:
        flag = step.flag
        await talk.say(f"desk.{step.trouble}", reference=case.reference, flag=flag.id if flag else "",
                       taken_by=(flag.taken_by if flag else "") or "?", outcome=(flag.outcome if flag else "") or "?",
                       at=((flag.taken_at or flag.raised_at) if flag else talk.now).isoformat())
        return
    after = await talk.apply(case, step.changes)
    await _refresh(talk, after, step.flag)


async def _refresh(talk: Talk, case: Case, flag: Flag) -> None:
    tapped = await talk.tapped()
    shows = tapped is not None and tapped.facts.get("flag") == flag.id and "rules" in tapped.facts
    await show(talk, case, flag, edits=tapped.key if tapped and shows else None)
    await _show_where_it_came(talk, case, flag)


async def _show_where_it_came(talk: Talk, case: Case, flag: Flag) -> None:
    """The message with which the flag came says the same, wherever the tap was: nobody takes from it what is done."""
    came = await talk.work.message(shown_key(flag))
    if came is not None and (came.address, came.name) != (talk.incoming.chat, talk.incoming.message):
        due = max(talk.now, came.message.due_at)         # one that waits for the opening is brought up to date then
        await talk.work.put([to_care(case, flag, "flag", f"now:{talk.incoming.id}", talk.now, due_at=due,
                                     edits=came.message.key)])


async def _answer(talk: Talk, case: Case, flag: Flag) -> None:
    """Whoever answers takes the flag, unless somebody has it; then they are asked for the words."""
    if flag.is_open and not flag.taken_by:
        step = life.take(case, flag.id, talk.who, talk.now, talk.protocol)
        if not step.trouble and step.flag is not None:
            case = await talk.apply(case, step.changes)
            await _refresh(talk, case, step.flag)
    elif flag.taken_by and flag.taken_by != talk.who:
        await talk.say("desk.flag_taken", reference=case.reference, flag=flag.id, taken_by=flag.taken_by,
                       at=(flag.taken_at or flag.raised_at).isoformat())
    await writing.ask(talk, case, flag)


async def _ask_outcome(talk: Talk, case: Case, flag: Flag) -> None:
    if not flag.is_open:
        await talk.say("desk.flag_closed", reference=case.reference, flag=flag.id, outcome=flag.outcome)
        return
    outcomes = talk.protocol.items("care.outcomes")
    buttons = [[("outcome", f"f:{flag.id}:o{place}", {"outcome": outcome})] for place, outcome in enumerate(outcomes)]
    kept = [str(outcome) for outcome in talk.protocol.items("hold.kept_by")]
    key = "desk.which_outcome_held" if holds_doses(case, flag) and kept else "desk.which_outcome"
    await talk.say(key, reference=case.reference, flag=flag.id, kept=kept, buttons=buttons)


async def _close(talk: Talk, case: Case, flag: Flag, place: int) -> None:
    outcomes = talk.protocol.items("care.outcomes")
    if place >= len(outcomes):
        await talk.say("desk.old_button")
        return
    step = life.close(case, flag.id, talk.who, str(outcomes[place]), "", talk.now, talk.protocol)
    if step.trouble or step.flag is None:
        await _step(talk, case, step)
        return
    again = holds.due_again(case, step.changes, f"freed:{talk.incoming.id}", talk.now, talk.protocol)
    after = await talk.apply(case, step.changes + again)
    asked = await talk.tapped()
    await show(talk, after, step.flag, edits=asked.key if asked and asked.kind == "desk" else None)
    await _show_where_it_came(talk, after, step.flag)
    told = next((one for one in step.changes.messages if one.kind == "flag_closed"), None)
    await talk.say("desk.add_note", reference=case.reference, flag=flag.id, asks_reply=True,
                   lines=[_what_the_patient_reads(told, talk)] if told else [],
                   prompt={"do": "note", "reference": case.reference, "flag": flag.id})
    await talk.remember("note", case.reference, flag=flag.id)


def _what_the_patient_reads(told: Message, talk: Talk) -> str:
    """The sentence that goes to a patient to whom nobody wrote, or not since their last words, in the care team's
    language, and until when it can be forestalled."""
    in_english = patient_render(replace(told, facts={**told.facts, "lang": "en"})).text
    facts = {"reference": told.reference, "at": told.due_at.isoformat(), "words": in_english,
             "wrote_at": told.facts["wrote_at"], "since": " / ".join(str(told.facts["since"]).splitlines()),
             "zone": talk.protocol.text("care.time_zone")}
    wrote = "" if not told.facts["wrote_at"] else "_since" if told.facts["since"] else "_again"
    why = text(f"desk.closing_unwritten{wrote}", facts)
    return f"{why} {text('desk.closing_tells' if told.due_at > talk.now else 'desk.closing_told', facts)}"


async def add_note(talk: Talk, reference: str, flag_id: str, note: str) -> None:
    """A free note on a flag that was closed."""
    case = await talk.case(reference)
    flag = life.find(case, flag_id) if case else None
    if case is None or flag is None:
        return
    noted = replace(flag, note=f"{flag.note}\n{note}".strip())
    await talk.apply(case, Changes(flags=(noted,), acts=(
        Act(talk.now, talk.who, "note", reference, flag_id, {"note": note}),)))
    await talk.forget()
    await talk.say("desk.note_kept", reference=reference, flag=flag_id)

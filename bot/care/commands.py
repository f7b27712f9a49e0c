"""Commands that a member types, and words that answer a prompt."""

from __future__ import annotations

from collections.abc import Awaitable, Callable

from bot import invites
from bot.care import admission, flags, patients, planchange, results, writing
from bot.care.talk import Talk

# A plain reply to one of these may be meant for the patient: it is shown back and sent only when tapped.
_ABOUT_A_PATIENT = frozenset({"flag", "flag_more", "flag_again", "flag_left_open", "picture", "unhandled"})

Command = Callable[[Talk, list[str]], Awaitable[None]]


async def _flags(talk: Talk, words: list[str]) -> None:  # noqa: ARG001
    await flags.show_open(talk)


async def _help(talk: Talk, words: list[str]) -> None:  # noqa: ARG001
    await talk.say("desk.help")


async def _team(talk: Talk, words: list[str]) -> None:  # noqa: ARG001
    await admission.team(talk)


async def _invite(talk: Talk, words: list[str]) -> None:
    wanted = words[0].lower() if words else ""
    if wanted in invites.ROLES:
        await admission.invite(talk, wanted)
    else:
        await admission.invite_again(talk, wanted)


async def _patients(talk: Talk, words: list[str]) -> None:  # noqa: ARG001
    await patients.everybody(talk)


def _for_patient(choice: str) -> Command:
    async def run_(talk: Talk, words: list[str]) -> None:
        if not words:
            await talk.say("desk.which_patient")
            return
        await patients.tapped(talk, await patients.known(talk, words[0]), choice)
    return run_


async def _write(talk: Talk, words: list[str]) -> None:
    if len(words) < 2:
        await _for_patient("write")(talk, words)
        return
    reference = await patients.known(talk, words[0])
    await writing.words(talk, reference, "", talk.incoming.text.split(maxsplit=2)[2])


async def _result(talk: Talk, words: list[str]) -> None:
    """/endoscopy REF date eos erefs, /cortisol REF date value unit"""
    kind = talk.incoming.text.split(maxsplit=1)[0].split("@")[0].lower().removeprefix("/")
    if len(words) < 2:
        await _for_patient(f"ask_{kind}")(talk, words)
        return
    await results.typed(talk, await patients.known(talk, words[0]), kind, " ".join(words[1:]))


async def _supply(talk: Talk, words: list[str]) -> None:
    """/supply REF packs"""
    if not words:
        await talk.say("desk.which_patient")
        return
    await results.supply(talk, await patients.known(talk, words[0]), words[1] if len(words) > 1 else "")


async def _opened(talk: Talk, words: list[str]) -> None:
    """/opened REF"""
    if not words:
        await talk.say("desk.which_patient")
        return
    await results.opened(talk, await patients.known(talk, words[0]))


async def _gate(talk: Talk, words: list[str]) -> None:
    """/release REF [gate], /hold REF [gate]"""
    if not words:
        await talk.say("desk.which_patient")
        return
    await patients.release_typed(talk, await patients.known(talk, words[0]), " ".join(words[1:]),
                                 hold=talk.incoming.text.lower().startswith("/hold"))


async def _pause(talk: Talk, words: list[str]) -> None:
    """/pause REF asks for how long; with a reason it holds until resumed."""
    if len(words) < 2:
        await _for_patient("pause")(talk, words)
        return
    await patients.pause_typed(talk, await patients.known(talk, words[0]), " ".join(words[1:]))


COMMANDS: dict[str, Command] = {
    "/flags": _flags,
    "/patients": _patients,
    "/card": _for_patient("card"),
    "/chart": _for_patient("chart"),
    "/write": _write,
    "/ask": _for_patient("ask"),
    "/endoscopy": _result,
    "/cortisol": _result,
    "/supply": _supply,
    "/opened": _opened,
    "/gate": _for_patient("gates"),
    "/release": _gate,
    "/hold": _gate,
    "/pause": _pause,
    "/resume": _for_patient("resume"),
    "/plan": _for_patient("plan"),
    "/team": _team,
    "/invite": _invite,
    "/help": _help,
    "/start": _help,
}


async def run(talk: Talk, text: str) -> None:
    """One command; an unknown one gets the list."""
    parts = text.split()
    command = COMMANDS.get(parts[0].split("@")[0].lower(), _help)
    await command(talk, parts[1:])


async def words(talk: Talk, text: str) -> None:
    """Words without a command: a reply to one of our prompts or flags, or what the member was asked for last. Chatter
    in the group that answers nothing is left alone."""
    prompt = None
    if talk.incoming.reply_to:
        sent = await talk.work.sent_as(talk.incoming.chat, talk.incoming.reply_to)
        prompt = sent.message.facts.get("prompt") if sent else None
        if prompt is None and sent and sent.message.reference and sent.message.kind in _ABOUT_A_PATIENT:
            flag = str(sent.message.facts.get("flag", ""))
            await writing.words(talk, sent.message.reference, flag, text)
            return
    sure = prompt is not None
    if prompt is None:
        desk = await talk.work.desk(talk.sender)
        if desk.state == "write_ready":
            await writing.more_words(talk, desk, text)
            return
        if desk.state in ("no_write", "no_note"):
            await writing.disarmed(talk, desk)
            return
        if desk.state == "idle" or desk.since is None:
            if not talk.incoming.is_group:       # nobody else is meant here
                await talk.say("desk.answers_nothing")
            return
        prompt = {"do": desk.state, "reference": desk.about, **desk.facts}
        sure = writing.is_fresh(desk, talk)
    await _answer(talk, prompt, text, sure)


async def _answer(talk: Talk, prompt: dict[str, str], text: str, sure: bool) -> None:
    do, reference = prompt["do"], prompt.get("reference", "")
    if do == "write":
        await writing.words(talk, reference, prompt.get("flag", ""), text)
    elif not sure:
        await talk.forget()           # an old prompt: the words are not meant for it
    elif do == "note":
        await flags.add_note(talk, reference, prompt["flag"], text)
    elif do in ("endoscopy", "cortisol"):
        await results.typed(talk, reference, do, text)
    elif do == "plan_value":
        await planchange.value_typed(talk, reference, prompt, text)

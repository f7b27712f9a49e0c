"""Who belongs to the care team: joined by invite, removed at once by a clinician."""

from __future__ import annotations

from dataclasses import replace

from bot import invites
from bot.care.talk import Talk
from bot.ports import Member


async def join(talk: Talk, text: str) -> None:
    """'/join CODE'. A wrong code gets the same answer as a used, expired or guessed one."""
    words = text.split(maxsplit=1)
    code = words[1].strip() if len(words) > 1 else ""
    if talk.member is not None:
        await talk.say("desk.joined_already", who=talk.who)
        return
    invite = await invites.redeem(talk.work, code, talk.sender, talk.now, talk.protocol, roles=invites.ROLES)
    if invite is None:
        await talk.say("desk.join_refused")
        return
    name = await _free_name(talk, talk.incoming.sender_name.strip() or f"Member {talk.sender[-4:]}")
    chat = "" if talk.incoming.is_group or talk.incoming.chat == talk.care_chat else talk.incoming.chat
    talk.member = Member(talk.sender, name, invite.for_role, talk.now, chat)
    await talk.work.add_member(talk.member)
    await talk.act("joined", about=invite.for_role, sender=talk.sender)
    await talk.say("desk.joined", who=talk.who)


async def invite(talk: Talk, role: str) -> None:
    """A new one-time code; shown in the member's own chat where there is one, since a group may hold strangers."""
    if not await talk.may("invite"):
        return
    if role not in invites.ROLES:
        await talk.say("desk.which_role", roles=list(invites.ROLES))
        return
    code = await invites.make_invite(talk.work, role, talk.now, talk.protocol)
    await talk.act("made an invite", about=role)
    own = talk.member.chat if talk.member else ""
    await talk.say("desk.invite", role=role.replace("_", " "), code=code, to=own,
                   days=int(talk.protocol.span("invite.valid_for").days))


async def invite_again(talk: Talk, typed: str) -> None:
    """A new one-time code for a patient who is enrolled: they lost the first one, come back, or have another phone."""
    if not await talk.may("invite"):
        return
    rows = await talk.work.patients()
    row = next((row for row in rows if row.reference.upper() == typed.strip().upper()), None)
    if row is None:
        await talk.say("desk.which_role", roles=list(invites.ROLES))
        return
    code = await invites.make_invite(talk.work, invites.PATIENT, talk.now, talk.protocol, row.reference)
    await talk.act("made an invite", row.reference, "patient")
    own = talk.member.chat if talk.member else ""
    await talk.say("desk.invite_patient", reference=row.reference, code=code, to=own,
                   days=int(talk.protocol.span("invite.valid_for").days))


async def team(talk: Talk) -> None:
    """Everybody who is admitted; a clinician can remove them here."""
    members = [member for member in await talk.work.members() if member.removed_at is None]
    lines = [f"{member.name}, {member.role.replace('_', ' ')}" for member in members]
    removable = [[("remove", f"m:{member.sender}:remove", {"name": member.name})] for member in members
                 if talk.member and talk.member.role == "clinician" and member.sender != talk.sender]
    await talk.say("desk.team", lines=lines, buttons=removable)


async def tapped(talk: Talk, subject: str, choice: str) -> None:
    """m:SENDER:remove"""
    if choice != "remove":
        await talk.say("desk.old_button")
        return
    if not await talk.may("remove"):
        return
    member = await talk.work.member(subject)
    if member is None:
        await talk.say("desk.no_member")
        return
    await talk.work.add_member(replace(member, removed_at=talk.now))
    await talk.act("removed a member", about=f"{member.name} ({member.role})", sender=member.sender)
    await talk.say("desk.removed", name=member.name)


async def _free_name(talk: Talk, name: str) -> str:
    """Flags say who took them by name: no two members share one."""
    taken = {member.name for member in await talk.work.members()}
    return next(one for one in (name, *(f"{name} {number}" for number in range(2, 1000))) if one not in taken)

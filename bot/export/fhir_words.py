"""FHIR: what was written: replies, messages, flags, and what people did."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from bot.care.render import title
from bot.case import Flag, Reply
from bot.export.fhir import Values, Writer, text
from bot.export.fhir_record import audit
from bot.ports import SentMessage
from scheduler.messages import Priority, SendState, To

_STATUS = {SendState.SENT: "completed", SendState.UNCERTAIN: "unknown", SendState.WAITING: "preparation",
           SendState.CLAIMED: "in-progress"}
_PRIORITY = {Priority.EMERGENCY: "stat", Priority.FLAG: "urgent"}
_RECIPIENT = {To.CARE: "care team", To.ON_CALL: "on-call clinician", To.CHAT: "member of the care team"}
_XHTML = "http://www.w3.org/1999/xhtml"


def resources(writer: Writer) -> Iterator[Values]:
    """Replies, messages (timers to ourselves hold no words and are left out), flags, acts."""
    found = writer.found
    for reply in found.replies:
        yield _reply(writer, reply)
    for sent in found.messages:
        if sent.message.to is not To.AGENT:
            yield _message(writer, sent)
    for flag in found.case.flags:
        yield _flag(writer, flag)
    for number, act in enumerate(found.acts):
        yield audit(writer, f"act:{number}", act.what, writer.at(act.at), act.who,
                    {"about": act.about, **dict(act.facts)})


def _reply(writer: Writer, reply: Reply) -> Values:
    """What the patient sent, whole, with how the program read it."""
    findings = ", ".join(str(one).replace("_", " ") for one in reply.reading.get("findings", ()))
    note = f"read by a program as: {findings} ({reply.reading.get('urgency')})" if findings else ""
    return writer.resource(
        "Communication", f"reply:{reply.id}", status="completed", category=[text(f"from the patient ({reply.kind})")],
        subject=writer.patient, sender=writer.patient, received=writer.at(reply.at),
        payload=[{"contentString": reply.text or f"[{reply.kind}]"}], note=[text(note)] if note else None)


def _message(writer: Writer, sent: SentMessage) -> Values:
    message = sent.message
    to = writer.patient if message.to is To.PATIENT else {"display": _RECIPIENT[message.to]}
    left = sent.state in (SendState.SENT, SendState.UNCERTAIN)
    edits = writer.ref("Communication", f"message:{message.edits}") if message.edits else None
    known = {one.message.key for one in writer.found.messages if one.message.to is not To.AGENT}
    return writer.resource(
        "Communication", f"message:{message.key}", status=_STATUS.get(sent.state, "not-done"),
        statusReason=None if sent.state in _STATUS else text(str(sent.state)),
        category=[text(message.kind.replace("_", " "))], priority=_PRIORITY.get(message.priority, "routine"),
        subject=writer.patient, recipient=[to], sender={"display": "Coatwell"},
        sent=writer.at(sent.at or message.due_at) if left else None,
        inResponseTo=[edits] if edits and message.edits in known else None,
        payload=[{"contentString": shown}] if (shown := writer.text_of(message).strip()) else None)


def _flag(writer: Writer, flag: Flag) -> Values:
    """Active while it is open. The words and the outcome stand in the narrative: a Flag has no field for them."""
    lines = [f"{flag.id}, {flag.urgency}: {', '.join(title(rule) for rule in flag.rules)}",
             *([f"Words: {flag.words}"] if flag.words else []),
             f"Raised {writer.at(flag.raised_at)}, to be acted on by {writer.at(flag.act_by)}"]
    if flag.taken_at is not None:
        lines.append(f"Taken {writer.at(flag.taken_at)} by {flag.taken_by}")
    if flag.closed_at is not None:
        lines.append(f"Closed {writer.at(flag.closed_at)}: {flag.outcome}. {flag.note}")
    ends = {"end": writer.at(flag.closed_at)} if flag.closed_at is not None else {}
    return writer.resource(
        "Flag", flag.id, status="active" if flag.is_open else "inactive", subject=writer.patient,
        identifier=[{"value": flag.id}], category=[text(str(flag.urgency))], code=text(title(flag.rules[0])),
        period={"start": writer.at(flag.raised_at)} | ends,
        text={"status": "additional",
              "div": f'<div xmlns="{_XHTML}">{"".join(f"<p>{escape(line)}</p>" for line in lines)}</div>'})

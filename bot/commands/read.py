"""`coatwell read`: replies in, what they say out; one JSON document a line."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterable, Iterator

from bot.errors import BotError


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.description = (
        'Reads replies: lines {"id","text"} on standard input, one JSON line each on standard output.'
    )
    parser.epilog = """example:
  echo '{"id": 1, "text": "no temperature, only a white coat on my gums"}' | coatwell read --language en

optional fields of a line: "asked" (the open question: dose, when_taken, how_long, why_not, understood, check_in:ITEM,
happening_now, follow_up) and "writer" (patient or parent)."""
    parser.add_argument(
        "--language", default="en", choices=("en", "es"), help="language of the replies (default: en)"
    )


def run(args: argparse.Namespace) -> int:
    """Reads standard input to its end: 0; a line that is no reply is bad use (2), named on standard error."""
    try:
        for line in answers(sys.stdin, args.language):
            print(line, flush=True)
    except BotError as error:
        print(f"coatwell: {error}", file=sys.stderr)
        return 2
    return 0


def answers(lines: Iterable[str], language: str) -> Iterator[str]:
    """One JSON line for each input line that is not blank. Raises BotError on a line that is no reply."""
    from bot.understanding import read

    for number, line in enumerate(lines, 1):
        if not line.strip():
            continue
        reply = _reply(line, number)
        reading = read(
            reply["text"],
            language=language,
            asked=str(reply.get("asked", "")),
            writer=str(reply.get("writer", "patient")),
        )
        evidence = [
            {"finding": str(mention.finding), "start": mention.start, "end": mention.end}
            for mention in reading.mentions
            if mention.stands
        ]
        yield json.dumps(
            {
                "id": reply.get("id"),
                "findings": [str(finding) for finding in reading.findings],
                "urgency": str(reading.urgency),
                "needs_human": reading.needs_human,
                "evidence": evidence,
            },
            ensure_ascii=False,
        )


def _reply(line: str, number: int) -> dict[str, str]:
    try:
        reply = json.loads(line)
    except json.JSONDecodeError as error:
        raise BotError(
            f'standard input, line {number}: not JSON ({error.msg}); give one {{"id","text"}} object a line'
        ) from error
    if not isinstance(reply, dict) or not isinstance(reply.get("text"), str):
        raise BotError(f'standard input, line {number}: no "text"; give one {{"id","text"}} object a line')
    return reply

"""`coatwell read`: replies in, what they say out; one JSON document a line."""

from __future__ import annotations

import argparse
import json
import re
import sys
from io import TextIOWrapper
from typing import Any, NoReturn

from bot.errors import BadUse

_SHAPE = 'give one {"id","text"} object a line'
_WRITERS = ("patient", "parent")
_SURROGATE = re.compile("[\ud800-\udfff]")


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
    """Reads standard input to its end. 0, or 2 when a line was no reply: each is named on standard error, the others
    are read all the same."""
    if isinstance(sys.stdin, TextIOWrapper):
        sys.stdin.reconfigure(encoding="utf-8", errors="surrogateescape")   # a line in another encoding is one bad line
    status = 0
    for number, line in enumerate(sys.stdin, 1):
        if not line.strip("\ufeff \t\r\n"):
            continue
        try:
            print(answer(line, args.language), flush=True)
        except BadUse as error:
            print(f"coatwell read: standard input, line {number}: {error}", file=sys.stderr, flush=True)
            status = 2
    return status


def answer(line: str, language: str) -> str:
    """The JSON line for one input line. Raises BadUse for a line that is no reply."""
    from bot.understanding import read

    reply = _reply(line)
    reading = read(reply["text"], language=language, asked=reply["asked"], writer=reply["writer"])
    evidence = [
        {"finding": str(mention.finding), "start": mention.start, "end": mention.end}
        for mention in reading.mentions
        if mention.stands
    ]
    return json.dumps(
        {
            "id": reply["id"],
            "findings": [str(finding) for finding in reading.findings],
            "urgency": str(reading.urgency),
            "needs_human": reading.needs_human,
            "evidence": evidence,
        },
        ensure_ascii=False,
    )


def _reply(line: str) -> dict[str, Any]:
    """The line's id, text, asked and writer. Raises BadUse."""
    try:
        found = json.loads(line.lstrip("\ufeff"), parse_constant=_no_number)
    except json.JSONDecodeError as error:
        raise BadUse(f"not JSON ({error.msg}); {_SHAPE}") from None
    except (ValueError, RecursionError) as error:     # a number of thousands of digits, brackets without an end
        raise BadUse(f"not JSON that can be read ({str(error)[:80]}); {_SHAPE}") from None
    if not isinstance(found, dict) or not isinstance(found.get("text"), str):
        raise BadUse(f'no "text"; {_SHAPE}')
    if _SURROGATE.search(line):
        raise BadUse("not UTF-8; save the lines as UTF-8")
    asked, writer = found.get("asked") or "", found.get("writer") or "patient"
    if not isinstance(asked, str):
        raise BadUse('"asked" is the name of the open question, such as "dose"')
    if writer not in _WRITERS:
        raise BadUse(f'"writer" is one of {", ".join(_WRITERS)}')
    return {"id": found.get("id"), "text": found["text"], "asked": asked, "writer": writer}


def _no_number(name: str) -> NoReturn:
    raise ValueError(f"{name} is no JSON number")

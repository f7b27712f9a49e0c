"""Log lines as JSON, one each: time, level, where, what. No names, no patients' words, no token.

The program logs kinds, counts and references, never texts. What an exception says may hold words that were being
handled, so of an exception only its type and place are written.
"""

from __future__ import annotations

import json
import logging
import sys
from datetime import UTC, datetime

from bot.chat.polling import kind_and_place


class JsonLines(logging.Formatter):
    """One JSON object a record. `hidden`: strings that never appear, whoever logs them."""

    def __init__(self, hidden: tuple[str, ...] = ()) -> None:
        super().__init__()
        self._hidden = tuple(text for text in hidden if text)

    def format(self, record: logging.LogRecord) -> str:
        line = {"at": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
                "level": record.levelname.lower(), "from": record.name, "what": record.getMessage()}
        if record.exc_info and isinstance(record.exc_info[1], Exception):
            line["error"] = kind_and_place(record.exc_info[1])
        text = json.dumps(line, ensure_ascii=False)
        for secret in self._hidden:
            text = text.replace(secret, "<hidden>")
        return text


def start_logging(token: str = "") -> None:
    """Everything goes to standard error; libraries that log addresses or texts only from warnings on."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(JsonLines((token, token.partition(":")[2])))
    logging.basicConfig(level=logging.INFO, handlers=[handler], force=True)
    for name in ("httpx", "httpcore", "telegram", "apscheduler", "uvicorn", "aiosqlite", "sqlalchemy", "alembic"):
        logging.getLogger(name).setLevel(logging.WARNING)

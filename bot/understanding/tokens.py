"""A reply as tokens: lower case, contractions without apostrophes, emoji as words, one spelling; each with its
place in the text."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

LIMIT = 4096  # longest text that is read, in characters: the longest message the chats carry

_TOKEN = re.compile(
    r"\d+(?:[.,:/]\d+)*"  # 39.5  38,9  7:30  85/50
    r"|[^\W\d_]+(?:['’`´&][^\W\d_]+)*"  # words, can't, a&e
    r"|[.!?;,()\n…¿¡:]|[-–—]+|[^\w\s]",
    re.UNICODE,
)
_RUN = re.compile(r"(.)\1{2,}")
STOPS = frozenset(".!?;\n()…¿¡:") | {"--", "—", "–"}

# What an emoji says, as a word of the frames. Common practice, no source.
EMOJI = {
    "🤮": "vomiting",
    "🤢": "nauseous",
    "🩸": "blood",
    "🤒": "fever",
    "🌡": "temperature",
    "😵": "dizzy",
    "💫": "dizzy",
    "🤰": "pregnant",
    "👍": "ok",
    "👌": "ok",
    "✅": "done",
    "✔": "done",
    "☑": "done",
    "✓": "done",
    "🙏": "thanks",
    "👎": "no",
    "❌": "no",
    "🆗": "ok",
    "🫁": "breathing",
    "💯": "ok",
    "🥵": "hot",
    "🥶": "chills",
    "💩": "poop",
    "🤧": "cold",
    "😷": "ill",
    "🔥": "burning",
    "💉": "injection",
    "💊": "medicine",
    "🐸": "frog",
    "❤": "thanks",
    "🙂": "",
    "😊": "",
    "😀": "",
    "😁": "",
    "😂": "",
    "🤣": "",
    "😅": "",
    "😭": "",
    "😢": "",
    "😩": "",
    "😫": "",
    "😖": "",
    "😣": "",
    "😔": "",
    "😬": "",
    "🙄": "",
    "🥰": "",
    "😍": "",
    "🎉": "",
    "💪": "",
    "✨": "",
    "😋": "",
    "🙌": "",
    "😃": "",
    "😄": "",
    "☺": "",
    "😞": "",
    "😓": "",
    "😴": "",
    "🤷": "",
    "😳": "",
    "😱": "",
    "🚨": "",
    "🆘": "help",
    "‼": "",
    "❗": "",
    "🍗": "chicken",
    "🥩": "meat",
    "🍞": "bread",
    "🍖": "meat",
    "😮": "",
}


@dataclass(frozen=True, slots=True)
class Token:
    """One word, number or mark: `word` as the frames see it, and its half-open place [start, end) in the
    original text."""

    word: str
    start: int
    end: int
    raw: str = ""


def split(text: str) -> list[Token]:
    """Tokens of a text, before spelling. Never fails; empty for an empty text."""
    tokens: list[Token] = []
    for found in _TOKEN.finditer(text[:LIMIT]):
        raw = found.group()
        if raw[0] in EMOJI:
            word = EMOJI[raw[0]]
        elif not raw[0].isalnum():
            category = unicodedata.category(raw[0])
            if category in ("Mn", "Cf", "Sk", "So", "Me"):
                continue
            word = "-" if set(raw) <= {"-"} and len(raw) == 1 else ("—" if raw[0] in "-–—" else raw)
        else:
            word = plain(raw)
        if word:
            tokens.append(Token(word, found.start(), found.end(), raw))
    return tokens


def plain(word: str) -> str:
    """A word in lower case, without apostrophes and accents, long runs of a letter cut to two: "sooooo" -> "soo"."""
    lowered = re.sub(r"['’`´]", "", word.lower())
    decomposed = unicodedata.normalize("NFKD", lowered.replace("ñ", "\0"))
    bare = "".join(c for c in decomposed if not unicodedata.combining(c)).replace("\0", "ñ")
    return _RUN.sub(r"\1\1", bare) if not bare[:1].isdigit() else bare

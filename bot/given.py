"""What is given on the command line: files and numbers, looked at before anything is done with them."""

from __future__ import annotations

import math
import stat
from argparse import ArgumentTypeError
from collections.abc import Callable
from pathlib import Path

from bot.errors import BadUse

EARLIEST, LATEST = 2000, 2200      # years that a plan's clock can be set to


def readable(path: Path, what: str) -> Path:
    """The path of a file that can be opened. `what` is named as the thing to give: 'a plan file'. Raises BadUse."""
    try:
        if stat.S_ISDIR(path.stat().st_mode):
            raise BadUse(f"{_short(path)}: is a folder; name {what}")
        path.open("rb").close()
    except (FileNotFoundError, NotADirectoryError):
        raise BadUse(f"{_short(path)}: there is no such file; name {what}") from None
    except OSError as error:
        raise BadUse(f"{_short(path)}: cannot be opened ({error.strerror}); name {what} that can be read") from None
    return path


def new_file(path: Path, option: str, *, replace: bool = False, instead: str = "") -> Path:
    """The path of a file that is yet to be written. `instead`: how an existing one is replaced. Raises BadUse."""
    try:
        mode = path.stat().st_mode
    except (FileNotFoundError, NotADirectoryError):
        return path
    except OSError as error:
        raise BadUse(f"{option} {_short(path)}: {error.strerror}; name another file") from None
    if stat.S_ISDIR(mode):
        raise BadUse(f"{option} {_short(path)}: is a folder; name a file in it")
    if not replace:
        raise BadUse(f"{option} {_short(path)}: is there already; name another file{instead}")
    return path


def whole(least: int, most: int) -> Callable[[str], int]:
    """An option's type: a whole number from `least` to `most`."""
    def number(text: str) -> int:
        try:
            found = int(text)
        except ValueError:
            found = least - 1
        if not least <= found <= most:
            raise ArgumentTypeError(f"{text[:20]!r}: give a whole number from {least} to {most}")
        return found

    return number


def real(least: float, most: float) -> Callable[[str], float]:
    """An option's type: a number from `least` to `most`; never 'nan'."""
    def number(text: str) -> float:
        try:
            found = float(text)
        except ValueError:
            found = math.nan
        if not least <= found <= most:       # 'nan' is neither
            raise ArgumentTypeError(f"{text[:20]!r}: give a number from {least:g} to {most:g}")
        return found

    return number


def _short(path: Path) -> str:
    """The path as errors show it: no line of thousands of letters."""
    text = str(path)
    return text if len(text) <= 200 else f"{text[:80]}...{text[-80:]}"

"""The bot's errors: one tree; each message says what, where and what to do."""

from __future__ import annotations


class BotError(Exception):
    """Root of every error this package raises on purpose."""


class WrongSettings(BotError):
    """The settings cannot be used."""


class BadUse(BotError):
    """What was asked for cannot be done as it was written: a file that is not there, a number out of range."""


class TroubleOutside(BotError):
    """The network or the database cannot be used now."""


class AlreadyThere(BotError):
    """A patient with this reference is stored already."""

"""What patients write, read into findings with their context, and a tier of urgency."""

from bot.understanding.reader import read
from bot.understanding.types import Answer, Context, Finding, Mention, Reading, Urgency

__all__ = ["Answer", "Context", "Finding", "Mention", "Reading", "Urgency", "read"]

"""Escalation: findings and events become flags by one table of rules; a flag lives until a person closes it. Pure."""

from bot.escalation.assess import assess, assess_event, assess_tap, pass_on_words
from bot.escalation.match import urgency_of
from bot.escalation.notes import on_note

__all__ = ["assess", "assess_event", "assess_tap", "on_note", "pass_on_words", "urgency_of"]

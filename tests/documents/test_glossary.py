"""DEVELOPERS.md's glossary names every noun that the code builds on; README's commands and settings exist."""

from __future__ import annotations

import re
from pathlib import Path

import bot.case
import bot.chat.types
import bot.ports
import scheduler.messages
import scheduler.occasions
import scheduler.plan
import scheduler.record
from bot.cli import COMMANDS
from bot.settings import Settings

ROOT = Path(__file__).parents[2]
# Types that are parts or states of a noun of the glossary, or terms of the trade.
PARTS = {"PatientState", "PatientRow", "FlagState", "FoundThen", "IncomingKind", "Button", "Outgoing", "SentMessage",
         "PlanVersion", "Work", "SendState", "Priority", "To", "OccasionKind", "EntryKind", "CheckInTime", "Medicine",
         "Patient", "InForce", "PhaseDates", "Amount", "Protocol", "StrEnum", "IntEnum"}


def glossary() -> set[str]:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    section = text.split("## Glossary")[1].split("\n## ")[0]
    return {line.split("|")[1].strip() for line in section.splitlines() if line.startswith("| ")} - {"word"}


def test_every_noun_of_the_core_is_in_the_glossary() -> None:
    modules = (bot.case, bot.chat.types, bot.ports, scheduler.messages, scheduler.occasions, scheduler.plan,
               scheduler.record)
    named = {name for module in modules for name, thing in vars(module).items()
             if isinstance(thing, type) and thing.__module__ == module.__name__ and not name.endswith("Error")
             and not issubclass(thing, Exception)}
    missing = named - PARTS - {word.replace(" ", "") for word in glossary()}
    assert not missing, f"not in the glossary of DEVELOPERS.md: {sorted(missing)}"


def test_readme_names_only_commands_and_settings_that_exist() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    assert set(re.findall(r"^ +coatwell ([a-z]+)", text, re.MULTILINE)) <= COMMANDS.keys()
    settings = {f"COATWELL_{name.upper()}" for name in Settings.model_fields}
    assert set(re.findall(r"COATWELL_[A-Z_]+", text)) <= settings

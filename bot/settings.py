"""Settings from the environment or a .env file; the names are fixed, the token is never shown."""

from __future__ import annotations

import re
from pathlib import Path

from pydantic import Field, SecretStr, ValidationError
from pydantic_settings import BaseSettings, SettingsConfigDict

from bot.chat.pacing import Limits, with_reserve
from bot.errors import BadUse, WrongSettings
from bot.given import readable
from scheduler.errors import WrongInput
from scheduler.protocol import ClinicProtocol, load_protocol

_CHAT = re.compile(r"-?[0-9]{1,18}|@[A-Za-z][A-Za-z0-9_]{3,}")
_ADDRESS = re.compile(r"https?://[^\s/]+\S*")


class Settings(BaseSettings):
    """COATWELL_* values. `telegram_token` prints as stars."""

    model_config = SettingsConfigDict(env_prefix="COATWELL_", env_file=".env", env_file_encoding="utf-8",
                                      extra="ignore")

    database: str = "sqlite:///coatwell.db"
    protocol: Path | None = None
    telegram_token: SecretStr | None = None
    telegram_api: str = "https://api.telegram.org"
    care_chat: str = ""
    on_call_chat: str = ""
    webhook_url: str = ""
    webhook_secret: SecretStr | None = None
    health_host: str = "127.0.0.1"
    health_port: int = Field(default=0, ge=0, le=65535)
    pace_per_second: int = Field(default=30, ge=1, le=10_000)          # messages overall; the network's own guidance
    pace_chat_seconds: float = Field(default=1.0, ge=0, le=60)         # between messages of one chat
    pace_group_per_minute: int = Field(default=20, ge=1, le=100_000)

    def clinic_protocol(self) -> ClinicProtocol:
        """The clinic's protocol, or the example that ships. Raises WrongSettings with every problem in it."""
        if self.protocol is None:
            return load_protocol()
        try:
            return load_protocol(readable(self.protocol, "the clinic's protocol"))
        except BadUse as error:
            raise WrongSettings(f"COATWELL_PROTOCOL: {error}") from None
        except WrongInput as error:
            raise WrongSettings(f"COATWELL_PROTOCOL: {error}; 'coatwell rules --protocol FILE' looks at it") from None

    def limits(self) -> Limits:
        """How fast messages may leave."""
        return with_reserve(Limits(self.pace_per_second, self.pace_chat_seconds,
                                   group_per_minute=self.pace_group_per_minute))


def must_be_chats(settings: Settings) -> None:
    """The addresses that the service needs are addresses. Raises WrongSettings that names the first that is none."""
    for name, chat in (("CARE_CHAT", settings.care_chat), ("ON_CALL_CHAT", settings.on_call_chat)):
        if chat and not _CHAT.fullmatch(chat):
            raise WrongSettings(f"COATWELL_{name} is {chat[:40]!r}: a chat is a number such as -1001234567890, or a "
                                "channel's @name; flags sent elsewhere would reach nobody")
    for name, address in (("TELEGRAM_API", settings.telegram_api), ("WEBHOOK_URL", settings.webhook_url)):
        if address and not _ADDRESS.fullmatch(address):
            raise WrongSettings(f"COATWELL_{name} is no address; write it like https://HOST")


def load_settings() -> Settings:
    """Raises WrongSettings that names the variable, never its value."""
    try:
        return Settings()
    except ValidationError as error:
        named = ", ".join(f"COATWELL_{str(item['loc'][0]).upper()} ({item['msg']})" for item in error.errors())
        raise WrongSettings(f"settings cannot be used: {named}; correct them in the environment or in .env") from None

from __future__ import annotations

from pathlib import Path

import pytest
from commandline import Run

from bot.cli import main


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Run:
    """Run a command in an empty folder with the settings given; gives exit status, standard output and standard error.
    An exception gets out."""
    monkeypatch.chdir(tmp_path)
    for name in ("PROTOCOL", "DATABASE", "TELEGRAM_TOKEN", "CARE_CHAT"):
        monkeypatch.delenv(f"COATWELL_{name}", raising=False)

    def call(*words: str, **settings: str) -> tuple[int, str, str]:
        for name, value in settings.items():
            monkeypatch.setenv(f"COATWELL_{name.upper()}", value)
        try:
            status = main(words)
        except SystemExit as left:
            status = int(left.code or 0)
        shown = capsys.readouterr()
        return status, shown.out, shown.err

    return call

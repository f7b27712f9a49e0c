from __future__ import annotations

from pathlib import Path

import pytest
from commandline import Run

from bot.cli import main


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Run:
    """Run a command in an empty folder without settings; gives exit status, standard output and standard error."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("COATWELL_PROTOCOL", raising=False)

    def call(*words: str) -> tuple[int, str, str]:
        try:
            status = main(words)
        except SystemExit as left:
            status = int(left.code or 0)
        shown = capsys.readouterr()
        return status, shown.out, shown.err

    return call

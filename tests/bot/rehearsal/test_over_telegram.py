"""`coatwell try --telegram`, over a local Bot API, as a process of its own: invite, dose, window, step by step."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys

from botapi import BotApi


def test_a_trial_over_the_bot_api(bot_api_in_thread: BotApi) -> None:
    server = bot_api_in_thread
    maya = server.user(1001, "Maya")
    env = os.environ | {"COATWELL_TELEGRAM_TOKEN": server.token, "COATWELL_TELEGRAM_API": server.api,
                        "COATWELL_CARE_CHAT": "", "PYTHONUNBUFFERED": "1"}
    command = [sys.executable, "-m", "bot.cli", "try", "--telegram", "--speed", "0"]
    pipes = dict.fromkeys(("stdin", "stdout", "stderr"), subprocess.PIPE)
    with subprocess.Popen(command, env=env, text=True, **pipes) as trial:  # type: ignore[call-overload]
        assert trial.stdout is not None and trial.stdin is not None

        def next_thing() -> None:
            """An empty line at the terminal: the clock goes on to whatever is due next."""
            trial.stdin.write("\n")
            trial.stdin.flush()

        try:
            code = ""
            while not code:
                line = trial.stdout.readline()
                assert line, trial.stderr.read() if trial.stderr else ""
                found = re.match(r"invite KT-014 (\S+)", line)
                code = found.group(1) if found else ""
            maya.start(code)
            server.wait(maya, "Do you agree?", 20)
            maya.tap(None, "I agree")
            server.wait(maya, "Your first dose comes on Monday 2 March at 07:45", 20)
            next_thing()
            server.wait(maya, "time for your morning dose", 20)
            maya.tap(None, "Taken now")
            server.wait(maya, "Nothing to eat or drink until", 20)
            next_thing()
            server.wait(maya, "You can eat and drink now", 30)
        finally:
            trial.send_signal(signal.SIGTERM)
            shown, trouble = trial.communicate(timeout=20)
    assert trial.returncode == 0, trouble
    assert server.token not in shown + trouble

"""Seen from outside: pages, figures, log lines; and what none of them shows."""

from __future__ import annotations

import json
import logging
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
from botapi import BotApi
from faulty import CARE, EMERGENCY, TestClock, join, morning, put, serving, until, window_end

import bot.health as health
from bot.health import Health, served
from bot.logs import JsonLines

START = morning(12, 0)


async def test_live_ready_figures_and_metrics(bot_api: BotApi, store_url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    maya = bot_api.user(1001, "Maya")
    clock = TestClock(START)
    async with serving(bot_api, store_url, clock) as service:
        await join(service, maya)
        await put(service, window_end("a", START))
        await bot_api.wait_for(maya, "You can eat")
        await until(lambda: service.vital.poller)
        routes = Health(service.vital, service.store, clock.now).routes()
        async with served(routes, "127.0.0.1", 0) as port, httpx.AsyncClient(
                base_url=f"http://127.0.0.1:{port}", trust_env=False) as client:
            assert (await client.get("/live")).status_code == 200
            assert (await client.get("/ready")).status_code == 200
            figures = (await client.get("/health")).json()
            assert figures["patients"] == 1 and figures["lag_seconds"] < 60 and figures["live"] is True
            page = (await client.get("/metrics")).text
            assert 'coatwell_messages_total{state="sent"}' in page and "coatwell_lag_seconds" in page
            for secret in ("Maya", "KT-014", bot_api.token, "You can eat"):
                assert secret not in page and secret not in json.dumps(figures)
            monkeypatch.setattr(health, "SILENT_TOO_LONG", -1.0)
            assert (await client.get("/live")).status_code == 503


async def test_when_messages_are_late_the_care_team_is_told_once(bot_api: BotApi) -> None:
    from datetime import timedelta

    maya = bot_api.user(1001, "Maya")
    clock = TestClock(START)
    async with serving(bot_api, "memory:", clock) as service:
        await join(service, maya)
        bot_api.fail("429", chat=maya, times=None, retry_after=1)
        await put(service, window_end("a", START - timedelta(minutes=9)))
        for _ in range(3):
            service.waker.nudge()
            await until(lambda: service.vital.lag_seconds >= 0)
        await bot_api.wait_for(CARE, "MESSAGES ARE LATE")
        assert service.agent.protocol.span("care.lag_limit") == timedelta(minutes=5)


def test_a_log_line_shows_no_words_of_an_error_and_no_token() -> None:
    token = "123:secret-part"
    formatter = JsonLines((token, "secret-part"))
    try:
        raise ValueError("Maya says the meat is stuck")
    except ValueError as error:
        record = logging.LogRecord("x", logging.ERROR, __file__, 1, "asked %s", (f"http://h/bot{token}/getMe",),
                                   (ValueError, error, error.__traceback__))
    line = json.loads(formatter.format(record))
    assert line["what"] == "asked http://h/bot<hidden>/getMe" and line["error"].startswith("ValueError")
    assert "meat" not in json.dumps(line)


@pytest.fixture
def environment(bot_api_in_thread: BotApi, tmp_path: Path) -> Iterator[dict[str, str]]:
    bot_api_in_thread.group(CARE)
    yield {**os.environ, "COATWELL_TELEGRAM_TOKEN": bot_api_in_thread.token, "COATWELL_CARE_CHAT": str(CARE),
           "COATWELL_TELEGRAM_API": bot_api_in_thread.api, "NO_PROXY": "127.0.0.1",
           "COATWELL_DATABASE": f"sqlite:///{tmp_path / 'coatwell.db'}"}


SERVE = [sys.executable, "-c", "import sys; from bot.cli import main; sys.exit(main(['serve']))"]


def test_401_while_polling_ends_the_program_loudly(bot_api_in_thread: BotApi, environment: dict[str, str]) -> None:
    process = subprocess.Popen(SERVE, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    wait(lambda: bot_api_in_thread.calls("getUpdates"))
    bot_api_in_thread.fail("401", method="getUpdates", times=None)
    out, err = process.communicate(timeout=30)
    assert process.returncode == 3, (out, err)
    assert "does not accept the bot token" in err
    secret = bot_api_in_thread.token.partition(":")[2]
    assert secret not in err and secret not in out


def test_sigterm_ends_the_program_quietly_and_the_log_holds_no_words(bot_api_in_thread: BotApi,
                                                                     environment: dict[str, str]) -> None:
    process = subprocess.Popen(SERVE, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    wait(lambda: bot_api_in_thread.calls("getUpdates"))
    maya = bot_api_in_thread.user(1001, "Maya Example")
    maya.text(EMERGENCY)
    bot_api_in_thread.wait(maya, lambda post: bool(post.text), 20)
    began = time.monotonic()
    process.terminate()
    out, err = process.communicate(timeout=20)
    assert process.returncode == 0, (out, err)
    assert time.monotonic() - began < 10
    for secret in ("drooling", "Maya", bot_api_in_thread.token.partition(":")[2]):
        assert secret not in err
    assert all(json.loads(line) for line in err.splitlines())


def wait(true: object, timeout: float = 60.0) -> None:
    for _ in range(int(timeout / 0.05)):
        if true():  # type: ignore[operator]
            return
        time.sleep(0.05)
    raise AssertionError("not true in time")

"""`coatwell try` as a newcomer starts it: what it prints, who may use it, how it ends, what it refuses."""

from __future__ import annotations

import asyncio
import contextlib
import signal
import sys
from collections.abc import AsyncIterator
from pathlib import Path

import httpx
import pytest

from bot.storage.opening import open_store
from bot.web import server
from scheduler.protocol import ClinicProtocol

PLANS = Path(__file__).parents[3] / "fixtures" / "plans" / "ok"


@contextlib.asynccontextmanager
async def started(folder: Path, *words: str) -> AsyncIterator[tuple[asyncio.subprocess.Process, str, list[str]]]:
    process = await asyncio.create_subprocess_exec(
        sys.executable, "-m", "bot.cli", "try", "--no-browser", *words, cwd=folder, stdout=asyncio.subprocess.PIPE,
        stderr=asyncio.subprocess.PIPE)
    assert process.stdout is not None
    lines: list[str] = []
    try:
        while not lines or not lines[-1].startswith("page "):
            line = await asyncio.wait_for(process.stdout.readline(), 60)
            assert line, (await process.stderr.read()).decode() if process.stderr else ""
            lines.append(line.decode().rstrip())
        yield process, lines[-1].split()[1], lines
    finally:
        if process.returncode is None:
            process.kill()
        await process.wait()


async def test_it_prints_invites_and_its_address_serves_and_ends_at_once(tmp_path):
    plans = [word for name in ("kt-014", "fl-207") for word in ("--plan", str(PLANS / f"{name}.toml"))]
    async with started(tmp_path, *plans, "--start", "2026-03-02 07:40") as (process, address, lines):
        assert [line.split()[1] for line in lines if line.startswith("invite ")] == ["KT-014", "FL-207"]
        assert address.startswith("http://127.0.0.1:") and len(address.split("token=")[1]) >= 32
        origin = address.split("/?")[0]
        async with httpx.AsyncClient(base_url=origin, follow_redirects=True, trust_env=False) as client:
            assert (await client.get("/")).status_code == 403
            page = await client.get(address)
            assert page.status_code == 200 and "I agree" in page.text
            for part in ("/static/page.css", "/static/page.js", "/static/idiomorph.min.js", "/static/mark.svg"):
                assert (await client.get(part)).status_code == 200
            # without its script every act is a plain form that leads back to the page
            told = await client.post("/act/say?p=FL-207", data={"phone": "patient", "text": "hello there"},
                                     headers={"origin": origin})
            assert told.status_code == 200 and "hello there" in told.text
            assert (await client.post("/act/nothing", headers={"origin": origin})).status_code == 404
            stream = asyncio.create_task(_first_of(client))
            assert "event: part" in await asyncio.wait_for(stream, 20)
        process.send_signal(signal.SIGTERM)
        assert await asyncio.wait_for(process.wait(), 10) == 0


async def _first_of(client: httpx.AsyncClient) -> str:
    async with client.stream("GET", "/events?p=KT-014") as answer:
        async for text in answer.aiter_text():
            if "event: part" in text:
                return text
    return ""


async def test_it_ends_with_a_page_open(tmp_path):
    """An open stream does not hold the program up."""
    async with (started(tmp_path, "--plan", str(PLANS / "kt-014.toml")) as (process, address, _),
                httpx.AsyncClient(follow_redirects=True, trust_env=False) as client):
        await client.get(address)
        async with client.stream("GET", address.split("?")[0] + "events") as answer:
            async for _text in answer.aiter_text():
                break
            process.send_signal(signal.SIGINT)
            assert await asyncio.wait_for(process.wait(), 10) == 0


async def test_a_database_that_serve_has_used_is_refused(tmp_path, protocol: ClinicProtocol):
    url = f"sqlite:///{tmp_path / 'real.db'}"
    store = await open_store(url, protocol)
    await store.mark_served()
    await store.close()
    process = await asyncio.create_subprocess_exec(
        sys.executable, "-m", "bot.cli", "try", "--no-browser", "--database", url, cwd=tmp_path,
        stdout=asyncio.subprocess.PIPE, stderr=asyncio.subprocess.PIPE)
    said, complained = await asyncio.wait_for(process.communicate(), 60)
    assert process.returncode == 2
    assert b"page" not in said and b"may hold real patients" in complained


async def test_a_port_that_is_taken_is_told_in_words(tmp_path):
    async with started(tmp_path, "--plan", str(PLANS / "kt-014.toml")) as (_, address, _lines):
        port = address.split(":")[2].split("/")[0]
        process = await asyncio.create_subprocess_exec(
            sys.executable, "-m", "bot.cli", "try", "--no-browser", "--port", port, cwd=tmp_path,
            stdout=asyncio.subprocess.PIPE, stderr=asyncio.subprocess.PIPE)
        _, complained = await asyncio.wait_for(process.communicate(), 60)
        assert process.returncode == 2 and f"--port {port}" in complained.decode()


@pytest.mark.parametrize("has_window", [True, False])
def test_opening_a_browser_never_fails(monkeypatch, has_window):
    """No window: no text browser takes the terminal over. A browser that fails: the address stands in the terminal."""
    for name in ("DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)
    opened = []

    def fails(address: str) -> bool:
        opened.append(address)
        raise server.webbrowser.Error("none")

    monkeypatch.setattr(server.webbrowser, "open", fails)
    if has_window:
        monkeypatch.setenv("DISPLAY", ":0")
    assert server.open_browser("http://127.0.0.1:1/") is False
    assert len(opened) == has_window or not sys.platform.startswith("linux")

"""A trial as a newcomer starts it, and Debian's chromium looking at it. Without chromium the tests are skipped."""

from __future__ import annotations

import asyncio
import contextlib
import os
import shutil
import sys
from collections.abc import AsyncIterator, Awaitable, Callable
from dataclasses import dataclass, field
from pathlib import Path

import pytest

FLAGS = ("--no-sandbox", "--headless", "--disable-gpu", "--disable-quic", "--no-first-run",
         "--disable-background-networking", "--disable-component-update", "--disable-sync",
         "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1")
PLAN = Path(__file__).parents[2] / "fixtures" / "plans" / "ok" / "kt-014.toml"
START = "2026-03-02 07:40"


def chromium() -> str:
    """The browser's path, or a reason to skip."""
    pytest.importorskip("playwright", reason="playwright is not installed: deploy/run test installs it")
    found = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
    if not found:
        pytest.skip("no chromium on this machine: apt-get install chromium, or name one in CHROMIUM")
    return found


@dataclass
class Visit:
    """One trial, its browser and what the tests do on the page."""

    page: object
    browser: object
    address: str
    record: Path
    requests: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)

    def phone(self, name: str):
        return self.page.locator(f".phone.{name}")

    def log(self, name: str):
        return self.phone(name).locator(".log")

    async def sees(self, name: str, words: str) -> None:
        """Wait until this stands on a phone."""
        await self.log(name).get_by_text(words).last.wait_for(timeout=15_000)

    async def taps(self, name: str, label: str) -> None:
        await self.log(name).get_by_role("button", name=label, exact=True).last.click()

    async def clock(self, label: str) -> None:
        await self.page.locator(".clockbar").get_by_role("button", name=label, exact=True).click()

    async def says(self, name: str, words: str) -> None:
        field_ = self.page.locator("#write-patient" if name == "patient" else "#write-care")
        await field_.fill(words)
        await field_.press("Enter")

    async def jumps(self, to: str) -> None:
        await self.page.locator("#jump-to").fill(to)
        await self.page.locator(".jump").get_by_role("button", name="Jump").click()

    async def begins(self) -> None:
        """The patient agrees; the first dose is asked for."""
        await self.taps("patient", "I agree")
        await self.sees("patient", "Your first dose comes on")
        await self.clock("Next message")
        await self.sees("patient", "it is time for your morning dose")


@contextlib.asynccontextmanager
async def visit(folder: Path, *words: str) -> AsyncIterator[Visit]:
    """Start `coatwell try`, open its address, watch what the page asks for and complains of."""
    path = chromium()
    from playwright.async_api import async_playwright

    record = folder / "trial.toml"
    process = await asyncio.create_subprocess_exec(
        sys.executable, "-m", "bot.cli", "try", "--no-browser", "--record", str(record), *words,
        stdout=asyncio.subprocess.PIPE, cwd=folder)
    try:
        address = await asyncio.wait_for(_address(process), 60)
        async with async_playwright() as playwright:
            browser = await playwright.chromium.launch(executable_path=path, args=list(FLAGS))
            context = await browser.new_context(viewport={"width": 1440, "height": 900})
            page = await context.new_page()
            found = Visit(page, browser, address, record)
            page.on("request", lambda request: found.requests.append(request.url))
            page.on("pageerror", lambda error: found.complaints.append(str(error)))
            page.on("console", lambda said: found.complaints.append(said.text) if said.type == "error" else None)
            await page.goto(address)
            await page.locator("body[data-live=yes]").wait_for(timeout=15_000)
            yield found
            await browser.close()
    finally:
        if process.returncode is None:
            process.terminate()
        await process.wait()


async def _address(process: asyncio.subprocess.Process) -> str:
    assert process.stdout is not None
    while line := (await process.stdout.readline()).decode():
        if line.startswith("page "):
            return line.split()[1]
    raise AssertionError("the trial ended before it printed its address")


@pytest.fixture
async def trial(tmp_path: Path) -> AsyncIterator[Visit]:
    """An adult on the first morning of the course, five minutes before the first dose."""
    async with visit(tmp_path, "--plan", str(PLAN), "--start", START) as found:
        yield found


@pytest.fixture
def visiting(tmp_path: Path) -> Callable[..., contextlib.AbstractAsyncContextManager[Visit]]:
    """A trial with other words on the command line."""
    return lambda *words: visit(tmp_path, *words)


@pytest.fixture
def accessible() -> Callable[..., Awaitable[None]]:
    """Fails with axe-core's own report when the page, as it stands, breaks one of its rules (WCAG 2 A and AA, and best
    practice)."""
    axe = pytest.importorskip("axe_playwright_python.async_playwright", reason="axe-playwright-python is not installed")

    async def check(page) -> None:
        results = await axe.Axe().run(page)
        assert results.violations_count == 0, results.generate_report()

    return check

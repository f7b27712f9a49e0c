"""Serving the page: on this machine only, with a token in the address, until it is stopped."""

from __future__ import annotations

import asyncio
import contextlib
import os
import secrets
import signal
import socket
import sys
import webbrowser
from collections.abc import Iterator

import uvicorn

from bot.errors import WrongSettings
from bot.web.app import make_app
from bot.web.trial import Trial

HOST = "127.0.0.1"


class _Server(uvicorn.Server):
    @contextlib.contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Signals are ours: open streams must end before the server can."""
        yield


async def serve(trial: Trial, port: int, *, show: bool = True) -> None:
    """Serve until interrupted. Prints the address, and opens it where there is a browser to open it in."""
    with _socket(port) as listening:
        port = listening.getsockname()[1]
        token = secrets.token_urlsafe(24)
        config = uvicorn.Config(make_app(trial, token, port), lifespan="off", log_level="warning", access_log=False,
                                timeout_graceful_shutdown=2, server_header=False)
        server = _Server(config)
        address = f"http://{HOST}:{port}/?token={token}"
        loop = asyncio.get_running_loop()

        def stop() -> None:
            trial.close()
            server.should_exit = True

        for number in (signal.SIGINT, signal.SIGTERM):
            with contextlib.suppress(NotImplementedError):
                loop.add_signal_handler(number, stop)
        background = [asyncio.create_task(trial.beat()), asyncio.create_task(trial.prepare())]
        print(f"page {address}", flush=True)
        print("Stop it with Ctrl-C. Nothing leaves this machine"
              + (f"; the trial is saved in {trial.record}." if trial.record else "."), flush=True)
        if show:
            asyncio.get_running_loop().run_in_executor(None, open_browser, address)
        try:
            await server.serve(sockets=[listening])
        finally:
            trial.close()
            for task in background:
                task.cancel()
            await asyncio.gather(*background, return_exceptions=True)
            trial.save()


def _socket(port: int) -> socket.socket:
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind((HOST, port))
        listening.listen(64)            # before the address is printed: whoever opens it at once only waits
    except OSError as error:
        listening.close()
        raise WrongSettings(f"--port {port}: {error.strerror}; leave it out, and a free one is taken") from error
    return listening


def open_browser(address: str) -> bool:
    """Open the address in a browser with a window, if there is one; never fails. Text browsers are left alone."""
    if sys.platform.startswith("linux") and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        return False
    try:
        return webbrowser.open(address)
    except (webbrowser.Error, OSError):
        return False

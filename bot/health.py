"""Seen from outside: is the process alive, can it work, how late are its messages. Plain HTTP for a monitor.

/live   200 while time is kept; a process that hangs should be started anew
/ready  200 when the database answers and updates arrive
/health the figures as JSON
/metrics the same for Prometheus
"""

from __future__ import annotations

import time
from collections.abc import AsyncIterator, Callable, Sequence
from contextlib import asynccontextmanager, contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING, Any

from bot.errors import TroubleOutside

if TYPE_CHECKING:
    from collections.abc import Iterator

    from starlette.requests import Request
    from starlette.responses import Response
    from starlette.routing import BaseRoute

    from bot.chat.polling import Poller
    from bot.dispatch import Tally
    from bot.ports import Store

SILENT_TOO_LONG = 90.0      # seconds without a beat: time is kept at least every 20
POLL_TOO_OLD = 180.0        # seconds since the network last answered; a question waits at most 50


@dataclass
class Vital:
    """Signs of life of this process, kept up to date by what it does. Times on the monotonic clock."""

    tally: Tally
    last_beat: float = field(default_factory=time.monotonic)
    lag_seconds: float = 0.0
    handled: int = 0
    database_troubles: int = 0
    poller: Poller | None = None     # while this process is the one that polls

    def beat(self) -> None:
        self.last_beat = time.monotonic()

    def trouble(self) -> None:
        self.database_troubles += 1
        self.beat()                  # a process that waits for its database is alive

    @property
    def is_live(self) -> bool:
        return time.monotonic() - self.last_beat < SILENT_TOO_LONG

    def poll_age(self, now: datetime) -> float | None:
        """Seconds since the network last answered our question for updates; None when another process asks."""
        if self.poller is None or self.poller.answered_at is None:
            return None
        return (now - self.poller.answered_at).total_seconds()


@dataclass(frozen=True)
class Health:
    """What the pages answer."""

    vital: Vital
    store: Store
    now: Callable[[], datetime]

    async def figures(self) -> dict[str, Any]:
        """All figures. Raises TroubleOutside when the database does not answer."""
        now = self.now()
        counts = await self.store.counts(now)
        return {**counts, "poll_age_seconds": self.vital.poll_age(now), "handled": self.vital.handled,
                "database_troubles": self.vital.database_troubles, "outcomes": dict(self.vital.tally.outcomes),
                "seconds_late": dict(self.vital.tally.seconds_late)}

    def routes(self) -> Sequence[BaseRoute]:
        from starlette.responses import JSONResponse, PlainTextResponse
        from starlette.routing import Route

        async def live(request: Request) -> Response:  # noqa: ARG001
            alive = self.vital.is_live
            return PlainTextResponse("live" if alive else "time is not kept", 200 if alive else 503)

        async def ready(request: Request) -> Response:  # noqa: ARG001
            try:
                await self.figures()
            except TroubleOutside:
                return PlainTextResponse("the database does not answer", 503)
            age = self.vital.poll_age(self.now())
            if age is not None and age > POLL_TOO_OLD:
                return PlainTextResponse("the chat network does not answer", 503)
            return PlainTextResponse("ready")

        async def health(request: Request) -> Response:  # noqa: ARG001
            try:
                return JSONResponse({"live": self.vital.is_live, **await self.figures()})
            except TroubleOutside as error:
                return JSONResponse({"live": self.vital.is_live, "trouble": str(error)}, 503)

        async def metrics(request: Request) -> Response:  # noqa: ARG001
            try:
                figures = await self.figures()
            except TroubleOutside:
                figures = {"lag_seconds": self.vital.lag_seconds}
            return PlainTextResponse(prometheus(figures, self.vital), media_type="text/plain; version=0.0.4")

        return [Route("/live", live), Route("/ready", ready), Route("/health", health), Route("/metrics", metrics)]


_GAUGES = {
    "lag_seconds": "Seconds since the oldest message that is due should have left",
    "due": "Messages that are due and have not left",
    "waiting": "Messages that wait, due or not",
    "claimed": "Messages being sent",
    "unhandled": "Updates stored and not handled",
    "patients": "Patients stored",
    "quarantined": "Patients whose plan cannot be used",
    "open_flags": "Flags that are open",
    "poll_age_seconds": "Seconds since the chat network last answered; only where this process asks",
}


def prometheus(figures: dict[str, Any], vital: Vital) -> str:
    """The figures in the text format that Prometheus reads."""
    from prometheus_client import CollectorRegistry, Counter, Gauge, generate_latest

    registry = CollectorRegistry()
    for name, words in _GAUGES.items():
        if figures.get(name) is not None:
            Gauge(f"coatwell_{name}", words, registry=registry).set(figures[name])
    outcomes = Counter("coatwell_messages", "Messages handled by this process, by what became of them", ["state"],
                       registry=registry)
    for state, count in vital.tally.outcomes.items():
        outcomes.labels(state).inc(count)
    late = Gauge("coatwell_seconds_late", "How late the last message of a priority left", ["priority"],
                 registry=registry)
    for priority, seconds in vital.tally.seconds_late.items():
        late.labels(priority).set(seconds)
    Counter("coatwell_updates_handled", "Updates handled by this process", registry=registry).inc(vital.handled)
    Counter("coatwell_database_troubles", "Times the database could not be used", registry=registry).inc(
        vital.database_troubles)
    Gauge("coatwell_live", "Whether time is kept", registry=registry).set(vital.is_live)
    return generate_latest(registry).decode()


@asynccontextmanager
async def served(routes: Sequence[BaseRoute], host: str, port: int) -> AsyncIterator[int]:
    """An HTTP server in this event loop for as long as the block runs; gives its port. Raises TroubleOutside when the
    port is taken. Signals stay ours."""
    import asyncio

    import uvicorn
    from starlette.applications import Starlette

    class Server(uvicorn.Server):
        @contextmanager
        def capture_signals(self) -> Iterator[None]:
            yield

    import socket

    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((host, port))
    except OSError as error:
        listening.close()
        raise TroubleOutside(f"port {port} on {host}: {error.strerror}; choose another COATWELL_HEALTH_PORT") from error
    config = uvicorn.Config(Starlette(routes=list(routes)), log_config=None, access_log=False, lifespan="off",
                            ws="none", timeout_graceful_shutdown=2)
    server = Server(config)
    running = asyncio.create_task(server.serve([listening]))
    try:
        yield listening.getsockname()[1]
    finally:
        server.should_exit = True
        await running

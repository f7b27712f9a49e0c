"""A local Bot API for tests: the documented methods over real HTTP, with limits, chat logs, people and faults.

    server = BotApi(); await server.start()
    maya = server.user(1001, "Maya"); maya.start("CODE"); await server.wait_for(maya, "Welcome"); maya.tap(None, "Yes")
    server.fail("429", retry_after=2, chat=maya.id); server.fail("hang", delivered=True); await server.down()

`async with BotApi() as server` runs it in the test's own loop, `with BotApi.in_thread() as server` beside a program
that blocks. Give the program `server.api` and `server.token`.
"""

from __future__ import annotations

import asyncio
import re
import socket
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from typing import Any, Self

import httpx
from botapi_faults import Fault, Faults, Pace
from botapi_http import chat_of, disconnected, read_params, refusal, refused
from botapi_methods import METHODS, remember_allowed, take_updates
from botapi_people import Group, User
from botapi_world import ApiError, Json, Post, Room, World
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from uvicorn import Config
from uvicorn.protocols.http.h11_impl import H11Protocol
from uvicorn.server import ServerState

TOKEN = "7000000001:AAE-example-token-of-the-stand-in_0001"
_PATH = re.compile(r"/(file/)?bot([^/]+)/(.+)")
_SENDS = frozenset({"sendmessage", "sendphoto", "senddocument"})


class _Quiet(H11Protocol):
    """Without the access log: it would put the token of every call into a test's log."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.access_log = False


class BotApi:
    """The server. `world` holds all state; the methods here are what tests use."""

    def __init__(self, token: str = TOKEN, world: World | None = None) -> None:
        self.token = token
        self.world = world or World()
        self.faults = Faults()
        self.port = 0
        self.pace: Pace | None = None
        self._state = ServerState()
        self._server: asyncio.Server | None = None
        self._held: socket.socket | None = None
        self._poll: asyncio.Event | None = None  # the question that waits; set to answer it
        self._polls = 0
        self._stopping = asyncio.Event()
        self._webhook: asyncio.Task[None] | None = None
        self._loop: asyncio.AbstractEventLoop | None = None
        self.world.changed = self._changed

    # --- life

    @property
    def api(self) -> str:
        """Base address for COATWELL_TELEGRAM_API."""
        return f"http://127.0.0.1:{self.port}"

    async def start(self) -> Self:
        self._loop = asyncio.get_running_loop()
        await self.up()
        self._webhook = asyncio.create_task(self._post_webhooks())
        return self

    async def stop(self) -> None:
        self._stopping.set()
        if self._webhook is not None:
            self._webhook.cancel()
            with suppress(asyncio.CancelledError):
                await self._webhook
        await self.down()
        if self._held is not None:
            self._held.close()
        while self._state.tasks:
            await asyncio.wait(set(self._state.tasks))

    async def __aenter__(self) -> Self:
        return await self.start()

    async def __aexit__(self, *_: object) -> None:
        await self.stop()

    async def up(self) -> None:
        """Accept connections, at the same port as before."""
        sock = self._held or self._bound()
        self._held = None
        # Nagle's algorithm is switched off only for sockets that name their protocol: else each answer takes 40 ms.
        config = Config(
            self._answer,
            interface="asgi3",
            proxy_headers=False,
            log_config=None,
            access_log=False,
            lifespan="off",
            ws="none",
        )
        config.load()
        loop = asyncio.get_running_loop()
        self._server = await loop.create_server(
            lambda: _Quiet(config=config, server_state=self._state, app_state={}), sock=sock, backlog=2048
        )

    async def down(self) -> None:
        """Refuse connections and drop those there are; the port stays ours."""
        if self._server is None:
            return
        self._server.close()
        for connection in list(self._state.connections):
            connection.transport.abort()  # type: ignore[union-attr]
        await asyncio.sleep(0)
        self._server = None
        self._held = self._bound()

    def _bound(self) -> socket.socket:
        sock = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
        sock.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        sock.bind(("127.0.0.1", self.port))
        sock.setblocking(False)
        self.port = sock.getsockname()[1]
        return sock

    @classmethod
    @contextmanager
    def in_thread(cls, token: str = TOKEN, world: World | None = None) -> Iterator[Self]:
        """Run in a loop of its own in a thread, for tests that block or start other processes."""
        server, ready, done = cls(token, world), threading.Event(), threading.Event()
        failure: list[BaseException] = []

        async def life() -> None:
            try:
                async with server:
                    ready.set()
                    while not done.is_set():
                        await asyncio.sleep(0.005)
            except BaseException as error:
                failure.append(error)
                ready.set()
                raise

        thread = threading.Thread(target=lambda: asyncio.run(life()), name="bot-api", daemon=True)
        thread.start()
        ready.wait(10)
        if failure:
            raise failure[0]
        try:
            yield server
        finally:
            done.set()
            thread.join(10)

    # --- what tests do

    def user(self, number: int, name: str = "") -> User:
        """A person with a private chat with the bot; the same number is the same person."""
        if number not in self.world.people:
            name = name or f"Person {number}"
            self.world.people[number] = {"id": number, "is_bot": False, "first_name": name, "language_code": "en"}
            self.world.rooms[number] = Room(number, "private")
        return User(self.world, number)

    def group(self, number: int, title: str = "Care team") -> Group:
        """A group chat (a negative number) with the bot in it; anybody may write there."""
        assert number < 0, "groups have negative numbers"
        self.world.rooms.setdefault(number, Room(number, "group", title))
        return Group(self.world, number)

    def room(self, chat: User | Group | int) -> Room:
        return self.world.rooms[chat if isinstance(chat, int) else chat.id]

    def texts(self, chat: User | Group | int) -> list[str]:
        """What the bot's messages in this chat show now."""
        return self.room(chat).texts()

    def fail(
        self,
        kind: str,
        *,
        chat: User | Group | int | None = None,
        method: str | None = None,
        times: int | None = 1,
        retry_after: int = 1,
        delivered: bool = False,
        description: str = "",
    ) -> None:
        """Make the next calls go wrong, see botapi_faults.KINDS. times None: until `faults.clear()`.

        delivered: the call does its work first. description: the words of a refusal, instead of the usual ones.
        """
        number = chat if chat is None or isinstance(chat, int) else chat.id
        name = method.lower() if method else None
        self.faults.add(Fault(kind, number, name, times, retry_after, delivered, description))
        if name == "getupdates":
            self._answer_poll()  # a question that waits is answered, so that the next one meets the fault

    def push(self, kind: str, content: Json) -> Json:
        """An update of any kind, as the network might invent one tomorrow."""
        return self.world.push(kind, content, asked_for=False)

    def replay(self, update: Json) -> None:
        """Deliver an update once more, whatever was confirmed."""
        self.world.stray.append(update)
        self._changed()

    def calls(self, method: str) -> list[Json]:
        """The parameters of every call of this method, in order."""
        return [params for name, params in self.world.calls if name == method.lower()]

    async def wait_for(
        self,
        chat: User | Group | int,
        what: str | Callable[[Post], bool],
        timeout: float = 5.0,
        *,
        after: int = 0,
    ) -> Post:
        """The newest message of the bot that holds these words (or fits), numbered above `after`; waits for it."""
        for _ in range(max(1, int(timeout / 0.005))):
            post = self._find(chat, what, after)
            if post is not None:
                return post
            await asyncio.sleep(0.005)
        raise AssertionError(self._missing(chat, what, timeout))

    def wait(self, chat: User | Group | int, what: str | Callable[[Post], bool], timeout: float = 5.0) -> Post:
        """`wait_for` for tests that block; only with `in_thread`."""
        pause = threading.Event()
        for _ in range(max(1, int(timeout / 0.005))):
            post = self._find(chat, what, 0)
            if post is not None:
                return post
            pause.wait(0.005)
        raise AssertionError(self._missing(chat, what, timeout))

    def _find(self, chat: User | Group | int, what: str | Callable[[Post], bool], after: int) -> Post | None:
        for post in reversed(self.room(chat).by_bot):
            if post.id > after and (what in post.text if isinstance(what, str) else what(post)):
                return post
        return None

    def _missing(self, chat: User | Group | int, what: object, timeout: float) -> str:
        room = self.room(chat)
        return f"after {timeout} s chat {room.id} does not show {what!r}:\n{room.as_shown()}"

    # --- HTTP

    async def _answer(self, scope: Any, receive: Any, send: Any) -> None:
        found = _PATH.fullmatch(scope["path"])
        if found is None:
            return await JSONResponse(refusal(404, "Not Found"), 404)(scope, receive, send)
        is_file, token, rest = found.groups()
        if token != self.token:
            return await JSONResponse(refusal(401, "Unauthorized"), 401)(scope, receive, send)
        if is_file:
            return await self._file(rest)(scope, receive, send)
        response = await self._call(rest.lower(), Request(scope, receive))
        if response is None:  # drop the connection without a word
            receive.__self__.transport.abort()
            await asyncio.sleep(0)
            receive.__self__.disconnected = True
            return None
        return await response(scope, receive, send)

    def _file(self, path: str) -> Response:
        content = self.world.files.get(path.removeprefix("files/"))
        if content is None:
            return JSONResponse(refusal(404, "Not Found"), 404)
        return Response(content, media_type="application/octet-stream")

    async def _call(self, method: str, request: Request) -> Response | None:
        params = await read_params(request)
        self.world.calls.append((method, params))
        fault = self.faults.take(method, chat_of(params))
        if fault is None:
            return await self._work(method, params, request)
        if fault.delivered:
            await self._work(method, params, request)
        if fault.kind == "drop":
            return None
        if fault.kind == "hang":
            await self._hang(request)
            return None
        page = fault.page()
        if page is not None:
            kind = "text/html" if fault.kind.endswith("html") else "application/json"
            return Response(page[1], page[0], media_type=kind)
        error = fault.api_error()
        assert error is not None, fault.kind
        return refused(error)

    async def _work(self, method: str, params: Json, request: Request) -> Response | None:
        try:
            if method == "getupdates":
                return await self._get_updates(params, request)
            function = METHODS.get(method)
            if function is None:
                raise ApiError(404, "Not Found: method not found")
            if self.pace is not None and method in _SENDS:
                self.pace.count(chat_of(params) or 0, asyncio.get_running_loop().time())
            return JSONResponse({"ok": True, "result": function(self.world, params)})
        except ApiError as error:
            return refused(error)

    async def _get_updates(self, params: Json, request: Request) -> Response | None:
        if self.world.webhook is not None:
            raise ApiError(409, "Conflict: can't use getUpdates method while webhook is active")
        remember_allowed(self.world, params)
        self._polls += 1
        mine = self._polls
        self._answer_poll()
        loop = asyncio.get_running_loop()
        until = loop.time() + min(float(params.get("timeout") or 0), 50.0)
        gone = asyncio.ensure_future(disconnected(request))
        try:
            while True:
                found = take_updates(self.world, params)
                left = until - loop.time()
                if found or left <= 0:
                    return JSONResponse({"ok": True, "result": found})
                self._poll = asyncio.Event()
                woken = asyncio.ensure_future(self._poll.wait())
                await asyncio.wait({woken, gone}, timeout=left, return_when=asyncio.FIRST_COMPLETED)
                woken.cancel()
                if gone.done() or self._stopping.is_set():
                    return None
                if mine != self._polls:
                    raise ApiError(409, "Conflict: terminated by other getUpdates request")
                if self.faults.waits_for("getupdates"):
                    return JSONResponse({"ok": True, "result": []})
        finally:
            gone.cancel()

    async def _hang(self, request: Request) -> None:
        """Until the client gives up or the server stops."""
        gone = asyncio.ensure_future(disconnected(request))
        stopped = asyncio.ensure_future(self._stopping.wait())
        await asyncio.wait({gone, stopped}, return_when=asyncio.FIRST_COMPLETED)
        gone.cancel()
        stopped.cancel()

    def _answer_poll(self) -> None:
        if self._poll is not None:
            self._poll.set()

    def _changed(self) -> None:
        if self._loop is not None and not self._loop.is_closed():
            self._loop.call_soon_threadsafe(self._answer_poll)

    async def _post_webhooks(self) -> None:
        """Post updates to the webhook, one after the other, again until 2xx, as documented."""
        async with httpx.AsyncClient(trust_env=False, timeout=5) as client:
            while True:
                await asyncio.sleep(0.005)
                hook, waiting = self.world.webhook, [*self.world.updates, *self.world.stray]
                if hook is None or not waiting:
                    continue
                headers = {"X-Telegram-Bot-Api-Secret-Token": hook["secret"]} if hook["secret"] else {}
                taken = False
                with suppress(httpx.HTTPError):
                    taken = (await client.post(hook["url"], json=waiting[0], headers=headers)).is_success
                for pile in (self.world.updates, self.world.stray):
                    if taken and pile and pile[0] is waiting[0]:
                        del pile[0]
                if not taken:
                    await asyncio.sleep(0.05)


async def until(condition: Callable[[], object], timeout: float = 5.0) -> None:
    """Wait for a condition; AssertionError when it does not come true in time."""
    for _ in range(max(1, int(timeout / 0.002))):
        if condition():
            return
        await asyncio.sleep(0.002)
    raise AssertionError(f"still not so after {timeout} s")


__all__: Sequence[str] = ("TOKEN", "BotApi", "Group", "Pace", "Post", "User", "World", "until")

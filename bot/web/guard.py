"""Who may use the page: this machine, this browser, this page. Everything else is refused before a route sees it."""

from __future__ import annotations

import secrets
from http.cookies import CookieError, SimpleCookie
from urllib.parse import parse_qs

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

POLICY = ("default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; "
          "form-action 'self'; base-uri 'none'; frame-ancestors 'none'")
ALWAYS = {"Content-Security-Policy": POLICY, "Referrer-Policy": "same-origin", "X-Content-Type-Options": "nosniff",
          "X-Frame-Options": "DENY", "Cross-Origin-Opener-Policy": "same-origin",
          "Cross-Origin-Resource-Policy": "same-origin", "Cache-Control": "no-store"}
_NO_TOKEN = ("This page belongs to a trial that somebody else started, or to an earlier one.\n"
             "Open the whole address that 'coatwell try' printed, with what follows '?token='.\n")


class Guard:
    """ASGI middleware. `token` stands in the opened address once, then in a cookie of this port."""

    def __init__(self, app: ASGIApp, token: str, port: int) -> None:
        self.app = app
        self.token = token
        self.cookie = f"coatwell-{port}"
        self.hosts = {f"127.0.0.1:{port}", f"localhost:{port}"}
        self.origins = {f"http://{host}" for host in self.hosts}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return
        refused = self._judge(scope)

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                MutableHeaders(scope=message).update(ALWAYS)
            await send(message)

        await (refused or self.app)(scope, receive, with_headers)

    def _judge(self, scope: Scope) -> Response | None:
        """A refusal, the redirect that turns the token into a cookie, or None: let it through."""
        headers = Headers(scope=scope)
        if headers.get("host", "") not in self.hosts:
            return PlainTextResponse("This page answers to 127.0.0.1 only.\n", 421)
        origin = headers.get("origin")
        if origin is not None and origin not in self.origins:
            return PlainTextResponse("Another page may not use this one.\n", 403)
        opened = scope["method"] == "GET" and scope["path"] == "/"      # a link somewhere may lead here, no more
        if headers.get("sec-fetch-site", "none") not in ("none", "same-origin") and not opened:
            return PlainTextResponse("Another page may not use this one.\n", 403)
        if scope["method"] not in ("GET", "HEAD") and origin is None:
            return PlainTextResponse("Only the page itself may change the trial.\n", 403)
        if opened:
            asked = parse_qs(scope["query_string"].decode("latin-1"))
            if self._is_token(asked.get("token", [""])[0]):
                return self._let_in(asked.get("p", [""])[0])
        if not self._is_token(self._carried(headers)):
            return PlainTextResponse(_NO_TOKEN, 403)
        return None

    def _let_in(self, reference: str) -> Response:
        kept = "".join(c for c in reference if c.isalnum() or c == "-")
        response = RedirectResponse(f"/?p={kept}" if kept else "/", 303)
        response.set_cookie(self.cookie, self.token, httponly=True, samesite="lax", path="/")
        return response

    def _carried(self, headers: Headers) -> str:
        try:
            cookies: SimpleCookie = SimpleCookie(headers.get("cookie", ""))
        except CookieError:
            return ""
        return cookies[self.cookie].value if self.cookie in cookies else ""

    def _is_token(self, given: str) -> bool:
        return secrets.compare_digest(given.encode(), self.token.encode())

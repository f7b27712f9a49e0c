"""The page's routes: what is shown, what is done, what is pushed. Every act goes to a stage, so to the real agent."""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator, Awaitable, Callable, Mapping
from datetime import datetime, timedelta
from importlib import resources
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape
from markupsafe import Markup
from starlette.applications import Starlette
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, RedirectResponse, Response, StreamingResponse
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from bot.chat.limits import TEXT_CHARACTERS
from bot.chat.types import ChatRefused
from bot.rehearsal.world import NoSuchButton
from bot.web import editor, views
from bot.web.guard import Guard
from bot.web.stage import CARE_TEAM, Stage, places
from bot.web.trial import Trial
from scheduler.localtime import instant
from scheduler.plan import Plan

PARTS = ("switcher", "clock", "patient", "care", "window", "plan", "outbox", "flags", "reading")
MOST_SHOWN = 1000       # entries of a chat; each push draws them all
LARGEST_PICTURE = 5_000_000
PICTURES = {b"\x89PNG\r\n\x1a\n": "image/png", b"\xff\xd8\xff": "image/jpeg", b"GIF8": "image/gif"}
_QUIET = 15.0           # seconds without a change after which a comment keeps the stream open


def make_app(trial: Trial, token: str, port: int) -> Starlette:
    """The whole application; `port` is the one it is served on (the guard wants the exact host)."""
    page = Page(trial)
    static = str(resources.files("bot.web").joinpath("static"))
    routes = [
        Route("/", page.show), Route("/events", page.events), Route("/content", page.content),
        Route("/scenario.toml", page.scenario), Route("/act/{what}", page.act, methods=["POST"]),
        Route("/plan/preview", page.plan_preview, methods=["POST"]), Mount("/static", StaticFiles(directory=static)),
    ]
    return Starlette(routes=routes, middleware=[Middleware(Guard, token=token, port=port)])


class Page:
    """The handlers of one trial."""

    def __init__(self, trial: Trial) -> None:
        self.trial = trial
        self.templates = Environment(loader=PackageLoader("bot.web"), autoescape=select_autoescape(),
                                     undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
        self.acts: Mapping[str, Callable[[Request, Stage, str], Awaitable[None]]] = {
            "say": self._say, "tap": self._tap, "situation": self._situation, "picture": self._picture,
            "clock": self._clock, "care": self._care, "plan": self._plan}

    # --- showing

    async def show(self, request: Request) -> Response:
        """The page of one patient."""
        reference = self._reference(request)
        stage = self.trial.stage_of(reference)
        parts = await self.parts(reference, self._many(request))
        self.trial.shown.set()
        case_plan = await self._plan_in_force(stage, reference)
        return HTMLResponse(self.templates.get_template("page.html").render(
            reference=reference, many=self._many(request), parts=parts, name=case_plan.patient.call_me,
            writes_as=_writer(case_plan),
            situations=views.situations(), groups=editor.groups_of(case_plan),
            protocol=self.trial.protocol, recording=self.trial.record is not None))

    async def parts(self, reference: str, many: int) -> dict[str, Markup]:
        """The parts of the page that are pushed when they change, as HTML."""
        stage = self.trial.stage_of(reference)
        facts: dict[str, Any] = {
            "reference": reference, "preparing": stage.preparing, "clock": views.clock(stage, reference),
            "patients": views.switcher(self.trial.stages, reference), **views.phones(stage, reference, many),
            "behind": await views.background(stage, reference)}
        return {name: Markup(self.templates.get_template(f"parts/{name}.html").render(facts)) for name in PARTS}

    async def events(self, request: Request) -> Response:
        """The stream of changed parts."""
        reference, many = self._reference(request), self._many(request)
        return StreamingResponse(self._stream(reference, many), media_type="text/event-stream")

    async def _stream(self, reference: str, many: int) -> AsyncIterator[str]:
        wake, stage = asyncio.Event(), self.trial.stage_of(reference)
        self.trial.watchers[wake] = stage
        sent: dict[str, str] = {}
        try:
            yield "retry: 1500\n\n"
            while not self.trial.closing:
                wake.clear()
                for name, html in (await self.parts(reference, many)).items():
                    if sent.get(name) != html:
                        sent[name] = html
                        yield f"event: part\ndata: {json.dumps({'name': name, 'html': html})}\n\n"
                yield "event: still\ndata: {}\n\n"
                try:
                    await asyncio.wait_for(wake.wait(), _QUIET)
                except TimeoutError:
                    yield ": nothing new\n\n"
                # what changes together is sent together; while a record is made, much does
                await asyncio.sleep(0.5 if stage.preparing else 0.05)
        finally:
            self.trial.watchers.pop(wake, None)

    async def content(self, request: Request) -> Response:
        """A picture or a document of a chat."""
        address = request.query_params.get("chat", "")
        number = request.query_params.get("entry", "")
        for stage in self.trial.stages:
            items = stage.items(address)
            if number.isdigit() and int(number) < len(items):
                return _content(items[int(number)])
        raise HTTPException(404)

    async def scenario(self, request: Request) -> Response:
        """This trial as a scenario file."""
        reference = self._reference(request)
        recording = self.trial.stage_of(reference).recordings.get(reference)
        if recording is None:
            raise HTTPException(409, "This patient's record is still being made.")
        return Response(recording.toml(), media_type="application/toml", headers={
            "Content-Disposition": f'attachment; filename="trial-{reference}.toml"'})

    async def plan_preview(self, request: Request) -> Response:
        """The changed plan, read: problems beside the fields, or what it would mean."""
        reference = self._reference(request)
        stage = self.trial.stage_of(reference)
        async with request.form(max_fields=100) as form:
            typed = {key: str(value) for key, value in form.items()}
        async with stage.world.store.work() as work:
            case = await work.case(reference)
        if case is None:
            raise HTTPException(409, "The patient is not there yet.")
        shown = editor.preview(case, typed, stage.now, self.trial.protocol)
        return HTMLResponse(self.templates.get_template("parts/editor.html").render(
            groups=shown.groups, preview=shown, reference=reference))

    # --- acting

    async def act(self, request: Request) -> Response:
        """One act; the answer is empty for the page's script and a redirect for a plain form."""
        handler = self.acts.get(request.path_params["what"])
        if handler is None:
            raise HTTPException(404)
        reference = self._reference(request)
        stage = self.trial.stage_of(reference)
        if stage.preparing:
            raise HTTPException(409, "This patient's record is still being made.")
        stage.trouble = ""
        try:
            await handler(request, stage, reference)
        except (NoSuchButton, ChatRefused):
            stage.trouble = "That button has gone: the conversation went on."
        stage.changed()
        self.trial.save()
        if request.headers.get("x-page") == "script":
            return Response(status_code=204)
        return RedirectResponse(f"/?p={reference}", 303)

    async def _say(self, request: Request, stage: Stage, reference: str) -> None:
        form = await _form(request)
        text = form.get("text", "").strip()[:TEXT_CHARACTERS]
        if text and form.get("phone") == "care":
            await stage.says(stage.care_who, stage.care_chat, text)
        elif text:
            await stage.says(reference, stage.world.address(reference), text)

    async def _tap(self, request: Request, stage: Stage, reference: str) -> None:
        form = await _form(request)
        message, _, data = form.get("tap", "").partition(" ")
        if form.get("phone") == "care":
            await stage.taps(stage.care_who, stage.care_chat, message, data)
        else:
            await stage.taps(reference, stage.world.address(reference), message, data)

    async def _situation(self, request: Request, stage: Stage, reference: str) -> None:
        number = (await _form(request)).get("number", "")
        if not number.isdigit() or int(number) >= len(views.situations()):
            raise HTTPException(400)
        words = views.situation_words(int(number), stage.now, stage.zone(reference))
        await stage.says(reference, stage.world.address(reference), words)

    async def _picture(self, request: Request, stage: Stage, reference: str) -> None:
        async with request.form(max_files=1) as form:
            sent = form.get("picture")
            if not isinstance(sent, UploadFile):
                raise HTTPException(400, "Choose a picture.")
            content = await sent.read(LARGEST_PICTURE + 1)
        if _picture_type(content) is None or len(content) > LARGEST_PICTURE:
            stage.trouble = "A picture is a PNG, JPEG or GIF file of at most 5 MB."
            return
        await stage.sends_picture(reference, content, "")

    async def _clock(self, request: Request, stage: Stage, reference: str) -> None:
        form = await _form(request)
        do = form.get("do", "")
        if do == "next":
            if not await stage.to_next():
                stage.trouble = "Nothing more happens unless somebody does something."
        elif do == "day":
            await stage.to_next_day(reference)
        elif do == "run":
            stage.running = True
        elif do == "pause":
            stage.halt()
        elif do == "speed" and form.get("speed", "") in {str(speed) for speed, _ in views.SPEEDS}:
            stage.speed = int(form["speed"])
        elif do == "usual":
            stage.set_usual(form.get("usual") == "yes")
        elif do == "jump":
            await self._jump(stage, reference, form.get("to", ""))

    async def _jump(self, stage: Stage, reference: str, text: str) -> None:
        try:
            told = datetime.fromisoformat(text)
        except ValueError:
            stage.trouble = "Give a date and a time to jump to."
            return
        until = instant(told.date(), told.time(), stage.zone(reference))
        if until <= stage.now:
            stage.trouble = "The clock goes forward only: choose a later date."
        elif until > stage.now + timedelta(days=366):
            stage.trouble = "That is more than a year ahead: jump in shorter leaps."
        else:
            await stage.to_instant(until)

    async def _care(self, request: Request, stage: Stage, reference: str) -> None:  # noqa: ARG002
        """Who writes on the care team's phone, and in which chat."""
        form = await _form(request)
        if form.get("who") in dict(CARE_TEAM):
            stage.care_who = form["who"]
        if form.get("chat") in dict(places(stage)):
            stage.care_chat = form["chat"]

    async def _plan(self, request: Request, stage: Stage, reference: str) -> None:
        """The edited plan goes to the care team's chat as a file; it is signed (or not) there."""
        typed = await _form(request)
        plan = await self._plan_in_force(stage, reference)
        await stage.sends_plan(editor.changed_text(plan, typed))

    # --- helpers

    async def _plan_in_force(self, stage: Stage, reference: str) -> Plan:
        async with stage.world.store.work() as work:
            case = await work.case(reference)
        return case.plan if case else stage.plan(reference)

    def _reference(self, request: Request) -> str:
        asked = request.query_params.get("p", "")
        return asked if asked in self.trial.references else self.trial.references[0]

    @staticmethod
    def _many(request: Request) -> int:
        asked = request.query_params.get("many", "")
        return min(int(asked), MOST_SHOWN) if asked.isdigit() and int(asked) > 0 else views.SHOWN


def _writer(plan: Plan) -> str:
    name = plan.patient.call_me
    return f"{name}'s parent" if plan.patient.writer == "parent" else name


async def _form(request: Request) -> dict[str, str]:
    async with request.form(max_fields=100) as form:
        return {key: str(value) for key, value in form.items() if not isinstance(value, UploadFile)}


def _picture_type(content: bytes) -> str | None:
    return next((kind for start, kind in PICTURES.items() if content.startswith(start)), None)


def _content(item: Any) -> Response:
    outgoing = item.shown.outgoing if item.shown is not None else None
    content = (outgoing.photo or outgoing.document or b"") if outgoing is not None else item.content
    if not content:
        return PlainTextResponse("There is nothing here.\n", 404)
    kind = _picture_type(content)
    if kind is not None:
        return Response(content, media_type=kind)
    name = (outgoing.file_name if outgoing is not None else item.text) or "file"
    safe = "".join(c for c in name if c.isalnum() or c in "-_. ")
    return Response(content, media_type="application/octet-stream",
                    headers={"Content-Disposition": f'attachment; filename="{safe}"'})

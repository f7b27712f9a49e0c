"""Reading calls and writing answers in the form that the Bot API reference documents under 'Making requests'."""

from __future__ import annotations

from botapi_world import ApiError, Json
from starlette.requests import Request
from starlette.responses import JSONResponse


async def read_params(request: Request) -> Json:
    """Query, form, multipart or JSON, as documented; an upload becomes (content, file name)."""
    params: Json = dict(request.query_params)
    kind = request.headers.get("content-type", "")
    if kind.startswith("application/json"):
        params.update(await request.json())
    elif kind:
        async with request.form() as form:
            for name, value in form.multi_items():
                params[name] = value if isinstance(value, str) else (await value.read(), value.filename or "")
    return params


async def disconnected(request: Request) -> None:
    while (await request.receive())["type"] != "http.disconnect":
        pass


def chat_of(params: Json) -> int | None:
    try:
        return int(params["chat_id"])
    except (KeyError, ValueError):
        return None


def refusal(status: int, description: str, parameters: Json | None = None) -> Json:
    answer: Json = {"ok": False, "error_code": status, "description": description}
    return {**answer, "parameters": parameters} if parameters else answer


def refused(error: ApiError) -> JSONResponse:
    return JSONResponse(refusal(error.status, error.description, error.parameters), error.status)

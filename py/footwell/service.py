"""The calls from the page: text in, text out."""

import json
from collections.abc import Callable

from pydantic import BaseModel, ValidationError


class PingRequest(BaseModel):
    """Ask whether the core is there."""

    say: str


class PingResponse(BaseModel):
    """What was asked, said again."""

    said: str


def ping(request: PingRequest) -> PingResponse:
    """Answer with the text of the request."""
    return PingResponse(said=request.say)


type_of_call = tuple[type[BaseModel], type[BaseModel], Callable[..., BaseModel]]

CALLS: dict[str, type_of_call] = {"ping": (PingRequest, PingResponse, ping)}


def call(name: str, text: str) -> str:
    """Return the answer to one call as JSON: ``{"ok": ...}`` or ``{"error": ...}``."""
    if name not in CALLS:
        return error("unknown_call", f"There is no call named {name}.")
    request_model, _, function = CALLS[name]
    try:
        request = request_model.model_validate_json(text)
    except ValidationError as problem:
        return error("bad_request", f"The request for {name} could not be read.", problem.json())
    return f'{{"ok":{function(request).model_dump_json()}}}'


def error(code: str, sentence: str, details: str = "[]") -> str:
    """Return an error as the page reads it."""
    return json.dumps(
        {"error": {"code": code, "sentence": sentence, "details": json.loads(details)}}
    )


"""The address of a server in the shop's own network."""

from __future__ import annotations

import re
from typing import Annotated

from pydantic import AfterValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

_SERVER = re.compile(r"https?://[A-Za-z0-9][A-Za-z0-9.-]*(:[0-9]{1,5})?(/[A-Za-z0-9._~-]+)*/?")


def _server(value: str) -> str:
    if not _SERVER.fullmatch(value):
        raise PydanticCustomError("bad_server", "", {"value": value})
    return value if value.endswith("/") else f"{value}/"


Server = Annotated[
    str,
    AfterValidator(_server),
    WithJsonSchema(
        {
            "type": "string",
            "description": "An address that begins with https:// or http:// and ends in /.",
            "examples": ["https://manual.example/"],
        }
    ),
]

"""Staff codes: people are never named."""

from __future__ import annotations

import re
from typing import Annotated

from pydantic import AfterValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

_STAFF_CODE = re.compile(r"[a-z]{1,4}-?[0-9]{1,6}")


def _staff_code(written: str) -> str:
    lowered = written.lower()
    if not _STAFF_CODE.fullmatch(lowered):
        raise PydanticCustomError("staff_code", "'{value}' is no staff code", {"value": written})
    return lowered


StaffCode = Annotated[
    str,
    AfterValidator(_staff_code),
    WithJsonSchema(
        {
            "type": "string",
            "pattern": "^[A-Za-z]{1,4}-?[0-9]{1,6}$",
            "description": "A staff code, never a name.",
            "examples": ["op-07"],
        }
    ),
]

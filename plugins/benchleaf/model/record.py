"""The base of every record: frozen, exact about its keys, free of pages and files."""

from __future__ import annotations

from functools import cached_property
from typing import Annotated, ClassVar

from pydantic import AfterValidator, BaseModel, ConfigDict, WithJsonSchema
from pydantic_core import PydanticCustomError

from .leaves import Leaf, leaves
from .marks import Area


class Record(BaseModel):
    """A frozen record. Unknown keys are errors; a field's meaning stands directly under it."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        str_strip_whitespace=True,
        str_min_length=1,
        use_attribute_docstrings=True,
        arbitrary_types_allowed=True,
        ignored_types=(cached_property,),
    )

    about: ClassVar[Area] = Area.BREAKDOWN
    """What a field is about that has no area of its own, in a record that stands by itself."""
    about_all: ClassVar[Area | None] = None
    """What the whole record is about, where that is something else."""

    @cached_property
    def marked(self) -> tuple[Leaf, ...]:
        """Every marked value inside; found once, since many stops ask."""
        return tuple(leaves(self))


def _revision(value: str) -> str:
    is_letters = value.isalpha() and len(value) <= 3
    if value.isascii() and (value.isdigit() or is_letters):
        return value.upper()
    raise PydanticCustomError("bad_revision", "'{written}' is no revision", {"written": value})


Revision = Annotated[
    str,
    AfterValidator(_revision),
    WithJsonSchema(
        {"type": ["string", "integer"], "examples": [3, "C"], "description": "Number or letters."}
    ),
]
"""An integer or letters, compared as such."""


def revision_order(revision: str) -> tuple[int, int, str]:
    """A sort key: 9 before 10, Z before AA; numbers before letters.

    >>> sorted(["10", "9"], key=revision_order)
    ['9', '10']
    """
    return (0, int(revision), "") if revision.isdigit() else (1, len(revision), revision)

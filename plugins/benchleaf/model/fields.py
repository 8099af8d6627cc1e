"""Field types: text in, quantity, date or word out. Every scalar of a file arrives as text."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Annotated, Any

from pydantic import BeforeValidator, PlainSerializer, WithJsonSchema
from pydantic_core import PydanticCustomError

from benchleaf.formulas import drill_sizes, fits
from benchleaf.formulas.quantities import (
    KINDS,
    Quantity,
    QuantityError,
    Toleranced,
    parse_quantity,
    parse_toleranced,
    shortened,
)
from benchleaf.formulas.threads import Thread, thread


def _quantity(kind: str, *, range_allowed: bool = False) -> Callable[[Any], Quantity]:
    def read(value: Any) -> Quantity:
        if isinstance(value, Quantity):
            return value
        try:
            return parse_quantity(_text(value), kind, range_allowed=range_allowed)
        except QuantityError as error:
            raise as_pydantic(error) from error

    return read


def _toleranced(value: Any) -> Toleranced:
    if isinstance(value, Toleranced):
        return value
    try:
        return parse_toleranced(_text(value))
    except QuantityError as error:
        raise as_pydantic(error) from error


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise PydanticCustomError("quantity_shape", "a quantity is written as one text")
    return value


def as_pydantic(error: QuantityError) -> PydanticCustomError:
    """The same problem in the form pydantic carries to the reader of the file."""
    kind = "quantity_unit" if error.unit_is_wrong else "quantity"
    return PydanticCustomError(kind, "{problem}", {"problem": error.problem, "cure": error.cure})


def _schema(kind: str, *, range_allowed: bool = False) -> WithJsonSchema:
    known = KINDS[kind]
    article = "An" if kind[0] in "aeiou" else "A"
    what = f"{article} {kind}{' or a range of it' if range_allowed else ''}"
    return WithJsonSchema(
        {
            "type": "string",
            "description": f"{what}, with its unit: {', '.join(known.units)}.",
            "examples": [known.example],
        }
    )


_AS_TEXT = PlainSerializer(lambda value: value.text)

Length = Annotated[Quantity, BeforeValidator(_quantity("length")), _AS_TEXT, _schema("length")]
LengthRange = Annotated[
    Quantity,
    BeforeValidator(_quantity("length", range_allowed=True)),
    _AS_TEXT,
    _schema("length", range_allowed=True),
]
CuttingSpeedRange = Annotated[
    Quantity,
    BeforeValidator(_quantity("cutting speed", range_allowed=True)),
    _AS_TEXT,
    _schema("cutting speed", range_allowed=True),
]
Feed = Annotated[Quantity, BeforeValidator(_quantity("feed")), _AS_TEXT, _schema("feed")]
FeedRange = Annotated[
    Quantity,
    BeforeValidator(_quantity("feed", range_allowed=True)),
    _AS_TEXT,
    _schema("feed", range_allowed=True),
]
SpindleSpeed = Annotated[
    Quantity, BeforeValidator(_quantity("spindle speed")), _AS_TEXT, _schema("spindle speed")
]
Force = Annotated[Quantity, BeforeValidator(_quantity("force")), _AS_TEXT, _schema("force")]
Torque = Annotated[Quantity, BeforeValidator(_quantity("torque")), _AS_TEXT, _schema("torque")]
Power = Annotated[Quantity, BeforeValidator(_quantity("power")), _AS_TEXT, _schema("power")]
Angle = Annotated[Quantity, BeforeValidator(_quantity("angle")), _AS_TEXT, _schema("angle")]
Mass = Annotated[Quantity, BeforeValidator(_quantity("mass")), _AS_TEXT, _schema("mass")]
Pressure = Annotated[
    Quantity, BeforeValidator(_quantity("pressure")), _AS_TEXT, _schema("pressure")
]
Duration = Annotated[Quantity, BeforeValidator(_quantity("time")), _AS_TEXT, _schema("time")]
Limits = Annotated[
    Toleranced,
    BeforeValidator(_toleranced),
    _AS_TEXT,
    WithJsonSchema(
        {
            "type": "string",
            "description": "A size with its limits.",
            "examples": ["8.5 +0.1/-0 mm"],
        }
    ),
]


def _drill_size(value: Any) -> Quantity:
    """A drill's diameter: a length, or a number, letter or fraction drill by its name."""
    if isinstance(value, Quantity):
        return value
    written = " ".join(_text(value).split())
    if drill_sizes.is_known(written):
        diameter = drill_sizes.diameter_mm(written)
        return Quantity("length", diameter, diameter, written)
    if written.startswith("#") or (len(written) == 1 and written.isalpha()):
        raise PydanticCustomError(
            "quantity",
            "{problem}",
            {
                "problem": f"there is no drill '{written}'",
                "cure": "number drills run from #1 to #80, letter drills from A to Z",
            },
        )
    return _quantity("length")(written)


DrillSize = Annotated[
    Quantity,
    BeforeValidator(_drill_size),
    _AS_TEXT,
    WithJsonSchema(
        {
            "type": "string",
            "description": 'A drill size: a length, or a number ("#7", quoted) or letter drill.',
            "examples": ["8.5 mm", "1/4 in", "#7", "F"],
        }
    ),
]


_PLAIN_NUMBER = re.compile(r"[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:e[-+]?[0-9]+)?", re.IGNORECASE)


def _factor(value: Any) -> float:
    """A plain number above zero; a decimal comma is refused with the cure."""
    text = _text(value).strip() if not isinstance(value, float) else repr(value)
    try:
        number = float(text if _PLAIN_NUMBER.fullmatch(text) else "none")
    except ValueError:
        cure = f"write '{text.replace(',', '.')}'" if "," in text else "write a number, like 0.15"
        raise PydanticCustomError(
            "quantity", "{problem}", {"problem": f"'{shortened(text)}' is no number", "cure": cure}
        ) from None
    if not 0 < number < float("inf"):
        raise PydanticCustomError(
            "quantity",
            "{problem}",
            {"problem": f"'{text}' is out of range", "cure": "write a number above zero"},
        )
    return number


Factor = Annotated[
    float,
    BeforeValidator(_factor),
    WithJsonSchema({"type": ["number", "string"], "exclusiveMinimum": 0, "examples": [0.15]}),
]
"""A number without a unit, above zero."""


def _thread(value: Any) -> Thread:
    if isinstance(value, Thread):
        return value
    try:
        return thread(str(value))
    except ValueError as error:
        raise PydanticCustomError(
            "quantity",
            "{problem}",
            {"problem": f"'{value}' is no thread known here", "cure": str(error)},
        ) from error


ThreadName = Annotated[
    Thread,
    BeforeValidator(_thread),
    PlainSerializer(lambda value: value.name),
    WithJsonSchema(
        {
            "type": "string",
            "description": "A thread: ISO metric M2 to M24, UNC or UNF #4 to 1 in.",
            "examples": ["M8", "M8x1", "1/4-20 UNC"],
        }
    ),
]


def _tolerance(value: Any) -> str:
    try:
        fits.limits(str(value), 20.0)
    except ValueError as error:
        raise PydanticCustomError(
            "quantity",
            "{problem}",
            {"problem": f"'{value}' is no tolerance class known here", "cure": str(error)},
        ) from error
    return str(value)


ToleranceClass = Annotated[
    str,
    BeforeValidator(_tolerance),
    WithJsonSchema(
        {"type": "string", "description": "A hole or shaft class of ISO 286.", "examples": ["H7"]}
    ),
]

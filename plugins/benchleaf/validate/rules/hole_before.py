"""V541: a hole that a set-up takes on is made by a set-up before it on the route."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.compute.amounts import amount, span
from benchleaf.compute.hole_route import Made, holes_before, makers, named_drill, size_wanted_mm
from benchleaf.diagnose import Code, Finding
from benchleaf.model import DrillingSetUp, ReamingSetUp, SetUp, TappingSetUp

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V541",
    "Nothing before on the route makes the hole that a set-up takes on",
    why=(
        "The tool meets a hole of another size, or none. A tap or reamer breaks, and a drill that "
        "was to follow a pilot hole meets full metal."
    ),
    instead="Name the drill that makes the hole, or correct the job before.",
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each set-up whose hole no earlier set-up makes, or that names no drill."""
    for index, operation in enumerate(case.job.set_ups):
        made = holes_before(case.shop, case.job, index)
        if makers(made, operation):
            continue
        if not made:
            yield from _no_pilot(case, index, operation)
            continue
        if named_drill(operation) is not None:
            yield from _missing(
                case, index, "hole_drill", f"a hole of the {_name(case, operation)}", made
            )
        elif isinstance(operation, TappingSetUp | ReamingSetUp):
            yield from _unnamed(case, index, operation, made)
        elif (sizes := size_wanted_mm(operation)) is not None:
            yield from _missing(case, index, *_sized(operation, sizes), made)


def _no_pilot(case: JobCase, index: int, operation: SetUp) -> Iterator[Finding]:
    """A pilot takes torque and grab away: it must be there, be it drilled, cast or bought."""
    pilot = operation.pilot if isinstance(operation, DrillingSetUp) else None
    if pilot is not None:
        yield from case.practice(
            CODE,
            ("set_ups", index, "pilot"),
            f"{operation.id} takes on a pilot hole of {pilot.text}, and no set-up before it makes "
            "one: without it the drill turns and grabs harder than is reckoned",
            "enter the set-up that drills the pilot hole, or take pilot out",
        )


def _name(case: JobCase, operation: SetUp) -> str:
    drill = case.shop.tools.get(named_drill(operation) or "")
    return drill.name if drill is not None else str(named_drill(operation))


_KEYS = {"drilling": "pilot", "countersinking": "hole_diameter", "counterboring": "screw"}


def _sized(operation: SetUp, sizes: tuple[float, float]) -> tuple[str, str]:
    low, high = sizes
    key = _KEYS[operation.operation]
    if key == "screw":
        return key, f"a hole of {span(low, high, 'mm', 1)} for the counterbore's pilot"
    hole = "pilot hole" if key == "pilot" else "hole"
    return key, f"a {hole} of {amount((low + high) / 2, 'mm')}"


def _missing(
    case: JobCase, index: int, key: str, wanted: str, made: tuple[Made, ...]
) -> Iterator[Finding]:
    operation = case.job.set_ups[index]
    yield from case.practice(
        CODE,
        ("set_ups", index, key),
        f"{operation.id} takes on {wanted}, and nothing before it makes one: {_all(made)}",
        "name the drill or size that is there, or correct the job before",
    )


def _unnamed(
    case: JobCase, index: int, operation: SetUp, made: tuple[Made, ...]
) -> Iterator[Finding]:
    yield from case.practice(
        CODE,
        ("set_ups", index),
        f"{operation.id} does not say which hole it takes on; before it: {_all(made)}",
        "write `hole_drill: ID`, the drill that makes this hole",
    )


def _all(made: tuple[Made, ...]) -> str:
    told = dict.fromkeys(f"{one.job.id.upper()} makes {amount(one.mm, 'mm')}" for one in made)
    return ", ".join(told)


RULE = JobRule(check, (CODE,))

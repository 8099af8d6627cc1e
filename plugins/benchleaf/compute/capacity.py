"""Whether machine and tool fit one another: drill size and shank against the machine's limits."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.model import Machine, Tool

from .sheet import Sheet


def misfits(machine: Machine, tool: Tool) -> Iterator[tuple[str, str]]:
    """Why the tool must not be used in the machine, each with what to do instead."""
    size, rating = tool.size, machine.drill_capacity
    if size is not None and rating is not None and size.value > rating.value:
        yield (
            f"the drill is {size.text}; {machine.name} is rated for {rating.text} in steel",
            "use a larger machine",
        )
    shank, chuck = tool.shank, machine.chuck
    if shank is not None and chuck is not None and not chuck.low <= shank.value <= chuck.high:
        yield (
            f"the shank is {shank.text}; the chuck of {machine.name} holds {chuck.text}",
            "use a tool whose shank fits the chuck",
        )


def fits_the_machine(sheet: Sheet) -> None:
    """Stops where the drill is larger than the machine's rating or the chuck cannot hold it."""
    for reason, cure in misfits(sheet.case.machine, sheet.case.tool):
        sheet.stop("S508", reason, cure, sheet.case.path("tool"))

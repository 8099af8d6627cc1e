"""Whether machine and tool fit one another: drill size and shank against the machine's limits."""

from __future__ import annotations

from benchleaf.model import Machine, Tool

from .sheet import Sheet


def within_rating(machine: Machine, tool: Tool) -> bool:
    """False where the drill is larger than the machine is rated for."""
    rating = machine.drill_capacity
    return tool.size is None or rating is None or tool.size.value <= rating.value


def shank_fits(machine: Machine, tool: Tool) -> bool:
    """False where the chuck cannot hold the shank."""
    if tool.shank is None or machine.chuck is None:
        return True
    return machine.chuck.low <= tool.shank.value <= machine.chuck.high


def fits_the_machine(sheet: Sheet) -> None:
    """Stops where the drill is larger than the machine's rating or the chuck cannot hold it."""
    _drill_size(sheet)
    _shank(sheet)


def _drill_size(sheet: Sheet) -> None:
    machine, tool = sheet.case.machine, sheet.case.tool
    if within_rating(machine, tool):
        return
    if tool.size is not None and machine.drill_capacity is not None:
        sheet.stop(
            "S508",
            f"the drill is {tool.size.text}; {machine.name} is rated for "
            f"{machine.drill_capacity.text} in steel",
            "use a larger machine",
            sheet.case.path("tool"),
        )


def _shank(sheet: Sheet) -> None:
    machine, tool = sheet.case.machine, sheet.case.tool
    if shank_fits(machine, tool):
        return
    if tool.shank is not None and machine.chuck is not None:
        sheet.stop(
            "S508",
            f"the shank is {tool.shank.text}; the chuck of {machine.name} holds "
            f"{machine.chuck.text}",
            "use a tool whose shank fits the chuck",
            sheet.case.path("tool"),
        )

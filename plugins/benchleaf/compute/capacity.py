"""Whether machine and tool fit one another: drill size and shank against the machine's limits."""

from __future__ import annotations

from .sheet import Sheet


def fits_the_machine(sheet: Sheet) -> None:
    """Stops where the drill is larger than the machine's rating or the chuck cannot hold it."""
    _drill_size(sheet)
    _shank(sheet)


def _drill_size(sheet: Sheet) -> None:
    machine, tool = sheet.case.machine, sheet.case.tool
    if tool.size is None or machine.drill_capacity is None:
        return
    if tool.size.value > machine.drill_capacity.value:
        sheet.stop(
            "S508",
            f"the drill is {tool.size.text}; {machine.name} is rated for "
            f"{machine.drill_capacity.text} in steel",
            "use a larger machine",
            sheet.case.path("tool"),
        )


def _shank(sheet: Sheet) -> None:
    machine, tool = sheet.case.machine, sheet.case.tool
    if tool.shank is None or machine.chuck is None:
        return
    if not machine.chuck.low <= tool.shank.value <= machine.chuck.high:
        sheet.stop(
            "S508",
            f"the shank is {tool.shank.text}; the chuck of {machine.name} holds "
            f"{machine.chuck.text}",
            "use a tool whose shank fits the chuck",
            sheet.case.path("tool"),
        )

"""Whether machine and tool fit one another: drill size and shank against the machine's limits."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Sample
from benchleaf.model import UNDRIVEN, Machine, Tool

from .amounts import entered
from .results import Side, side_of
from .sheet import Sheet

BEYOND_CAPACITY = Code(
    "S508",
    "The tool is beyond the machine's capacity",
    why="A shank that does not fit the chuck slips; a drill beyond the rating stalls and grabs.",
    instead="Use a tool within the capacity, or another machine.",
    bad=(
        Sample(
            """
            # A drill beyond the machine's rating.
            - file: machines/bench-drill.yml
              find: "drill_capacity: 13 mm"
              put: "drill_capacity: 6 mm"
            """,
            """
            content/jobs/vg-0010.yml:46:11: stop S508 do not run VG-0010 (guide-hole): the
                    drill is 8 mm; Bench drill is rated for 6 mm in steel
                use a larger machine
            """,
        ),
        Sample(
            """
            # A shank that the chuck cannot hold.
            - file: tools/drill-8.yml
              find: "shank: 8 mm"
              put: "shank: 16 mm"
            """,
            """
            content/jobs/vg-0010.yml:46:11: stop S508 do not run VG-0010 (guide-hole): the
                    shank is 16 mm; the chuck of Bench drill holds 1 to 13 mm
                use a tool whose shank fits the chuck
            """,
        ),
    ),
    good="""
        # A drill at the machine's rating.
        - file: machines/bench-drill.yml
          find: "drill_capacity: 13 mm"
          put: "drill_capacity: 8 mm"
    """,
)


def misfits(machine: Machine, tool: Tool) -> Iterator[tuple[str, str, Side, str]]:
    """Why the tool must not be used in the machine, what to do instead, the side, and the limit."""
    size, rating = tool.size, machine.drill_capacity
    if size is not None and rating is not None and size.value > rating.value:
        yield (
            f"the drill is {entered(size)}; {machine.name} is rated for "
            f"{entered(rating, 'down')} in steel",
            "use a larger machine",
            Side.ABOVE,
            "",
        )
    shank, chuck = tool.shank, machine.chuck
    if shank is not None and chuck is not None and not chuck.low <= shank.value <= chuck.high:
        yield (
            f"the shank is {entered(shank)}; the chuck of {machine.name} holds {entered(chuck)}",
            "use a tool whose shank fits the chuck",
            side_of(shank.value, chuck.low),
            "chuck",
        )


def by_spindle(sheet: Sheet) -> bool:
    """False at a bench and the like, where only a hand turns the tool."""
    return sheet.case.machine.kind not in UNDRIVEN


def fits_the_machine(sheet: Sheet) -> None:
    """Stops where the drill is larger than the machine's rating or the chuck cannot hold it."""
    for reason, cure, side, of in misfits(sheet.case.machine, sheet.case.tool):
        sheet.stop(BEYOND_CAPACITY, reason, cure, sheet.case.path("tool"), side=side, of=of)

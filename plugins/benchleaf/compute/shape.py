"""The shape of the work under the drill: how deep the full diameter goes, saddles, cautions."""

from __future__ import annotations

from benchleaf.diagnose import Code, Sample
from benchleaf.formulas import round_work
from benchleaf.model import DrillingSetUp, HoleKind, Walls, WorkShape

from . import figures_cutting as cut
from .amounts import amount
from .declaration import Declaration
from .sheet import Sheet

WRONG_SHAPE = Code(
    "S511",
    "The drill does not suit the shape of the work",
    why="A drill as wide as the bar or bore has nothing to guide it, and throws the work.",
    instead="Use a smaller drill, or check the sizes entered.",
    bad=(
        Sample(
            """
            # A drill as wide as the bar.
            - file: jobs/vg-0010.yml
              find: |2
                    thickness: 6 mm
              put: |2
                    work: round bar
                    work_diameter: 8 mm
            """,
            """
            content/jobs/vg-0010.yml:46:11: stop S511 do not run VG-0010 (guide-hole): the
                    drill is 8 mm and the work is 8 mm wide
                use a smaller drill, or check the sizes
            """,
        ),
        Sample(
            """
            # A drill that runs into the far wall.
            - file: jobs/vg-0010.yml
              find: |2
                    thickness: 6 mm
              put: |2
                    work: round tube
                    work_diameter: 14 mm
                    wall: 2 mm
                    walls: one
            - file: jobs/vg-0010.yml
              find: "    overtravel: 1 mm"
              put: "    overtravel: 6 mm"
            """,
            """
            content/jobs/vg-0010.yml:54:17: stop S511 do not run VG-0010 (guide-hole): at
                    the depth stop the point is 0.4 mm into the far wall
                use a shorter overtravel, a flatter point or a smaller drill
            """,
        ),
    ),
    good="""
        # A drill much thinner than the bar.
        - file: jobs/vg-0010.yml
          find: |2
                thickness: 6 mm
          put: |2
                work: round bar
                work_diameter: 20 mm
    """,
)

_BAR_CAUTIONS = (
    "Hold round work in a V-block with a clamp, never in flat jaws alone.",
    "Start gently: the point meets the top of a curve and slides off unless the place is centred.",
    "The drill cuts on part of its turn where it enters and leaves; it can grab in both places.",
)
_SHEET_CAUTION = (
    "The work is thinner than the drill's point is long: it climbs the drill and spins. Clamp it "
    "flat all round on a backing piece, and ease off before the point is through."
)
_TUBE_CAUTIONS = (
    "A thin wall dents under the clamp: tighten until it holds, and look for marks.",
    "The drill breaks through each wall by itself: ease the feed at each one.",
    "Chips and a burr stay inside the tube: clean it and look before it goes on.",
)


def drilled_depth_mm(operation: DrillingSetUp, drill_mm: float) -> float | None:
    """Metal under the drill in one go: what decides whether a hole is deep. None if unknown."""
    if operation.hole is HoleKind.BLIND:
        return operation.depth.value if operation.depth else None
    if operation.work is WorkShape.ROUND_TUBE and operation.work_diameter and operation.wall:
        outside, wall = operation.work_diameter.value, operation.wall.value
        return round_work.one_wall_depth_mm(outside, wall, drill_mm)
    size = operation.work_diameter or operation.thickness
    return size.value if size else None


def through_stop(
    operation: DrillingSetUp, drill: float
) -> tuple[Declaration, tuple[float, ...], float]:
    """The stop of a through hole: its figure, the sizes it begins with, the depth they come to.

    Depth in mm below the first touch of flat work, or below the crown of round work. 0 for sizes
    that are not known: the rules of a job ask for them.
    """
    if operation.work is WorkShape.FLAT:
        thickness = operation.thickness.value if operation.thickness else 0.0
        return cut.STOP_IN_FLAT, (thickness,), thickness
    outside = operation.work_diameter.value if operation.work_diameter else 0.0
    wall = operation.wall.value if operation.wall else 0.0
    if operation.work is WorkShape.ROUND_TUBE and operation.walls is Walls.ONE:
        depth = round_work.one_wall_depth_mm(outside, wall, drill)
        return cut.STOP_IN_ONE_WALL, (wall, depth - wall), depth
    depth = round_work.bar_depth_mm(outside, drill)
    return cut.STOP_IN_BAR, (depth,), depth


def shape_of_work(sheet: Sheet) -> None:
    """Rows on the saddles of round work, and the cautions that belong."""
    operation, material = sheet.case.drilling, sheet.case.material
    sheet.cautions += material.when_drilled if material else ()
    if operation.work is WorkShape.FLAT or operation.work_diameter is None:
        return
    is_tube = operation.work is WorkShape.ROUND_TUBE
    sheet.cautions += (*_BAR_CAUTIONS, *(_TUBE_CAUTIONS if is_tube else ()))
    drill = sheet.drilled.drill_mm
    if drill is None:
        sheet.lacks(cut.ENTRY_SADDLE, f"size in tools/{operation.tool}")
        return
    _saddles(sheet, drill, operation.work_diameter.value)


def thin_work(sheet: Sheet) -> None:
    """Sheet thinner than the point is never in full cut: it climbs the drill and spins."""
    thickness, point = sheet.case.drilling.thickness, sheet.drilled.point
    if thickness is not None and point is not None and thickness.value < point:
        sheet.cautions.append(_SHEET_CAUTION)


def _saddles(sheet: Sheet, drill: float, outside: float) -> None:
    operation = sheet.case.drilling
    sheet.work(cut.ENTRY_SADDLE, outside, drill)
    if operation.hole is HoleKind.BLIND:
        return
    one_wall = operation.walls is Walls.ONE and operation.wall is not None
    leaves = round_work.bore_mm(outside, operation.wall.value) if one_wall else outside  # type: ignore[union-attr]
    sheet.work(cut.EXIT_SADDLE, leaves, drill)


def fits_the_shape(sheet: Sheet) -> None:
    """Stops where the drill is too wide for round work, or would run into the far wall."""
    operation, drill = sheet.case.drilling, sheet.drilled.drill_mm
    stop = sheet.drilled.stop
    if operation.work_diameter is None or drill is None:
        return
    outside = operation.work_diameter.value
    surface, name = outside, "the work"
    if operation.wall is not None:
        surface, name = outside - 2 * operation.wall.value, "the bore"
    if drill >= surface:
        sheet.stop(
            WRONG_SHAPE,
            f"the drill is {amount(drill, 'mm')} and {name} is "
            f"{amount(max(surface, 0), 'mm')} wide",
            "use a smaller drill, or check the sizes",
            sheet.case.path("tool"),
        )
    elif operation.walls is Walls.ONE and operation.wall is not None and stop is not None:
        _far_wall(sheet, outside, operation.wall.value, stop)


def _far_wall(sheet: Sheet, outside: float, wall: float, stop: float) -> None:
    room = round_work.room_to_far_wall_mm(outside, wall, stop)
    if room <= 0:
        sheet.stop(
            WRONG_SHAPE,
            f"at the depth stop the point is {amount(-room, 'mm', 1)} into the far wall",
            "use a shorter overtravel, a flatter point or a smaller drill",
            sheet.case.path("overtravel"),
            of="far wall",
        )

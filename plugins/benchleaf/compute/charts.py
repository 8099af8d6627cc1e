"""Charts a shop hangs up: from its own machines, tools and materials, and from the tables."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from types import MappingProxyType

from benchleaf.formulas import clearance_holes, drill_sizes, speeds, tap_chart, tap_drills, threads
from benchleaf.formulas.quantities import inches, parse_quantity
from benchleaf.formulas.tap_drills import Basis
from benchleaf.model import CuttingSpeed, Machine, Material, Shop, ToolKind, Units, units_of

from . import figures_cutting as cut
from .amounts import first, told_entered
from .capacity import misfits
from .declaration import ends
from .figures_holes import fit_limits_mm
from .sheet import cited


@dataclass(frozen=True, slots=True)
class Chart:
    """One table for the wall, with where its figures come from."""

    id: str
    title: str
    how_to_read: str
    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    source: str
    limits: str


def charts(shop: Shop) -> Iterator[Chart]:
    """Every chart of the shop."""
    for machine in shop.machines.values():
        own = tuple(f"{machine.id}--{one.id}" for one in machine.spindles) or (machine.id,)
        for chart_id, one in zip(own, machine.each_spindle, strict=True):
            chart = _speed_chart(shop, one, chart_id)
            if chart is not None:
                yield chart
    units = shop.manual.units
    yield _tap_drills(units)
    yield _drill_sizes(units)
    yield _clearance(units)
    yield _fits(units)


def _speed_chart(shop: Shop, machine: Machine, chart_id: str) -> Chart | None:
    """Spindle speed by drill and material, from the speeds the machine really has."""
    drills = sorted(
        {
            tool.size.value: told_entered(tool.size, units_of(shop, machine))
            for tool in shop.tools.values()
            if tool.kind is ToolKind.DRILL
            and tool.size
            and tool.size.value > 0
            and tool.tool_material == "hss"
            and not any(misfits(machine, tool))
        }.items()
    )
    materials = [(one, _drilling_speed(one)) for one in shop.materials.values()]
    known = [(material, speed) for material, speed in materials if speed is not None]
    if machine.chuck is None or not machine.spindle_speeds or not drills or not known:
        return None
    steps = [speed.value for speed in machine.spindle_speeds]
    rows = tuple(
        (text, *(_step(steps, speed, diameter) for _, speed in known)) for diameter, text in drills
    )
    sources = dict.fromkeys(speed.source for _, speed in known)
    return Chart(
        f"speeds-{chart_id}",
        f"Spindle speeds of {machine.name}",
        "Find your drill at the left and your material at the top. Set that speed, in rpm. "
        "Only for holes less than 3 diameters deep. A job's own page comes first.",
        ("Drill", *(material.name for material, _ in known)),
        rows,
        f"{'; '.join(sources)}; {cited('step-rule')}",
        "high-speed steel drills, sharp; fluid as the material's page says",
    )


def _drilling_speed(material: Material) -> CuttingSpeed | None:
    for speed in material.cutting_speeds:
        if (speed.operation, speed.tool_material) == ("drilling", "hss"):
            return speed
    return None


def _step(steps: list[float], speed: CuttingSpeed, diameter: float) -> str:
    """The machine's step by the stated rule; "do not" where even the slowest is too fast."""
    low, high = ends(cut.SPEED_RANGE.run(speed.speed.low, speed.speed.high, diameter))
    chosen = speeds.choose_step(steps, low, high).chosen
    return f"{chosen:.0f}" if chosen is not None else "do not"


def _own_first(units: Units) -> list[threads.Thread]:
    """Every thread, those of the shop's own system first."""
    own = "unified" if units is Units.INCH else "metric"
    return sorted(threads.THREADS.values(), key=lambda one: one.system != own)


def _kinds(thread: threads.Thread, units: Units) -> tuple[tap_drills.Kind, ...]:
    """The drills that a shop has: an inch shop drills its own threads with no metric ones."""
    own = tap_drills.own_kinds(thread)
    is_inch = units is Units.INCH and thread.system == "unified"
    return tuple(one for one in own if one != "metric") if is_inch else own


@cache
def _tap_drills(units: Units) -> Chart:
    wanted, basis, unit = 75.0, Basis.FULL_THREAD_HEIGHT, _UNIT[units]
    rows = []
    for thread in _own_first(units):
        drill = tap_drills.tap_drill(thread, wanted, basis, _kinds(thread, units))
        limits = threads.minor_limits_mm(thread)
        good = _range(limits.low_mm, limits.high_mm, units) if limits else "not known"
        rows.append((thread.name, _named(drill, units), _usual(thread, basis, units), good))
    return Chart(
        "tap-drills",
        "Tap drills",
        "Find your thread at the left. Drill with the size beside it, then tap. The third column "
        "is the drill of the usual chart. In brackets: the percentage of thread.",
        ("Thread", f"Drill, {unit}", f"Usual chart, {unit}", f"Minor diameter, {unit}"),
        tuple(rows),
        cited("drill-choice", "iso-965-1", "asme-b1.1", "iso-2306", "tap-chart"),
        "75 % of full thread height (1.299 P) wanted; the drill is the nearest one made. An arrow "
        "up marks a chart's drill above the largest minor diameter",
    )


def _usual(thread: threads.Thread, basis: Basis, units: Units) -> str:
    """The drill of the usual chart, and whether it is too large by the limits."""
    if thread.name not in tap_chart.CHART:
        return "–"
    drill = tap_chart.chart_drill(thread, basis)
    named = _named(drill, units)
    return f"{named} ↑" if drill.inside_limits is False else named


def _named(drill: tap_drills.TapDrill | tap_chart.ChartDrill, units: Units) -> str:
    """A drill's name, its size where the name does not say it, and its percentage."""
    name = drill.name.removesuffix(" mm")
    size = "" if name != drill.name else f", {drill.diameter_mm:.2f}"
    if units is Units.INCH:  # a metric drill keeps its unit: no bare number is in mm here
        name, size = drill.name, f", {inches(drill.diameter_mm):.4f}"
    return f"{name}{size} ({drill.percent:.0f}\u00a0%)"


@cache
def _drill_sizes(units: Units) -> Chart:
    sizes = sorted(drill_sizes.SIZES.values(), key=lambda one: one.diameter_mm)
    rows = tuple(
        (one.name, *_in_order(f"{one.diameter_mm:.3f}", f"{one.diameter_in:.4f}", units))
        for one in sizes
    )
    return Chart(
        "drill-sizes",
        "Drill sizes",
        "Number, letter and fraction drills, smallest first.",
        ("Drill", *_in_order("mm", "in", units)),
        rows,
        cited("asme-b94.11m"),
        "nominal diameters; a drill cuts a little larger than itself",
    )


_UNITS = MappingProxyType({Units.METRIC: "mm", Units.INCH: "inches"})
_UNIT = MappingProxyType({Units.METRIC: "mm", Units.INCH: "in"})


def _in_order(metric: str, inch: str, units: Units) -> tuple[str, str]:
    return (inch, metric) if units is Units.INCH else (metric, inch)


def _range(low: float, high: float, units: Units) -> str:
    """Limits in the shop's unit, which the head of the column says."""
    shown = first(low, high, "mm", 3, units)
    return (
        replace(shown, decimals=max(4, shown.decimals)) if units is Units.INCH else shown
    ).number


def _standard(size: float, units: Units) -> str:
    """A size of a metric standard; in inches first where the shop reads them."""
    if units is Units.METRIC:
        return f"{size:g}"
    return f"{inches(size):.4f} ({size:g})"


@cache
def _clearance(units: Units) -> Chart:
    head = _BOTH[units]
    sizes = [t for t in threads.THREADS.values() if t.system == "metric" and t.series == "coarse"]
    rows = tuple(
        (
            thread.name.split("x")[0],
            *(
                _standard(clearance_holes.clearance_hole_mm(thread, series).diameter_mm, units)
                for series in clearance_holes.HOLE_SERIES
            ),
        )
        for thread in sizes
    )
    return Chart(
        "clearance-holes",
        "Clearance holes for metric screws",
        "Find your screw at the left. Medium is usual; fine where the screw must place the part.",
        ("Screw", f"Fine, {head}", f"Medium, {head}", f"Coarse, {head}"),
        rows,
        cited("iso-273"),
        "M2 to M24. At M12, M14 and M16 some other lists have 0.5 mm more for medium and coarse: "
        "they are no ISO 273",
    )


_FIT_SIZES = (3.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 30.0, 40.0, 50.0)
_CLASSES = ("H7", "H8", "H11", "g6", "h6", "f7", "k6", "n6", "p6")


_FIT_SIZES_IN = (*("1/8", "3/16", "1/4", "5/16", "3/8", "1/2", "5/8", "3/4", "1", "1-1/4"),)
"""What an inch shop fits by the same standard."""
_BOTH = MappingProxyType({Units.METRIC: "mm", Units.INCH: "in (mm)"})


def _fit_sizes(units: Units) -> dict[str, float]:
    """Each size as its row is called, and in mm."""
    if units is Units.INCH:
        return {name: parse_quantity(f"{name} in", "length").value for name in _FIT_SIZES_IN}
    return {f"{size:g}": size for size in _FIT_SIZES}


@cache
def _fits(units: Units) -> Chart:
    rows = tuple(
        (name, *(_range(*fit_limits_mm(grade, size), units) for grade in _CLASSES))
        for name, size in _fit_sizes(units).items()
    )
    return Chart(
        "fits",
        "Limits of common holes and shafts",
        f"Go and not-go sizes in {_UNITS[units]}: a capital letter is a hole, a small one a shaft.",
        (f"Size, {_UNIT[units]}", *_CLASSES),
        rows,
        cited("narayana-15"),
        "ISO 286; the gauge maker's tolerance is not in it",
    )

"""What each symbol of a job's working must stand for: a field of a record, or the row before."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from benchleaf.compute import Row, SetUpSheet
from benchleaf.formulas import drill_factors, feel
from benchleaf.formulas.jaw_friction import JAW_FRICTION, METAL_FACTOR
from benchleaf.formulas.threads import Thread
from benchleaf.model import Holding, Job, Material, SetUp, Shop, Tool
from oracles.workings import same
from oracles.worst import JUDGED, model_of, worst_factors

Range = tuple[float, float] | None
Numbers = Mapping[str, float | tuple[float, float] | None]
"""A pair is the number in the first sum and in the second; None is left to other tests."""


def binding_problems(shop: Shop, job: Job, sheet: SetUpSheet) -> Iterator[str]:
    """Symbols whose number is another than that of the records or of the row it is taken from."""
    operation = next(one for one in job.set_ups if one.id == sheet.id)
    known = _of_records(shop, job, operation)
    for row in sheet.rows:
        wanted = {**known, **_of_rows(sheet), **_of_row(row, shop, job, operation, sheet)}
        for at, one in enumerate(row.sums):
            for name, number in one.numbers:
                if name not in wanted:
                    yield f"{sheet.id} {row.key}: nobody knows what '{name}' stands for"
                    continue
                right = wanted[name]
                right = right[at] if isinstance(right, tuple) else right
                if right is not None and not same(right, number):
                    yield f"{sheet.id} {row.key}: {name} is {right}, {number} is used"
        if row.key.startswith("ease_off") and row.sums:
            yield from _easing(row, sheet)


def _easing(row: Row, sheet: SetUpSheet) -> Iterator[str]:
    """The sums of easing off follow from one another."""
    begin, end, eased, *swings = row.sums
    if dict(eased.numbers) != {"until": end.value, "from": begin.value}:
        apart = [abs(dict(eased.numbers)[k] - v) for k, v in
                 (("until", end.value), ("from", begin.value))]  # fmt: skip
        if max(apart) > 1e-9:
            yield f"{row.key}: {eased.text} is not from {begin.text} to {end.text}"
    if swings:
        last = dict(swings[-1].numbers)["travel"]
        if not same(dict(swings[0].numbers)["travel"], eased.value):
            yield f"{row.key}: {swings[0].text} is no swing of {eased.value}"
        stop = next(one.sums[0].value for one in sheet.rows if one.key == "depth_stop")
        if not (same(last, stop - begin.value) or same(last, eased.value)):
            yield f"{row.key}: {swings[-1].text} leads neither to the stop nor through the wall"


def _size(record: object, *path: str) -> float | None:
    for key in path:
        record = getattr(record, key, None)
    value = getattr(record, "value", record)
    return float(value) if isinstance(value, int | float) else None


def _of_records(shop: Shop, job: Job, operation: SetUp) -> Numbers:
    machine, tool = shop.machines[job.machine], shop.tools[operation.tool]
    material = shop.material_of(job)
    held = operation.holding or job.holding
    diameter = _size(tool, "size")
    round_size = _size(operation, "work_diameter")
    found: dict[str, float | None] = {
        "diameter": diameter, "D": diameter, "reamer": diameter, "size": diameter,
        "point angle": _size(tool, "point_angle"), "angle": _size(tool, "point_angle"),
        "feed per turn": _size(operation, "feed"), "feed": _size(operation, "feed"),
        "travel": 10.0, "thickness": _size(operation, "thickness"),
        "outside diameter": round_size, "wall": _size(operation, "wall"),
        "depth": _size(operation, "depth"), "overtravel": _size(operation, "overtravel"),
        "start clearance": _size(operation, "start_clearance"),
        "chisel ratio": tool.chisel_ratio, "W": tool.wear_factor,
        "pinion radius": _size(machine, "lever", "pinion_radius"),
        "lever radius": _size(machine, "lever", "radius"),
        "efficiency": _size(machine, "lever", "efficiency"),
        "clamp force": _size(held, "clamping", "force"),
        "friction": _friction(job, held, material), "helix angle": 30.0,
        "arm": _size(held, "clamping", "arm"),
        "faces": _size(held, "clamping", "faces"), "margin": _size(held, "margin"),
        "rated force of the stop": _size(held, "positive_stop", "rated_force"),
        "pilot": _size(operation, "pilot"), "hole": _size(operation, "hole_diameter"),
        "head": _size(operation, "head"), "thread length": _size(operation, "thread_length"),
        "percent": _size(operation, "percent"), "room": 1.0, "R": None, "r": _half(diameter),
        "deviation": None, "allowance": None, "what a drill cuts over": 0.05,
        "kc": _size(material, "tapping", "kc"), "K": _size(material, "tapping", "tap_factor"),
        "n": None, "C": None,
        "limit": _size(tool, "torque_limit", "torque"),
        "depth below flush": _size(operation, "below_flush") or 0.0,
    }  # fmt: skip
    thread = getattr(operation, "thread", None)
    if isinstance(thread, Thread):
        found |= {
            "major": thread.major_mm, "P": thread.pitch_mm, "pitch": thread.pitch_mm,
            "1.299": 3 * 3**0.5 / 4, "1.0825": 5 * 3**0.5 / 8, "D": thread.major_mm,
            "chamfer": {"taper": 10.0, "plug": 5.0, "bottoming": 2.0}[operation.tap.value],  # type: ignore[union-attr]
            "diameter": thread.major_mm, "d": _hole_of_thread(shop, operation),
        }  # fmt: skip
        found["hole"] = found["d"]
    screw = getattr(operation, "screw", None)
    if isinstance(screw, Thread):
        found |= {"height of the head": screw.major_mm, "diameter": None}
    return found


def _friction(job: Job, held: Holding | None, material: Material | None) -> float | None:
    """What may be counted: never above the table without a source, a sixth less where wet.

    A trial that does not say that it was a wet one was dry.
    """
    if held is None or held.clamping is None:
        return None
    one, entered = held.clamping, held.clamping.friction
    if entered is not None and one.friction_source:
        if "wet" in one.friction_source or not job.fluid:
            return entered
        lost = 1.3 / 1.1 if one.jaw_surface == "smooth" else 1.2
        return math.floor(round(entered / lost * 1000, 6)) / 1000
    row = (one.work_surface or "unmachined", one.jaw_surface)
    table = JAW_FRICTION[str(row[0]), str(row[1])]
    table *= METAL_FACTOR[str(material.metal)] if material and material.metal else 1.0
    dry = min(entered, table) if entered is not None else table
    wet = (1.3 / 1.1 if one.jaw_surface == "smooth" else 1.2) if job.fluid else 1.0
    return math.floor(round(dry / wet * 1000, 6)) / 1000


def _half(size: float | None) -> float | None:
    return size / 2 if size else None


def _hole_of_thread(shop: Shop, operation: SetUp) -> float | None:
    drill = shop.tools.get(getattr(operation, "hole_drill", None) or "")
    return drill.size.value if drill and drill.size else None


def _of_rows(sheet: SetUpSheet) -> Numbers:
    """What is taken from the rows above, not rounded."""
    exact = {row.key: row.sums[0].value for row in sheet.rows if row.sums}
    shown = {row.key: row.figure for row in sheet.rows if row.figure}
    found: dict[str, float | None] = {
        "feed a minute": exact.get("feed_rate"), "point": exact.get("point_length"),
        "depth stop": exact.get("depth_stop"), "quill travel": exact.get("quill_travel"),
        "thrust": exact.get("thrust"), "M": exact.get("torque"), "Pc": exact.get("cutter_power"),
        "torque if the pull is kept": exact.get("feed_stop_torque", exact.get("exit_torque")),
        "torque": exact.get("torque"), "torque in full cut": exact.get("torque"),
        "thrust in full cut": None, "thrust of the lips": None, "torque of the lips": None,
        "travel for one turn": exact.get("travel_per_turn"), "life": exact.get("life"),
        "time for one hole": _in_the_cut(exact), "one withdrawal": 4.0,
        "pecks": shown["pecks"].low if "pecks" in shown else None,
        "until": None, "from": None, "travel": None,
        "saddle": exact.get("saddle"), "torque of a sharp tap": exact.get("torque"),
        "torque of a dull tap": exact.get("dull_torque"), "dull": 2.0, "kept": _kept(sheet),
    }  # fmt: skip
    speed = shown.get("spindle_speed")
    if speed is not None:
        found["n"] = speed.low
    return found


def _in_the_cut(exact: Mapping[str, float]) -> float | None:
    """The time of a hole without that of its withdrawals: an edge wears in the cut alone."""
    travel, rate = exact.get("quill_travel"), exact.get("feed_rate")
    return 60 * travel / rate if travel is not None and rate else None


def _kept(sheet: SetUpSheet) -> float | None:
    """The pull over that of the lips, as it stands beside the torque at break-through."""
    row = sheet.row("exit_torque")
    return next((one.value for one in row.sums if one.formula.startswith("kept")), None) if (
        row) else None  # fmt: skip


def _published(shop: Shop, job: Job, operation: str, tool: str) -> tuple[float, float] | None:
    material = shop.material_of(job)
    for one in material.cutting_speeds if material else ():
        if (one.operation, one.tool_material) == (operation, shop.tools[tool].tool_material):
            return one.speed.low, one.speed.high
    return None


def _speeds(
    shop: Shop, job: Job, operation: SetUp, sheet: SetUpSheet
) -> tuple[float, float] | None:
    """The range of cutting speed that the spindle speeds are worked out from."""
    rows = {row.key: row for row in sheet.rows}
    if "cutting_speed_range" not in rows:
        return None
    by_ratio = rows["cutting_speed_range"].sums
    if by_ratio:
        return by_ratio[0].value, by_ratio[1].value
    found = _published(shop, job, operation.operation, operation.tool)
    deep = rows.get("deep_hole")
    share = deep.figure.low / 100 if deep and deep.figure else 1.0
    return (found[0] * share, found[1] * share) if found else None


def _drilled(operation: SetUp) -> float | None:
    """Metal under the drill, but for one wall of a tube."""
    if _size(operation, "wall") is not None:
        return None
    sizes = (_size(operation, key) for key in ("depth", "work_diameter", "thickness"))
    return next((size for size in sizes if size is not None), None)


def _round(operation: SetUp, *, leaves: bool) -> float | None:
    """Half the diameter of the round surface that the drill enters or leaves."""
    outside, wall = _size(operation, "work_diameter"), _size(operation, "wall")
    if outside is None:
        return None
    is_bore = leaves and wall is not None and str(getattr(operation, "walls", "")) == "one"
    return (outside - 2 * (wall or 0.0)) / 2 if is_bore else outside / 2


def _of_row(row: Row, shop: Shop, job: Job, operation: SetUp, sheet: SetUpSheet) -> Numbers:
    """What a symbol stands for in one row and in no other."""
    machine, tool = shop.machines[job.machine], shop.tools[operation.tool]
    rows = {one.key: one for one in sheet.rows}
    mouth = _mouth(operation, rows.get("mouth"))
    own: dict[str, float | tuple[float, float] | None] = {"mouth": mouth}
    if operation.operation == "countersinking":
        own["diameter"] = mouth
    if operation.operation == "counterboring":
        seat = rows["bore_diameter"].figure
        own["diameter"] = seat.low if seat else None
    by_key: dict[str, Numbers] = {
        "motor_power": {"efficiency": machine.efficiency},
        "torque_limit": {"limit": _size(tool, "torque_limit", "torque")},
        "seconds_for_10_mm": {"travel": 10.0},
        "saddle": {"R": _round(operation, leaves=False)},
        "exit_saddle": {"R": _round(operation, leaves=True)},
        "spindle_speed_range": {"cutting speed": _speeds(shop, job, operation, sheet)},
        "deep_hole": {"depth": _drilled(operation)},
        "holding": {"arm": _arms(operation, job)},
        "cutting_speed_range": {
            "cutting speed for drilling": _published(shop, job, "drilling", operation.tool),
            f"ratio for {operation.operation}": _RATIOS.get(operation.operation),
        },
        "life": {
            "cutting speed": rows["cutting_speed"].sums[0].value if "life" in rows else None,
            "n": _size(tool, "taylor", "exponent"),
            "C": tool.taylor.c.low if tool.taylor else None,
        },
    }
    factors = {**_factors(row, shop, job, operation), **_leaving(row, shop, job, operation)}
    ring = {**_ring(row, shop, operation, sheet), **_judged(row, shop, job, operation, sheet)}
    return {**own, **_bore(operation, tool), **factors, **ring, **by_key.get(row.key, {})}


def _leaving(row: Row, shop: Shop, job: Job, operation: SetUp) -> Numbers:
    """What the lips push and where no lip cuts, by the handbook's tables and by hand."""
    tool, material = shop.tools[operation.tool], shop.material_of(job)
    drill, pilot = _size(tool, "size") or 0.0, _size(operation, "pilot")
    if row.key not in ("exit_torque", "exit_at_feed", "feed_stop_torque") or material is None:
        return {}
    edge = drill_factors.chisel_factors(tool.chisel_ratio or 0.0)
    inner = drill * (tool.chisel_ratio or 0.0)
    printed = 0.05 * material.drilling.kd_thrust * edge.thrust_b * (tool.wear_factor or 0.0)  # type: ignore[union-attr,operator]
    lips = printed * ((_size(operation, "feed") or 0.0) * drill) ** 0.8
    lips *= 1 - feel.chisel_cutting_share(tool.chisel_ratio or 0.0)
    return {
        "lips in full cut": lips * (drill - (pilot or inner)) / (drill - inner),
        "open part": (pilot or inner) / drill,
        "most feed": 1.27 if row.key == "exit_at_feed" else _size(operation, "feed_stop", "feed"),
    }


def _judged(row: Row, shop: Shop, job: Job, operation: SetUp, sheet: SetUpSheet) -> Numbers:
    """What is compared in a row, and how far each input may be off."""
    if row.key not in JUDGED:
        return {}
    machine, value = shop.machines[job.machine], row.value[0] if row.value else None
    factors = dict(worst_factors(shop, job, operation))
    if row.key == "lever_force" and machine.lever is not None:
        factors["drive"] = machine.lever.efficiency**-0.6
    pull = next((one.value for one in row.sums
                 if one.formula.startswith("pull = 2000 × torque ×")), None)  # fmt: skip
    own = {
        "lever_force": {"pull": value}, "thrust": {"T": value}, "motor_power": {"Pm": value},
        "exit_torque": {"torque if the pull is kept": value},
        "feed_stop_torque": {"torque if the pull is kept": value},
        "held_down": {"hold down": value, "pull of the drill": pull},
    }.get(row.key, {})  # fmt: skip
    return {
        **factors, **own, "model": model_of(row.key, operation.operation), "capacity": None,
        "plate": _size(machine, "motor_power"), "rated thrust": _size(machine, "rated_thrust"),
        "most": 22 * 9.80665, "stages": float(machine.drive_stages),
    }  # fmt: skip


_EDGE_DEG = {"reaming": 45.0, "counterboring": 90.0}


def _ring(row: Row, shop: Shop, operation: SetUp, sheet: SetUpSheet) -> Numbers:
    """What a tool that enlarges a hole takes away, and how thin its chip is."""
    tool, pilot = shop.tools[operation.tool], _size(operation, "pilot")
    if row.key != "torque" or operation.operation == "tapping":
        return {}
    if operation.operation == "drilling":
        return {"hole": pilot, "edges": 2.0}
    rows = {one.key: one for one in sheet.rows}
    final, hole = _size(tool, "size"), _size(operation, "hole_diameter")
    if operation.operation == "countersinking":
        final = _mouth(operation, rows.get("mouth"))
    elif operation.operation == "reaming":
        hole = _hole_of_thread(shop, operation) or min(
            one.value for one in rows["hole_before"].sums)  # fmt: skip
    else:
        final = max(final or 0.0, rows["bore_diameter"].figure.low)  # type: ignore[union-attr]
        hole = rows["bore_pilot"].figure.low  # type: ignore[union-attr]
    whole = _size(tool, "point_angle")
    angle = whole / 2 if whole else _EDGE_DEG[operation.operation]
    lip, own = math.sin(math.radians(59)), math.sin(math.radians(angle))
    edges = float(tool.edges or 0)
    return {
        "D": final, "hole": hole, "edges": edges, "lip sine": lip, "edge sine": own,
        "thinner": edges / 2 * lip / own, "lands": 2.0,
        "FM": (final or 0.0) ** 1.8, "A": 1.085,
    }  # fmt: skip


_RATIOS = {"reaming": (0.33, 0.66), "counterboring": (0.80, 0.85), "countersinking": (0.25, 0.25)}


def _mouth(operation: SetUp, row: Row | None) -> float | None:
    if row is not None and row.sums:
        return row.sums[0].value
    return _size(operation, "mouth")


def _arms(operation: SetUp, job: Job) -> Range:
    held = operation.holding or job.holding
    arms = [_size(held, way, "arm") for way in ("clamping", "positive_stop")]
    known = [arm for arm in arms if arm is not None]
    return (known[0], known[-1]) if known else None


def _bore(operation: SetUp, tool: Tool) -> Numbers:
    """The saddle of a tube's bore by another way: the angle that the drill spans in it."""
    outside, wall = _size(operation, "work_diameter"), _size(operation, "wall")
    drill = _size(tool, "size")
    if outside is None or wall is None or drill is None:
        return {}
    bore = outside / 2 - wall
    spans = math.asin(min(1.0, drill / 2 / bore))
    return {"saddle of the bore": bore * (1 - math.cos(spans))}


def _factors(row: Row, shop: Shop, job: Job, operation: SetUp) -> Numbers:
    """The handbook's factors, by the tables and not by the row."""
    tool, material = shop.tools[operation.tool], shop.material_of(job)
    factors = material.drilling if material else None
    if row.key not in ("thrust", "torque") or not factors:
        return {}
    if not tool.chisel_ratio:
        feed = drill_factors.feed_factor(_size(operation, "feed") or 0.01)
        return {"Kd": float(factors.kd_torque or 0), "Ff": feed}
    edge, drill = drill_factors.chisel_factors(tool.chisel_ratio), _size(tool, "size") or 0.0
    kd = factors.kd_thrust if row.key == "thrust" else factors.kd_torque
    return {
        "Kd": float(kd or 0),
        "Ff": drill_factors.feed_factor(_size(operation, "feed") or 0.0),
        "FT": drill_factors.thrust_diameter_factor(drill),
        "FM": drill_factors.torque_diameter_factor(drill),
        "A": edge.torque_a,
        "B": edge.thrust_b,
        "J": edge.thrust_j,
        "chisel edge": drill * tool.chisel_ratio,
        "share of the chisel edge": feel.chisel_cutting_share(tool.chisel_ratio),
    }

"""Whether the work is held: capacity of clamps or stop against torque, with a margin."""

from __future__ import annotations

from benchleaf.formulas import holding
from benchleaf.formulas.quantities import in_unit
from benchleaf.model import Clamping, Holding, PositiveStop

from .results import rough
from .sheet import Sheet, cited

LABEL = "Holding, torque it can resist"


def work_holding(sheet: Sheet) -> None:
    """Capacity of the holding against the torque times the margin."""
    held = sheet.case.holding
    capacity = capacity_of(held)
    if held is None or capacity is None:
        holding_unknown(sheet, held)
        return
    parts = _capacities(held)
    sheet.values["capacity"] = capacity
    _write(sheet, held, parts, capacity)
    if not sheet.has("torque"):
        missing = next((row.missing for row in sheet.rows if row.key == "torque"), "the torque")
        _unknown(
            sheet,
            "the torque to hold against is not computed, so the holding is not shown to be "
            f"enough: {missing} is missing",
            f"enter it: {missing}",
        )
        return
    _judge(sheet, held, capacity)


def capacity_of(held: Holding | None) -> float | None:
    """Torque in N m that the better of clamping and stop resists; None where neither is known."""
    parts = _capacities(held) if held is not None else []
    return max((value for value, _, _ in parts), default=None)


def holding_unknown(sheet: Sheet, held: Holding | None) -> None:
    """A row that is not computed, and the reason not to run."""
    wanted = _wanted(sheet, held)
    sheet.lacks("holding", LABEL, wanted)
    _unknown(sheet, f"the holding is not known: {wanted} is missing", _ENTER)


def _wanted(sheet: Sheet, held: Holding | None) -> str:
    where = f"jobs/{sheet.case.job.id}"
    if held is None:
        return f"holding in {where}"
    return f"holding.clamping or holding.positive_stop in {where}"


_ENTER = "enter clamp force, friction and arm, or a positive stop with its rated force"


def _unknown(sheet: Sheet, reason: str, cure: str) -> None:
    path = sheet.case.holding_path if sheet.case.holding else sheet.case.path()
    sheet.stop("S506", reason, cure, path)


def _capacities(held: Holding) -> list[tuple[float, str, str]]:
    """Capacity in N m, its formula and its working, for each way of holding entered."""
    parts = []
    if held.clamping is not None:
        parts.append(_by_friction(held.clamping))
    if held.positive_stop is not None:
        parts.append(_by_stop(held.positive_stop))
    return parts


def _by_friction(clamping: Clamping) -> tuple[float, str, str]:
    force, arm = clamping.force.value, clamping.arm.value
    capacity = holding.friction_torque_nm(force, clamping.friction, arm, clamping.faces)
    working = (
        f"{force:.0f} × {clamping.friction:g} × {arm:g} × {clamping.faces} ÷ 1000 = "
        f"{capacity:.1f} N m"
    )
    return capacity, "clamp force × friction × arm × faces ÷ 1000", working


def _by_stop(stop: PositiveStop) -> tuple[float, str, str]:
    force, arm = stop.rated_force.value, stop.arm.value
    capacity = holding.stop_torque_nm(force, arm)
    return (
        capacity,
        "rated force of the stop × arm ÷ 1000",
        f"{force:.0f} × {arm:g} ÷ 1000 = {capacity:.1f} N m",
    )


def _sources(held: Holding) -> str:
    entered = [part.source for part in (held.clamping, held.positive_stop) if part is not None]
    return "; ".join([cited("statics"), cited("margin"), *entered])


def _write(
    sheet: Sheet, held: Holding, parts: list[tuple[float, str, str]], capacity: float
) -> None:
    limits = f"at least {held.margin:g} times the torque"
    if sheet.has("torque"):
        needed = sheet.values["torque"] * held.margin
        limits += f": {sheet.values['torque']:.1f} × {held.margin:g} = {needed:.1f} N m"
    sheet.write(
        "holding",
        LABEL,
        rough(capacity, "N m"),
        other=rough(in_unit(capacity, "torque", "lbf in"), "lbf in"),
        formula="capacity = " + ", or ".join(formula for _, formula, _ in parts),
        working="; ".join(working for _, _, working in parts),
        source=_sources(held),
        limits=limits,
        note=held.margin_reason
        or ("the margin is for torque that is good to a third and for the grab at break-through"),
    )


def _judge(sheet: Sheet, held: Holding, capacity: float) -> None:
    torque = sheet.values["torque"]
    sheet.values["wanted"] = torque * held.margin
    ratio = holding.holding_ratio(capacity, torque)
    if ratio < held.margin:
        sheet.stop(
            "S505",
            f"the holding resists {capacity:.1f} N m, which is {ratio:.1f} times the torque; "
            f"{held.margin:g} times is wanted ({torque * held.margin:.1f} N m)",
            "clamp harder, further from the drill, or against a positive stop",
            sheet.case.holding_path,
        )

"""Thrust, torque and power of drilling by the handbook's formula, against the machine's limits."""

from __future__ import annotations

from benchleaf.formulas import drill_factors, drilling
from benchleaf.formulas.quantities import in_unit
from benchleaf.model import DrillingFactors

from .feel import loads_of
from .results import figure, rough, told_in
from .sheet import Sheet, cited, first_missing

_TABLES = ("mh31-drilling", "mh31-table-7", "mh31-table-8", "mh31-table-9", "mh31-table-3")
_GOOD_TO_A_THIRD = "good to about a third: two published models differ by 28 to 34 %"


def _missing_factor(sheet: Sheet, kd_key: str) -> str | None:
    """The name of the first factor that is not known."""
    tool, material = sheet.case.tool, sheet.case.material
    if material is None:
        return f"part.material in jobs/{sheet.case.job.id}"
    factors = material.drilling
    kd = getattr(factors, kd_key) if factors else None
    if kd is None:
        return f"drilling.{kd_key} in materials/{material.id}"
    missing = first_missing(
        (tool.size, "size"), (tool.chisel_ratio, "chisel_ratio"), (tool.wear_factor, "wear_factor")
    )
    return f"{missing} in tools/{tool.id}" if missing else None


def _source(factors: DrillingFactors, wear_source: str | None) -> str:
    wear = f"; wear factor: {wear_source}" if wear_source else ""
    return f"{cited(*_TABLES)}; Kd: {factors.source}{wear}"


def thrust(sheet: Sheet) -> None:
    """Thrust along the spindle, against the machine's rating."""
    case, label = sheet.case, "Thrust along the drill"
    missing = _missing_factor(sheet, "kd_thrust")
    if missing:
        sheet.lacks("thrust", label, missing)
        return
    d, f, kd, chisel, wear = _inputs(sheet, "kd_thrust")
    pilot = case.drilling.pilot
    force = drilling.thrust_n(d, f, kd=kd, chisel_ratio=chisel, wear=wear)
    if pilot is not None:
        _thrust_after_pilot(sheet, pilot.value)
        return
    sheet.values["thrust"] = force
    shown, edge = rough(force, "N"), drill_factors.chisel_factors(chisel)
    sheet.write(
        "thrust",
        label,
        shown,
        other=rough(in_unit(force, "force", "lbf"), "lbf"),
        formula="T = 0.05 × Kd × Ff × FT × B × W + 0.007 × Kd × D² × J × W",
        working=(
            f"0.05 × {kd:.0f} × {drill_factors.feed_factor(f):.3f} × "
            f"{drill_factors.thrust_diameter_factor(d):.2f} × {edge.thrust_b:g} × {wear:g} + "
            f"0.007 × {kd:.0f} × {d:g}² × {edge.thrust_j:g} × {wear:g} = {force:.0f} N"
        ),
        source=_source(case.material.drilling, case.tool.wear_factor_source),  # type: ignore[union-attr, arg-type]
        limits=_limit_text(sheet, "rated_thrust"),
        note="good to two digits at best",
    )
    _check_thrust(sheet, force, f)


def _check_thrust(sheet: Sheet, force: float, feed: float) -> None:
    machine = sheet.case.machine
    rated = machine.rated_thrust
    if rated is not None and force > rated.value:
        sheet.stop(
            "S503",
            f"the cut pushes with {force:.0f} N at {feed:g} mm/rev; {machine.name} is rated for "
            f"{rated.text}",
            "use a smaller feed, a pilot hole or another machine",
            sheet.case.path("feed"),
        )


def _thrust_after_pilot(sheet: Sheet, pilot_mm: float) -> None:
    """After a pilot hole only the lips push; the handbook's formula is for solid metal."""
    case = sheet.case
    missing = _missing_factor(sheet, "kd_torque")
    if missing:
        sheet.lacks("thrust", "Thrust along the drill", missing)
        return
    force = loads_of(sheet).lips_n
    sheet.values["thrust"] = force
    shown = rough(force, "N")
    sheet.write(
        "thrust",
        "Thrust along the drill",
        shown,
        other=rough(in_unit(force, "force", "lbf"), "lbf"),
        formula="thrust of the lips outside the pilot hole",
        working=f"with a pilot of {pilot_mm:g} mm the chisel edge meets no metal: {force:.0f} N",
        source=cited("mh31-drilling", "mh31-table-7", "feel-spread", "chisel-share"),
        limits=_limit_text(sheet, "rated_thrust"),
        note="good to two digits at best",
    )
    _check_thrust(sheet, force, case.drilling.feed.value)


def torque(sheet: Sheet) -> None:
    """Torque on the work and on the spindle."""
    case, label = sheet.case, "Torque on the work"
    missing = _missing_factor(sheet, "kd_torque")
    if missing:
        sheet.lacks("torque", label, missing)
        return
    d, f, kd, chisel, wear = _inputs(sheet, "kd_torque")
    turning = drilling.torque_nm(d, f, kd=kd, chisel_ratio=chisel, wear=wear)
    sheet.values["torque"] = turning
    sheet.write(
        "torque",
        label,
        rough(turning, "N m"),
        other=rough(in_unit(turning, "torque", "lbf in"), "lbf in"),
        formula="M = Kd × Ff × FM × A × W ÷ 40000",
        working=(
            f"{kd:.0f} × {drill_factors.feed_factor(f):.3f} × "
            f"{drill_factors.torque_diameter_factor(d):.1f} × "
            f"{drill_factors.chisel_factors(chisel).torque_a:g} × {wear:g} ÷ 40000 = "
            f"{turning:.1f} N m"
        ),
        source=_source(case.material.drilling, case.tool.wear_factor_source),  # type: ignore[union-attr, arg-type]
        limits="steady cutting; the grab at break-through is more",
        note=_GOOD_TO_A_THIRD,
    )


def power(sheet: Sheet) -> None:
    """Power at the drill and asked of the motor."""
    machine = sheet.case.machine
    if not sheet.has("torque", "n"):
        sheet.lacks("cutter_power", "Power at the drill", "the torque and the spindle speed above")
        sheet.lacks("motor_power", "Power asked of the motor", "the power at the drill above")
        return
    turning, n = sheet.values["torque"], sheet.values["n"]
    at_drill = drilling.cutter_power_kw(turning, n)
    sheet.write(
        "cutter_power",
        "Power at the drill",
        figure(at_drill, "kW", 2),
        other=told_in(figure(at_drill, "kW", 2), "power", "hp", 2),
        formula="Pc = M × n ÷ 9550",
        working=f"{turning:.1f} × {n:.0f} ÷ 9550 = {at_drill:.2f} kW",
        source=cited("mh31-drilling"),
        limits="with the torque above",
        note=_GOOD_TO_A_THIRD,
    )
    if machine.efficiency is None:
        sheet.lacks(
            "motor_power", "Power asked of the motor", f"efficiency in machines/{machine.id}"
        )
        return
    _motor_power(sheet, at_drill, machine.efficiency)


def _motor_power(sheet: Sheet, at_drill: float, efficiency: float) -> None:
    machine = sheet.case.machine
    asked = drilling.motor_power_kw(at_drill, efficiency)
    shown = figure(asked, "kW", 2)
    sheet.write(
        "motor_power",
        "Power asked of the motor",
        shown,
        other=told_in(shown, "power", "hp", 2),
        formula="Pm = Pc ÷ efficiency",
        working=f"{at_drill:.2f} ÷ {efficiency:g} = {asked:.2f} kW",
        source=f"{cited('mh31-drilling')}; efficiency: "
        f"{machine.efficiency_source or 'source not given'}",
        limits=_limit_text(sheet, "motor_power"),
        note=_GOOD_TO_A_THIRD,
    )
    if machine.motor_power is not None and asked > machine.motor_power.value:
        sheet.stop(
            "S502",
            f"the cut asks {asked:.3f} kW of the motor; {machine.name} has "
            f"{machine.motor_power.text}",
            "use a smaller feed, a pilot hole or another machine",
            sheet.case.path("feed"),
        )


def _inputs(sheet: Sheet, kd_key: str) -> tuple[float, float, float, float, float]:
    """Diameter, feed, Kd, chisel ratio and wear factor; `_missing_factor` has seen them all."""
    tool, material = sheet.case.tool, sheet.case.material
    kd = getattr(getattr(material, "drilling", None), kd_key)
    diameter = getattr(tool.size, "value", None)
    found = (diameter, sheet.values["feed"], kd, tool.chisel_ratio, tool.wear_factor)
    d, f, k, chisel, wear = (float(value) for value in found if value is not None)
    return d, f, k, chisel, wear


def _limit_text(sheet: Sheet, key: str) -> str:
    machine = sheet.case.machine
    limit = getattr(machine, key)
    if limit is None:
        return f"not checked: {key} is missing in machines/{machine.id}"
    return f"the machine is good for {limit.text} ({machine.limits_source or 'source not given'})"

"""Thrust, torque and power of drilling by the handbook's formula, against the machine's limits."""

from __future__ import annotations

from dataclasses import replace

from benchleaf.diagnose import Code, Sample

from . import figures_cutting as cut
from . import figures_enlarging as enlarge
from .feel import entered_factors, loads_of
from .sheet import AND, Sheet, cited, every_missing, known

TOO_LITTLE_POWER = Code(
    "S502",
    "The cut needs more power than the motor gives",
    why="The belt slips or the spindle stalls in the cut.",
    instead="Use a smaller feed, a pilot hole or another machine.",
    bad=(
        Sample(
            """
            # A motor that is too weak.
            - file: machines/bench-drill.yml
              find: "motor_power: 1.5 kW"
              put: "motor_power: 0.75 kW"
            """,
            """
            content/jobs/vg-0010.yml:49:11: stop S502 do not run VG-0010 (guide-hole): the
                    cut asks 1.025 kW of the motor; Bench drill has 0.75 kW
                use a smaller feed, a pilot hole or another machine
            """,
        ),
        Sample(
            """
            # A motor that is too weak, in horsepower.
            - file: machines/bench-drill.yml
              find: "motor_power: 1.5 kW"
              put: "motor_power: 1 hp"
            """,
            """
            content/jobs/vg-0010.yml:49:11: stop S502 do not run VG-0010 (guide-hole): the
                    cut asks 1.025 kW of the motor; Bench drill has 1 hp
                use a smaller feed, a pilot hole or another machine
            """,
        ),
    ),
    good="""
        # A motor with power to spare.
        - file: machines/bench-drill.yml
          find: "motor_power: 1.5 kW"
          put: "motor_power: 1.2 kW"
    """,
)

TOO_MUCH_THRUST = Code(
    "S503",
    "The cut needs more thrust than the machine is rated for",
    why="The table or column springs, and the drill grabs when it breaks through.",
    instead="Use a smaller feed, a pilot hole or another machine.",
    bad=(
        Sample(
            """
            # A machine not rated for the thrust.
            - file: machines/bench-drill.yml
              find: "rated_thrust: 4 kN"
              put: "rated_thrust: 2.8 kN"
            """,
            """
            content/jobs/vg-0010.yml:49:11: stop S503 do not run VG-0010 (guide-hole): the
                    cut pushes with 2865 N at 0.15 mm/rev; Bench drill is rated for 2.8 kN
                use a smaller feed, a pilot hole or another machine
            """,
        ),
    ),
    good="""
        # A machine rated for the thrust.
        - file: machines/bench-drill.yml
          find: "rated_thrust: 4 kN"
          put: "rated_thrust: 3 kN"
    """,
)


def _missing_factor(sheet: Sheet, kd_key: str) -> str | None:
    """The names of the factors that are not known."""
    tool, material = sheet.case.tool, sheet.case.material
    if material is None:
        return f"part.material in jobs/{sheet.case.job.id}"
    kd = getattr(material.drilling, kd_key) if material.drilling else None
    missing = every_missing(
        (kd, f"drilling.{kd_key} in materials/{material.id}"),
        (tool.size, f"size in tools/{tool.id}"),
        (tool.chisel_ratio, f"chisel_ratio in tools/{tool.id}"),
        (tool.wear_factor, f"wear_factor in tools/{tool.id}"),
    )
    return AND.join(missing) or None


def thrust(sheet: Sheet) -> None:
    """Thrust along the spindle, against the machine's rating."""
    case = sheet.case
    pilot = case.drilling.pilot
    missing = _missing_factor(sheet, "kd_thrust")
    if not missing and pilot is not None:
        missing = _missing_factor(sheet, "kd_torque")
    if missing:
        sheet.lacks(cut.THRUST, missing)
        return
    inputs = _inputs(sheet, "kd_thrust")
    limits = _limit_text(sheet, "rated_thrust")
    if pilot is None:
        force = sheet.work(cut.THRUST, *inputs, limits=limits, also=entered_factors(sheet))
    else:
        force = _thrust_after_pilot(sheet, inputs, pilot.value, limits)
    rated = case.machine.rated_thrust
    sheet.reach(most=rated.value if rated else None)
    sheet.found = replace(sheet.drilled, thrust=force)
    _check_thrust(sheet, force, case.drilling.feed.value)


def _thrust_after_pilot(
    sheet: Sheet, inputs: tuple[float, ...], pilot_mm: float, limits: str
) -> float:
    """After a pilot hole only the lips push; the handbook's formula is for solid metal."""
    loads_of(sheet)  # refuses a pilot outside what the formula covers
    after = f"; with a pilot of {pilot_mm:g} mm the chisel edge meets no metal"
    return float(sheet.work(cut.PILOTED_THRUST, *inputs, pilot_mm, after=after, limits=limits))


def _check_thrust(sheet: Sheet, force: float, feed: float) -> None:
    machine = sheet.case.machine
    rated = machine.rated_thrust
    if rated is not None and force > rated.value:
        sheet.stop(
            TOO_MUCH_THRUST,
            f"the cut pushes with {force:.0f} N at {feed:g} mm/rev; {machine.name} is rated for "
            f"{rated.text}",
            "use a smaller feed, a pilot hole or another machine",
            sheet.case.path("feed"),
        )


def torque(sheet: Sheet) -> None:
    """Torque on the work and on the spindle."""
    missing = _missing_factor(sheet, "kd_torque")
    if missing:
        sheet.lacks(cut.TORQUE, missing)
        return
    inputs, pilot = _inputs(sheet, "kd_torque"), sheet.case.drilling.pilot
    if pilot is None:
        limits = "steady cutting; the grab at break-through is more"
        turning = sheet.work(cut.TORQUE, *inputs, limits=limits, also=entered_factors(sheet))
    else:
        turning = _torque_after_pilot(sheet, inputs, pilot.value)
    sheet.found = replace(sheet.found, torque=turning)


def _torque_after_pilot(sheet: Sheet, inputs: tuple[float, ...], pilot_mm: float) -> float:
    """The higher of the two models, and the other beside it."""
    loads_of(sheet)  # refuses a pilot outside what the formula covers
    diameter, feed, kd, chisel, wear = inputs
    second = enlarge.SECOND.sums(diameter, pilot_mm, feed, kd, wear, 2)
    also = f"second model: {cited(*enlarge.SECOND.sources)}; {entered_factors(sheet)}"
    sizes = (diameter, pilot_mm, feed, kd, wear, chisel)
    return float(sheet.work(enlarge.AFTER_PILOT, *sizes, beside=second, also=also))


def power(sheet: Sheet) -> None:
    """Power at the drill and asked of the motor."""
    machine = sheet.case.machine
    turning, n = sheet.found.torque, sheet.found.n
    if turning is None or n is None:
        sheet.lacks(cut.CUTTER_POWER, "the torque and the spindle speed above")
        lacked = (
            "the power at the drill above"
            if machine.efficiency is not None
            else _no_efficiency(sheet)
        )
        sheet.lacks(cut.MOTOR_POWER, lacked)
        return
    at_drill = sheet.work(cut.CUTTER_POWER, turning, n, limits="with the torque above")
    if machine.efficiency is None:
        sheet.lacks(cut.MOTOR_POWER, _no_efficiency(sheet))
        return
    _motor_power(sheet, at_drill, machine.efficiency)


def _no_efficiency(sheet: Sheet) -> str:
    return f"efficiency in machines/{sheet.case.machine.id}"


def _motor_power(sheet: Sheet, at_drill: float, efficiency: float) -> None:
    machine = sheet.case.machine
    asked = sheet.work(
        cut.MOTOR_POWER,
        at_drill,
        efficiency,
        limits=_limit_text(sheet, "motor_power"),
        also=f"efficiency: {machine.efficiency_source or 'source not given'}",
    )
    sheet.reach(most=machine.motor_power.value if machine.motor_power else None)
    if machine.motor_power is not None and asked > machine.motor_power.value:
        sheet.stop(
            TOO_LITTLE_POWER,
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
    chisel, wear = known(tool.chisel_ratio), known(tool.wear_factor)
    return known(diameter), known(sheet.found.feed), known(kd), chisel, wear


def _limit_text(sheet: Sheet, key: str) -> str:
    machine = sheet.case.machine
    limit = getattr(machine, key)
    if limit is None:
        return f"not checked: {key} is missing in machines/{machine.id}"
    return f"the machine is good for {limit.text} ({machine.limits_source or 'source not given'})"

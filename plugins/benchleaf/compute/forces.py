"""Thrust, torque and power of drilling by the handbook's formula, against the machine's limits."""

from __future__ import annotations

from dataclasses import replace

from benchleaf.diagnose import Code, Sample
from benchleaf.formulas import spread
from benchleaf.formulas.drilling_limits import KD_RANGE, LOWEST_KD, is_far_below
from benchleaf.model import Material

from . import figures_cutting as cut
from . import figures_enlarging as enlarge
from .amounts import amount, entered
from .declaration import ends
from .feel import entered_factors, loads_of
from .figures_worst import POWER, THRUST
from .finer_feed import finer_for_power, finer_for_thrust
from .found import Drilled
from .grip import metal_of
from .results import Side
from .sheet import AND, Sheet, cited, every_missing, known
from .worst import Compared, Way, compare, cut_offs, drive_off, no_less, told_times

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
                    cut asks 1.1 kW of the motor; Bench drill has 0.75 kW
                use a feed of 0.101 mm/rev or finer, a pilot hole or another machine
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
                    cut asks 1.1 kW of the motor; Bench drill has 1 hp
                use a feed of 0.100 mm/rev or finer, a pilot hole or another machine
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
                    cut pushes with 2900 N at 0.15 mm/rev; Bench drill is rated for 2.8 kN
                use a feed of 0.090 mm/rev or finer, a pilot hole or another machine
            """,
        ),
    ),
    good="""
        # A machine rated for the thrust, at worst too.
        - file: machines/bench-drill.yml
          find: "rated_thrust: 4 kN"
          put: "rated_thrust: 3.95 kN"
    """,
)


def factor_of_its_metal(sheet: Sheet) -> None:
    """A doubt where a Kd is far below the handbook's for the metal: the torque looks small."""
    material = sheet.case.material
    if material is None or material.drilling is None:
        return
    metal, factors = metal_of(material), material.drilling
    named = {"kd_torque": factors.kd_torque, "kd_thrust": factors.kd_thrust}
    low = [
        (key, kd)
        for key, kd in named.items()
        if kd is not None and kd >= KD_RANGE[0] and is_far_below(kd, metal)
    ]
    if low:
        told = " and ".join(f"{key} {kd:g}" for key, kd in low)
        sheet.doubt(
            KD_TOO_LOW,
            Side.BELOW,
            f"{told} of {material.name}: the handbook's lowest Kd for {metal_told(material)} is "
            f"{LOWEST_KD[metal]:g}. Too low a Kd makes torque and thrust look small.",
        )


KD_TOO_LOW = "kd-too-low"


def metal_told(material: Material) -> str:
    """The metal of a table, and whether nobody entered it."""
    metal = metal_of(material)
    is_entered = material.metal is not None or metal == "steel"
    return metal if is_entered else f"{metal}, as no metal is entered,"


def _missing_factor(sheet: Sheet, kd_key: str) -> str | None:
    """The names of the factors that are not known."""
    tool, material = sheet.case.tool, sheet.case.material
    if material is None:
        return f"part in jobs/{sheet.case.job.id}"
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
    one, after = cut.THRUST, ""
    sizes: tuple[float, ...] = _inputs(sheet, "kd_thrust")
    if pilot is not None:
        # After a pilot hole only the lips push; the handbook's formula is for solid metal.
        loads_of(sheet)  # refuses a pilot outside what the formula covers
        one, sizes = cut.PILOTED_THRUST, (*sizes, pilot.value)
        after = f"; with a pilot of {amount(pilot.value, 'mm')} the chisel edge meets no metal"
    force = ends(one.run(*sizes))[0]
    limits, found = _limit_text(sheet, "rated_thrust"), _thrust_compared(sheet, force)
    if found is not None:
        limits = f"{limits}: {found.words}"
    beside, also = found.sums if found else (), entered_factors(sheet)
    sheet.work(one, *sizes, after=after, beside=beside, limits=limits, also=also)
    if found is not None and case.machine.rated_thrust is not None:
        sheet.reach(most=case.machine.rated_thrust.value, advised=(None, force * found.worst))
    sheet.found = replace(sheet.drilled, thrust=force)
    if found is not None:
        _check_thrust(sheet, force, found)


def _thrust_compared(sheet: Sheet, force: float) -> Compared | None:
    rated = sheet.case.machine.rated_thrust
    if rated is None:
        return None
    return compare(THRUST, [Way(rated.value)], force, cut_offs(sheet, "thrust"))


def _check_thrust(sheet: Sheet, force: float, found: Compared) -> None:
    machine, feed = sheet.case.machine, sheet.case.drilling.feed.value
    if machine.rated_thrust is None:
        return
    rated = entered(machine.rated_thrust, "down")
    if found.times < 1:
        sheet.stop(
            TOO_MUCH_THRUST,
            f"the cut pushes with {no_less(force, 'N')} at {amount(feed, 'mm/rev')}; "
            f"{machine.name} is rated for {rated}",
            finer_for_thrust(sheet, machine.rated_thrust.value, found),
            sheet.case.path("feed"),
        )
    elif found.worst < 1:
        sheet.doubt(
            "thrust-at-worst",
            Side.ABOVE,
            f"At worst the thrust is more than the {rated} that {machine.name} is rated for: "
            f"{found.told_most}.",
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
    limits = "with the torque above"
    at_drill = sheet.work(cut.CUTTER_POWER, turning, n, limits=limits, note=_good_to(sheet))
    if machine.efficiency is None:
        sheet.lacks(cut.MOTOR_POWER, _no_efficiency(sheet))
        return
    _motor_power(sheet, at_drill, machine.efficiency)


def _no_efficiency(sheet: Sheet) -> str:
    return f"efficiency in machines/{sheet.case.machine.id}"


def _motor_power(sheet: Sheet, at_drill: float, efficiency: float) -> None:
    machine = sheet.case.machine
    stages, one, sizes = machine.drive_stages, cut.MOTOR_POWER, [at_drill, efficiency]
    if stages > 1:
        one, sizes = cut.MOTOR_POWER_BY_STAGES, [*sizes, stages]
    asked, plate = ends(one.run(*sizes))[0], machine.motor_power
    limits, found = _limit_text(sheet, "motor_power"), None
    if plate is not None:
        offs = (*cut_offs(sheet, _torque_model(sheet)), *drive_off(efficiency**stages))
        found = compare(POWER, [Way(plate.value)], asked, offs)
        limits = f"{limits}: {found.words}"
        if found.worst < 1 <= found.times:
            limits = f"{limits}; a motor bears {spread.MOTOR_BEARS:g} times its plate for 15 s"
    efficient = f"efficiency: {machine.efficiency_source or 'source not given'}"
    also = f"{efficient}; {cited('iec-60034')}" if plate is not None else efficient
    beside = found.sums if found else ()
    sheet.work(one, *sizes, beside=beside, limits=limits, also=also, note=_good_to(sheet))
    if found is not None and plate is not None:
        # The motor is doubted where it may stall; a plate that is passed at worst only is borne.
        stalls = asked * found.worst * spread.MOTOR_BEARS
        sheet.reach(most=plate.value, advised=(None, min(plate.value, stalls)))
        _check_power(sheet, asked, found)


def _check_power(sheet: Sheet, asked: float, found: Compared) -> None:
    machine = sheet.case.machine
    plate = entered(machine.motor_power, "down") if machine.motor_power else ""
    stalls = found.worst * spread.MOTOR_BEARS
    if found.times < 1:
        sheet.stop(
            TOO_LITTLE_POWER,
            f"the cut asks {no_less(asked, 'kW')} of the motor; {machine.name} has {plate}",
            finer_for_power(sheet, min(found.times, stalls))
            if isinstance(sheet.found, Drilled)
            else "use a smaller feed, a slower speed or another machine",
            sheet.case.path("feed"),
        )
    elif stalls < 1:
        sheet.doubt(
            "power-at-worst",
            Side.ABOVE,
            f"The motor may stall: at worst its {plate} are {told_times(found.worst)} enough, and "
            f"{found.told_most}.",
        )


def _torque_model(sheet: Sheet) -> str:
    return "torque" if isinstance(sheet.found, Drilled) else "enlarging"


def _good_to(sheet: Sheet) -> str:
    """The power of enlarging is as rough as its torque."""
    return cut.GOOD_TO_A_THIRD if isinstance(sheet.found, Drilled) else enlarge.ROUGH


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
    source = machine.limits_source or "source not given"
    return f"the machine is good for {entered(limit, 'down')} ({source})"

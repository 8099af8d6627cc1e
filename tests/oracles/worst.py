"""The worst case by another way: every record is made worse, and the set-up is reckoned again.

The product divides a quotient by factors. Here the factors are put into the records themselves:
a harder metal, a dull edge, a slack clamp, slippery jaws, a lossy drive. Figures are those of the
sources, typed here a second time.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from benchleaf.compute import Row, SetUpSheet, set_up_sheets
from benchleaf.model import Holding, Job, Machine, Material, SetUp, Shop, Tool
from oracles.workings import same

LEAST = {"feel": 0.65, "torque handle": 0.75, "lowest measured": 0.9}
SLIPPERY = {
    ("ground", "smooth"): 0.06 / 0.07, ("machined", "smooth"): 1.0,
    ("unmachined", "smooth"): 0.14 / 0.15,
    ("ground", "diamond serrated"): 0.07 / 0.12, ("machined", "diamond serrated"): 0.11 / 0.2,
    ("unmachined", "diamond serrated"): 0.16 / 0.3,
    ("ground", "serrated"): 0.15 / 0.2, ("machined", "serrated"): 0.18 / 0.35,
    ("unmachined", "serrated"): 0.2 / 0.45,
}  # fmt: skip
JUDGED = {
    "holding": "torque", "exit_torque": "exit_torque", "feed_stop_torque": "feed_stop_torque",
    "held_down": "pull", "motor_power": "motor_power", "thrust": "thrust",
    "lever_force": "lever_force", "torque_limit": "dull_torque",
}  # fmt: skip
"""Rows that a comparison stands in, and what is asked in them."""


def worst_factors(shop: Shop, job: Job, operation: SetUp) -> Mapping[str, float]:
    """How many times each input makes a comparison worse, by the name its formula gives it."""
    machine, tool = shop.machines[job.machine], shop.tools[operation.tool]
    material = shop.material_of(job)
    metal = str(material.metal) if material and material.metal else "steel"
    found = {"metal": 1.3 if metal == "grey cast iron" else 1.15}
    if tool.wear_factor:
        found["wear"] = max(1.0, 1.5 / tool.wear_factor)
    if machine.efficiency:
        found["drive"] = (machine.efficiency**machine.drive_stages) ** -0.6
    held = operation.holding or job.holding
    if held is not None and held.clamping is not None:
        one = held.clamping
        found["clamp"] = 1 / LEAST[str(one.force_known_by)]
        found["grip"] = 1 / _slip(job, held)
    return found


def _slip(job: Job, held: Holding) -> float:
    one = held.clamping
    assert one is not None
    if one.friction is not None and one.friction_source:
        film = 1.3 / 1.1 if one.jaw_surface == "smooth" else 1.2
        return 0.9 / (1.0 if job.fluid or "wet" in one.friction_source else film)
    row = (str(one.work_surface or "unmachined"), str(one.jaw_surface))
    film = 1.3 / 1.1 if row[1] == "smooth" else 1.2
    return SLIPPERY[row] / (1.0 if job.fluid else film)


def model_of(key: str, operation: str) -> float:
    """How many times higher another model may be, by row."""
    if key in ("thrust", "lever_force"):
        return 1.03
    return {"drilling": 1.0, "tapping": 1.36}.get(operation, 1.25)


def worst_problems(shop: Shop, job: Job, sheet: SetUpSheet) -> Iterator[str]:
    """Rows whose worst case is another than that of the worse records, or better than entered."""
    operation = next(one for one in job.set_ups if one.id == sheet.id)
    again = _worse(shop, job, operation, sheet)
    for row in sheet.rows:
        if row.key not in JUDGED or row.figure is None:
            continue
        told = {one.formula.partition(" = ")[0]: one.value for one in row.sums}
        entered = told.get("held", told.get("enough"))
        wanted = expected(row, sheet, again, operation)
        if (wanted is None) != ("at worst" not in told):
            yield f"{sheet.id} {row.key}: the worst case is told where none is, or left out"
        elif wanted is not None and not same(wanted, told["at worst"]):
            yield f"{sheet.id} {row.key}: at worst {told['at worst']} times, by records {wanted}"
        if entered is not None and told["at worst"] > entered + 1e-9:
            yield f"{sheet.id} {row.key}: at worst it is better than as entered"
        for value in (entered, told.get("at worst")):
            if value is not None and floor_times(value) not in row.limits:
                yield f"{sheet.id} {row.key}: '{row.limits}' does not tell {value} times"


def floor_times(value: float) -> str:
    """As it may be told: never more than it is."""
    return f"{int(value)} times" if value >= 10 else f"{int(value * 10 + 1e-9) / 10} times"


def expected(row: Row, sheet: SetUpSheet, again: SetUpSheet, operation: SetUp) -> float | None:
    """Times enough with every record made worse; None where nothing is compared."""
    model = model_of(row.key, operation.operation)
    if row.key in ("motor_power", "thrust", "lever_force", "torque_limit"):
        limit = _limit(row)
        asked = _value(again, JUDGED[row.key])
        return None if limit is None or asked is None else limit / (asked * model)
    if row.key == "held_down":
        one = next((one for one in _row(again, "held_down").sums
                    if one.formula.startswith("pull = 2000 × torque ×")), None)  # fmt: skip
        return None if one is None else _known(_value(again, "held_down")) / one.value
    asked = _value(again, "dull_torque") if row.key == "holding" else None
    asked = _value(again, JUDGED[row.key]) if asked is None else asked
    held = _value(again, "holding")
    stops = _value(sheet, "feed_stop_torque") is not None and row.key == "exit_torque"
    return None if asked is None or held is None or stops else held / (asked * model)


def _limit(row: Row) -> float | None:
    for one in row.sums:
        if one.formula.startswith("enough"):
            return one.numbers[0][1]
    return None


def _row(sheet: SetUpSheet, key: str) -> Row:
    found = sheet.row(key)
    assert found is not None
    return found


def _value(sheet: SetUpSheet, key: str) -> float | None:
    row = sheet.row(key)
    return max(row.value) if row is not None and row.value is not None else None


def _known(value: float | None) -> float:
    assert value is not None
    return value


def _worse(shop: Shop, job: Job, operation: SetUp, sheet: SetUpSheet) -> SetUpSheet:
    """The same set-up with every record at its bad end."""
    factors = worst_factors(shop, job, operation)
    machine, tool = shop.machines[job.machine], shop.tools[operation.tool]
    metal = shop.material_of(job)
    changed = replace(
        shop,
        machines={**shop.machines, machine.id: _lossy(machine)},
        tools={**shop.tools, tool.id: _dull(tool)},
        materials={**shop.materials, **({metal.id: _hard(metal, factors)} if metal else {})},
    )
    slack = _slack(shop, job, operation, sheet, factors)
    own = operation.model_copy(update={"holding": slack})
    others = tuple(own if one.id == own.id else one for one in job.set_ups)
    worse = job.model_copy(update={"set_ups": others, "holding": slack})
    found = set_up_sheets(changed, worse)
    return next(one for one in found if one.id == sheet.id)


def _lossy(machine: Machine) -> Machine:
    update: dict[str, object] = {}
    if machine.efficiency:
        update["efficiency"] = machine.efficiency**1.6
    if machine.lever:
        share = machine.lever.efficiency**1.6
        update["lever"] = machine.lever.model_copy(update={"efficiency": share})
    return machine.model_copy(update=update)


def _dull(tool: Tool) -> Tool:
    return tool.model_copy(
        update={"wear_factor": max(1.5, tool.wear_factor) if tool.wear_factor else None}
    )


def _hard(metal: Material, factors: Mapping[str, float]) -> Material:
    update: dict[str, object] = {}
    for key, names in (("drilling", ("kd_thrust", "kd_torque")), ("tapping", ("kc",))):
        record = getattr(metal, key)
        if record is not None:
            update[key] = record.model_copy(update={
                name: value * factors["metal"]
                for name in names if (value := getattr(record, name)) is not None
            })  # fmt: skip
    return metal.model_copy(update=update)


def _slack(
    shop: Shop, job: Job, operation: SetUp, sheet: SetUpSheet, factors: Mapping[str, float]
) -> Holding | None:
    held = operation.holding or job.holding
    if held is None or held.clamping is None:
        return held
    one = held.clamping
    row = sheet.row("holding")
    counted = next((dict(part.numbers)["friction"] for part in row.sums
                    if "friction" in dict(part.numbers)), None) if row else None  # fmt: skip
    less = (end / factors["clamp"] for end in (one.force.low, one.force.high))
    low, high = less
    force = replace(one.force, low=low, high=high)
    update = {"force": force, "friction": (counted or 0.1) / factors["grip"],
              "friction_source": "made worse, tried wet"}  # fmt: skip
    return held.model_copy(update={"clamping": one.model_copy(update=update)})

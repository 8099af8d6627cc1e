"""What friction is counted for a clamping: as entered, or a table's, and less where it is wet."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.formulas.jaw_friction import (
    JAW_FRICTION,
    METAL_FACTOR,
    WET_FACTOR,
    counted_friction,
    table_friction,
)
from benchleaf.model import Clamping, Holding, Job, Material, WorkSurface


@dataclass(frozen=True, slots=True)
class Grip:
    """The friction of one clamping, and where it is from."""

    counted: float
    """What is reckoned with."""
    dry: float
    """Before what fluid takes."""
    table: float
    """What the published table gives for it."""
    work: str
    """Surface of the work that the table is read for."""
    jaws: str
    metal: str
    is_measured: bool
    """True where a source of its own is entered: it is taken as it stands."""
    is_entered: bool
    """True where a friction is entered and is not above the table, or has a source."""
    is_wet: bool


def grip_of(clamping: Clamping, job: Job, material: Material | None) -> Grip:
    """The friction to count: never more than the table gives, unless it has a source of its own."""
    work = (clamping.work_surface or WorkSurface.UNMACHINED).value
    jaws = clamping.jaw_surface.value
    metal = material.metal.value if material is not None and material.metal else "steel"
    table = round(table_friction(work, jaws, metal), 4)
    entered = clamping.friction
    if entered is not None and clamping.friction_source is not None:
        return Grip(entered, entered, table, work, jaws, metal, True, True, False)
    is_entered = entered is not None and entered <= table
    dry = entered if entered is not None and is_entered else table
    is_wet = job.fluid is not None
    counted = counted_friction(dry, WET_FACTOR[jaws] if is_wet else 1.0)
    return Grip(counted, dry, table, work, jaws, metal, False, is_entered, is_wet)


def gripped(held: Holding | None, job: Job, material: Material | None) -> Holding | None:
    """The holding with the friction that may be counted in place of the one entered."""
    if held is None or held.clamping is None:
        return held
    counted = grip_of(held.clamping, job, material).counted
    clamping = held.clamping.model_copy(update={"friction": counted})
    return held.model_copy(update={"clamping": clamping})


def grip_note(clamping: Clamping, grip: Grip) -> str:
    """What was done with the friction, for the reader; empty where it stands as it was entered."""
    said = []
    if not grip.is_entered:
        said.append(
            f"friction {grip.table:.2f} is the table's for {grip.work} {grip.metal} in "
            f"{grip.jaws} jaws, unmeasured"
        )
    elif clamping.work_surface is None and not grip.is_measured:
        others = ", ".join(
            f"{JAW_FRICTION[work, grip.jaws] * METAL_FACTOR[grip.metal]:.2f} {work}"
            for work in ("machined", "ground")
        )
        said.append(f"friction taken for unmachined work; the table has {others}")
    if grip.is_wet:
        more = WET_FACTOR[grip.jaws] - 1
        said.append(f"{grip.counted:g} is counted, as wet work wants {100 * more:.0f} % more clamp")
    return "; ".join(said)


def with_table(held: Holding, job: Job, material: Material | None, work: WorkSurface) -> Holding:
    """The holding as if the work had another surface, its friction by the table."""
    if held.clamping is None:
        return held
    clamping = held.clamping.model_copy(update={"friction": None, "work_surface": work})
    worse = held.model_copy(update={"clamping": clamping})
    return gripped(worse, job, material) or worse

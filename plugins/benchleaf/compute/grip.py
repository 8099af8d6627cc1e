"""What friction is counted for a clamping: as entered, or a table's, and less where it is wet."""

from __future__ import annotations

import re
from dataclasses import dataclass

from benchleaf.formulas.jaw_friction import (
    JAW_FRICTION,
    METAL_FACTOR,
    WET_FACTOR,
    counted_friction,
    table_friction,
)
from benchleaf.model import (
    Clamping,
    Holding,
    HoldingMethod,
    Job,
    Material,
    Presses,
    WorkSurface,
)

LEAST_GRIP = min(METAL_FACTOR, key=lambda metal: METAL_FACTOR[metal])
"""The metal that jaws hold worst; it may be the hardest over its row, too."""
_WET = re.compile(r"\b(?:wet|fluid|oil\w*|coolant|emulsion|soluble|flood\w*)\b", re.IGNORECASE)
_SIDEWAYS = re.compile(r"\b(?:edge|side) clamps?\b|\bsideways\b", re.IGNORECASE)
"""Clamps that press against a side hold down by friction only."""
_DRY = re.compile(r"\bdry\b", re.IGNORECASE)


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
    """True where a source of its own is entered: no table is read."""
    is_entered: bool
    """True where a friction is entered and is not above the table, or has a source."""
    is_wet: bool
    """True where what is counted is that of wet work."""
    on_the_table: bool = False
    """True where one of two faces lies on the smooth table, and the table's is a mean."""
    is_metal_taken: bool = False
    """True where nobody entered the metal, and the one with the least grip is taken."""

    @property
    def is_less_for_fluid(self) -> bool:
        """True where fluid takes part of it; a trial with wet work has that in it."""
        return self.is_wet and self.counted < self.dry


def grip_of(held: Holding, job: Job, material: Material | None) -> Grip:
    """The friction to count: never more than the table gives, unless it has a source of its own."""
    clamping = held.clamping
    if clamping is None:
        raise TypeError("a holding without clamping has no grip")
    work = (clamping.work_surface or WorkSurface.UNMACHINED).value
    jaws, metal = clamping.jaw_surface.value, metal_of(material)
    is_taken = material is not None and material.metal is None and metal == LEAST_GRIP
    on_table = jaws != "smooth" and clamping.faces > 1 and presses_down(held, clamping)
    table = table_friction(work, jaws, metal)
    if on_table:  # the clamp's face bites, the face below lies on a smooth table
        table = (table + table_friction(work, "smooth", metal)) / 2
    table = round(table, 4)
    entered, tried = clamping.friction, clamping.friction_source
    is_measured = entered is not None and tried is not None
    is_entered = is_measured or (entered is not None and entered <= table)
    dry = entered if entered is not None and is_entered else table
    is_tried_wet = is_measured and is_wet_trial(tried)
    is_wet = job.fluid is not None or is_tried_wet
    lost = WET_FACTOR[jaws] if is_wet and not is_tried_wet else 1.0
    counted = dry if is_measured and lost == 1.0 else counted_friction(dry, lost)
    return Grip(
        counted, dry, table, work, jaws, metal, is_measured, is_entered, is_wet, on_table, is_taken
    )  # fmt: skip


def is_wet_trial(source: str | None) -> bool:
    """Whether a trial was made with wet work: where it does not say so, it was a dry one.

    >>> is_wet_trial("pull trial with a wet plate"), is_wet_trial("trial, dry, no oil")
    (True, False)
    """
    return bool(source and _WET.search(source) and not _DRY.search(source))


def metal_of(material: Material | None) -> str:
    """The metal of the work by the tables; steel by its name, else the one with the least grip."""
    if material is None:
        return "steel"
    if material.metal is not None:
        return material.metal.value
    return "steel" if "steel" in material.name.lower() else LEAST_GRIP


def presses_down(held: Holding, clamping: Clamping) -> bool:
    """Whether clamps press the work down; left out, clamps do that are no edge clamps."""
    if clamping.presses is not None:
        return clamping.presses is Presses.DOWN
    return held.method is HoldingMethod.CLAMPS and not _SIDEWAYS.search(held.how)


def gripped(held: Holding | None, job: Job, material: Material | None) -> Holding | None:
    """The holding with the friction that may be counted in place of the one entered."""
    if held is None or held.clamping is None:
        return held
    counted = grip_of(held, job, material).counted
    clamping = held.clamping.model_copy(update={"friction": counted})
    return held.model_copy(update={"clamping": clamping})


_MEAN = " above and smooth below, the mean of the two"


def grip_note(clamping: Clamping, grip: Grip) -> str:
    """What was done with the friction, for the reader; empty where it stands as it was entered."""
    said = []
    if not grip.is_entered:
        said.append(
            f"friction {grip.table:.2f} is the table's for {grip.work} {grip.metal} in "
            f"{grip.jaws} jaws{_MEAN if grip.on_the_table else ''}, unmeasured"
        )
    elif clamping.work_surface is None and not grip.is_measured:
        others = ", ".join(
            f"{JAW_FRICTION[work, grip.jaws] * METAL_FACTOR[grip.metal]:.2f} {work}"
            for work in ("machined", "ground")
        )
        said.append(f"friction taken for unmachined work; the table has {others}")
    if grip.is_metal_taken and not grip.is_measured:
        said.append("no metal is entered for the material: the one with the least grip is taken")
    if grip.is_less_for_fluid:
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

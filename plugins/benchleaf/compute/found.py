"""What a set-up's stages have worked out so far: one record an operation, values not rounded.

A value is None until it is known. Each name means one thing, whatever the operation.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Found:
    """What every operation may find."""

    vc_low: float | None = None
    """[m/min] slow end of the cutting speed wanted."""
    vc_high: float | None = None
    """[m/min] fast end."""
    n_low: float | None = None
    """[rpm] slow end of the spindle speed wanted."""
    n_high: float | None = None
    """[rpm] fast end."""
    n: float | None = None
    """[rpm] the machine's speed to set."""
    cutting_speed: float | None = None
    """[m/min] cutting speed at the speed to set."""
    feed: float | None = None
    """[mm/rev] feed as entered."""
    feed_rate: float | None = None
    """[mm/min] feed a minute."""
    torque: float | None = None
    """[N m] torque of the cut on the work."""
    capacity: float | None = None
    """[N m] torque that the holding resists."""
    worst: float | None = None
    """[N m] torque of a worn or packed tool, where the holding is compared with it instead."""
    wanted: float | None = None
    """[N m] the torque that is compared, times the margin."""
    needed: float | None = None
    """[N m] what the holding must resist as entered, so that no comparison stops the job."""
    held: str = ""
    """How many times the torque the work is held, and how many at worst."""

    @property
    def cutting_mm(self) -> float | None:
        """[mm] diameter at which the cutting speed is reckoned, by operation."""
        raise NotImplementedError


@dataclass(frozen=True, slots=True)
class Drilled(Found):
    """What drilling finds."""

    drill_mm: float | None = None
    """[mm] diameter of the drill."""
    point: float | None = None
    """[mm] length of the drill's point."""
    stop: float | None = None
    """[mm] travel from first touch to the depth stop."""
    depth: float | None = None
    """[mm] depth of the full diameter."""
    travel: float | None = None
    """[mm] all that the quill moves."""
    pecks: int | None = None
    """Stretches of drilling between which the drill comes right out; None where one go will do."""
    time_in_cut: float | None = None
    """[s] under feed for one hole."""
    time: float | None = None
    """[s] the same with the withdrawals of a pecked hole."""
    thrust: float | None = None
    """[N] along the spindle."""
    exit_limit: float | None = None
    """[N m] torque that a kept pull reaches at most as the drill comes through."""
    exit_torque: float | None = None
    """[N m] the same, or what a feed stop lets through: the holding is compared with it."""
    lever_force: float | None = None
    """[N] at the knob of the feed lever."""

    @property
    def cutting_mm(self) -> float | None:
        """[mm] the drill."""
        return self.drill_mm


@dataclass(frozen=True, slots=True)
class Reamed(Found):
    """What reaming finds."""

    reamer_mm: float | None = None
    """[mm] nominal diameter of the reamer."""
    hole_low: float | None = None
    """[mm] smallest hole allowed."""
    hole_high: float | None = None
    """[mm] largest hole allowed."""

    @property
    def cutting_mm(self) -> float | None:
        """[mm] the reamer."""
        return self.reamer_mm


@dataclass(frozen=True, slots=True)
class Sunk(Found):
    """What countersinking finds."""

    mouth_mm: float | None = None
    """[mm] diameter of the cone at the face."""
    hole_mm: float | None = None
    """[mm] diameter of the hole under it."""
    depth: float | None = None
    """[mm] depth of the cone."""
    angle: float | None = None
    """[deg] whole angle of the cone."""

    @property
    def cutting_mm(self) -> float | None:
        """[mm] the mouth, where the cut is fastest."""
        return self.mouth_mm


@dataclass(frozen=True, slots=True)
class Bored(Found):
    """What counterboring finds."""

    seat_mm: float | None = None
    """[mm] diameter of the seat."""
    depth: float | None = None
    """[mm] depth of the seat."""
    pilot_mm: float | None = None
    """[mm] diameter of the hole that guides the tool."""

    @property
    def cutting_mm(self) -> float | None:
        """[mm] the seat."""
        return self.seat_mm


@dataclass(frozen=True, slots=True)
class Tapped(Found):
    """What tapping finds."""

    major_mm: float | None = None
    """[mm] major diameter of the thread."""
    hole_mm: float | None = None
    """[mm] diameter of the hole before the tap."""

    @property
    def cutting_mm(self) -> float | None:
        """[mm] the thread's major diameter."""
        return self.major_mm


NOTHING_YET: dict[str, Found] = {
    "drilling": Drilled(),
    "reaming": Reamed(),
    "countersinking": Sunk(),
    "counterboring": Bored(),
    "tapping": Tapped(),
}
"""What each operation begins with."""

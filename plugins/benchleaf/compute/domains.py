"""Between what an input, or a result, is believed, and why: outside it is a slip of the pen.

A formula has its own range, which is narrower and is told with its source. These are wider. All
are our own judgement, for a machine shop that drills by hand or with a simple power feed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from benchleaf.formulas.holding import MOST_ARM_MM, MOST_FORCE_N
from benchleaf.formulas.rounding import shown


@dataclass(frozen=True, slots=True)
class Domain:
    """From where to where a number is believed, in its unit, and the reason."""

    low: float
    high: float
    unit: str
    why: str

    def holds(self, value: float) -> bool:
        """Whether the number lies in it, both ends allowed."""
        return self.low <= value <= self.high

    @property
    def text(self) -> str:
        """Such as `1 to 100000 rpm`."""
        unit = f" {self.unit}" if self.unit else ""
        return f"{shown(self.low, 6)} to {shown(self.high, 6)}{unit}"


_FAST = "no steel or carbide edge cuts faster, and slower nothing turns"
_TURNS = "no spindle that drills turns faster, and slower none turns"
_FEED = "finer a tool rubs, and coarser none feeds"
_CONE = "below it half the angle is meant, and above it there is no cone"
_DEEP = "a bench holds no longer work"
_WIDE = "a tool of this trade is no wider"
_SHARE = "a share is 1 at most, and a drive that loses more than nine tenths does not drive"
_MOMENT = "no drill or clamp of this trade turns or resists more"
_PRESS = "no clamp, stop or drill of this trade presses harder"
_LEVER = "a machine that a hand works has no other lever"
_HAND = "from the blink of an eye to some days"
_FACTOR = "the formula tells its own range; beyond this another unit is meant"

DOMAINS: Mapping[str, Domain] = MappingProxyType(
    {
        "diameter": Domain(0.1, 300, "mm", _WIDE),
        "hole": Domain(0.1, 100, "mm", _WIDE),
        "work_diameter": Domain(0.5, 2000, "mm", _DEEP),
        "mouth": Domain(0.5, 300, "mm", _WIDE),
        "head": Domain(0.5, 300, "mm", _WIDE),
        "speed": Domain(1, 100_000, "rpm", _TURNS),
        "cutting_speed": Domain(0.1, 1000, "m/min", _FAST),
        "drilling_speed": Domain(0.1, 1000, "m/min", _FAST),
        "c": Domain(0.1, 5000, "m/min", "a life of one minute is had at no other speed"),
        "feed": Domain(0.001, 5, "mm/rev", _FEED),
        "drilling_feed": Domain(0.001, 5, "mm/rev", _FEED),
        "feed_stop": Domain(0.01, 1.27, "mm/rev", "the handbook's feeds: nothing is known beyond"),
        "tool_feed": Domain(0.001, 5, "mm/rev", _FEED),
        "point_angle": Domain(10, 180, "deg", _CONE),
        "angle": Domain(10, 180, "deg", _CONE),
        "depth": Domain(0.01, 2000, "mm", _DEEP),
        "start_clearance": Domain(0, 500, "mm", "no quill goes further through air"),
        "overtravel": Domain(0, 200, "mm", "nothing is gained further past the work"),
        "below_flush": Domain(0, 200, "mm", _DEEP),
        "thread_length": Domain(0.1, 500, "mm", _DEEP),
        "size": Domain(0.01, 10_000, "mm", "the tables tell their own range"),
        "x_error": Domain(0, 100, "mm", "a hole further off is another hole"),
        "y_error": Domain(0, 100, "mm", "a hole further off is another hole"),
        "kd_thrust": Domain(10, 1e6, "", _FACTOR),
        "kd_torque": Domain(10, 1e6, "", _FACTOR),
        "chisel_ratio": Domain(0.001, 1, "", "an edge is no longer than the drill is wide"),
        "wear": Domain(0.1, 10, "", _FACTOR),
        "edges": Domain(1, 100, "", "no tool of this trade has more"),
        "efficiency": Domain(0.1, 1, "", _SHARE),
        "lever_efficiency": Domain(0.1, 1, "", _SHARE),
        "pinion_radius": Domain(1, 200, "mm", _LEVER),
        "lever_radius": Domain(10, 2000, "mm", _LEVER),
        "chamfer": Domain(0.5, 20, "", "no tap leads in over more pitches"),
        "kc": Domain(100, 20_000, "N/mm2", "no metal resists less or more"),
        "tap_factor": Domain(0.1, 10, "", _FACTOR),
        "torque_limit": Domain(0.001, 10_000, "N m", _MOMENT),
        "capacity": Domain(0.001, 10_000, "N m", _MOMENT),
        "hold": Domain(1, 10, "", "a clamp that may hold ten times less is none"),
        "motor_rating": Domain(0.01, 100, "kW", "no drilling machine of this trade is stronger"),
        "torque": Domain(0.0001, 10_000, "N m", _MOMENT),
        "exit_torque": Domain(0.0001, 20_000, "N m", _MOMENT),
        "clamp_force": Domain(1, MOST_FORCE_N, "N", _PRESS),
        "stop_force": Domain(1, MOST_FORCE_N, "N", _PRESS),
        "rated_thrust": Domain(1, 1e6, "N", _PRESS),
        "friction": Domain(0.01, 1, "", "clean metal on metal lies far inside it"),
        "arm": Domain(0.5, MOST_ARM_MM, "mm", _DEEP),
        "stop_arm": Domain(0.5, MOST_ARM_MM, "mm", _DEEP),
        "exponent": Domain(0.01, 2, "", _FACTOR),
        "life": Domain(0.01, 10_000, "min", "no trial goes on for longer"),
        "time": Domain(0.1, 360_000, "s", _HAND),
        "basic": Domain(0.1, 360_000, "s", _HAND),
        "standard": Domain(0.1, 720_000, "s", _HAND),
        "first": Domain(0.1, 3_600_000, "s", _HAND),
        "shift": Domain(0.1, 86_400, "s", "a day is no longer"),
        "breaks": Domain(0, 86_400, "s", "a day is no longer"),
    }
)
"""Every input that is a number, by its name. A result of the name is held to it too."""

READ_BY_KIND: Mapping[str, str] = MappingProxyType(
    {
        "thread": "a thread of the tables",
        "class": "a class of the tables",
        "hole class": "a class of the tables, of a hole",
        "shaft class": "a class of the tables, of a shaft",
        "series": "a series of the tables",
        "drill": "0.1 to 100 mm",
        "error": "0 to 100 mm, to either side",
        "percent": "40 to 100 %",
        "learning": "51 to 100 %",
        "allowance": "0 to 100 %",
        "count": "a whole number from 1 to 1000000",
        "timed pieces": "each time 0.1 to 360000 s",
        "two pieces": "two of them, each time 0.1 to 360000 s",
        "times": "each time 0.1 to 360000 s",
        "trials": "two of them, each 0.1 to 1000 m/min and 0.01 to 10000 min",
        "feeds": "each 0.001 to 5 mm/rev",
        "life": "0.01 to 10000 min",
        "text": "up to 200 letters",
        "known by": "a way that is known",
        "work surface": "a surface of the table",
        "jaw surface": "a surface of the table",
        "metal": "a metal of the table",
        "wetness": "wet or dry",
        "cut": "a kind of cut that is known",
    }
)
"""What the reader of a kind lets through, where the domain is the kind's own."""

_WHATEVER = "beyond it an input was a slip of the pen"
_BY_UNIT: Mapping[str, Domain] = MappingProxyType(
    {
        "rpm": DOMAINS["speed"],
        "m/min": DOMAINS["cutting_speed"],
        "mm/rev": Domain(0, 5, "mm/rev", _FEED),
        "mm/min": Domain(0.01, 20_000, "mm/min", "no quill is fed faster"),
        "mm3/min": Domain(0, 1e7, "mm3/min", "no drill takes more"),
        "mm": Domain(0, 20_000, "mm", _DEEP),
        "N": Domain(0.01, 1e6, "N", _PRESS),
        "N m": Domain(0.0001, 20_000, "N m", _MOMENT),
        "kW": Domain(0, 200, "kW", "no drilling machine of this trade is stronger"),
        "s": Domain(0.01, 3_600_000, "s", _HAND),
        "min": Domain(0, 1_000_000, "min", _WHATEVER),
        "h": Domain(0, 100_000, "h", _WHATEVER),
        "%": Domain(0, 1000, "%", _WHATEVER),
        "times": Domain(0, 1_000_000, "times", _WHATEVER),
        "times the lips' thrust": Domain(0, 1000, "times", _WHATEVER),
        "turns": Domain(0, 10_000, "turns", _WHATEVER),
        "pecks": Domain(1, 100, "pecks", _WHATEVER),
        "holes": Domain(0, 10_000_000, "holes", _WHATEVER),
        "pieces": Domain(0, 10_000_000, "pieces", _WHATEVER),
    }
)


_CLEARANCE = Domain(-10, 10, "mm", "the fits of the tables; below 0 the two press")


def domain_of(name: str, unit: str) -> Domain:
    """The domain of a result: its own by name, else that of its unit."""
    own = _CLEARANCE if name == "clearance" else DOMAINS.get(name)
    return own if own is not None and own.unit in ("", unit) else _BY_UNIT.get(
        unit, Domain(-1e7, 1e7, unit, _WHATEVER)
    )  # fmt: skip

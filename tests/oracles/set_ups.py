"""Set-ups of every kind on the small shop, made in memory from fields as they are written."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter

from benchleaf import pipeline
from benchleaf.compute import set_up_sheets
from benchleaf.model import CuttingSpeed, Job, Machine, SetUp, Shop, TappingFactors, Tool
from oracles.bindings import binding_problems
from oracles.facts import fact_problems
from oracles.look_ups import look_up_problems
from oracles.rows import sheet_problems
from oracles.worst import worst_problems

SMALL = Path(__file__).parents[1] / "shop"
CONTENT = Path(__file__).parents[2] / "content"
Fields = Mapping[str, Any]

TAP_FACTORS = {"kc": "3900", "tap_factor": "1.35", "source": "entered for the tests"}
TAP_SPEED = {"operation": "tapping", "tool_material": "hss", "speed": "10 to 15 m/min",
             "source": "entered for the tests"}  # fmt: skip
SPEEDS = ["100 rpm", "200 rpm", "400 rpm", "800 rpm", "1000 rpm", "1600 rpm", "2400 rpm"]
_SET_UP: TypeAdapter[SetUp] = TypeAdapter(SetUp)
_SPEEDS: Any = Machine.model_fields["spindle_speeds"].annotation
_RPM: TypeAdapter[Any] = TypeAdapter(_SPEEDS)
DRILL = {"point_angle": "118 deg", "chisel_ratio": "0.18", "wear_factor": "1.3"}
TAYLOR = {"exponent": "0.125", "c": "70 m/min", "source": "entered for the tests"}
HELD: dict[str, Any] = {
    "method": "vice", "how": "In the vice.", "bolted_down": "Two bolts.",
    "clamping": {"force": "6 kN", "friction": "0.15", "arm": "40 mm", "faces": "2",
                 "source": "entered for the tests"},
    "positive_stop": {"rated_force": "2 kN", "arm": "90 mm",
                      "source": "entered for the tests"},
}  # fmt: skip

FEED_STOP = {"how": "The feed runs by power.", "feed": "0.7 mm/rev",
             "source": "entered for the tests"}  # fmt: skip
SIX, THREE = ({"edges": count, "wear_factor": "1.3"} for count in ("6", "3"))
LIMIT = {"torque": "31 N m", "kind": "breaking", "source": "entered for the tests"}

_BY = {"operation": "drilling", "feed": "0.15 mm/rev", "start_clearance": "3 mm"}
_TAP = {"operation": "tapping", "thread": "M8", "hole": "through", "thread_length": "10 mm",
        "turned_by": "machine"}  # fmt: skip
KINDS: Mapping[str, tuple[Fields, Fields]] = {
    # name: fields of the set-up, fields of the tool
    "flat": (_BY | {"hole": "through", "thickness": "6 mm", "overtravel": "1 mm"}, DRILL),
    "blind": (_BY | {"hole": "blind", "depth": "14 mm", "thickness": "20 mm"}, DRILL),
    "deep": (_BY | {"hole": "through", "thickness": "44 mm", "overtravel": "1 mm"}, DRILL),
    "deep blind": (_BY | {"hole": "blind", "depth": "41 mm", "thickness": "60 mm"}, DRILL),
    "bar": (_BY | {"hole": "through", "work": "round bar", "work_diameter": "20 mm",
                   "overtravel": "1 mm"}, DRILL),
    "small bar": (_BY | {"hole": "through", "work": "round bar", "work_diameter": "8.5 mm",
                         "overtravel": "1 mm"}, DRILL),
    "tube": (_BY | {"hole": "through", "work": "round tube", "work_diameter": "25 mm",
                    "wall": "2 mm", "walls": "both", "overtravel": "1 mm"}, DRILL),
    "one wall": (_BY | {"hole": "through", "work": "round tube", "work_diameter": "25 mm",
                        "wall": "2 mm", "walls": "one", "overtravel": "1 mm"}, DRILL),
    "pilot": (_BY | {"hole": "through", "thickness": "9 mm", "overtravel": "1 mm",
                     "pilot": "3 mm"}, DRILL),
    "large": (_BY | {"hole": "through", "thickness": "9 mm", "overtravel": "1 mm"},
              DRILL | {"size": "14.5 mm"}),
    "life": (_BY | {"hole": "through", "thickness": "9 mm", "overtravel": "1 mm"},
             DRILL | {"taylor": TAYLOR}),
    "inch": (_BY | {"hole": "through", "thickness": "1/4 in", "overtravel": "1/16 in"},
             DRILL | {"size": "7/32 in"}),
    "clearance": (_BY | {"hole": "through", "thickness": "6 mm", "overtravel": "1 mm",
                         "clearance_for": "M6", "clearance": "medium"}, DRILL | {"size": "6.6 mm"}),
    "both held": (_BY | {"hole": "through", "thickness": "6 mm", "overtravel": "1 mm",
                         "holding": HELD}, DRILL),
    "feed stop": (_BY | {"hole": "through", "thickness": "6 mm", "overtravel": "1 mm",
                         "feed_stop": FEED_STOP}, DRILL),
    "fine feed stop": (_BY | {"hole": "through", "thickness": "6 mm", "overtravel": "1 mm",
                              "feed_stop": FEED_STOP | {"feed": "0.19 mm/rev"}}, DRILL),
    "tap": (_TAP, {"kind": "tap", "torque_limit": LIMIT, "size": "8 mm"}),
    "tap blind": (_TAP | {"hole": "blind", "turned_by": "tap wrench", "basis": "ISO thread height"},
                  {"kind": "tap", "torque_limit": LIMIT, "size": "8 mm"}),
    "tap drilled": (_TAP | {"hole_drill": "drill-8", "thread": "3/8-16 UNC"},
                    {"kind": "tap", "torque_limit": LIMIT, "size": "3/8 in"}),
    "tap inch": (_TAP | {"thread": "1/4-20 UNC", "percent": "65"},
                 {"kind": "tap", "torque_limit": LIMIT, "size": "1/4 in"}),
    "ream": ({"operation": "reaming", "tolerance": "H7", "depth": "12 mm", "feed": "0.2 mm/rev"},
             {"kind": "reamer", **SIX, "size": "10 mm"}),
    "ream its way": ({"operation": "reaming", "tolerance": "H7", "depth": "12 mm",
                      "feed": "0.2 mm/rev", "start_clearance": "2 mm", "overtravel": "3 mm"},
                     {"kind": "reamer", **SIX, "size": "10 mm"}),
    "ream light": ({"operation": "reaming", "tolerance": "F8", "depth": "12 mm",
                    "feed": "0.2 mm/rev", "light_metal": "true"},
                   {"kind": "reamer", **SIX, "size": "12 mm"}),
    "sink": ({"operation": "countersinking", "hole_diameter": "6 mm", "head": "12 mm",
              "below_flush": "0.3 mm", "feed": "0.1 mm/rev"},
             {"kind": "countersink", **THREE, "point_angle": "100 deg"}),
    "sink entered": ({"operation": "countersinking", "hole_diameter": "6 mm", "mouth": "13.44 mm",
                      "feed": "0.1 mm/rev"},
                     {"kind": "countersink", **THREE, "point_angle": "82 deg"}),
    "bore": ({"operation": "counterboring", "screw": "M6", "below_flush": "0.5 mm",
              "feed": "0.1 mm/rev"}, {"kind": "counterbore", **THREE, "size": "11 mm"}),
}  # fmt: skip
"""A set-up of every kind that writes rows of its own."""


@lru_cache(maxsize=2)
def small_shop() -> Shop:
    """The small shop with factors for tapping and slow speeds, read once."""
    return pipeline.load(SMALL).shop


def made(fields: Fields, tool: Fields) -> tuple[Shop, Job]:
    """The small shop with one job whose one set-up and tool are these."""
    shop = small_shop()
    job, steel = shop.jobs["vg-0010"], shop.materials["mild-steel"]
    drill = shop.machines[job.machine]
    cutter = Tool.model_validate(
        {"id": "cutter", "name": "Cutter", "kind": "drill", "what": "A tool.", "size": "8 mm",
         "shank": "8 mm", "tool_material": "hss", **tool}
    )  # fmt: skip
    set_up = {"id": "guide-hole", "title": "The hole", "tool": "cutter", **fields}
    other = job.model_copy(update={"set_ups": (_SET_UP.validate_python(set_up),)})
    speeds = (*steel.cutting_speeds, CuttingSpeed.model_validate(TAP_SPEED))
    factors = TappingFactors.model_validate(TAP_FACTORS)
    metal = steel.model_copy(update={"cutting_speeds": speeds, "tapping": factors})
    slow = drill.model_copy(update={"spindle_speeds": _RPM.validate_python(SPEEDS)})
    changed = replace(
        shop,
        jobs={**shop.jobs, job.id: other},
        tools={**shop.tools, "cutter": cutter},
        materials={**shop.materials, steel.id: metal},
        machines={**shop.machines, drill.id: slow},
    )
    return changed, other


def missing_from(shop: Shop, job: Job) -> Iterator[str]:
    """Rows that are not computed: a set-up of KINDS lacks nothing."""
    for sheet in set_up_sheets(shop, job):
        for row in sheet.rows:
            if row.figure is None:
                yield f"{sheet.id} {row.key}: not computed, {row.missing}"


def problems_of(shop: Shop, job: Job) -> Iterator[str]:
    """Everything that is wrong with the workings of a job."""
    speeds = tuple(one.value for one in shop.machines[job.machine].spindle_speeds)
    for sheet in set_up_sheets(shop, job):
        yield from sheet_problems(sheet)
        yield from binding_problems(shop, job, sheet)
        yield from fact_problems(shop, job, sheet)
        yield from look_up_problems(sheet, speeds)
        yield from worst_problems(shop, job, sheet)


@lru_cache(maxsize=1)
def demo() -> Shop:
    """The demo, read once."""
    return pipeline.load(CONTENT).shop

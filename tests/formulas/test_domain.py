"""Every formula refuses every bad number, by the argument's name."""

import inspect
import math
import typing
from collections.abc import Callable

import pytest

from benchleaf.formulas import (
    drill_factors,
    drilling,
    holding,
    speeds,
    travel,
)
from oracles import drilling_catalogue, drilling_inch
from oracles import travel as whole_travel
from running import for_each

GOOD: dict[Callable[..., object], dict[str, float]] = {
    speeds.spindle_speed_rpm: {"cutting_speed_m_min": 25, "diameter_mm": 10},
    speeds.cutting_speed_m_min: {"spindle_speed_rpm": 700, "diameter_mm": 10},
    speeds.feed_rate_mm_min: {"feed_mm_rev": 0.2, "spindle_speed_rpm": 700},
    speeds.seconds_for_travel: {"travel_mm": 20, "feed_rate_mm_min": 140},
    speeds.removal_rate_mm3_min: {"diameter_mm": 10, "feed_rate_mm_min": 140},
    travel.point_length_mm: {"diameter_mm": 10, "point_angle_deg": 118},
    whole_travel.through_travel_mm: {
        "thickness_mm": 15,
        "point_length_mm": 3,
        "start_clearance_mm": 2,
        "overtravel_mm": 2,
    },
    whole_travel.blind_travel_mm: {"depth_mm": 15, "point_length_mm": 3, "start_clearance_mm": 2},
    travel.stop_travel_mm: {"depth_mm": 15, "point_length_mm": 3, "overtravel_mm": 2},
    drill_factors.feed_factor: {"feed_mm_rev": 0.2},
    drill_factors.thrust_diameter_factor: {"diameter_mm": 10},
    drill_factors.torque_diameter_factor: {"diameter_mm": 10},
    drill_factors.chisel_factors: {"chisel_ratio": 0.18},
    drilling.cutter_power_kw: {"torque_nm": 11, "spindle_speed_rpm": 700},
    drilling_inch.cutter_power_hp: {"torque_in_lbf": 559, "spindle_speed_rpm": 350},
    drilling.motor_power_kw: {"cutter_power_kw": 0.8, "efficiency": 0.8},
    holding.friction_torque_nm: {
        "clamp_force_n": 4000,
        "friction": 0.15,
        "arm_mm": 50,
        "faces": 2,
    },
    holding.stop_torque_nm: {"stop_force_n": 500, "arm_mm": 120},
    holding.holding_ratio: {"capacity_nm": 60, "torque_nm": 11},
}
for _metric in (drilling.thrust_n, drilling.thrust_split_n, drilling.torque_nm):
    GOOD[_metric] = {
        "diameter_mm": 10,
        "feed_mm_rev": 0.2,
        "kd": 24000,
        "chisel_ratio": 0.18,
        "wear": 1,
    }
for _inch in (drilling_inch.thrust_lbf, drilling_inch.torque_in_lbf):
    GOOD[_inch] = {
        "diameter_in": 0.5,
        "feed_in_rev": 0.008,
        "kd": 24000,
        "chisel_ratio": 0.18,
        "wear": 1,
    }
for _catalogue in (drilling_catalogue.catalogue_thrust_n, drilling_catalogue.catalogue_torque_nm):
    GOOD[_catalogue] = {"diameter_mm": 10, "feed_mm_rev": 0.2, "catalogue_k": 2}
GOOD[drilling_catalogue.catalogue_power_kw] = {
    "diameter_mm": 10,
    "feed_mm_rev": 0.2,
    "spindle_speed_rpm": 700,
    "catalogue_k": 2,
}

# Nothing to clear, no point and nothing past the far side are real cases.
MAY_BE_ZERO = {"point_length_mm", "start_clearance_mm", "overtravel_mm"}

ARGUMENTS = [
    pytest.param(function, name, id=f"{function.__name__}-{name}")
    for function, good in GOOD.items()
    for name in good
]


def is_numeric(function: Callable[..., object]) -> bool:
    hints = typing.get_type_hints(function)
    return all(hints[name] in (float, int) for name in inspect.signature(function).parameters)


@for_each("bad", [-1.0, math.nan, math.inf, -math.inf])
@for_each(("function", "name"), ARGUMENTS)
def test_a_bad_number_is_refused_by_name(
    function: Callable[..., object], name: str, bad: float
) -> None:
    function(**GOOD[function])
    with pytest.raises(ValueError, match=rf"^{name} is {bad!r}; it must be .+"):
        function(**GOOD[function] | {name: bad})


@for_each(("function", "name"), ARGUMENTS)
def test_zero_is_refused_except_where_it_is_real(
    function: Callable[..., object], name: str
) -> None:
    call = GOOD[function] | {name: 0.0}
    if name in MAY_BE_ZERO:
        function(**call)
        return
    with pytest.raises(ValueError, match=rf"^{name} is 0\.0; it must be .+"):
        function(**call)


def test_no_numeric_formula_is_left_out() -> None:
    oracles = (drilling_catalogue, drilling_inch, whole_travel)
    for module in (speeds, drilling, drill_factors, travel, holding, *oracles):
        formulas = [
            each
            for name, each in vars(module).items()
            if inspect.isfunction(each)
            and not name.startswith("_")
            and each.__module__ == module.__name__
            and is_numeric(each)
        ]
        assert formulas
        assert [each.__name__ for each in formulas if each not in GOOD] == []

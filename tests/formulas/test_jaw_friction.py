"""Friction at jaws: the two published tables compared, and what may be counted of them.

No publication prints a worked result for a vice, nor a pull up the drill: those are checked by
statics alone.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.jaw_friction import (
    JAW_FRICTION,
    METAL_FACTOR,
    MOST_FRICTION,
    SECOND_JAW_FRICTION,
    WET_FACTOR,
    counted_friction,
    held_down_n,
    pull_up_n,
    table_friction,
)

SHARE = st.floats(0.01, 1.0)


@pytest.mark.parametrize(
    ("work", "jaws", "friction"),
    [("ground", "smooth", 0.07), ("machined", "smooth", 0.10), ("unmachined", "smooth", 0.15),
     ("machined", "serrated", 0.35), ("unmachined", "serrated", 0.45),
     ("ground", "diamond serrated", 0.12)],
)  # fmt: skip
def test_rows_as_printed(work: str, jaws: str, friction: float) -> None:
    assert table_friction(work, jaws, "steel") == friction


def test_a_second_maker_prints_no_more_and_nearly_as_much_in_smooth_jaws() -> None:
    for work, second in SECOND_JAW_FRICTION.items():
        assert 0.85 * JAW_FRICTION[work, "smooth"] <= second <= JAW_FRICTION[work, "smooth"]


def test_a_rougher_surface_never_grips_less() -> None:
    for jaws in WET_FACTOR:
        rows = [JAW_FRICTION[work, jaws] for work in ("ground", "machined", "unmachined")]
        assert rows == sorted(rows)
        assert 2 * max(rows) == pytest.approx(MOST_FRICTION[jaws])


def test_wet_smooth_jaws_want_18_per_cent_more_clamp() -> None:
    assert round(100 * (WET_FACTOR["smooth"] - 1)) == 18
    # 1.3 / 1.1 is 1.1818: 0.10 / 1.1818 = 0.0846, counted down
    assert counted_friction(0.10, WET_FACTOR["smooth"]) == 0.084


@given(SHARE, st.sampled_from(sorted(WET_FACTOR.values())))
def test_what_is_counted_is_never_more_than_dry(dry: float, wet: float) -> None:
    assert counted_friction(dry, wet) <= counted_friction(dry, 1.0) <= dry + 1e-9
    assert counted_friction(dry, wet) > dry / wet - 0.0011


@pytest.mark.parametrize("metal", METAL_FACTOR)
def test_no_metal_grips_better_than_steel(metal: str) -> None:
    assert table_friction("machined", "smooth", metal) <= 0.10


@pytest.mark.parametrize(
    ("work", "jaws", "metal"),
    [("polished", "smooth", "steel"), ("ground", "soft", "steel"), ("ground", "smooth", "wood")],
)
def test_what_no_table_has_is_refused(work: str, jaws: str, metal: str) -> None:
    with pytest.raises(ValueError, match=r"no table has them|must be one of"):
        table_friction(work, jaws, metal)


@given(st.floats(0.1, 100), st.floats(1, 50))
def test_the_pull_is_the_torques_work_over_the_lead(torque: float, diameter: float) -> None:
    """One turn lifts by the lead of the flute: all the work of that turn, and no friction."""
    lead_m = math.pi * diameter / math.tan(math.radians(30)) / 1000
    assert pull_up_n(torque, diameter, 30.0) == pytest.approx(2 * math.pi * torque / lead_m)


@given(st.floats(1, 1e5), st.floats(1, 1e5), SHARE)
def test_more_clamp_never_holds_less(one: float, other: float, friction: float) -> None:
    low, high = sorted((one, other))
    assert held_down_n(low, friction) <= held_down_n(high, friction)

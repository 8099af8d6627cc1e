"""What reckon solves backwards, put in forwards again: a limit is where the load just fits."""

from __future__ import annotations

import math
from collections.abc import Mapping

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from benchleaf.compute.operations import OPERATIONS
from benchleaf.compute.reckon import InputError, Reckoning, Result, reckon
from benchleaf.formulas.worst_case import hold_at_worst, load_at_worst
from running import some

DRILLED = {
    "diameter": "10 mm", "speed": "600 rpm", "kd_thrust": "24000", "kd_torque": "24000",
    "chisel_ratio": "0.18", "wear": "1.3", "efficiency": "0.8", "capacity": "120 N m",
    "motor_rating": "1.5 kW", "tool_feed": "0.4 mm/rev", "rated_thrust": "6 kN",
}  # fmt: skip


def of(operation: str, texts: Mapping[str, str]) -> Reckoning:
    return reckon(OPERATIONS[operation], texts)


def result(operation: str, texts: Mapping[str, str], key: str) -> Result:
    return next(one for one in of(operation, texts).results if one.key == key)


def value(operation: str, texts: Mapping[str, str], key: str) -> float:
    return result(operation, texts, key).low


BY_FEEL = 1 / 0.65 * 0.15 / 0.14 * 1.3 / 1.1
"""How far a clamp by feel falls in oily smooth jaws: 35 % of its force, and 0.14 for 0.15."""
LOADS = {
    # The limit, what is loaded at that feed, and how much of it is allowed.
    "feed_by_holding": ("torque", 120 / 2),
    "feed_by_exit": ("exit_torque", 120 / BY_FEEL),
    "feed_by_power": ("motor_power", 1.5),
    "feed_by_thrust": ("thrust", 6000 / 1.03),
}


def at_worst(wear: str | float) -> float:
    """A bar a quarter harder, and a very dull drill."""
    return 1.15 * max(1.0, 1.5 / float(wear))


@pytest.mark.parametrize("limit", LOADS)
@pytest.mark.parametrize("wear", ["1", "1.3", "1.5", "1.8"])
def test_each_limit_is_where_the_worst_load_uses_up_what_there_is(limit: str, wear: str) -> None:
    """Forwards by other figures than those that were solved: at its worst the load just fits."""
    texts = DRILLED | {"wear": wear}
    feed = value("drilling", texts, limit)
    load, most = LOADS[limit]
    put_in = value("drilling", texts | {"feed": f"{feed:.9f} mm/rev"}, load)
    assert put_in * at_worst(wear) == pytest.approx(most, rel=1e-6)


def test_the_largest_feed_is_the_least_limit_rounded_down_and_names_it() -> None:
    found = {one.key: one for one in of("drilling", DRILLED | {"capacity": "180 N m"}).results}
    limits = {key: found[key].low for key in (*LOADS, "feed_by_tool")}
    most = found["most_feed"]
    assert most.low == pytest.approx(math.floor(100 * min(limits.values())) / 100)
    assert most.low <= min(limits.values()) < most.low + 0.01
    assert min(limits, key=lambda key: limits[key]) == "feed_by_power"
    assert "What binds is the power of the motor. A limit, no setting." in most.doubt
    assert "no setting" in most.limits


@given(
    st.floats(2, 60), st.floats(5, 400), st.floats(0.2, 5), st.floats(1.0, 2.0),
    st.floats(0.05, 0.35),
)  # fmt: skip
def test_no_feed_that_is_shown_overloads_anything(
    diameter: float, capacity: float, power: float, wear: float, chisel: float
) -> None:
    texts = DRILLED | {
        "diameter": f"{diameter:.3f} mm", "capacity": f"{capacity:.3f} N m",
        "motor_rating": f"{power:.3f} kW", "wear": f"{wear:.3f}", "chisel_ratio": f"{chisel:.3f}",
        "rated_thrust": "20 kN", "speed": "300 rpm",
    }  # fmt: skip
    try:
        feed = value("drilling", texts, "most_feed")
    except StopIteration:
        return  # nothing is held, and nothing is shown
    assume(feed >= 0.01)
    worst = at_worst(f"{wear:.3f}")
    forwards = {one.key: one.low for one in of(
        "drilling", texts | {"feed": f"{feed:.2f} mm/rev"}).results}  # fmt: skip
    assert forwards["torque"] * worst * 2 <= float(f"{capacity:.3f}") * (1 + 1e-9)
    assert forwards["exit_torque"] * worst * BY_FEEL <= float(f"{capacity:.3f}") * (1 + 1e-9)
    assert forwards["ratio_at_worst"] >= 1
    assert forwards["exit_ratio_at_worst"] >= 1
    assert forwards["motor_power"] * worst <= float(f"{power:.3f}") * (1 + 1e-9)
    assert forwards["thrust"] * worst * 1.03 <= 20000 * (1 + 1e-9)


def test_less_holding_or_power_and_more_wear_never_allow_more() -> None:
    for name, texts in some(
        {
            "capacity": ("300 N m", "120 N m", "100 N m", "80 N m"),
            "motor_rating": ("9 kW", "1.5 kW", "0.6 kW", "0.3 kW"),
            "rated_thrust": ("20 kN", "6 kN", "4 kN", "2 kN"),
            "tool_feed": ("0.4 mm/rev", "0.2 mm/rev", "0.1 mm/rev", "0.05 mm/rev"),
            "diameter": ("6 mm", "8 mm", "10 mm", "12 mm"),
        }.items()
    ):
        feeds = [value("drilling", DRILLED | {name: text}, "most_feed") for text in texts]
        assert feeds == sorted(feeds, reverse=True), name
        assert feeds[0] > feeds[-1]


def test_without_the_thrust_it_says_what_was_not_looked_at() -> None:
    texts = {name: text for name, text in DRILLED.items() if name != "rated_thrust"}
    most = result("drilling", texts, "most_feed")
    assert "the machine's thrust are not: give rated_thrust" in most.limits


@pytest.mark.parametrize("left_out", ["capacity", "motor_rating", "tool_feed", "efficiency"])
def test_no_largest_feed_where_something_that_may_bind_is_not_known(left_out: str) -> None:
    texts = {name: text for name, text in DRILLED.items() if name != left_out}
    assert "most_feed" not in {one.key for one in of("drilling", texts).results}


def test_the_worst_case_is_never_better_than_the_case() -> None:
    """A very dull drill is 1.5; whatever is duller already is at its worst already."""
    ratios = [load_at_worst(wear, "steel", "torque") for wear in (1.0, 1.3, 1.5, 2.0)]
    assert ratios == pytest.approx([1.15 * one for one in (1.5, 1.5 / 1.3, 1.0, 1.0)])
    iron = [load_at_worst(1.5, "grey cast iron", model) for model in ("torque", "thrust")]
    assert iron == pytest.approx([1.3, 1.3 * 1.03])
    held = [hold_at_worst(by, "unmachined", "smooth", is_measured=False)
            for by in ("feel", "torque handle", "lowest measured")]  # fmt: skip
    assert held == pytest.approx([BY_FEEL, BY_FEEL * 0.65 / 0.75, BY_FEEL * 0.65 / 0.9])


def test_what_is_told_of_the_clamp_and_the_metal_counts() -> None:
    """By hand: a drill at its worst in cast iron takes 1.3 times; measured clamps lose a tenth."""
    texts = {"torque": "12 N m", "wear": "1.5", "friction": "0.1", "arm": "40 mm",
             "clamp_force": "6 kN", "metal": "grey cast iron",
             "work": "unmachined"}  # fmt: skip
    by_feel = value("holding", texts, "ratio_at_worst")
    assert by_feel == pytest.approx(24 / 12 / 1.3 / BY_FEEL)
    measured = texts | {"force_known_by": "lowest measured", "friction_source": "tried on wet work"}
    assert value("holding", measured, "hold") == pytest.approx(1 / 0.81)
    assert value("holding", measured, "ratio_at_worst") == pytest.approx(2 / 1.3 * 0.81)
    assert not of("holding", texts).within_limits
    assert of("holding", measured).within_limits
    dry = measured | {"friction_source": "tried on dry work"}
    assert value("holding", dry, "hold") == pytest.approx(1.3 / 1.1 / 0.81)


def test_a_trial_that_is_told_beside_the_tables_friction_measures_nothing() -> None:
    texts = {"work": "machined", "jaws": "smooth", "metal": "steel", "clamp_force": "6 kN",
             "arm": "40 mm", "friction_source": "tried on plates"}  # fmt: skip
    assert value("holding", texts, "hold") == pytest.approx(1 / 0.65 * 1.3 / 1.1)


def test_a_clamp_that_may_fall_by_more_than_the_margin_is_held_to_that() -> None:
    """Serrated jaws on machined work: 0.35, or 0.18 by another maker, and an oily film."""
    texts = {"work": "machined", "jaws": "serrated", "metal": "steel", "arm": "40 mm",
             "torque": "12 N m", "wear": "1.5", "clamp_force": "6 kN"}  # fmt: skip
    falls = 0.35 / 0.18 * 1.2 / 0.65
    assert value("holding", texts, "hold") == pytest.approx(falls)
    needed = value("holding", texts, "clamp_needed")
    assert needed - 100 < 12 * 1.15 * falls / (0.35 * 0.04) <= needed
    most = value("holding", texts, "most_torque")
    assert most <= 84 / falls < most + 0.1


@given(st.floats(1, 60), st.floats(5, 200), st.floats(0.03, 0.15), st.floats(1.0, 2.0))
def test_the_clamp_that_is_needed_is_enough_and_no_200_n_too_much(
    torque: float, arm: float, friction: float, wear: float
) -> None:
    texts = {"torque": f"{torque:.3f} N m", "arm": f"{arm:.2f} mm", "friction": f"{friction:.4f}",
             "wear": f"{wear:.3f}", "exit_torque": f"{1.7 * torque:.3f} N m",
             "work": "unmachined"}  # fmt: skip
    worst = at_worst(texts["wear"])
    for key, loaded, margin in (
        ("clamp_needed", "torque", 2), ("clamp_at_exit", "exit_torque", BY_FEEL),
    ):  # fmt: skip
        try:
            force = value("holding", texts, key)
        except (StopIteration, InputError):
            continue
        assert force % 100 == 0
        wanted = float(texts[loaded].split()[0]) * worst * margin
        resisted = force * float(texts["friction"]) * float(texts["arm"].split()[0]) / 1000
        less = (force - 100) * float(texts["friction"]) * float(texts["arm"].split()[0]) / 1000
        assert resisted >= wanted * (1 - 1e-9)
        assert less < wanted * (1 + 1e-9)


@pytest.mark.parametrize("depth", ["7 mm", "24 mm", "33 mm", "48 mm"])
@pytest.mark.parametrize("solved", ["speed", "feed"])
def test_what_a_wanted_time_asks_for_takes_that_time(depth: str, solved: str) -> None:
    """Also where the hole is pecked, and some of the time goes by outside of the hole."""
    known = {"diameter": "8 mm", "point_angle": "118 deg", "depth": depth, "overtravel": "1 mm"}
    fixed = {"speed": {"feed": "0.15 mm/rev"}, "feed": {"speed": "800 rpm"}}[solved]
    found = value("drilling", known | fixed | {"time": "45 s"}, solved)
    unit = {"speed": "rpm", "feed": "mm/rev"}[solved]
    put_in = known | fixed | {solved: f"{found:.9f} {unit}"}
    assert value("drilling", put_in, "time") == pytest.approx(45, rel=1e-6)


def test_constants_of_two_trials_give_both_lives_back() -> None:
    """By hand: n = ln(32/25) / ln(40/12) is 0.2050, C = 25 x 40^n is 53.25."""
    trials = {"trials": "25 m/min: 40 min, 32 m/min: 12 min"}
    exponent, c = (value("drill-life", trials, key) for key in ("exponent", "c"))
    assert exponent == pytest.approx(0.2050, abs=0.0001)
    assert c == pytest.approx(53.26, abs=0.05)
    for speed, life in some({"25 m/min": 40, "32 m/min": 12}.items()):
        lasts = value("drill-life", trials | {"cutting_speed": speed}, "life")
        assert lasts == pytest.approx(life)


def test_each_unknown_of_a_tools_life_is_solved_for() -> None:
    """(50 / 25)^(1 / 0.25) is 16: three of the four are given, and the fourth comes out."""
    whole = {"cutting_speed": "25 m/min", "exponent": "0.25", "c": "50 m/min", "life": "16 min"}
    wanted = {"cutting_speed": 25, "exponent": 0.25, "c": 50, "life": 16}
    for name in some(whole):
        rest = {key: text for key, text in whole.items() if key != name}
        assert value("drill-life", rest, name) == pytest.approx(wanted[name])


def test_the_rate_of_a_learner_from_two_pieces() -> None:
    """At 80 % two doublings leave 64 %: 125 s at first is 100 s for the second piece."""
    points = {"points": "2: 100 s, 8: 64 s", "piece": "4", "standard": "51.2 s"}
    assert value("learning-curve", points, "learning_percent") == pytest.approx(80)
    assert value("learning-curve", points, "first") == pytest.approx(125)
    assert value("learning-curve", points, "piece_time") * 60 == pytest.approx(80)
    assert value("learning-curve", points, "pieces_to_standard") == 16


def test_a_reamed_hole_has_stop_travel_time_and_power() -> None:
    """22 mm under feed at 75 mm/min is 17.6 s; 30 mm of stop and clearance take longer."""
    texts = {"diameter": "10 mm", "depth": "20 mm", "overtravel": "2 mm", "feed": "0.3 mm/rev",
             "speed": "250 rpm", "kd_torque": "24000", "wear": "1.3", "edges": "6",
             "efficiency": "0.8", "start_clearance": "3 mm"}  # fmt: skip
    assert value("reaming", texts, "depth_stop") == pytest.approx(22)
    assert value("reaming", texts, "quill_travel") == pytest.approx(25)
    assert value("reaming", texts, "time") == pytest.approx(20)
    torque = value("reaming", texts, "torque")
    assert value("reaming", texts, "motor_power") == pytest.approx(torque * 250 / 9550 / 0.8)


def test_a_feed_stop_is_reckoned_as_a_job_does() -> None:
    """While the whole lips cut the torque follows feed^0.8, from there statics take over."""
    texts = {name: text for name, text in DRILLED.items() if name != "capacity"}
    texts |= {"feed": "0.2 mm/rev"}
    torque, limit = (value("drilling", texts, key) for key in ("torque", "exit_torque"))
    near = value("drilling", texts | {"feed_stop": "0.22 mm/rev"}, "feed_stop_torque")
    assert near == pytest.approx(torque * 1.1**0.8)
    far = value("drilling", texts | {"feed_stop": "1.27 mm/rev"}, "feed_stop_torque")
    assert torque < near < far < limit
    assert far == pytest.approx(value("drilling", texts, "exit_at_feed"))

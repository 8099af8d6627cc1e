"""Figures solved from trials: constants of a tool's life, a speed for a life, a learner's rate."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from benchleaf.formulas import learning_curve, speeds, trials
from benchleaf.formulas.threads import Thread

from .declaration import Declaration, Symbol
from .figures_tapping import TAP_SPEED
from .operation import Observed, Trials

_V, _N = Symbol("cutting speed", "m/min", 1), Symbol("n")
_C, _LIFE = Symbol("C", "m/min"), Symbol("life", "min")
_TAYLOR = ("groover5-ex-23.4",)
_TWO = "Two trials always lie on such a law: hold a third one against it before you plan by it."
_OWN = "near the lives that were tried; one edge differs from the next by half"


def _speeds_and_lives(tried: Trials) -> Mapping[str, float]:
    (v1, v2), (t1, t2) = tried.speeds_m_min, tried.lives_min
    return {"v1": v1, "v2": v2, "T1": t1, "T2": t2}


def _exponent(tried: Trials) -> float:
    (v1, v2), (t1, t2) = tried.speeds_m_min, tried.lives_min
    return trials.taylor_exponent(v1, t1, v2, t2)


EXPONENT_OF_TRIALS = Declaration(
    "exponent", "Exponent n of two trials", "times", 3, 3, ("trials",), _exponent,
    "n = ln(v2 ÷ v1) ÷ ln(T1 ÷ T2)",
    (Symbol("v2", "m/min"), Symbol("v1", "m/min"), Symbol("T1", "min"), Symbol("T2", "min")),
    _TAYLOR, f"0.05 to 1, speeds a tenth apart at least; {_OWN}", numbers=_speeds_and_lives,
    doubt=lambda _: _TWO,
)  # fmt: skip
C_OF_TRIALS = Declaration(
    "c", "Cutting speed for a life of one minute, of two trials", "m/min", 1, 1,
    ("trials", "exponent"),
    lambda tried, n: trials.taylor_constant_m_min(tried.speeds_m_min[0], tried.lives_min[0], n),
    "C = v1 × T1^n", (Symbol("v1", "m/min"), Symbol("T1", "min"), _N), _TAYLOR, _OWN,
    numbers=lambda tried, n: {
        "v1": tried.speeds_m_min[0], "T1": tried.lives_min[0], "n": n},
)  # fmt: skip
SPEED_FOR_LIFE = Declaration(
    "cutting_speed", "Cutting speed for that life", "m/min", 1, 1, ("life", "exponent", "c"),
    trials.speed_for_life_m_min, "cutting speed = C ÷ life^n", (_LIFE, _N, _C), _TAYLOR,
    f"a limit, no setting: {_OWN}",
)  # fmt: skip
C_OF_LIFE = Declaration(
    "c", "Cutting speed for a life of one minute", "m/min", 1, 1,
    ("cutting_speed", "life", "exponent"), trials.taylor_constant_m_min,
    "C = cutting speed × life^n", (_V, _LIFE, _N), _TAYLOR, _OWN,
)  # fmt: skip
EXPONENT_OF_LIFE = Declaration(
    "exponent", "Exponent n of v T^n = C", "times", 3, 3, ("c", "cutting_speed", "life"),
    lambda c, speed, life: trials.taylor_exponent(c, 1.0, speed, life),
    "n = ln(C ÷ cutting speed) ÷ ln(life)", (_C, _V, _LIFE), _TAYLOR, f"0.05 to 1; {_OWN}",
    is_stand_in=True,
)  # fmt: skip


def _pieces(points: Observed) -> Mapping[str, float]:
    (n1, n2), (t1, t2) = points.pieces, points.times_s
    return {"n1": n1, "n2": n2, "T1": t1, "T2": t2}


def _percent(points: Observed) -> float:
    (n1, n2), (t1, t2) = points.pieces, points.times_s
    return trials.two_piece_learning_percent(n1, t1, n2, t2)


_N1, _T1 = Symbol("n1"), Symbol("T1", "s")
PERCENT_OF_TWO = Declaration(
    "learning_percent", "Learning percentage, of two pieces", "%", 1, 1, ("points",), _percent,
    "percentage = 100 × (T2 ÷ T1)^(1 ÷ log2(n2 ÷ n1))",
    (Symbol("T2", "s"), _T1, Symbol("n2"), _N1), ("chase-4a",), "unit model; 51 to 100",
    numbers=_pieces,
    doubt=lambda _: "Two pieces always lie on a curve and show no scatter: time a third.",
)  # fmt: skip
FIRST_OF_TWO = Declaration(
    "first", "First piece, on the curve of two", "s", 0, 0, ("points", "learning_percent"),
    lambda points, percent:
        points.times_s[0] / points.pieces[0] ** learning_curve.learning_exponent(percent),
    "first = T1 ÷ n1^(log2(percentage ÷ 100))", (_T1, _N1, Symbol("percentage", "%", 1)),
    ("chase-4a",), "unit model",
    numbers=lambda points, percent: {
        "T1": points.times_s[0], "n1": points.pieces[0], "percentage": percent},
)  # fmt: skip


def _tap_rim(speed: float, thread: Thread) -> float:
    return speeds.cutting_speed_m_min(speed, thread.major_mm)


TAP_RIM_SPEED = replace(
    TAP_SPEED, key="cutting_speed", label="Cutting speed", unit="m/min", shown=1, worked=1, name="",
    inputs=("speed", "thread"), run=_tap_rim, formula="cutting speed = π × major × n ÷ 1000",
    symbols=(Symbol("major", "mm"), Symbol("n", "rpm", 0)),
    numbers=lambda speed, thread: {"major": thread.major_mm, "n": speed},
)  # fmt: skip
"""The inverse of the tap's speed."""

"""Figures of the torque that enlarging a hole takes: the higher of two models, the other beside."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from benchleaf.formulas import drill_factors, enlarging

from .declaration import Declaration, Symbol
from .figures_cutting import TORQUE

_SOURCES = ("mh31-drilling", "mh31-table-7", "mh31-table-8", "mh31-table-9", "el-hofy", "iscar-kc")
_KD, _D, _W = Symbol("Kd"), Symbol("D", "mm"), Symbol("W")
_FF, _FM, _A = Symbol("Ff", "", 3), Symbol("FM", "", 1), Symbol("A")
_HOLE, _EDGES = Symbol("hole", "mm"), Symbol("edges")
_THINNER = Symbol("thinner", "", 2)
ROUGH = (
    "rough: this is the higher of two published models, from the highest torque in the solid; "
    "cutting forces printed for one metal differ by half and more; no measured torque is known"
)
_COVERED = "cutting alone; Kd, Ff, FM, A and W as for drilling, D the final diameter"


def _base(d: float, f: float, kd: float, wear: float) -> dict[str, float]:
    return {
        "Kd": kd,
        "Ff": drill_factors.feed_factor(f),
        "FM": drill_factors.torque_diameter_factor(d),
        "W": wear,
        "D": d,
    }


def _standard_a() -> float:
    return drill_factors.chisel_factors(drill_factors.STANDARD_CHISEL_RATIO).torque_a


def _torque(d: float, hole: float, f: float, kd: float, wear: float, thinner: float) -> float:
    return enlarging.enlarging_torque_nm(d, hole, f, kd=kd, wear=wear, thinness=thinner)


ENLARGING = replace(
    TORQUE,
    inputs=("diameter", "hole", "feed", "kd_torque", "wear", "thinner"),
    run=_torque,
    formula="M = Kd × Ff × FM × A × W ÷ 40000 × (1 − (hole ÷ D)²) × thinner^0.3",
    symbols=(_KD, _FF, _FM, _A, _W, _HOLE, _D, _THINNER),
    sources=_SOURCES,
    limits=f"{_COVERED}; hole is the hole before, thinner the chip against a drill's",
    note=ROUGH,
    numbers=lambda d, hole, f, kd, wear, thinner: {
        **_base(d, f, kd, wear), "A": _standard_a(), "hole": hole, "thinner": thinner},
)  # fmt: skip
REAMING = replace(
    ENLARGING,
    run=lambda *sizes: enlarging.LANDS_FACTOR * _torque(*sizes),
    formula=f"{ENLARGING.formula} × lands",
    symbols=(*ENLARGING.symbols, Symbol("lands")),
    sources=(*_SOURCES, "enlarging-lands"),
    limits=f"{ENLARGING.limits}; lands is for lands that rub, twice the torque of the cut",
    numbers=lambda d, hole, f, kd, wear, thinner: {
        **_base(d, f, kd, wear), "A": _standard_a(), "hole": hole, "thinner": thinner,
        "lands": enlarging.LANDS_FACTOR},
)  # fmt: skip


def _piloted(d: float, hole: float, f: float, kd: float, wear: float, chisel: float) -> float:
    case = {"kd": kd, "wear": wear, "chisel_ratio": chisel}
    return enlarging.enlarging_torque_nm(d, hole, f, thinness=1.0, **case)


AFTER_PILOT = replace(
    TORQUE,
    inputs=("diameter", "pilot", "feed", "kd_torque", "wear", "chisel_ratio"),
    run=_piloted,
    formula="M = Kd × Ff × FM × A × W ÷ 40000 × (1 − (pilot ÷ D)²)",
    symbols=(_KD, _FF, _FM, _A, _W, Symbol("pilot", "mm"), _D),
    sources=_SOURCES[:-1],
    limits=_COVERED,
    note=ROUGH,
    numbers=lambda d, pilot, f, kd, wear, chisel: {
        **_base(d, f, kd, wear), "A": drill_factors.chisel_factors(chisel).torque_a,
        "pilot": pilot},
)  # fmt: skip
THINNER = Declaration(
    "thinner", "Chip against a drill's", "times", 2, 2, ("edges", "edge_angle"),
    enlarging.chip_thinness, "thinner = edges ÷ 2 × lip sine ÷ edge sine",
    (_EDGES, Symbol("lip sine", "", 3), Symbol("edge sine", "", 3)), ("geometry",),
    lead="the chip is thinner ",
    numbers=lambda edges, angle: {
        "edges": edges, "lip sine": enlarging.chip_thinness(2, 90.0),
        "edge sine": enlarging.chip_thinness(2, 90.0) / enlarging.chip_thinness(2, angle)},
)  # fmt: skip


def _second(d: float, hole: float, f: float, kd: float, wear: float, edges: int) -> float:
    return enlarging.enlarging_torque_second_nm(d, hole, f, kd=kd, wear=wear, edges=int(edges))


SECOND = Declaration(
    "second", "Torque by the second model", "N m", -2, 1,
    ("diameter", "hole", "feed", "kd_torque", "wear", "edges"), _second,
    "second = Kd × Ff × FM × W ÷ 40000 × (1 − (hole ÷ D)²) ÷ (1 + hole ÷ D)^0.2 × "
    "(edges ÷ 2)^0.2",
    (_KD, _FF, _FM, _W, _HOLE, _D, _EDGES), ("shaw-oxford", "mh31-drilling"),
    lead="by the second model ",
    numbers=lambda d, hole, f, kd, wear, edges: {
        **_base(d, f, kd, wear), "hole": hole, "edges": edges},
)  # fmt: skip


def asked_of(operation: str, hole: str) -> tuple[Declaration, Declaration, Declaration]:
    """The same as `reckon` asks for them; `hole` is its name for the hole that is there."""
    torque = REAMING if operation == "reaming" else ENLARGING
    fine = "at the fine end of a feed that a ratio gives: the coarse end takes up to 1.4 times"
    return (
        _asked_thinner(enlarging.USUAL_EDGE_DEG.get(operation)),
        replace(
            torque, inputs=("diameter", hole, *torque.inputs[2:]), limits=f"{torque.limits}; {fine}"
        ),
        replace(SECOND, inputs=("diameter", hole, *SECOND.inputs[2:]), lead=""),
    )


def _asked_thinner(usual: float | None) -> Declaration:
    """By the whole angle of a cone, or by the usual angle of the edge."""

    def numbers(edges: float, angle: float = 0.0) -> Mapping[str, float]:
        return THINNER.numbers(int(edges), usual or angle / 2)  # type: ignore[misc]

    return replace(
        THINNER, inputs=("edges",) if usual else ("edges", "angle"), lead="", numbers=numbers,
        run=lambda edges, angle=0.0: enlarging.chip_thinness(int(edges), usual or angle / 2),
    )  # fmt: skip

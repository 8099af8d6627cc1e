"""A second published model of a tap's torque, and the printed constants of both models.

The two models take the chip's area differently, so each has a table of its own: never put a
constant of one into the other. Neither source prints a worked result, so the models are compared
with each other, and with the order of torques one maker measured.
"""

from collections.abc import Mapping
from types import MappingProxyType

from benchleaf.formulas.domain import within
from benchleaf.formulas.tapping import KC_RANGE_N_MM2
from benchleaf.formulas.threads import Thread

LUBERO_DIVISOR = 8000.0
"""As printed in the torque equation, giving N.m from N/mm2 and mm (source lubero, read)."""

TAPPING_TORQUE_SPREAD: Mapping[str, float] = MappingProxyType(
    {"carbon steel": 0.19, "stainless steel": 0.36, "cast iron": 0.60, "brass": 0.84}
)
"""Largest difference found between the two models, as a share of the smaller: plug tap, M2 to
M24, usual drill, nearest rows of both tables. The first model is the higher for iron and brass.
A dull tap or packed chips come on top of either."""


KC_YAMAWA_N_MM2: Mapping[str, float] = MappingProxyType(
    {
        # Table 1 (source yamawa-640, read); steels by their DIN names with the hardness printed.
        "St44-2, 133 HB": 3700.0,
        "Ck15, 141 HB": 3600.0,
        "Ck35, 162 HB": 3700.0,
        "Ck45, 188 HB": 3900.0,
        "Ck60, 188 HB": 4000.0,
        "42CrMo4, 193 HB": 3600.0,
        "42CrMo4, 30 HRC": 4900.0,
        "42CrMo4, 40 HRC": 5500.0,
        "X6CrNi18-10, 209 HB": 4200.0,
        "C105W2, 175 HB": 5300.0,
        "CuZn40": 2300.0,
        "G-AlSi8Cu3": 1300.0,
        "GG-25, 193 HB": 2900.0,
    }
)
"""Specific cutting resistance for tapping_torque_nm only."""


KC_LUBERO_N_MM2: Mapping[str, float] = MappingProxyType(
    {
        # Table of the page (source lubero, read).
        "unalloyed steel, to 700 N/mm2": 2300.0,
        "free-cutting steel, to 700 N/mm2": 2300.0,
        "structural steel, 500 to 950 N/mm2": 2500.0,
        "tempered steel, 500 to 950 N/mm2": 2600.0,
        "tempered steel, 950 to 1400 N/mm2": 3600.0,
        "tool steel, 950 to 1400 N/mm2": 3600.0,
        "austenitic stainless steel, 500 to 950 N/mm2": 3200.0,
        "aluminium, long chips, to 550 N/mm2": 800.0,
        "copper alloys, long chips, 300 to 700 N/mm2": 1100.0,
        "grey cast iron, 100 to 400 N/mm2": 1250.0,
        "alloy grey cast iron, 150 to 250 N/mm2": 1600.0,
        "malleable cast iron, 350 to 700 N/mm2": 1100.0,
        "aluminium, short chips, to 400 N/mm2": 680.0,
        "copper alloys, short chips, to 500 N/mm2": 720.0,
    }
)
"""Cutting constant for tapping_torque_second_nm only."""


K_YAMAWA: Mapping[tuple[str, str, str], float] = MappingProxyType(
    {
        # Table 2 (source yamawa-640, read): tap, work, series. The page leaves brass fine blank
        # for bottoming and spiral-fluted taps.
        ("plug", "steel", "coarse"): 1.35,
        ("plug", "steel", "fine"): 1.15,
        ("plug", "cast iron or aluminium", "coarse"): 1.25,
        ("plug", "cast iron or aluminium", "fine"): 1.08,
        ("plug", "brass", "coarse"): 1.60,
        ("plug", "brass", "fine"): 1.12,
        ("bottoming", "steel", "coarse"): 1.43,
        ("bottoming", "steel", "fine"): 1.50,
        ("bottoming", "cast iron or aluminium", "coarse"): 1.30,
        ("bottoming", "cast iron or aluminium", "fine"): 1.25,
        ("bottoming", "brass", "coarse"): 1.68,
        ("spiral-fluted", "steel", "coarse"): 1.15,
        ("spiral-fluted", "steel", "fine"): 1.25,
        ("spiral-fluted", "cast iron or aluminium", "coarse"): 1.05,
        ("spiral-fluted", "cast iron or aluminium", "fine"): 1.10,
        ("spiral-fluted", "brass", "coarse"): 0.85,
        ("spiral-pointed", "steel", "coarse"): 0.95,
        ("spiral-pointed", "steel", "fine"): 1.00,
        ("spiral-pointed", "cast iron or aluminium", "coarse"): 0.80,
        ("spiral-pointed", "cast iron or aluminium", "fine"): 1.00,
        ("spiral-pointed", "brass", "coarse"): 0.75,
        ("spiral-pointed", "brass", "fine"): 1.00,
    }
)
"""Tap factor K for tapping_torque_nm only, by tap, work and series."""


def tapping_torque_second_nm(thread: Thread, kc_n_mm2: float) -> float:
    """Find the torque of a cutting tap by a second published model, as a check.

    Equation: M = kc P^2 D / 8000

    Args:
        thread: [any] the thread, giving D and P
        kc_n_mm2: [N/mm2] cutting constant kc of KC_LUBERO_N_MM2, and of no other table

    Returns:
        [N.m] torque M; it knows neither the hole nor the kind of tap

    Valid: kc 500 to 8000

    >>> from benchleaf.formulas.threads import thread
    >>> tapping_torque_second_nm(thread("M10"), 2500.0)
    7.03

    Source: Lubero, technical pages [lubero, read]; the worked call is our own arithmetic
    """
    kc = within("kc_n_mm2", kc_n_mm2, *KC_RANGE_N_MM2)
    return kc * thread.pitch_mm**2 * thread.major_mm / LUBERO_DIVISOR

"""Limits and fits."""

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.fit_tables import (
    DELTA_UM,
    GRADES,
    HOLE_LOWER_UM,
    HOLE_UPPER_UM,
    IT_UM,
    SHAFT_LOWER_UM,
    SHAFT_UPPER_UM,
    STEPS_MM,
)
from benchleaf.formulas.fits import (
    fit,
    gauge_sizes,
    hole_position_radius_mm,
    limits,
    positional_diameter_mm,
)

Table = Callable[[str], list[dict[str, str]]]
CLASSES = [f"{letter}{grade}" for letter, grades in GRADES.items() for grade in grades]
HOLES = [each for each in CLASSES if each[0].isupper()]
SHAFTS = [each for each in CLASSES if each[0].islower()]
classes = st.sampled_from(CLASSES)
nominals = st.floats(0.5, 500)
errors = st.floats(-5, 5)


def test_makers_tables_row_by_row(table: Table) -> None:
    rows = table("fits_by_makers.csv")
    assert len(rows) == 354
    for row in rows:
        # Just inside the step, and at its upper end.
        for size in (float(row["over_mm"]) + 0.01, float(row["to_mm"])):
            ours = limits(row["tolerance_class"], size)
            assert (ours.lower_um, ours.upper_um) == (
                float(row["lower_um"]),
                float(row["upper_um"]),
            ), row


def test_classes_worked_out_in_print(table: Table) -> None:
    rows = table("fits_worked.csv")
    wrong = []
    for row in rows:
        ours = limits(row["tolerance_class"], float(row["size_mm"]))
        same = (ours.lower_um, ours.upper_um) == (float(row["lower_um"]), float(row["upper_um"]))
        if not same:
            wrong.append((row["tolerance_class"], row["size_mm"], row["row"]))
    assert len(rows) == 15
    assert wrong == [("H7", "10", "misprint"), ("h6", "25", "misprint")]


def test_the_fit_an_encyclopaedia_works_out() -> None:
    # H8/f7 at 50 mm: 0.025 to 0.089 mm of clearance, printed.
    running = fit("H8/f7", 50)
    assert (running.min_clearance_um, running.max_clearance_um) == (25, 89)
    assert running.kind == "clearance"


@pytest.mark.parametrize(
    ("designation", "size", "least", "greatest", "kind"),
    [
        # Our own arithmetic from the tables: not independent, but each kind once.
        ("H7/h6", 25, 0, 34, "clearance"),
        ("H7/k6", 25, -15, 19, "transition"),
        ("H7/n6", 25, -28, 6, "transition"),
        ("H7/p6", 25, -35, -1, "interference"),
        ("H7/p6", 12, -29, 0, "interference"),
        ("H7 / g6", 20, 7, 41, "clearance"),
    ],
)
def test_each_kind_of_fit(
    designation: str, size: float, least: float, greatest: float, kind: str
) -> None:
    ours = fit(designation, size)
    assert (ours.min_clearance_um, ours.max_clearance_um, ours.kind) == (least, greatest, kind)


@given(st.sampled_from(HOLES), st.sampled_from(SHAFTS), nominals)
def test_least_is_below_greatest_and_the_kind_follows(
    hole_class: str, shaft_class: str, size: float
) -> None:
    ours = fit(f"{hole_class}/{shaft_class}", size)
    assert ours.min_clearance_um < ours.max_clearance_um
    loosest = ours.hole.high_mm - ours.shaft.low_mm
    assert loosest == pytest.approx(ours.max_clearance_um / 1000, abs=1e-9)
    widths = (ours.hole.upper_um - ours.hole.lower_um) + (ours.shaft.upper_um - ours.shaft.lower_um)
    assert ours.max_clearance_um - ours.min_clearance_um == pytest.approx(widths)
    by_kind = {
        "clearance": ours.min_clearance_um >= 0,
        "interference": ours.max_clearance_um <= 0,
        "transition": ours.min_clearance_um < 0 < ours.max_clearance_um,
    }
    assert by_kind[ours.kind]


@given(classes, nominals)
def test_limits_are_as_wide_as_their_grade(tolerance_class: str, size: float) -> None:
    ours = limits(tolerance_class, size)
    grade = int(tolerance_class.lstrip("FGHJKNPSfghjknps"))
    step = next(at for at, top in enumerate(STEPS_MM) if size <= top)
    assert ours.upper_um - ours.lower_um == IT_UM[grade][step]
    assert ours.low_mm < ours.high_mm


@given(st.sampled_from(["f6", "g6", "h6"]), nominals)
def test_a_hole_of_the_same_letter_mirrors_the_shaft(shaft_class: str, size: float) -> None:
    shaft, hole = limits(shaft_class, size), limits(shaft_class.upper(), size)
    assert (hole.lower_um, hole.upper_um) == (-shaft.upper_um, -shaft.lower_um)


@pytest.mark.parametrize("letter", ["K", "N", "P"])
def test_a_tight_hole_mirrors_the_shaft_one_grade_finer(letter: str) -> None:
    # The standard's rule for these holes: P7/h6 is as tight as H7/p6.
    for size in STEPS_MM[1:]:
        hole_basis = fit(f"H7/{letter.lower()}6", size)
        shaft_basis = fit(f"{letter}7/h6", size)
        # To a micrometre: the printed figures are rounded.
        assert shaft_basis.min_clearance_um == pytest.approx(hole_basis.min_clearance_um, abs=1)


def test_tolerances_grow_with_size_and_with_grade() -> None:
    for row in IT_UM.values():
        assert len(row) == len(STEPS_MM)
        assert list(row) == sorted(set(row))
    for grade in range(5, 13):
        assert all(a < b for a, b in zip(IT_UM[grade], IT_UM[grade + 1], strict=True))


def test_every_row_of_the_tables_has_every_step() -> None:
    for tolerance_class in CLASSES:
        uppers = [limits(tolerance_class, size).upper_um for size in STEPS_MM]
        assert all(math.isfinite(value) for value in uppers)
    for letter in "npNPfgFG":
        edges = [limits(f"{letter}6", size) for size in STEPS_MM]
        away = [min(abs(each.lower_um), abs(each.upper_um)) for each in edges]
        # Further from the nominal size, step by step.
        assert all(a <= b for a, b in pairwise(away)), letter


@given(classes, nominals)
def test_a_gauge_passes_what_is_inside_the_limits(tolerance_class: str, size: float) -> None:
    part, gauge = limits(tolerance_class, size), gauge_sizes(tolerance_class, size)
    assert {gauge.go_mm, gauge.not_go_mm} == {part.low_mm, part.high_mm}
    # A go plug is the smaller, a go gap the wider.
    assert (gauge.go_mm < gauge.not_go_mm) is tolerance_class[0].isupper()


@pytest.mark.parametrize(
    ("tolerance_class", "allowed"),
    [
        ("H4", "it must be H5 to H13"),
        ("H14", "it must be H5 to H13"),
        ("P8", "it must be P6 to P7"),
        ("k8", "it must be k5 to k7"),
        ("Z7", "it must be one of F, G, H, JS"),
        ("7H", "it must be one of F, G, H, JS"),
        ("", "it must be one of F, G, H, JS"),
    ],
)
def test_a_class_outside_the_tables_is_refused(tolerance_class: str, allowed: str) -> None:
    with pytest.raises(ValueError, match=f"tolerance_class is {tolerance_class!r}; {allowed}"):
        limits(tolerance_class, 20)


@pytest.mark.parametrize("size", [0.0, -20.0, 500.1, math.nan, math.inf])
def test_a_size_outside_the_tables_is_refused(size: float) -> None:
    for call in (lambda: limits("H7", size), lambda: fit("H7/g6", size)):
        with pytest.raises(ValueError, match="size_mm is"):
            call()


@pytest.mark.parametrize("designation", ["H7", "g6/H7", "H7/H6", "g6/g6", "H7-g6", "/", ""])
def test_a_fit_is_a_hole_over_a_shaft(designation: str) -> None:
    with pytest.raises(ValueError, match=r"designation is .* such as H7/g6"):
        fit(designation, 20)


@pytest.mark.parametrize(("x", "y", "printed"), [(0.15, 0.0, 0.30), (0.3, -0.4, 1.0)])
def test_positional_diameter(x: float, y: float, printed: float) -> None:
    # The first is worked out on a public page; the second is the 3-4-5 triangle.
    assert positional_diameter_mm(x, y) == pytest.approx(printed)


@given(errors, errors)
def test_the_diameter_is_twice_the_radius_whatever_the_signs(x: float, y: float) -> None:
    radius = hole_position_radius_mm(x, y)
    assert positional_diameter_mm(-x, y) == 2 * radius
    assert max(abs(x), abs(y)) <= radius <= abs(x) + abs(y) + 1e-12


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
def test_an_error_is_a_real_length(bad: float) -> None:
    with pytest.raises(ValueError, match="x_error_mm is"):
        hole_position_radius_mm(bad, 0.0)
    with pytest.raises(ValueError, match="y_error_mm is"):
        positional_diameter_mm(0.0, bad)


def test_standard_tolerances_of_two_pages(table: Table) -> None:
    rows = table("it_grades.csv")
    assert len(rows) == 7 * 13 + 2 * 11 + 4
    for row in rows:
        width = IT_UM[int(row["grade"])][STEPS_MM.index(float(row["to_mm"]))]
        assert width == float(row["tolerance_um"]), row
    # Each cell of the table is among them.
    assert {(row["grade"], row["to_mm"]) for row in rows} == {
        (str(grade), f"{top:g}") for grade in IT_UM for top in STEPS_MM
    }


def test_large_sizes_are_copied_as_the_book_prints_them(table: Table) -> None:
    rows = table("fit_deviations_book.csv")
    assert len(rows) == 11 * 4
    columns = {
        "es": SHAFT_UPPER_UM,
        "ei": SHAFT_LOWER_UM,
        "EI": HOLE_LOWER_UM,
        "ES": HOLE_UPPER_UM,
    }
    for row in rows:
        step = STEPS_MM.index(float(row["to_mm"]))
        what, which = row["quantity"].split()
        ours = DELTA_UM[int(which)] if what == "delta" else columns[which][what]
        assert ours[step] == float(row["value_um"]), row


def test_tight_shafts_are_the_tight_holes_with_the_sign_turned() -> None:
    # How k, n and p are had from 180 mm up, and a check of both below.
    for hole, shaft in (("K", "k"), ("N", "n"), ("P", "p")):
        assert [-value for value in HOLE_UPPER_UM[hole]] == list(SHAFT_LOWER_UM[shaft])


def test_grades_are_offered_where_the_tables_hold() -> None:
    assert GRADES["H"] == tuple(range(5, 14))
    assert (GRADES["K"], GRADES["P"], GRADES["k"]) == ((6, 7, 8), (6, 7), (5, 6, 7))
    assert GRADES["n"] == GRADES["p"] == (5, 6, 7, 8)

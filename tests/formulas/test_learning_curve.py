"""Learning curves: printed tables and examples of both models, and what holds for any learner."""

import math
import random
from collections.abc import Callable

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from benchleaf.formulas.learning_curve import (
    MOST_PIECES,
    STUDENT_90,
    Model,
    average_piece_time_s,
    average_time_s,
    fit_average,
    fit_unit,
    learning_exponent,
    piece_time_s,
    pieces_to_standard,
    time_band,
    unit_time_s,
)
from benchleaf.formulas.work_rate import (
    basic_time_s,
    days_of_learning,
    hours_to_piece,
    pieces_in_time,
    standard_time_s,
)
from oracles.learning_totals import unit_total_s
from running import examples

Table = Callable[[str], list[dict[str, str]]]

percents = st.floats(60, 98)
firsts = st.floats(10, 5000)
models: st.SearchStrategy[Model] = st.sampled_from(["unit", "cumulative average"])


def half_last_digit(printed: str) -> float:
    return 0.5 * 10.0 ** -len(printed.partition(".")[2]) + 1e-9


def test_every_printed_cell_of_the_unit_tables(table: Table) -> None:
    rows = table("learning_curve_table.csv")
    assert len(rows) >= 30
    for row in rows:
        percent, piece = float(row["learning_percent"]), int(row["piece"])
        found = {"unit": unit_time_s(1, percent, piece), "total": unit_total_s(1, percent, piece)}
        for key, value in found.items():
            if row[key]:
                assert abs(value - float(row[key])) <= half_last_digit(row[key]), row


ROUNDED_BY_THE_BOOK = {("C", "256", "6247572"): 3.0, ("C", "64", "2392447"): 4.0}
"""The book sums factors of seven digits: its last digit is off where many are summed."""


def answer(row: dict[str, str]) -> float:
    model: Model = "unit" if row["model"] == "unit" else "cumulative average"
    first, percent, at = float(row["first"]), float(row["learning_percent"]), float(row["at"])
    if row["wanted"] == "pieces to":
        return float(pieces_to_standard(model, first, percent, at) or 0)
    if row["wanted"] == "piece":
        return piece_time_s(model, first, percent, int(at))
    if model == "unit":
        total = unit_total_s(first, percent, int(at))
        return total if row["wanted"] == "total" else total / at
    return average_time_s(first, percent, int(at))


def test_every_printed_example(table: Table) -> None:
    rows = table("learning_curve_examples.csv")
    assert {row["book"] for row in rows} == {"C", "S", "W"}
    for row in rows:
        wide = ROUNDED_BY_THE_BOOK.get((row["book"], row["at"], row["printed"]))
        allowed = wide or half_last_digit(row["printed"])
        assert abs(answer(row) - float(row["printed"])) <= allowed, (row, answer(row))


def test_the_two_models_are_never_the_same() -> None:
    assert unit_time_s(100, 80, 2) == pytest.approx(80)
    assert average_piece_time_s(100, 80, 2) == pytest.approx(60)


@given(firsts, percents, st.integers(1, 400))
def test_each_doubling_takes_the_percentage(first: float, percent: float, piece: int) -> None:
    share = percent / 100
    assert unit_time_s(first, percent, 2 * piece) == pytest.approx(
        share * unit_time_s(first, percent, piece)
    )
    assert average_time_s(first, percent, 2 * piece) == pytest.approx(
        share * average_time_s(first, percent, piece)
    )


@given(firsts, percents, st.integers(1, 300))
def test_pieces_add_up_to_the_total_of_the_averages(
    first: float, percent: float, pieces: int
) -> None:
    added = math.fsum(average_piece_time_s(first, percent, n) for n in range(1, pieces + 1))
    assert added == pytest.approx(pieces * average_time_s(first, percent, pieces))


@given(models, firsts, percents, st.floats(0.1, 0.99))
def test_the_standard_is_reached_at_that_piece_and_not_before(
    model: Model, first: float, percent: float, share: float
) -> None:
    standard = first * share
    piece = pieces_to_standard(model, first, percent, standard)
    if piece is None:
        assert piece_time_s(model, first, percent, MOST_PIECES) > standard
        return
    assert piece_time_s(model, first, percent, piece) <= standard
    assert piece == 1 or piece_time_s(model, first, percent, piece - 1) > standard


def test_without_learning_a_shorter_standard_is_never_reached() -> None:
    assert pieces_to_standard("unit", 100, 100, 99) is None
    assert pieces_to_standard("unit", 100, 100, 100) == 1


@given(firsts, percents, st.lists(st.integers(1, 200), min_size=3, max_size=12, unique=True))
def test_a_fit_finds_the_curve_that_made_the_times(
    first: float, percent: float, pieces: list[int]
) -> None:
    fit = fit_unit(tuple(pieces), tuple(unit_time_s(first, percent, n) for n in pieces))
    assert fit.first_s == pytest.approx(first, rel=1e-6)
    assert fit.learning_percent == pytest.approx(percent, rel=1e-6)
    assert fit.scatter == pytest.approx(0, abs=1e-6)


@given(firsts, percents, st.integers(3, 40))
def test_a_fit_of_the_averages_finds_theirs(first: float, percent: float, pieces: int) -> None:
    times = tuple(average_piece_time_s(first, percent, n) for n in range(1, pieces + 1))
    fit = fit_average(times)
    assert (fit.first_s, fit.learning_percent) == pytest.approx((first, percent), rel=1e-6)


@given(st.lists(st.tuples(st.integers(1, 60), st.floats(20, 900)), min_size=3, max_size=10))
def test_no_other_line_lies_nearer_to_the_times(observed: list[tuple[int, float]]) -> None:
    assume(len({piece for piece, _ in observed}) > 1)
    pieces, times = zip(*observed, strict=True)
    fit = fit_unit(pieces, times)
    slope, start = math.log2(fit.learning_percent / 100), math.log(fit.first_s)

    def off(a: float, b: float) -> float:
        return sum((math.log(t) - a - b * math.log(n)) ** 2 for n, t in observed)

    best = off(start, slope)
    moved = [(start + d, slope + e) for d in (-0.01, 0, 0.01) for e in (-0.01, 0, 0.01)]
    assert all(best <= off(a, b) + 1e-9 for a, b in moved)
    assert fit.scatter == pytest.approx(math.sqrt(best / (len(times) - 2)), abs=1e-9)


def student_share(t: float, freedom: int) -> float:
    """P(|T| <= t) for whole degrees of freedom, by the closed sums of the distribution."""
    angle = math.atan(t / math.sqrt(freedom))
    cosine, sine = math.cos(angle), math.sin(angle)
    term, total = 1.0, 1.0
    if freedom % 2:
        if freedom == 1:
            return 2 * angle / math.pi
        for k in range(3, freedom - 1, 2):
            term *= cosine**2 * (k - 1) / k
            total += term
        return 2 / math.pi * (angle + sine * cosine * total)
    for k in range(2, freedom - 1, 2):
        term *= cosine**2 * (k - 1) / k
        total += term
    return sine * total


def test_the_printed_table_of_t_is_that_of_the_distribution() -> None:
    for freedom, t in enumerate(STUDENT_90, 1):
        assert student_share(t - 0.0005, freedom) <= 0.90 <= student_share(t + 0.0005, freedom)


def test_the_band_holds_nine_new_pieces_in_ten() -> None:
    """Made-up learners with a known scatter: the share of new pieces in the band is 90 %."""
    dice = random.Random(7)
    pieces, inside, tries = (1, 2, 4, 6, 9, 14), 0, 3000
    for _ in range(tries):
        times = tuple(unit_time_s(300, 82, n) * math.exp(dice.gauss(0, 0.12)) for n in pieces)
        band = time_band(fit_unit(pieces, times), 20)
        new = unit_time_s(300, 82, 20) * math.exp(dice.gauss(0, 0.12))
        inside += band.low_s <= new <= band.high_s
    assert inside / tries == pytest.approx(0.90, abs=0.015)


def test_the_band_widens_away_from_what_was_seen() -> None:
    fit = fit_unit((1, 2, 4, 8), (100, 82, 62, 52))
    wide = [math.log(band.high_s / band.low_s) for band in (time_band(fit, n) for n in (3, 9, 99))]
    assert wide == sorted(wide)
    assert wide[0] < wide[-1]


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: learning_exponent(50), "learning_percent is 50"),
        (lambda: learning_exponent(101), "from 51 to 100"),
        (lambda: unit_time_s(0, 80, 1), "first_s is 0"),
        (lambda: unit_time_s(10, 80, 0), "piece is 0"),
        (lambda: fit_unit((1, 2), (5, 4)), "3 at least"),
        (lambda: fit_unit((4, 4, 4), (5, 4, 3)), "different numbers"),
        (lambda: fit_unit((1, 2, 3), (5, 4)), "as many"),
        (lambda: fit_unit((1, 2, 3), (5, 0, 4)), "time is 0"),
        (lambda: piece_time_s("other", 10, 80, 1), "model is 'other'"),  # type: ignore[arg-type]
        (lambda: time_band(fit_average((9, 8, 7)), 4), "unit model"),
        (lambda: standard_time_s(10, 101), "allowance_percent is 101"),
        (lambda: basic_time_s((), ()), "not none"),
    ],
)
def test_what_cannot_be_is_refused(call: Callable[[], object], said: str) -> None:
    with pytest.raises(ValueError, match=said):
        call()


def test_the_standard_time_is_the_printed_one(table: Table) -> None:
    for row in table("standard_time.csv"):
        found = standard_time_s(float(row["basic_min"]), float(row["allowance_percent"]))
        assert found == pytest.approx(float(row["printed_min"]))


@given(st.floats(1, 900), st.floats(0, 40))
def test_a_shift_at_the_standard_is_full(basic: float, allowance: float) -> None:
    standard = standard_time_s(basic, allowance)
    assert pieces_in_time(standard, 28800) * standard == pytest.approx(28800)


@settings(max_examples=examples(50))
@given(models, st.floats(200, 1000), percents, st.floats(0.3, 1.5), st.integers(0, 30))
def test_days_hold_what_the_curve_says(
    model: Model, first: float, percent: float, share: float, done: int
) -> None:
    standard, day_s, days = first * share, 3600.0, 6
    found = days_of_learning(model, first, percent, standard, day_s, done, days)
    made = sum(one.pieces for one in found)

    def time(piece: int) -> float:
        return max(standard, piece_time_s(model, first, percent, piece))

    spent = sum(time(n) for n in range(done + 1, done + made + 1))
    assert spent <= days * day_s + 1e-6
    assert spent + time(done + made + 1) > days * day_s - 1e-6
    assert [one.first_piece for one in found] == [
        done + 1 + sum(one.pieces for one in found[:day]) for day in range(days)
    ]
    assert all(one.last_time_s >= standard for one in found)


@given(models, st.floats(100, 1000), percents, st.integers(0, 60), st.integers(1, 120))
def test_hours_are_the_sum_of_the_pieces_left(
    model: Model, first: float, percent: float, done: int, piece: int
) -> None:
    left = (piece_time_s(model, first, percent, n) for n in range(done + 1, piece + 1))
    assert hours_to_piece(model, first, percent, done, piece) * 3600 == pytest.approx(
        math.fsum(left), abs=1e-6
    )

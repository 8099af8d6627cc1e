"""No set-up is said to be held that may come loose when all its inputs are at their bad ends."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.compute import SetUpSheet, set_up_sheets, told
from benchleaf.compute.worst import no_less, no_more, told_times
from benchleaf.model import Units
from oracles import set_ups
from running import examples

LOOSE = {"S505", "S506", "S512", "S521"}
CLAMP = {"force": "20 kN", "friction": "0.15", "arm": "40 mm", "faces": "1",
         "source": "entered for the tests"}  # fmt: skip
STOP = {"rated_force": "1 kN", "arm": "40 mm", "source": "entered for the tests"}
FEED_STOP = {"how": "By power.", "feed": "0.15 mm/rev", "source": "entered for the tests"}
TRIED = {"friction_source": "a trial"}
SERRATED = {"jaw_surface": "serrated"}


def sheet(
    kind: str = "flat",
    clamp: Mapping[str, str] | None = None,
    stop: Mapping[str, str] | None = None,
    fields: Mapping[str, Any] | None = None,
    tool: Mapping[str, Any] | None = None,
    held: Mapping[str, str] | None = None,
    is_dry: bool = False,
) -> SetUpSheet:
    """A set-up of a kind, held as is said."""
    own, cutter = set_ups.KINDS[kind]
    holding: dict[str, Any] = {"method": "vice", "how": "On parallels.", "bolted_down": "Bolts."}
    holding |= held or {}
    if clamp is not None:
        holding["clamping"] = CLAMP | dict(clamp)
    if stop is not None:
        holding["positive_stop"] = STOP | dict(stop)
    shop, job = set_ups.made(
        {**own, **(fields or {}), "holding": holding}, {**cutter, **(tool or {})}
    )
    if is_dry:
        job = job.model_copy(update={"fluid": None})
    (one,) = set_up_sheets(shop, job)
    return one


MARGIN = {"margin": "1", "margin_reason": "The setter said so."}
ATTACKS: Mapping[str, dict[str, Any]] = {
    "no margin": {"clamp": {"force": "11 kN"}, "held": MARGIN},
    "a friction tried on one plate": {"clamp": {"force": "5 kN", "friction": "0.3", **TRIED}},
    "serrated jaws, not measured": {"clamp": {"force": "4 kN", "friction": "0.9"} | SERRATED},
    "a friction of nine tenths": {
        "clamp": {"force": "1.3 kN", "friction": "0.9"} | SERRATED | TRIED},
    "called the lowest measured": {"clamp": {"force": "8 kN", "force_known_by": "lowest measured"}},
    "dry, with oily jaws": {"clamp": {"force": "11 kN"}, "is_dry": True},
    "clamp and stop, each too weak": {"clamp": {"force": "3 kN"}, "stop": {"rated_force": "400 N"}},
    "a stop, and a clamp that holds nothing down": {
        "clamp": {"force": "50 N"}, "stop": {"rated_force": "2 kN", "arm": "90 mm"}},
    "a long arm": {"clamp": {"force": "700 N", "arm": "800 mm"}},
    "a drill called sharp": {"clamp": {"force": "9.5 kN"}, "tool": {"wear_factor": "1.0"}},
    "a long chisel edge": {"clamp": {"force": "20 kN"}, "tool": {"chisel_ratio": "0.4"}},
    "a blind hole whose point comes out": {
        "kind": "blind", "clamp": {"force": "4 kN"}, "fields": {"depth": "19 mm"}},
    "a feed stop that is too coarse": {
        "kind": "feed stop", "clamp": {"force": "8 kN"},
        "fields": {"feed_stop": FEED_STOP | {"feed": "0.9 mm/rev"}}},
    "a feed stop, and a clamp too weak for the cut": {
        "kind": "feed stop", "clamp": {"force": "3.3 kN"}, "fields": {"feed_stop": FEED_STOP}},
    "a tap in a wrench": {"kind": "tap blind", "clamp": {"force": "3.2 kN"}},
    "a tap by machine": {"kind": "tap", "clamp": {"force": "3.9 kN"}},
    "a countersink": {"kind": "sink entered", "clamp": {"force": "5 kN"}},
    "a counterbore": {"kind": "bore", "clamp": {"force": "3 kN"}},
    "a reamer": {"kind": "ream", "clamp": {"force": "1.3 kN"}},
    "a pilot hole": {"kind": "pilot", "clamp": {"force": "4 kN"}},
    "a tube": {"kind": "tube", "clamp": {"force": "11 kN"}},
    "a small bar": {"kind": "small bar", "clamp": {"force": "11 kN"}},
    "two faces": {"clamp": {"force": "5.5 kN", "faces": "2"}},
    "a stop that is just enough": {
        "clamp": {"force": "10 kN", "presses": "down"}, "stop": {"rated_force": "700 N"},
        "held": {"method": "clamps"}},
    "a drill that is worn out": {"clamp": {"force": "13 kN"}, "tool": {"wear_factor": "2"}},
    "no wear factor": {"clamp": {}, "tool": {"wear_factor": None}},
}  # fmt: skip


@pytest.mark.parametrize("name", ATTACKS)
def test_what_may_come_loose_does_not_run(name: str) -> None:
    assert LOOSE & {stop.code for stop in sheet(**ATTACKS[name]).stops}


@pytest.mark.parametrize(
    "kind", ["flat", "blind", "bar", "tube", "pilot", "tap", "sink", "bore", "ream"]
)
def test_a_good_vice_holds_each_of_them(kind: str) -> None:
    one = sheet(kind, {})
    assert not LOOSE & {stop.code for stop in one.stops}
    assert "barely-held" not in {doubt.code for doubt in one.doubts}
    assert not any("bears the work" in caution for caution in one.cautions)


@pytest.mark.parametrize(
    ("how", "is_told"),
    [
        ("In the vice.", True), ("The plate lies over a gap.", True),
        ("Two straps, with no packing under it.", True), ("On parallels.", False),
        ("The casting lies on three rests.", False), ("In the V-block, under a strap.", False),
    ],
)  # fmt: skip
def test_work_that_nothing_bears_from_below_is_told(how: str, is_told: bool) -> None:
    told = [one for one in sheet("flat", {}, held={"how": how}).cautions if "bears the work" in one]
    assert bool(told) is is_told
    declared = sheet("flat", {}, held={"how": how, "borne_by": "A steel plate."})
    assert not any("bears the work" in one for one in declared.cautions)


@given(
    st.floats(2, 40), st.floats(1.0, 2.0), st.floats(0.05, 0.4), st.floats(3, 12),
    st.sampled_from(["force", "wear", "feed", "size"]), st.floats(1.01, 1.4),
)  # fmt: skip
@settings(max_examples=examples(40), deadline=None)
def test_at_worst_less_is_held_the_more_is_asked(
    force: float, wear: float, feed: float, size: float, what: str, more: float
) -> None:
    def worst(**other: float) -> tuple[float, float, bool]:
        case = {"force": force, "wear": wear, "feed": feed, "size": size} | other
        one = sheet(
            "flat", {"force": f"{case['force']:.6f} kN"},
            fields={"feed": f"{case['feed']:.6f} mm/rev", "thickness": "20 mm"},
            tool={"size": f"{case['size']:.6f} mm", "wear_factor": f"{case['wear']:.6f}"},
        )  # fmt: skip
        told = [part for row in one.rows if row.key == "exit_torque" for part in row.sums]
        by = {part.formula.partition(" = ")[0]: part.value for part in told}
        return by["held"], by["at worst"], not LOOSE & {stop.code for stop in one.stops}

    held, at_worst, runs = worst()
    assert at_worst <= held
    changed = {"force": force / more, "wear": min(2.0, wear * more), "feed": feed * more,
               "size": size * more}  # fmt: skip
    harder = worst(**{what: changed[what]})
    assert harder[1] <= at_worst * (1 + 1e-9)
    assert runs or not harder[2]


ROUGH_UNITS = {"N", "N m", "kW", "lbf", "lbf in", "hp", "kgf"}


@pytest.mark.parametrize("kind", set_ups.KINDS)
def test_no_figure_that_is_good_to_a_third_has_three_digits(kind: str) -> None:
    """Rows, doubts and stops; what was entered, and published limits, stand as they were given."""
    one = sheet(kind, {"force": "0.9 kN"})
    for row in one.rows:
        for figure in (row.figure, row.other):
            if figure is not None and figure.unit in ROUGH_UNITS:
                digits = re.sub(r"\D", "", figure.text.split()[0]).strip("0")
                assert len(digits) <= 2, f"{row.key}: {figure.text}"
    told = " ".join((*(stop.reason for stop in one.stops), *(doubt.text for doubt in one.doubts)))
    for number in re.findall(r"([\d.]+) (?:N m|N|kW)\b", told.replace("216 N", "")):
        assert len(number.replace(".", "").strip("0")) <= 2, told


def test_what_is_told_is_never_safer_than_it_is() -> None:
    assert (told_times(1.999), told_times(0.97), told_times(10.9)) == (
        "1.9 times", "0.9 times", "10 times",
    )  # fmt: skip
    safe = ((no_less(101.0, "N"), "110 N"), (no_more(109.0, "N"), "100 N"),
            (no_less(0.801, "kW"), "0.81 kW"), (no_more(0.809, "kW"), "0.80 kW"))  # fmt: skip
    for words, expected in safe:
        assert told(words, Units.METRIC) == expected
    assert told(no_less(101.0, "N"), Units.INCH) == "23 lbf"  # 22.7
    assert told(no_more(109.0, "N"), Units.INCH) == "24 lbf"  # 24.5

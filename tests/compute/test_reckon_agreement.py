"""Whatever is given to reckon either agrees, or is refused with what contradicts it named.

The oracle here does not ask how the product looks for contradictions. It takes what was answered,
and holds every declared relation, every domain and every size against every other.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.compute.declaration import ends
from benchleaf.compute.domains import DOMAINS, READ_BY_KIND, domain_of
from benchleaf.compute.given import value_of
from benchleaf.compute.operation import Operation
from benchleaf.compute.operations import OPERATIONS
from benchleaf.compute.reckon import InputError, Reckoning, reckon
from running import examples, sample, some

STEEL = {"kd_thrust": "24000", "kd_torque": "24000", "chisel_ratio": "0.18", "wear": "1.3"}
USUAL: Mapping[str, Mapping[str, str]] = {
    "drilling": {
        "diameter": "8 mm", "feed": "0.15 mm/rev", "point_angle": "118 deg", "depth": "20 mm",
        "start_clearance": "3 mm", "overtravel": "1 mm", "efficiency": "0.8",
        "pinion_radius": "12 mm", "lever_radius": "300 mm", "lever_efficiency": "0.9", **STEEL,
    },
    "tapping": {"thread": "M8", "thread_length": "10 mm", "chamfer": "5", "kc": "3900",
                "tap_factor": "1.35"},
    "reaming": {"diameter": "10 mm", "kd_torque": "24000", "wear": "1.3", "edges": "6",
                "depth": "20 mm"},
    "countersinking": {"hole": "6.5 mm", "angle": "90 deg", "kd_torque": "24000", "wear": "1.3",
                       "edges": "3"},
    "counterboring": {"kd_torque": "24000", "wear": "1.3", "edges": "3"},
    "clearance-hole": {"series": "medium"},
    "fit": {"size": "20 mm"},
    "holding": {"arm": "40 mm", "clamp_force": "6 kN"},
    "drill-life": {"time": "12 s"},
    "rate": {"allowance": "12"},
    "learning-curve": {"piece": "10", "standard": "2 min"},
}  # fmt: skip
"""What else is known, so that the pair that is drawn has something to contradict."""

TEXTS = {
    "drill": ("0.3 mm", "5 mm", "6.8 mm", "8 mm", "10 mm", "20 mm", "1/4 in", "90 mm"),
    "spindle speed": ("20 rpm", "500 rpm", "1194 rpm", "5000 rpm", "60000 rpm"),
    "cutting speed": ("1 m/min", "12 m/min", "30 m/min", "400 m/min"),
    "feed": ("0.02 mm/rev", "0.15 mm/rev", "0.4 mm/rev", "1.2 mm/rev", "4 mm/rev"),
    "angle": ("12 deg", "60 deg", "118 deg", "180 deg"),
    "length": ("0.6 mm", "5 mm", "8 mm", "11 mm", "20 mm", "45 mm", "150 mm"),
    "force": ("20 N", "2 kN", "40 kN"),
    "torque": ("0.2 N m", "8 N m", "40 N m", "900 N m"),
    "power": ("0.1 kW", "1.1 kW"),
    "time": ("0.5 s", "8 s", "40 s", "20 min", "9 h"),
    "life": ("0.5 min", "1 min", "15 min", "120 min"),
    "number": ("0.05", "0.18", "0.5", "1", "1.3", "2", "5", "900", "24000", "90000"),
    "thread": ("M3", "M6", "M8", "M8x1", "M14", "M24", "1/4-20 UNC"),
    "class": ("H7", "P7", "g6", "F8", "p6"),
    "hole class": ("H7", "P7", "N7", "F8", "JS7"),
    "shaft class": ("g6", "p6", "h6"),
    "series": ("fine", "medium", "coarse"),
    "percent": ("45", "75", "100"),
    "count": ("1", "2", "6", "30", "1000"),
    "learning": ("51", "80", "100"),
    "allowance": ("0", "12", "100"),
    "timed pieces": ("1: 5 min, 2: 4 min, 3: 3.5 min", "1: 1 min, 4: 5 min, 9: 9 min"),
    "two pieces": ("1: 5 min, 8: 3 min", "1: 3 min, 8: 5 min"),
    "times": ("12 s", "30 s, 4 s x 2"),
    "trials": ("25 m/min: 40 min, 32 m/min: 12 min", "25 m/min: 12 min, 32 m/min: 40 min"),
    "feeds": ("0.05 mm/rev, 0.1 mm/rev, 0.2 mm/rev", "1 mm/rev"),
    "text": ("trial with a wet plate, lowest of ten",),
    "work surface": ("ground", "machined", "unmachined"),
    "jaw surface": ("smooth", "serrated"),
    "metal": ("steel", "brass", "grey cast iron"),
    "known by": ("feel", "torque handle", "lowest measured"),
    "wetness": ("wet", "dry"),
    "cut": ("drilling", "enlarging", "tapping"),
    "error": ("0 mm", "+0.02 mm", "-0.1 mm"),
}  # fmt: skip
"""Texts of every kind, from what is usual to what makes no sense beside the rest."""

PAIRS = [
    (name, one, other)
    for name, operation in OPERATIONS.items()
    for one, other in itertools.combinations(operation.inputs, 2)
]


def known_of(operation: Operation, texts: Mapping[str, str], found: Reckoning) -> dict[str, Any]:
    """Everything that the answer holds true at once."""
    values: dict[str, Any] = dict.fromkeys(operation.zero_unless_given, 0.0)
    values |= {one.key: one.low for one in found.results}
    return values | {name: value_of(operation, name, text) for name, text in texts.items()}


def disagreements(operation: Operation, texts: Mapping[str, str]) -> Iterator[str]:
    """What an answer holds true at once and cannot; nothing where it was refused."""
    found = reckon(operation, texts)
    values = known_of(operation, texts, found)
    yield from unrelated(operation, values)
    yield from senseless(operation.name, values)
    for result in found.results:
        domain = domain_of(result.key, result.figure.unit)
        if not all(domain.holds(end) for end in (result.low, result.high)):
            yield f"{result.key} is {result.low}, and {domain.text} is believed"
        if not result.limits or not result.source:
            yield f"{result.key} has no limits or no source"


def unrelated(operation: Operation, values: Mapping[str, Any]) -> Iterator[str]:
    """Every figure reckoned once more from what the answer holds true."""
    for one in operation.figures:
        known = values.get(one.asked_as, math.nan)
        is_whole = isinstance(known, float) and all(name in values for name in one.inputs)
        if (
            not is_whole
            or math.isnan(known)
            or one.is_stand_in
            or (one.suits and not one.suits(values))
        ):
            continue
        try:
            low, high = ends(one.run(*(values[name] for name in one.inputs)))
        except ValueError as error:
            yield f"{one.asked_as} is {known} beside what its figure refuses: {error}"
            continue
        step = 0.5 * 10.0 ** -max(one.asked_digits, 0)
        near = step + 0.006 * max(abs(low), abs(high))
        if not low - near <= known <= high + near:
            yield f"{one.asked_as} is {known}, and {one.label} gives {low} to {high}"


def senseless(name: str, values: Mapping[str, Any]) -> Iterator[str]:
    """Sizes that the trade knows to contradict one another, whatever the product declares."""
    for less, more, may_be_same in (
        *(((("diameter", "work_diameter", False)), ("depth", "work_diameter", True),
           ("pinion_radius", "lever_radius", False), ("feed", "feed_stop", True))
          if name == "drilling" else ()),
        *((("hole", "mouth", False), ("hole", "head", False), ("head", "mouth", True))
          if name == "countersinking" else ()),
        *((("pilot", "diameter", False),) if name == "counterboring" else ()),
        ("chisel_ratio", "1", True), ("efficiency", "1", True),
    ):  # fmt: skip
        small, large = values.get(less), 1.0 if more == "1" else values.get(more)
        if not (isinstance(small, float) and isinstance(large, float)):
            continue
        if not (small < large or (may_be_same and math.isclose(small, large))):
            yield f"{less} is {small} beside {more} of {large}"
    if name == "holding" and isinstance(values.get("friction"), float):
        most = 0.3 if values.get("jaws", "smooth") == "smooth" else 0.9
        if "friction_source" not in values:
            most = 0.45 if values.get("jaws") == "serrated" else 0.15
        if values["friction"] > most + 1e-9:
            yield f"friction is {values['friction']}"


@pytest.mark.parametrize("name", OPERATIONS)
def test_every_pair_of_inputs_agrees_or_is_refused(name: str) -> None:
    """Each pair with some texts (by night with all), alone and beside what is usual."""
    operation = OPERATIONS[name]
    wrong, answered = [], 0
    for at, (_, one, other) in enumerate(pair for pair in PAIRS if pair[0] == name):
        both = itertools.product(
            ({}, USUAL[name]), texts_of(operation, one), texts_of(operation, other)
        )
        for base, text, beside in sample(list(both), 4, at):
            texts = {**base, one: text, other: beside}
            try:
                wrong += [f"{texts}: {each}" for each in disagreements(operation, texts)]
                answered += 1
            except InputError as error:
                if not any(each in error.problem for each in texts):
                    wrong.append(f"{texts}: refused without a name: {error.problem}")
    assert answered
    assert not wrong, "\n".join(wrong[:20])


def texts_of(operation: Operation, name: str) -> tuple[str, ...]:
    """The first, the middle and the last of the texts of an input's kind."""
    texts = TEXTS[operation.inputs[name].kind]
    return tuple(dict.fromkeys((texts[0], texts[len(texts) // 2], texts[-1])))


@given(st.data())
@settings(max_examples=examples(150))
def test_any_number_of_inputs_agrees_or_is_refused(data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(sorted(OPERATIONS)))
    operation = OPERATIONS[name]
    names = data.draw(st.sets(st.sampled_from(sorted(operation.inputs)), min_size=2))
    texts = {
        **data.draw(st.sampled_from(({}, USUAL[name]))),
        **{one: data.draw(st.sampled_from(TEXTS[operation.inputs[one].kind])) for one in names},
    }
    try:
        wrong = list(disagreements(operation, texts))
    except InputError as error:
        wrong = [] if any(one in error.problem for one in texts) else [error.problem]
    assert wrong == []


@pytest.mark.parametrize(
    ("operation", "texts", "named"),
    [
        ("reaming", {"diameter": "10 mm", "drilling_speed": "30 m/min", "speed": "5000 rpm"},
         ("drilling_speed", "speed")),
        ("reaming", {"diameter": "10 mm", "drilling_feed": "0.1 mm/rev", "feed": "2 mm/rev"},
         ("drilling_feed", "feed")),
        ("reaming", {"diameter": "10 mm", "tolerance": "P7"}, ("tolerance", "diameter")),
        ("counterboring", {"screw": "M6", "diameter": "20 mm"}, ("screw", "diameter")),
        ("drilling", {"diameter": "10 mm", "work_diameter": "8 mm"},
         ("diameter", "work_diameter")),
        ("drilling", {"depth": "30 mm", "work_diameter": "20 mm"}, ("depth", "work_diameter")),
        ("drilling", {"feed": "0.5 mm/rev", "feed_stop": "0.3 mm/rev"}, ("feed", "feed_stop")),
        ("drilling", {"diameter": "8 mm", "speed": "900 rpm", "feed": "0.1 mm/rev",
                      "depth": "10 mm", "point_angle": "118 deg", "time": "2 s"},
         ("time", "speed", "feed", "depth")),
        ("tapping", {"thread": "M8", "percent": "75", "hole": "7.2 mm"}, ("percent", "hole")),
        ("tapping", {"thread": "M8", "speed": "900 rpm", "cutting_speed": "8 m/min"},
         ("speed", "cutting_speed")),
        ("countersinking", {"hole": "8 mm", "head": "7 mm"}, ("hole", "head")),
        ("countersinking", {"hole": "8 mm", "mouth": "8 mm"}, ("hole", "mouth")),
        ("fit", {"size": "20 mm", "tolerance": "H7", "hole": "F8"}, ("tolerance", "hole")),
        ("holding", {"friction": "0.16"}, ("friction",)),
        ("holding", {"friction": "0.12", "work": "machined"}, ("friction", "work")),
        ("holding", {"friction": "0.4", "friction_source": "tried with ten plates"},
         ("friction", "friction_source")),
        ("drill-life", {"cutting_speed": "25 m/min", "exponent": "0.2", "c": "50 m/min",
                        "life": "90 min"}, ("cutting_speed", "exponent", "c", "life")),
        ("drill-life", {"trials": "25 m/min: 40 min, 32 m/min: 12 min", "exponent": "0.2"},
         ("trials", "exponent")),
        ("learning-curve", {"points": "1: 5 min, 8: 3 min", "first": "4 min"},
         ("points", "first")),
        ("rate", {"elements": "12 s", "basic": "14 s"}, ("elements", "basic")),
    ],
)  # fmt: skip
def test_a_contradiction_names_both(
    operation: str, texts: Mapping[str, str], named: tuple[str, ...]
) -> None:
    with pytest.raises(InputError) as caught:
        reckon(OPERATIONS[operation], texts)
    for name in some(named):
        assert name in caught.value.problem
    assert caught.value.cure


def test_what_agrees_is_taken_though_it_could_be_reckoned() -> None:
    """8 mm at 30 m/min is 1193.7 rpm; a reamer runs at a third to two thirds of a drill."""
    for operation, texts in some(
        [
            ("counterboring", {"screw": "M6", "diameter": "11 mm"}),
            ("tapping", {"thread": "M8", "percent": "75", "hole": "6.8 mm"}),
            ("reaming", {"diameter": "10 mm", "drilling_speed": "30 m/min", "speed": "400 rpm"}),
            ("drill-life", {"cutting_speed": "25 m/min", "exponent": "0.25", "c": "50 m/min",
                            "life": "16 min"}),
            ("drilling", {"depth": "12 mm", "work_diameter": "20 mm", "diameter": "8 mm"}),
        ]
    ):  # fmt: skip
        assert reckon(OPERATIONS[operation], texts).covers_all, texts


def test_a_reamer_inside_its_share_keeps_its_own_speed() -> None:
    """10 mm at 400 rpm is 12.6 m/min, inside 9.9 to 19.8: the 9.9 is not shown for it."""
    found = reckon(OPERATIONS["reaming"], {
        "diameter": "10 mm", "drilling_speed": "30 m/min", "speed": "400 rpm"})  # fmt: skip
    (speed,) = (one for one in found.results if one.key == "cutting_speed")
    assert (speed.low, speed.high) == pytest.approx((4 * math.pi, 4 * math.pi))


@pytest.mark.parametrize("name", OPERATIONS)
def test_every_input_has_a_domain_with_a_reason(name: str) -> None:
    for one, known in OPERATIONS[name].inputs.items():
        if known.kind in READ_BY_KIND:
            assert READ_BY_KIND[known.kind]
            continue
        domain = DOMAINS[one]
        assert 0 <= domain.low < domain.high < math.inf
        assert len(domain.why.split()) >= 3


@pytest.mark.parametrize("name", [one for one in OPERATIONS if one != "clearance-hole"])
def test_outside_its_domain_an_input_is_refused_with_the_reason(name: str) -> None:
    operation, tried = OPERATIONS[name], 0
    units = {"cutting speed": "m/min", "feed": "mm/rev", "spindle speed": "rpm", "length": "mm",
             "force": "N", "torque": "N m", "angle": "deg", "time": "s", "power": "kW",
             "number": ""}  # fmt: skip
    for one, known in operation.inputs.items():
        if known.kind not in units or one == "hole":
            continue
        domain = DOMAINS[one]
        for outside in (domain.high * 1.01, domain.low * 0.99):
            if outside == 0:
                continue
            tried += 1
            with pytest.raises(InputError) as caught:
                reckon(operation, {one: f"{outside:.8f} {units[known.kind]}".strip()})
            assert caught.value.problem.startswith(f"{one}: ")
            assert domain.text in caught.value.problem
            assert caught.value.cure == domain.why
    assert tried

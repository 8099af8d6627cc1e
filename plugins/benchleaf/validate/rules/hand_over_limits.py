"""V545: the limits that a hole is handed on by suit the cut that takes it on, at both ends.

Minor diameters as iso-965-1 and asme-b1.1, allowances of reamers as gtz-reaming and iti-reaming
have them in `formulas/sources.py`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from benchleaf.compute.amounts import amount, span
from benchleaf.compute.hole_route import (
    Made,
    hole_limits_mm,
    holes_before,
    makers,
    thread_depth,
)
from benchleaf.diagnose import Code, Finding, Related
from benchleaf.model import Check, KeyPath, SetUp, TappingSetUp

from ..case import JobCase
from ..rule import JobRule
from .wording import says, words

CODE = Code(
    "V545",
    "A hole is handed on by limits that the next job cannot take on",
    why="A part that passes the gauge of one job breaks the tool of the next.",
    instead="Gauge the hole by limits inside those that the next cut takes on.",
)

_PLACE = words(r"edges?|from|wall|ends?|chamfer|mouth|burr")
_DEPTH = words(r"depth|deep")
_ROUNDED = 0.0051
"""Limits are printed to a hundredth."""
_WIDEST = 1.0
"""A check of wider limits is of a length, not of a hole's diameter. Our own judgement."""


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each check of a hole that lets through what the next cut cannot take on."""
    for index, operation in enumerate(case.job.set_ups):
        found = makers(holes_before(case.shop, case.job, index), operation)
        faults = [_faults(case, operation, one) for one in found]
        if faults and all(faults):
            for path, made, text in faults[-1]:
                yield from _finding(case, index, path, made, text)


def _faults(case: JobCase, operation: SetUp, made: Made) -> list[tuple[KeyPath, Made, str]]:
    """KeyPath of the check in the job that makes the hole, and what is wrong with it."""
    limits = hole_limits_mm(case.shop, operation)
    faults: list[tuple[KeyPath, Made, str]] = []
    for path, one in _checks(made):
        given = one.limits
        if given is None:
            continue
        told = f"{made.job.id.upper()} hands it on at {span(given.low, given.high, 'mm', 2)}"
        if _is_of_depth(one, made) and isinstance(operation, TappingSetUp) and made.is_blind:
            wanted = thread_depth(operation).wanted_mm
            if given.low < wanted - _ROUNDED <= (made.depth_mm or 0.0):
                faults.append(
                    (
                        path,
                        made,
                        f"{told} deep; it takes on {amount(wanted, 'mm', 1, 'up')} and more",
                    )
                )
        elif limits is not None and _is_of_diameter(one, made):
            low, high = limits
            if given.low < low - _ROUNDED or given.high > high + _ROUNDED:
                faults.append((path, made, f"{told}; it takes on {span(low, high, 'mm', 2)}"))
    return faults


def _checks(made: Made) -> Iterator[tuple[KeyPath, Check]]:
    for number, step in enumerate(made.job.steps):
        for place, one in enumerate(step.checks):
            yield ("steps", number, "checks", place), one


def _is_of_diameter(one: Check, made: Made) -> bool:
    given = one.limits
    if given is None or says(one.what, _PLACE) or says(one.what, _DEPTH):
        return False
    return given.low <= made.mm <= given.high and given.high - given.low <= _WIDEST


def _is_of_depth(one: Check, made: Made) -> bool:
    given, depth = one.limits, made.depth_mm
    if given is None or depth is None or not says(one.what, _DEPTH):
        return False
    return given.low <= depth <= given.high


def _finding(case: JobCase, index: int, path: KeyPath, made: Made, text: str) -> Iterator[Finding]:
    operation = case.job.set_ups[index]
    for one in case.practice(
        CODE,
        ("set_ups", index),
        f"{operation.id} of {case.job.id.upper()}: {text}",
        "bring the limits of that check inside these",
    ):
        place = case.places.of("jobs", made.job.id, path)
        related = (Related(place, "the hole is checked here"),)
        yield replace(one, related=related)


RULE = JobRule(check, (CODE,))

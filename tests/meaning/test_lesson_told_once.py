"""A lesson tells each thing once, at its own place, and never more mildly for it."""

from __future__ import annotations

from typing import Any

import pytest
from test_edits import edited, side, with_sheets

from benchleaf.diff.taught_otherwise import taught_otherwise
from benchleaf.meaning import Changed, Consequence, MoveKind

GONE, NEW, MOVED, OTHER = MoveKind.GONE, MoveKind.NEW, MoveKind.MOVED, MoveKind.OTHER


def rows(shop: str, job: str, **edit: Any) -> list[Changed]:
    old = side(shop)
    new = with_sheets(edited(old.shop, {"record": f"jobs/{job}", **edit}))
    (found,) = taught_otherwise(old, new, [job])
    return list(found.lesson(new.shop.manual.retraining))


def told(found: list[Changed]) -> list[tuple[MoveKind, str, str, str]]:
    return [(one.kind, one.where, one.was, one.now) for one in found]


def test_a_key_point_that_is_dropped_says_nothing_of_another() -> None:
    found = rows("small", "vg-0010", take="steps/drill/key_points/1")
    assert told(found) == [
        (GONE, "step 'Drill the hole', key point 1",
         "Hang the chuck key on its hook before you press start.", ""),
    ]  # fmt: skip
    assert found[0].is_grave


def test_kinds_that_change_places_say_what_can_injure_now() -> None:
    kinds = {"steps/clamp/key_points/1/kind": "can injure",
             "steps/clamp/key_points/2/kind": "makes or breaks the job"}  # fmt: skip
    (found,) = rows("small", "vg-0010", set=kinds)
    assert found.now == "These can injure now: Push the plate down on both parallels"
    assert (found.is_grave, found.was) == (True, "")


def test_key_points_in_another_order_are_one_row_in_their_order() -> None:
    (found,) = rows("small", "vg-0010", order={"steps/drill/key_points": [2, 1, 3, 4]})
    assert found.kind is MOVED
    assert found.now.startswith("Let fluid run on the drill; Hang the chuck key on its hook")


@pytest.mark.parametrize(("edit", "expected"), [
    ({"take": "steps/turn-plate"},
     [(GONE, "step 'Turn the plate end for end', title", "Turn the plate end for end", "")]),
    ({"set": {"tools/3": "parallels"}},
     [(OTHER, "tool", "Pair of 30 mm parallels", "Pair of 16 mm parallels"),
      (NEW, "tool 'Pair of 16 mm parallels', limits 1", "",
       "Keep both strips out of the way of the drill. They lie along the jaws."),
      (NEW, "tool 'Pair of 16 mm parallels', limits 2", "",
       "Work thinner than 20 mm stands too low on them, between the jaws. Take the 30 mm pair.")]),
])  # fmt: skip
def test_what_goes_takes_along_what_stood_in_it(edit: dict[str, Any], expected: Any) -> None:
    found = rows("demo", "tr-0110", **edit)
    assert told(found) == expected
    assert {one.verdict.what for one in found} == {Consequence.TEACH}
    assert found[0].is_grave is ("take" in edit)  # hands went inside at that step


def test_a_kind_is_told_of_its_own_key_point() -> None:
    words = {"steps/drill/key_points/2/kind": "can injure",
             "steps/drill/key_points/2/point": "Let fluid run on the drill at once."}  # fmt: skip
    assert told(rows("small", "vg-0010", set=words)) == [
        (OTHER, "step 'Drill the hole', key point 2",
         "Let fluid run on the drill. (makes or breaks the job)",
         "Let fluid run on the drill at once. (can injure)"),
    ]  # fmt: skip


def test_a_trouble_and_a_call_are_one_row_each() -> None:
    trouble = {"sign": "The fluid stops.", "do": ["Press stop.", "Call the setter."]}
    (found,) = rows("small", "vg-0010", add={"if_wrong": trouble})
    assert (found.kind, found.now) == (NEW, "The fluid stops. Press stop. Call the setter.")
    (call,) = rows("small", "vg-0010", set={"call": "Ring the setter."})
    assert (call.kind, call.now, call.is_grave) == (OTHER, "Ring the setter.", True)
    assert call.was == side("small").shop.manual.call

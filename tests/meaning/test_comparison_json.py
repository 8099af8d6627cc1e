"""What a comparison prints as JSON is what its published schema promises.

That every edit of the table does so is held where its verdict is (`test_edits.py`).
"""

from __future__ import annotations

import copy
import json
from datetime import date
from pathlib import Path
from typing import Any

from test_edits import CHECKER, TABLE, edited, side, with_sheets

from benchleaf.commands import sides
from benchleaf.diff import Report, as_json, compare, comparison_schema

TESTS = Path(__file__).parents[1]
SCHEMA = comparison_schema()


def printed(edit: dict[str, Any]) -> dict[str, Any]:
    old = side(edit["in"])
    comparison = compare(old, with_sheets(edited(old.shop, edit)))
    found: dict[str, Any] = json.loads(as_json(Report(comparison, "old", "new", None)))
    return found


def with_a_crew() -> dict[str, Any]:
    asked = sides.Asked(
        TESTS.parent / "content", old=str(TESTS / "shop"), crew=TESTS.parent / ".demo-crew",
        on=date(2026, 12, 15),
    )  # fmt: skip
    report = sides.compare(asked).report
    assert report is not None
    found: dict[str, Any] = json.loads(as_json(report))
    return found


def places(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Every key and entry inside."""
    entries = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(
        value, list) else ()  # fmt: skip
    return [one for key, inner in entries for one in ((*path, key), *places(inner, (*path, key)))]


def test_two_quite_different_shops_and_their_people_fit_too() -> None:
    found = with_a_crew()
    CHECKER.validate(found)
    assert len(found["changes"]) > 50


def test_the_schema_lets_no_slip_through() -> None:
    """Every key left out, misspelt, or of another kind is an error; so the schema is exact."""
    edit = next(one for one in TABLE if one["say"] == "a motor too weak for the cut")
    whole = printed(edit)
    wrong = []
    for path in places(whole):
        *above, last = path
        if not isinstance(last, str) or "jobs" in above[2:3]:
            continue
        for slip in ("gone", "misspelt", "another kind"):
            damaged = copy.deepcopy(whole)
            inside = damaged
            for step in above:
                inside = inside[step]
            value = inside.pop(last)
            if slip == "misspelt":
                inside[f"{last}s"] = value
            elif slip == "another kind":
                inside[last] = [[value]]
            if CHECKER.is_valid(damaged):
                wrong.append((path, slip))
    assert wrong == []


def test_each_key_says_what_it_holds() -> None:
    parts = (SCHEMA, *SCHEMA["$defs"].values())
    said = [one.get("description") for part in parts for one in part["properties"].values()]
    assert len(said) > 30
    assert all(said)

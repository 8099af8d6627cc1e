"""Two limits of one code, and numbers among many, are told apart."""

from __future__ import annotations

from dataclasses import replace

import pytest
from test_edits import edited, side

from benchleaf.compute import set_up_sheets
from benchleaf.meaning import (
    About,
    Changed,
    Consequence,
    MoveKind,
    Statement,
    Verdict,
    digest,
    moved_since,
    moves,
    said,
    statements,
    verdict,
)
from benchleaf.model import Retraining, Shop
from benchleaf.plan.since import since


def meaning(shop: Shop) -> tuple[Statement, ...]:
    job = shop.jobs["vg-0010"]
    return statements(shop, job, set_up_sheets(shop, job))


def machine(**values: str) -> Shop:
    return edited(side("small").shop, {"record": "machines/bench-drill", "set": values})


def limits(shop: Shop) -> set[str]:
    return {str(one.value) for one in meaning(shop) if one.about is About.LIMIT}


def test_a_limit_that_is_cleared_hides_no_other_of_its_code() -> None:
    small, narrow = machine(drill_capacity="6 mm"), machine(chuck="1 to 6 mm")
    found = {one.kind: one for one in moves(meaning(small), meaning(narrow))
             if one.one.about is About.LIMIT}  # fmt: skip
    assert set(found) == {MoveKind.NEW, MoveKind.GONE}
    new = verdict(found[MoveKind.NEW], Retraining())
    assert new.what is Consequence.NOBODY_RUNS
    assert "chuck of Bench drill holds 1 to 6 mm" in new.why


def test_a_shank_too_thin_is_another_limit_than_one_too_thick() -> None:
    thin, thick = limits(machine(chuck="10 to 13 mm")), limits(machine(chuck="1 to 6 mm"))
    assert thin == {"limit S508 chuck below"}
    assert thick == {"limit S508 chuck above"}


def test_both_limits_of_one_code_are_told() -> None:
    assert len(limits(machine(drill_capacity="6 mm", chuck="1 to 6 mm"))) == 2


def test_a_holding_too_weak_lies_below_what_is_wanted() -> None:
    shop = edited(side("small").shop, {"record": "jobs/vg-0010",
                                       "set": {"holding/clamping/force": "1 kN"}})  # fmt: skip
    assert "limit S505 below" in limits(shop)


def test_each_number_to_set_or_gauge_is_known_by_itself_however_many() -> None:
    for about in (About.SETTING, About.NUMBER, About.FIGURE, About.RATING):
        many = [
            Statement(about, f"set_ups/a/row-{n}", (str(n),), f"{n} mm", f"row {n}",
                      numbers=(float(n), float(n)))
            for n in range(1, 40)
        ]  # fmt: skip
        now = [*many[:20], replace(many[20], value=("22",), numbers=(21.5, 21.5)), *many[21:]]
        (moved,) = moved_since(said(many), now)
        assert moved.one.where == "row 21"


def alike(digits: int) -> tuple[str, str]:
    """Two places whose hashes have the same first digits."""
    seen: dict[str, str] = {}
    for number in range(10_000):
        place = f"steps/step-{number}/set"
        other = seen.setdefault(digest._hash(place, digits), place)
        if other != place:
            return other, place
    raise AssertionError("no two are alike")


def test_values_that_change_places_are_seen_where_five_digits_took_them_for_one() -> None:
    places = alike(5)
    old = [Statement(About.SETTING, one, words, words, one)
           for one, words in zip(places, ("8 mm", "9 mm"), strict=True)]  # fmt: skip
    new = [replace(old[0], value="9 mm"), replace(old[1], value="8 mm")]
    assert {one.one.where for one in moved_since(said(old), new)} == set(places)


def test_a_line_of_before_is_held_at_its_own_digits(monkeypatch: pytest.MonkeyPatch) -> None:
    now = meaning(side("small").shop)
    with monkeypatch.context() as five:
        five.setattr(digest, "DIGITS", 5)
        former = said(now)
    assert len(former) < len(said(now))
    assert [*moved_since(former, now)] == []
    other = meaning(machine(**{"controls/stop": "Press the red button on the column."}))
    assert [one.one.where for one in moved_since(former, other)] == [
        one.one.where for one in moved_since(said(now), other)
    ]


def test_where_the_short_line_shows_nothing_the_entries_decide() -> None:
    row = Changed(About.ACT, MoveKind.OTHER, "a", "a", "", "Pull.", "Push.", "",
                  Verdict(Consequence.TEACH, "a hand does something else"),
                  is_grave=False, is_reworded=False)  # fmt: skip
    nothing = Verdict(Consequence.NOTHING, "nothing that is taught changed")
    assert since("1", nothing, (row,)).is_due
    assert not since("1", nothing, ()).is_due
    told = Verdict(Consequence.TELL, "it stands elsewhere")
    assert since("1", told, (row,)).verdict is told

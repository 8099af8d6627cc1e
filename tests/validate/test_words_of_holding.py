"""Words of a holding that hold nothing: hands, magnets, weights, loose vices, untried trials."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date

import pytest

from benchleaf.diagnose import Severity
from benchleaf.model import Holding, Job, Shop
from benchleaf.validate.case import JobCase
from benchleaf.validate.places import Places
from benchleaf.validate.rules import hand_holds_work, lets_go, loose_vice, measured_claims
from oracles import set_ups

HELD: Mapping[str, str] = {
    "method": "vice", "how": "The plate lies on parallels in the vice.",
    "bolted_down": "Two bolts hold the vice to the table.",
}  # fmt: skip


def found(rule: Callable[[JobCase], object], **words: object) -> list[str]:
    """The severities of what a rule says of a holding in those words."""
    shop, job = set_ups.made({**set_ups.KINDS["flat"][0]}, {**set_ups.KINDS["flat"][1]})
    return [one.severity for one in rule(case(shop, job, {**HELD, **words}))]  # type: ignore[attr-defined]


def case(shop: Shop, job: Job, held: Mapping[str, object]) -> JobCase:
    holding = Holding.model_validate(held)
    changed = job.model_copy(update={"holding": holding, "set_ups": ()})
    return JobCase(shop, Places({}), changed, (), date(2026, 3, 10))


E, W = [Severity.ERROR], [Severity.WARNING]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("A magnet holds the vice on the table.", E),
        ("Double-sided tape is under the vice.", E),
        ("No bolts: the vice is heavy.", E),
        ("Bolts are not needed, the vice weighs 30 kg.", E),
        ("The bolts are left finger-tight.", E),
        ("The vice floats between two pins.", E),
        ("The vice stands with its fixed jaw to the left.", W),
        ("The screw of the vice points to the operator.", W),
        ("The vice clamps the work.", W),
        ("Its key sits in the slot of the table.", W),
        ("The vice is mounted on a rubber mat.", W),
        ("The handle of the vice bears on the column.", W),
        ("Two studs and nuts hold it. No magnet is used.", []),
        ("It is clamped to the table with two step clamps.", []),
        ("The setter bolts it to two slots of the table.", []),
    ],
)
def test_what_fixes_the_vice(words: str, says: list[Severity]) -> None:
    assert found(loose_vice.check, bolted_down=words) == says


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("The plate is gripped with locking pliers.", E),
        ("A helper steadies the plate.", E),
        ("The left thumb keeps the plate on the parallels.", E),
        ("You keep the plate down with your palm.", E),
        ("The plate lies in a hand vice.", E),
        ("You hold the plate on the parallels until the vice is tight.", []),
        ("The plate is held by the jaws. Keep your hands away from it.", []),
        ("Keep both hands well clear, and hold the plate down with your thumb.", E),
        ("Never hold it with a hand. The plate lies in the vice.", []),
        ("Turn the hand wheel until the jaws hold the plate.", []),
    ],
)
def test_what_is_held_by_a_hand(words: str, says: list[Severity]) -> None:
    assert found(hand_holds_work.check, how=words) == says


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("Its own weight keeps the plate on the table.", E),
        ("The plate lies loose on the table.", E),
        ("The plate lies on a magnetic chuck.", W),
        ("Vacuum holds the plate.", W),
        ("The plate is glued to a board.", W),
        ("The plate lies in the vice, never loose on the table.", []),
    ],
)
def test_what_lets_go(words: str, says: list[Severity]) -> None:
    assert found(lets_go.check, how=words) == says


@pytest.mark.parametrize(
    ("source", "says"),
    [
        ("the catalogue of the vice's maker", W),
        ("not measured yet", W),
        ("estimate of the setter", W),
        ("the lowest of ten pulls on the load cell", []),
        ("ten clicks of the handle, measured on the drill table", []),
    ],
)
def test_what_is_called_measured_says_how(source: str, says: list[Severity]) -> None:
    clamping = {"force": "6 kN", "force_known_by": "lowest measured", "work_surface": "machined",
                "arm": "20 mm", "source": source}  # fmt: skip
    assert found(measured_claims.check, clamping=clamping) == says

"""What a field declares is read off the field itself, wherever its record stands."""

from __future__ import annotations

from typing import Annotated

import pytest

from benchleaf.meaning import fingerprint as fingerprint_of_job
from benchleaf.meaning import is_taught
from benchleaf.meaning.prose import text_paths, wording_paths
from benchleaf.model import (
    Area,
    Job,
    Machine,
    Manual,
    Order,
    Record,
    Shop,
    Trait,
    area_at,
    has_along,
    order_is_free,
)
from benchleaf.model.ids import Text, Title


class Chuck(Record):
    """A part of a machine, with keys that other records have too."""

    name: Title = "Chuck"
    """What it is called."""
    also: Annotated[tuple[str, ...], Order.COUNTS] = ()
    """Its jaws by name, in the order in which they are fitted."""
    tools: Annotated[tuple[str, ...], Order.FREE] = ()
    """Its keys."""
    picture: str = "none"
    """How it is marked."""
    trainer: Annotated[str, Area.TRAINER] = "none"
    """For the trainer."""
    wear: Annotated[Text, Trait.KEEPS_FROM_HARM] = "none"
    """What wears out first."""


class Lathe(Machine):
    """A machine with a chuck."""

    chuck_fitted: Annotated[Chuck, Area.TOOL] = Chuck()
    """The chuck."""


VALUES = {
    "id": "lathe", "name": "Lathe", "what": "It turns.", "where": "Bay 1", "also": ["old one"],
    "controls": {"start": "Green.", "stop": "Black.", "emergency_stop": "Red.",
                 "isolation": "Wall."},
}  # fmt: skip


def lathe(**chuck: object) -> Lathe:
    return Lathe.model_validate({**VALUES, "chuck_fitted": chuck})


def fingerprint(base: Shop, machine: Machine) -> str:
    job = next(iter(base.jobs.values())).model_copy(update={"machine": "lathe"})
    shop = Shop(base.manual, {job.id: job}, machines={"lathe": machine})
    return fingerprint_of_job(shop, job, ())


@pytest.fixture(scope="module")
def base() -> Shop:
    job = {
        "id": "x-1", "title": "Turn", "revision": "1", "effective": "2026-01-05",
        "approved_by": "a", "change_note": "n", "makes": "m", "matters": "m", "machine": "lathe",
        "wear": ["w"], "take_off": ["t"], "hand_on": "h", "if_wrong": [{"sign": "s", "do": ["d"]}],
        "steps": [{"id": "turn", "title": "Turn", "key_points": [
            {"point": "p", "reason": "r", "kind": "can injure"}]}],
    }  # fmt: skip
    words = dict.fromkeys(
        ("shop", "title", "welcome", "ask", "call", "emergency", "caution", "do_not_run"), "x"
    )
    return Shop(Manual.model_validate(words), {"x-1": Job.model_validate(job)})


@pytest.mark.parametrize("key", ["also", "picture"])
def test_a_nested_key_does_not_leave_the_fingerprint_for_its_name(base: Shop, key: str) -> None:
    """At the top of a machine both keys are no part of what is taught; in a chuck they are."""
    other: object = ["a jaw"] if key == "also" else "a jaw"
    assert not is_taught(Lathe, key)
    assert fingerprint(base, lathe()) != fingerprint(base, lathe(**{key: other}))


def test_a_key_leaves_the_fingerprint_where_its_own_field_says_so(base: Shop) -> None:
    renamed = Lathe.model_validate({**VALUES, "also": ["another"]})
    assert fingerprint(base, lathe()) == fingerprint(base, renamed)
    marked, noted = lathe(picture="a dot"), lathe(picture="a dot", trainer="Show the dot.")
    assert fingerprint(base, marked) == fingerprint(base, noted)


def test_order_counts_by_the_field_and_not_by_its_name(base: Shop) -> None:
    for key, is_free in (("also", False), ("tools", True)):
        there, back = (lathe(**{key: one}) for one in (["a", "b"], ["b", "a"]))
        assert (fingerprint(base, there) == fingerprint(base, back)) is is_free
        assert order_is_free(Lathe, ("chuck_fitted", key)) is is_free
    assert order_is_free(Lathe, ("also",))


@pytest.mark.parametrize(("path", "area"), [
    ((), Area.MACHINE),
    (("name",), Area.MACHINE),
    (("hazards", 0), Area.HAZARD),
    (("also", 0), Area.NAMES),
    (("chuck_fitted",), Area.TOOL),
    (("chuck_fitted", "also", 0), Area.TOOL),
    (("chuck_fitted", "picture"), Area.TOOL),
    (("chuck_fitted", "trainer"), Area.TRAINER),
])  # fmt: skip
def test_a_value_is_about_what_the_deepest_field_says(
    path: tuple[str | int, ...], area: Area
) -> None:
    assert area_at(Lathe, path) is area


def test_a_new_field_is_taught_again() -> None:
    """A field without any mark, in a record that stands by itself and in one inside another."""
    assert is_taught(Lathe, "where")
    assert is_taught(Chuck, "picture")


def test_titles_and_texts_are_wording_unless_they_keep_from_harm() -> None:
    found = lathe(wear="The scroll.")
    name, harm = ("chuck_fitted", "name"), ("chuck_fitted", "wear")
    assert {("name",), name, harm, ("what",)} <= text_paths(found)
    assert {("name",), name, ("what",)} <= wording_paths(found)
    assert harm not in wording_paths(found)
    assert has_along(Lathe, harm, Trait.KEEPS_FROM_HARM)
    assert ("where",) not in text_paths(found)

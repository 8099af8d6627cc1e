"""What of a record a learner of a job is taught, and what that is about: read off its fields."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import NamedTuple

from benchleaf.model import Area, Each, Order, Record, Trait, classes_below, has, mark
from benchleaf.model.ids import RefTo, RunningText, ShortText
from benchleaf.model.leaves import mark_of

from .statement import About

NOT_TAUGHT = frozenset(
    (
        Area.REVISION, Area.TRAINER, Area.CHECKS_ONLY, Area.RULE, Area.RATE, Area.SCREEN,
        Area.PICTURE, Area.NAMES, Area.TERM, Area.PAGE, Area.SHOP, Area.LIST, Area.PREFACE,
        Area.FIGURE,
    )
)  # fmt: skip
"""Areas that enter no meaning. A figure put in enters by what is reckoned from it."""

_BY_TRAIT = (
    (Trait.REACHED_FOR_IN_DANGER, About.REACHED),
    (Trait.PLACE, About.PLACE),
    (Trait.RATING, About.RATING),
    (Trait.NAME, About.NAME),
    (Trait.DOCUMENT, About.DOCUMENT),
    (Trait.CONTROL, About.CONTROL),
)
_BY_AREA = {
    Area.HAZARD: About.HAZARD,
    Area.WORN: About.WORN,
    Area.HELP: About.HELP,
    Area.REASON: About.REASON,
    Area.KEY_POINT: About.KEY_POINT,
    Area.EMERGENCY: About.CALL,
    Area.TROUBLE: About.TROUBLE,
    Area.PART: About.PART,
    Area.MACHINE: About.MACHINE,
    Area.TOOL: About.TOOL,
    Area.MATERIAL: About.MATERIAL,
    Area.FLUID: About.FLUID,
}
"""What a field is about by its area; the others are about what is done."""


class Field(NamedTuple):
    """A field that is part of what is taught."""

    key: str
    about: About | None
    """None: what the field that holds its record is about."""
    is_free: bool
    """True for a list whose order carries no meaning."""
    each: str
    name: str
    default: object
    kind: str | None
    """The kind of record whose id it holds."""
    is_prose: bool
    keeps_from_harm: bool


@cache
def fields_taught(cls: type[Record]) -> tuple[Field, ...]:
    """The fields of a record that are part of what is taught."""
    return tuple(
        Field(
            key,
            about_of(cls, key),
            mark(cls, key, Order) is Order.FREE,
            own.name if (own := mark(cls, key, Each)) else key.replace("_", " "),
            key.replace("_", " "),
            info.default,
            marked.kind if isinstance(marked := mark_of(cls, key), RefTo) else None,
            isinstance(marked, RunningText | ShortText),
            has(cls, key, Trait.KEEPS_FROM_HARM),
        )
        for key, info in cls.model_fields.items()
        if key != "id" and is_taught(cls, key)
    )


def is_taught(cls: type[Record], key: str) -> bool:
    """False for a field that no job's page shows, and that nothing taught is read from."""
    if mark(cls, key, Area) in NOT_TAUGHT:
        return False
    left_out = (Trait.NOT_TAUGHT, Trait.ONLY_RECKONED, Trait.ON_ITS_OWN_PAGE)
    return not any(has(cls, key, one) for one in left_out)


def about_of(cls: type[Record], key: str) -> About | None:
    """What a field is about by its own marks."""
    for trait, about in _BY_TRAIT:
        if has(cls, key, trait):
            return about
    area = mark(cls, key, Area)
    return None if area is None else _BY_AREA.get(area, About.ACT)


def of_record(cls: type[Record]) -> About:
    """What a field without marks of its own is about, in a record that stands by itself."""
    return _BY_AREA.get(cls.about, About.ACT)


def stands_apart(cls: type[Record], path: Sequence[str | int]) -> bool:
    """True where a value stands only on the page of its own record."""
    classes: tuple[type[Record], ...] = (cls,)
    for key in path:
        if isinstance(key, str):
            having = (one for one in classes if key in one.model_fields)
            if any(has(one, key, Trait.ON_ITS_OWN_PAGE) for one in having):
                return True
            classes = classes_below(classes, key)
    return False

"""Every field says what it means: in words beneath it, and by the marks on it."""

from __future__ import annotations

import ast
import inspect
import textwrap
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Annotated, Any, get_args, get_origin

import pytest
from pydantic import TypeAdapter

from benchleaf.commands.keys import keys
from benchleaf.meaning import is_taught
from benchleaf.meaning.taught import NOT_TAUGHT as AREAS_NOT_TAUGHT
from benchleaf.model import (
    ALONE,
    KINDS,
    Area,
    Each,
    Example,
    Order,
    Record,
    Trait,
    class_of,
    has,
    mark,
)
from benchleaf.model import records_in as classes_in
from benchleaf.model.schema import every_record, example_of
from running import for_each

Field = tuple[type[Record], str]


def all_below(cls: type[Record]) -> Iterator[type[Record]]:
    for one in cls.__subclasses__():
        yield one
        yield from all_below(one)


def by_name(classes: set[type[Record]]) -> list[type[Record]]:
    return sorted(classes, key=lambda cls: cls.__name__)


RECORDS = by_name({one for one in all_below(Record) if one.__module__.startswith("benchleaf.")})
"""Every class of record, people's and registers' too."""
CONTENT = by_name({one for cls in (*KINDS.values(), ALONE["manual"]) for one in every_record(cls)})
FIELDS = [(cls, key) for cls in CONTENT for key in cls.model_fields]


def called(field: Field) -> str:
    return f"{field[0].__name__}.{field[1]}"


def named(cls: type[Record]) -> str:
    return cls.__name__


# The meaning in words


def slips(source: str) -> Iterator[str]:
    """Fields of a class that have not one text directly beneath them, and texts beneath none."""
    (cls,) = ast.parse(textwrap.dedent(source)).body
    assert isinstance(cls, ast.ClassDef)
    for above, below in pairwise((*cls.body, None)):
        if isinstance(above, ast.AnnAssign) and not is_text(below):
            yield f"{cls.name}.{ast.unparse(above.target)} has no text directly beneath it"
        if is_text(below) and not isinstance(above, ast.AnnAssign):
            yield f"{cls.name} has a text beneath no field: {ast.unparse(below)}"  # type: ignore[arg-type]


def is_text(node: ast.stmt | None) -> bool:
    return (
        isinstance(node, ast.Expr)
        and isinstance(node.value, ast.Constant)
        and isinstance(node.value.value, str)
    )


@for_each("cls", RECORDS, ids=named)
def test_each_field_has_one_text_directly_beneath_it(cls: type[Record]) -> None:
    assert list(slips(inspect.getsource(cls))) == []


@pytest.mark.parametrize(("body", "slip"), [
    ("a: int\n    b: int\n    '''Of a.'''", "Some.a has no text directly beneath it"),
    ("a: int\n    '''Of a.'''\n    '''Of b.'''\n    b: int",
     "Some.b has no text directly beneath it"),
    ("a: int\n    '''Of a.'''\n    '''Of b.'''\n    b: int\n    '''Of b.'''",
     "Some has a text beneath no field: 'Of b.'"),
    ("a: int\n    '''Of a.'''\n    def f(self): ...\n    '''Of f.'''",
     "Some has a text beneath no field: 'Of f.'"),
])  # fmt: skip
def test_a_text_in_a_wrong_place_would_be_found(body: str, slip: str) -> None:
    assert slip in list(slips(f"class Some(Record):\n    '''Some.'''\n    {body}\n"))


def test_the_text_is_what_people_read() -> None:
    """`keys manual` once said of one key what another means, and nothing of that one."""
    lines = str(keys("manual")).split("\n")
    said = {line.split()[0]: line for line in lines if not line.startswith(" ")}
    assert "asks for new teaching" in said["retraining"]
    assert "planning lessons" in said["teaching"]


@pytest.mark.parametrize("kind", [*KINDS, *ALONE])
def test_keys_say_what_each_key_holds(kind: str) -> None:
    lines = [one for one in str(keys(kind)).split("\n") if "with operation: " not in one]
    assert len(lines) >= len(class_of(kind).model_fields)
    assert [one for one in lines if len(one.split()) < 3] == []


# The marks


def is_list(field: Field) -> bool:
    annotation = field[0].model_fields[field[1]].annotation
    return any(get_origin(one) is tuple for one in (annotation, *get_args(annotation)))


@for_each("cls", CONTENT, ids=named)
def test_a_list_says_whether_its_order_counts(cls: type[Record]) -> None:
    lists = {key for key in cls.model_fields if is_list((cls, key))}
    assert {key for key in cls.model_fields if mark(cls, key, Order)} == lists
    assert {key for key in cls.model_fields if mark(cls, key, Each)} <= lists


@for_each("cls", CONTENT, ids=named)
def test_each_field_has_an_example_of_its_own_or_by_its_type(cls: type[Record]) -> None:
    plain = [key for key, one in cls.model_fields.items() if not any(classes_in(one.annotation))]
    assert [key for key in plain if example_of(cls, key) is None] == []


EXAMPLES = [field for field in FIELDS if mark(*field, Example) is not None]


@for_each("field", EXAMPLES, ids=called)
def test_an_example_can_stand_there(field: Field) -> None:
    info = field[0].model_fields[field[1]]
    text = example_of(*field)
    value: Any = [text] if is_list(field) else text
    whole: Any = Annotated[(info.annotation, *info.metadata)]
    TypeAdapter(whole).validate_python(value)


@pytest.mark.parametrize("sort", [Area, Each, Example, Order])
def test_a_field_has_one_mark_of_a_sort_at_most(sort: type[object]) -> None:
    counts = {
        called((cls, key)): sum(isinstance(one, sort) for one in cls.model_fields[key].metadata)
        for cls, key in FIELDS
    }
    assert any(counts.values())
    assert [field for field, count in counts.items() if count > 1] == []


def test_records_that_stand_by_themselves_say_what_they_are_about() -> None:
    own = {kind: cls.about_all or cls.about for kind, cls in KINDS.items()}
    assert len(set(own.values())) == len(KINDS), own


PLACES = [field for field in FIELDS if len(list(classes_in(
    field[0].model_fields[field[1]].annotation))) > 1]  # fmt: skip


@pytest.mark.parametrize("field", PLACES, ids=called)
def test_records_that_may_stand_in_one_place_say_the_same_of_a_key(field: Field) -> None:
    classes = list(classes_in(field[0].model_fields[field[1]].annotation))
    shared = {key for cls in classes for key in cls.model_fields}
    assert shared
    for key in shared:
        said = {meaning(cls, key) for cls in classes if key in cls.model_fields}
        assert len(said) == 1, key


def meaning(cls: type[Record], key: str) -> tuple[object, ...]:
    """All that fingerprint and comparison read off a field."""
    inside = frozenset(classes_in(cls.model_fields[key].annotation))
    traits = frozenset(one for one in Trait if has(cls, key, one))
    return mark(cls, key, Area), mark(cls, key, Each), mark(cls, key, Order), traits, inside


def test_places_with_several_records_were_looked_at() -> None:
    assert [called(one) for one in PLACES] == ["Job.set_ups"]


def test_only_what_would_be_taught_is_marked_as_not_taught() -> None:
    areas = {called(field): mark(*field, Area) for field in FIELDS if has(*field, Trait.NOT_TAUGHT)}
    assert areas
    needless = [field for field, area in areas.items() if area in AREAS_NOT_TAUGHT]
    assert needless == [], "the area says so already"


# What asks for less than teaching again: counted twice, so that none slips in unseen

NOT_TAUGHT = """
    Job: revision effective approved_by change_note history reviewed picture piece_rate accept
    Job: still_open
    Job: part takes leaves
    Part: picture drawn_as form
    PartForm: shape length width height
    PartState: picture features
    Feature: kind size at
    KeyPoint: so
    Step: picture scene trainer planted props hand_contact
    Trouble: kind
    Hazard: answers_because bites_at wrong_answers accept still_open
    Machine: picture drawn_as lever_at units also still_open
    Tool: picture drawn_as height stick_out also still_open
    Material: also still_open
    Fluid: also still_open
"""
"""Fields that no fingerprint covers. Of a part is taught what the record says, not its id."""
FIGURES = """
    DrillingSetUp: thickness work_diameter wall feed pilot start_clearance overtravel holes
    FeedStop: source
    TappingSetUp: percent
    ReamingSetUp: feed start_clearance overtravel
    CountersinkingSetUp: feed
    CounterboringSetUp: feed
    Clamping: force force_known_by friction friction_source work_surface jaw_surface presses arm
    Clamping: faces source force_spread force_spread_source friction_spread friction_spread_source
    PositiveStop: rated_force arm source
    Holding: margin
    Machine: spindle_speeds efficiency drive_stages efficiency_source limits_source lever
    Spindle: spindle_speeds efficiency efficiency_source limits_source lever
    Material: cutting_speeds drilling tapping metal
    Tool: chisel_ratio wear_factor wear_factor_source geometry_source feed feed_source taylor
    Tool: edges torque_limit
"""
"""Fields that enter a meaning only by the figures and limits of a set-up."""
RECKONED = """
    Machine: motor_power rated_thrust quill_travel drill_capacity chuck
    Spindle: motor_power rated_thrust quill_travel drill_capacity chuck
    Material: when_drilled
    Tool: size shank tool_material point_angle
    Hazard: severity accident_if_not_avoided harm_if_accident
"""
"""The same of what is about something else, and of a hazard's signal word."""
APART = """
    Part: states
    PartState: name
    Machine: what parts
    MachineControls: others
    GrindingWheel: source
    Material: what how_it_cuts chips
    Tool: kind what care regrind
    Fluid: what use mixing safety_data_sheet safety_data_sheet_file
    Hazard: source
"""
"""Fields that no page of a job shows."""
FREE = """
    Job: tools hazards not_met wear take_off have_ready know_first must_know accept still_open
    Step: hazards
    Hazard: bites_at accept still_open
    WrongAnswers: answers
    Controls: wear
    Machine: guards hazards spindle_speeds spindles also still_open
    Spindle: spindle_speeds
    Material: hazards cutting_speeds also still_open
    Tool: hazards also still_open
    Fluid: hazards also still_open
    Picture: marks
"""
"""Lists whose order may change without a word."""
USED = by_name(
    {one for kind in ("jobs", "parts", "machines", "materials", "tools", "fluids", "hazards")
     for one in every_record(KINDS[kind])}
)  # fmt: skip
"""Classes of the records that say how a job is done."""


def table(text: str) -> set[str]:
    lines = (line.split(":") for line in text.splitlines() if line.strip())
    return {f"{cls.strip()}.{key}" for cls, keys in lines for key in keys.split()}


@pytest.mark.parametrize(
    ("text", "holds"),
    [
        (
            NOT_TAUGHT,
            lambda field: (
                mark(*field, Area) in AREAS_NOT_TAUGHT - {Area.FIGURE}
                or has(field[0], field[1], Trait.NOT_TAUGHT)
            ),
        ),
        (RECKONED, lambda field: has(field[0], field[1], Trait.ONLY_RECKONED)),
        (APART, lambda field: has(field[0], field[1], Trait.ON_ITS_OWN_PAGE)),
        (
            "\n".join((NOT_TAUGHT, FIGURES, RECKONED, APART)),
            lambda field: not is_taught(*field) and field[1] != "id",
        ),
        (FIGURES, lambda field: mark(*field, Area) is Area.FIGURE),
        (FREE, lambda field: mark(*field, Order) is Order.FREE),
    ],
    ids=["not taught", "reckoned", "apart", "in no meaning", "figures", "any order"],
)
def test_what_asks_for_less_is_what_we_know_of(text: str, holds: Callable[[Field], bool]) -> None:
    fields = [(cls, key) for cls in USED for key in cls.model_fields]
    assert {called(field) for field in fields if holds(field)} == table(text)

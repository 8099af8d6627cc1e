"""Stop 3a: a tree to a record, or to findings that name key, place, what is allowed and nearest."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any, TypeVar

from pydantic import ValidationError

from benchleaf.diagnose import LIST_AT_MOST, Finding, Place, Severity, nearest, suggestion
from benchleaf.model import Instead, KeyPath, Record, mark
from benchleaf.model.schema import allowed_words, example_of
from benchleaf.read import Node, Source

from .classes import class_at, classes_at, meaning, spoken, tags
from .places import locate, locate_key, written

R = TypeVar("R", bound=Record)


def build(cls: type[R], source: Source) -> tuple[R | None, tuple[Finding, ...]]:
    """The record that stands at `source`, or None with every finding about its fields.

    None without a finding where a slip, told already, ended the reading of its file.
    """
    record: R | None = None
    found: tuple[Finding, ...] = ()
    try:
        record = cls.model_validate(source.value)
    except ValidationError as error:
        found = _findings(cls, source.tree, error.errors(include_url=False))
    echoes = source.document.echoes
    if echoes is None:
        return record, found
    is_whole = bool(source.path) and source.tree.place.line not in echoes
    return (record if is_whole else None), tuple(one for one in found if not _is_echo(one, echoes))


def _is_echo(finding: Finding, echoes: frozenset[int]) -> bool:
    return finding.code in _MISSING and finding.place.line in echoes


_MISSING = ("F202", "F208")
"""Codes by which something may only seem to be missing, because of what was left out."""


def _findings(cls: type[Record], tree: Node, errors: Sequence[Any]) -> tuple[Finding, ...]:
    guessed = _meant_keys(cls, errors)
    found: list[Finding] = []
    for error in errors:
        is_guessed = error["type"] == "missing" and error["loc"] in guessed
        is_empty = error["input"] is None and error["type"] != "missing"
        is_echo = error["type"] == "too_short" and _has_slip_inside(error["loc"], errors)
        if not (is_guessed or is_empty or is_echo):  # the slip itself is reported already
            found.append(_finding(cls, tree, error))
    return tuple(found)


def _has_slip_inside(loc: KeyPath, errors: Sequence[Any]) -> bool:
    """True where an entry of the list has a slip of its own, so that the list only looks short."""
    return any(len(one["loc"]) > len(loc) and one["loc"][: len(loc)] == loc for one in errors)


def _meant_keys(cls: type[Record], errors: Sequence[Any]) -> set[KeyPath]:
    """Missing keys that an unknown key beside them was surely meant to be."""
    meant: set[KeyPath] = set()
    for error in errors:
        if error["type"] == "extra_forbidden":
            *above, key = error["loc"]
            owner = class_at(cls, above)
            near = nearest(str(key), owner.model_fields) if owner else None
            meant |= {(*above, near)} if near else set()
    return meant


def _finding(cls: type[Record], tree: Node, error: Any) -> Finding:
    make = _MAKERS.get(error["type"], _other)
    return make(cls, tree, tuple(error["loc"]), error)


def _problem(code: str, place: Place, text: str, *help_lines: str) -> Finding:
    return Finding(code, Severity.ERROR, place, text, help_lines)


def _unknown_key(cls: type[Record], tree: Node, loc: KeyPath, error: Any) -> Finding:
    owner = class_at(cls, loc[:-1]) or cls
    place = locate_key(tree, loc)
    text = f"'{loc[-1]}' is no key of a {spoken(owner)}"
    hint = _WORKED_OUT.get(str(loc[-1]))
    known = suggestion(str(loc[-1]), _writable(owner), what="keys")
    if len(owner.model_fields) > LIST_AT_MOST:
        known = (*known, f"`benchleaf keys {spoken(cls)}` tells of all")
    return _problem("F201", place, text, *((hint,) if hint else known))


def _writable(owner: type[Record]) -> tuple[str, ...]:
    """The keys of a class, and those that may stand in a file in place of one."""
    others = (mark(owner, key, Instead) for key in owner.model_fields)
    return (*owner.model_fields, *(one.key for one in others if one is not None))


_WORKED_OUT = {
    "signal_word": "it is worked out from severity, accident_if_not_avoided and harm_if_accident",
}
"""Keys that people look for and the manual computes."""


def _not_at_kind(cls: type[Record], tree: Node, loc: KeyPath, error: Any) -> Finding:
    """A key that only other kinds of station have: nothing is shown that is not there."""
    key, kind = str(loc[-1]), error["ctx"]["kind"]
    inner = next(iter(classes_at(cls, ("spindles",))), cls)
    if kind.endswith("several spindles") and key in inner.model_fields:
        cure: tuple[str, ...] = (f"write '{key}' under 'spindles', for each spindle its own",)
    else:
        cure = (f"take it out, or write the kind that has it: {error['ctx']['has']}",)
    return _problem(
        "F201", locate_key(tree, loc), f"'{key}' is no key of a station of kind '{kind}'", *cure
    )


def _missing_key(cls: type[Record], tree: Node, loc: KeyPath, error: Any) -> Finding:
    owner = class_at(cls, loc[:-1]) or cls
    key = str(loc[-1])
    text = f"the {spoken(owner)} has no '{key}'"
    what = _means(meaning(owner, key))
    return _problem("F202", locate(tree, loc[:-1]), text, _line_to_write(owner, key), *what)


def _line_to_write(owner: type[Record], key: str) -> str:
    """The key with what may stand there: the words allowed, an example, or the keys it needs."""
    if key not in owner.model_fields:
        return f"write '{key}: ...'"
    words, example = allowed_words(owner, key), example_of(owner, key)
    below = ", ".join(_needed(owner, key))
    if words:
        return f"write '{key}: ...', one of: {', '.join(words)}"
    if below:
        is_list = str(owner.model_fields[key].annotation).startswith("tuple[")
        return f"write '{key}:' and below it{' a list, each entry with' * is_list}: {below}"
    return f"write '{key}: ...', like: {example}" if example else f"write '{key}: ...'"


def _needed(owner: type[Record], key: str) -> tuple[str, ...]:
    """The keys that a record below a key needs; where it needs none by itself, those it has."""
    inner = next((one for one in classes_at(owner, (key,)) if one is not owner), None)
    fields = inner.model_fields if inner else {}
    return tuple(name for name, info in fields.items() if info.is_required()) or tuple(fields)


def _means(what: str | None) -> tuple[str, ...]:
    return (f"it holds: {' '.join(what.split())}",) if what else ()


def _choice(cls: type[Record], tree: Node, loc: KeyPath, error: Any) -> Finding:
    text = written(tree, loc) or str(error["input"])
    allowed = re.findall(r"'([^']*)'", str(error["ctx"]["expected"]))
    head = f"'{text}' is not allowed for '{_last_key(loc)}'"
    rest = ("for anything else: other",) if "other" in allowed else ()
    near = nearest(text, allowed)
    elsewhere = _SAID_ELSEWHERE.get((_last_key(loc), text.lower()), ())
    return _problem(
        "F204",
        locate(tree, loc),
        head,
        *elsewhere,
        *suggestion(text, allowed),
        *(rest * (not near)),
    )


_SAID_ELSEWHERE = {
    ("may", "run"): ("whom a job lets run it is its sign-off: write that under 'can_do'",),
}
"""Words that people write for what stands at another place: key and word."""


def _choice_of_kind(cls: type[Record], tree: Node, loc: KeyPath, error: Any) -> Finding:
    """A word that chooses between records, such as the operation of a set-up."""
    key = error["ctx"]["discriminator"].strip("'")
    tag = str(error["ctx"]["tag"])
    text = f"'{tag}' is not allowed for '{key}'"
    allowed = re.findall(r"'([^']*)'", error["ctx"]["expected_tags"])
    help_lines = suggestion(tag, allowed)
    if nearest(tag, allowed) is None or (nearest(tag, allowed) or "")[:1] != tag[:1].lower():
        other = "for any other work leave the set-up out, and tell its figures in the steps"
        help_lines = (*suggestion("", allowed), other)
    return _problem("F204", locate(tree, (*loc, key)), text, *help_lines)


def _missing_kind(cls: type[Record], tree: Node, loc: KeyPath, error: Any) -> Finding:
    owner, key = class_at(cls, loc), error["ctx"]["discriminator"].strip("'")
    known = sorted(tag for one in classes_at(cls, loc) for tag in tags(one))
    what = "set-up" if owner and "set-up" in spoken(owner) else "record"
    return _problem(
        "F202",
        locate(tree, loc),
        f"the {what} has no '{key}'",
        f"write '{key}: ...'",
        f"allowed: {', '.join(known)}",
    )


def _quantity(code: str) -> Callable[[type[Record], Node, KeyPath, Any], Finding]:
    def make(cls: type[Record], tree: Node, loc: KeyPath, error: Any) -> Finding:
        text = f"{error['ctx']['problem']} (for '{_last_key(loc)}')"
        return _problem(code, locate(tree, loc), text, error["ctx"]["cure"])

    return make


def _bad_id(cls: type[Record], tree: Node, loc: KeyPath, error: Any) -> Finding:
    near = error["ctx"]["near"]
    help_lines = ("ids are letters and digits with single hyphens between, like tr-0140",)
    refers = _last_key(loc) != "id"
    of_record = ("write the id, not the name: it stands first in the record's file",)
    as_id = (f"as an id this would be '{near}'",) if near else ()
    first = (*(of_record if refers else ()), *as_id)
    return _problem("F207", locate(tree, loc), error["msg"], *first, *help_lines)


def _by_hand(cls: type[Record], tree: Node, loc: KeyPath, error: Any) -> Finding:
    return _problem(
        "F209",
        locate(tree, loc),
        error["msg"],
        "work that turns takes the hand with it",
        "allowed: vice, clamps, fixture",
    )


def _shape(wanted: str) -> Callable[[type[Record], Node, KeyPath, Any], Finding]:
    def make(cls: type[Record], tree: Node, loc: KeyPath, error: Any) -> Finding:
        key = _last_key(loc)
        entry = "each entry of " if loc and isinstance(loc[-1], int) else ""
        text = f"{entry}'{key}' takes {wanted}"
        is_link = isinstance(error["input"], list) and str(error["input"]).startswith("[[")
        cure = ("a text that starts with [[ is quoted",) if is_link else _SHAPE_CURES[wanted]
        owner = class_at(cls, loc[: loc.index(key)]) if key in loc else None
        needed = _needed(owner, key) if owner and wanted is _KEYS else ()
        if needed:
            cure = (f"write below it, indented by two spaces: {', '.join(needed)}",)
        return _problem("F203", locate(tree, loc), text, *cure)

    return make


_A_LIST = "a list"
_A_TEXT = "one text"
_KEYS = "keys of its own, indented below it"
_SHAPE_CURES = {
    _A_LIST: ("put each entry on a line of its own that starts with '- '",),
    _A_TEXT: ("write one text, not a list or keys; quote a text that holds ': '",),
    _KEYS: ("write 'key: value' lines below it, indented by two spaces",),
}


def _other(cls: type[Record], tree: Node, loc: KeyPath, error: Any) -> Finding:
    """Everything else, in our words where the library's would not help an editor of files."""
    context = error.get("ctx") or {}
    place_at = (*loc, context["field"]) if "field" in context else loc
    value = written(tree, loc) or str(error["input"])
    say = _OTHER.get(error["type"])
    if say is None:
        text, cure = str(error["msg"]), "see `benchleaf schema` for what it takes"
    else:
        text, cure = say.format_map({"value": value, "key": _last_key(loc), **context}).split(" | ")
    return _problem("F208", locate(tree, place_at), text, cure)


_DATE = "'{value}' is no date (for '{key}') | write year-month-day, like 2026-03-09"
_WHOLE = "'{value}' is no whole number (for '{key}') | write digits only, like 2"
_OTHER = {
    "bad_revision": "'{value}' is no revision | write an integer or letters: 3, or C",
    "date_from_datetime_parsing": _DATE,
    "date_from_datetime_inexact": _DATE,
    "date_parsing": _DATE,
    "int_parsing": _WHOLE,
    "int_from_float": _WHOLE,
    "int_parsing_size": _WHOLE,
    "int_type": _WHOLE,
    "greater_than_equal": "'{value}' is too small (for '{key}') | it is at least {ge:g}",
    "less_than_equal": "'{value}' is too large (for '{key}') | it is at most {le:g}",
    "too_short": "'{key}' has no entries | at least one entry is needed",
    "string_too_long": "'{key}' is too long | at most {max_length} letters: say it shorter",
    "string_too_short": "'{key}' is empty | write a text, or take the key out",
    "small_margin": "a margin below {usual} has no margin_reason | write margin_reason: ..., or "
    "take the margin out for the usual {usual}",
    "no_friction": "neither friction nor work_surface is given | write work_surface: ground, "
    "machined or unmachined, for the table's friction",
    "vice_presses_down": "the jaws of a vice press sideways, and only their friction holds down | "
    "take presses out; where clamps press the work down, write method: clamps",
    "too_much_friction": "friction {friction} is refused: {jaws} jaws give {most} at the very most "
    "| the table has {table} for {work} work in smooth jaws; write that, or a trial's figure with "
    "friction_source",
    "shape_sizes": "'work: {shape}' takes {wanted}{problem} | correct the keys of this set-up",
    "depth_of_through": "a hole that goes through has no depth of its own | take 'depth' out, or "
    "write hole: blind",
    "head_and_mouth": "a countersink takes the mouth or the screw's head, not both | take one of "
    "them out",
    "flush_of_none": "'below_flush' says how far a screw's head lies below | give the screw's "
    "'head', or take 'below_flush' out",
    "clearance_of_none": "'clearance' belongs to a hole that lets a screw through | name the screw "
    "(clearance_for: M8), or take 'clearance' out",
    "size_and_fit": "a check takes limits, or size and fit | write size: 10 mm and fit: H7",
    "time_or_set_up": "an element has a time, or a set-up: one of them | write time: 12 s, or "
    "set_up: with the id of a set-up of this job",
    "part_number": "'{value}' is no part number | it holds a letter or digit at least",
    "staff_code": "'{value}' is no staff code (for '{key}') | write up to four letters and a "
    "number, like op-07; never a name",
    "may_or_licence": "an authority says what they may do, or names a licence: one of them | write "
    "may: set, lock off, teach or judge; or licence: with its name",
    "ends_early": "the authority ends before it begins | correct given or until",
    "fingerprint": "'{value}' is no fingerprint | copy the first 8 digits or more, like 3fa19c0b",
    "days_go_back": "the days of the stages go back | write them in their order, as day: 1, 2, 3",
    "missed_nothing": "the result is 'nothing missed', and something is listed as missed | write "
    "result: missed, or take 'missed' out",
    "missed_what": "the result is 'missed', and nothing says what | write missed: with the step, "
    "and the key point by how its words begin",
    "time_parsing": "'{value}' is no time of day (for '{key}') | write it like 06:00",
    "one_target": "an item leads to one page, or says what to do | write one of {keys}, or do: ...",
    "step_of_job": "a step is given without its job | write job: beside it",
    "pedal_key": "'{value}' is no key for a pedal: it presses the button that has the focus, so a "
    "foot would answer a hazard | set the pedal to a key of its own, such as F13",
    "bad_server": "'{value}' is no address of a server | write https://NAME/, such as "
    "https://manual.example/",
    "kept_id": "'{value}' is kept for the list page | choose another id",
    "long_id": "this id is {length} letters long | at most {most}",
    "device_id": "'{value}' is a device on Windows, and no file there | choose another id",
    "keeps_id": "'{wanted}' is not among the machines of the group | write one of: {known}",
    "notice_jobs": "'{value}' names no jobs | write [TR-0110, TR-0120], or those affected",
}
"""Kind of error -> headline | cure."""


def _last_key(loc: KeyPath) -> str:
    return next((str(step) for step in reversed(loc) if isinstance(step, str)), "this")


_MAKERS: dict[str, Callable[[type[Record], Node, KeyPath, Any], Finding]] = {
    "extra_forbidden": _unknown_key,
    "missing": _missing_key,
    "not_at_kind": _not_at_kind,
    "union_tag_invalid": _choice_of_kind,
    "union_tag_not_found": _missing_kind,
    "enum": _choice,
    "literal_error": _choice,
    "quantity": _quantity("F205"),
    "quantity_unit": _quantity("F206"),
    "quantity_shape": _shape(_A_TEXT),
    "bad_id": _bad_id,
    "held_by_hand": _by_hand,
    "tuple_type": _shape(_A_LIST),
    "string_type": _shape(_A_TEXT),
    "model_type": _shape(_KEYS),
    "dict_type": _shape(_KEYS),
    "model_attributes_type": _shape(_KEYS),
}

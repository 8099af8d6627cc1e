"""What a field is about, by kind of record and key: the consequence of a change hangs on it."""

from __future__ import annotations

from enum import StrEnum

from benchleaf.model import TRAINER_KEYS

from .change import Path


class Area(StrEnum):
    """What a change is about."""

    JOB = "job"
    ROUTE = "route"
    STEP = "step"
    KEY_POINT = "key point"
    REASON = "reason"
    HAZARD = "hazard"
    WORN = "equipment worn"
    CHECK = "check"
    TOOL = "tool"
    MATERIAL = "material"
    MACHINE = "machine"
    FLUID = "fluid"
    PART = "part"
    HOLDING = "holding"
    SET_UP = "set-up"
    FIGURE = "figure put in"
    """A number or source that only the reckoning of set-ups reads."""
    BREAKDOWN = "breakdown"
    """Other texts of a breakdown, such as what to do when something goes wrong."""
    HELP = "help text"
    PICTURE = "picture"
    TERM = "trade term"
    NAMES = "other names"
    SHOP = "shop's facts"
    EMERGENCY = "call, emergency and cautions"
    PREFACE = "safety preface"
    PAGE = "free page"
    LIST = "list for new people"
    RULE = "rule for training"
    RATE = "rate of the job"
    SCREEN = "settings of the screen"
    TRAINER = "trainer's note"
    REVISION = "facts of the revision"
    ORDER = "order of a list without order"
    CHECKS_ONLY = "for the checks only"


HELP_KEYS = ("right",)
"""Texts that only help; where one is added, what was taught stays true."""

NAME_KEYS = ("also", "variants", "see_also")
"""Spellings and pointers."""

REVISION_KEYS = ("revision", "effective", "approved_by", "change_note", "history", "reviewed")

NOT_MEANING = frozenset(
    (
        "picture",
        *TRAINER_KEYS,
        "answers_because",
        "accept",
        "bites_at",
        "piece_rate",
        *REVISION_KEYS,
    )
)
"""Keys that may change while what is taught stays the same."""

UNORDERED = frozenset(
    ("tools", "hazards", "not_met", "wear", "take_off", "have_ready", "know_first", "must_know",
     "guards", "spindle_speeds", "cutting_speeds", "own_words", "accept", "bites_at", "also",
     "variants", "see_also")
)  # fmt: skip
"""Lists whose order carries no meaning."""

_ALWAYS = (
    ("picture", Area.PICTURE),
    *((key, Area.TRAINER) for key in TRAINER_KEYS),
    ("answers_because", Area.HELP),
    *((key, Area.REVISION) for key in REVISION_KEYS),
    ("accept", Area.CHECKS_ONLY),
    ("bites_at", Area.CHECKS_ONLY),
    ("piece_rate", Area.RATE),
    *((key, Area.NAMES) for key in NAME_KEYS),
)
_IN_STEP = (
    ("reason", Area.REASON),
    ("key_points", Area.KEY_POINT),
    ("hazards", Area.HAZARD),
    ("hands_inside", Area.HAZARD),
    ("checks", Area.CHECK),
    ("right", Area.HELP),
)
_IN_JOB = {
    "wear": Area.WORN,
    "take_off": Area.WORN,
    "hazards": Area.HAZARD,
    "not_met": Area.HAZARD,
    "tools": Area.TOOL,
    "fluid": Area.FLUID,
    "machine": Area.MACHINE,
    "part": Area.PART,
    "operation_before": Area.ROUTE,
    "operation_after": Area.ROUTE,
    "end_of_route": Area.ROUTE,
    "holding": Area.HOLDING,
    "set_ups": Area.SET_UP,
}
_OF_KIND = {
    "machines": Area.MACHINE,
    "materials": Area.MATERIAL,
    "tools": Area.TOOL,
    "fluids": Area.FLUID,
    "hazards": Area.HAZARD,
    "terms": Area.TERM,
    "pages": Area.PAGE,
    "onboarding": Area.LIST,
}
_FIGURES = {
    "jobs": ("force", "friction", "arm", "faces", "friction_source",
             "work_surface", "jaw_surface", "presses", "margin", "rated_force", "source",
             "thickness", "work_diameter", "wall", "feed", "start_clearance", "overtravel", "pilot",
             "percent", "holes"),
    "machines": ("spindle_speeds", "efficiency", "efficiency_source", "limits_source", "lever"),
    "materials": ("cutting_speeds", "drilling", "tapping", "metal"),
    "tools": ("wear_factor", "wear_factor_source", "chisel_ratio", "geometry_source", "feed",
              "feed_source", "taylor"),
}  # fmt: skip
"""Keys that only the reckoning reads. In a job: those of set-ups and holding."""

_EMERGENCY = ("call", "emergency", "caution", "do_not_run")


def area_of(kind: str, path: Path) -> Area:
    """What the value at `path` of a record of that kind is about."""
    keys = tuple(one for one in path if isinstance(one, str))
    if kind == "manual":
        return _of_manual(keys)
    always = next((area for key, area in _ALWAYS if key in keys), None)
    if always is not None or not keys:
        return always or (Area.JOB if kind == "jobs" else _OF_KIND[kind])
    if kind == "jobs":
        return _of_job(keys)
    if keys[0] in _FIGURES.get(kind, ()):
        return Area.FIGURE
    if keys[-1] in HELP_KEYS:
        return Area.HELP
    return Area.HAZARD if keys[0] == "hazards" else _OF_KIND[kind]


def _of_job(keys: tuple[str, ...]) -> Area:
    if keys[0] == "steps":
        return next((area for key, area in _IN_STEP if key in keys), Area.STEP)
    if keys[0] in ("set_ups", "holding") and len(keys) > 1:
        if keys[-1] in _FIGURES["jobs"]:
            return Area.FIGURE
        if keys[-1] == "tool":
            return Area.TOOL
        return Area.HOLDING if "holding" in keys else Area.SET_UP
    if keys == ("part", "material"):
        return Area.MATERIAL
    return _IN_JOB.get(keys[0], Area.BREAKDOWN)


def _of_manual(keys: tuple[str, ...]) -> Area:
    if keys[:1] in (("retraining",), ("teaching",)):
        return Area.RULE
    if keys[:1] == ("kiosk",):
        return Area.SCREEN
    if keys[:1] == ("own_words",):
        return Area.CHECKS_ONLY
    if keys[:1] == ("preface",):
        return Area.PREFACE
    return Area.EMERGENCY if keys and keys[0] in _EMERGENCY else Area.SHOP

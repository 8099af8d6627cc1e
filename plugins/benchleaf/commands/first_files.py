"""The files of a manual that has just begun: settings, a preface, one station, one job.

Whatever only the shop can know holds the open mark, so that every page says *draft, teach nobody*
until it is written. No number stands in a file, only in its comments, as an example.
"""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf import registers
from benchleaf.model import DRIVEN, OPEN_MARK, Job, Machine, Manual, Record, StationKind
from benchleaf.model.ids import near_id

from .drafted import Texts, filling, quoted
from .first_texts import (
    ATTRIBUTES,
    CHECKS,
    IGNORED,
    JOB_OPEN,
    PLACE_JOB_OPEN,
    PLACE_OPEN,
    REQUIREMENTS,
    SETTINGS,
    STATION_OPEN,
    preface,
)
from .schema import SCHEMA_FOLDER, editor_files, schemas
from .shop_units import in_units
from .skeleton import skeleton

_HEAD = f"""\
# Write each text in place of {OPEN_MARK}; what it holds is written above it.
# Keys after a # are examples: take the # and one space away to use them.
"""


@dataclass(frozen=True, slots=True)
class First:
    """What is asked before a manual begins."""

    shop: str
    units: str
    paper: str
    station: str
    job: str
    """The job's number, an id."""
    title: str
    kind: str = StationKind.MACHINE
    """The kind of the station."""

    @property
    def is_driven(self) -> bool:
        """True where a motor drives it."""
        return self.kind in DRIVEN

    @property
    def station_id(self) -> str:
        """The station's name as an id."""
        return near_id(self.station.lower()) or "first-station"


def first_files(first: First, version: str) -> dict[str, str]:
    """Name and text of every file of the new manual."""
    texts = {
        "mkdocs.yml": SETTINGS.format(name=quoted(f"Training manual of {first.shop}")),
        "requirements.txt": REQUIREMENTS.format(version=version),
        ".gitignore": IGNORED,
        ".gitattributes": ATTRIBUTES,
        **CHECKS,
        **{f"content/{name}": text for name, text in _registers().items()},
        "content/manual.yml": _manual(first),
        "content/pages/safety.md": preface(is_driven=first.is_driven),
        f"content/machines/{first.station_id}.yml": _station(first),
        f"content/jobs/{first.job.lower()}.yml": _job(first),
        **{f"{SCHEMA_FOLDER}/{name}": text for name, text in schemas().items()},
        **editor_files(),
    }
    return texts


def _registers() -> dict[str, str]:
    """The registers with nothing in them yet: `benchleaf release` gives the first revision."""
    return registers.register_texts(registers.Ledger(), (), (), (), {})


def _manual(first: First) -> str:
    return _file(
        Manual,
        "",
        {
            ("shop",): first.shop,
            ("title",): f"Training manual of {first.shop}",
            ("welcome",): "Welcome. Take all the time you need, and ask whatever you like.",
            ("caution",): "The machine maker's instructions, local codes and licensed practice "
            "come first. If they say something else, stop and ask.",
            ("do_not_run",): "Do not start"
            + (" the machine" if first.is_driven else " the job")
            + ". Leave everything as it is, and call whoever answers for "
            + ("the set-up." if first.is_driven else "the job."),
            ("preface",): "safety.md",
            ("units",): first.units,
            ("paper",): first.paper,
        },
        first.units,
    )


def _station(first: First) -> str:
    texts: Texts = {
        ("name",): first.station,
        ("spindles", "id"): "spindle-1",
        ("still_open",): STATION_OPEN if first.is_driven else PLACE_OPEN,
    }
    return _file(Machine, first.station_id, texts, first.units, station=first.kind)


def _job(first: First) -> str:
    texts: Texts = {
        ("title",): first.title,
        ("machine",): first.station_id,
        ("steps", "id"): "step-1",
        ("steps", "key_points", "kind"): "can injure",
        ("still_open",): JOB_OPEN if first.is_driven else PLACE_JOB_OPEN,
    }
    return _file(Job, first.job, texts, first.units, is_issued=True)


def _file(
    cls: type[Record],
    record_id: str,
    texts: Texts,
    units: str,
    *,
    is_issued: bool = False,
    station: str = StationKind.MACHINE,
) -> str:
    text = skeleton(cls, record_id, filling(texts), _HEAD, is_issued=is_issued, station=station)
    return in_units(text, units)

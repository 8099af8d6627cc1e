"""`benchleaf new`: a commented skeleton for a record of any kind."""

from __future__ import annotations

import argparse
import re
from datetime import date
from pathlib import Path
from typing import Any, NamedTuple

from benchleaf import pipeline, registers
from benchleaf.diagnose import suggestion
from benchleaf.model import FOLDERS, KINDS, THOSE_AFFECTED, Family, Machine, Record, StationKind
from benchleaf.model.ids import normal_id
from benchleaf.write import write_bytes

from .answer import Answer, crew_folder, give
from .drafted import DRAFTED, HEAD, filling, texts_of
from .family_skeleton import family_skeleton
from .kinds import OWN_FOLDERS, STATIONS, record_class, schema_kinds
from .schema import write_all
from .shop_units import in_units, units_here
from .skeleton import entry, skeleton
from .take_in import empty_workbook, has_ledger

WITHOUT_ID = ("manual", "crew")
"""Kinds of which there is one file."""
TERMS = "terms.yml"
NOTICE = "notice"
"""A kind of its own: a word names it, and it names jobs."""
HOLD = "hold"
"""A kind that a command of its own writes."""


class Asked(NamedTuple):
    """What is to be written, and where."""

    kind: str
    record_id: str
    content: Path
    crew: Path | None = None


def singular_kinds() -> tuple[str, ...]:
    """Every kind as people type it."""
    kinds = (kind.removesuffix("s") for kind in schema_kinds() if kind != HOLD)
    return tuple(dict.fromkeys((*kinds, "station", NOTICE)))


def add(commands: Any) -> None:
    """Add the command to the parser."""
    new = commands.add_parser("new", help="write a commented skeleton for a record")
    new.add_argument("kind", metavar="KIND", help=", ".join(singular_kinds()))
    new.add_argument(
        "id", metavar="ID", nargs="?", default="", help="such as TR-0140 or drill-8-5; for a "
        "notice a word; manual and crew have none"
    )  # fmt: skip
    new.add_argument("--content", type=Path, default=Path("content"), metavar="FOLDER")
    new.add_argument(
        "--crew",
        type=Path,
        default=crew_folder(),
        metavar="FOLDER",
        help="for crew and person (default: BENCHLEAF_CREW_DIR)",
    )
    new.add_argument("--format", choices=("yml", "xlsx"), default="yml",
                     help="a file to edit, or for a job a workbook in this folder")  # fmt: skip
    new.add_argument("--kind", dest="station", metavar="KIND", type=str.lower,
                     choices=tuple(StationKind), default=StationKind.MACHINE,
                     help=f"of a station: {', '.join(StationKind)}")  # fmt: skip
    new.set_defaults(run=_new)


def _new(options: argparse.Namespace) -> int:
    kind = options.kind.lower()
    if options.format == "xlsx":
        return give(new_workbook(kind, options.id, options.content))
    if kind in (HOLD, registers.HOLDS):
        cure = 'benchleaf hold TR-0120 --why "what is wrong"'
        return give(Answer(problem="a hold is written by a command of its own", help=(cure,)))
    if kind in (NOTICE, registers.NOTICES):
        return give(new_notice(options.id, options.content, date.today()))
    return give(new_record(kind, options.id, options.content, options.crew, options.station))


def new_record(
    kind: str,
    record_id: str,
    content: Path,
    crew: Path | None = None,
    station: str = StationKind.MACHINE,
) -> Answer:
    """Write a commented skeleton for a record; where it stands, or why it was not written."""
    cls = record_class(kind)
    if cls is None:
        near = suggestion(kind, singular_kinds(), what="kinds")
        return Answer(problem=f"there is no kind '{kind}'", help=near)
    if station != StationKind.MACHINE and cls is not Machine:
        return Answer(problem=f"--kind is for a station, and this is a {kind.removesuffix('s')}")
    singular = {folder: one for one, folder in OWN_FOLDERS.items()}
    kind = singular.get(kind, STATIONS.get(kind, kind).removesuffix("s"))
    asked = Asked(kind, record_id, content, crew)
    problem = _id_problem(asked) or _folder_problem(asked)
    if problem:
        return problem
    written = normal_id(record_id) if record_id else ""
    if asked.kind == "term":
        return _new_term(cls, written, content / TERMS)
    folder, name = _place(asked, cls, written)
    if (folder / name).exists():
        cure = "change that file" if not written else "choose another id"
        return Answer(problem=f"{folder / name} is there already", help=(cure,))
    is_issued = has_ledger(content)
    text = skeleton(cls, written, is_issued=is_issued, station=station)
    if asked.kind in DRAFTED:
        fill = filling(texts_of(cls, station, content))
        text = skeleton(cls, written, fill, HEAD, is_issued=is_issued, station=station)
    if cls is Family:
        text = family_skeleton(written, is_issued=is_issued)
    write_all({name: in_units(text, units_here(content))}, folder)
    told = "timetable" if folder == crew else "check"
    return _written(folder / name, f"benchleaf {told}")


def _id_problem(asked: Asked) -> Answer | None:
    has_none = asked.kind in WITHOUT_ID
    if has_none != (not asked.record_id):
        article = "a" if asked.kind[0] not in "aeiou" else "an"
        text = f"{article} {asked.kind} has {'no' if has_none else 'an'} id"
        line = f"benchleaf new {asked.kind}{'' if has_none else ' ID'}"
        return Answer(problem=text, help=(f"write: {line}",))
    try:
        normal_id(asked.record_id or "none")
    except ValueError:
        cure = "ids are letters and digits with single hyphens between, like tr-0140"
        return Answer(problem=f"'{asked.record_id}' is no id", help=(cure,))
    return None


def _folder_problem(asked: Asked) -> Answer | None:
    if asked.kind in ("crew", "person"):
        if asked.crew is None:
            cure = "give --crew FOLDER, or set BENCHLEAF_CREW_DIR"
            return Answer(problem="no crew folder is named", help=(cure,))
        if asked.crew.resolve().is_relative_to(asked.content.resolve()):
            cure = "name a folder outside of it, best outside the repository"
            return Answer(problem=f"{asked.crew}/ lies inside the content folder", help=(cure,))
        return None
    if not asked.content.is_dir():
        cures = ("in an empty folder: benchleaf init", "elsewhere, name it: --content FOLDER")
        return Answer(problem=f"there is no folder {asked.content}/", help=cures)
    return None


def _place(asked: Asked, cls: type[Record], record_id: str) -> tuple[Path, str]:
    """The folder that the file goes below, and its name there."""
    if asked.kind == "manual":
        return asked.content, "manual.yml"
    if asked.kind in ("crew", "person"):
        below = f"people/{record_id}.yml" if record_id else "crew.yml"
        return asked.crew or Path(), below
    own = OWN_FOLDERS.get(asked.kind)
    folder = own or next(name for name in FOLDERS if KINDS[name] is cls)
    return asked.content, f"{folder}/{record_id}.yml"


def _new_term(cls: type[Record], record_id: str, path: Path) -> Answer:
    """A term joins the others at the end of their one file."""
    text = path.read_text(encoding="utf-8") if path.exists() else "terms:\n"
    if re.search(rf"^ *- +id: *['\"]?{re.escape(record_id)}['\"]? *$", text, re.MULTILINE):
        return Answer(problem=f"'{record_id}' is in {path} already", help=("choose another id",))
    before = re.search(r"^( *)- ", text, re.MULTILINE)
    indent = len(before[1]) if before else 2
    lines = (" " * indent + line[2:] for line in entry(cls, record_id))
    write_all({path.name: text.rstrip("\n") + "\n" + "\n".join(lines) + "\n"}, path.parent)
    return _written(path)


def _written(path: Path, then: str = "benchleaf check") -> Answer:
    return Answer(text=f"{path} is written: fill it in, then run `{then}`")


_NOTICE = """\
# What this change is, for the readers of these jobs. `benchleaf release` takes this file away.
jobs: {jobs}
## What changed, in a sentence or two.
note:
## The role of who approved it.
approved_by:
## Take the # away where only words changed, and no number, hazard or order.
# wording_only: true
"""


def new_notice(word: str, content: Path, today: date) -> Answer:
    """Write a change notice that names each job whose meaning moved on this branch."""
    name = re.sub(r"[^a-z0-9]+", "-", word.lower()).strip("-")
    path = content / registers.NOTICES / f"{today}-{name}.yml"
    if not content.is_dir():
        return Answer(problem=f"there is no folder {content}/", help=("name it: --content FOLDER",))
    if not name or path.exists():
        problem = f"{path} is there already" if name else f"'{word}' holds no letter"
        return Answer(problem=problem, help=("choose another word",))
    loaded = pipeline.load(content)
    covered = {job for one in loaded.notices for job in one.notice.jobs}
    moved = [job.upper() for job in loaded.shop.drafts if job not in covered]
    jobs = f"[{', '.join(moved)}]" if moved else THOSE_AFFECTED
    write_all({f"{registers.NOTICES}/{path.name}": _NOTICE.format(jobs=jobs)}, content)
    is_whole = not any(one.blocks_publishing and one.code[0] in "RF" for one in loaded.findings)
    unread = "" if is_whole else ". A file with an error is not looked at: name its job yourself"
    return Answer(text=f"{path} is written: fill it in, then run `benchleaf check`{unread}")


def new_workbook(kind: str, record_id: str, content: Path) -> Answer:
    """Write an empty workbook for a job; where it stands, or why it was not written."""
    if kind not in ("job", "jobs"):
        return Answer(problem=f"there is no workbook for a {kind}", help=("there is one for: job",))
    try:
        written = normal_id(record_id)
    except ValueError:
        cure = "ids are letters and digits with single hyphens between, like tr-0140"
        return Answer(problem=f"'{record_id}' is no id", help=(cure,))
    path = Path(f"{written}.xlsx")
    if path.exists():
        return Answer(problem=f"{path} is there already", help=("choose another id",))
    write_bytes(path, empty_workbook(written.upper(), content))
    return Answer(text=f"{path} is written: fill it in, then run `benchleaf take-in {path}`")

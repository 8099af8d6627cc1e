"""`benchleaf new`: a commented skeleton for a record."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from benchleaf.diagnose import suggestion
from benchleaf.model import FOLDERS, KINDS
from benchleaf.model.ids import normal_id

from .answer import Answer, give
from .kinds import record_class
from .schema import write_all
from .skeleton import skeleton
from .take_in import empty_workbook


def add(commands: Any) -> None:
    """Add the command to the parser."""
    new = commands.add_parser("new", help="write a commented skeleton for a record")
    new.add_argument(
        "kind", metavar="KIND", help="job, part, machine, material, tool, fluid, hazard"
    )
    new.add_argument("id", metavar="ID", help="such as TR-0140 or drill-8-5")
    new.add_argument("--content", type=Path, default=Path("content"), metavar="FOLDER")
    new.add_argument("--format", choices=("yml", "xlsx"), default="yml",
                     help="a file to edit, or for a job a workbook in this folder")  # fmt: skip
    new.set_defaults(run=_new)


def _new(options: argparse.Namespace) -> int:
    if options.format == "xlsx":
        return give(new_workbook(options.kind.lower(), options.id, options.content))
    return give(new_record(options.kind.lower(), options.id, options.content))


def new_record(kind: str, record_id: str, content: Path) -> Answer:
    """Write a commented skeleton for a record; where it stands, or why it was not written."""
    cls = record_class(kind)
    folder = next((name for name in FOLDERS if KINDS[name] is cls), None)
    if cls is None or folder is None:
        kinds = [name.removesuffix("s") for name in FOLDERS]
        return Answer(
            problem=f"there is no kind '{kind}' with files of its own",
            help=suggestion(kind, kinds, what="kinds"),
        )
    try:
        written = normal_id(record_id)
    except ValueError:
        cure = "ids are letters and digits with single hyphens between, like tr-0140"
        return Answer(problem=f"'{record_id}' is no id", help=(cure,))
    path = content / folder / f"{written}.yml"
    if not content.is_dir():
        return Answer(problem=f"there is no folder {content}/", help=("name it: --content FOLDER",))
    if path.exists():
        return Answer(problem=f"{path} is there already", help=("choose another id",))
    write_all({f"{folder}/{written}.yml": skeleton(cls, written)}, content)
    return Answer(text=f"{path} is written: fill it in, then run `benchleaf check`")


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
    path.write_bytes(empty_workbook(written.upper(), content))
    return Answer(text=f"{path} is written: fill it in, then run `benchleaf take-in {path}`")

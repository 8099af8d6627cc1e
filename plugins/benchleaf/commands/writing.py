"""Commands that help to write: `schema`, `new`, `tidy`."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

from benchleaf import desk, questions
from benchleaf.diagnose import report, suggestion


def add(commands: Any) -> None:
    """Register the commands."""
    schema = commands.add_parser("schema", help="print or write the JSON Schema of records")
    kinds = schema.add_mutually_exclusive_group(required=True)
    kinds.add_argument("kind", nargs="?", metavar="KIND", help=", ".join(questions.schema_kinds()))
    kinds.add_argument("--all", type=Path, metavar="FOLDER", help="write every schema there")
    schema.add_argument(
        "--editors", action="store_true", help="with --all: write settings for editors here, too"
    )
    schema.set_defaults(run=_schema)
    new = commands.add_parser("new", help="write a commented skeleton for a record")
    new.add_argument("kind", metavar="KIND", help="job, machine, material, tool, fluid, hazard")
    new.add_argument("id", metavar="ID", help="such as TR-0140 or drill-8-5")
    new.add_argument("--content", type=Path, default=Path("content"), metavar="FOLDER")
    new.set_defaults(run=_new)
    tidy = commands.add_parser("tidy", help="put YAML files in order; comments and meaning stay")
    tidy.add_argument("content", nargs="?", type=Path, default=Path("content"))
    tidy.add_argument(
        "--check", action="store_true", help="change nothing; exit 1 where a file would change"
    )
    tidy.set_defaults(run=_tidy)


def _schema(options: argparse.Namespace) -> int:
    if options.all is not None:
        paths = desk.write_all(desk.schemas(), options.all)
        if options.editors:
            paths += desk.write_all(desk.editor_files(), Path())
        print("\n".join(f"{path} is written" for path in paths))
        return 0
    text = questions.schema(options.kind.lower())
    if text is None:
        near = suggestion(options.kind, questions.schema_kinds())
        return _misuse(f"there is no kind '{options.kind}'", near)
    print(text)
    return 0


def _new(options: argparse.Namespace) -> int:
    answer = desk.new_record(options.kind.lower(), options.id, options.content)
    if answer.problem:
        return _misuse(answer.problem, answer.help)
    print(answer.text)
    return 0


def _tidy(options: argparse.Namespace) -> int:
    if not options.content.is_dir():
        return _misuse(f"there is no folder {options.content}/", ("name the content folder",))
    changed, left = desk.tidy(options.content, only_look=options.check)
    if left:
        print(report(left))
    said = "would be put in order" if options.check else "is put in order"
    for path in changed:
        print(f"{path} {said}")
    print(f"{len(changed)} changed, {len(left)} findings" if changed or left else "all in order")
    return 1 if (options.check and changed) or any(one.fails_check for one in left) else 0


def _misuse(problem: str, help_lines: tuple[str, ...]) -> int:
    print("\n".join((f"benchleaf: {problem}", *help_lines)), file=sys.stderr)
    return 2

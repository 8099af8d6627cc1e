"""`benchleaf tidy`: YAML files put in order; comments and meaning stay. Parts get records."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from benchleaf import read
from benchleaf.diagnose import Finding, report
from benchleaf.model import FAMILIES, FOLDERS, GROUPS
from benchleaf.write import write_together

from .answer import misuse, reads_content
from .tidy_crew import tidy_crew
from .tidy_parts import tidy_parts


def add(commands: Any) -> None:
    """Add the command to the parser."""
    tidy = commands.add_parser("tidy", help="put YAML files in order; comments and meaning stay")
    reads_content(tidy)
    tidy.add_argument(
        "--check", action="store_true", help="change nothing; exit 1 where a file would change"
    )
    tidy.add_argument(
        "--parts", action="store_true", help="give parts that jobs hold copies of a record each"
    )
    tidy.add_argument(
        "--crew",
        type=Path,
        metavar="FOLDER",
        help="take fingerprints out of this crew folder's files that the register has",
    )
    tidy.set_defaults(run=_tidy)


def _tidy(options: argparse.Namespace) -> int:
    if not options.content.is_dir():
        return misuse(f"there is no folder {options.content}/", ("name the content folder",))
    if options.parts:
        return tidy_parts(options.content, only_look=options.check)
    if options.crew is not None:
        if not options.crew.is_dir():
            return misuse(f"there is no folder {options.crew}/", ("name the crew folder",))
        return tidy_crew(options.content, options.crew, only_look=options.check)
    changed, left = tidy(options.content, only_look=options.check)
    if left:
        print(report(left))
    said = "would be put in order" if options.check else "is put in order"
    for path in changed:
        print(f"{path} {said}")
    print(f"{len(changed)} changed, {len(left)} findings" if changed or left else "all in order")
    return 1 if (options.check and changed) or any(one.fails_check for one in left) else 0


def tidy(content: Path, *, only_look: bool = False) -> tuple[tuple[Path, ...], tuple[Finding, ...]]:
    """Put every YAML file of a content folder in order: those changed, and those left alone.

    With `only_look` nothing is written. A file that cannot be read, or whose meaning or comments
    would not stay the same, is left as it is.
    """
    changed: dict[Path, bytes] = {}
    left: list[Finding] = []
    for path in _yaml_files(content):
        name = f"{content.name}/{path.relative_to(content).as_posix()}"
        before, after, problems = read.tidied(path, name)
        left += problems
        if after is not None and after != before:
            changed[path] = after
    if not only_look:
        write_together(content, changed)
    return tuple(changed), tuple(left)


def _yaml_files(content: Path) -> Sequence[Path]:
    single = (content / name for name in ("manual.yml", "terms.yml"))
    folders = (
        path
        for kind in (*FOLDERS, GROUPS, FAMILIES)
        for path in sorted((content / kind).glob("*.yml"))
    )
    return [path for path in (*single, *folders) if path.is_file()]

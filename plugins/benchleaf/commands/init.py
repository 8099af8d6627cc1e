"""`benchleaf init`: a manual begun in an empty folder, and its first pages built."""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

import benchleaf
from benchleaf.model import OPEN_MARK, StationKind
from benchleaf.model.ids import normal_id
from benchleaf.write import write_new

from .answer import Answer, give
from .first_files import First, first_files
from .tidy import tidy

_NO_HINDRANCE = (".git", "wheels")
"""What may lie there already, besides an environment in which the tool is installed."""
NAMED_AT_MOST = 6


class Question(NamedTuple):
    """One question: its option, its words, and how an answer is read."""

    key: str
    words: str
    usual: str
    """The answer of whoever gives none."""
    read: Callable[[str], str]
    """The answer as it is kept; a ValueError says what is wrong with it."""


def _name(text: str) -> str:
    folded = " ".join(text.split())
    if not any(sign.isalnum() for sign in folded):
        raise ValueError("write a name, with a letter or digit at least")
    return folded


def _number(text: str) -> str:
    try:
        normal_id(text)
    except ValueError:
        raise ValueError(
            "write letters and digits with single hyphens between, like J-0010"
        ) from None
    return text.strip()


FIRST_KINDS = tuple(str(one) for one in StationKind if one is not StationKind.CELL)
"""A cell is written when its stations are there."""


def _one_of(*allowed: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        found = text.strip().lower()
        if found not in allowed:
            raise ValueError(f"write {' or '.join(allowed)}")
        return found

    return read


QUESTIONS = (
    Question("shop", "The shop's name", "Our shop", _name),
    Question("units", "Units: metric or inch", "metric", _one_of("metric", "inch")),
    Question("paper", "Paper to print on: a4 or letter", "a4", _one_of("a4", "letter")),
    Question("station", "One station, such as Pillar drill or Bench 2", "First station", _name),
    Question(
        "kind", f"What it is: {', '.join(FIRST_KINDS)}", StationKind.MACHINE, _one_of(*FIRST_KINDS)
    ),
    Question("job", "The number of one job done there", "J-0010", _number),
    Question(
        "title", "What that job does, starting with a verb",
        f"{OPEN_MARK} What is done to what, starting with a verb", _name,
    ),
)  # fmt: skip


def add(commands: Any) -> None:
    """Add the command to the parser."""
    init = commands.add_parser("init", help="begin a manual in an empty folder")
    init.add_argument("folder", nargs="?", type=Path, default=Path(), help="default: this folder")
    for one in QUESTIONS:
        init.add_argument(f"--{one.key}", metavar=one.key.upper(), help=one.words)
    init.add_argument("--yes", action="store_true", help="ask nothing: the usual for the rest")
    init.add_argument("--no-build", action="store_true", help="write the files alone")
    init.set_defaults(run=_init)


def _init(options: argparse.Namespace) -> int:
    refused = in_the_way(options.folder)
    if refused:
        return give(_refusal(options.folder, refused))
    given = {one.key: getattr(options, one.key) for one in QUESTIONS}
    ask = None if options.yes or not sys.stdin.isatty() else _ask
    lacking = [f"--{key}" for key, one in given.items() if one is None]
    if lacking and ask is None and not options.yes:
        cures = (f"give {', '.join(lacking)}", "or --yes for the usual answers")
        return give(Answer(problem="nobody can be asked here", help=cures))
    try:
        answers = dict(_answers(given, ask))
    except ValueError as error:
        return give(Answer(problem=str(error)))
    except (EOFError, KeyboardInterrupt):
        return give(Answer(problem="stopped: nothing is written"))
    first = First(**answers)
    written = begin(options.folder, first)
    tidy(options.folder / "content")
    is_built = options.no_build or _build(options.folder)
    print(_told(options.folder, first, len(written), options.no_build))
    return 0 if is_built else 1


def in_the_way(folder: Path) -> tuple[str, ...]:
    """What lies in the folder and would be mixed with the new manual."""
    if folder.is_file():
        return (f"{folder} is a file",)
    if not folder.is_dir():
        return ()
    here = sorted(folder.iterdir())
    return tuple(
        f"{one.name}/" if one.is_dir() else one.name
        for one in here
        if one.name not in _NO_HINDRANCE and not (one / "pyvenv.cfg").is_file()
    )


def _refusal(folder: Path, found: tuple[str, ...]) -> Answer:
    more = f" and {len(found) - NAMED_AT_MOST} more" if len(found) > NAMED_AT_MOST else ""
    return Answer(
        problem=f"the folder is not empty: {', '.join(found[:NAMED_AT_MOST])}{more}",
        help=("nothing is written", "move that away, or name another: benchleaf init FOLDER"),
    )


def _answers(
    given: Mapping[str, str | None], ask: Callable[[Question, str], str] | None
) -> Iterator[tuple[str, str]]:
    """Each answer, as an option gives it, somebody types it, or it usually is."""
    usual = {one.key: one.usual for one in QUESTIONS}
    for one in QUESTIONS:
        written = given[one.key]
        if written is not None:
            try:
                answer = one.read(written)
            except ValueError as error:
                raise ValueError(f"--{one.key} '{written}': {error}") from None
        else:
            answer = ask(one, usual[one.key]) if ask else usual[one.key]
        if one.key == "units" and answer == "inch":
            usual["paper"] = "letter"
        yield one.key, answer


def _ask(question: Question, usual: str) -> str:
    """Ask until the answer can be used; an empty one is the usual."""
    shown = "later" if OPEN_MARK in usual else usual
    while True:
        written = input(f"{question.words} [{shown}]: ")
        if not written.strip():
            return usual
        try:
            return question.read(written)
        except ValueError as error:
            print(f"  {error}")


def begin(folder: Path, first: First) -> tuple[Path, ...]:
    """Write the first files below a folder: all of them, or none where one cannot be written."""
    texts = first_files(first, benchleaf.__version__)
    return write_new({folder / name: text for name, text in texts.items()})


def _build(folder: Path) -> bool:
    """Build the pages as the user would; what the engine says goes where it always does."""
    command = (sys.executable, "-m", "mkdocs", "build", "--quiet")
    quiet = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
    return subprocess.run(command, cwd=folder, env=quiet, check=False).returncode == 0


def _told(folder: Path, first: First, count: int, has_no_build: bool) -> str:
    below = "" if folder == Path() else f"{folder}/"
    page = "run `mkdocs build`, then open" if has_no_build else "open"
    return "\n".join(
        (
            f"{count} files are written. Look at the first pages: {page} {below}site/index.html",
            "Each page says: draft, teach nobody. `benchleaf check` lists what is still open.",
            f"Write first: {below}content/pages/safety.md",
            f"then:        {below}content/machines/{first.station_id}.yml",
            f"then:        {below}content/jobs/{first.job.lower()}.yml",
            f"A tool, material, fluid, hazard or word: benchleaf new KIND ID"
            f"{f' --content {below}content' if below else ''}",
        )
    )

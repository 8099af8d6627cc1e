"""The meaning of a manual as another version of the tool reckons it: asked for, read, compared."""

from __future__ import annotations

import os
import subprocess
import tempfile
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from benchleaf import diff, pipeline
from benchleaf.people import crews
from benchleaf.write import write_text

from .sides import Reviewed, hides_records, side_of

_ASK = "import sys; from benchleaf.cli import main; sys.exit(main(sys.argv[1:]))"
_VERSION = "import benchleaf; print(benchleaf.__version__)"
_NO_OPTION = "unrecognized arguments"
SUFFIX = ".json"
"""How a file ends in which a meaning is written down."""


@dataclass(frozen=True, slots=True)
class Versions:
    """What is to be compared: the same content by two versions, or two files."""

    content: Path
    version: str
    """Of this tool."""
    tool: Path | None = None
    """The Python of the other version, or the folder of its environment."""
    old: Path | None = None
    new: Path | None = None
    crew: Path | None = None
    on: date | None = None


class _NoMeaningError(Exception):
    """Why a meaning cannot be had, and what to do."""

    def __init__(self, problem: str, *help_lines: str) -> None:
        super().__init__(problem)
        self.problem, self.help = problem, help_lines


def write_meaning(content: Path, version: str, target: Path) -> Reviewed:
    """Write down what the jobs of a content folder say; findings where that cannot be known."""
    loaded = pipeline.load(content)
    unfit = tuple(one for one in loaded.findings if hides_records(one))
    if not unfit:
        text = diff.as_written(diff.written_of(side_of(loaded), version))
        write_text(target, text)
    return Reviewed(findings=unfit)


def compare_versions(asked: Versions) -> Reviewed:
    """The content by the other version and by this one, or two files, compared."""
    loaded = pipeline.load(asked.content)
    unfit = tuple(one for one in loaded.findings if hides_records(one))
    if unfit:
        return Reviewed(findings=unfit)
    now = diff.written_of(side_of(loaded), asked.version)
    try:
        old = _read(asked.old) if asked.old else _by_other(asked)
        new = _read(asked.new) if asked.new else now
    except _NoMeaningError as error:
        return Reviewed(problem=error.problem, help=error.help)
    crew = crews.crew_for(asked.crew, loaded.shop, loaded.content)
    if asked.crew is not None and crew.crew is None:
        return Reviewed(findings=tuple(one for one in crew.findings if one.blocks_publishing))
    rule = loaded.shop.manual.retraining
    alike = {
        job_id: frozenset(one.fingerprint for one in loaded.revisions.at(job))
        for job_id, job in loaded.shop.jobs.items()
    }
    is_same = asked.tool is not None
    comparison = diff.compare_written(old, new, rule, alike, is_same_content=is_same)
    due = None
    if crew.crew is not None:
        day = asked.on or crew.crew.facts.as_of or date.today()
        due = diff.due(comparison, crew.crew, rule, day)
    notes = tuple(_notes(old, new, comparison))
    names = (_name(asked, old, asked.old), _name(asked, new, asked.new))
    return Reviewed(diff.Report(comparison, *names, due, notes))


def _name(asked: Versions, written: diff.Written, file: Path | None) -> str:
    where = str(file) if file else f"{asked.content}/"
    return f"{where} by version {written.version}"


def _notes(old: diff.Written, new: diff.Written, found: diff.Comparison) -> list[str]:
    moved = {one.id for one in found.jobs}
    others = [
        job_id.upper()
        for job_id, one in new.jobs.items()
        if job_id not in moved and old.jobs[job_id].fingerprint != one.fingerprint
    ]
    if not others:
        return []
    return [
        "the new version makes the fingerprint otherwise, and nothing that is taught moved, for"
        f" {len(others)} of the jobs ({', '.join(others)})"
    ]


def _read(file: Path) -> diff.Written:
    try:
        return diff.read_written(file.read_text(encoding="utf-8"))
    except UnicodeDecodeError:
        raise _NoMeaningError(f"{file} is no text") from None
    except diff.UnreadableError as error:
        raise _NoMeaningError(
            f"{file}: {error}", "write one: benchleaf compare --write-meaning FILE.json"
        ) from None


def _by_other(asked: Versions) -> diff.Written:
    assert asked.tool is not None
    python = _python(asked.tool)
    version = _asked(python, "-c", _VERSION)
    if version.returncode != 0:
        raise _NoMeaningError(
            f"{python} has no benchleaf",
            "name the Python of the environment in which the other version is installed",
        )
    name = version.stdout.strip()
    with tempfile.TemporaryDirectory(prefix="benchleaf-") as room:
        target = Path(room) / f"meaning{SUFFIX}"
        command = ("compare", "--write-meaning", str(target), "--content", str(asked.content))
        done = _asked(python, "-c", _ASK, *command)
        if done.returncode != 0:
            raise _refused(done, name)
        return _read(target)


def _python(tool: Path) -> Path:
    """The Python named, or that of an environment's folder."""
    inside = (tool / "bin" / "python", tool / "Scripts" / "python.exe")
    found = next((one for one in inside if one.exists()), tool) if tool.is_dir() else tool
    if not found.is_file():
        raise _NoMeaningError(
            f"there is no Python at {tool}",
            "name the Python of the other version, such as old/bin/python",
        )
    return found


def _asked(python: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """What the other version answers. Nothing of this one may be in its way."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    command = [str(python), "-P", *arguments]
    try:
        return subprocess.run(command, capture_output=True, text=True, env=kept, check=False)
    except OSError as error:
        raise _NoMeaningError(f"{python} cannot be run: {error.strerror}") from None


def _refused(done: subprocess.CompletedProcess[str], version: str) -> _NoMeaningError:
    if _NO_OPTION in done.stderr:
        return _NoMeaningError(
            f"version {version} cannot write down what it reckons: it is older than this command",
            "build the manual with both versions, and look at the set-up of each job that"
            " `benchleaf check` names with A604",
        )
    said = (done.stderr or done.stdout).strip().splitlines()
    return _NoMeaningError(f"version {version} cannot read the content", *said[-MOST_SAID:])


MOST_SAID = 12
"""Lines of the other version that are passed on."""

"""`benchleaf release`: on the main branch, gives every changed job its number and its note."""

from __future__ import annotations

import argparse
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import ExitStack
from dataclasses import replace
from datetime import date
from pathlib import Path, PurePosixPath
from typing import Any

from benchleaf import pipeline, read, registers
from benchleaf.compute import reasons_not_to_run, set_up_sheets
from benchleaf.diagnose import report
from benchleaf.model import JobChanges, Shop
from benchleaf.registers import forwarding, taking_over
from benchleaf.write import finish, write_together

from .answer import misuse, reads_content
from .asked_for import told_of

_ABOUT = """\
Reads every change notice, gives each job whose meaning moved its next revision, and writes the
registers: addresses.yml, revisions.yml, history.yml and tally.yml. The notices are taken away;
their text stands in the history from then on. Run it on the main branch only, and commit what it
wrote: numbers that two branches give at the same time would meet."""


def add(commands: Any) -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "release",
        help="on the main branch: give changed jobs their revision, from the change notices",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description=_ABOUT,
    )
    command.set_defaults(run=_release)
    reads_content(command)
    command.add_argument("--main", metavar="BRANCH", help="the main branch (default: main)")
    command.add_argument(
        "--on",
        type=date.fromisoformat,
        metavar="DATE",
        help="the day of release (default: today)",
    )
    command.add_argument(
        "--since",
        type=Path,
        metavar="FOLDER",
        help="the content as it was last released (default: the commit that last released)",
    )
    command.add_argument(
        "--take-over",
        action="store_true",
        help="once: take the revisions out of the job files, into history.yml",
    )


def _release(options: argparse.Namespace) -> int:
    content: Path = options.content
    wrong = _not_on_main(content, options.main)
    if wrong is not None:
        return misuse(wrong.problem, wrong.help)
    if finish(content):
        print(f"a release that was cut off is finished now; commit {content}/")
    loaded = pipeline.load(content)
    if options.take_over:
        return _take_over(loaded)
    if loaded.ledger is None:
        return misuse(
            "in this shop each job's file says its own revision",
            ("take the shop over, once: benchleaf release --take-over",),
        )
    errors = tuple(one for one in loaded.findings if one.blocks_publishing)
    if errors:
        print(report(errors))
        print("nothing was released: mend these first")
        return 1
    with ExitStack() as rooms:
        before = former(content, options.since, rooms)
        affected = _Affected(content, rooms)
        return _write(loaded, before, affected, options.on or date.today())


def _write(
    loaded: pipeline.Loaded, before: pipeline.Loaded | None, affected: _Affected, day: date
) -> int:
    ledger, content = loaded.ledger, loaded.content
    assert ledger is not None
    revisions, history = registers.release(loaded.shop, ledger, loaded.notices, affected, day)
    if not history and set(forwarding.promised(loaded.shop)) <= set(loaded.registered):
        print("nothing to release: every job means what was released")
        return 0
    # Former and present content are both at hand here: what moved, job by job.
    known = {*ledger.by_job, *loaded.shop.renamed.values()}
    again = tuple(entry for entry in history if entry.job in known)
    told = {entry.job: tuple(told_of(before, loaded, entry.job)) for entry in again}
    lessons = _changed(content, before, loaded, again)
    jobs = (path.stem for path in lessons)
    every = (*loaded.registered, *forwarding.promised(_with_lessons(loaded.shop, jobs)))
    added = len(set(every) - set(loaded.registered))
    kept = registers.read_changed(content, lessons)
    texts = registers.register_texts(ledger, every, revisions, history, kept)
    names = (Path(one.source.document.name).name for one in loaded.notices)
    taken_away = {content / registers.NOTICES / name: None for name in names}
    write_together(content, {**lessons, **_below(content, texts), **taken_away})
    for entry in history:
        wording = ", wording only" if entry.wording_only else ""
        print(f"{entry.job.upper()} revision {entry.revision}{wording}: {entry.note}")
        for line in told.get(entry.job, ()):
            print(f"    {line}")
    for line in _stopped(loaded, history):
        print(line)
    print(f"{added} added to {content / registers.REGISTER}")
    taken = len(loaded.notices)
    print(f"{taken} change notice{'' if taken == 1 else 's'} taken; commit {content}/ now")
    return 0


def _below(content: Path, texts: Mapping[str, str]) -> dict[Path, str]:
    return {content / name: text for name, text in texts.items()}


def _changed(
    content: Path,
    before: pipeline.Loaded | None,
    now: pipeline.Loaded,
    history: Iterable[registers.Released],
) -> dict[Path, str]:
    """What each new revision changed, for the short lesson: the file of each job, and its text.

    `history` leaves out a first revision: what a draft said
    before it was taught to nobody.
    """
    if before is None:
        return {}
    issued = [one for one in history if not one.wording_only]
    jobs = before.shop.jobs
    return registers.changed_texts(
        content,
        before.shop,
        now.shop,
        {one.job: one.revision for one in issued},
        former={one.job: jobs[one.job].revision for one in issued if one.job in jobs},
    )


def _with_lessons(shop: Shop, jobs: Iterable[str]) -> Shop:
    """The shop as it is once the short lessons of these jobs are written: each has its pages."""
    more = {one: JobChanges(job=one, changes=()) for one in jobs if one not in shop.changes}
    return replace(shop, changes={**shop.changes, **more})


def _stopped(loaded: pipeline.Loaded, history: Iterable[registers.Released]) -> Iterator[str]:
    """Released jobs that nobody may run: a number is no leave to."""
    for entry in history:
        sheets = set_up_sheets(loaded.shop, loaded.shop.jobs[entry.job])
        if reasons_not_to_run(loaded.shop, entry.job, sheets):
            yield f"{entry.job.upper()} says do not run: `benchleaf check` says why"


def _not_on_main(content: Path, main: str | None) -> read.RevisionError | None:
    """Why numbers are not given here: only one branch may give them."""
    try:
        repository = read.repository_of(content)
        branch = repository.branch
        if branch is None or repository.ask("rev-parse", "HEAD") is None:
            return None  # a commit without a branch, as a forge checks it out; or none yet
        wanted = repository.main_branch(main)
    except read.RevisionError as error:
        is_alone = "no git repository" in error.problem or "not installed" in error.problem
        return None if is_alone else error
    if branch == wanted.removeprefix("origin/"):
        return None
    return read.RevisionError(
        f"this is the branch '{branch}', and revisions are given on '{wanted}' only",
        "add a change notice here (benchleaf new notice WORD), merge, then release there",
        f"where '{branch}' is the main branch, say so: --main {branch}",
    )


# The content as it was


def former(content: Path, since: Path | None, rooms: ExitStack) -> pipeline.Loaded | None:
    """The content as it was last released, read; None where nobody knows it."""
    if since is not None:
        return pipeline.load(since)
    try:
        repository = read.repository_of(content)
        tally = (content / registers.TALLY).resolve()
        commit = repository.ask("log", "-1", "--format=%H", "HEAD", "--", str(tally))
        return _at(repository, commit, content, rooms) if commit else None
    except read.RevisionError:
        return None


def _at(
    repository: read.Repository, commit: str, content: Path, rooms: ExitStack
) -> pipeline.Loaded:
    room = Path(rooms.enter_context(tempfile.TemporaryDirectory(prefix="benchleaf-")))
    inside = content.resolve().relative_to(repository.top.resolve())
    return pipeline.load(repository.write_folder(commit, PurePosixPath(inside.as_posix()), room))


class _Affected:
    """The jobs that the change of a notice moved, as they were at the commit that brought it."""

    def __init__(self, content: Path, rooms: ExitStack) -> None:
        self._content = content
        self._rooms = rooms
        self._known: dict[str, frozenset[str] | None] = {}

    def __call__(self, one: registers.Noticed) -> frozenset[str] | None:
        name = Path(one.source.document.name).name
        if name not in self._known:
            self._known[name] = self._moved(name)
        return self._known[name]

    def _moved(self, name: str) -> frozenset[str] | None:
        try:
            repository = read.repository_of(self._content)
            commit = repository.added_by(self._content / registers.NOTICES / name)
            if commit is None:
                return None
            drafts = _at(repository, commit, self._content, self._rooms).shop.drafts
        except read.RevisionError:
            return None
        return frozenset(drafts) or None


# Taking over


def _take_over(loaded: pipeline.Loaded) -> int:
    if loaded.ledger is not None:
        return _strip(loaded)
    errors = tuple(one for one in loaded.findings if one.blocks_publishing)
    if errors:
        print(report(errors))
        print("nothing was written: mend these first")
        return 1
    content, history = loaded.content, taking_over.first_history(loaded.shop)
    new = registers.new_entries(loaded.shop, loaded.fingerprints, loaded.revisions, ())
    entries = [one for each in loaded.revisions.with_(new).by_job.values() for one in each]
    every = (*loaded.registered, *forwarding.promised(loaded.shop))
    texts = registers.register_texts(
        registers.Ledger(), every, entries, history, registers.read_changed(content, {})
    )
    write_together(content, {**_without_state(loaded), **_below(content, texts)})
    print(f"{len(loaded.shop.jobs)} jobs are taken over: {len(history)} entries in history.yml")
    print("from now on a change asks for a change notice: benchleaf new notice WORD")
    return 0


def _strip(loaded: pipeline.Loaded) -> int:
    """For a branch that was open when the shop was taken over: its jobs say their revision yet."""
    changed = _without_state(loaded)
    if not changed:
        return misuse("this shop is taken over already", ("run benchleaf release",))
    write_together(loaded.content, changed)
    for path in changed:
        print(f"{path} no longer says its own revision")
    print("say what changed in a change notice: benchleaf new notice WORD")
    return 0


def _without_state(loaded: pipeline.Loaded) -> dict[Path, str]:
    """The job files without what `benchleaf release` gives: those that change, and their text."""
    changed = {}
    for (kind, job), source in loaded.places.sources.items():
        if kind == "jobs":
            made = loaded.shop.made.get(job)
            path = loaded.content.parent / source.document.name
            before = path.read_text(encoding="utf-8")
            is_family = made is not None and bool(made.family)
            after = taking_over.without_state(before, is_family=is_family)
            if after != before:
                changed[path] = after
    return changed

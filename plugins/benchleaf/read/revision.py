"""A content folder as it stood in a git revision, written out to a folder of its own.

Blobs are read as they were committed (`git cat-file`): no attribute, filter or working tree has a
say, and nothing in the repository is touched.
"""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from benchleaf.diagnose import suggestion
from benchleaf.write import make_folder, write_bytes

MAIN_BRANCHES = ("main", "master", "trunk")
"""Names of a main branch that are looked for where none is given."""

_SHALLOW = (
    "this is a shallow clone: it holds only the newest revisions",
    "fetch the rest: git fetch --unshallow (in CI, ask the checkout for the whole history)",
)


class RevisionError(Exception):
    """Why a revision cannot be read: one line, and lines of help."""

    def __init__(self, problem: str, *help_lines: str) -> None:
        super().__init__(problem)
        self.problem = problem
        self.help = help_lines


@dataclass(frozen=True, slots=True)
class Repository:
    """A git repository, by the top of its working tree."""

    top: Path

    def ask(self, *arguments: str) -> str | None:
        """What git answers, or None where it says no."""
        done = _run(self.top, *arguments)
        return done.stdout.decode(errors="replace").strip() if done.returncode == 0 else None

    @property
    def is_shallow(self) -> bool:
        """True where history is cut off."""
        return self.ask("rev-parse", "--is-shallow-repository") == "true"

    def commit(self, revision: str) -> str:
        """The full hash of the commit that a revision names."""
        found = None
        if revision and not revision.startswith("-"):
            found = self.ask("rev-parse", "--verify", "--quiet", f"{revision}^{{commit}}")
        if found is None:
            raise RevisionError(f"there is no revision '{revision}'", *self._near(revision))
        return found

    def _near(self, revision: str) -> tuple[str, ...]:
        names = (self.ask("for-each-ref", "--format=%(refname:short)") or "").splitlines()
        near = suggestion(revision, names, what="branches and tags")
        return (*near, *(_SHALLOW if self.is_shallow else ()))

    def main_branch(self, given: str | None) -> str:
        """The main branch: the one given, the remote's own, or the first usual name there is."""
        if given is not None:
            self.commit(given)
            return given
        remote = self.ask("symbolic-ref", "--quiet", "--short", "refs/remotes/origin/HEAD")
        usual = (*MAIN_BRANCHES, *(f"origin/{name}" for name in MAIN_BRANCHES))
        for name in (*usual, *([remote] if remote else [])):
            if self.ask("rev-parse", "--verify", "--quiet", f"{name}^{{commit}}"):
                return name
        raise RevisionError(
            "the main branch is not found",
            f"looked for: {', '.join(usual)}",
            "name it: --main BRANCH; or name what to compare with: benchleaf compare OLD",
            *(_SHALLOW if self.is_shallow else ()),
        )

    def merge_base(self, branch: str) -> str:
        """The commit from which the present one and a branch went apart."""
        self.commit("HEAD")
        found = self.ask("merge-base", branch, "HEAD")
        if found is None:
            raise RevisionError(
                f"'{branch}' and the present revision have no revision in common",
                *(_SHALLOW if self.is_shallow else ("name what to compare with: OLD NEW",)),
            )
        return found.splitlines()[0]

    def text_at(self, commit: str, file: PurePosixPath) -> str | None:
        """The text of a file in a commit, by its name from the top; None where it is not there."""
        done = _run(self.top, "show", f"{commit}:{file}")
        if done.returncode != 0:
            return None
        return done.stdout.decode("utf-8-sig", errors="replace").replace("\r\n", "\n")

    def names(self, commit: str, folder: PurePosixPath) -> tuple[str, ...]:
        """The files below a folder in a commit, by their names from the top."""
        return tuple(f"{folder / one.path}" for one in self._entries(commit, folder))

    def lines_ever(self, file: Path) -> tuple[str, ...]:
        """Every line that a file held in any commit that led here; none where git says no."""
        said = self.ask(
            "log", "--full-history", "--format=", "--patch", "--unified=0", "--no-color",
            "--no-ext-diff", "--no-textconv", "HEAD", "--", str(file.resolve()),
        )  # fmt: skip
        lines = (said or "").splitlines()
        return tuple(one[1:] for one in lines if one[:1] == "+" and one[:4] != "+++ ")

    def added_by(self, file: Path) -> str | None:
        """The newest commit that brought a file; None where none did."""
        found = self.ask(
            "log", "--full-history", "--format=%H", "--diff-filter=A", "HEAD", "--",
            str(file.resolve()),
        )  # fmt: skip
        return found.splitlines()[0] if found else None

    @property
    def branch(self) -> str | None:
        """The branch that is checked out; None where none is."""
        return self.ask("symbolic-ref", "--quiet", "--short", "HEAD")

    def short(self, commit: str) -> str:
        """A commit in a few digits."""
        return self.ask("rev-parse", "--short", commit) or commit[:8]

    def write_folder(self, commit: str, folder: PurePosixPath, target: Path) -> Path:
        """Everything below `folder` as it was in `commit`, written below `target`.

        The folder written is called as the last part of `folder`, since findings name it.
        """
        entries = list(self._entries(commit, folder))
        if not entries:
            raise RevisionError(
                f"revision {self.short(commit)} holds no folder '{folder}'",
                *self._other_folders(commit),
            )
        content = target / (folder.name or "content")
        texts = self._blobs([entry.blob for entry in entries])
        for entry, data in zip(entries, texts, strict=True):
            _write(content / entry.path, entry, data, content)
        return content

    def _entries(self, commit: str, folder: PurePosixPath) -> Iterator[_Entry]:
        where = [] if str(folder) == "." else ["--", f"{folder}/"]
        done = _run(self.top, "ls-tree", "-r", "-z", "--full-tree", commit, *where)
        if done.returncode != 0:
            raise _failed(done)
        for line in done.stdout.split(b"\0"):
            facts, _, name = line.partition(b"\t")
            if name:
                mode, kind, blob = facts.decode().split()
                path = PurePosixPath(os.fsdecode(name))
                if kind == "blob":
                    yield _Entry(path.relative_to(folder), mode == "120000", blob)

    def _blobs(self, names: list[str]) -> Iterator[bytes]:
        done = _run(self.top, "cat-file", "--batch", put="\n".join(names).encode() + b"\n")
        data, at = done.stdout, 0
        if done.returncode != 0:
            raise _failed(done)
        for name in names:
            end = data.index(b"\n", at)
            *_, size = data[at:end].split()
            if not size.isdigit():
                raise RevisionError(f"the repository has lost the file with hash {name[:10]}")
            at = end + 1 + int(size) + 1
            yield data[end + 1 : at - 1]

    def _other_folders(self, commit: str) -> tuple[str, ...]:
        names = (self.ask("ls-tree", "-r", "--name-only", "--full-tree", commit) or "").splitlines()
        found = [str(PurePosixPath(one).parent) for one in names if one.endswith("/manual.yml")]
        if not found:
            return ("name the content folder with --content",)
        short = self.short(commit)
        return (f"its content stands in: {', '.join(found[:5])}", f"write {short}:{found[0]}")


@dataclass(frozen=True, slots=True)
class _Entry:
    path: PurePosixPath
    is_link: bool
    blob: str


def _write(path: Path, entry: _Entry, data: bytes, content: Path) -> None:
    make_folder(path.parent)
    if not entry.is_link:
        write_bytes(path, data, sync=False)
        return
    aim = os.fsdecode(data)
    resolved = Path(os.path.normpath(path.parent / aim))
    if os.path.isabs(aim) or not resolved.is_relative_to(content):
        aim = path.name  # leads out of what was committed: a loop, which reading reports
    path.symlink_to(aim)


def repository_of(folder: Path) -> Repository:
    """The repository that a folder lies in, whether or not the folder itself is there."""
    near = folder.absolute()
    while not near.is_dir():
        near = near.parent
    done = _run(near, "rev-parse", "--show-toplevel")
    if done.returncode == 0:
        return Repository(Path(os.fsdecode(done.stdout.rstrip(b"\n"))))
    said = done.stderr.decode(errors="replace").strip()
    if "not a git repository" in said:
        raise RevisionError(f"{near} is in no git repository", "name two content folders: OLD NEW")
    raise _failed(done)


def _failed(done: subprocess.CompletedProcess[bytes]) -> RevisionError:
    said = done.stderr.decode(errors="replace").strip().splitlines()
    return RevisionError("git could not read the repository", *(f"git says: {one}" for one in said))


def _run(
    folder: Path, *arguments: str, put: bytes | None = None
) -> subprocess.CompletedProcess[bytes]:
    environment = {**os.environ, "LC_ALL": "C", "GIT_OPTIONAL_LOCKS": "0"}
    try:
        return subprocess.run(
            ["git", "-C", str(folder), *arguments],
            input=put,
            capture_output=True,
            env=environment,
            check=False,
        )
    except FileNotFoundError:
        raise RevisionError(
            "git is not installed here", "install git, or name two content folders: OLD NEW"
        ) from None

"""A git repository that holds the small shop, taken over, for tests of branches and releases."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import yaml

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.diagnose import Finding

Releases = dict[str, list[tuple[str, str]]]
"""By job: revision and note of each entry of the history."""


class Repository:
    """The shop in a repository; the branch is `main` at first."""

    def __init__(self, top: Path) -> None:
        self.top = top
        self.content = top / "content"
        self.conflicts: list[str] = []
        """Files that git could not merge by itself."""

    def git(self, *arguments: str) -> str:
        settings = ("-c", "user.name=nobody", "-c", "user.email=nobody@localhost",
                    "-c", "commit.gpgsign=false")  # fmt: skip
        environment = {**os.environ, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1"}
        done = subprocess.run(
            ["git", "-C", str(self.top), *settings, *arguments],
            capture_output=True, text=True, env=environment, check=False,
        )  # fmt: skip
        assert done.returncode == 0 or arguments[0] == "merge", done.stdout + done.stderr
        return done.stdout.strip()

    def edit(self, name: str, old: str, new: str) -> None:
        path = self.content / name
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1, f"{old!r} in {name}"
        path.write_text(text.replace(old, new), encoding="utf-8")

    def notice(self, word: str, jobs: str, note: str, *, wording_only: bool = False) -> None:
        path = self.content / "notices" / f"2026-12-01-{word}.yml"
        path.parent.mkdir(exist_ok=True)
        text = f"jobs: {jobs}\nnote: {note}\napproved_by: production engineer\n"
        path.write_text(text + ("wording_only: true\n" if wording_only else ""), encoding="utf-8")

    def commit(self, message: str = "Change") -> str:
        self.git("add", "-A")
        self.git("commit", "-q", "--allow-empty", "-m", message)
        return self.git("rev-parse", "HEAD")

    def branch(self, name: str, start: str = "main") -> None:
        self.git("checkout", "-q", "-b", name, start)

    def merge(self, name: str) -> None:
        self.git("checkout", "-q", "main")
        self.git("merge", "-q", "--no-edit", name)
        self.conflicts += self.git("diff", "--name-only", "--diff-filter=U").splitlines()

    def findings(self) -> list[str]:
        """Codes of what the check finds."""
        return [one.code for one in self.found()]

    def found(self) -> tuple[Finding, ...]:
        return pipeline.check(self.content)

    def release(self) -> int:
        """Release on the day after every other date, and commit what is written."""
        code = main(["release", str(self.content), "--on", "2026-12-20"])
        self.commit("Release")
        return code

    def released(self, since: int) -> Releases:
        """What the history holds beyond its first entries."""
        listed = yaml.safe_load((self.content / "history.yml").read_text(encoding="utf-8"))
        found: Releases = {}
        for one in listed["history"][since:]:
            name = f"{one['revision']}{' wording' if one.get('wording_only') else ''}"
            found.setdefault(one["job"], []).append((name, one["note"]))
        return found

"""The demo's own history replayed: real edits, judged as a trainer at the machine would."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from benchleaf.commands import sides
from benchleaf.diff import as_json
from benchleaf.read import RevisionError, repository_of
from running import sample

CONTENT = Path(__file__).parents[2] / "content"
TEACH, TELL, NOTHING = "teach again before next run", "tell", "nothing"

TABLE: list[tuple[str, str, dict[str, int], dict[str, int]]] = [
    # commit, what was done; verdicts on its changes, and on the jobs that they touch
    ("7379c37", "two hazards are read at the first grinding step", {TEACH: 4}, {TEACH: 2}),
    ("f09f7d7", "the tapping job names a hazard itself", {TEACH: 1}, {TEACH: 1}),
    ("c0eaffb", "the deburring was timed anew", {NOTHING: 4}, {NOTHING: 2}),
    ("3ae6685", "files were put in order", {}, {}),
    ("c9abe48", "the work stop is drawn on the right side of the drill", {TELL: 1}, {}),
    ("68e4be1", "the depth stop is read otherwise; a picture is told otherwise",
     {TEACH: 5, TELL: 2}, {TEACH: 5}),
    ("6607fa9", "two vices are told apart in the word list", {TELL: 1}, {TELL: 9}),
]  # fmt: skip


def replayed(commit: str) -> dict[str, Any]:
    asked = sides.Asked(CONTENT, old=f"{commit}~1", new=commit)
    reviewed = sides.compare(asked)
    assert reviewed.report is not None, reviewed.findings
    found: dict[str, Any] = json.loads(as_json(reviewed.report))
    return found


def is_here(commit: str) -> bool:
    """False in a copy without the history, such as one unpacked from an archive."""
    try:
        repository = repository_of(CONTENT)
        return bool(repository.commit(commit) and repository.commit(f"{commit}~1"))
    except RevisionError:
        return False


@pytest.mark.parametrize(
    ("commit", "done", "changes", "jobs"), sample(TABLE, 2, seed=5), ids=lambda one: str(one)[:40]
)
def test_a_change_of_the_demo_has_the_verdict_of_the_trade(
    commit: str, done: str, changes: dict[str, int], jobs: dict[str, int]
) -> None:
    if not is_here(commit):
        pytest.skip("the history is not here")
    found = replayed(commit)
    assert dict(Counter(one["consequence"] for one in found["changes"])) == changes, done
    assert dict(Counter(one["consequence"] for one in found["jobs"])) == jobs, done

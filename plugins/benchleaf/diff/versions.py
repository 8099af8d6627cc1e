"""Two versions of the tool on the same content: what moved in each job, and what follows.

No record was edited, so the cause of each change is the reckoning. Nothing here can be declared
wording only: a limit that breaks is one under which nobody runs, whoever reckons it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from benchleaf.meaning import Consequence, Move, MoveKind, moves, verdict
from benchleaf.model import Retraining

from .area import Area
from .change import Change, ChangeKind, Comparison, Difference, JobState
from .figures import effects_of
from .written import Written, WrittenJob, in_the_same_steps

_KINDS = {
    MoveKind.NEW: ChangeKind.ADDED,
    MoveKind.GONE: ChangeKind.REMOVED,
    MoveKind.MOVED: ChangeKind.MOVED,
    MoveKind.OTHER: ChangeKind.CHANGED,
}


def compare_written(
    old: Written,
    new: Written,
    rule: Retraining,
    alike: Mapping[str, frozenset[str]],
    *,
    is_same_content: bool,
) -> Comparison:
    """Every statement that moved, job by job; `alike` are fingerprints that a register takes as
    one with a job's present one.
    """
    changes: list[Change] = []
    jobs: list[JobState] = []
    for job_id in dict.fromkeys((*new.jobs, *old.jobs)):
        before, after = old.jobs.get(job_id), new.jobs.get(job_id)
        found = list(_of_job(job_id, before, after, rule)) if before and after else []
        if before and after and not found:
            continue
        if not (before and after):
            found = [_whole(job_id, before, after)]
        changes += found
        jobs.append(_state(job_id, before, after, found, alike, is_same_content=is_same_content))
    return Comparison(tuple(changes), tuple(jobs))


def _of_job(
    job_id: str, before: WrittenJob, after: WrittenJob, rule: Retraining
) -> Iterator[Change]:
    olds = in_the_same_steps(before.meaning, after.meaning)
    for move in moves(olds, after.meaning):
        yield _change(job_id, after.title, move, rule)


def _change(job_id: str, title: str, move: Move, rule: Retraining) -> Change:
    found = verdict(move, rule)
    before, after = move.words
    path = tuple(move.one.subject.split("/"))
    return Change(
        ("jobs", job_id),
        Difference(_KINDS[move.kind], path, path, before, after),
        Area.SET_UP if path[0] == "set_ups" else Area.JOB,
        move.one.subject,
        move.one.where,
        before,
        after,
        tuple(effects_of(job_id, move)),
        found.what,
        found.why,
        {job_id: found.what},
        f"{job_id.upper()}, {title}",
    )


def _whole(job_id: str, before: WrittenJob | None, after: WrittenJob | None) -> Change:
    """A job that one side lacks, where two files are not of the same content."""
    one = after or before
    assert one is not None
    kind = ChangeKind.ADDED if before is None else ChangeKind.REMOVED
    titles = (before.title if before else None, after.title if after else None)
    what = Consequence.TEACH if before is None else Consequence.TELL
    why = "a new job: nobody has been taught it" if before is None else "the job is gone"
    return Change(
        ("jobs", job_id), Difference(kind, (), (), *titles), Area.JOB, "", "", *titles,
        consequence=what, why=why, jobs={job_id: what}, name=f"{job_id.upper()}, {one.title}",
    )  # fmt: skip


def _state(
    job_id: str,
    before: WrittenJob | None,
    after: WrittenJob | None,
    found: list[Change],
    alike: Mapping[str, frozenset[str]],
    *,
    is_same_content: bool,
) -> JobState:
    one = after or before
    assert one is not None
    gravest = min(found, key=lambda each: each.consequence.rank)
    prints = tuple(side.fingerprint if side else None for side in (before, after))
    known = alike.get(job_id, frozenset())
    return JobState(
        job_id,
        one.title,
        before.revision if before else None,
        after.revision if after else None,
        prints[0],
        prints[1],
        gravest.consequence,
        after.effective if after and not is_same_content else "",
        bool(before and after and before.revision == after.revision),
        "",
        frozenset(filter(None, prints[:1])) | (known if prints[0] in known else frozenset()),
        frozenset(filter(None, prints[1:])),
        gravest.why,
    )

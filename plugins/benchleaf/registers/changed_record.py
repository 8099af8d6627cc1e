"""The record of what each revision changed, in `changed/JOB.yml`: one entry added at a release."""

from __future__ import annotations

import json
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path

from benchleaf.compute import set_up_sheets
from benchleaf.diff.change import Side
from benchleaf.diff.renames import find_renames
from benchleaf.diff.taught_otherwise import taught_otherwise, with_new_ids
from benchleaf.model import ChangedRevision, ChangedStatement, Shop
from benchleaf.read import CHANGED_FOLDER

HEADING = (
    "# What each revision of {job} changed for its learner. Written by a command at a release,\n"
    "# never by hand: entries are only ever added, the newest last.\n"
)


def append_changed(
    content: Path,
    before: Shop,
    now: Shop,
    revisions: Mapping[str, str],
    *,
    former: Mapping[str, str] | None = None,
    wording_only: Collection[str] = (),
) -> tuple[Path, ...]:
    """Add to the record of each job what its new revision changed; the files that were written.

    `before` is the shop as it was last published, `now` as it is; `revisions` gives the new
    revision of each job by its id, `former` the one before where the old job's own does not.
    `wording_only` names jobs whose change is declared as wording only. A job that is new has
    nothing to compare. A revision that is entered already is left alone.
    """
    olds = {one: job.revision for one, job in before.jobs.items()} | dict(former or {})
    renames = find_renames(before, now)
    for (kind, old_id), new_id in renames.records.items():
        if kind == "jobs":
            olds.setdefault(new_id, before.jobs[old_id].revision)
    was, is_now = with_new_ids(_side(before, renames_only=not renames), renames), _side(now)
    paths = []
    for one in taught_otherwise(was, is_now, revisions):
        entry = ChangedRevision(
            revision=revisions[one.job],
            former=olds[one.job],
            statements=one.entries(is_declared=one.job in wording_only),
        )
        path = content / CHANGED_FOLDER / f"{one.job}.yml"
        if _add(path, one.job, entry):
            paths.append(path)
    return tuple(paths)


def _side(shop: Shop, *, renames_only: bool = True) -> Side:
    """A shop with its set-ups; they are reckoned later where ids are put in first."""
    jobs = shop.jobs.items() if renames_only else ()
    return Side(shop, {job_id: set_up_sheets(shop, job) for job_id, job in jobs})


def _add(path: Path, job_id: str, entry: ChangedRevision) -> bool:
    """Add an entry at the end of a file; False where that revision stands there."""
    text = path.read_text(encoding="utf-8") if path.exists() else ""
    if f"\n  - revision: {entry.revision}\n" in text:
        return False
    if not text:
        text = f"{HEADING.format(job=job_id.upper())}job: {job_id.upper()}\nchanges:\n"
    path.parent.mkdir(exist_ok=True)
    path.write_text(text + "".join(_lines(entry)), encoding="utf-8", newline="\n")
    return True


def _lines(entry: ChangedRevision) -> Iterator[str]:
    yield f"  - revision: {entry.revision}\n    former: {entry.former}\n"
    if not entry.statements:
        yield "    statements: []\n"
        return
    yield "    statements:\n"
    for one in entry.statements:
        yield from _of_statement(one)


def _of_statement(one: ChangedStatement) -> Iterator[str]:
    dash = "- "
    for key, value in one.model_dump(mode="json", exclude_defaults=True).items():
        if value is not None:
            # Texts as JSON has them are texts in YAML too, whatever signs they hold.
            yield f"      {dash}{key}: {json.dumps(value, ensure_ascii=False)}\n"
            dash = "  "

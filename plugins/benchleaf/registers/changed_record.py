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


def changed_texts(
    content: Path,
    before: Shop,
    now: Shop,
    revisions: Mapping[str, str],
    *,
    former: Mapping[str, str] | None = None,
    wording_only: Collection[str] = (),
) -> dict[Path, str]:
    """The record of each job with what its new revision changed added: the file and its text.

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
    found = {}
    for one in taught_otherwise(was, is_now, revisions):
        entry = ChangedRevision(
            revision=revisions[one.job],
            former=olds[one.job],
            statements=one.entries(is_declared=one.job in wording_only),
        )
        path = content / CHANGED_FOLDER / f"{one.job}.yml"
        text = _with(path, one.job, entry)
        if text is not None:
            found[path] = text
    return found


def _side(shop: Shop, *, renames_only: bool = True) -> Side:
    """A shop with its set-ups; they are reckoned later where ids are put in first."""
    jobs = shop.jobs.items() if renames_only else ()
    return Side(shop, {job_id: set_up_sheets(shop, job) for job_id, job in jobs})


def _with(path: Path, job_id: str, entry: ChangedRevision) -> str | None:
    """A file with an entry added at its end; None where that revision stands there."""
    text = path.read_text(encoding="utf-8") if path.exists() else ""
    if f"\n  - revision: {entry.revision}\n" in text:
        return None
    if not text:
        text = f"{HEADING.format(job=job_id.upper())}job: {job_id.upper()}\nchanges:\n"
    return text + "".join(_lines(entry))


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

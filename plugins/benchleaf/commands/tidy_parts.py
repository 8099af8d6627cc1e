"""`benchleaf tidy --parts`: a record for each part that jobs hold copies of."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from benchleaf import pipeline, read
from benchleaf.diagnose import Finding, Place, Severity, report
from benchleaf.model import Part
from benchleaf.read import Listing, Node, Scalar
from benchleaf.workbooks.job_file import job_text
from benchleaf.write import write_together

_COMMENT = re.compile(r"(?:^|(?<=\s))#.*$")
_DISAGREE = ("V401", "V406")
"""Codes by which the copies of a part differ from one another or from its record."""
_STATES_NEXT = (
    "now give each part its states, and each job the state it `takes` and `leaves`: "
    "see `benchleaf keys part`"
)


def tidy_parts(content: Path, *, only_look: bool) -> int:
    """Take the copies over, and say what was done; 1 where something is left, or would change."""
    loaded = pipeline.load(content)
    amiss = _unreadable(loaded)
    if amiss:
        print(report(amiss))
        print("nothing was written: mend these first")
        return 1
    left = [one for one in loaded.findings if one.code in _DISAGREE and one.blocks_publishing]
    done = 0
    for part_id, jobs in _copies(loaded).items():
        if not _is_told(left, jobs, content):
            files, problems = _files(loaded, part_id, jobs)
            left += problems
            if not problems:
                done += 1
                _say(files, content, only_look=only_look)
    if left:
        print(report(left))
    print(_summed(done, len(left), only_look=only_look) if left or done else "all in order")
    if done and not only_look:
        print(_STATES_NEXT)
    return 1 if left or (only_look and done) else 0


def _summed(done: int, left: int, *, only_look: bool) -> str:
    said = "would have" if only_look else "has" if done == 1 else "have"
    return f"{done} {'part' if done == 1 else 'parts'} {said} a record, {left} findings"


def _unreadable(loaded: pipeline.Loaded) -> list[Finding]:
    """Errors by which a job could not be read: it may hold a copy too."""
    wrong = any(kind in ("jobs", "parts") for kind, _ in loaded.places.unbuilt)
    found = [one for one in loaded.findings if one.blocks_publishing and one.code[0] in "FRL"]
    return found if wrong else []


def _copies(loaded: pipeline.Loaded) -> Mapping[str, list[str]]:
    found: dict[str, list[str]] = {}
    for job_id, copy in sorted(loaded.shop.copied.items()):
        found.setdefault(copy.id, []).append(job_id)
    return found


def _is_told(left: Sequence[Finding], jobs: Sequence[str], content: Path) -> bool:
    names = {f"{content.name}/jobs/{job_id}.yml" for job_id in jobs}
    return any(one.place.file in names for one in left)


def _say(files: Mapping[Path, str], content: Path, *, only_look: bool) -> None:
    if not only_look:
        write_together(content, files)
    for path in files:
        print(f"{path} {'would be' if only_look else 'is'} written")


def _files(
    loaded: pipeline.Loaded, part_id: str, jobs: Sequence[str]
) -> tuple[dict[Path, str], list[Finding]]:
    """The record and the jobs that name it, each as a text; or why a job must stay as it is."""
    shop, problems = loaded.shop, list[Finding]()
    part = shop.parts[part_id]
    values = part.model_dump(mode="json", exclude_defaults=True)
    values["material"] = part.material
    files = {loaded.content / "parts" / f"{part_id}.yml": job_text(Part, _node(values))}
    for job_id in jobs:
        document = loaded.places.sources["jobs", job_id].document
        text = _renamed(document, part_id, shop.jobs[job_id].takes or "")
        if text is None:
            cure = "put `part:` and its keys on lines of their own, then run it again"
            place = Place(document.name)
            words = f"the copy of part {part.number} cannot be taken out of this file"
            problems.append(Finding("R115", Severity.WARNING, place, words, (cure,)))
            continue
        name = document.name.partition("/")[2]
        files[loaded.content / name] = text
    return files, problems


def _node(value: object) -> Node:
    nowhere = Place("")
    if isinstance(value, dict):
        entries = ((Scalar(key, nowhere), _node(one)) for key, one in value.items())
        return read.Mapping(tuple(entries), nowhere)
    if isinstance(value, list):
        return Listing(tuple(_node(one) for one in value), nowhere)
    return Scalar(str(value), nowhere)


def _renamed(document: read.Document, part_id: str, takes: str) -> str | None:
    """The job's text with the part's id in place of the copy; None where it would not be that."""
    tree, lines = document.tree, document.text.split("\n")
    keys = [key for key, _ in getattr(tree, "entries", ())]
    at = next(index for index, key in enumerate(keys) if key.text == "part")
    start = keys[at].place.line - 1
    end = keys[at + 1].place.line - 1 if at + 1 < len(keys) else len(lines)
    while end > start + 1 and (not lines[end - 1].strip() or lines[end - 1].startswith("#")):
        end -= 1  # it stands above what comes next
    kept = list(_comments(lines[start:end]))
    put = [*kept, f"part: {part_id}", f"takes: {takes}"]
    text = "\n".join((*lines[:start], *put, *lines[end:]))
    again, problems = read.document_of(text, "jobs", document.name)
    wanted = {**_dict(document.value), "part": part_id, "takes": takes}
    return text if again is not None and not problems and again.value == wanted else None


def _comments(lines: Sequence[str]) -> Iterator[str]:
    for line in lines:
        found = _COMMENT.search(line)
        if found:
            yield found[0]


def _dict(value: object) -> dict[object, object]:
    return value if isinstance(value, dict) else {}

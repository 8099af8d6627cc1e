"""`benchleaf tidy --crew`: fingerprints that somebody typed go, where the register has them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from benchleaf import pipeline, read
from benchleaf.diagnose import report
from benchleaf.model import Crew, Person, SignOff
from benchleaf.people.crews import load_crew, situation_of
from benchleaf.write import write_together


def tidy_crew(content: Path, folder: Path, *, only_look: bool) -> int:
    """Take old crew files over, and say what was done; 1 where something is left, or would change.

    A fingerprint goes only where the register of revisions has it for that revision, and where the
    person stands with the job as before without it.
    """
    loaded = pipeline.load(content)
    crew = load_crew(folder, loaded.shop, content)
    errors = [one for one in (*loaded.findings, *crew.findings) if one.blocks_publishing]
    if errors or crew.crew is None:
        print(report(errors))
        print("nothing was written: mend these first")
        return 1
    texts: dict[Path, str] = {}
    left: list[str] = []
    gone = 0
    for path in sorted((folder / "people").glob("*.yml")):
        person = crew.crew.people.get(path.stem.lower())
        if person is None:
            continue
        places, kept = _known(loaded, crew.crew, person)
        left += kept
        text = read.without(path.read_text(encoding="utf-8"), places) if places else None
        if places and text is None:
            left.append(f"{path}: left as it is, since a comment would go: put it on its own line")
        elif text is not None:
            texts[path] = text
            gone += len(places)
            print(f"{path}: {_said(len(places))} {'would go' if only_look else 'gone'}")
    if texts and not only_look:
        write_together(folder, texts)
    print(*left, sep="\n", end="\n" if left else "")
    done = "would go" if only_look else "gone"
    print(f"{_said(gone)} {done}, {len(left)} left" if gone or left else "all in order")
    return 1 if left or (only_look and gone) else 0


def _said(count: int) -> str:
    return "1 fingerprint" if count == 1 else f"{count} fingerprints"


def _known(
    loaded: pipeline.Loaded, crew: Crew, person: Person
) -> tuple[list[tuple[str | int, ...]], list[str]]:
    """Places of fingerprints that the register has, and in words why others stay."""
    places: list[tuple[str | int, ...]] = []
    kept: list[str] = []
    for number, one in enumerate(person.can_do):
        if one.fingerprint is None:
            continue
        where = f"{person.id} at {one.job.upper()}"
        marks = [
            each.fingerprint
            for each in loaded.revisions.every(one.job)
            if each.revision == one.revision
        ]
        if not any(each.startswith(one.fingerprint) for each in marks):
            kept.append(
                f"{where}: {one.fingerprint} stays, since the register does not have it for "
                f"revision {one.revision}: nobody can tell what they were taught"
            )
        elif not _stands_alike(loaded, crew, person, one):
            kept.append(f"{where}: {one.fingerprint} stays, since it tells more than the revision")
        else:
            places.append(("can_do", number, "fingerprint"))
    return places, kept


def _stands_alike(loaded: pipeline.Loaded, crew: Crew, person: Person, one: SignOff) -> bool:
    """Whether somebody stands with a job as before, without the fingerprint."""
    bare = one.model_copy(update={"fingerprint": None})
    can_do = tuple(bare if each is one else each for each in person.can_do)
    other = person.model_copy(update={"can_do": can_do})
    job = loaded.shop.jobs[one.job]
    stands = [
        situation_of(replace(crew, people={**crew.people, person.id: each}), loaded).standing(
            each, job
        )
        for each in (person, other)
    ]
    now, then = ((each.state, each.since and each.since.verdict) for each in stands)
    return now == then

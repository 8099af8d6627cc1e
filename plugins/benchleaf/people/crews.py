"""The trainer's journey: a crew folder read and checked, then plans for people.

Only the full edition and the commands of this journey ever come here: the kiosk's edition never
opens a crew folder.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Protocol

from benchleaf import plan, read, validate
from benchleaf.diagnose import Finding, Place, Severity, in_order
from benchleaf.html.site_facts import day_of_build
from benchleaf.model import Crew, Job, Shop
from benchleaf.registers import Registry

__all__ = [
    "NO_CREW",
    "LoadedCrew",
    "Reckoned",
    "crew_for",
    "load_crew",
    "plan_people",
    "situation_of",
    "who_may",
]


@dataclass(frozen=True, slots=True)
class LoadedCrew:
    """The crew of a folder, and every finding about it, in order."""

    folder: Path
    crew: Crew | None
    """None where no crew folder is named, or where it has errors."""
    findings: tuple[Finding, ...]


NO_CREW = LoadedCrew(Path(), None, ())


def crew_for(folder: Path | None, shop: Shop, content: Path) -> LoadedCrew:
    """The crew of a folder, or nobody where no folder is named."""
    return load_crew(folder, shop, content) if folder else NO_CREW


def load_crew(folder: Path, shop: Shop, content: Path) -> LoadedCrew:
    """Read a crew folder and hold it against the jobs of the shop, all problems in one run.

    `content` is the shop's content folder: a crew that lies inside it is refused.
    """
    contents = read.read_crew(folder)
    crew, problems = validate.gather_crew(contents, shop, day_of_build())
    findings = (*contents.findings, *problems, *_misplaced(folder, content))
    is_whole = not any(finding.blocks_publishing for finding in findings)
    return LoadedCrew(folder, crew if is_whole else None, in_order(findings))


def _misplaced(folder: Path, content: Path) -> tuple[Finding, ...]:
    if not folder.resolve().is_relative_to(content.resolve()):
        return ()
    misplaced = Finding(
        "C704",
        Severity.ERROR,
        Place(str(folder)),
        "the crew folder lies inside the content folder, from which pages are published",
        ("move it outside, best outside the repository, and correct crew_dir",),
    )
    return (misplaced,)


class Reckoned(Protocol):
    """What a plan needs of a shop that was read."""

    @property
    def shop(self) -> Shop:
        """The shop."""

    @property
    def fingerprints(self) -> Mapping[str, str]:
        """The fingerprint of each job's meaning."""

    @property
    def revisions(self) -> Registry:
        """What is registered of each job."""


def plan_people(
    crew: Crew | None, loaded: Reckoned, today: date | None = None, *, use_solver: bool = True
) -> plan.Timetable | None:
    """The timetable of a crew, from `today` on; None for nobody.

    Without `today` the day that the crew's own facts give decides, else the day of the build. A
    solver is asked where one is installed, unless it is not wanted.
    """
    if crew is None:
        return None
    return plan.timetable(situation_of(crew, loaded, today), use_solver=use_solver)


def who_may(crew: Crew, loaded: Reckoned, job: Job, today: date | None = None) -> plan.WhoMay:
    """Who may do what with a job on a day, which is found as for a plan."""
    return plan.who_may(situation_of(crew, loaded, today), job)


def situation_of(crew: Crew, loaded: Reckoned, today: date | None = None) -> plan.Situation:
    """Where everybody stands on a day, which is found as for a plan."""
    day = today or crew.facts.as_of or day_of_build()
    alike = {
        job.id: loaded.revisions.alike(job, loaded.fingerprints[job.id])
        for job in loaded.shop.jobs.values()
    }
    said = {job_id: loaded.revisions.said_at(job_id) for job_id in loaded.shop.jobs}
    return plan.Situation(loaded.shop, crew, loaded.fingerprints, day, alike, said)

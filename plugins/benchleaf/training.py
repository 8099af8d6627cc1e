"""The trainer's journey: a crew folder read and checked, then plans for people.

Like `pipeline.py` it hands back plain values and knows nothing of MkDocs. Only the full edition
and the commands of this journey ever come here: the kiosk's edition never opens a crew folder.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from benchleaf import pages as page
from benchleaf import pipeline, plan, read, validate
from benchleaf.diagnose import Finding, Place, Severity, in_order, suggestion
from benchleaf.model import Crew, Shop
from benchleaf.pipeline import Loaded
from benchleaf.questions import Answer

__all__ = [
    "NO_CREW",
    "Answer",
    "Asked",
    "LoadedCrew",
    "crew_for",
    "follow_up",
    "load_crew",
    "plan_people",
    "timetable",
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
    crew, problems = validate.gather_crew(contents, shop)
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


def plan_people(
    crew: Crew | None, loaded: Loaded, today: date | None = None
) -> plan.Timetable | None:
    """The timetable of a crew, from `today` on; None for nobody.

    Without `today` the day that the crew's own facts give decides, else the day of the build.
    """
    if crew is None:
        return None
    day = today or crew.facts.as_of or page.day_of_build()
    alike = {
        job.id: loaded.revisions.alike(job, loaded.fingerprints[job.id])
        for job in loaded.shop.jobs.values()
    }
    return plan.timetable(plan.Situation(loaded.shop, crew, loaded.fingerprints, day, alike))


@dataclass(frozen=True, slots=True)
class Asked:
    """What a question about people is asked of."""

    content: Path
    crew: Path
    on: date | None = None
    """The day from which to plan."""


def timetable(asked: Asked, *, form: str = "text") -> tuple[Answer, tuple[Finding, ...]]:
    """The plan of a crew as `text` or `json`, or the findings that prevent it."""
    loaded, crew, findings = _read(asked)
    found = plan_people(crew, loaded, asked.on)
    if found is None:
        return Answer(complete=False), findings
    text = page.timetable_json(found) if form == "json" else page.timetable_text(found)
    met = not (found.schedule.late or found.schedule.unplanned)
    return Answer(text, complete=met), findings


def follow_up(
    asked: Asked, code: str, job_id: str, *, form: str = "text"
) -> tuple[Answer, tuple[Finding, ...]]:
    """What is new for a person at a job and when to look in: `text`, `json` or `ics`."""
    loaded, crew, findings = _read(asked)
    found = plan_people(crew, loaded, asked.on)
    if found is None:
        return Answer(complete=False), findings
    people, jobs = found.situation.crew.people, loaded.shop.jobs
    if code.lower() not in people:
        known = suggestion(code, people, what="people")
        return Answer(problem=f"there is nobody '{code}' in the crew", help=known), findings
    if job_id.lower() not in jobs:
        known = suggestion(job_id, [one.upper() for one in jobs], what="jobs")
        return Answer(problem=f"there is no job '{job_id}'", help=known), findings
    standing = found.standings[code.lower(), job_id.lower()]
    view = page.learner(loaded.shop, loaded.terms, loaded.sheets, found, standing, loaded.term_uses)
    if form == "ics" and view.follow_up is None:
        why = "no lesson is planned and nothing is proved, so that there is nothing to look in on"
        return Answer(problem=f"{code} at {job_id.upper()}: {why}"), findings
    if form == "ics":
        return Answer(page.calendar_of(view, loaded.shop.manual.shop)), findings
    return Answer(page.learner_json(view) if form == "json" else page.learner_text(view)), findings


def _read(asked: Asked) -> tuple[Loaded, Crew | None, tuple[Finding, ...]]:
    """Content and crew; nobody where either has errors."""
    loaded = pipeline.load(asked.content)
    errors = tuple(one for one in loaded.findings if one.blocks_publishing)
    if errors:
        return loaded, None, errors
    crew = load_crew(asked.crew, loaded.shop, asked.content)
    return loaded, crew.crew, crew.findings

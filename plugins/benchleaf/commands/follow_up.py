"""`benchleaf follow-up`: what is new for a learner at a job, and when to look in."""

from __future__ import annotations

import argparse
from typing import Any

from benchleaf import pages
from benchleaf.diagnose import suggestion
from benchleaf.people.crews import plan_people
from benchleaf.people.learner_view import calendar_of
from benchleaf.people.people_text import learner_json, learner_text

from .answer import Answer
from .people import Answered, Asked, answer, ask_of, read_both


def add(commands: Any) -> None:
    """Add the command to the parser."""
    follow_up = commands.add_parser(
        "follow-up",
        help="tell what is new for a learner at a job, and when to look in",
        description="What the job brings that the learner has not met, their curve, and checks"
        " that taper off.",
    )
    follow_up.add_argument("person", metavar="PERSON", help="a staff code, such as op-07")
    follow_up.add_argument("job", metavar="JOB", help="a job, such as TR-0110")
    follow_up.add_argument(
        "--format", choices=("text", "json", "ics"), default="text", help="ics is for calendars"
    )
    ask_of(follow_up, _follow_up)


def _follow_up(options: argparse.Namespace) -> int:
    return answer(
        options,
        lambda asked: follow_up(asked, options.person, options.job, form=options.format),
    )


def follow_up(asked: Asked, code: str, job_id: str, *, form: str = "text") -> Answered:
    """What is new for a person at a job and when to look in: `text`, `json` or `ics`."""
    loaded, crew, findings = read_both(asked)
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
    view = pages.learner(
        loaded.shop, loaded.terms, loaded.sheets, found, standing, loaded.term_uses
    )
    if form == "ics" and view.follow_up is None:
        why = "no lesson is planned and nothing is proved, so that there is nothing to look in on"
        return Answer(problem=f"{code} at {job_id.upper()}: {why}"), findings
    if form == "ics":
        return Answer(calendar_of(view, loaded.shop.manual.shop)), findings
    stopped = found.situation.not_to_run(jobs[job_id.lower()])
    text = learner_json(view, stopped) if form == "json" else learner_text(view, stopped)
    return Answer(text), findings

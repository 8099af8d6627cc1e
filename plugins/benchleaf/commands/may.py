"""`benchleaf may`: who may run, set, lock off, teach or judge a job today."""

from __future__ import annotations

import argparse
from typing import Any

from benchleaf.diagnose import suggestion
from benchleaf.people.crews import who_may
from benchleaf.people.may_view import who_may_json, who_may_text

from .answer import Answer
from .people import Answered, Asked, answer, ask_of, read_both


def add(commands: Any) -> None:
    """Add the command to the parser."""
    may = commands.add_parser(
        "may",
        help="tell who may run, set, lock off, teach or judge a job today, and why not the others",
        description="Whom the crew's records let run, set, lock off, teach or judge a job, until"
        " when, and why not the others. What nobody wrote down is not known.",
        epilog="It exits 0 where somebody may run the job, 1 where the records let nobody or a file"
        " has errors, 2 for misuse.",
    )
    may.add_argument("job", metavar="JOB", help="a job, such as TR-0110")
    may.add_argument("--format", choices=("text", "json"), default="text")
    ask_of(may, _may)


def _may(options: argparse.Namespace) -> int:
    return answer(options, lambda asked: may(asked, options.job, form=options.format))


def may(asked: Asked, job_id: str, *, form: str = "text") -> Answered:
    """The answers about a job as `text` or `json`, or the findings that prevent them."""
    loaded, crew, findings = read_both(asked)
    if crew is None:
        return Answer(complete=False), findings
    job = loaded.shop.jobs.get(job_id.lower())
    if job is None:
        known = suggestion(job_id, [one.upper() for one in loaded.shop.jobs], what="jobs")
        return Answer(problem=f"there is no job '{job_id}'", help=known), findings
    found = who_may(crew, loaded, job, asked.on)
    text = who_may_json(found) if form == "json" else who_may_text(found)
    return Answer(text, complete=found.somebody_runs), findings

"""Stop 3: trees to records, and rules that span records."""

from collections.abc import Iterator, Sequence
from datetime import date

from benchleaf.compute import SetUpSheet
from benchleaf.diagnose import Finding
from benchleaf.model import Job, Record, Shop

from .at_the_door import Door
from .bench_records import TAKEN_IN, TO_TAKE_IN
from .building import build
from .case import JobCase
from .classes import classes_at, tags
from .codes import CODES as SHAPE_CODES
from .crew import gather_crew
from .gather import gather
from .made_jobs import with_made
from .places import Places, may_be
from .readability import readability_lines
from .rules import JOB_RULES, RECORD_RULES, RULES, SHOP_RULES
from .rules.text import check_text
from .told_once import told_once

CODES = (*SHAPE_CODES, *(code for rule in RULES for code in rule.codes))
"""The codes of this stop: of fields, ids and people, and those of each rule."""


def check_record(
    shop: Shop,
    places: Places,
    kind: str,
    record_id: str,
    record: Record,
    sheets: Sequence[SetUpSheet],
    today: date,
) -> Iterator[Finding]:
    """Every finding of the rules that look at one record; `sheets` are the set-ups of a job."""
    for rule in RECORD_RULES:
        yield from rule.check(shop, places, kind, record_id, record)
    if isinstance(record, Job):
        case = JobCase(shop, places, record, sheets, today)
        for job_rule in JOB_RULES:
            yield from job_rule.check(case)


def check_shop(shop: Shop, places: Places) -> Iterator[Finding]:
    """Every finding of the rules that need the whole shop."""
    for rule in SHOP_RULES:
        yield from rule.check(shop, places)


__all__ = [
    "CODES",
    "JOB_RULES",
    "RECORD_RULES",
    "SHOP_RULES",
    "TAKEN_IN",
    "TO_TAKE_IN",
    "Door",
    "JobCase",
    "Places",
    "build",
    "check_record",
    "check_shop",
    "check_text",
    "classes_at",
    "gather",
    "gather_crew",
    "may_be",
    "readability_lines",
    "tags",
    "told_once",
    "with_made",
]

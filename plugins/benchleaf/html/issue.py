"""Which state of a job a page shows, in words: its revision, or what it is a draft of."""

from __future__ import annotations

from collections.abc import Container

from benchleaf.model import Job, Onboarding

from .dates import long_date

NO_SIGN_OFF = "This is a draft: nobody is signed off on it."


def issue_of(record: Job | Onboarding, drafts: Container[str]) -> str:
    """`revision 4`, or `draft of TR-0120`."""
    is_draft = isinstance(record, Job) and record.id in drafts
    return f"draft of {record.id.upper()}" if is_draft else f"revision {record.revision}"


def in_force_of(record: Job | Onboarding, drafts: Container[str]) -> str:
    """Since when it is in force; a draft is not."""
    is_draft = isinstance(record, Job) and record.id in drafts
    return "not in force" if is_draft else f"in force from {long_date(record.effective)}"

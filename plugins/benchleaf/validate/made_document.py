"""A job's document that no file holds as it is; each of its values stands where it was written."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from benchleaf.diagnose import Finding
from benchleaf.model import MadeFrom
from benchleaf.read import Document, Node, plain


@dataclass(frozen=True)
class MadeDocument(Document):
    """A job as its file would hold it."""

    grown: Node = field(kw_only=True)
    made: MadeFrom | None = field(kw_only=True)
    """None for a job with a file of its own, in which only names of jobs are put otherwise."""

    @cached_property
    def tree(self) -> Node:
        """The job's own tree."""
        return self.grown


@dataclass(slots=True)
class Making:
    """What is found while jobs are made."""

    findings: list[Finding] = field(default_factory=list)
    unread: list[tuple[str, str]] = field(default_factory=list)

    def tell(self, *findings: Finding, job: str = "jobs") -> None:
        """Add findings, and the job that is not there because of them; `jobs` where any may be."""
        self.findings += findings
        self.unread.append(("jobs", job))


def made_document(document: Document, tree: Node, made: MadeFrom | None) -> MadeDocument:
    """A job's document with another tree."""
    return MadeDocument(
        "jobs", document.name, document.text, plain(tree), echoes=document.echoes,
        grown=tree, made=made,
    )  # fmt: skip


def made_of(document: Document) -> MadeFrom | None:
    """What a document's job is made from; None for a job with a file of its own."""
    return document.made if isinstance(document, MadeDocument) else None


def below(name: str) -> str:
    """A file's name below the content folder.

    >>> below("content/jobs/tr-0110.yml")
    'jobs/tr-0110.yml'
    """
    return name.partition("/")[2]

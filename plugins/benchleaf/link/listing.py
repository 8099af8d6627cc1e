"""All addresses as a list to copy from: CSV, JSON, Markdown, or HTML for a checklist elsewhere."""

from __future__ import annotations

import csv
import html
import io
import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass

from benchleaf.model import Job, Shop, name_of

from .addresses import SHEETS, address, is_full_only

_FOLDERS = {
    "jobs": "job",
    "machines": "machine",
    "materials": "material",
    "tools": "tool",
    "fluids": "fluid",
    "hazards": "hazard",
    "onboarding": "onboarding",
    "parts": "part",
    "operations": "operation",
    "charts": "chart",
    "trainer": "sheet",
}
LISTED_KINDS = (*_FOLDERS.values(), "step", "set-up", "term", "page")


@dataclass(frozen=True, slots=True)
class Listed:
    """One address as it is listed."""

    kind: str
    """What it leads to: a job, a step, a hazard and so on; `page` for all others."""
    title: str
    revision: str
    """The revision of the job or list it belongs to, or nothing."""
    address: str
    edition: str
    """`reader` where every edition holds it, `full` where only the full one does."""


def inside(shop: Shop) -> Iterator[tuple[str, str, str]]:
    """Address, kind and title of every step, set-up and term."""
    for job in shop.jobs.values():
        for number, step in enumerate(job.steps, 1):
            title = f"{job.id.upper()} step {number}: {step.title}"
            yield address("jobs", job.id, step.id), "step", title
        for set_up in job.set_ups:
            title = f"{job.id.upper()} set-up: {set_up.title}"
            yield address("jobs", job.id, set_up.id), "set-up", title
    for term in shop.terms.values():
        yield address("terms", term.id), "term", name_of(term)


def kind_of(page: str) -> str:
    """What a page is about, from its address.

    >>> kind_of("jobs/tr-0140.html"), kind_of("jobs/index.html")
    ('job', 'page')
    """
    folder, _, name = page.rpartition("/")
    return _FOLDERS.get(folder, "page") if name != "index.html" else "page"


def listed(shop: Shop, pages: Mapping[str, str], addresses: Sequence[str]) -> Iterator[Listed]:
    """Every address with what a checklist wants to know; `pages` are titles by address."""
    places = {one: (kind, title) for one, kind, title in inside(shop)}
    for one in addresses:
        page = one.partition("#")[0]
        kind, title = places.get(one) or (kind_of(page), pages.get(one, one))
        edition = "full" if is_full_only(one) else "reader"
        yield Listed(kind, title, _revision(shop, page), one, edition)


def _revision(shop: Shop, page: str) -> str:
    folder, _, name = page.removesuffix(".html").rpartition("/")
    if folder == "trainer":
        name = next((name.removesuffix(f"-{one}") for one in SHEETS if name.endswith(one)), "")
    job: Job | None = shop.jobs.get(name) if folder in ("jobs", "trainer") else None
    record = job or (shop.onboarding.get(name) if folder == "onboarding" else None)
    is_draft = job is not None and job.id in shop.drafts
    return "draft" if is_draft else record.revision if record else ""


def printed(rows: Sequence[Listed], form: str, base: str = "") -> str:
    """The list in one of the forms; `base` stands before each address, such as a server's name."""
    whole = [Listed(**{**asdict(row), "address": base + row.address}) for row in rows]
    return _FORMS[form](whole)


def _csv(rows: Sequence[Listed]) -> str:
    written = io.StringIO()
    writer = csv.writer(written, lineterminator="\n")
    writer.writerow(Listed.__dataclass_fields__)
    writer.writerows(asdict(row).values() for row in rows)
    return written.getvalue().rstrip("\n")


def _json(rows: Sequence[Listed]) -> str:
    return json.dumps([asdict(row) for row in rows], indent=2, ensure_ascii=False)


def _markdown(rows: Sequence[Listed]) -> str:
    return "\n".join(
        f"- [ ] [{_no_brackets(row.title)}](<{row.address}>){_after(row)}" for row in rows
    )


def _no_brackets(title: str) -> str:
    return title.replace("[", "\\[").replace("]", "\\]")


def _html(rows: Sequence[Listed]) -> str:
    lines = (
        f'<li><a href="{html.escape(row.address)}">{html.escape(row.title)}</a>'
        f"{html.escape(_after(row))}</li>"
        for row in rows
    )
    return "\n".join(("<ul>", *lines, "</ul>"))


def _after(row: Listed) -> str:
    words = row.revision if row.revision == "draft" else f"revision {row.revision}"
    return f", {words}" if row.revision else ""


_FORMS: Mapping[str, Callable[[Sequence[Listed]], str]] = {
    "csv": _csv,
    "json": _json,
    "markdown": _markdown,
    "html": _html,
}
FORMS = tuple(_FORMS)

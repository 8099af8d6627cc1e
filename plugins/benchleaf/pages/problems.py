"""Pages for a preview whose content has errors: what is wrong, at the place where it is."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from benchleaf.diagnose import CODES, Finding
from benchleaf.html.values import Ends, PlannedPage, Rendered
from benchleaf.html.writer import Writer
from benchleaf.link import HOME_PAGE


def problem_pages(
    findings: Sequence[Finding], former: Sequence[PlannedPage], content_name: str
) -> tuple[PlannedPage, ...]:
    """The pages of the last good preview, with the findings in place of those they are about.

    The home page shows them all; a page that a file with errors makes shows its own.
    """
    writer = Writer(None)
    by_file: dict[str, list[Finding]] = {}
    for finding in findings:
        by_file.setdefault(finding.place.file, []).append(finding)
    pages = {page.address: page for page in former}
    for file, found in by_file.items():
        address = _address(file, content_name)
        if address is not None:
            pages[address] = _page(writer, address, file, found)
    for page in former:
        if page.source_file in by_file:
            pages[page.address] = _page(
                writer, page.address, page.source_file, by_file[page.source_file]
            )
    pages[HOME_PAGE] = _page(writer, HOME_PAGE, f"{content_name}/manual.yml", findings)
    return tuple(pages.values())


def _address(file: str, content_name: str) -> str | None:
    """The page that a record's file makes, also where the record was never built."""
    below = file.removeprefix(f"{content_name}/")
    kind, slash, name = below.partition("/")
    is_record = slash and name.endswith(".yml") and kind not in ("pages", "pictures", "sheets")
    return f"{kind}/{name.removesuffix('.yml').lower()}.html" if is_record else None


def _page(writer: Writer, here: str, file: str, findings: Sequence[Finding]) -> PlannedPage:
    make = partial(_make, writer, here, file, tuple(findings))
    return PlannedPage(here, "There are problems", file, make)


def _make(
    writer: Writer, here: str, file: str, findings: tuple[Finding, ...], ends: Ends
) -> Rendered:
    html = writer.write(
        "problems.html.jinja", here, ends, findings=findings, codes=CODES, file=file
    )
    return Rendered(html, ())

"""V415: the place that search puts before all results, where somebody asks for help, is there."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity, suggestion
from benchleaf.model import Shop

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "V415",
    "The place where first help stands is missing",
    why="Who types *blood* or *it does not stop* is led there before anything else.",
    instead="Name a page of content/pages/, and the heading on it in small letters with hyphens.",
    bad=(
        Sample(
            """
            # No such page, then no such heading.
            - file: manual.yml
              find: "preface: safety.md"
              put: |-
                preface: safety.md
                first_help:
                  page: first-aid.md
            """,
            """
            content/manual.yml:11:9: error V415 there is no page 'first-aid.md' in
                    content/pages/
                pages: safety.md
            """,
        ),
        Sample(
            """
            # A heading that the page does not have.
            - file: manual.yml
              find: "preface: safety.md"
              put: |-
                preface: safety.md
                first_help:
                  page: safety.md#first-aid
            """,
            """
            content/manual.yml:11:9: error V415 the page 'safety.md' has no heading
                    'first-aid'
                headings: before-you-start
            """,
        ),
    ),
    good="""
        # The page as a whole.
        - file: manual.yml
          find: "preface: safety.md"
          put: |-
            preface: safety.md
            first_help:
              page: safety.md
              hurt:
                - plaster
    """,
)
_HEADING = re.compile(r"^#{1,6}\s+(.+?)\s*#*\s*$", re.MULTILINE)
_OWN_ID = re.compile(r"\{[^}]*#([\w-]+)[^}]*\}")


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding where page or heading is not there."""
    written = shop.manual.first_help.page
    if not written:
        return
    page, _, anchor = written.partition("#")
    known: tuple[str, ...] = shop.pages
    what, text = "pages", f"there is no page '{page}' in content/pages/"
    if page in shop.pages:
        if not anchor or page not in shop.page_texts:
            return
        known = tuple(_anchors(shop.page_texts[page]))
        what, text = "headings", f"the page '{page}' has no heading '{anchor}'"
    if (anchor if what == "headings" else page) not in known:
        yield Finding(
            CODE.id,
            Severity.ERROR,
            places.of("manual", "manual", ("first_help", "page")),
            text,
            suggestion(anchor if what == "headings" else page, known, what=what),
        )


def _anchors(markdown: str) -> Iterator[str]:
    """The anchors of headings, as the site engine makes them."""
    for heading in _HEADING.findall(markdown):
        own = _OWN_ID.search(heading)
        plain = re.sub(r"[^\w\s-]", "", heading).strip().lower()
        yield own[1] if own else re.sub(r"[\s-]+", "-", plain)


RULE = ShopRule(check, (CODE,))

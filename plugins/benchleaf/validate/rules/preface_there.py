"""V404: the safety preface that the manual names is a page."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity, suggestion
from benchleaf.model import Shop

from ..places import Places
from ..rule import ShopRule

CODE = Code(
    "V404",
    "The safety preface is missing",
    why="Every job page sends the learner to it first.",
    instead="Name a page of content/pages/ as `preface`, or write it.",
    bad=(
        Sample(
            """
            # A preface whose name is mistyped.
            - file: manual.yml
              find: "preface: safety.md"
              put: "preface: safty.md"
            """,
            """
            content/manual.yml:9:10: error V404 there is no page 'safty.md' in content/pages/
                did you mean 'safety.md'?
                pages: safety.md
            """,
        ),
    ),
    good="""
        # A preface that is there.
        - file: manual.yml
          find: |
            preface: safety.md
          put: |
            preface: safety.md # read it first
    """,
)


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """A finding where the page is not there."""
    preface = shop.manual.preface
    if preface and preface not in shop.pages:
        yield Finding(
            CODE.id,
            Severity.ERROR,
            places.of("manual", "manual", ("preface",)),
            f"there is no page '{preface}' in content/pages/",
            suggestion(preface, shop.pages, what="pages"),
        )


RULE = ShopRule(check, (CODE,))

"""Pages that need no Markdown: a virtual file, and a page that renders itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from mkdocs.structure.files import File, InclusionLevel
from mkdocs.structure.pages import Page

from benchleaf.html.values import PlannedPage, SearchEntry

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import Files

OURS = {"benchleaf": True, "search": {"exclude": True}}
"""A page of the manual: its own policy, and no second parsing for a search."""


class ManualPage(Page):
    """A page of the manual. Its HTML is made when the engine asks for it, and never parsed."""

    def __init__(self, planned: PlannedPage, file: File, config: MkDocsConfig) -> None:
        self.planned = planned
        self.entries: tuple[SearchEntry, ...] = ()
        super().__init__(planned.title, file, config)

    def read_source(self, config: MkDocsConfig) -> None:
        """There is no Markdown to read."""
        self.markdown = ""
        own = {"styles": self.planned.styles, "scripts": self.planned.scripts}
        draft = {"draft": self.planned.is_draft, "foot": self.planned.foot}
        self.meta = {**OURS, **own, **draft}

    def render(self, config: MkDocsConfig, files: Files) -> None:
        """The article, straight from the template."""
        rendered = self.planned.render()
        self.content = rendered.html
        self.entries = rendered.entries

    def validate_anchor_links(self, *, files: Files, log_level: int) -> None:
        """Left to the crawl of the built site, which reads every link."""


def add_page(planned: PlannedPage, files: Files, config: MkDocsConfig) -> None:
    """Add a planned page as a virtual file, out of the navigation: it is found by links."""
    name = planned.address.removesuffix(".html") + ".md"
    file = File.generated(config, name, content="", inclusion=InclusionLevel.NOT_IN_NAV)
    file.edit_uri = planned.source_file
    files.append(file)
    ManualPage(planned, file, config)

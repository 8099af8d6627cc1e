"""The MkDocs plugin: hooks only. Each says why it must run at that moment."""

from __future__ import annotations

import os
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File

from benchleaf import pipeline, publish
from benchleaf.diagnose import Finding
from benchleaf.html import ASSETS, THEME
from benchleaf.html.free import with_links
from benchleaf.html.lean import lean
from benchleaf.html.site_facts import ASSETS_ADDRESS, STYLES, SiteFacts
from benchleaf.html.values import SearchEntry
from benchleaf.people import crews
from benchleaf.search import free_entries

from .config import BenchleafConfig
from .edit import edit_base
from .pages import ManualPage, add_page
from .settings import better_told, dead_settings, put_right, wrong_machine, wrong_settings
from .telling import is_about_to_abort, tell, tell_limits, tell_number, tell_system
from .theme import THEME_SHEET, free_sheets, leave_out_theme, theme_sheet
from .writing import Writing

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import Files
    from mkdocs.structure.pages import Page


class BenchleafPlugin(BasePlugin[BenchleafConfig]):  # type: ignore[no-untyped-call]
    """Turns a content folder into pages of the site."""

    plan: pipeline.SitePlan | None = None
    """The last plan without errors; a preview falls back on it."""
    shown: pipeline.SitePlan
    site: Path
    entries: list[SearchEntry]
    """What search will find, gathered page by page in each build."""
    is_serving = False

    def __init__(self) -> None:
        super().__init__()
        self.writing = Writing()

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Tells a build from a preview; a plugin with this hook also lives across rebuilds."""
        self.is_serving = command == "serve"

    def load_config(
        self, options: dict[str, Any], config_file_path: str | None = None
    ) -> tuple[list[Any], list[Any]]:
        """Before any hook: what is wrong with the settings, each with the line to write."""
        errors, _ = super().load_config(options, config_file_path)
        known = [key for key, _ in self.config_scheme]
        return list(better_told(errors, options, known)), []

    @event_priority(100)
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """First of all plugins: content with errors ends here, before the output is emptied."""
        self.site = _site_folder(Path(config.site_dir), self.config.edition).resolve()
        content = Path(self.config.content)
        replaced = None if self.is_serving else self.site
        tell((*wrong_settings(config, content, replaced), *dead_settings(config)))
        if not self.is_serving:
            self.writing.take(self.site)
        loaded = pipeline.load(content, preview=self.is_serving)
        tell(loaded.findings, go_on=self.is_serving)
        tell(tuple(wrong_machine(self.config.machine.lower(), loaded.shop.machines)))
        if not self._shows_drafts():
            tell(pipeline.not_released(loaded))
        overrides = (Path(self.config.overrides),) if self.config.overrides else ()
        if loaded.may_publish:
            crew = crews.crew_for(self._crew_folder(config), loaded.shop, loaded.content)
            tell(crew.findings, go_on=self.is_serving)
            people = crews.plan_people(crew.crew, loaded)
            edition = self.config.edition
            base = edit_base(config) if edition == "full" else ""
            self.plan = self.shown = pipeline.plan_site(
                loaded, overrides, edition=edition, edit_base=base, people=people,
                machine=self.config.machine.lower(),
            )  # fmt: skip
            config.watch += [str(crew.folder)] if crew.crew else []
        else:  # only a preview comes here: the last good pages, and the problems in their place
            self.shown = pipeline.plan_problems(loaded, self.plan)
        put_right(config, content)
        _prepare(config, pipeline.site_facts(loaded, edition=self.config.edition))
        config.watch += [str(loaded.content), *(str(one) for one in overrides)]
        if not self.is_serving:
            config.site_dir = str(publish.staging_folder(self.site))
        return config

    def _shows_drafts(self) -> bool:
        """A preview always does; a build where the option or the environment asks for it."""
        asked = os.environ.get("BENCHLEAF_DRAFTS", "").lower() in ("1", "true", "yes")
        return self.is_serving or (asked if self.config.drafts is None else self.config.drafts)

    def _crew_folder(self, config: MkDocsConfig) -> Path | None:
        """Where people's data lies; never for the kiosk's edition, which must not open it."""
        if self.config.edition == "kiosk" or not self.config.crew_dir:
            return None
        return Path(config.config_file_path or ".").parent / self.config.crew_dir

    @event_priority(-50)
    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Late, so that a page of ours is not taken for another plugin's."""
        self.entries = []
        leave_out_theme(files, config)
        for planned in self.shown.pages:
            if files.get_file_from_path(planned.address.removesuffix(".html") + ".md"):
                raise PluginError(f"A free page takes the address {planned.address} of the manual.")
            add_page(planned, files, config)
        for address, path in self.shown.files:
            files.append(File.generated(config, address, abs_src_path=str(path)))
        for path in sorted(ASSETS.iterdir()):
            address = f"{ASSETS_ADDRESS}/{path.name}"
            given: Any = {"abs_src_path": str(path)}
            if path.suffix in (".css", ".js"):
                given = {"content": lean(path.read_text(encoding="utf-8"), path.suffix)}
            files.append(File.generated(config, address, **given))
        unreadable: list[Finding] = []
        for made in pipeline.photograph_copies(self.shown):
            if isinstance(made, Finding):
                unreadable.append(made)
            else:
                files.append(File.generated(config, made[0], content=made[1]))
        tell(unreadable, go_on=self.is_serving)
        if sheet := theme_sheet(config):
            files.append(File.generated(config, THEME_SHEET, content=sheet))
        for address, text in self.shown.texts:
            files.append(File.generated(config, address, content=text))
        return files

    def on_page_markdown(
        self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files
    ) -> str:
        """Before the converter: links by id on free pages become ordinary links."""
        if isinstance(page, ManualPage):
            return markdown
        return with_links(markdown, page.file.dest_uri, self._source_of)

    def _source_of(self, inside: str) -> tuple[str, str]:
        """The engine checks and rewrites links between source files, so it is given those."""
        address, words = self.shown.inline.target(inside)
        return address.replace(".html", ".md", 1), words

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """After the converter: a free page ends with its address, as every other page does.

        Also the first hook at which a page's words are known.
        """
        if isinstance(page, ManualPage):
            self.entries += page.entries
            return html
        title = str(page.title or "")
        self.entries += free_entries(html, page.file.dest_uri, title)
        return html + self.shown.foot(page.file.dest_uri)

    @event_priority(-200)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Last: other plugins have written; the new site is checked, then swapped in."""
        promised = () if self.is_serving else self.shown.promised
        findings = pipeline.finish_site(
            Path(config.site_dir), self.entries, promised, self.shown.outward, self.shown.help_first
        )
        tell(findings, go_on=self.is_serving)
        if self.is_serving:
            return
        if is_about_to_abort(bool(config.strict)):
            self.writing.give_up()
            return
        tell_number(self.writing.publish())
        tell_limits(self.config.edition)

    def on_build_error(self, *, error: Exception) -> None:
        """A failed build leaves the former site whole."""
        self.writing.give_up()
        if not self.is_serving:
            tell_system(error)

    def on_shutdown(self) -> None:
        """However a build ended, the next one may begin."""
        self.writing.give_up()


def _site_folder(site: Path, edition: str) -> Path:
    """The full edition never lands where the kiosk reads."""
    return site if edition == "kiosk" else site.with_name(f"{site.name}-full")


def _prepare(config: MkDocsConfig, facts: SiteFacts) -> None:
    """Our document around every page, with our own style sheets before a shop's."""
    config.site_name = facts.title
    config.theme.dirs.insert(0, str(THEME))
    sheets = [f"{ASSETS_ADDRESS}/{name}" for name in (*STYLES, f"paper-{facts.paper}.css")]
    extra: Any = config.extra
    extra["benchleaf"] = {**asdict(facts), "sheets": sheets, "free_sheets": free_sheets(config)}

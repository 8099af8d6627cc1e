"""Settings of mkdocs.yml: put right where there is one right value, else refused with the cure.

Our pages load none of the theme's scripts, so what needs them is dead: said once, with the cure,
rather than left to be missed on the shop floor. Remote addresses are found by the crawl (P703).
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from benchleaf.diagnose import Finding, Place, Severity, suggestion

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig

_OUTWARD = ("http://", "https://", "//")
FREE_PAGES = "pages"
"""The folder of free pages, below the content folder."""


def put_right(config: MkDocsConfig, content: Path) -> None:
    """Set what has one right value, whatever is written."""
    config.use_directory_urls = False  # a page opened from disk has no server to add index.html
    config.docs_dir = str(content.resolve() / FREE_PAGES)


def wrong_settings(config: MkDocsConfig, content: Path) -> Iterator[Finding]:
    """Settings that contradict where the content lies."""
    if not content.is_dir():  # R101 says so
        return
    pages = content.resolve() / FREE_PAGES
    here = f"{content.name}/{FREE_PAGES}"
    if not pages.is_dir():
        yield _wrong(
            f"there is no folder {here}/ for the safety preface and other free pages", "make it"
        )
    docs = Path(config.docs_dir).resolve()
    if docs != pages and any(docs.rglob("*.md")):
        move = "" if pages.is_relative_to(docs) else f"move its pages to {here}/, and "
        yield _wrong(
            f"docs_dir names {docs.name}/, and free pages are read from {here}/ alone",
            f"{move}write the line: docs_dir: {here}",
        )
    site = Path(config.site_dir).resolve()
    if site.is_relative_to(content.resolve()) or content.resolve().is_relative_to(site):
        yield _wrong(
            f"site_dir names {site.name}/, and a build would write over the content",
            "write the line: site_dir: site",
        )


def wrong_machine(machine_id: str, known: Collection[str]) -> Iterator[Finding]:
    """A kiosk that stands at a machine which there is not."""
    if machine_id and known and machine_id not in known:
        near = " ".join(suggestion(machine_id, tuple(known), what="machines"))
        yield _wrong(f"machine names '{machine_id}', and there is no such machine", near)


def better_told(
    told: Sequence[tuple[str, Any]], options: Mapping[str, Any], known: Sequence[str]
) -> Iterator[tuple[str, str]]:
    """What is wrong with the plugin's own options, each in one sentence with the line to write."""
    for key in options:
        if key not in known:
            near = " ".join(suggestion(key, known, what="options"))
            yield key, f"there is no such option under 'benchleaf:' in mkdocs.yml; {near}"
    for key, problem in told:
        yield key, f"{str(problem).rstrip('.')}; {_LINES.get(key, _LINES['content'])}"


_LINES = {
    "content": "write the line: content: content",
    "edition": "write the line: edition: kiosk (or: edition: full)",
    "machine": "write the line: machine: ID, or take it out",
    "crew_dir": "write the line: crew_dir: FOLDER, or take it out",
    "overrides": "make that folder, or take the line out",
}
"""What to write under `benchleaf:`, by option."""


def dead_settings(config: MkDocsConfig) -> Iterator[Finding]:
    """One finding for each setting that cannot work."""
    features: Any = config.theme.get("features") or ()
    for feature in features:
        yield _dead(
            f"theme feature '{feature}' needs the theme's scripts, which no page loads",
            "take it out of theme: features:",
        )
    for fence in _fences(config):
        if str(fence.get("name")) == "mermaid":
            yield _dead(
                "Mermaid drawings ask a public host for their script",
                "take the fence out, and show the drawing as an SVG file by `picture:`",
            )
    for name in ("extra_css", "extra_javascript"):
        for address in config[name]:
            if str(address).startswith(_OUTWARD):
                yield _dead(f"'{address}' in {name} leads outside the disk", "ship the file")


def _fences(config: MkDocsConfig) -> Iterator[dict[str, Any]]:
    """Custom fences, under either name of the extension."""
    for name in ("pymdownx.superfences", "pymdownx.extra"):
        settings: Any = config.mdx_configs.get(name) or {}
        nested = settings.get("pymdownx.superfences") or settings
        yield from nested.get("custom_fences") or ()


def _dead(text: str, cure: str) -> Finding:
    return Finding("P706", Severity.ERROR, Place("mkdocs.yml"), text, (cure,))


def _wrong(text: str, cure: str) -> Finding:
    return Finding("P707", Severity.ERROR, Place("mkdocs.yml"), text, (cure,))

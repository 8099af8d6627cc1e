"""Settings of mkdocs.yml that do nothing, or break pages, in a manual opened from disk.

Our pages load none of the theme's scripts, so what needs them is dead: said once, with the cure,
rather than left to be missed on the shop floor. Remote addresses are found by the crawl (P703).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from benchleaf.diagnose import Finding, Place, Severity

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig

_OUTWARD = ("http://", "https://", "//")


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

"""What is taken of the theme that mkdocs.yml names: style sheets, for free pages only.

Record pages have none of it, so they are the same bytes whatever theme is named. Free pages may use
anything that Markdown extensions make; where the theme has style for it, they get it in a layer
below our parts.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from benchleaf.html import THEME
from benchleaf.html.site_facts import ASSETS_ADDRESS

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import Files

THEME_STYLES = ("main.*.min.css", "palette.*.min.css")
"""Of the theme we take these; their names hold a hash."""
THEME_SHEET = f"{ASSETS_ADDRESS}/theme.css"
"""Brings the theme's style sheets into their layer: only an import can, a link cannot."""
FREE_SHEET = f"{ASSETS_ADDRESS}/free.css"


def theme_styles(config: MkDocsConfig) -> tuple[str, ...]:
    """The addresses of the style sheets that we take from the theme; a theme may have none."""
    return tuple(
        f"assets/stylesheets/{path.name}"
        for name in THEME_STYLES
        for folder in config.theme.dirs
        for path in sorted(Path(folder, "assets", "stylesheets").glob(name))
    )


def free_sheets(config: MkDocsConfig) -> tuple[str, ...]:
    """What free pages load besides our own sheets."""
    return (THEME_SHEET, FREE_SHEET) if theme_styles(config) else ()


def theme_sheet(config: MkDocsConfig) -> str:
    """The text of the sheet that brings in the theme's."""
    return "".join(f'@import url("../../{one}") layer(theme);\n' for one in theme_styles(config))


def leave_out_theme(files: Files, config: MkDocsConfig) -> None:
    """Take out what else the theme would copy: scripts, fonts and pictures that no page loads."""
    kept = {str(THEME), config.theme.custom_dir}
    dirs = {folder for folder in config.theme.dirs if folder not in kept}
    taken = theme_styles(config)
    for file in list(files):
        if file.src_dir in dirs and file.src_uri not in taken:
            files.remove(file)

"""Templates, style sheets and scripts; running text to HTML; what pages are made of."""

from pathlib import Path

ASSETS = Path(__file__).parent / "assets"
"""Style sheets and scripts that every site carries."""
THEME = Path(__file__).parent / "templates" / "theme"
"""Templates that stand in place of those of the site engine's theme."""

__all__ = ["ASSETS", "THEME"]

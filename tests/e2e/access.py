"""Looking at a page as one who sees little, or touches with a glove: axe-core and measurements."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from importlib import resources
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page

AXE = resources.files("axe_playwright_python") / "axe.min.js"
MEASURE = Path(__file__).with_name("measure.js")
TAGS = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
SIZES = {
    "portrait": (1080, 1920),
    "landscape": (1920, 1080),
    "tablet": (1280, 800),
    "phone": (390, 844),
}
KIOSKS = ("portrait", "landscape", "tablet")
LIGHTS = ("default", "slate")

_RUN = """async tags => { const found = await axe.run(document,
  {runOnly: {type: 'tag', values: tags}, resultTypes: ['violations', 'incomplete']});
  const short = one => one.nodes.map(node => one.id + ': ' + node.target.join(' ') + ' '
    + (node.any.concat(node.all, node.none)[0] || {message: ''}).message);
  return {violations: found.violations.flatMap(short),
    undecided: found.incomplete.filter(one => one.id !== 'color-contrast').flatMap(short),
    contrast: found.incomplete.filter(one => one.id === 'color-contrast')
      .reduce((sum, one) => sum + one.nodes.length, 0)} }"""


@dataclass
class Look:
    """What was found on one page in one state."""

    name: str
    faults: list[str] = field(default_factory=list)
    undecided: list[str] = field(default_factory=list)
    """What axe could not judge, contrast apart, which is measured here."""
    contrast_left: int = 0
    """Nodes whose contrast axe left undecided."""
    least: dict[str, tuple[float, str]] = field(default_factory=dict)
    """The least of each measure, and where."""

    def least_of(self, measure: str, value: float, where: str) -> None:
        """Keep the least."""
        if measure not in self.least or value < self.least[measure][0]:
            self.least[measure] = (value, where)


def open_at(browser: Browser, size: tuple[int, int], light: str, text: int = 1) -> Page:
    """A fresh reader's page at a screen of that size and light, with that size of text."""
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]}, has_touch=True, offline=True
    )
    context.add_init_script(
        f"localStorage.setItem('benchleaf.light', '{light}');"
        f"localStorage.setItem('benchleaf.text', '{text}');"
    )
    return context.new_page()


def ready(page: Page, script: Path | Any = MEASURE) -> None:
    """Put a script into the page; the page's own policy does not hold the debugger back."""
    page.evaluate(script.read_text(encoding="utf-8") + "; 0")


def run_axe(page: Page, look: Look) -> None:
    """axe-core's rules of WCAG 2.2 A and AA and best practice."""
    ready(page, AXE)
    found = page.evaluate(_RUN, list(TAGS))
    look.faults += found["violations"]
    look.undecided += found["undecided"]
    look.contrast_left += found["contrast"]

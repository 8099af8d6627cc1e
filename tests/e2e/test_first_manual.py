"""The wheel alone, in an environment of its own, begins a manual and builds its first pages."""

from __future__ import annotations

import importlib
import os
import re
import site
import subprocess
import sys
import sysconfig
from collections.abc import Callable
from pathlib import Path

import pytest

from build_demo import KIOSK, PHONE, ROOT
from running import once, sample
from visitor import Visitor

SCRIPTS = "Scripts" if os.name == "nt" else "bin"


def _environment(folder: Path) -> Path:
    """An environment that holds the wheel; of all others it sees what the tool depends on.

    A folder that is added by a file of paths has its own such files left alone, and so the
    editable copy under test does not come in with it.
    """
    builders = importlib.import_module("hatchling.builders.wheel")
    (wheel,) = builders.WheelBuilder(str(ROOT)).build(
        directory=str(folder / "wheel"), versions=["standard"]
    )
    made = folder / "env"
    subprocess.run((sys.executable, "-m", "venv", "--without-pip", str(made)), check=True)
    python = made / SCRIPTS / "python"
    install = ("install", "--quiet", "--no-deps", "--no-index", str(wheel))
    subprocess.run((sys.executable, "-m", "pip", "--python", str(python), *install), check=True)
    own = Path(sysconfig.get_path("purelib", vars={"base": str(made)}))
    others = {*site.getsitepackages(), sysconfig.get_path("purelib")}
    (own / "others.pth").write_text("\n".join(sorted(others)), encoding="utf-8")
    return made


@pytest.fixture(scope="session")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A new manual with its first site, made by the wheel."""

    def make(folder: Path) -> None:
        scripts = _environment(folder) / SCRIPTS
        where = subprocess.run(
            (str(scripts / "python"), "-c", "import benchleaf; print(benchleaf)"),
            capture_output=True, text=True, check=True,
        )  # fmt: skip
        assert str(folder) in where.stdout
        (folder / "shop").mkdir()
        done = subprocess.run(
            (str(scripts / "benchleaf"), "init", "--yes", "--title", "Drill the pivot hole"),
            cwd=folder / "shop", capture_output=True, text=True, timeout=300, check=False,
        )  # fmt: skip
        assert done.returncode == 0, done.stdout + done.stderr
        assert "open site/index.html" in done.stdout

    return once(tmp_path_factory, "begun", make) / "shop"


BANNER = re.compile(r'<p class="bl-draft"[^>]*><strong>Draft: teach nobody\.</strong>')


def test_every_page_of_the_first_site_says_that_it_is_a_draft(begun: Path) -> None:
    texts = {path: path.read_text(encoding="utf-8") for path in (begun / "site").rglob("*.html")}
    assert len(texts) > 20
    assert [path.name for path, text in texts.items() if not BANNER.search(text)] == []
    assert [path.name for path, text in texts.items() if 'data-foot="DRAFT' not in text] == []


@pytest.mark.parametrize("size", sample([KIOSK, PHONE], 1, seed=2))
def test_every_screen_of_the_step_view_says_so(
    begun: Path, visit: Callable[..., Visitor], size: tuple[int, int]
) -> None:
    page = visit(size).open(begun / "site", "jobs/j-0010.html")
    page.locator(".bl-learn__start").tap()
    page.locator(".bl-bottom").wait_for()
    page.evaluate("window.benchleafFollow.again = 0")  # a test touches faster than a finger
    seen: set[str] = set()
    for _ in range(12):
        banner = page.locator(".bl-draft").bounding_box()
        top = page.locator(".bl-top").bounding_box()
        assert banner is not None
        assert top is not None
        assert banner["y"] >= 0
        assert 30 < banner["height"] <= top["y"] - banner["y"] + 1
        seen.add(page.locator(".bl-now").first.inner_text())
        ahead = page.locator("[data-do='next']")
        if not ahead.is_visible():
            break
        ahead.tap()
    assert len(seen) > 3
